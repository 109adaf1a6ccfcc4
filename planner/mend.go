package planner

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"
)

// change is a single change that a host would make. apply makes it in a party of its own and says whether there was something to
// change.
type change struct {
	text  string
	apply func(p *Party) bool
}

func serveLater(c CourseKey, by Minutes) change {
	return change{fmt.Sprintf("Serve the %s %d minutes later.", c, by), func(p *Party) bool {
		return eachServing(p, c, func(s *Serving) { s.At = s.At.Add(by.Duration()) })
	}}
}

func serveLonger(c CourseKey, by Minutes) change {
	return change{fmt.Sprintf("Let the %s be served up to %d minutes later than now.", c, by), func(p *Party) bool {
		return eachServing(p, c, func(s *Serving) { s.Late += by })
	}}
}

func eachServing(p *Party, c CourseKey, do func(*Serving)) bool {
	course := p.Course(c)
	if course == nil {
		return false
	}
	for i := range course.Servings {
		do(&course.Servings[i])
	}
	return true
}

func earlierHours(k PersonKey, by Minutes) change {
	return change{fmt.Sprintf("Let %s cook from %d minutes earlier.", k, by), func(p *Party) bool {
		return eachHours(p, k, func(h *DayHours) { h.From = max(0, h.From-by) })
	}}
}

func laterHours(k PersonKey, by Minutes) change {
	return change{fmt.Sprintf("Let %s cook up to %d minutes later.", k, by), func(p *Party) bool {
		return eachHours(p, k, func(h *DayHours) { h.Until += by })
	}}
}

func eachHours(p *Party, k PersonKey, do func(*DayHours)) bool {
	who := p.Person(k)
	if who == nil {
		return false
	}
	do(&who.Cooks)
	for i := range who.Days {
		for h := range who.Days[i].Cooks {
			do(&who.Days[i].Cooks[h])
		}
	}
	return true
}

// helperKey is the key of the helper that a mend thinks of.
const helperKey PersonKey = "helper"

// addHelper brings somebody who cooks from noon of the party's day to the end.
func addHelper() change {
	return change{"Ask somebody to help in the kitchen from noon of the day.", func(p *Party) bool {
		if p.Person(helperKey) != nil {
			return false
		}
		hours := []DayHours{{From: 12 * 60, Until: 24 * 60}}
		p.People = append(p.People, Person{Key: helperKey, Name: "a helper", Role: CoHost,
			Days: []OtherDay{{Date: p.Day().Format(time.DateOnly), Cooks: hours, Home: hours}}})
		return true
	}}
}

func moreOf(what Equipment, name string) change {
	return change{fmt.Sprintf("Find one more %s.", strings.TrimPrefix(equipmentName(what, name), "a ")), func(p *Party) bool {
		k := &p.Kitchen
		add := func(ws []Ware) bool {
			i := slices.IndexFunc(ws, func(w Ware) bool { return w.Name == name })
			if i >= 0 {
				ws[i].Count++
			}
			return i >= 0
		}
		switch what {
		case AnOven:
			another := HomeKitchen().Ovens[0]
			if o := k.oven(name); o != nil {
				another = *o
			}
			another.Name = "another " + another.Name
			k.Ovens = append(k.Ovens, another)
			return true
		case ABurner:
			k.Burners++
		case AGrill:
			k.Grills++
		case ACounter:
			k.Counter++
		case ASource:
			return add(k.Sources)
		case AnAppliance:
			return add(k.Appliances)
		case AVessel:
			return add(k.Vessels)
		}
		return true
	}}
}

func moreCold(state State, kind string) change {
	text := fmt.Sprintf("Make room for 10 litres in the %s, or borrow a cool box.", state)
	if kind != "ml" {
		text = fmt.Sprintf("Free one more flat place in the %s.", state)
	}
	return change{text, func(p *Party) bool {
		c := &p.Kitchen.Refrigerator
		if state == Freezer {
			c = &p.Kitchen.Freezer
		}
		if kind == "ml" {
			c.Millilitres += 10000
		} else {
			c.Flat++
		}
		return true
	}}
}

func addPrepDay() change {
	return change{"Begin a day earlier.", func(p *Party) bool { p.PrepDays++; return true }}
}

func freeTask(k TaskKey) change {
	return change{fmt.Sprintf("Free the task %s, so that somebody else can do it.", k), func(p *Party) bool {
		w := p.WorkOn(k)
		if w == nil || w.Person == "" {
			return false
		}
		w.Person, w.By = "", ""
		return true
	}}
}

// mendNobody lists what helps when nobody may do a job.
func (m *model) mendNobody(j *duty) []change {
	if j.claim >= 0 {
		return []change{freeTask(j.Key)}
	}
	return []change{{fmt.Sprintf("Let anybody do %s.", j.label()), func(p *Party) bool {
		if c := p.Chore(j.Chore); j.Chore != "" && c != nil {
			c.Who = Who{}
			return true
		}
		if d := p.Dish(j.Dish); d != nil {
			if s := d.Step(j.Step); s != nil {
				s.Who = Who{}
				return true
			}
		}
		return false
	}}, addHelper()}
}

// longerFloor lets food wait a quarter of an hour longer before it is not worth serving.
func longerFloor(n *node, a arc) change {
	dish, step := n.dish.Key, n.step.Key
	return change{fmt.Sprintf("Let it wait 15 minutes longer after “%s” (%s).", n.step.Do, n.dish.Name), func(p *Party) bool {
		done := false
		for i := range p.Dishes {
			d := &p.Dishes[i]
			for s := range d.Steps {
				st := &d.Steps[s]
				if a.to < 0 && d.Key == dish && st.Key == step && st.Serve != nil {
					st.Serve.Floor += 15
					done = true
				}
				for k := range st.After {
					f := &st.After[k]
					if f.Step == step && (f.Dish == dish || f.Dish == "" && d.Key == dish) && f.Wait.Floor > 0 {
						f.Wait.Floor += 15
						done = true
					}
				}
			}
		}
		return done
	}}
}

// dropDish takes a dish off the menu, unless another needs it.
func dropDish(d *Dish) change {
	key := d.Key
	return change{fmt.Sprintf("Leave out the dish %s.", d.Name), func(p *Party) bool {
		for i := range p.Dishes {
			for _, s := range p.Dishes[i].Steps {
				if slices.ContainsFunc(s.After, func(a After) bool { return a.Dish == key && p.Dishes[i].Key != key }) {
					return false
				}
			}
		}
		n := len(p.Dishes)
		p.Dishes = slices.DeleteFunc(p.Dishes, func(d Dish) bool { return d.Key == key })
		return len(p.Dishes) < n
	}}
}

// clone is a party of its own.
func (p *Party) clone() *Party {
	text, err := json.Marshal(p)
	if err != nil {
		return nil
	}
	var out Party
	if json.Unmarshal(text, &out) != nil {
		return nil
	}
	return &out
}
