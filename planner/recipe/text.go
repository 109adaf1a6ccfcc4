package recipe

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/manuscript"
	"tureen/planner/method"
	"tureen/planner/remark"
	"tureen/planner/times"
	"tureen/planner/words"
)

// The most that one recipe has, in lines of ingredients and sentences; beyond it is a book.
const (
	maxIngredients = 80
	maxSentences   = 150
	MaxSteps       = 100
	maxSentence    = 900 // bytes; longer ones are cut there
)

var inlineRE = regexp.MustCompile(`(?i)^([a-z' ]{3,22})(?::\s+|\.\s?(?:--|—|–)\s*)(\S.*)$`)

// Read reads a recipe of plain text or Markdown. The error is a *[Refusal], or a *[measure.Error] for an amount
// that makes no sense; then nothing was read.
func Read(text string) (*Reading, error) {
	if err := readable(text); err != nil {
		return nil, err
	}
	text = manuscript.PlainSpaces(text)
	t := textReader{r: &Reading{Usage: usageOf(text)}, source: text, width: manuscript.Width(text),
		shouts: text == strings.ToUpper(text)}
	lines := manuscript.Lines(text)
	t.listAt = listHeading(lines)
	for i := 0; i < len(lines); i++ {
		l := lines[i]
		for i+1 < len(lines) && len(l.Raw) < ingredient.MaxLine*4 && t.goesOn(l.Raw, l.Last, lines[i+1].Raw) {
			i++
			l.Join(lines[i])
		}
		t.next = ""
		for k := i + 1; k < len(lines) && t.next == ""; k++ {
			t.next = lines[k].Text
		}
		if err := t.line(&l); err != nil {
			return nil, err
		}
	}
	return t.finish()
}

// listHeading is the line of the heading of the ingredients; 0: none, or the method begins without it.
func listHeading(lines []manuscript.Line) int {
	for i := range lines {
		if p, _, ok := headingIn(lines[i].Text); ok && p == inIngredients {
			return lines[i].Number
		} else if ok && p == inMethod {
			return 0
		}
	}
	return 0
}

// unnamed is the title of a recipe that has none.
const unnamed = "A dish"

type part int

const (
	inHead part = iota
	inIngredients
	inMethod
	inNotes
)

type textReader struct {
	r         *Reading
	at        part
	section   string
	method    []sentence
	paragraph int
	named     bool // a heading has said where the ingredients or the method begin
	intro     []Place
	source    string
	shouts    bool              // all of it is in capitals
	steps     int               // the last number that a line of the method began with
	partList  bool              // the list is a part's that follows another's method
	opened    bool              // a heading stands right above
	letter    bool              // it begins with a greeting
	letters   map[string]string // the parts of the list by their letters
	width     int               // of lines that were broken where they were full
	bare      int               // ingredient lines that were read without an amount
	listAt    int               // the line of the heading of the ingredients; 0: there is none
	next      string            // the next line that says something
	level     int               // of the heading of the part, where it is marked as one
}

var (
	aloneRE = regexp.MustCompile(`(?i)^(?:step\s*)?\d{1,2}\s*[.):]?$`)
	crowdRE = regexp.MustCompile(`(?i)^(?:serves?|servings?|feeds|portions?|covers|enough for)\b:?\s*(\d{4,})\b`)
	clockRE = regexp.MustCompile(`(?i)^(prep(?:aration)?|cook(?:ing)?|bak(?:e|ing)|total|active|ready ` +
		`in|time)(?:\s+time\s*:?|\s*:|\b)\s*(.+)$`)
	thisDishRE = regexp.MustCompile(`\b(?:this|these|my|our) ((?:[a-z][a-z'’-]* ){1,5}(?:` +
		strings.Join(phrases.Phrases("dish words"), "|") + `)s?)\b`)
	forTheR = regexp.MustCompile(`(?i)^for\s+(?:the\s+)?([a-z][a-z' -]{1,30}):?$`)
)

// forMany is the list of "For 6: 300 g mince, …"; empty: the text is none.
func (t *textReader) forMany(text string) string {
	m := forManyRE.FindStringSubmatch(text)
	if m == nil || t.r.Title == "" || t.r.Serves > 0 || t.at == inMethod ||
		!ingredient.StartsAmount(text[len(m[0]):]) {
		return ""
	}
	t.r.Serves, _ = strconv.Atoi(m[1])
	return text[len(m[0]):]
}

// line reads one line of the text.
func (t *textReader) line(l *manuscript.Line) error {
	text := spaced(l.Text)
	if l.Rule {
		t.paragraph++
		return nil
	}
	if text == "" { // nothing but signs: what stood above is over
		if t.at == inIngredients && len(t.r.Ingredients) > 1 {
			t.at, t.section = inMethod, ""
		}
		t.paragraph++
		return nil
	}
	from := Place{Line: l.Number, Text: text}
	if isClutter(text) || isClutter(l.Raw) {
		t.intro = append(t.intro, from)
		return nil
	}
	if m := crowdRE.FindStringSubmatch(text); m != nil {
		return Refuse("It says that it serves "+words.Cut(m[1], 20)+".", "Check the number.")
	}
	if done, err := t.heads(l, from); done {
		return err
	}
	if aloneRE.MatchString(text) { // the number of a step, on a line of its own
		if t.at == inMethod || text[len(text)-1] == '.' || text[len(text)-1] == ')' || methodLike(t.next) {
			t.at = inMethod
			return nil
		}
	}
	if rest, ok := t.numbered(text); ok {
		t.at, text, from.Text = inMethod, rest, rest
		t.say(rest, from)
		return nil
	}
	if t.at == inIngredients && t.opens(l) {
		return nil
	}
	if t.at != inMethod && !(t.r.Title == "" && strings.Contains(text, " | ")) && t.stated(text) {
		for _, s := range sentences(strings.ReplaceAll(text, " · ", ". ")) { // Serves 8. Best made the day before.
			if _, says := remark.Of(words.Small(s)); says {
				t.intro = append(t.intro, Place{from.Line, s})
			}
		}
		return nil
	}
	if strings.HasPrefix(words.Small(text), "oven ") && t.at != inMethod && len(times.Heats(text, false)) > 0 {
		t.say(text, from)
		t.partList = true
		return nil
	}
	if t.lettered(text) {
		return nil
	}
	if list := t.forMany(text); list != "" {
		return t.headed(inIngredients, list, from)
	}
	return t.within(text, l.Bullet, from)
}

// letterRE is a part's letter, and its name or what is done for it.
var letterRE = regexp.MustCompile(`^([A-H])[.)]\s+(\S.*)$`)

// lettered reads "B. Prunes" above lines to buy: a part, by whose letter the method may speak of it.
func (t *textReader) lettered(text string) bool {
	m := letterRE.FindStringSubmatch(text)
	if m == nil || t.at == inMethod || t.at == inNotes || len(strings.Fields(m[2])) > 4 || !t.amountFirst(t.next) ||
		ingredient.StartsAmount(m[2]) || method.Instructs(m[2]) && methodLike(text) {
		return false
	}
	if t.letters == nil {
		t.letters = map[string]string{}
	}
	t.at, t.opened, t.section = inIngredients, true, partName(m[2])
	t.letters[m[1]] = t.section
	return true
}

// opens reads what heads a part of the list in capitals, where others have none, and what heads the method by marks.
func (t *textReader) opens(l *manuscript.Line) bool {
	name := strings.Trim(l.Raw, " :*#_")
	if l.Bullet || len(strings.Fields(name)) > 4 || ingredient.StartsAmount(name) || strings.ContainsAny(name, ".,;(/") {
		return false
	}
	switch {
	case l.Level > 0 && t.named && methodLike(t.next):
		t.at, t.section, t.level = inMethod, "", l.Level // Do this
	case len(name) > 3 && len(t.r.Ingredients) > 0 && name == strings.ToUpper(name) && !t.shouts &&
		t.amountFirst(t.next):
		t.section, t.opened = partName(name), true
	default:
		return false
	}
	return true
}

// headsList reports a line that heads the list of the next part, behind a method: a few words, and a line to buy below.
func (t *textReader) headsList(text string) bool {
	buys := func(line string) bool { return t.amountFirst(line) || t.amountLast(line) }
	return len(strings.Fields(text)) <= 3 && !strings.ContainsAny(text, ".,;:(") && !method.Instructs(text) &&
		!buys(text) && len(t.next) < 60 && buys(t.next) && !methodLike(t.next) && len(times.Lengths(t.next)) == 0
}

// within reads a line of the part of the text that goes on.
func (t *textReader) within(text string, bullet bool, from Place) error {
	switch t.at {
	case inHead:
		return t.head(text, bullet, from)
	case inIngredients:
		if m := letterRE.FindStringSubmatch(text); m != nil && t.letters[m[1]] != "" {
			t.at = inMethod
			break
		}
		if t.partList && t.headsList(text) {
			t.section, t.opened = partName(text), true
			return nil
		}
		if !t.instruction(text, bullet) {
			return t.ingredient(text, from)
		}
		t.at = inMethod
		if !t.opened && !t.partList {
			t.section = "" // a heading right above the method is the method's
		}
	case inMethod:
		if slices.Contains(stages, strings.Trim(words.Small(text), " :")) {
			t.section = "" // what it is made of comes before, whatever it is called
			t.opened = t.headsList("")
			return nil
		}
		if s, ok := sectionOf(text); ok {
			t.section, t.opened = s, true
			return nil
		}
		if t.headsList(text) {
			t.section, t.opened = partName(text), true
			return nil
		}
		if t.opened && len(text) < 100 && (t.amountFirst(text) || t.amountLast(text)) && !methodLike(text) {
			t.at, t.partList = inIngredients, true // the next part's own list
			return t.ingredient(text, from)
		}
		t.opened = false
	}
	t.say(text, from)
	return nil
}

// heads reads a line that heads something, or that something stands behind its heading in.
func (t *textReader) heads(l *manuscript.Line, from Place) (done bool, err error) {
	p, rest, ok := headingIn(l.Text)
	switch m := inlineRE.FindStringSubmatch(unslanted(l.Text)); {
	case ok:
		t.at, t.section, t.named, t.level = p, "", true, l.Level
		if y, ok := manuscript.YieldIn(rest); ok && t.r.Serves == 0 {
			t.r.Serves, t.r.Yield = y.Serves, y.Said
		}
		return true, nil
	case t.over(l):
		t.at, t.section = inNotes, ""
		t.say(l.Text, from)
		return true, nil
	case m != nil:
		if p, rest, ok := headingIn(m[1]); ok && rest == "" {
			return true, t.headed(p, m[2], from)
		}
	}
	return false, nil
}

// unslanted is a line without the signs round words in italics: "_Mode._--Boil the rice."
func unslanted(text string) string { return strings.ReplaceAll(text, "_", "") }

// over reports a heading of something else than the method, or the list, that it stands below.
func (t *textReader) over(l *manuscript.Line) bool {
	low := strings.Trim(words.Small(l.Text), " :.!?")
	if t.at == inHead || strings.HasPrefix(l.Raw, "- ") {
		return false
	}
	if slices.Contains(pageEnds, low) {
		return true
	}
	_, part := sectionOf(l.Text)
	return t.at == inMethod && l.Level > 0 && l.Level <= t.level && !part && !slices.Contains(stages, low) &&
		!method.Instructs(l.Text)
}

// headed reads what stands behind a heading in its own line.
func (t *textReader) headed(p part, text string, from Place) error {
	t.at, t.section, t.named = p, "", true
	if p != inIngredients {
		t.say(text, from)
		return nil
	}
	for _, one := range ingredient.Run(text) {
		if err := t.ingredient(one, from); err != nil {
			return err
		}
	}
	return nil
}

// isClutter reports what pages have round their recipes: buttons, paths, stars, who wrote it and when.
func isClutter(text string) bool {
	low := words.Small(text)
	return len(text) < 80 && (slices.Contains(clutter, low) || words.Begins(low, clutterLeads) ||
		strings.Contains(low, " > ") || strings.HasPrefix(low, "by ") && strings.Contains(low, " | ") ||
		strings.ContainsAny(low, "★☆"))
}

var clutter, clutterLeads = phrases.Phrases("clutter"), phrases.Phrases("clutter begins")

// goesOn reports that a line was broken where it was full: the next begins in the midst of its sentence.
func (t *textReader) goesOn(line, above, next string) bool {
	if next == "" || line == "" || strings.ContainsAny(line[len(line)-1:], ".!?:;") {
		return false
	}
	first, _ := utf8.DecodeRuneInString(next)
	word, _ := words.First(next)
	full := t.width > 0 && len(above)+1+len(word) > t.width-3
	_, item := manuscript.Unnumbered(next)
	digit := unicode.IsDigit(first) && (t.at == inMethod || methodLike(line)) && !item
	switch last, _, _ := strings.Cut(line[strings.LastIndexByte(line, ' ')+1:], "("); {
	case strings.Count(line, "(") > strings.Count(line, ")") && strings.Contains(next, ")"):
		return true
	case breaksOff[strings.Trim(words.Small(last), ",")] && (unicode.IsLower(first) || digit):
		return len(strings.Fields(line)) > 3
	case t.width > 0 && len(line) > 25 && breaksOff[word]:
		return true // and what goes on with it
	case digit:
		return full
	}
	told := t.at == inMethod || methodLike(line) || beginsMethod(line)
	if full && unicode.IsLower(first) && listsAlong(line) {
		return true
	}
	return unicode.IsLower(first) && (full && !t.amountFirst(line) && (t.at != inIngredients || told) ||
		told && t.width > 0 && !instruction(word))
}

// beginsMethod reports a line that has the method's heading and its first words: "Mode.--Truss the pigeons".
func beginsMethod(line string) bool {
	m := inlineRE.FindStringSubmatch(unslanted(line))
	if m == nil {
		return false
	}
	p, _, ok := headingIn(m[1])
	return ok && p == inMethod
}

// listsAlong reports a line that has several ingredients, each with its amount: "3 oz. of flour, 2 eggs".
func listsAlong(line string) bool {
	if m := inlineRE.FindStringSubmatch(line); m != nil {
		if p, _, ok := headingIn(m[1]); ok && p == inIngredients {
			return true
		}
		return false
	}
	n := 0
	for _, one := range ingredient.Run(line) {
		if ingredient.StartsAmount(one) {
			n++
		}
	}
	return n > 1
}

// breaksOff are words that no line ends with of its own.
var breaksOff = words.Set("and or the a an of with in into to for until about over at from then on by your")

// instruction reports whether a line among the ingredients begins the method.
func (t *textReader) instruction(text string, bullet bool) bool {
	if t.amountFirst(text) {
		return !bullet && len(text) > 200
	}
	if rest, item := manuscript.Unnumbered(text); item && tellsStep(rest) {
		return true
	}
	first, n := words.First(text)
	if row := method.Verb(words.Small(first)); orders(text) || // stew the fruit, low, 15 min
		strings.HasPrefix(text[n:], ": ") && row != nil && row.Name == words.Small(first) && !isFood(row.Name) {
		return true // layer: tomato, pasta, sauce
	}
	if bullet {
		f := strings.Fields(words.Small(text))
		row := method.Verb(f[0])
		if row != nil && row.Name == f[0] && len(f) > 6 && !isFood(f[0]) {
			return true // mix flour, yeast, salt and water to a sticky dough
		}
		return methodLike(text) && (strings.HasSuffix(text, ".") || len(times.Lengths(text)) > 0 ||
			len(f) > 3 && row != nil && determiners[f[1]])
	}
	if strings.HasPrefix(words.Small(text), "for ") && len(text) <= 60 {
		return false
	}
	return methodLike(text) || len(text) > 200 || len(text) > 100 && strings.Contains(text, ". ")
}

// tellsStep reports what stands behind a number as a step does: an instruction, and no food, that ends as a sentence.
func tellsStep(text string) bool {
	word, at, ok := method.Told(text)
	return ok && at == 0 && !isFood(word) && len(strings.Fields(text)) > 2 && strings.ContainsAny(text[len(text)-1:], ".!")
}

func isFood(word string) bool {
	_, ok := food.Find(word)
	return ok
}

// stages are headings of the method that name no part: bake, assemble, to serve.
var stages = phrases.Phrases("stages")

// stepLeads are words that a step may begin with before it tells what to do: first, meanwhile.
var stepLeads = lists.Set("step leads")

// numbered reads "1 Preheat the oven." and what goes on with it: a number alone before an instruction.
func (t *textReader) numbered(text string) (rest string, ok bool) {
	digits := len(text) - len(strings.TrimLeft(text, "0123456789"))
	n, err := strconv.Atoi(text[:digits])
	if err != nil || n != t.steps+1 || t.at == inHead && t.r.Title == "" || digits >= len(text) || text[digits] != ' ' {
		return "", false
	}
	rest = strings.TrimSpace(text[digits:])
	w, at, told := method.Told(rest)
	if t.at == inMethod && t.steps > 0 && rest[0] >= 'A' && rest[0] <= 'Z' {
		t.steps = n
		return rest, true
	}
	first, _ := words.First(words.Small(rest))
	if !told || at > 0 && !stepLeads[first] || rest[0] < 'A' || rest[0] > 'Z' || len(strings.Fields(rest)) < 4 {
		return "", false
	}
	second := words.Small(strings.Fields(rest)[1])
	if row := method.Verb(w); row.Noun && !strings.ContainsAny(rest, ".;") && !determiners[second] {
		return "", false
	}
	t.steps = n
	return rest, true
}

// Heads reports whether a line is a heading within a recipe, and whether of its ingredients.
func Heads(text string) (ingredients, any bool) {
	p, rest, ok := headingIn(text)
	_, part := sectionOf(text)
	return ok && p == inIngredients && rest == "", ok || part
}

// Tells reports whether a line gives instructions, or says how long the whole takes.
func Tells(text string) bool { return methodLike(text) || clockRE.MatchString(text) }

// methodLike reports whether a line gives instructions.
func methodLike(text string) bool {
	if len(text) > ingredient.MaxLine {
		text = strings.ToValidUTF8(text[:ingredient.MaxLine], "")
	}
	text, _ = manuscript.Unnumbered(text)
	low := words.Small(text)
	count := len(strings.Fields(text))
	if count < 3 {
		return false
	}
	for _, lead := range []string{"for the ", "to make the ", "make the ", "meanwhile", "night before", "the night before",
		"the day before", "the next day", "when ", "while ", "once ", "oven "} {
		if strings.HasPrefix(low, lead) && count > 4 {
			return true
		}
	}
	if part, rest, ok := strings.Cut(text, ": "); ok && len(strings.Fields(part)) <= 3 && !ingredient.StartsAmount(rest) &&
		len(rest) > 20 && methodLike(rest) {
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
	if row := method.Verb(w); row != nil && row.Noun {
		// Salt and pepper; butter for the tin: an instruction goes on with "the", or is long.
		second := ""
		if f := strings.Fields(low); len(f) > 1 {
			second = f[1]
		}
		return determiners[second] && second != "for" && second != "to" || count > 12 && strings.Contains(text, ".")
	}
	return count > 4 || strings.HasSuffix(text, ".") || strings.Contains(low, " until ") ||
		determiners[strings.Fields(low)[1]]
}

// say keeps a line of the method for later, in sentences.
func (t *textReader) say(text string, from Place) {
	t.paragraph++
	text, _ = manuscript.Unnumbered(spaced(text))
	if m := letterRE.FindStringSubmatch(text); m != nil && t.letters != nil {
		part, known := t.letters[m[1]]
		if known {
			t.section, text = part, m[2]
		}
	}
	for _, s := range sentences(text) {
		t.method = append(t.method, sentence{text: s, section: t.section, from: Place{from.Line, s}, paragraph: t.paragraph,
			note: t.at == inNotes})
	}
}

// isTitle reports a sentence that is what the recipe is called: nothing to buy, and nothing to do.
func (t *textReader) isTitle(s sentence) bool {
	return words.Small(strings.Trim(s.text, " .:!")) == words.Small(t.r.Title)
}

// finish makes the reading of what was gathered.
func (t *textReader) finish() (*Reading, error) {
	if len(t.r.Ingredients) == 0 {
		t.spoken()
		if err := t.prose(); err != nil {
			return nil, err
		}
	}
	if len(t.r.Ingredients) == 0 {
		if err := t.woven(); err != nil {
			return nil, err
		}
	}
	if len(t.r.Ingredients) > maxIngredients || len(t.method) > maxSentences {
		return nil, Refuse("This is more than one recipe: it has "+strconv.Itoa(len(t.r.Ingredients))+
			" lines of ingredients and "+strconv.Itoa(len(t.method))+" sentences.", "Send one recipe alone.")
	}
	var about []sentence
	for _, p := range t.intro {
		for _, s := range sentences(p.Text) {
			about = append(about, sentence{text: s, from: Place{p.Line, s}, about: true})
		}
	}
	t.method = slices.DeleteFunc(append(about, t.method...), t.isTitle)
	all := ""
	for _, s := range t.method {
		all += s.text + " "
	}
	for _, g := range t.r.Ingredients {
		all += g.Text + " "
	}
	foreign := manuscript.ForeignWords(all)
	switch {
	case foreign != "":
		return nil, Refuse("This looks like "+foreign+", and I read English only.", inEnglish)
	case len(t.r.Ingredients) == 0 && len(t.method) == 0:
		return nil, Refuse("I find neither ingredients nor a method in it.",
			"Paste the recipe with one ingredient a line, then the method.")
	case len(t.r.Ingredients) == 0:
		return nil, Refuse("I find no ingredients in it.",
			"Put each ingredient on a line of its own, or write Ingredients: … and Method: … before them.")
	}
	if t.r.Title == "" {
		t.r.Title = unnamed
	}
	if hollow(t.r.Title) {
		if name := t.nameWithin(); name != "" {
			t.r.Title = words.Upper(words.Cut(name, 70))
		}
	}
	if t.r.Title == unnamed && len(t.r.Ingredients) == 1 && t.r.Ingredients[0].Name != "" {
		t.r.Title = words.Upper(words.Cut(t.r.Ingredients[0].Name, 70))
	}
	for _, s := range t.method {
		if err := endless(s.text); err != nil {
			return nil, err
		}
	}
	t.method = apart(t.method)
	locate(t.source, t.method)
	readMethod(t.r, t.method)
	if len(t.r.Steps) >= MaxSteps {
		return nil, Refuse("This is more than one recipe: I count "+strconv.Itoa(MaxSteps)+" steps and more.",
			"Send one recipe alone.")
	}
	t.r.ask()
	return t.r, nil
}
