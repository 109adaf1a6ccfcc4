package safety

import (
	"fmt"
	"strings"

	"tureen/planner/food"
)

// Kind says what a food is to the limits: the state that it is in, and not the dish. Which food is of which kind is
// told by package food; here stands what is published for a kind.
//
// The zero value means that nobody has said; it is treated like Cooked, the strict way to be wrong. Food that needs no
// limit is None, and says so.
type Kind = food.Kind

// The kinds of food that the published limits tell apart, as package food has them.
const (
	None          = food.None
	Poultry       = food.Poultry
	GroundMeat    = food.GroundMeat
	RedMeat       = food.RedMeat
	Game          = food.Game
	Offal         = food.Offal
	Fish          = food.Fish
	SmokedFish    = food.SmokedFish
	Shellfish     = food.Shellfish
	LiveShellfish = food.LiveShellfish
	Bivalves      = food.Bivalves
	Eggs          = food.Eggs
	RawEgg        = food.RawEgg
	EggDish       = food.EggDish
	Cooked        = food.Cooked
	Soup          = food.Soup
	Rice          = food.Rice
	Pasta         = food.Pasta
	Pate          = food.Pate
	Salad         = food.Salad
	Custard       = food.Custard
	WhippedCream  = food.WhippedCream
	CutProduce    = food.CutProduce
	Sprouts       = food.Sprouts
	GarlicOil     = food.GarlicOil
	CuredMeat     = food.CuredMeat
)

// Kinds lists every kind in the order of the table, None first.
func Kinds() []Kind { return food.Kinds() }

// limitsOf is the table's row of a kind; a kind that nobody has said, or that the table does not know, is treated as
// cooked food.
func limitsOf(k Kind) kindRow {
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
