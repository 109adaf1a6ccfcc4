package trace

import (
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
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
