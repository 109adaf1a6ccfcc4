package bot

import (
	"slices"
	"strings"
	"testing"

	"tureen/bot/talk"
)

// TestCommandsStateTheirRules: what holds of a command stands in its definition, and what must follow from what it
// does is not forgotten there.
func TestCommandsStateTheirRules(t *testing.T) {
	all, _ := allCommands()
	for i := range all {
		c := &all[i]
		party := c.Access != talk.Anyone
		must := func(what string, has, want bool) {
			t.Helper()
			if has != want {
				t.Errorf("/%s: %s is %v, want %v", c.Name, what, has, want)
			}
		}
		_, verb, _ := strings.Cut(c.Name, " ")
		looks := verb == "list" || verb == "show"
		if looks && c.Name != "remind list" { // which is for those who are reminded, and too short for pages
			must("only looks", c.OnlyLooks(), true)
		}
		must("needs a party and may be asked again", c.Looks && party, false) // Lookers says it already
		must("is only a look and has to do with the menu", c.OnlyLooks() && c.Menu, false)
		must("is only a look and ends a task", c.OnlyLooks() && c.Shopped, false)
		must("tells what was taken as done", c.TellsDone, c.Group() == "plan" || c.Group() == "task")
		must("may leave the menu lacking", c.MayLack, c.Group() == "kitchen" && !c.OnlyLooks())
		must("is for the asker alone", c.Private, c.Group() == "guest" && c.Name != "guest remove")
		adds := slices.Contains([]string{"dish", "step", "ingredient", "guest"}, c.Group()) &&
			(verb == "add" || verb == "change")
		if adds {
			must("may spoil the menu", c.Menu, true)
		}
		for _, o := range c.Options {
			if o.Offers != talk.Nothing && o.Kind != talk.Text {
				t.Errorf("/%s %s: offers names, and its kind has its own", c.Name, o.Name)
			}
			if (o.Free || o.Many) && o.Kind != talk.TaskOption || o.Ahead && o.Kind != talk.DateOption {
				t.Errorf("/%s %s: has a rule that is for another kind", c.Name, o.Name)
			}
		}
	}
}

// TestOffersAreMade: whatever a text is said to offer, something is offered at a party that has some of it.
func TestOffersAreMade(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/ingredient add dish:pumpkin-soup name:butter amount:20 g shop:market", "/kitchen fittings home:yes",
		"/people change who:Ben skills:carving")
	party := tb.party().Party
	turn := &Turn{Party: &party, bot: tb.Bot}
	all, _ := allCommands()
	made := map[talk.Offer]bool{}
	for _, c := range all {
		for _, o := range c.Options {
			if o.Offers == talk.Nothing || made[o.Offers] {
				continue
			}
			made[o.Offers] = true
			var got int
			switch o.Offers {
			case talk.Commands:
				got = len((&Turn{bot: tb.Bot}).offeredCommands())
			case talk.Zones:
				got = len(zoneSuggestions("lis"))
			default:
				got = len(turn.namesFor(o.Offers))
			}
			if got == 0 {
				t.Errorf("/%s %s: nothing is offered", c.Name, o.Name)
			}
		}
	}
	for o := talk.Commands; o <= talk.Items; o++ {
		if !made[o] {
			t.Errorf("no option offers %d", o)
		}
	}
}
