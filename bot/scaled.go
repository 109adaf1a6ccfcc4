package bot

import (
	"fmt"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/scale"
	"tureen/planner/words"
)

// mostScaled is how many lines about other covers a reply has; /dish show has a dish's own.
const mostScaled = 8

// scaled says how a dish is done for the covers that it is made for, where that is otherwise than the dish has it.
func (t *Turn) scaled(d *planner.Dish) []talk.Section {
	lines := append(scale.Work(t.Party, d), scale.Pans(t.Party, d)...)
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: "For " + words.Count(d.Makes(t.Party), "cover"), Lines: lines}}
}

// scaledMenu says it of every dish, after the party's covers have changed: what was so before is left out.
func (t *Turn) scaledMenu() []talk.Section {
	before := map[string]bool{}
	for i := range t.snapshot.Party.Dishes {
		d := &t.snapshot.Party.Dishes[i]
		for _, line := range scale.Work(&t.snapshot.Party, d) {
			before[d.Name+line] = true
		}
	}
	var lines []string
	for i := range t.Party.Dishes {
		d := &t.Party.Dishes[i]
		for _, line := range scale.Work(t.Party, d) {
			if !before[d.Name+line] {
				lines = append(lines, d.Name+": "+words.Lower(line))
			}
		}
	}
	if n := len(lines); n > mostScaled {
		lines = append(lines[:mostScaled-1:mostScaled-1], fmt.Sprintf("and %d more; /dish show has each dish's own",
			n-mostScaled+1))
	}
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: "For " + words.Count(t.Party.Covers, "cover"), Lines: lines}}
}
