// Package measure does a careful cook's arithmetic: it reads quantities,
// temperatures and durations as people write them, converts and adds them
// exactly, and writes them so that they can be weighed, spooned and read.
//
// Start at [Parse] and [Quantity]. Amounts are rational numbers, because a
// decimal cannot hold a third of a cup; nothing is rounded until somebody asks
// with [Quantity.Round]. The units are rows of units.csv, each with its
// definition and source. Volume becomes weight only through a [Density], and
// then with the spread that cooks' cups have: see [Weigh]. Which food has which
// density, and what of it is thrown away, package food knows.
//
// What cannot be an amount is refused with an [Error], whose sentence says
// what to write instead.
package measure

import "fmt"

// Error is a refusal that a person can act on.
type Error struct {
	Text string // what was read
	Why  string // what is wrong with it
	Try  string // what to write instead
}

// Error is the refusal as one sentence.
func (e *Error) Error() string {
	if e.Try == "" {
		return fmt.Sprintf("%.60q: %s", e.Text, e.Why)
	}
	return fmt.Sprintf("%.60q: %s; %s", e.Text, e.Why, e.Try)
}
