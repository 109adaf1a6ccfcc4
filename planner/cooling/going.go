package cooling

import (
	"slices"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// Going is food that is hot and goes cold next.
type Going struct {
	Dish *planner.Dish
	Step *planner.Step // the last one before the cold
	Food Food
	Way  Way
	Task bool // it wants a chore of its own: it is more than a panful for four, or has to be cut up
}

// Amounts and lengths that decide whether food is hot, and whether its cooling is a task of its own; common practice,
// no source.
const (
	panful     = 1600 // millilitres: four portions of 400
	coolsBy    = 30   // minutes on the counter after which little food is no longer hot
	staysHotML = 2000 // of so much a pot is hot for hours, whatever the step before the cold is
	shallowCM  = 3    // in a tray no deeper than this it is not
)

// SteamOff is how long hot food may stand in open air before it goes into the refrigerator; common practice, no source.
const SteamOff = 30

// Of finds what of a dish is hot and goes cold, in the order of its steps.
func Of(p *planner.Party, d *planner.Dish) []Going {
	if d.BroughtBy != "" {
		return nil
	}
	t := &traced{p, d, trace.OfDish(p, d)}
	var out []Going
	for i := range d.Steps {
		if g, ok := t.going(&d.Steps[i]); ok {
			out = append(out, g)
		}
	}
	return out
}

// At finds among what goes cold of a dish what a step's food does, or that of the steps after it, which it reaches hot;
// ok is false when nothing of it goes cold.
func At(all []Going, s *planner.Step) (g Going, ok bool) {
	for _, g := range all {
		if slices.Contains(upstream(g.Dish, g.Step), s) {
			return g, true
		}
	}
	return Going{}, false
}

func (t *traced) going(s *planner.Step) (Going, bool) {
	p, d := t.p, t.d
	if _, perishable := t.leaves(s); !perishable || cold(s.Where) || Itself(s) || !goesCold(p, d, s) {
		return Going{}, false
	}
	f := t.look(s)
	if f.body == noBody || !t.hot(s, 0, 0) {
		return Going{}, false
	}
	g := Going{Dish: d, Step: s, Food: f, Way: Best(p, &f, s.Cool)}
	weight, _ := safety.CoolPiece()
	divided := f.in != nil && f.in.litres < smallLitres
	g.Task = f.Millilitres > panful && !divided || f.body == bird ||
		f.body == joint && (f.Grams == 0 || float64(f.Grams) > weight.Size) || s.Cool != nil
	return g, true
}

// Itself says whether a step is itself what cools, as [planner.Step.Bath] has it.
func Itself(s *planner.Step) bool {
	is, _ := s.Bath()
	return is
}

func cold(st planner.State) bool { return st == planner.Refrigerator || st == planner.Freezer }

// goesCold says whether what a step leaves is in the cold next, in whichever dish.
func goesCold(p *planner.Party, d *planner.Dish, s *planner.Step) bool {
	if s.Serve != nil && cold(s.Serve.State) {
		return true
	}
	return len(next(p, d, s, func(n *planner.Step, w *planner.Wait) bool {
		return !Itself(n) && (cold(w.State) || cold(n.Where))
	})) > 0
}

// next are the steps that a step's food goes into, of whichever dish, as far as they are asked for.
func next(p *planner.Party, d *planner.Dish, s *planner.Step,
	asked func(*planner.Step, *planner.Wait) bool) []planner.TaskKey {
	var out []planner.TaskKey
	look := func(o *planner.Dish) {
		for i := range o.Steps {
			for _, a := range o.Steps[i].After {
				own := a.Dish == d.Key || a.Dish == "" && o.Key == d.Key
				if own && a.Step == s.Key && !a.FromStart && asked(&o.Steps[i], &a.Wait) {
					out = append(out, planner.StepTask(o.Key, o.Steps[i].Key, 1))
				}
			}
		}
	}
	if p.Dish(d.Key) == nil {
		look(d) // it is looked at before it is on the menu
	}
	for i := range p.Dishes {
		o := &p.Dishes[i]
		if o.Key == d.Key {
			o = d
		}
		look(o)
	}
	return out
}

// After are the tasks that come after a wait in the refrigerator: by then the food has been put there.
func (g *Going) After(p *planner.Party) []planner.TaskKey {
	return next(p, g.Dish, g.Step, func(_ *planner.Step, w *planner.Wait) bool { return cold(w.State) })
}

// hot says whether a step's food was cooked in it or before it and has not lost its heat: since is how long ago at
// least. Hours on the counter do not cool a pot or a joint.
func (t *traced) hot(s *planner.Step, since planner.Minutes, depth int) bool {
	d := t.d
	if cold(s.Where) || Itself(s) || depth > len(d.Steps) {
		return false
	}
	if s.Cooks || s.Where == planner.Heat {
		if since < coolsBy {
			return true
		}
		f := t.look(s)
		return f.body == bird || f.body == joint ||
			f.Millilitres >= staysHotML && (f.in == nil || f.in.cm > shallowCM)
	}
	since += s.Time.Likely
	return slices.ContainsFunc(s.After, func(a planner.After) bool {
		from := d.Step(a.Step)
		return a.Dish == "" && !a.FromStart && !a.Aside && from != nil && !cold(a.Wait.State) &&
			t.hot(from, since+a.Wait.Least, depth+1)
	})
}

// Key is that of the chore that puts a step's food into the cold.
func Key(d planner.DishKey, s planner.StepKey) planner.ChoreKey {
	return planner.ChoreKey(planner.Key("cool " + string(d) + " " + string(s)))
}
