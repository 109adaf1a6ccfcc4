// Package remark reads what a recipe's sentence says of waiting: that it can be made ahead, keeps, freezes, is best at
// once; and tells what only may be done, and other ways to do it, from what is to be done. The phrases stand in
// phrases.tsv. Texts are in small letters where a name says low.
package remark

import (
	_ "embed"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/ware"
	"tureen/planner/words"
)

//go:embed phrases.tsv
var table string

var phrases = words.TableOf(table)

// Minutes in an hour and a day.
const (
	hour = 60
	day  = 24 * hour
)

// Kind says what a remark is about.
type Kind string

// The kinds of remark.
const (
	Ahead    Kind = "ahead"   // can be made so long ahead
	Keeps    Kind = "keeps"   // keeps so long when it is made
	Better   Kind = "better"  // is better after so long
	Freezes  Kind = "freezes" // can be frozen
	Fresh    Kind = "fresh"   // is best at once, or within so long
	KeepWarm Kind = "warm"    // can be kept warm
	Later    Kind = "later"   // is meant for another step: keep the rest of the glaze
	Unread   Kind = "note"    // was not read
)

// Said is what a text remarks.
type Said struct {
	Kind  Kind
	Time  measure.Duration // where the kind has one
	Where planner.State    // where it is kept so long, as far as it says
}

// What a remark says, by the phrases of phrases.tsv. Common practice, no source.
var (
	keepWords, aheadWords, aheadVerbs  = phrases.Phrases("keeps"), phrases.Phrases("ahead"), phrases.Phrases("made ahead")
	freezeWords, betterWords, supposes = phrases.Phrases("freezes"), phrases.Phrases("better"), phrases.Phrases("supposes")
	otherWays, keepsRest               = phrases.Phrases("another way"), phrases.Phrases("keep the rest")
	notFrozen, sameDay                 = phrases.Phrases("not frozen"), phrases.Phrases("same day")
	warmsAgain                         = phrases.Phrases("warms again")
	onTheDay, atOnce, untilWanted      = phrases.Phrases("on the day"), phrases.Phrases("at once"),
		phrases.Phrases("until wanted")
	untilEvening = phrases.Phrases("until the evening")
)

// sameDayLength is how long before the meal "in the morning" is, or what keeps "until the evening". Common practice, no
// source.
var sameDayLength = measure.Duration{Low: 12 * hour, High: 12 * hour}

// UntilWanted reports whether food is kept for as long as it is not needed by a text.
func UntilWanted(low string) bool { return words.Contains(low, untilWanted...) }

// Rest reports whether a text begins with what is kept for another step.
func Rest(low string) bool { return words.Begins(low, keepsRest) }

// Reheats reports whether a text begins with warming something again.
func Reheats(low string) bool { return words.Begins(low, warmsAgain) }

// IsMaking reports whether a verb says no more than that something is made: make, prepare, cook.
func IsMaking(verb string) bool { return slices.Contains(aheadVerbs, verb) }

// Waits reports whether a remark says that food can wait.
func (s Said) Waits() bool { return s.Kind == Ahead || s.Kind == Keeps || s.Kind == Better }

// aDay is a length where a remark says no other.
var aDay = measure.Duration{Low: day, High: day}

// fresh says whether a text remarks that something is best at once, or on its day.
func fresh(low string) (Said, bool) {
	switch {
	case words.Contains(low, onTheDay...) && words.Has(low, "best", "eat", "eaten", "enjoy"):
		return Said{Kind: Fresh, Time: aDay}, true
	case words.Contains(low, atOnce...) && words.Has(low, "best", "eat", "eaten", "eating"):
		return Said{Kind: Fresh}, true
	}
	return Said{}, false
}

// Of says what a text remarks, if anything.
func Of(low string) (Said, bool) {
	if s, ok := fresh(low); ok {
		return s, true
	}
	long := Longest(low)
	switch {
	case words.Contains(low, notFrozen...):
		return Said{Kind: Unread, Where: planner.Freezer}, true
	case words.Contains(low, "(keep the rest", "(reserve the rest", "(save the rest"), words.Begins(low, keepsRest):
		return Said{Kind: Later}, true
	case words.Contains(low, betterWords...) && !(words.Has(low, aheadWords...) && long.High > day):
		return Said{Kind: Better, Time: aDay}, true
	case long.High >= 6*hour && words.Has(low, "better", "improves", "improve") && !words.Has(low, "keeps", "keep"):
		return Said{Kind: Better, Time: long}, true
	case words.Has(low, keepWords...) && words.Contains(low, untilEvening...):
		return Said{Kind: Keeps, Time: sameDayLength, Where: KeptWhere(low)}, true
	case words.Contains(low, sameDay...) && words.Has(low, aheadVerbs...) && (long.High == 0 || long.High >= 2*day):
		return Said{Kind: Ahead, Time: sameDayLength, Where: KeptWhere(low)}, true
	case words.Has(low, aheadWords...) && (words.Has(low, aheadVerbs...) || long.High > 0):
		if long.High == 0 {
			long = aDay
		}
		return Said{Kind: Ahead, Time: long, Where: KeptWhere(low)}, true
	case words.Has(low, keepWords...) && long.High >= 4*hour, words.Has(low, "keep") && long.High >= day:
		return Said{Kind: Keeps, Time: long, Where: KeptWhere(low)}, true
	}
	return stored(low, long)
}

// stored says what a text remarks of a freezer, a warm place or a tin.
func stored(low string, long measure.Duration) (Said, bool) {
	switch {
	case words.Contains(low, freezeWords...), long.High >= 2*day && words.Has(low, "freeze", "frozen", "freezer"):
		return Said{Kind: Freezes, Time: long, Where: planner.Freezer}, true
	case words.Has(low, "keep", "hold") && (words.Has(low, "warm") || strings.Contains(low, "warm oven")) &&
		!strings.Contains(low, "while"):
		return Said{Kind: KeepWarm}, true
	case words.Has(low, keepWords...) && words.Contains(low, "airtight", "fridge", "refrigerator", "container", "tin"):
		return Said{Kind: Keeps, Where: KeptWhere(low)}, true
	}
	return Said{}, false
}

// Longest is the first length in a text that says how long something may wait, or its longest.
func Longest(low string) measure.Duration {
	var out measure.Duration
	for _, f := range times.Lengths(low) {
		if f.UpTo || f.Ahead {
			return f.Duration
		}
		if f.High > out.High {
			out = f.Duration
		}
	}
	return out
}

// KeptWhere is the place where something is kept so long.
func KeptWhere(low string) planner.State {
	switch {
	case ware.At(low, "refrigerator") || words.Contains(low, "refrigerate", "chilled"):
		return planner.Refrigerator
	case words.Contains(low, "freezer", "frozen", "freeze"):
		return planner.Freezer
	case words.Contains(low, "airtight", "room temperature", " tin", "container", "counter"):
		return planner.Counter
	}
	return ""
}

// UpTo reports whether a text says up to how long.
func UpTo(low string) bool {
	return slices.ContainsFunc(times.Lengths(low), func(f times.Length) bool { return f.UpTo })
}

// Supposes reports whether a sentence says what can be done, and tells nobody to do it.
func Supposes(low string) bool { return words.Contains(low, supposes...) || startsWithKeeping(low) }

// startsWithKeeping is "Store in an airtight tin …".
func startsWithKeeping(low string) bool {
	return words.Begins(low, []string{"store ", "keep ", "freeze ", "refrigerate leftover", "best ", "make up to "})
}

// AnotherWay reports a sentence that tells of another way, or of what comes after the meal.
func AnotherWay(low string) bool {
	return words.Begins(low, otherWays)
}

// ways are what food may be cooked in, where a method tells of it in several ways, each under its name.
var ways = phrases.Phrases("ways")

// WayOf is the way that a text begins with: "Slow cooker method: …".
func WayOf(text string) string {
	head, _, ok := strings.Cut(words.Small(text), ":")
	if !ok {
		return ""
	}
	for _, lead := range []string{"for the ", "in the ", "in a ", "to make in the "} {
		head = strings.TrimPrefix(head, lead)
	}
	head = strings.ReplaceAll(strings.ReplaceAll(head, "airfryer", "air fryer"), "-", " ")
	for _, end := range []string{" bake", " method", " version", " instructions", " directions", " option"} {
		head = strings.TrimSuffix(head, end)
	}
	if slices.Contains(ways, head) {
		return head
	}
	return ""
}

// Clauses cuts a sentence where one thing that is said of waiting ends and another begins. Made ahead to some point,
// without a length, and kept for so long is one: made so long ahead.
func Clauses(text string) (out []string) {
	for _, p := range strings.Split(text, "; ") {
		for _, joint := range []string{", and ", " and ", ", but ", ", or "} {
			a, b, ok := strings.Cut(p, joint)
			if !ok {
				continue
			}
			x, one := Of(words.Small(a))
			y, other := Of(words.Small(b))
			told := x.Kind != Ahead || y.Kind != Keeps || Longest(words.Small(a)).High > 0
			if one && other && told && x.Kind != y.Kind && x.Time.High > 0 && y.Time.High > 0 {
				out, p = append(out, a), b
				break
			}
		}
		out = append(out, p)
	}
	return out
}

// Behind is where a sentence that tells what to do goes on with how that waits: "Wash the lettuce; it keeps till
// the evening"; 0: nowhere.
func Behind(text string) int {
	at := strings.LastIndex(text, "; ")
	if at <= 0 {
		return 0
	}
	head, tail := words.Small(text[:at]), words.Small(text[at+2:])
	if _, says := Of(tail); !says || !Supposes(" "+tail) && method.Instructs(text[at+2:]) || Supposes(head) ||
		!method.Instructs(text[:at]) {
		return 0
	}
	return at
}

// WarmsUp is where the words begin that tell for how long food is warmed up again; 0: nowhere behind others.
func WarmsUp(text string) int {
	low := words.Small(text)
	if len(low) != len(text) {
		return 0
	}
	for _, verb := range warmsAgain {
		if at := strings.LastIndex(low, " "+verb+" "); at > 0 && len(times.Lengths(low[at:])) > 0 &&
			!strings.HasSuffix(" "+low[:at], " to") {
			return at + 1
		}
	}
	return 0
}

// Asks reports whether a text gives an instruction, or says how long something has to stand.
func Asks(text string) bool {
	low := words.Small(text)
	_, remarks := Of(low)
	return method.Instructs(text) || !remarks && len(times.Lengths(low)) > 0 && words.Has(low, "must", "has to", "have to",
		"needs to", "should")
}
