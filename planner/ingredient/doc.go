// Package ingredient takes lines of ingredients apart: "2 x 400 g tins chopped tomatoes, drained" is two tins of 400 g
// each, of tomatoes, which are drained.
//
// Start at [ParseAs] in line.go: what stands before the amount is turned round or taken off, then come the amount and
// what is added to it (amount.go), the size and unit, how large each piece is (pieces.go), and of the rest the name
// with what is done to it and what is remarked (name.go). [Head] is the noun of a name. Several things in one line are
// told apart in run.go: [Run], [Several] and [Bare]. The words stand in words.tsv and words.go; the numbers are package
// measure's.
//
// A line that says nothing but words is read as well; only an amount that makes no sense is refused. How many lines of
// other people's recipes are read as they were labelled, TestIngredientLines says.
package ingredient
