package page

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
)

// node is an object of JSON-LD.
type node map[string]any

// uncommented takes whole lines of comment off the front of data.
func uncommented(text string) string {
	for strings.HasPrefix(text, "//") {
		_, rest, _ := strings.Cut(text, "\n")
		text = strings.TrimLeftFunc(rest, unicode.IsSpace)
	}
	return text
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
			if last := bytes.TrimRight(plain[:i], " \t\r\n"); len(last) > 0 && last[len(last)-1] == ',' {
				plain[len(last)-1] = ' ' // a comma after the last of a list
			}
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
