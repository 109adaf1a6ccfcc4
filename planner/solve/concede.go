package solve

import (
	"context"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/mend"
)

// Which changes would mend a clash is itself put to the engine: a model in which everything that a host could give way
// on has a grade, 0 for as it is. That all grades are 0 is assumed, and [cp.Relaxed] says how few of these assumptions
// have to go; among equally few changes the mildest are taken. Published limits, the food's clocks and the steps' own
// waits are no grades: they hold as always.
//
// The model is a little kinder than the party would be after the changes (who moves a course also moves its target,
// and the hours that hang on it), so every set that it proposes is planned again before a host hears of it. One that
// fails is forbidden, and the engine asked again; of one that does not, all that is more.

// concession is something that a host could give way on, in grades.
type concession struct {
	kind  string
	grade cp.Var
	mild  int           // what a grade costs among equally many changes
	steps []mend.Change // what grade 1, 2 … means
}

// yields are the concessions of a model: nil in one that plans or explains.
type yields struct {
	of     *planner.Party // the party as it is: the model's own has everything that could be added
	all    []concession
	index  map[string]int
	hours  [][]gradedHours // by person
	opens  int             // when prep begins without a day more
	helper int             // index of the person who could be asked, or -1
	oven   int             // index of the oven that could be found, or -1
}

// gradedHours are hours that hold under conditions.
type gradedHours struct {
	hours []cp.Range
	conds []cp.Lit
}

// conceding is the condition that a concession has at most a grade; what it is called and means is said the first time.
func (m *model) conceding(kind string, most, mild int, steps ...mend.Change) cp.Lit {
	y := m.yields
	i, known := y.index[kind]
	if !known {
		i = len(y.all)
		y.index[kind] = i
		y.all = append(y.all, concession{kind: kind, grade: m.cp.NewVar(0, len(steps), kind), mild: mild, steps: steps})
	}
	return y.all[i].grade.AtMost(most)
}

// untouched is the condition that a change of one grade is not made.
func (m *model) untouched(mild int, c mend.Change) []cp.Lit {
	if m.yields == nil {
		return nil
	}
	return []cp.Lit{m.conceding(c.Kind, 0, mild, c)}
}

// How much each concession weighs against others, when as many of them mend it: a host's view, common practice, no
// source.
const (
	mildWait   = 2 // food waits a quarter of an hour longer
	mildLater  = 2 // a course a step later
	mildHours  = 2 // somebody cooks a step longer
	mildClaim  = 3
	mildAnyone = 4
	mildKit    = 4 // one more of a thing, or space in the cold
	mildPrep   = 4
	mildHelper = 6
	mildOven   = 8
)

// The grades: how much later a course may come, and how much longer somebody may cook.
var (
	laterGrades   = []planner.Minutes{15, 30, 60}
	earlierGrades = []planner.Minutes{30, 60, 120}
	longerGrades  = []planner.Minutes{30, 60}
)

// widened is the party with everything that could be added to it: a helper, an oven, a day, everybody's longest hours.
func (g *graph) widened() (*planner.Party, *yields) {
	y := &yields{of: g.p, index: map[string]int{}, helper: -1, oven: -1}
	p := g.p.Clone()
	if p == nil {
		return nil, nil
	}
	if g.ask.Now.Before(g.p.Opens()) && p.PrepDays < planner.MaxPrepDays {
		p.PrepDays++
	}
	for _, x := range g.people {
		for _, c := range []mend.Change{mend.LongerHours(p, x.Key, slices.Max(earlierGrades), 0),
			mend.LongerHours(p, x.Key, 0, slices.Max(longerGrades))} {
			c.Apply(p)
		}
	}
	if slices.ContainsFunc(g.jobs, func(j *duty) bool {
		return slices.ContainsFunc(j.uses, func(u planner.Use) bool { return u.What == planner.AnOven && u.Name == "" })
	}) && y.moreOvens().Apply(p) {
		y.oven = len(p.Kitchen.Ovens) - 1
	}
	helper := mend.AddHelper()
	if helper.Apply(p) {
		y.helper = len(g.people)
	}
	lateBy(p, slices.Max(laterGrades))
	return p, y
}

func (y *yields) moreOvens() mend.Change {
	if len(y.of.Kitchen.Ovens) > 0 {
		return mend.MoreOvens(y.of.Kitchen.Ovens[0].Name)
	}
	return mend.MoreOvens("")
}

// newConceding makes the model of what could be given way on; nil when even all of it is not enough.
func newConceding(g *graph) (*model, error) {
	p, y := g.widened()
	if p == nil {
		return nil, nil
	}
	ask := g.ask
	ask.FirstOnly = true
	wide, err := newGraph(p, ask)
	if err == nil {
		err = wide.checkEquipment()
	}
	if err != nil {
		return nil, err
	}
	y.opens = wide.minute(g.p.Opens())
	m := &model{graph: wide, yields: y, needOf: map[string]int{}}
	for _, x := range g.people {
		y.hours = append(y.hours, m.gradedHours(x))
	}
	m.build()
	if len(m.never) > 0 {
		return nil, nil
	}
	mild := cp.Level{Name: "mild"}
	for _, c := range y.all {
		mild.Terms = append(mild.Terms, cp.Term{Coef: c.mild, X: c.grade})
		m.cp.Assumptions = append(m.cp.Assumptions, cp.Assumption{Name: c.kind, Lits: []cp.Lit{c.grade.AtMost(0)}})
	}
	m.cp.Levels = []cp.Level{mild}
	return m, nil
}

// gradedHours are the hours of somebody who cooks no longer than a grade says, in the one direction or the other. Usual
// hours reach to the last service, so that they may be longer when a course comes later.
func (m *model) gradedHours(who *planner.Person) []gradedHours {
	var out []gradedHours
	onTime := m.onTime()
	grades := func(kind string, of []planner.Minutes, make func(planner.Minutes) mend.Change, other mend.Change) {
		var steps []mend.Change
		for _, by := range of {
			steps = append(steps, make(by))
		}
		for n := range of {
			var before []cp.Range
			for _, late := range []planner.Minutes{0, slices.Max(laterGrades)} {
				p := m.yields.of.Clone()
				if p == nil || !other.Apply(p) || n > 0 && !steps[n-1].Apply(p) {
					return // who has no hours cannot lengthen them
				}
				lateBy(p, late)
				hours := m.ranges(p.CookingHours(p.Person(who.Key)))
				conds := []cp.Lit{m.conceding(kind+string(who.Key), n, mildHours, steps...)}
				switch {
				case late == 0:
					before = hours
					out = append(out, gradedHours{hours, join(conds, onTime)})
				case slices.Equal(hours, before):
					out[len(out)-1].conds = conds
				default:
					out = append(out, gradedHours{hours, conds})
				}
			}
		}
	}
	earlier := func(by planner.Minutes) mend.Change { return mend.LongerHours(m.yields.of, who.Key, by, 0) }
	longer := func(by planner.Minutes) mend.Change { return mend.LongerHours(m.yields.of, who.Key, 0, by) }
	grades("earlier ", earlierGrades, earlier, longer(slices.Max(longerGrades)))
	grades("longer ", longerGrades, longer, earlier(slices.Max(earlierGrades)))
	return out
}

// lateBy lets every course come later than it may.
func lateBy(p *planner.Party, late planner.Minutes) {
	for c := range p.Courses {
		mend.EachServing(p, p.Courses[c].Key, func(s *planner.Serving) { s.Late += late })
	}
}

// onTime is the condition that no course comes later than it may.
func (m *model) onTime() []cp.Lit {
	var out []cp.Lit
	if !m.ask.Soft {
		for i := range m.yields.of.Courses {
			out = append(out, m.noLater(&m.yields.of.Courses[i], 0))
		}
	}
	return out
}

func (m *model) noLater(c *planner.Course, most int) cp.Lit {
	var steps []mend.Change
	for _, by := range laterGrades {
		steps = append(steps, mend.ServeLater(m.yields.of, c.Key, by))
	}
	return m.conceding("later "+string(c.Key), most, mildLater, steps...)
}

// unwatched are the stretches in which nobody is at home, while nobody's hours are changed and no helper comes.
func (m *model) unwatched() []gradedHours {
	y := m.yields
	if y == nil {
		return nil
	}
	var unchanged []cp.Lit
	for _, c := range y.all {
		if strings.HasPrefix(c.kind, "earlier ") || strings.HasPrefix(c.kind, "longer ") {
			unchanged = append(unchanged, c.grade.AtMost(0))
		}
	}
	if y.helper >= 0 {
		unchanged = append(unchanged, m.untouched(mildHelper, mend.AddHelper())...)
	}
	var out []gradedHours
	for _, late := range []planner.Minutes{0, slices.Max(laterGrades)} {
		p := y.of.Clone()
		if p == nil {
			return nil
		}
		lateBy(p, late)
		var bars [][]cp.Range
		for i := range p.People {
			if x := &p.People[i]; x.Role != planner.Onlooker {
				bars = append(bars, m.complement(m.ranges(p.HomeHours(x))))
			}
		}
		nobody := m.tooFew(bars, 1)
		switch {
		case late == 0:
			out = append(out, gradedHours{nobody, join(unchanged, m.onTime())})
		case slices.Equal(nobody, out[0].hours):
			out[0].conds = unchanged
		default:
			out = append(out, gradedHours{nobody, unchanged})
		}
	}
	return out
}

// hoursConceded are somebody's hours under conditions, beside the longest that could be.
func (m *model) hoursConceded(p int) []gradedHours {
	if m.yields == nil || p >= len(m.yields.hours) {
		return nil
	}
	return m.yields.hours[p]
}

// addConceded keeps what could be added out of the plan as long as it is not conceded.
func (m *model) addConceded() {
	y := m.yields
	if y == nil {
		return
	}
	if y.of.PrepDays < m.p.PrepDays {
		day := mend.AddPrepDay()
		kept := m.conceding(day.Kind, 0, mildPrep, day)
		for _, j := range m.jobs {
			if !j.settled {
				m.cp.AddClause(kept.Not(), m.work[j.i].start.AtLeast(y.opens))
			}
		}
	}
	if y.helper >= 0 {
		helper := mend.AddHelper()
		kept := m.conceding(helper.Kind, 0, mildHelper, helper)
		for _, j := range m.jobs {
			if w := m.work[j.i]; w.person != nil && w.person[y.helper] != cp.None {
				m.cp.AddClause(kept.Not(), w.person[y.helper].False())
			}
		}
	}
	if y.oven >= 0 {
		oven := y.moreOvens()
		kept := m.conceding(oven.Kind, 0, mildOven, oven)
		for i := range m.loads {
			l := &m.loads[i]
			switch {
			case l.begun || !slices.Contains(l.ovens, y.oven):
			case l.in == nil:
				m.cp.AddClause(kept.Not())
			default:
				m.cp.AddClause(kept.Not(), l.in[y.oven].False())
			}
		}
	}
}

// serveNoLater keeps a serving inside its window but for what is conceded.
func (m *model) serveNoLater(c *planner.Course, x cp.Var, hi int) {
	for n, by := range laterGrades {
		m.cp.AddClause(m.noLater(c, n).Not(), x.AtMost(hi))
		hi += int(by)
		if n > 0 {
			hi -= int(laterGrades[n-1])
		}
	}
}

// spared is a use that takes what a kitchen does not have, as long as no more is conceded.
func (m *model) spared(amount int, more mend.Change) cp.Use {
	return cp.Use{Start: cp.Const(m.spanStart()), End: cp.Const(m.spanEnd()), Demand: amount,
		If: m.untouched(mildKit, more)}
}

// The work that the search for changes spends at most, all sets together, and what one trial of a set counts for:
// mostly it takes less.
const (
	concedeWork = 16_000_000
	tryWork     = 400_000
)

// concessions finds, within so much work, sets of changes after each of which there is a plan: the smallest sets, the
// mildest first. Where single changes do, it gives single ones only.
func (m *model) concessions(ctx context.Context, most int, work int64) []planner.Mend {
	if ctx.Err() != nil || work <= 0 {
		return nil
	}
	wide, err := newConceding(m.graph)
	if err != nil || wide == nil {
		return nil
	}
	weights := slices.Repeat([]int{1}, len(wide.cp.Assumptions))
	q, _ := cp.Relaxed(&wide.cp, weights)
	var out []planner.Mend
	size := 0 // of the sets found
	for left := work; left > 0 && len(out) < most && ctx.Err() == nil; {
		r := cp.Solve(ctx, q, cp.Limits{Work: left, Seed: m.ask.Seed})
		left -= max(r.Stats.Work, 1)
		if r.Status != cp.Optimal && r.Status != cp.Feasible {
			break
		}
		set, less, other := wide.conceded(r.Values)
		if size > 0 && len(set) > size {
			break
		}
		left -= tryWork
		if m.mendsIt(ctx, set) {
			size = len(set)
			out = append(out, m.asOne(set))
			q.AddClause(less...)
		} else {
			q.AddClause(append(less, other...)...)
		}
	}
	return out
}

// conceded reads a set of changes off a solution. Less is the clause that forbids it with all that is more; less or
// other, the clause that forbids just this set.
func (m *model) conceded(v []int) (set []mend.Change, less, other []cp.Lit) {
	for _, c := range m.yields.all {
		n := v[c.grade]
		if n > 0 {
			set = append(set, c.steps[n-1])
			less = append(less, c.grade.AtMost(n-1))
		}
		if n < len(c.steps) {
			other = append(other, c.grade.AtLeast(n+1))
		}
	}
	return set, less, other
}

// mendsIt plans the party anew with all the changes.
func (m *model) mendsIt(ctx context.Context, set []mend.Change) bool {
	changed := m.p.Clone()
	if changed == nil || len(set) == 0 {
		return false
	}
	for _, c := range set {
		if !c.Apply(changed) {
			return false
		}
	}
	ask := m.ask
	ask.Work, ask.FirstOnly = mendWork, true
	plan, _, err := attempt(ctx, changed, ask)
	return err == nil && plan != nil
}

// asOne is a set of changes as one mend.
func (m *model) asOne(set []mend.Change) planner.Mend {
	out := set[0].Mend(m.p)
	for _, c := range set[1:] {
		out.With = append(out.With, c.Mend(m.p))
	}
	return out
}
