package check

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// Plan lists every rule of package planner's documentation that a plan breaks, each break once, in the order
// of the rules; nothing when the plan keeps them all. It is written from the rules' text alone and shares
// neither the expansion into tasks nor any model with package solve. It works on instants, not on a grid.
//
// The party must make sense ([planner.Party.Validate]); of one that does not, Plan reports what it can.
func Plan(p *planner.Party, plan *planner.Plan) []Broken {
	return newChecker(p, plan).rules()
}

// rules goes through all rules.
func (c *checker) rules() []Broken {
	for _, look := range ruleChecks {
		look(c)
	}
	slices.SortStableFunc(c.out, func(a, b Broken) int { return int(a.Rule) - int(b.Rule) })
	return c.out
}

// keeps says whether the plan breaks nothing but what is allowed; it looks no further than the first rule that it
// breaks.
func (c *checker) keeps(allowed func(Broken) bool) bool {
	for i := -1; i < len(ruleChecks); i++ {
		if i >= 0 {
			ruleChecks[i](c)
		}
		for _, b := range c.out {
			if !allowed(b) {
				return false
			}
		}
	}
	return true
}

// ruleChecks are the rules, each with its own look at the plan. What a plan breaks most easily comes first.
var ruleChecks = []func(*checker){
	(*checker).waits, (*checker).hands, (*checker).clocks, (*checker).equipment, (*checker).storage, (*checker).service,
	(*checker).chores, (*checker).claims, (*checker).past, (*checker).marks, (*checker).lengths, (*checker).keeping,
	(*checker).nights,
}

// checker holds the party's work as the checker understands it.
type checker struct {
	p     *planner.Party
	plan  *planner.Plan
	loc   *time.Location
	opens time.Time // the first prep day
	steps []*workStep
	jobs  []*workJob // every task that the plan places, once
	byKey map[planner.TaskKey]*workJob
	waitsOf
	served map[servedKey]time.Time
	*known
	out []Broken
}

type servedKey struct {
	course planner.CourseKey
	group  string
}

// sized is what follows from a step and its covers.
type sized struct {
	rounds int
	uses   []planner.Use // of a round, as the rules multiply them
	ml     int           // space of a round
	flat   int
	warm   int // minutes of its own that count on the counter; -1: all
	length int
}

// workStep is a step with its rounds.
type workStep struct {
	dish *planner.Dish
	step *planner.Step
	sized
	jobs []*workJob    // its rounds that the plan places and that were not skipped
	food *trace.Leaves // what it leaves; set with the clocks
	hot  int           // for how many minutes after its end its food is hot by itself; set with the clocks
	gone bool          // all its rounds were skipped
	last time.Time     // the last end of any of its rounds
}

// workJob is a task on the clock.
type workJob struct {
	key           planner.TaskKey
	of            *workStep // nil for a chore
	chore         *planner.Chore
	round         int
	start, end    time.Time
	people        []planner.PersonKey
	uses          []planner.Held
	attention     planner.Attention
	hands, most   int
	planned       int // minutes with the fewest hands
	away          bool
	who           planner.Who
	work          *planner.Work
	settled, gone bool // gone: skipped
	twisted       bool // ends before it starts
}

// over says that a task is done or skipped.
func (j *workJob) over() bool {
	return j.work != nil && (j.work.Progress == planner.Done || j.work.Progress == planner.Skipped)
}

func (c *checker) broken(rule Rule, task planner.TaskKey, format string, args ...any) {
	c.out = append(c.out, Broken{Rule: rule, Task: task, Text: fmt.Sprintf(format, args...)})
}

// at writes an instant with its weekday, which says enough within a week of the party; beyond that also the date.
func (c *checker) at(t time.Time) string {
	if t.Sub(c.p.Arrival).Abs() >= sameWeekday {
		return words.StampAs(t, words.DayClock, t.In(c.loc).Format("Mon 2 Jan 15:04"))
	}
	return words.Stamp(t, words.DayClock, c.loc)
}

// sameWeekday is how far from the party a weekday may be taken for another one.
const sameWeekday = 6 * 24 * time.Hour

// with is the checker of another plan for the same party: what follows from the party alone need not be found again.
func (c *checker) with(plan *planner.Plan) *checker {
	return read(c.p, plan, c.known)
}

func newChecker(p *planner.Party, plan *planner.Plan) *checker { return read(p, plan, newKnown()) }

func read(p *planner.Party, plan *planner.Plan, of *known) *checker {
	c := &checker{p: p, plan: plan, loc: p.Location(), opens: p.Opens(), byKey: map[planner.TaskKey]*workJob{},
		served: map[servedKey]time.Time{}, known: of}
	work := map[planner.TaskKey]*planner.Work{}
	for i := range p.Work {
		work[p.Work[i].Task] = &p.Work[i]
	}
	placed := map[planner.TaskKey]*planner.Placed{}
	for i := range plan.Tasks {
		t := &plan.Tasks[i]
		if placed[t.Task] != nil {
			c.broken(RuleComplete, t.Task, "%s stands in the plan twice.", t.Task)
			continue
		}
		placed[t.Task] = t
	}
	add := func(j *workJob) bool {
		j.work = work[j.key]
		if j.work != nil {
			j.settled = j.work.Progress != planner.Waiting
			j.gone = j.work.Progress == planner.Skipped
		}
		if j.attention == planner.Hands {
			j.hands, j.most = max(j.hands, 1), max(j.hands, j.most, 1)
		} else {
			j.hands, j.most = 1, 1
		}
		t := placed[j.key]
		if t == nil {
			c.broken(RuleComplete, j.key, "%s is not in the plan.", j.label())
			return false
		}
		delete(placed, j.key)
		j.start, j.end, j.people, j.uses = c.whole(j, t.Start), c.whole(j, t.End), t.People, t.Uses
		if j.end.Before(j.start) {
			c.broken(RuleComplete, j.key, "%s ends before it starts.", j.label())
			j.end, j.twisted = j.start, true
		}
		for i, x := range j.people {
			if p.Person(x) == nil && !j.over() {
				c.broken(RuleComplete, j.key, "%s is given to somebody who is not one of the people any more.", j.label())
			}
			if slices.Contains(j.people[:i], x) {
				c.broken(RuleComplete, j.key, "%s is given to %s twice.", j.label(), c.name(x))
			}
		}
		c.jobs = append(c.jobs, j)
		c.byKey[j.key] = j
		return true
	}
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for j := range d.Steps {
			c.addStep(d, &d.Steps[j], add)
		}
	}
	for i := range p.Chores {
		ch := &p.Chores[i]
		add(&workJob{key: planner.TaskKey(ch.Key), chore: ch, round: 1, attention: ch.Attention, hands: ch.Hands,
			most: ch.MaxHands, planned: int(ch.Time.Likely), away: ch.Away, who: ch.Who})
	}
	for i := range plan.Tasks {
		if k := plan.Tasks[i].Task; placed[k] == &plan.Tasks[i] {
			c.broken(RuleComplete, k, "%s is in the plan, but it is no task of the party any more.", c.formerly(k))
		}
	}
	if len(plan.Without) > 0 && !plan.Soft {
		c.broken(RuleComplete, "", "Only an evening plan may leave a dish out.")
	}
	c.readServed()
	c.linkWaits()
	return c
}

// addStep works out a step's rounds and length from the documentation.
func (c *checker) addStep(d *planner.Dish, s *planner.Step, add func(*workJob) bool) {
	w := &workStep{dish: d, step: s, sized: sized{warm: -1}}
	if known, ok := c.sizes[s]; ok {
		w.sized = known
	} else {
		w.length = c.size(w)
		c.sizes[s] = w.sized
	}
	if c.plan.LeavesOut(d.Key) {
		w.gone = true
		c.steps = append(c.steps, w)
		return
	}
	skipped := 0
	for r := 1; r <= w.rounds; r++ {
		key := planner.TaskKey(string(d.Key) + "/" + string(s.Key))
		if r > 1 {
			key = planner.TaskKey(fmt.Sprintf("%s.%d", key, r))
		}
		j := &workJob{key: key, of: w, round: r, attention: s.Attention, hands: s.Hands, most: s.MaxHands, planned: w.length,
			away: s.Away, who: s.Who}
		if !add(j) {
			continue
		}
		if j.end.After(w.last) {
			w.last = j.end
		}
		if j.gone {
			skipped++
		} else {
			w.jobs = append(w.jobs, j)
		}
	}
	w.gone = skipped == w.rounds
	c.steps = append(c.steps, w)
}

// label is a task as a sentence names it. Few are named, so that it is put together only then.
func (j *workJob) label() string {
	if j.chore != nil {
		return labelOf(j.chore.Do, string(j.chore.Key), "")
	}
	label := labelOf(j.of.step.Do, string(j.of.step.Key), dishName(j.of.dish))
	if j.of.rounds > 1 {
		label = fmt.Sprintf("%s, round %d", label, j.round)
	}
	return label
}

func labelOf(do, key, dish string) string {
	if do == "" {
		do = key
	}
	if dish == "" {
		return strconv.Quote(do)
	}
	return strconv.Quote(do) + " (" + dish + ")"
}

// formerly names a task that the party has no more, in the words that its key was made of.
func (c *checker) formerly(k planner.TaskKey) string {
	dish, step, _, chore, ok := k.Split()
	said := func(key string) string { return words.Upper(strings.ReplaceAll(key, "-", " ")) }
	switch d := c.p.Dish(dish); {
	case !ok:
		return "A task"
	case chore != "":
		return labelOf(said(string(chore)), "", "")
	case d != nil:
		return labelOf(said(string(step)), "", dishName(d))
	}
	return labelOf(said(string(step)), "", said(string(dish)))
}

func dishName(d *planner.Dish) string {
	if d.Name == "" {
		return string(d.Key)
	}
	return d.Name
}

func (c *checker) name(k planner.PersonKey) string {
	if x := c.p.Person(k); x != nil && x.Name != "" {
		return x.Name
	}
	return string(k)
}

// whole complains of an instant that is no whole minute, and cuts it.
func (c *checker) whole(j *workJob, t time.Time) time.Time {
	cut := t.Truncate(time.Minute)
	if !cut.Equal(t) {
		c.broken(RuleComplete, j.key, "%s is planned at %s, which is no whole minute.", j.label(),
			t.In(c.loc).Format("Mon 15:04:05.999"))
	}
	return cut
}

// gap is the whole minutes from one instant to a later one; negative when it is earlier.
func gap(from, to time.Time) int { return int(to.Sub(from) / time.Minute) }

func (j *workJob) minutes() int { return gap(j.start, j.end) }

// overlaps says whether two stretches of time have a minute in common.
func overlaps(aFrom, aTo, bFrom, bTo time.Time) bool { return aFrom.Before(bTo) && bFrom.Before(aTo) }
