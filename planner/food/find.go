package food

import "slices"

// Food is a food as a text names it.
type Food struct {
	Name   string   // its own name in the table: "zucchini" for courgettes
	Class  *Class   // with what the text says of its state: dried apricots are dried fruit
	States []string // what the text says beside the name: "minced", "cooked", "frozen" …, in its order
	index  int
	said   []token // the name as the text has it
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

// All lists every food that a text names, in its order, each with the states that are said of it.
func All(text string) []Food {
	p := data().read(text)
	var out []Food
	for i, c := range p.clauses {
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

// listed reports whether a clause is one of several: "wine, stock or water".
func (p *reading) listed(clause int) bool {
	join := func(i int) bool {
		return i < len(p.clauses) && (p.clauses[i].opener == "or" || p.clauses[i].opener == "and") &&
			len(p.clauses[i].spans) > 0
	}
	return len(p.clauses[clause].spans) > 0 && (join(clause) || join(clause+1))
}

// reading is a text cut into clauses.
type reading struct {
	t       *tables
	tokens  []token
	quiet   []extent // which tokens are not what they say
	clauses []clause
}

// clause is a part of a text between commas, brackets and words such as "with".
type clause struct {
	from, to int
	opener   string // the word that begins it
	aside    bool   // it stands after a comma or bracket
	empty    bool   // it has no word that could be a food's
	spans    []span // the names in it, none within another
}

// joins begin another clause.
var joins = setOf("or and with in on for from plus without to at as until if when before after such like than per")

// later begin clauses that speak of what is yet to be done: "to be grilled".
var later = setOf("for to until if when before as than or")

func (t *tables) read(text string) *reading {
	p := &reading{t: t, tokens: t.tokensOf(text)}
	p.quiet = make([]extent, len(p.tokens))
	t.silence(p.tokens, func(n *not, from, mid, to int, i int) {
		if n.head == "-" || i < mid && n.drop1 && n.head != "1" || i >= mid && n.head == "1" {
			p.quiet[i] = extent{from: from, to: to}
		}
	})
	all := p.names()
	c := clause{empty: true}
	end := func(to int, opener string, skip int, aside bool) {
		c.to = to
		if c.to > c.from {
			p.clauses = append(p.clauses, c)
		}
		c = clause{from: to + skip, opener: opener, aside: aside, empty: true}
	}
	next := 0
	for i := 0; i < len(p.tokens); i++ {
		if next < len(all) && all[next].from == i {
			c.spans, c.empty = append(c.spans, all[next]), false
			i = all[next].to - 1
			next++
			continue
		}
		switch w := p.tokens[i].word; {
		case w == stop:
			end(i, "", 1, c.aside || !c.empty)
		case joins[w]:
			end(i, w, 1, c.aside)
		default:
			_, state := t.stateAt(p.tokens, i, len(p.tokens), nil)
			c.empty = c.empty && (state || t.plain[w] != "" || number(w))
		}
	}
	end(len(p.tokens), "", 0, false)
	p.shared()
	return p
}

// shared lets a clause before "or" and "and" have the noun of the next: "chicken or vegetable stock" is chicken
// stock, and "canola or corn oil" two oils. A clause of which then no word is known goes on with the next.
func (p *reading) shared() {
	for i := len(p.clauses) - 2; i >= 0; i-- {
		c, next := &p.clauses[i], &p.clauses[i+1]
		if next.opener != "or" && next.opener != "and" || len(next.spans) == 0 {
			continue
		}
		s := &next.spans[len(next.spans)-1]
		if len(c.spans) == 0 {
			c.empty = true
			continue
		}
		mine := &c.spans[len(c.spans)-1]
		if s.to-next.from < 2 || mine.to != c.to {
			continue
		}
		noun := p.tokens[s.to-1]
		if f, ok := p.t.named(append(slices.Clone(p.tokens[mine.from:mine.to]), noun)); ok {
			mine.food = f
		} else if f, ok := p.t.named([]token{noun}); ok && p.t.foods[f].class.Group == "made" {
			mine.food = f // pork or chicken stock
		}
	}
}

// named is the food whose name some words are.
func (t *tables) named(words []token) (food int, ok bool) {
	for _, n := range t.byName[words[0].word] {
		if len(n.words) == len(words) && n.at(words, 0) {
			return n.food, true
		}
	}
	return 0, false
}

func number(w string) bool { return w[0] >= '0' && w[0] <= '9' }

// names are the longest names in the text, none of which overlaps another. Of two that do, as long as each other, the
// later stands: canned tomato purée is no canned tomato.
func (p *reading) names() []span {
	var all []span
	for i := 0; i < len(p.tokens); {
		s, ok := p.longest(i)
		if !ok {
			i++
			continue
		}
		for k := s.from + 1; k < s.to; k++ {
			if o, ok := p.longest(k); ok && o.to > s.to && o.to-o.from >= s.to-s.from {
				s = o
			}
		}
		all = append(all, s)
		i = s.to
	}
	return all
}

// longest is the longest name that begins at a token and says what it is.
func (p *reading) longest(i int) (span, bool) {
	for _, n := range p.t.byName[p.tokens[i].word] {
		if !n.at(p.tokens, i) {
			continue
		}
		to := i + len(n.words)
		silenced := false
		for k := i; k < to; k++ {
			// A name that spells the whole out knows better: cream of tartar.
			q := p.quiet[k]
			silenced = silenced || q.to > 0 && (q.from < i || q.to > to)
		}
		if !silenced {
			return span{i, to, n.food}, true
		}
	}
	return span{}, false
}

// at reports whether the name stands at a token.
func (n *name) at(tokens []token, i int) bool {
	return at(tokens, i, n.words) && (n.exact == "" || tokens[i+len(n.words)-1].raw == n.exact)
}

func at(tokens []token, i int, words []string) bool {
	if i+len(words) > len(tokens) {
		return false
	}
	for k, w := range words {
		if tokens[i+k].word != w {
			return false
		}
	}
	return true
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
		if k := slices.IndexFunc(c.spans, func(s span) bool { return s.from > i }); k != 0 && c.spans[0].to <= i {
			head, end = len(c.spans)-1, i
			if k > 0 {
				head = k - 1
			}
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

// turned is a food written as in an index: "flour, bread", "cheese, mozzarella".
func (p *reading) turned(clause int, s span) (Food, bool) {
	c := &p.clauses[clause]
	if clause+1 >= len(p.clauses) || s.from != c.from || s.to != c.to {
		return Food{}, false
	}
	after := &p.clauses[clause+1]
	telling := false
	for _, w := range p.tokens[after.from:after.to] {
		role := p.t.plain[w.word]
		telling = telling || role != "cut" && role != "form"
	}
	if !after.aside || after.opener != "" || !telling {
		return Food{}, false
	}
	said := append(slices.Clone(p.tokens[after.from:after.to]), p.tokens[s.from:s.to]...)
	f, ok := p.t.named(said)
	if r := &p.t.foods[s.food]; !ok && r.has("generic") && len(after.spans) == 1 &&
		after.to-after.from == after.spans[0].to-after.spans[0].from {
		f = after.spans[0].food
		ok = alike(p.t.foods[f].class.Group, r.class.Group)
	}
	if !ok {
		return Food{}, false
	}
	return Food{Name: p.t.foods[f].name, Class: p.t.foods[f].class, index: f, said: said}, true
}

// alike reports whether two groups are of the same sort: a leaf is a herb's or a vegetable's.
func alike(a, b string) bool {
	plants := []string{"herb", "vegetable", "fruit", "nut", "pulse", "spice"}
	return a == b || slices.Contains(plants, a) && slices.Contains(plants, b)
}

// stated is the food at a span with the states that its clause says, and what follows that names no food.
func (p *reading) stated(clause int, s span) Food {
	r := &p.t.foods[s.food]
	f := Food{Name: r.name, Class: r.class, index: s.food, said: p.tokens[s.from:s.to]}
	for i := clause; i < len(p.clauses); i++ {
		c := &p.clauses[i]
		if i > clause && len(c.spans) > 0 {
			break
		}
		if i > clause && later[c.opener] {
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

// Names lists every food's own name, in the order of the table.
func Names() []string {
	var out []string
	for _, r := range data().foods {
		out = append(out, r.name)
	}
	return out
}
