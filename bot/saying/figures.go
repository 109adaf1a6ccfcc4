package saying

import (
	"strconv"
	"strings"

	"tureen/planner/words"
)

// Numbers, lengths and times, in figures or in words.

var numberWords = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
	"nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
	"eighteen": 18, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "ninety": 90, "couple": 2,
	"dozen": 12, "seventeen": 17, "nineteen": 19, "seventy": 70, "eighty": 80}

// minuteWords are what minutes are called when they are glued to a figure.
var minuteWords = words.Set("m min mins minute minutes")

// figures finds numbers, lengths and times among tokens.
func figures(in []token) []token {
	var out []token
	for i := 0; i < len(in); {
		f, used := figureAt(in[i:])
		if used == 0 {
			f, used = in[i], 1
		}
		out = append(out, f)
		i += used
	}
	return out
}

// figureAt reads the figure that a text begins with; used is 0 where there is none.
func figureAt(in []token) (f token, used int) {
	if f, used = spokenAt(in); used > 0 {
		return f, used
	}
	if m, half, ok := clock(wordAt(in, 0)); ok {
		used = 1
		if next := wordAt(in, 1); next == "pm" || next == "am" {
			m, half, used = m%720, false, 2
			if next == "pm" {
				m += 720
			}
		}
		return figure(in, "#time", m, used, half)
	}
	first := wordAt(in, 0)
	if digits := strings.TrimRight(first, "abcdefghijklmnopqrstuvwxyz"); digits != first { // 10min
		n, err := strconv.Atoi(digits)
		if err == nil && n > 0 && n < 1000 && minuteWords[first[len(digits):]] {
			return figure(in, "#len", n, 1, false)
		}
	}
	n, used := number(in)
	if used == 0 {
		return token{}, 0
	}
	return withUnit(in, n, used)
}

// withUnit is a number with what it counts: minutes, with a "more" between, hours, or the hours of the clock.
func withUnit(in []token, n, used int) (token, int) {
	at := used
	more := wordAt(in, at) == "more"
	if more {
		at++
	}
	switch unit := wordAt(in, at); unit {
	case "min", "m":
		return figure(in, "#len", n, at+1, false)
	case "hour", "h":
		if !more && n <= 24 {
			return figure(in, "#len", n*60, at+1, false)
		}
	case "pm", "am", "o'clock", "oclock":
		if !more && n >= 1 && n <= 12 {
			m := n * 60
			if unit == "pm" && n < 12 {
				m += 720
			}
			return figure(in, "#time", m, at+1, unit != "pm" && unit != "am")
		}
	}
	return figure(in, "#n", n, used, false)
}

// spokenAt reads lengths and times that are said by halves and quarters.
func spokenAt(in []token) (f token, used int) {
	word := func(i int) string { return wordAt(in, i) }
	part := map[string]int{"half": 30, "quarter": 15}[word(0)]
	for _, l := range spokenLengths {
		if hasAt(in, 0, l.said) {
			return figure(in, "#len", l.minutes, len(l.said), false)
		}
	}
	switch {
	case word(0) == "a" && word(1) == "quarter", roughly[word(0)]:
		if f, n := figureAt(in[1:]); n > 0 {
			return figure(in, f.word, f.n, n+1, f.half)
		}
	case part > 0 && word(1) == "past":
		if h, n := number(in[2:]); n > 0 && h >= 1 && h <= 12 {
			return figure(in, "#time", h*60+part, 2+n, true)
		}
	case part == 0 && word(0) != "":
		return minutesAt(in)
	case word(0) == "quarter" && word(1) == "to":
		if h, n := number(in[2:]); n > 0 && h >= 1 && h <= 12 {
			return figure(in, "#time", h*60-part, 2+n, true)
		}
	case word(0) == "half":
		if h, n := number(in[1:]); n > 0 && h >= 1 && h <= 12 {
			return figure(in, "#time", h*60+part, 1+n, true)
		}
	}
	return token{}, 0
}

// minutesAt reads "ten past five" and "twenty to eight".
func minutesAt(in []token) (f token, used int) {
	past, n := number(in)
	if n == 0 || past >= 60 {
		return token{}, 0
	}
	if wordAt(in, n) == "min" {
		n++
	}
	h, more := number(in[min(n+1, len(in)):])
	switch {
	case more == 0 || h < 1 || h > 12:
	case wordAt(in, n) == "past":
		return figure(in, "#time", h*60+past, n+1+more, true)
	case wordAt(in, n) == "to" && past%5 == 0:
		return figure(in, "#time", h*60-past, n+1+more, true)
	}
	return token{}, 0
}

// roughly are words that a length or a number may have before it.
var roughly = words.Set("about around roughly approximately")

// spokenLengths are lengths that are said without a figure.
var spokenLengths = []struct {
	said    []string
	minutes int
}{{strings.Fields("half an hour"), 30}, {strings.Fields("half a hour"), 30}, {strings.Fields("a half hour"), 30},
	{strings.Fields("half hour"), 30}, {strings.Fields("quarter of an hour"), 15}, {strings.Fields("an hour"), 60},
	{strings.Fields("1 hour"), 60}}

func wordAt(in []token, i int) string {
	if i < len(in) {
		return in[i].word
	}
	return ""
}

// figure is a token for the first words of a text.
func figure(in []token, kind string, n, used int, half bool) (token, int) {
	var raw []string
	for _, t := range in[:used] {
		raw = append(raw, t.raw)
	}
	return token{raw: strings.Join(raw, " "), word: kind, n: n, half: half}, used
}

// number reads a number in figures or in words: "twenty five" too, and "a couple of".
func number(in []token) (n, used int) {
	if len(in) == 0 {
		return 0, 0
	}
	if v, err := strconv.Atoi(in[0].word); err == nil && v >= 0 && v < 100000 {
		return v, 1
	}
	at := 0
	if in[0].word == "a" && len(in) > 1 && (in[1].word == "couple" || in[1].word == "dozen") {
		at = 1
	}
	v, ok := numberWords[in[at].word]
	if !ok {
		return 0, 0
	}
	used = at + 1
	if v == 2 && in[at].word == "couple" && used < len(in) && in[used].word == "of" {
		used++
	}
	if v >= 20 && v%10 == 0 && used < len(in) {
		if one := numberWords[in[used].word]; one > 0 && one < 10 {
			return v + one, used + 1
		}
	}
	return v, used
}

// clock reads a time of the day in one word: 20:30, 20.30, 20h30, 8pm, 830, 2030. half is true where it may be the
// hour before noon or after.
func clock(w string) (m int, half, ok bool) {
	tail := 0
	head, pm := strings.CutSuffix(w, "pm")
	if !pm {
		var am bool
		if head, am = strings.CutSuffix(w, "am"); am {
			tail = -1
		}
	}
	h, mm := 0, 0
	var err1, err2 error
	switch {
	case strings.ContainsAny(head, ":.h"):
		a, b, _ := strings.Cut(strings.NewReplacer(".", ":", "h", ":").Replace(head), ":")
		if len(b) != 2 && b != "" || b == "" && !strings.HasSuffix(head, "h") || a == "" {
			return 0, false, false
		}
		h, err1 = strconv.Atoi(a)
		if b != "" {
			mm, err2 = strconv.Atoi(b)
		}
		if b == "" && h < 13 {
			return 0, false, false // "2h" is a length
		}
	case len(head) == 3 || len(head) == 4:
		h, err1 = strconv.Atoi(head[:len(head)-2])
		mm, err2 = strconv.Atoi(head[len(head)-2:])
		if h == 0 {
			return 0, false, false
		}
	case pm || tail < 0:
		h, err1 = strconv.Atoi(head)
	default:
		return 0, false, false
	}
	if err1 != nil || err2 != nil || h < 0 || h > 23 || mm < 0 || mm > 59 {
		return 0, false, false
	}
	if pm && h < 12 {
		h += 12
	}
	return h*60 + mm, !pm && tail == 0 && h > 0 && h <= 12, true
}
