package doing

import (
	"testing"

	"tureen/planner"
)

// TestTold: what the words of a step ask of people, as a cook would say. Common practice, no source.
func TestTold(t *testing.T) {
	for _, c := range []struct {
		do      string
		minutes int
		want    planner.Attention
		oven    int
	}{
		{"Simmer the stew", 180, planner.Watch, 0},
		{"Cook sous vide at 68 °C", 1080, planner.Unattended, 0},
		{"Cook on low in the slow cooker", 480, planner.Unattended, 0},
		{"Fry in the rice cooker", 20, planner.Hands, 0},
		{"Brown the mince, add the tomatoes and simmer", 60, planner.Watch, 0},
		{"Roast the leg", 120, planner.Watch, 0},
		{"Bake at 180 °C", 40, planner.Watch, 180},
		{"Bake at 160 fan until golden", 40, planner.Watch, 180},
		{"Mix and bake at gas mark 4", 40, planner.Watch, 180},
		{"Leave on the counter for 6 hours", 360, planner.Unattended, 0},
		{"Take the turkey out of the freezer and thaw in the fridge", 720, planner.Unattended, 0},
		{"Marinate the chicken", 240, planner.Unattended, 0},
		{"Let it rest", 20, planner.Unattended, 0},
		{"Knead, then leave to rise", 90, planner.Unattended, 0},
		{"Chill until set", 240, planner.Unattended, 0},
		{"Soak the beans overnight", 600, planner.Unattended, 0},
		{"Peel and dice the onions", 20, planner.Hands, 0},
		{"Fry the pancakes one by one", 25, planner.Hands, 0},
		{"Stir-fry everything", 8, planner.Hands, 0},
		{"Plate the salad", 10, planner.Hands, 0},
		{"Ice the cake", 25, planner.Hands, 0},
		{"Take the cheese out of the fridge", 60, planner.Unattended, 0},
	} {
		if got := Told(c.do, c.minutes); got.Attention != c.want || got.OvenC != c.oven {
			t.Errorf("%s, %d min: %+v, want %s and %d °C", c.do, c.minutes, got, c.want, c.oven)
		}
	}
}
