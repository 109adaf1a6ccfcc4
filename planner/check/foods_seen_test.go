package check_test

import (
	"testing"

	"tureen/planner"
	"tureen/planner/trace"
)

// foods counts what the food clocks of some parties have to tell apart.
type foods struct{ anew, dough, sorts, partCooked, toFinish, unknown int }

// look counts a party once for each that it has.
func (f *foods) look(p *planner.Party) {
	var has foods
	tr := trace.Of(p)
	for i := range p.Dishes {
		for j := range p.Dishes[i].Steps {
			s := &p.Dishes[i].Steps[j]
			l := tr.Leaves(p.Dishes[i].Key, s.Key)
			mark := func(n *int, is bool) {
				if is {
					*n = 1
				}
			}
			mark(&has.anew, l.Anew)
			mark(&has.dough, l.Dough)
			mark(&has.sorts, len(l.Colds()) > 1)
			mark(&has.partCooked, l.PartCooked)
			mark(&has.toFinish, l.ToFinish)
			mark(&has.unknown, len(l.Unknown) > 0)
		}
	}
	f.anew, f.dough, f.sorts = f.anew+has.anew, f.dough+has.dough, f.sorts+has.sorts
	f.partCooked, f.toFinish = f.partCooked+has.partCooked, f.toFinish+has.toFinish
	f.unknown += has.unknown
}

// want fails where one of them never came.
func (f *foods) want(t *testing.T) {
	t.Helper()
	t.Logf("parties with what begins anew, a dough, several sorts, part-cooked, to be finished, unknown: %+v", *f)
	if f.anew == 0 || f.dough == 0 || f.sorts == 0 || f.partCooked == 0 || f.toFinish == 0 || f.unknown == 0 {
		t.Error("one of them never comes")
	}
}
