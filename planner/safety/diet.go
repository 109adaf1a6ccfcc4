package safety

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tureen/planner/food"
)

// Diet is what a guest eats and does not, as far as words of ingredients can
// tell. It says nothing of how meat was slaughtered, of milk and meat in one
// meal, or of a kitchen's other food: the notes say so where it matters.
type Diet string

// The diets.
const (
	Vegetarian  Diet = "vegetarian"
	Vegan       Diet = "vegan"
	Pescatarian Diet = "pescatarian"
	GlutenFree  Diet = "gluten-free"
	DairyFree   Diet = "dairy-free"
	EggFree     Diet = "egg-free"
	NutFree     Diet = "nut-free"
	PorkFree    Diet = "pork-free"
	AlcoholFree Diet = "alcohol-free"
	Halal       Diet = "halal"
	Kosher      Diet = "kosher"
	Pregnant    Diet = "pregnant"
	Vulnerable  Diet = "vulnerable"  // older guests, or with a weak immune system: as in pregnancy
	Infant      Diet = "infant"      // under one year
	SmallChild  Diet = "small child" // under five years
)

// avoided is one thing that a diet avoids. May lowers a sure word to "check".
type avoided struct {
	tag   food.Tag
	may   bool
	about string // of the tag only these: see [food.Tell]
	but   string // and not these
	note  string // in place of the word's own, "" to keep that

	source string // likewise
}

const (
	slaughter = "only from animals slaughtered as prescribed: ask for the certificate"
	noDrink   = "CDC, About Alcohol Use During Pregnancy; UK NHS, Drinking alcohol while pregnant" // from memory
	// from memory
	noDrinkChild = "UK Chief Medical Officers, Guidance on the consumption of alcohol by children and young people (2009)"
	fining       = "some are fined with fish, egg or gelatine: check the label"
)

var dietRules = []struct {
	diet   Diet
	avoids []avoided
}{
	{Vegetarian, []avoided{{tag: food.Meat}, {tag: food.Pork}, {tag: AllergenFish}, {tag: AllergenCrustaceans},
		{tag: AllergenMolluscs}, {tag: food.Gelatine}, {tag: food.Blood}, {tag: food.Insect}, {tag: food.Rennet, may: true}}},
	{Vegan, []avoided{{tag: food.Meat}, {tag: food.Pork}, {tag: AllergenFish}, {tag: AllergenCrustaceans},
		{tag: AllergenMolluscs}, {tag: food.Gelatine}, {tag: food.Blood}, {tag: food.Insect}, {tag: AllergenMilk},
		{tag: AllergenEgg}, {tag: food.Honey}, {tag: food.Fined, may: true, note: fining}}},
	{Pescatarian, []avoided{{tag: food.Meat}, {tag: food.Pork}, {tag: food.Gelatine, may: true}, {tag: food.Blood}}},
	{GlutenFree, []avoided{{tag: AllergenGluten}, {tag: AllergenWheat}}},
	{DairyFree, []avoided{{tag: AllergenMilk}}},
	{EggFree, []avoided{{tag: AllergenEgg}}},
	{NutFree, []avoided{{tag: AllergenNuts}, {tag: AllergenPeanut}}},
	{PorkFree, []avoided{{tag: food.Pork}, {tag: food.Gelatine, may: true}}},
	{AlcoholFree, []avoided{{tag: food.Alcohol}}},
	{Halal, []avoided{{tag: food.Pork}, {tag: food.Alcohol}, {tag: food.Blood},
		{tag: food.Gelatine, may: true, note: "halal or fish gelatine only: check the label"},
		{tag: food.Meat, may: true, note: slaughter},
		{tag: food.Rennet, may: true, note: "views differ on animal rennet: ask"}, {tag: food.Vinegar, may: true}}},
	{Kosher, []avoided{{tag: food.Pork}, {tag: AllergenCrustaceans}, {tag: AllergenMolluscs}, {tag: food.Scales},
		{tag: food.Blood}, {tag: food.Gelatine, may: true, note: "kosher or fish gelatine only: check the label"},
		{tag: food.Meat, may: true, note: slaughter + "; not with milk in one meal"},
		{tag: food.Rennet, may: true, note: "only certified cheese where that is kept: ask"},
		{tag: food.Fined, may: true, note: "kosher wine where that is kept: ask"}}},
	{Pregnant, []avoided{{tag: food.Pregnant}, {tag: food.Expecting},
		{tag: food.Alcohol, but: "little", source: noDrink}}},
	{Vulnerable, []avoided{{tag: food.Pregnant}}},
	{Infant, []avoided{{tag: food.Infant}, {tag: food.Honey, note: "no honey", source: "CDC, Botulism Prevention"},
		{tag: food.Pregnant},
		{tag: food.Expecting, about: "mercury"},
		{tag: food.Alcohol, but: "little", note: "no alcohol", source: noDrinkChild}}},
	{SmallChild, []avoided{{tag: food.Infant, about: "choking nut rice-drink"}, {tag: food.Expecting, about: "mercury"},
		{tag: food.Pregnant, about: "raw raw-too egg runny unpasteurised mould-cheese flour mayonnaise"},
		{tag: food.Alcohol, but: "little", note: "no alcohol", source: noDrinkChild}}},
}

// forAllergens are the diets that are kept for what law lists.
var forAllergens = []Diet{GlutenFree, DairyFree, EggFree, NutFree}

// Diets lists the diets that [Against] knows.
func Diets() []Diet {
	diets := make([]Diet, len(dietRules))
	for i, r := range dietRules {
		diets[i] = r.diet
	}
	return diets
}

// IsAdvice reports whether a diet is published advice for people who fall ill
// easily (in pregnancy, old or with a weak immune system, under one year) and
// not a choice of what to eat.
func (d Diet) IsAdvice() bool { _, ok := forWhom[d]; return ok }

// Conflict is a word of an ingredient that a diet avoids, or may avoid.
type Conflict struct {
	Diet      Diet
	Certainty Certainty
	Word      string
	Note      string
	Unless    []string // what takes it away: see [food.Tell]
	Source    string   // who publishes the advice, where it is advice; see [Diet.IsAdvice]
}

// forWhom is how a sentence names those who avoid, where the diet's own name
// does not describe the food.
var forWhom = map[Diet]string{Pregnant: "in pregnancy", Vulnerable: "for vulnerable guests", Infant: "for infants",
	SmallChild: "for small children"}

// String is the conflict as a person reads it where nobody knows in which country.
func (c Conflict) String() string { return c.In(Elsewhere, "") }

// In is the conflict as a person reads it in a country: "not vegan (butter)", "perhaps not in pregnancy (brie): …". By
// is who publishes the advice in the UK, for what is said there alone.
func (c Conflict) In(country Country, by string) string {
	name, ok := forWhom[c.Diet]
	if !ok {
		name = string(c.Diet)
	}
	s := fmt.Sprintf("not %s (%s)", name, c.Word)
	if c.Certainty == MayContain {
		s = "perhaps " + s
	}
	if note := InCountry(c.Note, country); note != "" {
		s += ": " + note
	}
	if by != "" && country == UnitedKingdom && strings.Contains(c.Note, "[UK:") {
		s += " (" + by + ")"
	} else if c.Source != "" {
		s += " (" + c.Source + ")"
	}
	return s
}

// Unclear is what of an ingredient is not known well enough to call it free of what a guest with these diets and
// allergies avoids: see [food.Unclear]. Published advice is about what is known: a cake is nothing to it.
func Unclear(ingredient string, diets []Diet, allergens []Allergen) string {
	tags, choice := slices.Clone(allergens), len(allergens) > 0
	for _, r := range dietRules {
		if slices.Contains(diets, r.diet) {
			choice = choice || !r.diet.IsAdvice()
			for _, a := range r.avoids {
				tags = append(tags, a.tag)
			}
		}
	}
	words, mixed := food.Unclear(ingredient, tags...)
	if mixed && !choice {
		return ""
	}
	return words
}

// Against finds the words of an ingredient that stand against a diet, the sure
// ones first, each word once. None found means that nothing stands against it
// as far as the words tell. A diet that is not known has no answer but itself:
// ok is false.
func Against(diet Diet, ingredient string) (conflicts []Conflict, ok bool) {
	for _, r := range dietRules {
		if r.diet == diet {
			return conflictsOf(diet, r.avoids, ingredient), true
		}
	}
	return nil, false
}

func conflictsOf(diet Diet, avoids []avoided, ingredient string) []Conflict {
	certified := diet == Halal && Mentions(ingredient, "halal") || diet == Kosher && Mentions(ingredient, "kosher")
	var sure, perhaps []Conflict
	seen := map[string]bool{}
	// Sure words first, so that a word is not listed as a doubt beside it.
	for _, want := range []Certainty{Contains, MayContain} {
		for _, t := range tell(ingredient) {
			for _, a := range avoids {
				if t.Tag != a.tag || a.about != "" && !slices.Contains(strings.Fields(a.about), t.About) ||
					a.but != "" && a.but == t.About {
					continue
				}
				c := t.Certainty
				if a.may {
					c = MayContain
				}
				if c != want || seen[t.Word] || a.may && certified && a.tag != food.Vinegar {
					continue
				}
				seen[t.Word] = true
				note := t.Note
				if a.note != "" {
					note = a.note
				}
				conflict := Conflict{Diet: diet, Certainty: c, Word: t.Word, Note: note, Unless: t.Unless}
				if diet.IsAdvice() {
					conflict.Source = cmp.Or(a.source, t.Source.Text)
				} else if t.Certainty == Contains && !slices.Contains(forAllergens, diet) &&
					slices.Contains(allAllergens, t.Tag) {
					conflict.Note = a.note // what a list of allergens says of it is for who has the allergy
				}
				if c == Contains {
					sure = append(sure, conflict)
				} else {
					perhaps = append(perhaps, conflict)
				}
			}
		}
	}
	return append(sure, perhaps...)
}

// Words for diets as guests say them, beside the names themselves.
var saidDiets = map[string]Diet{
	"veggie": Vegetarian, "no meat": Vegetarian, "plant based": Vegan, "pescetarian": Pescatarian, "coeliac": GlutenFree,
	"celiac":    GlutenFree,
	"no gluten": GlutenFree, "no dairy": DairyFree, "lactose free": DairyFree, "no egg": EggFree, "no nut": NutFree,
	"no pork":    PorkFree,
	"no alcohol": AlcoholFree, "teetotal": AlcoholFree, "kosher style": Kosher, "pregnancy": Pregnant, "baby": Infant,
	"expecting": Pregnant, "under one": Infant, "under 1": Infant, "newborn": Infant,
	"immunocompromised": Vulnerable, "immunosuppressed": Vulnerable, "frail": Vulnerable, "elderly": Vulnerable,
	"child": SmallChild, "toddler": SmallChild, "young child": SmallChild, "under five": SmallChild, "under 5": SmallChild,
	"old": Vulnerable, "older": Vulnerable, "immune": Vulnerable, "weak immune system": Vulnerable,
}

// ParseDiet reads a diet as a guest names it. The error lists the diets.
func ParseDiet(text string) (Diet, error) {
	said := folded(text)
	if d, ok := saidDiets[said]; ok {
		return d, nil
	}
	names := make([]string, 0, len(dietRules))
	for _, d := range Diets() {
		if said == folded(string(d)) {
			return d, nil
		}
		names = append(names, string(d))
	}
	return "", fmt.Errorf("%.40q is no diet that I know; use one of %s", text, strings.Join(names, ", "))
}
