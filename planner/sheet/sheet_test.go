package sheet

import (
	"context"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/propose"
	"tureen/planner/repertoire"
	"tureen/planner/solve"
	"tureen/planner/words"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares text with a file of testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s is\n%s\nwant\n%s", name, got, want)
	}
}

func text(ss []Section) string {
	var b strings.Builder
	for _, s := range ss {
		b.WriteString("# " + s.Title + "\n")
		for _, l := range s.Lines {
			b.WriteString(l + "\n")
		}
	}
	return b.String()
}

// midway is the rich party at 18:50 on its day: the braise is in the oven, one task was skipped.
func midway() (*planner.Party, *planner.Plan, time.Time) {
	p, plan := partygen.Rich()
	at := p.Arrival.Add(-40 * time.Minute)
	p.Work = nil
	for _, pl := range plan.Tasks {
		start, end := pl.Start, pl.End
		switch {
		case pl.Task == "table":
			p.Work = append(p.Work, planner.Work{Task: pl.Task, Progress: planner.Skipped, End: &end})
		case pl.Task == "tart/fill": // forgotten to be ticked
		case !end.After(at):
			p.Work = append(p.Work, planner.Work{Task: pl.Task, Progress: planner.Done, Start: &start, End: &end})
		case !start.After(at):
			p.Work = append(p.Work, planner.Work{Task: pl.Task, Progress: planner.Started, Start: &start})
		}
	}
	return p, plan, at
}

func TestGolden(t *testing.T) {
	p, plan := partygen.Rich()
	f := Plain(p.Location())
	golden(t, "days", text(Days(p, plan, Only{}, f)))
	golden(t, "timeline", Draw(p, plan, p.Day().Add(-48*time.Hour), f).String())
	golden(t, "days_ben_saturday", text(Days(p, plan, Only{Person: "ben", Day: "2026-09-26"}, f)))
	golden(t, "run", text(Run(p, plan, time.Time{}, f)))
	golden(t, "prep", text(Prep(p, plan, f)))
	p, plan, at := midway()
	golden(t, "run_midway", text(Run(p, plan, at, f)))
	golden(t, "prep_midway", text(Prep(p, plan, f)))
	golden(t, "now_ana", strings.Join(Now(p, plan, "ana", at, f), "\n")+"\n")
	golden(t, "now_ben", strings.Join(Now(p, plan, "ben", at, f), "\n")+"\n")
	golden(t, "now_all", strings.Join(Now(p, plan, "", at, f), "\n")+"\n")
	golden(t, "oven", strings.Join(Oven(p, plan, at, f), "\n")+"\n")
}

func TestChanges(t *testing.T) {
	p, before := partygen.Rich()
	_, after := partygen.Rich()
	f := Plain(p.Location())
	if got := Changes(p, before, after, f); len(got) != 0 {
		t.Errorf("the same plan: %q", got)
	}
	after.Placed("table").Start = after.Placed("table").Start.Add(time.Hour)
	after.Placed("wine").People = []planner.PersonKey{"ben"}
	after.Placed("soup/blend").Start = after.Placed("soup/blend").Start.Add(4 * time.Minute) // nobody need know
	after.Tasks = slices.DeleteFunc(after.Tasks, func(pl planner.Placed) bool { return pl.Task == "bread/bake" })
	before.Tasks = slices.DeleteFunc(before.Tasks, func(pl planner.Placed) bool { return pl.Task == "sorbet/freeze" })
	before.Tasks = append(before.Tasks, planner.Placed{Task: "bread/bake.2"}) // a round that is not needed any more
	after.Served[0].At = after.Served[0].At.Add(10 * time.Minute)
	got := strings.Join(Changes(p, before, after, f), "\n")
	want := `Starter: served at 20:10, not 20:00
New: Fri 18:35 Ana: Freeze the sorbet (Lemon sorbet)
Lay the table: Sat 17:00, not 16:00
Chill the wine: Sat 17:30, Ben instead of Cleo
No more: Bake the bread (Potato bread)
No more: Bake the bread (Potato bread), round 2`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestFigures(t *testing.T) {
	plan := &planner.Plan{Status: planner.Feasible, Levels: []planner.Level{
		{Name: planner.OnTime, Value: 0, Proved: true}, {Name: planner.HostFree, Value: 3, Bound: 1},
		{Name: planner.AtBest, Value: 2, Bound: 2, Proved: true}, {Name: planner.Spare, Value: 4}}}
	got := strings.Join(Figures(plan), "\n")
	want := `The plan keeps every rule. A better one may exist.
Courses: each at its time, to the five minutes.
Host: busy in 3 quarters of an hour while the guests are there. (at best one quarter of an hour)
Food: not all waits just as is good for it, 2 points: up to an hour off is 1, up to six 2, up to a day 3, more 4.` +
		` (no plan does better)
Time to spare: 4 tasks may not run ten minutes over.`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestNothingTypedBreaksALine: control characters that somebody typed into a name stay out of the lines.
func TestNothingTypedBreaksALine(t *testing.T) {
	p, plan := partygen.Rich()
	p.Dishes[0].Name = "Soup\x0et1790000000\x1fnow\x0f\nof the day\u202e"
	p.People[0].Name = "A\tna"
	for _, s := range append(Run(p, plan, time.Time{}, Plain(time.UTC)), Days(p, plan, Only{}, Plain(time.UTC))...) {
		for _, l := range append(s.Lines, s.Title) {
			if strings.ContainsAny(l, "\n\t\x0e\x0f\x1f") {
				t.Errorf("%q", l)
			}
		}
	}
}

// TestSheetsAreComplete: on random menus of ready dishes, every task stands in Days for each of its
// people, every one of the last four hours and after stands on the run sheet, whose lines are in order, and an oven's
// loads find it at their temperature.
func TestSheetsAreComplete(t *testing.T) {
	all := repertoire.List()
	rapid.Check(t, func(t *rapid.T) {
		at := time.Date(2026, time.October, 10, 19, 0, 0, 0, time.UTC)
		hours := planner.DayHours{From: 8 * 60, Until: 22 * 60}
		p := &planner.Party{Name: "x", Zone: "UTC", Arrival: at, Covers: rapid.IntRange(2, 12).Draw(t, "covers"), PrepDays: 3,
			Kitchen: planner.HomeKitchen(),
			People: []planner.Person{{Key: "a", Name: "A", Role: planner.Host, Cooks: hours, Home: hours},
				{Key: "b", Name: "B", Role: planner.CoHost, Cooks: hours, Home: hours}},
			Courses: []planner.Course{{Key: "meal", Name: "Meal",
				Servings: []planner.Serving{{At: at.Add(time.Hour), Early: 10, Late: 30}}}}}
		for _, i := range rapid.SliceOfNDistinct(rapid.IntRange(0, len(all)-1), 1, 3, rapid.ID[int]).Draw(t, "menu") {
			d := all[i].Dish()
			d.Course = "meal"
			p.Dishes = append(p.Dishes, d)
		}
		propose.Renew(p, p.Opens())
		plan, _, err := solve.Make(context.Background(), p, solve.Ask{Now: p.Opens(), FirstOnly: true, Work: 500_000})
		if err != nil {
			t.Fatal(err)
		}
		if plan == nil {
			t.Skip("no plan for this menu in one course")
		}
		f := Plain(time.UTC)
		v := newView(p, plan, f)
		for _, pl := range plan.Tasks {
			name := words.Lower(words.Brief(v.tasks[pl.Task].Do, inLine))
			for _, k := range pl.People {
				day := text(Days(p, plan, Only{Person: k, Day: f.day(pl.Start)}, f))
				if !strings.Contains(strings.ToLower(day), strings.ToLower(strings.TrimSuffix(name, "…"))) {
					t.Fatalf("%s is not told %q:\n%s", k, name, day)
				}
			}
		}
		var lines []string
		for _, s := range Run(p, plan, time.Time{}, f) {
			lines = append(lines, s.Lines...)
		}
		for _, pl := range plan.Tasks {
			if pl.Start.Before(p.Arrival.Add(-planner.LateOn)) {
				continue
			}
			want := f.Stamp(pl.Start, Clock) + " " + v.startText(v.plan.Placed(pl.Task), v.tasks[pl.Task])
			if !slices.Contains(lines, want) {
				t.Fatalf("%q is not on the run sheet", want)
			}
		}
		if !slices.IsSortedFunc(lines, func(a, b string) int { return strings.Compare(a[:5], b[:5]) }) {
			t.Fatalf("out of order:\n%s", strings.Join(lines, "\n"))
		}
		for i := range p.Kitchen.Ovens {
			oven := &p.Kitchen.Ovens[i]
			set := v.settings(oven)
			for _, l := range v.loads(oven.Name) {
				at := -1
				for j := range set {
					if !set[j].hot.After(l.held.From) {
						at = j
					}
				}
				if at < 0 || set[at].c != l.held.C {
					t.Fatalf("%s finds the oven at the wrong setting: %+v", l.placed.Task, set)
				}
			}
		}
	})
}

// TestLimitsRisksAndWaits on the rich plan, whose waits are known: what a late starter would mean, and which
// limits the plan keeps.
func TestLimitsRisksAndWaits(t *testing.T) {
	p, plan, at := midway()
	f := Plain(p.Location())
	golden(t, "limits", strings.Join(Limits(p, plan), "\n")+"\n")
	golden(t, "can_wait", strings.Join(CanWait(p, plan, at, f), "\n")+"\n")
	if r := Risks(p, plan, f); len(r) != 0 {
		t.Errorf("at risk in a plan that is on time: %q", r)
	}
	plan.Soft = true
	soup := p.Dish("soup").Step("reheat")
	soup.Serve.WorthUntil, soup.Serve.Longest = 30, 0
	plan.Served[0].At = plan.Served[0].At.Add(40 * time.Minute) // the starter
	got := strings.Join(Risks(p, plan, f), "\n")
	want := `Starter comes at 20:40, 30 min after its window
Pumpkin soup waits 1 h from "Heat the soup" to service, 30 min longer than is good for it`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestChancesKeepTheMarks: why a task cannot begin earlier keeps its instants as they were marked.
func TestChancesKeepTheMarks(t *testing.T) {
	p, plan := partygen.Rich()
	at := words.Stamp(p.Arrival, words.DayClock, p.Location())
	c := check.Chances{Courses: []check.CourseChance{{Course: p.Courses[0].Key, Threat: plan.Tasks[0].Task,
		Because: "At " + at + " it would be in use."}}}
	var text strings.Builder
	for _, s := range Chances(p, plan, c, Plain(p.Location())) {
		text.WriteString(strings.Join(s.Lines, "\n"))
	}
	if !strings.Contains(text.String(), "cannot begin earlier: at "+at+" it would be in use.") {
		t.Errorf("the mark is not whole: %q", text.String())
	}
}
