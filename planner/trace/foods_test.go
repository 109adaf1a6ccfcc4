package trace_test

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// of makes a dish: ingredients as "amount of name" or a name, then steps, a word before the colon says where ("hob",
// "oven", "counter", "fridge"), and each comes after the one before it.
func of(ingredients string, steps ...string) *planner.Dish {
	d := &planner.Dish{Key: "dish", Name: "Dish"}
	for in := range strings.SplitSeq(ingredients, "; ") {
		if in == "" {
			continue
		}
		amount, name, found := strings.Cut(in, " of ")
		if !found {
			amount, name = "", in
		}
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: name, Amount: amount})
	}
	for i, text := range steps {
		where, do, found := strings.Cut(text, ": ")
		if !found {
			where, do = "counter", text
		}
		do, until, _ := strings.Cut(do, " until ")
		s := planner.Step{Key: planner.StepKey(fmt.Sprintf("s%d", i+1)), Do: do, Until: until, Where: planner.Counter}
		switch where {
		case "fridge":
			s.Where = planner.Refrigerator
		case "hob":
			s.Where, s.Cooks, s.Uses = planner.Heat, true, []planner.Use{{What: planner.ABurner}}
		case "oven":
			s.Where, s.Cooks, s.Uses = planner.Heat, true, []planner.Use{{What: planner.AnOven, C: 180}}
		}
		if i > 0 {
			s.After = []planner.After{{Step: d.Steps[i-1].Key, Wait: planner.Wait{State: planner.Counter}}}
		}
		d.Steps = append(d.Steps, s)
	}
	return d
}

// left is what the last step of a dish leaves.
func left(d *planner.Dish) *trace.Leaves {
	return trace.OfDish(&planner.Party{}, d).Leaves(d.Key, d.Steps[len(d.Steps)-1].Key)
}

// told says what is left in words: the kinds in their order, then what else is true.
func told(l *trace.Leaves) string {
	var out []string
	for _, c := range l.Colds() {
		kind := string(c.Kind)
		if c.Cooked && c.Kind != safety.Cooked {
			kind += " cooked"
		}
		if !slices.Contains(out, kind) {
			out = append(out, kind)
		}
	}
	slices.Sort(out)
	if len(out) == 0 {
		out = append(out, "keeps")
	}
	for _, x := range []struct {
		is   bool
		word string
	}{{l.PartCooked, "part-cooked"}, {l.Anew, "anew"}, {l.Dough, "dough"}, {len(l.Unknown) > 0, "unknown"}} {
		if x.is {
			out = append(out, x.word)
		}
	}
	return strings.Join(out, ", ")
}
