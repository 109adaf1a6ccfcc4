// Package cooling says how cooked food goes into the cold, as a kitchen does it: portioned shallow, sliced, taken apart
// or set in cold water for a while, and then into the refrigerator. Nobody has to ask for it.
//
// [Of] finds every step of a dish whose food is hot and goes cold next: a step, a wait or service in the refrigerator
// or the freezer comes after it. What the food is as far as heat goes (whole.go, body.go) hangs on the ingredients that
// came into it, on what was done to them and on the vessel; no word of the step keeps it from being found. [Best]
// chooses the way that the careful estimate of package safety likes best (way.go), unless the host has said which; a
// way that is past what is published is [Refused]. The sentences stand in say.go.
//
// A panful for four is portioned as part of its own step; of more, of whole birds and of heavy joints package propose
// makes a chore of ten minutes at most, which begins when the heat ends. Whether food is cold in time is no matter of
// this package: the clocks of rule 2 are.
//
// Which classes of food are thick, thin or of a piece, which words cut it up, how much dry food swells, and how deep
// food stands in what, is in bodies.tsv, words.tsv, swell.tsv and vessels.tsv.
package cooling
