package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
)

const maxWindow = 12 * 60 // minutes that a course may be early or late

var servingOptions = []talk.Option{
	{Name: "early", Help: "how long before that it may be served", Kind: talk.Length, Max: maxWindow, Example: "5 min"},
	{Name: "late", Help: "how long after that it may be served", Kind: talk.Length, Max: maxWindow, Example: "20 min"},
	{Name: "buffet", Help: "yes: its dishes stand out to the end of service; no: they do not, whatever their words say",
		Kind: talk.YesNo, Example: "yes"},
	{Name: "group", Help: "whose service this is, where groups eat at different times",
		Kind: talk.Text, Example: "toddlers"},
}

var courseCommands = []command{
	{talk.Command{Name: "course add", Help: "Add a course, or another group's service of one",
		Access: talk.CoHosts, Example: courseAddExample,
		Options: append([]talk.Option{
			{Name: "name", Help: "what the course is called", Kind: talk.Text, Required: true, Example: "Main"},
			{Name: "at", Help: "when it is to be served", Kind: talk.TimeOption, Required: true, Example: "20:15"},
		}, servingOptions...)}, courseAdd},
	{talk.Command{Name: "course change", Help: "Change a course's name or time",
		Access: talk.CoHosts, Menu: true, Example: "/course change course:main at:20:30 late:20 min",
		Options: append([]talk.Option{
			{Name: "course", Help: "which course", Kind: talk.CourseOption, Required: true, Example: "main"},
			{Name: "name", Help: "a new name", Kind: talk.Text, Example: "Main course"},
			{Name: "at", Help: "when it is to be served", Kind: talk.TimeOption, Example: "20:30"},
		}, servingOptions...)}, courseChange},
	{talk.Command{Name: "course remove", Help: "Remove a course without dishes, or one group's service",
		Access: talk.CoHosts, Example: "/course remove course:cheese",
		Options: []talk.Option{
			{Name: "course", Help: "which course", Kind: talk.CourseOption, Required: true, Example: "cheese"},
			{Name: "group", Help: "only this group's service", Kind: talk.Text, Example: "toddlers"},
		}}, courseRemove},
}

// courseText says what a course is and when it is served.
func courseText(t *Turn, c *planner.Course) string { return courseLine(c, t.Party, t.dayClock) }

// courseLine is courseText with the instants as at writes them.
func courseLine(c *planner.Course, p *planner.Party, at func(time.Time) string) string {
	var parts []string
	for _, s := range c.Servings {
		part := fmt.Sprintf("%s (%s early, %s late)", at(s.At), words.Short(s.Early), words.Short(s.Late))
		if s.Group != "" {
			part += " for " + s.Group
		}
		parts = append(parts, part)
	}
	line := c.Name + ": " + strings.Join(parts, "; ")
	var dishes []string
	for _, d := range p.Dishes {
		if d.Course == c.Key {
			dishes = append(dishes, d.Name)
		}
	}
	switch c.Out {
	case planner.Yes:
		line += "; a buffet"
	case planner.No:
		line += "; no buffet"
	}
	if len(dishes) > 0 {
		line += ". " + words.And(dishes)
	}
	return line
}

func courseAdd(_ context.Context, t *Turn) (talk.Reply, error) {
	at, err := t.time("at")
	if err != nil {
		return talk.Reply{}, err
	}
	if err := t.notPast(at, t.zone()); err != nil {
		return talk.Reply{}, err
	}
	s := planner.Serving{Group: t.text("group"), At: at, Early: startEarly, Late: startLate}
	t.window(&s)
	name := t.text("name")
	if c, _ := pick(t.Party.Courses, func(c *planner.Course) []string { return []string{c.Name} }, name); c != nil &&
		s.Group != "" {
		if slices.ContainsFunc(c.Servings, func(o planner.Serving) bool {
			return words.Fold(o.Group) == words.Fold(s.Group)
		}) {
			return talk.Reply{}, talk.Refuse("/course change course:"+string(c.Key)+" group:"+s.Group+" at:20:15",
				"%s has a service for %s already; change it instead.", c.Name, s.Group)
		}
		c.Servings = append(c.Servings, s)
		name = c.Name
	} else if err := t.addCourse(name, s); err != nil {
		return talk.Reply{}, err
	}
	sortCourses(t.Party)
	key := planner.CourseKey(planner.Key(name))
	text := name
	if c := t.Party.Course(key); c != nil {
		c.Out = t.answered("buffet", c.Out)
		text = courseText(t, c)
	}
	t.did("added the course %s at %s", name, at.In(t.zone()).Format("15:04"))
	return talk.Reply{Text: talk.Sentence(text), Next: "Next: " + t.nextStep()}, nil
}

// answered is what a yes-or-no option says of what is told by words otherwise.
func (t *Turn) answered(option string, before planner.YesNo) planner.YesNo {
	switch {
	case !t.has(option):
		return before
	case t.yes(option, false):
		return planner.Yes
	}
	return planner.No
}

// window takes a serving's window from the options.
func (t *Turn) window(s *planner.Serving) {
	if t.has("early") {
		s.Early = t.minutes("early")
	}
	if t.has("late") {
		s.Late = t.minutes("late")
	}
}

func courseChange(_ context.Context, t *Turn) (talk.Reply, error) {
	c := t.Party.Course(t.values["course"].course)
	s, err := t.servingOf(c)
	if err != nil {
		return talk.Reply{}, err
	}
	before := courseText(t, c)
	if t.has("name") {
		c.Name = t.text("name")
	}
	if t.has("at") {
		at, err := t.time("at")
		if err != nil {
			return talk.Reply{}, err
		}
		if err := t.notPast(at, t.zone()); err != nil {
			return talk.Reply{}, err
		}
		s.At = at
	}
	t.window(s)
	c.Out = t.answered("buffet", c.Out)
	text := courseText(t, c)
	if text == before {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to change about %s.", c.Name)
	}
	t.did("changed the course %s", c.Name)
	sortCourses(t.Party)
	return talk.Reply{Text: talk.Sentence(text), Next: "Next: " + t.nextStep()}, nil
}

// servingOf is the serving that the group option names, or the only one.
func (t *Turn) servingOf(c *planner.Course) (*planner.Serving, error) {
	group := t.text("group")
	var groups []string
	for i := range c.Servings {
		groups = append(groups, c.Servings[i].Group)
	}
	if at := words.Match(group, groups); len(at) > 0 {
		return &c.Servings[at[0]], nil
	}
	if group == "" && len(c.Servings) == 1 {
		return &c.Servings[0], nil
	}
	if group == "" {
		return nil, talk.Refuse("group:"+groups[0], "%s is served to several groups: say which, %s.", c.Name,
			words.Or(groups))
	}
	return nil, talk.Refuse("", "%s has no service for %q.%s", c.Name, talk.Shown(group), talk.DidYouMean(group, groups))
}

func courseRemove(_ context.Context, t *Turn) (talk.Reply, error) {
	c := t.Party.Course(t.values["course"].course)
	name := c.Name
	if t.has("group") && len(c.Servings) > 1 {
		s, err := t.servingOf(c)
		if err != nil {
			return talk.Reply{}, err
		}
		group := s.Group
		c.Servings = slices.DeleteFunc(c.Servings, func(o planner.Serving) bool { return o.Group == group })
		t.did("removed the service of %s for %s", name, group)
		return talk.Reply{Text: fmt.Sprintf("%s has no service of its own for %s any more.", name, group), Next: "Next: " +
			t.nextStep()}, nil
	}
	for _, d := range t.Party.Dishes {
		if d.Course == c.Key {
			return talk.Reply{}, talk.Refuse(fmt.Sprintf("/dish remove dish:%s, or /dish change dish:%s course:…", d.Key,
				d.Key),
				"%s still has a dish: %s.", name, d.Name)
		}
	}
	key := c.Key
	t.Party.Chores = slices.DeleteFunc(t.Party.Chores, func(ch planner.Chore) bool { // they come anew where still wanted
		return ch.Proposed && (ch.From != nil && ch.From.Course == key ||
			slices.ContainsFunc(ch.By, func(a planner.Anchor) bool { return a.Course == key }))
	})
	for _, ch := range t.Party.Chores {
		for _, a := range ch.By {
			if a.Course == key {
				return talk.Reply{}, talk.Refuse("/task remove task:"+string(planner.ChoreTask(ch.Key)),
					"%s hangs on %s; remove or change it first.", ch.Do, name)
			}
		}
	}
	t.Party.Courses = slices.DeleteFunc(t.Party.Courses, func(o planner.Course) bool { return o.Key == key })
	t.did("removed the course %s", name)
	return talk.Reply{Text: fmt.Sprintf("%s is no longer a course.", name), Next: "Next: " + t.nextStep()}, nil
}
