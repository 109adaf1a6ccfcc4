package recipe

import (
	"strings"
	"unicode"

	"tureen/planner"
)

// action is what a clause of a method does.
type action int

const (
	byHand action = iota
	preheat
	inOven
	onBurner   // somebody watches
	overBurner // hands all the time
	onGrill
	standing // on the counter
	chilling
	freezing
	serving
)

// verbs are the words that begin an instruction, by what they do. Common practice, no source.
var verbs = func() map[string]action {
	m := map[string]action{}
	for _, row := range []struct {
		a     action
		words string
	}{
		{inOven, `bake roast braise`},
		{onBurner, `simmer boil poach bubble stew steam cook heat reheat warm reduce blanch parboil bring scald`},
		{overBurner, `fry sauté saute brown sear soften caramelise caramelize sweat stir-fry deep-fry shallow-fry char ` +
			`flip toast`},
		{onGrill, `grill barbecue broil griddle`},
		{standing, `rest cool stand rise prove proof soak infuse leave let allow steep macerate`},
		{chilling, `chill refrigerate marinate marinade set`},
		{freezing, `freeze`},
		{serving, `serve plate garnish dish`},
		{byHand, `add adjust arrange assemble baste fluff scrub tuck truss refresh plunge beat blend blitz brush butter carve chop coat combine core cover cream crimp crumble crush cut deglaze dice discard
			dissolve dot drain drape dredge dress drizzle drop dry dust fill finish flour fold form gather grate grease grind halve hull juice knead ladle lay line lift
			lower make mash measure melt mince mix moisten oil pack pare pat peel pick pierce pinch pit place poke pound pour prepare press prick process pull pulse purée puree
			push put quarter remove return rinse roll rub salt scatter scoop scrape season separate shape shell shred sieve sift sit skim increase raise skin slice smash smear
			snip spoon spread sprinkle squeeze stack stir strain strip stuff swirl take taste tear thin thread tie tip top toss transfer trim turn unmould unmold wash
			whip whisk whizz layer nestle pile crack dunk repeat open tear knock wipe wrap work zest divide invert score preheat squash carefully cream get`},
	} {
		for _, w := range strings.Fields(row.words) {
			if _, has := m[w]; !has {
				m[w] = row.a
			}
		}
	}
	return m
}()

// nouns are verbs that are as often a thing; they begin an instruction only before "the", "it" and the like.
var nouns = set(`salt season oil butter flour juice slice dice core cream dust top stock shell skin peel zest dress stew roast steam rest set stand form line pit
	pack score stack strip sieve pinch plate dish garnish drizzle squeeze cool warm thin soak marinade purée puree boil brown fry finish fold cut work heat char taste drop shape
	cover dry dot press mince crumble quarter grease process sweat spoon toast`)

// foods are nouns that are mostly food: "the milk and cream to the boil" is no instruction to cream.
var (
	foods = set(`salt oil butter flour juice cream stock marinade shell peel skin core dust zest roast stew season ` +
		`brown toast`)
	articles = set(`the it them a an all your each`)
)

// heatFollows stand after a verb of heat that instructs, be it a food elsewhere: "and roast for 40 minutes".
var heatFollows = set(`for at in until till on under over uncovered covered again another gently`)

// heats reports whether an action warms the food.
func heats(a action) bool { return a == inOven || a == onBurner || a == overBurner || a == onGrill }

var determiners = set(`the it them a an all in into to over with up off out until till for well again your each on ` +
	`another through`)

// actionWord is the first instruction at the start of a clause; ok is false when it starts with none.
func actionWord(clause string) (word string, at int, ok bool) {
	word, at, ok = firstAction(clause)
	if ok {
		return word, at, true
	}
	// In another bowl, whisk …; the next day, tip …; for the pastry, rub ….
	if i := strings.IndexAny(clause, ",:"); i > 0 && i < 60 {
		if w, _ := firstWord(clause); leadPhrases[lower(w)] {
			if word, at, ok = firstAction(clause[i+1:]); ok {
				return word, at + i + 1, true
			}
		}
	}
	return "", 0, false
}

// leadPhrases begin what stands before an instruction and a comma.
var leadPhrases = set(`in on for with using once when while the to meanwhile after night make at`)

func firstAction(clause string) (word string, at int, ok bool) {
	rest := strings.TrimLeft(clause, " ,")
	at = len(clause) - len(rest)
	for range 6 {
		w, n := firstWord(rest)
		low := lower(w)
		if _, is := verbs[low]; is && low != "carefully" {
			return low, at, true
		}
		if w == "" || !(adverbs[low] || leadWords[low] || strings.HasSuffix(low, "ly")) {
			return "", 0, false
		}
		next := n + len(rest[n:]) - len(strings.TrimLeft(rest[n:], " ,:"))
		at += next
		rest = rest[next:]
	}
	return "", 0, false
}

// leadWords stand before an instruction.
var leadWords = set(`then now meanwhile next finally first and but when ready also gently slowly just immediately ` +
	`still once more or afterwards to finally please so`)

// clauses splits a sentence where one instruction ends and the next begins.
func clauses(sentence string) []string {
	var out []string
	start, beside := 0, ""
	depth := 0
	words := wordSpans(sentence)
	for i := 1; i < len(words); i++ {
		gap := sentence[words[i-1].end:words[i].start]
		depth += strings.Count(gap, "(") - strings.Count(gap, ")")
		if depth > 0 {
			continue
		}
		cutAt := -1
		if onlyLead(sentence[start:words[i].start]) {
			continue
		}
		w := lower(sentence[words[i].start:words[i].end])
		prev := lower(sentence[words[i-1].start:words[i-1].end])
		switch {
		case strings.ContainsAny(gap, ";"):
			cutAt = words[i].start
		case strings.Contains(gap, ",") || prev == "and" || prev == "then" || prev == "before" || prev == "or" ||
			prev == "while" || prev == "you" || strings.Contains(gap, ":") || strings.Contains(gap, " - "):
			aside := prev == "you" && i > 1 && lower(sentence[words[i-2].start:words[i-2].end]) == "while"
			if prev == "or" || prev == "before" || prev == "you" && !aside {
				continue
			}
			j := i
			for j < len(words)-1 && (adverbs[lower(sentence[words[j].start:words[j].end])] ||
				strings.HasSuffix(lower(sentence[words[j].start:words[j].end]), "ly") || w == "then" && j == i) {
				j++
			}
			v := lower(sentence[words[j].start:words[j].end])
			if _, is := verbs[v]; !is {
				continue
			}
			if nouns[v] {
				if j+1 >= len(words) {
					continue
				}
				follow := lower(sentence[words[j+1].start:words[j+1].end])
				switch {
				case strings.Contains(sentence[words[j].end:words[j+1].start], ","):
					if !heats(verbs[v]) || !heatFollows[follow] && !strings.HasSuffix(follow, "ing") {
						continue // "and roast, turning once, for 40 minutes" instructs
					}
				case heats(verbs[v]) && heatFollows[follow]:
					// Rub with oil and roast for 40 minutes: it says how long, how hot or where.
				case foods[v] && !articles[follow], !determiners[follow] && !unicode.IsDigit(rune(follow[0])) && follow != "at":
					continue
				}
			}
			cutAt = words[i].start
			if aside {
				// Let it rest while you squash the garlic: two things at once.
				out = append(out, trimJoin(sentence[start:words[i-2].start]))
				start, beside = cutAt, "meanwhile "
				continue
			}
		}
		if cutAt < 0 {
			continue
		}
		if piece := trimJoin(sentence[start:cutAt]); piece != "" {
			out = append(out, beside+piece)
		}
		start, beside = cutAt, ""
	}
	if piece := trimJoin(sentence[start:]); piece != "" {
		out = append(out, beside+piece)
	}
	return out
}

// onlyLead reports that a piece says nothing yet: "Then", "In another bowl,", "For the pastry".
func onlyLead(piece string) bool {
	piece = strings.Trim(piece, " ,:;-–")
	w, _ := firstWord(piece)
	if leadPhrases[lower(w)] && len(strings.Fields(piece)) <= 5 && len(durations(piece)) == 0 {
		if _, _, ok := firstAction(piece); !ok {
			return true
		}
	}
	for _, one := range strings.Fields(lower(piece)) {
		if one = strings.Trim(one, ","); !leadWords[one] && !adverbs[one] {
			return false
		}
	}
	return true
}

// trimJoin takes "and", "then" and commas off a clause's ends.
func trimJoin(s string) string {
	s = strings.Trim(s, " ,;:-–")
	for _, w := range []string{" and then", " and", " then"} {
		if len(s) > len(w) && strings.EqualFold(s[len(s)-len(w):], w) {
			s = strings.Trim(s[:len(s)-len(w)], " ,;:")
		}
	}
	return s
}

type span struct{ start, end int }

// wordSpans are the words of a text: letters and digits together with hyphens and apostrophes.
func wordSpans(text string) []span {
	var out []span
	start := -1
	for i, c := range text {
		in := unicode.IsLetter(c) || unicode.IsDigit(c) || c == '\'' || c == '-' || c == '°' || c == '½' || c == '¼' ||
			c == '¾'
		switch {
		case in && start < 0:
			if c != '-' && c != '\'' {
				start = i
			}
		case !in && start >= 0:
			out = append(out, span{start, i})
			start = -1
		}
	}
	if start >= 0 {
		out = append(out, span{start, len(text)})
	}
	return out
}

// things are the vessels and appliances that a method names, by the names that a kitchen has.
var things = []struct {
	word  string
	thing Thing
}{
	{"food processor", Thing{"food processor", true}}, {"hand blender", Thing{"blender", true}},
	{"stick blender", Thing{"blender", true}},
	{"liquidizer", Thing{"blender", true}}, {"liquidiser", Thing{"blender", true}}, {"blender", Thing{"blender", true}},
	{"stand mixer", Thing{"stand mixer", true}}, {"hand mixer", Thing{"hand mixer", true}},
	{"electric mixer", Thing{"hand mixer", true}}, {"electric whisk", Thing{"hand mixer", true}},
	{"frying pan", Thing{"frying pan", false}}, {"skillet", Thing{"frying pan", false}},
	{"sauté pan", Thing{"frying pan", false}}, {"saute pan", Thing{"frying pan", false}},
	{"saucepan", Thing{"saucepan", false}}, {"dutch oven", Thing{"casserole", false}},
	{"casserole", Thing{"casserole", false}}, {"large pot", Thing{"large pot", false}},
	{"stockpot", Thing{"large pot", false}}, {"large pan", Thing{"large pot", false}},
	{"roasting tin", Thing{"roasting tin", false}}, {"roasting pan", Thing{"roasting tin", false}},
	{"roasting tray", Thing{"roasting tin", false}}, {"baking sheet", Thing{"baking tray", false}},
	{"baking tray", Thing{"baking tray", false}}, {"tray", Thing{"baking tray", false}},
	{"tart tin", Thing{"tart tin", false}}, {"tart pan", Thing{"tart tin", false}}, {"flan tin", Thing{"tart tin", false}},
	{"pie dish", Thing{"pie dish", false}},
	{"cake tin", Thing{"cake tin", false}}, {"cake pan", Thing{"cake tin", false}},
	{"springform", Thing{"cake tin", false}}, {"loaf tin", Thing{"loaf tin", false}},
	{"loaf pan", Thing{"loaf tin", false}},
	{"baking dish", Thing{"baking dish", false}}, {"ovenproof dish", Thing{"baking dish", false}},
	{"gratin dish", Thing{"baking dish", false}},
	{"pudding basin", Thing{"pudding basin", false}}, {"ramekins", Thing{"ramekins", false}}, {"wok", Thing{"wok", false}},
	{"steamer", Thing{"steamer", false}},
	{"terrine mould", Thing{"terrine mould", false}}, {"mixing bowl", Thing{"mixing bowl", false}},
	{"large bowl", Thing{"mixing bowl", false}},
}

func thingsIn(text string) []Thing {
	var out []Thing
	low := lower(text)
	for _, t := range things {
		if !strings.Contains(low, t.word) {
			continue
		}
		low = strings.ReplaceAll(low, t.word, " ")
		out = addThing(out, t.thing)
	}
	if containsWord(low, "blend", "liquidize", "liquidise") {
		out = addThing(out, Thing{"blender", true})
	}
	return out
}

func addThing(all []Thing, t Thing) []Thing {
	for _, o := range all {
		if o == t {
			return all
		}
	}
	return append(all, t)
}

// classify says what a clause does. oven is whether the food is in an oven already.
func classify(clause string, wasOven bool) action {
	low := lower(clause)
	verb, _, _ := actionWord(clause)
	fridge := containsWord(low, "fridge", "refrigerator") && !strings.Contains(low, "out of the fridge") &&
		!strings.Contains(low, "out of the refrigerator") && !strings.Contains(low, "from the fridge")
	freezer := strings.Contains(low, "freezer") && !strings.Contains(low, "from the freezer")
	oven := strings.Contains(low, "oven") && !strings.Contains(low, "dutch oven") && !strings.Contains(low, "ovenproof") &&
		!strings.Contains(low, "from the oven") && !strings.Contains(low, "out of the oven")
	timed := len(durations(clause)) > 0
	setting := false
	for _, t := range temperatures(clause, false) {
		setting = setting || !t.inside
	}
	switch {
	case containsWord(low, "preheat", "pre-heat") || verb == "heat" && oven && !timed || verb == "get" && oven ||
		verb == "turn" && oven && !timed && (containsWord(low, "on", "up", "down") || setting):
		return preheat
	case !timed && containsWord(low, "heat", "flame") && (verb == "turn" || verb == "reduce" || verb == "lower" ||
		verb == "increase" || verb == "raise"):
		return preheat // the burner is turned down within the work
	case freezer || verb == "freeze":
		return freezing
	case fridge && verb != "take":
		return chilling
	case oven && timed && (setting || verb == ""):
		return inOven
	case containsWord(low, "turn down", "turn up") && setting && timed && wasOven:
		return inOven
	case verb == "turn" && setting && timed && wasOven:
		return inOven
	case verb == "bring" && !containsWord(low, "boil", "simmer", "bubble"):
		return byHand
	case (verb == "stir" || verb == "whisk") && (strings.Contains(low, "over a low heat") ||
		strings.Contains(low, "over low heat") || strings.Contains(low, "over a medium heat") ||
		strings.Contains(low, "over medium heat") || strings.Contains(low, "over a gentle heat")):
		return overBurner
	case verb == "let" || verb == "leave" || verb == "allow":
		switch {
		case containsWord(low, "simmer", "bubble", "cook", "boil"):
			return onBurner
		case containsWord(low, "marinate", "chill", "set") && !containsWord(low, "room temperature"):
			return chilling
		case timed || containsWord(low, "rest", "cool", "rise", "stand", "infuse", "prove", "proof", "soak", "sit"):
			return standing
		}
		return byHand
	case verb == "cook" && (oven || wasOven && !containsWord(low, "pan", "heat", "stir", "stirring")):
		return inOven
	case verb == "braise" && containsWord(low, "hob", "stove", "stovetop", "burner", "heat", "simmer", "simmering"):
		return onBurner
	case oven && (timed && verbs[verb] == byHand || verb == "toast"):
		return inOven // return it to the oven for 20 minutes
	case heats(verbs[verb]) && strings.Contains(low, "under ") && containsWord(low, "grill", "broiler"):
		return onGrill
	case verb == "cook" && containsWord(low, "stirring constantly", "stirring all"):
		return overBurner
	case verb == "set" && !timed:
		return byHand // set aside
	case verb == "turn" || verb == "get":
		return byHand
	case (verb == "warm" || verb == "reheat" || verb == "heat") && oven:
		return inOven
	case verb == "melt" && containsWord(low, "pan", "saucepan", "heat", "frying"):
		return overBurner
	}
	if verb == "" && timed {
		// Notes in short: "boil 5 min", "onions, soften 10 min".
		for _, sp := range wordSpans(low) {
			w := low[sp.start:sp.end]
			if a, is := verbs[w]; is && a != byHand {
				return a
			}
		}
	}
	a := verbs[verb]
	if a == byHand && strings.Contains(low, "grill") && timed {
		return onGrill
	}
	if a == byHand && timed {
		return heatWithin(clause)
	}
	return a
}

// heatWithin is what heats the food in a timed clause that begins with work by hand: "tip into the pan to fry for
// 10 minutes", "spread on a tray: 40 minutes at 200 °C".
func heatWithin(clause string) action {
	words := strings.Fields(lower(clause))
	for i := 1; i < len(words); i++ {
		v := strings.Trim(words[i], ",;:.")
		lead := strings.HasSuffix(words[i-1], ",") || words[i-1] == "to" || words[i-1] == "and" || words[i-1] == "then"
		if lead && heats(verbs[v]) && (i+1 == len(words) || !nouns[v] || heatFollows[words[i+1]]) {
			return verbs[v]
		}
	}
	for _, t := range temperatures(clause, false) {
		if !t.inside && t.Conventional().C() > 110 {
			return inOven
		}
	}
	return byHand
}

// attention is what an action asks of people.
func (a action) attention() planner.Attention {
	switch a {
	case inOven, onBurner:
		return planner.Watch
	case standing, chilling, freezing:
		return planner.Unattended
	}
	return planner.Hands
}
