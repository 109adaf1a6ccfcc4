package portion

import (
	"slices"
	"strings"

	"tureen/planner/measure"
)

// Words that tell what a food is. They are ours; a food that none of them names has no kind, and nothing is said of it.
var (
	meatWords    = words("beef pork lamb mutton veal venison goat rabbit boar")
	poultryWords = words("chicken turkey duck goose guinea-fowl")
	fishWords    = words("fish salmon cod haddock halibut hake trout bream bass sole plaice turbot monkfish pollock tuna mackerel sardine swordfish")
	boneWords    = words("bone bone-in rack rib shoulder shank chop cutlet leg knuckle neck oxtail")
	vegWords     = words(`carrot bean broccoli cauliflower cabbage kale chard spinach courgette zucchini aubergine eggplant pumpkin squash celeriac
		parsnip turnip beetroot leek asparagus pea sprout mushroom pepper fennel`)
	leafWords = words("lettuce leaf rocket arugula watercress chicory endive mesclun")

	// Made from a food, or of it only a seasoning: no portion.
	notFood = words(`stock broth bouillon cube fat dripping lard sauce powder paste puree extract oil vinegar flake seed salt bacon ham prosciutto
		chorizo salami sausage pâté gelatin roe bone-broth anchovy crumb crumbs starch flour noodle wine water bay black white-pepper cayenne peppercorn`)
)

func words(list string) []string { return strings.Fields(list) }

// Words are the words of a food's name, as [measure.Words] has them.
func Words(name string) []string { return measure.Words(name) }

// KindOf tells from an ingredient's words which kind it is and which food: "pork", "potatoes", "green beans"; ok is false when
// they do not tell.
func KindOf(ingredient string) (kind Kind, food string, ok bool) {
	ws := Words(ingredient)
	has := func(list ...string) bool {
		return slices.ContainsFunc(ws, func(w string) bool { return slices.Contains(list, w) })
	}
	first := func(list []string) string {
		i := slices.IndexFunc(ws, func(w string) bool { return slices.Contains(list, w) })
		if i < 0 {
			return ""
		}
		return ws[i]
	}
	if has(notFood...) {
		return "", "", false
	}
	if food = first(meatWords); food != "" {
		switch {
		case has("minced", "ground", "mince"):
			return GroundMeat, food, true
		case has("stewing", "stew", "braising", "diced", "cubed"):
			return StewMeat, food, true
		case has(boneWords...) && !has("boneless"):
			return MeatOnBone, food, true
		}
		return Meat, food, true
	}
	if food = first(poultryWords); food != "" {
		if has("boneless", "breast", "fillet") && !has("bone-in") {
			return Poultry, food, food == "chicken" || food == "turkey"
		}
		return PoultryOnBone, food, food == "chicken" || food == "turkey"
	}
	if food = first(fishWords); food != "" {
		switch {
		case has("smoked", "tin", "tinned", "canned", "cured"):
			return "", "", false
		case has("whole"):
			return WholeFish, food, true
		}
		return Fish, food, true
	}
	switch {
	case has("mussel"):
		return Mussels, "mussels", true
	case has("potato") && !has("sweet"):
		return Potatoes, "potatoes", true
	case has("rice"):
		return Rice, "rice", true
	case has("pasta", "spaghetti", "penne", "tagliatelle", "rigatoni", "linguine", "fusilli"):
		return Pasta, "pasta", true
	case has(leafWords...) && !has("mint", "basil", "coriander", "lime", "curry", "sage"):
		return Leaves, "leaves", true
	case has("bean") && has("dried", "dry"):
		return Beans, "dried beans", true
	}
	if food = first(vegWords); food != "" && !has("dried", "tin", "tinned", "white", "red", "chickpea") {
		food, _, _ = strings.Cut(strings.ToLower(ingredient), ",")
		return Vegetables, strings.Join(strings.Fields(food), " "), true
	}
	return "", "", false
}
