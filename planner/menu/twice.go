package menu

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/portion"
	"tureen/planner/words"
)

// leastGrams a cover make a food one of a dish's main ones.
const leastGrams = 30

// main is a main food of a dish: by what it is known, and as the dish calls it.
type main struct{ food, said string }

// mains lists a dish's main foods: what main courses are reckoned by, and what the dish is named for.
func mains(d *planner.Dish) []main {
	var out []main
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		if in.Optional {
			continue
		}
		kind, name, ok := portion.KindOf(in.Name)
		m := main{name, name}
		if !ok || !kind.Protein() {
			if m = namesake(d, in.Name); m.food == "" {
				continue
			}
		}
		if grams, weighed := portion.Grams(in); weighed && d.Serves > 0 && grams/float64(d.Serves) < leastGrams {
			continue
		}
		if !slices.ContainsFunc(out, func(o main) bool { return o.food == m.food }) {
			out = append(out, m)
		}
	}
	return out
}

// namesake is what an ingredient is where the dish is named for it, be it in another word (prawns, shrimp); nothing
// where it is not, or where the food may well come in every course.
func namesake(d *planner.Dish, ingredient string) main {
	f, ok := food.Find(ingredient)
	if !ok || f.Season() || head(f).Season() {
		return main{}
	}
	for _, n := range food.All(d.Name) {
		if n.Name == f.Name || head(n).Name == head(f).Name {
			return main{head(f).Name, words.Singular(n.Said())}
		}
	}
	return main{}
}

// head is the food that the last word of a food's name is: tomatoes of tinned tomatoes; itself where that is none.
func head(f food.Food) food.Food {
	said := f.Said()
	if h, ok := food.Find(said[strings.LastIndex(said, " ")+1:]); ok {
		return h
	}
	return f
}

// twice says which main food comes in more than one course.
func twice(p *planner.Party) []string {
	type place struct {
		main
		dishes []*planner.Dish
	}
	var all []place
	for i := range p.Courses {
		for j := range p.Dishes {
			d := &p.Dishes[j]
			if d.Course != p.Courses[i].Key {
				continue
			}
			for _, m := range mains(d) {
				k := slices.IndexFunc(all, func(x place) bool { return x.food == m.food })
				if k < 0 {
					all, k = append(all, place{main: m}), len(all)
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
			out = append(out, fmt.Sprintf("%s comes twice: in %s. Is that meant?", words.Upper(x.said), words.And(names)))
		}
	}
	return out
}
