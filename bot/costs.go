package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/menu"
	"tureen/planner/propose"
	"tureen/planner/shopping"
	"tureen/planner/solve"
	"tureen/planner/words"
)

// A dish that comes on the menu of a party with a plan says at once what it costs: how much more hands work on
// which day, how much of it with the guests there, and when the oven is full.

// How much planning that is worth, in the engine's steps and in time.
const (
	costWork = 1_500_000
	costTime = 1500 * time.Millisecond
)

// costNews says what the dishes cost that a change has put on the menu; nothing where that cannot be said quickly.
func (t *Turn) costNews(ctx context.Context) []talk.Section {
	before := t.snapshot.Plan
	if before == nil || !t.command.Menu || len(before.Without) > 0 || !t.Now.Before(t.Party.Arrival) {
		return nil
	}
	var names []string
	for i := range t.Party.Dishes {
		if d := &t.Party.Dishes[i]; len(d.Steps) > 0 && t.snapshot.Party.Dish(d.Key) == nil {
			names = append(names, d.Name)
		}
	}
	p := t.Party.Clone()
	if len(names) == 0 || p == nil {
		return nil
	}
	if slices.ContainsFunc(p.Chores, func(c planner.Chore) bool { return c.Proposed }) { // else nobody wants them
		propose.Renew(p, t.Now)
	}
	ctx, cancel := context.WithTimeout(ctx, costTime)
	defer cancel()
	plan, _, err := solve.Make(ctx, p, solve.Ask{Now: wholeMinute(t.Now), InForce: before, Work: costWork})
	if err != nil || plan == nil {
		return nil // /plan make says what is in the way, and what would help
	}
	line := t.workMore(&t.snapshot.Party, before, p, plan)
	if full := t.ovenFull(p, plan); full != "" {
		line = strings.TrimPrefix(line+"; "+full, "; ")
	}
	if line == "" {
		return nil
	}
	return []talk.Section{{Title: "What " + words.And(names) + " costs", Lines: []string{talk.Sentence(line)}}}
}

// workMore says on which days a plan has more, or less, hands work than the one before it, and with the guests there.
func (t *Turn) workMore(was *planner.Party, before *planner.Plan, is *planner.Party, after *planner.Plan) string {
	type day struct {
		talk.Day
		guests bool
	}
	sum, at := map[day]time.Duration{}, map[day]time.Time{}
	count := func(p *planner.Party, plan *planner.Plan, sign time.Duration) {
		tasks := map[planner.TaskKey]planner.Task{}
		for _, task := range planner.Tasks(p) {
			tasks[task.Key] = task
		}
		for _, pl := range plan.Tasks {
			if tasks[pl.Task].Attention != planner.Hands {
				continue
			}
			d := day{talk.DayOf(pl.Start.In(t.zone())), !pl.Start.Before(p.Arrival)}
			sum[d] += sign * pl.End.Sub(pl.Start) * time.Duration(max(1, len(pl.People)))
			at[d] = pl.Start
		}
	}
	count(was, before, -1)
	count(is, after, 1)
	var days []day
	for d := range sum {
		days = append(days, d)
	}
	slices.SortFunc(days, func(a, b day) int { return at[a].Compare(at[b]) })
	var out []string
	for _, d := range days {
		n := words.Minutes(sum[d])
		if n > -5 && n < 5 {
			continue
		}
		sign := "+"
		if n < 0 {
			sign, n = "−", -n
		}
		text := fmt.Sprintf("%s%s %s", sign, words.Short(n), at[d].In(t.zone()).Weekday())
		if d.guests {
			text = fmt.Sprintf("%s%s with the guests there", sign, words.Short(n))
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

// ovenFull is when all shelves of all ovens are first in use in the last hours before the last course.
func (t *Turn) ovenFull(p *planner.Party, plan *planner.Plan) string {
	shelves := 0
	for _, o := range p.Kitchen.Ovens {
		shelves += o.Shelves
	}
	var held []planner.Held
	for _, pl := range plan.Tasks {
		for _, h := range pl.Uses {
			if h.What == planner.AnOven && h.To.After(p.Arrival.Add(-planner.LateOn)) {
				held = append(held, h)
			}
		}
	}
	slices.SortFunc(held, func(a, b planner.Held) int { return a.From.Compare(b.From) })
	for _, h := range held {
		n := 0
		for _, o := range held {
			if !o.From.After(h.From) && o.To.After(h.From) {
				n += o.Amount
			}
		}
		if shelves > 0 && n >= shelves {
			return "the oven is full at " + t.clock(h.From)
		}
	}
	return ""
}

// leftWithout says, to a cook alone, whom a plan leaves without that does not go on with a dish.
func (t *Turn) leftWithout() []talk.Section {
	if t.Plan == nil || len(t.Plan.Without) == 0 || !t.cooks() {
		return nil
	}
	if was := t.snapshot.Plan; was != nil && len(was.Without) == len(t.Plan.Without) {
		return nil
	}
	p := t.Party.Clone()
	if p == nil {
		return nil
	}
	fed := menu.Unfed(p)
	p.Dishes = slices.DeleteFunc(p.Dishes, func(d planner.Dish) bool { return t.Plan.LeavesOut(d.Key) })
	lines := slices.DeleteFunc(menu.Unfed(p), func(line string) bool { return slices.Contains(fed, line) })
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: "Who is left without, now that a dish is left out", Lines: firstLines(lines, mostAgainst,
		"/guest table has all")}}
}

// notBought names what a trip that nobody makes would have brought.
func (t *Turn) notBought(k planner.ChoreKey) string {
	list := shopping.Of(t.Party, nil)
	if trip := list.Trip(k); trip != nil {
		return strings.Join(firstLines(trip.Wanted(), mostChanges, "/shopping list has the rest"), ", ")
	}
	return ""
}
