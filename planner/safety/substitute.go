package safety

import (
	_ "embed"
	"strings"
	"sync"

	"tureen/planner/food"
)

// substitutes.csv: what cooks take instead of an ingredient, the likeliest
// first, each with its source or "common practice, no source".
//
//go:embed substitutes.csv
var substitutesCSV string

// Substitute is something to take in place of an ingredient. Whether it suits
// the guest that it is meant for is not said: look it up like any ingredient.
type Substitute struct {
	For    string // the word of the ingredient that goes: "butter"
	Use    string // what comes instead: "olive oil"
	Note   string // how much, and what it is not for
	Source string // "common practice, no source" where that is so
	How    How

	words []string
}

var substitutesOnce = sync.OnceValue(func() []Substitute {
	var all []Substitute
	for _, f := range records("substitutes.csv", substitutesCSV) {
		all = append(all, Substitute{f["word"], f["use"], f["note"], f["source"], How(f["how"]), food.Words(f["word"])})
	}
	return all
})

// Substitutes lists what is known to stand in for an ingredient, by the word
// of it that was found ([Finding.Word], [Conflict.Word]): the rows of that
// very word, else those whose word it ends with ("double cream": cream). Nil
// means that none is known.
func Substitutes(found string) []Substitute {
	tokens := food.Words(found)
	var out []Substitute
	longest := 0
	for _, s := range substitutesOnce() {
		n := len(s.words)
		if n < longest || n > len(tokens) || strings.Join(tokens[len(tokens)-n:], " ") != strings.Join(s.words, " ") {
			continue
		}
		if n > longest {
			out, longest = nil, n
		}
		out = append(out, s)
	}
	return out
}
