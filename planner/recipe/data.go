package recipe

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"tureen/planner/measure"
)

// node is an object of JSON-LD.
type node map[string]any

// readData reads JSON-LD.
func readData(text string) (*Reading, error) {
	v, err := decode(text)
	if err != nil {
		return nil, err
	}
	n := findRecipe(v)
	if n == nil {
		return nil, &Refusal{"There is no schema.org Recipe in this data" + otherType(v) + ".",
			"Save the recipe's own page, or paste its text."}
	}
	return fromNode(n)
}

// decode reads JSON of a bounded depth.
func decode(text string) (any, error) {
	inString := false
	plain := []byte(text)
	var open []byte // what closes the brackets that are open
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case inString && c == '\\':
			if i++; i < len(text) && !strings.ContainsRune(`"\/bfnrtu`, rune(text[i])) {
				plain[i-1] = ' ' // \', which some pages have against the rules
			}
		case c == '"':
			inString = !inString
		case inString && c < ' ':
			plain[i] = ' ' // a line's end within a text, as well
		case inString:
		case c == '{' || c == '[':
			if open = append(open, c+2); len(open) > maxDepth {
				return nil, &Refusal{"This data is nested too deeply to be a recipe.", "Paste the recipe's text instead."}
			}
		case (c == '}' || c == ']') && len(open) > 0:
			open = open[:len(open)-1]
		}
	}
	d := json.NewDecoder(bytes.NewReader(plain))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		at := d.InputOffset()
		if syntax, ok := err.(*json.SyntaxError); ok {
			at = syntax.Offset
		} else if errors.Is(err, io.ErrUnexpectedEOF) {
			at = int64(len(text))
		}
		line := 1 + strings.Count(text[:min(int(at), len(text))], "\n")
		if v = beforeBreak(plain[:min(int(at), len(plain))]); v != nil {
			findRecipe(v)[brokenAt] = fmt.Sprintf("The recipe data is broken JSON at line %d: what stands after it was skipped.",
				line)
			return v, nil
		}
		return nil, &Refusal{fmt.Sprintf("The recipe data is broken JSON, at line %d.", line),
			"Save the page again, or paste the recipe's text."}
	}
	return v, nil
}

// brokenAt is where a node says that its data was broken.
const brokenAt = "tureen:broken"

// beforeBreak is data up to the last value before it breaks, nil where that has no ingredients and method.
func beforeBreak(text []byte) any {
	inString := false
	var open, closing []byte
	last := 0
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case inString && c == '\\':
			i++
		case c == '"':
			inString = !inString
		case inString:
		case c == '{' || c == '[':
			open = append(open, c+2)
		case c == ',':
			last, closing = i, append(closing[:0], open...)
		case (c == '}' || c == ']') && len(open) > 0:
			open = open[:len(open)-1]
		}
	}
	whole := append([]byte{}, text[:last]...)
	for i := len(closing) - 1; i >= 0; i-- {
		whole = append(whole, closing[i])
	}
	d := json.NewDecoder(bytes.NewReader(whole))
	d.UseNumber()
	var v any
	if d.Decode(&v) != nil {
		return nil
	}
	if n := findRecipe(v); n != nil && n["recipeIngredient"] != nil && n["recipeInstructions"] != nil {
		return v
	}
	return nil
}

// findRecipe finds the first Recipe, in lists, @graph and below other things.
func findRecipe(v any) node {
	switch v := v.(type) {
	case map[string]any:
		if isType(v, "Recipe") {
			return v
		}
		for _, key := range []string{"@graph", "mainEntity", "mainEntityOfPage", "itemListElement", "item", "hasPart",
			"about"} {
			if n := findRecipe(v[key]); n != nil {
				return n
			}
		}
	case []any:
		for _, one := range v {
			if n := findRecipe(one); n != nil {
				return n
			}
		}
	}
	return nil
}

func isType(v map[string]any, want string) bool {
	for _, t := range flat(v["@type"]) {
		if s, ok := t.(string); ok && lastSegment(s) == want {
			return true
		}
	}
	return false
}

// otherType says what the data is about instead.
func otherType(v any) string {
	if m, ok := v.(map[string]any); ok {
		for _, t := range flat(m["@type"]) {
			if s, ok := t.(string); ok && len(s) < 40 {
				return "; it describes a " + lastSegment(s)
			}
		}
	}
	return ""
}

// flat is a value as a list: JSON-LD writes one thing without brackets.
func flat(v any) []any {
	switch v := v.(type) {
	case nil:
		return nil
	case []any:
		return v
	case map[string]any:
		if l, ok := v["@list"].([]any); ok {
			return l
		}
	}
	return []any{v}
}

// words is a value as text.
func wordsOf(v any) string {
	for _, one := range flat(v) {
		switch one := one.(type) {
		case string:
			return stripped(one)
		case json.Number:
			return one.String()
		case map[string]any:
			for _, key := range []string{"@value", "text", "name", "value"} {
				if s := wordsOf(one[key]); s != "" {
					return s
				}
			}
		}
	}
	return ""
}

// fromNode reads a Recipe.
func fromNode(n node) (*Reading, error) {
	all := wordsOf(n["name"]) + "\n" + wordsOf(n["recipeYield"])
	var lines []string
	for _, key := range []string{"recipeIngredient", "ingredients"} {
		for _, v := range flat(n[key]) {
			lines = append(lines, strings.Split(ingredientText(v), "\n")...)
		}
		if len(lines) > 0 {
			break
		}
	}
	method := instructions(n["recipeInstructions"], "", 0)
	for _, m := range method {
		all += "\n" + m.text
	}
	all += "\n" + strings.Join(lines, "\n")
	if letters := foreignLetters(all); letters != "" {
		return nil, &Refusal{"This is written in " + letters + ", and I read English only.", inEnglish}
	}
	t := textReader{r: &Reading{Usage: usageOf(all)}}
	t.r.Title = cut(strings.Join(strings.Fields(wordsOf(n["name"])), " "), 70)
	if t.r.Title == "" {
		t.r.Title = unnamed
	}
	if broken, ok := n[brokenAt].(string); ok {
		t.skipped(broken)
	}
	t.dataYield(n["recipeYield"])
	for _, c := range []struct{ key, what string }{{"prepTime", "p"}, {"cookTime", "c"}, {"totalTime", "t"}} {
		text := wordsOf(n[c.key])
		if text == "" {
			continue
		}
		d, err := ParseISODuration(text)
		if err != nil {
			t.r.Remarks = append(t.r.Remarks, Remark{Kind: Unread, From: Place{Text: c.key + ": " + cut(text, 40)}})
			continue
		}
		t.clock(c.what, d)
	}
	for _, line := range lines {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		if err := t.ingredient(line, Place{Text: line}); err != nil {
			if len(lines) < 3 {
				return nil, err
			}
			t.skipped("This line of the ingredients was skipped: " + strconv.Quote(cut(line, 60)) + " (" + err.Error() + ").")
		}
	}
	for _, m := range method {
		t.section = m.section
		for _, line := range strings.Split(m.text, "\n") {
			if line = strings.TrimSpace(line); line == "" || strings.Trim(line, ".") == "" {
				continue
			}
			if m.told {
				t.method = append(t.method, sentence{text: line, section: m.section, from: Place{Text: line}, told: true})
				continue
			}
			t.say(line, Place{Text: line})
		}
	}
	if about := wordsOf(n["description"]); about != "" && len(about) < 2000 {
		for _, s := range sentences(about) {
			t.method = append(t.method, sentence{text: s, from: Place{Text: s}, about: true})
		}
	}
	return t.finish()
}

// skipped says what was not read.
func (t *textReader) skipped(what string) {
	t.r.Remarks = append(t.r.Remarks, Remark{Kind: Unread, From: Place{Text: what}})
}

// dataYield reads "8 servings", 8, ["8", "8 servings"], or a QuantitativeValue.
func (t *textReader) dataYield(v any) {
	for _, one := range flat(v) {
		text := wordsOf(one)
		if m, ok := one.(map[string]any); ok {
			text = strings.TrimSpace(wordsOf(m["value"]) + " " + wordsOf(m["unitText"]))
		}
		if text == "" {
			continue
		}
		t.r.Yield = text
		if n, err := strconv.Atoi(text); err == nil && n > 0 && n <= 500 {
			t.r.Serves = n
			return
		}
		if m := servingsRE.FindStringSubmatch(text); m != nil {
			t.r.Serves, _ = strconv.Atoi(m[1])
			return
		}
		if m := yieldRE.FindStringSubmatch(text); m != nil {
			t.yield(text, m[1:])
			return
		}
	}
}

var servingsRE = regexp.MustCompile(`(?i)\b(\d{1,3})\s*(?:servings?|portions?|people|persons?|covers)\b`)

// Unit codes of UN/ECE Recommendation 20 that recipes use, from memory.
var unitCodes = map[string]string{"G21": "cup", "G24": "tablespoon", "G25": "teaspoon", "GRM": "g", "KGM": "kg",
	"MLT": "ml", "LTR": "l", "CLT": "cl", "DLT": "dl", "ONZ": "oz", "LBR": "lb", "PTL": "pint", "QTL": "quart"}

// ingredientText is an ingredient as a line of text.
func ingredientText(v any) string {
	m, ok := v.(map[string]any)
	if !ok {
		return wordsOf([]any{v})
	}
	unit := wordsOf(m["unitText"])
	if unit == "" {
		code := wordsOf(m["unitCode"])
		if unit = unitCodes[code]; unit == "" && len(code) < 8 {
			unit = code
		}
	}
	return strings.Join(nonEmpty(wordsOf(m["value"]), unit, wordsOf(m["name"])), " ")
}

// piece is a piece of a method.
type piece struct {
	text, section string
	told          bool // it is one step, in the words of our own export
}

// instructions gathers the method from text, lists, HowToStep, HowToSection and ItemList.
func instructions(v any, section string, depth int) []piece {
	var out []piece
	if depth > 8 {
		return nil
	}
	for _, one := range flat(v) {
		switch one := one.(type) {
		case string:
			out = append(out, piece{text: stripped(one), section: section})
		case map[string]any:
			inner := section
			if isType(one, "HowToSection") {
				inner = lower(strings.TrimSuffix(wordsOf(one["name"]), ":"))
				for _, lead := range []string{"for the ", "make the ", "the "} {
					inner = strings.TrimPrefix(inner, lead)
				}
				if len(strings.Fields(inner)) > 4 {
					inner = section
				}
			}
			if list := one["itemListElement"]; list != nil {
				out = append(out, instructions(list, inner, depth+1)...)
				continue
			}
			text := wordsOf(one["text"])
			if text == "" {
				text = wordsOf(one["name"])
			}
			if text == "" {
				text = wordsOf(one["description"])
			}
			out = append(out, piece{text: text, section: inner, told: toldRE.MatchString(text)})
		}
	}
	return out
}

var isoRE = regexp.MustCompile(`^P(?:(\d+(?:[.,]\d+)?)W)?(?:(\d+(?:[.,]\d+)?)D)?` +
	`(?:T(?:(\d+(?:[.,]\d+)?)H)?(?:(\d+(?:[.,]\d+)?)M)?(?:(\d+(?:[.,]\d+)?)S)?)?$`)

// ParseISODuration reads an ISO 8601 duration of weeks, days, hours, minutes and seconds, in whole minutes rounded
// up: "PT1H30M", "P1DT12H", "PT0.5H". Years and months have no fixed length and are refused.
func ParseISODuration(text string) (measure.Duration, error) {
	bad := &Refusal{fmt.Sprintf("%q is no ISO 8601 duration.", cut(text, 30)), "Write it as PT1H30M."}
	m := isoRE.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || strings.HasSuffix(text, "T") || strings.Join(m[1:], "") == "" {
		return measure.Duration{}, bad
	}
	sum := new(big.Rat)
	for i, per := range []*big.Rat{big.NewRat(7*day, 1), big.NewRat(day, 1), big.NewRat(hour, 1), big.NewRat(1, 1),
		big.NewRat(1, 60)} {
		if m[i+1] == "" {
			continue
		}
		if len(m[i+1]) > 12 {
			return measure.Duration{}, bad
		}
		v, ok := new(big.Rat).SetString(strings.ReplaceAll(m[i+1], ",", "."))
		if !ok {
			return measure.Duration{}, bad
		}
		sum.Add(sum, v.Mul(v, per))
	}
	if sum.Cmp(big.NewRat(measure.MaxMinutes, 1)) > 0 {
		return measure.Duration{}, &Refusal{fmt.Sprintf("%q is longer than any dinner is prepared.", cut(text, 30)),
			"Check the duration."}
	}
	up := new(big.Int).Add(sum.Num(), new(big.Int).Sub(sum.Denom(), big.NewInt(1)))
	n := int(up.Div(up, sum.Denom()).Int64())
	return measure.Duration{Low: n, High: n}, nil
}

// ISODuration writes minutes as an ISO 8601 duration: "PT1H30M".
func ISODuration(minutes int) string {
	if minutes <= 0 {
		return "PT0M"
	}
	out := "P"
	if d := minutes / day; d > 0 {
		out += fmt.Sprintf("%dD", d)
	}
	h, m := minutes%day/hour, minutes%hour
	if h+m > 0 {
		out += "T"
	}
	if h > 0 {
		out += fmt.Sprintf("%dH", h)
	}
	if m > 0 {
		out += fmt.Sprintf("%dM", m)
	}
	return out
}
