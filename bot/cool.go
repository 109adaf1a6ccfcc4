package bot

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/cooling"
	"tureen/planner/measure"
	"tureen/planner/propose"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// The ways of cooling as they are typed, with what each is.
const (
	iceBath      = "ice bath"
	coldWater    = "cold water"
	shallowTrays = string(planner.CoolTrays)
	portions     = string(planner.CoolPortions)
	sliced       = string(planner.CoolSliced)
	inPieces     = string(planner.CoolPieces)
	asItIs       = string(planner.CoolAsItIs)

	iceIngredient = "ice"
)

// coolWays are what the ways mean, with the depth that is taken where nobody says one.
var coolWays = map[string]planner.Cooling{
	iceBath:      {How: planner.CoolBath, Place: safety.PlaceStirredIce, DepthCM: 2.5},
	coldWater:    {How: planner.CoolBath, Place: safety.PlaceTapWater, DepthCM: 2.5},
	shallowTrays: {How: planner.CoolTrays, Place: safety.PlaceRefrigerator, DepthCM: 1.5},
	portions:     {How: planner.CoolPortions, Place: safety.PlaceRefrigerator, DepthCM: 4},
	sliced:       {How: planner.CoolSliced, Place: safety.PlaceRefrigerator, DepthCM: 1.5},
	inPieces:     {How: planner.CoolPieces, Place: safety.PlaceRefrigerator},
	asItIs:       {How: planner.CoolAsItIs, Place: safety.PlaceRefrigerator, DepthCM: 5},
}

var (
	coolHows      = []string{shallowTrays, portions, coldWater, iceBath, sliced, inPieces, asItIs}
	consistencies = []string{string(safety.Thick), string(safety.Thin)}
	materials     = []string{string(safety.Metal), string(safety.Glass), string(safety.Plastic)}
)

var coolCommands = []command{
	{talk.Command{Name: "dish cool", Help: "How cooked food goes cold: tureen says it by itself, and here you change it",
		Access: talk.CoHosts, Menu: true,
		Example: "/dish cool step:pear-tart/bake how:shallow trays holds:2.5 l",
		Options: []talk.Option{
			stepOption,
			{Name: "how", Help: "shallow, divided, in water for a while, or cut up",
				Kind: talk.Choice, Choices: coolHows, Example: shallowTrays},
			{Name: "holds", Help: "how much there is, for the covers that the amounts are for",
				Kind: talk.Text, Example: "2.5 l"},
			{Name: "depth", Help: "how deep it stands or how thick it is, in centimetres",
				Kind: talk.Whole, Min: 1, Max: 60, Example: "3"},
			{Name: "weight", Help: "what the largest piece of meat weighs", Kind: talk.Text, Example: "1500 g"},
			{Name: "consistency", Help: "thick: stew, purée, rice; thin: stock, clear soup",
				Kind: talk.Choice, Choices: consistencies, Example: "thick"},
			{Name: "made-of", Help: "what the pot or tray is made of",
				Kind: talk.Choice, Choices: materials, Example: "metal"},
			{Name: "remove", Help: "yes: it is little, and no chore", Kind: talk.YesNo, Example: "yes"},
		}}, dishCool},
}

// dishCool says how what a step leaves goes cold, or that it is too little for a chore.
func dishCool(_ context.Context, t *Turn) (talk.Reply, error) {
	d, s := t.theStep()
	next := "Next: /plan make puts it into the plan"
	g, ok := cooling.At(cooling.Of(t.Party, d), s)
	if !ok {
		return talk.Reply{}, talk.Refuse("/step serve step:"+string(d.Key)+"/"+string(s.Key)+" wait:refrigerator",
			"Nothing hot goes cold after %s: say first that it waits in the refrigerator.", s.Key)
	}
	s = g.Step
	key := cooling.Key(d.Key, s.Key)
	if t.yes("remove", false) {
		if (g.Food.Bird() || g.Food.Joint()) && g.Task {
			return talk.Reply{}, talk.Refuse("/dish cool step:"+string(d.Key)+"/"+string(s.Key)+" how:sliced",
				"%s is not little: %s.", words.Upper(g.Food.Name), words.Lower(g.Do()))
		}
		dropBathIce(d, s.Key)
		s.Cool = nil
		propose.Decline(t.Party, key)
		t.did("made no chore of cooling %s/%s", d.Key, s.Key)
		return talk.Reply{Text: fmt.Sprintf("%s: no chore for it any more, it is part of %q.", d.Name, s.Do), Next: next}, nil
	}
	if err := t.setHolds(s); err != nil {
		return talk.Reply{}, err
	}
	c, err := t.cooling(&g, s)
	if err != nil {
		return talk.Reply{}, err
	}
	again, ok := cooling.At(cooling.Of(t.Party, d), s) // with what it holds now
	if !ok {
		again = g
	}
	if text := cooling.Refused(&again.Food, &c); text != "" {
		return talk.Reply{}, talk.Refuse(t.command.Example, "%s", text)
	}
	s.Cool = &c
	t.Party.Declined = slices.DeleteFunc(t.Party.Declined, func(k planner.ChoreKey) bool { return k == key })
	setIce(t.Party, d, s)
	t.did("%s/%s goes cold %s", d.Key, s.Key, coolHow(&c))
	rep := talk.Reply{Text: fmt.Sprintf("%s: %s.", d.Name, stepText(t, d, s)), Next: next}
	rep.Sections = t.coolingSection(d)
	return rep, nil
}

// setHolds notes how much there is to cool, for the covers that the dish's amounts are for.
func (t *Turn) setHolds(s *planner.Step) error {
	if !t.has("holds") {
		return nil
	}
	q, err := measure.ParseWhole(t.text("holds"))
	if err == nil {
		q, err = q.Convert(measure.Millilitre)
	}
	if ml, _ := q.High().Float64(); err == nil && ml >= 50 {
		s.Leaves.Millilitres = int(ml + 0.5)
		return nil
	}
	return talk.Refuse("holds:2.5 l", "holds: %q is no volume to cool.", talk.Shown(t.text("holds")))
}

// cooling is how it is cooled: as the options say, else as before, else in the way that the estimate likes best.
func (t *Turn) cooling(g *cooling.Going, s *planner.Step) (planner.Cooling, error) {
	c := planner.Cooling{How: g.Way.How, Place: g.Way.Place, MadeOf: safety.Metal, Consistency: safety.Thick,
		DepthCM: g.Way.DepthCM}
	if g.Food.Thin() {
		c.Consistency = safety.Thin
	}
	if s.Cool != nil {
		c = *s.Cool
	}
	if t.has("how") {
		w := coolWays[t.choice("how", "")]
		c.How, c.Place, c.DepthCM, c.Grams = w.How, w.Place, w.DepthCM, g.Food.Grams
	}
	c.Consistency, c.MadeOf = safety.Consistency(t.choice("consistency", string(c.Consistency))),
		safety.Material(t.choice("made-of", string(c.MadeOf)))
	if t.has("depth") {
		c.DepthCM = float64(t.whole("depth", 0))
	}
	if t.has("weight") {
		q, err := measure.ParseWhole(t.text("weight"))
		if err == nil {
			q, err = q.Convert(measure.Gram)
		}
		grams, _ := q.High().Float64()
		if err != nil || grams < 1 || grams > 100_000 {
			return c, talk.Refuse("weight:1500 g", "weight: %q is no weight of a piece.", talk.Shown(t.text("weight")))
		}
		c.Grams = int(grams + 0.5)
		if c.How != planner.CoolPieces {
			c.How, c.Place, c.DepthCM = planner.CoolPieces, safety.PlaceRefrigerator, 0
		}
	}
	if c.How == planner.CoolPieces && c.Grams > 0 && c.DepthCM == 0 {
		c.DepthCM = math.Ceil(cooling.Thickness(c.Grams))
	}
	return c, nil
}

// coolingSection says of a dish what goes cold, and how, with what is published about it.
func (t *Turn) coolingSection(d *planner.Dish) []talk.Section {
	all := cooling.Of(t.Party, d)
	if len(all) == 0 {
		return nil
	}
	var lines []string
	for _, g := range all {
		lines = append(lines, g.Say())
	}
	return []talk.Section{{Title: "Cooling (/dish cool changes it)",
		Lines: append(append(lines, cooling.Published(t.Party, all)...), safety.CautionInShort)}}
}

// slow says which food is put into the cold in a way that by the estimate takes longer than the published stages, where
// that is a task of its own and none of these.
func slow(p *planner.Party, but ...planner.ChoreKey) (lines []string) {
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for _, g := range cooling.Of(p, d) {
			if g.Task && !g.Way.Within && !slices.Contains(but, cooling.Key(d.Key, g.Step.Key)) {
				lines = append(lines, fmt.Sprintf("%s: %s. %s", d.Name, g.Do(), g.Estimate()))
			}
		}
	}
	return lines
}

// slowSection says such lines.
func slowSection(lines []string) []talk.Section {
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: "Cooling", Lines: append(lines, safety.CautionInShort)}}
}

// setIce puts the ice for a step's bath on the dish's ingredients, so that it is bought.
func setIce(p *planner.Party, d *planner.Dish, s *planner.Step) {
	at := slices.IndexFunc(d.Ingredients, func(in planner.Ingredient) bool {
		return in.Step == s.Key && strings.HasPrefix(in.Name, iceIngredient) && strings.HasPrefix(in.Note, iceNote)
	})
	kg := 0.0
	asWritten := *d
	asWritten.Covers = d.Serves
	if g, ok := cooling.At(cooling.Of(p, &asWritten), s); ok {
		kg = g.Way.IceKG
	}
	switch {
	case kg == 0:
		if at >= 0 {
			d.Ingredients = slices.Delete(d.Ingredients, at, at+1)
		}
		return
	case at < 0:
		name := iceIngredient
		if slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool {
			return words.Fold(in.Name) == iceIngredient
		}) {
			name += " for " + string(s.Key)
		}
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: name, Step: s.Key, Note: iceNote})
		at = len(d.Ingredients) - 1
	}
	d.Ingredients[at].Amount = fmt.Sprintf("%g kg", kg)
}

const iceNote = "the same day or frozen ahead"

// dropBathIce takes off the ingredients what only a step's bath wants, before the step cools no more.
func dropBathIce(d *planner.Dish, step planner.StepKey) {
	d.Ingredients = slices.DeleteFunc(d.Ingredients, func(in planner.Ingredient) bool {
		return in.Step == step && d.CoolsWith(&in)
	})
}

// coolHow is a way of cooling in a few words.
func coolHow(c *planner.Cooling) string {
	switch {
	case c.How == planner.CoolBath || c.How == "" && c.Place != safety.PlaceRefrigerator:
		if c.Place == safety.PlaceTapWater {
			return "in cold water"
		}
		return "in ice water"
	case c.How == planner.CoolPieces:
		return fmt.Sprintf("in pieces of %d g", c.Grams)
	case c.How == planner.CoolSliced:
		return fmt.Sprintf("in slices of %g cm", c.DepthCM)
	case c.How == planner.CoolPortions:
		return fmt.Sprintf("in portions, %g cm deep", c.DepthCM)
	}
	return fmt.Sprintf("%g cm deep", c.DepthCM)
}

// coolText says how what a step leaves goes cold, where the host has said so.
func coolText(s *planner.Step, fit *planner.Fit) string {
	text := "goes cold " + coolHow(s.Cool)
	if cooling.Itself(s) {
		text = "cools " + coolHow(s.Cool)
	}
	if fit.Cool != nil && fit.Cool.IceKG > 0 {
		text += fmt.Sprintf(" (about %g kg of ice)", fit.Cool.IceKG)
	}
	return text
}
