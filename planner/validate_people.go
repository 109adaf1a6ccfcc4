package planner

import (
	"slices"
	"time"
)

// ValidatePerson lists what makes no sense in one person.
func ValidatePerson(_ *Party, x *Person) []Problem {
	var out problems
	where := "person " + string(x.Key)
	out.key(where, string(x.Key))
	out.text(where, "the person's name", x.Name, MaxName, false)
	if !slices.Contains([]Role{Host, CoHost, Onlooker}, x.Role) {
		out.add(where, "Make %s a host, a co-host or an onlooker, not %q.", x.Key, x.Role)
	}
	out.within(where, "the minutes to dress", int(x.Dress), 0, 240)
	out.hours(where, "cooking hours", x.Cooks)
	out.hours(where, "hours at home", x.Home)
	out.hours(where, "quiet hours", x.Quiet)
	if x.Before != nil {
		out.hours(where, "cooking hours on weekdays", x.Before.Weekdays)
		out.hours(where, "cooking hours at the weekend", x.Before.Weekends)
	}
	for i, d := range x.Days {
		if _, err := time.Parse(time.DateOnly, d.Date); err != nil {
			out.add(where, "Write the day as in 2026-09-26, not %.40q.", d.Date)
		}
		if slices.ContainsFunc(x.Days[:i], func(o OtherDay) bool { return o.Date == d.Date }) {
			out.add(where, "Give %s's hours on %s once, not twice.", x.Key, d.Date)
		}
		for _, h := range d.Cooks {
			out.hours(where, "cooking hours on "+d.Date, h)
		}
		for _, h := range d.Home {
			out.hours(where, "hours at home on "+d.Date, h)
		}
	}
	return out
}

func (ps *problems) hours(where, what string, h DayHours) {
	if h.From < 0 || h.From > 24*60 || h.Until < h.From || h.Until > 48*60 {
		ps.add(where, "Give %s from an earlier to a later time of the day, such as 09:00 to 22:00.", what)
	}
}

func (ps *problems) people(p *Party) {
	for i := range p.People {
		*ps = append(*ps, ValidatePerson(p, &p.People[i])...)
	}
	ps.twice("party", "people", peopleNames(p))
	if !slices.ContainsFunc(p.People, func(x Person) bool { return x.Role == Host }) {
		ps.add("party", "Make somebody the host; the party has none.")
	}
	for _, g := range p.Guests {
		ps.text("guest "+g.Name, "the guest's name", g.Name, MaxName, true)
	}
}

// ValidateCourse lists what makes no sense in one course.
func ValidateCourse(p *Party, c *Course) []Problem {
	var out problems
	where := "course " + string(c.Key)
	out.key(where, string(c.Key))
	out.text(where, "the course's name", c.Name, MaxName, false)
	if len(c.Servings) == 0 {
		out.add(where, "Say when %s is served.", c.Key)
	}
	for i, s := range c.Servings {
		if slices.ContainsFunc(c.Servings[:i], func(o Serving) bool { return o.Group == s.Group }) {
			out.add(where, "Serve each group %s once; %q stands twice.", c.Key, s.Group)
		}
		out.within(where, "the minutes it may be served early", int(s.Early), 0, int(maxWindow))
		out.within(where, "the minutes it may be served late", int(s.Late), 0, int(maxWindow))
		switch {
		case s.At.IsZero():
			out.add(where, "Say at what time %s is served.", c.Key)
		case p.Arrival.IsZero():
		case s.At.Before(p.Arrival.Add(-maxWindow.Duration())) || s.At.After(p.Arrival.Add(24*time.Hour)):
			out.add(where, "Serve %s on the party's day: at most 12 hours before the guests arrive and 24 hours after.", c.Key)
		case s.Group == "" && s.At.Add(s.Late.Duration()).Before(p.Arrival):
			out.add(where, "Serve %s after the guests arrive, or let them arrive earlier.", c.Key)
		}
	}
	return out
}

// courseOrder complains of a group that would be served its courses in the wrong order.
func (ps *problems) courseOrder(p *Party) {
	type last struct {
		course CourseKey
		at     time.Time
	}
	before := map[string]last{}
	for _, c := range p.Courses {
		for _, s := range c.Servings {
			if b, ok := before[s.Group]; ok && s.At.Before(b.at) && b.course != c.Key {
				ps.add("course "+string(c.Key), "Serve %s after %s, or change the order of the courses.", c.Key, b.course)
			}
			before[s.Group] = last{c.Key, s.At}
		}
	}
}
