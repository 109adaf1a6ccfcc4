package menu

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/caution"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
)

// Verdict is how a dish stands with a guest, as far as words tell.
type Verdict string

// The verdicts. Free is no promise: [safety.AllergenCaution] goes with every list of them.
const (
	Free    Verdict = "free"    // nothing stands against it
	Check   Verdict = "check"   // it may contain it (the label tells), or it can be made without
	Not     Verdict = "no"      // something in it surely stands against it
	Unknown Verdict = "unknown" // somebody brings it, or nobody has written its ingredients
)

// Finding is what of an ingredient stands against a guest, as far as words tell.
type Finding struct {
	Text   string // "contains milk (butter)"
	Word   string // the word that tells: "butter"
	Sure   bool   // and not: check the label
	Strict bool   // traces count too: an allergy, or a diet that is kept for one

	unless  []string // what takes it away: cooking through
	advice  bool     // it is published advice, not a choice
	unknown bool     // nobody can answer for the words
}

// Reason is why a dish is not free for a guest.
type Reason struct {
	Ingredient string // empty: the dish as a whole
	Optional   bool   // the ingredient can be left out
	Finding
}

// String is the reason as a person reads it: "pork loin: not vegetarian (pork)".
func (r Reason) String() string {
	text := r.Text
	if r.Ingredient != "" {
		text = r.Ingredient + ": " + text
	}
	if r.Optional {
		text += "; it can be left out"
	}
	return text
}

// forAllergy are the diets that are mostly kept for an allergy or for coeliac disease, where traces count.
var forAllergy = []safety.Diet{safety.GlutenFree, safety.DairyFree, safety.EggFree, safety.NutFree}

// Against finds what of an ingredient stands against a guest's allergies and diets. None is no promise:
// [safety.AllergenCaution] goes with every list of them.
func Against(ingredient string, g *planner.Guest, in safety.Country) []Finding {
	var out []Finding
	var open []safety.Allergen // of which nothing is found
	other := false             // an allergy that no law lists, and nothing is found
	for _, word := range g.Allergies {
		known, err := safety.ParseAllergen(word)
		f, ok := safety.AllergenIn(ingredient, known...)
		switch {
		case ok:
			out = append(out, Finding{Text: f.String(), Word: f.Word, Sure: f.Certainty == safety.Contains, Strict: true})
		case err == nil:
			open = append(open, known...)
		case safety.Mentions(ingredient, word) && !safety.Mentions(ingredient, word+" free"):
			out = append(out, Finding{Text: fmt.Sprintf("it says %s", word), Word: word, Sure: true, Strict: true})
		default:
			other = true
		}
	}
	var diets []safety.Diet
	for _, diet := range g.Diets {
		d := safety.Diet(diet)
		conflicts, _ := safety.Against(d, ingredient)
		by := caution.AdviceTo(d, in)
		for _, c := range conflicts {
			out = append(out, Finding{c.In(in, by), c.Word, c.Certainty == safety.Contains, slices.Contains(forAllergy, d),
				c.Unless, d.IsAdvice(), false})
		}
		if len(conflicts) == 0 {
			diets = append(diets, d)
		}
	}
	if len(open)+len(diets) > 0 || other {
		if words := unclear(ingredient, diets, open, other); words != "" {
			out = append(out, Finding{Text: "not known what is in it (" + words + "): check the label", Word: words,
				Strict: len(open) > 0 || other, unknown: true})
		}
	}
	return out
}

// unclear is what of an ingredient nobody can answer for; of an allergy that no law lists no word says that it is free.
func unclear(ingredient string, diets []safety.Diet, open []safety.Allergen, other bool) string {
	if other {
		words, _ := food.Unclear(ingredient)
		return words
	}
	return safety.Unclear(ingredient, diets, open)
}

// Restricted reports whether there is anything that a guest does not eat or must not get.
func Restricted(g *planner.Guest) bool { return len(g.Diets)+len(g.Allergies) > 0 }

// Suits tells how a dish of a party stands with a guest, and why when it is not free.
func Suits(p *planner.Party, d *planner.Dish, g *planner.Guest) (Verdict, []Reason) {
	if !Restricted(g) {
		return Free, nil
	}
	var reasons []Reason
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		if d.CoolsWith(in) {
			continue // the ice of a bath is no food
		}
		for _, f := range Against(in.Name, g, p.AuthoritiesOf()) {
			if slices.ContainsFunc(f.unless, func(u string) bool { return takenAway(p, d, in, u) }) {
				continue
			}
			if f.Sure && slices.Contains(g.Diets, string(safety.Pregnant)) && f.advice {
				cookedDown(d, in, &f)
			}
			if f.Sure && slices.Contains(f.unless, food.CookedThrough) && slices.ContainsFunc(d.Steps, heats) {
				f.Sure, f.Text = false, "perhaps "+f.Text // something is cooked: perhaps this
			}
			reasons = append(reasons, Reason{in.Name, in.Optional, f})
		}
	}
	reasons = append(reasons, together(d, g)...)
	reasons = append(reasons, fromSteps(p, d, g)...)
	for _, u := range undercooked(p, d, g) {
		if u.Sure || !slices.ContainsFunc(reasons, func(r Reason) bool { return r.Ingredient == u.Ingredient }) {
			reasons = append(reasons, u) // else it is said already
		}
	}
	if slices.ContainsFunc(reasons, func(r Reason) bool { return r.Sure && !r.Optional }) {
		return Not, reasons
	}
	if d.BroughtBy != "" || len(d.Ingredients) == 0 {
		for _, f := range Against(d.Name, g, p.AuthoritiesOf()) {
			if f.unknown {
				continue // as nothing of the dish is
			}
			f.Text = "its name says so: " + f.Text
			reasons = append(reasons, Reason{Finding: f})
		}
		return Unknown, reasons
	}
	if len(reasons) > 0 {
		return Check, reasons
	}
	return Free, nil
}

// fromSteps finds what stands against a guest in food that steps name and no ingredient is: "drizzle with honey".
func fromSteps(p *planner.Party, d *planner.Dish, g *planner.Guest) []Reason {
	var out []Reason
	for i := range d.Steps {
		for _, f := range food.All(d.Steps[i].Do) {
			name := f.Said()
			listed := slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool {
				return trace.Names(name, &in) || within(name, in.Name) || // "the milk" is the list's coconut milk
					sameSort(f, in.Name)
			})
			if listed || f.Class.Group == "made" || slices.ContainsFunc(out, func(r Reason) bool { return r.Word == name }) {
				continue
			}
			for _, a := range Against(name, g, p.AuthoritiesOf()) {
				if a.unknown || slices.ContainsFunc(a.unless, func(u string) bool {
					return u == food.CookedThrough && cookedAfter(d, i) || u == food.Small && food.CutsSmall(d.Steps[i].Do)
				}) {
					continue
				}
				a.Text = fmt.Sprintf("%q says %s, which is no ingredient: %s", d.Steps[i].Do, name, a.Text)
				a.Word, a.Sure = name, false
				out = append(out, Reason{Finding: a})
			}
		}
	}
	return out
}

// sameSort says that a word for all of a sort means an ingredient: "the cheese" is the list's gorgonzola.
func sameSort(f food.Food, ingredient string) bool {
	sort := func(c *food.Class) string { return c.Name[strings.LastIndexByte(c.Name, '-')+1:] }
	return f.Generic() && slices.ContainsFunc(food.All(ingredient), func(o food.Food) bool {
		return sort(o.Class) == sort(f.Class)
	})
}

// within says whether a text has all words of a name.
func within(name, text string) bool {
	all := food.Words(text)
	return !slices.ContainsFunc(food.Words(name), func(w string) bool { return !slices.Contains(all, w) })
}

// verdicts remembers how dishes of a party, as it stands, go with guests: those who say the same are told the same.
type verdicts struct {
	p  *planner.Party
	by map[string]Verdict
}

func (vs *verdicts) of(d *planner.Dish, g *planner.Guest) Verdict {
	if !Restricted(g) {
		return Free
	}
	key := strings.Join(slices.Concat([]string{string(d.Key)}, g.Diets, []string{""}, g.Allergies), "\x00")
	v, ok := vs.by[key]
	if !ok {
		if vs.by == nil {
			vs.by = map[string]Verdict{}
		}
		v, _ = Suits(vs.p, d, g)
		vs.by[key] = v
	}
	return v
}

// Eats reports whether a guest is served a course: some courses are for one group alone.
func Eats(c *planner.Course, g *planner.Guest) bool {
	return slices.ContainsFunc(c.Servings, func(s planner.Serving) bool { return s.Group == "" || s.Group == g.Group })
}

// menuOf lists a course's dishes in the order of the menu.
func menuOf(p *planner.Party, c *planner.Course) []*planner.Dish {
	var out []*planner.Dish
	for i := range p.Dishes {
		if d := &p.Dishes[i]; d.Course == c.Key {
			out = append(out, d)
		}
	}
	return out
}
