package partygen

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
)

// Show writes a plan for a failing test.
func Show(plan *planner.Plan) string {
	if plan == nil {
		return "no plan"
	}
	var text strings.Builder
	text.WriteString(fmt.Sprintf("made %s", plan.Made.UTC().Format("Mon 15:04")))
	for _, s := range plan.Served {
		text.WriteString(fmt.Sprintf("; %s %s %s", s.Course, s.Group, s.At.UTC().Format("15:04")))
	}
	text.WriteString("\n")
	tasks := slices.Clone(plan.Tasks)
	slices.SortStableFunc(tasks, func(a, b planner.Placed) int { return a.Start.Compare(b.Start) })
	for _, t := range tasks {
		text.WriteString(fmt.Sprintf("  %s %s-%s %v", t.Task, t.Start.UTC().Format("Mon 15:04"), t.End.UTC().Format("15:04"),
			t.People))
		for _, h := range t.Uses {
			text.WriteString(fmt.Sprintf(" %s %s×%d %d°C %s-%s", h.What, h.Name, h.Amount, h.C, h.From.UTC().Format("15:04"),
				h.To.UTC().Format("15:04")))
		}
		text.WriteString("\n")
	}
	return text.String()
}
