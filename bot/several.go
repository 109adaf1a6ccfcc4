package bot

import (
	"context"
	"errors"
	"fmt"

	"tureen/bot/talk"
	"tureen/planner/recipe"
	"tureen/planner/several"
	"tureen/store"
)

// A text may hold several recipes: it waits beside the one that is being read, so that one after the other can be
// chosen of it, or all be put on the menu.

// severalOf is under whose name such a text waits.
func (t *Turn) severalOf() string { return t.Request.User.ID + " several" }

// recipeButtons is how many recipes of a text have a button; the others have a number.
const recipeButtons = 8

// whichRecipe asks which of several recipes is meant.
func (t *Turn) whichRecipe(ctx context.Context, source []byte, all []several.One) (talk.Reply, error) {
	source = several.EssenceOfAll(source, all)
	if len(source) > maxSource {
		return talk.Reply{}, talk.Refuse("", "This is too long. Send one recipe alone, as text.")
	}
	if err := t.putReadingAside(ctx); err != nil {
		return talk.Reply{}, err
	}
	err := t.bot.store.SetReading(ctx, t.community(), t.Request.Channel, t.severalOf(),
		store.Reading{At: t.Now, Source: source})
	if err != nil {
		return talk.Reply{}, err
	}
	rep := talk.Reply{Text: fmt.Sprintf("There are %d recipes in it. Which one?", len(all)),
		Next: "Next: /recipe read which:1, or /recipe keep all:yes for all of them as dishes"}
	sec := talk.Section{Title: "Recipes"}
	for i, o := range all {
		sec.Lines = append(sec.Lines, fmt.Sprintf("%d. %s", i+1, talk.Clean(o.Title, false)))
		if i < recipeButtons {
			rep.Buttons = append(rep.Buttons, t.button(fmt.Sprintf("%d. %s", i+1, talk.Clean(o.Title, false)), "recipe read",
				"which", fmt.Sprint(i+1)))
		}
	}
	if len(t.Party.Courses) > 1 {
		rep.Buttons = append(rep.Buttons, t.button("All of them, each in its course", "recipe keep", "all", "yes"))
	}
	for i := range t.Party.Courses[:min(len(t.Party.Courses), courseButtons)] {
		c := &t.Party.Courses[i]
		rep.Buttons = append(rep.Buttons, t.button("All of them: "+c.Name, "recipe keep", "all", "yes", "course",
			string(c.Key)))
	}
	rep.Sections = []talk.Section{sec}
	return rep, nil
}

// severalInMind are the recipes of the text that the asker sent last.
func (t *Turn) severalInMind(ctx context.Context) ([]several.One, error) {
	kept, err := t.bot.store.Reading(ctx, t.community(), t.Request.Channel, t.severalOf())
	if errors.Is(err, store.ErrNotFound) {
		return nil, talk.Refuse(recipeReadExample, "I have no text with several recipes of yours in mind; send it first.")
	}
	if err != nil {
		return nil, err
	}
	return several.In(kept.Source), nil
}

// oneInMind reports that there is no text with several recipes, and one recipe was read: all of it is that one.
func (t *Turn) oneInMind(ctx context.Context) bool {
	_, err := t.bot.store.Reading(ctx, t.community(), t.Request.Channel, t.severalOf())
	if !errors.Is(err, store.ErrNotFound) {
		return false
	}
	_, _, _, err = t.readingInMind(ctx)
	return err == nil
}

// keepAll puts every recipe of a text on the menu.
func (t *Turn) keepAll(ctx context.Context) (talk.Reply, error) {
	all, err := t.severalInMind(ctx)
	if err != nil {
		return talk.Reply{}, err
	}
	rep := talk.Reply{}
	for _, o := range all {
		r, err := recipe.ReadFile(o.Source)
		if err != nil {
			return talk.Reply{}, unreadable(err)
		}
		r.TakeCovers(t.Party.Covers)
		if r.HardlyRead() {
			return talk.Reply{}, talk.Refuse("/recipe read which:1",
				"More than a third of %s was not understood: look at it by itself first.", talk.Clean(r.Title, false))
		}
		course := t.values["course"].course
		if !t.has("course") {
			course = t.guessCourse(r)
		}
		one, err := t.keepReading(r, course)
		if err != nil {
			return talk.Reply{}, err
		}
		if rep.Text != "" {
			rep.Text += "\n"
		}
		rep.Text += one.Text
		for _, s := range one.Sections {
			s.Title = talk.Clean(r.Title, false) + ": " + s.Title
			rep.Sections = append(rep.Sections, s)
		}
		rep.Aside = append(rep.Aside, one.Aside...)
	}
	rep.Next = "Next: /dish list, /dish change dish:… course:… for one that belongs elsewhere, or /plan make"
	return rep, nil
}
