package recipe

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/words"
)

// Some recipes name their ingredients in the method alone: "Heat 600 ml double cream with 150 g sugar …". Their
// amounts
// are found where they stand, and taken out of the sentences, for the amounts are made for other covers and the
// sentences are not.

var (
	wovenRE = regexp.MustCompile(`(?i)(?:\b\d+(?:[.,]\d+)?(?:\s+\d/\d|/\d)?\s?[¼½¾⅓⅔⅛]?|` +
		`[¼½¾⅓⅔⅛]|\b(?:half ` +
		`an?|an?|one|two|three|four|five|six|eight|ten|twelve)\b)`)
	stopRE = regexp.MustCompile(`(?i)[,;:()!]|\.(?:\s|$)|\s(?:and|with|in|into|to|until|till|over|on|onto|for|at|` +
		`then|from|per|before|after|while|plus|or|through|by|off|as|is|are|when|per|each|together|all|around|under)(?:\s|$)`)
	intoRE = regexp.MustCompile(
		`(?i)\b(?:into|in|among|between|serves|feeds|for|every|mark|gas|another)\s+(?:about\s+)?$`)
	ofRE = regexp.MustCompile(`(?i)\b(?:juice|zest|rind|grated zest|zest and juice|juice and zest)\s+of\s+$`)
)

// uncountable are what a method counts and nobody buys.
var uncountable = lists.Set("uncountable")

// woven reads the ingredients of a recipe that names them in its method alone. It finds nothing where fewer than two
// have an amount.
func (t *textReader) woven() error {
	var all []Ingredient
	method := slices.Clone(t.method)
	amounts := 0
	for n := range method {
		s := &method[n]
		busy := spansOf(s.text)
		text, done := "", 0
		for _, at := range wovenRE.FindAllStringIndex(s.text, -1) {
			if at[0] < done || slices.ContainsFunc(busy, func(b span) bool { return at[0] < b.end && b.start < at[1] }) {
				continue
			}
			end := len(s.text)
			if stop := stopRE.FindStringIndex(s.text[at[1]:]); stop != nil {
				end = at[1] + stop[0]
			}
			l, ok := t.wovenLine(s.text[:at[0]], s.text[at[0]:end])
			if !ok {
				continue
			}
			if !l.Amount.IsZero() {
				amounts++
			}
			all = append(all, Ingredient{Line: l, From: s.from})
			text += s.text[done:at[0]]
			if !strings.HasSuffix(words.Small(text), "the ") {
				text += "the "
			}
			text, done = text+l.Name, end
		}
		s.text = text + s.text[done:]
	}
	if amounts < 2 && !t.named {
		return nil
	}
	all = append(all, t.bareFoods(method, all)...)
	if len(all) > maxIngredients {
		return refuse("This is more than one recipe: I count "+strconv.Itoa(len(all))+" ingredients.",
			"Send one recipe alone.")
	}
	t.r.Ingredients = all
	t.r.woven = true
	t.method = method
	return nil
}

// spansOf are the lengths of time and the temperatures in a text: their numbers are no amounts.
func spansOf(text string) []span {
	var out []span
	for _, d := range times.Lengths(text) {
		out = append(out, span{d.Start, d.End})
	}
	for _, h := range times.Heats(text, false) {
		out = append(out, span{h.Start, h.End})
	}
	return out
}

// wovenLine reads an amount and what follows it as an ingredient; ok is false where it is none.
func (t *textReader) wovenLine(before, phrase string) (l ingredient.Line, ok bool) {
	line := strings.TrimSpace(phrase)
	for _, p := range []string{"half an ", "half a "} {
		if after, is := strings.CutPrefix(words.Small(line), p); is {
			line = "½ " + after
		}
	}
	if of := ofRE.FindString(before); of != "" {
		line = of + line
	}
	l, err := ingredient.ParseAs(t.r.Usage, line)
	if err != nil || l.Name == "" || l.Amount.IsZero() && l.Unit == measure.Each || len(strings.Fields(l.Name)) > 5 {
		return l, false
	}
	head := words.Singular(ingredient.Head(l.Name))
	if uncountable[head] || uncountable[words.Singular(words.Small(l.Name))] {
		return l, false
	}
	if l.Unit == measure.Each && l.Amount.Unit() == measure.Each {
		if intoRE.MatchString(before) {
			return l, false
		}
		_, food := kindOf(l.Name)
		return l, food || ingredient.StartsAmount(phrase) && !packagesOrVerb(head)
	}
	return l, true
}

func packagesOrVerb(word string) bool { return method.Verb(word) != nil }

// bareFoods are the foods that a method names without an amount anywhere.
func (t *textReader) bareFoods(method []sentence, have []Ingredient) []Ingredient {
	var out []Ingredient
	named := func(w string) bool {
		for _, list := range [][]Ingredient{have, out} {
			for _, g := range list {
				for _, one := range strings.Fields(words.Small(g.Name)) {
					if words.Singular(one) == words.Singular(ingredient.Head(w)) {
						return true
					}
				}
			}
		}
		return false
	}
	for _, s := range method {
		for _, f := range food.All(s.text) {
			w := f.Said()
			if notAlone[w] || made(f) || named(w) {
				continue
			}
			if l, err := ingredient.ParseAs(t.r.Usage, w); err == nil && l.Name != "" {
				out = append(out, Ingredient{Line: l, From: s.from})
			}
		}
	}
	return out
}

// made reports whether a food is none that a cook buys to make a dish: a method speaks of it as what it makes.
func made(f food.Food) bool {
	return f.Class.Group == "made" || f.Class.Group == "dough" || f.Class.Sold == ""
}

// notAlone are words that a method has for what is in the pot already, or that mean something else as well.
var notAlone = lists.Set("not alone")
