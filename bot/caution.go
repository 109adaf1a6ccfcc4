package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/caution"
	"tureen/planner/words"
)

// Warnings about food that no clock sees (package caution). Each is said in full when it comes to hold of a dish, and
// in short with every plan, until somebody says that they know it.

const (
	mostCautions = 3 // said in full in one reply
	mostInShort  = 8
	careTitle    = "Take care"
)

var cautionCommands = []command{
	{talk.Command{Name: "dish know", Help: "Say that you know a warning about a dish, so that it is not said again",
		Access: talk.CoHosts, Example: "/dish know dish:pear-tart about:raw egg",
		Options: []talk.Option{
			{Name: "dish", Help: "which dish", Kind: talk.DishOption, Required: true, Example: "pear-tart"},
			{Name: "about", Help: "which warning; all that hold of the dish by default", Kind: talk.Text, Example: "raw egg"},
		}}, dishKnow},
}

// takeCare says warnings in full, each with a button for who knows it.
func (t *Turn) takeCare(rep *talk.Reply, all []caution.Caution) {
	if len(all) == 0 {
		return
	}
	var lines []string
	for _, c := range all {
		d := t.Party.Dish(c.Dish)
		lines = append(lines, d.Name+": "+c.Text)
		b := t.button(fmt.Sprintf("I know: %s (%s)", c.Title, short(d.Name)), "dish know", "dish", string(c.Dish), "about",
			c.Key)
		if len(lines) <= mostCautions && len(b.Do) <= maxButton {
			rep.Buttons = append(rep.Buttons, b)
		}
	}
	rep.Sections = append(rep.Sections, talk.Section{Title: careTitle,
		Lines: firstLines(lines, mostCautions, "/dish show has a dish's all")})
}

// planCare says with a plan what to take care of: with the first one in full what could not be known before. What came
// with the change that was planned for stands in full in the same reply anyway (run).
func (t *Turn) planCare(rep *talk.Reply, first bool) {
	without := func(all, these []caution.Caution) []caution.Caution {
		return slices.DeleteFunc(all, func(c caution.Caution) bool { return slices.Contains(these, c) })
	}
	fresh := caution.News(&t.snapshot.Party, t.Party)
	said := caution.Said(t.Party, !first, everyDish)
	if first {
		t.takeCare(rep, without(without(caution.Said(t.Party, true, everyDish), said), fresh))
	}
	rep.Sections = append(rep.Sections, t.inShort(without(said, fresh))...)
}

// refusedByCare refuses to plan what no plan is made of: a bird that waits stuffed. A dish that is under way is planned
// all the same: an evening always has a plan.
func (t *Turn) refusedByCare() error {
	for _, c := range caution.Of(t.Party, true) {
		if c.Refused && !slices.ContainsFunc(t.Party.Work, func(w planner.Work) bool {
			return strings.HasPrefix(string(w.Task), string(c.Dish)+"/") && w.Progress != planner.Waiting
		}) {
			return talk.Refuse("/step change step:… do:…, or /step after step:… after:… wait:straight on", "%s: %s",
				t.Party.Dish(c.Dish).Name, c.Text)
		}
	}
	return nil
}

func everyDish(*planner.Dish) bool { return true }

// inShort is what holds of the party's dishes, a line each.
func (t *Turn) inShort(all []caution.Caution) []talk.Section {
	var lines []string
	for _, c := range all {
		lines = append(lines, t.Party.Dish(c.Dish).Name+": "+c.Short)
	}
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: careTitle + " (/dish show dish:… says why; /dish know dish:… once you know)",
		Lines: firstLines(lines, mostInShort, "/dish show has a dish's all")}}
}

func dishKnow(_ context.Context, t *Turn) (talk.Reply, error) {
	d := t.Party.Dish(t.values["dish"].dish)
	all := caution.OfDishes(t.Party, true, func(o *planner.Dish) bool { return o.Key == d.Key })
	if len(all) == 0 {
		return talk.Reply{}, talk.Refuse("/dish show dish:"+string(d.Key), "There is no warning about %s.", d.Name)
	}
	if t.has("about") {
		c, _ := pick(all, func(c *caution.Caution) []string { return []string{c.Title, c.Key} }, t.text("about"))
		if c == nil {
			var titles []string
			for i := range all {
				titles = append(titles, all[i].Title)
			}
			return talk.Reply{}, talk.Refuse("/dish show dish:"+string(d.Key), "There is no warning %q about %s; there is %s.",
				talk.Shown(t.text("about")), d.Name, words.And(titles))
		}
		all = []caution.Caution{*c}
	}
	var titles []string
	for _, c := range all {
		titles = append(titles, c.Title)
		if !slices.Contains(d.Known, c.Key) {
			d.Known = append(d.Known, c.Key)
			t.did("said of %s that the warning about %s is known", d.Name, c.Title)
		}
	}
	var still []string
	for _, c := range caution.Said(t.Party, true, func(o *planner.Dish) bool { return o.Key == d.Key }) {
		if slices.Contains(titles, c.Title) {
			still = append(still, c.Title)
			titles = slices.DeleteFunc(titles, func(x string) bool { return x == c.Title })
		}
	}
	var text []string
	next := "Next: /dish show dish:" + string(d.Key)
	if len(titles) > 0 {
		next = "Next: /undo has it said again"
		text = append(text, fmt.Sprintf("Noted: %s of %s is not said again, unless somebody at the table falls ill more "+
			"easily.", words.And(titles), d.Name))
	}
	if len(still) > 0 {
		text = append(text, fmt.Sprintf("Noted, but %s of %s is still said: somebody at the table falls ill more easily.",
			words.And(still), d.Name))
	}
	return talk.Reply{Text: strings.Join(text, "\n"), Next: next}, nil
}
