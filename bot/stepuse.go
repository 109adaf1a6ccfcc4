package bot

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/words"
)

var stepUseCommands = []command{
	{talk.Command{Name: "step use", Help: "Say what a step uses in the kitchen",
		Access: talk.CoHosts, Menu: true, Example: "/step use step:pear-tart/bake what:oven temperature:180 amount:1",
		Options: []talk.Option{
			stepOption,
			{Name: "what", Help: "oven, burner, grill, counter, or a vessel or appliance by its name",
				Kind: talk.Text, Offers: talk.Equipment, Required: true, Example: "tart tin"},
			{Name: "amount", Help: "shelves, burners, places or pieces", Kind: talk.Whole, Min: 1, Max: 50, Example: "2"},
			{Name: "enough-for", Help: "covers that this is enough for; more need more of it, or rounds; 0: any number",
				Kind: talk.Whole, Max: planner.MaxCovers, Example: "8"},
			{Name: "temperature", Help: "the oven's temperature", Kind: talk.Temperature, Example: "180"},
			{Name: "off", Help: "yes: in the oven, but it is off", Kind: talk.YesNo, Example: "yes"},
			{Name: "tolerance", Help: "how many °C the oven may be off", Kind: talk.Whole, Max: 50, Example: "10"},
			{Name: "shut", Help: "yes: the oven's door stays shut", Kind: talk.YesNo, Example: "yes"},
			{Name: "then", Help: "later temperatures of the oven, with commas", Kind: talk.Text, Example: "20 min 160"},
			{Name: "through", Help: "stays in use to the end of this later step, or none",
				Kind: talk.Text, Offers: talk.Steps, Example: "turn-out"},
			{Name: "remove", Help: "yes: the step no longer uses it", Kind: talk.YesNo, Example: "yes"},
		}}, stepUse},
}

// equipment finds a thing of the kitchen by name.
func (t *Turn) equipment(name string) (planner.Use, error) {
	k := &t.Party.Kitchen
	switch planner.Key(name) {
	case "oven":
		return planner.Use{What: planner.AnOven}, nil // any of them
	case "burner", "burners":
		return planner.Use{What: planner.ABurner}, nil
	case "grill":
		return planner.Use{What: planner.AGrill}, nil
	case "counter":
		return planner.Use{What: planner.ACounter}, nil
	}
	type thing struct {
		what planner.Equipment
		name string
	}
	var things []thing
	for _, o := range k.Ovens {
		things = append(things, thing{planner.AnOven, o.Name})
	}
	for _, g := range []struct {
		what planner.Equipment
		list []planner.Ware
	}{{planner.AVessel, k.Vessels}, {planner.AnAppliance, k.Appliances}, {planner.AHotPlace, k.HotPlaces}} {
		for _, w := range g.list {
			things = append(things, thing{g.what, w.Name})
		}
	}
	found, all := pick(things, func(x *thing) []string { return []string{x.name} }, name)
	if found == nil {
		return planner.Use{}, talk.Refuse("/kitchen ware name:"+talk.Shown(name)+" count:1 kind:vessel",
			"The kitchen has no %q.%s If it has one, add it first.", talk.Shown(name),
			talk.DidYouMean(name, append(all, "oven", "burner", "grill", "counter")))
	}
	return planner.Use{What: found.what, Name: found.name}, nil
}

// addUses reads what a new step takes of the kitchen.
func (t *Turn) addUses(d *planner.Dish, s *planner.Step) error {
	if t.has("oven") {
		s.Uses = append(s.Uses, planner.Use{What: planner.AnOven, Amount: t.whole("shelves", 1), C: t.whole("oven", 0),
			Tolerance: ovenTolerance,
			For:       shelfFor(d)})
	} else if t.has("shelves") {
		return talk.Refuse("oven:180 shelves:1", "Shelves are the oven's: give its temperature too.")
	}
	if n := t.whole("burners", 0); n > 0 {
		s.Uses = append(s.Uses, planner.Use{What: planner.ABurner, Amount: n})
	}
	if n := t.whole("counter", 0); n > 0 {
		s.Uses = append(s.Uses, planner.Use{What: planner.ACounter, Amount: n})
	}
	for _, o := range []struct {
		name string
		what planner.Equipment
	}{{"vessel", planner.AVessel}, {"appliance", planner.AnAppliance}} {
		for _, word := range splitNames(t.text(o.name)) {
			n, name := leadingCount(word)
			u, err := t.equipment(name)
			if err != nil {
				return err
			}
			if u.What != o.what {
				return talk.Refuse("/step use step:… what:"+useName(&u), "%s is no %s; say so with /step use.",
					words.Upper(useName(&u)), o.name)
			}
			u.Amount = n
			s.Uses = append(s.Uses, u)
		}
	}
	return nil
}

// shelfFor is for how many covers a dish's shelf is enough where nobody has said: what it serves, and a quarter more.
// Common practice, no source.
func shelfFor(d *planner.Dish) int { return min(d.Serves*5/4, planner.MaxCovers) }

// leadingCount takes "2 large pot" apart.
func leadingCount(text string) (int, string) {
	head, tail, ok := strings.Cut(text, " ")
	if n, err := strconv.Atoi(head); ok && err == nil && n >= 1 && n <= 50 {
		return n, tail
	}
	return 1, text
}

func stepUse(_ context.Context, t *Turn) (talk.Reply, error) {
	d, s := t.theStep()
	u, err := t.equipment(t.text("what"))
	if err != nil {
		return talk.Reply{}, err
	}
	next := "Next: /dish show dish:" + string(d.Key)
	at := slices.IndexFunc(s.Uses, func(o planner.Use) bool { return o.What == u.What && o.Name == u.Name })
	if t.yes("remove", false) {
		if at < 0 {
			return talk.Reply{}, talk.Refuse("/dish show dish:"+string(d.Key), "%s uses no %s anyway.", s.Key, useName(&u))
		}
		s.Uses = slices.Delete(s.Uses, at, at+1)
		t.did("%s/%s uses no %s", d.Key, s.Key, useName(&u))
		return talk.Reply{Text: fmt.Sprintf("%s uses no %s any more.", s.Do, useName(&u)), Next: next}, nil
	}
	if at < 0 {
		if u.What == planner.AnOven {
			if !t.has("temperature") && !t.yes("off", false) {
				return talk.Reply{}, talk.Refuse(t.command.Example, "Say how hot the oven is, with temperature:, or off:yes.")
			}
			u.Tolerance = ovenTolerance
		}
		s.Uses = append(s.Uses, u)
		at = len(s.Uses) - 1
	}
	one := &s.Uses[at]
	if err := t.setUse(d, one); err != nil {
		return talk.Reply{}, err
	}
	t.did("%s/%s uses %s", d.Key, s.Key, useText(one))
	return talk.Reply{Text: fmt.Sprintf("%s uses: %s.", s.Do, useText(one)), Next: next}, nil
}

func (t *Turn) setUse(d *planner.Dish, u *planner.Use) error {
	u.Amount, u.For = t.whole("amount", u.Amount), t.whole("enough-for", u.For)
	u.C, u.Tolerance, u.Shut = t.whole("temperature", u.C), t.whole("tolerance", u.Tolerance), t.yes("shut", u.Shut)
	if t.yes("off", false) {
		u.C, u.Tolerance = 0, 0
	}
	if t.has("then") {
		u.Then = nil
		for _, part := range splitNames(t.text("then")) {
			h, err := heatStage(part)
			if err != nil {
				return err
			}
			u.Then = append(u.Then, h)
		}
	}
	if t.has("through") {
		u.Through = ""
		if name := t.emptyable("through"); name != "" {
			_, tail, ok := strings.Cut(name, "/")
			if !ok {
				tail = name
			}
			k, err := findStepOf(d, tail)
			if err != nil {
				return err
			}
			u.Through = k
		}
	}
	return nil
}

// heatStage reads "20 min 160": after that time the oven is at that temperature.
func heatStage(text string) (planner.HeatStage, error) {
	words := strings.Fields(text)
	for cut := len(words) - 1; cut >= 1; cut-- {
		d, err1 := measure.ParseDuration(strings.Join(words[:cut], " "))
		s, err2 := measure.ParseTemperature(strings.Join(words[cut:], " "))
		if err1 == nil && err2 == nil && d.Low == d.High {
			return planner.HeatStage{After: planner.Minutes(d.Low), C: int(s.Conventional().C() + 0.5)}, nil
		}
	}
	return planner.HeatStage{}, talk.Refuse("then:20 min 160", "%q is no time with a temperature.", talk.Shown(text))
}
