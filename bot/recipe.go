package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/export"
	"tureen/planner/food"
	"tureen/planner/recipe"
	"tureen/planner/safety"
	"tureen/planner/several"
	"tureen/planner/words"
)

const (
	recipeReadExample = `/recipe read text:"Carrot soup for 6. Take 1 kg carrots, 2 onions and 1 l stock. Chop the ` +
		`onions. Fry them for 10 minutes. Add the rest and simmer for 25 minutes."`
	recipeLineExample = `/recipe line text:"Pear tart, for 8: roll the pastry 20 min, bake 40 min at 180, cool 1 h" ` +
		`course:dessert`
	askedAtOnce   = 3 // questions shown with a reading
	courseButtons = 4
)

var recipeCommands = []command{
	{talk.Command{Name: "recipe read", Help: "Read a recipe and see what is understood; nothing is kept yet",
		Access: talk.CoHosts, Example: recipeReadExample,
		Options: []talk.Option{
			{Name: "text", Help: "the recipe: ingredients, then the method",
				Kind: talk.LongText, Example: "Carrot soup for 6 …"},
			{Name: "file", Help: "a file with it: text, Markdown, a saved page, schema.org data",
				Kind: talk.FileOption, Example: "@soup.txt"},
			{Name: "address", Help: "the https:// address of its page, where whoever runs tureen allows that",
				Kind: talk.AddressOption, Example: "https://example.com/soup"},
			{Name: "which", Help: "of several recipes in the text that was sent last: its number",
				Kind: talk.Whole, Min: 1, Max: 50, Example: "2"},
		}}, recipeRead},
	{talk.Command{Name: "recipe keep", Help: "Put the recipe that was read on the menu",
		Access: talk.CoHosts, Menu: true, Slow: true, Example: "/recipe keep course:main",
		Options: []talk.Option{
			{Name: "course", Help: "in which course", Kind: talk.CourseOption, Comes: true, Example: "main"},
			{Name: "serves", Help: "covers that its amounts are for, if it was read wrong",
				Kind: talk.Whole, Min: 1, Max: planner.MaxCovers, Example: "6"},
			{Name: "covers", Help: "covers to make, if not the party's",
				Kind: talk.Whole, Min: 1, Max: planner.MaxCovers, Example: "10"},
			{Name: "name", Help: "another name", Kind: talk.Text, Example: "Carrot soup"},
			{Name: "all", Help: "yes: every recipe of the text that was sent last, as a dish each", Kind: talk.YesNo,
				Example: "yes"},
			{Name: "looked", Help: "yes: you have looked at it, though much of it was not understood", Kind: talk.YesNo,
				Example: "yes"},
		}}, recipeKeep},
	{talk.Command{Name: "recipe correct", Help: "Correct what was read of a recipe, before it is kept: a step, or the " +
		"whole",
		Access:  talk.CoHosts,
		Example: "/recipe correct step:2 time:25-30 min attention:watch", Options: correctOptions}, recipeCorrect},
	{talk.Command{Name: "recipe line", Help: "Put a dish on the menu in one line, with its main times",
		Access: talk.CoHosts, Menu: true, Slow: true, Example: recipeLineExample,
		Options: []talk.Option{
			{Name: "text", Help: "name, course, for how many: what is done and how long, with commas",
				Kind: talk.LongText, Required: true, Example: "Pear tart, for 8: bake 40 min at 180"},
			{Name: "course", Help: "in which course, if the line does not say", Kind: talk.CourseOption, Comes: true,
				Example: "dessert"},
		}}, recipeLine},
	{talk.Command{Name: "recipe export", Help: "A dish as a schema.org recipe, for other programs",
		Access: talk.Onlookers, Example: "/recipe export dish:pear-tart",
		Options: []talk.Option{{Name: "dish", Help: "which dish", Kind: talk.DishOption, Required: true,
			Example: "pear-tart"}}}, recipeExport},
}

// unreadable makes a refusal of a reader's error.
func unreadable(err error) error {
	var r *recipe.Refusal
	if errors.As(err, &r) {
		return talk.Refuse("", "%s %s", r.Why, r.Try)
	}
	return err
}

func recipeRead(ctx context.Context, t *Turn) (talk.Reply, error) {
	source, err := t.recipeSource(ctx)
	if err != nil {
		return talk.Reply{}, unreadable(err)
	}
	if all := several.In(source); all != nil {
		return t.whichRecipe(ctx, source, all)
	}
	r, err := recipe.ReadFile(source)
	if err != nil {
		// The recipe before it must not be kept in its place.
		return talk.Reply{}, errors.Join(unreadable(err), t.putReadingAside(ctx))
	}
	said, err := t.correctedBefore(ctx, source)
	if err != nil {
		return talk.Reply{}, err
	}
	r.TakeCovers(t.Party.Covers)
	before := shownOf(r)
	for _, c := range said {
		if r.Correct(c) != nil {
			if r, err = recipe.ReadFile(source); err != nil {
				return talk.Reply{}, unreadable(err)
			}
			r.TakeCovers(t.Party.Covers)
			said = nil
			break
		}
	}
	if _, err := t.keepReadingInMind(ctx, source, said); err != nil {
		return talk.Reply{}, err
	}
	t.bot.heard.readingWaits(t, false)
	rep := t.readingReply(r)
	if len(said) > 0 {
		rep.Text += " What was corrected in it the last time is in it again."
		rep.Sections = append(rep.Sections, before.changed(r, nil)...)
		rep.Buttons = append(rep.Buttons, t.button("As it was read", "recipe correct", "text", asItWasRead))
	}
	return rep, nil
}

// recipeSource is the recipe as it was sent: pasted, attached, or behind an address.
func (t *Turn) recipeSource(ctx context.Context) ([]byte, error) {
	ways := 0
	for _, way := range []string{"text", "file", "address", "which"} {
		if t.has(way) {
			ways++
		}
	}
	switch {
	case ways > 1:
		return nil, talk.Refuse(recipeReadExample, "Give the recipe as text, as a file or by its address, one of them.")
	case t.has("which"):
		all, err := t.severalInMind(ctx)
		if n := t.whole("which", 0); err != nil || n > len(all) {
			return nil, errors.Join(err, talk.Refuse("/recipe read which:1", "There are %s in it.",
				words.Count(len(all), "recipe")))
		}
		return all[t.whole("which", 0)-1].Source, nil
	case t.has("address"):
		return t.fetched(ctx, t.text("address"))
	case t.has("text") && recipe.OnlyAddress(t.text("text")):
		return t.fetched(ctx, t.text("text"))
	case t.has("text"):
		return []byte(t.text("text")), nil
	case t.has("file"):
		return t.values["file"].File.Data, nil
	}
	return nil, talk.Refuse(recipeReadExample, "Give the recipe as text:… or file:@FILE.")
}

// fetched is a page's content, where the bot may open addresses.
func (t *Turn) fetched(ctx context.Context, address string) ([]byte, error) {
	if t.bot.fetch == nil {
		return nil, talk.Refuse("", "I open no addresses here. Save the page and attach the file, or paste the recipe's "+
			"text; whoever runs tureen can allow addresses with -fetch.")
	}
	return t.bot.fetch.Fetch(ctx, address)
}

// readingReply shows what was understood of a recipe, asks what is unsure, and says how to put both right.
func (t *Turn) readingReply(r *recipe.Reading) talk.Reply {
	rep := talk.Reply{Text: fmt.Sprintf("Check what I read: %s, %s, with %s and %s. It is not on the menu yet.",
		talk.Clean(r.Title, false), r.For(),
		words.Count(len(r.Ingredients), "ingredient"), words.Count(len(r.Steps), "step"))}
	if r.HardlyRead() {
		rep.Text = "I did not understand more than a third of this: look at it before it is planned. " + rep.Text
		var left []string
		for _, text := range r.NotRead() {
			left = append(left, talk.Clean(text, false))
		}
		rep.Sections = append(rep.Sections, talk.Section{Title: "Not understood", Lines: left})
	}
	if r.Unlisted {
		rep.Text = fmt.Sprintf("Check what I read: %s, with %s; what goes into it is not known. It is not on the menu yet.",
			talk.Clean(r.Title, false), words.Count(len(r.Steps), "step"))
	}
	var parts, steps, asked, taken []string
	for i := range r.Ingredients {
		parts = append(parts, strings.ReplaceAll(talk.Clean(r.Ingredients[i].Outline(), false), " | ", ", "))
	}
	for i, line := range r.StepLines() {
		steps = append(steps, fmt.Sprintf("%d. %s", r.Number(i), talk.Clean(line, false)))
	}
	keeps := false
	for n, q := range r.Questions {
		if n >= t.questionsLeft() {
			taken = append(taken, talk.Clean(takenFor(q), false)+". "+correction(r, q))
			continue
		}
		asked = append(asked, strings.TrimSpace(talk.Clean(q.Ask, false)+" I take: "+q.Guess+". "+correction(r, q)))
		keeps = keeps || q.About == "keeps"
	}
	if len(parts) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Ingredients", Lines: parts})
	}
	rep.Sections = append(rep.Sections, talk.Section{Title: "Steps", Lines: steps})
	if len(asked) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "I am not sure", Lines: asked})
	}
	if len(taken) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "I took", Lines: taken})
	}
	had, came := slices.Clone(t.Party.Courses), t.came
	guess := t.guessCourse(r)
	courses := append([]planner.Course{*t.Party.Course(guess)}, slices.DeleteFunc(slices.Clone(t.Party.Courses),
		func(c planner.Course) bool { return c.Key == guess })...)
	t.Party.Courses, t.came = had, came // a course comes with what is kept, not with what is read
	for _, c := range courses[:min(len(courses), courseButtons)] {
		rep.Buttons = append(rep.Buttons, t.button("Keep it: "+c.Name, "recipe keep", "course", string(c.Key)))
	}
	if keeps {
		rep.Buttons = append(rep.Buttons, t.button("It keeps on the counter", "recipe correct", "keeps", "yes"),
			t.button("It spoils", "recipe correct", "keeps", "no"))
	}
	rep.Next = "Next: /recipe keep course:" + string(guess)
	if r.Serves == 0 && !r.Unlisted {
		rep.Next += " serves:…"
	}
	rep.Next += ", or first /recipe correct step:… for a step that I read wrong"
	return rep
}

// questionsLeft is how many questions a recipe may ask: of all those that a party's first menu is made of, until it is
// planned, together no more than of one.
func (t *Turn) questionsLeft() int {
	left := askedAtOnce
	if t.Plan == nil {
		for i := range t.Party.Dishes {
			left -= t.Party.Dishes[i].Asked
		}
	}
	return max(left, 0)
}

// takenFor says what is taken for what is not asked.
func takenFor(q recipe.Question) string { return strings.TrimSuffix(q.Ask, "?") + ": " + q.Guess }

func recipeKeep(ctx context.Context, t *Turn) (talk.Reply, error) {
	all := t.yes("all", false)
	if all {
		if rep, err := t.keepAll(ctx); err == nil || !t.oneInMind(ctx) {
			return rep, err
		}
	}
	if !t.has("course") && !all {
		return talk.Reply{}, talk.Refuse("/recipe keep course:main", "/recipe keep needs course: in which course. For "+
			"example course:main")
	}
	r, source, said, err := t.readingInMind(ctx)
	if err != nil {
		return talk.Reply{}, err
	}
	course := t.values["course"].course
	if !t.has("course") {
		course = t.guessCourse(r)
	}
	if r.HardlyRead() && len(said) == 0 && !t.yes("looked", false) {
		return talk.Reply{}, talk.Refuse("/recipe keep course:"+string(course)+" looked:yes",
			"More than a third of %s was not understood. Look at it against the recipe, and correct it with /recipe correct; "+
				"or say that you have looked.", talk.Clean(r.Title, false))
	}
	asked := len(r.Questions)
	if len(said) > 0 { // what was asked, whatever has been answered
		if first, err := recipe.ReadFile(source); err == nil {
			asked = len(first.Questions)
		}
	}
	if t.has("serves") {
		r.Serves = t.whole("serves", 0)
		r.Questions = slices.DeleteFunc(slices.Clone(r.Questions), func(q recipe.Question) bool {
			return q.About == "serves"
		})
	}
	if t.has("name") {
		r.Title = t.text("name")
	}
	asked = min(asked, t.questionsLeft())
	rep, err := t.keepReading(r, course)
	if err == nil {
		t.Party.Dishes[len(t.Party.Dishes)-1].Asked = asked
		t.bot.heard.readingDone(t)
	}
	return rep, err
}

func recipeLine(_ context.Context, t *Turn) (talk.Reply, error) {
	return t.lineOnMenu(t.text("text"))
}

// lineOnMenu puts a dish of one line on the menu.
func (t *Turn) lineOnMenu(text string) (talk.Reply, error) {
	r, name, err := recipe.ReadLine(text)
	if err != nil {
		return talk.Reply{}, unreadable(err)
	}
	course := t.values["course"].course
	if !t.has("course") {
		if name == "" && len(t.Party.Courses) == 1 {
			name = t.Party.Courses[0].Name
		}
		if name == "" {
			return talk.Reply{}, talk.Refuse(recipeLineExample, "Say in which course: after the name, or with course:.")
		}
		if course, err = t.findCourse(name); err != nil {
			if key, usual := t.usualCourse(name); usual {
				course, err = key, nil
			}
		}
		if err != nil {
			rep, _ := refused(err)
			return talk.Reply{}, talk.Refuse(recipeLineExample, "%s", talk.Sentence(rep.Text))
		}
	}
	if r.Serves == 0 {
		r.Serves = t.Party.Covers
		r.Questions = slices.DeleteFunc(r.Questions, func(q recipe.Question) bool { return q.About == "serves" })
	}
	return t.keepReading(r, course)
}

// keepReading puts the dish of a reading on the menu.
func (t *Turn) keepReading(r *recipe.Reading, course planner.CourseKey) (talk.Reply, error) {
	r.Title = talk.Clean(r.Title, false)
	if r.Serves == 0 && r.Unlisted {
		r.Serves = t.Party.Covers
	}
	d, questions := r.Dish(course, t.whole("covers", 0))
	if len(d.Steps) > maxSteps || len(d.Ingredients) > maxIngredients {
		return talk.Reply{}, talk.Refuse("", "%s has %d steps and %d ingredients; %d and %d are the most. Send it in two "+
			"parts.", d.Name, len(d.Steps), len(d.Ingredients), maxSteps, maxIngredients)
	}
	key, err := t.newDishKey(d.Name)
	if err != nil {
		return talk.Reply{}, err
	}
	d.Key = key
	cleanDish(&d)
	days, err := t.onTheirDays(&d, r)
	if err != nil {
		return talk.Reply{}, err
	}
	lacks := t.fitKitchen(&d)
	t.Party.Dishes = append(t.Party.Dishes, d)
	t.did("added the dish %s from a recipe", d.Name)
	rep := talk.Reply{
		Text: fmt.Sprintf("%s is on the menu, as %s, with %s and %s; amounts are for %s.", d.Name,
			t.Party.Course(course).Name,
			words.Count(len(d.Ingredients), "ingredient"), words.Count(len(d.Steps), "step"), words.Count(d.Serves, "cover")),
		Next: fmt.Sprintf("Next: /dish show dish:%s, or /plan make", key),
	}
	if len(d.Ingredients) == 0 {
		rep.Text = fmt.Sprintf("%s is on the menu, as %s, with %s, for %s. What goes into it is not known.", d.Name,
			t.Party.Course(course).Name, words.Count(len(d.Steps), "step"), words.Count(d.Makes(t.Party), "cover"))
		rep.Sections = append(rep.Sections, talk.Section{Title: "I took", Lines: append(days, unknownLines(&d, r)...)})
	}
	rep.Aside = t.forGuests(d.Key)
	if len(lacks) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "The kitchen", Lines: lacks})
	}
	rep.Sections = append(rep.Sections, t.scaled(t.Party.Dish(key))...)
	var open []string
	for _, q := range questions[:min(len(questions), askedAtOnce)] {
		open = append(open, talk.Clean(takenFor(q), false)+". "+mend(&d, q))
	}
	if len(open) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "I took", Lines: open})
	}
	return rep, nil
}

// unknownLines says what is taken of a dish of which nobody has said what goes into it.
func unknownLines(d *planner.Dish, r *recipe.Reading) []string {
	out := []string{fmt.Sprintf("Your guests' table has a question mark for it, and nothing of it is on the shopping "+
		"list; say what goes in with /ingredient add dish:%s name:… amount:…", d.Key)}
	if slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return s.Leaves.Kind == safety.Cooked }) {
		out = append(out, "It is taken for cooked food that spoils")
	}
	for i := range r.Steps {
		if s := &d.Steps[i]; r.Steps[i].Guessed {
			out = append(out, fmt.Sprintf("%s takes %s; else /step change step:%s/%s time:20 min", words.Upper(s.Do),
				words.Short(s.Time.Likely), d.Key, s.Key))
		} else if u := slices.IndexFunc(s.Uses, func(u planner.Use) bool { return u.What == planner.AnOven }); u >= 0 &&
			r.Steps[i].Oven.Temperature == 0 {
			out = append(out, fmt.Sprintf("The oven stands at %d °C; else /step use step:%s/%s what:oven temperature:200",
				s.Uses[u].C, d.Key, s.Key))
		}
	}
	return out
}

// mend is the message that answers a question about a dish that is on the menu.
func mend(d *planner.Dish, q recipe.Question) string {
	step := string(d.Key) + "/"
	if q.Step >= 0 && q.Step < len(d.Steps) {
		step += string(d.Steps[q.Step].Key)
	} else {
		step += string(d.Steps[0].Key)
	}
	switch q.About {
	case "serves":
		return fmt.Sprintf("To change it: /dish change dish:%s serves:8", d.Key)
	case "oven":
		return fmt.Sprintf("To change it: /step use step:%s what:oven temperature:200", step)
	case "keeps":
		for i := range d.Ingredients {
			if _, known := food.KindOf(d.Ingredients[i].Name); !known {
				return fmt.Sprintf("To change it: /ingredient change dish:%s ingredient:%s food:none", d.Key, d.Ingredients[i].Name)
			}
		}
		return fmt.Sprintf("To change it: /step change step:%s leaves:none", step)
	case "ingredients":
		return fmt.Sprintf("To add one: /ingredient add dish:%s name:… amount:…", d.Key)
	case "parts":
		return fmt.Sprintf("To change it: /ingredient change dish:%s ingredient:… step:…", d.Key)
	case "order":
		return fmt.Sprintf("To change it: /step after step:%s of:…", step)
	case "heat":
		return fmt.Sprintf("To add it: /step add dish:%s name:cook do:… time:40 min oven:180", d.Key)
	}
	return fmt.Sprintf("To change it: /step change step:%s time:20 min", step)
}

// cleanDish takes out of a recipe's words what could change how a message is shown.
func cleanDish(d *planner.Dish) {
	d.Name, d.Note = talk.Clean(d.Name, false), talk.Clean(d.Note, false)
	for i := range d.Ingredients {
		g := &d.Ingredients[i]
		g.Name, g.Note = talk.Clean(g.Name, false), talk.Clean(g.Note, false)
	}
	for i := range d.Steps {
		s := &d.Steps[i]
		s.Do, s.Until, s.Component, s.Source = talk.Clean(s.Do, false), talk.Clean(s.Until, false),
			talk.Clean(s.Component, false), talk.Clean(s.Source, true)
	}
}

// fitKitchen leaves away what a recipe uses and the kitchen does not have, and says so.
func (t *Turn) fitKitchen(d *planner.Dish) []string {
	var lacks []string
	say := func(format string, args ...any) {
		if s := fmt.Sprintf(format, args...); !slices.Contains(lacks, s) {
			lacks = append(lacks, s)
		}
	}
	hottest := 0
	for _, o := range t.Party.Kitchen.Ovens {
		hottest = max(hottest, o.MaxC)
	}
	for i := range d.Steps {
		s := &d.Steps[i]
		s.Uses = slices.DeleteFunc(s.Uses, func(u planner.Use) bool {
			if u.What == planner.AnOven {
				return false // a dish that needs an oven is refused where there is none
			}
			problems := planner.ValidateUse(t.Party, string(s.Key), &u)
			if len(problems) == 0 {
				return false
			}
			name := u.Name
			if name == "" {
				name = string(u.What)
			}
			say("It has no %s, which the recipe uses; the plan does without. Add it with /kitchen ware, or see how you manage.",
				name)
			return true
		})
		for k := range s.Uses {
			if u := &s.Uses[k]; u.What == planner.AnOven && hottest > 0 && u.C > hottest {
				say("The oven reaches %d °C; the recipe wants %d °C. It is planned at %d °C: let it take longer.", hottest, u.C,
					hottest)
				u.C = hottest
			}
		}
	}
	return lacks
}

func recipeExport(_ context.Context, t *Turn) (talk.Reply, error) {
	d := t.Party.Dish(t.values["dish"].dish)
	data, err := export.JSONLD(d)
	if err != nil {
		return talk.Reply{}, err
	}
	return talk.Reply{
		Text: fmt.Sprintf("%s as a recipe for other programs. How long its food keeps between the steps is not in it.",
			d.Name),
		Files: []talk.File{{Name: string(d.Key) + ".jsonld", Type: "application/ld+json", Data: data, Alt: d.Name +
			" as a schema.org recipe"}},
		Next: "Next: /recipe read file:… reads it back",
	}, nil
}
