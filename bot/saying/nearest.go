package saying

import (
	"cmp"
	"slices"
	"strings"

	"tureen/planner/words"
)

// How telling the words must be that a sentence shares with a meaning: for it to be offered, and to be taken for what
// is meant where it accounts for every word; and by how much it must be more telling than the next. Ours.
const (
	least  = 2.0
	clear  = 2.5
	margin = 1.15
	wide   = 1.5 // where it leaves words over, which only a question may

	mostLeft = 2
)

// nearest are the two meanings that share the most telling words with a sentence, and whose slots it can fill. one is
// the first of them, where it accounts for all that was said.
func (r *reader) nearest(s *sentence) (one *Meant, near []Meant) {
	said := map[string]bool{}
	var b binding
	for _, c := range s.clauses {
		for at := range c {
			if !c[at].fill {
				said[c[at].word] = true
			}
			r.anyFigure(&c[at], &b)
			if b.item == "" && !c[at].fill {
				b.item = r.itemIn(c[at:at+1], false)
			}
		}
	}
	b.thing = r.named
	all := r.scores(s, said, b)
	second := 0.0
	for _, a := range all {
		if len(near) < 2 && !slices.ContainsFunc(near, func(o Meant) bool { return o.Do == a.Do }) {
			near, second = append(near, a.Meant), a.score
		}
	}
	if len(near) > 0 && all[0].sure && (all[0].left == 0 && all[0].score > margin*second ||
		all[0].score > wide*second && all[0].left <= mostLeft && all[0].Act >= Ask) {
		return &near[0], near
	}
	return nil, near
}

// scored is a meaning with how telling the words are that a sentence shares with it.
type scored struct {
	Meant
	score float64
	left  int // words that it does not account for
	sure  bool
}

// scores are the meanings that a sentence may have by its words, the likeliest first.
func (r *reader) scores(s *sentence, said map[string]bool, b binding) (all []scored) {
	for _, id := range lex().order {
		score := 0.0
		for w, weight := range lex().weight[id] {
			if said[w] {
				score += weight
			}
		}
		if score < least || slices.ContainsFunc(lex().must[id], func(w string) bool { return !said[w] }) {
			continue
		}
		a, ok := r.meant(id, b)
		if !ok || a.Do == "" || a.Act == Lose { // what destroys is never guessed at
			continue
		}
		if (said["not"] || said["no"]) && (a.Act == Tick || a.Act == Ask) && lex().weight[id]["not"] == 0 {
			continue
		}
		left, doubt := r.leftOver(s, id, a.Do)
		if (said["not"] || said["no"]) && !lex().denies[id] {
			doubt = true
		}
		all = append(all, scored{a.Meant, score, left, score >= clear && !doubt})
	}
	slices.SortStableFunc(all, func(a, b scored) int { return cmp.Compare(b.score, a.score) })
	return all
}

// anyFigure notes a number, a length, a time or a name, wherever it stands.
func (r *reader) anyFigure(t *token, b *binding) {
	switch {
	case t.word == "#n" && !b.hasN:
		b.n, b.hasN = t.n, true
	case t.word == "#len" && !b.hasLen && t.n <= 12*60:
		b.length, b.hasLen = t.n, true
	case t.word == "#time" && !b.hasTime:
		b.time, b.hasTime, b.half = t.n, true, t.half
	}
	for _, g := range r.v.Guests {
		if b.guest == "" && r.inName(t, "guest/"+g.Name) {
			b.guest, b.gone = g.Name, "guest"
		}
	}
	for _, p := range r.v.People {
		if b.person == "" && p != r.v.Me && r.inName(t, "person/"+p) {
			b.person = p
		}
	}
}

// leftOver is how many words of a sentence a meaning does not account for; doubt is true where one of them may turn it
// into something else.
func (r *reader) leftOver(s *sentence, id, do string) (n int, doubt bool) {
	low := words.Fold(do)
	for _, c := range s.clauses {
		for at := range c {
			t := &c[at]
			is := func(f string) bool { return r.names[f] }
			switch {
			case t.fill, idle[t.word] && !doubtful[t.word], lex().weight[id][t.word] > 0, t.word == "i", t.word == "we":
			case doubtful[t.word]:
				doubt = true
			case !strings.Contains(do, ":"):
				n++
			case strings.HasPrefix(t.word, "#"):
			case t.name && !strings.Contains(low, t.raw) && !slices.ContainsFunc(forms(t), func(f string) bool {
				return strings.Contains(low, f)
			}):
				n++
			case !is(t.raw) && !slices.ContainsFunc(forms(t), is):
				n++
			}
		}
	}
	return n, doubt || slices.Contains(s.joins, "if")
}
