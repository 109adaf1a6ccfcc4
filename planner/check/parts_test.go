package check

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/words"
)

// lisbon is an hour of the rich party's Saturday, or of days before and after it.
func lisbon(t *testing.T, day, hour, minute int) time.Time {
	t.Helper()
	loc, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	return time.Date(2026, time.September, 26+day, hour, minute, 0, 0, loc)
}

// TestPartsOfDay: a day has a morning from six, an afternoon from twelve, an evening from five and a night from ten,
// which belongs to the day before and weighs most. The parts leave no gap.
func TestPartsOfDay(t *testing.T) {
	p, plan := partygen.Rich()
	c := newChecker(p, plan)
	for _, x := range []struct {
		day, hour, minute        int
		fromDay, from, toDay, to int
		weight                   int
	}{
		{0, 0, 0, -1, 22, 0, 6, nightWeight}, {0, 5, 59, -1, 22, 0, 6, nightWeight}, {0, 6, 0, 0, 6, 0, 12, 1},
		{0, 11, 59, 0, 6, 0, 12, 1}, {0, 12, 0, 0, 12, 0, 17, 1}, {0, 16, 59, 0, 12, 0, 17, 1}, {0, 17, 0, 0, 17, 0, 22, 1},
		{0, 21, 59, 0, 17, 0, 22, 1}, {0, 22, 0, 0, 22, 1, 6, nightWeight}, {0, 23, 59, 0, 22, 1, 6, nightWeight},
	} {
		from, to, weight := c.partOfDay(lisbon(t, x.day, x.hour, x.minute))
		if !from.Equal(lisbon(t, x.fromDay, x.from, 0)) || !to.Equal(lisbon(t, x.toDay, x.to, 0)) || weight != x.weight {
			t.Errorf("%02d:%02d: from %v to %v, weight %d, want %+v", x.hour, x.minute, from.In(c.loc), to.In(c.loc), weight, x)
		}
	}
}

// TestDinnerWork: quarters of an hour from half an hour before the arrival to the last course, two days at most; a
// minute's work in one counts it.
func TestDinnerWork(t *testing.T) {
	for _, x := range []struct {
		name       string
		from, long int // minutes from the arrival at 19:30; the last course comes at 21:45
		want       int
	}{
		{"over before", -60, 30, 0}, {"into the first quarter", -60, 31, 1}, {"two quarters", -20, 10, 2},
		{"one quarter", -30, 15, 1}, {"a minute into the next", -30, 16, 2}, {"up to the last course", 120, 600, 1},
		{"from the last course on", 135, 30, 0}, {"all of it", -60, 600, 11},
	} {
		p, plan := partygen.Rich()
		for i := range plan.Tasks {
			if plan.Tasks[i].Task != "tart/fill" && slices.Contains(plan.Tasks[i].People, "ben") {
				plan.Tasks[i].People = nil
			}
		}
		pl := plan.Placed("tart/fill")
		pl.Start = p.Arrival.Add(time.Duration(x.from) * time.Minute)
		pl.End = pl.Start.Add(time.Duration(x.long) * time.Minute)
		of := func(who *planner.Person) bool { return who.Key == "ben" }
		if got := newChecker(p, plan).dinnerWork(of); got != x.want {
			t.Errorf("%s: %d, want %d", x.name, got, x.want)
		}
	}
	p, plan := partygen.Rich()
	p.Courses[2].Servings[0].At = p.Arrival.Add(1000 * time.Hour)
	plan.Placed("tart/fill").Start, plan.Placed("tart/fill").End = p.Arrival, p.Arrival.Add(900*time.Hour)
	if got := newChecker(p, plan).dinnerWork(func(who *planner.Person) bool { return who.Key == "ben" }); got != 48*4 {
		t.Errorf("a party without end: %d quarters, want those of two days", got)
	}
}

// TestOnTimeInBands: five minutes begun are a band, late or early.
func TestOnTimeInBands(t *testing.T) {
	for minutes, want := range map[int]int{-11: 3, -10: 2, -1: 1, 0: 0, 1: 1, 5: 1, 6: 2, 10: 2, 11: 3} {
		p, plan := partygen.Rich()
		plan.Served[3].At = plan.Served[3].At.Add(time.Duration(minutes) * time.Minute)
		if got := newChecker(p, plan).onTime(); got != want {
			t.Errorf("%d minutes: %d bands, want %d", minutes, got, want)
		}
	}
	p, plan := partygen.Rich()
	plan.Served = plan.Served[1:]
	if got := newChecker(p, plan).onTime(); got != 0 {
		t.Errorf("what is not in the plan is not late: %d", got)
	}
}

// TestAwayLateIsNotCalm: hands work away weighs from four hours before the arrival on.
func TestAwayLateIsNotCalm(t *testing.T) {
	calm := func(minutes int, away bool) int {
		p, plan := partygen.Rich()
		p.Chore("table").Away = away
		pl := plan.Placed("table") // the arrival is at 19:30
		pl.Start, pl.End = lisbon(t, 0, 15, 0), lisbon(t, 0, 15, 30+minutes)
		return newChecker(p, plan).calm()
	}
	if calm(0, true) != calm(0, false) || calm(1, true) != calm(1, false)+1 {
		t.Errorf("until 15:30: %d and %d at home; a minute longer: %d and %d", calm(0, true), calm(0, false), calm(1, true),
			calm(1, false))
	}
}

// TestSharedIsTheMost: the most that anybody has in hand, in half hours begun.
func TestSharedIsTheMost(t *testing.T) {
	for minutes, want := range map[int]int{1: 1, 30: 1, 31: 2, 60: 2, 61: 3} {
		p, plan := partygen.Rich()
		for i := range plan.Tasks {
			plan.Tasks[i].People = nil
		}
		pl, other := plan.Placed("tart/fill"), plan.Placed("tart/custard")
		pl.People, other.People = []planner.PersonKey{"ben", "cleo"}, []planner.PersonKey{"ben"}
		pl.End = pl.Start.Add(time.Duration(minutes-1) * time.Minute)
		other.End = other.Start.Add(time.Minute)
		if got := newChecker(p, plan).shared(); got != want {
			t.Errorf("%d minutes: %d, want %d", minutes, got, want)
		}
	}
}

// TestLabels: a task is named by what is done and by its dish; what the party has no more, by its key; somebody who has
// left, by theirs.
func TestLabels(t *testing.T) {
	p, plan := partygen.Rich()
	c := newChecker(p, plan)
	for _, x := range []struct{ got, want string }{
		{labelOf("Fry them", "fry", "Fritters"), `"Fry them" (Fritters)`},
		{labelOf("", "fry", "Fritters"), `"fry" (Fritters)`},
		{labelOf("Lay the table", "table", ""), `"Lay the table"`}, {labelOf("", "table", ""), `"table"`},
		{dishName(&planner.Dish{Key: "tart"}), "tart"},
		{dishName(&planner.Dish{Key: "tart", Name: "Pear tart"}), "Pear tart"},
		{c.name("ana"), "Ana"}, {c.name("zoe"), "zoe"},
		{c.formerly("tart/glaze-it"), `"Glaze it" (Custard tart)`}, {c.formerly("old-pie/bake"), `"Bake" (Old pie)`},
		{c.formerly("old-pie/bake.2"), `"Bake" (Old pie)`}, {c.formerly(planner.ChoreTask("fold-napkins")), `"Fold napkins"`},
		{c.formerly("nonsense/"), "A task"}, {persons(1), "1 person"}, {persons(2), "2 people"},
		{useName(&planner.Use{What: planner.ABurner}), "burner"},
		{useName(&planner.Use{What: planner.ABurner, Amount: 2}), "2 of burner"},
		{useName(&planner.Use{What: planner.AnOven, C: 180}), "oven at 180 °C"},
		{useName(&planner.Use{What: planner.AnOven, Name: "small oven"}), "the small oven"},
		{useName(&planner.Use{What: planner.AVessel, Name: "pot", C: 180}), "the pot"},
		{heldName(&planner.Held{What: planner.AVessel, Name: "pot"}), "the pot"},
		{heldName(&planner.Held{What: planner.AGrill}), "grill"},
		{kindName(planner.AVessel, "pot"), "pot"}, {kindName(planner.ABurner, ""), "burner"},
		{servedName(planner.Served{Course: "main"}), "main"},
		{servedName(planner.Served{Course: "main", Group: "toddlers"}), "main to the toddlers"},
		{courseName(&planner.Course{Key: "main"}), "main"},
		{courseName(&planner.Course{Key: "main", Name: "Roast"}), "Roast"},
		{c.at(p.Arrival), "Sat 19:30"}, {c.at(p.Arrival.Add(-sameWeekday + time.Minute)), "Sun 19:31"},
		{c.at(p.Arrival.Add(-sameWeekday)), "Sun 20 Sep 19:30"}, {c.at(p.Arrival.Add(sameWeekday)), "Fri 2 Oct 19:30"},
	} {
		if got := words.PlainStamps(x.got); got != x.want {
			t.Errorf("got %q, want %q", got, x.want)
		}
	}
	p.People[0].Name = ""
	if got := c.name("ana"); got != "ana" {
		t.Errorf("somebody without a name: %q", got)
	}
	if got := wholeUp(p.Arrival.Add(time.Nanosecond)); !got.Equal(p.Arrival.Add(time.Minute)) ||
		!wholeUp(p.Arrival).Equal(p.Arrival) {
		t.Errorf("a nanosecond past: %v", got)
	}
	if c.p.AirC() != 20 {
		t.Errorf("a room of which nobody has said how warm it is: %d °C", c.p.AirC())
	}
}

// said are the breaks of a changed plan, one a line.
func saidOf(do func(p *planner.Party, plan *planner.Plan)) string {
	p, plan := partygen.Rich()
	do(p, plan)
	var lines []string
	for _, b := range Plan(p, plan) {
		lines = append(lines, b.Text)
	}
	return strings.Join(lines, "\n")
}

// TestSentences: what is said of breaks that are no matter of a figure names what it is about, in this order.
func TestSentences(t *testing.T) {
	whipped := func(s *planner.Step) { s.Leaves = planner.Food{Perishable: true, Kind: "whipped-cream"} }
	for _, x := range []struct {
		do   func(p *planner.Party, plan *planner.Plan)
		want []string
	}{
		{func(_ *planner.Party, plan *planner.Plan) { plan.Placed("tart/bake").Uses[0].Name = "stove" },
			[]string{"Bake the shell", "put into the oven", `"stove"`, "has not"}},
		{func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = append(plan.Tasks, plan.Tasks[0]) },
			[]string{"shopping stands in the plan twice"}},
		{func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = plan.Tasks[1:] }, []string{"Shop for the party",
			"is not in the plan"}},
		{func(_ *planner.Party, plan *planner.Plan) {
			plan.Tasks = append(plan.Tasks, planner.Placed{Task: "pie/bake"})
		}, []string{`"Bake" (Pie)`, "no task of the party any more"}},
		{func(_ *planner.Party, plan *planner.Plan) { plan.Placed("tart/fill").People[0] = "zoe" },
			[]string{"Fill the shell", "not one of the people any more"}},
		{func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("soup/chop").People = []planner.PersonKey{"ana", "ana"}
		}, []string{"Chop the vegetables", "to Ana twice"}},
		{func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("tart/chill").Start = plan.Placed("tart/chill").Start.Add(1500 * time.Millisecond)
		}, []string{"Chill the tart", "Sat 15:50:01.5", "no whole minute"}},
		{func(_ *planner.Party, plan *planner.Plan) { plan.Without = []planner.LeftOut{{Dish: "pie"}} },
			[]string{"Only an evening plan may leave a dish out"}},
		{func(_ *planner.Party, plan *planner.Plan) { plan.Served = plan.Served[:3] },
			[]string{"does not say when Dessert is served"}},
		{func(_ *planner.Party, plan *planner.Plan) { plan.Served = append(plan.Served, plan.Served[1]) },
			[]string{"serves main to the toddlers twice"}},
		{func(_ *planner.Party, plan *planner.Plan) {
			plan.Served = append(plan.Served, planner.Served{Course: "cheese"})
		},
			[]string{"serves cheese, which the party does not ask for"}},
		{func(_ *planner.Party, plan *planner.Plan) { plan.Served[0].At = plan.Served[0].At.Add(time.Second) },
			[]string{"Starter is served at Sat 20:00:01", "no whole minute"}},
		{func(_ *planner.Party, plan *planner.Plan) { plan.Placed("sorbet/freeze").People[0] = "dan" },
			[]string{"Freeze the sorbet", "Dan, who only looks on"}},
		{func(_ *planner.Party, plan *planner.Plan) { plan.Placed("sorbet/freeze").People = nil },
			[]string{"Nobody is in charge of", "Freeze the sorbet"}},
		{func(p *planner.Party, plan *planner.Plan) {
			p.Work = []planner.Work{{Task: "shopping", Person: "ben", Progress: planner.Started,
				Start: &plan.Placed("shopping").Start}}
			plan.Placed("shopping").People = nil
		}, []string{"Shop for the party", "by Ben", "to nobody"}},
		{func(p *planner.Party, _ *planner.Plan) {
			p.Dish("soup").Step("reheat").Serve.Hold = &planner.Use{What: planner.AnOven, C: 50}
		},
			[]string{"After", "Heat the soup", "keeps the food at"}},
		{func(p *planner.Party, _ *planner.Plan) { // four hours of rest, and 23 of waiting
			withStep(p, "sorbet", "freeze", whipped)
			s := p.Dish("sorbet").Step("freeze")
			s.Where, s.Serve, s.Time = planner.Refrigerator, &planner.Wait{State: planner.Refrigerator}, partygen.Exactly(240)
		}, []string{"Between", "Freeze the sorbet", "the last service", "in the refrigerator", "1 day"}},
		{func(p *planner.Party, plan *planner.Plan) { // more than a day of rest alone
			withStep(p, "sorbet", "freeze", whipped)
			s := p.Dish("sorbet").Step("freeze")
			s.Where, s.Serve, s.Time = planner.Refrigerator, &planner.Wait{State: planner.Refrigerator},
				partygen.Exactly(24*60+1)
			pl := plan.Placed("sorbet/freeze")
			pl.End = pl.Start.Add((24*60 + 1) * time.Minute)
		}, []string{"At the end of", "Freeze the sorbet", "in the refrigerator", "1 day"}},
		{func(p *planner.Party, plan *planner.Plan) {
			pl := plan.Placed("fritters/fry.2")
			first := plan.Placed("fritters/fry")
			pl.Start, pl.End = first.Start.Add(-time.Minute), first.End.Add(-time.Minute)
		}, []string{"round 2", "before the round before it"}},
		{func(p *planner.Party, plan *planner.Plan) { // settled, and it does not say in which of two
			pl := plan.Placed("braise/braise")
			p.Work = append(p.Work, planner.Work{Task: "braise/braise", Progress: planner.Started, Start: &pl.Start})
			plan.Made, pl.Uses = pl.Start.Add(time.Hour), nil
		}, []string{"does not say which oven", "Braise the meat"}},
	} {
		got := saidOf(x.do)
		rest, missing := got, ""
		for _, part := range x.want {
			_, after, found := strings.Cut(rest, part)
			if !found {
				missing = part
				break
			}
			rest = after
		}
		if missing != "" {
			t.Errorf("%q is not said, in the order of %q:\n%s", missing, x.want, got)
		}
	}
}

// TestOnTheMarkBeforeTheDay: a longer task of the days before starts on a mark wherever it can go: the furthest such
// place, and its own when there is none nearer.
func TestOnTheMarkBeforeTheDay(t *testing.T) {
	p, plan := partygen.Rich()
	for _, x := range []struct {
		k         planner.TaskKey
		way       planner.Minutes
		far, want planner.Minutes
	}{
		{"tart/dough", 1, 0, 0}, {"tart/dough", 1, 4, 0}, {"tart/dough", 1, 5, 5}, {"tart/dough", 1, 9, 5},
		{"tart/dough", -1, 9, 5}, {"tart/dough", -1, 10, 10}, {"soup/blend", 1, 7, 7}, // 10 minutes: any
		{"tart/custard", 1, 7, 7}, // on the day itself
	} {
		if got := newSpareFinder(p, plan).onMark(x.k, x.way, x.far); got != x.want {
			t.Errorf("%s, %d times %d: %d, want %d", x.k, x.way, x.far, got, x.want)
		}
	}
}

// TestBlocks: what goes straight on moves together, at whichever end one takes hold of it; with a mark, what is as far
// past one on the day goes along, its own dish's alone, or none.
func TestBlocks(t *testing.T) {
	p, plan := partygen.Rich()
	sorted := func(block []planner.TaskKey) string {
		var out []string
		for _, k := range block {
			out = append(out, string(k))
		}
		slices.Sort(out)
		return strings.Join(out, " ")
	}
	for k, want := range map[planner.TaskKey]string{"soup/chop": "soup/chop soup/simmer",
		"soup/simmer": "soup/chop soup/simmer",
		"soup/blend":  "soup/blend", "braise/braise": "braise/braise braise/brown", "tart/fill": "tart/chill tart/fill",
		"bread/bake": "bread/bake bread/proof", "wine": "wine"} {
		if got := sorted(newSpareFinder(p, plan).block(k)); got != want {
			t.Errorf("%s moves with %s, want %s", k, got, want)
		}
	}
	for _, k := range []planner.TaskKey{"braise/gravy", "fritters/batter", "wine"} {
		pl := plan.Placed(k)
		pl.Start, pl.End = pl.Start.Add(2*time.Minute), pl.End.Add(2*time.Minute)
	}
	var got []string
	for _, b := range newSpareFinder(p, plan).blocksWith("fritters/batter", 2) {
		got = append(got, sorted(b))
	}
	// The first round is fried at 19:42, two past a mark too.
	want := []string{"braise/gravy fritters/batter fritters/fry wine", "fritters/batter fritters/fry",
		"fritters/batter"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := pastMark(p, lisbon(t, 0, 19, 44)); got != 4 {
		t.Errorf("19:44 is %d past a mark", got)
	}
	if !noneWorse([]int{1, 2}, []int{1, 2}) || !noneWorse([]int{0, 2}, []int{1, 2}) || noneWorse([]int{0, 3}, []int{1,
		2}) {
		t.Error("as good on every level, or better, is none worse; worse on one is not")
	}
}

// TestOffMark: of the day's tasks those of a quarter of an hour or more that lead themselves, by start or back.
func TestOffMark(t *testing.T) {
	p, plan := partygen.Rich()
	if got := newChecker(p, plan).offMark(true); len(got) != 0 {
		t.Errorf("the plan made by hand: %v", got)
	}
	for _, k := range []planner.TaskKey{"tart/custard", "tart/bake", "soup/blend", "fritters/batter", "braise/braise",
		"wine",
		"soup/chop"} {
		pl := plan.Placed(k)
		pl.Start, pl.End = pl.Start.Add(time.Minute), pl.End.Add(time.Minute)
	}
	// Not the soup's, on Friday; nor the batter, of ten minutes; nor the braise, which goes straight on.
	want := []planner.TaskKey{"tart/bake", "tart/custard", "wine"}
	if got := newChecker(p, plan).offMark(true); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	slices.Reverse(want)
	if got := newChecker(p, plan).offMark(false); !slices.Equal(got, want) {
		t.Errorf("backwards: got %v, want %v", got, want)
	}
	pl := plan.Placed("tart/custard")
	for minutes, is := range map[int]bool{14: false, 15: true} {
		pl.End = pl.Start.Add(time.Duration(minutes) * time.Minute)
		if got := slices.Contains(newChecker(p, plan).offMark(true), pl.Task); got != is {
			t.Errorf("of %d minutes: %t", minutes, got)
		}
	}
	start := pl.Start
	p.Work = append(p.Work, planner.Work{Task: pl.Task, Progress: planner.Started, Start: &start})
	if slices.Contains(newChecker(p, plan).offMark(true), pl.Task) {
		t.Error("what has begun is to be moved")
	}
}

// TestLastQuarterEndsWithTheLastCourse: where the last course comes within a quarter of an hour, work after it is none
// of the dinner's.
func TestLastQuarterEndsWithTheLastCourse(t *testing.T) {
	for from, want := range map[int]int{129: 1, 130: 0} {
		p, plan := partygen.Rich()
		p.Courses[2].Servings[0].At = p.Arrival.Add(130 * time.Minute)
		for i := range plan.Tasks {
			plan.Tasks[i].People = nil
		}
		pl := plan.Placed("tart/fill")
		pl.Start, pl.People = p.Arrival.Add(time.Duration(from)*time.Minute), []planner.PersonKey{"ben"}
		pl.End = pl.Start.Add(4 * time.Minute)
		if got := newChecker(p, plan).dinnerWork(func(who *planner.Person) bool { return who.Key == "ben" }); got != want {
			t.Errorf("%d minutes after the arrival: %d quarters, want %d", from, got, want)
		}
	}
}
