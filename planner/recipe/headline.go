package recipe

import (
	"slices"
	"strings"
	"unicode"

	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/manuscript"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/words"
)

// headingIn is the part of a recipe that a line heads, and what it says besides: "Ingredients (serves 4)".
func headingIn(text string) (p part, rest string, ok bool) {
	low := strings.Trim(words.Small(text), " :.-!")
	if p, ok := headings[low]; ok {
		return p, "", true
	}
	if owner, of, two := strings.Cut(low, " "); two && headings[of] == inNotes &&
		(strings.HasSuffix(owner, "'s") || strings.HasSuffix(owner, "’s") || owner == "my" || owner == "our") {
		return inNotes, "", true // Hetty's notes
	}
	for _, cut := range []string{" (", " for ", " - ", " – ", ": "} {
		if head, rest, found := strings.Cut(low, cut); found && headings[head] == inIngredients {
			if y, ok := manuscript.YieldIn(strings.Trim(cut, " (-–:") + " " + rest); ok && y.Before == "" {
				return inIngredients, strings.TrimSpace(strings.Trim(cut, " (-–:") + " " + rest), true
			}
		}
	}
	return inHead, "", false
}

// headings are the lines that head a part, by phrases.tsv.
var headings = func() map[string]part {
	out := map[string]part{}
	for p, row := range map[part]string{inIngredients: "heads ingredients", inMethod: "heads method",
		inNotes: "heads notes"} {
		for _, said := range phrases.Phrases(row) {
			out[said] = p
		}
	}
	return out
}()

// stated reads a line that says for how many it is, or how long it takes.
func (t *textReader) stated(text string) bool {
	if len(text) > 90 {
		return false
	}
	if all := strings.Split(text, "|"); len(all) > 1 { // Prep 15 mins | Serves 4
		any := false
		for _, one := range all {
			any = t.stated(manuscript.Text(strings.TrimSpace(one))) || any
		}
		return any
	}
	low := words.Small(text)
	if y, ok := manuscript.YieldIn(text); ok && y.Before == "" && t.r.Serves == 0 {
		t.r.Serves, t.r.Yield = y.Serves, text
		return true
	}
	if t.r.Yield == "" && words.Begins(low, []string{"makes ", "yield", "servings:", "serves:"}) {
		t.r.Yield = strings.TrimSpace(text)
		return true
	}
	bare := low
	for _, lead := range []string{"about ", "takes ", "ready in ", "around "} {
		bare = strings.TrimPrefix(bare, lead)
	}
	if d := times.Lengths(bare); t.at == inHead && t.r.Title != "" && len(d) == 1 && t.r.Total.High == 0 &&
		d[0].Start == 0 && strings.Trim(bare[d[0].End:], " .") == "" {
		t.clock("t", d[0].Duration)
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

// head reads lines before the ingredients.
func (t *textReader) head(text string, bullet bool, from Place) error {
	if t.r.Title == "" && !bullet {
		return t.title(text, from)
	}
	if y, ok := manuscript.YieldIn(text); ok && y.Serves > 0 && t.r.Serves == 0 && !ingredient.StartsAmount(text) {
		t.r.Serves, t.r.Yield = y.Serves, y.Said
		if proseList(text) == "" && !method.Instructs(text) {
			t.intro = append(t.intro, from)
			return nil
		}
	}
	if from.Line < t.listAt {
		t.intro = append(t.intro, from)
		return nil
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
	_, item := manuscript.Unnumbered(text)
	if methodLike(text) && !t.named && (len(text) > 60 || item) {
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
	if name, said, ok := strings.Cut(first, " | "); ok {
		if t.r.Title = name; t.stated(said) {
			first = name
		}
	}
	if y, ok := manuscript.YieldIn(first); ok && y.Serves > 0 && y.Before != "" {
		t.r.Serves, t.r.Yield = y.Serves, y.Said
		if at := strings.IndexByte(first, '('); at > 0 && at <= len(y.Before)+2 {
			first = first[:at]
		} else {
			first = strings.TrimSpace(y.Before + " " + y.After)
		}
	}
	for _, cut := range []string{": ", " - ", " – "} {
		if name, list, ok := strings.Cut(first, cut); ok && t.amountFirst(list) && len(name) <= 70 {
			t.r.Title = words.Upper(strings.Trim(name, " .,-–#*")) // Pork loin: 2 kg pork loin. Cook it …
			if buy, do, ok := Apart(strings.TrimSpace(list + " " + rest)); ok {
				t.at = inMethod
				t.say(do, from)
				return t.ingredient(buy, from)
			}
			return t.head(strings.TrimSpace(list+" "+rest), false, from)
		}
	}
	if name := t.numberedName(text); name != "" {
		t.r.Title = words.Cut(nameIn(name), 70)
		return nil
	}
	if _, item := manuscript.Unnumbered(first); item || startsWithDigit(first) && t.amountFirst(first) ||
		strings.HasPrefix(first, "Take ") && t.amountFirst(first[len("Take "):]) ||
		methodLike(first) && len(first) > 60 {
		// A recipe without a name.
		t.r.Title = unnamed
		return t.head(text, false, from)
	}
	if at := strings.IndexByte(first, '('); at > 10 {
		first = first[:at]
	}
	t.r.Title = words.Cut(strings.Trim(nameIn(first), " .,:-–#*"), 70)
	if rest != "" {
		return t.head(rest, false, from)
	}
	return nil
}

// numberedName is the name behind the number that a book's recipe has: "212. A rich cake."; empty: the line is none.
func (t *textReader) numberedName(text string) string {
	rest := strings.TrimLeft(text, "0123456789")
	if n := len(text) - len(rest); n == 0 || n > 4 || !strings.HasPrefix(rest, ". ") {
		return ""
	}
	name := strings.Trim(rest, " .,:-–#*")
	_, item := manuscript.Unnumbered(t.next)
	if item || len(name) > 70 || name == "" || !unicode.IsUpper(rune(name[0])) || strings.ContainsAny(name, ".;") ||
		methodLike(name) || t.amountLast(name) {
		return ""
	}
	return name
}

// nameIn is the dish's name in a title: "Sunday supper: chicken with grapes" is the chicken, "To make a veal pie" the
// pie.
func nameIn(title string) string {
	title = strings.NewReplacer(" w. ", " with ", " w/ ", " with ").Replace(title)
	low := words.Small(title)
	for _, from := range phrases.Phrases("title from") { // Parsnip soup, from the kitchen of Dot
		if at := strings.Index(low, from); at > 3 && len(low) == len(title) {
			title, low = strings.TrimRight(title[:at], " ,-–("), low[:at]
		}
	}
	for _, ends := range phrases.Phrases("title ends") { // the ox cheeks you asked for
		if name, ok := strings.CutSuffix(low, ends); ok && len(name) > 3 && len(low) == len(title) {
			title = strings.TrimRight(title[:len(name)], " ,-–(")
			low = words.Small(title)
			for _, lead := range []string{"the ", "my ", "that ", "those "} {
				if rest, ok := strings.CutPrefix(low, lead); ok {
					title, low = words.Upper(title[len(lead):]), rest
				}
			}
		}
	}
	for _, lead := range []string{"to make a ", "to make an ", "to make the ", "to make ", "how to make "} {
		if strings.HasPrefix(low, lead) {
			return words.Upper(title[len(lead):])
		}
	}
	column, name, ok := strings.Cut(title, ": ")
	if !ok {
		return title
	}
	if len(food.All(column)) == 0 && len(food.All(name)) > 0 || len(column) <= 10 {
		return name
	}
	return column
}

// hollow reports whether a title names no food and no dish, as the name of a column does.
func hollow(title string) bool {
	return title != "" && title != unnamed && len(food.All(title)) == 0 && !slices.ContainsFunc(
		words.Apart(words.Small(title)), func(w string) bool {
			return madeHere[w] || madeHere[words.Singular(w)] || isDishWord(w)
		})
}

// isDishWord reports whether a word is of one of the names that dishes have.
func isDishWord(w string) bool { return dishWords[w] || dishWords[words.Singular(w)] }

var dishWords = phraseSet("dish words")

// nameWithin is the dish's name as the text round a hollow title speaks of it: "this potato and rosemary bread"; empty:
// it does not.
func (t *textReader) nameWithin() string {
	for _, p := range t.intro {
		if m := thisDishRE.FindStringSubmatch(p.Text); m != nil {
			return m[1]
		}
	}
	for _, s := range t.method {
		if m := thisDishRE.FindStringSubmatch(s.text); m != nil {
			return m[1]
		}
	}
	return ""
}

func startsWithDigit(text string) bool {
	return text != "" && (text[0] >= '0' && text[0] <= '9' || strings.HasPrefix(text, "½") ||
		strings.HasPrefix(text, "¼"))
}

// amountFirst reports whether a line begins with an amount, whatever number it has in a list.
func (t *textReader) amountFirst(text string) bool {
	text, _ = manuscript.Unnumbered(text)
	return ingredient.AmountFirst(t.r.Usage, text)
}

func (t *textReader) amountLast(text string) bool {
	return ingredient.AmountLast(t.r.Usage, text) && (len(text) <= 40 || !methodLike(text))
}

// sectionOf reads "For the pastry:", "Filling", "Topping:" as the head of a part.
func sectionOf(text string) (string, bool) {
	if m := forTheR.FindStringSubmatch(text); m != nil && len(strings.Fields(m[1])) <= 4 {
		return partName(m[1]), true
	}
	fields := strings.Fields(text)
	if len(fields) > 4 || len(fields) == 0 || ingredient.StartsAmount(text) || strings.ContainsAny(text, ".,;(") {
		return "", false
	}
	if strings.HasSuffix(text, ":") {
		name := partName(strings.TrimSuffix(text, ":"))
		return name, name != ""
	}
	if partNames[words.Small(text)] {
		return words.Small(text), true
	}
	return "", false
}

// partName is the name of a part without what is done with it: "To make the gravy" is the gravy's. What names a stage
// names none.
func partName(said string) string {
	name := words.Small(strings.Trim(said, " :"))
	if slices.Contains(stages, name) {
		return ""
	}
	for _, lead := range []string{"for ", "to ", "make ", "cook ", "prepare ", "the "} {
		name = strings.TrimPrefix(name, lead)
	}
	return name
}

// partNames are parts of a dish that stand as headings without a colon.
var partNames = lists.Set("part names")
