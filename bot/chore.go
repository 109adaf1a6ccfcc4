package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/propose"
	"tureen/planner/safety"
	"tureen/planner/words"
)

var choreKinds = []string{"other", "shop", "thaw", "table", "chill", "ice", "cool", string(planner.ClearRefrigerator),
	"set out", "wash", "dress"}

const taskAddExample = `/task add name:Lay the table kind:table time:20-30 min by:1h before arrival`

var choreOptions = []talk.Option{
	{Name: "do", Help: "what is done, if the name does not say it", Kind: talk.Text, Example: "Lay the table for eight"},
	{Name: "kind", Help: "what kind of chore it is", Kind: talk.Choice, Choices: choreKinds, Example: "table"},
	attentionOption,
	{Name: "by", Help: "ends by then: a time, arrival, a course or a task, with commas",
		Kind: talk.Text, Example: "1h before arrival"},
	{Name: "within", Help: "ends no more than this long before that",
		Kind: talk.Length, Max: int(planner.MaxWait), Example: "2h"},
	{Name: "from", Help: "starts after then: a time, arrival or a task", Kind: talk.Text, Example: "fri 9:00"},
	{Name: "open", Help: "the hours of the day it must fall in, such as a shop's, or none",
		Kind: talk.HoursOption, Example: "9:00-19:00"},
	handsOption,
	{Name: "most-hands", Help: "how many people can share it, to be done sooner",
		Kind: talk.Whole, Min: 1, Max: planner.MaxHands, Example: "3"},
	whoOption,
	{Name: "skill", Help: "the skill it needs, or none", Kind: talk.Text, Offers: talk.Skills, Example: "driving"},
	{Name: "away", Help: "yes: out of the house", Kind: talk.YesNo, Example: "yes"},
	{Name: "shop", Help: "which shop, or none", Kind: talk.Text, Offers: talk.Shops, Example: "greengrocer"},
	{Name: "cold", Help: "where it is kept cold meanwhile",
		Kind: talk.Choice, Choices: []string{"no", "refrigerator", "freezer"}, Example: "refrigerator"},
	{Name: "space", Help: "millilitres of space it takes there", Kind: talk.Whole, Max: 500000, Example: "4500"},
	{Name: "flat", Help: "flat places it takes there", Kind: talk.Whole, Max: 50, Example: "1"},
	{Name: "counter", Help: "places at the counter", Kind: talk.Whole, Max: 50, Example: "1"},
	{Name: "note", Help: "anything else, or none", Kind: talk.Text, Example: "the blue cloth"},
}

var choreCommands = []command{
	{talk.Command{Name: "task add", Help: "Add a chore: a task that is no step of a dish",
		Access: talk.CoHosts, TellsDone: true, Example: taskAddExample,
		Options: append([]talk.Option{
			{Name: "name", Help: "a short name", Kind: talk.Text, Required: true, Example: "Lay the table"},
			{Name: "time", Help: "how long it takes",
				Kind: talk.Length, Required: true, Min: 1, Max: int(planner.MaxLength), Example: "20-30 min"},
		}, choreOptions...)}, taskAdd},
	{talk.Command{Name: "task change", Help: "Change a chore",
		Access: talk.CoHosts, TellsDone: true, Example: "/task change task:lay-the-table by:30 min before arrival",
		Options: append([]talk.Option{taskOption,
			{Name: "time", Help: "how long it takes",
				Kind: talk.Length, Min: 1, Max: int(planner.MaxLength), Example: "20-30 min"},
		}, choreOptions...)}, taskChange},
	{talk.Command{Name: "task remove", Help: "Remove a chore",
		Access: talk.CoHosts, TellsDone: true,
		Example: "/task remove task:lay-the-table", Options: []talk.Option{taskOption}}, taskRemove},
}

func taskAdd(_ context.Context, t *Turn) (talk.Reply, error) {
	var keys []string
	for _, c := range t.Party.Chores {
		keys = append(keys, string(c.Key))
	}
	name := t.text("name")
	key := freshKey(name, "task", keys)
	if slices.Contains(keys, key) {
		return talk.Reply{}, talk.Refuse("/task change task:"+key,
			"There is a chore %s already; choose another name, or change that one.", key)
	}
	c := planner.Chore{Key: planner.ChoreKey(key), Kind: planner.Other, Do: words.Upper(name), Attention: planner.Hands}
	if err := t.setChore(&c); err != nil {
		return talk.Reply{}, err
	}
	t.Party.Chores = append(t.Party.Chores, c)
	t.did("added the chore %s", name)
	return talk.Reply{Text: choreText(t, &c) + ".", Next: "Next: " + t.nextStep()}, nil
}

func (t *Turn) setChore(c *planner.Chore) error {
	if t.has("do") {
		c.Do = t.text("do")
	}
	if t.has("kind") {
		c.Kind = planner.ChoreKind(t.choice("kind", ""))
		if c.Kind == planner.Shop && !t.has("away") {
			c.Away = true
		}
	}
	if t.has("time") {
		c.Time = t.span("time")
	}
	if t.has("attention") {
		c.Attention = planner.Attention(t.choice("attention", ""))
		if c.Attention != planner.Hands {
			c.Hands, c.MaxHands = 0, 0
		}
	}
	c.Hands, c.MaxHands, c.Away = t.whole("hands", c.Hands), t.whole("most-hands", c.MaxHands), t.yes("away", c.Away)
	if t.has("shop") {
		c.Shop = t.emptyable("shop")
	}
	if t.has("note") {
		c.Note = t.emptyable("note")
	}
	if t.has("cold") {
		c.Where = planner.State(t.choice("cold", ""))
		if c.Where == "no" {
			c.Where, c.Leaves = "", planner.Food{}
		}
	}
	c.Leaves.Millilitres, c.Leaves.Flat = t.whole("space", c.Leaves.Millilitres), t.whole("flat", c.Leaves.Flat)
	if t.has("counter") {
		c.Uses = slices.DeleteFunc(c.Uses, func(u planner.Use) bool { return u.What == planner.ACounter })
		if n := t.whole("counter", 0); n > 0 {
			c.Uses = append(c.Uses, planner.Use{What: planner.ACounter, Amount: n})
		}
	}
	if t.has("from") {
		c.From = nil
		if text := t.emptyable("from"); text != "" {
			a, err := t.anchor(text)
			if err != nil {
				return err
			}
			c.From = &a
		}
	}
	if t.has("open") {
		switch hours := t.values["open"].Hours; len(hours) {
		case 0:
			c.Open = planner.DayHours{}
		case 1:
			c.Open = hours[0]
		default:
			return talk.Refuse("open:9:00-19:00", "Opening hours are one stretch; leave out the pause, or take the part that "+
				"you mean.")
		}
	}
	if err := t.setBy(c); err != nil {
		return err
	}
	return t.setWho(&c.Who)
}

// setBy reads by which instants a task that is no dish ends, and how long before at most.
func (t *Turn) setBy(c *planner.Chore) error {
	if t.has("by") {
		c.By = nil
		for _, text := range splitNames(t.text("by")) {
			a, err := t.anchor(text)
			if err != nil {
				return err
			}
			if err := t.stillToCome(a); err != nil {
				return err
			}
			c.By = append(c.By, a)
		}
	}
	if t.has("within") {
		if len(c.By) == 0 {
			return talk.Refuse("by:arrival within:2h", "within: needs by:, the instant before which it ends.")
		}
		for i := range c.By {
			c.By[i].Within = t.minutes("within")
		}
	}
	return nil
}

// stillToCome refuses an instant by which a task is to end when it has passed.
func (t *Turn) stillToCome(a planner.Anchor) error {
	if a.At == nil {
		return nil
	}
	end := a.At.Add(a.Offset.Duration())
	if end.After(t.Now) {
		return nil
	}
	again := end.In(t.zone())
	for !again.After(t.Now) {
		again = again.AddDate(0, 0, 1)
	}
	return talk.Refuse("by:"+again.Format("2006-01-02 15:04"),
		"%s has passed; it is %s now. A task ends by a time that is still to come.", t.dayClock(end), t.dayClock(t.Now))
}

// anchor reads what a task hangs on: [LENGTH before|after] (arrival | a course | a task | a time).
func (t *Turn) anchor(text string) (planner.Anchor, error) {
	var a planner.Anchor
	for _, side := range []string{" before ", " after "} {
		head, tail, ok := strings.Cut(" "+text, side)
		if !ok {
			continue
		}
		d, err := measure.ParseDuration(strings.TrimSpace(head))
		if err != nil || d.Low != d.High {
			return a, talk.Refuse("by:1h before arrival", "%q is no length of time before something.", talk.Shown(head))
		}
		a.Offset = planner.Minutes(d.Low)
		if side == " before " {
			a.Offset = -a.Offset
		}
		text = tail
		break
	}
	text = strings.TrimSpace(text)
	if words.Fold(text) == "arrival" {
		a.Arrival = true
		return a, nil
	}
	if m, err := t.days().ParseMoment(text); err == nil {
		at, err := m.On(talk.DayOf(t.Party.Day()), t.zone(), t.Now)
		a.At = &at
		return a, err
	}
	if len(t.Party.Courses) > 0 && !strings.Contains(text, "/") {
		if k, err := t.findCourse(text); err == nil {
			a.Course = k
			return a, nil
		}
	}
	k, err := t.findTask(text)
	if err != nil {
		return a, talk.Refuse("by:1h before arrival",
			"%q is no time, course or task; write arrival, a course, a task as pear-tart/bake, or a time as fri 18:00.",
			talk.Shown(text))
	}
	a.Task = k
	return a, nil
}

func anchorText(t *Turn, a *planner.Anchor) string {
	text := ""
	switch {
	case a.At != nil:
		text = t.dayClock(*a.At)
	case a.Arrival:
		text = "the guests' arrival"
	case a.Course != "":
		if c := t.Party.Course(a.Course); c != nil {
			text = c.Name
		}
	default:
		text = t.taskName(a.Task)
	}
	switch {
	case a.Offset < 0:
		text = words.Short(-a.Offset) + " before " + text
	case a.Offset > 0:
		text = words.Short(a.Offset) + " after " + text
	}
	if a.Within > 0 {
		text += fmt.Sprintf(" (at most %s before)", words.Short(a.Within))
	}
	return text
}

func choreText(t *Turn, c *planner.Chore) string {
	parts := []string{fmt.Sprintf("%s: %s", planner.ChoreTask(c.Key), c.Do),
		attentionText(c.Attention, c.Hands, c.MaxHands, 0) + ", " + spanText(c.Time)}
	if c.From != nil {
		parts = append(parts, "from "+anchorText(t, c.From))
	}
	for i := range c.By {
		parts = append(parts, "by "+anchorText(t, &c.By[i]))
	}
	if c.Open != (planner.DayHours{}) {
		parts = append(parts, "open "+talk.HoursText([]planner.DayHours{c.Open}))
	}
	if c.Where != "" {
		parts = append(parts, "in the "+string(c.Where))
	}
	for _, u := range c.Uses {
		parts = append(parts, useText(&u))
	}
	if c.Away {
		parts = append(parts, "out of the house")
	}
	if c.Shop != "" {
		parts = append(parts, "at "+c.Shop)
	}
	if who := whoText(t, &c.Who); who != "" {
		parts = append(parts, who)
	}
	if c.Note != "" {
		parts = append(parts, c.Note)
	}
	return strings.Join(parts, "; ")
}

// theChore is the chore that the task option names, or a refusal for a step of a dish.
func (t *Turn) theChore(instead string) (*planner.Chore, error) {
	k := t.values["task"].task
	d, s, _, chore, _ := k.Split()
	if chore == "" {
		return nil, talk.Refuse(fmt.Sprintf(instead, d, s), "%s is a step of a dish, and no chore.", t.taskName(k))
	}
	return t.Party.Chore(chore), nil
}

func taskChange(_ context.Context, t *Turn) (talk.Reply, error) {
	c, err := t.theChore("/step change step:%s/%s time:20 min")
	if err != nil {
		return talk.Reply{}, err
	}
	if t.told() == 1 {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to change about it.")
	}
	if err := t.setChore(c); err != nil {
		return talk.Reply{}, err
	}
	c.Proposed = false // it is the hosts' own now
	t.did("changed the chore %s", c.Do)
	return talk.Reply{Text: choreText(t, c) + ".", Next: "Next: " + t.nextStep()}, nil
}

func taskRemove(_ context.Context, t *Turn) (talk.Reply, error) {
	c, err := t.theChore("/step remove step:%s/%s, or /task skip for this time")
	if err != nil {
		return talk.Reply{}, err
	}
	key, do := c.Key, c.Do
	if c.Kind == planner.Cool && c.Proposed {
		soon := safety.IntoTheCold(safety.Cooked, float64(t.Party.AirC()))
		d, s, _, _, _ := c.From.Task.Split()
		return talk.Reply{}, talk.Refuse("/dish cool step:"+string(d)+"/"+string(s)+" how:sliced",
			"It stays: hot food is in the refrigerator within %s of leaving the heat (%s), and this is how. /dish cool "+
				"changes how; /task skip says that it was done otherwise.", words.Length(soon.Minutes),
			soon.Source)
	}
	proposed := c.Proposed && c.Kind != planner.Shop && c.Kind != planner.Thaw
	propose.Decline(t.Party, key)
	t.did("removed the chore %s", do)
	rep := talk.Reply{Text: do + " is no longer a chore.", Next: "Next: /task list show:all"}
	if proposed {
		rep.Buttons = []talk.Button{t.button("Never ask me that", "plan propose", "never", string(key))}
	}
	return rep, nil
}
