package propose

import (
	"fmt"
	"slices"
	"strings"
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
// not over. Of a course that is too early for that the note says by when it goes in as it is cleared. Where nobody has
// hands so late, nothing is proposed.
func (w *proposer) leftovers() {
	limit := safety.CounterLimit(float64(w.p.AirC()))
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
	var now, before []string
	by := time.Time{}
	for i := range w.p.Courses {
		c := &w.p.Courses[i]
		if len(c.Servings) == 0 || !slices.ContainsFunc(w.p.Dishes, func(d planner.Dish) bool {
			return d.Course == c.Key && Spoils(w.p, &d)
		}) {
			continue
		}
		due := earliest(c).Add(-c.Servings[0].Early.Duration() + planner.Minutes(limit.Minutes).Duration())
		if due.Before(from.Add(putAway * time.Minute)) {
			before = append(before, "of the "+c.Named())
			continue
		}
		if now = append(now, c.Named()); by.IsZero() || due.Before(by) {
			by = due
		}
	}
	if len(now) == 0 {
		return
	}
	long, keeps := words.Length(planner.Minutes(limit.Minutes)), strictestKept(w.p)
	c := planner.Chore{Key: w.freeKey("leftovers"), Kind: planner.Other, Attention: planner.Hands, MaxHands: 2,
		Time: about(putAway), From: &planner.Anchor{Course: after.Key, Offset: eatMinutes},
		By: []planner.Anchor{{At: &by}},
		Do: "Put the leftovers into the refrigerator",
		Note: fmt.Sprintf(
			"At most %s after the food comes to the table (%s), in shallow boxes, the day on each: how long it "+
				"keeps counts from when the food was first cooked, %s (%s).", long, limit.Source, keeps.Figure(), keeps.Source)}
	if len(before) > 0 {
		c.Note = fmt.Sprintf("What is left %s within %s of its serving, as it is cleared. ", words.And(before), long) + c.Note
	}
	if w.canEnd(&c, from.Add(putAway*time.Minute), by) {
		w.add(c)
	}
}

// outWords say that a dish stands out while people help themselves, or where nothing cools it.
var outWords = []string{"buffet", "help themselves", "self service", "self-service", "grazing", "picnic",
	"in the garden",
	"in the sun", "in the car", "car boot", "all evening", "all afternoon", "all day", "stand out", "leave out",
	"left out"}

// StandsOut says whether a dish stands out from when it is served until the end of service, by its words or its
// course's.
func StandsOut(p *planner.Party, d *planner.Dish) bool {
	text := d.Name + ". " + d.Note
	if c := p.Course(d.Course); c != nil {
		text += ". " + c.Name
	}
	for i := range d.Steps {
		text += ". " + d.Steps[i].Do
	}
	text = strings.ToLower(text)
	return slices.ContainsFunc(outWords, func(w string) bool { return strings.Contains(text, w) })
}

// platters proposes to take in what stands out, or to put fresh platters in its place, each time that the published
// time
// at room temperature is over before service ends.
func (w *proposer) platters() {
	limit := safety.CounterLimit(float64(w.p.AirC()))
	long := planner.Minutes(limit.Minutes)
	end := time.Time{}
	for i := range w.p.Courses {
		end = planner.Later(end, latest(&w.p.Courses[i]))
	}
	end = end.Add(standsFor * time.Minute)
	for i := range w.p.Courses {
		c := &w.p.Courses[i]
		if len(c.Servings) == 0 {
			continue
		}
		var names []string
		for j := range w.p.Dishes {
			if d := &w.p.Dishes[j]; d.Course == c.Key && Spoils(w.p, d) && StandsOut(w.p, d) {
				names = append(names, d.Name)
			}
		}
		since := earliest(c).Add(-c.Servings[0].Early.Duration())
		for n := 1; len(names) > 0 && n <= mostPlatters; n++ {
			by := since.Add((long * planner.Minutes(n)).Duration())
			if by.After(end) {
				break
			}
			chore := planner.Chore{Key: w.freeKey("platters " + string(c.Key)), Kind: planner.Other,
				Attention: planner.Hands, MaxHands: 2, Time: about(putAway),
				From: &planner.Anchor{Course: c.Key, Offset: long*planner.Minutes(n) - 2*putAway - c.Servings[0].Early},
				By:   []planner.Anchor{{At: &by}},
				Do:   fmt.Sprintf("Take in what stands out of %s, or put out fresh platters", words.And(names)),
				Note: fmt.Sprintf("What has stood for %s by then is thrown away, and fresh food goes onto a clean platter, not "+
					"onto "+
					"what has stood (%s).", words.Length(long), limit.Source)}
			if w.canEnd(&chore, by.Add(-2*putAway*time.Minute), by) {
				w.add(chore)
			}
		}
	}
}

// How long a buffet stands after the last course is served, in minutes, and how often platters are thought of; common
// practice, no source.
const (
	standsFor    = 60
	mostPlatters = 3
)

// Spoils says whether something of a dish is food with a limit at room temperature.
func Spoils(p *planner.Party, d *planner.Dish) bool {
	foods := trace.OfDish(p, d)
	return slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return foods.Leaves(d.Key, s.Key).Perishable }) ||
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
