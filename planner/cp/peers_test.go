package cp_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"tureen/cmd/cpbench/minizinc"
	"tureen/planner/cp"
)

// Other solvers are asked the same questions as the engine: general-purpose ones, each through a road of its own.
// They are not there on every machine; a variable of the environment says where.
//
//	TUREEN_PEERS          a folder in which npm installed testdata/peers/package.json: Chuffed and CP-SAT
//	TUREEN_NODE           the node that runs them; CP-SAT's build is many times faster on 26 than on 20
//	TUREEN_MINIZINC       a MiniZinc command: "minizinc --solver gecode" with Debian's package
//	TUREEN_PEERS_RUNS     how many random problems (200)

// question is one level of one random problem, with the values of the levels before it kept.
type question struct {
	name     string
	p        *cp.Problem
	kept     []int
	feasible bool
	value    int // of the level asked for, 0 when there is none
}

// questions draws problems with every kind of constraint, no more than half of them infeasible, and answers them.
func questions(t *testing.T) []question {
	t.Helper()
	runs := uint64(200)
	if s := os.Getenv("TUREEN_PEERS_RUNS"); s != "" {
		if _, err := fmt.Sscan(s, &runs); err != nil {
			t.Fatal(err)
		}
	}
	var out []question
	problems, infeasible := uint64(0), uint64(0)
	for seed := uint64(0); problems < runs; seed++ {
		p := cp.Random(seed + 5_000_000)
		if seed%3 == 0 {
			p = cp.Planted(seed + 12_000_000)
		}
		r := cp.Solve(context.Background(), p, cp.Limits{})
		if r.Status != cp.Optimal && r.Status != cp.Infeasible {
			t.Fatalf("seed %d: %v", seed, r.Status)
		}
		q := question{name: fmt.Sprintf("%d-0", seed), p: p, feasible: r.Status == cp.Optimal}
		if !q.feasible {
			if infeasible < runs/2 {
				infeasible++
				problems++
				out = append(out, q)
			}
			continue
		}
		problems++
		for level := 0; level == 0 || level < len(p.Levels); level++ {
			q.name = fmt.Sprintf("%d-%d", seed, level)
			if level < len(p.Levels) {
				q.value = r.Levels[level].Value
			}
			out = append(out, q)
			q.kept = append(q.kept[:len(q.kept):len(q.kept)], q.value)
		}
	}
	t.Logf("%d problems, %d of them infeasible; %d questions", problems, infeasible, len(out))
	return out
}

// answer is what the scripts in testdata/peers print.
type answer struct {
	Name, Status, Said string
	Makespan           *int
}

func (q question) judge(t *testing.T, a answer) {
	t.Helper()
	want := "infeasible"
	if q.feasible {
		want = "optimal"
	}
	// Without a level a solver may say feasible or optimal: any solution is asked for.
	if a.Status != want && !(q.feasible && len(q.p.Levels) == 0 && a.Status == "feasible") {
		t.Errorf("question %s: the other solver says %s %s, ours %s", q.name, a.Status, a.Said, want)
		return
	}
	if q.feasible && len(q.p.Levels) > 0 && *a.Makespan != q.value {
		t.Errorf("question %s: the other solver finds %d, ours %d", q.name, *a.Makespan, q.value)
	}
}

// script writes the questions with write, runs a script over them and judges its answers.
func script(t *testing.T, qs []question, ending string, write func(question) ([]byte, error), args ...string) {
	t.Helper()
	dir := t.TempDir()
	byName := map[string]question{}
	var list strings.Builder
	for _, q := range qs {
		data, err := write(q)
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, q.name+ending)
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintln(&list, file)
		byName[q.name] = q
	}
	listFile := filepath.Join(dir, "list")
	if err := os.WriteFile(listFile, []byte(list.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	node := os.Getenv("TUREEN_NODE")
	if node == "" {
		node = "node"
	}
	cmd := exec.CommandContext(t.Context(), node, append(args, listFile)...)
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, errs.String())
	}
	lines := bufio.NewScanner(bytes.NewReader(out))
	for lines.Scan() {
		var a answer
		if err := json.Unmarshal(lines.Bytes(), &a); err != nil {
			t.Fatalf("%v: %s", err, lines.Text())
		}
		q, ok := byName[a.Name]
		if !ok {
			t.Fatalf("an answer to no question: %s", lines.Text())
		}
		delete(byName, a.Name)
		q.judge(t, a)
	}
	if len(byName) > 0 {
		t.Errorf("%d questions were not answered\n%s", len(byName), errs.String())
	}
}

func peers(t *testing.T) string {
	t.Helper()
	dir := os.Getenv("TUREEN_PEERS")
	if dir == "" {
		t.Skip("TUREEN_PEERS does not name a folder with the solvers of testdata/peers/package.json")
	}
	return dir
}

func model(q question) ([]byte, error) {
	var b bytes.Buffer
	err := minizinc.Write(&b, q.p, q.kept)
	return b.Bytes(), err
}

// TestChuffedAgrees asks Chuffed, another lazy-clause-generation solver, the first level of every problem.
func TestChuffedAgrees(t *testing.T) {
	dir := peers(t)
	var first []question
	for _, q := range questions(t) {
		if len(q.kept) == 0 {
			first = append(first, q)
		}
	}
	script(t, first, ".mzn", model, "testdata/peers/minizinc.cjs", dir, "org.minizinc.chuffed", "60", "")
}

// TestCPSATAgrees asks CP-SAT every question, by way of its own model format.
func TestCPSATAgrees(t *testing.T) {
	dir := peers(t)
	write := func(q question) ([]byte, error) { return cpsatModel(q.p, q.kept) }
	script(t, questions(t), ".json", write, "testdata/peers/cpsat.mjs", dir, "60")
}

// TestGecodeAgrees asks Gecode, or whatever the command names, every question.
func TestGecodeAgrees(t *testing.T) {
	words := strings.Fields(os.Getenv("TUREEN_MINIZINC"))
	if len(words) == 0 {
		t.Skip("TUREEN_MINIZINC does not name a MiniZinc command")
	}
	file := filepath.Join(t.TempDir(), "model.mzn")
	for _, q := range questions(t) {
		data, err := model(q)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.CommandContext(t.Context(), words[0], append(words[1:], file)...).CombinedOutput()
		a := answer{Name: q.name, Status: "unknown", Said: string(out)}
		text := string(out)
		if i := strings.LastIndex(text, "objective = "); i >= 0 && err == nil {
			a.Status, a.Makespan = "optimal", new(int)
			if _, err := fmt.Sscanf(text[i:], "objective = %d", a.Makespan); err != nil {
				t.Fatalf("%v: %s", err, text)
			}
		} else if strings.Contains(text, "UNSATISFIABLE") {
			a.Status, a.Said = "infeasible", ""
		}
		q.judge(t, a)
	}
}
