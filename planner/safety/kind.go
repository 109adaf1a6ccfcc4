package safety

import (
	"fmt"
	"strings"
)

// Kind says what a food is to the limits: the state that it is in, and not the
// dish. A raw chicken is Poultry, roasted it is Cooked.
//
// The zero value means that nobody has said; it is treated like Cooked, the
// strict way to be wrong. Food that needs no limit is None, and says so.
type Kind string

// The kinds of food that the published limits tell apart.
const (
	// None is food that keeps on the counter: bread, whole fruit, baked biscuits.
	None          Kind = "none"
	Poultry       Kind = "poultry"        // raw, whole or in pieces
	GroundMeat    Kind = "ground-meat"    // raw minced meat of any kind, raw sausage
	RedMeat       Kind = "red-meat"       // raw whole cuts
	Fish          Kind = "fish"           // raw
	Shellfish     Kind = "shellfish"      // raw
	LiveShellfish Kind = "live-shellfish" // live crab, lobster
	Eggs          Kind = "eggs"           // raw, in the shell
	RawEgg        Kind = "raw-egg"        // out of the shell, or a food with raw egg
	EggDish       Kind = "egg-dish"       // cooked
	Cooked        Kind = "cooked"         // cooked food and leftovers of any kind
	Soup          Kind = "soup"           // soup, stew, sauce, stock
	Rice          Kind = "rice"           // cooked
	Pasta         Kind = "pasta"          // cooked
	Pate          Kind = "pate"
	Salad         Kind = "salad" // mixed, with egg, meat, fish or mayonnaise
	Custard       Kind = "custard"
	WhippedCream  Kind = "whipped-cream"
	CutProduce    Kind = "cut-produce"
	GarlicOil     Kind = "garlic-oil"
	CuredMeat     Kind = "cured-meat" // opened or sliced
)

// Kinds lists every kind in the order of the table, None first.
func Kinds() []Kind {
	kinds := []Kind{None}
	for _, row := range tables().kinds {
		kinds = append(kinds, row.kind)
	}
	return kinds
}

// Label is what a person calls the kind: "raw poultry".
func (k Kind) Label() string {
	if k == None {
		return "food that keeps on the counter"
	}
	return k.row().label
}

// Perishable reports whether the published limits apply to the kind at all.
func (k Kind) Perishable() bool { return k != None }

// row returns the table's row of the kind; a kind that nobody has said, or that
// the table does not know, is treated as cooked food.
func (k Kind) row() kindRow {
	t := tables()
	if i, ok := t.kindIndex[k]; ok {
		return t.kinds[i]
	}
	return t.kinds[t.kindIndex[Cooked]]
}

// ParseKind reads the name of a kind as a person types it ("raw egg",
// "Ground Meat"). The error lists the names.
func ParseKind(text string) (Kind, error) {
	name := Kind(strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return r == ' ' || r == '-' || r == '_' || r == '\t'
	}), "-"))
	names := make([]string, 0, 24)
	for _, k := range Kinds() {
		if k == name {
			return k, nil
		}
		names = append(names, string(k))
	}
	return "", fmt.Errorf("%.40q is no kind of food that I know; use one of %s", text, strings.Join(names, ", "))
}
