package recipe

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/manuscript"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/words"
)

// ingredient reads a line of the ingredients, or the heading of a part.
func (t *textReader) ingredient(text string, from Place) error {
	text, _ = manuscript.Unnumbered(text)
	if s, ok := sectionOf(text); ok {
		t.section, t.opened = s, true
		return nil
	}
	if slices.Contains(stages, strings.Trim(words.Small(text), " :")) {
		t.section, t.opened = "", true
		return nil
	}
	t.opened = false
	text = strings.TrimPrefix(text, "Also: ")
	if rest, ok := strings.CutPrefix(text, "Optional: "); ok {
		text = rest + " (optional)"
	}
	if part, list, ok := labelled(text); ok {
		was := t.section
		t.section = part
		all := []string{list}
		if strings.Contains(list, ",") {
			all = ingredient.Run(list)
		}
		for _, one := range all {
			if err := t.ingredient(one, from); err != nil {
				return err
			}
		}
		t.section = was
		return nil
	}
	if buy, do, ok := Apart(text); ok && t.amountFirst(buy) && strings.HasPrefix(text, buy+". ") {
		defer t.say(do, from)
		text = buy
	}
	if all := ingredient.Several(t.r.Usage, text); all != nil {
		for _, one := range all {
			if err := t.ingredient(one, from); err != nil {
				return err
			}
		}
		return nil
	}
	l, err := ingredient.ParseAs(t.r.Usage, text)
	if err != nil {
		return err
	}
	if l.Amount.IsZero() && l.Unit == measure.Each {
		if all := ingredient.Bare(text); all != nil {
			for _, one := range all {
				if err := t.ingredient(one, from); err != nil {
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

// labelled takes "Topping: 300 ml cream, 2 tbsp sugar" apart.
func labelled(text string) (part, list string, ok bool) {
	part, list, ok = strings.Cut(text, ": ")
	if !ok || len(strings.Fields(part)) > 3 || !ingredient.StartsAmount(list) || ingredient.StartsAmount(part) ||
		strings.ContainsAny(part, ".,;(") || headings[words.Small(part)] != 0 {
		return "", "", false
	}
	for _, one := range ingredient.Run(list) {
		if method.Instructs(one) || len(times.Lengths(one)) > 0 {
			return "", "", false
		}
	}
	return words.Small(part), list, true
}

// Apart splits a line that names what to buy and goes on with what is done to it: "2 kg pork loin. Cook it for 12 h at
// 60 °C". ok is false where it is one thing.
func Apart(line string) (buy, do string, ok bool) {
	if all := sentences(line); len(all) > 1 {
		do = strings.TrimSpace(strings.TrimPrefix(line, all[0]))
		return strings.TrimRight(all[0], "."), do, orders(all[1])
	}
	for at := range len(line) - 1 {
		if (line[at] == ';' || line[at] == ',') && line[at+1] == ' ' && orders(line[at+2:]) {
			return line[:at], line[at+2:], true
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
	first := words.Small(strings.TrimRight(strings.Fields(text + " .")[0], ",.:"))
	row := method.Verb(first) // by its plain form: "boiled for 6 minutes" orders nothing
	return ok && at == 0 && row != nil && row.Name == first && len(times.Lengths(text))+len(times.Heats(text, false)) > 0
}

// forManyRE is "For 6:" before a list.
var forManyRE = regexp.MustCompile(`(?i)^(?:for|serves)\s+(\d{1,3})(?:\s+people|\s+persons)?\s*[:,–-]\s*`)

// proseList is what stands behind the words that begin a list in a sentence; empty: it begins none.
func proseList(text string) string {
	if m := forManyRE.FindString(text); m != "" {
		text = text[len(m):]
	}
	low := words.Small(text)
	list := ""
	for _, lead := range []string{"take ", "you need ", "you will need ", "you'll need ",
		"you'll want ", "you want ", "you will want ", "get ", "use ", "using ", "with "} {
		if strings.HasPrefix(low, lead) {
			list = text[len(lead):]
		}
	}
	if at := gotFor(low); list == "" && at > 0 {
		list = text[at:]
	}
	if list == "" && ingredient.StartsAmount(text) && !method.Instructs(text) {
		list = text // 1 chicken, 60 g butter and thyme.
	}
	return list
}

// spoken makes the method of what stands above it, in a text that has no list of ingredients: a letter's paragraphs.
func (t *textReader) spoken() {
	var all, rest = []sentence{}, []Place{}
	for _, p := range t.intro {
		if isClutter(p.Text) {
			rest = append(rest, p)
			continue
		}
		t.paragraph++
		for _, s := range sentences(p.Text) {
			if t.r.Yield == "" || !strings.Contains(s, t.r.Yield) || method.Instructs(s) || proseList(s) != "" {
				all = append(all, sentence{text: s, from: Place{p.Line, s}, paragraph: t.paragraph})
			}
		}
	}
	t.method, t.intro = append(all, t.method...), rest
}

// prose reads the ingredients of a recipe in one paragraph: "Take 1 kg carrots, 2 onions and 100 ml cream." A sentence
// that also says what is done is none of them.
func (t *textReader) prose() error {
	for i, s := range t.method {
		list := proseList(s.text)
		if list == "" {
			continue
		}
		parts := spoken(strings.TrimRight(list, ".!"))
		amounts, does := 0, false
		for _, p := range parts {
			if t.amountFirst(p) {
				amounts++
			}
			does = does || method.Instructs(strings.TrimPrefix(p, "and ")) ||
				words.Begins(words.Small(p), []string{"you ", "and you "})
		}
		if _, known := kindOf(list); does || amounts < 2 && !(amounts == 1 && known && ingredient.StartsAmount(list)) {
			continue
		}
		for _, p := range parts {
			if err := t.ingredient(p, Place{s.from.Line, p}); err != nil {
				return err
			}
		}
		if m := forManyRE.FindStringSubmatch(s.text); m != nil && t.r.Serves == 0 {
			t.r.Serves, _ = strconv.Atoi(m[1])
		}
		t.method = slices.Delete(t.method, i, i+1)
		return nil
	}
	return nil
}

// spoken splits a list as one says it: at its commas, and at an "and" before what may be bought.
func spoken(list string) (out []string) {
	for _, p := range ingredient.Commas(list) {
		p = strings.TrimPrefix(strings.TrimPrefix(strings.TrimSpace(p), "and "), "some ")
		if n := len(out); n > 0 && words.Begins(p, notBought) {
			out[n-1] += ", " + p
			continue
		}
		for {
			a, b, ok := strings.Cut(p, " and ")
			f, known := food.Find(b)
			alone := known && f.Name == words.Singular(words.Small(b)) && strings.Contains(a, " of ")
			if !ok || strings.HasPrefix(b, "a half") || !alone && !ingredient.StartsAmount(b) &&
				!words.Begins(b, boughtLeads) && !(known && numbered(b)) {
				break
			}
			out, p = append(out, a), strings.TrimPrefix(b, "some ")
		}
		out = append(out, p)
	}
	return out
}

// boughtLeads begin what is bought besides, behind an "and".
var boughtLeads = []string{"some ", "half ", "a ", "an ", "the juice ", "the zest ", "the rind ", "the yolk",
	"the white"}

// notBought begin what is said of what stands before a comma.
var notBought = phrases.Phrases("not bought")

// gotFor is where a list begins that somebody gets for so many: "for eight of us I get …"; 0: nowhere.
func gotFor(low string) int {
	for _, lead := range []string{" i get ", " i use ", " i take ", " i buy ", " you need ", " we use "} {
		if at := strings.Index(low, lead); at > 0 && at < 40 && strings.HasPrefix(low, "for ") {
			return at + len(lead)
		}
	}
	return 0
}

// numbered reports whether a text begins with a number in words.
func numbered(text string) bool {
	w, _ := words.First(words.Small(text))
	return w == "one" || manuscript.Numbers[w] > 0
}
