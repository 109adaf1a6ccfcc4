package cp

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"
)

// agenda draws problems of the shape that package planner makes: chains of tasks that end at fixed hours of the last
// of several days, counted in minutes; each task done by one of a few people with calendars of their own; shared
// equipment, watches, longest waits; and objectives that are sums of Booleans.
type agenda struct {
	*rand.Rand
	p       *Problem
	people  int
	days    int
	does    [][]DisjTask // by person
	absent  [][]Absence  // by person
	load    [][]Term     // by person
	rooms   Cumulative
	places  Cumulative
	store   Cumulative
	all     Cumulative // all hands together, which follows from the people one by one but tells more at once
	waits   []Term     // Booleans: a wait longer than is good
	firm    []Term     // Booleans: person 0 works shortly before the end
	watches []Guard
	parts   [][]Var // by person and part of day: works there
}

const (
	day     = 24 * 60
	partLen = 4 * 60
)

// open is when person q may work: evenings on the first days, most of the last.
func (a *agenda) open(q int) []Range {
	var rs []Range
	for d := range a.days {
		from := 17*60 + 30*q
		if d == a.days-1 {
			from = 9 * 60
		}
		rs = append(rs, Range{d*day + from, d*day + 22*60 - 15*q})
	}
	return rs
}

// closed is the complement of open, for starts of tasks of the given length.
func (a *agenda) closed(q, length int) []Range {
	var rs []Range
	t := -1
	for _, r := range a.open(q) {
		rs = append(rs, Range{t, r.From})
		t = r.To - length + 1
	}
	return append(rs, Range{t, a.days*day + 1})
}

func newAgenda(seed uint64, chains, people, days int) *Problem {
	a := &agenda{Rand: rand.New(rand.NewPCG(seed, 4)), p: &Problem{}, people: people, days: days}
	p := a.p
	a.does, a.absent, a.load = make([][]DisjTask, people), make([][]Absence, people), make([][]Term, people)
	a.rooms = Cumulative{Name: "room", Capacity: 2}
	a.places = Cumulative{Name: "places", Capacity: 4}
	a.store = Cumulative{Name: "store", Capacity: 3 * chains}
	a.parts = make([][]Var, people)
	for q := range people {
		for range days * day / partLen {
			a.parts[q] = append(a.parts[q], p.NewBool("part"))
		}
	}
	a.all = Cumulative{Name: "hands", Capacity: people}
	for q := range people {
		for _, r := range a.closed(q, 1) {
			a.all.Uses = append(a.all.Uses, Use{Const(r.From), Const(r.To), 1, nil})
		}
	}
	for i := range chains {
		a.chain(i, (days-1)*day+19*60+40*(i%4))
	}
	for q := range people {
		p.Disjunctives = append(p.Disjunctives, Disjunctive{Name: "person", Tasks: a.does[q]})
	}
	p.Cumulatives = append(p.Cumulatives, a.rooms, a.places, a.store, a.all)
	for _, g := range a.watches {
		for q := range people {
			w := Watcher{Busy: a.absent[q]}
			t := -1
			for d := range days { // away at night
				w.Off = append(w.Off, Range{t, d*day + 8*60 + 30*q})
				t = d*day + 23*60
			}
			g.Watchers = append(g.Watchers, w)
		}
		p.Guards = append(p.Guards, g)
	}
	a.levels()
	return p
}

func (a *agenda) chain(i, hour int) {
	p := a.p
	due := p.NewVar(hour-10, hour+20, "due")
	late := p.NewBool("late")
	p.AddClause(due.AtMost(hour+5), late.True())
	a.firm = append(a.firm, Term{3, late})
	p.Branch = append(p.Branch, Decision{due, High, 0})
	next := due.At()
	n := 4 + a.IntN(3)
	for k := range n {
		d := 10 + 5*a.IntN(10)
		s := p.NewVar(0, a.days*day, fmt.Sprintf("chain %d task %d", i, n-k))
		end := s.Plus(d)
		p.AddLag(end, next, 0)
		longest := 30
		if k > 0 {
			longest = []int{60, 240, 2 * day, 3 * day}[a.IntN(4)]
			// A wait over a third of the longest costs something.
			w := p.NewBool("long wait")
			p.AddLag(next, end, -longest/3, w.False())
			a.waits = append(a.waits, Term{1 + a.IntN(3), w})
			if longest > 240 {
				a.store.Uses = append(a.store.Uses, Use{end, next, 1 + a.IntN(3), nil})
			}
		}
		p.AddLag(next, end, -longest)
		switch kind := a.IntN(6); {
		case kind <= 3:
			a.hands(s, d)
			if kind == 3 {
				a.places.Uses = append(a.places.Uses, Use{s.At(), end, 1, nil})
			}
		case kind == 4:
			a.rooms.Uses = append(a.rooms.Uses, Use{s.At(), end, 1 + a.IntN(2), nil})
			a.watches = append(a.watches, Guard{Start: s.At(), End: end})
		default: // rests alone, at any hour
		}
		p.Branch = append(p.Branch, Decision{s, Latest, 1})
		next = s.At()
	}
}

// hands gives the task to one of the people.
func (a *agenda) hands(s Var, d int) {
	p := a.p
	xs := make([]Var, a.people)
	a.all.Uses = append(a.all.Uses, Use{s.At(), s.Plus(d), 1, nil})
	lastDay := (a.days - 1) * day
	for q := range xs {
		x := p.NewBool("does")
		xs[q] = x
		p.Calendars = append(p.Calendars, Calendar{s.At(), a.closed(q, d), []Lit{x.True()}})
		a.does[q] = append(a.does[q], DisjTask{s.At(), s.Plus(d), 0, []Lit{x.True()}})
		if a.IntN(8) == 0 {
			a.absent[q] = append(a.absent[q], Absence{s.At(), s.Plus(d), []Lit{x.True()}})
		}
		a.load[q] = append(a.load[q], Term{d, x})
		for k, u := range a.parts[q] {
			p.AddClause(x.False(), s.AtMost(k*partLen-1), s.AtLeast((k+1)*partLen), u.True())
		}
		if q == 0 {
			busy := p.NewBool("busy late")
			p.AddClause(x.False(), s.AtMost(lastDay+18*60-d), busy.True())
			a.firm = append(a.firm, Term{1, busy})
		}
		p.Branch = append(p.Branch, Decision{x, High, 2})
	}
	p.ExactlyOne(xs...)
}

func (a *agenda) levels() {
	p := a.p
	var sessions []Term
	for q := range a.people {
		for k, u := range a.parts[q] {
			hour := k * partLen / 60 % 24
			weight := 2
			if hour < 8 || hour >= 20 {
				weight = 5
			}
			sessions = append(sessions, Term{weight, u})
		}
	}
	most := p.NewVar(0, 2*day, "greatest load in half hours")
	for q := range a.people {
		p.AddLinear(append([]Term{{-30, most}}, a.load[q]...), 0)
	}
	p.Levels = []Level{
		{Name: "firm", Terms: a.firm},
		{Name: "waits", Terms: a.waits},
		{Name: "sessions", Terms: sessions},
		{Name: "fairness", Terms: []Term{{1, most}}},
	}
}

// TestAgendaFirstPlan: a first plan comes with little work, and each level ends no worse than it began.
func TestAgendaFirstPlan(t *testing.T) {
	for _, c := range []struct {
		chains, people int
		work           int64
	}{{4, 1, 100_000}, {4, 3, 100_000}, {8, 3, 1_000_000}, {12, 4, 2_000_000}} {
		for seed := range uint64(4) {
			r := Solve(context.Background(), newAgenda(seed, c.chains, c.people, 5), Limits{Work: c.work, FirstOnly: true})
			if r.Status != Feasible && r.Status != Optimal {
				t.Errorf("%d chains, %d people, seed %d: %v after %d work", c.chains, c.people, seed, r.Status, r.Stats.Work)
			}
		}
	}
}

// BenchmarkAgenda reports, for one second of search, when the first plan came and what the levels came to.
func BenchmarkAgenda(b *testing.B) {
	for _, c := range []struct{ chains, people int }{{4, 3}, {8, 3}, {12, 4}, {20, 5}} {
		for seed := range uint64(4) {
			b.Run(fmt.Sprintf("chains=%d/people=%d/seed=%d", c.chains, c.people, seed), func(b *testing.B) {
				for b.Loop() {
					b.StopTimer()
					p := newAgenda(seed, c.chains, c.people, 5)
					b.StartTimer()
					ctx, cancel := context.WithTimeout(context.Background(), time.Second)
					begin, first := time.Now(), time.Duration(0)
					r := Solve(ctx, p, Limits{OnSolution: func([]int, []int) bool {
						if first == 0 {
							first = time.Since(begin)
						}
						return true
					}})
					cancel()
					b.ReportMetric(float64(first.Microseconds())/1000, "first-ms")
					b.Logf("%v %+v %+v", r.Status, r.Levels, r.Stats)
				}
			})
		}
	}
}
