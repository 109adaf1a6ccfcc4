package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/repertoire"
	"tureen/planner/shopping"
	"tureen/store"
)

// suggestions are what an option's text may become, before they are held against what was typed.
type suggestions []talk.Suggestion

func (all *suggestions) add(value, label string) {
	if r := []rune(label); len(r) > 100 {
		label = string(r[:99]) + "…"
	}
	*all = append(*all, talk.Suggestion{Label: label, Value: value})
}

// possible lists everything that an option may be, where that can be listed.
func (t *Turn) possible(ctx context.Context, o *talk.Option) suggestions {
	var out suggestions
	switch {
	case o.Kind == talk.Choice:
		for _, c := range o.Choices {
			out.add(c, c)
		}
	case o.Kind == talk.YesNo:
		out.add("yes", "yes")
		out.add("no", "no")
	case o.Kind == talk.PartyOption:
		return t.offeredParties(ctx)
	case o.Kind == talk.ReadyDishOption:
		for _, c := range repertoire.List() {
			out.add(c.Name, c.Name)
		}
	case t.Party != nil:
		return t.offeredNames(o)
	case o.Offers == talk.Commands:
		return t.offeredCommands()
	}
	return out
}

// offeredParties are those of the community, and those elsewhere that the asker may speak of here.
func (t *Turn) offeredParties(ctx context.Context) (out suggestions) {
	all, err := t.bot.store.List(ctx, t.community())
	if err == nil {
		all, err = t.mayList(ctx, all)
	}
	if err != nil {
		return nil
	}
	for _, s := range all {
		out.add(s.Name, s.Name)
	}
	for _, p := range t.Request.Places {
		if !slices.ContainsFunc(all, func(s store.Summary) bool { return s.ID == p.Party }) {
			out.add(fmt.Sprint(p.Party), fmt.Sprintf("%s, %s", p.Name, p.Arrival.In(p.Location()).Format("Mon 2 Jan 2006")))
		}
	}
	return out
}

func (t *Turn) offeredCommands() (out suggestions) {
	var groups []string
	used := lessons(usedMost)
	for _, l := range used {
		out.add(l.say, "/"+l.say+": "+l.want)
	}
	for _, c := range t.bot.commands {
		if g := c.Group(); g != c.Name && !slices.Contains(groups, g) {
			groups = append(groups, g)
			out.add(g, g+": all of the group")
		}
		if !slices.ContainsFunc(used, func(l lesson) bool { return l.say == c.Name }) {
			out.add(c.Name, "/"+c.Name+": "+c.Help)
		}
	}
	out.add(helpAllWord, "every command in a line")
	return out
}

// offeredNames are those of what the party has.
func (t *Turn) offeredNames(o *talk.Option) (out suggestions) {
	p := t.Party
	switch o.Kind {
	case talk.PersonOption:
		for _, x := range p.People {
			out.add(x.Name, x.Name)
		}
	case talk.GuestOption:
		for _, g := range p.Guests {
			out.add(g.Name, g.Name)
		}
	case talk.CourseOption:
		for _, c := range p.Courses {
			out.add(string(c.Key), c.Name)
		}
	case talk.DishOption:
		for _, d := range p.Dishes {
			out.add(string(d.Key), d.Name)
		}
	case talk.StepOption:
		for _, d := range p.Dishes {
			for _, s := range d.Steps {
				out.add(string(d.Key)+"/"+string(s.Key), d.Name+": "+s.Do)
			}
		}
	case talk.TaskOption:
		for _, r := range t.offeredTasks(o) {
			label := talk.Clean(r.name, false)
			if !r.at.IsZero() {
				label += ", " + r.at.In(t.zone()).Format("Mon 15:04")
			}
			out.add(string(r.key), label+" ["+string(r.key)+"]")
		}
		if o.Many {
			t.offerMany(&out)
		}
	case talk.Text:
		for _, name := range t.namesFor(o.Offers) {
			out.add(name, name)
		}
	}
	return out
}

// offeredTasks are the tasks that a command can be about, the asker's own first, then by when they are planned, those
// under way where they fit the command.
// What is over is offered only to whoever asks about a task.
func (t *Turn) offeredTasks(o *talk.Option) []taskRow {
	var mine, others, over []taskRow
	for _, r := range t.taskRows("all") {
		w := t.Party.WorkOn(r.key)
		own := t.Me != nil && w != nil && w.Person == t.Me.Key
		switch {
		case r.over:
			over = append(over, r)
		case o.Free && w != nil && w.Person != "":
		case own:
			mine = append(mine, r)
		default:
			others = append(others, r)
		}
	}
	if t.command.Access != talk.Onlookers {
		over = nil
	}
	all := slices.Concat(mine, others, over)
	underWay := func(r taskRow) int {
		if t.Party.Progress(r.key) == planner.Started {
			return 1
		}
		return 0
	}
	switch t.command.Name { // what is going on comes first where it can end, and last where it would begin
	case "task done", "task longer", "task again":
		slices.SortStableFunc(all, func(a, b taskRow) int { return underWay(b) - underWay(a) })
	case "task start", "task snooze", "task day", "task claim":
		slices.SortStableFunc(all, func(a, b taskRow) int { return underWay(a) - underWay(b) })
	}
	return all
}

// namesFor lists what a text option most likely names.
func (t *Turn) namesFor(offer talk.Offer) []string {
	k := &t.Party.Kitchen
	switch offer {
	case talk.Vessels:
		return wareNames(k.Vessels)
	case talk.Appliances:
		return wareNames(k.Appliances)
	case talk.Plates:
		return wareNames(k.Plates)
	case talk.Equipment:
		return append([]string{"oven", "burner", "grill", "counter"}, wareNames(k.Vessels, k.Appliances, k.HotPlaces)...)
	case talk.People:
		return t.peopleNames()
	case talk.PeopleOrAll:
		return append(t.peopleNames(), "everybody")
	case talk.Skills:
		var out []string
		for _, x := range t.Party.People {
			out = append(out, x.Skills...)
		}
		return out
	case talk.Steps, talk.AllSteps:
		return t.stepNames(offer == talk.AllSteps)
	case talk.Ingredients:
		dish := t.Party.Dish(planner.DishKey(planner.Key(t.Request.Options["dish"])))
		return t.ingredientWords(dish, func(g *planner.Ingredient) string { return g.Name })
	case talk.Shops:
		return t.ingredientWords(nil, func(g *planner.Ingredient) string { return g.Shop })
	case talk.Items:
		var out []string
		l := shopping.Of(t.Party, nil)
		for _, o := range allLines(&l) {
			out = append(out, o.line.Name)
		}
		return out
	}
	return nil
}

func wareNames(lists ...[]planner.Ware) (out []string) {
	for _, w := range slices.Concat(lists...) {
		out = append(out, w.Name)
	}
	return out
}

func (t *Turn) peopleNames() (out []string) {
	for _, x := range t.Party.People {
		out = append(out, x.Name)
	}
	return out
}

// stepNames are the steps of the dish that the message names; without one, or for all, every dish's with its dish.
func (t *Turn) stepNames(all bool) (out []string) {
	dish := planner.DishKey(planner.Key(t.Request.Options["dish"]))
	if head, _, ok := strings.Cut(t.Request.Options["step"], "/"); ok {
		dish = planner.DishKey(head)
	}
	if d := t.Party.Dish(dish); d != nil && !all {
		for _, s := range d.Steps {
			out = append(out, string(s.Key))
		}
		return out
	}
	for _, d := range t.Party.Dishes {
		for _, s := range d.Steps {
			out = append(out, string(d.Key)+"/"+string(s.Key))
		}
	}
	return out
}

// ingredientWords are a word of each ingredient, of one dish or, for nil, of all; each word once.
func (t *Turn) ingredientWords(of *planner.Dish, word func(*planner.Ingredient) string) (out []string) {
	for i := range t.Party.Dishes {
		d := &t.Party.Dishes[i]
		for j := range d.Ingredients {
			w := word(&d.Ingredients[j])
			if w != "" && (of == nil || of == d) && !slices.Contains(out, w) {
				out = append(out, w)
			}
		}
	}
	return out
}
