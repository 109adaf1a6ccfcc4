package trace_test

import (
	"slices"
	"strings"
	"testing"

	"tureen/planner"
	"tureen/planner/repertoire"
	"tureen/planner/trace"
)

// The ready dishes say of each step what it leaves. What they say spoils, or is part-cooked, is inferred to be so
// without
// their word, but for fruit that is sour by the table.
func TestCardsNeedNotSayWhatTheyLeave(t *testing.T) {
	sour := []string{"fennel-and-orange-salad", "pears-in-spiced-wine"}
	steps, spoil := 0, 0
	for _, c := range repertoire.List() {
		d := c.Dish()
		bare := d
		bare.Steps = slices.Clone(d.Steps)
		for i := range bare.Steps {
			bare.Steps[i].Leaves = planner.Food{}
		}
		tr := trace.OfDish(&planner.Party{}, &bare)
		for _, s := range d.Steps {
			l := tr.Leaves(d.Key, s.Key)
			if steps++; s.Leaves.Perishable {
				spoil++
			}
			if s.Leaves.Perishable && !l.Perishable && !slices.Contains(sour, string(d.Key)) ||
				s.Leaves.PartCooked != l.PartCooked {
				t.Errorf("%s/%s, %q: said to spoil: %v, part-cooked: %v; inferred: %s", d.Key, s.Key, s.Do, s.Leaves.Perishable,
					s.Leaves.PartCooked, told(l))
			}
			if len(l.Unknown) > 0 {
				t.Errorf("%s/%s: nobody knows %s", d.Key, s.Key, strings.Join(l.Unknown, ", "))
			}
		}
	}
	if spoil < 50 || steps == spoil {
		t.Errorf("only %d of %d steps are said to spoil", spoil, steps)
	}
}
