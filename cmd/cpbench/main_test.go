package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const data = "instance/testdata/"

func runWith(args ...string) (status int, out, errs string) {
	var o, e bytes.Buffer
	status = run(args, &o, &e)
	return status, o.String(), e.String()
}

func TestTable(t *testing.T) {
	status, out, errs := runWith(data+"sm_j10/PSP5.SCH", data+"sm_j10/PSP6.SCH")
	if status != 0 || errs != "" {
		t.Fatalf("status %d, %s", status, errs)
	}
	lines := strings.Split(strings.TrimSpace(out), "\n")
	if len(lines) != 4 {
		t.Fatalf("got %d lines:\n%s", len(lines), out)
	}
	for i, want := range [][]string{
		{"name", "status", "makespan", "lower", "seconds", "conflicts"},
		{"PSP5", "optimal", "32", "32"},
		{"PSP6", "infeasible", "-", "-"},
		{"2", "instances:", "1", "optimal,", "1", "infeasible,", "0", "feasible,", "0", "unknown;", "2", "solved,",
			"geometric", "mean"},
	} {
		if got := strings.Fields(lines[i]); strings.Join(got[:len(want)], " ") != strings.Join(want, " ") {
			t.Errorf("line %d: got %q, want it to begin %q", i+1, lines[i], want)
		}
	}
}

func TestJSON(t *testing.T) {
	_, out, _ := runWith("-json", data+"j30/j301_1.sm", data+"sm_j10/PSP6.SCH")
	lines := strings.Split(strings.TrimSpace(out), "\n")
	if len(lines) != 2 {
		t.Fatalf("got %d lines", len(lines))
	}
	var solved, refuted map[string]any
	for i, v := range []*map[string]any{&solved, &refuted} {
		if err := json.Unmarshal([]byte(lines[i]), v); err != nil {
			t.Fatal(err)
		}
	}
	for _, key := range []string{"name", "status", "makespan", "lower", "seconds", "conflicts", "starts"} {
		if _, ok := solved[key]; !ok {
			t.Errorf("no key %q", key)
		}
	}
	// j301_1 has 32 activities and an optimum of 43 (PSPLIB).
	if solved["makespan"] != 43.0 || len(solved["starts"].([]any)) != 32 {
		t.Errorf("got %v", solved)
	}
	if refuted["status"] != "infeasible" || refuted["makespan"] != nil {
		t.Errorf("got %v", refuted)
	}
}

func TestProofFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "proof")
	if status, _, errs := runWith("-proof", file, data+"sm_j10/PSP5.SCH", data+"sm_j10/PSP6.SCH"); status != 0 {
		t.Fatal(errs)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	// The bound of 32 that makes PSP5 optimal, and the empty clash that refutes PSP6.
	for _, want := range []string{"c PSP5\n", "\nb 0 32\n", "\nc PSP6\n", "\ni\n"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("no %q in the proof", want)
		}
	}
}

func TestBadUse(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.sch")
	if err := os.WriteFile(bad, []byte("1 1 0 0\n0 1 one\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args   []string
		status int
		want   string
	}{
		{nil, 2, "usage"},
		{[]string{"-limit", "soon", "x.sm"}, 2, "invalid value"},
		{[]string{"-h"}, 0, "usage"},
		{[]string{bad}, 1, "bad.sch:2: number of successors"},
		{[]string{"missing.sm"}, 1, "missing.sm"},
		{[]string{"-known", "missing.csv", data + "j30/j301_1.sm"}, 1, "missing.csv"},
	} {
		status, _, errs := runWith(c.args...)
		if status != c.status || !strings.Contains(errs, c.want) {
			t.Errorf("%q: status %d, %q; want %d with %q", c.args, status, errs, c.status, c.want)
		}
	}
}

// TestContradiction: answers that do not agree with what is known are reported, and agreement is not.
func TestContradiction(t *testing.T) {
	known := filepath.Join(t.TempDir(), "known.csv")
	for _, c := range []struct{ row, want string }{
		{"j30/j301_1.sm,43,43,closed", ""},
		{"j30/j301_1.sm,44,45,open", "below the known bound 44"},
		{"j30/j301_1.sm,40,42,open", "above the known makespan 42"},
		{"j30/j301_1.sm,,,infeasible", "known to be infeasible"},
		{"sm_j10/PSP6.SCH,10,20,open", "called infeasible"},
	} {
		if err := os.WriteFile(known, []byte("instance,lower,upper,status\n"+c.row+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		name, _, _ := strings.Cut(c.row, ",")
		status, _, errs := runWith("-known", known, data+name)
		if (status == 0) != (c.want == "") || !strings.Contains(errs, c.want) {
			t.Errorf("%s: status %d, %q; want %q", c.row, status, errs, c.want)
		}
	}
}
