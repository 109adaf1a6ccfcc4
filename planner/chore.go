package planner

import "time"

// ChoreKind groups the tasks that are no step of a dish.
type ChoreKind string

// The kinds of chore.
const (
	Shop              ChoreKind = "shop"
	Thaw              ChoreKind = "thaw"
	LayTable          ChoreKind = "table"
	Chill             ChoreKind = "chill"
	Ice               ChoreKind = "ice"
	Cool              ChoreKind = "cool"               // hot food is portioned and put into the cold
	ClearRefrigerator ChoreKind = "clear refrigerator" // make space in it
	SetOut            ChoreKind = "set out"
	Wash              ChoreKind = "wash"
	Dress             ChoreKind = "dress"
	Serve             ChoreKind = "serve" // time kept free for clearing and carrying in; nobody ticks it
	Other             ChoreKind = "other"
)

// AtDinner says whether it counts as work while the guests are there: dressing and the time kept free for serving do
// not.
func (c *Chore) AtDinner() bool { return c == nil || c.Kind != Dress && c.Kind != Serve }

// IntoTheCold says whether it puts hot food into the cold: it is a touch at the end of a day, and not work that is
// begun late.
func (c *Chore) IntoTheCold() bool { return c != nil && c.Kind == Cool }

// Chore is a task that is no step of a dish: shopping, the table, the wine.
type Chore struct {
	Key       ChoreKey  `json:"key"`
	Kind      ChoreKind `json:"kind"`
	Do        string    `json:"do"`
	Attention Attention `json:"attention"`
	Hands     int       `json:"hands,omitempty"`    // as Step.Hands
	MaxHands  int       `json:"maxHands,omitempty"` // as Step.MaxHands
	Time      Span      `json:"time"`
	Where     State     `json:"where,omitempty"` // what is being thawed or chilled takes space in the cold
	Leaves    Food      `json:"leaves"`          // its space; counted in pieces, not scaled with covers
	Uses      []Use     `json:"uses,omitempty"`  // without Through
	Away      bool      `json:"away,omitempty"`
	Who       Who       `json:"who"`
	From      *Anchor   `json:"from,omitempty"` // starts at or after it
	By        []Anchor  `json:"by,omitempty"`   // ends at or before each
	Open      DayHours  `json:"open,omitzero"`  // every day's hours that it lies within, such as a shop's; equal ends: any
	Note      string    `json:"note,omitempty"`
	Shop      string    `json:"shop,omitempty"`     // which shop, for shopping
	Proposed  bool      `json:"proposed,omitempty"` // proposed by tureen, and proposed anew when the menu changes
	Quiet     bool      `json:"quiet,omitempty"`    // it stands on lists and sheets, and nobody gets a message about it
}

// Anchor is an instant of the party that a chore hangs on. Exactly one of At, Arrival, Course, Task is set.
type Anchor struct {
	At      *time.Time `json:"at,omitempty"`
	Arrival bool       `json:"arrival,omitempty"`
	Course  CourseKey  `json:"course,omitempty"` // its first serving, as planned
	Task    TaskKey    `json:"task,omitempty"`   // in By: the task's start; in From: its end. Every round of a step
	Offset  Minutes    `json:"offset,omitempty"` // added to the instant; negative: earlier
	// in By: ends at most this long before the instant; in From: ends at most this long after it; 0: any
	Within Minutes `json:"within,omitempty"`
}
