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
// amounts are found where they stand. A step's words leave them out, for the amounts are made for other covers and the
// words are not.

var (
	wovenRE = regexp.MustCompile(`(?i)(?:\b\d+(?:[.,]\d+)?(?:\s+\d/\d|/\d)?\s?[¼½¾⅓⅔⅛]?|` +
		`[¼½¾⅓⅔⅛]|\b(?:half ` +
		`(?:an?|its)|three quarters|a quarter|(?:a )?couple|an?|one|two|three|four|five|six|eight|ten|twelve|the same|` +
		`twice its|its own|an equal)\b)`)
	stopRE = regexp.MustCompile(`(?i)[,;:()!@+]|\.(?:\s|$)|\s(?:and|with|w/|in|into|to|until|till|over|on|onto|for|at|` +
		`then|from|per|before|after|while|plus|or|through|by|off|as|is|are|when|per|each|together|all|around|under|go|` +
		`goes|which|that|you|it|beaten|lightly|well)(?:\s|$)`)
	intoRE = regexp.MustCompile(
		`(?i)\b(?:into|in|among|between|serves|feeds|for|every|mark|gas|another)\s+(?:about\s+)?$`)
	ofRE = regexp.MustCompile(`(?i)\b(?:juice|zest|rind|grated zest|zest and juice|juice and zest|yolks?|whites?)\s+of\s+$`)
	// shareRE is an amount by another's: half its weight of butter, the same of water.
	shareRE = regexp.MustCompile(`(?i)^(half its|twice its|its own|the same|an equal)\s+(?:(?:own\s+)?(?:weight|amount|` +
		`quantity)\s+)?(?:of|in)\s+(?:the\s+)?([a-z -]+)$`)
	// ofAboutRE is a joint with its weight behind it.
	ofAboutRE = regexp.MustCompile(`(?i)^(?:an?|one)\s+([a-z][a-z -]+?),?\s+(?:of|weighing)\s+(?:about\s+|some\s+)?(\d.*)$`)
	// dotRE is the full stop of a unit that is written short.
	dotRE = regexp.MustCompile(`(?i)(\b\d[\d/ ]*-?|[½¼¾]\s?)(oz|lb|lbs|pt|pts|qt|tbsp|tsp|gal|kg|g|ml)\.`)
)

// uncountable are what a method counts and nobody buys.
var uncountable = lists.Set("uncountable")

// cut is what a step's words leave out of a sentence, and say instead.
type cut struct {
	start, end int
	instead    string
}

// woven reads the ingredients of a recipe that names them in its method alone. It finds nothing where fewer than two
// have an amount.
func (t *textReader) woven() error {
	var all []Ingredient
	told := slices.Clone(t.method)
	amounts := 0
	for n := range told {
		s := &told[n]
		text := dotRE.ReplaceAllString(s.text, "$1$2 ") // of as many bytes
		busy := spansOf(text)
		s.cuts = nil
		done := 0
		for _, at := range wovenRE.FindAllStringIndex(text, -1) {
			if at[0] < done || slices.ContainsFunc(busy, func(b span) bool { return at[0] < b.end && b.start < at[1] }) {
				continue
			}
			l, from, end, ok := t.wovenAt(text, at, busy, all)
			if !ok || from < done {
				continue
			}
			if !l.Amount.IsZero() {
				amounts++
			}
			all = append(all, Ingredient{Line: l, From: s.from})
			instead := l.Name
			if !strings.HasSuffix(words.Small(text[:from]), "the ") {
				instead = "the " + l.Name
			}
			s.cuts, done = append(s.cuts, cut{from, end, instead}), end
		}
	}
	if amounts < 2 && !t.named {
		return nil
	}
	all = append(all, t.bareFoods(told, all)...)
	if len(all) > maxIngredients {
		return refuse("This is more than one recipe: I count "+strconv.Itoa(len(all))+" ingredients.",
			"Send one recipe alone.")
	}
	t.r.Ingredients = all
	t.r.woven = true
	t.method = told
	return nil
}

// wovenAt reads the ingredient whose amount stands at a place, and the bytes that it takes up.
func (t *textReader) wovenAt(text string, at []int, busy []span, have []Ingredient) (l ingredient.Line, from, end int,
	ok bool) {
	end = len(text)
	if stop := stopRE.FindStringIndex(text[at[1]:]); stop != nil {
		end = at[1] + stop[0]
	}
	for _, b := range busy {
		if b.start >= at[1] && b.start < end {
			end = b.start // 50 g butter 10 min
		}
	}
	end = at[0] + len(strings.TrimRight(text[at[0]:end], " ."))
	phrase := text[at[0]:end]
	if f := shareRE.FindStringSubmatch(phrase); f != nil {
		l, ok = t.share(words.Small(f[1]), f[2], have)
		return l, at[0], end, ok
	}
	if m := ofAboutRE.FindStringSubmatch(phrase); m != nil {
		phrase = m[2] + " " + m[1]
	}
	if strings.HasSuffix(text[:at[0]], "(") && strings.HasPrefix(text[end:], ")") {
		return t.counted(text, phrase, at[0]-1, end+1)
	}
	if l, ok = t.wovenLine(text[:at[0]], phrase); ok {
		return l, at[0], end, true
	}
	// Sherry vinegar 30 ml: the name stands before.
	if len(strings.Fields(phrase)) <= 2 && startsWithDigit(phrase) && !strings.HasSuffix(text[:at[0]], "(") {
		head := text[:at[0]]
		from = max(len(head)-60, 0)
		if stops := stopRE.FindAllStringIndex(head[from:], -1); len(stops) > 0 {
			from += stops[len(stops)-1][1]
		} else if blank := strings.IndexByte(head[from:], ' '); from > 0 && blank >= 0 {
			from += blank
		}
		for from < len(head) && head[from] == ' ' {
			from++
		}
		name := strings.TrimSpace(head[from:])
		if name != "" && len(strings.Fields(name)) <= 3 && method.Verb(words.Small(name)) == nil && !instructs(name) {
			l, ok = t.wovenLine("", phrase+" "+name)
			return l, from, end, ok && !l.Amount.IsZero()
		}
	}
	return l, at[0], end, false
}

// counted is "legs (8)", of what the title may say in full.
func (t *textReader) counted(text, count string, at, next int) (l ingredient.Line, from, end int, ok bool) {
	head := strings.TrimRight(text[:at], " ")
	from = strings.LastIndexByte(head, ' ') + 1
	name := head[from:]
	title := strings.Fields(words.Small(t.r.Title))
	for i := 1; i < len(title); i++ {
		if _, food := kindOf(title[i-1] + " " + title[i]); food && title[i] == words.Small(name) {
			name = title[i-1] + " " + title[i]
		}
	}
	if _, food := kindOf(name); !food || strings.Trim(count, "0123456789") != "" {
		return l, from, next, false
	}
	l, err := ingredient.ParseAs(t.r.Usage, count+" "+name)
	return l, from, next, err == nil && l.Name != ""
}

// share is an ingredient that is told as a share of the last that was weighed.
func (t *textReader) share(how, name string, have []Ingredient) (l ingredient.Line, ok bool) {
	for _, g := range slices.Backward(have) {
		q := g.Total()
		if q.IsZero() || q.Unit() == measure.Each {
			continue
		}
		n, _ := q.Low().Float64()
		switch how {
		case "half its":
			n /= 2
		case "twice its":
			n *= 2
		}
		l, err := ingredient.ParseAs(t.r.Usage, strconv.FormatFloat(n, 'g', 4, 64)+" "+q.Unit().Name(n > 1)+" "+name)
		return l, err == nil && l.Name != "" && !l.Amount.IsZero()
	}
	return l, false
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
	line, before := strings.TrimSpace(phrase), before[max(len(before)-60, 0):] // no more of a sentence matters
	for _, p := range []string{"half an ", "half a "} {
		if after, is := strings.CutPrefix(words.Small(line), p); is {
			line = "½ " + after
		}
	}
	for _, p := range []string{"couple of ", "couple ", "a couple "} {
		if after, is := strings.CutPrefix(words.Small(line), p); is {
			line = "2 " + strings.TrimPrefix(after, "of ")
		}
	}
	if of := ofRE.FindString(before); of != "" {
		line = of + line
	}
	l, err := ingredient.ParseAs(t.r.Usage, line)
	if err != nil || l.Name == "" || l.Amount.IsZero() && l.Unit == measure.Each || len(strings.Fields(l.Name)) > 5 ||
		startsWithDigit(l.Name) {
		return l, false
	}
	head := words.Singular(ingredient.Head(l.Name))
	if uncountable[head] || uncountable[words.Singular(words.Small(l.Name))] || l.Unit.Name(false) == words.Small(l.Name) ||
		l.Unit.Name(true) == words.Small(l.Name) {
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
		head := words.Singular(ingredient.Head(w))
		for _, list := range [][]Ingredient{have, out} {
			for _, g := range list {
				for _, one := range strings.Fields(words.Small(g.Name + " " + g.Preparation)) {
					one = words.Singular(one)
					if one == head || one == "egg" && (head == "yolk" || head == "white") {
						return true
					}
				}
			}
		}
		return false
	}
	for _, s := range method {
		if k, remarks := remarkOf(words.Small(s.text)); remarks && k.Kind != Unread && !instructs(s.text) {
			continue // it is good in a sandwich
		}
		for _, f := range food.All(s.unsaid()) {
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

// unsaid is a sentence without the ingredients that were found with an amount.
func (s *sentence) unsaid() string {
	text, from := "", 0
	for _, c := range s.cuts {
		text, from = text+s.text[from:c.start]+";", c.end
	}
	return text + s.text[from:]
}

// said is a part of a sentence without the amounts of its ingredients.
func (s *sentence) said(start, end int) string {
	text, from := "", start
	for _, c := range s.cuts {
		if c.start >= from && c.end <= end {
			text, from = text+s.text[from:c.start]+c.instead, c.end
		}
	}
	return text + s.text[from:end]
}
