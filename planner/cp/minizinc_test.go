package cp

import (
	"bytes"
	"os"
	"testing"
)

// TestMiniZincText pins the model of one problem with every kind of constraint.
func TestMiniZincText(t *testing.T) {
	p := &Problem{}
	a, b := p.NewVar(0, 9, "first\nstart"), p.NewVar(-2, 9, "second")
	x := p.NewBool("late")
	p.AddClause(x.True(), a.AtMost(3))
	p.AddLag(a.At(), b.Plus(1), 2, x.False())
	p.AddLinear([]Term{{2, a}, {-1, b}}, 7)
	p.Cumulatives = []Cumulative{{"r", 2, []Use{{a.At(), a.Plus(3), 1, nil}, {a.At(), b.At(), 2, []Lit{x.True()}}}}}
	p.Disjunctives = []Disjunctive{{"d", []DisjTask{{a.At(), a.Plus(3), 0, nil}, {b.At(), b.Plus(1), 1, nil}}, [][]int{{0, 4}, {5, 0}}}}
	p.Calendars = []Calendar{{a.At(), []Range{{1, 2}, {4, 6}}, nil}}
	p.Guards = []Guard{{Const(0), b.At(), []Watcher{{[]Range{{7, 8}}, []Absence{{a.At(), a.Plus(1), nil}}}}}}
	p.Maxima = []Maximum{{b.At(), []Point{a.At(), Const(4)}, true, nil}}
	p.Levels = []Level{{"one", []Term{{1, x}}, 3}, {"two", []Term{{-1, b}}, 0}}
	p.Assumptions = []Assumption{{"near", []Lit{b.AtMost(8)}}}
	p.Branch = []Decision{{b, Latest, 2}, {x, High, 1}, {a, Low, 1}}
	var out bytes.Buffer
	if err := WriteMiniZinc(&out, p, []int{4}); err != nil {
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
