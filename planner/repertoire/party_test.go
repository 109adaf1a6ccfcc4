package repertoire

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/safety"
)

// homeParty is a party in a home kitchen with one course and the cards on its menu.
func homeParty(covers int, cards ...Card) *planner.Party {
	at := time.Date(2026, time.October, 10, 19, 0, 0, 0, time.UTC)
	hours := planner.DayHours{From: 8 * 60, Until: 22 * 60}
	p := &planner.Party{
		Name: "Autumn table", Zone: "UTC", Arrival: at.Add(-30 * time.Minute), Covers: covers, PrepDays: 3,
		Kitchen: planner.HomeKitchen(),
		People: []planner.Person{
			{Key: "mara", Name: "Mara", Role: planner.Host, Cooks: hours, Home: hours},
			{Key: "teo", Name: "Teo", Role: planner.CoHost, Cooks: hours, Home: hours},
		},
	}
	for _, c := range cards {
		if p.Course(c.Course) == nil {
			p.Courses = append(p.Courses, planner.Course{Key: c.Course, Name: string(c.Course),
				Servings: []planner.Serving{{At: at, Early: 10, Late: 20}}})
			at = at.Add(45 * time.Minute)
		}
		p.Dishes = append(p.Dishes, c.Dish())
	}
	return p
}

func TestCardsAreValid(t *testing.T) {
	for _, c := range List() {
		for _, problem := range homeParty(10, c).Validate() {
			t.Errorf("%s: %s: %s", c.Name, problem.Where, problem.Text)
		}
	}
}

// TestDietsAgree: a card claims no diet that an ingredient's words break (package safety has the sources),
// and claims each that none of them speaks against.
func TestDietsAgree(t *testing.T) {
	for _, c := range List() {
		for _, diet := range Diets {
			claims := slices.Contains(c.Diets, diet)
			broken := ""
			d := c.Dish()
			for _, in := range d.Ingredients {
				conflicts, ok := safety.Against(diet, in.Name)
				if !ok {
					t.Fatalf("%s: no answer about %s", in.Name, diet)
				}
				for _, x := range conflicts {
					broken += in.Name + ": " + x.String() + "; "
				}
			}
			if claims && broken != "" {
				t.Errorf("%s claims to be %s, but %s", c.Name, diet, broken)
			}
			if !claims && broken == "" {
				t.Errorf("%s could say that it is %s", c.Name, diet)
			}
		}
	}
}
