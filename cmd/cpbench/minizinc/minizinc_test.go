package minizinc

import (
	"bytes"
	"os"
	"testing"

	"tureen/planner/cp"
)

// TestMiniZincText pins the model of one problem with every kind of constraint.
func TestMiniZincText(t *testing.T) {
	p := &cp.Problem{}
	a, b := p.NewVar(0, 9, "first\nstart"), p.NewVar(-2, 9, "second")
	x := p.NewBool("late")
	p.AddClause(x.True(), a.AtMost(3))
	p.AddLag(a.At(), b.Plus(1), 2, x.False())
	p.AddLinear([]cp.Term{{Coef: 2, X: a}, {Coef: -1, X: b}}, 7)
	p.Cumulatives = []cp.Cumulative{{Name: "r", Capacity: 2, Uses: []cp.Use{
		{Start: a.At(), End: a.Plus(3), Demand: 1}, {Start: a.At(), End: b.At(), Demand: 2, If: []cp.Lit{x.True()}}}}}
	p.Disjunctives = []cp.Disjunctive{{Name: "d", Setup: [][]int{{0, 4}, {5, 0}}, Tasks: []cp.DisjTask{
		{Start: a.At(), End: a.Plus(3)}, {Start: b.At(), End: b.Plus(1), Kind: 1}}}}
	p.Calendars = []cp.Calendar{{At: a.At(), Forbidden: []cp.Range{{From: 1, To: 2}, {From: 4, To: 6}}}}
	p.Guards = []cp.Guard{{Start: cp.Const(0), End: b.At(), Watchers: []cp.Watcher{
		{Off: []cp.Range{{From: 7, To: 8}}, Busy: []cp.Absence{{Start: a.At(), End: a.Plus(1)}}}}}}
	p.Maxima = []cp.Maximum{{Y: b.At(), Xs: []cp.Point{a.At(), cp.Const(4)}, Least: true}}
	p.Levels = []cp.Level{
		{Name: "one", Terms: []cp.Term{{Coef: 1, X: x}}, Const: 3}, {Name: "two", Terms: []cp.Term{{Coef: -1, X: b}}}}
	p.Assumptions = []cp.Assumption{{Name: "near", Lits: []cp.Lit{b.AtMost(8)}}}
	p.Branch = []cp.Decision{{X: b, Prefer: cp.Latest, Group: 2}, {X: x, Prefer: cp.High, Group: 1},
		{X: a, Prefer: cp.Low, Group: 1}}
	var out bytes.Buffer
	if err := Write(&out, p, []int{4}); err != nil {
		t.Fatal(err)
	}
	want, err := os.ReadFile("testdata/model.mzn")
	if err != nil {
		t.Fatal(err)
	}
	if out.String() != string(want) {
		t.Errorf("got\n%s\nwant\n%s", out.String(), want)
	}
}
