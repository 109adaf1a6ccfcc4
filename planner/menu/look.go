// Package menu looks at a menu as it stands, before anybody plans: what will not come out, in a host's words.
//
// [Look] goes through six things, a file each: hands in the last half hour before a course (hands.go), loads that must
// be in the ovens, on the burners or in a vessel at the same time (together.go), plates and glasses (ware.go), a main
// food that comes twice (twice.go), guests whom a course leaves nothing (fed.go), what is too large to go cold as it is
// (cold.go). Amounts a cover are package portion's.
//
// What one guest may not eat is for the cooks alone. Look only counts; who, why and what would help is said by [Suits]
// (suits.go), [Help] (swap.go), [Unfed] (fed.go) and [InTheKitchen] (contact.go).
//
// When something is done is not known without a plan; between when it can be is (when.go). Only what holds wherever the
// plan puts things is said, as long as every dish is to be eaten at its best: a hint, since the plan may give up that
// wish.
package menu

import (
	"fmt"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/portion"
	"tureen/planner/words"
)

// Look lists what the hosts should think of again, a sentence each, in the order in which it matters. It is pure, and
// the same party gives the same sentences; a party that does not validate gives what can be told of it.
func Look(p *planner.Party) []string {
	w := reckon(p)
	var out []string
	out = append(out, unfed(p)...)
	out = append(out, w.hands()...)
	out = append(out, w.ovens()...)
	out = append(out, w.burners()...)
	out = append(out, w.vessels()...)
	out = append(out, wares(p)...)
	out = append(out, w.uncounted()...)
	out = append(out, twice(p)...)
	for i := range p.Dishes {
		out = append(out, lacks(p, &p.Dishes[i], false)...)
	}
	out = append(out, wholeAndCold(p)...)
	for i := range p.Dishes {
		d := &p.Dishes[i]
		if c, ok := portion.Of(p, d); ok {
			if text := c.Warning(d.Name); text != "" {
				out = append(out, text)
			}
		}
	}
	for i := range p.Courses {
		out = append(out, toChoose(p, &p.Courses[i])...)
	}
	if text := portion.Bites(p); text != "" && portion.PartyKind(p) == planner.Standing {
		out = append(out, text)
	}
	return out
}

// toChoose says how much is enough of each dish that guests choose between; the first is named as one to change.
func toChoose(p *planner.Party, c *planner.Course) []string {
	var names []string
	var first *planner.Dish
	enough := 0
	for i := range p.Dishes {
		d := &p.Dishes[i]
		if d.Course != c.Key {
			continue
		}
		if n, _ := portion.Share(p, d); n > 0 {
			if names = append(names, d.Name); first == nil {
				first, enough = d, n
			}
		}
	}
	if len(names) < 2 {
		return nil
	}
	return []string{fmt.Sprintf(
		"Guests choose between %s: %s of each are enough, where everybody eats both. /dish change "+
			"dish:%s covers:%d does so; /dish show says whose figures they are.", words.And(names),
		words.Count(enough, "portion"),
		first.Key, enough)}
}

// News lists what Look says of the menu as it is now and did not say before.
func News(before, now *planner.Party) []string {
	said := map[string]bool{}
	counted := false // asked to count what there is, once, however the figures change
	for _, s := range Look(before) {
		said[s] = true
		counted = counted || strings.HasPrefix(s, countHead)
	}
	var out []string
	for _, s := range Look(now) {
		if !said[s] && !(counted && strings.HasPrefix(s, countHead)) {
			out = append(out, s)
		}
	}
	return out
}

// served is when a course is first served; ok is false without a serving.
func served(c *planner.Course) (at time.Time, ok bool) {
	for i, s := range c.Servings {
		if i == 0 || s.At.Before(at) {
			at, ok = s.At, true
		}
	}
	return at, ok
}
