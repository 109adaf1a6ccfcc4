package reminders

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// TestHas: how much of everything the kitchen has.
func TestHas(t *testing.T) {
	p, plan := tart()
	p.Kitchen = planner.Kitchen{Burners: 2, Grills: 3, Counter: 4, Ovens: []planner.Oven{{Name: "oven", Shelves: 5}},
		Vessels:    []planner.Ware{{Name: "lid", Count: 1}, {Name: "pot", Count: 6}},
		Appliances: []planner.Ware{{Name: "pot", Count: 7}}, HotPlaces: []planner.Ware{{Name: "pot", Count: 8}}}
	v := see(p, plan)
	for i, h := range []planner.Held{{What: planner.ABurner}, {What: planner.AGrill}, {What: planner.ACounter},
		{What: planner.AnOven, Name: "oven"}, {What: planner.AVessel, Name: "pot"},
		{What: planner.AnAppliance, Name: "pot"}, {What: planner.AHotPlace, Name: "pot"}} {
		if got := v.has(&h); got != i+2 {
			t.Errorf("%+v: %d, want %d", h, got, i+2)
		}
	}
	for _, h := range []planner.Held{{What: planner.AnOven, Name: "pot"}, {What: planner.AVessel, Name: "oven"}} {
		if got := v.has(&h); got != 0 {
			t.Errorf("%+v: %d, want none", h, got)
		}
	}
}

// TestAnchors: what a chore has to be done by, and what it says of that.
func TestAnchors(t *testing.T) {
	noon := at(12, 0)
	for _, c := range []struct {
		a    planner.Anchor
		at   time.Time
		then string
	}{
		{planner.Anchor{At: &noon}, noon, "it is not done by Sat 12:00"},
		{planner.Anchor{At: &noon, Offset: 10}, at(12, 10), "it is not done by Sat 12:10"},
		{planner.Anchor{Arrival: true}, at(19, 0), "it is not done when the guests arrive"},
		{planner.Anchor{Arrival: true, Offset: -30}, at(18, 30), "it is not done by Sat 18:30"},
		{planner.Anchor{Course: "dessert"}, at(21, 0), "dessert has to wait for it"},
		{planner.Anchor{Task: "pear-tart/bake"}, at(17, 30), `"Bake the tart" has to wait for it`},
		{planner.Anchor{Course: "main"}, time.Time{}, ""}, {planner.Anchor{Task: "pear-tart/eat"}, time.Time{}, ""},
		{planner.Anchor{}, time.Time{}, ""},
	} {
		p, plan := tart()
		got, then, ok := see(p, plan).anchor(c.a)
		if ok != (c.then != "") || !got.Equal(c.at) || words.PlainStamps(then) != c.then {
			t.Errorf("%+v: %v, %q, %t, want %v, %q", c.a, got, then, ok, c.at, c.then)
		}
	}
}

// TestRoomInWords: none, until a time of the day, or of another day.
func TestRoomInWords(t *testing.T) {
	p, plan := tart()
	v := see(p, plan)
	pl := plan.Placed("pear-tart/roll") // at 16:00
	for _, c := range []struct {
		last       time.Time
		then, want string
	}{
		{at(17, 0), "", ""}, {at(16, 0), "it burns", "if it starts later, it burns."},
		{at(16, 1), "it burns", " until 16:01; after that it burns."},
		{at(24, 5), "it burns", " until Sun 00:05; after that it burns."},
	} {
		got := words.PlainStamps(v.spare(pl, c.last, c.then))
		if (got == "") != (c.want == "") || !strings.HasSuffix(got, c.want) {
			t.Errorf("%v: got %q, want …%s", c.last, got, c.want)
		}
	}
}

// TestShopsShut: a chore with hours is done within those that it is planned in.
func TestShopsShut(t *testing.T) {
	p, plan := tart()
	p.Chores[0].By = nil
	open := func(from, until planner.Minutes) planner.DayHours { return planner.DayHours{From: from, Until: until} }
	pl := plan.Placed("cream") // 11:00 to 11:30
	for _, c := range []struct {
		hours planner.DayHours
		want  time.Time // the latest start
	}{
		{open(9*60, 13*60), at(12, 30)}, {open(11*60, 11*60+30), at(11, 0)},
		{open(11*60+1, 12*60), at(17, 0)}, // it is not in them: Ben's next work, at 17:30
		{open(11*60, 11*60+29), at(17, 0)},
	} {
		p.Chores[0].Open = c.hours
		v := see(p, plan)
		if last, then := v.lastStart(v.tasks[pl.Task], pl); !last.Equal(c.want) {
			t.Errorf("%+v: %v, then %q, want %v", c.hours, last.In(v.zone), then, c.want)
		}
	}
}

// touching makes the baking a step that wants a hand every so many minutes.
func touching(every planner.Minutes) (*planner.Party, *planner.Plan) {
	p, plan := tart()
	s := &p.Dishes[0].Steps[2]
	s.Attention, s.Every, s.Until = planner.Touch, every, ""
	return p, plan
}

// TestSeeTo: a step's minutes of hands come while it is on, not at its end; extra time has some more; one that wants
// a hand too often is not told of each.
func TestSeeTo(t *testing.T) {
	for _, c := range []struct {
		every planner.Minutes
		extra planner.Minutes
		want  []string
	}{
		{15, 0, []string{"17:45", "18:00"}}, {20, 0, []string{"17:50", "18:10"}}, {45, 0, nil}, {44, 0, []string{"18:14"}},
		{15, 1, []string{"17:45", "18:00", "18:15"}}, {7, 0, nil}, {0, 0, nil},
		{8, 0, []string{"17:38", "17:46", "17:54", "18:02", "18:10"}},
	} {
		p, plan := touching(c.every)
		p.Work = []planner.Work{{Task: "pear-tart/bake", Progress: planner.Started, Start: instantOf(at(17, 30)),
			Extra: c.extra}}
		var got []string
		for i, r := range byKind(each(p, plan), See) {
			got = append(got, r.Due.In(p.Location()).Format("15:04"))
			if want := fmt.Sprintf("time %d of %d.", i+1, len(c.want)); !strings.HasSuffix(r.Text, want) {
				t.Errorf("every %d: %q, want …%s", c.every, r.Text, want)
			}
			if !r.Until.Equal(r.Due.Add(c.every.Duration())) {
				t.Errorf("every %d: stale at %v, want when the next comes", c.every, r.Until)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("every %d, %d more: got %q, want %q", c.every, c.extra, got, c.want)
		}
	}
}

// TestAsked: when what is under way is asked about, by what sort of work it is.
func TestAsked(t *testing.T) {
	started := planner.Work{Progress: planner.Started, Start: instantOf(at(17, 30))}
	more := started
	more.Extra = 10
	for _, c := range []struct {
		name string
		do   func(s *planner.Step)
		work planner.Work
		want []string // when, and how it begins
	}{
		{"a sign of doneness", func(*planner.Step) {}, started, []string{"18:05 Pear tart: browned at the rim?"}},
		{"it was looked at", func(*planner.Step) {}, more, []string{"18:25 Pear tart: browned at the rim?"}},
		{"on the heat", func(s *planner.Step) { s.Until = "" }, started,
			[]string{"18:15 Time is up: pear tart out of the oven, if it looks done."}},
		{"on the heat, for longer", func(s *planner.Step) { s.Until = "" }, more,
			[]string{"18:25 Time is up: pear tart out of the oven, if it looks done."}},
		{"it chills", func(s *planner.Step) {
			s.Until, s.Where, s.Attention, s.Cooks = "", planner.Counter, planner.Touch, false
			s.Cool = &planner.Cooling{How: planner.CoolBath}
		}, more,
			[]string{"18:25 Pear tart: is it at 21 °C in the middle?"}},
		{"nothing to ask", func(s *planner.Step) { s.Until, s.Where = "", planner.Counter }, started, nil},
		{"hands are asked when it has taken as long as it may", func(s *planner.Step) {
			s.Attention = planner.Hands
		}, started, []string{"18:25 Still at it? Bake the tart."}},
		{"hands that wanted longer", func(s *planner.Step) { s.Attention = planner.Hands }, more,
			[]string{"18:25 Still at it? Bake the tart."}},
		{"hands that have not begun are not", func(s *planner.Step) { s.Attention = planner.Hands }, planner.Work{}, nil},
	} {
		p, plan := tart()
		c.do(&p.Dishes[0].Steps[2])
		c.work.Task = "pear-tart/bake"
		p.Work = []planner.Work{c.work}
		var got []string
		for _, r := range byKind(each(p, plan), Check) {
			if r.Task == c.work.Task {
				first, _, _ := strings.Cut(r.Text, "\n")
				got = append(got, r.Due.In(p.Location()).Format("15:04 ")+first)
			}
			if !r.Until.Equal(planner.Later(at(18, 15).Add(c.work.Extra.Duration()), r.Due).Add(time.Hour)) {
				t.Errorf("%s: stale at %v, want an hour after it ends, or is asked", c.name, r.Until)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// TestChoreThatRunsByItself is asked about at its end, unless it takes no time.
func TestChoreThatRunsByItself(t *testing.T) {
	for _, c := range []struct {
		minutes int
		want    int
	}{{0, 0}, {1, 1}, {60, 1}} {
		p, plan := tart()
		p.Chores[0] = planner.Chore{Key: "cream", Do: "Put the wine into the refrigerator", Kind: planner.Chill,
			Attention: planner.Unattended, Time: span(planner.Minutes(c.minutes))}
		pl := plan.Placed("cream")
		pl.End = pl.Start.Add(time.Duration(c.minutes) * time.Minute)
		list := slices.DeleteFunc(byKind(each(p, plan), Check), func(r store.Reminder) bool { return r.Task != pl.Task })
		if len(list) != c.want {
			t.Errorf("%d minutes: %q", c.minutes, told(list))
		}
		for _, r := range list {
			if !r.Due.Equal(pl.End) || !strings.HasPrefix(r.Text, "Time is up: Take the wine out of the refrigerator.") {
				t.Errorf("%d minutes: %q", c.minutes, told(list))
			}
		}
	}
}

// TestNoRoomIsTheStart: what is late already can start when it is planned, and no sooner; nothing says so is no bound.
func TestNoRoomIsTheStart(t *testing.T) {
	p, plan := tart()
	p.Dishes[0].Steps[1].After[0].Wait.Longest = 30 // of five hours and more
	pl := plan.Placed("pear-tart/roll")
	v := see(p, plan)
	if last, then := v.lastStart(v.tasks[pl.Task], pl); !last.Equal(pl.Start) || then == "" {
		t.Errorf("it starts at %v at the latest, then %q, want when it is planned", last, then)
	}
}
