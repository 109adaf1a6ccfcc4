package bot

import (
	"fmt"
	"slices"
	"strings"
)

// allCommands puts the groups' slices together and gives each command that needs a party the option to
// name it. Help lists the groups in this order.
func allCommands() []Command {
	var all []Command
	for _, part := range [][]Command{
		partyCommands, homeCommands, recoverCommands, courseCommands, guestCommands, peopleCommands, kitchenCommands,
		dishCommands, repertoireCommands, recipeCommands, stepCommands, stepWaitCommands, stepUseCommands, chillCommands, ingredientCommands, drinkCommands,
		planCommands, chanceCommands, taskCommands, choreCommands, reminderCommands, lookCommands, lateCommands, shoppingCommands, journalCommands,
		helpCommands,
	} {
		for _, c := range part {
			c.Options = slices.Clone(c.Options)
			if c.Access != Anyone && !slices.ContainsFunc(c.Options, func(o Option) bool { return o.Kind == PartyOption }) {
				c.Options = append(c.Options, partyOption)
			}
			if slices.ContainsFunc(all, func(o Command) bool { return o.Name == c.Name }) {
				panic(fmt.Sprintf("two commands are called %q", c.Name))
			}
			all = append(all, c)
		}
	}
	slices.SortStableFunc(all, func(a, b Command) int { return groupRank(all, a) - groupRank(all, b) })
	return all
}

// group is a command's first word.
func (c *Command) group() string {
	g, _, _ := strings.Cut(c.Name, " ")
	return g
}

func groupRank(all []Command, c Command) int {
	return slices.IndexFunc(all, func(o Command) bool { return o.group() == c.group() })
}
