package trace_test

import (
	"fmt"
	"testing"

	"tureen/planner"
	"tureen/planner/repertoire"
	"tureen/planner/trace"
)

func TestCards(t *testing.T) {
	for _, c := range repertoire.List() {
		d := c.Dish()
		bare := d
		bare.Steps = append([]planner.Step(nil), d.Steps...)
		for i := range bare.Steps {
			bare.Steps[i].Leaves = planner.Food{}
		}
		tr := trace.OfDish(&planner.Party{}, &bare)
		for i := range bare.Steps {
			s := &bare.Steps[i]
			l := tr.Leaves(d.Key, s.Key)
			mark := ""
			said := d.Steps[i].Leaves
			if said.Perishable != l.Perishable || said.PartCooked != l.PartCooked {
				mark = "  <<<<"
			}
			fmt.Printf("%s/%s %q said %v %s part %v: %v %s part %v anew %v unknown %v%s\n", d.Key, s.Key, s.Do, said.Perishable, said.Kind, said.PartCooked, l.Perishable, l.Kind(), l.PartCooked, l.Anew, l.Unknown, mark)
		}
	}
}
