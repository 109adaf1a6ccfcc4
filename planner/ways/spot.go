package ways

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/trace"
)

// spot is where food of a dish may wait in the cold, to be finished after that.
type spot struct {
	at     int // the step that leaves it
	again  int // the recipe's own step that makes it hot again; -1: it has none
	class  *food.Class
	wait   planner.Wait // in the cold
	loss   int
	finish *finishing
	bakes  bool            // what makes it hot is its baking, which takes longer from the cold
	own    bool            // nothing cools it in the recipe, which makes it hot again for its service all the same
	said   bool            // the recipe says so
	better bool            // it gets better by waiting
	limit  planner.Minutes // the least of the published ones for its food in the refrigerator; 0: none
	cool   bool            // it is not served hot, and its waits are as they were read but for what is finished
	frozen *planner.Wait   // in the freezer; nil: it is not frozen
	ices   int             // what it loses there
}

// The longest work by hand between what is hot and its service: more is no finishing. Common practice, no source.
const (
	mostFinishing = 15
	mostResting   = 30 // in which hot food rests
	leastBaking   = 20 // in which what was hot is hot again all through
)

// heats are what a step that makes hot again is called.
var heats = []string{"reheat", "reheating", "rewarm", "warm through", "heat through"}

// spotsOf finds the places, that of the longest work first; none: the dish has only one way.
func spotsOf(p *planner.Party, d *planner.Dish, steps []planner.Step) []spot {
	if d.BroughtBy != "" || len(steps) == 0 {
		return nil
	}
	asRead := *d
	asRead.Steps = steps
	g := &gazer{p: p, d: &asRead, foods: trace.OfDish(p, &asRead)}
	if s := g.coolsWithin(); s != nil {
		return []spot{*s}
	}
	at := slices.IndexFunc(steps, func(s planner.Step) bool { return s.Serve != nil })
	if at < 0 {
		return nil
	}
	if d.Way == "" && !slices.ContainsFunc(steps, func(s planner.Step) bool { return s.Source != "" }) {
		return nil // its waits are as somebody has said them, not as a reader has guessed
	}
	all := g.atEnd(at, 0)
	if len(all) == 0 {
		return g.servedCool()
	}
	slices.SortStableFunc(all, func(a, b spot) int { return int(steps[b.at].Time.Likely - steps[a.at].Time.Likely) })
	if len(all) > 1 { // beside others only what loses nothing
		all = slices.DeleteFunc(all, func(s spot) bool { return s.loss > 0 })
	}
	return all
}

// gazer looks through a dish's steps.
type gazer struct {
	p     *planner.Party
	d     *planner.Dish
	foods *trace.Trace
}

// before are the steps whose food goes into one.
func (g *gazer) before(i int) (out []int) {
	for _, a := range g.d.Steps[i].After {
		if a.Dish != "" || a.FromStart || a.Aside {
			continue
		}
		if k := slices.IndexFunc(g.d.Steps, func(s planner.Step) bool { return s.Key == a.Step }); k >= 0 {
			out = append(out, k)
		}
	}
	return out
}

// next is the one step that the food of another goes into; -1: none, or several.
func (g *gazer) next(i int) int {
	out := -1
	for k := range g.d.Steps {
		if slices.Contains(g.before(k), i) {
			if out >= 0 {
				return -1
			}
			out = k
		}
	}
	return out
}

func (g *gazer) hot(i int) bool { return g.foods.Leaves(g.d.Key, g.d.Steps[i].Key).Hot }

// reheats says whether a step does no more than make hot again what was hot before.
func (g *gazer) reheats(i int) bool {
	s := &g.d.Steps[i]
	said := food.Words(s.Do)
	return g.hot(i) && len(g.before(i)) == 1 && len(said) > 0 && (slices.Contains(heats, said[0]) ||
		len(said) > 1 && slices.Contains(heats, said[0]+" "+said[1])) && !slices.ContainsFunc(g.d.Ingredients,
		func(in planner.Ingredient) bool { return in.Step == s.Key })
}

// warmBefore says whether a step's food was made hot in it or shortly before, and has not been cooled.
func (g *gazer) warmBefore(i, depth int) bool {
	s := &g.d.Steps[i]
	switch {
	case s.Where == planner.Refrigerator || s.Where == planner.Freezer || depth > len(g.d.Steps):
		return false
	case g.hot(i):
		return true
	case s.Attention == planner.Unattended && s.Time.Likely > 30:
		return false
	}
	return slices.ContainsFunc(g.d.Steps[i].After, func(a planner.After) bool {
		k := slices.IndexFunc(g.d.Steps, func(o planner.Step) bool { return o.Key == a.Step })
		return a.Dish == "" && !a.FromStart && !a.Aside && k >= 0 && a.Wait.State != planner.Refrigerator &&
			a.Wait.State != planner.Freezer && a.Wait.Least < 30 && g.warmBefore(k, depth+1)
	})
}

// coolsWithin is where the recipe itself has hot food wait in the cold before it is hot again: the last such place.
func (g *gazer) coolsWithin() *spot {
	var out *spot
	for k := range g.d.Steps {
		for _, a := range g.d.Steps[k].After {
			i := slices.IndexFunc(g.d.Steps, func(s planner.Step) bool { return s.Key == a.Step })
			if a.Dish != "" || a.FromStart || a.Aside || i < 0 || a.Wait.State != planner.Refrigerator || a.Wait.Least > 0 ||
				!g.warmBefore(i, 0) || g.d.Steps[k].Where == planner.Refrigerator || g.d.Steps[k].Where == planner.Freezer {
				continue
			}
			again, hot := g.hotAgain(k)
			if !hot {
				continue // a wait as others are
			}
			if one := g.assembled(k); one != nil && one.at == i {
				out = one
				continue
			}
			class := g.foods.Again(g.d, &g.d.Steps[i])
			loss := 0
			if class != nil {
				if row, ok := food.WaitOf(class, string(planner.Refrigerator)); ok {
					loss = row.Loss
				}
			}
			out = &spot{at: i, again: again, class: class, wait: a.Wait, loss: loss, said: true, limit: g.limit(i),
				better: a.Wait.BestFrom > 0}
		}
	}
	return out
}

// hotAgain says whether food is made hot again from a step on, and by which step that does nothing else; -1: none does.
func (g *gazer) hotAgain(on int) (again int, hot bool) {
	for range g.d.Steps {
		if on < 0 {
			break
		}
		if hot = hot || g.hot(on); g.reheats(on) {
			return on, true
		}
		on = g.next(on)
	}
	return -1, hot
}

// atEnd is where food that is served hot may wait before it is finished: the last steps that leave it hot, as far as
// what follows is work by hand for the table.
func (g *gazer) atEnd(i, depth int) (out []spot) {
	s := &g.d.Steps[i]
	for _, one := range []*spot{g.reheated(i), g.assembled(i)} {
		if one != nil {
			return []spot{*one}
		}
	}
	if class := g.foods.Again(g.d, s); s.Ahead != nil || class != nil {
		if one := g.keeps(i, class); one != nil {
			return []spot{*one}
		}
		return nil
	}
	said := food.Words(s.Do)
	if g.hot(i) && !g.foods.Leaves(g.d.Key, s.Key).PartCooked && !browned(s) ||
		s.Time.Likely > mostFinishing && (s.Attention != planner.Unattended || s.Time.Likely > mostResting) ||
		depth > len(g.d.Steps) ||
		slices.Contains(said, "carve") || slices.Contains(said, "cold") {
		return nil
	}
	var hot []int
	for _, k := range g.before(i) {
		if g.warmBefore(k, 0) {
			hot = append(hot, k)
		}
	}
	for n, k := range hot {
		// The sauce of what was roasted is no more made ahead than that.
		if !slices.ContainsFunc(hot[:n], func(o int) bool { return g.share(k, o) }) &&
			!slices.ContainsFunc(hot[n+1:], func(o int) bool { return g.share(k, o) }) {
			out = append(out, g.atEnd(k, depth+1)...)
		}
	}
	return out
}

// browned says whether a step only browns under the grill what goes on top of food that is hot.
func browned(s *planner.Step) bool {
	return s.Time.Likely <= mostFinishing && slices.ContainsFunc(s.Uses, func(u planner.Use) bool {
		return u.What == planner.AGrill
	}) && strings.Contains(" "+strings.Join(food.Words(s.Do), " ")+" ", " top ")
}

// share says whether two steps' food came through one step that heats.
func (g *gazer) share(a, b int) bool {
	of := g.through(a, map[int]bool{})
	for k := range g.through(b, map[int]bool{}) {
		if of[k] && g.hot(k) {
			return true
		}
	}
	return false
}

// through are a step and those that its food came through.
func (g *gazer) through(i int, seen map[int]bool) map[int]bool {
	if !seen[i] {
		seen[i] = true
		for _, k := range g.before(i) {
			g.through(k, seen)
		}
	}
	return seen
}

// wentCold says whether food of a step was hot and then in the cold before.
func (g *gazer) wentCold(i int) bool {
	cold := func(s planner.State) bool { return s == planner.Refrigerator || s == planner.Freezer }
	for k := range g.through(i, map[int]bool{}) {
		s := &g.d.Steps[k]
		inCold := s.Where == planner.Refrigerator || s.Where == planner.Freezer
		for _, a := range s.After {
			from := slices.IndexFunc(g.d.Steps, func(o planner.Step) bool { return o.Key == a.Step })
			if from >= 0 && a.Dish == "" && !a.FromStart && !a.Aside && (inCold || cold(a.Wait.State)) && g.warmBefore(from, 0) {
				return true
			}
		}
	}
	return false
}

// keeps is the spot after a step, where its food can wait and be finished.
func (g *gazer) keeps(i int, class *food.Class) *spot {
	s := &g.d.Steps[i]
	if !g.warmBefore(i, 0) || g.wentCold(i) {
		return nil // what is hot again already is not cooled and made hot once more
	}
	if !g.foods.Leaves(g.d.Key, s.Key).Perishable {
		return g.crisped(i, class)
	}
	out := &spot{at: i, again: -1, class: class, wait: planner.Wait{State: planner.Refrigerator}}
	finish := "reheat"
	if class != nil {
		row, ok := food.WaitOf(class, string(planner.Refrigerator))
		if !ok && s.Ahead == nil {
			return nil
		}
		if ok {
			finish, out.loss = row.Finish, row.Loss
			// What is better after a day is no worse before it than what is not made ahead.
			out.better, out.wait.BestUntil = row.BestFrom > 0, planner.Minutes(row.BestUntil)
			out.wait.WorthUntil = min(planner.Minutes(row.WorthUntil), planner.MaxWait)
		}
		if out.finish = finishOf(class, finish); out.finish == nil && s.Ahead != nil {
			out.finish = finishOf(class, "reheat")
		}
	} else {
		out.finish = finishOf(&food.Class{}, finish)
	}
	if s.Ahead != nil {
		out.said, out.loss = true, 0 // the recipe's own words go before the table's
		// But who says "two days ahead" does not mean that it is worse than it would be otherwise after three.
		table := out.wait
		out.wait = *s.Ahead
		out.wait.State, out.wait.BestUntil = planner.Refrigerator, 0
		if out.wait.WorthUntil >= 24*60 { // but who says "in the morning" means that
			out.wait.WorthUntil = max(out.wait.WorthUntil, table.WorthUntil)
		}
		out.better = out.wait.BestFrom > 0 || table.BestFrom > 0
	}
	if out.finish == nil || !out.finish.hot {
		return nil
	}
	out.limit = g.limit(i)
	out.freezes(s)
	return out
}

// reheated is the spot before a step that does no more than make hot again what the recipe has not cooled: what is
// blended and warmed up is chilled between the two, not warmed up, chilled and warmed up once more. A remark on how
// long the whole can wait holds for that place.
func (g *gazer) reheated(i int) *spot {
	if !g.reheats(i) {
		return nil
	}
	k, d := g.before(i)[0], *g.d
	if d.Steps = slices.Clone(d.Steps); d.Steps[k].Ahead == nil {
		d.Steps[k].Ahead = d.Steps[i].Ahead
	}
	one := (&gazer{p: g.p, d: &d, foods: g.foods}).keeps(k, g.foods.Again(&d, &d.Steps[k]))
	if one == nil || one.cool || g.next(k) != i {
		return nil
	}
	one.again, one.own, one.finish, one.frozen, one.ices = i, true, nil, nil, 0
	return one
}

// assembled is the spot before a step that bakes in its dish what was put together of hot parts: a lasagne is put
// together on the eve and baked for its service, not baked, chilled and made hot once more.
func (g *gazer) assembled(i int) *spot {
	s := &g.d.Steps[i]
	in := slices.ContainsFunc(s.Uses, func(u planner.Use) bool { return u.What == planner.AnOven && u.C > 0 })
	before := g.before(i)
	if !in || s.Time.Likely < leastBaking || len(before) != 1 || s.Ahead != nil {
		return nil
	}
	k := before[0]
	class := g.foods.Assembled(g.d, s)
	row, ok := food.WaitOf(class, string(planner.Refrigerator))
	if class == nil || !ok || g.d.Steps[k].Attention != planner.Hands || g.hot(k) || !g.warmBefore(k, 0) ||
		g.wentCold(k) || g.next(k) != i {
		return nil
	}
	return &spot{at: k, again: i, class: class, loss: row.Loss, own: true, bakes: true, limit: g.limit(k),
		wait: planner.Wait{State: planner.Refrigerator, BestUntil: planner.Minutes(row.BestUntil),
			WorthUntil: min(planner.Minutes(row.WorthUntil), planner.MaxWait)}}
}

// limit is the least of the published limits that food of a step has in the refrigerator; 0: none.
func (g *gazer) limit(i int) (least planner.Minutes) {
	for _, c := range g.foods.Leaves(g.d.Key, g.d.Steps[i].Key).Colds() {
		if l := planner.Minutes(g.p.RefrigeratorLimit(c.Kind).Minutes); l > 0 && (least == 0 || l < least) {
			least = l
		}
	}
	return least
}
