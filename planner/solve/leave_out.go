package solve

import (
	"context"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/words"
)

// withoutSome plans an evening without one of its dishes, where there is no plan with all: without one whose time in
// the kitchen has passed a published limit, or which there is no place for any more. Where one dish less is not
// enough, more are left out, one after the other. It gives nil when even that does not help.
func (m *model) withoutSome(ctx context.Context) (*planner.Plan, error) {
	ask := m.ask
	for len(ask.without) < len(m.p.Dishes) && ctx.Err() == nil {
		against, _ := m.against(ctx)
		said := make([]Requirement, len(against))
		for i, r := range against {
			said[i] = r.say()
		}
		candidates := m.leastMissed(said)
		if len(candidates) == 0 {
			return nil, nil
		}
		before := ask.without
		for i, d := range candidates {
			if i == mostTries {
				break
			}
			try := ask
			try.without = append(slices.Clone(before), planner.LeftOut{Dish: d})
			try.Work, try.FirstOnly = mendWork, true
			if plan, _, err := attempt(ctx, m.p, try); err != nil && AsClash(err) == nil {
				return nil, err
			} else if plan == nil {
				continue
			}
			ask.without = append(slices.Clone(before), m.leftOut(ctx, d, against, said))
			plan, _, err := attempt(ctx, m.p, ask)
			// what was found in little time is not found in more: keep it
			if plan == nil && (err == nil || AsClash(err) != nil) {
				try.without = ask.without
				plan, _, err = attempt(ctx, m.p, try)
			}
			return plan, err
		}
		// No one dish is enough: the first goes in any case.
		ask.without = append(slices.Clone(before), m.leftOut(ctx, candidates[0], against, said))
		plan, next, err := attempt(ctx, m.p, ask)
		if err != nil && AsClash(err) == nil || plan != nil || next.verdict != cp.Infeasible {
			return plan, err
		}
		m = next
	}
	return nil, nil
}

// leftOut is a dish with the reasons why the plan does not go on with it.
func (m *model) leftOut(ctx context.Context, d planner.DishKey, against []requirement,
	said []Requirement) planner.LeftOut {
	out := planner.LeftOut{Dish: d}
	var limits, all []string
	only := true // nothing but published limits, and what the clock says
	for i, r := range said {
		if dish, _, _, _, ok := r.Task.Split(); ok && dish == d && r.Limit {
			if text := words.PlainStamps(r.Text); !slices.Contains(limits, text) {
				limits = append(limits, text)
			}
		} else if id := against[i].id; !r.Limit && id != "now" && !strings.HasPrefix(id, "serve ") {
			only = false
		}
		if text := words.PlainStamps(r.Text); !slices.Contains(all, text) { // the plan is kept, and holds no marks
			all = append(all, text)
		}
	}
	if len(limits) > 0 && (only || len(m.never) > 0) {
		out.Limit, out.Why = true, strings.Join(limits, " ")
		return out
	}
	out.Why, out.Mends = strings.Join(all, " "), m.concessions(ctx, mostSets, concedeWork/2)
	return out
}

// leastMissed orders the dishes that could be left out: those with a published limit in the clash, those that it speaks
// of, and the rest, the least begun first.
func (m *model) leastMissed(said []Requirement) []planner.DishKey {
	var out []planner.DishKey
	add := func(d planner.DishKey) {
		open := slices.ContainsFunc(m.jobs, func(j *duty) bool { return j.node != nil && j.Dish == d && !j.left })
		if open && !slices.Contains(out, d) {
			out = append(out, d)
		}
	}
	for _, limit := range []bool{true, false} {
		for _, r := range said {
			if dish, _, _, _, ok := r.Task.Split(); ok && dish != "" && r.Limit == limit {
				add(dish)
			}
		}
	}
	begun := map[planner.DishKey]int{}
	for _, j := range m.jobs {
		if j.node != nil && j.settled && !j.skipped {
			begun[j.Dish] += j.end - j.start
		}
	}
	var rest []planner.DishKey
	for i := range m.p.Dishes {
		rest = append(rest, m.p.Dishes[i].Key)
	}
	slices.Reverse(rest) // of two as far, the later one on the menu
	slices.SortStableFunc(rest, func(a, b planner.DishKey) int { return begun[a] - begun[b] })
	for _, d := range rest {
		add(d)
	}
	return out
}
