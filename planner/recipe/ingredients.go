package recipe

import (
	"slices"
	"strings"

	"tureen/planner/measure"
)

// splitRun splits ingredients that stand in one line: at semicolons, else before each amount that begins a new one.
func splitRun(text string) []string {
	if strings.Contains(text, ";") {
		return strings.Split(text, ";")
	}
	var out []string
	start, depth := 0, 0
	words := strings.Fields(text)
	for i, w := range words {
		depth += strings.Count(w, "(") - strings.Count(w, ")")
		if i == start || depth > 0 || strings.HasPrefix(w, "(") || !startsAmount(w) {
			continue
		}
		before := lower(strings.Trim(words[i-1], ",."))
		if runOn[before] || startsAmount(before) {
			continue
		}
		out = append(out, strings.Trim(strings.Join(words[start:i], " "), ", "))
		start = i
	}
	return append(out, strings.Trim(strings.Join(words[start:], " "), ", "))
}

// runOn are words after which a number begins no new ingredient.
var runOn = set(`x or to and about approx approximately plus of - – / into in for`)

// ingredient reads a line of the ingredients, or the heading of a part.
func (t *textReader) ingredient(text string, from Place) error {
	text = enumRE.ReplaceAllString(text, "")
	if s, ok := sectionOf(text); ok {
		t.section = s
		return nil
	}
	text = strings.TrimPrefix(text, "Also: ")
	if all := t.several(text); all != nil {
		for _, one := range all {
			if err := t.ingredient(one, from); err != nil {
				return err
			}
		}
		return nil
	}
	l, err := ParseLineAs(t.r.Usage, text)
	if err != nil {
		return err
	}
	if l.Amount.IsZero() && l.Unit == measure.Each {
		if all := strings.Split(text, ","); len(all) >= 3 && allShort(all) {
			for _, one := range all {
				if err := t.ingredient(strings.TrimSpace(one), from); err != nil {
					return err
				}
			}
			return nil
		}
		t.bare++
	}
	t.r.Ingredients = append(t.r.Ingredients, Ingredient{Line: l, Section: t.section, From: from})
	return nil
}

// several splits "1 onion, 1 carrot, 1 stick celery, all finely chopped"; nil when a line is one ingredient.
func (t *textReader) several(text string) []string {
	parts := strings.Split(text, ", ")
	if len(parts) < 2 || len(text) > maxLine || containsWord(text, "about", "approx", "approximately", "total", "each") {
		return nil
	}
	var out []string
	for i, p := range parts {
		l, err := ParseLineAs(t.r.Usage, p)
		switch {
		case err != nil:
			return nil
		case startsAmount(p) && len(strings.Fields(p)) > 1 && !l.Amount.IsZero() && l.Name != l.Amount.Unit().Name(true) && !participles[lower(l.Name)] && !containsWord(p, "cups", "cup", "pounds", "about", "total", "each"):
			out = append(out, p)
		case i > 0 && i == len(parts)-1 && len(out) > 1 && strings.HasPrefix(lower(p), "all "):
			for k := range out {
				out[k] += ", " + p[len("all "):]
			}
		case i > 0 && len(out) > 0 && !startsAmount(p):
			out[len(out)-1] += ", " + p
		default:
			return nil
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

func allShort(all []string) bool {
	for i, a := range all {
		if n := len(strings.Fields(a)); n == 0 || n > 3 || i > 0 && prepares(a) {
			return false
		}
	}
	return true
}

// prose reads the ingredients of a recipe in one paragraph: "Take 1 kg carrots, 2 onions and 100 ml cream."
func (t *textReader) prose() error {
	var intro []Place
	for _, p := range t.intro {
		for _, s := range sentences(p.Text) {
			intro = append(intro, Place{p.Line, s})
		}
	}
	before := make([]sentence, 0, len(intro)+len(t.method))
	for _, p := range intro {
		before = append(before, sentence{text: p.Text, from: p})
	}
	for i, s := range append(before, t.method...) {
		low := lower(s.text)
		list := ""
		for _, lead := range []string{"take ", "you need ", "you will need ", "you'll need ", "use ", "using ", "with "} {
			if strings.HasPrefix(low, lead) {
				list = s.text[len(lead):]
			}
		}
		if list == "" {
			continue
		}
		list = strings.TrimRight(list, ".!")
		parts := outsideParens(list)
		if n := len(parts); n > 1 {
			if a, b, ok := strings.Cut(parts[n-1], " and "); ok && (startsAmount(b) || strings.HasPrefix(b, "some ") || strings.HasPrefix(b, "a ")) {
				parts[n-1] = a
				parts = append(parts, b)
			}
		}
		amounts := 0
		for _, p := range parts {
			if t.amountFirst(p) {
				amounts++
			}
		}
		if amounts < 2 {
			continue
		}
		for _, p := range parts {
			if err := t.ingredient(strings.TrimPrefix(strings.TrimPrefix(p, "and "), "some "), Place{s.from.Line, p}); err != nil {
				return err
			}
		}
		if i -= len(intro); i >= 0 {
			t.method = append(t.method[:i:i], t.method[i+1:]...)
		} else {
			t.intro = slices.DeleteFunc(t.intro, func(p Place) bool { return strings.Contains(p.Text, s.text) })
		}
		return nil
	}
	return nil
}

// outsideParens splits a list at its commas, but not those in parentheses.
func outsideParens(list string) (out []string) {
	depth, start := 0, 0
	for i := 0; i+1 < len(list); i++ {
		switch {
		case list[i] == '(':
			depth++
		case list[i] == ')':
			depth--
		case list[i] == ',' && list[i+1] == ' ' && depth <= 0:
			out = append(out, list[start:i])
			start = i + 2
		}
	}
	return append(out, list[start:])
}
