package ways

import (
	"slices"
	"time"

	"tureen/planner"
)

// Renew chooses a way for every dish that can be made in more than one and of which nothing is begun, and says which
// dishes it has changed. Work that hangs on a step that goes, goes with it.
func Renew(p *planner.Party, now time.Time) (changed []planner.DishKey) {
	for i := range p.Dishes {
		d := &p.Dishes[i]
		if _, own := base(p, d); own { // the hosts have changed it: it is as they have it
			d.AsRead, d.Taken = nil, ""
		}
		way := Of(p, d, now).Way
		if way == "" && len(d.AsRead) > 0 {
			way = planner.ForService // as it was read
		}
		if way != "" && open(p, d, way, now) && Take(p, d, way) {
			changed = append(changed, d.Key)
		}
	}
	return changed
}

// Choice is a way of a dish, and why it is taken.
type Choice struct {
	Way planner.Way // empty: there is only one
	Why string      // in a sentence
}

// Of is the way that a dish would be made now.
func Of(p *planner.Party, d *planner.Dish, now time.Time) Choice {
	steps, changed := base(p, d)
	all := spotsOf(p, d, steps)
	if len(all) == 0 || changed {
		return Choice{}
	}
	return all[0].choose(p, d, steps, now)
}

// Has says whether a dish could be made in a way, whoever has the time for it.
func Has(p *planner.Party, d *planner.Dish, way planner.Way) bool {
	steps, changed := base(p, d)
	all := spotsOf(p, d, steps)
	return !changed && len(all) > 0 && can(all, way)
}

// choose goes by the levels: a wish of the hosts first, then what would spoil, then hands that are free while guests
// are there, then slight loss, and then work ahead.
func (s *spot) choose(p *planner.Party, d *planner.Dish, steps []planner.Step, now time.Time) Choice {
	room, loss, plainly := s.room(p, d, steps, now), s.loss, "made hot again it would lose plainly"
	if best := atLeast(s.wait.BestUntil, s.least()); best > 0 && s.hours(p, d, steps, now, s.least(),
		min(best, s.keeps())) < s.long(steps) {
		loss, plainly = 2, "it would have to be made so early that it is past its best"
	}
	ices := s.icesWell(p, d, steps, now)
	switch {
	case d.Way != "":
		return Choice{d.Way, "you have said so"}
	case p.Ahead == planner.SameDay && !s.cool:
		return Choice{planner.ForService, "nothing is wanted ahead"}
	case !room && ices:
		return Choice{planner.Frozen, "nobody cooks on the days for which it keeps in the refrigerator, and it freezes well"}
	case ices && (s.loss > 0 || s.finish != nil || s.keeps() < hard) && s.full(p, d, now):
		return Choice{planner.Frozen, "the days just before are full, and it freezes well"}
	case s.cool && (s.finish == nil || p.Ahead == planner.SameDay || !room):
		return Choice{} // as it was read
	case !room:
		return Choice{planner.ForService, "nobody cooks early enough for it to get cold and be finished"}
	case loss >= 2:
		return Choice{planner.ForService, plainly}
	case s.better && loss == 0:
		return Choice{planner.MadeAhead, "it is better after some hours in the cold"}
	case loss == 0 && s.said:
		return Choice{planner.MadeAhead, "the recipe says that it can be, and the evening has less to do"}
	case loss == 0:
		return Choice{planner.MadeAhead, "it loses nothing by waiting, and the evening has less to do"}
	case p.Ahead == planner.AsMuchAsCanBe:
		return Choice{planner.MadeAhead, "as much as can be is wanted ahead"}
	case s.busy(p, d, steps):
		return Choice{planner.MadeAhead, "it loses a little by waiting, and keeps the hosts' hands free while guests are " +
			"there"}
	}
	if s.cool {
		return Choice{planner.ForService, "fresh it is a little better"}
	}
	return Choice{planner.ForService, "made hot again it would lose a little"}
}

// icesWell says whether it can be frozen, and loses too little by it to matter.
func (s *spot) icesWell(p *planner.Party, d *planner.Dish, steps []planner.Step, now time.Time) bool {
	return p.Ahead != planner.SameDay && s.froze(p, d, steps, now) &&
		(s.ices == 0 || s.ices == 1 && (p.Ahead == planner.AsMuchAsCanBe || s.busy(p, d, steps)))
}

// Others are the ways that dishes could be made in too, each with a party in which one is; what loses plainly is none,
// and what the hosts have named stays.
func Others(p *planner.Party, now time.Time) (out []*planner.Party, dishes []planner.DishKey) {
	for i := range p.Dishes {
		d := &p.Dishes[i]
		steps, changed := base(p, d)
		all := spotsOf(p, d, steps)
		if len(all) == 0 || changed || d.Way != "" {
			continue
		}
		for _, other := range []planner.Way{planner.ForService, planner.MadeAhead, planner.Frozen} {
			able := other == planner.ForService || other == planner.MadeAhead && all[0].loss < 2 &&
				all[0].room(p, d, steps, now) || other == planner.Frozen && all[0].ices < 2 && all[0].froze(p, d, steps, now)
			if other == d.Taken || !able || !open(p, d, other, now) {
				continue
			}
			if c := p.Clone(); c != nil && Take(c, c.Dish(d.Key), other) {
				out, dishes = append(out, c), append(dishes, d.Key)
			}
		}
	}
	return out, dishes
}

// Take makes a dish's steps those of a way, and says whether that changed any. What is said of work that is gone goes.
func Take(p *planner.Party, d *planner.Dish, way planner.Way) bool {
	steps, changed := base(p, d)
	made, ok := applied(p, d, steps, way)
	if changed || !ok {
		return false
	}
	was := d.Steps
	d.Taken, d.AsRead, d.Steps = way, steps, made
	if same(steps, made) {
		d.AsRead = nil
	}
	if same(was, made) {
		return false
	}
	gone := func(k planner.TaskKey) bool {
		dish, step, _, _, ok := k.Split()
		return ok && dish == d.Key && step != "" && d.Step(step) == nil
	}
	p.Work = slices.DeleteFunc(p.Work, func(w planner.Work) bool { return gone(w.Task) })
	return true
}

// open says whether a dish can still be made in a way: nobody has begun with it; or it was to be made ahead, what was
// to wait in the cold is not done, and it is too late for that, so that it is served as it comes.
func open(p *planner.Party, d *planner.Dish, way planner.Way, now time.Time) bool {
	begun := func(w planner.Work) bool {
		dish, _, _, _, ok := w.Task.Split()
		return ok && dish == d.Key && w.Progress != planner.Waiting
	}
	if !slices.ContainsFunc(p.Work, begun) {
		return true
	}
	steps, changed := base(p, d)
	if way != planner.ForService || d.Taken != planner.MadeAhead || changed {
		return false
	}
	for _, s := range spotsOf(p, d, steps) {
		if s.room(p, d, steps, now) {
			return false // there is time still
		}
		for i := range steps {
			w := p.Progress(planner.StepTask(d.Key, steps[i].Key, 1))
			if i == s.at && over(p.WorkOn(planner.StepTask(d.Key, steps[i].Key, 1)), &steps[i], now) || i != s.at &&
				leadsTo(steps, s.at, i, 0) &&
				w != planner.Waiting {
				return false
			}
		}
	}
	return !slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
		return s.Finish && p.Progress(planner.StepTask(d.Key, s.Key, 1)) != planner.Waiting
	})
}

// over says whether a step is done by now, as far as anybody has said.
func over(w *planner.Work, s *planner.Step, now time.Time) bool {
	if w == nil || w.Progress == planner.Waiting {
		return false
	}
	return w.Progress != planner.Started || w.Start != nil && !w.Start.Add((s.Time.Likely+w.Extra).Duration()).After(now)
}

// service is when a dish is served first, at its target.
func service(p *planner.Party, d *planner.Dish) time.Time {
	first := p.Arrival
	if c := p.Course(d.Course); c != nil && len(c.Servings) > 0 {
		first = c.Servings[0].At
		for _, s := range c.Servings {
			if s.At.Before(first) {
				first = s.At
			}
		}
	}
	return first
}

// putAway is what it takes to put food into the cold, in minutes; common practice, no source.
const putAway = 15

// room says whether somebody has hands for so long, so early that the food gets cold and still is worth serving.
func (s *spot) room(p *planner.Party, d *planner.Dish, steps []planner.Step, now time.Time) bool {
	return s.hours(p, d, steps, now, s.least(), s.keeps()) >= s.long(steps)
}

// long is what it takes to make what waits, with all that goes straight on to it, and to put it away.
func (s *spot) long(steps []planner.Step) planner.Minutes {
	const soon = 60 // what cannot wait longer goes straight on
	var lead func(i, depth int) planner.Minutes
	lead = func(i, depth int) (most planner.Minutes) {
		for _, a := range steps[i].After {
			k := slices.IndexFunc(steps, func(o planner.Step) bool { return o.Key == a.Step })
			if k >= 0 && a.Dish == "" && !a.FromStart && depth < len(steps) &&
				(a.Wait.State == planner.Straight || a.Wait.WorthUntil > 0 && a.Wait.WorthUntil <= soon) {
				most = max(most, lead(k, depth+1))
			}
		}
		return most + steps[i].Time.Likely
	}
	return lead(s.at, 0) + putAway
}

// tail is what comes after the wait before the dish is served.
func (s *spot) tail(steps []planner.Step) planner.Minutes {
	var after func(i, depth int) planner.Minutes
	after = func(i, depth int) (most planner.Minutes) {
		for k := range steps {
			for _, a := range steps[k].After {
				if a.Step == steps[i].Key && a.Dish == "" && !a.FromStart && !a.Aside && depth < len(steps) {
					most = max(most, steps[k].Time.Likely+after(k, depth+1))
				}
			}
		}
		return most
	}
	long := after(s.at, 0)
	if s.finish != nil {
		long += planner.Minutes(s.finish.minutes)
	}
	return long
}

// least is how long before its service food that waits is made.
func (s *spot) least() planner.Minutes {
	if s.cool {
		return s.wait.Least
	}
	return cold
}

// keeps is how long it is worth serving after that, and within the published limits; 0: for as long as anybody plans.
func (s *spot) keeps() planner.Minutes {
	most := atLeast(s.wait.WorthUntil, s.least())
	if s.limit > 0 && (most == 0 || most > s.limit-lastHour) {
		most = s.limit - lastHour
	}
	return most
}

// lastHour is what is left of a limit while food is finished and served; common practice, no source.
const lastHour = 60

// hours is the longest stretch in which somebody is at home, from so early before the service that food still is worth
// serving, until so long before it as it has to wait.
func (s *spot) hours(p *planner.Party, d *planner.Dish, steps []planner.Step, now time.Time, least,
	most planner.Minutes) (longest planner.Minutes) {
	used := service(p, d).Add(-s.tail(steps).Duration())
	last := used.Add(-least.Duration())
	first := planner.Later(now, p.Opens())
	if most > 0 {
		first = planner.Later(first, used.Add(-(most + s.long(steps) - putAway).Duration()))
	}
	for i := range p.People {
		if p.People[i].Role == planner.Onlooker {
			continue
		}
		for _, h := range p.HomeHours(&p.People[i]) {
			from, to := planner.Later(h.From, first), h.To
			if last.Before(to) {
				to = last
			}
			longest = max(longest, planner.Minutes(to.Sub(from)/time.Minute))
		}
	}
	return longest
}

// busy says whether a host's hands would be at a dish while guests are there, if it is made for service: at what cannot
// be done half an hour before the arrival without loss, where only hosts cook.
func (s *spot) busy(p *planner.Party, d *planner.Dish, steps []planner.Step) bool {
	if slices.ContainsFunc(p.People, func(x planner.Person) bool { return x.Role == planner.CoHost }) {
		return false
	}
	guests := p.Arrival.Add(-30 * time.Minute)
	made, ok := applied(p, d, steps, planner.ForService)
	if !ok {
		return false
	}
	soonest := map[planner.StepKey]time.Time{} // the end of a step at the soonest, without loss
	var end func(i, depth int) time.Time
	end = func(i, depth int) time.Time {
		if depth > len(made) {
			return guests
		}
		if at, known := soonest[made[i].Key]; known {
			return at
		}
		out := time.Time{}
		if w := made[i].Serve; w != nil {
			out = service(p, d).Add(-longest(w).Duration())
		}
		for k := range made {
			for _, a := range made[k].After {
				if a.Step != made[i].Key || a.Dish != "" || a.FromStart {
					continue
				}
				next := end(k, depth+1).Add(-made[k].Time.Likely.Duration() - longest(&a.Wait).Duration())
				out = planner.Later(out, next)
			}
		}
		soonest[made[i].Key] = out
		return out
	}
	for i := range made {
		if made[i].Key == steps[s.at].Key {
			// what comes before it, as far as it goes straight on
			return end(i, 0).After(guests) && s.hands(made, i, end, guests)
		}
	}
	return false
}

// hands says whether work by hand of the food that waits, or before it, ends while guests are there at the soonest.
func (s *spot) hands(made []planner.Step, i int, end func(i, depth int) time.Time, guests time.Time) bool {
	for k := range made {
		if made[k].Attention == planner.Hands && (k == i || leadsTo(made, k, i, 0)) && end(k, 0).After(guests) {
			return true
		}
	}
	return false
}

func leadsTo(steps []planner.Step, from, to, depth int) bool {
	return depth <= len(steps) && slices.ContainsFunc(steps[to].After, func(a planner.After) bool {
		k := slices.IndexFunc(steps, func(s planner.Step) bool { return s.Key == a.Step })
		return a.Dish == "" && !a.FromStart && k >= 0 && (k == from || leadsTo(steps, from, k, depth+1))
	})
}

// longest is how long food waits without loss.
func longest(w *planner.Wait) planner.Minutes {
	switch {
	case w.BestUntil > 0:
		return w.BestUntil
	case w.WorthUntil > 0:
		return w.WorthUntil
	case w.State == planner.Straight:
		return 0
	}
	return planner.MaxWait
}
