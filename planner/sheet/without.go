package sheet

import (
	"slices"
	"strings"

	"tureen/planner"
)

// Without says of each dish that an evening plan does not go on with why, and what can be done: nothing, where a
// published limit is in the way; else what would keep it, with the message for it.
func Without(p *planner.Party, plan *planner.Plan) []string {
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
			out = append(out,
				line+" It has passed that limit, or would before it is served. Throw it away, or ask your"+
					" food authority: I cannot tell you that it may be eaten.")
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

// goesOnWith is the party without the dishes that a plan leaves out: no sheet speaks of them.
func goesOnWith(p *planner.Party, plan *planner.Plan) *planner.Party {
	if plan == nil || len(plan.Without) == 0 {
		return p
	}
	rest := *p
	rest.Dishes = slices.DeleteFunc(slices.Clone(p.Dishes), func(d planner.Dish) bool { return plan.LeavesOut(d.Key) })
	return &rest
}
