package recipe

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/measure"
)

// MaxText is the longest recipe that is read, in bytes: a long recipe has ten thousand.
const MaxText = 60_000

// Refusal is why a text was not read, and what to do instead.
type Refusal struct{ Why, Try string }

// Error is the refusal in one or two sentences.
func (e *Refusal) Error() string { return e.Why + " " + e.Try }

// The most that one recipe has, in lines of ingredients and sentences; beyond it is a book.
const (
	maxIngredients = 80
	maxSentences   = 150
	maxSteps       = 100
	maxSentence    = 900 // bytes; longer ones are cut there
)

var (
	inlineRE = regexp.MustCompile(`(?i)^([a-z' ]{4,22}):\s+(\S.*)$`)
	flatRE   = regexp.MustCompile(`(?i)\s*\b(ingredients|you will need|method|directions|instructions)\s*:\s*`)
)

// unflattened gives a recipe whose line breaks were lost, as in a chat's field of one line, its headings back.
func unflattened(text string) string {
	if strings.Count(strings.TrimSpace(text), "\n") > 3 || len(flatRE.FindAllString(text, 3)) < 2 {
		return text
	}
	return flatRE.ReplaceAllString(text, "\n$1: ")
}

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

// Read reads a recipe of plain text or Markdown. The error is a *[Refusal], or a *[measure.Error] for an amount
// that makes no sense; then nothing was read.
func Read(text string) (*Reading, error) {
	if err := readable(text); err != nil {
		return nil, err
	}
	t := textReader{r: &Reading{Usage: usageOf(text)}}
	text = unflattened(text)
	for i, line := range strings.Split(strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), "\n") {
		if err := t.line(strings.TrimSpace(line), i+1); err != nil {
			return nil, err
		}
	}
	return t.finish()
}

// readable refuses what is no recipe's text.
func readable(text string) error {
	low := lower(text[:min(len(text), 2000)])
	switch {
	case strings.TrimSpace(text) == "":
		return &Refusal{"There is no text in it.", "Paste the recipe's ingredients and method."}
	case strings.HasPrefix(text, "PK\x03\x04"), strings.HasPrefix(text, "\x1f\x8b"):
		return &Refusal{"This is a packed file, and no text.", "Unpack it, and send the recipe as .txt or .md."}
	case strings.HasPrefix(text, "\x89PNG"), strings.HasPrefix(text, "\xff\xd8\xff"), strings.HasPrefix(text, "GIF8"), strings.HasPrefix(text, "RIFF") && strings.Contains(text[:min(len(text), 16)], "WEBP"):
		return &Refusal{"This is a picture, which I cannot read.", "Type or paste what it says."}
	case strings.HasPrefix(text, "%PDF"):
		return &Refusal{"This is a PDF, which I cannot read.", "Copy its text and paste it."}
	case !utf8.ValidString(text) || strings.ContainsRune(text, 0):
		return &Refusal{"This is no text that I can read.", "Send the recipe as plain text, in UTF-8."}
	case len(text) > MaxText:
		return &Refusal{"This is too long for one recipe: " + strconv.Itoa(len(text)/1000) + " kB.", "Send one recipe alone, at most " + strconv.Itoa(MaxText/1000) + " kB."}
	case onlyAddress(text):
		return &Refusal{"I open no addresses.", "Save the page and send the file, or paste the recipe's text."}
	case strings.Contains(low, "<html") || strings.Contains(low, "<!doctype") || strings.Contains(low, "<script"):
		return &Refusal{"This is a page and not plain text.", "Send it as a file that ends in .html, or paste the recipe's text alone."}
	}
	return nil
}

func onlyAddress(text string) bool {
	f := strings.Fields(text)
	return len(f) == 1 && (strings.HasPrefix(f[0], "http://") || strings.HasPrefix(f[0], "https://") || strings.HasPrefix(f[0], "www."))
}

// usageOf tells British cups and spoons from American ones by the words that only one side uses.
func usageOf(text string) measure.Usage {
	low := lower(text)
	british := 0
	for _, w := range []string{"gas mark", "gas ", "caster sugar", "double cream", "plain flour", "self-raising", "tin ", "tins ", "fan", "courgette", "aubergine", "litre", "yoghurt", "grill ", "hob", "grams"} {
		if strings.Contains(low, w) {
			british++
		}
	}
	american := 0
	for _, w := range []string{"all-purpose", "skillet", "°f", "degrees f", " cups", " cup ", "stick ", "broil", "heavy cream", "cilantro", "quart", "pounds", " lb"} {
		if strings.Contains(low, w) {
			american++
		}
	}
	if british > american {
		return measure.British
	}
	return measure.American
}

type part int

const (
	inHead part = iota
	inIngredients
	inMethod
	inNotes
)

// sentence is a piece of the method, with where it stands.
type sentence struct {
	text, section string
	from          Place
	paragraph     int
	told          bool // one step, in the words of our own export
	about         bool // from the description: remarks only
}

type textReader struct {
	r         *Reading
	at        part
	section   string
	method    []sentence
	paragraph int
	named     bool // a heading has said where the ingredients or the method begin
	intro     []Place
	bare      int // ingredient lines that were read without an amount
}

var (
	enumRE  = regexp.MustCompile(`^(?:step\s+)?\d{1,2}\s*[.):]\s+`)
	yieldRE = regexp.MustCompile(`(?i)^(?:(?:it\s+)?(?:serves?|servings?|feeds|makes?|yields?|portions?|covers|enough for|for)\b:?\s*(?:about\s+|up to\s+)?(\d{1,3})(?:\s*(?:-|–|to|or)\s*(\d{1,3}))?|(\d{1,3})(?:\s*(?:-|–|to)\s*(\d{1,3}))?\s+(?:people|persons?|servings?|portions?|covers|guests)\b)`)
	inTitle = regexp.MustCompile(`(?i)\b(?:for|serves)\s+(\d{1,3})\b(?:\s+(?:people|persons?|guests))?`)
	feedsRE = regexp.MustCompile(`(?i)\b(?:feeds|serves|enough for)\s+(\d{1,3})(?:\s*(?:-|–|to|or)\s*(\d{1,3}))?`)
	clockRE = regexp.MustCompile(`(?i)^(prep(?:aration)?|cook(?:ing)?|bak(?:e|ing)|total|active|ready in|time)(?:\s+time\s*:?|\s*:|\b)\s*(.+)$`)
	forTheR = regexp.MustCompile(`(?i)^for\s+(?:the\s+)?([a-z][a-z' -]{1,30}):?$`)
)

var wordYield = regexp.MustCompile(`(?i)^((?:serves|for|feeds|makes|yields)\s+)(two|three|four|five|six|seven|eight|nine|ten|twelve)\b`)

var smallNumbers = map[string]int{"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "twelve": 12}

var headings = map[string]part{
	"ingredients": inIngredients, "you will need": inIngredients, "you'll need": inIngredients, "what you need": inIngredients, "what you will need": inIngredients,
	"ingredient list": inIngredients, "shopping": inIngredients, "what goes in": inIngredients,
	"method": inMethod, "directions": inMethod, "instructions": inMethod, "preparation": inMethod, "steps": inMethod, "what to do": inMethod, "how to make it": inMethod,
	"procedure": inMethod, "to make": inMethod, "how to": inMethod, "making it": inMethod, "cooking": inMethod,
	"notes": inNotes, "note": inNotes, "tips": inNotes, "tip": inNotes, "storage": inNotes, "cook's notes": inNotes, "variations": inNotes,
}

// plainLine takes Markdown's marks off a line.
func plainLine(line string) string {
	line = strings.TrimLeft(line, "#> ")
	line = strings.NewReplacer("**", "", "__", "", "`", "").Replace(line)
	if len(line) > 2 && (line[0] == '*' && line[len(line)-1] == '*' || line[0] == '_' && line[len(line)-1] == '_') {
		line = line[1 : len(line)-1]
	}
	return strings.TrimSpace(line)
}

// sentenceCase brings shouted text down, so that it reads like other text.
func sentenceCase(text string) string {
	letters, upper := 0, 0
	for _, c := range text {
		if unicode.IsLetter(c) {
			letters++
			if unicode.IsUpper(c) {
				upper++
			}
		}
	}
	if letters < 4 || upper*10 < letters*9 {
		return text
	}
	out := []rune(lower(text))
	start := true
	for i, c := range out {
		if start && (unicode.IsLetter(c) || unicode.IsDigit(c)) {
			out[i] = unicode.ToUpper(c)
			start = false
		}
		if c == '.' || c == '!' || c == '?' {
			start = true
		}
	}
	return string(out)
}

// line reads one line of the text.
func (t *textReader) line(raw string, n int) error {
	text := plainLine(raw)
	if strings.Trim(text, "-*_=~ ") == "" {
		t.paragraph++
		return nil
	}
	text = sentenceCase(text)
	if m := wordYield.FindStringSubmatch(text); m != nil {
		text = m[1] + strconv.Itoa(smallNumbers[lower(m[2])]) + text[len(m[0]):]
	}
	from := Place{Line: n, Text: text}
	if p, ok := headings[strings.Trim(lower(text), " :.-")]; ok {
		t.at, t.section, t.named = p, "", true
		return nil
	}
	if m := inlineRE.FindStringSubmatch(text); m != nil {
		if p, ok := headings[lower(m[1])]; ok {
			t.at, t.section, t.named = p, "", true
			if p != inIngredients {
				t.say(m[2], from)
				return nil
			}
			for _, one := range splitRun(m[2]) {
				if err := t.ingredient(one, from); err != nil {
					return err
				}
			}
			return nil
		}
	}
	if t.at != inMethod && t.stated(text) {
		return nil
	}
	bullet := strings.HasPrefix(raw, "- ") || strings.HasPrefix(raw, "* ") || strings.HasPrefix(raw, "• ")
	switch t.at {
	case inHead:
		return t.head(text, bullet, from)
	case inIngredients:
		if !bullet && (methodLike(text) && !t.amountFirst(text) || len(text) > 200 || len(text) > 100 && !t.amountFirst(text) && strings.Contains(text, ". ")) {
			if !strings.HasPrefix(lower(text), "for ") || len(text) > 60 {
				t.at, t.section = inMethod, ""
				t.say(text, from)
				return nil
			}
		}
		return t.ingredient(text, from)
	case inMethod:
		if s, ok := sectionOf(text); ok {
			t.section = s
			return nil
		}
		t.say(text, from)
	case inNotes:
		t.say(text, from)
	}
	return nil
}

// stated reads a line that says for how many it is, or how long it takes.
func (t *textReader) stated(text string) bool {
	if len(text) > 90 {
		return false
	}
	if m := yieldRE.FindStringSubmatch(text); m != nil && t.r.Serves == 0 && !strings.HasPrefix(lower(text), "for the") {
		t.yield(text, m[1:])
		return true
	}
	if low := lower(text); t.r.Yield == "" && (strings.HasPrefix(low, "makes ") || strings.HasPrefix(low, "yield")) {
		t.r.Yield = strings.TrimSpace(text)
		return true
	}
	if m := clockRE.FindStringSubmatch(text); m != nil && (strings.Contains(text, ":") || containsWord(text, "time") || lower(text)[0] != 'b' && lower(text)[0] != 'c') {
		all := durations(m[2])
		if len(all) == 0 {
			return false
		}
		for _, c := range strings.Split(text, ",") {
			if m := clockRE.FindStringSubmatch(strings.TrimSpace(c)); m != nil {
				if d := durations(m[2]); len(d) > 0 {
					t.clock(lower(m[1]), d[0].Duration)
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
	low := lower(text)
	for _, n := range numbers {
		if v, err := strconv.Atoi(n); err == nil && v > 0 {
			if (strings.HasPrefix(low, "make") || strings.HasPrefix(low, "yield")) && !containsWord(low, "servings", "serving", "portions", "portion", "people", "persons", "covers") && !portionWord(low) {
				return // 1 loaf, 24 biscuits: not covers
			}
			t.r.Serves = v
			return
		}
	}
}

// portionWord finds what is served one to each: small pots, skewers are not sure.
func portionWord(low string) bool {
	return containsWord(low, "pots", "ramekins", "bowls", "plates", "glasses")
}

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
	if m := inTitle.FindStringSubmatchIndex(first); m != nil && m[0] > 0 {
		t.r.Serves, _ = strconv.Atoi(first[m[2]:m[3]])
		t.r.Yield = first[m[0]:m[1]]
		first = strings.TrimSpace(first[:m[0]] + first[m[1]:])
	}
	if enumRE.MatchString(first) || t.amountFirst(first) || methodLike(first) && len(first) > 60 {
		// A recipe without a name.
		t.r.Title = "A dish"
		return t.head(text, false, from)
	}
	if at := strings.IndexAny(first, "(:"); at > 10 {
		first = first[:at]
	}
	t.r.Title = cut(strings.Trim(first, " .,:-–#*"), 70)
	if rest != "" {
		return t.head(rest, false, from)
	}
	return nil
}

// amountFirst reports whether a line begins with an amount.
func (t *textReader) amountFirst(text string) bool {
	if len(text) > maxLine {
		return false
	}
	text = tidy(enumRE.ReplaceAllString(text, ""))
	if q, rest, err := measure.ParseAs(t.r.Usage, text); err != nil || !q.IsZero() && rest != "" {
		return err == nil || startsAmount(text) || strings.HasPrefix(text, "-")
	}
	return startsAmount(text)
}

func (t *textReader) amountLast(text string) bool {
	if len(text) > maxLine {
		return false
	}
	_, amount, ok := cutTrailing(tidy(text))
	if !ok || methodLike(text) && len(text) > 40 {
		return false
	}
	q, rest, err := measure.ParseAs(t.r.Usage, amount)
	return err == nil && !q.IsZero() && rest == ""
}

// sectionOf reads "For the pastry:", "Filling", "Topping:" as the head of a part.
func sectionOf(text string) (string, bool) {
	if m := forTheR.FindStringSubmatch(text); m != nil && len(strings.Fields(m[1])) <= 4 {
		return lower(strings.TrimSpace(m[1])), true
	}
	words := strings.Fields(text)
	if len(words) > 4 || len(words) == 0 || startsAmount(text) || strings.ContainsAny(text, ".,;(") {
		return "", false
	}
	if strings.HasSuffix(text, ":") {
		name := strings.TrimPrefix(lower(strings.TrimSuffix(text, ":")), "the ")
		return name, name != ""
	}
	if partNames[lower(text)] {
		return lower(text), true
	}
	return "", false
}

// partNames are parts of a dish that stand as headings without a colon.
var partNames = set(`pastry filling topping sauce dressing marinade glaze icing frosting base crust dough custard syrup salad gravy stuffing crumble batter garnish vinaigrette`)

// methodLike reports whether a line gives instructions.
func methodLike(text string) bool {
	if len(text) > maxLine {
		text = strings.ToValidUTF8(text[:maxLine], "")
	}
	text = enumRE.ReplaceAllString(text, "")
	low := lower(text)
	words := len(strings.Fields(text))
	if words < 3 {
		return false
	}
	for _, lead := range []string{"for the ", "to make the ", "make the ", "meanwhile", "night before", "the night before", "the day before", "the next day", "when ", "while ", "once ", "oven "} {
		if strings.HasPrefix(low, lead) && words > 4 {
			return true
		}
	}
	if part, rest, ok := strings.Cut(text, ": "); ok && len(strings.Fields(part)) <= 3 && !startsAmount(rest) && len(rest) > 20 && methodLike(rest) {
		return true // Ragù: fry the onions …
	}
	first := sentences(text)
	if len(first) == 0 {
		return false
	}
	w, _, ok := actionWord(first[0])
	if !ok {
		return false
	}
	if nouns[w] {
		// Salt and pepper; butter for the tin: an instruction goes on with "the", or is long.
		second := ""
		if f := strings.Fields(low); len(f) > 1 {
			second = f[1]
		}
		return determiners[second] || words > 12 && strings.Contains(text, ".")
	}
	return words > 4 || strings.HasSuffix(text, ".") || strings.Contains(low, " until ") || determiners[strings.Fields(low)[1]]
}

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

// say keeps a line of the method for later, in sentences.
func (t *textReader) say(text string, from Place) {
	t.paragraph++
	text = enumRE.ReplaceAllString(text, "")
	for _, s := range sentences(text) {
		t.method = append(t.method, sentence{text: s, section: t.section, from: Place{from.Line, s}, paragraph: t.paragraph})
	}
}

// sentences splits a text after full stops that end something.
func sentences(text string) []string {
	var out []string
	start := 0
	for i := 0; i < len(text); i++ {
		if c := text[i]; c != '.' && c != '!' && c != '?' {
			continue
		}
		if i+1 < len(text) && text[i+1] != ' ' && text[i+1] != ')' && text[i+1] != '"' {
			continue
		}
		word := lower(text[strings.LastIndexAny(text[:i], " (")+1 : i])
		if i+2 < len(text) && abbreviations[word] && unicode.IsLower(rune(text[i+2])) {
			if next, _ := firstWord(text[i+2:]); !minuteWords[word] || !instruction(next) {
				continue // but "8 min. pour off the fat" are two
			}
		}
		end := i + 1
		if end < len(text) && (text[end] == ')' || text[end] == '"') {
			end++
		}
		if s := strings.TrimSpace(text[start:end]); s != "" {
			out = append(out, s)
		}
		start = end
	}
	if s := strings.TrimSpace(text[start:]); s != "" {
		out = append(out, s)
	}
	return bounded(out)
}

// bounded cuts overlong sentences at a blank.
func bounded(all []string) (out []string) {
	for _, s := range all {
		for len(s) > maxSentence {
			at := strings.LastIndexByte(s[:maxSentence], ' ')
			if at <= 0 {
				return out // no language has such words
			}
			out, s = append(out, s[:at]), s[at+1:]
		}
		out = append(out, s)
	}
	return out
}

var minuteWords = set(`min mins hr hrs`)

func instruction(word string) bool { _, is := verbs[word]; return is }

var abbreviations = set(`approx min mins hr hrs tbsp tsp oz lb no e.g i.e ca c temp deg`)

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

// finish makes the reading of what was gathered.
func (t *textReader) finish() (*Reading, error) {
	if len(t.r.Ingredients) > maxIngredients || len(t.method) > maxSentences {
		return nil, &Refusal{"This is more than one recipe: it has " + strconv.Itoa(len(t.r.Ingredients)) + " lines of ingredients and " + strconv.Itoa(len(t.method)) + " sentences.", "Send one recipe alone."}
	}
	if len(t.r.Ingredients) == 0 {
		if err := t.prose(); err != nil {
			return nil, err
		}
	}
	for _, p := range t.intro {
		t.r.Remarks = append(t.r.Remarks, Remark{Kind: Unread, From: p})
	}
	foreign := foreignWords(t)
	switch {
	case foreign != "":
		return nil, &Refusal{"This looks like " + foreign + ", and I read English only.", "Translate it, or type the dish with /dish add and /step add."}
	case len(t.r.Ingredients) == 0 && len(t.method) == 0:
		return nil, &Refusal{"I find neither ingredients nor a method in it.", "Paste the recipe with one ingredient a line, then the method."}
	case len(t.r.Ingredients) == 0:
		return nil, &Refusal{"I find no ingredients in it.", "Put each ingredient on a line of its own, above the method."}
	}
	readMethod(t.r, t.method)
	if len(t.r.Steps) >= maxSteps {
		return nil, &Refusal{"This is more than one recipe: I count " + strconv.Itoa(maxSteps) + " steps and more.", "Send one recipe alone."}
	}
	t.r.ask()
	return t.r, nil
}

// Words that stand in nearly every recipe of a language, and in none of English.
var foreignMarks = []struct{ name, words string }{
	{"German", "und mit das der die eine zutaten zubereitung esslöffel minuten backen salz"},
	{"French", "et avec les des dans une pendant minutes farine beurre sel ajouter préparation"},
	{"Spanish", "y con los las una durante harina sal aceite ingredientes minutos añadir"},
	{"Italian", "e con gli di una farina sale olio ingredienti minuti aggiungere cuocere"},
	{"Portuguese", "e com os das uma farinha sal azeite ingredientes minutos adicione"},
	{"Dutch", "en met het een voor bloem zout boter ingrediënten minuten"},
}

func foreignWords(t *textReader) string {
	count := map[string]int{}
	english := 0
	see := func(text string) {
		for _, w := range strings.FieldsFunc(lower(text), func(c rune) bool { return !unicode.IsLetter(c) }) {
			count[w]++
			switch w {
			case "the", "and", "with", "in", "for", "of", "until", "to":
				english++
			}
		}
	}
	for _, s := range t.method {
		see(s.text)
	}
	for _, g := range t.r.Ingredients {
		see(g.Text)
	}
	for _, p := range t.intro {
		see(p.Text)
	}
	for _, f := range foreignMarks {
		n, kinds := 0, 0
		for _, w := range strings.Fields(f.words) {
			if count[w] > 0 {
				n += count[w]
				kinds++
			}
		}
		if kinds >= 4 && n > english*2 {
			return f.name
		}
	}
	return ""
}
