// Package scale takes a dish to the covers that it is made for, as a careful cook does: what goes into it ([Amounts]),
// how its steps are done then ([Work]), and which pans it fills ([Pans]).
//
// Most amounts grow in proportion. What comes in whole ones (eggs, tins) is made whole, with a proposal where that is
// far from the sum; strong spice, leavening and the fat in a frying pan grow less than in proportion, with a note. Salt
// does so too, but in doughs, brines, cures and pickles it stays in proportion. Which is which is told from the words
// of the dish ([planner.Dish.GrowthOf]) unless the host has said it. The rounds and vessels of a step are package
// planner's: [planner.Party.Fit].
//
// Start at amounts.go. The words are ours; that spice and leavening grow less is common practice, no source.
package scale
