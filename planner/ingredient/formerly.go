package ingredient

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"tureen/planner/words"
)

// former are measures that nobody sells a vessel for any more, with what they hold: how many of which unit. From
// memory:
// a wine-glass is two fluid ounces, a teacup a quarter of a pint, a breakfast cup half a pint.
var former = func() map[string]formerMeasure {
	out := map[string]formerMeasure{}
	for _, p := range lists.Phrases("former measures") {
		var f formerMeasure
		at := strings.LastIndexByte(p[:strings.LastIndexByte(p, ' ')], ' ')
		if _, err := fmt.Sscan(p[at:], &f.n, &f.unit); err != nil {
			panic("ingredient: " + p + ": " + err.Error())
		}
		out[p[:at]] = f
	}
	return out
}()

type formerMeasure struct {
	n    float64
	unit string
}

var formerSizes = lists.Set("former sizes")

// modern writes a line that begins with a former measure with today's: "a wine-glass of brandy" is 60 ml of it, "three
// quarters of a pound" is ¾ pound.
func modern(text string) string {
	low := words.Small(text)
	if len(low) != len(text) || low == "" || low[0] >= utf8.RuneSelf {
		return text
	}
	f := strings.Fields(low)
	n, i := 1.0, 0
	if share, ok := quarters(text, low); ok {
		return share
	}
	if len(f) > i && f[i] == "half" {
		n, i = 0.5, i+1
	}
	if len(f) > i && (f[i] == "a" || f[i] == "an") {
		i++
	} else if len(f) > i {
		v, err := strconv.Atoi(f[i])
		if at := slices.Index(smallCounts, f[i]); err != nil && at >= 0 {
			v, err = at+1, nil
		}
		if err == nil && v > 0 && v < 100 {
			n, i = n*float64(v), i+1
		}
	}
	for len(f) > i && formerSizes[f[i]] {
		i++
	}
	if len(f) <= i || i == 0 {
		return text
	}
	for k := 2; k > 0; k-- {
		if len(f) < i+k {
			continue
		}
		name := strings.Join(f[i:i+k], " ")
		m, ok := former[name]
		if !ok {
			if m, ok = former[strings.TrimSuffix(name, "s")]; !ok {
				m, ok = former[strings.TrimSuffix(name, "es")]
			}
		}
		if !ok || len(f) <= i+k || f[i+k] != "of" {
			continue
		}
		rest := strings.Join(strings.Fields(text)[i+k+1:], " ")
		return strconv.FormatFloat(n*m.n, 'g', 4, 64) + " " + m.unit + " " + rest
	}
	return text
}

// inFull writes the short forms of a card in full: 1 lg onion, chpd.
func inFull(text string) string {
	for _, p := range []string{"s & p", "s&p", "s + p", "s and p"} {
		if strings.EqualFold(strings.Trim(text, " .,"), p) {
			return "salt and pepper"
		}
	}
	f := strings.Fields(text)
	changed := false
	for i, w := range f {
		bare := strings.TrimRight(w, ".,;")
		if long, ok := shortForms[bare]; ok && (i > 0 || len(f) > 1) {
			f[i], changed = long+strings.TrimLeft(w[len(bare):], "."), true
		}
	}
	if !changed {
		return text
	}
	return strings.Join(f, " ")
}

// shortForms are words that cards write short, by those. Common practice, no source.
var shortForms = func() map[string]string {
	out := map[string]string{}
	for _, p := range lists.Phrases("short forms") {
		short, long, _ := strings.Cut(p, " ")
		out[short] = long
	}
	return out
}()

// quarters writes "three quarters of a pound" with a figure.
func quarters(text, low string) (string, bool) {
	for lead, figure := range map[string]string{"three quarters of a ": "¾ ", "three quarters of an ": "¾ ",
		"a quarter of a ": "¼ ", "a quarter of an ": "¼ "} {
		if rest, ok := strings.CutPrefix(low, lead); ok {
			return figure + text[len(text)-len(rest):], true
		}
	}
	return "", false
}

var smallCounts = strings.Fields("one two three four five six seven eight nine ten eleven twelve")
