package trace_test

import (
	"fmt"
	"testing"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/trace"
)

func TestZZDump(t *testing.T) {
	rich, _ := partygen.Rich()
	var ps = []*planner.Party{rich, partygen.Dinner(12), partygen.Supper("meat"), partygen.ShapedFrom(1, partygen.Shape{Dishes: 16, People: 4, Ovens: 2, Days: 3}).Party}
	for _, p := range ps {
		tr := trace.Of(p)
		for i := range p.Dishes {
			d := &p.Dishes[i]
			for j := range d.Steps {
				s := &d.Steps[j]
				l := tr.Leaves(d.Key, s.Key)
				mark := ""
				if s.Leaves.Perishable != l.Perishable || s.Leaves.PartCooked != l.PartCooked || s.Leaves.Kind != l.Kind() {
					mark = " <<<"
				}
				fmt.Printf("%s/%s %q said %v/%v part %v | %v %v part %v tofin %v anew %v dough %v hot %v unk %q%s\n", d.Key, s.Key, s.Do, s.Leaves.Perishable, s.Leaves.Kind, s.Leaves.PartCooked, l.Perishable, l.Colds(), l.PartCooked, l.ToFinish, l.Anew, l.Dough, l.Hot, l.Unknown, mark)
			}
		}
	}
}
