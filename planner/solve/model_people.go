package solve

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/mend"
)

// addJobsAndPeople gives every unsettled job a start, an end and people.
func (m *model) addJobsAndPeople() {
	m.work = make([]placed, len(m.jobs))
	for _, j := range m.jobs {
		if j.settled {
			m.work[j.i] = placed{start: cp.Const(j.start), end: cp.Const(j.end)}
			continue
		}
		w := &m.work[j.i]
		longest, shortest := j.length(j.Hands), j.length(j.MaxHands)
		earliest := m.earliestStart()
		if !m.explain {
			earliest = max(earliest, j.soonest)
		}
		latest := max(earliest, m.end-shortest)
		if !m.explain && j.before > earliest {
			latest = min(latest, j.before-1)
		}
		if j.kept && !m.explain && m.yields == nil {
			earliest = m.minute(j.told.Start)
			latest = earliest
		}
		start := m.cp.NewVar(earliest, latest, string(j.Key))
		w.start = start.At()
		w.end = start.Plus(longest)
		if longest != shortest {
			w.end = m.addModes(j, w)
		}
		m.addPersons(j, w)
	}
	if m.explain {
		m.addNow()
	}
}

// earliestStart is the bound of the starts' domains. To explain, work may as well lie in the past, and a requirement
// says that it may not.
func (m *model) earliestStart() int {
	if m.explain {
		return m.now - 7*24*60
	}
	return m.now
}

func (m *model) addNow() {
	need := m.needNow()
	for _, j := range m.jobs {
		if !j.settled {
			m.cp.AddClause(unless(need, m.work[j.i].start.AtLeast(m.now))...)
			if j.soonest > m.now {
				m.cp.AddClause(unless(m.needSoonest(j), m.work[j.i].start.AtLeast(j.soonest))...)
			}
			if j.before > 0 {
				m.cp.AddClause(unless(m.needBefore(j), m.work[j.i].start.AtMost(j.before-1))...)
			}
		}
	}
}

// addModes lets more hands shorten the job.
func (m *model) addModes(j *duty, w *placed) cp.Point {
	lo, hi := m.bounds(w.start)
	shortest := j.length(j.MaxHands)
	end := m.cp.NewVar(lo+shortest, hi+j.length(j.Hands), string(j.Key)+" end")
	var one []cp.Var
	for n := j.Hands; n <= j.MaxHands && n <= max(len(m.people), j.Hands); n++ {
		md := mode{people: n, length: j.length(n), chosen: m.cp.NewBool(fmt.Sprintf("%s with %d", j.Key, n))}
		m.gapAtLeast(w.start, end.At(), md.length, md.chosen.True())
		m.gapAtMost(w.start, end.At(), md.length, md.chosen.True())
		w.modes = append(w.modes, md)
		one = append(one, md.chosen)
	}
	m.cp.ExactlyOne(one...)
	m.cp.AddLag(w.start, end.At(), shortest)
	m.cp.AddClause(end.AtMost(m.end))
	return end.At()
}

// addPersons chooses the people of a job: as many as it needs, and one among them who may be in charge.
func (m *model) addPersons(j *duty, w *placed) {
	w.person = slices.Repeat([]cp.Var{cp.None}, len(m.people))
	lead := j.lead
	// A claim or a demand for somebody may be what clashes: anybody is thinkable.
	anybody := m.explain || m.yields != nil
	if !anybody && j.claim >= 0 {
		lead = only(lead, j.claim)
	}
	who := lead
	if j.Attention == planner.Hands && j.MaxHands > 1 {
		who = j.hands
	}
	if anybody {
		who = j.hands
	}
	least := max(j.Hands, 1)
	if !anybody && len(lead) == 0 || len(who) < least {
		m.cannot(func() Requirement { return Requirement{Text: m.sayNobody(j), Task: j.Key} })
		return
	}
	for _, p := range who {
		name := fmt.Sprintf("%s by %s", j.Key, m.people[p].Key)
		if len(who) == least && len(w.modes) == 0 || !anybody && p == j.claim {
			w.person[p] = m.cp.NewVar(1, 1, name)
		} else {
			w.person[p] = m.cp.NewBool(name)
		}
	}
	m.addCount(j, w, who)
	m.addLead(j, w, lead)
}

// addCount makes the number of people right.
func (m *model) addCount(j *duty, w *placed, who []int) {
	var sum, minus []cp.Term
	for _, p := range who {
		sum = append(sum, cp.Term{Coef: 1, X: w.person[p]})
		minus = append(minus, cp.Term{Coef: -1, X: w.person[p]})
	}
	if len(w.modes) == 0 {
		n := max(j.Hands, 1)
		if len(who) == n {
			return
		}
		m.cp.AddLinear(sum, n)
		if n > 1 {
			m.cp.AddLinear(minus, -n)
			return
		}
		some := make([]cp.Lit, 0, len(who))
		for _, p := range who {
			some = append(some, w.person[p].True())
		}
		m.cp.AddClause(some...)
		return
	}
	for _, md := range w.modes {
		m.cp.AddLinear(sum, md.people, md.chosen.True())
		m.cp.AddLinear(minus, -md.people, md.chosen.True())
	}
}

// addLead puts somebody in charge whom the step asks for and who has claimed it.
func (m *model) addLead(j *duty, w *placed, lead []int) {
	one := func(of []int) []cp.Lit {
		var out []cp.Lit
		for _, p := range of {
			out = append(out, w.person[p].True())
		}
		return out
	}
	if len(lead) < len(m.people) {
		need := m.need("who "+string(j.Key), func() Requirement { return Requirement{Text: m.sayWho(j), Task: j.Key} })
		if m.yields != nil {
			need = m.untouched(mildAnyone, mend.LetAnybody(&j.Task, j.label()))
		}
		m.cp.AddClause(unless(need, one(lead)...)...)
	}
	if m.yields != nil && j.claim >= 0 {
		m.cp.AddClause(unless(m.untouched(mildClaim, mend.FreeTask(j.Key, j.label())), w.person[j.claim].True())...)
	}
	if m.explain && j.claim >= 0 {
		need := m.need("claim "+string(j.Key), func() Requirement {
			return Requirement{Text: m.sayClaim(j), Task: j.Key}
		})
		m.cp.AddClause(unless(need, w.person[j.claim].True())...)
	}
}

func only(of []int, i int) []int {
	if slices.Contains(of, i) {
		return []int{i}
	}
	return nil
}

// by is the condition that a person does a job; ok is false when the person cannot.
func (m *model) by(j *duty, p int) (cond []cp.Lit, ok bool) {
	w := &m.work[j.i]
	if w.person == nil || w.person[p] == cp.None {
		return nil, false
	}
	if m.cp.Vars[w.person[p]].Lo == 1 {
		return nil, true
	}
	return []cp.Lit{w.person[p].True()}, true
}

// settledHands are the stretches from now on in which a person's hands are at settled work.
func (m *model) settledHands(p int) []cp.Range {
	var out []cp.Range
	for _, j := range m.jobs {
		if j.settled && !j.skipped && (j.Attention == planner.Hands || j.Away) && j.end > m.now &&
			slices.Contains(m.peopleOf(j), m.people[p].Key) {
			out = append(out, cp.Range{From: max(j.start, m.now), To: j.end})
		}
	}
	return mergeRanges(out)
}

// addHands gives every person one pair of hands: a disjunctive each, and a redundant cumulative over all.
func (m *model) addHands() {
	all := cp.Cumulative{Name: "all hands", Capacity: len(m.people)}
	var every []cp.Lit
	for p, person := range m.people {
		need := m.needHands(p)
		every = append(every, need...)
		d := cp.Disjunctive{Name: "hands of " + string(person.Key)}
		busy := m.settledHands(p)
		for _, r := range busy {
			d.Tasks = append(d.Tasks, cp.DisjTask{Start: cp.Const(r.From), End: cp.Const(r.To), If: need})
		}
		for _, j := range m.jobs {
			if cond, ok := m.by(j, p); ok && m.takesHands(j) {
				w := m.work[j.i]
				d.Tasks = append(d.Tasks, cp.DisjTask{Start: w.start, End: w.free, If: join(cond, need)})
			}
		}
		if len(d.Tasks) > 1 {
			m.cp.Disjunctives = append(m.cp.Disjunctives, d)
		}
		for _, r := range m.offHours(p, busy) {
			all.Uses = append(all.Uses, cp.Use{Start: cp.Const(r.From), End: cp.Const(r.To), Demand: 1})
		}
		if m.explain {
			every = append(every, m.needHours(p)...)
		}
	}
	for _, j := range m.jobs {
		if !j.settled && m.takesHands(j) {
			w := m.work[j.i]
			all.Uses = append(all.Uses, cp.Use{Start: w.start, End: w.end, Demand: max(j.Hands, 1)})
		}
	}
	for i := range all.Uses {
		all.Uses[i].If = every
	}
	if len(m.people) > 1 {
		m.cp.Cumulatives = append(m.cp.Cumulatives, all)
	}
	m.addAway()
}

func (m *model) takesHands(j *duty) bool {
	return (j.Attention == planner.Hands || j.Away) && j.length(j.MaxHands) > 0
}

// addAway keeps the person in charge of a task that needs no hands at home when it starts.
func (m *model) addAway() {
	for _, a := range m.jobs {
		if !a.Away || a.skipped || a.settled && a.end <= m.now {
			continue
		}
		for _, j := range m.jobs {
			if j.settled || m.takesHands(j) {
				continue
			}
			for p := range m.people {
				cond, ok := m.by(j, p)
				if !ok {
					continue
				}
				gone, may := m.by(a, p)
				if a.settled {
					gone, may = nil, slices.Contains(m.peopleOf(a), m.people[p].Key)
				}
				if !may {
					continue
				}
				m.cp.Disjunctives = append(m.cp.Disjunctives, cp.Disjunctive{Name: "away", Tasks: []cp.DisjTask{
					{Start: m.work[a.i].start, End: m.work[a.i].end, If: gone},
					{Start: m.work[j.i].start, End: cp.Point{X: m.work[j.i].start.X, Off: m.work[j.i].start.Off + 1},
						If: cond},
				}})
			}
		}
	}
}
