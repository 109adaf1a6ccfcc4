package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/safety"
	"tureen/planner/scale"
	"tureen/planner/words"
)

const (
	iceBath       = "ice bath"
	shallowTrays  = "shallow trays"
	iceBathCM     = 5
	shallowCM     = 1.5
	stirEvery     = 10 // minutes, as the estimate has it
	iceIngredient = "ice"
	coolInIce     = "Cool it in a bath of ice water, stirring"
	coolInTrays   = "Spread it flat in trays, uncovered, in the refrigerator"
	byIce         = ", in a bath of ice water, stirring"
	byTrays       = ", spread flat in trays, uncovered, in the refrigerator"
)

var (
	coolHows      = []string{iceBath, shallowTrays}
	consistencies = []string{string(safety.Thick), string(safety.Thin)}
	materials     = []string{string(safety.Metal), string(safety.Glass), string(safety.Plastic)}
)

var coolCommands = []command{
	{talk.Command{Name: "dish cool", Help: "Cool cooked food before the refrigerator: how long by estimate, and the ice",
		Access: talk.CoHosts, Menu: true,
		Example: "/dish cool step:pear-tart/bake how:ice bath holds:2.5 l",
		Options: []talk.Option{
			stepOption,
			{Name: "how", Help: "stirred in ice water, or spread flat in the refrigerator",
				Kind: talk.Choice, Choices: coolHows, Example: iceBath},
			{Name: "holds", Help: "how much there is, for the covers that the amounts are for",
				Kind: talk.Text, Example: "2.5 l"},
			{Name: "consistency", Help: "thick: stew, purée, rice; thin: stock, clear soup",
				Kind: talk.Choice, Choices: consistencies, Example: "thick"},
			{Name: "made-of", Help: "what the pot or tray is made of",
				Kind: talk.Choice, Choices: materials, Example: "metal"},
			{Name: "depth", Help: "how deep it stands, in centimetres", Kind: talk.Whole, Min: 1, Max: 60, Example: "5"},
			{Name: "remove", Help: "yes: work out nothing for it", Kind: talk.YesNo, Example: "yes"},
		}}, dishCool},
}

// dishCool makes a step one that cools, or puts such a step after one that cooks.
func dishCool(_ context.Context, t *Turn) (talk.Reply, error) {
	d, s := t.theStep()
	next := "Next: /dish show dish:" + string(d.Key)
	if t.yes("remove", false) {
		if s.Cool == nil {
			return talk.Reply{}, talk.Refuse("/dish show dish:"+string(d.Key), "No cooling is worked out for %s anyway.", s.Key)
		}
		dropBathIce(d, s.Key)
		s.Cool, s.Do = nil, plainCooling(s.Do)
		t.did("worked out no cooling for %s/%s", d.Key, s.Key)
		return talk.Reply{Text: fmt.Sprintf("%s takes as long as it was said to: %s.", s.Do, spanText(s.Time)), Next: next},
			nil
	}
	ml, err := t.coolVolume(d, s)
	if err != nil {
		return talk.Reply{}, err
	}
	c := t.cooling(s)
	if _, err := safety.CoolTime(safety.Pot{Place: c.Place, MadeOf: c.MadeOf, Consistency: c.Consistency,
		DepthCM: c.DepthCM, Litres: float64(ml) / 1000}); err != nil {
		return talk.Reply{}, talk.Refuse(t.command.Example, "%s.", words.Upper(err.Error()))
	}
	if s.Cooks {
		if len(d.Steps) >= maxSteps {
			return talk.Reply{}, talk.Refuse("", "%s has %d steps, and no more can be noted.", d.Name, maxSteps)
		}
		s = addCooling(d, s)
	}
	s.Cool, s.Leaves.Millilitres = &c, ml
	setCoolWork(s)
	setIce(d, s)
	t.did("%s/%s cools in %s", d.Key, s.Key, coolPlace(&c))
	fit := t.Party.Fit(d, s)
	rep := talk.Reply{Text: fmt.Sprintf("%s: %s.", d.Name, stepText(t, d, s)), Next: next}
	if fit.Cool != nil {
		rep.Sections = []talk.Section{{Title: "Cooling", Lines: []string{fit.Cool.Advice, fit.Cool.Limit.String(),
			safety.Caution}}}
	}
	return rep, nil
}

// coolVolume is how much there is to cool, in millilitres, for the covers that the dish's amounts are for.
func (t *Turn) coolVolume(d *planner.Dish, s *planner.Step) (int, error) {
	if t.has("holds") {
		q, err := measure.ParseWhole(t.text("holds"))
		if err == nil {
			q, err = q.Convert(measure.Millilitre)
		}
		if ml, _ := q.High().Float64(); err == nil && ml >= 50 {
			return int(ml + 0.5), nil
		}
		return 0, talk.Refuse("holds:2.5 l", "holds: %q is no volume to cool.", talk.Shown(t.text("holds")))
	}
	if s.Leaves.Millilitres > 0 {
		return s.Leaves.Millilitres, nil
	}
	asServed := *d
	asServed.Covers = d.Serves
	if ml := scale.Volume(t.Party, &asServed, s); ml >= 50 {
		return ml, nil
	}
	return 0, talk.Refuse(t.command.Example, "Say how much there is to cool, with holds:2.5 l.")
}

// cooling is how it is cooled: as the options say, else as before, else in the way that helps most.
func (t *Turn) cooling(s *planner.Step) planner.Cooling {
	c := planner.Cooling{Place: safety.PlaceStirredIce, MadeOf: safety.Metal, Consistency: safety.Thick,
		DepthCM: iceBathCM}
	if s.Cool != nil {
		c = *s.Cool
	}
	switch t.choice("how", "") {
	case iceBath:
		c.Place, c.DepthCM = safety.PlaceStirredIce, iceBathCM
	case shallowTrays:
		c.Place, c.DepthCM = safety.PlaceRefrigerator, shallowCM
	}
	c.Consistency, c.MadeOf = safety.Consistency(t.choice("consistency", string(c.Consistency))),
		safety.Material(t.choice("made-of", string(c.MadeOf)))
	if t.has("depth") {
		c.DepthCM = float64(t.whole("depth", 0))
	}
	return c
}

// addCooling puts a step after one that cooks, and before whatever its food waits for in the cold.
func addCooling(d *planner.Dish, cooked *planner.Step) *planner.Step {
	var keys []string
	for i := range d.Steps {
		keys = append(keys, string(d.Steps[i].Key))
	}
	from := cooked.Key
	cool := planner.Step{Key: planner.StepKey(freshKey("cool", "cool", keys)), Component: cooked.Component,
		Time:   planner.Span{Low: 30, Likely: 60, High: 60},
		Leaves: cooked.Leaves, After: []planner.After{{Step: from, Wait: planner.Wait{State: planner.Straight}}}}
	if cooked.Serve != nil && cooked.Serve.State != planner.HotHold {
		cool.Serve, cooked.Serve = cooked.Serve, nil
	}
	at := slices.IndexFunc(d.Steps, func(s planner.Step) bool { return s.Key == from })
	for i := range d.Steps {
		for k := range d.Steps[i].After {
			a := &d.Steps[i].After[k]
			if a.Step == from && a.Dish == "" && !a.FromStart && (a.Wait.State == planner.Refrigerator ||
				a.Wait.State == planner.Freezer) {
				a.Step = cool.Key
			}
		}
	}
	d.Steps = slices.Insert(d.Steps, at+1, cool)
	return &d.Steps[at+1]
}

// setCoolWork says what a cooling step asks of people, and what is done.
func setCoolWork(s *planner.Step) {
	ice := s.Cool.Place != safety.PlaceRefrigerator
	s.Hands, s.MaxHands = 0, 0
	if ice {
		s.Attention, s.Every, s.Where = planner.Touch, stirEvery, planner.Counter
	} else {
		s.Attention, s.Every, s.Where = planner.Unattended, 0, planner.Refrigerator
	}
	if s.Do == "" || s.Do == coolInIce || s.Do == coolInTrays {
		s.Do = coolInTrays
		if ice {
			s.Do = coolInIce
		}
		return
	}
	// "Leave to cool" alone would leave it standing.
	if plain := plainCooling(s.Do); !strings.Contains(words.Fold(plain), "ice") {
		s.Do = plain + byTrays
		if ice {
			s.Do = plain + byIce
		}
	}
}

// plainCooling is a step's words without what [setCoolWork] has added.
func plainCooling(do string) string {
	return strings.TrimSuffix(strings.TrimSuffix(do, byIce), byTrays)
}

// tooSlow is said of a plan with food whose cooling the plan does not reckon.
const tooSlow = "By estimate some food does not cool as fast as published: see Cooling below."

// warmSection says what goes into the refrigerator warm, of one dish or of all, with buttons that cool it first.
func (t *Turn) warmSection(dishes ...planner.Dish) ([]talk.Section, []talk.Button) {
	var lines []string
	var buttons []talk.Button
	for i := range dishes {
		d := &dishes[i]
		lines = append(lines, scale.Cooling(t.Party, d)...)
		for _, k := range scale.Warm(t.Party, d) {
			b := t.button("Cool it in ice water: "+short(d.Name), "dish cool", "step", string(d.Key)+"/"+string(k), "how",
				iceBath)
			if len(b.Do) <= maxButton {
				buttons = append(buttons, b)
			}
		}
	}
	if len(lines) == 0 {
		return nil, nil
	}
	return []talk.Section{{Title: "Cooling", Lines: append(lines, safety.Caution)}}, buttons
}

// setIce puts the ice for a step on the dish's ingredients, so that it is bought.
func setIce(d *planner.Dish, s *planner.Step) {
	at := slices.IndexFunc(d.Ingredients, func(in planner.Ingredient) bool {
		return in.Name == iceIngredient && in.Step == s.Key
	})
	c, err := safety.CoolTime(safety.Pot{Place: s.Cool.Place, MadeOf: s.Cool.MadeOf, Consistency: s.Cool.Consistency,
		DepthCM: s.Cool.DepthCM, Litres: float64(s.Leaves.Millilitres) / 1000})
	switch {
	case err != nil || c.IceKG == 0:
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
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: name, Step: s.Key,
			Note: "the same day or frozen ahead"})
		at = len(d.Ingredients) - 1
	}
	d.Ingredients[at].Amount = fmt.Sprintf("%g kg", c.IceKG)
}

// dropBathIce takes off the ingredients what only a step's bath wants, before the step cools no more.
func dropBathIce(d *planner.Dish, step planner.StepKey) {
	d.Ingredients = slices.DeleteFunc(d.Ingredients, func(in planner.Ingredient) bool {
		return in.Step == step && d.CoolsWith(&in)
	})
}

func coolPlace(c *planner.Cooling) string {
	if c.Place == safety.PlaceRefrigerator {
		return "the refrigerator"
	}
	return strings.ReplaceAll(string(c.Place), "-", " ")
}

// coolText says how a step cools, and what for.
func coolText(s *planner.Step, fit *planner.Fit) string {
	text := fmt.Sprintf("cools, %s, %g cm deep in %s, in %s", s.Cool.Consistency, s.Cool.DepthCM, s.Cool.MadeOf,
		coolPlace(s.Cool))
	if fit.Cool != nil && fit.Cool.IceKG > 0 {
		text += fmt.Sprintf(" (about %g kg of ice)", fit.Cool.IceKG)
	}
	return text
}
