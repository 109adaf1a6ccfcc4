package menu

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/words"
)

// load is a use of something by a step, with between when it ends at the earliest and begins at the latest.
type load struct {
	dish       *planner.Dish
	use        *planner.Use
	end, start int // the earliest end, the latest start
}

// meets reports whether two loads share a minute in every plan: neither can be over before the other must begin.
func (a *load) meets(b *load) bool {
	return a.end != free && b.end != free && a.end > b.start && b.end > a.start
}

// loads are the uses of a kind of equipment, of one name where it has one, in the menu's order.
func (w *reckoning) loads(what planner.Equipment, name string) []load {
	var out []load
	for i := range w.spans {
		s := &w.spans[i]
		fit := w.p.Fit(s.dish, s.step)
		for j := range fit.Uses {
			u := &fit.Uses[j]
			if u.What != what || name != "" && u.Name != name {
				continue
			}
			l := load{dish: s.dish, use: u, end: s.earliest}
			_, l.start = s.starts()
			if u.Through != "" {
				k := slices.IndexFunc(w.spans, func(o span) bool { return o.dish == s.dish && o.step.Key == u.Through })
				if k >= 0 && w.spans[k].earliest != free {
					l.end = w.spans[k].earliest
				}
			}
			out = append(out, l)
		}
	}
	return out
}

// crowds finds sets of loads that meet, all with all, and do not fit: pairs first, then larger ones that hold no set
// found before. Intervals that meet in pairs have a minute in common, so that each set is a real one.
func crowds(all []load, fit func([]*load) bool) [][]*load {
	var found [][]*load
	held := func(set []*load) bool {
		return slices.ContainsFunc(found, func(f []*load) bool {
			return !slices.ContainsFunc(f, func(l *load) bool { return !slices.Contains(set, l) })
		})
	}
	for i := range all {
		for j := i + 1; j < len(all); j++ {
			if set := []*load{&all[i], &all[j]}; all[i].meets(&all[j]) && !fit(set) {
				found = append(found, set)
			}
		}
	}
	for i := range all {
		set := []*load{&all[i]}
		for j := range all {
			l := &all[j]
			if slices.Contains(set, l) || slices.ContainsFunc(set, func(o *load) bool { return !o.meets(l) }) {
				continue
			}
			if more := append(slices.Clone(set), l); !held(more) {
				set = more
				if len(set) > 2 && !fit(set) {
					found = append(found, set)
					break
				}
			}
		}
	}
	return found
}

// ovens says which dishes must be in the ovens together and cannot.
func (w *reckoning) ovens() []string {
	k := &w.p.Kitchen
	if len(k.Ovens) == 0 {
		return nil
	}
	var out []string
	for _, set := range crowds(w.loads(planner.AnOven, ""), func(set []*load) bool {
		return ovensTake(k.Ovens, set, true)
	}) {
		names := dishesOf(set)
		if len(names) < 2 {
			continue // within a dish the plan says it better
		}
		if ovensTake(k.Ovens, set, false) {
			var heats []string
			for _, l := range set {
				heats = append(heats, fmt.Sprintf("%s at %d °C", l.dish.Name, l.use.C))
			}
			out = append(out, fmt.Sprintf("%s want the oven at the same time: bake one ahead, or let one bear another "+
				"temperature.", words.And(heats)))
			continue
		}
		shelves, wanted := 0, 0
		for i := range k.Ovens {
			shelves += k.Ovens[i].Shelves
		}
		for _, l := range set {
			wanted += l.use.Units()
		}
		out = append(out, fmt.Sprintf("%s are in the oven at the same time and take %s of %d: bake one ahead, or put one "+
			"on the burners.",
			words.And(names), words.Count(wanted, "shelf"), shelves))
	}
	return slices.Compact(out)
}

// ovensTake reports whether loads can be in the ovens at one time, by trying. With heats, what shares an oven needs a
// temperature that all of it bears, and a load that changes its temperature has an oven to itself.
func ovensTake(ovens []planner.Oven, set []*load, heats bool) bool {
	type state struct{ shelves, low, high, loads int }
	now := make([]state, len(ovens))
	for i := range ovens {
		now[i] = state{shelves: ovens[i].Shelves, low: 0, high: 1 << 20}
	}
	var try func(int) bool
	try = func(n int) bool {
		if n == len(set) {
			return true
		}
		u := set[n].use
		for i := range ovens {
			was := now[i]
			if u.Name != "" && u.Name != ovens[i].Name || was.shelves < u.Units() {
				continue
			}
			next := state{was.shelves - u.Units(), max(was.low, u.C-u.Tolerance), min(was.high, u.C+u.Tolerance), was.loads + 1}
			if heats && was.loads > 0 && (next.low > next.high || len(u.Then) > 0) {
				continue
			}
			if heats && len(u.Then) > 0 {
				next.shelves = 0
			}
			now[i] = next
			if try(n + 1) {
				return true
			}
			now[i] = was
		}
		return false
	}
	return try(0)
}

func (w *reckoning) burners() []string {
	return w.short(w.loads(planner.ABurner, ""), w.p.Kitchen.Burners, "burner", "cook one ahead, or use the oven")
}

func (w *reckoning) vessels() []string {
	var out []string
	for _, shelf := range []struct {
		what planner.Equipment
		all  []planner.Ware
	}{{planner.AVessel, w.p.Kitchen.Vessels}, {planner.AnAppliance, w.p.Kitchen.Appliances}} {
		for _, v := range shelf.all {
			if !w.p.Kitchen.Binds(shelf.what, v.Name) {
				continue // for ware.go, in one line with what else nobody has counted
			}
			out = append(out, w.short(w.loads(shelf.what, v.Name), v.Count, v.Name, "borrow one, or use another")...)
		}
	}
	return out
}

// sum is how many a set of loads takes.
func sum(set []*load) int {
	n := 0
	for _, l := range set {
		n += l.use.Units()
	}
	return n
}

// short says which dishes want more of a thing at one time than there is.
func (w *reckoning) short(all []load, have int, thing, cure string) []string {
	var out []string
	for _, set := range crowds(all, func(set []*load) bool { return sum(set) <= have }) {
		if names := dishesOf(set); len(names) > 1 {
			out = append(out, fmt.Sprintf("%s need %s at the same time, and there %s: %s.", words.And(names),
				words.Count(sum(set), thing),
				map[bool]string{true: "is 1", false: fmt.Sprintf("are %d", have)}[have == 1], cure))
		}
	}
	return slices.Compact(out)
}

func dishesOf(set []*load) []string {
	var names []string
	for _, l := range set {
		if !slices.Contains(names, l.dish.Name) {
			names = append(names, l.dish.Name)
		}
	}
	return names
}
