package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestPeer: another solver's answers are counted, and contradictions reported.
func TestPeer(t *testing.T) {
	answers := filepath.Join(t.TempDir(), "answers")
	for _, c := range []struct{ answer, file, want, complaint string }{
		{`{"name":"j30-j301_1","status":"optimal","makespan":43,"seconds":1000}`, "j30/j301_1.sm",
			"1 settled by both, geometric mean of our time over theirs 0.000; 0 by us alone, 0 by it alone", ""},
		{`{"name":"j30-j301_1","status":"feasible","makespan":44,"seconds":1}`, "j30/j301_1.sm",
			"0 settled by both, geometric mean of our time over theirs -; 1 by us alone", ""},
		{`{"name":"j30-j301_1","status":"optimal","makespan":43,"search":1000}`, "j30/j301_1.sm",
			"geometric mean of our time over theirs -; 0 by us alone, 0 by it alone; over its search alone 0.000", ""},
		{`{"name":"j30-other","status":"optimal","makespan":1,"seconds":1}`, "j30/j301_1.sm", "1 not asked", ""},
		{`{"name":"j30-j301_1","status":"optimal","makespan":44,"seconds":1}`, "j30/j301_1.sm", "",
			"below the other solver's optimum 44"},
		{`{"name":"j30-j301_1","status":"feasible","makespan":42}`, "j30/j301_1.sm", "",
			"above the other solver's makespan 42"},
		{`{"name":"j30-j301_1","status":"infeasible"}`, "j30/j301_1.sm", "", "calls it infeasible"},
		{`{"name":"sm_j10-psp6","status":"feasible","makespan":50}`, "sm_j10/PSP6.SCH", "", "has a schedule of 50"},
		{`{"name":"sm_j10-psp6","status":"infeasible","makespan":null}`, "sm_j10/PSP6.SCH", "1 settled by both", ""},
		{`{"name":`, "j30/j301_1.sm", "", "answers:1: "},
	} {
		if err := os.WriteFile(answers, []byte(c.answer+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		status, out, errs := runWith("-peer", answers, data+c.file)
		if (status == 0) != (c.complaint == "") || !strings.Contains(out, c.want) || !strings.Contains(errs, c.complaint) {
			t.Errorf("%s: status %d\n%s%s\nwant %q, %q", c.answer, status, out, errs, c.want, c.complaint)
		}
	}
}

// TestModels: each instance becomes a model named after its set and itself.
func TestModels(t *testing.T) {
	dir := t.TempDir()
	status, out, errs := runWith("-minizinc", dir, data+"j30/j301_1.sm", data+"sm_j10/PSP6.SCH")
	if status != 0 || errs != "" {
		t.Fatalf("status %d, %s", status, errs)
	}
	want := []string{filepath.Join(dir, "j30-j301_1.mzn"), filepath.Join(dir, "sm_j10-psp6.mzn")}
	if strings.TrimSpace(out) != strings.Join(want, "\n") {
		t.Errorf("got %s", out)
	}
	for _, name := range want {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range []string{"\nconstraint cumulative([x", "minimize 1 * x"} {
			if !strings.Contains(string(text), line) {
				t.Errorf("%s has no %q", name, line)
			}
		}
	}
	if status, _, errs = runWith("-minizinc", filepath.Join(dir, "absent"), data+"j30/j301_1.sm"); status != 1 ||
		!strings.Contains(errs, "absent") {
		t.Errorf("status %d, %s", status, errs)
	}
}
