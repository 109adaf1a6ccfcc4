package propose

import "tureen/planner"

// Chores are the proposals themselves, before they are put into a party, from its first prep day on.
func Chores(p *planner.Party) []planner.Chore { return chores(p, p.Opens()) }
