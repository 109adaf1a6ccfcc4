// Package dial turns a plan's ovens to settings that a cook would choose. Any temperature within the dishes' tolerances
// is as good to the engine, and 167 °C is none that a dial has; so each load is set to what its dish asks for, or to
// the nearest mark that suits all that share it, wherever package check finds nothing wrong with it.
package dial

import (
	"slices"

	"tureen/planner"
	"tureen/planner/check"
)

// ovenMark is the step of the marks on an oven's dial, in °C.
const ovenMark = 5

// turned is one load of a plan with the use that it answers.
type turned struct {
	held *planner.Held
	use  *planner.Use
	next *planner.Use // the oven that its food waits in afterwards, perhaps for no time as planned; nil: none
}

// Turn turns ovens to what the dishes ask for, and to marks that a dial has, wherever the plan stays sound.
func Turn(judge *check.Judge, p *planner.Party, plan *planner.Plan) {
	loads := ovenLoads(p, plan)
	for len(loads) > 0 {
		var together []turned
		together, loads = sharing(loads)
		c, ok := bestMark(p, together)
		before := together[0].held.C
		if !ok || c == before {
			continue
		}
		setTo(together, c)
		if len(judge.Plan(plan)) > 0 {
			setTo(together, before)
		}
	}
}

func setTo(loads []turned, c int) {
	for _, l := range loads {
		l.held.C = c
	}
}

// ovenLoads lists a plan's loads by start, without those that have begun or whose temperature changes.
func ovenLoads(p *planner.Party, plan *planner.Plan) []turned {
	var out []turned
	for i := range plan.Tasks {
		t := &plan.Tasks[i]
		dish, step, _, _, _ := t.Task.Split()
		d := p.Dish(dish)
		if d == nil || d.Step(step) == nil {
			continue
		}
		if w := p.WorkOn(t.Task); w != nil && w.Progress != planner.Waiting {
			continue
		}
		for k := range t.Uses {
			if h := &t.Uses[k]; h.What == planner.AnOven && h.C > 0 {
				first := h.From.Equal(t.Start)
				if u := usedFor(p, d, d.Step(step), first); u != nil && len(u.Then) == 0 {
					l := turned{held: h, use: u}
					if first {
						l.next = usedFor(p, d, d.Step(step), false)
					}
					out = append(out, l)
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b turned) int { return a.held.From.Compare(b.held.From) })
	return out
}

// usedFor is the oven that a step uses, or that food waits in after it.
func usedFor(p *planner.Party, d *planner.Dish, s *planner.Step, atStart bool) *planner.Use {
	if atStart {
		for i := range s.Uses {
			if s.Uses[i].What == planner.AnOven {
				return &s.Uses[i]
			}
		}
		return nil
	}
	if s.Serve != nil && s.Serve.Hold != nil && s.Serve.Hold.What == planner.AnOven {
		return s.Serve.Hold
	}
	for i := range p.Dishes {
		for j := range p.Dishes[i].Steps {
			for _, a := range p.Dishes[i].Steps[j].After {
				same := a.Dish == d.Key || a.Dish == "" && p.Dishes[i].Key == d.Key
				if same && a.Step == s.Key && a.Wait.Hold != nil && a.Wait.Hold.What == planner.AnOven {
					return a.Wait.Hold
				}
			}
		}
	}
	return nil
}

// sharing splits off the first load with all that share its oven and setting, one overlapping the next.
func sharing(loads []turned) (together, rest []turned) {
	together = []turned{loads[0]}
	end := loads[0].held.To
	for _, l := range loads[1:] {
		first := loads[0].held
		if l.held.Name == first.Name && l.held.C == first.C && l.held.From.Before(end) {
			together = append(together, l)
			end = planner.Later(end, l.held.To)
		} else {
			rest = append(rest, l)
		}
	}
	return together, rest
}

// bestMark is the mark within all tolerances that is nearest to what is asked for, in sum; the lower of two.
func bestMark(p *planner.Party, loads []turned) (int, bool) {
	o := p.Kitchen.Oven(loads[0].held.Name)
	if o == nil {
		return 0, false
	}
	lo, hi := o.MinC, o.MaxC
	for _, l := range loads {
		a, b := within(o, l.use)
		lo, hi = max(lo, a), min(hi, b)
	}
	for _, l := range loads { // if dinner is late it stays in there, where it can without a change of setting
		if l.next == nil {
			continue
		}
		if a, b := within(o, l.next); max(lo, a) <= min(hi, b) {
			lo, hi = max(lo, a), min(hi, b)
		}
	}
	best, off := 0, -1
	for c := (lo + ovenMark - 1) / ovenMark * ovenMark; c <= hi; c += ovenMark {
		sum := 0
		for _, l := range loads {
			sum += max(c-l.use.C, l.use.C-c)
		}
		if off < 0 || sum < off {
			best, off = c, sum
		}
	}
	return best, off >= 0
}

// within are an oven's settings that suit a use; none where it has none, or a programme of its own.
func within(o *planner.Oven, u *planner.Use) (lo, hi int) {
	if u.C == 0 || len(u.Then) > 0 {
		return 1, 0
	}
	return max(u.C-u.Tolerance, o.MinC), min(u.C+u.Tolerance, o.MaxC)
}
