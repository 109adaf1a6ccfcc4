package planner

import (
	"slices"
	"strings"

	"tureen/planner/words"
)

// ValidateChore lists what makes no sense in a chore.
func ValidateChore(p *Party, c *Chore) []Problem {
	var out problems
	where := string(ChoreTask(c.Key))
	out.key(where, string(c.Key))
	if !slices.Contains([]ChoreKind{Shop, Thaw, LayTable, Chill, Ice, Cool, ClearRefrigerator, SetOut, Wash, Dress,
		Serve, Other},
		c.Kind) {
		out.add(where, "Say what kind of task it is: shop, thaw, table, chill, ice, cool, clear refrigerator, set out, "+
			"wash, dress or other, not %q.", c.Kind)
	}
	out.text(where, "what is done", c.Do, MaxText, false)
	out.job(p, where, job{c.Attention, c.Hands, c.MaxHands, c.Time, c.Away, c.Who})
	if !slices.Contains([]State{Straight, Counter, Refrigerator, Freezer}, c.Where) {
		out.add(where, "Say where it lies meanwhile: counter, refrigerator or freezer, not %q.", c.Where)
	}
	out.within(where, "the millilitres of space", c.Leaves.Millilitres, 0, maxLitres*1000)
	out.within(where, "the flat places", c.Leaves.Flat, 0, 50)
	for i := range c.Uses {
		out = append(out, ValidateUse(p, where, &c.Uses[i])...)
		if c.Uses[i].Through != "" {
			out.add(where, "Let %s use equipment for its own time only: no step follows a task that is no dish.", c.Key)
		}
		for _, st := range c.Uses[i].Then {
			if st.After >= c.Time.Likely {
				out.add(where, "Change the oven's temperature within the %s it takes, not after %s.",
					words.Length(c.Time.Likely), words.Length(st.After))
			}
		}
	}
	if c.From != nil {
		out.anchor(p, c, c.From)
		if w := c.From.Within; w != 0 && w < c.Time.Likely {
			out.add(where, "Give it at least the %s that it takes after what it comes after, not %s.",
				words.Length(c.Time.Likely), words.Length(w))
		}
	}
	for i := range c.By {
		out.anchor(p, c, &c.By[i])
	}
	if o := c.Open; o != (DayHours{}) {
		switch {
		case o.From < 0 || o.Until > 30*60 || o.Until <= o.From:
			out.add(where, "Say from when to when it is open on a day, such as 9:00-19:00.")
		case o.Until-o.From < c.Time.Likely:
			out.add(where, "Give it at least the %s that it takes: it is open from %s to %s.", words.Length(c.Time.Likely),
				o.From.Clock(), o.Until.Clock())
		}
	}
	return out
}

func (ps *problems) anchor(p *Party, c *Chore, a *Anchor) {
	where := string(ChoreTask(c.Key))
	set := 0
	for _, is := range []bool{a.At != nil, a.Arrival, a.Course != "", a.Task != ""} {
		if is {
			set++
		}
	}
	if set != 1 {
		ps.add(where, "Hang %s on one thing: a time, the arrival, a course or a task.", c.Key)
		return
	}
	if a.Offset < -MaxWait || a.Offset > MaxWait || a.Within < 0 || a.Within > MaxWait {
		ps.add(where, "Give distances of at most 30 days.")
	}
	if a.Course != "" && p.Course(a.Course) == nil {
		ps.add(where, "Hang it on a course of the party; there is no %q.%s", a.Course,
			didYouMean(string(a.Course), names(p.Courses, func(c Course) string { return string(c.Key) })))
	}
	if a.Task == "" {
		return
	}
	if a.Task == ChoreTask(c.Key) {
		ps.add(where, "Hang it on another task: %s cannot wait for itself.", c.Key)
		return
	}
	if known := taskNames(p); !slices.Contains(known, string(a.Task)) {
		ps.add(where, "Hang it on a task of the plan; there is no %q.%s", a.Task, didYouMean(string(a.Task), known))
	}
}

// comesAfter says whether a later step of a dish comes after an earlier one, directly or through others.
func comesAfter(d *Dish, later, earlier StepKey) bool {
	seen := map[StepKey]bool{}
	var look func(StepKey) bool
	look = func(k StepKey) bool {
		s := d.Step(k)
		if s == nil || seen[k] {
			return false
		}
		seen[k] = true
		for _, a := range s.After {
			if a.Dish != "" && a.Dish != d.Key {
				continue
			}
			if a.Step == earlier || look(a.Step) {
				return true
			}
		}
		return false
	}
	return look(later)
}

// circles finds tasks that wait for each other in a circle, and names one circle for each such group.
func (ps *problems) circles(p *Party) {
	before := map[TaskKey][]TaskKey{}
	var all []TaskKey
	add := func(later, earlier TaskKey) { before[later] = append(before[later], earlier) }
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for j := range d.Steps {
			s := &d.Steps[j]
			k := StepTask(d.Key, s.Key, 1)
			all = append(all, k)
			for _, a := range s.After {
				of := a.Dish
				if of == "" {
					of = d.Key
				}
				if earlier := StepTask(of, a.Step, 1); earlier != k {
					add(k, earlier)
				}
			}
		}
	}
	for i := range p.Chores {
		c := &p.Chores[i]
		k := ChoreTask(c.Key)
		all = append(all, k)
		if c.From != nil && c.From.Task != "" && c.From.Offset >= 0 {
			add(k, firstRound(c.From.Task))
		}
		for _, a := range c.By {
			if a.Task != "" && a.Offset <= 0 {
				add(firstRound(a.Task), k)
			}
		}
	}
	const open, closed = 1, 2
	state := map[TaskKey]int{}
	var path []TaskKey
	var visit func(TaskKey)
	visit = func(k TaskKey) {
		state[k] = open
		path = append(path, k)
		for _, b := range before[k] {
			if b == k {
				continue
			}
			switch state[b] {
			case 0:
				visit(b)
			case open:
				circle := append(slices.Clone(path[slices.Index(path, b):]), b)
				slices.Reverse(circle)
				list := make([]string, len(circle))
				for i, c := range circle {
					list[i] = string(c)
				}
				ps.add(string(b), "Take one of these out of the circle, since each waits for the one before it: %s.",
					strings.Join(list, ", then "))
			}
		}
		path = path[:len(path)-1]
		state[k] = closed
	}
	for _, k := range all {
		if state[k] == 0 {
			visit(k)
		}
	}
}

// firstRound is the key of a task's first round; a chore's key stays.
func firstRound(k TaskKey) TaskKey {
	d, s, _, chore, ok := k.Split()
	if !ok || chore != "" {
		return k
	}
	return StepTask(d, s, 1)
}
