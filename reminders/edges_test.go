package reminders

import (
	"bytes"
	"context"
	"log/slog"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"tureen/planner"
	"tureen/store"
)

// TestQuietEdges: quiet hours hold from their first minute to before their last, over midnight too; none are none.
func TestQuietEdges(t *testing.T) {
	night := planner.DayHours{From: 22 * 60, Until: 7 * 60}
	nap := planner.DayHours{From: 13 * 60, Until: 14 * 60}
	for _, c := range []struct {
		hours    planner.DayHours
		at       time.Time
		quiet    bool
		from, to time.Time
	}{
		{night, at(21, 59), false, time.Time{}, time.Time{}},
		{night, at(22, 0), true, at(22, 0), at(31, 0)},
		{night, at(23, 59), true, at(22, 0), at(31, 0)},
		{night, at(0, 0), true, at(-2, 0), at(7, 0)},
		{night, at(6, 59), true, at(-2, 0), at(7, 0)},
		{night, at(7, 0), false, time.Time{}, time.Time{}},
		{nap, at(12, 59), false, time.Time{}, time.Time{}},
		{nap, at(13, 0), true, at(13, 0), at(14, 0)},
		{nap, at(14, 0), false, time.Time{}, time.Time{}},
		{planner.DayHours{}, at(0, 0), false, time.Time{}, time.Time{}},
		{planner.DayHours{From: 60, Until: 60}, at(1, 0), false, time.Time{}, time.Time{}},
	} {
		p, _ := tart()
		w, quiet := quietAt(&planner.Person{Quiet: c.hours}, c.at, p.Location())
		if quiet != c.quiet || !w.From.Equal(c.from) || !w.To.Equal(c.to) {
			t.Errorf("%v at %v: %v, %v, want %t from %v to %v", c.hours, c.at, w, quiet, c.quiet, c.from, c.to)
		}
	}
}

// TestUpForEdges: on the evening from half an hour before the guests to half an hour after the last course, and half
// an
// hour around hands work that is still to be done.
func TestUpForEdges(t *testing.T) {
	p, plan := tart()
	p.Dishes[0].Steps[1].Attention = planner.Watch // roll, at 16:00
	p.Arrival = at(19, 0)                          // the dessert comes at 21:10 at the latest
	v := see(p, plan)
	ada, ben := &p.People[0], &p.People[1]
	for _, c := range []struct {
		who  *planner.Person
		at   time.Time
		want bool
	}{
		{ada, at(18, 29), false}, {ada, at(18, 30), true}, {ada, at(21, 39), true}, {ada, at(21, 40), false},
		// Ada rubs from 10:00 to 10:20, Ben shops from 11:00 to 11:30.
		{ada, at(9, 29), false}, {ada, at(9, 30), true}, {ada, at(10, 50), true}, {ada, at(10, 51), false},
		{ben, at(10, 29), false}, {ben, at(10, 30), true}, {ben, at(12, 0), true}, {ben, at(12, 1), false},
	} {
		if got := v.upFor(&store.Reminder{Task: "pear-tart/roll", Due: c.at}, c.who); got != c.want {
			t.Errorf("%s at %v: up %t, want %t", c.who.Name, c.at, got, c.want)
		}
	}
	p.Work = []planner.Work{{Task: "pear-tart/rub", Progress: planner.Done}}
	if see(p, plan).upFor(&store.Reminder{Task: "pear-tart/roll", Due: at(10, 10)}, ada) {
		t.Error("up for hands work that is done")
	}
	p.Work = []planner.Work{{Task: "pear-tart/roll", Progress: planner.Started}}
	if !see(p, plan).upFor(&store.Reminder{Task: "pear-tart/roll", Due: at(3, 0)}, ada) {
		t.Error("not up for what is under way")
	}
}

// TestNotNow: what says now, says when.
func TestNotNow(t *testing.T) {
	for text, want := range map[string]string{
		"Now: Roll out the pastry.":      "At Sat 16:00: Roll out the pastry.",
		"Roll out the pastry now.\nMore": "Roll out the pastry at Sat 16:00.\nMore",
		"Roll out the pastry.\nNow now.": "Roll out the pastry.\nNow now.",
		"Now":                            "Now",
	} {
		if got := notNow(text, "Sat 16:00"); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

// TestSilent: a task in somebody's quiet hours that they are told of at another time.
func TestSilent(t *testing.T) {
	p, plan := tart()
	ada := &p.People[0]
	ada.Quiet = planner.DayHours{From: 16 * 60, Until: 17 * 60}
	p.Dishes[0].Steps[1].Attention = planner.Watch
	for _, c := range []struct {
		who  *planner.Person
		task planner.TaskKey
		want bool
	}{{ada, "pear-tart/roll", true}, {ada, "pear-tart/rub", false}, {&p.People[1], "pear-tart/roll", false}, {ada,
		"none", false}, {nil, "pear-tart/roll", false}} {
		if got := Silent(p, plan, c.who, c.task); got != c.want {
			t.Errorf("%v, %s: silent %t, want %t", c.who, c.task, got, c.want)
		}
	}
	p.Work = []planner.Work{{Task: "pear-tart/roll", AtNight: true}}
	if Silent(p, plan, ada, "pear-tart/roll") {
		t.Error("silent although it was accepted at night")
	}
}

// TestRunSaysThatTheStoreFails: whoever runs it reads in the log that reminders cannot be looked for; after the end
// nobody is told.
func TestRunSaysThatTheStoreFails(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		start := time.Now()
		s, _ := kitchen(t, start, remind("a", "ada", start.Add(time.Minute), time.Hour))
		var log bytes.Buffer
		d := &Dispatcher{Store: s, Deliverer: &post{}, Log: slog.New(slog.NewTextHandler(&log, nil))}
		ctx, stop := context.WithCancel(context.Background())
		ended := make(chan error)
		go func() { ended <- d.Run(ctx) }()
		time.Sleep(time.Second)
		s.Close()
		time.Sleep(2 * time.Minute)
		stop()
		if err := <-ended; err != nil {
			t.Error(err)
		}
		if !strings.Contains(log.String(), "look for what is due") {
			t.Errorf("the log says %q", log.String())
		}
	})
}

// TestAlarm: each instant is given out once, none that has passed, and never one later than a nap away.
func TestAlarm(t *testing.T) {
	now := at(12, 0)
	for _, c := range []struct {
		next time.Time
		want time.Duration
	}{
		{time.Time{}, longestNap}, {now.Add(time.Second), time.Second}, {now.Add(longestNap), longestNap},
		{now.Add(time.Hour), longestNap},
		{now, soon}, {now.Add(-time.Hour), soon},
	} {
		var a alarm
		if !c.next.IsZero() {
			a.next.Store(c.next.UnixMilli())
		}
		if got := a.Next(now).Sub(now); got != c.want {
			t.Errorf("due in %v: next in %v, want %v", c.next.Sub(now), got, c.want)
		}
		if c.next.Sub(now) <= longestNap && a.Next(now).Sub(now) != longestNap {
			t.Errorf("due in %v: given out twice", c.next.Sub(now))
		}
	}
}
