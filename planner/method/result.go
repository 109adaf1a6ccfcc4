package method

import (
	"maps"
	"slices"

	"tureen/planner/food"
)

// result adds the clause's act, and puts the stream that it leaves in hand.
func (r *reader) result(c *clause, ins []*stream, begins bool, back map[int]bool) {
	after := maps.Clone(c.leafActs)
	join(after, back)
	for _, s := range ins {
		join(after, s.last)
	}
	r.madeReady(c, after)
	if len(ins) > 1 || c.class == food.Serves {
		for _, s := range ins {
			join(after, s.made)
			s.made = map[int]bool{}
		}
	}
	var beside *stream
	if c.besideIt() && len(ins) > 0 && !begins {
		// Let it rest while you squash the garlic: two things at once.
		beside = ins[0]
		for i := range beside.last {
			delete(after, i)
			for _, p := range r.done[i].After {
				after[p] = true
			}
		}
	}
	begins = begins || len(ins) == 0
	a := r.of(c)
	a.Begins, a.Beside, a.Aside = begins, c.section && !c.opens && c.leadWord() != "for", c.setsAside()
	i := r.add(a, after)
	s := r.merged(c, ins, begins)
	s.last = map[int]bool{i: true}
	if beside != nil {
		join(s.last, beside.last)
	}
	if begins || c.opens {
		s.names.take(r.partNames(c))
	}
	if begins {
		s.section, s.base = r.part, r.firstFood(c)
		if s.section == "" && c.first && at(c.lead, len(c.lead)-1) == ":" {
			s.section = c.leadWord() // "croutons: fry the bread"
		}
		if r.heading != nil {
			join(s.made, r.heading)
			s.names.take(r.named)
			r.heading = nil
		}
	}
	r.vessels(c, ins, s, i)
	if r.leavesJuices(c, ins, a.Aside) {
		s.out = map[int]bool{i: true}
		if s.box == "" {
			r.left[anyPan] = s.out // nobody has said in what it was fried
		}
	}
	if len(ins) == 1 && ins[0] == r.inPan {
		r.inPan = s
	}
	if len(c.left) > 0 && begins {
		r.inPan = s
		if s.box == "" {
			s.box = c.leftOf.box
		}
	}
	r.streams = append(r.streams, s)
	r.focus = s
	if a.Aside {
		s.aside, r.focus = true, nil
		if s.box != "" {
			r.left[s.box] = map[int]bool{i: true}
		}
	}
}

func (c *clause) setsAside() bool {
	return c.name == "reserve" || (c.name == "set" || c.name == "keep") && (c.has["aside"] || c.has["warm"])
}

// anyPan is the name of a pan that was not named.
const anyPan = "?"

// firstFood is the food that a clause names first of those that come in.
func (r *reader) firstFood(c *clause) string {
	for _, p := range c.after {
		if ws := r.content(p); p.is == fresh && len(ws) > 0 {
			return ws[len(ws)-1]
		}
	}
	return ""
}

// leavesJuices reports whether a clause takes meat or fish out of what it was cooked in.
func (r *reader) leavesJuices(c *clause, ins []*stream, aside bool) bool {
	if len(ins) != 1 || !aside && !r.in("takes out", c.name) && c.name != "rest" {
		return false
	}
	s := ins[0]
	return s.out == nil && s.verbs.meets(r.v.cooks) && (s.foods.meets(r.v.sorts["meat"]) ||
		s.foods.meets(r.v.sorts["fish"]) || s.foods.meets(r.v.sorts["bird"]))
}

// madeReady adds the oven and the tins that a clause is the first to use.
func (r *reader) madeReady(c *clause, after map[int]bool) {
	bakes := c.name == "bake" || c.name == "roast"
	if r.oven != nil && r.ovenFree && (bakes || c.name == "grill" || c.has.meets(r.v.list("oven"))) {
		join(after, r.oven.last)
		r.ovenFree = false
	}
	filled := false
	switch c.class {
	case food.Adds, food.Moves, food.Mixes, food.GoesOn:
		filled = r.in("bakeware", c.oldBox)
	}
	for _, s := range r.alive(aTin) {
		if s.box != "" && (s.box == c.oldBox || s.box == c.newBox) || bakes || filled {
			join(after, s.last)
			s.used = true
		}
	}
}

// partNames are the words of the part that a clause begins: "for the pastry, …", or its heading's.
func (r *reader) partNames(c *clause) set {
	out := set{}
	words := wordsOf(r.sentences[c.sentence].Section)
	if c.leadWord() == "for" {
		words = append(words, c.lead[1:]...)
	}
	for _, x := range words {
		if s := one(x.w); (r.in("product", s) || r.food[s]) && r.v.verb[x.w] == nil {
			out[s] = true
		}
	}
	return out
}

// merged is the stream that comes of those that went in.
func (r *reader) merged(c *clause, ins []*stream, begins bool) *stream {
	s := newStream(aFood)
	for _, in := range ins {
		in.used = true
		if s.box == "" {
			s.box = in.box
		}
		s.foods.take(in.foods)
		s.names.take(in.names)
		s.heads.take(in.heads)
		s.verbs.take(in.verbs)
		join(s.made, in.made)
	}
	s.verbs[c.name] = true
	s.onlyCut = c.class == food.Cuts && (begins || len(ins) == 1 && ins[0].onlyCut)
	if len(ins) == 1 && c.class != food.Cooks && c.class != food.Heats && !c.putsBack() {
		s.out = ins[0].out // until it is cooked on
	}
	if len(ins) > 0 {
		s.section, s.base = ins[0].section, ins[0].base
		if slices.ContainsFunc(ins, func(in *stream) bool { return in.section != s.section }) {
			s.section = r.part // parts are put together
		}
	}
	s.foods.take(c.fresh)
	if c.oldBox != "" {
		s.box = c.oldBox
	}
	if c.newBox != "" {
		s.box = c.newBox
	}
	for _, p := range c.all {
		if p.is == fresh || p.is == vague {
			ws := r.called(p)
			s.heads[ws[len(ws)-1]] = true
		}
	}
	for _, p := range c.vague {
		s.names.take(setOf(r.called(p)...))
	}
	switch {
	case c.class == food.Heats && c.fresh.within(r.v.list("fat")) && (len(c.fresh) > 0 || len(c.objects) > 0) &&
		!c.elided && len(c.refs) == 0,
		begins && len(c.objects) > 0 && len(c.fresh) == 0 && c.newBox != "",
		len(ins) == 1 && ins[0].kind == aHotPan && c.class == food.GoesOn:
		s.kind = aHotPan
	}
	return s
}

// vessels notes which vessels the clause leaves behind.
func (r *reader) vessels(c *clause, ins []*stream, s *stream, i int) {
	for _, in := range ins {
		if in.box != "" && in.box != s.box {
			r.left[in.box] = maps.Clone(in.last)
		}
	}
	out := false
	switch c.name {
	case "remove", "take", "lift", "scoop", "drain":
		out = true
	case "transfer", "spoon", "put", "place":
	default:
		return
	}
	if len(ins) == 0 {
		return
	}
	for _, p := range c.all {
		if b := r.boxOf(p); b != "" && (p.prep == "from" || p.prep == "off") {
			r.left[b] = map[int]bool{i: true}
		}
	}
	if ins[0].box != "" && (c.newBox != "" || c.oldBox != "" || out) && !c.has["heat"] &&
		!c.has.meets(r.v.list("oven")) {
		r.left[ins[0].box] = map[int]bool{i: true}
		s.box = c.newBox
	}
}
