package solve

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// change is a single change that a host would make: what a mend proposes, and what is tried before it is proposed.
type change struct {
	text string
	kind string // of several of one kind only the first that helps is proposed
	// The message that makes it in the party as it is; nil or empty where one message cannot.
	do    func(p *planner.Party) string
	apply func(p *planner.Party) bool // makes it in a party of its own, and says whether there was something to change
}

// mend is the change as it is proposed to the hosts of p.
func (c *change) mend(p *planner.Party) planner.Mend {
	m := planner.Mend{Text: c.text}
	if c.do != nil {
		m.Do = c.do(p)
	}
	return m
}

func serveLater(p *planner.Party, k planner.CourseKey, by planner.Minutes) change {
	return change{
		text: fmt.Sprintf("Serve the %s %s later.", courseNamed(p, k), words.Short(by)), kind: "later " + string(k),
		do: func(p *planner.Party) string {
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
		apply: func(p *planner.Party) bool {
			return eachServing(p, k, func(s *planner.Serving) { s.At = s.At.Add(by.Duration()) })
		},
	}
}

// serveAllLater moves the whole meal, and the guests' arrival with it.
func serveAllLater(by planner.Minutes) change {
	return change{
		text: fmt.Sprintf("Invite the guests and serve every course %s later.",
			words.Short(by)), kind: "everything later",
		apply: func(p *planner.Party) bool {
			p.Arrival = p.Arrival.Add(by.Duration())
			for i := range p.Courses {
				eachServing(p, p.Courses[i].Key, func(s *planner.Serving) { s.At = s.At.Add(by.Duration()) })
			}
			return true
		},
	}
}

func courseNamed(p *planner.Party, k planner.CourseKey) string {
	if c := p.Course(k); c != nil {
		return c.Named()
	}
	return string(k)
}

func eachServing(p *planner.Party, c planner.CourseKey, do func(*planner.Serving)) bool {
	course := p.Course(c)
	if course == nil {
		return false
	}
	for i := range course.Servings {
		do(&course.Servings[i])
	}
	return true
}

// longerHours lets a person cook from earlier or until later: on the party's day where that has hours of its own, else
// every day.
func longerHours(p *planner.Party, k planner.PersonKey, earlier, later planner.Minutes) change {
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
	return change{
		text: what + ".", kind: "hours " + string(k),
		do: func(p *planner.Party) string {
			if day >= 0 {
				hours := slices.Clone(who.Days[day].Cooks)
				longer(hours)
				return fmt.Sprintf("people hours who:%s on:%s cooks:%s", who.Name, date, sayHoursOf(hours))
			}
			hours := []planner.DayHours{who.Cooks}
			longer(hours)
			return fmt.Sprintf("people hours who:%s cooks:%s", who.Name, sayHoursOf(hours))
		},
		apply: func(p *planner.Party) bool {
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

// helperKey is the key of the helper that a mend thinks of.
const helperKey planner.PersonKey = "helper"

// addHelper brings somebody who cooks from noon of the party's day to the end.
func addHelper() change {
	return change{
		text: "Ask somebody to help in the kitchen, from noon on the day.", kind: "helper",
		do: func(p *planner.Party) string { return "people add name:Helper role:co-host cooks:12:00-24:00" },
		apply: func(p *planner.Party) bool {
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

func addPrepDay() change {
	return change{
		text: "Begin a day earlier.", kind: "prep",
		do:    func(p *planner.Party) string { return fmt.Sprintf("party change prep-days:%d", p.PrepDays+1) },
		apply: func(p *planner.Party) bool { p.PrepDays++; return true },
	}
}

func freeTask(p *planner.Party, j *duty) change {
	return change{
		text: fmt.Sprintf("Let somebody else do %s.", j.label()), kind: "free " + string(j.Key),
		apply: func(p *planner.Party) bool {
			w := p.WorkOn(j.Key)
			if w == nil || w.Person == "" {
				return false
			}
			w.Person, w.By = "", ""
			return true
		},
		do: func(p *planner.Party) string { return fmt.Sprintf("task give-back task:%s", j.Key) },
	}
}

// beginSooner takes back that a task was said to begin late.
func beginSooner(j *duty) change {
	return change{
		text: fmt.Sprintf("Let %s begin as soon as it can.", j.label()), kind: "sooner " + string(j.Key),
		do: func(p *planner.Party) string { return fmt.Sprintf("late task:%s by:0", j.Key) },
		apply: func(p *planner.Party) bool {
			w := p.WorkOn(j.Key)
			if w == nil || w.NotBefore == nil {
				return false
			}
			w.NotBefore = nil
			return true
		},
	}
}

// letAnybody takes off a task whom it is for.
func letAnybody(j *duty) change {
	return change{text: fmt.Sprintf("Let anybody do %s.", j.label()), kind: "who " + string(j.Key),
		apply: func(p *planner.Party) bool {
			if c := p.Chore(j.Chore); j.Chore != "" && c != nil {
				c.Who = planner.Who{}
				return true
			}
			if d := p.Dish(j.Dish); d != nil {
				if s := d.Step(j.Step); s != nil {
					s.Who = planner.Who{}
					return true
				}
			}
			return false
		}}
}

// floorMore is the time in minutes by which a mend lengthens such a wait.
const worthMore = 15

// longerFloor lets food wait a quarter of an hour longer before it is not worth serving.
func worthLonger(n *node) change {
	const more = worthMore
	dish, step := n.dish.Key, n.step.Key
	return change{text: fmt.Sprintf("Let it wait %s longer after “%s” (%s).", words.Short(more), n.step.Do,
		n.dish.Name),
		kind: "floor " + string(dish) + string(step),
		do: func(p *planner.Party) string {
			var do []string // one message each; the change takes one where one wait has such an end
			for i := range p.Dishes {
				d := &p.Dishes[i]
				for s := range d.Steps {
					st := &d.Steps[s]
					if d.Key == dish && st.Key == step && st.Serve != nil && st.Serve.WorthUntil > 0 {
						do = append(do, fmt.Sprintf("step serve step:%s/%s worth-until:%s", d.Key, st.Key,
							words.Short(st.Serve.WorthUntil+more)))
					}
					for _, f := range st.After {
						if f.Step == step && (f.Dish == dish || f.Dish == "" && d.Key == dish) && f.Wait.WorthUntil > 0 {
							do = append(do, fmt.Sprintf("step after step:%s/%s of:%s/%s worth-until:%s", d.Key, st.Key,
								dish, step, words.Short(f.Wait.WorthUntil+more)))
						}
					}
				}
			}
			if len(do) != 1 {
				return ""
			}
			return do[0]
		},
		apply: func(p *planner.Party) bool {
			done := false
			for i := range p.Dishes {
				d := &p.Dishes[i]
				for s := range d.Steps {
					st := &d.Steps[s]
					if d.Key == dish && st.Key == step && st.Serve != nil && st.Serve.WorthUntil > 0 {
						st.Serve.WorthUntil += more
						done = true
					}
					for k := range st.After {
						f := &st.After[k]
						if f.Step == step && (f.Dish == dish || f.Dish == "" && d.Key == dish) && f.Wait.WorthUntil > 0 {
							f.Wait.WorthUntil += more
							done = true
						}
					}
				}
			}
			return done
		}}
}

// dropDish takes a dish off the menu, unless another needs it.
func dropDish(d *planner.Dish) change {
	key := d.Key
	return change{text: fmt.Sprintf("Leave out %s.", d.Name), kind: "drop " + string(key),
		do: func(p *planner.Party) string { return fmt.Sprintf("dish remove dish:%s", key) },
		apply: func(p *planner.Party) bool {
			for i := range p.Dishes {
				for _, s := range p.Dishes[i].Steps {
					if slices.ContainsFunc(s.After,
						func(a planner.After) bool { return a.Dish == key && p.Dishes[i].Key != key }) {
						return false
					}
				}
			}
			n := len(p.Dishes)
			p.Dishes = slices.DeleteFunc(p.Dishes, func(d planner.Dish) bool { return d.Key == key })
			return len(p.Dishes) < n
		}}
}
