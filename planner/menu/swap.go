package menu

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// swap is one ingredient of a dish changed for another, for a guest.
type swap struct {
	ingredient string
	safety.Substitute
	label  bool     // what comes instead may contain it too: its label tells
	butNot []string // other guests for whom the new one stands against the dish, and the old one did not
}

// swaps finds for each ingredient that surely stands against a guest something to take instead that does not. all is
// false when for one of them nothing is known; what was found for the others is then of no use.
func swaps(p *planner.Party, d *planner.Dish, g *planner.Guest) (out []swap, all bool) {
	_, reasons := Suits(p, d, g)
	for _, r := range reasons {
		if !r.Sure || r.Optional || slices.ContainsFunc(out,
			func(s swap) bool { return s.ingredient == r.Ingredient }) {
			continue
		}
		if r.Ingredient == "" {
			return nil, false
		}
		s, ok := instead(p, d, g, r.Ingredient, reasons)
		if !ok {
			return nil, false
		}
		out = append(out, s)
	}
	if len(out) == 0 || stillAgainst(p, d, g, out) {
		return nil, false
	}
	return out, true
}

// stillAgainst says whether a dish with other ingredients is not for a guest either: what its steps name, such as the
// yolks of eggs that are stuffed, is in no list that could be changed.
func stillAgainst(p *planner.Party, d *planner.Dish, g *planner.Guest, list []swap) bool {
	other := *d
	other.Ingredients = slices.Clone(d.Ingredients)
	for i := range other.Ingredients {
		for _, s := range list {
			if other.Ingredients[i].Name == s.ingredient {
				other.Ingredients[i].Name = s.Use
			}
		}
	}
	v, _ := Suits(p, &other, g)
	return v == Not
}

// instead picks the best of the substitutes known for an ingredient: one that suits the guest and everybody else, then
// one that suits the guest but for its label, then one that only another guest cannot have.
func instead(p *planner.Party, d *planner.Dish, g *planner.Guest, ingredient string, reasons []Reason) (best swap,
	ok bool) {
	rank := 0
	for _, r := range reasons {
		if r.Ingredient != ingredient || !r.Sure {
			continue
		}
		for _, sub := range safety.Substitutes(r.Word) {
			against := Against(sub.Use, g, p.AuthoritiesOf())
			if slices.ContainsFunc(against, func(f Finding) bool { return f.Sure }) || !sameFood(sub.For, ingredient) {
				continue
			}
			s := swap{ingredient: ingredient, Substitute: sub, label: len(against) > 0}
			for i := range p.Guests {
				if o := &p.Guests[i]; o.Name != g.Name && surely(p, sub.Use, o) && !surely(p, ingredient, o) {
					s.butNot = append(s.butNot, o.Name)
				}
			}
			n := 4
			if s.label {
				n--
			}
			if len(s.butNot) > 0 {
				n -= 2
			}
			if n > rank {
				best, rank, ok = s, n, true
			}
		}
	}
	return best, ok
}

// sameFood says whether an ingredient as a whole is the food that a substitute stands in for: a Scotch egg is no egg,
// and without the egg it is crumbed still.
func sameFood(of, ingredient string) bool {
	a, known := food.Find(of)
	b, also := food.Find(ingredient)
	return !known || !also || a.Class.Group == b.Class.Group
}

func surely(p *planner.Party, ingredient string, g *planner.Guest) bool {
	return slices.ContainsFunc(Against(ingredient, g, p.AuthoritiesOf()), func(f Finding) bool { return f.Sure })
}

// String is the swap as a person reads it.
func (s swap) String() string {
	text := fmt.Sprintf("for %s take %s (%s; %s)", s.ingredient, s.Use, s.Note, s.Source)
	if s.label {
		text += ", if its label agrees"
	}
	if len(s.butNot) > 0 {
		text += ", which is then not for " + words.And(s.butNot)
	}
	return text
}

// Help says which substitution would make a dish fit for a guest for whom it is not; empty when none is known.
func Help(p *planner.Party, d *planner.Dish, g *planner.Guest) string {
	list, all := swaps(p, d, g)
	if !all {
		return ""
	}
	var parts []string
	for _, s := range list {
		parts = append(parts, s.String())
	}
	return fmt.Sprintf("%s, for %s: %s. Then nothing surely stands against it.", d.Name, g.Name, strings.Join(parts,
		"; "))
}
