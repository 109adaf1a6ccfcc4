package talk

import (
	"slices"
	"strings"
)

// Command is one thing a person can ask for. The list of commands is the single definition that the
// terminal's grammar, Discord's slash commands and the help are made from.
type Command struct {
	Name    string // "undo", or a group and a verb: "dish add"
	Help    string // one line, at most 100 characters, no full stop
	Options []Option
	Example string // a whole message that works: "/dish add name:Pear tart course:dessert serves:8"
	Access  Access
	Slow    bool // plans, and so may take longer than a face may keep its user waiting
	Private bool // every answer is for the asker's eyes only; never told in the channel

	Looks     bool // changes nothing, though it is for [Anyone]; see OnlyLooks
	Menu      bool // the menu may not come out after it: the reply says where, and who is left without
	MayLack   bool // says what is there: what the menu lacks then is for the next plan to say, and no reason to refuse
	Shopped   bool // its task is over; where that was a trip to a shop, what was to be got there is settled
	TellsDone bool // says, even where it changes nothing, what was taken as done since nobody ticked it off
}

// OnlyLooks reports whether a command changes nothing, so that it may be asked any number of times, page by page.
func (c *Command) OnlyLooks() bool { return c.Looks || c.Access == Onlookers }

// Group is the command's first word.
func (c *Command) Group() string {
	g, _, _ := strings.Cut(c.Name, " ")
	return g
}

// Access says who may use a command.
type Access int

// Who may use a command.
const (
	Anyone    Access = iota // whoever is in the channel; no party is needed
	Onlookers               // the party's people, onlookers included; such a command changes nothing
	CoHosts                 // hosts and co-hosts
	Hosts                   // hosts only
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
	Free     bool     // for TaskOption: only what nobody has taken on yet is offered
	Many     bool     // for TaskOption: a session, a dish or a course stands for all its tasks
	Comes    bool     // for CourseOption: one of a usual name that is not there yet comes with what is put into it
	Offers   Offer    // for Text: what is offered while it is typed
}

// Completed reports whether an option's text is completed as it is typed. What is offered is an offer: anything
// else may be typed too.
func (o *Option) Completed() bool {
	switch o.Kind {
	case Text:
		return o.Offers != Nothing
	case LongText, Whole, Length, HoursOption, YesNo, Temperature, AmountOption, FileOption:
		return false
	}
	return true
}

// Offer says which names a text most likely has.
type Offer int

// The names that are offered.
const (
	Nothing Offer = iota
	Commands
	Zones
	Vessels
	Appliances
	Plates
	Equipment // all that a step may need: places at the stove, vessels, appliances, what keeps food hot
	People
	PeopleOrAll // people, or everybody
	Skills
	Steps    // of the dish that the message names; without one, of all, as "dish/step"
	AllSteps // of all dishes, as "dish/step"
	Ingredients
	Shops
	Items // on the shopping list
)

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

// Find finds the command that is asked for and sees that it has the options given.
func Find(commands []Command, req Request) (*Command, error) {
	i := slices.IndexFunc(commands, func(c Command) bool { return c.Name == req.Command })
	if i < 0 {
		words := strings.Fields(req.Command)
		if len(words) == 0 {
			words = []string{"?"}
		}
		return nil, UnknownCommand(commands, words)
	}
	cmd := &commands[i]
	for _, name := range given(req) {
		if !slices.ContainsFunc(cmd.Options, func(o Option) bool { return o.Name == name }) {
			return nil, unknownOption(cmd, name)
		}
	}
	return cmd, nil
}

// given lists the names of the options of a request, sorted.
func given(req Request) []string {
	var names []string
	for n := range req.Options {
		names = append(names, n)
	}
	for n := range req.Files {
		names = append(names, n)
	}
	slices.Sort(names)
	return names
}
