package sheet

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/check"
)

// Without says of each dish that an evening plan does not go on with why, and what can be done: nothing, where a
// published limit is in the way; else what would keep it, with the message for it.
func Without(p *planner.Party, plan *planner.Plan, now time.Time, f Format) []string {
	if plan == nil {
		return nil
	}
	var out []string
	for _, l := range plan.Without {
		d := p.Dish(l.Dish)
		if d == nil {
			continue
		}
		line := clean(l.Why)
		if !strings.HasPrefix(line, clean(d.Name)) {
			line = clean(d.Name) + ": " + line
		}
		if l.Limit {
			out = append(out, line+" "+passed(p, d, now, f)+" "+clean(check.Instead(p, plan, d)))
			continue
		}
		var keep []string
		for _, m := range l.Mends {
			var parts []string
			for _, c := range append([]planner.Mend{m}, m.With...) {
				part := strings.TrimRight(c.Text, ".")
				if c.Do != "" {
					part += ": /" + c.Do
				}
				parts = append(parts, part)
			}
			keep = append(keep, strings.Join(parts, " and "))
		}
		if len(keep) > 0 {
			line += " To keep it: " + strings.Join(keep, "; or ") + "; then /plan make."
		}
		out = append(out, line)
	}
	return out
}

// passed says when a dish's food passes the limit by what was ticked off, and what to do. Food is to be thrown away for
// its own time alone, never for what somebody forgot to tick off.
func passed(p *planner.Party, d *planner.Dish, now time.Time, f Format) string {
	const ask = "I cannot tell you that it may be eaten: ask your food authority if in doubt."
	at, stands := check.Passes(p, d.Key)
	if !stands {
		return "It would pass that limit before it is served. Nothing of it is known to stand out of the cold now."
	}
	when := f.near(at.At, p.Arrival)
	switch over := !at.At.After(now); {
	case over && at.Told:
		return fmt.Sprintf("By what was ticked off it passed that limit at %s. Throw it away. %s", when, ask)
	case over:
		return fmt.Sprintf("It is not known since when it has stood; by the plan it passed its limit at %s: throw it away "+
			"unless you know that it was in the cold before (/task done task:%s/%s at:… says when). %s", when, d.Key,
			at.Step.Key, ask)
	case at.Told:
		return fmt.Sprintf("By what was ticked off it passes that limit at %s, before it is served: into the cold with it, "+
			"or serve it before then.", when)
	}
	return fmt.Sprintf("Nobody said since when it has stood; by the plan it passes that limit at %s, before it is "+
		"served: into "+
		"the cold with it, or serve it before then.", when)
}

// goesOnWith is the party without the dishes that a plan leaves out: no sheet speaks of them.
func goesOnWith(p *planner.Party, plan *planner.Plan) *planner.Party {
	if plan == nil || len(plan.Without) == 0 {
		return p
	}
	rest := *p
	rest.Dishes = slices.DeleteFunc(slices.Clone(p.Dishes), func(d planner.Dish) bool { return plan.LeavesOut(d.Key) })
	return &rest
}
