package mend

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// Change is a single change that a host would make: what a mend proposes, and what is tried before it is proposed.
type Change struct {
	Text string
	Kind string // of several of one kind only the first that helps is proposed
	// The message that makes it in the party as it is; nil or empty where one message cannot.
	Do    func(p *planner.Party) string
	Apply func(p *planner.Party) bool // makes it in a party of its own, and says whether there was something to change
}

// Mend is the change as it is proposed to the hosts of p.
func (c *Change) Mend(p *planner.Party) planner.Mend {
	m := planner.Mend{Text: c.Text}
	if c.Do != nil {
		m.Do = c.Do(p)
	}
	return m
}

// ServeLater moves a course.
func ServeLater(p *planner.Party, k planner.CourseKey, by planner.Minutes) Change {
	return Change{
		Text: fmt.Sprintf("Serve the %s %s later.", CourseNamed(p, k), words.Short(by)), Kind: "later " + string(k),
		Do: func(p *planner.Party) string {
			c := p.Course(k)
			if c == nil || len(c.Servings) != 1 || c.Servings[0].Group != "" {
				return ""
			}
			at := c.Servings[0].At.Add(by.Duration())
			if !at.Before(p.Day().AddDate(0, 0, 1)) {
				return ""
			}
			return fmt.Sprintf("course change course:%s at:%s", k, at.In(p.Location()).Format("15:04"))
		},
		Apply: func(p *planner.Party) bool {
			return EachServing(p, k, func(s *planner.Serving) { s.At = s.At.Add(by.Duration()) })
		},
	}
}

// ServeAllLater moves the whole meal, and the guests' arrival with it.
func ServeAllLater(by planner.Minutes) Change {
	return Change{
		Text: fmt.Sprintf("Invite the guests and serve every course %s later.",
			words.Short(by)), Kind: "everything later",
		Apply: func(p *planner.Party) bool {
			p.Arrival = p.Arrival.Add(by.Duration())
			for i := range p.Courses {
				EachServing(p, p.Courses[i].Key, func(s *planner.Serving) { s.At = s.At.Add(by.Duration()) })
			}
			return true
		},
	}
}

// CourseNamed is how a sentence names a course.
func CourseNamed(p *planner.Party, k planner.CourseKey) string {
	if c := p.Course(k); c != nil {
		return c.Named()
	}
	return string(k)
}

// EachServing does something to every serving of a course, and says whether there is one.
func EachServing(p *planner.Party, c planner.CourseKey, do func(*planner.Serving)) bool {
	course := p.Course(c)
	if course == nil {
		return false
	}
	for i := range course.Servings {
		do(&course.Servings[i])
	}
	return true
}

// LongerHours lets a person cook from earlier or until later: on the party's day where that has hours of its own, else
// every day.
func LongerHours(p *planner.Party, k planner.PersonKey, earlier, later planner.Minutes) Change {
	who := p.Person(k)
	date := p.Day().Format(time.DateOnly)
	what := fmt.Sprintf("Let %s begin to cook %s earlier", who.Name, words.Short(earlier))
	if later > 0 {
		what = fmt.Sprintf("Let %s cook %s longer", who.Name, words.Short(later))
	}
	day := slices.IndexFunc(who.Days, func(d planner.OtherDay) bool { return d.Date == date && len(d.Cooks) > 0 })
	if day >= 0 {
		what += " on the day"
	}
	longer := func(hours []planner.DayHours) bool {
		first, last := 0, 0
		for i, h := range hours {
			if h.From < hours[first].From {
				first = i
			}
			if h.Until > hours[last].Until {
				last = i
			}
		}
		if len(hours) == 0 || hours[first].From >= hours[first].Until {
			return false
		}
		hours[first].From = max(0, hours[first].From-earlier)
		hours[last].Until += later
		return true
	}
	return Change{
		Text: what + ".", Kind: "hours " + string(k),
		Do: func(p *planner.Party) string {
			if day >= 0 {
				hours := slices.Clone(who.Days[day].Cooks)
				longer(hours)
				return fmt.Sprintf("people hours who:%s on:%s cooks:%s", who.Name, date, sayHoursOf(hours))
			}
			hours := []planner.DayHours{who.Cooks}
			longer(hours)
			return fmt.Sprintf("people hours who:%s cooks:%s", who.Name, sayHoursOf(hours))
		},
		Apply: func(p *planner.Party) bool {
			who := p.Person(k)
			if day >= 0 {
				return longer(who.Days[day].Cooks)
			}
			hours := []planner.DayHours{who.Cooks}
			ok := longer(hours)
			who.Cooks = hours[0]
			return ok
		},
	}
}

func sayHoursOf(hours []planner.DayHours) string {
	var parts []string
	for _, h := range hours {
		until := h.Until
		if until > 24*60 {
			until -= 24 * 60 // past midnight, as people write it
		}
		parts = append(parts, fmt.Sprintf("%d:%02d-%d:%02d", h.From/60, h.From%60, until/60, until%60))
	}
	return strings.Join(parts, ", ")
}

// LongerDay are hours by as much as a host would give way on.
func LongerDay(h planner.DayHours) planner.DayHours {
	return planner.DayHours{From: max(0, h.From-60), Until: min(h.Until+90, 24*60)}
}

// LongerDays lets work on the days before begin sooner and go on for longer.
func LongerDays(h planner.DayHours) Change {
	to := LongerDay(h)
	said := fmt.Sprintf("%s-%s", to.From.Clock(), to.Until.Clock())
	return Change{Text: "Let work on the days before lie between " + to.From.Clock() + " and " + to.Until.Clock() + ".",
		Kind: "work hours",
		Do:   func(*planner.Party) string { return "party change work-hours:" + said },
		Apply: func(p *planner.Party) bool {
			p.WorkHours = to
			return true
		}}
}

// helperKey is the key of the helper that a mend thinks of.
const helperKey planner.PersonKey = "helper"

// AddHelper brings somebody who cooks from noon of the party's day to the end.
func AddHelper() Change {
	return Change{
		Text: "Ask somebody to help in the kitchen, from noon on the day.", Kind: "helper",
		Do: func(p *planner.Party) string { return "people add name:Helper role:co-host cooks:12:00-24:00" },
		Apply: func(p *planner.Party) bool {
			if p.Person(helperKey) != nil {
				return false
			}
			hours := []planner.DayHours{{From: 12 * 60, Until: 24 * 60}}
			p.People = append(p.People, planner.Person{Key: helperKey, Name: "Helper", Role: planner.CoHost,
				Days: []planner.OtherDay{{Date: p.Day().Format(time.DateOnly), Cooks: hours, Home: hours}}})
			return true
		},
	}
}

// AddPrepDay begins a day earlier.
func AddPrepDay() Change {
	return Change{
		Text: "Begin a day earlier.", Kind: "prep",
		Do:    func(p *planner.Party) string { return fmt.Sprintf("party change prep-days:%d", p.PrepDays+1) },
		Apply: func(p *planner.Party) bool { p.PrepDays++; return true },
	}
}

// FreeTask lets somebody else do a task that is claimed.
func FreeTask(k planner.TaskKey, label string) Change {
	return Change{
		Text: fmt.Sprintf("Let somebody else do %s.", label), Kind: "free " + string(k),
		Apply: func(p *planner.Party) bool {
			w := p.WorkOn(k)
			if w == nil || w.Person == "" {
				return false
			}
			w.Person, w.By = "", ""
			return true
		},
		Do: func(p *planner.Party) string { return fmt.Sprintf("task give-back task:%s", k) },
	}
}

// BeginSooner takes back that a task was said to begin late, or on a day.
func BeginSooner(k planner.TaskKey, label string) Change {
	return Change{
		Text: fmt.Sprintf("Let %s begin as soon as it can.", label), Kind: "sooner " + string(k),
		Do: func(p *planner.Party) string { return fmt.Sprintf("late task:%s by:0", k) },
		Apply: func(p *planner.Party) bool {
			w := p.WorkOn(k)
			if w == nil || w.NotBefore == nil && w.NotAfter == nil {
				return false
			}
			w.NotBefore, w.NotAfter = nil, nil
			return true
		},
	}
}

// LetAnybody takes off a task whom it is for.
func LetAnybody(t *planner.Task, label string) Change {
	return Change{Text: fmt.Sprintf("Let anybody do %s.", label), Kind: "who " + string(t.Key),
		Apply: func(p *planner.Party) bool {
			if c := p.Chore(t.Chore); t.Chore != "" && c != nil {
				c.Who = planner.Who{}
				return true
			}
			if d := p.Dish(t.Dish); d != nil {
				if s := d.Step(t.Step); s != nil {
					s.Who = planner.Who{}
					return true
				}
			}
			return false
		}}
}
