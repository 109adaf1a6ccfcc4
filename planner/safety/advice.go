package safety

// Contact is a way in which an allergen gets from one dish into another in
// the same kitchen.
type Contact string

// The ways.
const (
	ByOil     Contact = "frying oil"
	ByMachine Contact = "machine" // blender, processor, mincer, slicer
	ByBoard   Contact = "board"   // and knife, utensil, hand
)

// ContactAdvice is what is published on one way: what to do, as we put it, and
// who says so. The copies that were read: plateproof.io (its quotations of
// food.gov.uk, June 2026), coventry.gov.uk.
func ContactAdvice(by Contact) (do, source string) {
	switch by {
	case ByOil:
		return "oil that has fried the one carries it into the other: fry in oil of its own",
			"Food Standards Agency, Allergen guidance for food businesses"
	case ByMachine:
		return "a machine is hard to get clean enough: use another one, or do without",
			"Coventry City Council, Controlling allergens in the kitchen"
	}
	return "wash boards, knives and hands before it, or do it first",
		"Food Standards Agency, Allergen guidance for food businesses"
}

// Row is a published limit by its row's name in limits.csv, for a table whose sentences quote it. There must be such a
// row.
func Row(id string) Limit { return limit(id) }
