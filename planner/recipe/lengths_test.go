package recipe

import (
	"testing"

	"tureen/planner/measure"
	"tureen/planner/remark"
)

// TestLengths: what a sentence of the method says of how long it takes, in the ways that people write it.
func TestLengths(t *testing.T) {
	for _, c := range []struct {
		text      string
		low, high int
	}{
		{"Bake for 1h30.", 90, 90},
		{"Bake for 1h30min.", 90, 90},
		{"Bake for 1:30 hours.", 90, 90},
		{"Bake 45' until golden.", 45, 45},
		{"Bake for 1½–2 hrs.", 90, 120},
		{"Bake for two and a half hours.", 150, 150},
		{"Bake for an hour and a half.", 90, 90},
		{"Bake for forty minutes.", 40, 40},
		{"Bake for twenty-five minutes or so.", 25, 25},
		{"Simmer for another minute.", 1, 1},
		{"Bake until golden, about 10 minutes.", 10, 10},
		{"Grill for 10 minutes a side.", 20, 20},
		{"Simmer for a further 4 hours.", 240, 240},
		{"Roast for 20 minutes per 500 g plus 20 minutes.", 80, 80}, // 1.5 kg in the list
		{"Roast for 30 minutes per kilo.", 45, 45},
		{"Cool for 20 minutes before serving.", 20, 20},
		{"Let it stand a quarter of an hour before you cut it.", 15, 15},
		{"Chill for at least 1 hour or up to 2 days.", 60, 60},
	} {
		r, err := Read("Roast for 4\n\nIngredients\n1.5 kg pork loin\n1 onion\n\nMethod\n" + c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		want := measure.Duration{Low: c.low, High: c.high}
		if n := len(r.Steps); n != 1 || r.Steps[0].Time != want || r.Steps[0].Guessed {
			t.Errorf("%s: %v", c.text, r.StepLines())
		}
	}
}

// TestKeepingIsNoStep: how long something keeps is a remark, wherever and however it is said, and no step has its days.
func TestKeepingIsNoStep(t *testing.T) {
	for _, c := range []struct {
		text string
		kind remark.Kind
		most int
	}{
		{"It keeps for up to 3 days in the fridge.", remark.Keeps, 3 * day},
		{"Store in an airtight tin for up to a week.", remark.Keeps, 7 * day},
		{"Leftovers keep for 2 days in the refrigerator.", remark.Keeps, 2 * day},
		{"Can be made 2 days ahead.", remark.Ahead, 2 * day},
		{"You can assemble it the day before.", remark.Ahead, day},
		{"The cake freezes well for up to 3 months.", remark.Freezes, 90 * day},
		{"Freeze for up to 2 months.", remark.Freezes, 60 * day},
		{"To freeze, wrap it well and freeze for up to 1 month.", remark.Freezes, 30 * day},
		{"Better the next day.", remark.Better, day},
		{"Refrigerate for up to 4 days.", remark.Keeps, 4 * day},
	} {
		for _, where := range []string{"", "\n\nNotes\n", "\n\nStorage: "} {
			text := "Cake for 8\n\nIngredients\n200 g flour\n3 eggs\n\nMethod\nBeat the eggs with the flour. " +
				"Bake at 180 °C for 30 minutes. " + where + c.text
			r, err := Read(text)
			if err != nil {
				t.Errorf("%s: %v", c.text, err)
				continue
			}
			if len(r.Remarks) == 0 || r.Remarks[0].Kind != c.kind || r.Remarks[0].Time.High != c.most {
				t.Errorf("%q: remarks %+v", where+c.text, r.Remarks)
			}
			for _, s := range r.Steps {
				if s.Time.High > hour {
					t.Errorf("%q: step %q takes %s", where+c.text, s.Do, s.Time)
				}
			}
		}
	}
}
