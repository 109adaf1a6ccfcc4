// Package recipe reads recipes as people write them: an ingredient line, a pasted text, a page's
// schema.org data, or one line for the impatient.
//
// Start at [Read], which makes a [Reading] of a text, and at [Reading.Dish], which makes a dish of that; what the
// reading is unsure of stands in its questions. [ParseLine] takes one line of ingredients apart,
// with the arithmetic of package measure.
//
// The package is pure: it knows no chat, store, clock or network. What it cannot read it refuses with a sentence
// that a person can act on, and what it is unsure of it asks; it makes nothing up in silence.
package recipe
