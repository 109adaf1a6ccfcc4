package trace

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/safety"
)

// Journey is how a dish that somebody brings comes here, as was said, else by the words of its note and its name: in
// the refrigerator's cold, held hot, or as it is, which is the counter; empty where nobody knows. And it is how long it
// is on its way, 0 where nobody has said.
func Journey(d *planner.Dish) (how planner.State, way planner.Minutes) {
	how, way = d.Travels, d.TravelTime
	said := read(d.Note + ", " + d.Name)
	switch {
	case how != "":
	case said.any[coldBag] && !said.any[hotBox]:
		how = planner.Refrigerator
	case said.any[hotBox] && !said.any[coldBag]:
		how = planner.HotHold
	}
	if way == 0 && said.any[onTheWay] {
		way = lengthIn(d.Note)
	}
	return how, way
}

// UsualWay is how long what is brought is taken to be on its way where nobody has said: across a town. Our own choice,
// no source.
const UsualWay planner.Minutes = 30

// OnTheWay is for how long a dish that is brought has been out of the cold when it comes (rule 2); 0 where it travels
// cold or hot, or keeps.
func (t *Trace) OnTheWay(d *planner.Dish) planner.Minutes {
	how, way := Journey(d)
	if d.BroughtBy == "" || how == planner.Refrigerator || how == planner.HotHold || !t.Warms(d) {
		return 0
	}
	if way == 0 {
		return UsualWay
	}
	return way
}

// Warms says of a dish that is brought whether it would spoil out of the cold on its way, by what is in it, or else by
// its name; unknown: yes.
func (t *Trace) Warms(d *planner.Dish) bool {
	names := []string{d.Name}
	for i, in := range d.Ingredients {
		if i == 0 {
			names = nil
		}
		names = append(names, in.Name)
	}
	return slices.ContainsFunc(names, func(name string) bool {
		kind, known := food.KindOf(name)
		return kind != safety.None || slices.ContainsFunc(food.All(name), func(f food.Food) bool {
			return f.Kind() != safety.None // ham rolls are bread, and ham
		}) || !known && len(d.Ingredients) == 0
	}) || slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return t.Leaves(d.Key, s.Key).Perishable })
}

// lengthIn is the first length that a text names: "3 hours by train".
func lengthIn(text string) planner.Minutes {
	said := strings.Fields(strings.NewReplacer(",", " ", ";", " ", ".", " ").Replace(text))
	for i := range said {
		for _, n := range []int{2, 1} {
			if i+n > len(said) || n == 1 && strings.Trim(said[i], "0123456789") == "" {
				continue // a number alone is no time
			}
			if t, err := measure.ParseDuration(strings.Join(said[i:i+n], " ")); err == nil {
				return planner.Minutes(t.High)
			}
		}
	}
	return 0
}
