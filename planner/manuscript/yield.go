package manuscript

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner/words"
)

// Yield is for how many something says that it is.
type Yield struct {
	Serves        int    // covers; 0: it does not say, but how much comes of it
	Said          string // in its words
	Before, After string // what stands round it
}

// The words that tell a yield. Common practice, no source.
var (
	servesLeads = words.Set("serves serving servings feeds portions portion covers helpings sufficient enough dinner " +
		"did fed srv srvs svs serv " +
		"supper lunch")
	makesLeads = words.Set("makes yields yield cuts slices divides gives quantity")
	fillers    = words.Set("about approximately approx roughly around up to a generous generously easily at least " +
		"into for the recipe it this which some nearly comfortably size")
	people = words.Set("people person persons servings serving portions portion covers guests guest helpings " +
		"helping diners eaters adults mouths")
	oneEach   = words.Set("plates bowls glasses ramekins pots wedges slices cups")
	perHead   = words.Set("generous large small hearty good big hungry main course main-course starter light hefty")
	timeWords = words.Set("min mins minute minutes h hr hrs hour hours day days week weeks month months sec second " +
		"seconds")
)

// Numbers are the numbers in words that a yield has.
var Numbers = map[string]int{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "sixteen": 16, "twenty": 20}

// YieldIn is the first thing that a text says of for how many it is: "Serves 4 to 6", "for eight of us", "6 helpings",
// "24 pieces for 8 people", "Cuts into 16". Of a range the lower is taken: nobody goes hungry.
func YieldIn(text string) (Yield, bool) {
	if len(text) > mostOfYield {
		text = strings.ToValidUTF8(text[:mostOfYield], "")
	}
	said := strings.Fields(strings.NewReplacer("–", "-", "—", "-", "~", "-", ", ", " | ", ")", " | ").Replace(text))
	joined := func(w []string) string {
		return strings.Trim(strings.ReplaceAll(strings.Join(w, " "), " | ", ", "), " .,;:()[-|")
	}
	low := make([]string, len(said))
	for i := range said {
		low[i] = strings.Trim(words.Small(said[i]), ".,;:!?()[]*")
	}
	for i := range low {
		serves, end := yieldAt(low, i)
		if end == 0 {
			continue
		}
		y := Yield{Serves: serves, Said: joined(said[i:end]), After: joined(said[end:])}
		if i > 1 || i == 1 && !fillers[low[0]] {
			y.Before = joined(said[:i])
		}
		return y, true
	}
	return Yield{}, false
}

// mostOfYield is in how much of a text a yield is looked for, in bytes.
const mostOfYield = 1000

// yieldAt reads a yield that begins with the i-th word, up to the end-th; end 0: none does.
func yieldAt(w []string, i int) (serves, end int) {
	lead, at := w[i], i+1
	forLead := lead == "for" || lead == "x" || lead == "×"
	switch {
	case servesLeads[lead], makesLeads[lead], forLead, lead == "does":
		for at < len(w) && (fillers[w[at]] && (lead != "for" || w[at] != "the") || w[at] == "") {
			at++
		}
	default:
		lead, at = "", i
	}
	n, at := numberAt(w, at)
	for at < len(w) && perHead[w[at]] {
		at++
	}
	rest := append(slices.Clone(w[at:]), "", "") // what stands behind the number
	unit := rest[0]
	ours := unit == "of" && us[rest[1]]
	heads, each := people[unit] || ours, oneEach[unit]
	end = at
	if heads || each {
		end++
	}
	if ours {
		end++
	}
	switch {
	case n == 0 || timeWords[unit] || n > 500:
	case servesLeads[lead], heads, (forLead || lead == "does") && atEnd[unit],
		each && (end == len(w) || atEnd[w[end]] || makesLeads[lead]):
		return n, end
	case makesLeads[lead]:
		if n, end := forMany(w, at, len(w)); end > 0 {
			return n, end
		}
		return 0, len(w)
	case lead == "" && i == 0:
		return forMany(w, at, at+4)
	}
	return 0, 0
}

var us, atEnd = words.Set("us you them"), map[string]bool{"": true, "-": true, "|": true}

// forMany is "for 8 people" behind "24 pieces", from the i-th word on; end 0: there is none.
func forMany(w []string, i, to int) (serves, end int) {
	for k := i; k < min(len(w), to); k++ {
		if w[k] != "for" && !servesLeads[w[k]] {
			continue
		}
		if n, end := yieldAt(w, k); n > 0 {
			return n, end
		}
	}
	return 0, 0
}

// numberAt reads a number, or the lower end of a range, at the i-th word, and says where it ends.
func numberAt(w []string, i int) (n, end int) {
	if i >= len(w) {
		return 0, i
	}
	first, rest, _ := strings.Cut(w[i], "-")
	if n = Numbers[first]; n == 0 {
		v, err := strconv.Atoi(first)
		if err != nil || v <= 0 || len(first) > 3 {
			return 0, i
		}
		n = v
	}
	if rest != "" && Numbers[rest] == 0 && strings.Trim(rest, "0123456789") != "" {
		return 0, i
	}
	if end = i + 1; end+1 < len(w) && (w[end] == "-" || w[end] == "to" || w[end] == "or") {
		if m, after := numberAt(w, end+1); m > n {
			return n, after
		}
	}
	return n, end
}
