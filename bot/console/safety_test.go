package console

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tureen/store"
)

// TestSafety types dishes as an ordinary cook does, with no word of what kind of food they are, and holds what /plan
// make answers against what a trained cook wants: testdata/safety.txt has a dish in a block, what is typed, and after =
// what must be said; after = ~ what must be said before, where it may be refused. Where the plan stands nothing may be
// warned of. The dishes are our own; the limits are those of planner/safety/limits.csv, which name their sources.
func TestSafety(t *testing.T) {
	text, err := os.ReadFile("testdata/safety.txt")
	if err != nil {
		t.Fatal(err)
	}
	dangers, safe := 0, 0
	for block := range strings.SplitSeq(strings.TrimPrefix(string(text), "## "), "\n## ") {
		name, rest, _ := strings.Cut(block, "\n")
		typed, want, ok := strings.Cut(strings.TrimSpace(rest), "\n= ")
		if !ok {
			t.Fatalf("%s: it is not said what must be said", name)
		}
		if want == "The plan stands" {
			safe++
		} else {
			dangers++
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			want, before := strings.CutPrefix(want, "~ ")
			all, plan := typedOut(t, typed, before)
			if before {
				plan = all
			}
			if !strings.Contains(plan, want) {
				t.Errorf("want …%s…, got\n%s", want, plan)
			}
			if want == "The plan stands" && (strings.Contains(all, "Take care") || strings.Contains(all, "Throw it away")) {
				t.Errorf("it scares:\n%s", all)
			}
		})
	}
	if dangers < 60 || safe < 60 {
		t.Errorf("%d dangers and %d safe dishes, want at least 60 of each", dangers, safe)
	}
}

// typedOut types a dish for a party of six in London, and answers all that is said and what /plan make says. A line may
// be refused only where that is wanted.
func typedOut(t *testing.T, typed string, mayRefuse bool) (all, plan string) {
	now, more, days := time.Date(2026, 11, 4, 9, 0, 0, 0, time.UTC), "", "3"
	var lines []string
	for line := range strings.SplitSeq(typed, "\n") {
		if v, ok := strings.CutPrefix(line, "days:"); ok {
			days, now = v, time.Date(2026, 10, 27, 9, 0, 0, 0, time.UTC)
		} else if strings.HasPrefix(line, "room:") {
			more = " " + line
		} else {
			lines = append(lines, line)
		}
	}
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "t.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	var out bytes.Buffer
	c := New(s, "host", now, "", &out, slog.New(slog.DiscardHandler))
	head := fmt.Sprintf("/party new name:Trial date:2026-11-07 arrive:18:30 covers:6 zone:Europe/London "+
		"courses:starter 19:00, main 19:45, dessert 20:45 prep-days:%s%s", days, more)
	lines = append([]string{head, "/people hours who:host cooks:8:00-23:00"}, lines...)
	if refused, err := c.Lines(context.Background(), strings.NewReader(strings.Join(lines, "\n"))); err != nil ||
		refused > 0 && !mayRefuse {
		t.Fatalf("refused %d, %v:\n%s", refused, err, out.String())
	}
	before := out.Len()
	if _, err := c.Lines(context.Background(), strings.NewReader("/plan make")); err != nil {
		t.Fatal(err)
	}
	return out.String(), out.String()[before:]
}
