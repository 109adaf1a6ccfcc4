package propose

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/measure"
)

// chores lists the tasks that are no dish and that the party needs all the same: shopping, thawing, the
// table, the wine, clean plates. Everything in them follows from the party as it stands, so that the same
// party always gets the same proposals, under the same keys. How long they take and when they are done is
// common practice, no source, unless a note names one.
//
// What depends on the hour is as it was decided before (now is zero), or decided anew.
func chores(p *planner.Party, now time.Time) []planner.Chore {
	w := proposer{p: p, now: now}
	w.thaw()
	w.cool()
	w.drinks()
	w.shop()
	w.cupboard()
	w.clearRefrigerator()
	w.evening()
	w.serve()
	w.wash()
	w.dress()
	w.broughtIn()
	w.leftovers()
	return w.out
}

// Renew puts what follows from the party now in place of what was proposed before. Tasks that people have added or
// changed (Proposed is false), and proposals that somebody has begun, done or skipped, stay as they are, and no
// proposal takes their place: neither the one with their key, nor, for what a party needs once (laying the
// table, one shop), another one. What was declined does not come back. What was said about a proposal that
// is gone goes with it, and so does whatever hung on a task that is no more. It returns the keys that came
// and those that went. No way to a shop is proposed for a day that is over by now.
func Renew(p *planner.Party, now time.Time) (came, went []planner.ChoreKey) {
	fresh := slices.DeleteFunc(chores(p, now), func(f planner.Chore) bool {
		return slices.Contains(p.Declined, f.Key) || never(p, f.Key)
	})
	fresh = slices.DeleteFunc(slices.Clone(fresh), func(f planner.Chore) bool {
		return slices.ContainsFunc(p.Chores, func(own planner.Chore) bool {
			return !own.Proposed && replaces(&own, &f) && !(own.Kind == planner.Shop && p.TripOver(own.Key)) &&
				!slices.ContainsFunc(fresh, func(o planner.Chore) bool { return o.Key == own.Key })
		})
	})
	had := map[planner.ChoreKey]bool{}
	var kept []planner.Chore
	for _, c := range p.Chores {
		had[c.Key] = true
		w := p.WorkOn(planner.ChoreTask(c.Key))
		if !c.Proposed || w != nil && w.Progress != planner.Waiting {
			kept = append(kept, c)
			continue
		}
		if !slices.ContainsFunc(fresh, func(f planner.Chore) bool { return f.Key == c.Key }) {
			went = append(went, c.Key)
			p.Work = slices.DeleteFunc(p.Work, func(w planner.Work) bool { return w.Task == planner.ChoreTask(c.Key) })
		}
	}
	for _, f := range fresh {
		if slices.ContainsFunc(kept, func(c planner.Chore) bool { return c.Key == f.Key }) {
			continue
		}
		kept = append(kept, f)
		if !had[f.Key] {
			came = append(came, f.Key)
		}
	}
	p.Chores = kept
	dropDeadAnchors(p)
	return came, went
}

// never says whether a household never wants to be asked about a task: by its key, or by what the key begins with where
// one stands for each course.
func never(p *planner.Party, k planner.ChoreKey) bool {
	return slices.ContainsFunc(p.Never, func(n planner.ChoreKey) bool {
		return n == k || strings.HasPrefix(string(k), string(n)+"-")
	})
}

// replaces tells whether a task of the hosts' own does what a proposal would do.
func replaces(own, f *planner.Chore) bool {
	switch f.Kind {
	case planner.LayTable, planner.ClearRefrigerator, planner.SetOut, planner.Ice:
		return own.Kind == f.Kind
	case planner.Shop:
		return own.Kind == planner.Shop && planner.Key(own.Shop) == planner.Key(f.Shop)
	}
	return false
}

// Decline takes a task that is no dish out of the party. One that would be proposed again is remembered, so
// that it stays away.
func Decline(p *planner.Party, k planner.ChoreKey) {
	p.Chores = slices.DeleteFunc(p.Chores, func(c planner.Chore) bool { return c.Key == k })
	if !slices.Contains(p.Declined, k) && slices.ContainsFunc(chores(p, time.Time{}), func(f planner.Chore) bool {
		return f.Key == k
	}) {
		p.Declined = append(p.Declined, k)
	}
	dropDeadAnchors(p)
}

// Never takes a task out for good: it is not proposed again, and neither is what its key begins, one for each course.
// What food or a shop wants cannot go; ok is false then, and where no proposal has such a key.
func Never(p *planner.Party, k planner.ChoreKey) (ok bool) {
	var keep []planner.ChoreKey
	for _, f := range chores(p, time.Time{}) {
		if never(&planner.Party{Never: []planner.ChoreKey{k}}, f.Key) && !never(p, f.Key) {
			ok = f.Kind != planner.Cool && f.Kind != planner.Thaw && f.Kind != planner.Shop
			keep = append(keep, f.Key)
		}
	}
	if !ok {
		return false
	}
	p.Never = append(p.Never, k)
	p.Chores = slices.DeleteFunc(p.Chores, func(c planner.Chore) bool {
		return c.Proposed && slices.Contains(keep, c.Key)
	})
	dropDeadAnchors(p)
	return true
}

// dropDeadAnchors takes away what hangs on tasks that are no more.
func dropDeadAnchors(p *planner.Party) {
	known := map[planner.TaskKey]bool{}
	for _, t := range planner.Tasks(p) {
		known[t.Key] = true
	}
	dead := func(a planner.Anchor) bool { return a.Task != "" && !known[a.Task] }
	for i := range p.Chores {
		c := &p.Chores[i]
		c.By = slices.DeleteFunc(slices.Clone(c.By), dead)
		if c.From != nil && dead(*c.From) {
			c.From = nil
		}
	}
}

// proposer gathers proposals; later ones look at earlier ones.
type proposer struct {
	p        *planner.Party
	out      []planner.Chore
	trips    []Trip
	thaws    []thawing
	amounts  bool                            // read every amount, not only those that something may be taken from
	stocks   map[planner.Item]*measure.Stock // what there is of things
	supplied map[planner.Item]bool           // the things that stocks began with
	buying   Buying
	first    time.Time // see opens
	now      time.Time // see chores
}

func (w *proposer) add(c planner.Chore) planner.ChoreKey {
	c.Proposed = true
	if c.Do == "" || c.Key == "" {
		panic("planner: a proposal without a name") // keys are made from words of our own and numbers
	}
	w.relax(&c)
	w.out = append(w.out, c)
	return c.Key
}

// relax gives a proposal that hangs on the arrival more time before it, where nobody has hands to give, or
// no shop is open, in the time that suits it best: wine that is chilled the evening before is better than no plan.
func (w *proposer) relax(c *planner.Chore) {
	for i := range c.By {
		a := &c.By[i]
		if !a.Arrival || a.Within == 0 {
			continue
		}
		c.By = slices.Clone(c.By)
		a = &c.By[i]
		end := w.p.Arrival.Add(a.Offset.Duration())
		for _, more := range []planner.Minutes{a.Within, 6 * 60, 12 * 60, minutesADay, 2 * minutesADay} {
			if more < a.Within {
				continue
			}
			a.Within = more
			if w.canEnd(c, end.Add(-more.Duration()), end) {
				break
			}
		}
	}
}

// canEnd tells whether a proposal can end between two instants, by the hours of those who may do it and its own.
func (w *proposer) canEnd(c *planner.Chore, from, to time.Time) bool {
	length := c.Time.Likely.Duration()
	open := w.p.OpenHours(c)
	if open == nil {
		open = []planner.Window{{From: w.p.Opens(), To: w.p.NightEnd()}}
	}
	for i := range w.p.People {
		x := &w.p.People[i]
		if c.Who.Person != "" && c.Who.Person != x.Key {
			continue
		}
		for _, h := range w.p.CookingHours(x) {
			for _, o := range open {
				first, last := planner.Later(h.From, o.From), minTime(h.To, o.To)
				if c.Attention == planner.Hands {
					last = last.Add(-length)
				} else {
					last = last.Add(-time.Minute)
				}
				first, last = planner.Later(first, from.Add(-length)), minTime(last, to.Add(-length))
				if !first.After(last) {
					return true
				}
			}
		}
	}
	return false
}

// freeKey makes a key from words, with a number behind it when another proposal has it already.
func (w *proposer) freeKey(words string) planner.ChoreKey {
	taken := func(k planner.ChoreKey) bool {
		return slices.ContainsFunc(w.out, func(c planner.Chore) bool { return c.Key == k }) || w.madeTrip(k)
	}
	k := planner.ChoreKey(planner.Key(words))
	for n := 2; taken(k); n++ {
		tail := fmt.Sprintf("-%d", n)
		base := planner.Key(words)
		if len(base)+len(tail) > planner.MaxKey {
			base = planner.Key(base[:planner.MaxKey-len(tail)])
		}
		k = planner.ChoreKey(base + tail)
	}
	return k
}

// about is a span around a likely time: three quarters of it to a third more, whole minutes.
func about(likely int) planner.Span {
	step := 1 // as exactly as anybody would say it
	switch {
	case likely >= 120:
		step = 15
	case likely >= 15:
		step = 5
	}
	up := func(m int) planner.Minutes { return planner.Minutes(max(1, planner.CeilDiv(m, step)*step)) }
	return planner.Span{Low: planner.Minutes(max(1, likely*3/4/step*step)), Likely: up(likely),
		High: up(planner.CeilDiv(likely*4, 3))}
}

const minutesADay = 24 * 60
