package recipe

import (
	"regexp"
	"slices"
	"strings"

	"tureen/planner/measure"
	"tureen/planner/method"
)

// splitRun splits ingredients that stand in one line: at semicolons, at the commas after which a new one begins, and
// before each amount that begins one.
func splitRun(text string) []string {
	var out []string
	for _, run := range strings.Split(andAmountRE.ReplaceAllString(strings.TrimRight(text, " ."), ", $1"), ";") {
		var pieces []string
		for i, p := range outsideParens(run) {
			p = strings.Trim(p, " ,")
			if after, ok := strings.CutPrefix(p, "and "); ok && !prepares(p) {
				p = after
			}
			p = strings.TrimPrefix(p, "some ")
			switch {
			case p == "":
			case i > 0 && len(pieces) > 0 && !beginsIngredient(p):
				pieces[len(pieces)-1] += ", " + p
			default:
				pieces = append(pieces, p)
			}
		}
		for _, p := range pieces {
			out = append(out, splitAmounts(p)...)
		}
	}
	return out
}

// andAmountRE is the "and" before the last of a list: "shortbread and a handful of raspberries", "salt and 50 g
// butter". Before it stands no number: "1 and 1/2 cups".
var andAmountRE = regexp.MustCompile(`(?i)(?:[^\S\n]|^)and\s+((?:a|an)\s+(?:few|little|good|small|large|big|` +
	`handful|pinch|knob|splash|bunch|sprig|dash|drizzle|squeeze|glug|stick|clove|tin|can|pack|packet|jar)\b|some\b|` +
	`the\s+(?:juice|zest)\b|juice\s+of\b|zest\s+of\b|\d+\s*(?:g|kg|ml|cl|l|tbsp|tsp|cups?|oz|lb)\b)`)

// remarkLead begin what is said of the ingredient before the comma.
var remarkLead = listed("remark lead")

// beginsIngredient reports whether a piece after a comma is an ingredient of its own, and not a remark on the one
// before.
func beginsIngredient(p string) bool {
	if startsAmount(p) {
		return true
	}
	words := strings.Fields(lower(p))
	if len(words) == 0 || remarkLead[strings.Trim(words[0], ",.:")] || len(words) > 6 || len(words) == 2 &&
		(words[1] == "on" || words[1] == "in") {
		return false
	}
	if prepares(p) {
		// Freshly ground black pepper is bought, finely chopped is done.
		for len(words) > 1 && (adverbs[words[0]] || participles[words[0]]) {
			words = words[1:]
		}
		_, food := kindOf(strings.Join(words, " "))
		return food && len(words) <= 3 && !slices.ContainsFunc(words, func(w string) bool {
			return follows[w] || participles[w]
		})
	}
	for _, w := range words {
		if w = strings.Trim(w, ",."); !adjectives[w] && !adverbs[w] && w != "and" && w != "or" {
			return true
		}
	}
	return false // skin on, boneless
}

// splitAmounts splits before each amount that begins a new ingredient.
func splitAmounts(text string) []string {
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
var runOn = listed("run on")

// ingredient reads a line of the ingredients, or the heading of a part.
func (t *textReader) ingredient(text string, from Place) error {
	text = enumRE.ReplaceAllString(text, "")
	if s, ok := sectionOf(text); ok {
		t.section, t.opened = s, true
		return nil
	}
	if slices.Contains(stages, strings.Trim(lower(text), " :")) {
		t.section, t.opened = "", true
		return nil
	}
	t.opened = false
	text = strings.TrimPrefix(text, "Also: ")
	if buy, do, ok := Apart(text); ok && t.amountFirst(buy) && strings.HasPrefix(text, buy+". ") {
		defer t.say(do, from)
		text = buy
	}
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

// Apart splits a line that names what to buy and goes on with what is done to it: "2 kg pork loin. Cook it for 12 h at
// 60 °C". ok is false where it is one thing.
func Apart(line string) (buy, do string, ok bool) {
	if all := sentences(line); len(all) > 1 {
		do = strings.TrimSpace(strings.TrimPrefix(line, all[0]))
		return strings.TrimRight(all[0], "."), do, orders(all[1])
	}
	for _, sep := range []string{"; ", ", "} {
		if buy, do, ok = strings.Cut(line, sep); ok && orders(do) {
			return buy, do, true
		}
	}
	return "", "", false
}

// orders reports whether a text begins with an order, and says how long or how hot.
func orders(text string) bool {
	if len(text) > maxSentence {
		return false
	}
	text = strings.TrimPrefix(strings.TrimPrefix(text, "Slow "), "slow ") // slow roast
	_, at, ok := actionWord(text)
	first := lower(strings.TrimRight(strings.Fields(text + " .")[0], ",.:"))
	row := method.Verb(first) // by its plain form: "boiled for 6 minutes" orders nothing
	return ok && at == 0 && row != nil && row.Name == first && len(durations(text))+len(temperatures(text, false)) > 0
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
		case startsAmount(p) && len(strings.Fields(p)) > 1 && !l.Amount.IsZero() && l.Name != l.Amount.Unit().Name(true) &&
			!participles[lower(l.Name)] && !containsWord(p, "cups", "cup", "pounds", "about", "total", "each"):
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
		if n := len(strings.Fields(a)); n == 0 || n > 3 || i > 0 && !beginsIngredient(a) {
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
		for _, lead := range []string{"take ", "you need ", "you will need ", "you'll need ",
			"you'll want ", "you want ", "you will want ", "get ", "use ", "using ", "with "} {
			if strings.HasPrefix(low, lead) {
				list = s.text[len(lead):]
			}
		}
		if list == "" && startsAmount(s.text) && instructionless(s.text) {
			list = s.text // 1 chicken, 60 g butter and thyme.
		}
		if list == "" {
			continue
		}
		list = strings.TrimRight(list, ".!")
		parts := outsideParens(list)
		if n := len(parts); n > 1 || startsAmount(parts[0]) {
			if a, b, ok := strings.Cut(parts[n-1], " and "); ok && (startsAmount(b) || n > 1 && begins(b, []string{"some ", "half "}) ||
				n > 1 && strings.HasPrefix(b, "a ")) {
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
		if _, known := kindOf(list); amounts < 2 && !(amounts == 1 && known && startsAmount(list)) {
			continue
		}
		for _, p := range parts {
			if err := t.ingredient(strings.TrimPrefix(strings.TrimPrefix(p, "and "), "some "),
				Place{s.from.Line, p}); err != nil {
				return err
			}
		}
		if i -= len(intro); i >= 0 {
			t.method = append(t.method[:i:i], t.method[i+1:]...)
		} else {
			t.intro = slices.DeleteFunc(t.intro, func(p Place) bool { return strings.Contains(p.Text, s.text) })
			if len(t.method) == 0 {
				for _, p := range intro[i+len(intro)+1:] {
					t.say(p.Text, p) // the paragraph goes on with the method
					t.intro = slices.DeleteFunc(t.intro, func(q Place) bool { return strings.Contains(q.Text, p.Text) })
				}
			}
		}
		return nil
	}
	return nil
}

// instructionless reports that no clause of a sentence instructs.
func instructionless(text string) bool {
	return !instructs(text)
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
