package trace

import (
	"slices"

	"tureen/planner/safety"
)

// What a mixture becomes beside what its parts become.

// dryAsBread is how much dry (flour, sugar, ground nuts, chocolate) there is at least for each part of egg, milk and
// cream in a dough that is bread or cake once it is baked; a batter or a filled custard has less. Common practice, no
// source; checked against usual proportions in the tests.
const dryAsBread = 0.7

// weights adds up a mixture by role.
func weights(parts []Part) (by map[role]float64, rest bool) {
	by = map[role]float64{}
	for i := range parts {
		p := &parts[i]
		r := p.role()
		if r == "" && (p.Kind != safety.None || !p.Known) {
			return by, true
		}
		if p.Grams < unknownGrams || r != "dry" && r != "sweet" && r != "sour" {
			by[r] += p.Grams // what keeps counts only as far as it is known
		}
	}
	return by, false
}

// dough says whether a mixture is one that becomes bread, cake or biscuits in the oven.
func dough(parts []Part) bool {
	by, rest := weights(parts)
	dry := by["dry"] + by["sweet"]
	if rest || by["dough"]+dry == 0 || by["vegetable"] > dry+by["dough"] {
		return false
	}
	if by["dry"] == 0 && by["dough"] == 0 && by["sweet"] < by["moist"] {
		return false // sugar alone makes no dough but meringue
	}
	for i := range parts {
		if c := parts[i].Class; c != nil && c.Name == "cream" && parts[i].Grams > dry/2 {
			return false
		}
	}
	return by["moist"] == 0 || dry >= dryAsBread*by["moist"]
}

// fermenting says whether a mixture is a dough with leaven, raw, and of what needs the cold only its egg and milk.
func fermenting(parts []Part) bool {
	by, rest := weights(parts)
	return !rest && by["leaven"] > 0 && by["dry"] > 0 && dough(parts) ||
		slices.ContainsFunc(parts, func(p Part) bool { return p.Class != nil && p.Class.Name == "enriched-dough" })
}

// preserved says whether what is cooked keeps by its sugar and acid: jam, chutney, syrup. A quarter of sugar and
// vinegar is common practice, no source.
func preserved(parts []Part) bool {
	by, rest := weights(parts)
	keeps, all := by["sweet"]+by["sour"], 0.0
	for r, g := range by {
		all += g
		if r == "moist" || r == "dough" || r == "cheese" || r == "dry" && g > keeps {
			return false
		}
	}
	return !rest && by["fruit"]+by["vegetable"] > 0 && keeps >= all/4
}

// underOil says whether fresh garlic or herbs lie in oil with nothing sour: what grows there poisons.
func underOil(parts []Part) bool {
	oil, all, fresh := 0.0, 0.0, false
	for i := range parts {
		p := &parts[i]
		g := p.Grams
		all += g
		switch r := p.role(); {
		case r == "oil":
			oil += g
		case r == "herb" || p.food == "garlic":
			fresh = true
			if g >= unknownGrams {
				all += littleGrams - g // a clove or a sprig or two
			}
		case r == "season" || r == "cheese" || p.Class != nil && p.Class.Name == "nuts":
		default:
			return false
		}
	}
	return fresh && oil > 0 && oil*3 >= all
}

// breadByName says of a mixture of which nobody has said how much is in it that it is bread, cake or biscuits by the
// name of the dish or of what is baked, with nothing in it that a dough has not.
func breadByName(name string, parts []Part) bool {
	by, _ := weights(parts)
	if by["dry"] > 0 && by["dry"] < unknownGrams {
		return false // what is in it says more
	}
	for i := range parts {
		p := &parts[i]
		egg := p.Kind == safety.RawEgg || p.Kind == safety.Custard && p.Class == nil
		if r := p.role(); r == "" && !egg && (p.Kind != safety.None || !p.Known) || r == "vegetable" {
			return false
		}
	}
	baked := false
	for _, f := range named(name) {
		if f.Kind() != safety.None && f.Class.Group == "made" {
			return false
		}
		baked = baked || f.Class.Group == "bread" || f.Class.Name == "meringue"
	}
	return baked
}

// custardy says whether egg and milk or cream are cooked with nothing that spoils beside them.
func custardy(parts []Part) bool {
	egg, milk := false, false
	for i := range parts {
		switch p := &parts[i]; {
		case p.Kind == safety.RawEgg || p.Kind == safety.Eggs:
			egg = true
		case p.Kind == safety.Custard:
			milk = true
		case p.Kind != safety.None || p.role() == "vegetable":
			return false
		}
	}
	return egg && milk
}
