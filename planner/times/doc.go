// Package times finds in the text of a recipe how long something takes and how hot it is.
//
// A length is read by a small grammar over words, numbers and marks (scan.go, length.go): a number, as figures or
// words, a unit, a second one ("1 h 20"), a range of those; idioms ("overnight", "a minute or two") stand in words.tsv.
// What stands round a length says what it is (around.go): another one, at most, so long before something, for a weight,
// on each side. Temperatures are found in heat.go: all three scales, words ("a slow oven"), and those of the food.
package times
