package bot

import (
	"fmt"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/propose"
	"tureen/planner/shopping"
	"tureen/planner/words"
)

// settleShopping notes what was bought on trips that are done, and says so.
func (t *Turn) settleShopping() {
	var told planner.TaskKey
	if t.command.Shopped {
		told = t.values["task"].task
	}
	for _, s := range shopping.Settle(t.Party, told) {
		var lines []string
		names := func(all []shopping.Line) string {
			var out []string
			for i := range all {
				if i == mostNamed {
					out = append(out, fmt.Sprintf("%d more", len(all)-i))
					break
				}
				out = append(out, all[i].Name)
			}
			return words.And(out)
		}
		switch {
		case len(s.Left) > 0:
			lines = append(lines, fmt.Sprintf("Not ticked off, and so still to be bought: %s", names(s.Left)),
				"If you have it, /shopping tick says so; else /plan make plans another trip")
		case len(s.Taken) == 0 || !s.Ticked && told != planner.ChoreTask(s.Chore):
			// What is taken as done in passing needs no words of its own, where nobody ticks things off.
		case s.Ticked:
			lines = append(lines, fmt.Sprintf("Not ticked off, and taken as bought all the same: %s", names(s.Taken)),
				untickLine(s.Taken))
		default:
			lines = append(lines, fmt.Sprintf("Nothing was ticked off, so all of it is taken as bought: %s", names(s.Taken)),
				untickLine(s.Taken))
		}
		if len(lines) > 0 {
			t.shopNotes = append(t.shopNotes, talk.Section{Title: strings.TrimSuffix(talk.Sentence(shopName(s.Shop)), ".") +
				": what is bought", Lines: lines})
		}
	}
}

func untickLine(taken []shopping.Line) string {
	return fmt.Sprintf("What you did not get goes back on the list with /shopping untick item:%s", taken[0].Item)
}

// mostNamed is how many things a sentence names.
const mostNamed = 6

// shoppingNews says what the change means for whoever has bought something, or is at the shop.
func (t *Turn) shoppingNews() []talk.Section {
	all := t.shopNotes
	var lines []string
	for _, c := range shopping.News(&t.snapshot.Party, t.Party) {
		lines = append(lines, t.newsLine(&c))
	}
	if len(lines) > 0 {
		all = append(all, talk.Section{Title: "For who has been shopping",
			Lines: firstLines(lines, 8, "/shopping list has all of it")})
	}
	return all
}

func (t *Turn) newsLine(c *shopping.Change) string {
	who := "somebody"
	if c.By != "" {
		who = t.personName(c.By)
	}
	thing := c.Name
	shop := shopName(c.Shop)
	at := fmt.Sprintf("%s is at the %s now", who, shop)
	if c.Shop == "" {
		at = who + " is shopping now"
	}
	switch {
	case c.What == shopping.NoLonger:
		return fmt.Sprintf("No longer needed: %s has bought %s, and nothing wants it any more", who, c.Has)
	case c.What == shopping.Enough:
		return fmt.Sprintf("Enough: %s has bought %s; %s wanted now", who, c.Has, orSome(c.Wants))
	case c.What == shopping.More && c.Going:
		return fmt.Sprintf("More: %s%s; %s", space(c.Wants), thing, at)
	case c.What == shopping.More:
		return fmt.Sprintf("More: %s has bought %s; %s more %s needed now", who, c.Has, c.Wants, isOrAre(c.Wants))
	case c.Going && c.Was != "":
		return fmt.Sprintf("Changed: %s%s, not %s; %s", space(c.Wants), thing, c.Was, at)
	case c.Going:
		return fmt.Sprintf("New: %s%s; %s", space(c.Wants), thing, at)
	}
	return fmt.Sprintf("New: %s%s; the trip to the %s is over, so it goes on another one", space(c.Wants), thing, shop)
}

func space(s string) string {
	if s == "" {
		return ""
	}
	return s + " "
}

func orSome(amount string) string {
	if amount == "" {
		return "some is"
	}
	return amount + " " + isOrAre(amount)
}

// needsTrip reports whether something is to be bought for which the party has no task to go and buy it.
func (t *Turn) needsTrip() bool {
	for _, trip := range propose.ToBuy(t.Party).Trips {
		if t.Party.Chore(trip.Chore) == nil {
			return true
		}
	}
	return false
}
