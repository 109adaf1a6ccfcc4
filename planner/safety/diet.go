package safety

import (
	"fmt"
	"strings"
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
	Vulnerable  Diet = "vulnerable" // older guests, or with a weak immune system: as in pregnancy
	Infant      Diet = "infant"     // under one year
)

// avoided is one thing that a diet avoids. May lowers a sure word to "check".
type avoided struct {
	tag  tag
	may  bool
	note string // in place of the word's own, "" to keep that

	source string // likewise
}

const (
	slaughter = "only from animals slaughtered as prescribed: ask for the certificate"
	fining    = "some are fined with fish, egg or gelatine: check the label"
)

var dietRules = []struct {
	diet   Diet
	avoids []avoided
}{
	{Vegetarian, []avoided{{tag: tagMeat}, {tag: tagPork}, {tag: tag(AllergenFish)}, {tag: tag(AllergenCrustaceans)}, {tag: tag(AllergenMolluscs)}, {tag: tagGelatine}, {tag: tagBlood}, {tag: tagInsect}, {tag: tagRennet, may: true}}},
	{Vegan, []avoided{{tag: tagMeat}, {tag: tagPork}, {tag: tag(AllergenFish)}, {tag: tag(AllergenCrustaceans)}, {tag: tag(AllergenMolluscs)}, {tag: tagGelatine}, {tag: tagBlood}, {tag: tagInsect}, {tag: tag(AllergenMilk)}, {tag: tag(AllergenEgg)}, {tag: tagHoney}, {tag: tagFined, may: true, note: fining}}},
	{Pescatarian, []avoided{{tag: tagMeat}, {tag: tagPork}, {tag: tagGelatine, may: true}, {tag: tagBlood}}},
	{GlutenFree, []avoided{{tag: tag(AllergenGluten)}, {tag: tag(AllergenWheat)}}},
	{DairyFree, []avoided{{tag: tag(AllergenMilk)}}},
	{EggFree, []avoided{{tag: tag(AllergenEgg)}}},
	{NutFree, []avoided{{tag: tag(AllergenNuts)}, {tag: tag(AllergenPeanut)}}},
	{PorkFree, []avoided{{tag: tagPork}, {tag: tagGelatine, may: true}}},
	{AlcoholFree, []avoided{{tag: tagAlcohol}}},
	{Halal, []avoided{{tag: tagPork}, {tag: tagAlcohol}, {tag: tagBlood}, {tag: tagGelatine, may: true, note: "halal or fish gelatine only: check the label"}, {tag: tagMeat, may: true, note: slaughter}, {tag: tagRennet, may: true, note: "views differ on animal rennet: ask"}, {tag: tagVinegar, may: true}}},
	{Kosher, []avoided{{tag: tagPork}, {tag: tag(AllergenCrustaceans)}, {tag: tag(AllergenMolluscs)}, {tag: tagScales}, {tag: tagBlood}, {tag: tagGelatine, may: true, note: "kosher or fish gelatine only: check the label"}, {tag: tagMeat, may: true, note: slaughter + "; not with milk in one meal"}, {tag: tagRennet, may: true, note: "only certified cheese where that is kept: ask"}, {tag: tagFined, may: true, note: "kosher wine where that is kept: ask"}}},
	{Pregnant, []avoided{{tag: tagPregnant}, {tag: tagExpecting}, {tag: tagAlcohol}}},
	{Vulnerable, []avoided{{tag: tagPregnant}}},
	{Infant, []avoided{{tag: tagInfant}, {tag: tagHoney, note: "no honey", source: "CDC"}, {tag: tagPregnant}, {tag: tagAlcohol}}},
}

// Diets lists the diets that [Against] knows.
func Diets() []Diet {
	diets := make([]Diet, len(dietRules))
	for i, r := range dietRules {
		diets[i] = r.diet
	}
	return diets
}

// ForCare reports whether a diet is published advice for people who fall ill
// easily (in pregnancy, old or with a weak immune system, under one year) and
// not a choice of what to eat.
func (d Diet) ForCare() bool { _, ok := forWhom[d]; return ok }

// Conflict is a word of an ingredient that a diet avoids, or may avoid.
type Conflict struct {
	Diet      Diet
	Certainty Certainty
	Word      string
	Note      string
	Source    string // who publishes the advice, where it is advice; see [Diet.ForCare]
}

// forWhom is how a sentence names those who avoid, where the diet's own name
// does not describe the food.
var forWhom = map[Diet]string{Pregnant: "in pregnancy", Vulnerable: "for vulnerable guests", Infant: "for infants"}

// String is the conflict as a person reads it: "not vegan (butter)", "perhaps
// not in pregnancy (brie): …".
func (c Conflict) String() string {
	name, ok := forWhom[c.Diet]
	if !ok {
		name = string(c.Diet)
	}
	s := fmt.Sprintf("not %s (%s)", name, c.Word)
	if c.Certainty == MayContain {
		s = "perhaps " + s
	}
	if c.Note != "" {
		s += ": " + c.Note
	}
	if c.Source != "" {
		s += " (" + c.Source + ")"
	}
	return s
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
				if t.tag != a.tag {
					continue
				}
				c := t.certainty
				if a.may {
					c = MayContain
				}
				if c != want || seen[t.word] || a.may && certified && a.tag != tagVinegar {
					continue
				}
				seen[t.word] = true
				note := t.note
				if a.note != "" {
					note = a.note
				}
				conflict := Conflict{Diet: diet, Certainty: c, Word: t.word, Note: note}
				if diet.ForCare() && t.tag != tagAlcohol {
					conflict.Source = t.source
					if a.source != "" {
						conflict.Source = a.source
					}
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
	"veggie": Vegetarian, "no meat": Vegetarian, "plant based": Vegan, "pescetarian": Pescatarian, "coeliac": GlutenFree, "celiac": GlutenFree,
	"no gluten": GlutenFree, "no dairy": DairyFree, "lactose free": DairyFree, "no egg": EggFree, "no nut": NutFree, "no pork": PorkFree,
	"no alcohol": AlcoholFree, "teetotal": AlcoholFree, "kosher style": Kosher, "pregnancy": Pregnant, "baby": Infant,
	"expecting": Pregnant, "under one": Infant, "under 1": Infant, "newborn": Infant,
	"immunocompromised": Vulnerable, "immunosuppressed": Vulnerable, "frail": Vulnerable, "elderly": Vulnerable, "old": Vulnerable, "older": Vulnerable, "immune": Vulnerable, "weak immune system": Vulnerable,
}

// ParseDiet reads a diet as a guest names it. The error lists the diets.
func ParseDiet(text string) (Diet, error) {
	said := strings.Join(tokensOf(text), " ")
	if d, ok := saidDiets[said]; ok {
		return d, nil
	}
	names := make([]string, 0, len(dietRules))
	for _, d := range Diets() {
		if said == strings.Join(tokensOf(string(d)), " ") {
			return d, nil
		}
		names = append(names, string(d))
	}
	return "", fmt.Errorf("%.40q is no diet that I know; use one of %s", text, strings.Join(names, ", "))
}
