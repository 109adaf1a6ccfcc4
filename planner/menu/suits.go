package menu

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/safety"
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
func Against(ingredient string, g *planner.Guest) []Finding {
	var out []Finding
	for _, word := range g.Allergies {
		known, err := safety.ParseAllergen(word)
		if err == nil {
			if f, ok := safety.AllergenIn(ingredient, known...); ok {
				out = append(out, Finding{f.String(), f.Word, f.Certainty == safety.Contains, true})
				continue
			}
		}
		if safety.Mentions(ingredient, word) {
			out = append(out, Finding{fmt.Sprintf("it says %s", word), word, true, true})
		}
	}
	for _, diet := range g.Diets {
		d := safety.Diet(diet)
		conflicts, _ := safety.Against(d, ingredient)
		for _, c := range conflicts {
			strict := slices.Contains(forAllergy, d)
			out = append(out, Finding{c.String(), c.Word, c.Certainty == safety.Contains, strict})
		}
	}
	return out
}

// Restricted reports whether there is anything that a guest does not eat or must not get.
func Restricted(g *planner.Guest) bool { return len(g.Diets)+len(g.Allergies) > 0 }

// Suits tells how a dish stands with a guest, and why when it is not free.
func Suits(d *planner.Dish, g *planner.Guest) (Verdict, []Reason) {
	if !Restricted(g) {
		return Free, nil
	}
	var reasons []Reason
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		for _, f := range Against(in.Name, g) {
			reasons = append(reasons, Reason{in.Name, in.Optional, f})
		}
	}
	if underAdvice(g) {
		for _, u := range undercooked(d) {
			f := Finding{Text: u.text + " (" + u.source + ")", Sure: u.sure}
			if u.ingredient != "" {
				f.Word = "raw egg"
			}
			reasons = append(reasons, Reason{u.ingredient, false, f})
		}
	}
	if slices.ContainsFunc(reasons, func(r Reason) bool { return r.Sure && !r.Optional }) {
		return Not, reasons
	}
	if d.BroughtBy != "" || len(d.Ingredients) == 0 {
		for _, f := range Against(d.Name, g) {
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

// verdicts remembers how dishes stand with guests: those who say the same are told the same. The zero value is ready,
// for one party as it stands.
type verdicts struct{ by map[string]Verdict }

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
		v, _ = Suits(d, g)
		vs.by[key] = v
	}
	return v
}

func underAdvice(g *planner.Guest) bool {
	return slices.ContainsFunc(g.Diets, func(d string) bool { return safety.Diet(d).IsAdvice() })
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
