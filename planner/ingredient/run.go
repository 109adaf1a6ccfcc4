package ingredient

import (
	"regexp"
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// Run splits ingredients that stand in one line: at semicolons, at the commas after which a new one begins, and
// before each amount that begins one.
func Run(text string) []string {
	var out []string
	for _, run := range strings.Split(andAmountRE.ReplaceAllString(strings.TrimRight(text, " ."), ", $1"), ";") {
		var pieces []string
		for i, p := range Commas(run) {
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
var remarkLead = lists.Set("remark lead")

// beginsIngredient reports whether a piece after a comma is an ingredient of its own, and not a remark on the one
// before.
func beginsIngredient(p string) bool {
	if StartsAmount(p) {
		return true
	}
	fields := strings.Fields(words.Small(p))
	if len(fields) == 0 || remarkLead[strings.Trim(fields[0], ",.:")] || len(fields) > 6 || len(fields) == 2 &&
		(fields[1] == "on" || fields[1] == "in") {
		return false
	}
	if prepares(p) {
		// Freshly ground black pepper is bought, finely chopped is done.
		for len(fields) > 1 && (adverbs[fields[0]] || participles[fields[0]]) {
			fields = fields[1:]
		}
		_, known := food.KindOf(strings.Join(fields, " "))
		return known && len(fields) <= 3 && !slices.ContainsFunc(fields, func(w string) bool {
			return follows[w] || participles[w]
		})
	}
	for _, w := range fields {
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
	fields := strings.Fields(text)
	for i, w := range fields {
		depth += strings.Count(w, "(") - strings.Count(w, ")")
		if i == start || depth > 0 || strings.HasPrefix(w, "(") || !StartsAmount(w) {
			continue
		}
		before := words.Small(strings.Trim(fields[i-1], ",."))
		if runOn[before] || StartsAmount(before) {
			continue
		}
		out = append(out, strings.Trim(strings.Join(fields[start:i], " "), ", "))
		start = i
	}
	return append(out, strings.Trim(strings.Join(fields[start:], " "), ", "))
}

// runOn are fields after which a number begins no new ingredient.
var runOn = lists.Set("run on")

// Several splits "1 onion, 1 carrot, 1 stick celery, all finely chopped"; nil when a line is one ingredient.
func Several(usage measure.Usage, text string) []string {
	if all := semicolons(text); all != nil {
		return all
	}
	parts := strings.Split(text, ", ")
	if len(parts) < 2 || len(text) > MaxLine || words.Has(text, "about", "approx", "approximately", "total", "each") {
		return nil
	}
	var out []string
	for i, p := range parts {
		l, err := ParseAs(usage, p)
		switch {
		case err != nil:
			return nil
		case i > 0 && len(out) > 0 && cutTo(p):
			out[len(out)-1] += ", " + p
		case StartsAmount(p) && len(strings.Fields(p)) > 1 && !l.Amount.IsZero() && l.Name != l.Amount.Unit().Name(true) &&
			!participles[words.Small(l.Name)] && !words.Has(p, "cups", "cup", "pounds", "about", "total", "each"):
			out = append(out, p)
		case i > 0 && len(out) > 0 && words.Begins(words.Small(p), littleOf):
			out = append(out, p) // pinch of salt
		case i > 0 && i == len(parts)-1 && len(out) > 1 && strings.HasPrefix(words.Small(p), "all "):
			for k := range out {
				out[k] += ", " + p[len("all "):]
			}
		case i > 0 && len(out) > 0 && !StartsAmount(p):
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

// semicolons splits "600 g plums; 2 tbsp sugar; a little salt"; nil where fewer than two of the parts have an amount.
func semicolons(text string) (out []string) {
	amounts := 0
	for _, p := range strings.Split(text, ";") {
		if p = strings.Trim(p, " ."); p == "" {
			continue
		}
		if StartsAmount(p) {
			amounts++
		}
		out = append(out, p)
	}
	if amounts < 2 || len(text) > 2*MaxLine {
		return nil
	}
	return out
}

// Bare splits "salt, pepper, thyme": three things or more without amounts, or salt and one more; nil when a line is
// none.
func Bare(text string) []string {
	all := strings.Split(text, ",")
	salted := len(all) == 2 && saltOf[words.Small(strings.TrimSpace(all[0]))]
	if _, known := food.Find(all[len(all)-1]); len(all) < 3 && !(salted && known) || !allShort(all) {
		return nil
	}
	for i := range all {
		all[i] = strings.TrimSpace(all[i])
	}
	return all
}

// littleOf begin what has no number of its own: pinch of salt.
var littleOf = lists.Phrases("little of")

var saltOf = words.Set("salt pepper seasoning")

func allShort(all []string) bool {
	for i, a := range all {
		if n := len(strings.Fields(a)); n == 0 || n > 3 || i > 0 && !beginsIngredient(a) {
			return false
		}
	}
	return true
}

// Commas splits a list at its commas and semicolons, but not those in parentheses.
func Commas(list string) (out []string) {
	depth, start := 0, 0
	for i := 0; i+1 < len(list); i++ {
		switch {
		case list[i] == '(':
			depth++
		case list[i] == ')':
			depth--
		case (list[i] == ',' || list[i] == ';') && list[i+1] == ' ' && depth <= 0:
			out = append(out, list[start:i])
			start = i + 2
		}
	}
	return append(out, list[start:])
}
