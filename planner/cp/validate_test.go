package cp

import (
	"strings"
	"testing"
)

func TestValidate(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(p *Problem)
		want  string // in the error; empty: valid
	}{
		{"good", func(*Problem) {}, ""},
		{"empty domain", func(p *Problem) { p.NewVar(2, 1, "x") }, "variable 2 (x): empty domain"},
		{"bound too large", func(p *Problem) { p.NewVar(0, MaxValue+1, "x") }, "out of range"},
		{"no such variable", func(p *Problem) { p.AddClause(Var(9).True()) }, "clause 0: no variable 9"},
		{"lag without variable", func(p *Problem) { p.AddLag(Var(7).At(), Const(0), 1) }, "lag 0: no variable 7"},
		{"negative demand", func(p *Problem) {
			p.Cumulatives = []Cumulative{{Name: "r", Capacity: 1, Uses: []Use{{Const(0), Const(1), -1, nil}}}}
		}, "cumulative 0 (r): negative demand"},
		{"negative capacity", func(p *Problem) { p.Cumulatives = []Cumulative{{Capacity: -1}} }, "negative capacity"},
		{"kind without setup", func(p *Problem) {
			p.Disjunctives = []Disjunctive{{Tasks: []DisjTask{{Const(0), Const(1), 1, nil}}}}
		}, "kind 1"},
		{"setup not square", func(p *Problem) { p.Disjunctives = []Disjunctive{{Setup: [][]int{{0, 1}}}} }, "not square"},
		{"ranges overlap", func(p *Problem) {
			p.Calendars = []Calendar{{Const(0), []Range{{0, 5}, {4, 6}}, nil}}
		}, "overlap"},
		{"empty range", func(p *Problem) { p.Calendars = []Calendar{{Const(0), []Range{{5, 5}}, nil}} }, "empty range"},
		{"maximum of nothing", func(p *Problem) { p.Maxima = []Maximum{{Y: Const(0)}} }, "maximum 0"},
		{"level too large", func(p *Problem) {
			p.Levels = []Level{{Name: "l", Terms: []Term{{MaxValue, 0}, {MaxValue, 1}}}}
		}, "level 0 (l)"},
		{"start of the wrong length", func(p *Problem) { p.Start = []int{1} }, "start: 1 values"},
		{"unknown preference", func(p *Problem) { p.Branch = []Decision{{0, 99, 0}} }, "branch 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := &Problem{}
			p.NewVar(0, 9, "a")
			p.NewBool("b")
			c.spoil(p)
			err := p.Validate()
			if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
}
