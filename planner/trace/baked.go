package trace

import (
	"slices"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
)

// What a mixture becomes beside what its parts become.

// dryAsBread is how much dry (flour, sugar, ground nuts, chocolate) there is at least for each part of egg, milk and
// cream in a dough that is bread or cake once it is baked; a batter or a filled custard has less. Common practice, no
// source; checked against usual proportions in the tests.
const dryAsBread = 0.7

// mostPotato is how much potato for each part of flour a leavened dough takes up and is bread; common practice, no
// source.
const mostPotato = 0.7

// weights adds up a mixture by role.
func weights(parts []Part) (by map[role]float64, rest bool) {
	by = map[role]float64{}
	for i := range parts {
		p := &parts[i]
		r := p.role()
		if r == "" && p.spoilsCooked() {
			return by, true
		}
		switch {
		case p.Grams < unknownGrams:
			by[r] += p.Grams
		case r == "dough":
			by[r] += littleGrams // a sheet or a case is little beside its filling
		case r != "dry" && r != "sweet" && r != "sour":
			by[r] += p.Grams // what keeps counts only as far as it is known
		}
	}
	return by, false
}

// spoilsCooked says whether a part spoils, now or once it is cooked as rice, pulses and potatoes do. What no table
// knows may, also where somebody has said that it keeps: they said it of what the step left, not of what is baked.
func (p *Part) spoilsCooked() bool {
	return p.Kind != safety.None || p.Class == nil || p.Class.Cooked.Kind != safety.None
}

// dough says whether a mixture is one that becomes bread, cake or biscuits in the oven.
func dough(parts []Part) bool {
	by, rest := weights(parts)
	dry := by["dry"] + by["sweet"]
	if by["potato"] > 0 && (by["leaven"] == 0 || by["potato"] > mostPotato*by["dry"]) {
		return false
	}
	if rest || by["dough"]+dry == 0 || by["vegetable"] > dry+by["dough"] {
		return false
	}
	if by["dry"] == 0 && by["dough"] == 0 && by["sweet"] < by["moist"] {
		return false // sugar alone makes no dough but meringue
	}
	if by["sweet"] == 0 && by["vegetable"] > (dry+by["dough"])/4 {
		return false // a loaf of vegetables: roots are in place of fruit only in a cake
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

// eggFilling says whether what a step puts into a case, or pours over a base, and bakes is egg with little flour or
// crumbs to it: lemon bars, a pie of syrup and eggs. What came from an earlier step as a dough is the case.
func eggFilling(s *planner.Step, parts, came []Part) bool {
	if do := read(s.Do); !do.any[tops] && !do.any[poursOver] {
		return false
	}
	base := slices.ContainsFunc(came, func(p Part) bool { return p.role() == "dry" || p.role() == "dough" }) ||
		slices.ContainsFunc(parts, func(p Part) bool { return p.role() == "dough" })
	moist, dry := 0.0, 0.0
	for i := range parts {
		p := &parts[i]
		if slices.ContainsFunc(came, func(o Part) bool { return o.Name == p.Name }) || p.Grams >= unknownGrams {
			continue
		}
		switch p.role() {
		case "moist":
			moist += p.Grams
		case "dry":
			dry += p.Grams
		}
	}
	return base && moist > 0 && dry < moist*dryAsBread
}

// toasted says whether bread is baked once more with nothing but fat, seasoning, herbs and garlic: croutons.
func toasted(parts []Part) bool {
	bread := false
	for i := range parts {
		p := &parts[i]
		switch r := p.role(); {
		case r == "baked":
			bread = true
		case r == "oil" || r == "fat" || r == "season" || p.growsUnderOil():
		default:
			return false
		}
	}
	return bread
}

// ofDough says whether an ingredient may be in a dough that is being made; what nobody knows may.
func ofDough(in *planner.Ingredient) bool {
	f, ok := food.Find(in.Name)
	switch data().roles[f.Class] {
	case "", "cheese", "vegetable", "fruit", "baked", "sour", "wine":
		return !ok
	}
	return true
}

// Sugar that is boiled to the soft ball or beyond: 112 °C, a usual figure of confectioners, no source.
const softBall, burnt = 112, 200

// candied says whether sugar, and milk or cream with no more weight than it, are boiled to a stage where they keep.
func candied(s *planner.Step, parts []Part) bool {
	by, rest := weights(parts)
	if rest || by["sweet"] == 0 || by["sweet"] < by["moist"] || by["vegetable"]+by["potato"]+by["cheese"]+by["dough"] > 0 {
		return false
	}
	if slices.ContainsFunc(s.Uses, func(u planner.Use) bool { return u.What == planner.AnOven }) {
		return false // a temperature is the oven's
	}
	if read(s.Do).any[candy] || read(s.Until).any[candy] {
		return true
	}
	for _, c := range Degrees(s.Do + " " + s.Until) {
		if c >= softBall && c < burnt {
			return true
		}
	}
	return false
}

// dryAsPanBread is as dryAsBread for what is fried or griddled: less water leaves it. Common practice, no source.
const dryAsPanBread = 1.2

// panBread says whether a dough becomes bread in a pan, on a griddle or in hot fat: flatbreads, muffins, doughnuts.
func panBread(s *planner.Step, parts []Part) bool {
	do := read(s.Do)
	by, _ := weights(parts)
	return do.any[dryHeat] && !do.any[wetHeat] && dough(parts) && by["dry"] >= dryAsPanBread*by["moist"] &&
		by["vegetable"]+by["potato"]+by["fruit"]+by["cheese"]+by["baked"] == 0
}

// long is how many minutes of steaming or boiling make a dough with fruit and suet a pudding that keeps. Common
// practice, no source.
const long = 150

// pudding says whether a dough with more dried fruit than egg and milk is steamed or boiled for long.
func pudding(s *planner.Step, parts []Part) bool {
	dried := 0.0
	for i := range parts {
		if c := parts[i].Class; c != nil && c.Name == "dried-fruit" && parts[i].Grams < unknownGrams {
			dried += parts[i].Grams
		}
	}
	by, _ := weights(parts)
	return s.Time.Likely >= long && read(s.Do).any[wetHeat] && dough(parts) && dried > by["moist"]
}

// custardByName says whether a name is of what stays moist and spoils though it is baked: a custard tart. A cake with
// cream or frosting is filled when it has been baked, and is a cake until then.
func custardByName(name string) bool {
	return slices.ContainsFunc(named(name), func(f food.Food) bool {
		return f.Class.Group == "made" && f.Class.Name != "cream-cake" &&
			(f.Kind() == safety.Custard || f.Kind() == safety.EggDish)
	})
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

// pickled says whether vegetables lie in vinegar that makes them sour through and through: a quarter of the whole, with
// nothing beside it but sugar, salt and spice. Common practice, no source; sour food is none that needs the cold for
// safety (FDA Food Code 2022, 1-201.10, from memory).
func pickled(parts []Part) bool {
	by, rest := weights(parts)
	all := 0.0
	for r, g := range by {
		if all += g; g > 0 && !slices.Contains([]role{"vegetable", "sour", "sweet", "season"}, r) {
			return false
		}
	}
	return !rest && by["vegetable"] > 0 && by["sour"] >= all/4
}

// growsUnderOil says whether a part, fresh, brings into oil what grows there: herbs, garlic and what is like it.
func (p *Part) growsUnderOil() bool {
	return p.role() == "herb" || slices.Contains([]string{"garlic", "chilli", "ginger"}, p.food)
}

// underOil says whether fresh garlic or herbs lie in oil with nothing sour: what grows there poisons.
func underOil(parts []Part) bool {
	oil, fat, sour, all, fresh, garlic := 0.0, 0.0, 0.0, 0.0, false, false
	for i := range parts {
		p := &parts[i]
		g := p.Grams
		all += g
		switch r := p.role(); {
		case r == "oil":
			oil += g
		case r == "fat":
			fat += g
		case p.growsUnderOil():
			fresh, garlic = true, garlic || p.role() != "herb"
			if g >= unknownGrams {
				all += littleGrams - g // a clove or a sprig or two
			}
		case r == "sour":
			sour += g
		case r == "season" || r == "cheese" || p.Class != nil && p.Class.Name == "nuts":
		default:
			return false
		}
	}
	if garlic && oil == 0 {
		oil = fat // garlic in butter has no more air, and is kept as garlic in oil is; herbs in butter have salt and time
	}
	return fresh && oil > 0 && oil*3 >= all && sour*4 < oil // in a dressing the oil lies over vinegar
}

// breadByName says of a mixture of which nobody has said how much is in it that it is bread, cake or biscuits by the
// name of the dish or of what is baked, with nothing in it that a dough has not.
func breadByName(name string, parts []Part) bool {
	by, _ := weights(parts)
	if by["dry"] > 0 && by["dry"] < unknownGrams {
		return false // what is in it says more
	}
	filled := by["moist"] > littleGrams && !slices.ContainsFunc(parts, func(p Part) bool {
		return p.role() == "dry" && p.Grams >= unknownGrams
	})
	if filled {
		return false // eggs and cream, and no flour for them
	}
	for i := range parts {
		p := &parts[i]
		egg := p.Kind == safety.RawEgg || p.Kind == safety.Custard && p.Class == nil
		if r := p.role(); r == "" && !egg && p.spoilsCooked() || r == "vegetable" || r == "potato" {
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
