package check

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
)

// TestSessionWeighs: a session counts two, one more for each day between it and the party's, one for each half hour
// begun beyond two hours (three at a weekend), two when it ends after 21:15 and two when it begins before seven.
func TestSessionWeighs(t *testing.T) {
	p, _ := partygen.Rich() // on a Saturday
	for _, x := range []struct {
		day                                int // from the party's
		hour, minute, toHour, toMinute, is int
	}{
		{-1, 18, 0, 20, 0, 2}, {-2, 18, 0, 20, 0, 3}, {-4, 18, 0, 20, 0, 5},
		{-1, 18, 0, 20, 1, 3}, {-1, 18, 0, 20, 30, 3}, {-1, 18, 0, 20, 31, 4},
		{-6, 12, 0, 15, 0, 7}, {-6, 12, 0, 15, 1, 8}, {-7, 12, 0, 15, 0, 8}, {-7, 12, 0, 15, 1, 9}, {-5, 12, 0, 15, 0, 8},
		{-1, 20, 0, 21, 15, 2}, {-1, 20, 0, 21, 16, 4}, {-1, 7, 0, 8, 0, 2}, {-1, 6, 59, 8, 0, 4}, {-1, 6, 0, 21, 30, 33},
	} {
		s := &session{lisbon(t, x.day, 0, 0), lisbon(t, x.day, x.hour, x.minute), lisbon(t, x.day, x.toHour, x.toMinute)}
		if got := s.weight(p); got != x.is {
			t.Errorf("%+v: weighs %d", x, got)
		}
	}
}

// TestSatFor: hands are theirs whose they are, to the end; watching is its first person's, and not its last hour; what
// needs nobody, is away, over or takes no time is nobody's session.
func TestSatFor(t *testing.T) {
	from, to := lisbon(t, -1, 10, 0), lisbon(t, -1, 12, 0)
	job := func(a planner.Attention, do func(*workJob)) *workJob {
		j := &workJob{attention: a, people: []planner.PersonKey{"ana", "ben"}, start: from, end: to}
		if do != nil {
			do(j)
		}
		return j
	}
	for i, x := range []struct {
		j    *workJob
		who  planner.PersonKey
		ends time.Time
		sat  bool
	}{
		{job(planner.Hands, nil), "ana", to, true}, {job(planner.Hands, nil), "ben", to, true},
		{job(planner.Hands, nil), "cleo", to, false},
		{job(planner.Watch, nil), "ana", to.Add(-time.Hour), true}, {job(planner.Watch, nil), "ben", from, false},
		{job(planner.Touch, nil), "ana", to.Add(-time.Hour), true},
		{job(planner.Watch, func(j *workJob) { j.end = from.Add(50 * time.Minute) }), "ana", from, true},
		{job(planner.Watch, func(j *workJob) { j.people = nil }), "ana", from, false},
		{job(planner.Unattended, nil), "ana", from, false},
		{job(planner.Hands, func(j *workJob) { j.away = true }), "ana", from, false},
		{job(planner.Hands, func(j *workJob) { j.gone = true }), "ana", from, false},
		{job(planner.Hands, func(j *workJob) { j.end = from }), "ana", from, false},
	} {
		if end, sat := x.j.satFor(x.who); sat != x.sat || sat && !end.Equal(x.ends) {
			t.Errorf("%d: %s until %v, %v", i, x.who, end, sat)
		}
	}
}

// TestSessionsOfDays: what somebody does on a day before the party's is one session, from its first start to its last
// end in whatever order it comes; the party's own day has none.
func TestSessionsOfDays(t *testing.T) {
	p, plan := partygen.Rich()
	c := newChecker(p, plan)
	days := map[string]*session{}
	for _, x := range [][4]int{{-1, 12, 0, 30}, {-1, 10, 0, 20}, {-1, 11, 0, 10}, {-1, 23, 59, 60}, {-2, 9, 0, 10},
		{0, 0, 0, 9},
		{0, 9, 0, 10}, {1, 9, 0, 10}} {
		start := lisbon(t, x[0], x[1], x[2])
		c.addTo(days, &workJob{start: start}, start.Add(time.Duration(x[3])*time.Minute))
	}
	s := days["2026-09-25"]
	if len(days) != 2 || s == nil || !s.first.Equal(lisbon(t, -1, 10, 0)) || !s.last.Equal(lisbon(t, 0, 0, 59)) ||
		!s.day.Equal(lisbon(t, -1, 0, 0)) {
		t.Errorf("%+v of %v", s, days)
	}
}

// TestHostsWorkWhileOthersEat: work from half an hour before the guests come weighs on Calm where it is not a host's,
// who has it on a level of their own.
func TestHostsWorkWhileOthersEat(t *testing.T) {
	calm := func(who planner.PersonKey) int {
		p, plan := partygen.Rich()
		for i := range plan.Tasks {
			plan.Tasks[i].People = slices.DeleteFunc(plan.Tasks[i].People, func(planner.PersonKey) bool { return true })
		}
		pl := plan.Placed("tart/fill")
		pl.People = []planner.PersonKey{who}
		pl.Start, pl.End = p.Arrival.Add(-30*time.Minute), p.Arrival.Add(90*time.Minute)
		c := newChecker(p, plan)
		host := p.Person(who).Role == planner.Host
		if n := c.dinnerWork(func(x *planner.Person) bool { return (x.Role == planner.Host) == host }); n != 8 {
			t.Fatalf("%s: %d quarters of an hour", who, n)
		}
		return c.calm()
	}
	if host, other := calm("ana"), calm("ben"); host != 1 || other != 3 { // eight quarters and an evening are nine
		t.Errorf("the host's counts %d, another's %d", host, other)
	}
}

// TestAheadByItsEnd: work weighs by the last of the marks that it ends after: midnight, noon, four hours and one hour
// before the guests come; where the day itself is wanted, by whether a dish's is over by midnight.
func TestAheadByItsEnd(t *testing.T) {
	for _, x := range []struct {
		day, hour, minute int
		is, sameDay       int
	}{
		{-1, 23, 59, 0, 1}, {0, 0, 0, 0, 1}, {0, 0, 1, 1, 0}, {0, 12, 0, 1, 0}, {0, 12, 1, 2, 0}, {0, 15, 30, 2, 0},
		{0, 15, 31, 4, 0}, {0, 18, 30, 4, 0}, {0, 18, 31, 8, 0},
	} {
		p, plan := partygen.Rich()
		c := newChecker(p, plan)
		j := c.byKey["tart/fill"]
		j.end, j.planned, j.hands = lisbon(t, x.day, x.hour, x.minute), 15, 1
		c.jobs = []*workJob{j}
		if got := c.ahead(); got != x.is {
			t.Errorf("%+v: %d", x, got)
		}
		p.Ahead = planner.SameDay
		if got := c.ahead(); got != x.sameDay {
			t.Errorf("%+v: %d where the day itself is wanted", x, got)
		}
		j.of, j.chore = nil, &planner.Chore{}
		if got := c.ahead(); got != 0 {
			t.Errorf("%+v: a chore counts %d where the day itself is wanted", x, got)
		}
		if j.settled = true; c.ahead() != 0 {
			t.Errorf("%+v: what is settled counts", x)
		}
	}
	p, plan := partygen.Rich() // an early party: four hours before are before noon
	p.Arrival = lisbon(t, 0, 14, 0)
	c := newChecker(p, plan)
	j := c.byKey["tart/fill"]
	c.jobs, j.planned, j.hands = []*workJob{j}, 15, 1
	for minute, want := range map[int]int{0: 1, 1: 4} {
		if j.end = lisbon(t, 0, 10, minute); c.ahead() != want {
			t.Errorf("10:%02d: %d, want %d", minute, c.ahead(), want)
		}
	}
}

// TestEffort: quarters of an hour of hands begun, of each pair; hours of watching begun; a chore that needs nobody one.
func TestEffort(t *testing.T) {
	for _, x := range []struct {
		j    workJob
		want int
	}{
		{workJob{attention: planner.Hands, planned: 15, hands: 1}, 1},
		{workJob{attention: planner.Hands, planned: 16, hands: 1}, 2},
		{workJob{attention: planner.Hands, planned: 30, hands: 3}, 6},
		{workJob{attention: planner.Watch, planned: 60}, 1}, {workJob{attention: planner.Watch, planned: 61}, 2},
		{workJob{attention: planner.Touch, planned: 60}, 1}, {workJob{attention: planner.Touch, planned: 121}, 3},
		{workJob{attention: planner.Unattended, planned: 90}, 0},
		{workJob{attention: planner.Unattended, planned: 90, chore: &planner.Chore{}}, 1},
		{workJob{attention: planner.Unattended, planned: 1, chore: &planner.Chore{}}, 1},
		{workJob{attention: planner.Unattended, chore: &planner.Chore{}}, 0},
	} {
		if got := x.j.effort(); got != x.want {
			t.Errorf("%+v: %d, want %d", x.j, got, x.want)
		}
	}
}
