package bot

import (
	"context"
	"fmt"
	"slices"

	"tureen/bot/talk"
)

// command is a command as all know it, and what it does.
type command struct {
	talk.Command
	run runner
}

// runner does what a command asks for.
type runner func(context.Context, *Turn) (talk.Reply, error)

// allCommands puts the groups' slices together and gives each command that needs a party the option to
// name it. Help lists the groups in this order. runs has what they do, by name.
func allCommands() (all []talk.Command, runs map[string]runner) {
	runs = map[string]runner{}
	for _, part := range [][]command{
		partyCommands, homeCommands, recoverCommands, courseCommands, guestCommands, peopleCommands, kitchenCommands,
		dishCommands, cautionCommands, repertoireCommands, recipeCommands, stepCommands, stepWaitCommands,
		stepUseCommands, coolCommands,
		ingredientCommands, drinkCommands,
		planCommands, tellCommands, chanceCommands, taskCommands, choreCommands, reminderCommands, lookCommands, lateCommands,
		shoppingCommands, {missingCommand}, journalCommands,
		helpCommands,
	} {
		for _, c := range part {
			c.Options = slices.Clone(c.Options)
			if c.Access != talk.Anyone && !slices.ContainsFunc(c.Options, func(o talk.Option) bool {
				return o.Kind == talk.PartyOption
			}) {
				c.Options = append(c.Options, partyOption)
			}
			if runs[c.Name] != nil {
				panic(fmt.Sprintf("two commands are called %q", c.Name))
			}
			all, runs[c.Name] = append(all, c.Command), c.run
		}
	}
	slices.SortStableFunc(all, func(a, b talk.Command) int { return groupRank(all, a) - groupRank(all, b) })
	return all, runs
}

func groupRank(all []talk.Command, c talk.Command) int {
	return slices.IndexFunc(all, func(o talk.Command) bool { return o.Group() == c.Group() })
}
