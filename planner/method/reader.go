package method

import (
	"slices"
	"strings"

	"tureen/planner/food"
)

// reader goes through the clauses.
type reader struct {
	v      *vocabulary
	food   set // words that are foods, by the table or the list of ingredients
	listed set // words of the list of ingredients
	// Of each part that has a list of its own, the words of the foods that were not used so far, and their lines.
	own  map[string]map[string]int
	part string
	// So far the paragraph only tells of an oven or a tin.
	onlyHeats bool
	opens     bool              // what is read stands in the first sentence of a paragraph that tells of food
	partOf    map[string]string // the part in whose list alone a food stands; empty: in several
	entries   map[string]int    // lines of the list, and the clause of their first use; 0: none
	clause    int
	done      []Act
	streams   []*stream
	focus     *stream // what is in hand
	inPan     *stream // what was left in a pan when meat was taken out, and is worked on by itself

	oven      *stream
	ovenFree  bool // it is on, and nothing was put in so far
	heading   map[int]bool
	named     set
	sentences []Sentence
	left      map[string]map[int]bool // vessel: the last acts on what was in it
}

func (r *reader) in(list, w string) bool { return r.v.lists[list][w] }

// Read says what is done, in the order of the text.
func Read(list []Ingredient, sentences []Sentence) []Act {
	r := &reader{
		v:         load(),
		food:      set{},
		listed:    set{},
		entries:   map[string]int{},
		own:       map[string]map[string]int{},
		partOf:    map[string]string{},
		left:      map[string]map[int]bool{},
		sentences: sentences,
	}
	r.food.take(r.v.food)
	for n, g := range list {
		var key []string
		for _, x := range wordsOf(g.Name) {
			if isNumber(x.w) || len(x.w) < 2 {
				continue
			}
			s := one(x.w)
			key = append(key, s)
			r.listed[s] = true
			if !r.in("no food", x.w) && !r.in("made", x.w) {
				r.food[x.w], r.food[s] = true, true
			}
		}
		r.entries[strings.Join(key, " ")] = 0
		if g.Section != "" {
			if r.own[g.Section] == nil {
				r.own[g.Section] = map[string]int{}
			}
			for _, w := range key {
				if !r.food[w] {
					continue
				}
				r.own[g.Section][w] = n
				if p, there := r.partOf[w]; there && p != g.Section {
					r.partOf[w] = ""
				} else {
					r.partOf[w] = g.Section
				}
			}
		}
	}
	part := ""
	for _, c := range r.clausesOf(sentences) {
		r.clause++
		r.part = sentences[c.sentence].Section
		if s := sentences[c.sentence].Section; s != part {
			part = s
			c.opens = s != "" && c.first && c.leadWord() != "for" && r.v.verb[at(wordsOf(s), 0)] == nil
		}
		if c.first {
			r.opens = sentences[c.sentence].Opens || r.opens && r.onlyHeats
		}
		r.onlyHeats = r.act(c) && (c.first || r.onlyHeats)
	}
	takes(r.done, list, sentences)
	return r.done
}

// add adds an act.
func (r *reader) add(a Act, after map[int]bool) int {
	for i := range after {
		a.After = append(a.After, i)
	}
	slices.Sort(a.After)
	r.done = append(r.done, a)
	return len(r.done) - 1
}

// of is the act of a clause.
func (r *reader) of(c *clause) Act {
	a := Act{Verb: c.name, Class: c.class, Sentence: c.sentence, From: c.words[c.from].at,
		Trailing: c.kind == "ing" || c.kind == "before" || c.kind == "by"}
	if c.from == 0 {
		a.From = 0
	}
	a.To = len(r.sentences[c.sentence].Text)
	if c.to < len(c.words) {
		a.To = c.words[c.to].at
	}
	a.At, a.End = a.From, a.From
	if c.verb >= 0 {
		a.At, a.End = c.words[c.verb].at, c.words[c.verb].end
	}
	for _, p := range c.all {
		var ws []string
		for _, w := range p.words {
			ws = append(ws, one(w))
		}
		a.phrases, a.Names = append(a.phrases, ws), append(a.Names, ws...)
	}
	return a
}

// act reads one clause, and reports whether it only makes an oven or a tin ready.
func (r *reader) act(c *clause) (ready bool) {
	if len(c.words) == 0 {
		return false
	}
	c.leafActs = map[int]bool{}
	for _, i := range c.leaves {
		c.leafActs[r.leaf(c, i)] = true
	}
	r.resolve(c)
	if r.readyOven(c) || r.readyTin(c) {
		return true
	}
	if r.readHeading(c) {
		return false
	}
	r.vesselContent(c)
	r.pouredOn(c)
	r.roles(c)
	ins, begins, back := r.inputs(c)
	r.result(c, ins, begins, back)
	return false
}

// leaf makes an act of a participle, before its verb: by itself, or pointing back ("the reserved liquid").
func (r *reader) leaf(c *clause, i int) int {
	t, w := c.words, c.words[i].w
	var ws []string
	for q := i + 1; q < min(i+6, len(t)); q++ {
		x := t[q].w
		if ends[x] || r.in("preposition", x) || (x == "and" || x == "or") && (len(ws) > 0 || r.v.past[at(t, q+1)] == "") {
			break
		}
		ws = append(ws, x)
	}
	name := w
	if v := r.v.past[w]; v != "" {
		name = v
	}
	a := Act{Verb: name, Class: food.Cuts, Leaf: true, Sentence: c.sentence, From: t[i].at, To: t[i].end, At: t[i].at,
		End: t[i].end, Names: ws, phrases: [][]string{ws}}
	if row := r.v.verb[name]; row != nil {
		a.Class = row.Class
	}
	return r.add(a, r.leafAfter(c, w, ws))
}

// leafAfter are the acts that a participle points back to.
func (r *reader) leafAfter(c *clause, w string, ws []string) map[int]bool {
	after := map[int]bool{}
	switch {
	case (w == "preheated" || w == "pre-heated" || w == "heated") && r.oven != nil:
		join(after, r.oven.last)
		r.ovenFree = false
	case slices.ContainsFunc(ws, func(x string) bool {
		return r.in("vessel", x) || r.in("vessel", one(x)) || r.in("oven", x)
	}):
		for _, s := range r.alive(aTin) {
			if w == "prepared" || slices.ContainsFunc(ws, func(x string) bool { return one(x) == s.box }) {
				join(after, s.last)
				s.used = true
			}
		}
	case w == "boiling" || slices.Contains(ws, "water") && w != "salted":
		for _, s := range r.alive(aFood) {
			if s != r.focus && len(s.foods) == 1 && s.foods["water"] {
				join(after, s.last)
			}
		}
	case !r.in("participle of itself", w) && len(ws) > 0:
		if s := r.pointedAt(&phrase{words: ws}, w); s != nil {
			join(after, s.last)
			if s != r.focus {
				c.leafRefs = append(c.leafRefs, s)
			}
		}
	}
	return after
}

// pointedAt is the stream that "the cooled sponge" speaks of. Participles that only say how a food is bought or cut
// point to little things that are not in hand.
func (r *reader) pointedAt(p *phrase, w string) *stream {
	s, is := r.find(p)
	if is == vague && r.in("participle of before", w) {
		if s = r.main(r.focus); s == nil {
			s = r.focus
		}
		is = known
	}
	if is != known || s == nil || r.in("participle of buying", w) && (s == r.focus || len(s.foods) > 2 ||
		!slices.ContainsFunc(r.called(p), func(w string) bool { return !r.in("staple", w) })) {
		return nil
	}
	return s
}

func join(to, from map[int]bool) {
	for i := range from {
		to[i] = true
	}
}

// resolve finds the vessels and foods of the clause.
func (r *reader) resolve(c *clause) {
	lead := r.phrases(c.lead)
	c.after = r.phrases(c.rest)
	for _, p := range c.after {
		p.skip = p.skip || p.gives
	}
	lead = r.unlabelled(c, lead)
	r.namedBefore(c, lead)
	for _, p := range append(slices.Clone(lead), c.after...) {
		if !p.skip {
			c.all = append(c.all, p)
		}
	}
	for _, p := range c.all {
		b := r.boxOf(p)
		if b == "" {
			continue
		}
		switch p.det {
		case "a", "an", "another", "two", "separate", "some":
			c.setNew(b)
		case "the", "your", "this", "each", "same":
			c.oldBox = b
		case "":
			if (p.prep == "in" || p.prep == "into" || p.prep == "on" || p.prep == "onto") && len(r.content(p)) == 0 {
				c.setNew(b)
			}
		}
	}
	c.fresh = set{}
	var subject *stream
	for _, p := range lead { // once the lentils are soft, …: it speaks of the lentils
		switch p.prep {
		case "once", "when", "after", "as", "while", "if":
			if !p.skip || subject != nil {
				continue
			}
			s, is := r.find(p)
			if is == known && s != nil &&
				slices.ContainsFunc(p.words, func(w string) bool { return !r.in("pronoun", w) }) {
				subject = s
			}
		}
	}
	for _, p := range c.all {
		if p.prep == "without" {
			continue
		}
		r.resolvePhrase(c, p)
	}
	for _, s := range c.leafRefs {
		if !slices.Contains(c.refs, s) {
			c.refs = append(c.refs, s)
		}
	}
	if c.focus = r.focus; subject != nil {
		c.focus = subject
	}
}

// unlabelled are the phrases of a lead without a label, "custard: heat the milk", that names no food of the list, as
// "leeks: trim and wash" does.
func (r *reader) unlabelled(c *clause, lead []*phrase) []*phrase {
	if at(c.lead, len(c.lead)-1) != ":" {
		return lead
	}
	return slices.DeleteFunc(lead, func(p *phrase) bool {
		last := one(p.last())
		return !r.food[p.last()] && !r.food[last] || r.in("product", last) && !r.listed[last]
	})
}

// namedBefore lets a pronoun stand for the foods that lead a part in: "for the lentils, put them in a pan".
func (r *reader) namedBefore(c *clause, lead []*phrase) {
	if c.leadWord() != "for" || len(lead) != 1 || len(c.after) == 0 || len(r.content(lead[0])) == 0 {
		return
	}
	p, head := c.after[0], lead[0].last()
	if p.prep == "" && len(p.words) == 1 && r.in("pronoun", p.words[0]) && (r.food[head] || r.food[one(head)]) &&
		!r.in("made", one(head)) {
		p.words, p.det = lead[0].words, "the"
	}
}

func (c *clause) setNew(box string) {
	if c.newBox == "" {
		c.newBox = box
	}
}

func (r *reader) resolvePhrase(c *clause, p *phrase) {
	p.stream, p.is = r.find(p)
	if s := r.leftInPan(p); s != nil && r.inPan != nil && !r.inPan.used {
		p.stream, p.is = r.inPan, known
	} else if s != nil && !r.in("keeps", c.name) && c.class != food.Makes {
		if c.left == nil {
			c.left = map[int]bool{}
		}
		join(c.left, s.out)
		c.leftOf = s
		p.stream, p.is = nil, known
		return
	}
	if p.is == nothing && (p.prep == "to" || p.prep == "into" || p.prep == "over" || p.prep == "onto") &&
		(p.det == "the" || p.det == "your" || p.det == "this") && r.boxOf(p) == "" && letterAt(p.last(), 0) &&
		!slices.ContainsFunc(p.words, func(w string) bool { return r.in("no dish", w) || r.in("oven", w) }) {
		p.is, p.unknown = vague, one(p.last())
	}
	switch p.is {
	case known:
		if p.stream != nil && !slices.Contains(c.refs, p.stream) {
			c.refs = append(c.refs, p.stream)
		}
	case fresh:
		for _, w := range r.called(p) {
			c.fresh[w] = true
			switch w {
			case "dry":
				c.fresh["flour"] = true
			case "wet":
				c.fresh["egg"] = true
			}
		}
	case vague:
		c.vague = append(c.vague, p)
	}
}

// leftInPan is the meat or fish in whose pan a phrase's juices or fat were left, when it was taken out.
func (r *reader) leftInPan(p *phrase) *stream {
	ws := r.content(p)
	if p.is == fresh || len(ws) == 0 || r.listed[ws[len(ws)-1]] || !r.in("left in the pan", ws[len(ws)-1]) ||
		p.prep != "" && !r.in("out of the pan", p.prep) || slices.ContainsFunc(ws[:len(ws)-1], func(w string) bool {
		return !r.v.sorts["meat"][w] && !r.in("left in the pan", w)
	}) {
		return nil
	}
	head := ws[len(ws)-1]
	if s := p.stream; s != nil && (s.out == nil || s == r.inPan) && (s.names[head] || s.heads[head] || s.foods[head]) {
		return nil
	}
	for _, s := range r.nearest(r.alive(aFood)) {
		if s.out != nil && (head != "stock" && head != "broth" || s.verbs.meets(cooksInLiquid)) {
			return s
		}
	}
	return nil
}

var cooksInLiquid = setOf("poach", "boil", "simmer", "stew", "braise")

// readyOven takes preheating for an act beside, which the first thing in the oven waits for.
func (r *reader) readyOven(c *clause) bool {
	pre := c.name == "preheat" || c.name == "pre-heat" || c.name == "pre"
	heat := false
	switch c.name {
	case "heat", "light", "switch", "warm", "turn", "set":
		heat = c.has.meets(r.v.list("oven")) && len(c.refs) == 0 && len(c.fresh) == 0 &&
			slices.ContainsFunc(c.after, func(p *phrase) bool {
				return p.prep == "" && slices.ContainsFunc(p.words, func(w string) bool { return r.in("oven", w) })
			})
	}
	if !pre && !heat || r.oven != nil && !pre && c.name != "heat" {
		return false
	}
	r.oven, r.ovenFree = newStream(anOven), true
	r.oven.last[r.add(r.of(c), c.leafActs)] = true
	return true
}

// readyTin takes greasing and lining for an act beside, which the first thing in such a vessel waits for.
func (r *reader) readyTin(c *clause) bool {
	if r.in("coats a tin", c.name) && r.coatsTin(c) {
		c.class = food.Readies
	}
	if c.class != food.Readies || c.name == "line" && r.focus != nil && r.focus.verbs["roll"] && !c.has["with"] {
		return false // it is lined with the pastry that was rolled out
	}
	for _, p := range c.all {
		if c.newBox == "" {
			if c.newBox = c.oldBox; c.newBox == "" {
				c.newBox = r.boxOf(p)
			}
		}
	}
	if len(c.refs) > 0 || c.newBox == "" && c.oldBox == "" && len(c.all) > 0 {
		return false
	}
	var tin *stream
	tins := r.alive(aTin)
	for i := len(tins) - 1; i >= 0 && tin == nil; i-- {
		if tins[i].last[len(r.done)-1] || c.oldBox != "" && tins[i].box == c.oldBox {
			tin = tins[i]
		}
	}
	after := map[int]bool{}
	join(after, c.leafActs)
	if tin != nil {
		join(after, tin.last)
	}
	i := r.add(r.of(c), after)
	if tin == nil {
		tin = newStream(aTin)
		r.streams = append(r.streams, tin)
	}
	for _, b := range []string{c.newBox, c.oldBox} {
		if b != "" {
			tin.box = b
		}
	}
	tin.last = map[int]bool{i: true}
	return true
}

// coatsTin reports "coat two tins with butter; dust with flour": it is done to a tin, or goes on with that.
func (r *reader) coatsTin(c *clause) bool {
	objects, tin := 0, false
	for _, p := range c.after {
		if p.prep == "" && !p.skip {
			objects++
			tin = tin || r.boxOf(p) == "pan" ||
				slices.ContainsFunc(p.words, func(w string) bool { return r.in("bakeware", one(w)) })
		}
	}
	if len(c.refs) > 0 {
		return false
	}
	n := len(r.done) - 1
	if tin && objects == 1 {
		return true
	}
	for _, s := range r.alive(aTin) {
		if objects == 0 && n >= 0 && s.last[n] && r.done[n].Sentence == c.sentence {
			c.oldBox = s.box
			return true
		}
	}
	return false
}

// readHeading takes "To make the sauce, …" and "Prepare the icing:" for a name of what follows; its act joins where
// that is taken in.
func (r *reader) readHeading(c *clause) bool {
	makes := r.in("makes", c.name) && c.kind == "" && len(c.refs) == 0
	if makes {
		named, anyMade := false, false
		for _, p := range c.after {
			if p.prep != "" || p.skip {
				continue
			}
			ws := r.called(p)
			isMade := r.in("made", ws[len(ws)-1])
			named = named || p.is == vague || p.is == fresh && isMade
			anyMade = anyMade || isMade
		}
		makes = named && (len(c.fresh) == 0 || anyMade)
		for _, p := range c.all {
			switch p.prep {
			case "with", "in", "from", "by", "using":
				makes = false
			}
		}
	}
	if c.kind != "to" && !makes && (len(c.rest) == 0 || c.rest[len(c.rest)-1].w != ":") {
		return false
	}
	a := r.of(c)
	a.Heading = true
	i := r.add(a, c.leafActs)
	r.heading, r.named = map[int]bool{i: true}, set{}
	r.named.take(c.fresh)
	for _, p := range c.vague {
		for _, w := range r.called(p) {
			r.named[w] = true
		}
	}
	if c.name != "serve" && c.name != "finish" {
		r.focus = nil
		if len(c.refs) > 0 && c.kind == "to" {
			r.focus = c.refs[0]
		}
	}
	return true
}

// pouredOn lets what is poured on or over, without a word of what, go onto the stream that stood there before: "whisk
// the yolks; heat the milk, pour it on".
func (r *reader) pouredOn(c *clause) {
	n := len(c.rest)
	for n > 0 && (ends[c.rest[n-1].w] || c.rest[n-1].w == "and") {
		n--
	}
	if c.name != "pour" || n == 0 || c.rest[n-1].w != "on" && c.rest[n-1].w != "over" || r.focus == nil {
		return
	}
	if s := r.main(r.focus); s != nil && !s.aside && len(c.refs) <= 1 && !slices.Contains(c.refs, s) {
		c.refs = append(c.refs, s)
		if !slices.Contains(c.refs, r.focus) {
			c.refs = append(c.refs, r.focus)
		}
	}
}

// vesselContent lets a vessel stand for what is in it: "take off the lid and shake the pan".
func (r *reader) vesselContent(c *clause) {
	b := c.oldBox
	if len(c.refs) > 0 || b == "" || c.class == food.Readies || c.class == food.Heats && len(c.fresh) > 0 {
		return
	}
	same := func(s *stream) bool {
		return s.box != "" && (s.box == b || b == "pan" && r.in("pan", s.box) || b == "dish" && r.in("dish", s.box))
	}
	if c.focus != nil && same(c.focus) {
		return
	}
	var hold *stream
	for _, s := range r.alive(aFood, aHotPan) {
		if same(s) && !s.aside {
			hold = s
		}
	}
	if hold == nil {
		return
	}
	itself, other := false, false
	for _, p := range c.after {
		itself = itself || p.prep == "" && r.boxOf(p) == b
		other = other || p.prep == "" && (p.is == vague || p.is == known)
	}
	if itself || !other {
		c.refs = append(c.refs, hold)
	}
}
