package check

import (
	"slices"
	"time"

	"tureen/planner"
)

// ahead counts the work by how late it ends.
func (c *checker) ahead() int {
	midnight := c.p.Day()
	hours := func(n time.Duration) time.Time { return c.p.Arrival.Add(-n * time.Hour) }
	y, m, d := midnight.Date()
	noon := time.Date(y, m, d, 12, 0, 0, 0, c.loc)
	if hours(4).Before(noon) {
		noon = hours(4)
	}
	sum := 0
	for _, j := range c.jobs {
		if j.settled {
			continue
		}
		late := 0
		switch {
		case c.p.Ahead == planner.SameDay:
			if j.of != nil && !j.end.After(midnight) {
				late = 1
			}
		case j.end.After(hours(1)):
			late = 8
		case j.end.After(hours(4)):
			late = 4
		case j.end.After(noon):
			late = 2
		case j.end.After(midnight):
			late = 1
		}
		sum += late * j.effort()
	}
	return sum
}

// effort is what a task weighs on the level Ahead: quarters of an hour of hands, or hours of watching.
func (j *workJob) effort() int {
	switch j.attention {
	case planner.Hands:
		return planner.CeilDiv(j.planned, 15) * j.hands
	case planner.Watch, planner.Touch:
		return planner.CeilDiv(j.planned, 60)
	}
	if j.chore != nil && j.planned > 0 {
		return 1
	}
	return 0
}

// The parts of a day, by the hour at which each begins. The night belongs to the day before.
const (
	morningAt   = 6
	afternoonAt = 12
	eveningAt   = 17
	nightAt     = 22

	nightWeight = 4
)

func (c *checker) calm() int {
	sum := c.dinnerWork(func(x *planner.Person) bool { return x.Role != planner.Host })
	for i := range c.p.People {
		x := c.p.People[i].Key
		seen := map[time.Time]bool{} // the parts in which x works, by their start
		days := map[string]*session{}
		for _, j := range c.jobs {
			if end, ok := j.satFor(x); ok {
				c.addTo(days, j, end)
			}
			if !j.handsOf(x) {
				continue
			}
			for at := j.start; at.Before(j.end); {
				from, to, weight := c.partOfDay(at)
				if weight < nightWeight && to.Compare(c.p.Day()) <= 0 {
					weight = 0 // sessions say it
				}
				if !seen[from] {
					seen[from] = true
					sum += weight
				}
				at = to
			}
		}
		for _, s := range days {
			sum += s.weight(c.p)
		}
	}
	for _, j := range c.jobs {
		if j.away && j.attention == planner.Hands && !j.gone && j.end.After(c.p.Arrival.Add(-4*time.Hour)) {
			sum += 4
		}
	}
	return planner.CeilDiv(sum, 4)
}

// session is what a person does on a day before the party's.
type session struct {
	day         time.Time // its midnight
	first, last time.Time
}

// satFor says whether a task belongs to a person's session, and until when.
func (j *workJob) satFor(k planner.PersonKey) (end time.Time, ok bool) {
	switch {
	case j.gone || j.away || !j.start.Before(j.end):
		return end, false
	case j.attention == planner.Hands:
		return j.end, slices.Contains(j.people, k)
	case j.attention == planner.Unattended || len(j.people) == 0 || j.people[0] != k:
		return end, false
	}
	return planner.Later(j.start, j.end.Add(-time.Hour)), true
}

// addTo puts a task into the session of its day, if that is before the party's.
func (c *checker) addTo(days map[string]*session, j *workJob, end time.Time) {
	at := j.start.In(c.loc)
	date := at.Format(time.DateOnly)
	if date >= c.p.Day().Format(time.DateOnly) {
		return
	}
	s := days[date]
	if s == nil {
		y, m, d := at.Date()
		s = &session{time.Date(y, m, d, 0, 0, 0, 0, c.loc), j.start, end}
		days[date] = s
	}
	if j.start.Before(s.first) {
		s.first = j.start
	}
	s.last = planner.Later(s.last, end)
}

// weight is what a session counts on the level Calm.
func (s *session) weight(p *planner.Party) int {
	y, m, d := s.day.Date()
	clock := func(day, hour, minute int) time.Time {
		return time.Date(y, m, d+day, hour, minute, 0, 0, s.day.Location())
	}
	sum := 2
	for n := 1; clock(n, 0, 0).Before(p.Day()); n++ {
		sum++
	}
	long := 120
	if slices.Contains([]time.Weekday{time.Saturday, time.Sunday}, s.day.Weekday()) {
		long = 180
	}
	sum += planner.CeilDiv(max(0, gap(s.first, s.last)-long), 30)
	if s.last.After(clock(0, 21, 15)) {
		sum += 2
	}
	if s.first.Before(clock(0, 7, 0)) {
		sum += 2
	}
	return sum
}

// partOfDay is the part of the local day that an instant lies in, and what working in it weighs.
func (c *checker) partOfDay(at time.Time) (from, to time.Time, weight int) {
	y, m, d := at.In(c.loc).Date()
	hour := at.In(c.loc).Hour()
	begin := func(day, hour int) time.Time { return time.Date(y, m, d+day, hour, 0, 0, 0, c.loc).UTC() }
	switch {
	case hour < morningAt:
		return begin(-1, nightAt), begin(0, morningAt), nightWeight
	case hour < afternoonAt:
		return begin(0, morningAt), begin(0, afternoonAt), 1
	case hour < eveningAt:
		return begin(0, afternoonAt), begin(0, eveningAt), 1
	case hour < nightAt:
		return begin(0, eveningAt), begin(0, nightAt), 1
	}
	return begin(0, nightAt), begin(1, morningAt), nightWeight
}
