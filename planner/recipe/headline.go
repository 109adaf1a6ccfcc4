package recipe

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/measure"
	"tureen/planner/times"
	"tureen/planner/words"
)

var wordYield = regexp.MustCompile(`(?i)^((?:serves|for|feeds|makes|yields|enough ` +
	`for)\s+)(two|three|four|five|six|seven|eight|nine|ten|twelve)\b`)

var smallNumbers = map[string]int{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
	"nine": 9, "ten": 10, "twelve": 12}

var headings = map[string]part{
	"ingredients": inIngredients, "you will need": inIngredients, "you'll need": inIngredients,
	"what you need": inIngredients, "what you will need": inIngredients,
	"ingredient list": inIngredients, "shopping": inIngredients, "what goes in": inIngredients,
	"method": inMethod, "directions": inMethod, "instructions": inMethod, "preparation": inMethod, "steps": inMethod,
	"what to do": inMethod, "how to make it": inMethod,
	"procedure": inMethod, "to make": inMethod, "how to": inMethod, "making it": inMethod, "cooking": inMethod,
	"notes": inNotes, "note": inNotes, "tips": inNotes, "tip": inNotes, "storage": inNotes, "cook's notes": inNotes,
	"variations": inNotes,
}

// stated reads a line that says for how many it is, or how long it takes.
func (t *textReader) stated(text string) bool {
	if len(text) > 90 {
		return false
	}
	if all := strings.Split(text, " | "); len(all) > 1 { // Prep 15 mins | Serves 4
		any := false
		for _, one := range all {
			any = t.stated(unadorned(strings.TrimSpace(one))) || any
		}
		return any
	}
	if m := yieldRE.FindStringSubmatch(text); m != nil && t.r.Serves == 0 &&
		!strings.HasPrefix(words.Small(text), "for the") {
		t.yield(text, m[1:])
		return true
	}
	if low := words.Small(text); t.r.Yield == "" && (strings.HasPrefix(low, "makes ") || strings.HasPrefix(low, "yield")) {
		t.r.Yield = strings.TrimSpace(text)
		return true
	}
	if all := times.Lengths(text); len(all) == 1 && t.r.Total.High == 0 && t.at == inHead && all[0].Start == 0 &&
		strings.Trim(text[all[0].End:], " .") == "" {
		t.r.Total = all[0].Duration
		return true
	}
	if m := clockRE.FindStringSubmatch(text); m != nil && (strings.Contains(text, ":") || words.Has(text, "time") ||
		words.Small(text)[0] != 'b' && words.Small(text)[0] != 'c') {
		all := times.Lengths(m[2])
		if len(all) == 0 {
			return false
		}
		for _, c := range strings.Split(text, ",") {
			if m := clockRE.FindStringSubmatch(strings.TrimSpace(c)); m != nil {
				if d := times.Lengths(m[2]); len(d) > 0 {
					t.clock(words.Small(m[1]), d[0].Duration)
				}
			}
		}
		return true
	}
	return false
}

func (t *textReader) clock(what string, d measure.Duration) {
	switch what[0] {
	case 'p', 'a':
		t.r.Prep = d
	case 'c', 'b':
		t.r.Cook = d
	default:
		t.r.Total = d
	}
}

// yield takes the covers from the numbers that were found. "4 to 6" is taken as for 4: nobody goes hungry.
func (t *textReader) yield(text string, numbers []string) {
	t.r.Yield = text
	low := words.Small(text)
	for _, n := range numbers {
		if v, err := strconv.Atoi(n); err == nil && v > 0 {
			if (strings.HasPrefix(low, "make") || strings.HasPrefix(low, "yield") || strings.Contains(low, "s into ")) &&
				!words.Has(low, "servings", "serving",
					"portions", "portion", "people", "persons", "covers") && !portionWord(low) {
				if m := feedsRE.FindStringSubmatch(text); m != nil {
					t.r.Serves, _ = strconv.Atoi(m[1])
				}
				return // 1 loaf, 24 biscuits: not covers, unless it says for how many they are
			}
			t.r.Serves = v
			return
		}
	}
}

// portionWord finds what is served one to each: small pots, skewers are not sure.
func portionWord(low string) bool {
	return slices.ContainsFunc(strings.Fields(low), func(w string) bool { return oneEach[strings.Trim(w, ",.;:()")] })
}

var oneEach = lists.Set("one each")

// head reads lines before the ingredients.
func (t *textReader) head(text string, bullet bool, from Place) error {
	if t.r.Title == "" && !bullet {
		return t.title(text, from)
	}
	switch {
	case len(text) <= 120 && (bullet || t.amountFirst(text) || t.amountLast(text)):
		t.at = inIngredients
		return t.ingredient(text, from)
	}
	if _, _, ok := labelled(text); ok && !t.named {
		t.at = inIngredients
		return t.ingredient(text, from)
	}
	if buy, _, ok := Apart(text); ok && len(buy) <= 120 && t.amountFirst(buy) && strings.HasPrefix(text, buy+". ") {
		t.at = inIngredients
		return t.ingredient(text, from)
	}
	if s, ok := sectionOf(text); ok {
		t.at, t.section = inIngredients, s
		return nil
	}
	if m := feedsRE.FindStringSubmatch(text); m != nil && t.r.Serves == 0 {
		t.yield(m[0], m[1:])
		t.r.Yield = m[0]
		t.intro = append(t.intro, from)
		return nil
	}
	if methodLike(text) && !t.named && (len(text) > 60 || enumRE.MatchString(text)) {
		t.at = inMethod
		t.say(text, from)
		return nil
	}
	t.intro = append(t.intro, from)
	return nil
}

// title reads the first line. A paragraph gives its first sentence.
func (t *textReader) title(text string, from Place) error {
	first, rest := text, ""
	if s := sentences(text); len(s) > 1 {
		first, rest = s[0], strings.TrimSpace(strings.TrimPrefix(text, s[0]))
	}
	first = strings.TrimPrefix(first, "Subject: ")
	switch word, _ := words.First(words.Small(first)); word {
	case "dear", "hi", "hello", "hey":
		if len(strings.Fields(first)) <= 4 && rest == "" {
			t.letter = true
			return nil
		}
	}
	if t.letter { // it has no title: the first food that it speaks of
		t.r.Title = "A dish"
		if all := food.All(text); len(all) > 0 {
			t.r.Title = words.Upper(all[0].Said())
		}
		return t.head(text, false, from)
	}
	if m := inTitle.FindStringSubmatchIndex(first); m != nil && m[0] > 0 {
		t.r.Serves, _ = strconv.Atoi(first[m[2]:m[3]])
		t.r.Yield = first[m[0]:m[1]]
		first = strings.TrimSpace(first[:m[0]] + first[m[1]:])
	}
	if n := numberInTitle.FindStringSubmatch(words.Small(first)); n != nil && smallNumbers[n[1]] > 0 {
		at := strings.Index(words.Small(first), n[0])
		t.r.Serves, t.r.Yield = smallNumbers[n[1]], strings.TrimLeft(first[at:at+len(n[0])], ", ")
		first = strings.TrimSpace(first[:at] + first[at+len(n[0]):])
	}
	if name, list, ok := strings.Cut(first, ": "); ok && t.amountFirst(list) && len(name) <= 70 {
		t.r.Title = strings.Trim(name, " .,-–#*") // Pork loin: 2 kg pork loin. Cook it …
		return t.head(strings.TrimSpace(list+" "+rest), false, from)
	}
	if enumRE.MatchString(first) || startsWithDigit(first) && t.amountFirst(first) ||
		strings.HasPrefix(first, "Take ") && t.amountFirst(first[len("Take "):]) ||
		methodLike(first) && len(first) > 60 {
		// A recipe without a name.
		t.r.Title = unnamed
		return t.head(text, false, from)
	}
	if at := strings.IndexAny(first, "(:"); at > 10 {
		first = first[:at]
	}
	t.r.Title = words.Cut(strings.Trim(first, " .,:-–#*"), 70)
	if rest != "" {
		return t.head(rest, false, from)
	}
	return nil
}

// numberInTitle is "for six persons".
var numberInTitle = regexp.MustCompile(`,?\s+\b(?:for|serves)\s+([a-z]+)(?:\s+(?:people|persons|guests))?\s*$`)

func startsWithDigit(text string) bool {
	return text != "" && (text[0] >= '0' && text[0] <= '9' || strings.HasPrefix(text, "½") ||
		strings.HasPrefix(text, "¼"))
}

// amountFirst reports whether a line begins with an amount, whatever number it has in a list.
func (t *textReader) amountFirst(text string) bool {
	return ingredient.AmountFirst(t.r.Usage, enumRE.ReplaceAllString(text, ""))
}

func (t *textReader) amountLast(text string) bool {
	return ingredient.AmountLast(t.r.Usage, text) && (len(text) <= 40 || !methodLike(text))
}

// sectionOf reads "For the pastry:", "Filling", "Topping:" as the head of a part.
func sectionOf(text string) (string, bool) {
	if m := forTheR.FindStringSubmatch(text); m != nil && len(strings.Fields(m[1])) <= 4 {
		return words.Small(strings.TrimSpace(m[1])), true
	}
	fields := strings.Fields(text)
	if len(fields) > 4 || len(fields) == 0 || ingredient.StartsAmount(text) || strings.ContainsAny(text, ".,;(") {
		return "", false
	}
	if strings.HasSuffix(text, ":") {
		name := strings.TrimPrefix(words.Small(strings.TrimSuffix(text, ":")), "the ")
		return name, name != ""
	}
	if partNames[words.Small(text)] {
		return words.Small(text), true
	}
	return "", false
}

// partNames are parts of a dish that stand as headings without a colon.
var partNames = lists.Set("part names")
