package planner

import "time"

// Role is what a person may do with the party.
type Role string

// The roles. A host may do everything, a co-host may change the plan, an onlooker may only look.
const (
	Host     Role = "host"
	CoHost   Role = "co-host"
	Onlooker Role = "onlooker"
)

// Person is one of the people who give the party. Onlookers are never given work.
type Person struct {
	Key    PersonKey  `json:"key"`
	Name   string     `json:"name"`
	Chat   string     `json:"chat,omitempty"` // the face's id of this person
	Role   Role       `json:"role"`
	Skills []string   `json:"skills,omitempty"`
	Dress  Minutes    `json:"dress,omitempty"` // needed to dress before the guests arrive
	Cooks  DayHours   `json:"cooks"`           // every day's cooking hours
	Home   DayHours   `json:"home"`            // every day's hours where the food is, and awake, beside the cooking hours
	Days   []OtherDay `json:"days,omitempty"`  // days that are different
	// cooking hours on the days before the party's, which are others than on it; nil: the same every day
	Before *DaysBefore `json:"before,omitempty"`
	Quiet  DayHours    `json:"quiet"`            // when reminders stay silent; may pass midnight
	Direct bool        `json:"direct,omitempty"` // reminders as direct messages rather than in the channel
}

// DaysBefore are a person's cooking hours on the days before the party's; a day without any has an empty stretch.
type DaysBefore struct {
	Weekdays DayHours `json:"weekdays"`
	Weekends DayHours `json:"weekends"`
}

// Of are the hours on a local day.
func (b *DaysBefore) Of(day time.Time) DayHours {
	if w := day.Weekday(); w == time.Saturday || w == time.Sunday {
		return b.Weekends
	}
	return b.Weekdays
}
