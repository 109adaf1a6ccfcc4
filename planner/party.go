package planner

import (
	"encoding/json"
	"fmt"
	"strings"
	"sync"
	"time"

	"tureen/planner/safety"
)

// PartyID is a party's number in its store.
type PartyID int64

// Minutes is a length of time in whole minutes.
type Minutes int

// Duration converts to the standard library's type.
func (m Minutes) Duration() time.Duration { return time.Duration(m) * time.Minute }

// Party is everything the hosts have said: the whole input of a plan.
type Party struct {
	ID    PartyID `json:"id"`
	Name  string  `json:"name"`
	Place string  `json:"place,omitempty"`
	Zone  string  `json:"zone"` // IANA name, such as "Europe/Lisbon"
	// whose authorities' figures hold, where somebody has said; empty: the zone's
	Country safety.Country `json:"country,omitempty"`
	Arrival time.Time      `json:"arrival"` // when the guests arrive, UTC
	Covers  int            `json:"covers"`  // places laid
	// how it eats, where somebody has said; empty: as its words tell ([portion.PartyKind])
	Kind PartyKind `json:"kind,omitempty"`
	// days before the party's day on which work may be planned
	PrepDays         int        `json:"prepDays"`
	Ahead            AheadWish  `json:"ahead,omitempty"`            // what is wanted of the days before
	WorkHours        DayHours   `json:"workHours,omitzero"`         // of hands on a day before; equal ends: as usual
	RoomTemperatureC int        `json:"roomTemperatureC,omitempty"` // air temperature in °C where food stands; 0 means 20
	Courses          []Course   `json:"courses,omitempty"`          // in order of service
	Kitchen          Kitchen    `json:"kitchen"`
	People           []Person   `json:"people,omitempty"` // the hosts and co-hosts
	Guests           []Guest    `json:"guests,omitempty"`
	Dishes           []Dish     `json:"dishes,omitempty"`
	Chores           []Chore    `json:"chores,omitempty"`
	Drinks           []Drink    `json:"drinks,omitempty"`
	Goods            []Good     `json:"goods,omitempty"`  // what has been said about items to buy; at most one an item
	Bought           []Purchase `json:"bought,omitempty"` // what has been bought; at most one an item
	// as prices are written, before the number: "€", "CHF"; empty: a bare number
	Currency string     `json:"currency,omitempty"`
	Work     []Work     `json:"work,omitempty"`     // what has been claimed, started, done; at most one a task
	Declined []ChoreKey `json:"declined,omitempty"` // proposed tasks that the hosts have removed
	Never    []ChoreKey `json:"never,omitempty"`    // that are never proposed, in the household's next party either
	Channel  string     `json:"channel,omitempty"`  // where the party lives in its chat
}

// Course is a part of the meal that is served together.
type Course struct {
	Key      CourseKey `json:"key"`
	Name     string    `json:"name"`
	Servings []Serving `json:"servings"` // at least one; more where groups eat at different times
	// whether its dishes stand out to the end of service, where somebody has said; empty: as their words tell
	Out YesNo `json:"out,omitempty"`
}

// YesNo is what somebody has said of what is told by words otherwise; empty: nothing.
type YesNo string

// The answers.
const (
	Yes YesNo = "yes"
	No  YesNo = "no"
)

// Serving is one group's service of a course: a target with a window around it.
type Serving struct {
	Group string    `json:"group,omitempty"` // empty: everybody
	At    time.Time `json:"at"`              // the target, UTC
	Early Minutes   `json:"early"`           // how long before At it may be served
	Late  Minutes   `json:"late"`            // how long after At it may be served
}

// Guest is somebody at the table. Diets and allergies are the words of package safety.
type Guest struct {
	Name      string   `json:"name"`
	Group     string   `json:"group,omitempty"`
	Diets     []string `json:"diets,omitempty"`
	Allergies []string `json:"allergies,omitempty"`
	Note      string   `json:"note,omitempty"`
}

// DrinkKind says how a drink is looked after.
type DrinkKind string

// The kinds of drink.
const (
	White     DrinkKind = "white"
	Sparkling DrinkKind = "sparkling"
	Red       DrinkKind = "red"
	Soft      DrinkKind = "soft"
)

// Drink is wine or anything else that comes in bottles.
type Drink struct {
	Name    string    `json:"name"`
	Kind    DrinkKind `json:"kind"`
	Bottles int       `json:"bottles"`
}

// Clock is a time of day, in minutes after midnight, as a clock shows it.
func (m Minutes) Clock() string { return fmt.Sprintf("%d:%02d", m/60, m%60) }

// Location is the party's time zone, or UTC when its name is not known.
func (p *Party) Location() *time.Location {
	if l, ok := zones.Load(p.Zone); ok {
		return l.(*time.Location)
	}
	if l, err := time.LoadLocation(p.Zone); err == nil {
		zones.Store(p.Zone, l)
		return l
	}
	return time.UTC
}

// zones remembers zones by name, since loading one reads the system's files each time.
var zones sync.Map

// Day is the first instant of the party's day, in the party's zone.
func (p *Party) Day() time.Time {
	y, m, d := p.Arrival.In(p.Location()).Date()
	return time.Date(y, m, d, 0, 0, 0, 0, p.Location())
}

// Opens is the first instant at which work may be planned: the start of the first prep day.
func (p *Party) Opens() time.Time {
	return p.Day().AddDate(0, 0, -p.PrepDays)
}

// LastService is the latest instant at which a course may still be served, or Arrival without courses.
func (p *Party) LastService() time.Time {
	last := p.Arrival
	for _, c := range p.Courses {
		for _, s := range c.Servings {
			if t := s.At.Add(s.Late.Duration()); t.After(last) {
				last = t
			}
		}
	}
	return last
}

// Course finds a course by key; nil when there is none.
func (p *Party) Course(k CourseKey) *Course {
	for i := range p.Courses {
		if p.Courses[i].Key == k {
			return &p.Courses[i]
		}
	}
	return nil
}

// Dish finds a dish by key; nil when there is none.
func (p *Party) Dish(k DishKey) *Dish {
	for i := range p.Dishes {
		if p.Dishes[i].Key == k {
			return &p.Dishes[i]
		}
	}
	return nil
}

// Person finds a person by key; nil when there is none.
func (p *Party) Person(k PersonKey) *Person {
	for i := range p.People {
		if p.People[i].Key == k {
			return &p.People[i]
		}
	}
	return nil
}

// Chore finds a chore by key; nil when there is none.
func (p *Party) Chore(k ChoreKey) *Chore {
	for i := range p.Chores {
		if p.Chores[i].Key == k {
			return &p.Chores[i]
		}
	}
	return nil
}

// Clone is the same party again, sharing nothing with this one; nil where its values cannot be written down.
func (p *Party) Clone() *Party {
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

// Named is the course's name in the middle of a sentence.
func (c *Course) Named() string {
	for i, r := range c.Name {
		return strings.ToLower(string(r)) + c.Name[i+len(string(r)):]
	}
	return c.Name
}
