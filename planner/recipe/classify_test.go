package recipe

import (
	"testing"

	"tureen/planner/doing"
	"tureen/planner/measure"
)

// TestClassify: what a clause does, by a clause for each way to tell it and one beside it that means something else.
func TestClassify(t *testing.T) {
	for _, c := range []struct {
		clause  string
		wasOven bool
		want    doing.Kind
	}{
		// The oven is turned on, which is no step of the food's.
		{"Preheat the oven to 180 °C", false, doing.Preheat},
		{"Pre-heat a baking tray for 10 minutes", false, doing.Preheat},
		{"Heat the oven to 180 °C", false, doing.Preheat},
		{"Heat the oven for 10 minutes", false, doing.InOven},
		{"Heat the milk to 40 °C", false, doing.OnBurner},
		{"Get the oven hot", false, doing.Preheat},
		{"Get the bowl", false, doing.ByHand},
		{"Turn the oven on", false, doing.Preheat},
		{"Turn the oven up", false, doing.Preheat},
		{"Turn the oven down", true, doing.Preheat},
		{"Turn the oven to 200 °C", true, doing.Preheat},
		{"Turn the oven to 160 °C and cook for 20 minutes", true, doing.InOven},
		{"Turn the dish in the oven", true, doing.ByHand},
		{"Turn the bowl on its side", false, doing.ByHand},

		// So is the burner.
		{"Turn down the heat", false, doing.Preheat},
		{"Reduce the heat", false, doing.Preheat},
		{"Lower the flame", false, doing.Preheat},
		{"Increase the heat", false, doing.Preheat},
		{"Raise the heat", false, doing.Preheat},
		{"Reduce the heat and simmer for 10 minutes", false, doing.OnBurner},
		{"Reduce the sauce", false, doing.OnBurner},
		{"Lower the eggs into the pan", false, doing.ByHand},
		{"Fry over a high heat", false, doing.OverBurner},

		// The cold, and the way out of it.
		{"Put the cream in the freezer for 4 hours", false, doing.Freezing},
		{"Freeze the cream", false, doing.Freezing},
		{"Mix the berries from the freezer", false, doing.ByHand},
		{"Put it in the fridge", false, doing.Chilling},
		{"Keep in the refrigerator overnight", false, doing.Chilling},
		{"Take the dough to the fridge", false, doing.ByHand},
		{"Lift the dough out of the fridge", false, doing.ByHand},
		{"Lift the dough out of the refrigerator", false, doing.ByHand},
		{"Mix the butter from the fridge", false, doing.ByHand},

		// The oven by what stands beside the verb.
		{"Put in the oven at 200 °C for 20 minutes", false, doing.InOven},
		{"In the oven for 20 minutes", false, doing.InOven},
		{"Leave in the oven at 100 °C for 30 minutes", false, doing.InOven},
		{"Leave in the oven for 30 minutes", false, doing.Standing},
		{"Cook in a dutch oven for 20 minutes", false, doing.OnBurner},
		{"Cook in an ovenproof pan for 20 minutes", false, doing.OnBurner},
		{"Stir what comes from the oven for 2 minutes", false, doing.ByHand},
		{"Lift it out of the oven", false, doing.ByHand},
		{"Lift it out of the oven after 20 minutes", false, doing.ByHand},
		{"Then turn down to 160 °C for 20 minutes", true, doing.InOven},
		{"Cover, turn up to 220 °C for 10 minutes", true, doing.InOven},
		{"Turn the heat to 160 °C for 20 minutes", true, doing.InOven},
		{"Turn to 160 °C for 20 minutes", true, doing.InOven},
		{"Brown for 10 minutes", false, doing.OverBurner},
		{"Turn the skewers on the grill for 5 minutes", false, doing.ByHand},
		{"Turn the pieces for 20 minutes", true, doing.ByHand},
		{"Return to the oven for 20 minutes", false, doing.InOven},
		{"Return to the oven", false, doing.ByHand},
		{"Toast in the oven", false, doing.InOven},
		{"Toast in a dry pan", false, doing.OverBurner},
		{"Cook in the oven until brown", false, doing.InOven},
		{"Cook for 20 minutes more", true, doing.InOven},
		{"Cook in a pan for 20 minutes", true, doing.OnBurner},
		{"Cook over a low heat", true, doing.OnBurner},
		{"Warm the plates in the oven", false, doing.InOven},
		{"Reheat the pie in the oven for 10 minutes", false, doing.InOven},
		{"Warm the soup", false, doing.OnBurner},

		// The burner.
		{"Bring to the boil", false, doing.OnBurner},
		{"Bring to a simmer", false, doing.OnBurner},
		{"Bring the milk until it bubbles, to bubble", false, doing.OnBurner},
		{"Bring the edges together", false, doing.ByHand},
		{"Stir over a low heat", false, doing.OverBurner},
		{"Stir over low heat", false, doing.OverBurner},
		{"Stir over a medium heat", false, doing.OverBurner},
		{"Whisk over medium heat", false, doing.OverBurner},
		{"Whisk over a gentle heat", false, doing.OverBurner},
		{"Stir in the flour", false, doing.ByHand},
		{"Beat over a low heat", false, doing.OverBurner},
		{"Braise on the hob", false, doing.OnBurner},
		{"Braise on the stove for 2 hours", false, doing.OnBurner},
		{"Braise at a bare simmer", false, doing.OnBurner},
		{"Braise for 2 hours", false, doing.InOven},
		{"Cook, stirring constantly", false, doing.OverBurner},
		{"Cook, stirring all the time", false, doing.OverBurner},
		{"Cook, stirring now and then", false, doing.OnBurner},
		{"Melt the butter in a pan", false, doing.OverBurner},
		{"Melt the butter over a low heat", false, doing.OverBurner},
		{"Melt the chocolate", false, doing.ByHand},

		// The grill.
		{"Brown under a hot grill", false, doing.OnGrill},
		{"Brown under the broiler", false, doing.OnGrill},
		{"Brown in a pan", false, doing.OverBurner},
		{"Brown under a lid", false, doing.OverBurner},
		{"Place the fish below the grill for 5 minutes", false, doing.OnGrill},
		{"Oil the grill", false, doing.ByHand},

		// Waiting.
		{"Let it simmer", false, doing.OnBurner},
		{"Leave to bubble", false, doing.OnBurner},
		{"Allow to cook", false, doing.OnBurner},
		{"Let it boil for 5 minutes", false, doing.OnBurner},
		{"Leave to marinate", false, doing.Chilling},
		{"Let it chill", false, doing.Chilling},
		{"Allow to set", false, doing.Chilling},
		{"Leave to marinate at room temperature for 1 hour", false, doing.Standing},
		{"Let it marinate at room temperature", false, doing.Standing},
		{"Leave for 10 minutes", false, doing.Standing},
		{"Let it rest", false, doing.Standing},
		{"Allow to cool", false, doing.Standing},
		{"Leave to rise", false, doing.Standing},
		{"Let it stand", false, doing.Standing},
		{"Leave to infuse", false, doing.Standing},
		{"Leave to prove", false, doing.Standing},
		{"Leave to proof", false, doing.Standing},
		{"Leave to soak", false, doing.Standing},
		{"Let it sit", false, doing.Standing},
		{"Leave the skin on", false, doing.ByHand},
		{"Set aside", false, doing.ByHand},
		{"Set for 2 hours", false, doing.Chilling},

		// Notes in short, and work by hand that begins a wait or a heat.
		{"onions, soften 10 min", false, doing.OnBurner},
		{"the pasta: boil 5 min", false, doing.OnBurner},
		{"sauce: simmer gently 20 min", false, doing.OnBurner},
		{"5 min boil", false, doing.OnBurner},
		{"onions 10 min", false, doing.ByHand},
		{"Tip into the pan to fry for 10 minutes", false, doing.OverBurner},
		{"Spread on a tray: 40 minutes at 200 °C", false, doing.InOven},
		{"Knead for 10 minutes", false, doing.ByHand},
		{"Knead at 30 °C for 10 minutes", false, doing.ByHand},
		{"Chop the onions", false, doing.ByHand},
		{"Serve at once", false, doing.Serving},
	} {
		if got := kindAlone(c.clause, c.wasOven); got != c.want {
			t.Errorf("%q (in the oven: %t): %d, want %d", c.clause, c.wasOven, got, c.want)
		}
	}
}

// kindAlone is what a sentence does that stands alone, or goes on with what is in the oven: the first of its acts that
// heats, waits or serves, else the first of all.
func kindAlone(text string, wasOven bool) doing.Kind {
	m := maker{r: &Reading{}}
	m.oven, _ = measure.ParseTemperature("180 °C")
	said := []*sentence{{text: text, at: -1}}
	if wasOven {
		said = append([]*sentence{{text: "Put the dish in the oven.", at: -1}}, said...)
	}
	m.deeds(said)
	kind, found := doing.ByHand, false // nothing is baked: what sets, sets in the cold
	for _, d := range m.all {
		if d.sentence.text != text || d.Leaf || d.Trailing {
			continue
		}
		if !found || kind == doing.ByHand || kind == doing.Preheat && d.kind != doing.ByHand {
			kind, found = d.kind, true
		}
	}
	return kind
}
