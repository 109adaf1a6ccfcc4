package trace

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/words"
)

// said is what the words of a step tell, by role: which were found, and which of them as what is to be done.
type said struct {
	any map[role]bool // found anywhere: "until pink", "the roast chicken"
	do  map[role]bool // found where an order stands: "Roast the chicken"
}

// What texts and ingredients were read as; nobody may change it.
var (
	texts       words.Memo[string, said]
	foods       words.Memo[string, []food.Food]
	spelt       words.Memo[string, []string]
	degrees     words.Memo[string, []float64]
	ingredients words.Memo[planner.Ingredient, []Part]
)

// read finds the roles of a text's words, the longest phrases first.
func read(text string) said { return texts.Of(text, readWords) }

// named are the foods that a text names.
func named(text string) []food.Food { return foods.Of(text, food.All) }

// wordsOf are a text's words.
func wordsOf(text string) []string { return spelt.Of(text, food.Words) }

func readWords(text string) said {
	out := said{map[role]bool{}, map[role]bool{}}
	tokens := food.Words(text)
	var names [][]string // "barbecue sauce" orders no barbecue
	for _, f := range named(text) {
		if n := food.Words(f.Said()); len(n) > 1 && f.Class.Name != "water" {
			names = append(names, n)
		}
	}
	for i := 0; i < len(tokens); {
		if k := slices.IndexFunc(names, func(n []string) bool {
			return i+len(n) <= len(tokens) && slices.Equal(tokens[i:i+len(n)], n)
		}); k >= 0 && !ordered(tokens, i) {
			i += len(names[k])
			continue
		}
		length := 1
		for _, p := range data().phrases[tokens[i]] {
			if len(p.words) < length || i+len(p.words) > len(tokens) ||
				!slices.Equal(tokens[i:i+len(p.words)], p.words) {
				continue
			}
			length = len(p.words)
			out.any[p.role] = true
			if ordered(tokens, i) || len(p.words) > 1 {
				out.do[p.role] = true
			}
		}
		i += length
	}
	return out
}

// before an order stand the beginning, a comma, or one of these.
var before = strings.Fields("| and then or to hard gently lightly briefly quickly well next now")

// ordered says whether a verb at a place is an order: the "roast" of "slice the roast beef" is none.
func ordered(tokens []string, i int) bool {
	return i == 0 || slices.Contains(before, tokens[i-1]) || strings.HasSuffix(tokens[i-1], "ly")
}

// TakesOut says whether a step's words take food out of the cold.
func TakesOut(do string) bool { return read(do).any[leaving] }

// PlaceIn is where food is during a step by its words: "chill overnight" is in the refrigerator. It is empty where they
// name no place, or more than one.
func PlaceIn(do string) planner.State {
	said := read(do)
	if said.any[leaving] {
		return ""
	}
	var at planner.State
	for _, p := range []struct {
		role  role
		state planner.State
	}{{refrigerator, planner.Refrigerator}, {freezer, planner.Freezer}, {counter, planner.Counter}} {
		if !said.do[p.role] {
			continue
		}
		if at != "" {
			return ""
		}
		at = p.state
	}
	return at
}

// StandsIn is [PlaceIn] of a step whose words order no heat: a pot that is left on the hob is on the counter.
func StandsIn(do string) planner.State {
	said := read(do)
	if said.do[through] || said.do[inPart] || said.do[warms] {
		return ""
	}
	return PlaceIn(do)
}
