package reminders

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// served is the line of a dish in the word about its course.
func served(t *testing.T, p *planner.Party, plan *planner.Plan, dish string) string {
	t.Helper()
	for _, r := range byKind(each(p, plan), Service) {
		for line := range strings.Lines(words.PlainStamps(r.Text)) {
			if line = strings.TrimSpace(line); strings.HasPrefix(line, dish) {
				return line
			}
		}
	}
	return ""
}

// TestToServe: a dish is where it waits, each place once, or what is still done to it, and on what it is served.
func TestToServe(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(p *planner.Party, plan *planner.Plan)
		want string
	}{
		{"as it is", func(*planner.Party, *planner.Plan) {}, "Pear tart: on the counter."},
		{"on a dish", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Plate = "oval plate" },
			"Pear tart: on the counter; on the oval plate."},
		{"a part of it", func(p *planner.Party, _ *planner.Plan) { p.Dishes[0].Steps[2].Component = "crust" },
			"Pear tart: the crust on the counter."},
		{"two parts in one place", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[0].Component, p.Dishes[0].Steps[0].Serve = "", &planner.Wait{State: planner.Counter}
		}, "Pear tart: on the counter."},
		{"straight to the table", func(p *planner.Party, _ *planner.Plan) {
			p.Dishes[0].Steps[2].Serve = &planner.Wait{State: planner.Straight}
		}, "Pear tart."},
		{"done as the word comes", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("pear-tart/bake").End = at(20, 55)
		}, "Pear tart: on the counter."},
		{"still in the oven then", func(_ *planner.Party, plan *planner.Plan) {
			plan.Placed("pear-tart/bake").End = at(20, 56)
		}, "Pear tart: bake the tart until 20:56."},
		{"not in the plan", func(_ *planner.Party, plan *planner.Plan) { plan.Tasks = plan.Tasks[:3] }, "Pear tart."},
	} {
		p, plan := tart()
		c.do(p, plan)
		if got := served(t, p, plan, "Pear tart"); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// TestLongCourses: of a course with many dishes eight are named, and how many more there are; one that is left out is
// not, and a course that is left out altogether is not announced. A group is named.
func TestLongCourses(t *testing.T) {
	for dishes := 7; dishes <= 11; dishes++ {
		p, plan := tart()
		plan.Served[0].Group = "toddlers"
		for n := len(p.Dishes); n < dishes; n++ {
			p.Dishes = append(p.Dishes, planner.Dish{Key: planner.DishKey(fmt.Sprintf("dish-%d", n)), Name: "Bowl",
				Course: "dessert", Serves: 8})
		}
		p.Dishes = append(p.Dishes, planner.Dish{Key: "soup", Name: "Soup", Course: "starter", Serves: 8})
		r := byKind(each(p, plan), Service)
		if len(r) != 1 || !strings.HasPrefix(r[0].Text, "Dessert for toddlers in 5 minutes") {
			t.Fatalf("got %q", told(r))
		}
		lines := strings.Split(r[0].Text, "\n")[1:]
		if last := lines[len(lines)-1]; dishes > 8 {
			if len(lines) != 9 || last != fmt.Sprintf("and %d more", dishes-8) {
				t.Errorf("%d dishes: %q", dishes, lines)
			}
		} else if len(lines) != dishes || strings.Contains(last, "more") {
			t.Errorf("%d dishes: %q", dishes, lines)
		}
	}
	p, plan := tart()
	plan.Soft, plan.Without = true, []planner.LeftOut{{Dish: "pear-tart"}}
	if r := byKind(each(p, plan), Service); len(r) != 1 ||
		!strings.HasSuffix(words.PlainStamps(r[0].Text), "Nothing for dessert at 21:00.\nPear tart: off the plan.") {
		t.Errorf("nothing of the course comes to the table, and it is not said: %q", told(r))
	}
	p.Dishes = nil
	if r := byKind(each(p, plan), Service); len(r) != 1 {
		t.Errorf("a course that has no dishes is served all the same: %q", told(r))
	}
}

// dayOf is Ada's list, with so many tasks on the party's day; each is called by its number.
func dayOf(tasks int) (*planner.Party, *planner.Plan) {
	p, plan := tart()
	p.Chores, plan.Tasks = nil, nil
	for n := range tasks {
		key := planner.ChoreKey(fmt.Sprintf("chore-%02d", n))
		p.Chores = append(p.Chores, planner.Chore{Key: key, Kind: planner.Other, Do: fmt.Sprintf("Number %d.", n+1),
			Attention: planner.Hands, Time: span(5)})
		start := at(10, 10*n)
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: planner.ChoreTask(key), Start: start,
			End: start.Add(5 * time.Minute), People: []planner.PersonKey{"ada"}})
	}
	return p, plan
}

// TestDigest: a day's list has twelve tasks, says how many more there are, leaves out what is over, and is kept until
// the last of it ends.
func TestDigest(t *testing.T) {
	for _, c := range []struct {
		tasks int
		head  string
		lines int
		last  string
	}{
		{1, "Your Saturday: 1 task from 10:00.", 1, "10:00 Number 1, 5 minutes"},
		{2, "Your Saturday: 2 tasks from 10:00.", 2, "10:10 Number 2, 5 minutes"},
		{12, "Your Saturday: 12 tasks from 10:00.", 12, "11:50 Number 12, 5 minutes"},
		{13, "Your Saturday: 13 tasks from 10:00.", 13, "and 1 more"},
		{15, "Your Saturday: 15 tasks from 10:00.", 13, "and 3 more"},
	} {
		p, plan := dayOf(c.tasks)
		list := byKind(each(p, plan), Digest)
		if len(list) != 1 || list[0].Person != "ada" || !list[0].Due.Equal(at(20-24, 0)) ||
			!list[0].Until.Equal(plan.Tasks[0].Start) {
			t.Fatalf("%d tasks: %+v", c.tasks, list)
		}
		lines := strings.Split(words.PlainStamps(list[0].Text), "\n")
		if lines[0] != c.head || len(lines) != c.lines+1 || lines[len(lines)-1] != c.last {
			t.Errorf("%d tasks: %q", c.tasks, lines)
		}
	}
	p, plan := dayOf(4)
	p.Work = []planner.Work{{Task: plan.Tasks[0].Task, Progress: planner.Done},
		{Task: plan.Tasks[1].Task, Progress: planner.Started}, {Task: plan.Tasks[3].Task, Progress: planner.Skipped}}
	plan.Tasks[2].Start = at(24+10, 0) // tomorrow's
	got := DigestOf(p, plan, &p.People[0], at(15, 0))
	if words.PlainStamps(got) != "Your day: 1 task from 10:10.\n10:10 Number 2, 5 minutes" {
		t.Errorf("what is over, or tomorrow's, is listed: %q", got)
	}
	if got := DigestOf(p, plan, &p.People[1], at(15, 0)); got != "" {
		t.Errorf("Ben has nothing to do: %q", got)
	}
	if got := DigestOf(p, nil, &p.People[0], at(15, 0)); got != "" {
		t.Errorf("there is no plan: %q", got)
	}
}

// TestDigestComesTheEveningBefore: at eight; in quiet hours, at their end, or before them where all is over by then.
func TestDigestComesTheEveningBefore(t *testing.T) {
	eve := at(20-24, 0)
	for _, c := range []struct {
		quiet planner.DayHours
		due   time.Time
	}{
		{planner.DayHours{}, eve}, {planner.DayHours{From: 600, Until: 600}, eve},
		{planner.DayHours{From: 22 * 60, Until: 7 * 60}, eve}, {planner.DayHours{From: 60, Until: 24 * 60}, at(0, 0)},
		{planner.DayHours{From: 19 * 60, Until: 7 * 60}, at(7, 0)},
		{planner.DayHours{From: 19 * 60, Until: 9*60 + 59}, at(9, 59)},
		{planner.DayHours{From: 19 * 60, Until: 10 * 60}, at(18-24, 59)}, // the only task begins at 10:00
	} {
		p, plan := dayOf(1)
		p.People[0].Quiet = c.quiet
		var got time.Time
		if list := byKind(each(p, plan), Digest); len(list) > 0 {
			got = list[0].Due
		}
		if !got.Equal(c.due) {
			t.Errorf("quiet %+v: at %v, want %v", c.quiet, got, c.due)
		}
	}
}
