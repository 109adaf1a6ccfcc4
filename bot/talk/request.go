package talk

import (
	"context"
	"time"

	"tureen/planner"
)

// Request is one message from a person, as a face understood it.
type Request struct {
	Community string // whose data may be seen: a Discord guild, or the local console
	Channel   string // where it was said, within the community
	Parent    string // the channel that Channel is a thread of; empty: it is none
	User      User
	Command   string            // "dish add"; one word or two, as in Commands
	Options   map[string]string // by option name, as typed; a face that knows a user id writes "@" and the id for a Person
	Narrow    bool              // the answer is read on a phone: tables are narrow
	Pictures  bool              // the face shows pictures where the answer stands
	Pressed   bool              // by a button, or said in words: the reply says how to take it back
	AsOf      int64             // the party's revision that it holds for; it is asked again at another. 0: at any
	InPlace   bool              // the answer takes the place of the message whose button was pressed
	// Places are, for what is said where no community is, the parties elsewhere that the user may speak of: the face
	// has seen that they are a member there.
	Places []Place
	// Open opens a thread where the message was said and answers its channel; asked again for the same message it
	// answers the same one. The error is a *[Refusal]. Nil: the face has no threads there.
	Open  func(ctx context.Context, name string) (channel string, err error)
	Files map[string]File // for options of kind FileOption
}

// Terminal is the community of the terminal's face. Its parties' reminders are printed there, and nowhere else.
const Terminal = "console"

// User is the person at the other end, as the face knows them.
type User struct {
	ID    string // stable, within the face
	Name  string // as shown
	Admin bool   // may administer the community
}

// File is an attachment, in either direction.
type File struct {
	Name string
	Type string // media type
	Data []byte
	Alt  string // what a picture shows, for those who cannot see it
}

// Place is a party that somebody is among the people of, wherever it is.
type Place struct {
	Community string
	Party     planner.PartyID
	Name      string
	Channel   string // the party's
	Arrival   time.Time
	Zone      string
	Covers    int
}

// Running reports whether a party is still to come, or under way.
func (p *Place) Running(now time.Time) bool { return now.Before(p.Arrival.Add(24 * time.Hour)) }

// Location is the zone that the party is in.
func (p *Place) Location() *time.Location {
	if zone, err := time.LoadLocation(p.Zone); err == nil {
		return zone
	}
	return time.UTC
}
