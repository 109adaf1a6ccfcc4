package times

import (
	"regexp"
	"slices"
	"strings"

	"tureen/planner/measure"
	"tureen/planner/words"
)

var (
	tempPattern = `(?:gas mark|gas|mark)\s*(?:\d{1,2}|½|¼|1/2|1/4)\b|\d{2,3}\s*(?:°|º|˚)?\s*(?:c|f|celsius|` +
		`fahrenheit)\b(?:\s*\(fan\)|\s+fan\b)?|\d{2,3}\s*(?:°|º|˚)|\d{2,3}\s*deg(?:ree)?s?\b\.?(?:\s*(?:c|f|celsius|` +
		`fahrenheit)\b)?|\b\d{3}\s+fan\b`
	tempRE     = regexp.MustCompile(`(?i)(?:` + tempPattern + `)(?:\s*[/,(;–-]\s*(?:or\s+)?(?:` + tempPattern + `)\)?)*`)
	oneTempRE  = regexp.MustCompile(`(?i)` + tempPattern)
	bareOvenRE = regexp.MustCompile(`(?i)\boven\s+(?:(?:on |should be |needs to be |must be )?at|(?:down |up |on ` +
		`)?to)?\s*(\d{3})\b|\b(\d{3})\s+oven\b|\b(?:bake|roast|cook)[a-z ` +
		`]{0,20}\bat\s+(\d{3})\b|\b(?:turn|turned)\b[a-z ` +
		`]{0,20}\b(?:down|up)\s+to\s+(\d{3})\b`)
	// shortOvenRE is an oven's heat without the word: "220 for 30 min".
	shortOvenRE = regexp.MustCompile(`\b(1[2-9][05]|2[0-6][05]|3\d[05]|4[0-5][05])\s+for\s`)
	// commaOvenRE is an oven's heat behind a comma: "in a low oven, 150".
	commaOvenRE = regexp.MustCompile(`\boven,\s+(?:at |about |around )?(1\d[05]|2[0-6][05]|3\d[05]|4[0-5][05])` +
		`(?:[.,;)]|\s+(?:for|and|then|until|till)\b|\s*$)`)
	// behindRE is the same behind a length: "30 minutes at 220".
	behindRE = regexp.MustCompile(`\bat\s+(1[2-9][05]|2[0-6][05]|3\d[05]|4[0-5][05])(?:[.,;)]|\s+(?:and|then|until|` +
		`fan)\b|\s*$)`)
	wordOvenRE = regexp.MustCompile(`(?i)\b((?:very |moderately |fairly ` +
		`)?(?:hot|quick|brisk|moderate|slow|gentle|cool|warm|medium))\s+(oven|one)\b`)
)

// oldOvens has old words for an oven's heat in today's.
var oldOvens = strings.NewReplacer("quick", "hot", "brisk", "hot", "gentle", "slow")

// plainDegrees writes every sign and word for degrees in one way.
var plainDegrees = strings.NewReplacer("(", " ", ")", " ", "celsius", "C", "fahrenheit", "F", "degrees", "°",
	"degree", "°", "degs", "°", "deg.", "°", "deg", "°", "º", "°", "˚", "°")

// Heat is a temperature in a text.
type Heat struct {
	measure.Setting
	Start, End int  // bytes
	Inside     bool // of the food: a sign that it is done
}

// Heats finds the temperatures of a text. A number of degrees without a scale is °F in a recipe that is
// American and beyond what a Celsius oven has.
func Heats(text string, american bool) []Heat {
	var out []Heat
	low := words.Small(text)
	if !strings.ContainsAny(low, "0123456789½¼") && !strings.Contains(low, "oven") {
		return nil
	}
	add := func(said string, start, end int) {
		s, err := measure.ParseTemperature(said)
		if err != nil {
			return
		}
		h := Heat{Setting: s, Start: start, End: end, Inside: s.Temperature.C() < 110 && saysInside(low, start, end)}
		if at := strings.LastIndex(low[:start], "until"); at >= 0 && start-at < 60 && s.Temperature.C() < 100 {
			h.Inside = true
		}
		out = append(out, h)
	}
	for _, m := range tempRE.FindAllStringIndex(low, -1) {
		first := plainDegrees.Replace(oneTempRE.FindString(low[m[0]:m[1]]))
		if n := strings.TrimRight(first, "° "); n != strings.TrimRight(first, " ") { // without a scale
			if len(n) == 3 && (n > "260" || american && n >= "200" || n >= "110" && saysInside(low, m[0], m[1])) {
				first = n + "F"
			} else {
				first = n + "C"
			}
		}
		add(first, m[0], m[1])
	}
	for _, m := range shortOvenRE.FindAllStringSubmatchIndex(low, -1) {
		n := low[m[2]:m[3]]
		if l := Lengths(low[m[1]:]); len(l) == 0 || l[0].Start > 12 {
			continue
		}
		if n > "260" {
			n += "F"
		}
		if !slices.ContainsFunc(out, func(h Heat) bool { return m[2] < h.End && m[3] > h.Start }) {
			add(n, m[2], m[3])
		}
	}
	if len(out) == 0 {
		behindLength(low, add)
	}
	slices.SortStableFunc(out, func(a, b Heat) int { return a.Start - b.Start })
	for _, h := range out {
		if !h.Inside {
			return out
		}
	}
	for _, m := range bareOvenRE.FindAllStringSubmatchIndex(low, -1) {
		for g := 2; g+1 < len(m); g += 2 {
			if m[g] >= 0 {
				n := low[m[g]:m[g+1]]
				if n > "260" {
					n += "F"
				}
				add(n, m[g], m[g+1])
			}
		}
	}
	wordedOvens(low, len(out) == 0, add)
	return out
}

// behindComma is an oven's heat that stands behind a comma, whatever its words are: "in a low oven, 150".
func behindComma(low string, add func(said string, start, end int)) bool {
	m := commaOvenRE.FindStringSubmatchIndex(low)
	if m == nil {
		return false
	}
	n := low[m[2]:m[3]]
	if n > "260" {
		n += "F"
	}
	add(n, m[2], m[3])
	return true
}

// behindLength is an oven's heat that stands behind a length: "give it 30 minutes at 220".
func behindLength(low string, add func(said string, start, end int)) {
	m := behindRE.FindStringSubmatchIndex(low)
	if m == nil {
		return
	}
	n := low[m[2]:m[3]]
	if n > "260" {
		n += "F"
	}
	if l := Lengths(low[:m[0]]); len(l) > 0 && l[len(l)-1].End >= m[0]-1 {
		add(n, m[2], m[3])
	}
}

// wordedOvens are the temperatures that are said in words: a quick oven, and then a moderate one;
// alone: no number says them so far, and one behind them goes before.
func wordedOvens(low string, alone bool, add func(said string, start, end int)) {
	if alone && behindComma(low, add) {
		return
	}
	for _, m := range wordOvenRE.FindAllStringSubmatchIndex(low, -1) {
		if low[m[4]:m[5]] == "oven" || strings.Contains(low[:m[0]], "oven") {
			add(oldOvens.Replace(low[m[2]:m[3]])+" oven", m[0], m[1])
		}
	}
}

// saysInside reports whether what stands near a temperature says that it is the food's own.
func saysInside(low string, start, end int) bool {
	near := low[max(0, start-40):min(len(low), end+24)]
	return slices.ContainsFunc(inside, func(w string) bool { return strings.Contains(near, w) })
}

var inside = lists.Phrases("inside")

// Span is a stretch of bytes.
type Span struct{ Start, End int }

// Spans are where lengths and temperatures stand in a text: their numbers count nothing else.
func Spans(text string) []Span {
	var out []Span
	for _, d := range Lengths(text) {
		out = append(out, Span{d.Start, d.End})
	}
	for _, h := range Heats(text, false) {
		out = append(out, Span{h.Start, h.End})
	}
	return out
}
