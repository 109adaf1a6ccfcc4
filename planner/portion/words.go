package portion

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// Words of an amount that tell how a food is cut and sold. They are ours; what a food is, package food knows.
var (
	boneWords = strings.Fields("bone bone-in rack rib shoulder shank chop cutlet leg knuckle neck oxtail")
	stewWords = strings.Fields("stewing stew braising diced cubed")
)

// Words are the words of a food's name, as [measure.Words] has them.
func Words(name string) []string { return measure.Words(name) }

// KindOf tells from an ingredient's words which kind it is and which food: "pork", "potatoes", "green beans"; ok is
// false when they do not tell, or when a dish has of it only a seasoning.
func KindOf(ingredient string) (kind Kind, name string, ok bool) {
	f, known := food.Find(ingredient)
	if !known || f.Season() || f.Hot() {
		return "", "", false
	}
	ws := Words(ingredient)
	has := func(list ...string) bool {
		return slices.ContainsFunc(ws, func(w string) bool { return slices.Contains(list, w) })
	}
	switch f.Class.Name {
	case "raw-mince", "poultry-mince":
		return GroundMeat, animal(f), true
	case "raw-meat", "game", "offal", "liver":
		switch {
		case has(stewWords...):
			return StewMeat, animal(f), true
		case has(boneWords...) && !has("boneless"):
			return MeatOnBone, animal(f), true
		}
		return Meat, animal(f), true
	case "raw-poultry":
		name, kind = animal(f), PoultryOnBone
		if has("boneless", "breast", "fillet") && !has("bone-in", "bone") {
			kind = Poultry
		}
		return kind, name, name == "chicken" || name == "turkey" // the figures are for these
	case "raw-fish":
		if has("whole") {
			return WholeFish, animal(f), true
		}
		return Fish, animal(f), true
	case "live-shellfish", "bivalves":
		return Mussels, "mussels", f.Name == "mussel"
	case "potato":
		return Potatoes, "potatoes", true
	case "rice":
		return Rice, "rice", true
	case "pasta":
		return Pasta, "pasta", true
	case "salad-leaves":
		return Leaves, "leaves", true
	case "dry-pulses":
		said := f.Said()
		return Beans, "dried " + words.Plural(said[strings.LastIndex(said, " ")+1:]), has("dried", "dry")
	case "vegetables", "roots", "mushrooms", "onions", "greens":
		name, _, _ = strings.Cut(strings.ToLower(ingredient), ",")
		return Vegetables, strings.Join(strings.Fields(name), " "), true
	}
	return "", "", false
}

// animal is what a cut is of, in a word: "pork" for pork loin, and the food's own name where no word of it tells.
func animal(f food.Food) string {
	for w := range strings.FieldsSeq(f.Said()) {
		if one, ok := food.Find(w); ok && one.Class.Kind.Raw() && one.Class.Group == f.Class.Group {
			return words.Singular(w)
		}
	}
	return f.Name
}
