// Package mise finds what is cut in the same way for several dishes in one session: five onions, diced, for three
// dishes. A cook does that once, so it is told once and ticked off once.
//
// It is a view of a plan: the tasks stay those of their dishes, at their times; within a session the order of the work
// is the cook's. So only what spoils nowhere is put together, vegetables, fruit and herbs that keep on the counter, and
// only tasks that are nothing but cutting.
package mise

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// Cut is one food cut in one way.
type Cut struct {
	Item planner.Item
	Name string
	How  string // "finely chopped"
	For  []Part
}

// Part is how much of it is for which dish.
type Part struct {
	Dish   planner.DishKey
	Amount string // for the covers; empty: as needed
	exact  measure.Quantity
}

// Group is the cutting that several dishes share.
type Group struct {
	Tasks []planner.TaskKey // in the order of the plan
	Cuts  []Cut             // what is shared first
}

// Of finds it among the tasks of one session; nil where no two dishes want the same.
func Of(p *planner.Party, session []*planner.Placed) *Group {
	type cutting struct {
		task planner.TaskKey
		dish *planner.Dish
		cuts []Cut
	}
	var all []cutting
	dishes := map[string][]planner.DishKey{} // by what is cut and how
	id := func(c *Cut) string { return string(c.Item) + ", " + c.How }
	for _, pl := range session {
		key, step, round, _, ok := pl.Task.Split()
		d := p.Dish(key)
		if !ok || d == nil || round > 1 {
			continue
		}
		if s := d.Step(step); s != nil {
			if cuts := cutsOf(p, d, s); len(cuts) > 0 {
				all = append(all, cutting{pl.Task, d, cuts})
				for i := range cuts {
					if k := id(&cuts[i]); !slices.Contains(dishes[k], d.Key) {
						dishes[k] = append(dishes[k], d.Key)
					}
				}
			}
		}
	}
	var g Group
	var alone []Cut
	for _, c := range all {
		if !slices.ContainsFunc(c.cuts, func(x Cut) bool { return len(dishes[id(&x)]) > 1 }) {
			continue
		}
		g.Tasks = append(g.Tasks, c.task)
		for _, x := range c.cuts {
			into := &g.Cuts
			if len(dishes[id(&x)]) < 2 {
				into = &alone
			}
			if i := slices.IndexFunc(*into, func(o Cut) bool { return id(&o) == id(&x) }); i >= 0 {
				(*into)[i].For = append((*into)[i].For, x.For...)
			} else {
				*into = append(*into, x)
			}
		}
	}
	if len(g.Tasks) < 2 {
		return nil
	}
	g.Cuts = append(g.Cuts, alone...)
	return &g
}

// String is "5 onions, diced (2 for leek soup, 3 for beef braise); 4 carrots, sliced (beef braise)".
func (g *Group) String(p *planner.Party) string {
	var out []string
	for _, c := range g.Cuts {
		var parts []string
		sum, adds := c.For[0].exact, true
		for i, f := range c.For {
			name := string(f.Dish)
			if d := p.Dish(f.Dish); d != nil {
				name = d.Name
			}
			if f.Amount != "" && len(c.For) > 1 {
				name = f.Amount + " for " + name
			}
			parts = append(parts, name)
			if i > 0 && adds {
				if adds = !sum.IsZero() && !f.exact.IsZero() && sum.Adds(f.exact); adds {
					total, err := sum.Add(f.exact)
					sum, adds = total, err == nil
				}
			}
		}
		name := c.Name
		if adds && !sum.IsZero() {
			name = sum.Round().String() + " " + measure.NameFor(name, sum)
		}
		out = append(out, name+", "+c.How+" ("+words.And(parts)+")")
	}
	return strings.Join(out, "; ")
}

// cutsOf is what a step cuts; none where it does anything else, or cuts what must not stand about.
func cutsOf(p *planner.Party, d *planner.Dish, s *planner.Step) (out []Cut) {
	if s.Attention != planner.Hands || s.Cooks || len(s.After) > 0 {
		return nil
	}
	said, ready := strings.CutPrefix(s.Do, "Get ready: ")
	verbs, pure := verbsOf(said)
	if !ready && (!pure || len(verbs) == 0) {
		return nil
	}
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		if in.Step != s.Key && !(in.Step == "" && s == &d.Steps[0]) {
			continue
		}
		f, known := food.Find(in.Name)
		if !known || f.Kind() != food.None || f.Class == nil ||
			!slices.Contains([]string{"vegetable", "fruit", "herb"}, f.Class.Group) || in.Frozen {
			return nil
		}
		how := ""
		if ready {
			how = strip(in.Note)
		} else {
			how = howOf(said, in.Name, verbs)
		}
		if how == "" {
			return nil
		}
		c := Cut{Item: planner.ItemOf(in.Name, false), Name: in.Name, How: how, For: []Part{{Dish: d.Key}}}
		if q, err := measure.ParseWhole(in.Amount); err == nil && !q.IsZero() {
			if grown, err := d.Grow(in, q, d.Makes(p)); err == nil {
				c.For[0].exact, c.For[0].Amount = grown.Amount, grown.Amount.Round().String()
			}
		}
		out = append(out, c)
	}
	return out
}

// verb is a verb of cutting in a sentence, and where it stands.
type verb struct {
	at   int
	part string // "diced"
	weak bool   // it only makes ready what is cut then: peel, wash
}

// weakVerbs make ready what is cut then.
var weakVerbs = []string{"peel", "wash", "trim", "core", "rinse", "scrub", "clean", "seed", "deseed", "halve", "pick"}

// verbsOf are the verbs of cutting in a sentence; pure is false where something else is done too.
func verbsOf(said string) (out []verb, pure bool) {
	for i, token := range tokensOf(said) {
		cuts, other, part, name := false, false, "", ""
		for _, v := range food.Verbs() {
			if v.Name != token {
				continue
			}
			if v.Class == food.Cuts {
				cuts, name = true, v.Name
				if len(v.Forms) > 1 {
					part = v.Forms[1]
				}
			} else if !v.Noun {
				other = true
			}
		}
		switch {
		case cuts:
			out = append(out, verb{i, part, slices.Contains(weakVerbs, name)})
		case other:
			return nil, false
		}
	}
	return out, true
}

// howOf is how a food is cut by a sentence: by the verb before its name, or where that only makes it ready, by the one
// after it.
func howOf(said, name string, verbs []verb) string {
	last := food.Words(name)
	tokens := tokensOf(said)
	at := slices.IndexFunc(tokens, func(t string) bool {
		w := food.Words(t)
		return len(w) == 1 && len(last) > 0 && w[0] == last[len(last)-1]
	})
	if at < 0 {
		return ""
	}
	how, weak := "", false
	for _, v := range verbs {
		if v.at < at || how == "" || weak && slices.Contains([]string{"them", "it"}, after(tokens, v.at)) {
			how, weak = v.part, v.weak
			if v.at > 0 && strings.HasSuffix(tokens[v.at-1], "ly") {
				how = tokens[v.at-1] + " " + how
			}
			if rest := after(tokens, v.at+1); how == "cut" && v.at > at && rest != "" {
				how += " " + strings.Join(tokens[v.at+2:], " ")
			}
		}
	}
	if end := tokens[len(tokens)-1]; strings.HasSuffix(end, "ly") {
		how = end + " " + how
	}
	return how
}

// tokensOf are the words of a sentence, each at its own place: none is left out or made singular.
func tokensOf(said string) []string {
	return strings.FieldsFunc(strings.ToLower(said), func(r rune) bool { return strings.ContainsRune(" ,;.:()", r) })
}

// after is the word that follows one; empty behind the last.
func after(tokens []string, at int) string {
	return strings.Join(tokens[min(at+1, len(tokens)):min(at+2, len(tokens))], "")
}

// strip takes what only makes ready from how a line says a thing is cut: "peeled and diced" is diced.
func strip(note string) string {
	note = strings.ToLower(strings.TrimSpace(note))
	for _, sep := range []string{" and ", ", "} {
		first, rest, found := strings.Cut(note, sep)
		if found && slices.ContainsFunc(food.Verbs(), func(v food.Verb) bool {
			return slices.Contains(weakVerbs, v.Name) && slices.Contains(v.Forms, first)
		}) {
			return strip(rest)
		}
	}
	return note
}
