package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/caution"
	"tureen/planner/check"
	"tureen/planner/safety"
	"tureen/planner/sheet"
	"tureen/planner/words"
)

var lookCommands = []command{
	{talk.Command{Name: "now", Help: "What you do now, what comes next, what is in the oven and until when",
		Access: talk.Onlookers, Own: talk.OwnAlways, Example: "/now",
		Options: []talk.Option{
			{Name: "person", Help: "somebody else, or everybody",
				Kind: talk.Text, Offers: talk.PeopleOrAll, Example: "everybody"},
			{Name: "more", Help: "yes: not only the first eight lines", Kind: talk.YesNo, Example: "yes"},
		}}, now},
	{talk.Command{Name: "task why", Help: "What fixes a task's time, and how long it can wait",
		Access: talk.Onlookers, TellsDone: true, Slow: true, Own: talk.OwnAlways, Example: "/task why task:pear-tart/roll",
		Options: []talk.Option{{Name: "task", Help: "which task", Kind: talk.TaskOption, Required: true,
			Example: "pear-tart/roll"}}}, taskWhy},
}

// needPlan is the refusal of those who ask for a plan that is not there.
func (t *Turn) needPlan() error {
	if t.Plan == nil {
		return talk.Refuse("/plan make", "There is no plan yet.")
	}
	return nil
}

// stale is a line that says that the plan is out of date, to stand before it; empty when it holds.
func (t *Turn) stale() string {
	if len(check.Plan(t.Party, t.Plan)) > 0 {
		return "The plan is out of date: /plan make makes it anew.\n"
	}
	return ""
}

func planShow(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	only := sheet.Only{Person: t.values["person"].person}
	whose := ""
	if x := t.Party.Person(only.Person); x != nil {
		whose = " for " + x.Name
	}
	if t.has("day") {
		only.Day = t.values["day"].Day.String()
		whose += " on " + words.Stamp(t.values["day"].Day.In(t.zone()), words.Date, t.zone())
	}
	rep := talk.Reply{Sections: sectionsOf(sheet.Days(t.Party, t.Plan, only, t.format())),
		Next: "Next: /plan runsheet, or /task why task:… for a task's time"}
	n := 0
	for _, s := range rep.Sections {
		n += len(s.Lines)
	}
	if n == 0 {
		rep.Text = t.stale() + "Nothing is planned" + whose + "."
		return rep, nil
	}
	rep.Text = t.stale() + fmt.Sprintf("The plan of %s%s.%s", t.Party.Name, whose, t.nextPlanned(only))
	if !t.has("day") {
		rep.Buttons = t.dayButtons()
	}
	rep.Sections = append(rep.Sections, t.withoutSection(t.Plan)...)
	if !t.has("person") && t.Me.Role != planner.Onlooker && len(t.Party.People) > 1 {
		mine := []string{"person", "me"}
		if t.has("day") {
			mine = append(mine, "day", t.values["day"].Day.String())
		}
		rep.Buttons = append(rep.Buttons, t.button("Only mine", "plan show", mine...))
	}
	rep.Buttons = append(rep.Buttons, t.button("Run sheet", "plan runsheet"))
	return rep, nil
}

// nextPlanned is the next thing to do of a plan, or of a person's part of it or a day's, for the end of a first line:
// " Next, Sat 17:00: lay the table."; empty when there is none.
func (t *Turn) nextPlanned(only sheet.Only) string {
	for _, pl := range inOrder(t.Plan) {
		switch {
		case pl.Start.Before(t.Now), t.Party.Progress(pl.Task) != planner.Waiting,
			only.Person != "" && !slices.Contains(pl.People, only.Person),
			only.Day != "" && talk.DayOf(pl.Start.In(t.zone())).String() != only.Day:
			continue
		}
		if task := taskOf(t.Party, pl.Task); task != nil {
			return fmt.Sprintf(" Next, %s: %s.", t.dayClock(pl.Start),
				words.Lower(strings.TrimRight(talk.Clean(task.Do, false), ".")))
		}
	}
	return ""
}

func planRunSheet(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	var from time.Time
	if t.has("from") {
		var err error
		if from, err = t.time("from"); err != nil {
			return talk.Reply{}, err
		}
	}
	rep := talk.Reply{
		Text: t.stale() + fmt.Sprintf("The run sheet of %s, %s.%s", t.Party.Name, t.day(t.Party.Arrival),
			t.nextPlanned(sheet.Only{})),
		Sections: sectionsOf(sheet.Run(t.Party, t.Plan, from, t.format())),
		Next:     "Next: /now when you cook; /late when something slips",
	}
	if len(rep.Sections) == 0 {
		rep.Text = t.stale() + "Nothing is planned from then on."
	}
	rep.Sections = append(rep.Sections, t.withoutSection(t.Plan)...)
	return rep, nil
}

func planPrep(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	rep := talk.Reply{
		Text:     t.stale() + fmt.Sprintf("The prep list of %s.", t.Party.Name),
		Sections: sectionsOf(sheet.Prep(t.Party, t.Plan, t.format())),
		Next:     "Next: /task done task:… ticks one off; /shopping list has what to buy",
	}
	if len(rep.Sections) == 0 {
		rep.Text = t.stale() + "Nothing is to be prepared before the evening."
	}
	return rep, nil
}

func planCheck(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	broken := check.Plan(t.Party, t.Plan)
	rep := talk.Reply{Text: fmt.Sprintf("The plan holds: it keeps every rule. It was made %s.", t.dayClock(t.Plan.Made)),
		Next: "Next: /task why task:… for a task's time"}
	if len(broken) > 0 {
		rep.Text = fmt.Sprintf("The plan is out of date: it breaks %s.", words.Count(len(broken), "rule"))
		rep.Next = "Next: /plan make"
		sec := talk.Section{Title: "What no longer holds"}
		lost, whose := t.lostHands()
		sec.Lines = lost
		for _, b := range broken {
			line := b.Text
			if whose[b.Task] && b.Rule == check.RuleComplete {
				continue
			}
			if taskOf(t.Party, b.Task) != nil {
				line = string(b.Task) + ": " + line
			}
			sec.Lines = append(sec.Lines, line)
		}
		sec.Lines = firstLines(sec.Lines, mostChanges, "/plan make mends them all")
		rep.Sections = append(rep.Sections, sec)
	}
	rep.Sections = append(rep.Sections, t.withoutSection(t.Plan)...)
	rep.Sections = append(rep.Sections, t.inShort(caution.Said(t.Party, true, everyDish))...)
	rep.Sections = append(rep.Sections, slowSection(slow(t.Party))...)
	if len(broken) == 0 { // the figures of a plan that no longer holds would praise what is gone
		rep.Sections = append(rep.Sections, talk.Section{Title: "How good it is", Lines: sheet.Figures(t.Plan)})
		limits := sheet.Limits(t.Party, t.Plan)
		if len(limits) > 0 {
			rep.Sections = append(rep.Sections, talk.Section{Title: "Published limits that it keeps",
				Lines: append(limits, safety.Caution)})
		}
	}
	return rep, nil
}

// lostHands says in a line for each person who has been removed how many tasks of the plan were theirs, and which.
func (t *Turn) lostHands() (lines []string, tasks map[planner.TaskKey]bool) {
	tasks = map[planner.TaskKey]bool{}
	var gone []planner.PersonKey
	had := map[planner.PersonKey]int{}
	for _, pl := range t.Plan.Tasks {
		if taskOf(t.Party, pl.Task) == nil {
			continue
		}
		for _, x := range pl.People {
			if t.Party.Person(x) != nil {
				continue
			}
			if had[x]++; had[x] == 1 {
				gone = append(gone, x)
			}
			tasks[pl.Task] = true
		}
	}
	for _, x := range gone {
		// The name went with the person; the key is made of it.
		who := words.Upper(strings.ReplaceAll(string(x), "-", " "))
		lines = append(lines, fmt.Sprintf("%s %s's, who is not one of the people any more.",
			words.CountAs(had[x], "task was", "tasks were"), who))
	}
	return lines, tasks
}

// nowLines is how many lines /now says at once: a phone's screen.
const nowLines = 8

func now(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	who := planner.PersonKey("")
	if t.Me != nil && t.Me.Role != planner.Onlooker {
		who = t.Me.Key
	}
	if said := t.text("person"); said != "" {
		switch words.Fold(said) {
		case "everybody", "everyone", "all":
			who = ""
		default:
			key, err := t.findPerson(said)
			if err != nil {
				return talk.Reply{}, t.explain(&t.command.Options[0], err)
			}
			who = key
		}
	}
	lines := sheet.Now(t.Party, t.Plan, who, t.Now, t.format())
	if s := strings.TrimSpace(t.stale()); s != "" {
		lines = append(lines[:1:1], append([]string{s}, lines[1:]...)...)
	}
	rep := talk.Reply{Next: "Next: /task done, or /late when something slips", Sections: t.coldSection()}
	if who != "" {
		rep.Buttons = t.nowButtons(who)
	}
	if len(lines) > nowLines && !t.yes("more", false) {
		lines = append(lines[:nowLines-1:nowLines-1], fmt.Sprintf("and %d more: /now more:yes", len(lines)-nowLines+1))
		more := t.button("More", "now", "person", t.nowOf(who), "more", "yes")
		more.InPlace = true
		rep.Buttons = append(rep.Buttons, more)
	}
	rep.Text = strings.Join(lines, "\n")
	return rep, nil
}

// nowOf names whom /now is about, for a button that anybody may press.
func (t *Turn) nowOf(who planner.PersonKey) string {
	if who == "" {
		return "everybody"
	}
	return string(who)
}

func taskWhy(_ context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	key := t.values["task"].task
	pl, task := t.Plan.Placed(key), taskOf(t.Party, key)
	if pl == nil || task == nil {
		return talk.Reply{}, talk.Refuse("/plan make", "%s is not in the plan yet.", key)
	}
	why, err := check.Why(t.Party, t.Plan, key)
	if err != nil {
		return talk.Reply{}, talk.Refuse("", "%s", talk.Sentence(err.Error()))
	}
	what := strings.TrimRight(talk.Clean(task.Do, false), ".")
	rep := talk.Reply{Text: fmt.Sprintf("%s: %s to %s.", what, t.dayClock(pl.Start), t.near(pl.End, pl.Start)),
		Next: "Next: /plan show"}
	switch {
	case !why.Latest.After(pl.Start) && !why.Earliest.Before(pl.Start):
		rep.Text += "\nIt cannot wait, nor start a minute earlier, while the rest stays."
	default:
		rep.Text += fmt.Sprintf("\nIt can start from %s, and can wait until %s, while the rest stays.",
			t.near(why.Earliest, pl.Start), t.near(why.Latest, pl.Start))
	}
	if d := t.Party.Dish(task.Dish); d != nil {
		if line := t.wayLine(d); line != "" {
			rep.Text += "\n" + line
		}
	}
	_, w := t.theTask()
	rep.Buttons = slices.DeleteFunc(t.taskButtons(task, w), func(b talk.Button) bool {
		return strings.HasPrefix(b.Do, "task why ")
	})
	if trip := t.tripOf(task); trip != nil {
		rep.Sections = append(rep.Sections, talk.Section{Title: "To buy",
			Lines: firstLines(trip.Wanted(), 12, "/shopping list shop:"+t.tripName(trip)+" has all of it")})
	}
	if len(why.Before) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Why not earlier", Lines: why.Before})
	}
	if len(why.After) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Why not later", Lines: why.After})
	}
	return rep, nil
}

// near writes an instant as its clock time when it is on the same day as from, else with its day.
func (t *Turn) near(at, from time.Time) string {
	if talk.DayOf(at.In(t.zone())) == talk.DayOf(from.In(t.zone())) {
		return t.clock(at)
	}
	return t.dayClock(at)
}
