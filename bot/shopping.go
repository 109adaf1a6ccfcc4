package bot

import (
	"context"
	"fmt"

	"tureen/bot/talk"
	"tureen/planner/shopping"
)

var thingOption = talk.Option{Name: "thing", Help: "which thing on the list", Kind: talk.Text, Offers: talk.Things, Required: true, Example: "butter"}

var shoppingCommands = []command{
	{talk.Command{Name: "shopping list", Help: "What to buy, shop by shop, with the days between which to buy it",
		Access: talk.Onlookers, Example: "/shopping list",
		Options: []talk.Option{{Name: "shop", Help: "only this shop", Kind: talk.Text, Offers: talk.Shops, Example: "supermarket"}}}, shoppingList},
	{talk.Command{Name: "shopping tick", Help: "Say that a thing is bought",
		Access: talk.CoHosts, Example: "/shopping tick thing:butter",
		Options: []talk.Option{thingOption,
			{Name: "amount", Help: "how much, if not all of it", Kind: talk.AmountOption, Example: "250 g"},
			{Name: "shop", Help: "with thing:everything: what is left at this shop",
				Kind: talk.Text, Offers: talk.Shops, Example: "supermarket"},
			{Name: "paid", Help: "what it cost in all", Kind: talk.Text, Example: "2.49"}}}, shoppingTick},
	{talk.Command{Name: "shopping untick", Help: "Say that a thing is not bought after all",
		Access: talk.CoHosts, Example: "/shopping untick thing:butter",
		Options: []talk.Option{thingOption}}, shoppingUntick},
	{talk.Command{Name: "shopping bring", Help: "Bring a thing yourself, so that it is on no trip",
		Access: talk.CoHosts, Example: "/shopping bring thing:Vinho verde",
		Options: []talk.Option{thingOption,
			{Name: "who", Help: "who brings it, if not you", Kind: talk.PersonOption, Example: "Ben"},
			{Name: "remove", Help: "yes: it is to be bought again", Kind: talk.YesNo, Example: "yes"}}}, shoppingBring},
	{talk.Command{Name: "shopping house", Help: "Say what of a thing is in the house already",
		Access: talk.CoHosts, Example: "/shopping house thing:butter amount:200 g",
		Options: []talk.Option{thingOption,
			{Name: "amount", Help: "how much is there; none: nothing; left away: enough",
				Kind: talk.Text, Example: "200 g"}}}, shoppingHouse},
	{talk.Command{Name: "shopping sold", Help: "Say in which packages a thing is sold, what it costs, and where",
		Access: talk.CoHosts, Example: "/shopping sold thing:butter size:250 g price:2.49",
		Options: []talk.Option{thingOption,
			{Name: "size", Help: "what is in a package; say it again for another size; none: loose",
				Kind: talk.Text, Example: "250 g"},
			{Name: "price", Help: "what a package costs, or so much as per says; none: not known",
				Kind: talk.Text, Example: "2.49"},
			{Name: "per", Help: "what the price is for, where it is sold loose", Kind: talk.Text, Example: "kg"},
			{Name: "currency", Help: "how the party writes prices, or none", Kind: talk.Text, Example: "€"},
			{Name: "shop", Help: "where it is bought, or none", Kind: talk.Text, Offers: talk.Shops, Example: "greengrocer"},
			{Name: "section", Help: "where it stands in the shop, or none", Kind: talk.Text, Example: "fruit"}}}, shoppingSold},
	{talk.Command{Name: "shopping add", Help: "Put a thing on the list that is for no dish",
		Access: talk.CoHosts, Example: "/shopping add thing:candles amount:12",
		Options: []talk.Option{{Name: "thing", Help: "what it is", Kind: talk.Text, Offers: talk.Things, Required: true, Example: "candles"},
			{Name: "amount", Help: "how much", Kind: talk.AmountOption, Example: "12"},
			{Name: "shop", Help: "where it is bought", Kind: talk.Text, Offers: talk.Shops, Example: "greengrocer"},
			{Name: "section", Help: "where it stands in the shop", Kind: talk.Text, Example: "fruit"}}}, shoppingAdd},
	{talk.Command{Name: "shopping remove", Help: "Take a thing off the list that is for no dish",
		Access: talk.CoHosts, Example: "/shopping remove thing:candles",
		Options: []talk.Option{thingOption}}, shoppingRemove},
}

func shoppingList(_ context.Context, t *Turn) (talk.Reply, error) {
	l := t.theList()
	return t.shoppingCard(&l, t.text("shop"))
}

// theList is the list as it is with all trips settled, also those of a party that was stored before purchases were
// noted and has not been changed since.
func (t *Turn) theList() shopping.List {
	shopping.Settle(t.Party, "")
	return shopping.Of(t.Party, t.Plan)
}

// shoppingCard is the list, or what of it is bought at one shop, with a button for each thing.
func (t *Turn) shoppingCard(l *shopping.List, shop string) (talk.Reply, error) {
	c := card{t: t, only: shop, several: shop == "" && len(l.Trips) > 1}
	for i := range l.Trips {
		c.trip(&l.Trips[i])
	}
	if shop != "" && c.shown == 0 {
		return talk.Reply{}, talk.Refuse("/shopping list", "Nothing is bought at %q.%s", talk.Shown(shop), talk.DidYouMean(shop, c.shops))
	}
	if shop == "" {
		c.rest(l)
	}
	rep := c.rep
	rep.Text = fmt.Sprintf("%s to buy, for %s", count(c.open, "thing is", "things are"), count(t.Party.Covers, "cover", "covers"))
	if c.ticked > 0 {
		rep.Text += fmt.Sprintf("; %s bought", count(c.ticked, "is", "are"))
	}
	rep.Text += "."
	switch {
	case c.open == 0 && c.ticked == 0 && len(rep.Sections) == 0:
		rep.Text, rep.Next = "There is nothing to buy.", "Next: "+t.nextStep()
		return rep, nil
	case c.open == 0:
		rep.Text = "Nothing is left to buy."
		rep.Next = "Next: " + t.nextStep()
	case t.Plan == nil:
		rep.Next = "Next: /plan make, then each thing has its days"
	case c.missing != "":
		rep.Next = "Next: /plan make puts " + c.missing + " into the plan"
	case shop == "" && c.several:
		rep.Next = "Next: /shopping list shop:" + c.shops[0] + " to tick things off, /task claim for who goes"
	default:
		rep.Next = "Next: /shopping tick for what you have, /task claim for who goes, /task done when all of it is bought"
	}
	rep.Sections = append(rep.Sections, c.foot()...)
	rep.Again = t.button("", "shopping list", c.again()...).Do
	return rep, nil
}
