package bot

import (
	"context"
	"fmt"
	"slices"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/portion"
	"tureen/planner/shopping"
	"tureen/planner/words"
)

var itemOption = talk.Option{Name: "item", Help: "which item on the list", Kind: talk.Text, Offers: talk.Items,
	Required: true, Example: "butter"}

var shoppingCommands = []command{
	{talk.Command{Name: "shopping list", Help: "What to buy, shop by shop, with the days between which to buy it",
		Access: talk.Onlookers, Example: "/shopping list",
		Options: []talk.Option{{Name: "shop", Help: "only this shop", Kind: talk.Text, Offers: talk.Shops,
			Example: "supermarket"},
			{Name: "plain", Help: "yes: as plain text to paste", Kind: talk.YesNo, Example: "yes"}}}, shoppingList},
	{talk.Command{Name: "shopping tick", Help: "Say that an item is bought",
		Access: talk.CoHosts, Example: "/shopping tick item:butter",
		Options: []talk.Option{itemOption,
			{Name: "amount", Help: "how much, if not all of it", Kind: talk.AmountOption, Example: "250 g"},
			{Name: "shop", Help: "with item:everything: what is left at this shop",
				Kind: talk.Text, Offers: talk.Shops, Example: "supermarket"},
			{Name: "paid", Help: "what it cost in all", Kind: talk.Text, Example: "2.49"}}}, shoppingTick},
	{talk.Command{Name: "shopping untick", Help: "Say that an item is not bought after all",
		Access: talk.CoHosts, Example: "/shopping untick item:butter",
		Options: []talk.Option{itemOption}}, shoppingUntick},
	{talk.Command{Name: "shopping bring", Help: "Bring an item yourself, so that nobody need buy it",
		Access: talk.CoHosts, Example: "/shopping bring item:Vinho verde",
		Options: []talk.Option{itemOption,
			{Name: "who", Help: "who brings it, if not you", Kind: talk.PersonOption, Example: "Ben"},
			{Name: "remove", Help: "yes: it is to be bought again", Kind: talk.YesNo, Example: "yes"}}}, shoppingBring},
	{talk.Command{Name: "shopping have", Help: "Say how much of an item you have already",
		Access: talk.CoHosts, Example: "/shopping have item:butter amount:200 g",
		Options: []talk.Option{itemOption,
			{Name: "amount", Help: "how much there is; none: nothing; enough by default",
				Kind: talk.Text, Example: "200 g"}}}, shoppingHouse},
	{talk.Command{Name: "shopping packs", Help: "Say in what packs an item is sold, what it costs, and where",
		Access: talk.CoHosts, Example: "/shopping packs item:butter size:250 g price:2.49",
		Options: []talk.Option{itemOption,
			{Name: "size", Help: "what is in a pack; say it again for another size; none: loose",
				Kind: talk.Text, Example: "250 g"},
			{Name: "price", Help: "what a pack costs, or what per: says, loose; none: not known",
				Kind: talk.Text, Example: "2.49"},
			{Name: "per", Help: "what the price is for, where it is sold loose", Kind: talk.Text, Example: "kg"},
			{Name: "currency", Help: "how the party writes prices, or none", Kind: talk.Text, Example: "€"},
			{Name: "shop", Help: "where it is bought, or none", Kind: talk.Text, Offers: talk.Shops, Example: "greengrocer"},
			{Name: "section", Help: "where it stands in the shop, or none", Kind: talk.Text, Example: "fruit"}}}, shoppingSold},
	{talk.Command{Name: "shopping add", Help: "Put an item on the list that is for no dish",
		Access: talk.CoHosts, Example: "/shopping add item:candles amount:12",
		Options: []talk.Option{{Name: "item", Help: "what it is", Kind: talk.Text, Offers: talk.Items, Required: true,
			Example: "candles"},
			{Name: "amount", Help: "how much", Kind: talk.AmountOption, Example: "12"},
			{Name: "shop", Help: "where it is bought", Kind: talk.Text, Offers: talk.Shops, Example: "greengrocer"},
			{Name: "section", Help: "where it stands in the shop", Kind: talk.Text, Example: "fruit"}}}, shoppingAdd},
	{talk.Command{Name: "shopping remove", Help: "Take an item off the list that is for no dish",
		Access: talk.CoHosts, Example: "/shopping remove item:candles",
		Options: []talk.Option{itemOption}}, shoppingRemove},
}

func shoppingList(_ context.Context, t *Turn) (talk.Reply, error) {
	l := t.theList()
	if t.yes("plain", false) {
		return plainList(&l, t.text("shop")), nil
	}
	rep, err := t.shoppingCard(&l, t.text("shop"))
	if err == nil && !t.has("shop") {
		t.askCupboard(&rep)
	}
	return rep, err
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
		return talk.Reply{}, talk.Refuse("/shopping list", "Nothing is bought at %q.%s", talk.Shown(shop),
			talk.DidYouMean(shop, c.shops))
	}
	if shop == "" {
		c.rest(l)
	}
	rep := c.rep
	rep.Text = fmt.Sprintf("%s to buy, for %s", words.CountAs(c.open, "item is", "items are"),
		words.Count(t.Party.Covers, "cover"))
	if c.ticked > 0 {
		rep.Text += fmt.Sprintf("; %s bought", words.CountAs(c.ticked, "is", "are"))
	}
	rep.Text += "."
	switch {
	case c.open == 0 && c.ticked == 0 && len(rep.Sections) == 0:
		rep.Text, rep.Next = "There is nothing to buy.", "Next: "+t.nextStep()
		if shop == "" {
			rep.Sections = t.notListed()
		}
		return rep, nil
	case c.open == 0:
		rep.Text = "Nothing is left to buy."
		rep.Next = "Next: " + t.nextStep()
	case t.Plan == nil:
		rep.Next = "Next: /plan make, then each item has its days"
	case c.missing != "":
		rep.Next = "Next: /plan make puts " + c.missing + " into the plan"
	case shop == "" && c.several:
		rep.Next = "Next: /shopping list shop:" + c.shops[0] + " to tick items off, /task claim for who goes"
	default:
		rep.Next = "Next: /shopping tick for what you have, /shopping missing for what is not there, /task claim for who " +
			"goes, /task done when all of it is bought"
	}
	rep.Sections = append(rep.Sections, c.foot()...)
	if shop == "" {
		rep.Sections = append(rep.Sections, t.notListed()...)
	}
	rep.Again = t.button("", "shopping list", c.again()...).Do
	return rep, nil
}

// notListed says of which dishes nothing is on the list, since nobody has said what goes into them.
func (t *Turn) notListed() []talk.Section {
	var lines []string
	for i := range t.Party.Dishes {
		d := &t.Party.Dishes[i]
		if len(d.Ingredients) > 0 || len(d.Steps) == 0 || d.BroughtBy != "" {
			continue
		}
		if at := slices.IndexFunc(d.Steps, func(s planner.Step) bool { return s.Away }); at >= 0 {
			lines = append(lines, fmt.Sprintf("%s is bought ready, and what is in it is not known: %s (%s/%s)", d.Name,
				words.Lower(d.Steps[at].Do), d.Key, d.Steps[at].Key))
			continue
		}
		lines = append(lines, fmt.Sprintf("%s: what goes into it is not known; /ingredient add dish:%s name:… amount:…",
			d.Name, d.Key))
	}
	var drinks []string
	for _, w := range portion.DrinksWanted(t.Party) {
		drinks = append(drinks, w.Text)
	}
	if len(drinks) > 0 {
		lines = append(lines, fmt.Sprintf("To drink: handbooks reckon %s for %s; /drink list says whose, and adds them",
			words.And(drinks), words.Count(t.Party.Covers, "cover")))
	}
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: "Not on this list", Lines: lines}}
}
