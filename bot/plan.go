package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/menu"
	"tureen/planner/picture"
	"tureen/planner/propose"
	"tureen/planner/sheet"
	"tureen/planner/solve"
	"tureen/planner/ways"
	"tureen/planner/words"
)

// Plans are made outside of any transaction, from the party as it was read; the turn saves them only if the
// party's revision still stands, and runs again otherwise.

var planCommands = []command{
	{talk.Command{Name: "plan make", Help: "Make the plan, or make it anew after a change",
		Access: talk.CoHosts, TellsDone: true, Slow: true, Example: "/plan make",
		Options: []talk.Option{{Name: "propose", Help: "no: leave the chores as they are", Kind: talk.YesNo, Example: "no"},
			{Name: "anew", Help: "yes: though it moves what others were told", Kind: talk.YesNo, Example: "yes"}}},
		planMake},
	{talk.Command{Name: "plan propose", Help: "Propose chores: shopping, thawing, the table, the wine",
		Access: talk.CoHosts, TellsDone: true, Example: "/plan propose",
		Options: []talk.Option{{Name: "all", Help: "yes: also those that you have removed", Kind: talk.YesNo,
			Example: "yes"}, {Name: "never", Help: "a chore that is never proposed again, at your next party either",
			Kind: talk.Text, Example: "lay-table"}}}, planPropose},
	{talk.Command{Name: "plan show", Help: "The plan by day and person",
		Access: talk.Onlookers, TellsDone: true, Example: "/plan show day:sat person:me",
		Options: []talk.Option{
			{Name: "day", Help: "only this day", Kind: talk.DateOption, Example: "sat"},
			{Name: "person", Help: "only this person's tasks", Kind: talk.PersonOption, Example: "me"},
		}}, planShow},
	{talk.Command{Name: "plan runsheet", Help: "The evening, minute by minute",
		Access: talk.Onlookers, TellsDone: true, Example: "/plan runsheet",
		Options: []talk.Option{{Name: "from", Help: "from when; four hours before the guests by default",
			Kind: talk.TimeOption, Example: "18:00"}}}, planRunSheet},
	{talk.Command{Name: "plan picture", Help: "The plan as a picture: who does what when, the ovens, what waits where",
		Access: talk.Onlookers, TellsDone: true, Example: "/plan picture shade:dark",
		Options: []talk.Option{{Name: "shade", Help: "on light paper, which prints, or on dark",
			Kind: talk.Choice, Choices: []string{"light", "dark"}, Example: "dark"}}}, planPicture},
	{talk.Command{Name: "plan prep", Help: "The prep list: what is to be done before the evening, dish by dish",
		Access: talk.Onlookers, TellsDone: true, Example: "/plan prep"}, planPrep},
	{talk.Command{Name: "plan labels", Help: "Labels for what waits in the refrigerator or freezer",
		Access: talk.Onlookers, TellsDone: true, Example: "/plan labels"}, planLabels},
	{talk.Command{Name: "plan check", Help: "Whether the plan holds, how good it is, and which published limits it keeps",
		Access: talk.Onlookers, TellsDone: true, Example: "/plan check"}, planCheck},
}

// makePlan makes a plan; that the only one found breaks a rule, for what is past, is a clash like others.
func makePlan(ctx context.Context, p *planner.Party, ask solve.Ask) (*planner.Plan, *solve.Clash, error) {
	if ask.Soft { // what was to be made ahead and was not is served as it comes, rather than late
		renewWays(p, ask.Now)
	}
	plan, clash, err := solve.Make(ctx, p, ask)
	if past := solve.AsClash(err); past != nil {
		plan, clash, err = nil, past, nil
	}
	if err != nil || clash == nil {
		return plan, clash, err
	}
	for _, other := range otherWays(p, ask.Now) {
		bare := ask
		bare.Bare = true
		if plan, none, err := solve.Make(ctx, other, bare); err == nil && none == nil {
			*p = *other
			return plan, nil, nil
		}
	}
	return nil, clash, nil
}

// mostWays is how many other ways of dishes are tried where there is no plan.
const mostWays = 4

// otherWays are parties like one that has no plan, with the dishes made as they would be chosen now, or else
// one of them in its other way; the proposals are renewed where there were any.
func otherWays(p *planner.Party, now time.Time) (out []*planner.Party) {
	if c := p.Clone(); c != nil && renewWays(c, now) {
		out = append(out, c)
	}
	others, _ := ways.Others(p, now)
	for _, c := range others[:min(len(others), mostWays)] {
		renewCooling(c, now)
		out = append(out, c)
	}
	return out
}

// renewWays chooses the dishes' ways as things stand now, and says whether any changed.
func renewWays(p *planner.Party, now time.Time) bool {
	if len(ways.Renew(p, now)) == 0 {
		return false
	}
	renewCooling(p, now)
	return true
}

// renewCooling proposes, and takes back, what follows for the cold from the ways that were taken, and nothing else.
func renewCooling(p *planner.Party, now time.Time) {
	if !slices.ContainsFunc(p.Chores, func(c planner.Chore) bool { return c.Proposed }) {
		return
	}
	was := slices.Clone(p.Chores)
	propose.Renew(p, now)
	cools := func(c planner.Chore) bool { return c.Kind == planner.Cool }
	kept := slices.DeleteFunc(p.Chores, func(c planner.Chore) bool {
		return !cools(c) && !slices.ContainsFunc(was, func(o planner.Chore) bool { return o.Key == c.Key })
	})
	for _, o := range was { // what else is proposed no more stays as it was told
		if !cools(o) && !slices.ContainsFunc(kept, func(c planner.Chore) bool { return c.Key == o.Key }) {
			kept = append(kept, o)
		}
	}
	p.Chores = kept
}

// noTrips is how long before the guests arrive nobody is sent out of the house unasked; common practice, no source.
const noTrips = time.Hour

// dropLateTrips takes back the new trips that were proposed, and what was to follow them, where the guests are
// all but there: who cooks is wanted at home. It says which they are, for somebody who can go.
func (t *Turn) dropLateTrips(came *[]planner.ChoreKey) []talk.Section {
	if t.Now.Before(t.Party.Arrival.Add(-noTrips)) {
		return nil
	}
	gone := map[planner.TaskKey]bool{}
	var lines []string
	for found := true; found; {
		found = false
		for _, k := range *came {
			c := t.Party.Chore(k)
			if c == nil || gone[planner.ChoreTask(k)] || !c.Away && (c.From == nil || !gone[c.From.Task]) {
				continue
			}
			gone[planner.ChoreTask(k)], found = true, true
			line := talk.Clean(c.Do, false)
			// What is cooked is cooked without it, or of what is there.
			if things := t.notBought(k); c.Kind == planner.Shop && things != "" {
				line += ": nobody fetches " + things
			}
			lines = append(lines, talk.Sentence(line))
		}
	}
	if len(lines) == 0 {
		return nil
	}
	left := func(k planner.ChoreKey) bool { return gone[planner.ChoreTask(k)] }
	*came = slices.DeleteFunc(*came, left)
	t.Party.Chores = slices.DeleteFunc(t.Party.Chores, func(c planner.Chore) bool { return left(c.Key) })
	const title = "Not planned, since the guests are about to arrive; /plan propose, then /plan make propose:no plans it"
	return []talk.Section{{Title: title, Lines: lines}}
}

func planMake(ctx context.Context, t *Turn) (talk.Reply, error) {
	steps := 0
	for _, d := range t.Party.Dishes {
		steps += len(d.Steps)
	}
	if steps == 0 {
		return talk.Reply{}, talk.Refuse("/repertoire list, or /step add", "There is nothing to plan yet: no dish has steps.")
	}
	if !t.Now.Before(t.Party.NightEnd()) {
		return talk.Reply{}, talk.Refuse("/party change date:…", "%s is over; there is nothing left to plan.", t.Party.Name)
	}
	var came []planner.ChoreKey
	ways.Renew(t.Party, t.Now)
	if t.yes("propose", true) {
		came, _ = propose.Renew(t.Party, t.Now)
	}
	late := t.dropLateTrips(&came)
	for _, p := range t.Party.Validate() {
		if !p.Lacks { // what the kitchen lacks, the plan does without, or says
			return talk.Reply{}, talk.Refuse("", "%s", p.Text)
		}
	}
	if err := t.refusedByCare(); err != nil {
		return talk.Reply{}, err
	}
	before := t.Plan
	t.askCold()
	plan, clash, ticked, better, err := t.planAsTold(ctx)
	if err != nil {
		return talk.Reply{}, talk.Refuse("", "%s", talk.Sentence(err.Error()))
	}
	if clash != nil && before != nil {
		first := clash
		if plan, clash, ticked, err = t.planUnderWay(ctx); err != nil {
			return talk.Reply{}, talk.Refuse("", "%s", talk.Sentence(err.Error()))
		}
		if clash != nil && len(clash.Requirements) == 0 {
			clash = first
		}
	}
	if clash != nil {
		return t.clashReply(clash, came), nil
	}
	t.putPlan(plan, "made the plan")
	came = slices.DeleteFunc(came, func(k planner.ChoreKey) bool { return t.Party.Chore(k) == nil })
	rep := t.tellPlan(before, plan, came)
	rep.Sections = append(append(append(t.askedSections(), rep.Sections...), tickedSection(ticked)...), late...)
	if lines := t.plannedAgain(before, plan); len(lines) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Not ticked off, so planned again (/task done task:… " +
			"at:… if it is done)", Lines: lines})
	}
	if lines := menu.Lacking(t.Party); len(lines) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Missing (the plan makes do with what there is)",
			Lines: firstLines(lines, mostMenuNews, "/dish list has them all")})
	}
	t.planCare(&rep, before == nil)
	rep.Sections = append(append(rep.Sections, better...), slowSection(slow(t.Party, came...))...)
	t.offerTelling(&rep, plan)
	rep.Buttons = append(rep.Buttons, t.button("My tasks", "plan show", "person", "me"),
		t.button("Run sheet", "plan runsheet"))
	if t.Request.Pictures {
		rep.Files = t.picture(plan, picture.Light)
	}
	return rep, nil
}

// tellPlan tells a plan: when everybody works, the chores that came with it, and what has changed for people.
func (t *Turn) tellPlan(before, plan *planner.Plan, came []planner.ChoreKey) talk.Reply {
	rep := talk.Reply{Text: t.outline(plan), Next: "Next: /plan show, /task list to share it out, or /plan check"}
	if len(came) > 0 && before == nil {
		rep.Text += "\n" + t.newTasks(plan, came)
		if lines := t.thaws(came); len(lines) > 0 {
			rep.Sections = append(rep.Sections, talk.Section{Title: "To thaw", Lines: lines})
		}
	}
	if lines := sheet.Changes(t.Party, before, plan, t.format()); before != nil && !t.freshDraft(before) {
		if len(lines) == 0 {
			lines = []string{"Nothing that anybody has been told."}
		}
		rep.Sections = append(rep.Sections, talk.Section{Title: "Changed",
			Lines: firstLines(lines, mostChanges, "/plan show has the whole plan")})
	}
	if plan.Soft {
		rep.Text = t.withoutLine(plan) + rep.Text + "\n" + t.softLine(plan)
		rep.Sections = append(t.withoutSection(plan), rep.Sections...)
		if risks := sheet.Risks(t.Party, plan, t.format()); len(risks) > 0 {
			rep.Sections = append(rep.Sections, talk.Section{Title: "At risk", Lines: risks})
		}
	}
	return rep
}

// offerTelling gives a host the button that tells everybody, or asks again who has not said yes.
func (t *Turn) offerTelling(rep *talk.Reply, plan *planner.Plan) {
	if !plan.Asked() || !t.wantsOthers(plan) || t.Me.Role != planner.Host {
		return
	}
	label := "Tell everybody"
	if plan.Told != nil {
		label = "Ask those who have not said yes"
	}
	rep.Buttons = append(rep.Buttons, t.button(label, "plan tell"))
	rep.Next = "Next: /plan tell asks each whether that is fine; /plan show, /plan check"
}

// newTasks names the chores that the plan came with, in its order.
func (t *Turn) newTasks(plan *planner.Plan, came []planner.ChoreKey) string {
	slices.SortStableFunc(came, func(a, b planner.ChoreKey) int { return startOf(plan, a).Compare(startOf(plan, b)) })
	var names []string
	for _, k := range came {
		names = append(names, words.Lower(words.Brief(talk.Clean(t.Party.Chore(k).Do, false), longName)))
	}
	const most = 5
	if n := len(names) - most; n > 0 {
		names = append(names[:most:most], words.Count(n, "other chore"))
	}
	return "I added: " + words.And(names) + "."
}

// thaws says of the new thaws how long each takes, and asks for a weight that was not given: the days hang on it.
func (t *Turn) thaws(came []planner.ChoreKey) (lines []string) {
	for _, k := range came {
		if c := t.Party.Chore(k); c.Kind == planner.Thaw && c.Note != "" {
			lines = append(lines, talk.Clean(c.Do, false)+". "+c.Note)
		}
	}
	return lines
}

// planFor makes the plan that a host asks for. A draft is made as if nobody knew the one before it. Once others
// were told, their work stays where it is, unless nothing fits so; what would be better is offered.
func (t *Turn) planFor(ctx context.Context) (plan *planner.Plan, clash *solve.Clash, better []talk.Section, err error) {
	ask := solve.Ask{Now: wholeMinute(t.Now), InForce: t.Plan}
	if t.freshDraft(t.Plan) {
		ask.InForce = nil
	}
	if len(t.heldWork()) == 0 || t.yes("anew", false) {
		plan, clash, err = makePlan(ctx, t.Party, ask)
		return plan, clash, nil, err
	}
	if plan, clash, err = t.keeping(ctx, ask); err == nil && plan != nil {
		if free, _, err := makePlan(ctx, t.Party, ask); err == nil && free != nil {
			better = t.offerBetter(plan, free, t.heldWork())
		}
	}
	return plan, clash, better, err
}

// freshDraft says whether a plan is a draft of which nobody has taken anything on, nor has any of it begun: it
// binds nobody.
func (t *Turn) freshDraft(plan *planner.Plan) bool {
	return plan != nil && plan.Draft && len(t.Party.Work) == 0 &&
		!slices.ContainsFunc(plan.Tasks, func(pl planner.Placed) bool { return pl.Start.Before(t.Now) })
}

// offerBetter says what would be better if others' work moved.
func (t *Turn) offerBetter(plan, free *planner.Plan, keep map[planner.TaskKey]bool) []talk.Section {
	if !betterThan(free, plan) {
		return nil
	}
	moved := 0
	for k := range keep {
		was, is := plan.Placed(k), free.Placed(k)
		if was != nil && is != nil && (!was.Start.Equal(is.Start) || !slices.Equal(was.People, is.People)) {
			moved++
		}
	}
	if moved == 0 {
		return nil
	}
	const title = "Would be better, and is not done, since it moves what others were told"
	return []talk.Section{{Title: title,
		Lines: []string{words.Count(moved, "task") + " would move; /plan make anew:yes does it."}}}
}

// betterThan compares two plans level by level, but for what was told.
func betterThan(a, b *planner.Plan) bool {
	for _, l := range a.Levels {
		i := slices.IndexFunc(b.Levels, func(o planner.Level) bool { return o.Name == l.Name })
		if l.Name == planner.Steady || l.Name == planner.Spare || i < 0 || b.Levels[i].Value == l.Value {
			continue
		}
		return l.Value < b.Levels[i].Value
	}
	return false
}

// planUnderWay plans what is left when no plan keeps everything: what should have been over by now is taken as
// done, and where that is not enough, on the party's own day, service may be late, as little as can be.
func (t *Turn) planUnderWay(ctx context.Context) (plan *planner.Plan, clash *solve.Clash, ticked []string, err error) {
	ask := solve.Ask{Now: wholeMinute(t.Now), InForce: t.Plan}
	plan, clash, ticked, err = t.planPast(ctx, ask)
	if err == nil && clash != nil && !t.Now.Before(t.Party.Day()) {
		ask.Soft = true
		plan, clash, err = makePlan(ctx, t.Party, ask)
	}
	return plan, clash, ticked, err
}

// tickedSection tells what was taken as done; none when nothing was.
func tickedSection(ticked []string) []talk.Section {
	if len(ticked) == 0 {
		return nil
	}
	return []talk.Section{{Title: "Taken as done or going on, though nobody ticked it off",
		Lines: firstLines(ticked, mostTicked, "/task list has them all")}}
}

// plannedAgain names what should have been over by now by the plan before, and is still to come in the new one.
func (t *Turn) plannedAgain(before, plan *planner.Plan) []string {
	if before == nil {
		return nil
	}
	var lines []string
	for i := range before.Tasks {
		was := &before.Tasks[i]
		w := t.Party.WorkOn(was.Task)
		if was.End.After(t.Now) || w != nil && w.Progress != planner.Waiting {
			continue
		}
		if is, task := plan.Placed(was.Task), taskOf(t.Party, was.Task); is != nil && task != nil {
			lines = append(lines, fmt.Sprintf("%s (%s): %s", strings.TrimRight(talk.Clean(task.Do, false), "."), was.Task,
				t.dayClock(is.Start)))
		}
	}
	return firstLines(lines, mostChanges, "/task list has them all")
}

// startOf is a chore's start in a plan; zero when it is not there.
func startOf(plan *planner.Plan, k planner.ChoreKey) time.Time {
	if at := plan.Placed(planner.ChoreTask(k)); at != nil {
		return at.Start
	}
	return time.Time{}
}

// mostChanges is how many changes a reply tells before it says how many more there are.
const mostChanges = 12

// firstLines keeps the first lines of a list and says how many more there are and where.
func firstLines(lines []string, most int, where string) []string {
	if len(lines) <= most {
		return lines
	}
	return append(slices.Clone(lines[:most]), fmt.Sprintf("and %d more; %s.", len(lines)-most, where))
}

// putPlan puts a plan in force. Its revision is the one that this change makes.
func (t *Turn) putPlan(plan *planner.Plan, what string) {
	plan.Revision = t.snapshot.Revision + 1
	t.carryTold(t.Plan, plan)
	t.Plan = plan
	t.did("%s", what)
}

// clashReply says what clashes and what would mend it. It never shows a plan.
func (t *Turn) clashReply(c *solve.Clash, came []planner.ChoreKey) talk.Reply {
	rep := talk.Reply{Refused: true, Text: "There is no plan: these cannot all be kept.",
		Next: "Next: make one of the changes, then /plan make"}
	if c.Unproved {
		rep.Text = "I have found no plan in the time there was; there may be one. These make it hard."
	}
	var lines []string
	for _, r := range c.Requirements {
		line := r.Text
		if r.Limit {
			line += " This limit stays."
		}
		if slices.Contains(lines, line) {
			continue // of two foods that came together
		}
		lines = append(lines, line)
	}
	if len(lines) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "What clashes", Lines: lines})
	}
	var alone []string
	var sets [][]string
	for _, m := range c.Mends {
		if len(m.With) == 0 {
			alone = append(alone, t.mendLine(m, "", &rep))
			continue
		}
		var together []string
		parts := append([]planner.Mend{m}, m.With...)
		for i, part := range parts {
			together = append(together, t.mendLine(part, fmt.Sprintf("%d of %d: ", i+1, len(parts)), &rep))
		}
		sets = append(sets, together)
	}
	if len(alone) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "Each of these alone would mend it (tried)", Lines: alone})
	}
	for i, lines := range sets {
		title := words.Count(len(lines), "change") + " that together would mend it (tried)"
		if i > 0 {
			title = "Or " + title
		}
		rep.Sections = append(rep.Sections, talk.Section{Title: title, Lines: lines})
	}
	switch {
	case len(c.Mends) == 0:
		rep.Next = "Next: give more time or more hands, or take a dish off, then /plan make"
	case len(alone) == 0:
		rep.Next = "Next: make the changes that go together, then /plan make"
	case len(sets) > 0:
		rep.Next = "Next: make one of the changes, or those that go together, then /plan make"
	}
	if len(came) > 0 {
		rep.Next += "; /plan make propose:no plans without the " + words.Count(len(came), "chore") + " that I would add"
	}
	return rep
}

// mendLine is a mend as it is said, with the message that makes it; one that is short enough becomes a button too,
// which says which of several that go together it is.
func (t *Turn) mendLine(m planner.Mend, which string, rep *talk.Reply) string {
	if m.Do == "" {
		return m.Text
	}
	b := t.mendButton(m, which)
	known := slices.ContainsFunc(rep.Buttons, func(o talk.Button) bool { return o.Do == b.Do })
	if len(b.Do) <= maxButton && !known {
		rep.Buttons = append(rep.Buttons, b)
	}
	return strings.TrimRight(m.Text, ".") + ": /" + m.Do
}

const maxButton = 88 // bytes of a button's message

func (t *Turn) mendButton(m planner.Mend, which string) talk.Button {
	label := []rune(which + m.Text)
	if len(label) > 80 {
		label = append(label[:79], '…')
	}
	return t.button(string(label), m.Do)
}

func planPropose(_ context.Context, t *Turn) (talk.Reply, error) {
	before := t.Party.Chores
	if t.yes("all", false) {
		t.Party.Declined, t.Party.Never = nil, nil
	}
	if t.has("never") {
		key := planner.ChoreKey(planner.Key(t.text("never")))
		if !propose.Never(t.Party, key) {
			return talk.Reply{}, talk.Refuse("/plan propose", "%q is nothing that I propose and that can go for good.",
				talk.Shown(t.text("never")))
		}
		t.did("never wants %s proposed again", key)
		return talk.Reply{Text: fmt.Sprintf("%s is never proposed again, here or at your next party; /plan propose all:yes "+
			"brings it back.", words.Upper(string(key))), Next: "Next: /plan make"}, nil
	}
	ways.Renew(t.Party, t.Now)
	came, went := propose.Renew(t.Party, t.Now)
	rep := talk.Reply{Text: "The chores are as they should be.", Next: "Next: /plan make"}
	if len(came)+len(went) > 0 {
		rep.Text = fmt.Sprintf("%s proposed, %d no longer needed.", words.CountAs(len(came), "chore is", "chores are"),
			len(went))
	}
	changed := len(came)+len(went) > 0 || !slices.EqualFunc(before, t.Party.Chores, func(a, b planner.Chore) bool {
		return fmt.Sprint(a) == fmt.Sprint(b)
	})
	if changed {
		t.did("proposed chores")
	}
	if n := len(t.Party.Declined) + len(t.Party.Never); n > 0 {
		rep.Text += fmt.Sprintf("\n%s out, as you wanted; /plan propose all:yes brings back what you removed.",
			words.CountAs(n, "chore stays", "chores stay"))
	}
	var lines []string
	for _, c := range t.Party.Chores {
		line := fmt.Sprintf("%s (%s, %s)", talk.Clean(c.Do, false), planner.ChoreTask(c.Key), spanText(c.Time))
		if c.Note != "" {
			line += ": " + talk.Clean(c.Note, false)
		}
		lines = append(lines, line)
	}
	if len(lines) > 0 {
		rep.Sections = []talk.Section{{Title: "Chores", Lines: lines}}
	}
	return rep, nil
}

// wholeMinute is the next whole minute: what is planned starts on one.
func wholeMinute(at time.Time) time.Time {
	if m := at.Truncate(time.Minute); !m.Equal(at) {
		return m.Add(time.Minute)
	}
	return at
}

// format writes instants of sheets as the reply's faces draw them.
func (t *Turn) format() sheet.Format {
	return sheet.Format{Zone: t.zone(), Stamp: func(at time.Time, style sheet.Style) string {
		switch style {
		case sheet.DayClock:
			return t.dayClock(at)
		case sheet.Date:
			return t.day(at)
		}
		return t.clock(at)
	}}
}

// sectionsOf are a sheet's sections as a reply's.
func sectionsOf(from []sheet.Section) []talk.Section {
	var out []talk.Section
	for _, s := range from {
		out = append(out, talk.Section(s))
	}
	return out
}
