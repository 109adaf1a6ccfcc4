package food

import (
	"slices"
	"strings"
)

// Food is a food as a text names it.
type Food struct {
	Name   string   // its own name in the table: "zucchini" for courgettes
	Class  *Class   // with what the text says of its state: dried apricots are dried fruit
	States []string // what the text says beside the name: "minced", "cooked", "frozen" …, in its order
	index  int
	said   []token // the name as the text has it
	tells  []Tell  // what its states tell: raw oysters
}

// Said is the food's name as the text has it, folded: "courgettes" for zucchini.
func (f Food) Said() string {
	p := reading{tokens: f.said}
	return p.text(0, len(f.said))
}

// Kind is what the food is to the published limits as it goes into a dish.
func (f Food) Kind() Kind {
	if f.Class == nil {
		return Unknown
	}
	return f.Class.Kind
}

// Is reports whether the text says that the food is in a state: "frozen".
func (f Food) Is(state string) bool { return slices.Contains(f.States, state) }

// Season reports whether the food may well come in every course.
func (f Food) Season() bool { return f.Class != nil && data().foods[f.index].has("season") }

// Hot reports whether the food seasons by its heat, so that of twice the dish less than twice is wanted.
func (f Food) Hot() bool { return f.Class != nil && data().foods[f.index].has("hot") }

// Generic reports whether the name stands for all of its class: fish, meat.
func (f Food) Generic() bool { return f.Class != nil && data().foods[f.index].has("generic") }

// span is where a name stands in a text, by tokens.
type span struct{ from, to, food int }

// Find is the food that a text names as a whole: the noun of its first part. ok is false where the tables do not know
// it; what is known of the words before and after is then for [All] and [KindOf].
func Find(text string) (f Food, ok bool) {
	t := data()
	p := t.read(text)
	for i := range p.clauses {
		if p.clauses[i].empty {
			continue
		}
		return p.food(i)
	}
	return Food{}, false
}

// All lists every food that a text names, in its order, each with the states that are said of it. A name that is turned
// as in an index is one: "beans, kidney" is no kidney.
func All(text string) []Food {
	p := data().read(text)
	var out []Food
	from := 0
	if len(p.clauses) > 1 && len(p.clauses[0].spans) == 1 {
		head := p.clauses[0].spans[0]
		if f, ok := p.turned(0, head); ok && f.said[0] != p.tokens[head.from] {
			out, from = append(out, f), 2
		}
	}
	for k, c := range p.clauses[from:] {
		i := from + k
		for _, s := range c.spans {
			out = append(out, p.stated(i, s))
		}
	}
	return out
}

// KindOf is the strictest kind of what a text names: of "butter or chicken fat, melted" of both. Where what the text
// is about is not known, raw meat and fish in it are found all the same; ok is false where nothing is known.
func KindOf(text string) (k Kind, ok bool) {
	p := data().read(text)
	sure, any := true, false
	for i, c := range p.clauses {
		if c.empty || c.aside && !p.listed(i) {
			continue // what stands after a comma says how it is prepared
		}
		f, known := p.food(i)
		if known {
			if k == Unknown {
				k = f.Kind()
			}
			k, any = Stricter(k, f.Kind()), true
			continue
		}
		sure = false
		for _, s := range c.spans {
			if one := p.stated(i, s).Kind(); one.Raw() {
				if k == Unknown {
					k = one
				}
				k, any = Stricter(k, one), true
			}
		}
	}
	if !any || !sure && !k.Raw() {
		return Unknown, false
	}
	return k, true
}

// Names lists every food's own name, in the order of the table.
func Names() []string {
	var out []string
	for _, r := range data().foods {
		out = append(out, r.name)
	}
	return out
}

// food is the food that a clause names: its last noun, unless a word that nobody knows stands after it.
func (p *reading) food(clause int) (Food, bool) {
	c := &p.clauses[clause]
	if len(c.spans) == 0 {
		return Food{}, false
	}
	head, end := len(c.spans)-1, c.to
	// "leg of lamb" is lamb, "stock of bones" stock.
	for i := c.from; i < c.to; i++ {
		if p.tokens[i].word != "of" || slices.ContainsFunc(c.spans, func(s span) bool { return s.from < i && i < s.to }) {
			continue
		}
		if k := slices.IndexFunc(c.spans, func(s span) bool { return s.from > i }); k > 0 {
			head, end = k-1, i
		}
		break
	}
	s := c.spans[head]
	for i := s.to; i < end; i++ {
		w := p.tokens[i].word
		if _, state := p.t.stateAt(p.tokens, i, c.to, nil); !state && p.quiet[i].to == 0 && p.t.plain[w] == "" &&
			!number(w) && w != "of" {
			return Food{}, false
		}
	}
	if r := &p.t.foods[s.food]; r.has("generic") && head > 0 && c.spans[head-1].to == s.from {
		if before := &p.t.foods[c.spans[head-1].food]; alike(before.class.Group, r.class.Group) {
			s = c.spans[head-1]
		}
	}
	if f, ok := p.turned(clause, s); ok {
		return f, true
	}
	return p.stated(clause, s), true
}

// turned is a food written as in an index: "flour, bread", "beef, mince".
func (p *reading) turned(clause int, s span) (Food, bool) {
	c := &p.clauses[clause]
	if clause+1 >= len(p.clauses) || s.from != c.from || s.to != c.to {
		return Food{}, false
	}
	after := &p.clauses[clause+1]
	telling := false
	for _, w := range p.tokens[after.from:after.to] {
		role := p.t.plain[w.word]
		telling = telling || role != "cut" && role != "form" && role != "small"
	}
	if !after.aside || after.opener != "" || !telling {
		return Food{}, false
	}
	said := append(slices.Clone(p.tokens[after.from:after.to]), p.tokens[s.from:s.to]...)
	f, ok := p.t.named(said)
	if !ok {
		said = append(slices.Clone(p.tokens[s.from:s.to]), p.tokens[after.from:after.to]...)
		f, ok = p.t.named(said)
	}
	if r := &p.t.foods[s.food]; !ok && r.has("generic") && len(after.spans) == 1 &&
		after.to-after.from == after.spans[0].to-after.spans[0].from {
		f = after.spans[0].food
		ok = alike(p.t.foods[f].class.Group, r.class.Group)
	}
	if !ok {
		return Food{}, false
	}
	s.food = f
	out := p.state(clause, clause+1, s) // what is said behind it is said of it too: "beans, kidney, tinned"
	out.said = said
	return out, true
}

// alike reports whether two groups are of the same sort: a leaf is a herb's or a vegetable's.
func alike(a, b string) bool {
	plants := []string{"herb", "vegetable", "fruit", "nut", "pulse", "spice"}
	return a == b || slices.Contains(plants, a) && slices.Contains(plants, b)
}

// stated is the food at a span with the states that its clause says, and what follows that names no food.
func (p *reading) stated(clause int, s span) Food { return p.state(clause, clause, s) }

// state is [reading.stated] of a food whose name goes on to a later clause.
func (p *reading) state(clause, to int, s span) Food {
	r := &p.t.foods[s.food]
	f := Food{Name: r.name, Class: r.class, index: s.food, said: p.tokens[s.from:s.to]}
	for i := clause; i < len(p.clauses); i++ {
		c := &p.clauses[i]
		if i > to && len(c.spans) > 0 {
			break
		}
		if i > clause && i <= to || i > to && later[c.opener] {
			continue
		}
		for k := c.from; k < c.to; k++ {
			if i == clause && k >= s.from && k < s.to {
				continue
			}
			st, ok := p.t.stateAt(p.tokens, k, c.to, f.Class)
			if !ok {
				continue
			}
			f.States = append(f.States, st.state)
			for _, t := range st.tells {
				t.from, t.to = s.from, s.to
				t.Word = p.text(k, k+len(st.phrase)) + " " + f.Said()
				f.tells = append(f.tells, t)
			}
			switch {
			case st.cooked:
				f.Class = f.Class.Cooked
			case st.becomes != nil:
				f.Class = st.becomes
			}
			k += len(st.phrase) - 1
		}
	}
	return f
}

// text is what stands at some tokens, as it is spelt.
func (p *reading) text(from, to int) string {
	var words []string
	for _, t := range p.tokens[from:to] {
		words = append(words, t.raw)
	}
	return strings.Join(words, " ")
}

// stateAt is the row of states.tsv whose words stand at a token and that speaks of the class; of any where that is
// nil.
func (t *tables) stateAt(tokens []token, i, end int, c *Class) (*stateRow, bool) {
	rows := t.states[tokens[i].word]
	longest := 0
	for k := range rows {
		r := &rows[k]
		if i+len(r.phrase) > end || !at(tokens, i, r.phrase) || len(r.phrase) < longest {
			continue
		}
		longest = len(r.phrase)
		if c == nil || r.fits(c) {
			return r, true
		}
	}
	return nil, false
}
