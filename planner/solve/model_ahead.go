package solve

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/cp"
)

// addAhead counts the work by how late it ends: a Boolean for each task and mark that it may end after. The sum is not
// banded: bands were slower, and lost a proof.
func (m *model) addAhead() {
	day, arrival := m.day, m.minute(m.p.Arrival)
	y, mo, d := m.p.Day().Date()
	noon := min(m.minute(time.Date(y, mo, d, 12, 0, 0, 0, m.p.Location())), arrival-4*60)
	marks := []struct{ at, step int }{{day, 1}, {noon, 1}, {arrival - 4*60, 2}, {arrival - 60, 4}}
	var terms []cp.Term
	constant := 0
	if m.p.Ahead == planner.SameDay {
		terms, constant = m.sameDay()
		marks = nil
	}
	for i := len(marks) - 1; i >= 0; i-- { // the dearest first
		mark := marks[i]
		for _, j := range m.jobs {
			k := effort(j)
			if j.settled || k == 0 {
				continue
			}
			end := m.work[j.i].end
			switch lo, hi := m.bounds(end); {
			case hi <= mark.at:
			case lo > mark.at:
				constant += k * mark.step
			default:
				x := m.cp.NewBool(fmt.Sprintf("%s after %d", j.Key, mark.at))
				m.cp.AddClause(end.AtMost(mark.at), x.True())
				m.derived(x, func(v []int) int { return truth(at(end, v) > mark.at) })
				terms = append(terms, cp.Term{Coef: k * mark.step, X: x})
			}
		}
	}
	m.hint(terms)
	m.level(string(planner.Ahead), terms, constant)
}

// sameDay counts the work of dishes that ends before the party's day, for who does not want that.
func (m *model) sameDay() (terms []cp.Term, constant int) {
	for _, j := range m.jobs {
		k := effort(j)
		if j.settled || k == 0 || j.node == nil {
			continue
		}
		end := m.work[j.i].end
		switch lo, hi := m.bounds(end); {
		case lo > m.day:
		case hi <= m.day:
			constant += k
		default:
			x := m.cp.NewBool(fmt.Sprintf("%s before the day", j.Key))
			m.cp.AddClause(end.AtLeast(m.day+1), x.True())
			m.derived(x, func(v []int) int { return truth(at(end, v) <= m.day) })
			terms = append(terms, cp.Term{Coef: k, X: x})
		}
	}
	return terms, constant
}

// effort is what a job weighs on the level Ahead.
func effort(j *duty) int {
	switch j.Attention {
	case planner.Hands:
		return planner.CeilDiv(j.length(j.Hands), 15) * j.Hands
	case planner.Watch, planner.Touch:
		return planner.CeilDiv(j.length(0), 60)
	}
	return truth(j.chore != nil && j.length(0) > 0)
}

// earlier is a day before the party's, in minutes, with what a session on it may last.
type earlier struct {
	cp.Range
	before     int // days before the eve
	seven, end int // 7 o'clock, and 21:15
	long       int
}

func (g *graph) earlierDays() []earlier {
	var out []earlier
	y, mo, d := g.p.Day().Date()
	for n := 1; ; n++ {
		clock := func(day, h, minute int) int {
			return g.minute(time.Date(y, mo, d-n+day, h, minute, 0, 0, g.p.Location()))
		}
		e := earlier{Range: cp.Range{From: clock(0, 0, 0), To: clock(1, 0, 0)}, before: n - 1, seven: clock(0, 7, 0),
			end: clock(0, 21, 15), long: 120}
		switch time.Date(y, mo, d-n, 0, 0, 0, 0, g.p.Location()).Weekday() {
		case time.Saturday, time.Sunday:
			e.long = 180
		}
		first := min(0, g.now)
		for _, j := range g.jobs {
			if j.settled && !j.skipped {
				first = min(first, j.start)
			}
		}
		if e.To <= first {
			return out
		}
		out = append(out, e)
	}
}

// sessions counts, for every person and earlier day, that there is one, how long it is and how late it ends.
func (m *model) sessions() (terms []cp.Term, constant int) {
	jobs := slices.DeleteFunc(slices.Clone(m.jobs), func(j *duty) bool {
		return j.Away || j.skipped || j.Attention == planner.Unattended || !j.settled && j.length(j.MaxHands) == 0
	})
	for p, person := range m.people {
		for _, day := range m.earlierDays() {
			s := m.sitting(p, day, jobs, fmt.Sprintf("session of %s from %d", person.Key, day.From))
			terms, constant = append(terms, s.terms...), constant+s.constant
		}
	}
	return terms, constant
}

// sitting is one person's session on one day, as what it costs.
type sitting struct {
	terms    []cp.Term
	constant int
}

// mayBe is a job that may belong to a session, when its conditions hold, from its start to when it needs nobody.
type mayBe struct {
	start, end cp.Point
	cond       []cp.Lit
}

// watchedFor is how much sooner a session may end than what is watched in it.
const watchedFor = 60

// satUntil is when a job of a session lets its person go.
func (m *model) satUntil(j *duty) cp.Point {
	w := m.work[j.i]
	switch {
	case j.Attention == planner.Hands:
		return w.end
	case j.length(0) <= watchedFor:
		return w.start
	}
	return m.after(w.end, -watchedFor)
}

// maySit lists the jobs that may be in a session, and says when what is settled in it begins and ends.
func (m *model) maySit(p int, day earlier, jobs []*duty) (mays []mayBe, settled bool, first, last int) {
	first, last = day.To, day.From
	for _, j := range jobs {
		w := m.work[j.i]
		if j.settled {
			who, until := m.peopleOf(j), j.end
			if j.Attention != planner.Hands && len(who) > 0 {
				who, until = who[:1], max(j.start, j.end-watchedFor)
			}
			if j.start >= day.From && j.start < day.To && j.end > j.start && slices.Contains(who, m.people[p].Key) {
				settled, first, last = true, min(first, j.start), max(last, until)
			}
			continue
		}
		cond, ok := m.by(j, p)
		lo, hi := m.bounds(w.start)
		if ok && lo < day.To && hi >= day.From {
			mays = append(mays, mayBe{w.start, m.satUntil(j),
				join(cond, []cp.Lit{w.start.AtLeast(day.From), w.start.AtMost(day.To - 1)})})
		}
	}
	return mays, settled, first, last
}

// sitting states a session by two variables: when it begins and when it ends.
func (m *model) sitting(p int, day earlier, jobs []*duty, name string) (s sitting) {
	mays, settled, first, last := m.maySit(p, day, jobs)
	if !m.mayWork(p, day.Range) {
		mays = nil
	}
	weight := 2 + day.before
	if len(mays) == 0 {
		if settled {
			s.constant = weight + planner.CeilDiv(max(0, last-first-day.long), 30) + 2*truth(last > day.end) +
				2*truth(first < day.seven)
		}
		return s
	}
	farthest := last
	for _, y := range mays {
		_, hi := m.bounds(y.end)
		farthest = max(farthest, min(hi, day.To+int(planner.MaxLength)))
	}
	begin := m.cp.NewVar(day.From, day.To, name+" begins")
	end := m.cp.NewVar(day.From, farthest, name+" ends")
	busy, late, soon := m.cp.NewBool(name+" works"), m.cp.NewBool(name+" is late"), m.cp.NewBool(name+" is early")
	over := m.cp.NewVar(0, planner.CeilDiv(farthest-day.From, 30), name+" is long")
	if settled {
		m.cp.AddClause(begin.AtMost(first))
		m.cp.AddClause(end.AtLeast(last))
		m.cp.AddClause(busy.True())
	}
	for _, y := range mays {
		m.cp.AddClause(unless(y.cond, busy.True())...)
		m.cp.AddLag(begin.At(), y.start, 0, y.cond...)
		m.cp.AddLag(y.end, end.At(), 0, y.cond...)
	}
	m.cp.AddClause(end.AtMost(day.end), late.True())
	m.cp.AddClause(begin.AtLeast(day.seven), soon.True())
	m.cp.AddLinear([]cp.Term{{Coef: 1, X: end}, {Coef: -1, X: begin}, {Coef: -30, X: over}}, day.long)
	in := func(y mayBe, v []int) bool {
		return !slices.ContainsFunc(y.cond, func(c cp.Lit) bool { return !holds(c, v) })
	}
	m.derived(busy, func(v []int) int {
		return truth(settled || slices.ContainsFunc(mays, func(y mayBe) bool { return in(y, v) }))
	})
	m.derived(begin, func(v []int) int {
		t := first
		for _, y := range mays {
			if in(y, v) {
				t = min(t, at(y.start, v))
			}
		}
		return t
	})
	m.derived(end, func(v []int) int {
		t := last
		for _, y := range mays {
			if in(y, v) {
				t = max(t, at(y.end, v))
			}
		}
		return t
	})
	m.derived(late, func(v []int) int { return truth(v[end] > day.end) })
	m.derived(soon, func(v []int) int { return truth(v[begin] < day.seven) })
	m.derived(over, func(v []int) int { return planner.CeilDiv(max(0, v[end]-v[begin]-day.long), 30) })
	s.terms = []cp.Term{{Coef: weight, X: busy}, {Coef: 1, X: over}, {Coef: 2, X: late}, {Coef: 2, X: soon}}
	return s
}
