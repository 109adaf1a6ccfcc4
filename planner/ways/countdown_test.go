package ways_test

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/propose"
	"tureen/planner/recipe"
	"tureen/planner/solve"
	"tureen/planner/ways"
	"tureen/planner/words"
)

// TestCountdownsLikePublished plans eight dinners of our own recipes, built like dinners for which timelines are
// published, and holds their plans against those: how much is done before the day, how much by noon, how little in the
// last hour, and on which day each kind of task falls. shares.tsv has how many cooking and preparing items the
// published timelines have, and how many of them before the day; kinds.tsv when a kind of task is to be done by them.
//
// An item is what those have in a line: the work at one dish, or one chore, without a pause of an hour; its time is its
// end. What is only done at the table is none. Of all items so many lie before the day; by noon those are to be over
// that are work by hand: a roast that is watched, or a pot that is made hot again, is left for later.
func TestCountdownsLikePublished(t *testing.T) {
	shares := map[string][]float64{}
	for _, r := range words.Rows("shares.tsv", file(t, "shares.tsv"), 4) {
		shares[r[0]] = append(shares[r[0]], number(t, r[2])/number(t, r[1]))
	}
	menus, err := filepath.Glob("testdata/menus/*.txt")
	if err != nil || len(menus) < 8 {
		t.Fatalf("%d menus, %v", len(menus), err)
	}
	kinds := words.Rows("kinds.tsv", file(t, "kinds.tsv"), 6)
	inside, all, noon := map[string]int{}, map[string]int{}, 0
	total := 0
	t.Logf("%-22s %5s %7s %9s %8s %10s", "menu", "items", "before", "published", "by noon", "last hour")
	for _, name := range menus {
		meal, p, now := dinner(t, name)
		ways.Renew(p, now)
		propose.Renew(p, p.Opens())
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now})
		if err != nil || clash != nil {
			t.Errorf("%s: no plan: %v %+v", meal, err, clash)
			continue
		}
		if broken := check.Plan(p, plan); len(broken) > 0 {
			t.Errorf("%s: %v", meal, broken)
		}
		cook, last := items(p, plan, false)
		work, _ := items(p, plan, true)
		before, byNoon := 0, 0
		middle := p.Day().Add(12 * time.Hour)
		for _, end := range cook {
			before += truth(!end.After(p.Day()))
		}
		for _, end := range work {
			byNoon += truth(!end.After(middle))
		}
		total, noon = total+len(work), noon+byNoon
		published := median(shares[meal])
		share := float64(before) / float64(len(cook))
		if testing.Verbose() && os.Getenv("TUREEN_ITEMS") != "" {
			for _, pl := range plan.Tasks {
				if d, _, _, _, _ := pl.Task.Split(); d != "" {
					t.Logf("        %s %s", pl.Start.Format("Mon 15:04"), pl.Task)
				}
			}
		}
		t.Logf("%-22s %5d %6.0f%% %8.0f%% %7.0f%% %10d", meal, len(cook), 100*share, 100*published,
			100*float64(byNoon)/float64(len(work)), last)
		if len(shares[meal]) == 0 || share < published {
			t.Errorf("%s: %.0f %% of the items before the day; the published median is %.0f", meal, 100*share, 100*published)
		}
		if last > 6 {
			t.Errorf("%s: %d things in the last hour", meal, last)
		}
		for _, k := range kinds {
			for _, pl := range ofKind(p, plan, k[1]) {
				all[k[0]]++
				if within(t, p, pl.Start, k[2], k[3]) {
					inside[k[0]]++
				} else {
					t.Logf("    %s: %s at %s, published %s to %s", k[0], pl.Task, pl.Start.Format("Mon 15:04"), k[2], k[3])
				}
			}
		}
	}
	if noon*100 < 80*total {
		t.Errorf("%d of %d items by noon of the day", noon, total)
	}
	good, seen := 0, 0
	for _, k := range kinds {
		if all[k[0]] == 0 {
			t.Errorf("no plan has %s", k[0])
			continue
		}
		seen++
		good += truth(inside[k[0]]*10 >= 9*all[k[0]])
		t.Logf("%-22s %2d of %2d on a published day (%s to %s)", k[0], inside[k[0]], all[k[0]], k[2], k[3])
	}
	if good*10 < 9*seen {
		t.Errorf("%d of %d kinds of task fall where published timelines have them", good, seen)
	}
}

func file(t *testing.T, name string) string {
	text, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func number(t *testing.T, text string) float64 {
	n, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func median(all []float64) float64 {
	if len(all) == 0 {
		return 1
	}
	slices.Sort(all)
	return (all[(len(all)-1)/2] + all[len(all)/2]) / 2
}

func truth(b bool) int {
	if b {
		return 1
	}
	return 0
}

// dinner is the party of a menu: a host alone, from five days before.
func dinner(t *testing.T, name string) (meal string, p *planner.Party, now time.Time) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	head, body, _ := strings.Cut(string(text), "\n== ")
	said := map[string]string{}
	for line := range strings.SplitSeq(head, "\n") {
		key, value, _ := strings.Cut(line, ": ")
		said[key] = value
	}
	at := func(clock string) time.Time {
		h, m, _ := strings.Cut(clock, ":")
		return time.Date(2027, time.March, 13, int(number(t, h)), int(number(t, m)), 0, 0, time.UTC)
	}
	p = &planner.Party{ID: 1, Name: "Dinner", Zone: "UTC", Arrival: at(said["arrive"]),
		Covers:   int(number(t, said["covers"])),
		PrepDays: 7, Kitchen: planner.HomeKitchen(), People: []planner.Person{{Key: "ana", Name: "Ana", Role: planner.Host,
			Dress: 20, Cooks: planner.DayHours{From: 8 * 60, Until: 21*60 + 30},
			Home: planner.DayHours{From: 0, Until: 24 * 60}}}}
	for c := range strings.SplitSeq(said["courses"], ", ") {
		course, clock, _ := strings.Cut(c, " ")
		p.Courses = append(p.Courses, planner.Course{Key: planner.CourseKey(course), Name: course,
			Servings: []planner.Serving{{At: at(clock), Early: 10, Late: 15}}})
	}
	for one := range strings.SplitSeq(body, "\n== ") {
		course, text, _ := strings.Cut(one, "\n")
		r, err := recipe.Read(text)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		d, _ := r.Dish(planner.CourseKey(strings.TrimSpace(course)), 0)
		p.Dishes = append(p.Dishes, d)
	}
	return said["kind"], p, p.Day().AddDate(0, 0, -5).Add(9 * time.Hour)
}

// items are when the items of a plan's dishes end, those with work by hand or all, and how many things, chores too,
// there are to do
// in the last hour before the arrival.
func items(p *planner.Party, plan *planner.Plan, hands bool) (ends []time.Time, lastHour int) {
	type item struct{ from, to time.Time }
	of := map[string][]item{}
	for _, task := range planner.Tasks(p) {
		pl := plan.Placed(task.Key)
		if pl == nil || task.Attention == planner.Unattended || hands && task.Attention != planner.Hands ||
			atTable(p, &task) || !pl.Start.Before(p.Arrival) && task.Chore != "" {
			continue
		}
		of[string(task.Dish)+"/"+string(task.Chore)] = append(of[string(task.Dish)+"/"+string(task.Chore)],
			item{pl.Start, pl.End})
	}
	for key, all := range of {
		slices.SortFunc(all, func(a, b item) int { return a.from.Compare(b.from) })
		var runs []item
		for _, one := range all {
			if n := len(runs); n > 0 && one.from.Sub(runs[n-1].to) < time.Hour {
				runs[n-1].to = planner.Later(runs[n-1].to, one.to)
				continue
			}
			runs = append(runs, one)
		}
		for _, run := range runs {
			if run.to.After(p.Arrival.Add(-time.Hour)) && run.from.Before(p.Arrival) {
				lastHour++
			}
			if !strings.HasPrefix(key, "/") && run.to.After(run.from) {
				ends = append(ends, run.to)
			}
		}
	}
	return ends, lastHour
}

// atTable says whether a task is a dish's last work by hand, which serves it.
func atTable(p *planner.Party, task *planner.Task) bool {
	_, s := p.StepOf(task)
	return s != nil && s.Serve != nil && s.Attention == planner.Hands && s.Where == planner.Counter &&
		s.Time.Likely <= 10 && len(s.After) > 0
}

// ofKind are a plan's tasks that have one of the words, or that are a chore of a kind.
func ofKind(p *planner.Party, plan *planner.Plan, said string) (out []*planner.Placed) {
	for _, task := range planner.Tasks(p) {
		kind, isChore := strings.CutPrefix(said, "chore ")
		c := p.Chore(task.Chore)
		hit := isChore && c != nil && string(c.Kind) == kind
		for w := range strings.SplitSeq(said, "|") {
			do := strings.ToLower(task.Do)
			hit = hit || !isChore && c == nil && (do == w || strings.HasPrefix(do, w+" ") || strings.HasPrefix(do, w+":") ||
				strings.Contains(w, " ") && strings.Contains(do, w))
		}
		if pl := plan.Placed(task.Key); hit && pl != nil {
			out = append(out, pl)
		}
	}
	return out
}

// within says whether an instant lies between two others that are told from the arrival, or on days before the party's.
func within(t *testing.T, p *planner.Party, at time.Time, from, to string) bool {
	instant := func(text string, days int) time.Time {
		unit := text[len(text)-1:]
		switch n := number(t, strings.TrimRight(strings.TrimPrefix(text, "+"), "dhm")); unit {
		case "d":
			return p.Day().AddDate(0, 0, int(n)+days)
		case "h":
			return p.Arrival.Add(time.Duration(n * float64(time.Hour)))
		case "m":
			return p.Arrival.Add(time.Duration(n * float64(time.Minute)))
		}
		return p.Arrival.Add(3 * time.Hour) // 0: at the meal, of whichever course
	}
	return !at.Before(instant(from, 0)) && !at.After(instant(to, 1))
}
