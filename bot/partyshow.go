package bot

import (
	"context"
	"fmt"

	"tureen/planner"
)

func partyShow(_ context.Context, t *Turn) (Reply, error) {
	p := t.Party
	rep := Reply{Text: fmt.Sprintf("%s: %s (%s), %s, %d days of prep.", p.Name, t.full(p.Arrival), p.Zone, count(p.Covers, "cover", "covers"), p.PrepDays)}
	if p.Place != "" {
		rep.Text += "\nPlace: " + p.Place + "."
	}
	rep.Text += "\n" + t.planLine()
	if len(p.Courses) > 0 {
		var lines []string
		for i := range p.Courses {
			lines = append(lines, courseText(t, &p.Courses[i]))
		}
		rep.Sections = append(rep.Sections, Section{"Courses", lines})
	}
	var people []string
	for i := range p.People {
		people = append(people, personLine(&p.People[i]))
	}
	rep.Sections = append(rep.Sections, Section{"People", people}, Section{"Kitchen", []string{kitchenLine(&p.Kitchen)}})
	if len(p.Guests) > 0 {
		rep.Sections = append(rep.Sections, Section{"Guests to think of", guestLines(p)})
	}
	rep.Next = "Next: " + t.nextStep()
	return rep, nil
}

// planLine says in one sentence how the plan stands.
func (t *Turn) planLine() string {
	switch {
	case t.Plan == nil:
		return "There is no plan yet."
	case len(planner.Check(t.Party, t.Plan)) > 0:
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
	case t.Plan == nil || len(planner.Check(p, t.Plan)) > 0:
		return "/plan make"
	}
	return "/task list"
}
