package propose

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// How long it takes to put away what is left, in minutes; common practice, no source.
const putAway = 10

// leftovers proposes to put what is left into the cold after the last course, while the published time on the table is
// not over. Of a course that is too early for that the note says by when it goes in as it is cleared. Where nobody has
// hands so late, nothing is proposed: the run sheet says it all the same.
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
			return d.Course == c.Key && Spoils(&d)
		}) {
			continue
		}
		due := earliest(c).Add(-c.Servings[0].Early.Duration() + planner.Minutes(limit.Minutes).Duration())
		if due.Before(from.Add(putAway * time.Minute)) {
			before = append(before, fmt.Sprintf("of the %s by %s", c.Named(), clock(w.p, due)))
			continue
		}
		if now = append(now, c.Named()); by.IsZero() || due.Before(by) {
			by = due
		}
	}
	if len(now) == 0 {
		return
	}
	long := words.Length(planner.Minutes(limit.Minutes))
	c := planner.Chore{Key: w.freeKey("leftovers"), Kind: planner.Other, Attention: planner.Hands, MaxHands: 2,
		Time: about(putAway), From: &planner.Anchor{Course: after.Key, Offset: eatMinutes},
		By: []planner.Anchor{{At: &by}},
		Do: fmt.Sprintf("Leftovers into the refrigerator by %s: %s after the food comes to the table (%s)",
			clock(w.p, by), long, limit.Authority),
		Note: fmt.Sprintf("In shallow boxes. What has stood longer is thrown away. Write the day on each box: it counts from when the food was "+
			"first cooked, %s (%s).", safety.RefrigeratorLimit(safety.Cooked).Figure(),
			safety.RefrigeratorLimit(safety.Cooked).Source)}
	if len(before) > 0 {
		c.Note = "What is left " + words.And(before) + ", as it is cleared. " + c.Note
	}
	if w.canEnd(&c, from.Add(putAway*time.Minute), by) {
		w.add(c)
	}
}

// Spoils says whether something of a dish is food with a limit at room temperature, by what its steps leave and by its
// ingredients.
func Spoils(d *planner.Dish) bool {
	return slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return s.Leaves.Perishable }) ||
		slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool {
			k, known := food.KindOf(in.Name)
			return known && k != food.None
		})
}

func latest(c *planner.Course) time.Time {
	var at time.Time
	for _, s := range c.Servings {
		at = planner.Later(at, s.At)
	}
	return at
}

// clock is an instant as the party's own clock shows it.
func clock(p *planner.Party, t time.Time) string {
	return strings.TrimPrefix(t.In(p.Location()).Format("15:04"), "0")
}
