package method

import (
	"slices"

	"tureen/planner/food"
)

// roles says what the clause's phrases are to its verb.
func (r *reader) roles(c *clause) {
	first := at(c.rest, 0)
	if (first == "in" || first == "over") && (c.class == food.Mixes || c.class == food.Adds || c.class == food.Cooks) {
		c.into = slices.ContainsFunc(c.after, func(p *phrase) bool { return p.prep == first && p.is != nothing })
	}
	c.freshOnly = r.findObjects(c) && !slices.ContainsFunc(c.vague, func(p *phrase) bool {
		return placing[p.prep] && !p.comesOut()
	})
	lead := c.leadWord()
	c.elided = len(c.objects) == 0 && !c.into && !(c.newBox != "" && (lead == "in" || lead == "into"))
	switch c.class {
	case food.Cooks, food.Adds, food.Moves, food.Mixes:
		c.hot = c.focus != nil && c.focus.kind == aHotPan && c.newBox == ""
	}
	n := at(c.lead, 1)
	c.section = c.opens || lead == "for" && (n == "the" || n == "a") ||
		slices.ContainsFunc(c.lead, func(x word) bool { return meanwhile[x.w] })
}

var (
	placing   = setOf("over", "into", "to", "in", "on", "onto")
	meanwhile = setOf("meanwhile", "meantime", "while", "whilst")
)

// findObjects finds what the verb is done to, and reports whether all of it comes in here.
func (r *reader) findObjects(c *clause) bool {
	if at(c.rest, 0) == "," && r.in("of what is there", c.name) {
		return false // drain, butter, chives
	}
	onlyFresh, some := true, false
	for _, p := range c.after {
		if p.prep != "" || p.skip || p.is == nothing && r.boxOf(p) == "" {
			continue
		}
		c.objects = append(c.objects, p)
		onlyFresh = onlyFresh && (p.is == fresh || p.is == nothing)
		some = some || p.is == fresh
	}
	return onlyFresh && some
}

// besideIt is "while you …": it is done while the act before goes on.
func (c *clause) besideIt() bool {
	return !c.first && (c.leadWord() == "while" || c.leadWord() == "whilst")
}

// begins reports whether the clause begins something of its own, and does not go on with what is in hand.
func (r *reader) begins(c *clause) bool {
	if len(c.refs) > 0 && len(c.objects) > 0 && (c.newBox != "" && r.onlyStaples(c) && !r.fillsDish(c) ||
		c.section && !c.besideIt() && !slices.ContainsFunc(c.all, func(p *phrase) bool {
			return p.is == known && !(slices.Contains(c.objects, p) && (r.bareStaple(p) ||
				c.leadWord() == "for" && len(r.content(p)) == 0)) // for the lentils, put them in a pan
		})) {
		c.refs = nil
		return true
	}
	if len(c.refs) > 0 {
		return r.opensWithStaples(c)
	}
	if c.into {
		return false
	}
	if r.in("begins a part", c.name) && r.ofAnotherPart(c.words[c.from:min(c.to, len(c.words))]) {
		return true // start the cabbage
	}
	return c.freshOnly && !c.hot && (r.beginsFresh(c) || c.class != food.Adds && c.class != food.GoesOn &&
		c.class != food.Serves && r.ofAnotherPart(c.rest)) ||
		r.beginsInVessel(c) || c.section && len(c.fresh) > 0 || !c.hot && (r.opensAnew(c) || r.ontoFresh(c))
}

// opensAnew reports whether a clause opens a paragraph, with foods that come in here and nothing that is under way.
func (r *reader) opensAnew(c *clause) bool {
	if !c.first || !r.opens || !c.freshOnly || c.oldBox != "" || !r.someFood(c.after) {
		return false
	}
	switch c.class {
	case food.Adds, food.GoesOn:
		return r.in("done to", c.name)
	}
	return c.class != food.Serves
}

// opensWithStaples reports whether a clause opens a paragraph with food that comes in here, and the only other thing
// that it names is something of which there is always more: simmer the cherries with the sugar.
func (r *reader) opensWithStaples(c *clause) bool {
	if !r.someFood(c.objects) || !r.opensAnew(c) || slices.ContainsFunc(c.all, func(p *phrase) bool {
		return p.is == known && !r.bareStaple(p)
	}) {
		return false
	}
	c.refs = nil
	return true
}

// ontoFresh reports whether a clause puts foods that come in here into or over others that do: pour the stock over the
// couscous, lower the eggs into boiling water.
func (r *reader) ontoFresh(c *clause) bool {
	switch c.class {
	case food.Adds, food.Moves, food.Mixes, food.GoesOn:
	default:
		return false
	}
	if !r.someFresh(c.objects) || c.oldBox != "" {
		return false
	}
	for i, p := range c.after {
		water := p.hasWord("water") && p.is != known && (p.hasWord("boiling") || p.hasWord("simmering"))
		if placing[p.prep] && (i == 0 || c.after[i-1].prep != p.prep) &&
			(water || p.is == fresh && r.someFood([]*phrase{p}) && !r.meatUnderWay(p)) {
			return true
		}
	}
	return false
}

// meatUnderWay reports whether a phrase names meat or fish, and some is under way already: the breasts are the
// chicken's.
func (r *reader) meatUnderWay(p *phrase) bool {
	of := func(w string) bool { return r.v.sorts["meat"][w] || r.v.sorts["fish"][w] || r.v.sorts["bird"][w] }
	return slices.ContainsFunc(r.content(p), of) && slices.ContainsFunc(r.alive(aFood), func(s *stream) bool {
		for w := range s.foods {
			if of(w) {
				return true
			}
		}
		return false
	})
}

// someFresh reports whether an object comes in here.
func (r *reader) someFresh(all []*phrase) bool {
	return slices.ContainsFunc(all, func(p *phrase) bool { return p.is == fresh })
}

// someFood reports whether a phrase names a food of which there is not always more.
func (r *reader) someFood(all []*phrase) bool {
	return slices.ContainsFunc(all, func(p *phrase) bool {
		return p.is == fresh && slices.ContainsFunc(r.content(p), func(w string) bool {
			return r.food[w] && !r.in("staple", w)
		})
	})
}

// ofAnotherPart reports whether all foods that are named are of one part's list, of which nothing is under way: a
// method without headings goes on to the squash.
func (r *reader) ofAnotherPart(named []word) bool {
	if r.part != "" {
		return false
	}
	part := ""
	for _, w := range named {
		switch p := r.partOf[one(w.w)]; {
		case p == "":
		case part != "" && part != p:
			return false
		default:
			part = p
		}
	}
	if part == "" {
		return false
	}
	others := false
	for _, s := range r.alive(aFood) {
		for w := range s.foods {
			if p := r.partOf[w]; p == part {
				return false
			} else if p != "" {
				others = true
			}
		}
	}
	return others
}

// beginsInVessel is "in a pan, heat …", "fill a pot", "for the gravy, put the roasting tin on the hob".
func (r *reader) beginsInVessel(c *clause) bool {
	switch lead := c.leadWord(); {
	case c.newBox != "" && (len(c.fresh) > 0 || c.class == food.Heats) &&
		(lead == "in" || lead == "into" || lead == "using" || lead == "on"):
		return true
	case c.newBox != "" && len(c.objects) > 0 && c.fresh.within(plainLiquids) && r.in("begins by vessel", c.name) &&
		!r.fillsDish(c) &&
		!slices.ContainsFunc(c.objects, func(p *phrase) bool { return p.is != nothing || !r.newVessel(p) }):
		return true
	case c.section && lead == "for" && c.oldBox != "" && len(c.objects) > 0:
		return c.class == food.Moves || c.class == food.Heats
	}
	return false
}

// fillsDish reports whether a dish is filled, with what was made for it: a pot is filled with water.
func (r *reader) fillsDish(c *clause) bool {
	return c.name == "fill" && (r.in("dish", c.newBox) || len(c.vague) > 0)
}

var plainLiquids = setOf("water", "salt", "oil")

func (r *reader) newVessel(p *phrase) bool {
	return (p.det == "a" || p.det == "an" || p.det == "another") && r.boxOf(p) != ""
}

// bareStaple is salt, butter, the oil: of which there is always more.
func (r *reader) bareStaple(p *phrase) bool {
	ws := r.content(p)
	if len(ws) == 0 || p.det != "" && p.det != "the" && p.det != "a" {
		return false
	}
	return !slices.ContainsFunc(ws, func(w string) bool { return !r.food[w] || !r.in("staple", w) })
}

// onlyStaples reports whether what seems to be under way is only staples, or goes with new foods, in a new vessel.
func (r *reader) onlyStaples(c *clause) bool {
	var known_ []*phrase
	some := false
	for _, p := range c.objects {
		if p.is == known {
			known_ = append(known_, p)
		}
		some = some || p.is == fresh
	}
	if c.class == food.Heats || r.in("begins by melting", c.name) {
		return !slices.ContainsFunc(known_, func(p *phrase) bool {
			return slices.ContainsFunc(r.called(p), func(w string) bool { return !r.in("staple", w) })
		})
	}
	if c.class != food.Mixes || len(c.objects) < 2 || !some || slices.ContainsFunc(known_, r.itself) {
		return false
	}
	return !slices.ContainsFunc(known_, func(p *phrase) bool {
		ws := r.content(p)
		return len(ws) == 0 || p.det != "" && p.det != "the" && p.det != "a" ||
			slices.ContainsFunc(ws, func(w string) bool { return !r.food[w] })
	})
}

// itself reports whether a phrase names what is in hand, and that is nothing else: the chicken that was just chopped.
func (r *reader) itself(p *phrase) bool {
	ws := r.content(p)
	if p.stream != r.focus || r.focus == nil || len(ws) == 0 {
		return false
	}
	last := ws[len(ws)-1]
	for w := range r.focus.foods {
		if w != last && !r.v.sorts["meat"][w] && !r.v.sorts["fish"][w] { // chicken thighs are one thing
			return false
		}
	}
	return r.focus.foods[last] && !r.in("staple", last)
}

// beginsFresh is for what is done to ingredients that come in here, and nothing else.
func (r *reader) beginsFresh(c *clause) bool {
	switch {
	case c.class == food.Cuts, c.class == food.Heats:
		return true
	case c.newBox != "" && (c.class == food.Mixes || c.class == food.Cooks || c.class == food.Moves ||
		c.class == food.Rests):
		return true
	case c.class == food.Adds && c.newBox != "":
		return slices.ContainsFunc(c.after, func(p *phrase) bool {
			return (p.prep == "to" || p.prep == "into" || p.prep == "in") && r.newVessel(p)
		})
	case r.in("begins by mixing", c.name), r.in("begins by melting", c.name):
		return true
	case c.name == "cook" && c.first && c.newBox == "" && (c.has["package"] || c.has["packet"] || c.has["boiling"]):
		return true
	case r.in("begins by cooking", c.name):
		return c.first && c.oldBox == "" && !c.fresh.within(r.v.list("staple"))
	}
	return c.name == "stir" && len(c.objects) > 1 && c.has["together"]
}

// inputs are the streams that go in, whether the clause begins something, and the acts that left its vessel free.
func (r *reader) inputs(c *clause) (ins []*stream, begins bool, back map[int]bool) {
	focus := c.focus
	r.carves(c)
	begins = r.begins(c)
	ins = slices.Clone(c.refs)
	if !begins && len(c.refs) == 0 && focus != nil {
		back = r.backOnHeat(c)
		begins = back != nil
	}
	if len(ins) == 0 && !begins {
		if m := r.main(nil); focus != nil {
			ins = append(ins, focus)
		} else if m != nil && (!c.freshOnly || r.goesOn(c)) {
			ins = append(ins, m)
		}
	}
	if len(c.refs) > 0 && focus != nil && !slices.Contains(ins, focus) && r.focusJoins(c) {
		ins = append(ins, focus)
	}
	if other := r.main(focus); other != nil && len(ins) == 1 && ins[0] == focus && !c.into && r.otherJoins(c) {
		ins = append(ins, other)
	}
	if r.takesAll(c, begins) {
		for _, s := range r.alive(aFood) {
			if !slices.Contains(ins, s) {
				ins = append(ins, s)
			}
		}
	}
	return r.ofThePan(c, ins, begins, back)
}

// carves lets a verb that is said of meat speak of that, whatever is in hand.
func (r *reader) carves(c *clause) {
	if len(c.refs) > 0 || len(c.fresh) > 0 || !r.in("of meat", c.name) {
		return
	}
	live := r.alive(aFood)
	if i := slices.IndexFunc(live, func(s *stream) bool { return s.foods.meets(r.v.sorts["meat"]) }); i >= 0 {
		c.refs = append(c.refs, live[i])
	}
}

// ofThePan adds what stayed in a pan out of which something was taken, and the acts that left the pan free.
func (r *reader) ofThePan(c *clause, ins []*stream, begins bool, back map[int]bool) ([]*stream, bool, map[int]bool) {
	if len(c.left) > 0 && len(c.refs) == 0 {
		if f := c.focus; f != nil && f.out == nil && c.class == food.Adds {
			return []*stream{f}, false, c.left // add the stock to the roux
		}
		return nil, true, c.left // the juices, while the meat rests
	}
	if back == nil && r.leftOver(c, ins) {
		if back = r.left[c.oldBox]; back == nil && r.in("pan", c.oldBox) {
			back = r.left[anyPan]
		}
	}
	if s := r.inPan; s != nil && !s.used && r.in("pan", c.oldBox) && !slices.Contains(ins, s) {
		ins = append(ins, s) // fry them in the pot, of which the fat was poured off
	}
	return ins, begins, back
}

// takesAll reports whether all that is under way goes in: it is served, or it is the last thing done.
func (r *reader) takesAll(c *clause, begins bool) bool {
	everything := func(p *phrase) bool {
		return p.prep == "" && p.words[0] == "everything" && !(p.hasWord("else") && r.handIsOfAPart())
	}
	return c.class == food.Serves || c.final && c.class != food.Cuts && c.class != food.Readies ||
		(c.class == food.Moves || c.class == food.Mixes || c.class == food.Adds) && !begins &&
			slices.ContainsFunc(c.objects, everything)
}

// handIsOfAPart reports whether what is in hand is of one part's list, in a method without headings: "everything else"
// is the rest of that.
func (r *reader) handIsOfAPart() bool {
	if r.part != "" || r.focus == nil {
		return false
	}
	for w := range r.focus.foods {
		if r.partOf[w] != "" {
			return true
		}
	}
	return false
}

// goesOn reports whether a clause whose foods all come in here still goes on with the main thing under way.
func (r *reader) goesOn(c *clause) bool {
	switch c.class {
	case food.Adds, food.GoesOn, food.Rests, food.Serves:
		return true
	}
	return c.elided || c.into || len(c.vague) > 0
}

// backOnHeat is "set the wok back on the hob", for what comes next.
func (r *reader) backOnHeat(c *clause) map[int]bool {
	f := c.focus
	if c.oldBox == "" || f.kind != aFood || !r.in("back on the heat", c.name) || len(c.objects) == 0 {
		return nil
	}
	box := false
	for _, p := range c.objects {
		if p.is != nothing && p.is != fresh {
			return nil
		}
		box = box || r.boxOf(p) != ""
	}
	boxes := []string{c.oldBox}
	if c.oldBox == "pan" {
		boxes = []string{"pan", "saucepan", "wok", "casserole", "skillet", "pot"}
	}
	for _, b := range boxes {
		if last, ok := r.left[b]; ok && f.box != b && (f.aside || f.box != "" || box) {
			return last
		}
	}
	return nil
}

// focusJoins reports whether what is in hand goes in besides what is named.
func (r *reader) focusJoins(c *clause) bool {
	direct := false
	for _, p := range c.all {
		switch p.prep {
		case "into", "to", "over", "on", "onto", "in":
			direct = direct || p.is == known && !c.into
		}
	}
	onTop := slices.ContainsFunc(c.all, func(p *phrase) bool {
		return p.prep == "on" && p.is == vague && p.last() == "top"
	})
	unnamed := slices.ContainsFunc(c.objects, func(p *phrase) bool { return p.is == vague })
	covers := r.in("covers", c.name) && slices.ContainsFunc(c.objects, func(p *phrase) bool { return p.main })
	return covers || c.elided || c.into || onTop || c.class == food.Adds && !direct || c.name == "return" ||
		c.putsBack() ||
		c.focus.kind == aHotPan && (c.class == food.Cooks || c.class == food.Mixes || c.class == food.Moves) ||
		(c.class == food.Adds || c.class == food.Moves || c.class == food.Mixes || r.in("coats", c.name)) && unnamed
}

// stranded is "fold it in", "put it in cut side down", and "add it" of what was only cut so far: into what, is what was
// under way before.
func (r *reader) stranded(c *clause) bool {
	switch c.class {
	case food.Adds, food.Moves, food.Mixes:
	default:
		return false
	}
	if len(c.objects) == 0 && len(c.rest) > 0 && (c.rest[0].w == "on" || c.rest[0].w == "over") && ends[at(c.rest, 1)] {
		return c.focus != nil && c.newBox == "" && c.oldBox == "" // whip the cream, pipe on
	}
	if len(c.objects) != 1 || len(c.rest) == 0 || !r.in("pronoun", c.rest[0].w) || c.newBox != "" || c.oldBox != "" {
		return false
	}
	if next := at(c.rest, 1); r.in("under it", next) {
		after := at(c.rest, 2)
		return ends[after] || after == "as" || after == "once" || after == "when" || after == "cut" || after == "and"
	}
	return c.name == "add" && c.focus != nil && c.focus.onlyCut && !slices.ContainsFunc(c.after, func(p *phrase) bool {
		return placing[p.prep] && p.is != fresh
	})
}

// putsBack is "put the meat back", into what is in hand.
func (c *clause) putsBack() bool {
	return (c.class == food.Moves || c.class == food.Adds) && slices.ContainsFunc(c.rest, func(x word) bool {
		return x.w == "back"
	}) && !slices.ContainsFunc(c.after, func(p *phrase) bool { return p.hasWord("oven") || p.hasWord("fridge") })
}

// otherJoins reports whether the main other stream goes in: sear the rolls; spread over the sponge.
func (r *reader) otherJoins(c *clause) bool {
	if c.hot && slices.ContainsFunc(c.objects, func(p *phrase) bool { return p.is == vague }) {
		return true
	}
	if slices.ContainsFunc(c.objects, func(p *phrase) bool { return p.is == fresh }) {
		return false
	}
	if r.fillsDish(c) || c.name == "fill" && c.elided {
		return true // with what was made for it
	}
	for i, x := range c.rest {
		if (c.class == food.Moves || c.class == food.Adds) && x.w == "over" && ends[at(c.rest, i+1)] {
			return true // pour it over
		}
	}
	if r.stranded(c) {
		other := r.main(c.focus)
		return other != nil && other.section == c.focus.section // and not the pastry, of a filling
	}
	return slices.ContainsFunc(c.vague, func(p *phrase) bool {
		if c.class == food.Rests && !slices.Contains(c.after, p) || c.class == food.Cooks && p.comesOut() {
			return false // cling film on top, chill
		}
		switch p.prep {
		case "to", "into", "over", "onto", "on", "with":
			ws := r.called(p)
			return !r.in("shape", ws[len(ws)-1])
		}
		return false
	})
}

// leftOver reports whether a clause works in a vessel that something else has left.
func (r *reader) leftOver(c *clause, ins []*stream) bool {
	toOven := c.oldBox == "pan" && c.has.meets(r.v.list("oven"))
	if c.oldBox == "" || toOven || slices.ContainsFunc(ins, func(s *stream) bool {
		return s.box == c.oldBox || r.in("pan", s.box) && r.in("pan", c.oldBox)
	}) {
		return false
	}
	switch c.class {
	case food.Adds, food.Cooks, food.Moves, food.Mixes:
		return true
	case food.Heats:
		return len(c.fresh) == 0 || slices.ContainsFunc(c.all, func(p *phrase) bool { return p.hasWord("same") })
	}
	return false
}
