// Package doing tells what an act of a recipe's method does to the food and where (by hand, in an oven, on a burner, in
// the cold), by its verb's row in package food's table and the places that its clause names, and how long that usually
// takes where nobody says. Start at [Act.Kind]; its words stand in words.tsv.
package doing

import (
	_ "embed"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/method"
	"tureen/planner/words"
)

//go:embed words.tsv
var table string

var lists = words.TableOf(table)

// hour is of minutes.
const hour = 60

// Kind is what an act does, as far as its equipment and attention go.
type Kind int

// The kinds.
const (
	ByHand Kind = iota
	Preheat
	InOven
	OnBurner   // somebody watches
	OverBurner // hands all the time
	OnGrill
	Standing // on the counter
	Chilling
	Freezing
	Serving
)

// Heats reports whether a kind of act warms the food.
func (k Kind) Heats() bool { return k == InOven || k == OnBurner || k == OverBurner || k == OnGrill }

// Waits reports whether a kind of act lets the food stand.
func (k Kind) Waits() bool { return k == Standing || k == Chilling || k == Freezing }

// Attention is what a kind of act asks of people.
func (k Kind) Attention() planner.Attention {
	switch k {
	case InOven, OnBurner:
		return planner.Watch
	case Standing, Chilling, Freezing:
		return planner.Unattended
	}
	return planner.Hands
}

// Where is where the food is meanwhile.
func (k Kind) Where() planner.State {
	switch {
	case k == Chilling:
		return planner.Refrigerator
	case k == Freezing:
		return planner.Freezer
	case k.Heats():
		return planner.Heat
	}
	return planner.Counter
}

// Place is where a kind of act is done as the table of verbs calls it; by hand all the time over a heat it is hands.
func (k Kind) Place() string {
	return map[Kind]string{InOven: "oven", OnBurner: "burner", OverBurner: "hands", OnGrill: "grill",
		Chilling: "refrigerator", Freezing: "freezer", Standing: "counter"}[k]
}

// Act is an act of the method with its clause, and what is known of the food that it goes on with.
type Act struct {
	method.Act
	Text     string     // its clause
	Row      *food.Verb // nil: it has no verb
	WasOven  bool       // what it goes on with is in an oven
	WasGrill bool       // or on a grill
	American bool
	Sets     func() bool // whether something in the recipe sets in the cold
}
