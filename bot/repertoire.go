package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/repertoire"
	"tureen/planner/safety"
	"tureen/planner/words"
)

const repertoireAddExample = `/repertoire add dish:Lemon posset`

var dietNames = func() []string {
	var names []string
	for _, d := range repertoire.Diets {
		names = append(names, string(d))
	}
	return names
}()

var courseNames = func() []string {
	var names []string
	for _, c := range repertoire.Courses {
		names = append(names, string(c))
	}
	return names
}()

var repertoireCommands = []command{
	{talk.Command{Name: "repertoire list", Help: "The shelf of ready dishes",
		Access: talk.Anyone, Looks: true, Example: "/repertoire list course:main diet:vegetarian",
		Options: []talk.Option{
			{Name: "course", Help: "only for this course", Kind: talk.Choice, Choices: courseNames, Example: "main"},
			{Name: "diet", Help: "only what suits this diet, as far as the ingredients tell",
				Kind: talk.Choice, Choices: dietNames, Example: "vegan"},
		}}, repertoireList},
	{talk.Command{Name: "repertoire show", Help: "A ready dish with its ingredients and steps",
		Access: talk.Anyone, Looks: true, Example: "/repertoire show dish:Lemon posset",
		Options: []talk.Option{{Name: "dish", Help: "which ready dish", Kind: talk.ReadyDishOption, Required: true,
			Example: "Lemon posset"}}}, repertoireShow},
	{talk.Command{Name: "repertoire add", Help: "Put a whole ready dish on the menu",
		Access: talk.CoHosts, Menu: true, Slow: true, Example: repertoireAddExample,
		Options: []talk.Option{
			{Name: "dish", Help: "which ready dish", Kind: talk.ReadyDishOption, Required: true, Example: "Lemon posset"},
			{Name: "course", Help: "in which course, if not its own", Kind: talk.CourseOption, Comes: true,
				Example: "dessert"},
			{Name: "at", Help: "when its course is served, if the party has no such course yet",
				Kind: talk.TimeOption, Example: "21:30"},
			{Name: "covers", Help: "covers to make, if not the party's",
				Kind: talk.Whole, Min: 1, Max: planner.MaxCovers, Example: "6"},
		}}, repertoireAdd},
}

// readyDish is the card that the dish option names.
func (t *Turn) readyDish() (repertoire.Card, error) {
	name := t.text("dish")
	if c, ok := repertoire.Find(name); ok {
		return c, nil
	}
	var names []string
	want := planner.Key(name)
	for _, c := range repertoire.List() {
		if want != "" && strings.Contains(planner.Key(c.Name), want) {
			names = append(names, c.Name)
		}
	}
	if len(names) > 1 {
		return repertoire.Card{}, talk.Refuse("", "More than one ready dish goes by %q: say %s.", talk.Shown(name),
			words.Or(names[:min(len(names), 5)]))
	}
	for _, c := range repertoire.List() {
		names = append(names, c.Name)
	}
	return repertoire.Card{}, talk.Refuse("/repertoire list", "There is no ready dish %q.%s", talk.Shown(name),
		talk.DidYouMean(name, names))
}

func repertoireList(_ context.Context, t *Turn) (talk.Reply, error) {
	course, diet := planner.CourseKey(t.choice("course", "")), safety.Diet(t.choice("diet", ""))
	rep := talk.Reply{Next: "Next: /repertoire show dish:…, or " + repertoireAddExample}
	add, err := talk.Find(t.bot.commands, talk.Request{Command: "repertoire add"})
	if err != nil {
		return rep, err
	}
	n := 0
	for _, key := range repertoire.Courses {
		if course != "" && course != key {
			continue
		}
		sec := talk.Section{Title: talk.Sentence(string(key))}
		sec.Title = strings.TrimSuffix(sec.Title, ".")
		for _, c := range repertoire.List() {
			if c.Course != key || diet != "" && !slices.Contains(c.Diets, diet) {
				continue
			}
			sec.Lines = append(sec.Lines, cardLine(&c))
			n++
			rep.Buttons = append(rep.Buttons, talk.Button{Label: "Add: " + short(c.Name),
				Do: add.Message(map[string]string{"dish": c.Name}), Line: n})
		}
		if len(sec.Lines) > 0 {
			rep.Sections = append(rep.Sections, sec)
		}
	}
	rep.Text = fmt.Sprintf("%s on the shelf.", words.Count(n, "ready dish"))
	if diet != "" {
		rep.Text = fmt.Sprintf("%s on the shelf that %s %s, as far as the ingredients tell. The label and the guest decide.",
			words.Count(n, "ready dish"), map[bool]string{true: "is", false: "are"}[n == 1], diet)
	}
	if n == 0 {
		rep.Next = "Next: /repertoire list"
	}
	return rep, nil
}

// cardLine is a ready dish in one line: its name, whom it suits, how early it must be begun.
func cardLine(c *repertoire.Card) string {
	line := c.Name
	if len(c.Diets) > 0 {
		var diets []string
		for _, d := range c.Diets {
			if d == safety.Vegetarian && slices.Contains(c.Diets, safety.Vegan) || d == safety.DairyFree &&
				slices.Contains(c.Diets, safety.Vegan) {
				continue // said by vegan
			}
			diets = append(diets, string(d))
		}
		line += " (" + strings.Join(diets, ", ") + ")"
	}
	line += ", " + leadText(c.Lead())
	if c.Ahead != "" {
		line += ", mostly made ahead"
	}
	return line
}

func leadText(m planner.Minutes) string {
	switch {
	case m < 60:
		return fmt.Sprintf("about %s in all", words.Short((m+4)/5*5))
	case m < 8*60:
		return fmt.Sprintf("about %s in all", words.Short((m+14)/15*15))
	}
	return "begun the day before"
}

func repertoireShow(_ context.Context, t *Turn) (talk.Reply, error) {
	c, err := t.readyDish()
	if err != nil {
		return talk.Reply{}, err
	}
	d := c.Dish()
	rep := talk.Reply{Text: fmt.Sprintf("%s, for %s: %s.", c.Name, words.Count(c.Serves, "cover"), leadText(c.Lead())),
		Next: "Next: /repertoire add dish:" + c.Name}
	if d.Note != "" {
		rep.Text += "\n" + d.Note
	}
	if s := d.Step(c.Ahead); s != nil {
		rep.Text += "\nBefore the day, up to this: " + talk.Sentence(words.Lower(s.Do))
	}
	if c.Source != common {
		rep.Text += "\nSource: " + talk.Sentence(c.Source)
	}
	if len(c.Diets) > 0 {
		var diets []string
		for _, x := range c.Diets {
			diets = append(diets, string(x))
		}
		rep.Text += "\n" + talk.Sentence("as far as the ingredients tell "+words.And(diets)) +
			" The label and the guest decide."
	}
	var parts, steps []string
	for i := range d.Ingredients {
		parts = append(parts, ingredientLine(&d.Ingredients[i]))
	}
	for i := range d.Steps {
		steps = append(steps, cardStep(&d, &d.Steps[i]))
	}
	rep.Sections = []talk.Section{{Title: "Ingredients", Lines: parts}, {Title: "Steps", Lines: steps}}
	rep.Buttons = []talk.Button{{Label: "Put it on the menu", Do: "repertoire add dish:" + string(c.Key)}}
	return rep, nil
}

// common is what a card says of facts that no page is named for.
const common = "common practice, no source"

// cardStep is a step of a ready dish in one line: what is done, how long, in which oven, until when.
func cardStep(d *planner.Dish, s *planner.Step) string {
	line := fmt.Sprintf("%s, %s, %s", s.Do, spanText(s.Time), attentionText(s.Attention, s.Hands, s.MaxHands, s.Every))
	if s.Grows == planner.InRounds {
		line += fmt.Sprintf(", for each %s", words.Count(s.PerRound, "cover"))
	}
	for _, u := range s.Uses {
		if u.What == planner.AnOven && u.C > 0 {
			line += fmt.Sprintf(", oven at %d °C", u.C)
		}
	}
	if s.Until != "" {
		line += ", until " + s.Until
	}
	for _, a := range s.After {
		if a.Wait.Least >= 60 && !a.FromStart {
			if from := d.Step(a.Step); from != nil {
				line += fmt.Sprintf(" (at least %s after %q)", words.Short(a.Wait.Least), from.Do)
			}
		}
	}
	return line
}

func repertoireAdd(_ context.Context, t *Turn) (talk.Reply, error) {
	c, err := t.readyDish()
	if err != nil {
		return talk.Reply{}, err
	}
	key, err := t.newDishKey(c.Name)
	if err != nil {
		return talk.Reply{}, err
	}
	course, err := t.courseFor(&c)
	if err != nil {
		return talk.Reply{}, err
	}
	d := c.Dish()
	d.Key, d.Course, d.Covers = key, course, t.whole("covers", 0)
	without := ""
	if d.Plate != "" && !slices.ContainsFunc(t.Party.Kitchen.Plates, func(w planner.Ware) bool {
		return w.Name == d.Plate
	}) {
		without = fmt.Sprintf("\nYour kitchen has no %s; say with /dish change what it is served on.", d.Plate)
		d.Plate = ""
	}
	t.Party.Dishes = append(t.Party.Dishes, d)
	t.did("added the ready dish %s", c.Name)
	rep := talk.Reply{
		Text: fmt.Sprintf("%s is on the menu, as %s, with %s and %s.%s", c.Name, words.Lower(t.Party.Course(course).Name),
			words.Count(len(d.Ingredients), "ingredient"), words.Count(len(d.Steps), "step"), without),
		Next: "Next: /repertoire list for another dish, or /plan make",
	}
	if d.Note != "" {
		rep.Text += "\n" + d.Note
	}
	rep.Aside = t.forGuests(d.Key)
	rep.Sections = t.scaled(t.Party.Dish(d.Key))
	return rep, nil
}

// besides says in which of a party's courses a ready dish goes that has none of its own there.
var besides = map[planner.CourseKey][]planner.CourseKey{
	"side": {"main", "fish"}, "salad": {"main", "starter"}, "bread": {"soup", "starter", "cheese", "main"},
}

// courseFor finds the course for a ready dish: the one that is named, the party's own of that name, the one that it
// goes with, or a new one at the time that is given.
func (t *Turn) courseFor(c *repertoire.Card) (planner.CourseKey, error) {
	if t.has("course") {
		return t.values["course"].course, nil
	}
	own := func(k planner.CourseKey) planner.CourseKey {
		for i := range t.Party.Courses {
			if x := &t.Party.Courses[i]; x.Key == k || strings.HasPrefix(planner.Key(x.Name), string(k)) {
				return x.Key
			}
		}
		return ""
	}
	if k := own(c.Course); k != "" {
		return k, nil
	}
	if t.has("at") {
		at, err := t.time("at")
		if err != nil {
			return "", err
		}
		if err := t.notPast(at, t.zone()); err != nil {
			return "", err
		}
		name := strings.TrimSuffix(talk.Sentence(string(c.Course)), ".")
		if err := t.addCourse(name, planner.Serving{At: at, Early: startEarly, Late: startLate}); err != nil {
			return "", err
		}
		sortCourses(t.Party)
		return planner.CourseKey(planner.Key(name)), nil
	}
	for _, k := range besides[c.Course] {
		if k = own(k); k != "" {
			return k, nil
		}
	}
	if c.Course != "fish" || len(t.Party.Courses) == 0 { // among other courses fish may be meant as the main one
		if k, usual := t.usualCourse(string(c.Course)); usual {
			return k, nil
		}
	}
	try := fmt.Sprintf("/repertoire add dish:%s at:20:00", c.Name)
	if len(t.Party.Courses) > 0 {
		try += ", or course:" + string(t.Party.Courses[0].Key)
	}
	return "", talk.Refuse(try, "The party has no course for it (%s); say when to serve one, or in which course it goes.",
		c.Course)
}
