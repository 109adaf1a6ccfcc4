package method

import (
	"strings"

	"tureen/planner/food"
)

// told reports whether a word is a verb that tells the cook to do something.
func (r *reader) told(t []word, i int) bool {
	w, before, next := t[i].w, ".", at(t, i+1)
	if i > 0 {
		before = t[i-1].w
	}
	row := r.v.verb[w]
	if row == nil {
		return false
	}
	if w == "stand" && (next == "mixer" || next == "mixers") ||
		i == 1 && (before == "should" || before == "will" || before == "may") {
		return false // in a stand mixer; should take a minute
	}
	if r.ofPeople(t, i) || r.untilThen(t, i) || r.signGoesOn(t, i) || r.saidOfIt(t, i) || r.inPassing(t, i) {
		return false
	}
	if lead, over := r.timeLead(t, i); lead {
		return over
	}
	switch before {
	case "/", "-", "not", "never", "don't", "don’t", "cannot":
		return false
	case "to":
		return i > 1 && r.in("before to", t[i-2].w) && w != "get" && w != "keep" && w != "cook" && w != "simmer" &&
			w != "serve"
	}
	if i > 0 && !(ends[before] || r.in("adverb", before) || strings.HasSuffix(before, "ly")) {
		return r.inLead(t, i, row, before, next)
	}
	if r.in("always", w) || !row.Noun {
		return true
	}
	return r.nounTold(t, i, row, before, next)
}

// ofPeople reports whether a word tells what people do, and nothing to do: "we go to the coast", "the one I make".
func (r *reader) ofPeople(t []word, i int) bool {
	if i == 0 || t[i-1].w != "i" && t[i-1].w != "we" {
		return false
	}
	before := at(t, i-2)
	return r.in("of people", t[i].w) || !ends[before] && !r.in("adverb", before) && !r.in("lead", before)
}

// timeLead reports whether a word stands in a lead that says how long before something it is done, or right behind it:
// "an hour before you want to eat peel the potatoes", "a quarter of an hour before serving add the cream".
func (r *reader) timeLead(t []word, i int) (lead, over bool) {
	for k := i - 1; k > 0 && i-k < 7 && !ends[t[k].w]; k-- {
		if t[k].w != "before" || !r.in("unit of time", t[k-1].w) {
			continue
		}
		w := t[i-1].w
		switch {
		case k == i-1, w == "to", w == "you", w == "we", w == "they", w == "the":
			return true, false
		case r.v.verb[w] != nil || r.v.ing[w] != "" || r.in("meal", w):
			return true, r.v.verb[t[i].w] != nil
		}
		return true, false
	}
	return false, false
}

// inPassing reports whether a word says between commas how a thing was cut, in a list that goes on: "add the pumpkin,
// cut up, and the stock".
func (r *reader) inPassing(t []word, i int) bool {
	if t[i].w != "cut" || i == 0 || t[i-1].w != "," {
		return false
	}
	for k := i + 1; k < min(i+4, len(t)); k++ {
		if t[k].w == "," {
			return at(t, k+1) == "and" && (r.in("determiner", at(t, k+2)) || r.food[at(t, k+2)])
		}
		if !r.in("preposition", t[k].w) && !r.in("shape", t[k].w) {
			return false
		}
	}
	return false
}

// untilThen reports whether a word is told of what happens by itself, or of when: "until just set", "when you poke".
func (r *reader) untilThen(t []word, i int) bool {
	for k := i - 1; k >= 0; k-- {
		switch w := t[k].w; {
		case w == "once" || w == "when" || w == "until" || w == "till" || w == "before":
			return true
		case !r.in("adverb", w) && !strings.HasSuffix(w, "ly"):
			return false
		}
	}
	return false
}

// signGoesOn reports whether a word goes on with the sign that something is done, and is done to nothing: "until soft
// and brown at the edges", and not "until soft and brown the meat".
func (r *reader) signGoesOn(t []word, i int) bool {
	if i < 2 || !r.in("sign too", t[i].w) || t[i-1].w != "and" && t[i-1].w != "or" && t[i-1].w != "but" {
		return false
	}
	next := at(t, i+1)
	if thing, _ := r.follows(next); thing || isNumber(next) || r.food[next] || r.food[one(next)] {
		return false
	}
	for k := i - 2; k >= 0 && !ends[t[k].w]; k-- {
		if t[k].w == "until" || t[k].w == "till" {
			return true
		}
	}
	return false
}

// saidOfIt reports whether a word is said of a thing, and to nobody: "it should take 20 minutes".
func (r *reader) saidOfIt(t []word, i int) bool {
	for i > 1 && t[i-1].w != "will" && t[i-1].w != "should" && t[i-1].w != "may" && t[i-1].w != "can" {
		if !r.in("adverb", t[i-1].w) || isJoint(t[i-1].w) {
			return false
		}
		i--
	}
	if i < 2 {
		return false
	}
	w := t[i-2].w
	return w != "you" && w != "we" && w != "i" && !ends[w]
}

// nounTold decides for words that are as often a thing or a food: top, oil, season.
//
// Kept whole: it is one list of what stands before and after such a word, and each line only means something after
// those above it.
func (r *reader) nounTold(t []word, i int, row *food.Verb, before, next string) bool {
	w := t[i].w
	if r.food[w] {
		return r.in("determiner", next) || next == "them" || next == "together" && row.Class == food.Mixes ||
			(i == 0 || i == 1 && strings.HasSuffix(before, "ly")) && !ends[next] && next != "is" && next != "mixture" &&
				(r.v.verb[next] == nil || r.food[next])
	}
	joined := before == "," || before == "and" || before == "or"
	if w == "cover" && joined && (next == "," || next == ".") {
		return true // pour it over, cover, 30 minutes
	}
	thing, says := r.follows(next)
	switch {
	case joined && r.in("mostly noun", w) && !thing && next != "through",
		joined && r.in("food after and", w) && !says && next != "," && !soonTimed(t, i):
		return false
	case i == 0 || before == "then" || before == ";" || before == ":" || before == ".":
		return true
	case joined && before != "," && i > 1 && r.v.verb[t[i-2].w] != nil && r.told(t, i-2):
		return true
	case ends[next] && cutFinely[before]:
		return false
	case says:
		return next != "of" && next != "is" && !ends[next]
	case ends[next] || next == "is" || next == "are" || next == "has" || next == "mixture":
		return before == "," && next == "." && (row.Class == food.Rests || row.Class == food.Serves)
	}
	return true
}

// soonTimed reports whether it is said how long or until when a verb goes on, within its clause: "roast cut-side down
// for 20 minutes".
func soonTimed(t []word, i int) bool {
	for k := i + 1; k < min(i+6, len(t)) && !ends[t[k].w]; k++ {
		if t[k].w == "for" && isNumber(at(t, k+1)) || t[k].w == "until" {
			return true
		}
	}
	return false
}

var cutFinely = setOf("finely", "thinly", "roughly", "lightly", "very")

// follows reports whether a word after a verb is a thing that it is done to, or says that, how or where it is done.
func (r *reader) follows(next string) (thing, says bool) {
	thing = r.in("determiner", next) || r.in("pronoun", next)
	return thing, thing || r.in("preposition", next) || strings.HasSuffix(next, "ly") || r.in("adverb", next) ||
		isNumber(next)
}

func isNumber(w string) bool {
	return w != "" && strings.Trim(w, "0123456789") == ""
}

// inLead knows a verb after a leading phrase without a comma: "Once the onions are soft add …", "In a pan melt …".
func (r *reader) inLead(t []word, i int, row *food.Verb, before, next string) bool {
	w, from := t[i].w, beginOf(t, i)
	if !r.in("lead", t[from].w) && t[from].w != "before" && t[from].w != "prior" {
		return false
	}
	switch before {
	case "the", "a", "an", "of", "you", "your", "will", "they", "it":
		return false
	}
	for k := from; k < i; k++ {
		if v := r.v.verb[t[k].w]; v != nil && !v.Noun && !r.in("determiner", at(t, k-1)) { // a separate bowl
			return false
		}
	}
	det := r.in("determiner", next)
	if det && r.whileIt(t[from].w, before) {
		return true
	}
	return !row.Noun && (!r.in("happens", w) || det && t[from].w == "for") || r.in("vessel", before) &&
		(det || next == "together" || isNumber(next) || r.food[next] || r.food[one(next)]) ||
		r.in("within a lead", w) && (det || r.in("preposition", next) || r.in("pronoun", next))
}

// beginOf is where the part of a sentence begins that a word stands in, behind "just" and "and".
func beginOf(t []word, i int) int {
	from := i
	for from > 0 && !ends[t[from-1].w] {
		from--
	}
	for from+1 < i && (t[from].w == "just" || t[from].w == "about" || t[from].w == "and" || t[from].w == "but") {
		from++
	}
	return from
}

// whileIt reports that a verb stands behind "while it rests …", without a comma.
func (r *reader) whileIt(lead, before string) bool {
	return (lead == "while" || lead == "whilst" || lead == "as") && (r.v.third[before] || r.v.ing[before] != "")
}

// participle reports whether a word is one before a noun: chopped onion, preheated oven.
func (r *reader) participle(t []word, i int) bool {
	w, before, next, third := t[i].w, ".", at(t, i+1), at(t, i+2)
	if i > 0 {
		before = t[i-1].w
	}
	isPast := func(w string) bool { return r.v.past[w] != "" }
	if w == "using" {
		return true
	}
	switch before {
	case "don't", "don’t", "never", "not":
		return false
	}
	if r.in("no participle", w) || !isPast(w) && !r.in("participle besides", w) && w != "boiling" {
		return false
	}
	if w == "boiling" && next != "water" && next != "salted" && next != "," && next != "stock" && next != "lightly" {
		return false
	}
	switch before {
	case "all", "each", "both", "this", "these":
	default:
		if r.in("being", before) || r.in("pronoun", before) {
			return false
		}
	}
	if next == "," && (isPast(third) || third == "boiling") {
		return true
	}
	if ends[next] || r.in("preposition", next) || (next == "and" || next == "or") && !isPast(third) {
		return false
	}
	return !(r.v.verb[w] != nil && w != "ground" && r.told(t, i))
}

// Told is the first word of a text that tells the cook to do something, as its plain form, and the byte that it begins
// at; ok is false where nothing is told.
func Told(text string) (verb string, at int, ok bool) {
	r := &reader{v: load(), food: load().food}
	t := joined(wordsOf(text), r.v)
	for i := range t {
		if r.told(t, i) {
			return r.v.verb[t[i].w].Name, t[i].at, true
		}
	}
	if r.putsIn(t) {
		return "add", 0, true // beans in
	}
	return "", 0, false
}

// Instructs reports whether a text tells the cook to do something.
func Instructs(text string) bool {
	_, _, ok := Told(text)
	return ok
}
