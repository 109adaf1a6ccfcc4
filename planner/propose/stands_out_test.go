package propose

import (
	"testing"

	"tureen/planner"
)

// TestStandsOutByWords: what the last steps, the name and the course say is how a dish is served; what an earlier step
// says is how it is prepared.
func TestStandsOutByWords(t *testing.T) {
	for _, c := range []struct {
		name, course, first, last string
		want                      bool
	}{
		{"Sirloin steaks", "main", "Salt and leave out of the fridge", "Fry to medium rare", false},
		{"Lamb chops", "main", "Pick the mint in the garden", "Grill the chops", false},
		{"Roast beef", "main", "Leave out for an hour", "Roast", false},
		{"Ham", "main", "Bake", "Slice, and leave out for whoever comes", true},
		{"Ham", "main", "Bake", "Slice it", false},
		{"Ham", "cold buffet", "Bake", "Slice it", true},
		{"Picnic pies", "main", "Bake", "Cut them", true},
		{"Chicken thighs", "main", "Marinate", "Serve on the terrace", true},
		{"Curd cake", "dessert", "Bake", "Take it out of the car", false},
	} {
		d := planner.Dish{Key: "d", Name: c.name, Course: "c", Steps: []planner.Step{{Key: "a", Do: c.first},
			{Key: "b", Do: c.last, After: []planner.After{{Step: "a"}}}}}
		p := &planner.Party{Courses: []planner.Course{{Key: "c", Name: c.course}}, Dishes: []planner.Dish{d}}
		if got := StandsOut(p, &p.Dishes[0]); got != c.want {
			t.Errorf("%s (%s): %q, then %q: got %v, want %v", c.name, c.course, c.first, c.last, got, c.want)
		}
	}
}
