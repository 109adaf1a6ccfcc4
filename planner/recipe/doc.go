// Package recipe reads recipes as people write them: an ingredient line, a pasted text, a page's
// schema.org data, or one line for the impatient.
//
// Start at [ParseLine] for a line of ingredients, which takes amount, unit, name, preparation and notes apart
// with package measure's arithmetic.
//
// The package is pure: it knows no chat, store, clock or network. What it cannot read it refuses with a sentence
// that a person can act on, and what it is unsure of it asks; it makes nothing up in silence.
package recipe
