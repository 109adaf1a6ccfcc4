package check

import (
	"slices"
	"time"

	"tureen/planner"
)

func (h *known) read(p *planner.Party, plan *planner.Plan) (cooking, home map[planner.PersonKey][]planner.Window) {
	if h.cooking != nil {
		return h.cooking, h.home
	}
	h.cooking, h.home = map[planner.PersonKey][]planner.Window{}, map[planner.PersonKey][]planner.Window{}
	for i := range p.People {
		x := &p.People[i]
		h.cooking[x.Key], h.home[x.Key] = p.CookingHours(x), p.HomeHours(x)
		if plan.Soft {
			h.cooking[x.Key], h.home[x.Key] = p.StaysOn(h.cooking[x.Key]), p.StaysOn(h.home[x.Key])
		}
	}
	return h.cooking, h.home
}

// Staffed says whether a plan keeps the rules about people, 3 and 8, and is complete, which is quicker to ask.
func (j *Judge) Staffed(plan *planner.Plan) bool {
	c := j.reading(plan)
	c.hands()
	c.claims()
	return len(c.out) == 0
}

// hands checks rule 3.
func (c *checker) hands() {
	cooking, home := c.known.read(c.p, c.plan)
	for _, j := range c.jobs {
		if j.settled {
			continue
		}
		c.crew(j)
		for i, x := range j.people {
			hours := cooking[x]
			if j.chore != nil && j.chore.Kind == planner.Cool {
				hours = anHourMore(hours, home[x])
			}
			c.inHours(j, x, hours, i == 0)
		}
		if j.attention == planner.Watch || j.attention == planner.Touch {
			c.watched(j, home)
		}
	}
	c.apart()
}

// anHourMore are cooking hours for who puts hot food into the cold: each window an hour longer, as far as they are at
// home.
func anHourMore(cooking, home []planner.Window) []planner.Window {
	out := slices.Clone(cooking)
	for i := range out {
		at := slices.IndexFunc(home, func(h planner.Window) bool {
			return !h.From.After(out[i].To) && h.To.After(out[i].To)
		})
		if at < 0 {
			continue
		}
		if out[i].To = out[i].To.Add(time.Hour); home[at].To.Before(out[i].To) {
			out[i].To = home[at].To
		}
	}
	return out
}

// crew checks who and how many do a task.
func (c *checker) crew(j *workJob) {
	switch n := len(j.people); {
	case n == 0:
		c.broken(RuleHands, j.key, "Nobody is in charge of %s.", j.label())
		return
	case n < j.hands:
		c.broken(RuleHands, j.key, "%s needs %s, and has %d.", j.label(), persons(j.hands), n)
	case n > j.most:
		c.broken(RuleHands, j.key, "%s takes at most %s, and has %d.", j.label(), persons(j.most), n)
	}
	first := c.p.Person(j.people[0])
	if first == nil {
		return
	}
	switch {
	case j.who.Person != "" && j.who.Person != first.Key:
		c.broken(RuleHands, j.key, "%s is for %s to do, not for %s.", j.label(), c.name(j.who.Person), c.name(first.Key))
	case j.who.Skill != "" && !slices.Contains(first.Skills, j.who.Skill):
		c.broken(RuleHands, j.key, "%s wants the skill %q, which %s has not.", j.label(), j.who.Skill, c.name(first.Key))
	}
}

func (c *checker) inHours(j *workJob, k planner.PersonKey, hours []planner.Window, charge bool) {
	x := c.p.Person(k)
	switch {
	case x == nil: // named as no person of the party
	case j.start.Before(c.opens): // named by rule 9; nobody has hours then
	case x.Role == planner.Onlooker:
		c.broken(RuleHands, j.key, "%s is given to %s, who only looks on.", j.label(), c.name(k))
	case j.attention == planner.Hands:
		for _, w := range hours {
			if !j.start.Before(w.From) && !j.end.After(w.To) {
				return
			}
		}
		c.broken(RuleHands, j.key, "%s cannot do %s from %s to %s: it is outside the hours for cooking.", c.name(k),
			j.label(),
			c.at(j.start), c.at(j.end))
	case charge:
		for _, w := range hours {
			if !j.start.Before(w.From) && j.start.Before(w.To) {
				return
			}
		}
		c.broken(RuleHands, j.key, "%s cannot be in charge of %s at %s: it is outside the hours for cooking.", c.name(k),
			j.label(), c.at(j.start))
	}
}

// watched checks that at every minute of a watch somebody is at home, awake and not away on a task.
func (c *checker) watched(j *workJob, home map[planner.PersonKey][]planner.Window) {
	at := j.start
	for at.Before(j.end) {
		until := at
		for i := range c.p.People {
			if t := c.staysUntil(c.p.People[i].Key, home, at); t.After(until) {
				until = t
			}
		}
		if !until.After(at) {
			c.broken(RuleHands, j.key, "Nobody is at home to watch %s at %s.", j.label(), c.at(at))
			return
		}
		at = until
	}
}

// staysUntil is how long somebody who is at home at an instant stays there; the instant itself if not.
func (c *checker) staysUntil(k planner.PersonKey, home map[planner.PersonKey][]planner.Window, at time.Time) time.Time {
	until := at
	for _, w := range home[k] {
		if !at.Before(w.From) && at.Before(w.To) {
			until = w.To
		}
	}
	for _, a := range c.jobs {
		if !a.away || a.gone || !slices.Contains(a.people, k) || !a.end.After(at) {
			continue
		}
		if !a.start.After(at) {
			return at
		}
		if a.start.Before(until) {
			until = a.start
		}
	}
	return until
}

// apart checks that nobody has two tasks in hand, or is in charge here while away there.
func (c *checker) apart() {
	for i, a := range c.jobs {
		for _, b := range c.jobs[i+1:] {
			if a.gone || b.gone || a.settled && b.settled {
				continue
			}
			for n, x := range a.people {
				m := slices.Index(b.people, x)
				if m < 0 || slices.Index(a.people, x) < n || c.p.Person(x) == nil {
					continue
				}
				first, then := a, b
				if b.start.Before(a.start) {
					first, then = b, a
				}
				switch {
				case a.attention == planner.Hands && b.attention == planner.Hands && overlaps(a.start, a.end, b.start, b.end):
					c.broken(RuleHands, then.key, "%s has %s in hand at %s and cannot do %s.", c.name(x), first.label(),
						c.at(then.start), then.label())
				case c.startsAway(a, n, b):
					c.isAway(x, b, a)
				case c.startsAway(b, m, a):
					c.isAway(x, a, b)
				}
			}
		}
	}
}

// startsAway says whether the person in charge of an unsettled task is away on another when it starts.
func (c *checker) startsAway(j *workJob, place int, other *workJob) bool {
	return place == 0 && !j.settled && other.away && !j.start.Before(other.start) && j.start.Before(other.end)
}

func (c *checker) isAway(k planner.PersonKey, on, from *workJob) {
	c.broken(RuleHands, from.key, "%s is away for %s and cannot be in charge of %s at %s.", c.name(k), on.label(),
		from.label(), c.at(from.start))
}

func persons(n int) string {
	if n == 1 {
		return "1 person"
	}
	return itoa(n) + " people"
}
