package times

import (
	"strconv"
	"strings"

	"tureen/planner/words"
)

var (
	fillers = words.Set("about around roughly approximately approx approx. circa ca some just only " +
		"nearly almost a good for")
	leastBefore, mostBefore  = lists.Phrases("at least"), lists.Phrases("at most")
	leastAfter               = lists.Phrases("or more")
	moreBefore, moreAfter    = lists.Phrases("more"), lists.Phrases("after more")
	everyBefore, whenBefore  = lists.Phrases("every"), lists.Phrases("when")
	lastBefore, beforeTheEnd = lists.Phrases("last"), lists.Phrases("before the end")
	overBefore               = lists.Phrases("over")
	perSide, sideBefore      = lists.Phrases("per side"), lists.Phrases("side before")
	aheadAfter, eachAfter    = lists.Phrases("ahead"), lists.Phrases("each")
	inAllAfter, inAllBefore  = lists.Phrases("in all"), lists.Phrases("in all before")
	isFine                   = lists.Phrases("is fine")
	otherSide                = lists.Phrases("other side")
)

// around sees what the words round a length make of it.
//
// Kept whole: one question a line, each about the same words, in the order in which they outdo each other.
func (l *Length) around(low string) {
	before := " " + strings.TrimRight(low[:l.Start], " (~±")
	for {
		at := strings.LastIndexByte(before, ' ')
		if at < 0 || !fillers[before[at+1:]] {
			break
		}
		before = strings.TrimRight(before[:at], " ")
		if before == "" {
			break
		}
	}
	ends := func(all []string) bool {
		for _, w := range all {
			if strings.HasSuffix(before, " "+w) {
				return true
			}
		}
		return false
	}
	after := strings.TrimLeft(low[l.End:], " .")
	starts := func(all []string) bool {
		for _, w := range all {
			if rest, ok := strings.CutPrefix(after, w); ok && (rest == "" || !letter(rest[0])) {
				return true
			}
		}
		return false
	}
	said := low[l.Start:l.End]
	l.UpTo = ends(mostBefore) || l.Vague && starts(isFine)
	l.AtLeast = !l.UpTo && ends(leastBefore) || starts(leastAfter)
	l.Per = perWeight(after)
	l.More = l.More || ends(moreBefore) || starts(moreAfter) || strings.Contains(said, " more ") ||
		strings.Contains(said, "further ") || starts(otherSide)
	l.Every = ends(everyBefore) && !ends(sideBefore)
	l.After = ends(whenBefore)
	l.Over = ends(overBefore)
	l.Before = (starts([]string{"before"}) || starts([]string{"prior"})) &&
		!strings.HasSuffix(strings.TrimRight(low[:l.Start], " "), " for")
	if l.Before && starts(beforeTheEnd) || starts(beforeTheEnd) {
		l.Before, l.Last = false, true // told from the end of the cooking, not of the dinner
	}
	l.Ahead = starts(aheadAfter)
	l.Last = (l.Last || ends(lastBefore)) && !strings.HasSuffix(before, " a final")
	l.More = l.More && !l.Last
	l.InAll = starts(inAllAfter) || ends(inAllBefore)
	if n := sides(after); n > 0 {
		l.Low, l.High = n*l.Low, n*l.High // four minutes on each of three sides
		return
	}
	if starts(perSide) || ends(sideBefore) && !l.Every {
		l.Low, l.High = 2*l.Low, 2*l.High
		l.Each = starts(perSide) && strings.Contains(after, " batch") // 4 minutes a side in two batches
	}
	l.Each = l.Each || starts(eachAfter) && !starts(perSide)
}

func letter(c byte) bool { return c >= 'a' && c <= 'z' }

// perWeight reads "per 500 g", "a pound", "for every kilo", in grams.
func perWeight(text string) int {
	for _, lead := range []string{"per ", "for every ", "for each ", "to the ", "to every ", "a ", "every "} {
		rest, ok := strings.CutPrefix(text, lead)
		if !ok {
			continue
		}
		n := 1
		if digits := len(rest) - len(strings.TrimLeft(rest, "0123456789")); digits > 0 && digits < 5 {
			n, _ = strconv.Atoi(rest[:digits])
			rest = strings.TrimLeft(rest[digits:], " ")
		}
		w, _ := words.First(rest)
		switch w {
		case "g", "grams", "gram":
			return n
		case "kg", "kilo", "kilogram", "kilos":
			return n * 1000
		case "lb", "lbs", "pound", "pounds":
			return n * 454
		}
	}
	return 0
}

// sides is on how many sides a text goes on to say that something is done; 0: it does not.
func sides(after string) int {
	t := scan(after)
	i := 0
	if at(t, i) == "on" {
		i++
	}
	if at(t, i) != "each" || at(t, i+1) != "of" {
		return 0
	}
	i += 2
	if at(t, i) == "the" || at(t, i) == "its" || at(t, i) == "their" {
		i++
	}
	if n, _, next := numberAt(t, i); next > 0 && n >= 2 && n <= 6 && at(t, next) == "sides" {
		return int(n)
	}
	return 0
}

// Batches is in how many batches a text says that something is done: in three batches, in 2 lots; 1 where it says none.
func Batches(text string) int {
	t := scan(words.Small(text))
	for i := range t {
		if t[i].text != "in" && t[i].text != "into" {
			continue
		}
		if n, _, next := numberAt(t, i+1); next > 0 && n >= 2 && n <= 12 && (batches[at(t, next)] ||
			at(t, next) == "equal" && batches[at(t, next+1)]) {
			return int(n)
		}
	}
	return 1
}

// AtATime is how many of something a text says are done at a time: "two or three at a time"; 0: it does not say.
func AtATime(text string) (low, high int) {
	t := scan(words.Small(text))
	for i := range t {
		if at(t, i) != "at" || at(t, i+1) != "a" && at(t, i+1) != "one" || at(t, i+2) != "time" && at(t, i+2) != "go" {
			continue
		}
		for back := max(i-3, 0); back < i; back++ {
			a, _, n := numberAt(t, back)
			if n == 0 || a < 1 || a > 20 {
				continue
			}
			b := a
			if n < i && (at(t, n) == "or" || at(t, n) == "to" || at(t, n) == "-" || at(t, n) == "–") {
				if v, _, end := numberAt(t, n+1); end > 0 {
					b, n = v, end
				}
			}
			if i == n && b >= a || i == n+1 && a >= 2 && b >= a && !poured[at(t, n)] { // not "2 cups at a time"
				return int(a), int(b)
			}
		}
	}
	return 0, 0
}

// poured are what goes in by and by. Common practice, no source.
var poured = words.Set("cup cups tablespoon tablespoons tbsp teaspoon teaspoons tsp spoon spoons spoonful spoonfuls " +
	"ladle ladles ladleful ladlefuls ounce ounces oz g ml")

var batches = func() map[string]bool {
	out := map[string]bool{}
	for _, w := range lists.Phrases("batches") {
		out[w] = true
	}
	return out
}()
