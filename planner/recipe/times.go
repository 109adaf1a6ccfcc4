package recipe

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tureen/planner/measure"
	"tureen/planner/words"
)

const (
	hour = 60
	day  = 24 * hour
)

// found is a duration in a text.
type found struct {
	measure.Duration
	start, end int  // bytes
	vague      bool // "overnight": the length is ours
	atLeast    bool
	upTo       bool
	more       bool // another 5 minutes
	every      bool // every 20 minutes
	before     bool // an hour before serving
	per        int  // for so many grams: 20 minutes per 500 g
	after      bool // after an hour: when, and not how long
	ahead      bool // a day ahead
	last       bool // the last 45 minutes
}

const (
	numberPattern = `(?:\d+\s+\d/\d|\d+\s+and\s+a\s+half|\d/\d|\d+(?:[.,]\d+)?\s?[¼½¾⅓⅔⅛]?|` +
		`[¼½¾⅓⅔⅛]|\b(?:an?|one|two|three|four|five|six|` +
		`seven|eight|nine|ten|twelve|fifteen|twenty|twenty-five|thirty|thirty-five|forty|forty-five|fifty|` +
		`ninety)(?:\s+and\s+a\s+half)?)`
	unitPattern = `(?:seconds?|secs?|minutes?|mins?|hours?|hrs?|h|days?|weeks?|months?)`
)

var (
	durationRE = regexp.MustCompile(`(?i)` + numberPattern + `(?:\s*(?:-|–|—|\bto\b|\bor\b)\s*` + numberPattern +
		`)?[\s-]*(?:\b(?:good|full|whole|more|further)\s+)?` + unitPattern +
		`\b\.?(?:(?:\s+and)?\s+(?:a\s+half\b|\d{1,2}(?:\s*(?:-|–|to)\s*\d{1,2})?(?:\s*(?:minutes?|mins?|m)\b)?))?`)
	vagueRE = regexp.MustCompile(`(?i)\b(?:overnight|over night|night before|all night|for the night|all day|` +
		`(?:un)?till? (?:the )?(?:next|following) (?:day|morning|afternoon|evening)|` +
		`(?:un)?till? (?:the morning|morning|tomorrow)|(?:a )?half(?: an)? hour|(?:a )?few ` +
		`(?:more |extra )?(?:minutes|mins)|(?:a )?couple (?:more |of (?:more )?)?(?:minutes|mins)|a couple of hours|` +
		`a few hours|a minute or two|an hour or so|an hour or two|an hour and a quarter|` +
		`an hour and three quarters|a quarter of an hour|three quarters of an hour)\b`)
	// longRE is what lasts as "overnight" does.
	longRE = regexp.MustCompile(`night|\btill? |all day|until`)
	tailRE = regexp.MustCompile(`(?i)(?:\s+and)?\s+\d{1,2}(?:\s*(?:-|–|to)\s*\d{1,2})?$`)
)

// What words for a time mean in minutes: common practice, no source. The first eight hours of a night are a
// night's sleep, and nobody gets up for a dough.
var vagueLengths = map[string]measure.Duration{
	"overnight": {Low: 8 * hour, High: 12 * hour}, "over night": {Low: 8 * hour, High: 12 * hour},
	"night before": {Low: 8 * hour, High: 12 * hour},
	"half an hour": {Low: 30, High: 30}, "half hour": {Low: 30, High: 30}, "a half hour": {Low: 30, High: 30},
	"a couple of minutes": {Low: 2, High: 2},
	"a couple of hours":   {Low: 2 * hour, High: 2 * hour}, "a few hours": {Low: 3 * hour, High: 4 * hour},
	"a minute or two": {Low: 1, High: 2},
	"an hour or so":   {Low: 60, High: 75}, "an hour or two": {Low: 60, High: 120},
	"an hour and a quarter": {Low: 75, High: 75}, "an hour and three quarters": {Low: 105, High: 105},
	"a quarter of an hour": {Low: 15, High: 15}, "three quarters of an hour": {Low: 45, High: 45},
}

// endlessRE is a length of five digits and more, of whatever unit: no dish takes it.
var endlessRE = regexp.MustCompile(`(?i)\b\d{5,}\s*` + unitPattern + `\b`)

// endless refuses a text with such a length in it.
func endless(text string) error {
	if said := endlessRE.FindString(text); said != "" {
		return refuse(strconv.Quote(words.Cut(said, 40))+" is longer than any dinner is prepared.", "Check the number.")
	}
	return nil
}

// durations finds the durations of a text, in order.
func durations(text string) []found {
	var out []found
	low := words.Small(text)
	taken := func(a, b int) bool {
		for _, f := range out {
			if a < f.end && b > f.start {
				return true
			}
		}
		return false
	}
	for _, m := range vagueRE.FindAllStringIndex(low, -1) {
		said := low[m[0]:m[1]]
		d, ok := vagueLengths[said]
		switch {
		case ok:
		case strings.Contains(said, "couple"):
			d = measure.Duration{Low: 2, High: 3}
		case longRE.MatchString(said):
			d = vagueLengths["overnight"]
		default:
			d = measure.Duration{Low: 3, High: 5}
		}
		f := found{Duration: d, start: m[0], end: m[1]}
		f.vague = longRE.MatchString(said) || strings.Contains(said, "few")
		out = append(out, f)
	}
	for _, m := range clockLikeRE.FindAllStringSubmatchIndex(low, -1) {
		if !taken(m[0], m[1]) {
			out = append(out, found{Duration: clockLike(low, m), start: m[0], end: m[1]})
		}
	}
	for _, m := range durationRE.FindAllStringIndex(low, -1) {
		if taken(m[0], m[1]) {
			continue
		}
		said := low[m[0]:m[1]]
		if !strings.Contains(said, "h") {
			// 10 min 20 is no length: only hours have a tail without a unit.
			if t := tailRE.FindStringIndex(said); t != nil {
				m[1] -= t[1] - t[0]
				said = said[:t[0]]
			}
		}
		clean := plainNumbers.Replace(said)
		if months := strings.Index(clean, "month"); months >= 0 {
			clean = clean[:months] + "days"
		}
		d, err := measure.ParseDuration(strings.TrimRight(clean, ". "))
		if strings.Contains(said, "month") {
			d.Low, d.High = min(d.Low*30, measure.MaxMinutes), min(d.High*30, measure.MaxMinutes)
		}
		if err != nil || d.High == 0 {
			continue
		}
		out = append(out, found{Duration: d, start: m[0], end: m[1]})
	}
	sortFound(out)
	out = joinRanges(low, out)
	for i := range out {
		out[i].words(low)
	}
	return out
}

// plainNumbers writes a length's numbers as digits, and leaves away what changes nothing.
var plainNumbers = strings.NewReplacer(append([]string{" and a half ", "½ ", " or ", " to ", "more ", "",
	"further ", "",
	"good ", "", ",", "."}, phrases.Phrases("numbers")...)...)

// clockLikeRE are lengths such as 1h30, 1:30 hours, 45', another minute.
var clockLikeRE = regexp.MustCompile(`\b(\d{1,2})\s?h\s?(\d{2})\s?(?:m|min|mins|minutes)?\b|` +
	`\b(\d{1,2}):(\d{2})\s?(?:h|hrs?|hours?)\b|\b(\d{1,3})['′](?:\s|$|[,.;])|` +
	`\b(?:another|further|extra|additional) (minute|hour)\b(?: and a half\b)?`)

// clockLike is the length at a match of clockLikeRE.
func clockLike(low string, m []int) measure.Duration {
	group := func(n int) int {
		if m[2*n] < 0 {
			return 0
		}
		v, _ := strconv.Atoi(low[m[2*n]:m[2*n+1]])
		return v
	}
	n := group(1)*hour + group(2) + group(3)*hour + group(4) + group(5)
	if m[12] >= 0 {
		n = 1
		if low[m[12]:m[13]] == "hour" {
			n = hour
		}
		if strings.HasSuffix(low[:m[1]], "half") {
			n += n / 2
		}
	}
	return measure.Duration{Low: n, High: n}
}

func sortFound(all []found) {
	for i := 1; i < len(all); i++ {
		for j := i; j > 0 && all[j].start < all[j-1].start; j-- {
			all[j], all[j-1] = all[j-1], all[j]
		}
	}
}

// joinRanges makes one of "30 min to 1 hour".
func joinRanges(text string, all []found) []found {
	var out []found
	for _, f := range all {
		if n := len(out); n > 0 {
			between := strings.TrimSpace(text[out[n-1].end:f.start])
			if (between == "to" || between == "-" || between == "–") && out[n-1].Low <= f.High && !f.vague {
				out[n-1].High, out[n-1].end = f.High, f.end
				continue
			}
		}
		out = append(out, f)
	}
	return out
}

// words sees what the words round a duration make of it.
func (f *found) words(text string) {
	before := " " + strings.TrimSpace(text[:f.start])
	for strings.HasSuffix(before, " about") || strings.HasSuffix(before, " for") || strings.HasSuffix(before, " a") ||
		strings.HasSuffix(before, " good") || strings.HasSuffix(before, " a good") {
		before = " " + strings.TrimSpace(before[:strings.LastIndexByte(before, ' ')])
	}
	ends := func(words ...string) bool {
		for _, w := range words {
			if strings.HasSuffix(before, " "+w) {
				return true
			}
		}
		return false
	}
	after := strings.TrimSpace(text[f.end:])
	starts := func(words ...string) bool {
		for _, w := range words {
			if strings.HasPrefix(after, w) {
				return true
			}
		}
		return false
	}
	f.atLeast = ends("at least", "minimum", "minimum of", "not less than") || starts("or more", "at least", "minimum",
		"or longer")
	f.upTo = ends("up to", "at most", "no more than", "or up to", "maximum", "for up to")
	f.per = perWeight(after)
	f.more = ends("another", "further", "a further", "plus") || starts("more", "longer") ||
		strings.Contains(text[f.start:f.end], " more ") || strings.Contains(text[f.start:f.end], "further ")
	f.every = ends("every", "each")
	f.after = after == "in" || starts("in,", "in.", "in;", "in)") || ends("after", "at", "at around", "at about", "around the", "at the")
	f.before = starts("before") && !strings.HasSuffix(strings.TrimRight(text[:f.start], " "), " for")
	if f.before && starts("before the end", "before it is done", "before they are done", "before it is ready",
		"before the cooking", "before it comes out", "before the time is up") {
		f.before, f.last = false, true // told from the end of the cooking, not of the dinner
	}
	f.ahead = starts("ahead", "in advance", "beforehand", "or so ahead")
	f.last = f.last || ends("last", "the last", "final")
	if n := batchesIn(text[:f.start]); n > 1 && starts("each", "per batch", "a batch", "a time") {
		f.Low, f.High = n*f.Low, n*f.High
	}
	if starts("per side", "a side", "each side", "on each side", "on both sides") {
		f.Low, f.High = 2*f.Low, 2*f.High
	}
}

// batchesIn is in how many batches a text says that it is done; 0: it does not say.
func batchesIn(text string) int {
	w := strings.Fields(text)
	for i := 1; i < len(w); i++ {
		if b := strings.Trim(w[i], ",.;("); b == "batches" || b == "goes" || b == "lots" {
			n, _ := numberSaid(w[i-1])
			return min(n, 6)
		}
	}
	return 0
}

// perWeight reads "per 500 g", "a pound", "for every kilo", in grams.
func perWeight(text string) int {
	for _, lead := range []string{"per ", "for every ", "for each ", "a ", "every "} {
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

var (
	tempPattern = `(?:gas mark|gas|mark)\s*(?:\d{1,2}|½|¼|1/2|1/4)\b|\d{2,3}\s*(?:°|º|˚)?\s*(?:c|f|celsius|` +
		`fahrenheit)\b(?:\s*\(fan\)|\s+fan\b)?|\d{2,3}\s*(?:°|º|˚)|\d{2,3}\s+degrees(?:\s*(?:c|f|celsius|` +
		`fahrenheit)\b)?|\b\d{3}\s+fan\b`
	tempRE     = regexp.MustCompile(`(?i)(?:` + tempPattern + `)(?:\s*[/,(;–-]\s*(?:or\s+)?(?:` + tempPattern + `)\)?)*`)
	oneTempRE  = regexp.MustCompile(`(?i)` + tempPattern)
	bareOvenRE = regexp.MustCompile(`(?i)\boven\s+(?:at|to)?\s*(\d{3})\b|\b(?:bake|roast|cook)[a-z ` +
		`]{0,20}\bat\s+(\d{3})\b|\b(?:turn|turned)\b[a-z ` +
		`]{0,20}\b(?:down|up)\s+to\s+(\d{3})\b`)
	// shortOvenRE is an oven's heat without the word: "220 for 30 min".
	shortOvenRE = regexp.MustCompile(`\b(1[2-9][05]|2[0-6][05]|3\d[05]|4[0-5][05])\s+for\s+[a-z ]{0,12}` + numberPattern +
		`[\s-]*` + unitPattern + `\b`)
	wordOvenRE = regexp.MustCompile(`(?i)\b((?:very |moderately |fairly ` +
		`)?(?:hot|moderate|slow|cool|warm|medium))\s+oven\b`)
)

// heat is a temperature in a text.
type heat struct {
	measure.Setting
	start, end int
	inside     bool // of the food: a sign that it is done
}

// temperatures finds the temperatures of a text. A number of degrees without a scale is °F in a recipe that is
// American and beyond what a Celsius oven has.
func temperatures(text string, american bool) []heat {
	var out []heat
	low := words.Small(text)
	add := func(said string, start, end int) {
		s, err := measure.ParseTemperature(said)
		if err != nil {
			return
		}
		near := low[max(0, start-40):min(len(low), end+24)]
		h := heat{Setting: s, start: start, end: end}
		for _, w := range []string{"inside", "internal", "in the middle", "in the centre", "in the center", "thermometer",
			"registers", "reads", "read", "reaches", "reached", "core", "thickest"} {
			if strings.Contains(near, w) && s.Temperature.C() < 110 {
				h.inside = true
			}
		}
		if at := strings.LastIndex(low[:start], "until"); at >= 0 && start-at < 60 && s.Temperature.C() < 100 {
			h.inside = true
		}
		out = append(out, h)
	}
	for _, m := range tempRE.FindAllStringIndex(low, -1) {
		first := oneTempRE.FindString(low[m[0]:m[1]])
		switch {
		case strings.Contains(first, "degrees") && !strings.ContainsAny(strings.TrimPrefix(first[strings.Index(first,
			"degrees"):], "degrees"), "cf"),
			strings.TrimRight(first, "°º˚ ") != first:
			n := strings.TrimRight(strings.TrimSpace(strings.ReplaceAll(first, "degrees", "")), "°º˚ ")
			if len(n) == 3 && (n > "260" || american && n >= "200") {
				first = n + "F"
			} else {
				first = n + "C"
			}
		}
		add(strings.NewReplacer("(", " ", ")", " ", "celsius", "C", "fahrenheit", "F", "degrees", "°").Replace(first), m[0],
			m[1])
	}
	for _, m := range shortOvenRE.FindAllStringSubmatchIndex(low, -1) {
		n := low[m[2]:m[3]]
		if n > "260" {
			n += "F"
		}
		if !slices.ContainsFunc(out, func(h heat) bool { return m[2] < h.end && m[3] > h.start }) {
			add(n, m[2], m[3])
		}
	}
	slices.SortStableFunc(out, func(a, b heat) int { return a.start - b.start })
	for _, h := range out {
		if !h.inside {
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
	for _, m := range wordOvenRE.FindAllStringSubmatchIndex(low, -1) {
		add(low[m[2]:m[3]]+" oven", m[0], m[1])
	}
	return out
}
