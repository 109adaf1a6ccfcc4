package bot

import (
	"context"
	"fmt"
	"slices"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/portion"
	"tureen/planner/words"
)

var drinkKinds = []string{string(planner.White), string(planner.Sparkling), string(planner.Red), string(planner.Soft)}

var drinkCommands = []command{
	{talk.Command{Name: "drink add", Help: "Add what comes in bottles, or change how many",
		Access: talk.CoHosts, Example: "/drink add name:Vinho verde kind:white bottles:4",
		Options: []talk.Option{
			{Name: "name", Help: "what it is called", Kind: talk.Text, Required: true, Example: "Vinho verde"},
			{Name: "kind", Help: "what kind of drink it is",
				Kind: talk.Choice, Choices: drinkKinds, Required: true, Example: "white"},
			{Name: "bottles", Help: "how many", Kind: talk.Whole, Required: true, Min: 1, Max: planner.MaxCovers, Example: "4"},
		}}, drinkAdd},
	{talk.Command{Name: "drink remove", Help: "Remove a drink",
		Access: talk.CoHosts, Example: "/drink remove name:Vinho verde",
		Options: []talk.Option{{Name: "name", Help: "which drink", Kind: talk.Text, Required: true, Example: "Vinho verde"}}},
		drinkRemove},
	{talk.Command{Name: "drink list", Help: "The drinks, and how much handbooks suggest for the covers",
		Access: talk.Onlookers, Example: "/drink list"}, drinkList},
}

func drinkList(_ context.Context, t *Turn) (talk.Reply, error) {
	var lines []string
	bottles := 0
	for _, d := range t.Party.Drinks {
		lines = append(lines, fmt.Sprintf("%s of %s, %s", words.Count(d.Bottles, "bottle"), d.Name, d.Kind))
		bottles += d.Bottles
	}
	rep := talk.Reply{Text: fmt.Sprintf("%s for %s.", words.Count(bottles, "bottle"),
		words.Count(t.Party.Covers, "cover")), Next: "Next: " + t.nextStep()}
	if len(lines) == 0 {
		rep.Text = "No drinks are on the list yet."
		rep.Next = "Next: /drink add name:Vinho verde kind:white bottles:4"
	} else {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Drinks", Lines: lines})
	}
	if lines := portion.Drinks(t.Party); len(lines) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: fmt.Sprintf("For %s; you know who drinks what",
			words.Count(t.Party.Covers, "cover")), Lines: lines})
	}
	if text := portion.Bites(t.Party); text != "" {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Before or in place of a meal", Lines: []string{text}})
	}
	for _, w := range portion.DrinksWanted(t.Party) {
		if w.Name == "Wine" {
			rep.Buttons = append(rep.Buttons, t.button("Add: wine", "drink add", "name", w.Name, "kind", string(planner.Red),
				"bottles", w.Amount))
			continue
		}
		rep.Buttons = append(rep.Buttons, t.button("Add: "+w.Name, "shopping add", "item", w.Name, "amount", w.Amount))
	}
	return rep, nil
}

func drinkAdd(_ context.Context, t *Turn) (talk.Reply, error) {
	d := planner.Drink{Name: t.text("name"), Kind: planner.DrinkKind(t.choice("kind", "")), Bottles: t.whole("bottles", 1)}
	if r := []rune(d.Name); len(r) > planner.MaxName {
		return talk.Reply{}, talk.Refuse("", "Shorten the drink's name to %d characters; it has %d.", planner.MaxName, len(r))
	}
	i := slices.IndexFunc(t.Party.Drinks, func(o planner.Drink) bool { return words.Fold(o.Name) == words.Fold(d.Name) })
	if i < 0 {
		t.Party.Drinks = append(t.Party.Drinks, d)
	} else {
		t.Party.Drinks[i] = d
	}
	t.did("set %s to %s", d.Name, words.Count(d.Bottles, "bottle"))
	return talk.Reply{Text: fmt.Sprintf("%s of %s, %s.", words.Count(d.Bottles, "bottle"), d.Name, d.Kind),
		Next: "Next: " + t.nextStep()}, nil
}

func drinkRemove(_ context.Context, t *Turn) (talk.Reply, error) {
	name := t.text("name")
	d, all := pick(t.Party.Drinks, func(d *planner.Drink) []string { return []string{d.Name} }, name)
	if d == nil {
		return talk.Reply{}, talk.Refuse("/party show", "There is no drink %q.%s", talk.Shown(name),
			talk.DidYouMean(name, all))
	}
	name = d.Name
	t.Party.Drinks = slices.DeleteFunc(t.Party.Drinks, func(o planner.Drink) bool { return o.Name == name })
	t.did("removed %s", name)
	return talk.Reply{Text: name + " is off the list.", Next: "Next: " + t.nextStep()}, nil
}
