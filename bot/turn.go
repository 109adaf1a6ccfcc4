package bot

import (
	"time"

	"tureen/planner"
)

// Turn is one request on its way through a command: what was asked, by whom, about which party.
type Turn struct {
	Request Request
	Now     time.Time
	Party   *planner.Party  // a copy of its own, for the command to change; nil for commands that need none
	Plan    *planner.Plan   // the plan in force; nil when there is none
	Me      *planner.Person // the asker among Party's people; nil when not one of them
}
