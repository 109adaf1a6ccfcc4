package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/propose"
	"tureen/planner/sheet"
	"tureen/planner/solve"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// When something slips, what has happened is frozen and the rest is planned anew. On the evening itself
// service becomes a soft lateness, so that there is a least-late plan; before it, late means planning again.

var lateCommands = []command{
	{talk.Command{Name: "late", Help: "Something slips: plan the rest anew, as little late as possible",
		Access: talk.CoHosts, Slow: true, Example: "/late guests:20",
		Options: []talk.Option{
			{Name: "guests", Help: "the guests come this much later", Kind: talk.Length, Min: 1, Max: 6 * 60, Example: "20"},
			{Name: "task", Help: "this task takes longer, or starts later", Kind: talk.TaskOption, Example: "pear-tart/bake"},
			{Name: "by", Help: "how much later; 0: as soon as possible after all", Kind: talk.Length, Max: 12 * 60,
				Example: "15"},
		}}, late},
}

func late(ctx context.Context, t *Turn) (talk.Reply, error) {
	if err := t.needPlan(); err != nil {
		return talk.Reply{}, err
	}
	if t.has("task") != t.has("by") {
		return talk.Reply{}, talk.Refuse("/late task:pear-tart/bake by:15", "Say which task and by how much.")
	}
	if !t.has("task") && !t.has("guests") {
		return talk.Reply{}, talk.Refuse("/late guests:20, or /late task:pear-tart/bake by:15",
			"Say what is late: the guests, or a task.")
	}
	before := t.Plan
	now := wholeMinute(t.Now)
	if !now.Before(t.Party.NightEnd()) {
		return talk.Reply{}, talk.Refuse("", "%s is over; there is nothing left to plan.", t.Party.Name)
	}
	said := ""
	t.askCold()
	ticked, taken := t.tickPast(t.values["task"].task, false)
	if t.has("guests") {
		if !t.Party.Arrival.After(t.Now.Add(-time.Hour)) {
			return talk.Reply{}, talk.Refuse("", "The guests were to arrive at %s; say instead which task runs late.",
				t.clock(t.Party.Arrival))
		}
		said = t.guestsLate(t.values["guests"].Span.High)
	}
	if t.has("task") {
		key, by := t.values["task"].task, t.values["by"].Span.High
		var err error
		if said, err = t.taskLate(key, by, said); err != nil {
			return talk.Reply{}, err
		}
	}
	plan, clash, err := t.keeping(ctx, solve.Ask{Now: now, InForce: before})
	soft := false
	if err == nil && clash != nil && len(t.unsure) > 0 {
		more, also := t.tickPast(t.values["task"].task, true)
		ticked, taken = append(ticked, more...), append(taken, also...)
		t.askCold()
		plan, clash, err = makePlan(ctx, t.Party, solve.Ask{Now: now, InForce: before})
	}
	if err == nil && clash != nil {
		// No plan keeps it all: the least late one, then.
		soft = true
		plan, clash, err = makePlan(ctx, t.Party, solve.Ask{Now: now, InForce: before, Soft: true})
	}
	if err != nil || clash != nil {
		return t.lateNoted(said, ticked, clash, err), nil
	}
	plan, soft, cold := t.intoTheCold(ctx, solve.Ask{Now: now, InForce: before, Soft: soft}, plan)
	later := t.notBegun(plan, taken)
	t.putPlan(plan, "planned the rest anew: "+said)
	rep := t.lateReply(said, ticked, before, plan, soft)
	if len(cold) > 0 {
		rep.Sections = append([]talk.Section{{Title: "Into the cold", Lines: cold}}, rep.Sections...)
	}
	if len(later) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "If it has not begun", Lines: later})
	}
	return rep, nil
}

// lateNoted keeps what was said where no plan goes with it, and says so: what has slipped has slipped.
func (t *Turn) lateNoted(said string, ticked []string, clash *solve.Clash, err error) talk.Reply {
	t.did("noted: %s", said)
	rep := talk.Reply{Next: "Next: make a change, then /plan make; /undo takes it back"}
	if clash != nil {
		rep = t.clashReply(clash, nil)
		rep.Refused = false
	} else {
		rep.Sections = []talk.Section{{Title: "What is in the way", Lines: []string{talk.Sentence(err.Error())}}}
	}
	rep.Text = "Noted: " + said + ".\nNo plan fits that yet; below is what is in the way."
	rep.Sections = append(rep.Sections, tickedSection(ticked)...)
	return rep
}

func (t *Turn) lateReply(said string, ticked []string, before, plan *planner.Plan, soft bool) talk.Reply {
	rep := talk.Reply{Text: t.withoutLine(plan) + talk.Sentence(said), Next: "Next: /now, or /plan runsheet from:" +
		t.Now.In(t.zone()).Format("15:04") + "; /undo takes it back"}
	lines := sheet.Changes(t.Party, before, plan, t.format())
	switch {
	case len(lines) == 0:
		rep.Text += "\nNothing else changes."
	case soft:
		rep.Text += "\n" + t.softLine(plan)
	default:
		rep.Text += "\nThe rest moves, and every course is on time."
	}
	rep.Sections = append(rep.Sections, t.withoutSection(plan)...)
	if len(lines) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Changed",
			Lines: firstLines(lines, mostChanges, "/plan show has the whole plan")})
	}
	if risks := sheet.Risks(t.Party, plan, t.format()); len(risks) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "At risk", Lines: risks})
	}
	if waits := sheet.CanWait(t.Party, plan, t.Now, t.format()); len(waits) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "How long each dish can wait", Lines: waits})
	}
	rep.Sections = append(append(t.askedSections(), rep.Sections...), tickedSection(ticked)...)
	return rep
}

// withoutLine says which dishes a plan does not go on with, and what course has nothing else then, as a line to begin
// with; empty when it has them all.
func (t *Turn) withoutLine(plan *planner.Plan) string {
	var names, bare []string
	limit := true
	for _, l := range plan.Without {
		if d := t.Party.Dish(l.Dish); d != nil {
			names, limit = append(names, words.Lower(d.Name)), limit && l.Limit
		}
	}
	if len(names) == 0 {
		return ""
	}
	for i := range t.Party.Courses {
		c := &t.Party.Courses[i]
		had, left := 0, 0
		for j := range t.Party.Dishes {
			if d := &t.Party.Dishes[j]; d.Course == c.Key {
				had++
				if !plan.LeavesOut(d.Key) {
					left++
				}
			}
		}
		if had > 0 && left == 0 {
			bare = append(bare, "the "+words.Lower(c.Name))
		}
	}
	line := words.Upper(words.And(names)) + map[bool]string{true: " is", false: " are"}[len(names) == 1] +
		" off the plan, because " + map[bool]string{true: "a published limit is passed",
		false: "there is no time or place left"}[limit] + "."
	if len(bare) > 0 {
		line += " There is nothing else for " + words.And(bare) + "."
	}
	return line + "\n"
}

// withoutSection says why a plan does not go on with a dish, and what can be done; none when it has them all.
func (t *Turn) withoutSection(plan *planner.Plan) []talk.Section {
	lines := sheet.Without(t.Party, plan, t.Now, t.format())
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: "Left out", Lines: lines}}
}

// softLine says what an evening plan gives up: a course's window, or only that food is at its best.
func (t *Turn) softLine(plan *planner.Plan) string {
	var late []string
	for _, s := range plan.Served {
		c := t.Party.Course(s.Course)
		if c == nil {
			continue
		}
		for _, g := range c.Servings {
			if over := s.At.Sub(g.At.Add(g.Late.Duration())); g.Group == s.Group && over > 0 {
				late = append(late, fmt.Sprintf("the %s comes %s past its window", words.Lower(c.Name),
					words.Short(planner.Minutes(over/time.Minute))))
			}
		}
	}
	if len(late) == 0 && len(plan.Without) > 0 {
		if len(plan.Without) == len(t.Party.Dishes) {
			return "No dish is left."
		}
		return "What is left is on time."
	}
	if len(late) == 0 {
		return "Every course is on time, but some food waits longer than is good."
	}
	return words.Upper(words.And(late)) + "; sooner cannot be."
}

// mostTicked is how many tasks that were taken as done a reply names.
const mostTicked = 6

// guestsLate moves the arrival and every service that is still to come.
func (t *Turn) guestsLate(by planner.Minutes) string {
	t.Party.Arrival = t.Party.Arrival.Add(by.Duration())
	for i := range t.Party.Courses {
		for j := range t.Party.Courses[i].Servings {
			if s := &t.Party.Courses[i].Servings[j]; s.At.Add(s.Late.Duration()).After(t.Now) {
				s.At = s.At.Add(by.Duration())
			}
		}
	}
	return fmt.Sprintf("the guests come at %s, and every course moves by %s", t.clock(t.Party.Arrival), words.Short(by))
}

// taskLate makes a task late: one that is going on takes longer, one that has not begun begins no sooner than so much
// after its planned start, whatever is planned anew until it has begun.
func (t *Turn) taskLate(key planner.TaskKey, by planner.Minutes, said string) (string, error) {
	task, pl := taskOf(t.Party, key), t.Plan.Placed(key)
	if task == nil || pl == nil {
		return "", talk.Refuse("/plan make", "%s is not in the plan yet.", key)
	}
	what := strings.TrimRight(talk.Clean(task.Do, false), ".")
	if said != "" {
		said += "; "
	}
	w := t.workOn(key)
	if by == 0 {
		if w.Progress != planner.Waiting || w.NotBefore == nil && w.NotAfter == nil {
			return "", talk.Refuse("/late task:"+string(key)+" by:15", "Nobody has said that %s is late.", what)
		}
		w.NotBefore, w.NotAfter = nil, nil
		t.tidyWork()
		return said + what + " begins as soon as it can", nil
	}
	switch w.Progress {
	case planner.Done, planner.Skipped:
		return "", talk.Refuse("/task list", "%s is %s already.", what, w.Progress)
	case planner.Started:
		w.Extra += by
		if left := w.Start.Add((task.Length(max(1, len(pl.People))) + w.Extra).Duration()); left.Before(t.Now) {
			// It should have been over long ago: what is meant is from now.
			w.Extra += planner.Minutes(t.Now.Sub(left)/time.Minute) + by
		}
		return said + fmt.Sprintf("%s takes %s longer", what, words.Short(by)), nil
	}
	start := pl.Start
	if start.Before(t.Now) {
		start = wholeMinute(t.Now)
	}
	start = start.Add(by.Duration())
	w.NotBefore = &start
	return said + fmt.Sprintf("%s starts at %s at the earliest, %s later", what, t.dayClock(start), words.Short(by)), nil
}

func inCharge(pl *planner.Placed) planner.PersonKey {
	if len(pl.People) == 0 {
		return ""
	}
	return pl.People[0]
}

// tickPast takes what should have been over by now as done when planned, and what should be going on as
// started when planned, where nobody has said anything; the task that is late is left out. It says what it took so.
//
// What food safety hangs on is not taken so on a later day, but asked about, and planned again where that can be; where
// it cannot, the plan goes on as if it was done, and asks all the same.
func (t *Turn) tickPast(but planner.TaskKey, asIf bool) (lines []string, taken []planner.TaskKey) {
	if t.asIf = asIf; !asIf {
		t.unsure = nil
	}
	for i := range t.Plan.Tasks {
		pl := &t.Plan.Tasks[i]
		w := t.Party.WorkOn(pl.Task)
		if !t.mayBePast(pl) || w != nil && (w.Progress != planner.Waiting || w.NotBefore != nil &&
			w.NotBefore.After(pl.Start)) {
			continue
		}
		task := taskOf(t.Party, pl.Task)
		// Who says with the guests that a task is late too has not begun it, however long ago that was planned.
		if task == nil || pl.Task == but && task.Attention == planner.Hands && (pl.End.After(t.Now) || t.has("guests")) {
			continue
		}
		if c := t.Party.Chore(task.Chore); t.neverTaken(c, pl, taken) {
			if c.Kind == planner.Shop {
				propose.TooLate(c, t.Party, t.Now)
			}
			continue
		}
		unsure := pl.Task != but && t.hangsOn(task, pl)
		if unsure && !asIf {
			t.unsure = append(t.unsure, pl.Task)
			continue
		}
		doer, there := t.theDoer(task, pl)
		if !there || pl.Task != but && !t.couldHave(task, pl) {
			continue
		}
		start, end := pl.Start, pl.End
		w = t.workOn(pl.Task)
		w.Start = &start
		if w.Person == "" {
			w.Person = doer
		}
		state := "going on"
		w.Assumed = pl.Task != but
		if w.Progress = planner.Started; !end.After(t.Now) && pl.Task != but {
			w.Progress, w.End, state = planner.Done, &end, "done"
		}
		if c := t.Party.Chore(task.Chore); c != nil && c.Kind == planner.Serve {
			continue // nobody ticks it, and nobody is told so
		}
		if pl.Task != but {
			taken = append(taken, pl.Task)
		}
		if pl.Task != but && !unsure {
			lines = t.takenAs(lines, task, state)
		}
	}
	return lines, taken
}

// takenAs puts a line on a task that is taken as done or going on to the others; first comes what should be hot, as a
// question.
func (t *Turn) takenAs(lines []string, task *planner.Task, state string) []string {
	line := fmt.Sprintf("%s (%s), %s", strings.TrimRight(talk.Clean(task.Do, false), "."), task.Key, state)
	if to := t.toBeHot(task); state == "done" && to != "" {
		return slices.Insert(lines, 0, line+"? Serve it only if it was cooked through: "+to)
	}
	return append(lines, line)
}

// toBeHot is the published temperature of a task that heats food through which is still to be eaten; empty for any
// other.
func (t *Turn) toBeHot(task *planner.Task) string {
	d := t.Party.Dish(task.Dish)
	if d == nil || t.Plan.Eaten(d, t.Now) || slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
		return slices.ContainsFunc(s.After, func(a planner.After) bool { return a.Dish == "" && a.Step == task.Step })
	}) {
		return ""
	}
	return trace.CookedTo(t.Party, d, d.Step(task.Step))
}

// neverTaken says of a chore that it is not taken as done: hot food is not cold, and nothing is bought, because nobody
// said a word.
func (t *Turn) neverTaken(c *planner.Chore, pl *planner.Placed, taken []planner.TaskKey) bool {
	return c != nil && ((c.Kind == planner.Cool || c.Key == "leftovers") && !t.cooledAsPlanned(c, pl, taken) ||
		t.unboughtTrip(c))
}

// theDoer is whose a task is taken to have been; ok is false where whoever should be at it has left.
func (t *Turn) theDoer(task *planner.Task, pl *planner.Placed) (doer planner.PersonKey, ok bool) {
	if doer = inCharge(pl); t.Party.Person(doer) != nil {
		return doer, true
	}
	return "", doer == "" || !pl.End.After(t.Now) || task.Attention != planner.Hands
}

// couldHave reports whether a task can have begun as planned: what it comes after was over, and its person free.
func (t *Turn) couldHave(task *planner.Task, pl *planner.Placed) bool {
	return t.couldBegin(task, pl.Start) &&
		(!pl.End.After(t.Now) || task.Attention != planner.Hands || !t.busyElsewhere(pl))
}

// couldBegin reports whether what a task comes after was over by an instant, by what is said or taken so.
func (t *Turn) couldBegin(task *planner.Task, at time.Time) bool {
	d := t.Party.Dish(task.Dish)
	if d == nil {
		return true
	}
	for _, a := range d.Step(task.Step).After {
		of := task.Dish
		if a.Dish != "" {
			of = a.Dish
		}
		for _, b := range planner.Tasks(t.Party) {
			if b.Dish != of || b.Step != a.Step || a.FromStart {
				continue
			}
			if b.Rounds > 1 && b.Rounds == task.Rounds && b.Round != task.Round {
				continue
			}
			w := t.Party.WorkOn(b.Key)
			if w == nil || w.End == nil || w.End.After(at) {
				return false
			}
		}
	}
	return true
}

// busyElsewhere reports whether one of a task's people has said that they are at something else with their hands.
func (t *Turn) busyElsewhere(pl *planner.Placed) bool {
	for _, task := range planner.Tasks(t.Party) {
		w := t.Party.WorkOn(task.Key)
		if task.Key != pl.Task && task.Attention == planner.Hands && w != nil && w.Progress == planner.Started &&
			slices.Contains(pl.People, w.Person) {
			return true
		}
	}
	return false
}
