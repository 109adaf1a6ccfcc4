package bot

import (
	"context"
	"fmt"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/shopping"
	"tureen/planner/words"
)

// What a shop does not have is bought in another form, or the dish is made without: one press.

var missingCommand = command{talk.Command{Name: "shopping missing", Help: "Say that a shop does not have an item",
	Access: talk.CoHosts, Menu: true, Example: "/shopping missing item:shallots",
	Options: []talk.Option{itemOption,
		{Name: "instead", Help: "what is bought in its place; none: its dishes are made without it", Kind: talk.Text,
			Example: "onions"}}}, shoppingMissing}

func shoppingMissing(_ context.Context, t *Turn) (talk.Reply, error) {
	l := t.theList()
	found, err := t.findThing(&l)
	if err != nil {
		return talk.Reply{}, err
	}
	line := found[0].line
	if line.Ticked || len(line.For) == 0 {
		return talk.Reply{}, talk.Refuse("/shopping list", "%s is not to be bought for any dish.", words.Upper(line.Name))
	}
	known := shopping.InsteadOf(line.Name)
	if !t.has("instead") {
		rep := talk.Reply{Text: fmt.Sprintf("No %s: %s.", line.Name, words.And(t.dishNames(line.For))),
			Next: "Next: /shopping missing item:" + buttonThing(line) + " instead:… for something else"}
		sec := talk.Section{Title: "Instead"}
		for _, s := range known {
			sec.Lines = append(sec.Lines, s.Use+": "+s.How)
			rep.Buttons = append(rep.Buttons, t.button("Take "+s.Use, "shopping missing", "item", buttonThing(line),
				"instead", s.Use))
		}
		if len(known) > 0 {
			rep.Sections = []talk.Section{sec}
		}
		rep.Buttons = append(rep.Buttons, t.button("Without it", "shopping missing", "item", buttonThing(line), "instead",
			talk.Emptying))
		return rep, nil
	}
	use := shopping.Instead{Use: t.emptyable("instead")}
	for _, s := range known {
		if planner.ItemOf(s.Use, false) == planner.ItemOf(use.Use, false) {
			use = s
		}
	}
	dishes := words.And(shopping.Swap(t.Party, line.Item, use))
	if dishes == "" {
		return talk.Reply{}, talk.Refuse("/ingredient change", "%s goes by another name in its dishes; change it there.",
			words.Upper(line.Name))
	}
	if use.Use == "" {
		t.did("left %s out", line.Name)
		return talk.Reply{Text: fmt.Sprintf("%s: without %s.", dishes, line.Name), Next: "Next: /shopping list"}, nil
	}
	t.did("takes %s instead of %s", use.Use, line.Name)
	how := ""
	if use.How != "" {
		how = " (" + use.How + ")"
	}
	return talk.Reply{Text: fmt.Sprintf("%s: %s instead of %s%s.", dishes, use.Use, line.Name, how) +
		t.stillToBuy(planner.ItemOf(use.Use, false)), Next: "Next: /shopping list"}, nil
}

func (t *Turn) dishNames(keys []planner.DishKey) (out []string) {
	for _, k := range keys {
		if d := t.Party.Dish(k); d != nil {
			out = append(out, d.Name)
		}
	}
	return out
}
