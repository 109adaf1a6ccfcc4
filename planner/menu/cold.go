package menu

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/cooling"
)

// wholeAndCold says of birds and of large joints that they do not go cold as they are.
func wholeAndCold(p *planner.Party) []string {
	var out []string
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for _, g := range cooling.Of(p, d) {
			if g.Task && (g.Food.Bird() || g.Food.Joint()) {
				line := fmt.Sprintf("%s: %s. The plan gets a chore for it.", d.Name, g.Do())
				if !slices.Contains(out, line) { // what is chilled twice is said once
					out = append(out, line)
				}
			}
		}
	}
	return out
}
