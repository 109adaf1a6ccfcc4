package planner

import (
	"slices"
	"strings"
	"time"
)

// LateOn is how long before the guests arrive the party's day is told by the minute, and no longer by session.
const LateOn = 4 * time.Hour

// BetweenStretches is the pause that ends a stretch of work. Common practice, no source.
const BetweenStretches = 90 * time.Minute

// night is until when work belongs to the evening before.
const night = 5 * time.Hour

// Session is what one person is in charge of on one day: how a host tells it, and what is taken on as one.
type Session struct {
	Key       string // "thu-noor": the same as long as person and day are
	Person    PersonKey
	Day       time.Time // its midnight, in the party's zone
	Tasks     []TaskKey // by start
	Stretches []Window  // of hands work and errands, with what lies between them closely
	Hands     time.Duration
}

// Sessions are a plan's, by day and then in the order of the party's people. What is done or left out is in them too.
func Sessions(p *Party, plan *Plan) []Session {
	tasks := taskMap(p)
	var out []Session
	for _, pl := range byStart(plan) {
		t, known := tasks[pl.Task]
		if !known || len(pl.People) == 0 {
			continue
		}
		who := pl.People[0]
		y, m, d := pl.Start.In(p.Location()).Add(-night).Date()
		day := time.Date(y, m, d, 0, 0, 0, 0, p.Location())
		i := slices.IndexFunc(out, func(s Session) bool { return s.Person == who && s.Day.Equal(day) })
		if i < 0 {
			out = append(out, Session{Key: SessionKey(p, day, who), Person: who, Day: day})
			i = len(out) - 1
		}
		out[i].add(&t, pl)
	}
	for i := range out {
		out[i].asTold(p)
	}
	rank := func(k PersonKey) int {
		return slices.IndexFunc(p.People, func(x Person) bool { return x.Key == k })
	}
	slices.SortStableFunc(out, func(a, b Session) int {
		if c := a.Day.Compare(b.Day); c != 0 {
			return c
		}
		return rank(a.Person) - rank(b.Person)
	})
	return out
}

// SessionOf is what some tasks come to, which stand in order of their starts.
func SessionOf(p *Party, all []*Placed) (s Session) {
	tasks := taskMap(p)
	for _, pl := range all {
		if t, known := tasks[pl.Task]; known {
			s.add(&t, pl)
		}
	}
	s.asTold(p)
	return s
}

// told is what the beginning and end of a session are told in: within it order counts, not minutes.
const told = 15 * time.Minute

// toldLate is what it is told in within the last hours.
const toldLate = 5 * time.Minute

// asTold widens the stretches to quarters of an hour, in the last hours to five minutes.
func (s *Session) asTold(p *Party) {
	late := p.Arrival.Add(-LateOn)
	for i := range s.Stretches {
		w, mark := &s.Stretches[i], told
		if w.To.After(late) {
			mark = toldLate
		}
		if w.From.Before(w.To) {
			w.From, w.To = w.From.Truncate(mark), w.To.Add(mark-time.Nanosecond).Truncate(mark)
		}
	}
}

func taskMap(p *Party) map[TaskKey]Task {
	tasks := map[TaskKey]Task{}
	for _, t := range Tasks(p) {
		tasks[t.Key] = t
	}
	return tasks
}

// byStart are a plan's tasks in order of their starts.
func byStart(plan *Plan) (out []*Placed) {
	for i := range plan.Tasks {
		out = append(out, &plan.Tasks[i])
	}
	slices.SortStableFunc(out, func(a, b *Placed) int { return a.Start.Compare(b.Start) })
	return out
}

func (s *Session) add(t *Task, pl *Placed) {
	s.Tasks = append(s.Tasks, pl.Task)
	end := pl.End
	switch {
	case t.Attention == Unattended || !pl.Start.Before(pl.End):
		return
	case t.Attention == Hands:
		s.Hands += pl.End.Sub(pl.Start)
	default: // it need not be sat out
		end = Later(pl.Start, pl.End.Add(-time.Hour))
	}
	if n := len(s.Stretches); n > 0 && !pl.Start.After(s.Stretches[n-1].To.Add(BetweenStretches)) {
		s.Stretches[n-1].To = Later(s.Stretches[n-1].To, end)
		return
	}
	s.Stretches = append(s.Stretches, Window{From: pl.Start, To: end})
}

// SessionKey names what a person does on a day: by the weekday, or by the date where that could be another week's.
func SessionKey(p *Party, day time.Time, who PersonKey) string {
	name := day.Format("Mon")
	if away := p.Day().Sub(day); away > 6*25*time.Hour || away < -6*25*time.Hour {
		name = day.Format("2-Jan")
	}
	return strings.ToLower(name) + "-" + string(who)
}
