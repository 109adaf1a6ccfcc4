package check_test

import (
	"cmp"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/check"
)

// lister lists the plans of a tiny party, start by start, and keeps the best by the levels' order. It knows
// the rules only through Check: what it tries is every minute in which the person in charge cooks, every crew
// that the task may have, every oven, and the ends of every oven use's tolerance as settings.
type lister struct {
	p        *planner.Party
	now      time.Time
	inForce  *planner.Plan
	tasks    []planner.Task
	options  [][]option
	ovenUses [][]*planner.Use
	settings map[setKey]ovenSet
	plan     planner.Plan
	best     []int
	bestPlan *planner.Plan
	tried    int
	limit    int // of tries; beyond it the party is too big to list
}

type option struct {
	start  time.Time
	end    time.Time // of settled work; else its length says
	people []planner.PersonKey
	ovens  []ovenSet // for each oven use of the task
}

type ovenSet struct {
	name string
	c    int
}

type setKey struct {
	task planner.TaskKey
	use  *planner.Use
}

// list finds the best plan; ok is false when the party is too big.
func list(p *planner.Party, now time.Time, inForce *planner.Plan, heating []planner.Held, limit int) (best []int,
	plan *planner.Plan, ok bool) {
	l := &lister{p: p, now: now, inForce: inForce, tasks: planner.Tasks(p), settings: map[setKey]ovenSet{}, limit: limit}
	l.plan.Made, l.plan.Heating = now, heating
	for _, t := range l.tasks {
		l.ovenUses = append(l.ovenUses, check.OvenUses(p, t.Key))
	}
	for _, t := range l.tasks {
		l.options = append(l.options, l.optionsOf(&t))
	}
	var services [][]planner.Served
	l.services(nil, &services)
	slices.SortStableFunc(services, func(a, b []planner.Served) int { return cmp.Compare(l.late(a), l.late(b)) })
	for _, s := range services {
		l.plan.Tasks, l.plan.Served = nil, s
		l.place(0)
		if l.tried > l.limit {
			return nil, nil, false
		}
	}
	return l.best, l.bestPlan, true
}

// services lists every minute of every window of service.
func (l *lister) services(got []planner.Served, out *[][]planner.Served) {
	i := 0
	for _, c := range l.p.Courses {
		for _, s := range c.Servings {
			if i++; i <= len(got) {
				continue
			}
			for m := -s.Early; m <= s.Late; m++ {
				l.services(append(slices.Clone(got), planner.Served{Course: c.Key, Group: s.Group, At: s.At.Add(m.Duration())}),
					out)
			}
			return
		}
	}
	*out = append(*out, got)
}

func (l *lister) late(served []planner.Served) int {
	return check.LevelsButSpare(l.p, &planner.Plan{Served: served}, nil)[0]
}

func (l *lister) optionsOf(t *planner.Task) []option {
	if w := l.p.WorkOn(t.Key); w != nil && w.Progress != planner.Waiting {
		return []option{l.settled(t, w)}
	}
	ovens := [][]ovenSet{nil}
	for _, u := range check.OvenUses(l.p, t.Key) {
		var more [][]ovenSet
		for _, sets := range ovens {
			for _, o := range l.p.Kitchen.Ovens {
				for _, c := range l.settingsFor(u) {
					more = append(more, append(slices.Clone(sets), ovenSet{o.Name, c}))
				}
			}
		}
		ovens = more
	}
	var crews [][]planner.PersonKey
	for i := range l.p.People {
		x := l.p.People[i].Key
		if t.Hands <= 1 {
			crews = append(crews, []planner.PersonKey{x})
		}
		for j := range l.p.People {
			if i != j && t.Hands <= 2 && t.MaxHands >= 2 {
				crews = append(crews, []planner.PersonKey{x, l.p.People[j].Key})
			}
		}
	}
	var out []option
	for _, crew := range crews {
		for _, w := range l.p.CookingHours(l.p.Person(crew[0])) {
			for at := w.From; at.Before(w.To); at = at.Add(time.Minute) {
				for _, sets := range ovens {
					out = append(out, option{start: at, people: crew, ovens: sets})
				}
			}
		}
	}
	return out
}

// settled is where settled work stays, by the words of the rules: with the people, and in the oven, of the plan in
// force.
func (l *lister) settled(t *planner.Task, w *planner.Work) option {
	var o option
	told := l.inForce.Placed(t.Key)
	if w.Progress != planner.Skipped {
		if w.Person != "" {
			o.people = append(o.people, w.Person)
		}
		for _, k := range told.People {
			if !slices.Contains(o.people, k) && (len(o.people) == 0 || len(o.people) < t.MaxHands) {
				o.people = append(o.people, k)
			}
		}
	}
	length := t.Length(len(o.people))
	switch w.Progress {
	case planner.Skipped:
		o.start, o.end = *w.End, *w.End
	case planner.Done:
		o.start, o.end = w.End.Add(-length.Duration()), *w.End
		if w.Start != nil {
			o.start = *w.Start
		}
	case planner.Started:
		o.start = *w.Start
		if o.end = w.Start.Add((length + w.Extra).Duration()); o.end.Before(l.now) {
			o.end = l.now
		}
	}
	uses := check.OvenUses(l.p, t.Key)
	for k := range uses {
		set := ovenSet{name: l.p.Kitchen.Ovens[0].Name, c: uses[k].C}
		n := 0
		for _, h := range told.Uses {
			if h.What == planner.AnOven {
				if n == k || n == 0 {
					set = ovenSet{h.Name, h.C}
				}
				n++
			}
		}
		o.ovens = append(o.ovens, set)
	}
	return o
}

// settingsFor lists the ends of all tolerances, and the temperatures that loads change to, that lie within this
// use's own tolerance: where two loads can share a setting they can share one of these, and no other needs less
// time to change over.
func (l *lister) settingsFor(u *planner.Use) []int {
	if u.C == 0 {
		return []int{0}
	}
	var out []int
	add := func(o *planner.Use) {
		all := []int{o.C - o.Tolerance, o.C + o.Tolerance, o.C}
		for _, stage := range o.Then {
			all = append(all, stage.C)
		}
		for _, c := range all {
			if c >= u.C-u.Tolerance && c <= u.C+u.Tolerance {
				out = append(out, c)
			}
		}
	}
	for _, t := range l.tasks {
		for _, o := range check.OvenUses(l.p, t.Key) {
			add(o)
		}
	}
	for _, h := range l.plan.Heating { // the oven may be on at a setting of the plan in force
		if h.C >= u.C-u.Tolerance && h.C <= u.C+u.Tolerance {
			out = append(out, h.C)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// place tries every option of a task after those before it have been placed.
func (l *lister) place(i int) {
	if i == len(l.tasks) {
		l.best = check.LevelsButSpare(l.p, &l.plan, l.inForce)
		kept := l.plan
		kept.Tasks = slices.Clone(l.plan.Tasks)
		l.bestPlan = &kept
		return
	}
	t := &l.tasks[i]
	for _, o := range l.options[i] {
		if l.tried++; l.tried > l.limit {
			return
		}
		for k, u := range l.ovenUses[i] {
			l.settings[setKey{t.Key, u}] = o.ovens[k]
		}
		if o.end.IsZero() {
			o.end = o.start.Add(t.Length(len(o.people)).Duration())
		}
		l.plan.Tasks = append(l.plan.Tasks[:i:i], planner.Placed{Task: t.Key, Start: o.start, End: o.end, People: o.people})
		check.HoldFor(l.p, &l.plan, func(k planner.TaskKey, u *planner.Use) (string, int) {
			s := l.settings[setKey{k, u}]
			return s.name, s.c
		})
		// Rounds are checked together: the last of them may be what goes straight on.
		if t.Round == t.Rounds && l.broken(i+1 < len(l.tasks)) {
			continue
		}
		if t.Round == t.Rounds && l.best != nil && slices.Compare(check.LevelsButSpare(l.p, &l.plan, l.inForce),
			l.best) >= 0 {
			continue
		}
		l.place(i + 1)
	}
}

// broken asks Check; in a part of a plan missing tasks are no break.
func (l *lister) broken(part bool) bool {
	for _, b := range check.Plan(l.p, &l.plan) {
		if !part || b.Rule != check.RuleComplete {
			return true
		}
	}
	return false
}
