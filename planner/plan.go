package planner

import (
	"slices"
	"time"
)

// Status says how sure a plan is.
type Status string

// The statuses of a plan.
const (
	Optimal  Status = "optimal"  // every level but Spare is proved; that is found, not proved
	Feasible Status = "feasible" // it keeps every rule; some level may have a better value
)

// Plan puts every task of a party on the clock. Instants are whole minutes in UTC.
type Plan struct {
	Made     time.Time `json:"made"`     // nothing that had not started lies before it
	Revision int64     `json:"revision"` // of the party that it was made for
	Status   Status    `json:"status"`
	Soft     bool      `json:"soft,omitempty"` // an evening plan: service may be late, and is as little late as can be
	Tasks    []Placed  `json:"tasks"`          // by start, then key
	Served   []Served  `json:"served"`         // in order of service
	// in an evening plan: dishes that it does not go on with, so that the others can
	Without []LeftOut `json:"without,omitempty"`
	// ovens that the plan before had on when this one was made: Name, at C from To on
	Heating []Held  `json:"heating,omitempty"`
	Levels  []Level `json:"levels"` // how good it is, in the order in which it matters
	// which tables of foods and limits it was held against (package check: Tables); empty: older ones than have a name
	Tables   string    `json:"tables,omitempty"`
	Outdated *Outdated `json:"outdated,omitempty"` // what it breaks by newer tables; nil: nothing, or nobody has looked
	// it wants work of others than hosts, and nobody but hosts has been told of it
	Draft bool `json:"draft,omitempty"`
	// when everybody was told; nil in a draft, and where there was nobody to tell
	Told    *time.Time `json:"told,omitempty"`
	Answers []Answer   `json:"answers,omitempty"` // what was said to that against it
}

// Answer is what somebody said who was told their work, and would not have it so.
type Answer struct {
	Person PersonKey `json:"person"`
	At     time.Time `json:"at"`
	Says   string    `json:"says"` // in a sentence for the hosts
}

// Asked says whether the plan is one of which people are told, and whose work is theirs once they have taken it on.
func (p *Plan) Asked() bool { return p.Draft || p.Told != nil }

// Unaccepted says whether somebody who is no host is in charge of a task in the plan and has not taken it on. In a
// plan of which nobody is told what is planned is agreed, and so it is where they are told on the party's day: there is
// no time to wait for an answer.
func (p *Party) Unaccepted(plan *Plan, pl *Placed) bool {
	if !plan.Asked() || len(pl.People) == 0 || p.ToldOnTheDay(plan) {
		return false
	}
	x, w := p.Person(pl.People[0]), p.WorkOn(pl.Task)
	return x != nil && x.Role != Host && (w == nil || w.Person != x.Key && w.Progress == Waiting)
}

// ToldOnTheDay says whether a plan was told on the party's day.
func (p *Party) ToldOnTheDay(plan *Plan) bool { return plan.Told != nil && !plan.Told.Before(p.Day()) }

// FirstHost is the first of the hosts; nil when there is none.
func (p *Party) FirstHost() *Person {
	for i := range p.People {
		if p.People[i].Role == Host {
			return &p.People[i]
		}
	}
	return nil
}

// Outdated is what a plan in force was found to break when it was held against newer tables.
type Outdated struct {
	At     time.Time `json:"at"`
	Breaks []string  `json:"breaks"` // in sentences
}

// LeftOut is a dish that an evening plan does not go on with, and why.
type LeftOut struct {
	Dish  DishKey `json:"dish"`
	Why   string  `json:"why"`             // what cannot be kept with it, in sentences
	Limit bool    `json:"limit,omitempty"` // a published safety limit cannot be kept with it, whatever else is changed
	Mends []Mend  `json:"mends,omitempty"` // what would keep it, tried
}

// LeavesOut says whether the plan does not go on with a dish.
func (p *Plan) LeavesOut(k DishKey) bool {
	return slices.ContainsFunc(p.Without, func(l LeftOut) bool { return l.Dish == k })
}

// LastServed is when the last group is served a course; zero where the plan does not serve it.
func (p *Plan) LastServed(k CourseKey) time.Time {
	var last time.Time
	for _, s := range p.Served {
		if s.Course == k {
			last = Later(last, s.At)
		}
	}
	return last
}

// eaten is how long after it came to the table a course is taken as eaten; our own figure.
const eaten = 30 * time.Minute

// Eaten says whether a dish has been eaten at an instant, by the plan: it came to the table half an hour ago. What is
// left of it is for who clears the table.
func (p *Plan) Eaten(d *Dish, at time.Time) bool {
	last := p.LastServed(d.Course)
	return !last.IsZero() && !p.LeavesOut(d.Key) && !at.Before(last.Add(eaten))
}

// Placed is a task on the clock.
type Placed struct {
	Task   TaskKey     `json:"task"`
	Start  time.Time   `json:"start"`
	End    time.Time   `json:"end"`
	People []PersonKey `json:"people,omitempty"` // the first is in charge and is reminded
	Uses   []Held      `json:"uses,omitempty"`
}

// Held is a piece of equipment held from one instant to another: by a task, or by the wait after it.
type Held struct {
	What   Equipment `json:"what"`
	Name   string    `json:"name,omitempty"` // the oven, hot place, appliance or vessel
	Amount int       `json:"amount"`
	C      int       `json:"c,omitempty"` // an oven's setting in °C
	From   time.Time `json:"from"`
	To     time.Time `json:"to"`
}

// Served is when a group is served a course.
type Served struct {
	Course CourseKey `json:"course"`
	Group  string    `json:"group,omitempty"`
	At     time.Time `json:"at"`
}

// Placed finds a task in the plan; nil when it is not there.
func (p *Plan) Placed(k TaskKey) *Placed {
	for i := range p.Tasks {
		if p.Tasks[i].Task == k {
			return &p.Tasks[i]
		}
	}
	return nil
}

// Mend is a change that a host would make, or the smallest set of them that is enough.
type Mend struct {
	Text string `json:"text"`           // "Serve the dessert 15 minutes later"
	Do   string `json:"do,omitempty"`   // the message that makes the change, without the slash
	With []Mend `json:"with,omitempty"` // what has to be changed as well: no single change is enough
}
