package planner

import (
	"slices"

	"tureen/planner/safety"
	"tureen/planner/words"
)

func (ps *problems) after(p *Party, d *Dish, s *Step, a *After) {
	where := string(d.Key) + "/" + string(s.Key)
	other := d
	if a.Dish != "" && a.Dish != d.Key {
		if other = p.Dish(a.Dish); other == nil {
			ps.add(where, "Name a dish of the menu that it comes after; there is no %q.%s", a.Dish,
				didYouMean(string(a.Dish), names(p.Dishes, func(d Dish) string { return string(d.Key) })))
			return
		}
	}
	if other == d && a.Step == s.Key {
		ps.add(where, "Name another step: %s cannot come after itself.", s.Key)
		return
	}
	before := other.Step(a.Step)
	if before == nil {
		ps.add(where, "Name a step of %s that it comes after; there is no %q.%s", other.Key, a.Step,
			didYouMean(string(a.Step), stepNames(other)))
		return
	}
	if a.FromStart {
		if w := a.Wait; w.BestFrom != 0 || w.BestUntil != 0 || w.Hold != nil {
			ps.add(where, "Leave out best times and holds where the time runs from the start of %s: no food waits there.",
				a.Step)
		}
		ps.lengths(where, &a.Wait)
		return
	}
	ps.wait(p, where, &a.Wait, &before.Leaves)
}

func (ps *problems) lengths(where string, w *Wait) {
	for _, m := range []Minutes{w.Least, w.Longest, w.BestFrom, w.BestUntil, w.WorthUntil} {
		if m < 0 || m > MaxWait {
			ps.add(where, "Give waits of 0 minutes to 30 days, not %s.", words.Length(m))
			return
		}
	}
	if w.Longest != 0 && w.Least > w.Longest {
		ps.add(where, "Let the shortest wait be no longer than the longest; %s is longer than %s.",
			words.Length(w.Least), words.Length(w.Longest))
	}
	if w.WorthUntil != 0 && w.Least > w.WorthUntil {
		ps.add(where, "Let it be worth serving for longer than its shortest wait of %s, not for %s.",
			words.Length(w.Least), words.Length(w.WorthUntil))
	}
	if w.BestUntil != 0 && w.BestFrom > w.BestUntil {
		ps.add(where, "Let its best time begin before it ends; %s is later than %s.",
			words.Length(w.BestFrom), words.Length(w.BestUntil))
	}
}

// wait checks a wait of the food that a step leaves.
func (ps *problems) wait(p *Party, where string, w *Wait, food *Food) {
	if !slices.Contains([]State{Straight, Counter, Refrigerator, Freezer, Warm, HotHold}, w.State) {
		ps.add(where, "Say how the food waits: straight on, counter, refrigerator, freezer, warm or hot hold, not %q.",
			w.State)
		return
	}
	ps.lengths(where, w)
	if w.State == Straight && (w.Least > 0 || w.BestFrom > 0 || w.Hold != nil) {
		ps.add(where, "Say how the food waits, or leave its wait out: it goes straight on.")
	}
	if w.State == HotHold && !w.Hold.KeepsHot() {
		ps.add(where, "Name what keeps it hot: a hot place, a burner, or an oven at %d °C or more.", HotC())
	}
	if w.Hold != nil {
		*ps = append(*ps, ValidateUse(p, where, w.Hold)...)
		if w.Hold.Through != "" || len(w.Hold.Then) > 0 {
			ps.add(where, "Hold it for the wait alone, at one temperature.")
		}
	}
	// On the counter it may wait that nothing finishes, or for no time at all: solve and check judge that, for food that
	// was inferred as for food that was said.
	if food.PartCooked && (w.State == Refrigerator || w.State == Freezer) {
		ps.add(where, "Finish part-cooked food straight on or hold it hot; it may not be chilled in between (%s).",
			safety.PartialCooking().Source)
	}
}
