package menu

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/portion"
	"tureen/planner/words"
)

// seasons are foods that may well come in every course. The list is ours.
var seasons = []string{"lemon", "lime", "garlic", "onion", "shallot", "ginger", "oil", "butter", "sugar", "flour", "water", "salt", "pepper", "cream",
	"milk", "egg", "wine", "vinegar", "stock", "honey", "syrup", "juice", "cider", "yeast", "parsley", "dill", "basil", "coriander", "thyme",
	"rosemary", "mint", "chive", "bay", "chilli", "mustard", "caper", "fennel seed", "sauce", "paste", "bread", "leaves", "seed"}

// leastGrams a cover make a food one of a dish's main ones.
const leastGrams = 30

// mains lists a dish's main foods, in a word each: what main courses are reckoned by, and what the dish is named for.
func mains(d *planner.Dish) []string {
	named := portion.Words(d.Name)
	var out []string
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		if in.Optional {
			continue
		}
		kind, food, ok := portion.KindOf(in.Name)
		if !ok || !kind.Protein() {
			food = lastWord(in.Name)
			if food == "" || slices.Contains(seasons, food) || !slices.Contains(named, food) {
				continue
			}
		}
		if grams, weighed := portion.Grams(in); weighed && d.Serves > 0 && grams/float64(d.Serves) < leastGrams {
			continue
		}
		if !slices.Contains(out, food) {
			out = append(out, food)
		}
	}
	return out
}

// lastWord is the head of a food's name: of "ripe tomatoes", "tomato". What follows a comma is how it is prepared.
func lastWord(name string) string {
	for i, r := range name {
		if r == ',' || r == '(' {
			name = name[:i]
			break
		}
	}
	ws := portion.Words(name)
	if len(ws) == 0 {
		return ""
	}
	return ws[len(ws)-1]
}

// twice says which main food comes in more than one course.
func twice(p *planner.Party) []string {
	type place struct {
		food   string
		dishes []*planner.Dish
	}
	var all []place
	for i := range p.Courses {
		for j := range p.Dishes {
			d := &p.Dishes[j]
			if d.Course != p.Courses[i].Key {
				continue
			}
			for _, food := range mains(d) {
				k := slices.IndexFunc(all, func(x place) bool { return x.food == food })
				if k < 0 {
					all, k = append(all, place{food: food}), len(all)
				}
				all[k].dishes = append(all[k].dishes, d)
			}
		}
	}
	var out []string
	for _, x := range all {
		var names []string
		other := false
		for _, d := range x.dishes {
			names = append(names, d.Name)
			other = other || d.Course != x.dishes[0].Course
		}
		if other {
			out = append(out, fmt.Sprintf("%s comes twice: in %s. Is that meant?", words.Upper(x.food), words.And(names)))
		}
	}
	return out
}
