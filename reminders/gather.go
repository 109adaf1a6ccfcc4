package reminders

import (
	"cmp"
	"slices"
	"strconv"
	"time"

	"tureen/planner"
	"tureen/store"
)

// What each task wants by itself would ring at every step of an evening. One message tells a session as it begins, and
// is kept true where it stands; in the last hours before the guests come, a message has what begins within ten
// minutes. Only what a time decides makes a sound: out of the oven, a limit, a service, and work after a pause.

const (
	together = 10 * time.Minute // what begins within so long is told at once, in the last hours
	pause    = 10 * time.Minute // whose hands are free for so long no longer looks at the list
)

// group is what one message tells: tasks of one person, by their starts.
type group struct {
	who  planner.PersonKey
	key  string
	of   []*planner.Placed
	late bool          // in the last hours
	idle time.Duration // since their hands were last in something
}

// gather puts the reminders to begin something together by session, and says which of all make a sound.
func (v *view) gather(list []store.Reminder, asked *planner.Plan) []store.Reminder {
	var out []store.Reminder
	idle := map[string]time.Duration{}
	if v.plan != nil {
		single := map[string]*store.Reminder{}
		goes := map[planner.TaskKey]planner.PersonKey{}
		for i := range list {
			single[list[i].Key] = &list[i]
			if list[i].Kind == Go {
				goes[list[i].Task] = list[i].Person
			}
		}
		for i := range v.p.People {
			for _, g := range v.groups(v.p.People[i].Key) {
				if len(g.of) == 1 && goes[g.of[0].Task] == g.who {
					continue // that asks, and is one message enough
				}
				r := v.session(&g, single, asked)
				idle[r.Key] = g.idle
				out = append(out, r)
			}
		}
	}
	lasts := map[string]string{} // by person and dish: the first of them
	for _, r := range list {
		if r.Kind == Last {
			k := string(r.Person) + "/" + string(v.tasks[r.Task].Dish) + string(v.tasks[r.Task].Chore)
			if first := lasts[k]; first != "" && first != r.Key || !v.decidesLast(&r) {
				continue
			}
			lasts[k] = r.Key
		}
		if !begins(r.Kind) {
			out = append(out, r)
		}
	}
	v.sounds(out, idle)
	return out
}

// begins says of a kind that it tells somebody to begin a task.
func begins(k store.ReminderKind) bool {
	return k == Due || k == TakeOut || k == Thawing || k == ShopBy
}

// groups divides a person's tasks: on the days before by pauses, and in the last hours by what begins together.
func (v *view) groups(who planner.PersonKey) (out []group) {
	lastHours := v.p.Arrival.Add(-planner.LateOn)
	var reach, busy time.Time
	count := map[string]int{}
	for _, pl := range v.byStart() {
		t := v.tasks[pl.Task]
		if t == nil || !slices.Contains(pl.People, who) || v.p.Progress(pl.Task) == planner.Skipped || v.isQuiet(t) {
			continue
		}
		late, n := !pl.Start.Before(lastHours), len(out)
		anew := n == 0 || out[n-1].late != late
		if !anew && late {
			anew = pl.Start.Sub(out[n-1].of[0].Start) >= together
		} else if !anew {
			anew = pl.Start.After(reach.Add(planner.BetweenStretches))
		}
		if anew && v.byItself(t, pl) {
			continue
		}
		if anew {
			g := group{who: who, late: late, idle: pl.Start.Sub(busy)}
			if !late {
				day := planner.SessionKey(v.p, pl.Start.In(v.zone), who)
				count[day]++
				g.key = "session/" + day + "/" + strconv.Itoa(count[day])
			}
			out = append(out, g)
		}
		g := &out[len(out)-1]
		g.of = append(g.of, pl)
		switch {
		case t.Attention == planner.Hands || t.Away:
			reach, busy = planner.Later(reach, pl.End), planner.Later(busy, pl.End)
		case t.Attention != planner.Unattended:
			busy = planner.Later(busy, pl.Start)
			reach = planner.Later(reach, pl.End.Add(-time.Hour))
		default:
			busy = planner.Later(busy, pl.Start)
			reach = planner.Later(reach, pl.Start)
		}
	}
	for i := range out {
		if g := &out[i]; g.late { // whichever is begun first, it is the same message
			first := slices.MinFunc(g.of, func(a, b *planner.Placed) int { return cmp.Compare(a.Task, b.Task) })
			g.key = "now/" + string(first.Task) + "/" + string(who)
		}
	}
	return out
}

func (v *view) byStart() (out []*planner.Placed) {
	for i := range v.plan.Tasks {
		out = append(out, &v.plan.Tasks[i])
	}
	slices.SortStableFunc(out, func(a, b *planner.Placed) int {
		return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Task, b.Task))
	})
	return out
}

// isQuiet says of a task that nobody gets a message about it: a list to tick, or time kept free.
func (v *view) isQuiet(t *planner.Task) bool {
	c := v.p.Chore(t.Chore)
	return c != nil && c.Quiet
}

// byItself says of a task that nobody need lift a hand when it begins: what was there before goes on resting, rising or
// cooling where it stands.
func (v *view) byItself(t *planner.Task, pl *planner.Placed) bool {
	d, s := v.p.StepOf(t)
	if s == nil || t.Attention == planner.Hands || s.Where == planner.Heat || len(s.After) == 0 {
		return false
	}
	moved := false
	v.waitsBefore(d, s, pl, func(*planner.Dish, *planner.Step, planner.Wait, time.Duration) { moved = true })
	return !moved
}

// decided says of a reminder that a safety limit, an oven or a service decides when it comes, or another person: it
// rings whatever came before it.
func (v *view) decided(r *store.Reminder) bool {
	switch r.Kind {
	case Preheat, AtLimit, Service, Go, Fallen, Outdated, Told, Unsaid:
		return true
	case Last:
		return v.p.Chore(v.tasks[r.Task].Chore) == nil
	case Check:
		return v.inOven(r.Task)
	}
	return false
}

// inOven says of a task whether it has something in an oven.
func (v *view) inOven(k planner.TaskKey) bool {
	pl := v.at[k]
	return pl != nil && slices.ContainsFunc(pl.Uses, func(h planner.Held) bool {
		return h.What == planner.AnOven || h.What == planner.AGrill
	})
}

// decidesLast says of the last moment to begin a task that a service or a limit makes it one.
func (v *view) decidesLast(r *store.Reminder) bool {
	t, pl := v.tasks[r.Task], v.at[r.Task]
	if t == nil || pl == nil {
		return false
	}
	if c := v.p.Chore(t.Chore); c != nil {
		return c.Kind == planner.Shop || c.Kind == planner.Thaw || c.Kind == planner.Cool
	}
	if v.latest(t, pl, longestChain).shifts {
		return false
	}
	for _, served := range v.plan.Served {
		if d := v.p.Dish(t.Dish); d != nil && d.Course == served.Course && !r.At.Before(served.At.Add(-planner.LateOn)) {
			return true
		}
	}
	_, spoils := v.foodAges().Spare(t.Dish, t.Step)
	return spoils
}

// How many messages make a sound, beside those that are decided: of who hosts before the last hours and in them, of
// others, a day.
const (
	soundsBefore = 2
	soundsLate   = 6
	soundsOthers = 4
)

// rank is the order in which the others make a sound while there are sounds left.
func (v *view) rank(r *store.Reminder) int {
	t := v.tasks[r.Task]
	switch r.Kind {
	case Check:
		if t != nil && t.Attention == planner.Hands {
			return 5 // is somebody still at it?
		}
		return 0
	case Unticked:
		return 2
	case Digest:
		return 3
	case See, Bring:
		return 4
	}
	return 1
}

// sounds says which reminders make a sound.
func (v *view) sounds(list []store.Reminder, idle map[string]time.Duration) {
	type span struct {
		who   planner.PersonKey
		hours string
	}
	spans := map[span][]*store.Reminder{}
	var rings []*store.Reminder
	for i := range list {
		r := &list[i]
		r.Silent = r.Silent || r.Person == "" && r.Kind != Service
		if v.decided(r) && !r.Silent {
			rings = append(rings, r)
		}
	}
	for i := range list {
		r := &list[i]
		if r.Silent || r.Over || r.Person == "" || v.decided(r) {
			continue
		}
		if slices.ContainsFunc(rings, func(o *store.Reminder) bool {
			return o.Person == r.Person && !o.Due.After(r.Due) && r.Due.Sub(o.Due) < together
		}) {
			r.Silent = true // they have the telephone in their hands
			continue
		}
		at := span{r.Person, r.Due.In(v.zone).Format(time.DateOnly)}
		if who := v.p.Person(r.Person); who != nil && who.Role == planner.Host &&
			!r.Due.Before(v.p.Arrival.Add(-planner.LateOn)) {
			at.hours = "late"
		}
		spans[at] = append(spans[at], r)
	}
	for at, all := range spans {
		most := soundsBefore
		if who := v.p.Person(at.who); at.hours == "late" {
			most = soundsLate
		} else if who != nil && who.Role != planner.Host {
			most = soundsOthers
		}
		slices.SortStableFunc(all, func(a, b *store.Reminder) int {
			return cmp.Or(cmp.Compare(v.rank(a), v.rank(b)), cmp.Compare(idle[b.Key], idle[a.Key]),
				a.Due.Compare(b.Due), cmp.Compare(a.Key, b.Key))
		})
		for _, r := range all[min(most, len(all)):] {
			r.Silent = true
		}
	}
}
