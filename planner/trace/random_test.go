package trace_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

var (
	plain = strings.Split("500 g of flour|2 of onions|300 g of rice|200 g of sugar|1 kg of potatoes|300 ml of olive oil|"+
		"4 of garlic cloves|7 g of yeast|500 g of tomatoes|1 of zorblax|200 g of almonds|100 ml of vinegar", "|")
	animal = strings.Split("800 g of chicken thighs|500 g of minced beef|600 g of cod|4 of eggs|300 ml of double cream|"+
		"200 g of tuna|500 g of prawns|300 ml of milk|150 g of bacon|250 g of ricotta", "|")
	doings = strings.Split("Chop it all|oven: Bake it|hob: Brown it|hob: Simmer it until tender|hob: Boil it|Let it rest|"+
		"fridge: Chill it|hob: Warm it|Whisk it|oven: Roast it until rosy|hob: Cook it to 60 °C|Soak it|Knead the dough",
		"|")
)

// drawn are ingredients and steps of a dish.
func drawn(t *rapid.T) (ingredients, steps []string) {
	return rapid.SliceOfN(rapid.SampledFrom(append(plain, animal...)), 1, 5).Draw(t, "ingredients"),
		rapid.SliceOfN(rapid.SampledFrom(doings), 1, 5).Draw(t, "steps")
}

func traced(d *planner.Dish, p *planner.Party) (out []*trace.Leaves) {
	tr := trace.OfDish(p, d)
	for _, s := range d.Steps {
		out = append(out, tr.Leaves(d.Key, s.Key))
	}
	return out
}

// One animal food more makes nothing keep, and turns back no clock that ran: whatever else is in the dish. Garlic under
// oil is apart: with meat beside it the oil may cover it no more, and what is baked then is the meat.
func TestAnimalFoodMakesNothingSafer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ingredients, steps := drawn(t)
		more := rapid.SampledFrom(animal).Draw(t, "one more")
		p := &planner.Party{}
		without := traced(of(strings.Join(ingredients, "; "), steps...), p)
		with := traced(of(strings.Join(append(ingredients, more), "; "), steps...), p)
		underOil := slices.Contains(ingredients, "300 ml of olive oil") && slices.Contains(ingredients, "4 of garlic cloves")
		ran := false
		for i := range without {
			a, b := without[i], with[i]
			if a.Perishable && !b.Perishable {
				t.Errorf("%v, %v: with %s step %d keeps", ingredients, steps, more, i+1)
			}
			if ran && !a.Anew && b.Anew && !underOil {
				t.Errorf("%v, %v: with %s the clock begins anew at step %d", ingredients, steps, more, i+1)
			}
			ran = ran || a.Perishable
		}
	})
}

// What somebody says never makes food keep that is known to spoil, nor does it cook what is raw; and where somebody
// is at risk no clock begins anew.
func TestWhatIsSaidOnlyAdds(t *testing.T) {
	kinds := append(safety.Kinds(), "")
	rapid.Check(t, func(t *rapid.T) {
		ingredients, steps := drawn(t)
		bare := of(strings.Join(ingredients, "; "), steps...)
		said := of(strings.Join(ingredients, "; "), steps...)
		for i := range said.Steps {
			if rapid.Bool().Draw(t, "said") {
				said.Steps[i].Leaves = planner.Food{Perishable: rapid.Bool().Draw(t, "perishable"),
					Kind:       rapid.SampledFrom(kinds).Draw(t, "kind"),
					PartCooked: rapid.IntRange(0, 3).Draw(t, "part-cooked") == 0}
			}
		}
		with := traced(said, &planner.Party{})
		for i, l := range traced(bare, &planner.Party{}) {
			for _, p := range l.Parts {
				if p.Known && p.Kind != safety.None && !with[i].Perishable {
					t.Errorf("%v, %v: %s keeps after step %d, for what is said", ingredients, steps, p.Name, i+1)
				}
				if p.Half && !with[i].PartCooked {
					t.Errorf("%v, %v: %s is not part-cooked after step %d, for what is said", ingredients, steps, p.Name, i+1)
				}
			}
			if with[i].Anew && !l.Anew {
				for _, in := range with[:i] {
					for _, p := range in.Parts {
						if p.Said && p.Kind != safety.None {
							t.Errorf("%v, %v: step %d begins anew, though food was said to be in it", ingredients, steps, i+1)
						}
					}
				}
			}
		}
		risk := &planner.Party{Guests: []planner.Guest{{Name: "Eva", Diets: []string{"pregnant"}}}}
		for i, l := range traced(said, risk) {
			if l.Anew || l.Perishable != with[i].Perishable {
				t.Errorf("%v, %v: with somebody at risk step %d: %s", ingredients, steps, i+1, told(l))
			}
		}
	})
}

// Nothing that is typed makes it fail, and it says the same twice.
func FuzzOf(f *testing.F) {
	for _, x := range append(leaves, usual...) {
		var in, do []string
		for _, i := range x.dish.Ingredients {
			in = append(in, i.Amount+" of "+i.Name)
		}
		for _, s := range x.dish.Steps {
			do = append(do, s.Do)
		}
		f.Add(strings.Join(in, "; "), strings.Join(do, "\n"), "cooked", uint8(0))
	}
	f.Add("", "", "", uint8(255))
	f.Fuzz(func(t *testing.T, ingredients, steps, kind string, bits uint8) {
		d := of(ingredients, strings.Split(steps, "\n")...)
		for i := range d.Steps {
			s := &d.Steps[i]
			if bits>>(i%8)&1 == 1 {
				s.Leaves = planner.Food{Kind: safety.Kind(kind), Perishable: i%2 == 0, PartCooked: i%3 == 0}
				s.Where, s.Cooks = planner.Heat, i%2 == 1
				s.After = append(s.After, planner.After{Step: d.Steps[len(d.Steps)-1].Key}) // now and then a circle
			}
		}
		p := &planner.Party{Dishes: []planner.Dish{*d}}
		once, twice := trace.Of(p), trace.Of(p)
		for _, s := range d.Steps {
			a, b := once.Leaves(d.Key, s.Key), twice.Leaves(d.Key, s.Key)
			if fmt.Sprint(told(a)) != fmt.Sprint(told(b)) {
				t.Errorf("%q: %s, then %s", s.Do, told(a), told(b))
			}
			if a.Perishable != (a.Kind() != safety.None) || len(a.Unknown) > 0 && len(a.Parts) == 0 {
				t.Errorf("%q: %s of kind %s", s.Do, told(a), a.Kind())
			}
		}
	})
}
