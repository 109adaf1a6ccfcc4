package safety

import (
	_ "embed"
	"sync"

	"tureen/planner/food"
)

// pairs.csv: what a diet does not have together, where each by itself would do.
//
//go:embed pairs.csv
var pairsCSV string

// Pair is two things that a diet does not have together.
type Pair struct {
	Diet          Diet
	First, Second food.Tag
	Certainty     Certainty
	Text, Source  string
}

var allPairs = sync.OnceValue(func() []Pair {
	var all []Pair
	for _, f := range records("pairs.csv", pairsCSV) {
		p := Pair{Diet(f["diet"]), food.Tag(f["first"]), food.Tag(f["second"]), Contains, f["text"], f["source"]}
		if f["certainty"] == "may" {
			p.Certainty = MayContain
		}
		all = append(all, p)
	}
	return all
})

// Pairs lists what a diet does not have together.
func Pairs(d Diet) []Pair {
	var out []Pair
	for _, p := range allPairs() {
		if p.Diet == d {
			out = append(out, p)
		}
	}
	return out
}

// Told is the surest that an ingredient tells of a tag, and the word that tells; empty where it tells nothing of it.
func Told(ingredient string, tag food.Tag) (c Certainty, word string) {
	for _, t := range tell(ingredient) {
		if t.Tag == tag && (c == "" || c == MayContain && t.Certainty == Contains) {
			c, word = t.Certainty, t.Word
		}
	}
	return c, word
}
