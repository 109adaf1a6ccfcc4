package recipe

import (
	"fmt"
	"strings"
	"testing"
)

// TestSaidTimes: whatever step a time stands in, it is that step's, by hand or not; each text is the whole method of a
// roast, in the words of cooks of several schools.
func TestSaidTimes(t *testing.T) {
	for text, want := range map[string]string{
		// By hand.
		"Lay the slices over it, 15 minutes.":                       "hands 15",
		"Shell the peas (20 minutes).":                              "hands 20",
		"Pick over the herbs, ten minutes.":                         "hands 10",
		"Knead for 10 minutes.":                                     "hands 10",
		"Knead it well, a good ten minutes, until silky.":           "hands 10",
		"Whisk for 5 to 6 minutes until pale.":                      "hands 5-6",
		"Beat all together for half an hour.":                       "hands 30",
		"Whip the cream for 2-3 mins.":                              "hands 2-3",
		"Roll the balls, about 25 minutes' work.":                   "hands 25",
		"Plate up (5 min).":                                         "hands 5",
		"Fry the onion gently for 8 minutes.":                       "burner 8",
		"Sweat the onion 10 min, lid on.":                           "burner 10",
		"Brown the pork, 4 minutes a side.":                         "burner 8",
		"Brown the pork, 4 minutes a side, in two lots.":            "burner 16",
		"Brown the pork in three batches, 5 minutes each.":          "burner 15",
		"Sear on both sides for 2 minutes.":                         "burner 4",
		"Fry for 3 minutes on one side and 2 minutes on the other.": "burner 5",
		"Fry in 2 batches, 10 minutes in all.":                      "burner 10",
		// On heat.
		"Simmer for 40 minutes.":                                "burner 40",
		"Simmer, covered, forty minutes.":                       "burner 40",
		"Simmer 1h30.":                                          "burner 90",
		"Simmer for two and a half hours.":                      "burner 150",
		"Let it bubble away for 3/4 hour.":                      "burner 45",
		"Leave to simmer for an hour or two.":                   "burner 60-120",
		"Suffer it to simmer three good hours.":                 "burner 180",
		"Boil hard for 2 minutes.":                              "burner 2",
		"Boil for 20 minutes or until tender.":                  "burner 20",
		"Boil until tender, 15-20 minutes.":                     "burner 15-20",
		"Cook on a low heat for 25 minutes.":                    "burner 25",
		"Continue cooking over a low heat for 25 minutes.":      "burner 25",
		"Keep stirring over a low heat for 5 minutes.":          "burner 5",
		"Carry on simmering for 20 minutes.":                    "burner 20",
		"Put the lid on and give it 40 minutes on a low flame.": "burner 40",
		"Steam over boiling water for 2 hours.":                 "burner 120",
		"Cook in the slow cooker on low for 8 hours.":           "appliance 480",
		"Pressure cook for 35 minutes.":                         "burner 35",
		"Microwave on high for 4 minutes.":                      "appliance 4",
		"Stir-fry for 3 minutes.":                               "burner 3",
		"Deep-fry for 4 minutes in two batches.":                "burner 8",
		"Air fry at 200 °C for 15 minutes.":                     "burner 15",
		"Grill for 5 minutes a side.":                           "grill 10",
		"Put under a hot grill for 4 minutes.":                  "grill 4",
		"Barbecue for 20 minutes, turning often.":               "grill 20",
		// In the oven.
		"Roast for 1 hour 20 minutes at 180 °C.":                                       "oven 80",
		"Roast at 180 °C for 1 hr 20.":                                                 "oven 80",
		"Bake 45' at 180 °C.":                                                          "oven 45",
		"Bake in a moderate oven for an hour and a quarter.":                           "oven 75",
		"Bake in a slow oven for the best part of three hours.":                        "oven 180",
		"Bake at Mark 5 for 20 min.":                                                   "oven 20",
		"Oven 150 °C, 2 hours.":                                                        "oven 120",
		"In the oven at 160 °C for 3 h.":                                               "oven 180",
		"220 °C for 20 min, then 160 °C for 1 h.":                                      "oven 80",
		"Roast 20 minutes at 220 °C, then turn down to 160 °C and roast another hour.": "oven 80",
		"Roast for 20 minutes per 500 g plus 20 minutes.":                              "oven 80",
		"Roast for 25 minutes to the pound and 25 minutes over.":                       "oven 108",
		"Roast for 30 minutes per kilo.":                                               "oven 45",
		"Bake until golden, about 30 minutes.":                                         "oven 30",
		"Bake between 30 and 40 minutes.":                                              "oven 30-40",
		"Bake for 30 minutes, turning the tin halfway.":                                "oven 30",
		"Roast 2 hours, basting every 30 minutes.":                                     "oven 120",
		"Bake blind for 15 minutes.":                                                   "oven 15",
		"Braise in the oven at 150 °C overnight.":                                      "oven 480-720",
		// It stands.
		"Rest for 15 minutes.":                                    "counter 15",
		"Let it rest a quarter of an hour before you carve.":      "counter 15",
		"Leave to rise for 1-2 hours.":                            "counter 60-120",
		"Leave it to prove somewhere warm for about an hour.":     "counter 60",
		"Set aside for 10 minutes.":                               "counter 10",
		"Cover and leave overnight.":                              "counter 480-720",
		"Soak the beans overnight.":                               "counter 480-720",
		"Stand 5 minutes, covered.":                               "counter 5",
		"Leave to cool for 20 minutes before serving.":            "counter 20",
		"Take it out of the fridge an hour before.":               "counter 60",
		"It wants two hours in the fridge.":                       "refrigerator 120",
		"Chill for at least 4 hours.":                             "refrigerator 240",
		"Chill for 4 hours or overnight.":                         "refrigerator 240",
		"Chill for at least 1 hour and up to 2 days.":             "refrigerator 60",
		"Put it in the fridge and leave to marinate for 6 hours.": "refrigerator 360",
		"Marinate in the fridge overnight.":                       "refrigerator 480-720",
		"Refrigerate 30 min.":                                     "refrigerator 30",
		"Freeze for 3 hours, stirring every 30 minutes.":          "freezer 180",
		// No time at all.
		"Roast until the thickest part is at 74 °C.": "oven guess",
		"Simmer until thick.":                        "burner guess",
	} {
		r, err := Read("Roast for 4\n\nIngredients\n1.5 kg pork loin\n1 onion\n\nMethod\n" + text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		var got []string
		low, high, guessed, where := 0, 0, false, ""
		for i := range r.Steps {
			s := &r.Steps[i]
			place := string(s.Heat)
			if place == "" {
				if place = string(s.Where); s.Attention == "hands" {
					place = "hands"
				}
			}
			if s.Guessed && s.Attention == "hands" && s.Heat == "" {
				continue // a trifle beside it
			}
			if where != "" && where != place {
				got = append(got, where)
			}
			where, low, high, guessed = place, low+s.Time.Low, high+s.Time.High, guessed || s.Guessed
		}
		out := fmt.Sprint(where, " ", low)
		if high != low {
			out += fmt.Sprint("-", high)
		}
		if guessed {
			out = where + " guess"
		}
		if got = append(got, out); strings.Join(got, "; ") != want {
			t.Errorf("%s: %s, want %s\n%s", text, strings.Join(got, "; "), want, strings.Join(r.StepLines(), "\n"))
		}
	}
}
