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

// chores is Ada's day: chores of twenty minutes with hands that start at these minutes after ten.
func chores(starts ...int) (*planner.Party, *planner.Plan) {
	p, plan := tart()
	p.Chores, plan.Tasks, p.Dishes, plan.Served = nil, nil, nil, nil
	for n, m := range starts {
		key := planner.ChoreKey(fmt.Sprintf("chore-%02d", n))
		p.Chores = append(p.Chores, planner.Chore{Key: key, Kind: planner.Other, Do: fmt.Sprintf("Do number %d.", n+1),
			Attention: planner.Hands, Time: span(20)})
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.ChoreTask(key), Start: at(10, m),
			End: at(10, m+20), People: []planner.PersonKey{"ada"}})
	}
	return p, plan
}

// gathered are the messages that tell what to begin: when, whether they ring, and how many tasks each has.
func gathered(list []store.Reminder) (out []string) {
	for _, r := range list {
		if !r.Live {
			continue
		}
		line := r.Due.In(time.FixedZone("", 3600)).Format("15:04")
		if r.Silent {
			line += " silent"
		}
		out = append(out, line+fmt.Sprintf(" %d", max(1, strings.Count(r.Text, "\n["))))
	}
	return out
}

// TestSessionsAreGathered: before the last hours (from 15:00; the guests come at 19:00) a pause of ninety minutes
// begins a new message; in them what begins within ten minutes is one, and it rings only after a pause.
func TestSessionsAreGathered(t *testing.T) {
	for _, c := range []struct {
		name   string
		starts []int
		want   []string
	}{
		{"one after another", []int{0, 20, 40, 60}, []string{"09:55 4"}},
		{"with pauses of up to ninety minutes", []int{0, 110, 130}, []string{"09:55 3"}},
		{"with a longer one", []int{0, 111}, []string{"09:55 1", "11:46 1"}},
		{"over the border to the last hours", []int{270, 290, 310}, []string{"14:25 2", "15:05 silent 1"}},
		{"in the last hours, together", []int{300, 309}, []string{"14:55 2"}},
		{"in the last hours, apart", []int{300, 320, 340, 370}, []string{"14:55 1", "15:15 silent 1", "15:35 silent 1",
			"16:05 1"}},
	} {
		p, plan := chores(c.starts...)
		t.Run(c.name, func(t *testing.T) { expect(t, gathered(For(p, plan)), c.want...) })
	}
}

// TestSessionIsKeptTrue: a session's message has what to do first, what in which order, and what is done already; it is
// the same message all the way, and is not sent any more when all of it is done.
func TestSessionIsKeptTrue(t *testing.T) {
	p, plan := chores(0, 20, 40)
	r := For(p, plan)[1]
	if got := words.PlainStamps(r.Text); r.Kind != Session || r.Task != "chore-00" || r.Over || !strings.HasPrefix(got,
		"Do number 1 at 10:00.\nUntil 11:00, in this order:\n[ ] 10:00 Do number 1, 20 min\n[ ] 10:20 Do number 2, 20 min\n"+
			"[ ] 10:40 Do number 3, 20 min\nIt cannot wait: ") {
		t.Errorf("%s about %s: %s", r.Kind, r.Task, got)
	}
	for n, want := range []string{"Do number 2 at 10:20.|[x] 10:00|[ ] 10:20|[ ] 10:40",
		"Do number 3 at 10:40.|[x] 10:00|[x] 10:20|[ ] 10:40", "All of this is done.|[x] 10:00|[x] 10:20|[x] 10:40"} {
		p.Work = append(p.Work, planner.Work{Task: plan.Tasks[n].Task, Person: "ada", Progress: planner.Done})
		var now store.Reminder
		for _, o := range For(p, plan) {
			if o.Live {
				now = o
			}
		}
		got := words.PlainStamps(now.Text)
		for _, part := range strings.Split(want, "|") {
			if !strings.Contains(got, part) {
				t.Errorf("%d done: %q does not say %q", n+1, got, part)
			}
		}
		if now.Key != r.Key || now.Over != (n == 2) {
			t.Errorf("%d done: key %s, over %v", n+1, now.Key, now.Over)
		}
	}
}

// TestEdits: what was sent and should say something else is changed where it stands, once for several changes, at most
// once in five seconds a channel, and not when its session is over.
func TestEdits(t *testing.T) {
	now := time.Date(2026, 9, 26, 12, 0, 0, 0, time.UTC)
	live := func(key, text string) store.Reminder {
		r := remind(key, "ada", now.Add(time.Minute), time.Hour)
		r.Text, r.Live = text, true
		return r
	}
	s, snap := kitchen(t, now, live("a", "a: one"), live("b", "b: one"))
	p := &post{}
	d := &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
	var times []string
	advance := func(until time.Duration) {
		t.Helper()
		if err := d.Advance(t.Context(), now, now.Add(until), func(at time.Time) {
			times = append(times, at.Sub(now).String())
		}); err != nil {
			t.Fatal(err)
		}
	}
	advance(2 * time.Minute)
	snap = rearrange(t, s, snap, now.Add(3*time.Minute), live("a", "a: two"), live("b", "b: two"))
	snap = rearrange(t, s, snap, now.Add(3*time.Minute), live("a", "a: three"), live("b", "b: two"))
	snap = rearrange(t, s, snap, now.Add(3*time.Minute), live("a", "a: three"), live("b", "b: two"))
	advance(4 * time.Minute)
	rearrange(t, s, snap, now.Add(2*time.Hour), live("a", "a: four"), live("b", "b: two"))
	advance(3 * time.Hour)
	expect(t, times, "1m0s", "3m0s", "3m5s")
	var got []string
	for _, n := range p.arrived {
		got = append(got, strings.TrimSpace(n.Edits+" "+n.Text))
	}
	expect(t, got, "a: one", "b: one", "here/"+p.arrived[0].Key+" a: three", "here/"+p.arrived[1].Key+" b: two")

	// What changes while it is on its way is changed when it has arrived; what has not gone out yet just says it.
	s, snap = kitchen(t, now, live("a", "a: one"), live("b", "b: one"))
	rows, err := s.Due(t.Context(), store.Scope{}, now.Add(time.Minute), 1)
	if err != nil {
		t.Fatal(err)
	}
	if rows, err = s.MarkSending(t.Context(), rows, now.Add(2*time.Minute)); err != nil {
		t.Fatal(err)
	}
	snap = rearrange(t, s, snap, now.Add(time.Minute), live("a", "a: two"), live("b", "b: two"))
	p = &post{}
	d = &Dispatcher{Store: s, Deliverer: p, Log: quietLog()}
	advance(time.Minute)
	if err := s.MarkSent(t.Context(), rows, now.Add(time.Minute), "here/x"); err != nil {
		t.Fatal(err)
	}
	advance(5 * time.Minute)
	got = nil
	for _, n := range p.arrived {
		got = append(got, strings.TrimSpace(n.Edits+" "+n.Text))
	}
	expect(t, got, "b: two", "here/x a: two")

	// What began sooner than planned is the same message, whatever of it is to come; a session that is new is told at
	// once.
	sooner, fresh := live("a", "a: three"), live("c", "c: one")
	sooner.At, sooner.Due = now.Add(-20*time.Minute), now.Add(10*time.Minute)
	fresh.At, fresh.Due = sooner.At, sooner.At
	rearrange(t, s, snap, now.Add(6*time.Minute), sooner, live("b", "b: two"), fresh)
	p.arrived = nil
	advance(8 * time.Minute)
	got = nil
	for _, n := range p.arrived {
		got = append(got, strings.TrimSpace(n.Edits+" "+n.Text))
	}
	slices.Sort(got)
	expect(t, got, "c: one", "here/x a: three")
}
