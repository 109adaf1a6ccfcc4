package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/recipe"
	"tureen/planner/safety"
	"tureen/planner/words"
)

var ingredientOptions = []talk.Option{
	{Name: "amount", Help: "how much, for the covers that the dish's amounts are for",
		Kind: talk.AmountOption, Example: "1.5 kg"},
	{Name: "note", Help: "how it is to be: ripe, at room temperature", Kind: talk.Text, Example: "ripe"},
	{Name: "step", Help: "the step that needs it first", Kind: talk.Text, Offers: talk.Steps, Example: "roll"},
	{Name: "shop", Help: "where it is bought", Kind: talk.Text, Offers: talk.Shops, Example: "greengrocer"},
	{Name: "section", Help: "where it stands in the shop", Kind: talk.Text, Example: "fruit"},
	{Name: "frozen", Help: "yes: bought or kept frozen, and to be thawed", Kind: talk.YesNo, Example: "yes"},
	{Name: "grams", Help: "weight of one frozen piece", Kind: talk.Whole, Max: safety.MaxThawGrams, Example: "800"},
	{Name: "have", Help: "yes: it is in the house, and need not be bought", Kind: talk.YesNo, Example: "yes"},
	{Name: "optional", Help: "yes: can be left out", Kind: talk.YesNo, Example: "yes"},
	{Name: "trimmed", Help: "yes: the amount is of what is ready to cook, already trimmed",
		Kind: talk.YesNo, Example: "yes"},
	{Name: "keep-days", Help: "days it keeps once bought; 0: as long as need be",
		Kind: talk.Whole, Max: 3650, Example: "4"},
	{Name: "food", Help: "what food it is for its limits, where its name does not tell; none keeps on the counter",
		Kind: talk.Choice, Choices: foodChoices, Example: "poultry"},
	{Name: "grows", Help: "how its amount grows with the covers; none: as its words suggest",
		Kind: talk.Choice, Choices: growsChoices, Example: "less"},
}

var growsText = map[planner.Grows]string{
	planner.InProportion: "grows in proportion", planner.InWholeOnes: "in whole ones",
	planner.LessThanThat: "grows less than in proportion",
}

var growsChoices = []string{string(planner.InProportion), string(planner.InWholeOnes), string(planner.LessThanThat),
	talk.Emptying}

var ingredientCommands = []command{
	{talk.Command{Name: "ingredient add", Help: "Add an ingredient to a dish",
		Access: talk.CoHosts, Menu: true, Example: "/ingredient add dish:pear-tart name:pears amount:1.5 kg shop:greengrocer",
		Options: append([]talk.Option{
			{Name: "dish", Help: "which dish", Kind: talk.DishOption, Required: true, Example: "pear-tart"},
			{Name: "name", Help: "what it is", Kind: talk.Text, Required: true, Example: "pears"},
		}, ingredientOptions...)}, ingredientAdd},
	{talk.Command{Name: "ingredient change", Help: "Change an ingredient",
		Access: talk.CoHosts, Menu: true, Example: "/ingredient change dish:pear-tart ingredient:pears amount:2 kg",
		Options: append([]talk.Option{
			{Name: "dish", Help: "which dish", Kind: talk.DishOption, Required: true, Example: "pear-tart"},
			{Name: "ingredient", Help: "which ingredient",
				Kind: talk.Text, Offers: talk.Ingredients, Required: true, Example: "pears"},
			{Name: "name", Help: "a new name", Kind: talk.Text, Example: "firm pears"},
		}, ingredientOptions...)}, ingredientChange},
	{talk.Command{Name: "ingredient remove", Help: "Remove an ingredient from a dish",
		Access: talk.CoHosts, Menu: true, Example: "/ingredient remove dish:pear-tart ingredient:pears",
		Options: []talk.Option{
			{Name: "dish", Help: "which dish", Kind: talk.DishOption, Required: true, Example: "pear-tart"},
			{Name: "ingredient", Help: "which ingredient",
				Kind: talk.Text, Offers: talk.Ingredients, Required: true, Example: "pears"},
		}}, ingredientRemove},
}

// maxIngredients keeps a dish readable.
const maxIngredients = 60

func ingredientLine(g *planner.Ingredient) string {
	return ingredientText(strings.TrimSpace(g.Amount+" "+nameFor(g.Name, g.Amount)), g)
}

// ingredientText is how much of what, with all that is known of it besides.
func ingredientText(line string, g *planner.Ingredient) string {
	for _, more := range []struct {
		is   bool
		text string
	}{
		{g.Note != "", g.Note}, {g.Step != "", "for " + string(g.Step)},
		{g.Frozen && g.Grams > 0, fmt.Sprintf("frozen, %d g a piece", g.Grams)},
		{g.Frozen && g.Grams == 0 && !strings.Contains(words.Fold(g.Name), "frozen"), "frozen"},
		{g.Shop != "", "from " + g.Shop}, {g.Section != "", g.Section}, {g.Have, "in the house"},
		{g.Optional, "may be left out"}, {g.Trimmed, "weighed trimmed"},
		{g.KeepDays > 0, "keeps " + words.Count(g.KeepDays, "day")},
		{g.Grows != planner.AsItsWordsTell, growsText[g.Grows]},
		{g.Kind == safety.None, "keeps on the counter"}, {g.Kind != safety.None && g.Kind != "", "taken as " +
			g.Kind.Label()},
	} {
		if more.is {
			line += ", " + more.text
		}
	}
	return line
}

func (t *Turn) setIngredient(d *planner.Dish, g *planner.Ingredient) error {
	for _, f := range []struct {
		name string
		to   *string
	}{{"amount", &g.Amount}, {"note", &g.Note}, {"shop", &g.Shop}, {"section", &g.Section}} {
		if t.has(f.name) {
			*f.to = t.emptyable(f.name)
		}
	}
	g.ShopUsual = g.ShopUsual && !t.has("shop")
	if t.has("step") {
		g.Step = ""
		if s := t.emptyable("step"); s != "" {
			k, err := findStepOf(d, s)
			if err != nil {
				return err
			}
			g.Step = k
		}
	}
	g.Frozen, g.Have, g.Optional = t.yes("frozen", g.Frozen), t.yes("have", g.Have), t.yes("optional", g.Optional)
	g.Trimmed = t.yes("trimmed", g.Trimmed)
	if t.has("grows") {
		if g.Grows = planner.Grows(t.choice("grows", "")); g.Grows == talk.Emptying {
			g.Grows = planner.AsItsWordsTell
		}
	}
	if t.has("food") {
		g.Kind = safety.Kind(t.choice("food", ""))
		if k, known := food.KindOf(g.Name); known && k != safety.None && g.Kind == safety.None {
			return talk.Refuse("", "%s is %s, which spoils out of the cold: its limits hold whatever is said. Leave food:none "+
				"out.",
				words.Upper(g.Name), k.Label())
		}
	}
	g.Grams, g.KeepDays = t.whole("grams", g.Grams), t.whole("keep-days", g.KeepDays)
	return nil
}

func ingredientAdd(_ context.Context, t *Turn) (talk.Reply, error) {
	d := t.Party.Dish(t.values["dish"].dish)
	g := planner.Ingredient{Name: t.text("name")}
	if buy, do, ok := recipe.Apart(g.Name); ok {
		return talk.Reply{}, talk.Refuse(fmt.Sprintf("/recipe read text:%q", d.Name+": "+g.Name),
			"This is an ingredient and "+
				"a method in one: add %q here, and %q with /step add; or have the whole read as a recipe.", talk.Shown(buy),
			talk.Shown(do))
	}
	if len(d.Ingredients) >= maxIngredients {
		return talk.Reply{}, talk.Refuse("", "%s has %d ingredients, and no more can be noted.", d.Name, maxIngredients)
	}
	if slices.ContainsFunc(d.Ingredients, func(o planner.Ingredient) bool {
		return words.Fold(o.Name) == words.Fold(g.Name)
	}) {
		return talk.Reply{}, talk.Refuse(fmt.Sprintf("/ingredient change dish:%s ingredient:%s amount:2 kg", d.Key, g.Name),
			"%s has %s already; change it, or say which of the two in the name.", d.Name, g.Name)
	}
	if err := t.setIngredient(d, &g); err != nil {
		return talk.Reply{}, err
	}
	d.Ingredients = append(d.Ingredients, g)
	t.did("added %s to %s", g.Name, d.Name)
	return talk.Reply{Text: fmt.Sprintf("%s: %s.", d.Name, ingredientLine(&g)), Aside: t.forGuestsOf(d, g.Name),
		Next: fmt.Sprintf("Next: /ingredient add dish:%s, or /dish show dish:%s", d.Key, d.Key)}, nil
}

func (t *Turn) findIngredient(d *planner.Dish) (*planner.Ingredient, error) {
	text := t.text("ingredient")
	g, all := pick(d.Ingredients, func(g *planner.Ingredient) []string { return []string{g.Name} }, text)
	if g == nil {
		return nil, talk.Refuse("/dish show dish:"+string(d.Key), "%s has no ingredient %q.%s", d.Name, talk.Shown(text),
			talk.DidYouMean(text, all))
	}
	return g, nil
}

func ingredientChange(_ context.Context, t *Turn) (talk.Reply, error) {
	d := t.Party.Dish(t.values["dish"].dish)
	g, err := t.findIngredient(d)
	if err != nil {
		return talk.Reply{}, err
	}
	before := *g
	if t.has("name") {
		g.Name = t.text("name")
		for i := range d.Ingredients {
			if o := &d.Ingredients[i]; o != g && words.Fold(o.Name) == words.Fold(g.Name) {
				return talk.Reply{}, talk.Refuse("", "%s has %s already.", d.Name, o.Name)
			}
		}
	}
	if err := t.setIngredient(d, g); err != nil {
		return talk.Reply{}, err
	}
	if *g == before {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to change about %s.", g.Name)
	}
	t.did("changed %s of %s", g.Name, d.Name)
	return talk.Reply{Text: fmt.Sprintf("%s: %s.", d.Name, ingredientLine(g)), Aside: t.forGuestsOf(d, g.Name),
		Next: "Next: /dish show dish:" + string(d.Key)}, nil
}

func ingredientRemove(_ context.Context, t *Turn) (talk.Reply, error) {
	d := t.Party.Dish(t.values["dish"].dish)
	g, err := t.findIngredient(d)
	if err != nil {
		return talk.Reply{}, err
	}
	name := g.Name
	d.Ingredients = slices.DeleteFunc(d.Ingredients, func(o planner.Ingredient) bool { return o.Name == name })
	t.did("removed %s from %s", name, d.Name)
	return talk.Reply{Text: fmt.Sprintf("%s needs no %s any more.", d.Name, strings.TrimSpace(name)),
		Next: "Next: /dish show dish:" + string(d.Key)}, nil
}
