package trace

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
)

// made is a row of made.tsv: what a step leaves as a cook would call it, by its words, its heat and what went in.
type made struct {
	class         *food.Class // nil: what is kept as nobody knows, or not at all
	words         []string    // one of them stands in the step; none: any
	heat          string
	minutes       planner.Minutes // that the step takes at least
	with, without [][]string      // of each of the first one is in it, of the second none
}

// Words of work that is done for the table, so that what it leaves waits for nothing: of the one sort wherever they
// stand, of the other where a step begins with them.
var (
	finishes = strings.Fields("serve carve garnish plate")
	finished = strings.Fields("scatter drizzle toss dress brush dust decorate dish spoon")
)

// Made are the classes of food, of those that package food knows the waits of, that a step leaves: one for what was
// made, several for what was only cut. Known is false where no row says; then nobody can say how it waits.
func (t *Trace) Made(d *planner.Dish, s *planner.Step) (classes []*food.Class, known bool) {
	return t.made(d, s, len(d.Steps))
}

func (t *Trace) made(d *planner.Dish, s *planner.Step, depth int) (classes []*food.Class, known bool) {
	l := t.Leaves(d.Key, s.Key)
	said := food.Words(s.Do)
	has := func(words []string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(said, w) })
	}
	out := slices.Contains(said, "turn") && slices.Contains(said, "out")
	if depth < 0 || len(said) == 0 || out || has(finishes) || slices.Contains(finished, said[0]) || l.PartCooked {
		return nil, false
	}
	if !l.Hot && onlyCuts(said) {
		if classes, known = l.cutUp(d, s); known || l.names(d, s) || !slices.Contains(said, "into") {
			return classes, known
		}
		return t.handedOn(d, s, l, depth) // what was made is cut into squares
	}
	if len(l.Unknown) > 0 {
		return nil, false
	}
	if s.Attention == planner.Unattended { // what only stands, cools or rests is what it was
		if classes, known = t.handedOn(d, s, l, depth); known {
			return classes, true
		}
	}
	in := l.inIt()
	for i := range data().made {
		m := &data().made[i]
		if (len(m.words) == 0 || has(m.words)) && m.heated(s, l) && s.Time.Likely >= m.minutes && m.matches(in) {
			return []*food.Class{m.class}, m.class != nil
		}
	}
	return t.handedOn(d, s, l, depth)
}

// again is the heat of rows about hot food as it keeps in the cold to be made hot again.
const again = "again"

// Again is the class of hot food that a step leaves, as it keeps in the cold to be made hot again; nil where no row
// says. What is hot by a step before and is hot no more by this one's words, such as soup that is blended, is as that.
func (t *Trace) Again(d *planner.Dish, s *planner.Step) *food.Class {
	l := t.Leaves(d.Key, s.Key)
	if l.PartCooked {
		return nil
	}
	if classes, known := t.Made(d, s); known && len(classes) == 1 {
		return classes[0]
	}
	if !l.Hot {
		return nil
	}
	in, said := l.inIt(), food.Words(s.Do)
	if inPastry(d, s, len(d.Steps)) {
		in["=pastry"] = true
	}
	for i := range data().made {
		m := &data().made[i]
		if m.heat == again && s.Time.Likely >= m.minutes && m.matches(in) && (len(m.words) == 0 ||
			slices.ContainsFunc(m.words, func(w string) bool { return slices.Contains(said, w) })) {
			return m.class
		}
	}
	return nil
}

// assembled is the heat of rows about what is put together of hot parts in its dish, as it waits to be baked.
const assembled = "assembled"

// Assembled is the class of what a step bakes in its dish, as it waits for that when its parts were hot; nil where no
// row says.
func (t *Trace) Assembled(d *planner.Dish, bakes *planner.Step) *food.Class {
	in := t.Leaves(d.Key, bakes.Key).inIt()
	for i := range data().made {
		if m := &data().made[i]; m.heat == assembled && m.matches(in) {
			return m.class
		}
	}
	return nil
}

// inPastry says whether a step or one before it speaks of pastry: what is made of flour and butter is none by its
// parts.
func inPastry(d *planner.Dish, s *planner.Step, depth int) bool {
	if said := food.Words(s.Component + " " + s.Do); slices.Contains(said, "pastry") || slices.Contains(said, "pie") {
		return true
	}
	return depth > 0 && slices.ContainsFunc(s.After, func(a planner.After) bool {
		from := d.Step(a.Step)
		return from != nil && a.Dish == "" && !a.FromStart && inPastry(d, from, depth-1)
	})
}

func (m *made) heated(s *planner.Step, l *Leaves) bool {
	switch m.heat {
	case again, assembled:
		return false
	case "oven":
		return slices.ContainsFunc(s.Uses, func(u planner.Use) bool { return u.What == planner.AnOven && u.C > 0 })
	case "hot":
		return l.Hot
	}
	return !l.Hot
}

func (m *made) matches(in map[string]bool) bool {
	any := func(of []string) bool { return slices.ContainsFunc(of, func(x string) bool { return in[x] }) }
	return !slices.ContainsFunc(m.with, func(of []string) bool { return !any(of) }) && !slices.ContainsFunc(m.without, any)
}

// inIt are the classes of what a step has in it, before it and after, with "@" their groups and with "=" their names.
func (l *Leaves) inIt() map[string]bool {
	in := map[string]bool{}
	for _, p := range slices.Concat(l.In, l.Parts) {
		if p.Class == nil || p.aside {
			continue
		}
		in[p.Class.Name], in["@"+p.group], in["="+p.food] = true, true, true
	}
	return in
}

// onlyCuts says that a step's words do nothing to food but cut, wash and move it.
func onlyCuts(said []string) bool {
	cuts := false
	for _, w := range said {
		for _, c := range data().verbs[w] {
			switch c {
			case food.Cuts:
				cuts = true
			case food.Adds, food.Mixes, food.Heats, food.Cooks, food.Serves, food.Makes, food.Rests:
				return false
			}
		}
		cuts = cuts || w == "ready" || w == "juice"
	}
	return cuts
}

// spokenOf says whether a step's words name a part of what it works on.
func spokenOf(d *planner.Dish, s *planner.Step, p *Part) bool {
	return slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool {
		return in.Name == p.Name && Names(s.Do, &in)
	})
}

// names says whether a step's words name any part of what it works on.
func (l *Leaves) names(d *planner.Dish, s *planner.Step) bool {
	return slices.ContainsFunc(l.Parts, func(p Part) bool { return spokenOf(d, s, &p) })
}

// cutUp are the classes of the foods that a step names and cuts, each for itself. What keeps in the cupboard says
// nothing.
func (l *Leaves) cutUp(d *planner.Dish, s *planner.Step) (classes []*food.Class, known bool) {
	for _, p := range l.Parts {
		if !spokenOf(d, s, &p) {
			continue
		}
		if p.Class == nil || !p.Known || p.Cooked {
			return nil, false
		}
		c, listed := data().cuts[p.Class]
		switch {
		case listed && !slices.Contains(classes, c):
			classes = append(classes, c)
		case !listed && (p.Class.Keep != "counter" || p.Class.Group == "vegetable"):
			return nil, false
		}
	}
	return classes, len(classes) > 0
}

// handedOn are the classes of what a step took over and only moved, put in the cold or let stand.
func (t *Trace) handedOn(d *planner.Dish, s *planner.Step, l *Leaves, depth int) (classes []*food.Class, known bool) {
	var came []Part
	for _, a := range s.After {
		from := d.Step(a.Step)
		if a.FromStart || a.Aside || a.Dish != "" && a.Dish != d.Key || from == nil {
			return nil, false
		}
		before, ok := t.made(d, from, depth-1)
		if !ok {
			return nil, false
		}
		classes = append(classes, before...)
		came = append(came, t.Leaves(d.Key, a.Step).Parts...)
	}
	more := slices.ContainsFunc(l.In, func(p Part) bool {
		return !slices.ContainsFunc(came, func(o Part) bool { return o.Name == p.Name })
	})
	if l.Hot || more || len(s.After) == 0 || read(s.Do).any[leaving] ||
		len(s.After) > 1 && s.Attention == planner.Hands { // several are only put in the cold together, and not mixed
		return nil, false
	}
	return classes, len(classes) > 0
}
