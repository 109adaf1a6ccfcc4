package menu

import (
	"fmt"
	"testing"

	"tureen/planner"
	"tureen/planner/repertoire"
)

// crowd is a party as large as one may be: forty dishes, and a hundred guests of whom each has something.
func crowd() *planner.Party {
	p := party()
	cards := repertoire.List()
	for i := range 40 {
		d := cards[i%len(cards)].Dish()
		d.Key, d.Name, d.Course = planner.DishKey(fmt.Sprint("d", i)), fmt.Sprint(d.Name, " ", i), p.Courses[i%3].Key
		p.Dishes = append(p.Dishes, d)
	}
	diets, allergies := []string{"vegan", "vegetarian", "pregnant", "gluten-free", "halal"},
		[]string{"nuts", "milk", "celery", "shellfish", "strawberry", "soy", "egg"}
	for i := range 100 {
		p.Guests = append(p.Guests, planner.Guest{Name: fmt.Sprint("Guest ", i), Diets: diets[i%5 : i%5+1],
			Allergies: allergies[i%7 : i%7+1]})
	}
	return p
}

func BenchmarkNews(b *testing.B) {
	p := crowd()
	before := *p
	before.Dishes = before.Dishes[:39]
	for b.Loop() {
		News(&before, p)
	}
}

func BenchmarkForCooks(b *testing.B) {
	p := crowd()
	for b.Loop() {
		Unfed(p)
		InTheKitchen(p)
		for i := range p.Dishes {
			for j := range p.Guests {
				if v, _ := Suits(p, &p.Dishes[i], &p.Guests[j]); v == Not {
					Help(p, &p.Dishes[i], &p.Guests[j])
				}
			}
		}
	}
}
