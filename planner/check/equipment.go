package check

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
)

// need is what a task, or the wait after it, asks of the kitchen.
type need struct {
	job      *workJob
	use      *planner.Use
	from, to time.Time
	then     *workStep // the step that the food goes on to after this wait; nil: none, or no wait
	of       int       // which of the step's uses, from 1; 0: a chore's, or the hold of a wait
}

// holding is a need with what the plan gives for it.
type holding struct {
	need
	name   string // of the oven, source, appliance or vessel
	amount int
	c      int // an oven's setting
}

// equipment checks rule 4.
func (c *checker) equipment() {
	var held []holding
	for _, j := range c.jobs {
		if !j.gone {
			held = append(held, c.given(j, c.needs(j))...)
		}
	}
	c.capacity(held)
	c.ovens(held)
}

// needs lists what a task asks for, from the documentation of [Use] and [Wait].
func (c *checker) needs(j *workJob) []need {
	var out []need
	addWait := func(u *planner.Use, from, to time.Time, then *workStep) {
		if from.Before(to) {
			out = append(out, need{job: j, use: u, from: from, to: to, then: then})
		}
	}
	add := func(u *planner.Use, from, to time.Time) { addWait(u, from, to, nil) }
	if j.chore != nil {
		for i := range j.chore.Uses {
			add(&j.chore.Uses[i], j.start, j.end)
		}
		return out
	}
	for i := range j.of.uses {
		u := &j.of.uses[i]
		to := j.end
		if u.Through != "" {
			if until := c.find(j.of.dish.Key, u.Through); until != nil && until.last.After(to) {
				to = until.last
			}
		}
		if j.start.Before(to) {
			out = append(out, need{job: j, use: u, of: i + 1, from: j.start, to: to})
		}
	}
	for _, a := range c.arcs {
		if a.from != j.of || a.passed || a.wait.Hold == nil {
			continue
		}
		if last := lastStart(a.to.jobs); last != nil {
			addWait(a.wait.Hold, j.end, last.start, a.to)
		}
	}
	for _, a := range c.serves {
		if a.from == j.of && !a.passed && a.wait.Hold != nil && a.complete {
			add(a.wait.Hold, j.end, a.last)
		}
	}
	return out
}

// fits says whether what the plan gives answers a need, its times aside.
func (n *need) fits(h *planner.Held) bool {
	if h.What != n.use.What || h.Amount != n.use.Units() {
		return false
	}
	switch n.use.What {
	case planner.ABurner, planner.AGrill, planner.ACounter:
		return true
	}
	return n.use.Name == "" || n.use.Name == h.Name
}

// given pairs a task's needs with what the plan gives it. Of settled work only what it holds after the
// plan's making counts; there the plan need not say more than which oven.
func (c *checker) given(j *workJob, needs []need) []holding {
	var out []holding
	taken := make([]bool, len(j.uses))
	var open []need
	for _, n := range needs {
		if j.settled && !n.to.After(c.plan.Made) {
			continue
		}
		i := 0
		for ; i < len(j.uses); i++ {
			if h := &j.uses[i]; !taken[i] && n.fits(h) && (j.settled || h.From.Equal(n.from) && h.To.Equal(n.to)) {
				break
			}
		}
		if i == len(j.uses) {
			open = append(open, n)
			continue
		}
		taken[i] = true
		out = append(out, holding{n, j.uses[i].Name, n.use.Units(), j.uses[i].C})
	}
	for _, n := range open {
		if j.settled {
			if n.use.What != planner.AnOven {
				out = append(out, holding{n, n.use.Name, n.use.Units(), 0})
			} else if name, ok := c.onlyOven(n.use); ok {
				out = append(out, holding{n, name, n.use.Units(), n.use.C})
			} else {
				c.broken(RuleEquipment, j.key, "The plan does not say which oven %s is in.", j.label())
			}
			continue
		}
		// A gift of the same kind that fits badly is the same break.
		for i := range j.uses {
			if !taken[i] && j.uses[i].What == n.use.What {
				taken[i] = true
				break
			}
		}
		c.broken(RuleEquipment, j.key, "%s needs %s from %s to %s, and the plan does not hold just that for it.", j.label(),
			useName(n.use), c.at(n.from), c.at(n.to))
	}
	for i, h := range j.uses {
		if !taken[i] && !j.settled {
			c.broken(RuleEquipment, j.key, "The plan holds %s for %s, which does not need it.", heldName(&h), j.label())
		}
	}
	return out
}

func (c *checker) onlyOven(u *planner.Use) (string, bool) {
	switch {
	case u.Name != "":
		return u.Name, true
	case len(c.p.Kitchen.Ovens) == 1:
		return c.p.Kitchen.Ovens[0].Name, true
	}
	return "", false
}

func useName(u *planner.Use) string {
	name := string(u.What)
	if u.Name != "" {
		name = "the " + u.Name
	}
	if u.What == planner.AnOven && u.C > 0 {
		name = fmt.Sprintf("%s at %d °C", name, u.C)
	}
	if u.Units() > 1 {
		name = fmt.Sprintf("%d of %s", u.Units(), name)
	}
	return name
}

func heldName(h *planner.Held) string {
	if h.Name != "" {
		return "the " + h.Name
	}
	return string(h.What)
}

// capacity checks everything but ovens: never more in use than there is.
func (c *checker) capacity(held []holding) {
	type kind struct {
		what planner.Equipment
		name string
	}
	var kinds []kind
	by := map[kind][]holding{}
	for _, h := range held {
		k := kind{what: h.use.What}
		switch k.what {
		case planner.AnOven:
			continue
		case planner.AHotPlace, planner.AnAppliance, planner.AVessel:
			k.name = h.use.Name
		}
		if by[k] == nil {
			kinds = append(kinds, k)
		}
		by[k] = append(by[k], h)
	}
	for _, k := range kinds {
		if !c.p.Kitchen.Binds(k.what, k.name) {
			continue
		}
		c.excess(by[k], c.have(k.what, k.name), func(h *holding, n, have int, at time.Time) {
			c.broken(RuleEquipment, h.job.key, "At %s %d × %s would be in use, and the kitchen has %d.", c.at(at), n,
				kindName(k.what, k.name), have)
		})
	}
}

func kindName(what planner.Equipment, name string) string {
	if name != "" {
		return name
	}
	return string(what)
}

func (c *checker) have(what planner.Equipment, name string) int {
	k := &c.p.Kitchen
	var list []planner.Ware
	switch what {
	case planner.ABurner:
		return k.Burners
	case planner.AGrill:
		return k.Grills
	case planner.ACounter:
		return k.Counter
	case planner.AHotPlace:
		list = k.HotPlaces
	case planner.AnAppliance:
		list = k.Appliances
	case planner.AVessel:
		list = k.Vessels
	}
	for _, w := range list {
		if w.Name == name {
			return w.Count
		}
	}
	return 0
}

// excess names each stretch of time in which more is held than there is and an unsettled task takes part.
func (c *checker) excess(held []holding, have int, name func(h *holding, n, have int, at time.Time)) {
	spans := make([]stretch, len(held))
	for i, h := range held {
		spans[i] = stretch{from: h.from, to: h.to, size: h.amount, fixed: h.job.settled}
	}
	tooMuch(spans, have, func(i, n int, at time.Time) { name(&held[i], n, have, at) })
}

// stretch is something taken for a stretch of time.
type stretch struct {
	from, to time.Time
	size     int
	fixed    bool
}

// tooMuch calls name once for each longest stretch of time in which more is taken than there is and not
// everything is fixed: with one that is being taken at its first minute, how much is, and when.
func tooMuch(spans []stretch, have int, name func(i, n int, at time.Time)) {
	var marks []time.Time
	for _, s := range spans {
		if s.from.Before(s.to) {
			marks = append(marks, s.from, s.to)
		}
	}
	slices.SortFunc(marks, time.Time.Compare)
	marks = slices.CompactFunc(marks, time.Time.Equal)
	within := false
	for _, at := range marks {
		n, free, newest := 0, false, 0
		for i, s := range spans {
			if s.from.After(at) || !s.to.After(at) {
				continue
			}
			n += s.size
			free = free || !s.fixed
			if s.from.Equal(at) {
				newest = i
			}
		}
		excess := n > have && free
		if excess && !within {
			name(newest, n, at)
		}
		within = excess
	}
}
