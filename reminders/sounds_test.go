package reminders

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/store"
)

// TestWhatRings: an oven, a limit, a service and what others say ring whatever came before; the last moment of a dish's
// task does, and not that of a chore; a question does where something is in an oven or under a grill.
func TestWhatRings(t *testing.T) {
	p, plan := tart()
	roll := plan.Placed("pear-tart/roll")
	for _, c := range []struct {
		kind store.ReminderKind
		task planner.TaskKey
		want bool
	}{
		{Preheat, "", true}, {AtLimit, "", true}, {Service, "", true}, {Go, "", true}, {Fallen, "", true},
		{Outdated, "", true}, {Told, "", true}, {Unsaid, "", true}, {Last, "pear-tart/rub", true}, {Last, "cream", false},
		{Check, "pear-tart/bake", true}, {Check, "pear-tart/rub", false}, {Check, "none", false}, {Due, "", false},
		{Session, "", false}, {See, "pear-tart/bake", false}, {Digest, "", false}, {Guests, "", false}, {Bring, "", false},
	} {
		if got := see(p, plan).decided(&store.Reminder{Kind: c.kind, Task: c.task}); got != c.want {
			t.Errorf("%s of %q: rings by itself %t, want %t", c.kind, c.task, got, c.want)
		}
	}
	for what, want := range map[planner.Equipment]bool{planner.AnOven: true, planner.AGrill: true,
		planner.ABurner: false} {
		roll.Uses = []planner.Held{{What: what}}
		if got := see(p, plan).inOven("pear-tart/roll"); got != want {
			t.Errorf("on %s: in an oven %t", what, got)
		}
	}
}

// TestRanks: of what may ring, a question about food comes first, then what is to begin, what was not ticked, the day's
// list, a look at what stands, and last whether somebody is still at it.
func TestRanks(t *testing.T) {
	p, plan := tart()
	v := see(p, plan)
	order := []store.Reminder{{Kind: Check, Task: "pear-tart/bake"}, {Kind: Due}, {Kind: Unticked}, {Kind: Digest},
		{Kind: See}, {Kind: Check, Task: "pear-tart/rub"}}
	for want, r := range order {
		if got := v.rank(&r); got != want {
			t.Errorf("%s of %q: rank %d, want %d", r.Kind, r.Task, got, want)
		}
	}
	for kind, want := range map[store.ReminderKind]int{Bring: 4, Last: 1, Session: 1} {
		if got := v.rank(&store.Reminder{Kind: kind}); got != want {
			t.Errorf("%s: rank %d, want %d", kind, got, want)
		}
	}
	if got := v.rank(&store.Reminder{Kind: Check, Task: "none"}); got != 0 {
		t.Errorf("a question about no task: rank %d", got)
	}
}

// ringing are the keys of what makes a sound.
func ringing(v *view, list []store.Reminder, idle map[string]time.Duration) string {
	v.sounds(list, idle)
	var out []string
	for _, r := range list {
		if !r.Silent {
			out = append(out, r.Key)
		}
	}
	return strings.Join(out, " ")
}

// TestSoundsAreFew: two a day before the last hours, six in them, four a day of who does not host; the last hours begin
// four hours before the guests come, to the minute.
func TestSoundsAreFew(t *testing.T) {
	some := func(who planner.PersonKey, n int, from time.Time) (list []store.Reminder) {
		for i := range n {
			list = append(list, store.Reminder{Key: fmt.Sprint(i), Kind: Due, Person: who, Due: from.Add(time.Duration(i) *
				time.Minute)})
		}
		return list
	}
	for _, c := range []struct {
		name string
		list []store.Reminder
		want string
	}{
		{"a host by day", some("ada", 4, at(10, 0)), "0 1"},
		{"a host in the last hours", some("ada", 8, at(15, 0)), "0 1 2 3 4 5"},
		{"about their beginning", some("ada", 4, at(14, 57)), "0 1 3"},
		{"a helper by day", some("ben", 6, at(10, 0)), "0 1 2 3"},
		{"a helper in the last hours", some("ben", 6, at(15, 0)), "0 1 2 3"},
		{"somebody who has left", some("zoe", 4, at(10, 0)), "0 1"},
		{"on two days", append(some("ada", 3, at(-2, 0)), some("ada", 3, at(10, 0))...), "0 1 0 1"},
		{"two people", append(some("ada", 3, at(10, 0)), some("ben", 3, at(10, 0))...), "0 1 0 1 2"},
		{"those that are over do not count", append([]store.Reminder{{Key: "over", Over: true, Person: "ada", Kind: Due,
			Due: at(9, 0)}}, some("ada", 3, at(10, 0))...), "over 0 1"},
		{"what is silent stays so", append([]store.Reminder{{Key: "silent", Silent: true, Person: "ada", Kind: Due,
			Due: at(9, 0)}}, some("ada", 3, at(10, 0))...), "0 1"},
		{"for everybody only a service", []store.Reminder{{Key: "guests", Kind: Guests}, {Key: "service", Kind: Service}},
			"service"},
		{"by rank before time", append(some("ada", 2, at(10, 0)), store.Reminder{Key: "question", Kind: Check,
			Task: "pear-tart/bake-not", Person: "ada", Due: at(12, 0)}), "0 question"},
	} {
		p, plan := tart()
		if got := ringing(see(p, plan), c.list, nil); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
	p, plan := tart()
	idle := map[string]time.Duration{"0": time.Minute, "1": time.Hour, "2": 2 * time.Hour}
	if got := ringing(see(p, plan), some("ada", 3, at(10, 0)), idle); got != "1 2" {
		t.Errorf("after a pause: %s, want 1 2", got)
	}
	same := some("ada", 3, at(10, 0))
	for i := range same {
		same[i].Due = at(10, 0)
	}
	slices.Reverse(same)
	if got := ringing(see(p, plan), same, nil); got != "1 0" {
		t.Errorf("at once: %s, want the first by their keys", got)
	}
}

// TestJustRung: what comes less than ten minutes after something that rang for the same person is silent.
func TestJustRung(t *testing.T) {
	ring := store.Reminder{Key: "ring", Kind: Preheat, Person: "ada", Due: at(10, 0)}
	for _, c := range []struct {
		name   string
		change func(ring, r *store.Reminder)
		want   string
	}{
		{"at once", func(_, r *store.Reminder) {}, "ring"},
		{"nine minutes later", func(_, r *store.Reminder) { r.Due = at(10, 9) }, "ring"},
		{"ten minutes later", func(_, r *store.Reminder) { r.Due = at(10, 10) }, "ring r"},
		{"before it", func(_, r *store.Reminder) { r.Due = at(9, 59) }, "ring r"},
		{"another's", func(_, r *store.Reminder) { r.Person = "ben" }, "ring r"},
		{"it was silent", func(ring, _ *store.Reminder) { ring.Silent = true }, "r"},
		{"it rings too", func(_, r *store.Reminder) { r.Kind = AtLimit }, "ring r"},
	} {
		p, plan := tart()
		first, r := ring, store.Reminder{Key: "r", Kind: Due, Person: "ada", Due: at(10, 0)}
		c.change(&first, &r)
		if got := ringing(see(p, plan), []store.Reminder{first, r}, nil); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// TestLastMomentsOfChores: those of a way to a shop, a thaw and what goes into the cold are told; of no other chore,
// and of nothing that is not in the plan.
func TestLastMomentsOfChores(t *testing.T) {
	for kind, want := range map[planner.ChoreKind]bool{planner.Shop: true, planner.Thaw: true, planner.Cool: true,
		planner.Other: false} {
		p, plan := tart()
		p.Chores[0].Kind = kind
		if got := see(p, plan).decidesLast(&store.Reminder{Task: "cream", At: at(17, 0)}); got != want {
			t.Errorf("%s: %t, want %t", kind, got, want)
		}
	}
	p, plan := tart()
	plan.Tasks = plan.Tasks[:1]
	for _, k := range []planner.TaskKey{"none", "pear-tart/bake"} {
		if see(p, plan).decidesLast(&store.Reminder{Task: k, At: at(17, 0)}) {
			t.Errorf("%s is not in the plan", k)
		}
	}
}

// TestPausesBetweenSessions: after hands work ninety minutes' pause begins a new session, counted from its end; after
// work that is watched from an hour before its end, after what nobody is at from its start. In the last hours a pause
// of ten minutes is counted in the same way, from the start of all that is not work with hands.
func TestPausesBetweenSessions(t *testing.T) {
	for _, c := range []struct {
		name   string
		how    planner.Attention
		away   bool
		length int // of the first
		next   int // minutes after ten at which the second starts
		want   int // sessions
	}{
		{"hands", planner.Hands, false, 20, 110, 1}, {"hands, a minute more", planner.Hands, false, 20, 111, 2},
		{"away", planner.Unattended, true, 20, 110, 1}, {"away, a minute more", planner.Unattended, true, 20, 111, 2},
		{"watched", planner.Watch, false, 120, 150, 1}, {"watched, a minute more", planner.Watch, false, 120, 151, 2},
		{"left alone", planner.Unattended, false, 120, 90, 1},
		{"left alone, a minute more", planner.Unattended, false, 120, 91, 2},
	} {
		p, plan := chores(0, c.next)
		p.Chores[0].Attention, p.Chores[0].Away, p.Chores[0].Time = c.how, c.away, span(planner.Minutes(c.length))
		plan.Tasks[0].End = at(10, c.length)
		if got := len(see(p, plan).groups("ada")); got != c.want {
			t.Errorf("%s: %d sessions, want %d", c.name, got, c.want)
		}
	}
	for how, want := range map[planner.Attention]time.Duration{planner.Hands: 10 * time.Minute,
		planner.Watch: 30 * time.Minute, planner.Unattended: 30 * time.Minute} {
		p, plan := chores(330, 360)
		p.Chores[0].Attention = how
		if g := see(p, plan).groups("ada"); len(g) != 2 || g[1].idle != want {
			t.Errorf("%s: %d groups, idle for %v, want %v", how, len(g), g[len(g)-1].idle, want)
		}
	}
	p, plan := chores(0, 20, 40)
	p.Chores[1].Quiet = true
	p.Work = []planner.Work{{Task: "chore-02", Progress: planner.Skipped}}
	if g := see(p, plan).groups("ada"); len(g) != 1 || len(g[0].of) != 1 {
		t.Errorf("what is skipped or quiet is told: %v", g)
	}
	if g := see(p, plan).groups("ben"); len(g) != 0 {
		t.Errorf("another's: %v", g)
	}
}
