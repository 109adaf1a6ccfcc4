package solve

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/cp"
	"tureen/planner/trace"
)

// graph is a party resolved for planning: its tasks as jobs, its steps as nodes, and the waits between them as
// arcs, with references looked up and skipped steps passed over. Times in it are minutes from origin.
type graph struct {
	p      *planner.Party
	names  bool // to say why there is no plan, what goes straight on is named too
	ask    Ask
	origin time.Time         // the opening of the first prep day
	now    int               // nothing unsettled lies before it (nor before the opening, which is 0)
	end    int               // nothing is planned after it
	day    int               // the party's day begins
	people []*planner.Person // all but lookers, in the party's order
	jobs   []*duty
	nodes  []*node
	arcs   []arc
	order  []*node // every node after those before it
	hours  map[planner.PersonKey]openHours
	judge  *check.Judge // of the plans that are made
}

// openHours are a person's hours in minutes.
type openHours struct{ cooks, home []cp.Range }

// duty is a task with what planning needs to know of it.
type duty struct {
	planner.Task
	i       int
	node    *node // nil for a chore
	chore   *planner.Chore
	uses    []planner.Use
	where   planner.State
	leaves  planner.Food
	food    *trace.Leaves // what a step leaves; nothing for a chore
	hot     int           // for how many minutes after its end that is hot by itself
	way     int           // for how many minutes it has been out of the cold when somebody brings it
	soon    *cooling.Soon // how soon what it leaves is in the cold; nil: the counter's limit says it all
	fit     *planner.Fit  // of its step; nil for a chore
	settled bool          // started, done or skipped: it stays where it is
	skipped bool
	left    bool // out, with its dish: as skipped, but in no plan
	start   int  // of a settled job
	end     int
	kept    bool            // it stays where the plan in force has it
	soonest int             // of an unsettled job: people have said that it begins no sooner; 0 where they have not
	before  int             // it was said to begin before this; 0 where it was not, or that binds no more
	told    *planner.Placed // where the plan in force has it
	claim   int             // index of the person who has claimed it, or -1
	lead    []int           // people who may be in charge, by index
	hands   []int           // people who may lend a hand, by index
}

// node is a step of a dish with its rounds.
type node struct {
	i       int
	dish    *planner.Dish
	step    *planner.Step
	jobs    []*duty // its rounds
	rounds  []*duty // those of its rounds that are not skipped
	skipped bool    // all of them are
	in, out []int   // arcs, by index
}

// arc is a wait: from a node to another one, or to the service of a course (to == -1).
type arc struct {
	from, to  int
	course    int
	wait      planner.Wait
	fromStart bool
	straight  bool // state Straight between steps of one round each, or up to service: nothing waits
}

// newGraph resolves a party. The error names what it does not know.
func newGraph(p *planner.Party, ask Ask) (*graph, error) {
	if err := p.Plannable(); err != nil {
		return nil, err
	}
	g := &graph{p: p, ask: ask, origin: p.Opens().UTC(), hours: map[planner.PersonKey]openHours{},
		judge: check.Of(p)}
	g.now = max(0, g.minuteUp(ask.Now))
	g.day = g.minute(p.Day())
	last := p.LastService()
	g.end = max(g.minute(p.NightEnd()), g.minute(last)+60)
	if ask.Soft {
		g.end = max(g.end, g.now+12*60)
	}
	for i := range p.People {
		if p.People[i].Role != planner.Onlooker {
			x := &p.People[i]
			g.people = append(g.people, x)
			g.hours[x.Key] = openHours{cooks: g.ranges(p.CookingHours(x)), home: g.ranges(p.HomeHours(x))}
		}
	}
	if err := g.addJobs(); err != nil {
		return nil, err
	}
	if err := g.addArcs(); err != nil {
		return nil, err
	}
	g.bestUnsaid()
	g.passSkipped()
	for i := range g.arcs {
		a := &g.arcs[i]
		from := g.nodes[a.from]
		from.out = append(from.out, i)
		if a.to >= 0 {
			to := g.nodes[a.to]
			to.in = append(to.in, i)
			a.straight = a.wait.State == planner.Straight && !a.fromStart && len(from.rounds) == 1 && len(to.rounds) == 1 &&
				!(ask.Soft && from.settled())
		}
	}
	return g, g.acyclic()
}

// minute is an instant in minutes from the origin, rounded down; minuteUp rounds up.
func (g *graph) minute(t time.Time) int {
	d := t.Sub(g.origin)
	m := int(d / time.Minute)
	if d%time.Minute < 0 {
		m--
	}
	return m
}

func (g *graph) minuteUp(t time.Time) int {
	m := g.minute(t)
	if g.instant(m).Before(t) {
		m++
	}
	return m
}

func (g *graph) instant(m int) time.Time { return g.origin.Add(time.Duration(m) * time.Minute) }

func (g *graph) personIndex(k planner.PersonKey) int {
	return slices.IndexFunc(g.people, func(p *planner.Person) bool { return p.Key == k })
}

func (g *graph) name(k planner.TaskKey) string {
	for _, j := range g.jobs {
		if j.Key == k {
			return j.label()
		}
	}
	return string(k)
}

// label is how a sentence names the job: its imperative, with the dish when it has one.
func (j *duty) label() string {
	s := j.Do
	if j.node != nil {
		s = fmt.Sprintf("%s (%s)", j.Do, j.node.dish.Name)
	}
	if j.Rounds > 1 {
		s = fmt.Sprintf("%s, round %d", s, j.Round)
	}
	return "“" + s + "”"
}

// settled says that every round of the step is.
func (n *node) settled() bool {
	return !slices.ContainsFunc(n.jobs, func(j *duty) bool { return !j.settled })
}

// length is how long an unsettled job takes with so many people.
func (j *duty) length(people int) int { return int(j.Task.Length(people)) }

func (g *graph) addJobs() error {
	foods := trace.Of(g.p)
	hot, soon := cooling.StillHot(g.p, foods), cooling.SoonCold(g.p, foods)
	nodeOf := map[planner.TaskKey]*node{}
	for i := range g.p.Dishes {
		d := &g.p.Dishes[i]
		for s := range d.Steps {
			n := &node{i: len(g.nodes), dish: d, step: &d.Steps[s]}
			key := planner.StepTask(d.Key, n.step.Key, 1)
			if nodeOf[key] != nil {
				return fmt.Errorf("%s has two steps called %q: rename one of them", d.Name, n.step.Key)
			}
			nodeOf[key] = n
			g.nodes = append(g.nodes, n)
		}
	}
	for _, t := range planner.Tasks(g.p) {
		j := &duty{Task: t, i: len(g.jobs), claim: -1, food: foods.Leaves(t.Dish, t.Step)}
		if t.Chore == "" {
			j.node, j.hot = nodeOf[planner.StepTask(t.Dish, t.Step, 1)], hot[planner.StepTask(t.Dish, t.Step, 1)]
			if !slices.ContainsFunc(j.node.step.After, func(a planner.After) bool { return a.Dish == "" && !a.FromStart }) {
				j.way = int(foods.OnTheWay(j.node.dish))
			}
			if x, bound := soon[planner.StepTask(t.Dish, t.Step, 1)]; bound {
				j.soon = &x
			}
			fit := g.p.Fit(j.node.dish, j.node.step)
			j.uses, j.where, j.leaves, j.fit = fit.Uses, j.node.step.Where, j.node.step.Leaves, &fit
			j.node.jobs = append(j.node.jobs, j)
		} else {
			j.chore = g.p.Chore(t.Chore)
			j.uses, j.where, j.leaves = j.chore.Uses, j.chore.Where, j.chore.Leaves
		}
		if g.ask.InForce != nil {
			j.told = g.ask.InForce.Placed(j.Key)
		}
		if err := g.settle(j); err != nil {
			return err
		}
		if j.node != nil && !j.skipped {
			j.node.rounds = append(j.node.rounds, j)
		}
		g.jobs = append(g.jobs, j)
	}
	for _, n := range g.nodes {
		n.skipped = len(n.rounds) == 0
	}
	return nil
}

// settle takes over what people have said about a job, and who may do it.
func (g *graph) settle(j *duty) error {
	w := g.p.WorkOn(j.Key)
	if w != nil && w.Person != "" {
		j.claim = g.personIndex(w.Person)
		if j.claim < 0 && w.Progress == planner.Waiting {
			return fmt.Errorf("%s is claimed by %s, who is not among the people who work: free it or give it to somebody else",
				j.label(), w.Person)
		}
	}
	for i, person := range g.people {
		named := j.Who.Person == "" || j.Who.Person == person.Key
		skilled := j.Who.Skill == "" || slices.Contains(person.Skills, j.Who.Skill)
		if named && skilled {
			j.lead = append(j.lead, i)
		}
		j.hands = append(j.hands, i)
	}
	if j.Who.Person != "" && g.personIndex(j.Who.Person) < 0 {
		return fmt.Errorf("%s is for %s, who is not among the people who work", j.label(), j.Who.Person)
	}
	if j.node != nil && slices.ContainsFunc(g.ask.without, func(l planner.LeftOut) bool { return l.Dish == j.Dish }) {
		j.settled, j.skipped, j.left = true, true, true
		j.start, j.end = g.now, g.now
		return nil
	}
	if w == nil || w.Progress == planner.Waiting {
		if w != nil && w.NotBefore != nil {
			j.soonest = g.minuteUp(*w.NotBefore)
		}
		if at := w.StartsBefore(planner.Later(g.ask.Now, g.p.Opens())); at != nil && !g.ask.Soft {
			j.before = g.minute(*at)
		}
		g.keep(j)
		return nil
	}
	j.settled = true
	long := j.length(len(g.peopleOf(j)))
	told := j.told
	switch {
	case w.Start != nil:
		j.start = g.minute(*w.Start)
	case w.End != nil:
		j.start = g.minuteUp(*w.End) - long
	case told != nil:
		j.start = g.minute(told.Start)
	default:
		j.start = g.minute(g.ask.Now)
	}
	switch w.Progress {
	case planner.Started:
		j.end = max(j.start+long+int(w.Extra), g.now)
	case planner.Done:
		j.end = j.start + long
		if w.End != nil {
			j.end = max(j.start, g.minuteUp(*w.End))
		}
	case planner.Skipped:
		j.skipped = true
		if w.End != nil {
			j.start = g.minuteUp(*w.End)
		}
		j.end = j.start
	}
	return nil
}

// keep holds a job to where the plan in force has it, if that is still to come, and to whom.
func (g *graph) keep(j *duty) {
	if !g.ask.Keep[j.Key] || j.told == nil || g.minute(j.told.Start) < max(g.now, j.soonest) ||
		j.before > 0 && g.minute(j.told.Start) >= j.before {
		return
	}
	if j.claim < 0 && len(j.told.People) > 0 {
		if j.claim = g.personIndex(j.told.People[0]); j.claim < 0 {
			return
		}
	}
	j.kept = true
}

// peopleOf are the people of a settled job: who is known to do it, with the other hands that the plan in force gave it.
func (g *graph) peopleOf(j *duty) []planner.PersonKey {
	var out []planner.PersonKey
	w := g.p.WorkOn(j.Key)
	if w != nil && w.Person != "" {
		out = append(out, w.Person)
	}
	if j.told != nil {
		for _, k := range j.told.People {
			left := g.p.Person(k) == nil // who has done it is known for ever; what is going on is for those who are there
			if left && (w == nil || w.Progress != planner.Done) {
				continue
			}
			if !slices.Contains(out, k) && (len(out) == 0 || len(out) < j.MaxHands) {
				out = append(out, k)
			}
		}
	}
	if len(out) == 0 && len(j.lead) > 0 {
		out = append(out, g.people[j.lead[0]].Key)
	}
	return out
}
