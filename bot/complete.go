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

// maxSuggestions is the most that a face is offered at once.
const maxSuggestions = 25

// Complete suggests what an option's text may become, from what has been typed so far. Options that were
// chosen already stand in the request; nothing is suggested to those who may not use the command.
func (b *Bot) Complete(ctx context.Context, req talk.Request, option, typed string) (out []talk.Suggestion) {
	defer func() {
		if v := recover(); v != nil {
			b.log.ErrorContext(ctx, "completion panicked", "command", req.Command, "option", option, "panic", v)
			out = nil
		}
	}()
	cmd, err := talk.Find(b.commands, talk.Request{Command: req.Command})
	if err != nil {
		return nil
	}
	var o *talk.Option
	for i := range cmd.Options {
		if cmd.Options[i].Name == option {
			o = &cmd.Options[i]
		}
	}
	if o == nil {
		return nil
	}
	t := &Turn{ctx: ctx, Request: req, Now: b.clock().UTC(), bot: b, command: cmd}
	if cmd.Access != talk.Anyone && o.Kind != talk.PartyOption {
		if t.settlePlace(ctx) != nil || t.loadParty(ctx) != nil || t.mayUse() != nil {
			return nil
		}
	}
	switch {
	case o.Kind == talk.DateOption:
		return t.daySuggestions(o, typed)
	case o.Kind == talk.TimeOption:
		return t.timeSuggestions(typed)
	case o.Offers == talk.Zones:
		for _, z := range zoneSuggestions(talk.Clean(typed, false)) {
			out = append(out, talk.Suggestion{Label: z, Value: z})
		}
		return out
	}
	return matching(t.possible(ctx, o), typed)
}

// matching keeps the suggestions that contain what was typed, those that begin with it first; when none
// does, the nearest.
func matching(all []talk.Suggestion, typed string) []talk.Suggestion {
	want := talk.Fold(talk.Clean(typed, false))
	var first, later []talk.Suggestion
	var names []string
	for _, s := range all {
		names = append(names, s.Value)
		switch l, v := talk.Fold(s.Label), talk.Fold(s.Value); {
		case strings.HasPrefix(v, want) || strings.HasPrefix(l, want):
			first = append(first, s)
		case strings.Contains(v, want) || strings.Contains(l, want):
			later = append(later, s)
		}
	}
	out := append(first, later...)
	if len(out) == 0 {
		for _, n := range talk.Nearest(want, names) {
			for _, s := range all {
				if s.Value == n {
					out = append(out, s)
					break
				}
			}
		}
	}
	return out[:min(len(out), maxSuggestions)]
}

// possible lists everything that an option may be, where that can be listed.
func (t *Turn) possible(ctx context.Context, o *talk.Option) []talk.Suggestion {
	var out []talk.Suggestion
	add := func(value, label string) {
		if r := []rune(label); len(r) > 100 {
			label = string(r[:99]) + "…"
		}
		out = append(out, talk.Suggestion{Label: label, Value: value})
	}
	p := t.Party
	switch o.Kind {
	case talk.Choice:
		for _, c := range o.Choices {
			add(c, c)
		}
	case talk.YesNo:
		add("yes", "yes")
		add("no", "no")
	case talk.PartyOption:
		all, err := t.bot.store.List(ctx, t.community())
		if err == nil {
			all, err = t.mayList(ctx, all)
		}
		if err != nil {
			return nil
		}
		for _, s := range all {
			add(s.Name, s.Name)
		}
		for _, p := range t.Request.Places {
			if !slices.ContainsFunc(all, func(s store.Summary) bool { return s.ID == p.Party }) {
				add(fmt.Sprint(p.Party), fmt.Sprintf("%s, %s", p.Name, p.Arrival.In(p.Location()).Format("Mon 2 Jan 2006")))
			}
		}
	case talk.ReadyDishOption:
		for _, c := range repertoire.List() {
			add(c.Name, c.Name)
		}
	}
	if p == nil {
		if o.Offers == talk.Commands {
			var groups []string
			for _, c := range t.bot.commands {
				if g := c.Group(); g != c.Name && !slices.Contains(groups, g) {
					groups = append(groups, g)
					add(g, g+": all of the group")
				}
				add(c.Name, "/"+c.Name+": "+c.Help)
			}
			add(helpAllWord, "every command in a line")
		}
		return out
	}
	switch o.Kind {
	case talk.PersonOption:
		for _, x := range p.People {
			add(x.Name, x.Name)
		}
	case talk.GuestOption:
		for _, g := range p.Guests {
			add(g.Name, g.Name)
		}
	case talk.CourseOption:
		for _, c := range p.Courses {
			add(string(c.Key), c.Name)
		}
	case talk.DishOption:
		for _, d := range p.Dishes {
			add(string(d.Key), d.Name)
		}
	case talk.StepOption:
		for _, d := range p.Dishes {
			for _, s := range d.Steps {
				add(string(d.Key)+"/"+string(s.Key), d.Name+": "+s.Do)
			}
		}
	case talk.TaskOption:
		for _, r := range t.offeredTasks(o) {
			label := talk.Clean(r.name, false)
			if !r.at.IsZero() {
				label += ", " + r.at.In(t.zone()).Format("Mon 15:04")
			}
			add(string(r.key), label+" ["+string(r.key)+"]")
		}
	case talk.Text:
		for _, name := range t.namesFor(o.Offers) {
			add(name, name)
		}
	}
	return out
}

// offeredTasks are the tasks that a command can be about, the asker's own first, then by when they are planned.
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
	if t.command.Access != talk.Lookers {
		over = nil
	}
	return slices.Concat(mine, others, over)
}

// namesFor lists what a text option most likely names.
func (t *Turn) namesFor(offer talk.Offer) []string {
	p := t.Party
	k := &p.Kitchen
	var out []string
	wares := func(lists ...[]planner.Ware) {
		for _, list := range lists {
			for _, w := range list {
				out = append(out, w.Name)
			}
		}
	}
	switch offer {
	case talk.Vessels:
		wares(k.Vessels)
	case talk.Appliances:
		wares(k.Appliances)
	case talk.Plates:
		wares(k.Plates)
	case talk.Equipment:
		out = []string{"oven", "burner", "grill", "counter"}
		wares(k.Vessels, k.Appliances, k.Sources)
	case talk.People:
		for _, x := range p.People {
			out = append(out, x.Name)
		}
	case talk.Skills:
		for _, x := range p.People {
			out = append(out, x.Skills...)
		}
	case talk.Steps, talk.AllSteps:
		dish := planner.DishKey(planner.Key(t.Request.Options["dish"]))
		if head, _, ok := strings.Cut(t.Request.Options["step"], "/"); ok {
			dish = planner.DishKey(head)
		}
		if d := p.Dish(dish); d != nil && offer != talk.AllSteps {
			for _, s := range d.Steps {
				out = append(out, string(s.Key))
			}
			break
		}
		for _, d := range p.Dishes {
			for _, s := range d.Steps {
				out = append(out, string(d.Key)+"/"+string(s.Key))
			}
		}
	case talk.Things:
		l := shopping.Of(p, nil)
		for _, o := range allLines(&l) {
			out = append(out, o.line.Name)
		}
	case talk.Ingredients:
		if d := p.Dish(planner.DishKey(planner.Key(t.Request.Options["dish"]))); d != nil {
			for _, g := range d.Ingredients {
				out = append(out, g.Name)
			}
			break
		}
		for _, d := range p.Dishes {
			for _, g := range d.Ingredients {
				if !slices.Contains(out, g.Name) {
					out = append(out, g.Name)
				}
			}
		}
	case talk.PeopleOrAll:
		for _, x := range p.People {
			out = append(out, x.Name)
		}
		out = append(out, "everybody")
	case talk.Shops:
		for _, d := range p.Dishes {
			for _, g := range d.Ingredients {
				if g.Shop != "" && !slices.Contains(out, g.Shop) {
					out = append(out, g.Shop)
				}
			}
		}
	}
	return out
}
