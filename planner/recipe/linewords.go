package recipe

import (
	"strings"

	"tureen/planner/measure"
)

// The words that take an ingredient line apart. They are those of kitchens and shops, chosen by us from
// common practice, no source; none is there for the sake of one line.

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

var (
	// sizeWords stand between a number and what it counts.
	sizeWords = set(`small medium large big tiny jumbo extra-large extra-small medium-size medium-sized medium-large medium-small
		large-size large-sized small-size small-sized good-size good-sized bite-size bite-sized thin thick heaping heaped scant rounded level generous healthy
		good very hefty fat little mini extra inch-long inch-thick scanty overflowing`)

	// partWords are parts of a thing that is bought whole: the juice of a lemon.
	partWords = set(`juice zest rind peel pulp seeds seed leaves flesh kernels whites yolks white yolk grated skin ` +
		`strips strip segments heart hearts pieces meat`)

	// aboutWords stand before a further amount.
	aboutWords = set(`about approximately approx around roughly circa ca scant from to make yield makes yields makes enough at least total weighing each
		or of for in nearly almost generous just over under equivalent equals equal heaping heaped`)

	numeralWords = set(`one two three four five six seven eight nine ten eleven twelve fifteen sixteen twenty`)

	adverbs = set(`finely coarsely thinly thickly roughly lightly freshly very well loosely firmly tightly gently carefully thoroughly
		partially partly slightly quickly diagonally lengthwise crosswise fine thin not evenly neatly just barely freshly-ground newly`)

	participles = set(`chopped minced sliced diced grated shredded peeled crushed crumbled melted toasted pitted sifted beaten softened cubed
		julienned mashed halved quartered seeded deseeded cored trimmed rinsed drained boned skinned packed squeezed torn snipped slivered
		blanched shelled deveined washed thawed defrosted steamed cut cleaned scrubbed soaked separated split pounded pureed puréed
		whisked whipped chilled cooled warmed crumbed shaved flaked flattened stemmed hulled husked zested juiced cooked dissolved
		butterflied tied scraped stoned strained reserved discarded removed unpeeled patted broken picked reconstituted bruised smashed
		scalded chiffonade sieved scored spiralized spiralised destemmed ground mixed divided stripped topped tailed wiped unshucked
		shucked bottled julienne prepared thick-sliced hard-boiled minced stacked shaken refrigerated warmed roasted heated sectioned pared plucked quartered
		cracked pressed clarified rehydrated zested finely-chopped grilled crisped browned simmered skewered stuffed deribbed frenched fileted filleted
		gutted scaled debearded matchsticked spun slit deseeded ribboned crimped rolled dredged`)

	// adjectives may stand before a comma without having named anything.
	adjectives = set(`light dark skinless boneless dry ripe fresh firm sweet tart hot cold thick thin fruity mild tender young plain good
		small large medium new live lean fatty red green yellow white black frozen dried smoked canned tinned whole raw crisp soft
		hard unsalted salted sour fine coarse crusty day-old free-range organic low-fat low-sodium unsweetened unpeeled unbleached bone-in
		skin-on heavy robust full-bodied aged stale flat-leaf extra extra-virgin virgin best-quality high-quality waxy floury starchy juicy plump pale golden long short`)

	// follows stand after a participle that ends a name.
	follows = set(`and or into in to with for at but crosswise lengthwise very on over if until diagonally thin fine ` +
		`thinly finely coarsely roughly off from through by then, and,`)

	// trailing units stand after what they count: garlic cloves.
	trailing = set(
		`clove cloves stalk stalks rib ribs sprig sprigs bulb bulbs head heads wedge wedges slice slices sheets`)

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
