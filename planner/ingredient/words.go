package ingredient

import (
	_ "embed"

	"tureen/planner/measure"
	"tureen/planner/words"
)

// The words that take an ingredient line apart. They are those of kitchens and shops, chosen by us from
// common practice, no source; none is there for the sake of one line.

//go:embed words.tsv
var wordTable string

var lists = words.TableOf(wordTable)

var (
	// sizeWords stand between a number and what it counts.
	sizeWords = lists.Set("size words")

	// partWords are parts of a thing that is bought whole: the juice of a lemon.
	partWords = lists.Set("part words")

	// aboutWords stand before a further amount.
	aboutWords = lists.Set("about words")

	numeralWords = lists.Set("numeral words")

	adverbs = lists.Set("adverbs")

	participles = lists.Set("participles")

	// adjectives may stand before a comma without having named anything.
	adjectives = lists.Set("adjectives")

	// follows stand after a participle that ends a name.
	follows = lists.Set("follows")

	// trailing units stand after what they count: garlic cloves.
	trailing = lists.Set("trailing")

	// fillWords say how full a spoon or cup is.
	fillWords = words.Set(`scant generous heaping heaped rounded level`)

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

func Adverb(word string) bool { return adverbs[word] }
