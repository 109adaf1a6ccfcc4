package bot

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/repertoire"
)

// harvest is a party for Saturday 26 September, planned from ready dishes.
func harvest(t *testing.T) *table {
	t.Helper()
	tb := newTable(t)
	tb.must("Ana", `/party new name:Harvest supper date:2026-09-26 arrive:19:00 covers:8 zone:Europe/Lisbon `+
		`courses:starter 19:30, main 20:30, dessert 21:30`,
		"/people add name:Ben cooks:16:00-21:30", "/drink add name:Vinho verde kind:white bottles:4",
		"/repertoire add dish:prawns", "/repertoire add dish:Roast chicken with lemon and bay",
		"/repertoire add dish:rosemary roast potatoes",
		"/repertoire add dish:lemon posset", "/plan make")
	return tb
}

// lisbonSaturday is a time on the party's day; Lisbon is an hour ahead of UTC then.
func lisbonSaturday(hour, minute int) time.Time {
	return time.Date(2026, 9, 26, hour-1, minute, 0, 0, time.UTC)
}

// holds fails the test unless the plan in force keeps every rule and belongs to the party as it stands.
func (tb *table) holds() planner.Plan {
	tb.t.Helper()
	snap := tb.party()
	if snap.Plan == nil {
		tb.t.Fatal("no plan is in force")
	}
	for _, b := range check.Plan(&snap.Party, snap.Plan) {
		tb.t.Errorf("the plan breaks rule %d: %s %s", b.Rule, b.Task, b.Text)
	}
	if snap.Plan.Revision < snap.Shaped {
		tb.t.Errorf("the plan is of revision %d, and the party was shaped in %d", snap.Plan.Revision, snap.Shaped)
	}
	return *snap.Plan
}

func TestPlanMake(t *testing.T) {
	tb := newTable(t)
	tb.must("Ana", `/party new name:Harvest supper date:2026-09-26 arrive:19:00 covers:8 zone:Europe/Lisbon `+
		`courses:starter 19:30, main 20:30`)
	if rep := tb.say("Ana", "/plan show"); !rep.Refused || !strings.Contains(rep.Next, "/plan make") {
		t.Errorf("a plan that is not there: %q, next %q", rep.Text, rep.Next)
	}
	if rep := tb.say("Ana", "/plan make"); !rep.Refused {
		t.Errorf("planned without dishes: %q", rep.Text)
	}
	tb.must("Ana", "/repertoire add dish:prawns", "/plan make propose:no")
	if n := len(tb.party().Party.Chores); n != 0 {
		t.Errorf("%d tasks are proposed though nobody wanted them", n)
	}
	rep := tb.must("Ana", "/plan make")
	tb.holds()
	for _, want := range []string{"You: ", "Free from 18:30", "Shopping: ", "The plan stands", "Shop at the supermarket",
		"from the freezer", "Changed"} {
		if !strings.Contains(plain(rep), want) {
			t.Errorf("no %q in\n%s", want, plain(rep))
		}
	}
	if rep := tb.must("Ana", "/plan make"); !strings.Contains(plain(rep), "Nothing that anybody has been told") {
		t.Errorf("planned anew without a change:\n%s", plain(rep))
	}
	// A change that the plan does not survive is said, and mended by planning anew.
	rep = tb.must("Ana", "/course change course:starter at:20:10")
	if !strings.Contains(plain(rep), "out of date") {
		t.Errorf("got %q", plain(rep))
	}
	if rep := tb.must("Ana", "/plan check"); !strings.Contains(rep.Text, "out of date") || rep.Next != "Next: /plan make" {
		t.Errorf("got %q, next %q", rep.Text, rep.Next)
	} else if strings.Contains(plain(rep), "How good it is") {
		t.Errorf("a plan that does not hold is praised:\n%s", plain(rep))
	}
	rep = tb.must("Ana", "/plan make")
	if !strings.Contains(plain(rep), "Starter: served at") {
		t.Errorf("the change is not told:\n%s", plain(rep))
	}
	tb.holds()
	if tb.say("Ben", "/plan make").Refused == false {
		t.Error("a stranger plans")
	}
}

// TestClashIsNoPlan: four hours of lamb do not fit before half past nine, and what is said of it helps.
func TestClashIsNoPlan(t *testing.T) {
	tb := newTable(t)
	tb.must("Ana", `/party new name:Soon date:2026-09-14 arrive:21:00 covers:8 zone:UTC prep-days:0 courses:main 21:30`,
		"/repertoire add dish:slow lamb")
	before := tb.party()
	rep := tb.say("Ana", "/plan make")
	if !rep.Refused || !strings.Contains(rep.Text, "no plan") || len(rep.Sections) == 0 ||
		len(rep.Sections[0].Lines) == 0 {
		t.Fatalf("got %s", plain(rep))
	}
	after := tb.party()
	if after.Plan != nil || after.Revision != before.Revision {
		t.Error("a clash changed the party")
	}
	for _, b := range rep.Buttons {
		if _, err := tb.Parse("/" + b.Do); err != nil {
			t.Errorf("the button %q says %q: %v", b.Label, b.Do, err)
		}
	}
}

func TestLook(t *testing.T) {
	tb := harvest(t)
	plan := tb.holds()
	show := tb.must("Ben", "/plan show person:me day:sat")
	n := 0
	for _, s := range show.Sections {
		n += len(s.Lines)
	}
	want := 0
	for _, pl := range plan.Tasks {
		if slices.Contains(pl.People, "ben") && !pl.Start.Before(lisbonSaturday(0, 0)) {
			want++
		}
	}
	if n != want || n == 0 {
		t.Errorf("Ben sees %d tasks on Saturday, has %d:\n%s", n, want, plain(show))
	}
	for message, wants := range map[string][]string{
		"/plan runsheet": {"Heat the oven to", "The guests arrive", "Serve the main: Roast chicken",
			"Out of the oven", "74 °C", "a hand for it"},
		"/plan runsheet from:21:00": {"Serve the dessert"},
		"/plan prep":                {"[ ]", "Lemon posset"},
		"/plan check":               {"The plan holds", "Published limits", "USDA FSIS", "local food authority"},
		"/shopping list": {"Supermarket, Thu", "2 whole chickens", "8 lemons", "4 bottles Vinho verde", "not before",
			"In the house"},
		"/shopping list shop:super": {"2 whole chickens"},
	} {
		got := plain(tb.must("Ana", message))
		for _, w := range wants {
			if !strings.Contains(got, w) {
				t.Errorf("%s: no %q in\n%s", message, w, got)
			}
		}
	}
	if got := plain(tb.must("Ana", "/plan runsheet from:21:00")); strings.Contains(got, "Serve the main") {
		t.Errorf("from 21:00 there is no main any more:\n%s", got)
	}
	if rep := tb.say("Ana", "/shopping list shop:baker"); !rep.Refused {
		t.Errorf("nothing is bought at a baker: %s", plain(rep))
	}
}

// TestNow: eight lines and then more, what is in the oven until when, and the rest with more:yes.
func TestNow(t *testing.T) {
	tb := harvest(t)
	tb.now = lisbonSaturday(19, 45)
	rep := tb.must("Ben", "/now person:everybody")
	lines := strings.Split(plain(talk.Reply{Text: rep.Text}), "\n")
	lines = slices.DeleteFunc(lines, func(l string) bool { return l == "" })
	if len(lines) > 8 {
		t.Errorf("%d lines:\n%s", len(lines), rep.Text)
	}
	if !strings.Contains(plain(rep), "In the oven (") {
		t.Errorf("nothing of the oven:\n%s", plain(rep))
	}
	if len(lines) == 8 && (len(rep.Buttons) != 1 || rep.Buttons[0].Label != "More") {
		t.Errorf("no button for more: %+v", rep.Buttons)
	}
	whole := tb.must("Ben", "/now person:everybody more:yes")
	if strings.Contains(whole.Text, "more:yes") {
		t.Errorf("still more after more:yes:\n%s", whole.Text)
	}
	if rep := tb.say("Ben", "/now person:nobody-we-know"); !rep.Refused {
		t.Errorf("now of a stranger: %s", plain(rep))
	}
}

func TestLateGuests(t *testing.T) {
	tb := harvest(t)
	before := tb.party()
	tb.now = lisbonSaturday(18, 50)
	rep := tb.must("Ana", "/late guests:25")
	after := tb.party()
	tb.holds()
	if got := after.Party.Arrival.Sub(before.Party.Arrival); got != 25*time.Minute {
		t.Errorf("the guests come %s later, want 25 minutes", got)
	}
	for i, c := range after.Party.Courses {
		if got := c.Servings[0].At.Sub(before.Party.Courses[i].Servings[0].At); got != 25*time.Minute {
			t.Errorf("%s moved by %s, want 25 minutes", c.Name, got)
		}
	}
	for _, want := range []string{"Starter: served at", "How long each dish can wait",
		"Prawns with garlic and chilli: at its best to", "nobody ticked it off"} {
		if !strings.Contains(plain(rep), want) {
			t.Errorf("no %q in\n%s", want, plain(rep))
		}
	}
	// What lay in the past is frozen: nothing that is still to do starts before now.
	for _, pl := range after.Plan.Tasks {
		if w := after.Party.WorkOn(pl.Task); pl.Start.Before(tb.now) && (w == nil || w.Progress == planner.Waiting) {
			t.Errorf("%s is planned for %s, in the past", pl.Task, pl.Start)
		}
	}
}

func TestLateTask(t *testing.T) {
	tb := harvest(t)
	tb.now = lisbonSaturday(18, 55)
	const roast = "roast-chicken-with-lemon-and/roast"
	was := tb.holds()
	rep := tb.must("Ben", "/late task:"+roast+" by:20")
	is := tb.holds()
	if got := is.Placed(roast).End.Sub(was.Placed(roast).End); got != 20*time.Minute {
		t.Errorf("the roast ends %s later, want 20 minutes:\n%s", got, plain(rep))
	}
	// One that has not begun starts later.
	const carve = "roast-chicken-with-lemon-and/carve"
	was = is
	rep = tb.must("Ben", "/late task:"+carve+" by:10")
	is = tb.holds()
	if got := is.Placed(carve).Start.Sub(was.Placed(carve).Start); got != 10*time.Minute {
		t.Errorf("carving starts %s later, want 10 minutes:\n%s", got, plain(rep))
	}
	for message, say := range map[string]string{
		"/late":                             "Say what is late",
		"/late task:" + roast:               "by how much",
		"/late by:10":                       "which task",
		"/late task:lemon-posset/boil by:5": "done already",
		"/late guests:0":                    "give a time from",
		"/late task:nothing by:5":           "no task",
	} {
		if rep := tb.say("Ben", message); !rep.Refused || !strings.Contains(rep.Text, say) {
			t.Errorf("%s: got %q, want a refusal with %q", message, rep.Text, say)
		}
	}
}

func TestRepertoire(t *testing.T) {
	tb := newTable(t)
	tb.must("Ana", `/party new name:Long table date:2026-09-26 arrive:18:00 covers:8 zone:UTC courses:starter 18:30, `+
		`main 20:30`)
	list := tb.must("Ana", "/repertoire list")
	n := 0
	for _, s := range list.Sections {
		n += len(s.Lines)
	}
	if n != len(repertoire.List()) {
		t.Errorf("%d dishes listed, %d are on the shelf", n, len(repertoire.List()))
	}
	vegan := plain(tb.must("Ana", "/repertoire list course:main diet:vegan"))
	if strings.Contains(vegan, "chicken") || !strings.Contains(vegan, "Squash and chickpea stew") {
		t.Errorf("vegan mains:\n%s", vegan)
	}
	if show := plain(tb.must("Ana", "/repertoire show dish:posset")); !strings.Contains(show, "1 l double cream") ||
		!strings.Contains(show, "at least 3 h") {
		t.Errorf("the posset:\n%s", show)
	}
	for message, say := range map[string]string{
		"/repertoire add dish:roast":             "More than one",
		"/repertoire add dish:dragon":            "no ready dish",
		"/repertoire add dish:baked salmon":      "no course",
		"/repertoire add dish:🍋":                 "no ready dish",
		"/repertoire add":                        "needs dish",
		"/repertoire list diet:air":              "choose one of",
		"/repertoire add dish:baked salmon at:3": "no time I can read",
	} {
		if rep := tb.say("Ana", message); !rep.Refused || !strings.Contains(rep.Text, say) {
			t.Errorf("%s: got %q, want a refusal with %q", message, rep.Text, say)
		}
	}
	tb.must("Ana", "/repertoire add dish:baked salmon at:19:30", "/repertoire add dish:herbed rice",
		"/repertoire add dish:focaccia covers:10")
	p := tb.party().Party
	if c := p.Course("fish"); c == nil || !c.Servings[0].At.Equal(time.Date(2026, 9, 26, 19, 30, 0, 0, time.UTC)) {
		t.Errorf("no fish course at 19:30: %+v", p.Courses)
	}
	if d := p.Dish("herbed-rice"); d.Course != "main" {
		t.Errorf("the rice goes with %s", d.Course)
	}
	if d := p.Dish("olive-oil-focaccia"); d.Course != "starter" || d.Covers != 10 {
		t.Errorf("the focaccia: %s, %d covers", d.Course, d.Covers)
	}
	if rep := tb.say("Ana", "/repertoire add dish:herbed rice"); !rep.Refused || !strings.Contains(rep.Text, "already") {
		t.Errorf("twice: %q", rep.Text)
	}
	// A kitchen that lacks the plates hears of it.
	tb.must("Ana", "/kitchen ware name:dessert bowl count:0 kind:plate")
	rep := tb.must("Ana", "/repertoire add dish:posset at:22:00")
	if !strings.Contains(rep.Text, "no dessert bowl") || wareOf(tb, "lemon-posset") != "" {
		t.Errorf("got %q", rep.Text)
	}
}

// TestEveryReadyDishByMessage: each dish of the shelf can be added to a party by one message.
func TestEveryReadyDishByMessage(t *testing.T) {
	for cards := range slices.Chunk(repertoire.List(), 40) { // as many as a party can note
		tb := newTable(t)
		tb.must("Ana", `/party new name:All of it date:2026-09-26 arrive:18:00 covers:6 zone:UTC courses:nibbles 18:10, `+
			`starter 18:40, soup 19:10, fish 19:40, main 20:20, cheese 21:20, dessert 22:00`)
		for _, c := range cards {
			tb.must("Ana", "/repertoire add dish:"+c.Name)
		}
		p := tb.party().Party
		if len(p.Dishes) != len(cards) {
			t.Errorf("%d dishes on the menu", len(p.Dishes))
		}
		for _, x := range p.Validate() {
			t.Errorf("%s: %s", x.Where, x.Text)
		}
	}
}

func wareOf(tb *table, k planner.DishKey) string {
	p := tb.party().Party
	return p.Dish(k).Plate
}

// TestPlanMakeInTheEvening: what nobody ticked off is taken as done on any day, and said so; and where the windows
// cannot be kept any more there is the plan that is least late.
func TestPlanMakeInTheEvening(t *testing.T) {
	tb := harvest(t)
	plan := tb.holds()
	tb.now = plan.Placed("make-room").End.Add(overdueLeast) // on Friday
	got := plain(tb.must("Ana", "/plan make"))
	if !strings.Contains(got, "though nobody ticked it off") || !strings.Contains(got, "(make-room), done") {
		t.Errorf("making room is not taken as done:\n%s", got)
	}
	if after := tb.holds(); !after.Placed("make-room").Start.Equal(plan.Placed("make-room").Start) {
		t.Error("making room has moved, since nobody ticked it off")
	}
	tb = harvest(t)
	tb.now = lisbonSaturday(19, 20)
	got = plain(tb.must("Ana", "/plan make"))
	if !strings.Contains(got, "Taken as done") || strings.Contains(got, "planned again") {
		t.Errorf("got\n%s", got)
	}
	tb.holds()
	tb.must("Ana", "/late task:roast-chicken-with-lemon-and/roast by:60") // the main is late now, whatever is done
	if !tb.holds().Soft {
		t.Error("the plan is no evening plan")
	}
}
