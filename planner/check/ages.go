package check

import (
	"math"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/propose"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// Ages says how long the food of a plan has stood where, by rule 2: for labels, for what a plan is said to keep, and
// for how long a task can wait.
type Ages struct {
	c *checker
	k *clockwork
}

// AgesOf follows the clocks of a plan.
func AgesOf(p *planner.Party, plan *planner.Plan) *Ages {
	c := newChecker(p, plan)
	c.clocks()
	k := &clockwork{checker: c, limit: p.CounterLimit(), done: map[*workStep][]clock{}, said: map[any]bool{}}
	for _, w := range c.steps {
		if !w.gone {
			k.ends(w)
		}
	}
	return &Ages{c, k}
}

// Leaves is the food that a step leaves.
func (a *Ages) Leaves(d planner.DishKey, s planner.StepKey) *trace.Leaves {
	return a.c.foods.Leaves(d, s)
}

// Cold is how many minutes each sort of food that a step leaves has been in the refrigerator by the step's last end.
func (a *Ages) Cold(d planner.DishKey, s planner.StepKey) map[trace.Cold]int {
	out := map[trace.Cold]int{}
	if w := a.c.find(d, s); w != nil {
		for _, at := range a.k.done[w] {
			for sort, minutes := range at.cold {
				out[sort] = max(out[sort], minutes)
			}
		}
	}
	return out
}

// TableUntil is when what is left of a dish passes the counter's limit if it stands on after it is served; ok is false
// for what keeps.
func (a *Ages) TableUntil(d *planner.Dish) (until time.Time, ok bool) {
	note := func(from time.Time, left int) {
		if at := from.Add(time.Duration(left) * time.Minute); !ok || at.Before(until) {
			until, ok = at, true
		}
	}
	for _, s := range a.c.serves {
		if s.from.dish != d || !s.complete || !s.from.food.Perishable {
			continue
		}
		for i, j := range s.from.jobs {
			left := a.k.most(s.from) - a.k.done[s.from][i].counter
			if onCounter(s.wait.State) {
				note(j.end, left)
			} else {
				note(s.first, left)
			}
		}
	}
	if c := a.c.p.Course(d.Course); len(d.Steps) == 0 && d.BroughtBy != "" && c != nil && a.c.foods.Warms(d) {
		for _, s := range a.c.plan.Served {
			if s.Course == d.Course {
				note(s.At, a.k.limit.Minutes-int(a.c.foods.OnTheWay(d)))
			}
		}
	}
	return until, ok
}

// Stay is the longest that food of a dish comes to in the refrigerator, of the sort that is nearest to its limit.
type Stay struct {
	Dish    *planner.Dish
	Sort    trace.Cold
	Label   string // what a person calls it
	Minutes int
	Thawed  bool // hours in which it was frozen still are not counted
	Limit   safety.Limit
}

// Counter is what was followed on the counter, and what of it counts in another way than added up.
type Counter struct {
	Any     bool
	Rising  []string // dishes with a raw dough, which may stand twice as long: our own figure
	Hot     []string // dishes with a joint or bird, which count from when they have cooled to the danger zone
	Unknown []string // foods that no table knows, taken for food that spoils
}

func (o *Counter) note(w *workStep) {
	if !w.food.Perishable {
		return
	}
	o.Any = true
	add := func(names *[]string, name string) {
		if !slices.Contains(*names, name) {
			*names = append(*names, name)
		}
	}
	if w.food.Dough {
		add(&o.Rising, w.dish.Name)
	}
	if w.hot > 0 {
		add(&o.Hot, w.dish.Name)
	}
	for _, name := range w.food.Unknown {
		add(&o.Unknown, name)
	}
}

// Stays lists for each dish whose food is in the refrigerator at all its [Stay], in the menu's order, and what was
// followed on the counter.
func (a *Ages) Stays() (out []Stay, counter Counter) {
	for i := range a.c.p.Dishes {
		d := &a.c.p.Dishes[i]
		var most *Stay
		note := func(w *workStep, cold map[trace.Cold]int) {
			for sort, minutes := range cold {
				l := a.c.p.RefrigeratorLimit(sort.Kind)
				if !l.Applies() || minutes < 1 || most != nil && (minutes*most.Limit.Minutes < most.Minutes*l.Minutes ||
					minutes*most.Limit.Minutes == most.Minutes*l.Minutes &&
						food.Stricter(most.Sort.Kind, sort.Kind) == most.Sort.Kind) {
					continue
				}
				most = &Stay{d, sort, w.food.Label(sort), minutes, a.c.thaws(d, sort.Kind), l}
			}
		}
		for _, w := range a.c.steps {
			if w.dish != d {
				continue
			}
			counter.note(w)
			for _, at := range a.k.done[w] {
				note(w, at.cold)
			}
		}
		for _, w := range a.c.steps {
			if w.dish == d {
				a.waits(w, func(_ *workStep, at clock) { note(w, at.cold) })
			}
		}
		if most != nil {
			out = append(out, *most)
		}
	}
	return out, counter
}

// thaws says whether a step of a dish thaws food of a kind in the refrigerator.
func (c *checker) thaws(d *planner.Dish, k safety.Kind) bool {
	return slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return propose.FrozenIn(c.p, d, &s, k) > 0 })
}

// waits calls for every wait of a step's food with what the clocks show at its end; to is nil where it is served then.
func (a *Ages) waits(w *workStep, each func(to *workStep, end clock)) {
	for i, at := range a.k.done[w] {
		j := w.jobs[i]
		for _, s := range a.c.serves {
			if s.from == w && s.complete {
				each(nil, a.k.waited(s, w, j, at, s.wait.State, gap(j.end, s.last), lastService))
			}
		}
		for _, x := range a.c.arcs {
			if x.from != w {
				continue
			}
			for _, next := range x.to.jobs {
				each(x.to, a.k.waited(x, w, j, at, x.wait.State, gap(j.end, next.start), lastService))
			}
		}
	}
}

// Spare is by how many minutes a step can start later before a published limit ends the stays of the food that waits
// for it, all of them together and those that come after too; ok is false where no limit does. What is gained by a
// shorter wait behind the step is left out of account, so that it never says too much. It is negative where a limit is
// passed already.
func (a *Ages) Spare(d planner.DishKey, s planner.StepKey) (minutes int, ok bool) {
	w := a.c.find(d, s)
	if w == nil {
		return 0, false
	}
	left := math.MaxInt
	for _, x := range a.c.arcs {
		if x.to != w {
			continue
		}
		for i, j := range x.from.jobs {
			for _, next := range w.jobs {
				left = min(left, a.left(x.from, a.k.waited(x, x.from, j, a.k.done[x.from][i], x.wait.State,
					gap(j.end, next.start), lastService), x.wait.State, w))
			}
		}
	}
	return left, left < math.MaxInt
}

// left is what a wait's clock has left at its end, and at every end that it reaches after it.
func (a *Ages) left(from *workStep, at clock, state planner.State, to *workStep) int {
	left := math.MaxInt
	if !from.food.Perishable {
		return left
	}
	switch state {
	case planner.Counter, planner.Warm: // what goes straight on moves along
		return min(a.k.most(from)-at.counter, a.counterAfter(to, len(a.c.steps)))
	case planner.Refrigerator:
		for sort, minutes := range at.cold {
			l := a.c.p.RefrigeratorLimit(sort.Kind)
			if l.Applies() {
				left = min(left, l.Minutes-minutes, a.coldAfter(to, sort, l.Minutes, len(a.c.steps)))
			}
		}
	}
	return left
}

// counterAfter is the least that the counter's clock has left at a step's ends, at the waits after it and beyond.
func (a *Ages) counterAfter(w *workStep, depth int) int {
	left := math.MaxInt
	if w.food.Anew || depth == 0 {
		return left
	}
	for i, at := range a.k.done[w] {
		if w.food.Perishable {
			left = min(left, a.k.most(w)-at.counter)
			if soon, bound := a.k.soonMost(w, w.jobs[i]); bound {
				left = min(left, soon-at.counter)
			}
		}
	}
	a.waits(w, func(to *workStep, end clock) {
		if to == nil {
			end.counter += a.c.table[w.dish.Key]
		}
		if to == nil || w.food.Perishable {
			left = min(left, a.k.most(w)-end.counter)
		}
	})
	for _, x := range a.c.arcs {
		if x.from == w {
			left = min(left, a.counterAfter(x.to, depth-1))
		}
	}
	return left
}

// coldAfter is the same for one sort of food in the refrigerator.
func (a *Ages) coldAfter(w *workStep, sort trace.Cold, most, depth int) int {
	left := math.MaxInt
	if depth == 0 || !slices.Contains(w.food.Colds(), sort) {
		return left
	}
	for _, at := range a.k.done[w] {
		left = min(left, most-at.cold[sort])
	}
	a.waits(w, func(_ *workStep, end clock) { left = min(left, most-end.cold[sort]) })
	for _, x := range a.c.arcs {
		if x.from == w {
			left = min(left, a.coldAfter(x.to, sort, most, depth-1))
		}
	}
	return left
}
