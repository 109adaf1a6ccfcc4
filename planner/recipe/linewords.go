package recipe

import (
	_ "embed"
	"strings"

	"tureen/planner/measure"
)

// The words that take an ingredient line apart. They are those of kitchens and shops, chosen by us from
// common practice, no source; none is there for the sake of one line.

//go:embed words.tsv
var wordTable string

// lists are the rows of words.tsv: the longer lists of words, by name.
var lists = func() map[string]map[string]bool {
	all := map[string]map[string]bool{}
	for _, row := range strings.Split(strings.TrimSpace(wordTable), "\n")[1:] {
		name, words, _ := strings.Cut(row, "\t")
		all[name] = set(words)
	}
	return all
}()

// listed is one of the lists; that there is none of a name is our mistake, and every start would meet it.
func listed(name string) map[string]bool {
	l, ok := lists[name]
	if !ok {
		panic("recipe: no list of words " + name)
	}
	return l
}

//go:embed phrases.tsv
var phraseTable string

// phrases is a row of phrases.tsv.
func phrases(name string) []string {
	for _, row := range strings.Split(strings.TrimSpace(phraseTable), "\n")[1:] {
		if list, all, _ := strings.Cut(row, "\t"); list == name {
			return strings.Split(all, "|")
		}
	}
	panic("recipe: no phrases " + name)
}

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

var (
	// sizeWords stand between a number and what it counts.
	sizeWords = listed("size words")

	// partWords are parts of a thing that is bought whole: the juice of a lemon.
	partWords = listed("part words")

	// aboutWords stand before a further amount.
	aboutWords = listed("about words")

	numeralWords = listed("numeral words")

	adverbs = listed("adverbs")

	participles = listed("participles")

	// adjectives may stand before a comma without having named anything.
	adjectives = listed("adjectives")

	// follows stand after a participle that ends a name.
	follows = listed("follows")

	// trailing units stand after what they count: garlic cloves.
	trailing = listed("trailing")

	// fillWords say how full a spoon or cup is.
	fillWords = set(`scant generous heaping heaped rounded level`)

	// packages are what a shop sells a weight in.
	packages = map[measure.Unit]bool{"tin": true, "can": true, "jar": true, "packet": true, "package": true, "pack": true,
		"envelope": true,
		"sachet":   true, "bottle": true, "box": true, "bag": true, "carton": true, "container": true, "tub": true,
		"pot":    true,
		"punnet": true, "block": true}

	// loose are the units that need no number.
	loose = map[measure.Unit]bool{"pinch": true, "dash": true, "smidgen": true, "handful": true, "splash": true,
		"drop": true, "grind": true, "squeeze": true,
		"drizzle": true, "knob": true, "piece": true, "sprig": true, "bunch": true, "shake": true, "twist": true,
		"sliver": true, "dollop": true, "squirt": true, "glug": true,
		"us-tsp": true, "us-tbsp": true, "metric-tsp": true, "metric-tbsp": true, "au-tbsp": true, "us-cup": true,
		"metric-cup": true, "slice": true, "wedge": true}
)

// nameStops end a name.
var nameStops = []string{", ", "; ", " - ", " – ", " — ", " to taste", " for ", " if ", " at room temperature",
	" preferably", " such as ", " like ",
	" as needed", " as required", " cut into ", " cut in ", " plus more", " plus extra", " plus additional", " (",
	" approximately", " reserved ",
	" see ", " optional", " about ", " to serve", " to garnish", " to finish", " to cover", " from ", " or more",
	" or to taste", " or less", " cut on "}

// keepNames begin a name that is bought so, whatever comes after them.
var keepNames = []string{"ground ", "freshly ground", "mixed ", "pressed "}
