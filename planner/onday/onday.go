// Package onday reads the day on which a step of a dish is done, as people say it in one line: "the day before",
// "collect Saturday at 11:00", "two days ahead", "on 5 dec". What day of a calendar that is, the caller knows.
package onday

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/manuscript"
	"tureen/planner/words"
)

// Day is when a step is done, as far as a line says so.
type Day struct {
	Said   bool
	Before int    // days before the party's
	Name   string // a day in words that a calendar tells: "saturday", "5 dec"; empty: see Before
	Part   string // "morning", "afternoon", "evening"; empty: any hour
	Clock  string // "11:00": it begins about then
}

// String is the day as one says it: "the day before", "saturday morning 11:00".
func (d Day) String() string {
	day := d.Name
	switch {
	case day != "":
	case d.Before == 0:
		day = "on the day"
	case d.Before == 1:
		day = "the day before"
	default:
		day = words.Count(d.Before, "day") + " before"
	}
	return strings.Join(slices.DeleteFunc([]string{day, d.Part, d.Clock}, func(s string) bool { return s == "" }), " ")
}

var (
	weekdays = words.Set("sunday monday tuesday wednesday thursday friday saturday " +
		"sun mon tue tues wed thu thur thurs fri sat")
	months = words.Set("january february march april may june july august september october " +
		"november december jan feb mar " +
		"apr jun jul aug sep sept oct nov dec")
	dayParts = map[string]string{"morning": "morning", "afternoon": "afternoon", "evening": "evening", "night": "evening",
		"day": ""}
)

// In takes the day out of a piece of a line, and the hour behind it; rest is what is left of its words.
func In(text string) (day Day, rest string) {
	all := strings.Fields(text)
	low := make([]string, len(all))
	for i, w := range all {
		low[i] = strings.Trim(words.Small(w), ".,()")
	}
	for i := range low {
		d, n := dayAt(low[i:])
		if n == 0 {
			continue
		}
		kept := slices.Clone(all[:i])
		tail := low[i+n:]
		if len(tail) > 0 && (tail[0] == "at" || tail[0] == "by" || tail[0] == "from") && len(tail) > 1 && isClock(tail[1]) {
			tail, n = tail[1:], n+1
		}
		if len(tail) > 0 && isClock(tail[0]) {
			d.Clock, n = tail[0], n+1
		}
		if k := len(kept) - 1; k > 0 && isClock(low[k]) && slices.Contains([]string{"at", "by", "from"}, low[k-1]) {
			d.Clock, kept = low[k], kept[:k-1] // pick up at 18:00 on the day
		}
		return d, strings.TrimSpace(strings.Join(append(kept, all[i+n:]...), " "))
	}
	return Day{}, text
}

// isClock reports whether a word is a time of day: 11:00, 3pm, noon.
func isClock(w string) bool {
	digit := w != "" && w[0] >= '0' && w[0] <= '9'
	return w == "noon" || digit && (strings.Contains(w, ":") || strings.HasSuffix(w, "am") || strings.HasSuffix(w, "pm"))
}

// dayAt reads a day at the beginning of some words, and says how many of them it is; 0: none.
func dayAt(w []string) (d Day, n int) {
	d.Said = true
	lead := ""
	for n < 2 && n < len(w)-1 && slices.Contains([]string{"on", "by", "the", "a", "in", "that", "same"}, w[n]) {
		lead = w[n]
		n++
	}
	at := func(i int) string {
		if n+i < len(w) {
			return w[n+i]
		}
		return ""
	}
	part, isPart := dayParts[at(0)]
	number, err := numberSaid(at(0))
	switch {
	case isPart && at(1) == "before":
		d.Before, d.Part = 1, part
		return d, n + 2
	case isPart && lead != "" && lead != "a" && (at(0) != "day" || lead == "same" || at(1) == "" || at(1) == "at" ||
		isClock(at(1))):
		d.Part = part
		return d, n + 1
	case err == nil && number > 0 && number <= planner.MaxPrepDays && (at(1) == "days" || at(1) == "day") &&
		slices.Contains([]string{"before", "ahead", "earlier", "beforehand"}, at(2)):
		d.Before = number
		return d, n + 3
	case weekdays[at(0)]:
		d.Name = at(0)
		if p, ok := dayParts[at(1)]; ok && p != "" {
			d.Part = p
			return d, n + 2
		}
		return d, n + 1
	}
	if words := dateAt(at(0), at(1)); words > 0 {
		d.Name = strings.Join(w[n:n+words], " ")
		return d, n + words
	}
	return Day{}, 0
}

// dateAt is of how many of two words a date is: "5 dec", "dec 5", "2026-12-05"; 0: none.
func dateAt(first, second string) int {
	number, err := strconv.Atoi(first)
	switch {
	case err == nil && number > 0 && number <= 31 && months[second], months[first] && second != "" && second[0] <= '9':
		return 2
	case len(first) == 10 && strings.Count(first, "-") == 2 && first[0] == '2':
		return 1
	}
	return 0
}

// numberSaid is a number in figures or in words.
func numberSaid(w string) (int, error) {
	switch {
	case w == "one":
		return 1, nil
	case manuscript.Numbers[w] > 0:
		return manuscript.Numbers[w], nil
	}
	return strconv.Atoi(w)
}
