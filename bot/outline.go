package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
)

// What a host wants to know first of a plan: when do I work, from when am I free, who makes what, where do we shop,
// where is it tight, what is likely late. How good the plan is, and what is proved of it, says /plan check.

// mostOthers is how many other people the outline has a line for.
const mostOthers = 3

// outline says what the plan comes to, for the asker.
func (t *Turn) outline(plan *planner.Plan) string {
	if !t.anythingLeft(plan) {
		return "Nothing is left to do."
	}
	var lines []string
	add := func(line string) {
		if line != "" {
			lines = append(lines, line)
		}
	}
	guestly := t.Party.Arrival.Add(-leadFree)
	add(t.workLine(plan, t.Me, "You"))
	if t.Me.Role != planner.Onlooker {
		add(t.freeLine(plan, guestly))
	}
	others := 0
	for i := range t.Party.People {
		x := &t.Party.People[i]
		if x.Key == t.Me.Key {
			continue
		}
		if line := t.workLine(plan, x, x.Name); line != "" {
			if others++; others <= mostOthers {
				add(line)
			}
		}
	}
	if n := others - mostOthers; n > 0 {
		add(fmt.Sprintf("And %d more; /plan show has everybody.", n))
	}
	add(t.shopLine(plan))
	add(t.tightLine(plan))
	lines = append(lines, t.chanceLines(plan)...)
	add(t.standsLine(plan))
	return strings.Join(lines, "\n")
}

// leadFree is from how long before the guests come a host would have their hands free.
const leadFree = 30 * time.Minute

func (t *Turn) anythingLeft(plan *planner.Plan) bool {
	return slices.ContainsFunc(plan.Tasks, func(pl planner.Placed) bool {
		w := t.Party.WorkOn(pl.Task)
		return w == nil || !isOver(*w)
	})
}

// standsLine says what is in force.
func (t *Turn) standsLine(plan *planner.Plan) string {
	open, days := 0, map[talk.Day]bool{}
	for i := range plan.Tasks {
		pl := &plan.Tasks[i]
		if w := t.Party.WorkOn(pl.Task); w == nil || !isOver(*w) {
			open++
			days[talk.DayOf(pl.Start.In(t.zone()))] = true
		}
	}
	if plan.Draft {
		return fmt.Sprintf("A draft, %s on %s: nobody else has been told.", words.Count(open, "task"), words.Count(len(days),
			"day"))
	}
	if t.Party.ToldOnTheDay(plan) && plan.Told.Equal(t.Now) {
		return fmt.Sprintf("The plan stands, %s: each is told their part now, since it is the day.",
			words.Count(open, "task"))
	}
	return fmt.Sprintf("The plan stands: %s on %s.", words.Count(open, "task"), words.Count(len(days), "day"))
}

// workLine is when somebody works before the guests come, and on what: "Teun: Fri 18:00-19:10; pear tart".
func (t *Turn) workLine(plan *planner.Plan, x *planner.Person, name string) string {
	var all []*planner.Placed
	var makes []string
	for i := range plan.Tasks {
		pl := &plan.Tasks[i]
		w := t.Party.WorkOn(pl.Task)
		if len(pl.People) == 0 || pl.People[0] != x.Key || w != nil && isOver(*w) {
			continue
		}
		if pl.Start.Before(t.Party.Arrival.Add(-leadFree)) {
			all = append(all, pl)
		}
		task := taskOf(t.Party, pl.Task)
		if d := t.Party.Dish(task.Dish); d != nil && task.Attention == planner.Hands && !slices.Contains(makes, d.Name) {
			makes = append(makes, d.Name)
		}
	}
	slices.SortStableFunc(all, func(a, b *planner.Placed) int { return a.Start.Compare(b.Start) })
	if len(all) == 0 && len(makes) > 0 {
		return fmt.Sprintf("%s, while the guests are there: %s.", name, words.Few(makes, 4))
	}
	when := t.stretches(planner.SessionOf(t.Party, all).Stretches)
	if x.Key == t.Me.Key {
		if when == "" && x.Role != planner.Onlooker {
			when = "nothing before the guests come"
		}
		return oneLine(name, when)
	}
	return oneLine(name, strings.TrimPrefix(when+"; "+words.Few(makes, 4), "; "))
}

// oneLine is "head: text."; empty without a text.
func oneLine(head, text string) string {
	if text = strings.TrimRight(strings.TrimSuffix(text, "; "), "."); text == "" {
		return ""
	}
	return head + ": " + text + "."
}

// freeLine says how much the asker's hands are wanted from half an hour before the guests come to the last course.
func (t *Turn) freeLine(plan *planner.Plan, from time.Time) string {
	work, of, last := time.Duration(0), []string(nil), from
	for _, s := range plan.Served {
		last = planner.Later(last, s.At)
	}
	for i := range plan.Tasks {
		pl := &plan.Tasks[i]
		task := taskOf(t.Party, pl.Task)
		if task == nil || task.Attention != planner.Hands || !slices.Contains(pl.People, t.Me.Key) || !pl.End.After(from) ||
			!pl.Start.Before(last) {
			continue
		}
		work += pl.End.Sub(planner.Later(pl.Start, from))
		if d := t.Party.Dish(task.Dish); d != nil && !slices.Contains(of, d.Name) {
			of = append(of, d.Name)
		}
	}
	if work == 0 {
		return fmt.Sprintf("Your hands are free from %s to the last course.", t.clock(from))
	}
	free := fmt.Sprintf("Free from %s to the last course, but for %s", t.clock(from), words.Short(words.Minutes(work)))
	if len(of) > 0 {
		free += ": " + words.Few(of, 5)
	}
	return free + "."
}

// shopLine is when and where is shopped.
func (t *Turn) shopLine(plan *planner.Plan) string {
	var out []string
	for i := range plan.Tasks {
		pl := &plan.Tasks[i]
		c := t.Party.Chore(planner.ChoreKey(pl.Task))
		if w := t.Party.WorkOn(pl.Task); c == nil || c.Kind != planner.Shop || w != nil && isOver(*w) {
			continue
		}
		what := words.Lower(words.Brief(talk.Clean(c.Do, false), longName))
		out = append(out, t.dayClock(pl.Start)+" "+strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(what, "shop at "),
			"go shopping: "), "go shopping for "))
	}
	return oneLine("Shopping", strings.Join(out, ", "))
}

// tightLine names the task of the last hours that can least run over.
func (t *Turn) tightLine(plan *planner.Plan) string {
	k, spare, ok := check.Tightest(t.Party, plan, t.Party.Arrival.Add(-planner.LateOn), t.Party.LastService())
	if !ok {
		return ""
	}
	oven := ""
	for _, h := range plan.Placed(k).Uses {
		if h.What == planner.AnOven {
			oven = "the oven, "
		}
	}
	room := "not a minute"
	if spare > 0 {
		room = words.Short(spare)
	}
	return fmt.Sprintf("Tight: %s%s %s, %s to spare.", oven, t.clock(plan.Placed(k).Start), t.taskName(k), room)
}

// The outline says of a course that it is likely late below such a chance to be on time, played through so often.
const (
	likely      = 0.8
	outlineRuns = 400
)

// chanceLines say which courses are likely late, by how much, and what would help.
func (t *Turn) chanceLines(plan *planner.Plan) (out []string) {
	for _, c := range check.ChancesOf(t.Party, plan, outlineRuns, 1).Courses {
		course := t.Party.Course(c.Course)
		if c.OnTime >= likely || course == nil {
			continue
		}
		line := fmt.Sprintf("%s: likely late, by up to %s", words.Upper(course.Named()), words.Short(max(c.Late, 5)))
		switch {
		case c.Earlier != "":
			line += fmt.Sprintf("; %s begun %s earlier would help", t.taskName(c.Earlier), words.Short(c.Buffer))
		case c.Threat != "":
			task := taskOf(t.Party, c.Threat)
			line += fmt.Sprintf("; %s may take %s: done on an earlier day, it would not hold up the course",
				t.taskName(c.Threat), spanText(cmp.Or(task.Time, planner.Span{})))
		}
		out = append(out, line+".")
	}
	return out
}
