package cp

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// ask runs a MiniZinc command on the problem's model and reads status and objective off its output.
func ask(t *testing.T, command string, p *Problem, kept []int) (objective int, feasible bool) {
	t.Helper()
	var model bytes.Buffer
	if err := WriteMiniZinc(&model, p, kept); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "model.mzn")
	if err := os.WriteFile(file, model.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	words := strings.Fields(command)
	out, err := exec.CommandContext(t.Context(), words[0], append(words[1:], file)...).CombinedOutput()
	text := string(out)
	if strings.Contains(text, "UNSATISFIABLE") {
		return 0, false
	}
	i := strings.LastIndex(text, "objective = ")
	if i < 0 || err != nil {
		t.Fatalf("%v\n%s\n%s", err, text, model.String())
	}
	if _, err := fmt.Sscanf(text[i:], "objective = %d", &objective); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	return objective, true
}

// TestMiniZincAgrees asks another solver the same questions. TUREEN_MINIZINC is the command, for example
// "minizinc --solver gecode" (Debian's package minizinc); TUREEN_MINIZINC_RUNS the number of problems.
func TestMiniZincAgrees(t *testing.T) {
	command := os.Getenv("TUREEN_MINIZINC")
	if command == "" {
		t.Skip("TUREEN_MINIZINC does not name a MiniZinc command")
	}
	runs := uint64(200)
	if s := os.Getenv("TUREEN_MINIZINC_RUNS"); s != "" {
		if _, err := fmt.Sscan(s, &runs); err != nil {
			t.Fatal(err)
		}
	}
	feasible := 0
	for seed := range runs {
		p := newRandom(seed + 5_000_000).problem()
		r := Solve(context.Background(), p, Limits{})
		var kept []int
		for level := 0; level == 0 || level < len(p.Levels); level++ {
			got, ok := ask(t, command, p, kept)
			if ok != (r.Status == Optimal) {
				t.Fatalf("seed %d: the other solver says feasible %v, ours %v", seed, ok, r.Status)
			}
			if !ok {
				break
			}
			feasible++
			if level < len(p.Levels) {
				if got != r.Levels[level].Value {
					t.Fatalf("seed %d, level %d: the other solver finds %d, ours %d", seed, level, got, r.Levels[level].Value)
				}
				kept = append(kept, got)
			}
		}
	}
	t.Logf("%d problems, %d questions with a solution", runs, feasible)
}

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
