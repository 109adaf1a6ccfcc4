package method

import (
	"slices"

	"tureen/planner/food"
)

// clause is an act's words: those before its verb, which lead in, and those after it.
type clause struct {
	words        []word // of the whole sentence
	sentence     int
	from, to     int    // as indexes of words
	verb         int    // -1: nothing is told
	kind         string // what stands before an -ing or infinitive: by, before, ing, to, to serve
	name         string
	class        food.VerbClass
	lead, rest   []word
	leaves       []int
	first, final bool
	has          set

	// What the reader finds.
	all, after     []*phrase // all phrases that count; those after the verb
	objects        []*phrase
	vague          []*phrase
	refs           []*stream
	fresh          set
	newBox, oldBox string
	focus          *stream
	into           bool // stir in the milk
	elided         bool // it says nothing of what it is done to
	freshOnly      bool // what it is done to comes in here
	hot, section   bool
	leftOf         *stream
	left           map[int]bool // the acts that left what it takes out of a pan
	opens          bool         // it is the first under a heading of its own
	leafRefs       []*stream
	leafActs       map[int]bool
}

func (c *clause) leadWord() string { return at(c.lead, 0) }

// clausesOf cuts the sentences into clauses, one act each.
func (r *reader) clausesOf(sentences []Sentence) []*clause {
	var out []*clause
	for n, s := range sentences {
		t := joined(wordsOf(s.Text), r.v)
		kinds := r.acts(t)
		var main, leaves []int
		for i := range t {
			if _, ok := kinds[i]; ok {
				main = append(main, i)
			} else if r.participle(t, i) {
				leaves = append(leaves, i)
			}
		}
		if len(main) == 0 {
			main = []int{-1}
		}
		in := main[0] < 0 && (s.Adds || r.putsIn(t))
		start := 0
		for k, v := range main {
			next := len(t)
			if k+1 < len(main) {
				next = main[k+1]
			}
			end := next
			if v >= 0 && next < len(t) {
				end = leadFrom(t, v, next)
			}
			c := &clause{words: t, sentence: n, from: start, to: end, verb: v, kind: kinds[v], first: k == 0, has: set{}}
			c.lead = t[start:end]
			if v >= 0 {
				c.name = t[v].w
				if r.v.verb[c.name] == nil && r.v.ing[c.name] != "" {
					c.name = r.v.ing[c.name]
				}
				c.class = food.GoesOn
				if row := r.v.verb[c.name]; row != nil {
					c.class = row.Class
				}
				c.lead, c.rest = t[start:v], t[v+1:end]
				if r.in("to the table", c.name) && slices.ContainsFunc(c.rest, func(x word) bool { return x.w == "table" }) {
					c.class = food.Serves // bring everything to the table
				}
			}
			if c.rest = unforbidden(c.rest); len(c.rest) > 1 && c.rest[0].w == "that" {
				c.rest = slices.Clone(c.rest) // rub that over the lamb
				c.rest[0].w = "this"
			}
			if in {
				c.name, c.class, c.lead, c.rest = "add", food.Adds, nil, t
			}
			for _, x := range append(slices.Clone(c.lead), c.rest...) {
				c.has[x.w] = true
			}
			for _, i := range leaves {
				if i >= start && i < end {
					c.leaves = append(c.leaves, i)
				}
			}
			out = append(out, c)
			start = end
		}
	}
	shareObjects(out)
	if len(out) > 0 {
		out[len(out)-1].final = true
	}
	return out
}

// unforbidden leaves out what is not to be done: "warm the milk, don't let it boil" names nothing by "it".
func unforbidden(rest []word) []word {
	for k := 1; k < len(rest); k++ {
		switch rest[k].w {
		case "don't", "don’t", "never":
			if ends[rest[k-1].w] || rest[k-1].w == "but" || rest[k-1].w == "and" {
				return rest[:k]
			}
		}
	}
	return rest
}

// putsIn is "Beans in for four minutes", "basil on top": notes of a cook who is in a hurry.
func (r *reader) putsIn(t []word) bool {
	if len(t) > 3 && t[0].w == "in" && (t[1].w == "go" || t[1].w == "goes") {
		return true // in go the potatoes and the milk
	}
	for i := 1; i < len(t) && i < 10; i++ {
		switch t[i].w {
		case "in", "on", "over":
			w := t[i-1].w
			if i > 1 && (w == "go" || w == "goes") {
				w = t[i-2].w // the beans go in
			}
			if (r.food[w] || r.food[one(w)]) && (ends[at(t, i+1)] || at(t, i+1) == "for" || at(t, i+1) == "top") {
				return true
			}
		}
	}
	return false
}

// acts are the words that tell to do something, each with its kind.
func (r *reader) acts(t []word) map[int]string {
	kinds := map[int]string{}
	for i, x := range t {
		before := ""
		if i > 0 {
			before = t[i-1].w
		}
		_, ing := r.v.ing[x.w]
		switch {
		case r.told(t, i):
			kinds[i] = ""
		case ing && before == "before" && i > 1 && r.in("unit of time", t[i-2].w): // two hours before eating: when
		case ing && (before == "before" || before == "by" || before == "after"):
			kinds[i] = before
		case ing && i == 0 && x.w != "using":
			kinds[i] = "ing"
		case before == "to" && i == 1 && r.v.verb[x.w] != nil:
			kinds[i] = "to"
		case before == "to" && x.w == "serve":
			kinds[i] = "to serve"
		}
	}
	return kinds
}

// shareObjects lets "peel and slice the apples" do both to the apples.
func shareObjects(all []*clause) {
	for i := 0; i+1 < len(all); i++ {
		c, d := all[i], all[i+1]
		if c.sentence != d.sentence || len(c.rest) != 1 || c.kind == "before" || d.kind != "" || len(d.lead) > 0 ||
			c.name == "serve" || d.class == food.Serves {
			continue
		}
		switch c.rest[0].w {
		case "and", "or", ",", "/":
			c.rest, d.rest = d.rest, nil
		}
	}
}

// toldWhen reports whether words say when something is done: "10 minutes before the end".
func toldWhen(t []word) bool {
	for _, x := range t {
		if x.w == "before" || x.w == "later" {
			return true
		}
	}
	return false
}

// leadFrom is where the words of the verb at v end and the leading phrase of the next verb begins.
func leadFrom(t []word, v, next int) int {
	for j := next - 1; j > v; j-- {
		if w := t[j].w; j > v+1 && (w == "while" || w == "whilst") {
			return j
		}
		switch t[j].w {
		case ",", ";", "and", "then", ".", ":":
		default:
			continue
		}
		if j+1 >= next {
			continue
		}
		if isNumber(t[j+1].w) && toldWhen(t[j+1:next]) {
			return j + 1
		}
		n, m := t[j+1].w, ""
		if j+2 < next {
			m = t[j+2].w
		}
		switch n {
		case "once", "when", "after", "meanwhile", "while", "whilst":
			return j + 1
		case "as":
			if m == "soon" {
				return j + 1
			}
		case "in", "to", "on", "using":
			last := t[next-1].w
			if (m == "a" || m == "an" || m == "another" || m == "separate" || m == "the" || m == "make") &&
				(last == "," || last == ")" || last == "pan" || last == "bowl") {
				return j + 1
			}
		}
	}
	return next
}
