package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/portion"
	"tureen/planner/words"
)

func partyShow(_ context.Context, t *Turn) (talk.Reply, error) {
	p := t.Party
	rep := talk.Reply{Text: fmt.Sprintf("%s: %s (%s), %s, %s of prep.", p.Name, t.full(p.Arrival), p.Zone,
		words.Count(p.Covers, "cover"), words.Count(p.PrepDays, "day"))}
	if away := inDays(talk.DayOf(t.Now.In(t.zone())), talk.DayOf(p.Arrival.In(t.zone()))); away != "" {
		rep.Text = strings.TrimSuffix(rep.Text, ".") + "; it is " + away + "."
	}
	if p.Ahead != planner.AheadBalanced {
		rep.Text += "\n" + talk.Sentence(aheadText(p.Ahead))
	}
	if k := portion.PartyKind(p); k != planner.Plated || p.Kind != "" {
		rep.Text += "\n" + talk.Sentence(kindText(p))
		if p.Kind == "" {
			rep.Text += " As its words say; /party change kind:… says otherwise."
		}
	}
	if p.WorkHours != (planner.DayHours{}) {
		rep.Text += fmt.Sprintf("\nWork on the days before lies between %s and %s.", p.WorkHours.From.Clock(),
			p.WorkHours.Until.Clock())
	}
	if p.Place != "" {
		rep.Text += "\nPlace: " + p.Place + "."
	}
	rep.Text += "\n" + t.planLine()
	if t.Plan != nil {
		rep.Text += " " + t.tasksLine()
	}
	if len(p.Courses) > 0 {
		var lines []string
		for i := range p.Courses {
			lines = append(lines, courseLine(&p.Courses[i], p, func(at time.Time) string { return t.near(at, p.Arrival) }))
		}
		rep.Sections = append(rep.Sections, talk.Section{Title: "Courses", Lines: lines})
	}
	var people []string
	for i := range p.People {
		people = append(people, t.personLine(&p.People[i]))
	}
	rep.Sections = append(rep.Sections, talk.Section{Title: "People", Lines: people},
		talk.Section{Title: "Kitchen", Lines: []string{kitchenLine(&p.Kitchen)}})
	if len(p.Guests) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Guests", Lines: []string{guestsCounted(p)}})
	}
	rep.Buttons = append(t.partyButtons(), t.iAm(p.People...)...)
	rep.Next = "Next: " + t.nextStep()
	return rep, nil
}

// partyButtons lead from the party's card to what one looks at most.
func (t *Turn) partyButtons() []talk.Button {
	if t.Plan == nil {
		if t.Me.Role == planner.Onlooker {
			return nil
		}
		var out []talk.Button
		if slices.ContainsFunc(t.Party.Dishes, func(d planner.Dish) bool { return len(d.Steps) > 0 }) {
			out = []talk.Button{t.button("Make the plan", "plan make")}
			out[0].Style = talk.Main
		}
		return append(out, t.setUp()...)
	}
	out := []talk.Button{t.button("Now", "now"), t.button("Open tasks", "task list", "show", "open"),
		t.button("The plan", "plan show"),
		t.button("Run sheet", "plan runsheet"), t.button("Shopping", "shopping list")}
	if t.Me.Role != planner.Onlooker {
		out = slices.Insert(out, 1, t.button("My tasks", "task list", "show", "mine"))
	}
	out[0].Style = talk.Main
	return out
}

// setUp are what a party is made of, each behind a button that opens a form where a face has forms.
func (t *Turn) setUp() []talk.Button {
	if !t.Request.Narrow { // where it is typed as quickly
		return nil
	}
	return []talk.Button{t.button("Add a dish", "dish add"), t.button("Read a recipe", "recipe read"),
		{Label: "Ready dishes", Do: "repertoire list"}, t.button("Add a course", "course add"),
		t.button("Add somebody", "people add")}
}

// tasksLine says how many tasks are open, and how many are done.
func (t *Turn) tasksLine() string {
	open, done := 0, 0
	for _, task := range planner.Tasks(t.Party) {
		switch w := t.Party.WorkOn(task.Key); {
		case t.Party.Progress(task.Key) == planner.Done:
			done++
		case t.Party.Progress(task.Key) == planner.Waiting && (w == nil || w.Person == "") &&
			task.Attention != planner.Unattended:
			open++
		}
	}
	line := "Nobody has claimed " + words.Count(open, "task")
	if open == 0 {
		line = "Every task has somebody"
	}
	if done > 0 {
		line += "; " + words.CountAs(done, "is done", "are done")
	}
	return line + "."
}

// planLine says in one sentence how the plan stands.
func (t *Turn) planLine() string {
	switch {
	case t.Plan == nil:
		return "There is no plan yet."
	case len(check.Plan(t.Party, t.Plan)) > 0:
		return "The plan is out of date."
	}
	return "The plan holds; it was made " + t.dayClock(t.Plan.Made) + "."
}

// nextStep is what a host would do next with the party as it is.
func (t *Turn) nextStep() string {
	p := t.Party
	steps := 0
	for _, d := range p.Dishes {
		steps += len(d.Steps)
	}
	switch {
	case len(p.Courses) == 0:
		return courseAddExample
	case len(p.Dishes) == 0:
		return "/dish add, or /repertoire list for dishes that are ready"
	case steps == 0:
		return "/step add for how the dishes are made"
	case t.Plan == nil || len(check.Plan(p, t.Plan)) > 0:
		return "/plan make"
	}
	return "/task list"
}
