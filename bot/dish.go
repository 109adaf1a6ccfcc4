package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/caution"
	"tureen/planner/menu"
	"tureen/planner/portion"
	"tureen/planner/recipe"
	"tureen/planner/scale"
	"tureen/planner/ways"
	"tureen/planner/words"
)

const dishAddExample = `/dish add name:Pear tart course:dessert serves:8`

var dishOptions = []talk.Option{
	{Name: "serves", Help: "covers the amounts are for; the party's by default",
		Kind: talk.Whole, Min: 1, Max: planner.MaxCovers, Example: "8"},
	{Name: "covers", Help: "covers to make, if not the party's; 0: the party's",
		Kind: talk.Whole, Max: planner.MaxCovers, Example: "10"},
	{Name: "plate", Help: "the plate or glass it is served on",
		Kind: talk.Text, Offers: talk.Plates, Example: "small plate"},
	{Name: "brought-by", Help: "who brings it ready made, so that nobody knows for sure what is in it; none: it is made " +
		"here",
		Kind: talk.Text, Example: "Oona"},
	{Name: "stands-out", Help: "yes: it stands out to the end of service, as on a buffet; no: it does not, whatever its " +
		"words say",
		Kind: talk.YesNo, Example: "yes"},
	travelOptions[0], travelOptions[1],
	{Name: "way", Help: "made for its service, ahead and finished, or frozen; as it suits: the plan chooses",
		Kind: talk.Choice, Choices: []string{string(planner.ForService), string(planner.MadeAhead), string(planner.Frozen),
			anyWay},
		Example: string(planner.MadeAhead)},
	{Name: "note", Help: "anything else", Kind: talk.LongText, Example: "good cold, too"},
}

// anyWay takes back what was said of a dish's way.
const anyWay = "as it suits"

var dishCommands = []command{
	{talk.Command{Name: "dish add", Help: "Add a dish to a course; then its steps and ingredients",
		Access: talk.CoHosts, Menu: true, Example: dishAddExample,
		Options: append([]talk.Option{
			{Name: "name", Help: "what it is called; or all in a line: lasagne, mine: 45 min work, 50 min at 180",
				Kind: talk.Text, Required: true, Example: "Pear tart"},
			{Name: "course", Help: "which course", Kind: talk.CourseOption, Required: true,
				Comes: true, Example: "dessert"},
		}, dishOptions...)}, dishAdd},
	{talk.Command{Name: "dish change", Help: "Change a dish's name, course or covers",
		Access: talk.CoHosts, Menu: true, Example: "/dish change dish:pear-tart covers:10",
		Options: append([]talk.Option{
			{Name: "dish", Help: "which dish", Kind: talk.DishOption, Required: true, Example: "pear-tart"},
			{Name: "name", Help: "a new name", Kind: talk.Text, Example: "Pear and almond tart"},
			{Name: "course", Help: "which course", Kind: talk.CourseOption, Comes: true, Example: "dessert"},
		}, dishOptions...)}, dishChange},
	{talk.Command{Name: "dish remove", Help: "Remove a dish with its steps and ingredients",
		Access: talk.CoHosts, Menu: true, Example: "/dish remove dish:pear-tart",
		Options: []talk.Option{{Name: "dish", Help: "which dish", Kind: talk.DishOption, Required: true,
			Example: "pear-tart"}}}, dishRemove},
	{talk.Command{Name: "dish list", Help: "The menu, and what to think of again",
		Access: talk.Onlookers, Example: "/dish list"}, dishList},
	{talk.Command{Name: "dish show", Help: "A dish with its steps and ingredients",
		Access: talk.Onlookers, Example: "/dish show dish:pear-tart",
		Options: []talk.Option{
			{Name: "dish", Help: "which dish", Kind: talk.DishOption, Required: true, Example: "pear-tart"},
			{Name: "covers", Help: "as if it were made for so many; nothing changes",
				Kind: talk.Whole, Min: 1, Max: planner.MaxCovers, Example: "23"},
		}}, dishShow},
}

func dishAdd(_ context.Context, t *Turn) (talk.Reply, error) {
	name := t.text("name")
	if recipe.IsOwnLine(name) {
		return t.lineOnMenu(name)
	}
	key, err := t.newDishKey(name)
	if err != nil {
		return talk.Reply{}, err
	}
	d := planner.Dish{Key: key, Name: name, Course: t.values["course"].course, Serves: t.Party.Covers}
	if err := t.setDish(&d); err != nil {
		return talk.Reply{}, err
	}
	t.Party.Dishes = append(t.Party.Dishes, d)
	t.did("added the dish %s", name)
	return talk.Reply{
		Text: fmt.Sprintf("%s is on the menu, as %s; amounts are for %s.", name, t.Party.Course(d.Course).Name,
			words.Count(d.Serves, "cover")), Sections: t.tooFarSection(&d),
		Next: fmt.Sprintf("Next: /step add dish:%s name:… do:… time:…, and /ingredient add dish:%s", key, key),
	}, nil
}

// newDishKey is a key for a dish's name, or a refusal when there is such a dish already.
func (t *Turn) newDishKey(name string) (planner.DishKey, error) {
	var keys []string
	for _, d := range t.Party.Dishes {
		keys = append(keys, string(d.Key))
		if words.Fold(d.Name) == words.Fold(name) {
			return "", talk.Refuse("/dish show dish:"+string(d.Key),
				"There is a dish %s already; choose another name, or change that one.", d.Name)
		}
	}
	key := freshKey(name, "dish", keys)
	if slices.Contains(keys, key) {
		return "", talk.Refuse("/dish show dish:"+key, "The dish %s has too similar a name; choose another one.",
			t.Party.Dish(planner.DishKey(key)).Name)
	}
	return planner.DishKey(key), nil
}

func (t *Turn) setDish(d *planner.Dish) error {
	d.Out = t.answered("stands-out", d.Out)
	d.Serves, d.Covers = t.whole("serves", d.Serves), t.whole("covers", d.Covers)
	if t.has("note") {
		d.Note = t.emptyable("note")
	}
	if t.has("way") {
		if d.Way = planner.Way(t.choice("way", "")); d.Way == anyWay {
			d.Way = ""
		}
		if d.Way != "" && t.Party.Dish(d.Key) != nil && !ways.Has(t.Party, d, d.Way) {
			why := "nothing of it keeps to be finished"
			if d.Way == planner.Frozen {
				why = "neither its recipe nor my table says that it freezes well"
			}
			return talk.Refuse("/dish show dish:"+string(d.Key), "%s cannot be made %s, as far as I know: %s.", d.Name, d.Way,
				why)
		}
	}
	if t.has("brought-by") {
		d.BroughtBy = t.emptyable("brought-by")
	}
	if err := t.setTravels(d); err != nil {
		return err
	}
	if t.has("plate") {
		plate := t.emptyable("plate")
		if plate != "" {
			w, all := pick(t.Party.Kitchen.Plates, func(w *planner.Ware) []string { return []string{w.Name} }, plate)
			if w == nil {
				return talk.Refuse("/kitchen ware name:"+talk.Shown(plate)+" count:12 kind:plate",
					"The kitchen has no plate or glass %q.%s", talk.Shown(plate), talk.DidYouMean(plate, all))
			}
			plate = w.Name
		}
		d.Plate = plate
	}
	return nil
}

func dishChange(_ context.Context, t *Turn) (talk.Reply, error) {
	d := t.Party.Dish(t.values["dish"].dish)
	before := dishHead(t, d) + d.Note
	if t.has("name") && words.Fold(t.text("name")) != words.Fold(d.Name) {
		for _, o := range t.Party.Dishes {
			if o.Key != d.Key && words.Fold(o.Name) == words.Fold(t.text("name")) {
				return talk.Reply{}, talk.Refuse("", "There is a dish %s already; choose another name.", o.Name)
			}
		}
	}
	if t.has("name") {
		d.Name = t.text("name")
	}
	if t.has("course") {
		d.Course = t.values["course"].course
	}
	if err := t.setDish(d); err != nil {
		return talk.Reply{}, err
	}
	if dishHead(t, d)+d.Note == before {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to change about %s.", d.Name)
	}
	t.did("changed the dish %s", d.Name)
	rep := talk.Reply{Text: dishHead(t, d) + ".", Sections: t.tooFarSection(d),
		Next: "Next: /dish show dish:" + string(d.Key)}
	if t.has("covers") || t.has("serves") {
		rep.Sections = append(rep.Sections, t.scaled(d)...)
	}
	return rep, nil
}

func dishRemove(_ context.Context, t *Turn) (talk.Reply, error) {
	d := *t.Party.Dish(t.values["dish"].dish)
	for _, o := range t.Party.Dishes {
		for _, s := range o.Steps {
			for _, a := range s.After {
				if o.Key != d.Key && a.Dish == d.Key {
					return talk.Reply{}, talk.Refuse(fmt.Sprintf("/step after step:%s/%s of:%s/%s remove:yes", o.Key, s.Key, d.Key,
						a.Step),
						"%s of %s comes after a step of %s; take that away first.", s.Do, o.Name, d.Name)
				}
			}
		}
	}
	t.Party.Dishes = slices.DeleteFunc(t.Party.Dishes, func(o planner.Dish) bool { return o.Key == d.Key })
	t.dropAnchors(func(k planner.TaskKey) bool { dish, _, _, _, _ := k.Split(); return dish == d.Key })
	t.did("removed the dish %s", d.Name)
	return talk.Reply{Text: d.Name + " is off the menu.", Next: "Next: /dish list; /undo brings it back"}, nil
}

// dropAnchors lets no chore hang on tasks that go.
func (t *Turn) dropAnchors(goes func(planner.TaskKey) bool) {
	for i := range t.Party.Chores {
		c := &t.Party.Chores[i]
		if c.From != nil && c.From.Task != "" && goes(c.From.Task) {
			c.From = nil
		}
		c.By = slices.DeleteFunc(c.By, func(a planner.Anchor) bool { return a.Task != "" && goes(a.Task) })
	}
}

// dishHead is a dish in one line.
func dishHead(t *Turn, d *planner.Dish) string {
	line := d.Name
	if c := t.Party.Course(d.Course); c != nil {
		line += ", " + c.Name
	}
	line += ", for " + words.Count(d.Makes(t.Party), "cover")
	if d.Makes(t.Party) != d.Serves {
		line += fmt.Sprintf(" (amounts for %d)", d.Serves)
	}
	if d.Plate != "" {
		line += ", on " + d.Plate
	}
	if d.BroughtBy != "" { // what is said of it stands in theway.go
		line += ", brought by " + d.BroughtBy + travelText(d)
	}
	switch d.Out {
	case planner.Yes:
		line += ", stands out"
	case planner.No:
		line += ", does not stand out"
	}
	if d.Way != "" {
		line += ", made " + string(d.Way)
	}
	return line
}

func dishList(_ context.Context, t *Turn) (talk.Reply, error) {
	p := t.Party
	if len(p.Dishes) == 0 {
		return talk.Reply{Text: "There are no dishes yet.", Next: "Next: " + t.nextStep()}, nil
	}
	rep := talk.Reply{Text: fmt.Sprintf("%s on the menu of %s.", words.CountAs(len(p.Dishes), "dish is", "dishes are"),
		p.Name), Next: "Next: " + t.nextStep()}
	for _, c := range p.Courses {
		sec := talk.Section{Title: c.Name}
		for i := range p.Dishes {
			if d := &p.Dishes[i]; d.Course == c.Key {
				sec.Lines = append(sec.Lines, fmt.Sprintf("%s: %s%s", d.Name, words.Count(len(d.Steps), "step"),
					words.TypedKey(string(d.Key))))
			}
		}
		if len(sec.Lines) > 0 {
			rep.Sections = append(rep.Sections, sec)
		}
	}
	if lines := menu.Look(p); len(lines) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Think again about the menu", Lines: lines})
	}
	rep.Sections = append(rep.Sections, t.inShort(caution.Said(t.Party, true, everyDish))...)
	return rep, nil
}

func dishShow(_ context.Context, t *Turn) (talk.Reply, error) {
	d := t.Party.Dish(t.values["dish"].dish)
	if t.has("covers") {
		other := *d
		other.Covers = t.whole("covers", 0)
		d = &other
	}
	rep := talk.Reply{Text: dishHead(t, d) + "."}
	if d.Note != "" {
		rep.Text += "\n" + strings.ReplaceAll(d.Note, "\n", " ")
	}
	var parts, steps []string
	for i, l := range scale.Amounts(t.Party, d) {
		parts = append(parts, ingredientText(l.Text(d, d.Ingredients[i].Name), &d.Ingredients[i]))
	}
	for i := range d.Steps {
		steps = append(steps, stepLine(t, d, &d.Steps[i]))
	}
	if len(parts) == 0 && len(steps) > 0 {
		parts = []string{"not known: nobody has said what goes into it"}
	}
	if len(parts) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Ingredients", Lines: parts})
	}
	if len(steps) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Steps", Lines: steps})
	}
	if line := t.wayLine(d); line != "" {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Way", Lines: []string{line}})
	}
	rep.Sections = append(append(rep.Sections, t.tooFarSection(d)...), t.scaled(d)...)
	rep.Sections = append(rep.Sections, t.coolingSection(d)...)
	t.takeCare(&rep, caution.Said(t.Party, true, func(o *planner.Dish) bool { return o.Key == d.Key }))
	if n, why := portion.Share(t.Party, d); n > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "To choose from", Lines: []string{fmt.Sprintf(
			"Some %s are enough: %s. /dish change dish:%s covers:%d", words.Count(n, "portion"), why, d.Key, n)}})
	}
	if c, ok := portion.Of(t.Party, d); ok {
		lines := []string{c.Text()}
		if n := c.Serves(d); n > 0 && n != d.Serves && n <= planner.MaxCovers {
			lines = append(lines, fmt.Sprintf("By the handbooks these amounts serve %d; to scale it so: /dish change dish:%s "+
				"serves:%d", n, d.Key, n))
		}
		rep.Sections = append(rep.Sections, talk.Section{Title: "Amounts", Lines: lines})
	}
	rep.Aside = t.forGuests(d.Key)
	rep.Next = fmt.Sprintf("Next: /step add dish:%s, or %s", d.Key, t.nextStep())
	return rep, nil
}

// wayLine says in which way a dish is made that can be made in two, and why; empty for others.
func (t *Turn) wayLine(d *planner.Dish) string {
	c := ways.Of(t.Party, d, t.Now)
	other := planner.MadeAhead
	if c.Way == "" {
		return ""
	}
	if c.Way == planner.MadeAhead {
		other = planner.ForService
	}
	line := fmt.Sprintf("Made %s, since %s.", c.Way, c.Why)
	if d.Taken != c.Way && d.Taken != "" {
		line = fmt.Sprintf("Made %s in the plan; now I would make it %s, since %s.", d.Taken, c.Way, c.Why)
	}
	return line + fmt.Sprintf(" /dish change dish:%s way:%s has it otherwise.", d.Key, other)
}
