package recipe

import (
	"testing"

	"tureen/planner/measure"
)

// TestClassify: what a clause does, by a clause for each way to tell it and one beside it that means something else.
func TestClassify(t *testing.T) {
	for _, c := range []struct {
		clause  string
		wasOven bool
		want    action
	}{
		// The oven is turned on, which is no step of the food's.
		{"Preheat the oven to 180 °C", false, preheat},
		{"Pre-heat a baking tray for 10 minutes", false, preheat},
		{"Heat the oven to 180 °C", false, preheat},
		{"Heat the oven for 10 minutes", false, inOven},
		{"Heat the milk to 40 °C", false, onBurner},
		{"Get the oven hot", false, preheat},
		{"Get the bowl", false, byHand},
		{"Turn the oven on", false, preheat},
		{"Turn the oven up", false, preheat},
		{"Turn the oven down", true, preheat},
		{"Turn the oven to 200 °C", true, preheat},
		{"Turn the oven to 160 °C and cook for 20 minutes", true, inOven},
		{"Turn the dish in the oven", true, byHand},
		{"Turn the bowl on its side", false, byHand},

		// So is the burner.
		{"Turn down the heat", false, preheat},
		{"Reduce the heat", false, preheat},
		{"Lower the flame", false, preheat},
		{"Increase the heat", false, preheat},
		{"Raise the heat", false, preheat},
		{"Reduce the heat and simmer for 10 minutes", false, onBurner},
		{"Reduce the sauce", false, onBurner},
		{"Lower the eggs into the pan", false, byHand},
		{"Fry over a high heat", false, overBurner},

		// The cold, and the way out of it.
		{"Put the cream in the freezer for 4 hours", false, freezing},
		{"Freeze the cream", false, freezing},
		{"Mix the berries from the freezer", false, byHand},
		{"Put it in the fridge", false, chilling},
		{"Keep in the refrigerator overnight", false, chilling},
		{"Take the dough to the fridge", false, byHand},
		{"Lift the dough out of the fridge", false, byHand},
		{"Lift the dough out of the refrigerator", false, byHand},
		{"Mix the butter from the fridge", false, byHand},

		// The oven by what stands beside the verb.
		{"Put in the oven at 200 °C for 20 minutes", false, inOven},
		{"In the oven for 20 minutes", false, inOven},
		{"Leave in the oven at 100 °C for 30 minutes", false, inOven},
		{"Leave in the oven for 30 minutes", false, standing},
		{"Cook in a dutch oven for 20 minutes", false, onBurner},
		{"Cook in an ovenproof pan for 20 minutes", false, onBurner},
		{"Stir what comes from the oven for 2 minutes", false, byHand},
		{"Lift it out of the oven", false, byHand},
		{"Lift it out of the oven after 20 minutes", false, byHand},
		{"Then turn down to 160 °C for 20 minutes", true, inOven},
		{"Cover, turn up to 220 °C for 10 minutes", true, inOven},
		{"Turn the heat to 160 °C for 20 minutes", true, inOven},
		{"Turn to 160 °C for 20 minutes", true, inOven},
		{"Brown for 10 minutes", false, overBurner},
		{"Turn the skewers on the grill for 5 minutes", false, byHand},
		{"Turn the pieces for 20 minutes", true, byHand},
		{"Return to the oven for 20 minutes", false, inOven},
		{"Return to the oven", false, byHand},
		{"Toast in the oven", false, inOven},
		{"Toast in a dry pan", false, overBurner},
		{"Cook in the oven until brown", false, inOven},
		{"Cook for 20 minutes more", true, inOven},
		{"Cook in a pan for 20 minutes", true, onBurner},
		{"Cook over a low heat", true, onBurner},
		{"Warm the plates in the oven", false, inOven},
		{"Reheat the pie in the oven for 10 minutes", false, inOven},
		{"Warm the soup", false, onBurner},

		// The burner.
		{"Bring to the boil", false, onBurner},
		{"Bring to a simmer", false, onBurner},
		{"Bring the milk until it bubbles, to bubble", false, onBurner},
		{"Bring the edges together", false, byHand},
		{"Stir over a low heat", false, overBurner},
		{"Stir over low heat", false, overBurner},
		{"Stir over a medium heat", false, overBurner},
		{"Whisk over medium heat", false, overBurner},
		{"Whisk over a gentle heat", false, overBurner},
		{"Stir in the flour", false, byHand},
		{"Beat over a low heat", false, overBurner},
		{"Braise on the hob", false, onBurner},
		{"Braise on the stove for 2 hours", false, onBurner},
		{"Braise at a bare simmer", false, onBurner},
		{"Braise for 2 hours", false, inOven},
		{"Cook, stirring constantly", false, overBurner},
		{"Cook, stirring all the time", false, overBurner},
		{"Cook, stirring now and then", false, onBurner},
		{"Melt the butter in a pan", false, overBurner},
		{"Melt the butter over a low heat", false, overBurner},
		{"Melt the chocolate", false, byHand},

		// The grill.
		{"Brown under a hot grill", false, onGrill},
		{"Brown under the broiler", false, onGrill},
		{"Brown in a pan", false, overBurner},
		{"Brown under a lid", false, overBurner},
		{"Place the fish below the grill for 5 minutes", false, onGrill},
		{"Oil the grill", false, byHand},

		// Waiting.
		{"Let it simmer", false, onBurner},
		{"Leave to bubble", false, onBurner},
		{"Allow to cook", false, onBurner},
		{"Let it boil for 5 minutes", false, onBurner},
		{"Leave to marinate", false, chilling},
		{"Let it chill", false, chilling},
		{"Allow to set", false, chilling},
		{"Leave to marinate at room temperature for 1 hour", false, standing},
		{"Let it marinate at room temperature", false, standing},
		{"Leave for 10 minutes", false, standing},
		{"Let it rest", false, standing},
		{"Allow to cool", false, standing},
		{"Leave to rise", false, standing},
		{"Let it stand", false, standing},
		{"Leave to infuse", false, standing},
		{"Leave to prove", false, standing},
		{"Leave to proof", false, standing},
		{"Leave to soak", false, standing},
		{"Let it sit", false, standing},
		{"Leave the skin on", false, byHand},
		{"Set aside", false, byHand},
		{"Set for 2 hours", false, chilling},

		// Notes in short, and work by hand that begins a wait or a heat.
		{"onions, soften 10 min", false, onBurner},
		{"the pasta: boil 5 min", false, onBurner},
		{"sauce: simmer gently 20 min", false, onBurner},
		{"5 min boil", false, onBurner},
		{"onions 10 min", false, byHand},
		{"Tip into the pan to fry for 10 minutes", false, overBurner},
		{"Spread on a tray: 40 minutes at 200 °C", false, inOven},
		{"Knead for 10 minutes", false, byHand},
		{"Knead at 30 °C for 10 minutes", false, byHand},
		{"Chop the onions", false, byHand},
		{"Serve at once", false, serving},
	} {
		if got := kindAlone(c.clause, c.wasOven); got != c.want {
			t.Errorf("%q (in the oven: %t): %d, want %d", c.clause, c.wasOven, got, c.want)
		}
	}
}

// kindAlone is what a sentence does that stands alone, or goes on with what is in the oven: the first of its acts that
// heats, waits or serves, else the first of all.
func kindAlone(text string, wasOven bool) action {
	m := maker{r: &Reading{}}
	m.oven, _ = measure.ParseTemperature("180 °C")
	said := []*sentence{{text: text, at: -1}}
	if wasOven {
		said = append([]*sentence{{text: "Put the dish in the oven.", at: -1}}, said...)
	}
	m.deeds(said)
	kind, found := byHand, false // nothing is baked: what sets, sets in the cold
	for _, d := range m.all {
		if d.sentence.text != text || d.Leaf || d.Trailing {
			continue
		}
		if !found || kind == byHand || kind == preheat && d.kind != byHand {
			kind, found = d.kind, true
		}
	}
	return kind
}
