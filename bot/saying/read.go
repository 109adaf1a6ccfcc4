package saying

import (
	"slices"
	"strings"
	"unicode"

	"tureen/planner/words"
)

// Read says what a sentence means at a party. It never says that more than one thing is to be done.
func Read(text string, v *View) Answer {
	if len(text) > mostText {
		return Answer{}
	}
	r := newReader(v)
	s := r.read(text)
	if len(s.joined()) == 0 { // somebody is called, and nothing is said
		a, _ := r.meant("hello", binding{})
		return a
	}
	if s.quoted {
		return Answer{} // who repeats another's words says nothing
	}
	r.nameAll(&s)
	for _, t := range s.joined() {
		r.except = r.except || t.word == "except"
		r.lessThanAll = r.lessThanAll || lacking[t.word]
	}
	for _, c := range [][][]token{{s.joined()}, s.atStops(), s.clauses} {
		if a, ok := r.ofClauses(&s, c); ok {
			return a
		}
	}
	if near := r.whichOfMine(&s); len(near) > 0 {
		return Answer{Near: near}
	}
	if r.foreign(text) {
		return Answer{Foreign: true}
	}
	one, near := r.nearest(&s)
	if one == nil && len(near) == 0 && r.except {
		for _, id := range []string{"buy", "mine"} { // what is left is seen there
			a, _ := r.meant(id, binding{})
			near = append(near, a.Meant)
		}
	}
	if one == nil {
		return Answer{Near: near}
	}
	if one.Act == Tick { // by its words alone, in no order that a pattern has: it asks
		one.Act = Ask
	}
	return Answer{Meant: *one}
}

// lacking are words beside which "everything" may not be all.
var lacking = words.Set("but without only missing no not forgot forgotten")

// whichOfMine is what a sentence that names nothing, such as "done", may mean: one of the two of the speaker's tasks
// that are going on, or should be.
func (r *reader) whichOfMine(s *sentence) (near []Meant) {
	if r.v.Last.Kind != Nothing {
		return nil
	}
	v := *r.v
	for _, state := range []State{Started, Waiting} {
		for i := range v.Tasks {
			t := &v.Tasks[i]
			if t.Who != v.Me || t.State != state || t.At.After(v.Now) || t.At.IsZero() || len(near) == 2 {
				continue
			}
			v.Last = Last{Kind: About, Task: t.Key}
			one := &reader{v: &v, names: r.names, words: r.words}
			if a, ok := one.ofClauses(s, [][]token{s.joined()}); ok && a.Act == Tick {
				near = append(near, a.Meant)
			}
		}
	}
	return near
}

// foreign reports whether most words of a text are none that the tables or the party have.
func (r *reader) foreign(text string) bool {
	raw, _, _ := scan(text)
	all, known := 0, 0
	for _, w := range raw {
		if w == "," || !unicode.IsLetter([]rune(w)[0]) {
			continue
		}
		all++
		fold := words.Fold(w)
		if unicode.Is(unicode.Latin, []rune(w)[0]) && (strings.Contains(w, "'") || slices.ContainsFunc(
			forms(&token{raw: fold, word: fold}), func(f string) bool { return lex().known[f] || r.names[f] })) {
			known++
		}
	}
	return all > 1 && 2*known <= all-1 || all == 1 && known == 0 && !unicode.Is(unicode.Latin, []rune(raw[0])[0])
}

// joined is all of a sentence as one clause.
func (s *sentence) joined() []token {
	var out []token
	for i, c := range s.clauses {
		if i > 0 && s.joins[i] != "," {
			out = append(out, token{raw: s.joins[i], word: s.joins[i]})
		}
		out = append(out, c...)
	}
	return out
}

// atStops are a sentence's clauses as its stops divide it.
func (s *sentence) atStops() [][]token {
	out := [][]token{s.clauses[0]}
	for i := 1; i < len(s.clauses); i++ {
		if s.joins[i] == "," {
			out = append(out, s.clauses[i])
			continue
		}
		last := &out[len(out)-1]
		*last = append(append(slices.Clone(*last), token{raw: s.joins[i], word: s.joins[i]}), s.clauses[i]...)
	}
	return out
}

var hob = words.Set("hob stove pan pot heat on")

// nameAll notes what and whom the sentence names, for an "it" or a "he" in another clause.
func (r *reader) nameAll(s *sentence) {
	for _, c := range s.clauses {
		for at := range c {
			r.onHob = r.onHob || hob[c[at].word]
			for _, g := range r.v.Guests {
				if r.whom == "" && r.inName(&c[at], "guest/"+g.Name) {
					r.whom = g.Name
				}
			}
			for _, p := range r.v.People {
				if r.whom == "" && p != r.v.Me && r.inName(&c[at], "person/"+p) {
					r.whom = p
				}
			}
			for n := min(longestSpan, len(c)-at); n > 0 && r.named == nil; n-- {
				r.named = r.thingIn(c[at : at+n])
			}
		}
	}
}

// doubtful are words that take back what stands beside them.
var doubtful = words.Set("not no if when unless until said say says tell told think wish hope could why who what " +
	"before")

// ofClauses reads each clause by itself, and answers where one thing alone is meant.
func (r *reader) ofClauses(s *sentence, clauses [][]token) (Answer, bool) {
	var found []Answer
	doubt, on, idle := s.asked, false, 0
	for i, c := range clauses {
		if len(clauses) == len(s.clauses) && s.joins[i] == "if" {
			on = true
			continue
		}
		a, ok := r.clause(s, c)
		switch {
		case ok:
			found = append(found, a)
		case blank(c):
			idle++
		default:
			doubt = doubt || len(c) > 9 || slices.ContainsFunc(c, func(t token) bool { return doubtful[t.word] })
		}
	}
	chat := slices.ContainsFunc(found, func(a Answer) bool { return a.Act == Chat })
	told := slices.DeleteFunc(slices.Clone(found), func(a Answer) bool { return a.Act == Chat })
	switch {
	case len(told) == 0 && chat && !doubt && len(found)+idle == len(clauses):
		return found[0], true
	case len(told) == 0:
		return Answer{}, false
	}
	best := told[0]
	for _, a := range told[1:] {
		switch {
		case strings.HasPrefix(best.Do, a.Do):
		case strings.HasPrefix(a.Do, best.Do):
			best = a
		case a.id == best.id && best.Act > Tick: // "I'll make the dessert, I love making tarts"
		case a.Act == Look: // "the rolls are burnt, what do we do": what changes something comes first
		case best.Act == Look:
			best = a
		default: // two things at once: one after the other, please
			return Answer{Near: []Meant{best.Meant, a.Meant}}, true
		}
	}
	switch {
	case on && best.Act == Tick: // "if the soup is done, ..."
		return Answer{}, false
	case doubt && best.Act == Tick:
		best.Act = Ask
	}
	return best, true
}

func blank(c []token) bool {
	return !slices.ContainsFunc(c, func(t token) bool { return !t.fill })
}

// when reports whether a phrase is said after a message like the last one.
func (r *reader) when(kind string) bool {
	last := r.v.Last
	switch kind {
	case "-":
		return true
	case "question":
		return last.Kind == Question
	case "check":
		return last.Kind == Check
	case "told":
		return last.Kind == Told
	case "goes":
		return last.Kind == Goes
	case "due":
		return last.Kind == Due || last.Kind == Goes
	}
	return last.Kind == Nothing && r.onlyStarted() != nil || last.Kind == About && last.Task != "" // "task"
}

// usualWait is how many minutes are meant by more time, where nobody says how much.
const usualWait = 10

// onlyStarted is the speaker's own task that is going on, where it is one alone.
func (r *reader) onlyStarted() *Task {
	var one *Task
	for i := range r.v.Tasks {
		if t := &r.v.Tasks[i]; t.State == Started && t.Who == r.v.Me {
			if one != nil {
				return nil
			}
			one = t
		}
	}
	return one
}

// clause finds the first pattern that fits a clause and means something here.
func (r *reader) clause(s *sentence, c []token) (Answer, bool) {
	var out Answer
	for _, after := range []bool{true, false} { // what answers the last message goes before what stands by itself
		for i := range lex().pattern {
			p := &lex().pattern[i]
			if (p.when != "-") != after || !r.when(p.when) {
				continue
			}
			m := &matcher{reader: r, tokens: c, id: p.id}
			ok := m.match(&p.node, 0, binding{}, func(at int, b binding) bool {
				if !m.whole(at) {
					return false
				}
				if p.when != "-" && b.thing == nil {
					b.thing = r.lastThing()
					if one := r.onlyStarted(); p.when == "task" && r.v.Last.Kind == Nothing && one != nil {
						b.thing = &thing{of: "task", name: "it", tasks: []*Task{one}}
					}
				}
				id := p.id
				if s.asked && !p.asks && (id == "done" || id == "start" || id == "out" || id == "in" || id == "longer" ||
					id == "served") &&
					b.thing != nil {
					id = map[bool]string{true: "isout", false: "isdone"}[id == "out" || id == "in"]
				}
				if p.when == "due" && r.v.Last.Kind == Goes {
					b.thing = r.lastThing()
					if id == "snooze" { // the course waits, and not the word about it
						id = "lateself"
						if !b.hasLen {
							b.length, b.hasLen = usualWait, true
						}
					}
				}
				if s.asked && id == "caughtup" {
					return false
				}
				var good bool
				out, good = r.meant(id, b)
				return good
			})
			if ok {
				return out, true
			}
		}
	}
	return Answer{}, false
}
