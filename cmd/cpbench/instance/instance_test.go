package instance

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"tureen/cmd/cpbench/project"
	"tureen/planner/cp"
)

func load(t *testing.T, name string) *Instance {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	in, err := Read(bytes.NewReader(data), name)
	if err != nil {
		t.Fatal(err)
	}
	return in
}

// TestKnownOptima solves public instances to the optimum, or proof of infeasibility, that others have published;
// sources in testdata/README.md.
func TestKnownOptima(t *testing.T) {
	f, err := os.Open("testdata/known.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 21 {
		t.Fatalf("only %d instances", len(rows)-1)
	}
	for _, row := range rows[1:] {
		t.Run(row[0], func(t *testing.T) {
			in := load(t, row[0])
			r := cp.Solve(context.Background(), in.Problem(), cp.Limits{Work: 400_000_000, Breed: project.Breeder})
			if row[3] == "infeasible" {
				if r.Status != cp.Infeasible {
					t.Fatalf("got %v, want infeasible", r.Status)
				}
				return
			}
			want, err := strconv.Atoi(row[2])
			if err != nil {
				t.Fatal(err)
			}
			if r.Status != cp.Optimal || r.Levels[0].Value != want {
				t.Fatalf("got %v %+v, want optimal %d", r.Status, r.Levels, want)
			}
			if err := in.Verify(r.Values); err != nil {
				t.Fatal(err)
			}
		})
	}
}

const goodSCH = `2 1 0 0
0 1 2 1 2 [0] [0]
1 1 2 2 3 [3] [4]
2 1 1 3 [2]
3 1 0
0 1 0 0
1 1 4 1
2 1 2 1
3 1 0 0
1
`

const goodSM = `jobs (incl. supersource/sink ):  3
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          1           2
   2        1          1           3
   3        1          0
REQUESTS/DURATIONS:
jobnr. mode duration  R 1
------------------
  1      1     0       0
  2      1     5       1
  3      1     0       0
RESOURCEAVAILABILITIES:
  R 1
    1
`

func TestReadGood(t *testing.T) {
	in, err := Read(strings.NewReader(strings.ReplaceAll(goodSCH, "\n", "\r\n")), "dir/TINY.SCH")
	if err != nil {
		t.Fatal(err)
	}
	if in.Name != "TINY" || len(in.Duration) != 4 || in.Duration[1] != 4 || in.Capacity[0] != 1 ||
		len(in.Lags) != 5 || in.Lags[2] != (Lag{1, 2, 3}) {
		t.Errorf("got %+v", in)
	}
	in, err = Read(strings.NewReader(goodSM), "tiny.sm")
	if err != nil {
		t.Fatal(err)
	}
	if len(in.Lags) != 2 || in.Lags[1] != (Lag{1, 2, 5}) {
		t.Errorf("got %+v", in)
	}
}

// TestReadBad breaks the good files in one place each; the error names the line and the reason.
func TestReadBad(t *testing.T) {
	for _, c := range []struct {
		name, good, old, new string
		line                 int
		reason               string
	}{
		{"empty", goodSCH, goodSCH, "", 0, "the file ends"},
		{"word for number", goodSCH, "2 1 0 0\n0", "two 1 0 0\n0", 1, "not a whole number"},
		{"successor out of range", goodSCH, "0 1 2 1 2", "0 1 2 1 9", 2, "no activity 9"},
		{"too few lags", goodSCH, "[3] [4]", "[3]", 3, "2 successors announced"},
		{"lag without brackets", goodSCH, "[2]", "2", 4, "brackets"},
		{"two modes", goodSCH, "2 1 1 3 [2]", "2 2 1 3 [2]", 4, "2 modes"},
		{"missing demand", goodSCH, "1 1 4 1", "1 1 4", 7, "3 fields instead of 4"},
		{"negative duration", goodSCH, "1 1 4 1", "1 1 -4 1", 7, "negative"},
		{"out of order", goodSCH, "2 1 2 1", "1 1 2 1", 8, "out of order"},
		{"capacities missing", goodSCH, "3 1 0 0\n1\n", "3 1 0 0\n", 9, "the file ends"},
		{"absurd size", goodSCH, "2 1 0 0\n0", "999999 1 0 0\n0", 1, "too many"},
		{"sm without jobs", goodSM, "jobs (", "jab (", 15, "number of jobs"},
		{"sm successor count", goodSM, "   1        1          1 ", "   1        1          2 ", 4, "2 successors announced"},
		{"sm without capacities", goodSM, "RESOURCEAVAILABILITIES:\n  R 1\n    1\n", "", 12, "no block"},
	} {
		t.Run(c.name, func(t *testing.T) {
			name := "x.sch"
			if c.good == goodSM {
				name = "x.sm"
			}
			if strings.Count(c.good, c.old) != 1 {
				t.Fatalf("%q stands %d times in the good file", c.old, strings.Count(c.good, c.old))
			}
			_, err := Read(strings.NewReader(strings.Replace(c.good, c.old, c.new, 1)), name)
			var fault *Error
			if !errors.As(err, &fault) || fault.Line != c.line || !strings.Contains(fault.Reason, c.reason) {
				t.Errorf("got %v, want line %d with %q", err, c.line, c.reason)
			}
		})
	}
	if _, err := Read(strings.NewReader(""), "x.txt"); err == nil {
		t.Error("an unknown kind of file was read")
	}
}

func TestVerifyRefuses(t *testing.T) {
	in, err := Read(strings.NewReader(goodSCH), "x.sch")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		starts []int
		want   string
	}{
		{[]int{0, 0, 4, 6}, ""},
		{[]int{0, 0, 4}, "3 starts"},
		{[]int{1, 1, 5, 7}, "source"},
		{[]int{0, 0, 4, 5}, "not within"},
		{[]int{0, 2, 4, 6}, "before 2 + 3"},
		{[]int{0, 0, 3, 5}, "2 in use at 3"},
	} {
		err := in.Verify(c.starts)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("starts %v: got %v, want %q", c.starts, err, c.want)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(goodSCH, true)
	f.Add(goodSM, false)
	f.Fuzz(func(t *testing.T, text string, sch bool) {
		name := "x.sm"
		if sch {
			name = "x.sch"
		}
		in, err := Read(strings.NewReader(text), name)
		var fault *Error
		if err != nil && !errors.As(err, &fault) {
			t.Fatalf("error without a line: %v", err)
		}
		if err == nil {
			if err := in.Problem().Validate(); err != nil {
				t.Fatalf("read, but not valid: %v", err)
			}
		}
	})
}
