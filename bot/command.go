package bot

import "context"

// Command is one thing a person can ask for. The list of commands is the single definition that the
// terminal's grammar, Discord's slash commands and the help are made from.
type Command struct {
	Name    string // "undo", or a group and a verb: "dish add"
	Help    string // one line, at most 100 characters, no full stop
	Options []Option
	Example string // a whole message that works: "/dish add name:Pear tart course:dessert serves:8"
	Access  Access
	Slow    bool // plans, and so may take longer than a face may keep its user waiting
	Private bool // every answer is for the asker's eyes only
	Run     func(context.Context, *Turn) (Reply, error)
}

// Access says who may use a command.
type Access int

// Who may use a command.
const (
	Anyone  Access = iota // whoever is in the channel; no party is needed
	Lookers               // the party's people, lookers included; such a command changes nothing
	CoHosts               // hosts and co-hosts
	Hosts                 // hosts only
)

// Option is a named value of a command.
type Option struct {
	Name     string
	Help     string // at most 100 characters
	Kind     Kind
	Required bool
	Example  string
	Choices  []string // for Choice: what it may be
	Min, Max int      // for Whole and Length: the bounds; both 0: the kind's own
	Ahead    bool     // for DateOption: a bare weekday is the next one from today, not the party's
}

// Kind says what an option's text must be. It is checked, and completed, before the command runs.
type Kind int

// The kinds of option.
const (
	Text        Kind = iota // anything up to 300 characters on one line
	LongText                // up to 4000 characters, with line breaks
	Whole                   // a whole number
	Length                  // a length of time: "45", "1h20", "20-30 min"
	DateOption              // a day: "2026-12-05", "sat", "5 dec"
	TimeOption              // an instant: "19:30" on the party's day, or a day and a time
	HoursOption             // hours of a day: "9:00-21:30", several with commas, or "none"
	YesNo
	Choice
	Temperature // "180", "180C", "350F", "gas 4"
	AmountOption
	PartyOption
	PersonOption
	GuestOption
	CourseOption
	DishOption
	StepOption // "dish/step"
	TaskOption
	ReadyDishOption // a dish of the repertoire
	FileOption
	AddressOption // of a page on the web, up to 2000 characters on one line
)
