package food

import "slices"

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

// mostRemembered is how long a text may be, in bytes, whose reading is kept: a name or what a step does, not a page.
const mostRemembered = 500

func (t *tables) read(text string) *reading {
	read := func(text string) *reading { return t.cut(t.tokensOf(text)) }
	if len(text) > mostRemembered {
		return read(text)
	}
	return t.readings.Of(text, read)
}

// cut cuts a text's words into clauses.
func (t *tables) cut(tokens []token) *reading {
	p := &reading{t: t, tokens: tokens}
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
		if p.tokens[mine.to-1].word == noun.word {
			continue // fish sauce or soy sauce
		}
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

// listed reports whether a clause is one of several: "wine, stock or water".
func (p *reading) listed(clause int) bool {
	join := func(i int) bool {
		return i < len(p.clauses) && (p.clauses[i].opener == "or" || p.clauses[i].opener == "and") &&
			len(p.clauses[i].spans) > 0
	}
	return len(p.clauses[clause].spans) > 0 && (join(clause) || join(clause+1))
}
