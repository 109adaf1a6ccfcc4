package safety

import (
	"fmt"
	"strings"

	"tureen/planner/food"
)

// AllergenCaution goes with every answer about allergens and diets.
const AllergenCaution = "Words tell only so much: the label and the guest decide. " +
	"Ask about traces, and keep boards, pans and frying oil apart."

// AllergenCautionInShort is the same where the whole of it has been said of the party that day.
const AllergenCautionInShort = "Words tell only so much: the label and the guest decide; ask about traces."

// Allergen is one of the allergens that law lists: the fourteen of the EU
// (Regulation 1169/2011, Annex II), and wheat, which the US lists alone
// (FALCPA 2004, FASTER Act 2021) and the EU within gluten.
type Allergen = food.Tag

// The allergens.
const (
	AllergenGluten      Allergen = "gluten"
	AllergenWheat       Allergen = "wheat"
	AllergenCrustaceans Allergen = "crustaceans"
	AllergenEgg         Allergen = "egg"
	AllergenFish        Allergen = "fish"
	AllergenPeanut      Allergen = "peanut"
	AllergenSoy         Allergen = "soy"
	AllergenMilk        Allergen = "milk"
	AllergenNuts        Allergen = "nuts"
	AllergenCelery      Allergen = "celery"
	AllergenMustard     Allergen = "mustard"
	AllergenSesame      Allergen = "sesame"
	AllergenSulphites   Allergen = "sulphites"
	AllergenLupin       Allergen = "lupin"
	AllergenMolluscs    Allergen = "molluscs"
)

var allAllergens = []Allergen{
	AllergenGluten, AllergenWheat, AllergenCrustaceans, AllergenEgg, AllergenFish, AllergenPeanut, AllergenSoy,
	AllergenMilk,
	AllergenNuts, AllergenCelery, AllergenMustard, AllergenSesame, AllergenSulphites, AllergenLupin, AllergenMolluscs,
}

// Finding is one allergen that a word of an ingredient points to.
type Finding struct {
	Allergen  Allergen
	Certainty Certainty
	Word      string // the word that tells
	Note      string // what to check, "" for nothing
}

// String is the finding as a person reads it: "contains milk (butter)".
func (f Finding) String() string {
	s := fmt.Sprintf("%s %s (%s)", f.Certainty, f.Allergen, f.Word)
	if f.Note != "" {
		s += ": " + f.Note
	}
	return s
}

// Allergens finds the allergens that an ingredient's words point to, each
// once with its surest word, in the order of the EU's list. None found means
// free as far as the words tell; see [AllergenCaution].
func Allergens(ingredient string) []Finding {
	best := map[Allergen]Finding{}
	for _, t := range tell(ingredient) {
		a := t.Tag
		if old, ok := best[a]; ok && (old.Certainty == Contains || t.Certainty == MayContain) {
			continue
		}
		best[a] = Finding{a, t.Certainty, t.Word, t.Note}
	}
	var found []Finding
	for _, a := range allAllergens {
		if f, ok := best[a]; ok {
			found = append(found, f)
		}
	}
	return found
}

// Words for allergens as guests say them, beside the names themselves.
var saidAllergens = map[string][]Allergen{
	"coeliac": {AllergenGluten}, "celiac": {AllergenGluten},
	"crustacean": {AllergenCrustaceans}, "prawn": {AllergenCrustaceans}, "shrimp": {AllergenCrustaceans},
	"crab": {AllergenCrustaceans}, "lobster": {AllergenCrustaceans},
	"shellfish": {AllergenCrustaceans, AllergenMolluscs}, "seafood": {AllergenFish, AllergenCrustaceans, AllergenMolluscs},
	"mollusc": {AllergenMolluscs}, "mollusk": {AllergenMolluscs}, "mussel": {AllergenMolluscs},
	"oyster":    {AllergenMolluscs},
	"groundnut": {AllergenPeanut}, "soya": {AllergenSoy}, "dairy": {AllergenMilk}, "lactose": {AllergenMilk},
	"nut": {AllergenNuts, AllergenPeanut}, "tree nut": {AllergenNuts}, "treenut": {AllergenNuts},
	"hazelnut": {AllergenNuts}, "walnut": {AllergenNuts}, "almond": {AllergenNuts}, "cashew": {AllergenNuts},
	"pistachio": {AllergenNuts},
	"sulphite":  {AllergenSulphites}, "sulfite": {AllergenSulphites}, "lupine": {AllergenLupin},
	"celeriac": {AllergenCelery},
}

// ParseAllergen reads an allergy as a guest names it; "nuts" are tree nuts and
// peanuts, "shellfish" are crustaceans and molluscs. The error lists what can
// be said; any other word can still be looked for with [Mentions].
func ParseAllergen(text string) ([]Allergen, error) {
	said := folded(strings.ReplaceAll(strings.ToLower(text), "allergy", ""))
	if known, ok := saidAllergens[said]; ok {
		return append([]Allergen(nil), known...), nil
	}
	names := make([]string, len(allAllergens))
	for i, a := range allAllergens {
		if names[i] = string(a); said == folded(string(a)) {
			return []Allergen{a}, nil
		}
	}
	return nil, fmt.Errorf("%.40q is no allergen that I know by law; use one of %s, shellfish or seafood", text,
		strings.Join(names, ", "))
}

// AllergenIn reports the surest finding of any of the allergens in the
// ingredient; ok is false when its words tell of none.
func AllergenIn(ingredient string, allergens ...Allergen) (f Finding, ok bool) {
	for _, found := range Allergens(ingredient) {
		for _, a := range allergens {
			if found.Allergen == a && (!ok || f.Certainty == MayContain && found.Certainty == Contains) {
				f, ok = found, true
			}
		}
	}
	return f, ok
}

// Mentions reports whether the ingredient names the word itself (strawberry in
// "Strawberries, halved"): for what a guest avoids that no law lists.
func Mentions(ingredient, word string) bool {
	want := food.Words(word)
	have := food.Words(ingredient)
	if len(want) == 0 {
		return false
	}
	for i := range have {
		if i+len(want) > len(have) {
			return false
		}
		same := true
		for k := range want {
			same = same && have[i+k] == want[k]
		}
		if same {
			return true
		}
	}
	return false
}
