package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

var (
	attentionChoices = []string{string(planner.Hands), string(planner.Watch), string(planner.Touch),
		string(planner.Unattended)}
	whereChoices = []string{string(planner.Counter), string(planner.Refrigerator), string(planner.Freezer),
		string(planner.Heat)}
	growthChoices = []string{"same", string(planner.InProportionToCovers), string(planner.InRounds)}
	growths       = []planner.Growth{planner.Fixed, planner.InProportionToCovers, planner.InRounds}
	foodChoices   = func() (out []string) {
		for _, k := range safety.Kinds() {
			if k != safety.Sprouts { // their name tells them, and a face has room for 25
				out = append(out, string(k))
			}
		}
		return out
	}()
)

const (
	stepAddExample = `/step add dish:pear-tart name:roll do:"Roll out the pastry" time:15-20 min after:pastry ` +
		`wait:refrigerator least:1h longest:2 days`
	maxSteps = 40
	// ovenTolerance is by how many °C an oven's setting may differ from what a step asks for, where nobody
	// says. Common practice, no source.
	ovenTolerance = 10
)

// Options that step add and step change share.
var (
	attentionOption = talk.Option{Name: "attention",
		Help: "hands all the time, watch from near, a touch now and then, or unattended", Kind: talk.Choice,
		Choices: attentionChoices, Example: "hands"}
	everyOption = talk.Option{Name: "every", Help: "how often it wants a touch", Kind: talk.Length, Example: "15 min"}
	whereOption = talk.Option{Name: "where", Help: "where the food is meanwhile", Kind: talk.Choice,
		Choices: whereChoices, Example: "counter"}
	untilOption = talk.Option{Name: "until", Help: "the sign that it is done", Kind: talk.Text, Offers: talk.Steps,
		Example: "54 °C in the middle"}
	leavesOption = talk.Option{Name: "leaves", Help: "what food it leaves, for its limits; none keeps on the counter",
		Kind: talk.Choice, Choices: foodChoices, Example: "custard"}
	cooksOption = talk.Option{Name: "cooks", Help: "yes: the food is cooked here", Kind: talk.YesNo, Example: "yes"}
	handsOption = talk.Option{Name: "hands", Help: "people it needs", Kind: talk.Whole, Min: 1, Max: planner.MaxHands,
		Example: "2"}
	growsOption = talk.Option{Name: "grows", Help: "how its time grows with the covers", Kind: talk.Choice,
		Choices: growthChoices, Example: "proportion"}
	perRoundOption = talk.Option{Name: "per-round", Help: "covers that one round makes", Kind: talk.Whole, Min: 1,
		Max: planner.MaxCovers, Example: "4"}
	whoOption = talk.Option{Name: "who", Help: "who must do it; anybody by default", Kind: talk.Text,
		Offers: talk.People, Example: "Ben"}
	stepOption = talk.Option{Name: "step", Help: "which step, with its dish", Kind: talk.StepOption, Required: true,
		Example: "pear-tart/roll"}
)

// rare is an option where it is seldom wanted.
func rare(o talk.Option) talk.Option {
	o.Rare = true
	return o
}

var stepCommands = []command{
	{talk.Command{Name: "step add", Help: "Add a step to a dish",
		Access: talk.CoHosts, Menu: true, Example: stepAddExample,
		Options: []talk.Option{
			{Name: "dish", Help: "which dish", Kind: talk.DishOption, Required: true, Example: "pear-tart"},
			{Name: "name", Help: "a short name for the step", Kind: talk.Text, Required: true, Example: "roll"},
			{Name: "time", Help: "how long it takes",
				Kind: talk.Length, Required: true, Min: 1, Max: int(planner.MaxLength), Example: "15-20 min"},
			{Name: "do", Help: "what is done", Kind: talk.Text, Example: "Roll out the pastry"},
			attentionOption, rare(everyOption),
			{Name: "after", Help: "the steps it comes after, with commas",
				Kind: talk.Text, Offers: talk.Steps, Example: "pastry"},
			waitOption, rare(leastOption), longestOption,
			rare(whereOption),
			{Name: "oven", Help: "oven at this temperature", Kind: talk.Temperature, Example: "180"},
			{Name: "shelves", Help: "shelves of the oven", Kind: talk.Whole, Min: 1, Max: 10, Rare: true, Example: "1"},
			{Name: "burners", Help: "burners", Kind: talk.Whole, Max: 50, Example: "1"},
			{Name: "vessel", Help: "what it is made in, with commas",
				Kind: talk.Text, Offers: talk.Vessels, Example: "tart tin"},
			{Name: "appliance", Help: "appliances, with commas",
				Kind: talk.Text, Offers: talk.Appliances, Rare: true, Example: "food processor"},
			{Name: "counter", Help: "places at the counter", Kind: talk.Whole, Max: 50, Rare: true, Example: "1"},
			untilOption, rare(leavesOption), rare(cooksOption), rare(handsOption), rare(growsOption), rare(perRoundOption),
			rare(whoOption),
		}}, stepAdd},
	{talk.Command{Name: "step change", Help: "Change a step",
		Access: talk.CoHosts, Menu: true, Example: "/step change step:pear-tart/roll time:20-25 min",
		Options: []talk.Option{
			stepOption,
			{Name: "do", Help: "what is done", Kind: talk.Text, Example: "Roll out the pastry"},
			{Name: "time", Help: "how long it takes",
				Kind: talk.Length, Min: 1, Max: int(planner.MaxLength), Example: "15-20 min"},
			{Name: "likely", Help: "the likely time within the range",
				Kind: talk.Length, Min: 1, Max: int(planner.MaxLength), Example: "16 min"},
			attentionOption, everyOption, handsOption,
			{Name: "most-hands", Help: "how many people can share it, to be done sooner",
				Kind: talk.Whole, Min: 1, Max: planner.MaxHands, Example: "3"},
			{Name: "part", Help: "the part of the dish it makes, or none", Kind: talk.Text, Example: "pastry"},
			untilOption, whereOption, cooksOption, leavesOption,
			{Name: "part-cooked", Help: "yes: browned, not cooked through", Kind: talk.YesNo, Example: "yes"},
			{Name: "space", Help: "millilitres of space it takes in the cold, for the amounts of the dish",
				Kind: talk.Whole, Max: 500000, Example: "2000"},
			{Name: "flat", Help: "flat places it takes in the cold", Kind: talk.Whole, Max: 50, Example: "1"},
			growsOption, perRoundOption,
			{Name: "gap", Help: "shortest time from one round's start to the next",
				Kind: talk.Length, Max: int(planner.MaxLength), Example: "4 min"},
			whoOption,
			{Name: "skill", Help: "the skill it needs, or none", Kind: talk.Text, Offers: talk.Skills, Example: "carving"},
			{Name: "when-called", Help: "yes: starts when the host calls for it", Kind: talk.YesNo, Example: "yes"},
			{Name: "away", Help: "yes: its people are out of the house", Kind: talk.YesNo, Example: "yes"},
		}}, stepChange},
	{talk.Command{Name: "step remove", Help: "Remove a step",
		Access: talk.CoHosts, Example: "/step remove step:pear-tart/roll", Options: []talk.Option{stepOption}}, stepRemove},
	{talk.Command{Name: "step order", Help: "Move a step to another place among its dish's steps",
		Access: talk.CoHosts, Example: "/step order step:pear-tart/roll to:2",
		Options: []talk.Option{stepOption, {Name: "to", Help: "its new place, from 1", Kind: talk.Whole, Required: true,
			Min: 1, Max: maxSteps, Example: "2"}}}, stepOrder},
}

func stepAdd(_ context.Context, t *Turn) (talk.Reply, error) {
	d := t.Party.Dish(t.values["dish"].dish)
	if len(d.Steps) >= maxSteps {
		return talk.Reply{}, talk.Refuse("", "%s has %d steps, and no more can be noted.", d.Name, maxSteps)
	}
	var keys []string
	for _, s := range d.Steps {
		keys = append(keys, string(s.Key))
	}
	name := t.text("name")
	key := freshKey(name, "step", keys)
	if slices.Contains(keys, key) {
		return talk.Reply{}, talk.Refuse(fmt.Sprintf("/step change step:%s/%s time:20 min", d.Key, key),
			"%s has a step %s already; choose another name, or change that one.", d.Name, key)
	}
	s := planner.Step{Key: planner.StepKey(key), Do: words.Upper(name), Attention: planner.Hands, Where: planner.Counter}
	if t.has("oven") || t.whole("burners", 0) > 0 {
		s.Where, s.Cooks = planner.Heat, true
	}
	if t.has("oven") {
		s.Attention = planner.Watch
	}
	if err := t.addUses(d, &s); err != nil {
		return talk.Reply{}, err
	}
	if err := t.addAfters(d, &s); err != nil {
		return talk.Reply{}, err
	}
	for i := range s.After { // as much goes on as came, where nobody says
		if before := d.Step(s.After[i].Step); s.After[i].Dish == "" && before != nil && !s.After[i].FromStart {
			s.Leaves.Millilitres, s.Leaves.Flat = before.Leaves.Millilitres, before.Leaves.Flat
			break
		}
	}
	if err := t.setStep(&s); err != nil {
		return talk.Reply{}, err
	}
	t.asItsWordsSay(d, &s)
	d.Steps = append(d.Steps, s)
	place := t.placeBySaying(d, &d.Steps[len(d.Steps)-1])
	s = d.Steps[len(d.Steps)-1]
	t.did("added the step %s/%s", d.Key, key)
	if err := t.keepsNot(d, &s); err != nil {
		d.Steps = d.Steps[:len(d.Steps)-1]
		return talk.Reply{}, err
	}
	text := fmt.Sprintf("%s: %s.", d.Name, stepText(t, d, &s)) + place + t.unknownFood(d, &s)
	return talk.Reply{Text: text,
		Next: fmt.Sprintf("Next: /step add dish:%s … after:%s, or /step serve step:%s/%s for the wait before service",
			d.Key,
			key, d.Key, key)}, nil
}

// asItsWordsSay gives a step what its words tell and no option says: what it asks of people, and its oven.
func (t *Turn) asItsWordsSay(d *planner.Dish, s *planner.Step) {
	said := doing.Told(s.Do, int(s.Time.Likely))
	if said.OvenC > 0 && len(s.Uses) == 0 && !t.has("where") {
		s.Uses = append(s.Uses, planner.Use{What: planner.AnOven, Amount: 1, C: said.OvenC, Tolerance: ovenTolerance,
			For: shelfFor(d)})
		s.Where, s.Cooks = planner.Heat, t.yes("cooks", true)
	}
	if !t.has("attention") && !t.has("hands") && !t.has("most-hands") && !t.has("every") && s.Attention == planner.Hands {
		s.Attention = said.Attention
	}
}

// placeBySaying puts a step's food where its words say that it is, and asks where they and an option differ.
func (t *Turn) placeBySaying(d *planner.Dish, s *planner.Step) string {
	at := trace.PlaceIn(s.Do)
	switch {
	case trace.Chills(t.Party, d, s):
		s.Where = planner.Refrigerator
		return fmt.Sprintf("\nIt is put into the refrigerator for that: food that spoils may be out of the cold for %s.",
			words.Short(t.Party.CounterLimit().Minutes))
	case at == "" || at == s.Where || s.Where == planner.Heat || s.Cooks:
		return ""
	case t.has("where"):
		said := s.Where
		if at == planner.Counter { // which of the two it is nobody knows: the warmer one is the strict case
			s.Where = at
		}
		return fmt.Sprintf("\nIts words say %s, and where: says %s. Which is it? The food counts as %s until do: and where: "+
			"say the same.", inPlace(at), inPlace(said), inPlace(s.Where))
	}
	s.Where = at
	if !t.has("attention") && at != planner.Counter {
		s.Attention, s.Hands, s.MaxHands = planner.Unattended, 0, 0
	}
	return ""
}

// inPlace is a place as a sentence has it: "on the counter".
func inPlace(s planner.State) string {
	if s == planner.Counter {
		return "on the counter"
	}
	return "in the " + string(s)
}

// keepsNot refuses "keeps on the counter" for food that is known to spoil, with the reason.
func (t *Turn) keepsNot(d *planner.Dish, s *planner.Step) error {
	if !t.has("leaves") || s.Leaves.Kind != safety.None {
		return nil
	}
	for _, p := range t.foodOf(d, s).Parts {
		named := len(s.After) > 0 || slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool {
			return in.Name == p.Name && (in.Step == s.Key || trace.Names(s.Do, &in))
		})
		if p.Kind != safety.None && named { // else a step still to come may name it
			return talk.Refuse("", "%s leaves %s (%s), which spoils out of the cold: its limits hold whatever is said. Leave "+
				"leaves:none out.", words.Upper(string(s.Key)), p.Name, p.Kind.Label())
		}
	}
	return nil
}

// unknownFood asks about what in a dish no table knows.
func (t *Turn) unknownFood(d *planner.Dish, s *planner.Step) string {
	unknown := slices.DeleteFunc(slices.Clone(t.foodOf(d, s).Unknown), func(name string) bool {
		return slices.ContainsFunc(s.After, func(a planner.After) bool { // it was asked there
			before := d.Step(a.Step)
			return a.Dish == "" && before != nil && slices.Contains(t.foodOf(d, before).Unknown, name)
		})
	})
	for _, name := range unknown {
		if slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool { return in.Name == name }) {
			return fmt.Sprintf("\nI do not know %s, so it is taken for cooked food that spoils. What is it? /ingredient change "+
				"dish:%s ingredient:%s food:none keeps on the counter, food:poultry is raw poultry.", name, d.Key, name)
		}
	}
	if len(unknown) > 0 {
		return fmt.Sprintf("\nI do not know what food it is, so it is taken for cooked food that spoils. Say what goes in "+
			"(/ingredient add dish:%s …), or what the step leaves: /step change step:%s/%s leaves:none", d.Key, d.Key, s.Key)
	}
	return ""
}

// setStep takes the fields that step add and step change share from the options.
func (t *Turn) setStep(s *planner.Step) error {
	if t.has("do") {
		s.Do = t.text("do")
	}
	if t.has("time") {
		s.Time = t.span("time")
	}
	if t.has("likely") {
		s.Time.Likely = t.minutes("likely")
	}
	if t.has("attention") {
		s.Attention = planner.Attention(t.choice("attention", ""))
		if s.Attention != planner.Hands {
			s.Hands, s.MaxHands = 0, 0
		}
		if s.Attention != planner.Touch {
			s.Every = 0
		}
	}
	if t.has("every") {
		s.Every = t.minutes("every")
	}
	s.Hands, s.MaxHands = t.whole("hands", s.Hands), t.whole("most-hands", s.MaxHands)
	if t.has("part") {
		s.Component = t.emptyable("part")
	}
	if t.has("until") {
		s.Until = t.emptyable("until")
	}
	s.Where = planner.State(t.choice("where", string(s.Where)))
	s.Cooks = t.yes("cooks", s.Cooks)
	if t.has("leaves") {
		kind := safety.Kind(t.choice("leaves", ""))
		s.Leaves.Kind, s.Leaves.Perishable = kind, kind.Perishable()
		s.Leaves.PartCooked = s.Leaves.PartCooked && s.Leaves.Perishable
	}
	s.Leaves.PartCooked = t.yes("part-cooked", s.Leaves.PartCooked)
	s.Leaves.Millilitres, s.Leaves.Flat = t.whole("space", s.Leaves.Millilitres), t.whole("flat", s.Leaves.Flat)
	if t.has("grows") {
		s.Grows = growths[t.values["grows"].N]
		if s.Grows != planner.InRounds {
			s.PerRound, s.RoundGap = 0, 0
		}
	}
	s.PerRound = t.whole("per-round", s.PerRound)
	if t.has("gap") {
		s.RoundGap = t.minutes("gap")
	}
	s.WhenCalled, s.Away = t.yes("when-called", s.WhenCalled), t.yes("away", s.Away)
	return t.setWho(&s.Who)
}

// setWho takes from the options who may do a task.
func (t *Turn) setWho(w *planner.Who) error {
	if t.has("who") {
		w.Person = ""
		if name := t.emptyable("who"); name != "" && !strings.EqualFold(name, "anybody") {
			k, err := t.findPerson(name)
			if err != nil {
				return err
			}
			w.Person = k
		}
	}
	if t.has("skill") {
		w.Skill = t.emptyable("skill")
	}
	return nil
}

// theStep is the step that the step option names, with its dish.
func (t *Turn) theStep() (*planner.Dish, *planner.Step) {
	v := t.values["step"]
	d := t.Party.Dish(v.dish)
	return d, d.Step(v.step)
}

func stepChange(_ context.Context, t *Turn) (talk.Reply, error) {
	d, s := t.theStep()
	if t.told() == 1 {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to change about %s.", s.Do)
	}
	if err := t.setStep(s); err != nil {
		return talk.Reply{}, err
	}
	if err := t.keepsNot(d, s); err != nil {
		return talk.Reply{}, err
	}
	s.Finish = false // it is the hosts' own now
	place := ""
	if t.has("do") || t.has("where") {
		place = t.placeBySaying(d, s)
	}
	t.did("changed the step %s/%s", d.Key, s.Key)
	return talk.Reply{Text: fmt.Sprintf("%s: %s.", d.Name, stepText(t, d, s)) + place + t.unknownFood(d, s),
		Next: "Next: /dish show dish:" +
			string(d.Key)}, nil
}

func stepRemove(_ context.Context, t *Turn) (talk.Reply, error) {
	d, s := t.theStep()
	key, do := s.Key, s.Do
	for i := range t.Party.Dishes {
		o := &t.Party.Dishes[i]
		for _, later := range o.Steps {
			for _, a := range later.After {
				if a.Step == key && (a.Dish == d.Key || a.Dish == "" && o.Key == d.Key) {
					return talk.Reply{}, talk.Refuse(fmt.Sprintf("/step after step:%s/%s of:%s/%s remove:yes", o.Key, later.Key, d.Key,
						key),
						"%s comes after it; take that away first, and say what it comes after instead.", later.Do)
				}
			}
			for _, u := range later.Uses {
				if o.Key == d.Key && u.Through == key {
					return talk.Reply{}, talk.Refuse(fmt.Sprintf("/step use step:%s/%s what:%s remove:yes", o.Key, later.Key,
						useName(&u)),
						"The %s of %s stays in use through it; change that first.", useName(&u), later.Key)
				}
			}
		}
	}
	dropBathIce(d, key)
	for i := range d.Ingredients {
		if d.Ingredients[i].Step == key {
			d.Ingredients[i].Step = ""
		}
	}
	d.Steps = slices.DeleteFunc(d.Steps, func(o planner.Step) bool { return o.Key == key })
	t.dropAnchors(func(k planner.TaskKey) bool {
		dish, step, _, _, _ := k.Split()
		return dish == d.Key && step == key
	})
	t.did("removed the step %s/%s", d.Key, key)
	return talk.Reply{Text: fmt.Sprintf("%s has no step %s any more (%s).", d.Name, key, do),
		Next: "Next: /dish show dish:" + string(d.Key)}, nil
}

func stepOrder(_ context.Context, t *Turn) (talk.Reply, error) {
	d, s := t.theStep()
	to := t.whole("to", 1)
	if to > len(d.Steps) {
		return talk.Reply{}, talk.Refuse(fmt.Sprintf("/step order step:%s/%s to:%d", d.Key, s.Key, len(d.Steps)),
			"%s has %s.", d.Name, words.Count(len(d.Steps), "step"))
	}
	moved := *s
	d.Steps = slices.DeleteFunc(d.Steps, func(o planner.Step) bool { return o.Key == moved.Key })
	d.Steps = slices.Insert(d.Steps, to-1, moved)
	t.did("moved the step %s/%s", d.Key, moved.Key)
	var keys []string
	for _, o := range d.Steps {
		keys = append(keys, string(o.Key))
	}
	return talk.Reply{Text: fmt.Sprintf("%s: %s.", d.Name, words.And(keys)), Next: "Next: /dish show dish:" +
		string(d.Key)}, nil
}
