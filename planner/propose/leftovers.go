package propose

import (
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// How long it takes to put away what is left, in minutes; common practice, no source.
const putAway = 10

// leftovers proposes to put what is left into the cold after the last course, while the published time on the table is
// not over; what is left of courses that are too early for that goes in before, together as far as that is possible.
// Where nobody has hands so late, nothing is proposed.
func (w *proposer) leftovers() {
	limit := w.p.CounterLimit()
	last := time.Time{}
	var after *planner.Course
	for i := range w.p.Courses {
		if c := &w.p.Courses[i]; len(c.Servings) > 0 && latest(c).After(last) {
			last, after = latest(c), c
		}
	}
	if after == nil {
		return
	}
	from := last.Add(eatMinutes * time.Minute)
	standing := w.platters(from)
	keeps := strictestKept(w.p)
	note := fmt.Sprintf("At most %s out of the heat and the cold, before the table and on it (%s), in shallow boxes, "+
		"the day on each: how long "+
		"it keeps counts from when the food was first cooked, %s (%s).", words.Length(planner.Minutes(limit.Minutes)),
		limit.Source, keeps.Figure(), keeps.Source)
	propose := func(key string, c *planner.Course, what, note string, from, by time.Time) {
		chore := planner.Chore{Key: w.freeKey(key), Kind: planner.Other, Attention: planner.Hands, MaxHands: 2,
			Time: about(putAway), From: &planner.Anchor{Course: c.Key, Offset: eatMinutes}, By: []planner.Anchor{{At: &by}},
			Do: "Put " + what + " into the refrigerator", Note: note}
		if w.canEnd(&chore, from.Add(putAway*time.Minute), by) {
			w.add(chore)
		}
	}
	var early []*planner.Course // that are cleared together, in order, and by when
	by, earlyBy := time.Time{}, time.Time{}
	clear := func() {
		if n := len(early); n > 0 {
			var names []string
			for _, c := range early {
				names = append(names, c.Named())
			}
			propose("leftovers "+string(early[0].Key), early[n-1], "what is left of the "+words.And(names),
				fmt.Sprintf("As it is cleared, %s out of the heat and the cold, before the table and on it (%s).", limit.Figure(),
					limit.Source),
				latest(early[n-1]).Add(eatMinutes*time.Minute), earlyBy)
		}
		early, earlyBy = nil, time.Time{}
	}
	for i := range w.p.Courses {
		c := &w.p.Courses[i]
		if len(c.Servings) == 0 || !slices.ContainsFunc(w.p.Dishes, func(d planner.Dish) bool {
			return d.Course == c.Key && Spoils(w.p, &d)
		}) {
			continue
		}
		due, out := standing[c.Key]
		if !out {
			due = earliest(c).Add((planner.Minutes(limit.Minutes-w.outBefore(c)) - c.Servings[0].Early).Duration())
		}
		if due.Before(from.Add(putAway * time.Minute)) {
			if len(early) > 0 && earlyBy.Before(latest(c).Add((eatMinutes+putAway)*time.Minute)) {
				clear()
			}
			if early = append(early, c); earlyBy.IsZero() || due.Before(earlyBy) {
				earlyBy = due
			}
			continue
		}
		if by.IsZero() || due.Before(by) {
			by = due
		}
	}
	clear()
	if !by.IsZero() {
		propose("leftovers", after, "the leftovers", note, from, by)
	}
}

// outBefore is the least that any food of a course has been out of the heat and the cold, by rule 2, when it is served.
func (w *proposer) outBefore(c *planner.Course) int {
	most, foods := 0, trace.Of(w.p)
	for i := range w.p.Dishes {
		d := &w.p.Dishes[i]
		if d.Course != c.Key {
			continue
		}
		most = max(most, int(foods.OnTheWay(d)))
		for j := range d.Steps {
			if s := &d.Steps[j]; !goesOn(d, s.Key) || s.Serve != nil {
				least := 0
				if s.Serve != nil && onCounter(s.Serve.State) {
					least = int(s.Serve.Least)
				}
				most = max(most, stoodBy(foods, d, s, len(d.Steps))+least)
			}
		}
	}
	return min(most, w.p.CounterLimit().Minutes)
}

// stoodBy is the least that the food of a step has stood by its end; what an earlier step of another dish left is not
// counted.
func stoodBy(foods *trace.Trace, d *planner.Dish, s *planner.Step, depth int) int {
	l, most := foods.Leaves(d.Key, s.Key), 0
	if !l.Perishable || l.Anew || depth == 0 {
		return 0
	}
	for _, a := range s.After {
		if before := d.Step(a.Step); a.Dish == "" && !a.FromStart && before != nil {
			least := 0
			if onCounter(a.Wait.State) && foods.Leaves(d.Key, a.Step).Perishable {
				least = int(a.Wait.Least)
			}
			most = max(most, stoodBy(foods, d, before, depth-1)+least)
		}
	}
	if s.Where == planner.Counter && !l.Hot {
		most += int(s.Time.Likely)
	}
	return most
}

func onCounter(s planner.State) bool {
	return s == planner.Counter || s == planner.Warm || s == planner.Straight
}

// Spoils says whether something of a dish that is served is food with a limit at room temperature: not the bread whose
// dough had egg in it.
func Spoils(p *planner.Party, d *planner.Dish) bool {
	foods := trace.OfDish(p, d)
	return slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
		goesOn := slices.ContainsFunc(d.Steps, func(o planner.Step) bool {
			return slices.ContainsFunc(o.After, func(a planner.After) bool { return a.Dish == "" && a.Step == s.Key })
		})
		return (!goesOn || s.Serve != nil) && foods.Leaves(d.Key, s.Key).Perishable
	}) ||
		len(d.Steps) == 0 && slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool {
			k, known := food.KindOf(in.Name)
			return known && k != food.None
		})
}

// strictestKept is the shortest published time in the refrigerator of what the dishes leave when they are served.
func strictestKept(p *planner.Party) safety.Limit {
	foods, most := trace.Of(p), p.RefrigeratorLimit(safety.Cooked)
	for i := range p.Dishes {
		d := &p.Dishes[i]
		if len(d.Steps) == 0 {
			continue
		}
		for _, c := range foods.Leaves(d.Key, d.Steps[len(d.Steps)-1].Key).Colds() {
			if l := p.RefrigeratorLimit(c.Kind); l.Applies() && l.Minutes < most.Minutes {
				most = l
			}
		}
	}
	return most
}

func latest(c *planner.Course) time.Time {
	var at time.Time
	for _, s := range c.Servings {
		at = planner.Later(at, s.At)
	}
	return at
}
