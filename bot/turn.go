package bot

import (
	"context"
	"fmt"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// Turn is one request on its way through a command: what was asked, by whom, about which party.
//
// A command that changes Party or Plan says so with did; then, and only then, the turn is saved once the
// command has returned without an error. When somebody else has changed the party meanwhile, the command
// runs again on the new one, so that it must do nothing outside the turn.
type Turn struct {
	Request talk.Request
	Now     time.Time
	Party   *planner.Party  // a copy of its own, for the command to change; nil for commands that need none
	Plan    *planner.Plan   // the plan in force; nil when there is none
	Me      *planner.Person // the asker among Party's people; nil when not one of them

	ctx       context.Context
	said      string // the community where it was said, when the party is another one's; see places.go
	bot       *Bot
	command   *talk.Command
	snapshot  store.Snapshot // as loaded
	makes     bool           // the plan is made because somebody asked for it
	many      bool           // it is done to several tasks at once
	saved     int64          // the revision that it has become
	values    map[string]value
	what      string            // the journal's sentence; empty: nothing has changed
	replan    bool              // the plan in force may be mended, or made anew, to fit the change
	notes     []string          // what became of the plan
	came      []string          // courses that came with what was put into them
	unsure    []planner.TaskKey // what nobody ticked off on a day that is over, where food safety hangs on it
	asIf      bool              // the plan goes on as if that was done: it cannot be planned again
	next      string            // what is likely next, now that the plan is out of date; empty: as the command says
	holds     bool              // the plan depends on what has changed, and still holds
	shopNotes []talk.Section    // what became of shopping that is done
	finish    func(*talk.Reply) // writes into the reply what is known only once the plan has been settled; may be nil
}

// did says, for the journal, what the command has changed: "added the dish Pear tart".
func (t *Turn) did(format string, args ...any) {
	t.what = talk.Clean(words.PlainStamps(fmt.Sprintf(format, args...)), false)
}

// community is whose data the turn may see.
func (t *Turn) community() store.Community { return store.Community(t.Request.Community) }

// actor is the asker, for the journal.
func (t *Turn) actor() store.Actor {
	return store.Actor{ID: t.Request.User.ID, Name: talk.Clean(t.Request.User.Name, false)}
}

// zone is the party's, or the bot's own where there is no party.
func (t *Turn) zone() *time.Location {
	if t.Party != nil {
		return t.Party.Location()
	}
	return t.bot.zone
}

// days is what today and weekdays mean in this turn.
func (t *Turn) days() talk.Days {
	d := talk.Days{Today: talk.DayOf(t.Now.In(t.zone()))}
	if t.Party != nil {
		d.Party = talk.DayOf(t.Party.Day())
	}
	return d
}

// clock, dayClock, day and full write instants for the reply.
func (t *Turn) clock(at time.Time) string { return words.Stamp(at, words.Clock, t.zone()) }
func (t *Turn) dayClock(at time.Time) string {
	if t.otherYear(at) {
		return t.full(at)
	}
	return words.Stamp(at, words.DayClock, t.zone())
}
func (t *Turn) day(at time.Time) string {
	if t.otherYear(at) {
		return words.StampAs(at, words.Date, at.In(t.zone()).Format("Mon 2 Jan 2006"))
	}
	return words.Stamp(at, words.Date, t.zone())
}

// otherYear reports whether an instant is in neither this year nor the next, so that its year has to be said.
func (t *Turn) otherYear(at time.Time) bool {
	ahead := at.In(t.zone()).Year() - t.Now.In(t.zone()).Year()
	return ahead < 0 || ahead > 1
}
func (t *Turn) full(at time.Time) string { return fullIn(at, t.zone()) }

// fullIn writes an instant with its day and year.
func fullIn(at time.Time, zone *time.Location) string {
	return words.StampAs(at, words.DayClock, at.In(zone).Format("Mon 2 Jan 2006, 15:04"))
}

// button makes a button that says a message: a command, then option names and values in turn. The party
// is named too, since whoever presses may have another one in mind.
func (t *Turn) button(label, command string, options ...string) talk.Button {
	var b strings.Builder
	b.WriteString(command)
	for i := 0; i+1 < len(options); i += 2 {
		fmt.Fprintf(&b, " %s:%s", options[i], options[i+1])
	}
	if t.Party != nil && t.Party.ID != 0 {
		if party := fmt.Sprintf(" party:%d", t.Party.ID); b.Len()+len(party) <= talk.MaxDo {
			b.WriteString(party)
		}
	}
	if r := []rune(label); len(r) > talk.MaxLabel {
		label = string(r[:talk.MaxLabel-1]) + "…"
	}
	return talk.Button{Label: label, Do: b.String()}
}
