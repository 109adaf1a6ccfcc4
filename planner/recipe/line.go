package recipe

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/measure"
)

// Line is one line of a recipe's ingredients, taken apart.
type Line struct {
	Text        string           // as written
	Amount      measure.Quantity // the first amount; none for "salt"
	Unit        measure.Unit     // the amount's unit, or what a line without a number speaks of: "pinch of salt"
	Size        string           // what stands between number and unit: "large", "heaping"
	More        []Extra          // the further amounts: the weight of a tin, what it comes to in cups
	Name        string           // what to buy: "onions"
	Preparation string           // what is done to it first: "peeled and chopped", "juice of"
	Note        string           // the rest: "for the pan", "about"
	Optional    bool
	ToTaste     bool
}

// Extra is a further amount of a line. It says the first one again in other units, or how large a piece is.
type Extra struct {
	Amount measure.Quantity
	Each   bool // of each piece: a 400 g tin
	Plus   bool // in addition to the first amount
	Inches bool // a length, and no amount
}

// maxLine is the most of a line that is read, in bytes. Longer ones are prose.
const maxLine = 600

// ParseLine reads an ingredient line as an American recipe means it. A line that names nothing but words
// ("salt") is no error; the error, from measure, is for an amount that makes no sense.
func ParseLine(text string) (Line, error) { return ParseLineAs(measure.American, text) }

// ParseLineAs is [ParseLine] for a recipe of the usage.
func ParseLineAs(usage measure.Usage, text string) (Line, error) {
	l := Line{Text: strings.TrimSpace(text)}
	if !utf8.ValidString(text) {
		return l, &measure.Error{Text: strings.ToValidUTF8(text, "?"), Why: "not readable text", Try: "type it again"}
	}
	if len(text) > maxLine {
		return l, &measure.Error{Text: cut(text, 40), Why: "too long for an ingredient",
			Try: "give each ingredient a line of its own"}
	}
	r := lineReader{usage: usage, line: &l}
	rest := r.lead(tidy(text))
	rest, err := r.first(rest)
	if err != nil {
		return l, err
	}
	rest = r.size(rest)
	rest = r.pieces(rest)
	r.name(rest)
	if !l.Amount.IsZero() {
		l.Unit = l.Amount.Unit()
	}
	return l, nil
}

// Total is all that the line asks for: the first amount with what is added to it.
func (l *Line) Total() measure.Quantity {
	q := l.Amount
	for _, m := range l.More {
		if m.Plus {
			if sum, err := q.Add(m.Amount); err == nil {
				q = sum
			}
		}
	}
	return q
}

// tidy makes blanks single, takes list marks away, and writes odd dashes and quotes plainly.
func tidy(text string) string {
	text = strings.NewReplacer("\u00a0", " ", "\u2009", " ", "\u202f", " ", "’", "'", "‑", "-", "‒", "-", "×",
		" x ",
		"\u200b", "", "\ufeff", "").Replace(text)
	text = strings.Join(strings.Fields(text), " ")
	for {
		cut := strings.TrimLeft(text, "•*·▪◦‣▢☐□✓►→ ")
		for _, mark := range []string{"- ", "– ", "— ", "[ ] ", "[] ", "[x] "} {
			cut = strings.TrimPrefix(cut, mark)
		}
		if cut == text {
			return andFractionRE.ReplaceAllString(text, "$1 $2 ")
		}
		text = cut
	}
}

// andFractionRE is a mixed number in words: 1 and 1/2 cups.
var andFractionRE = regexp.MustCompile(`^(\d+) and (\d/\d|[¼½¾⅓⅔⅛])(?: |$)`)

type lineReader struct {
	usage measure.Usage
	line  *Line
}

// lead takes words away that stand before the amount: about, a part of the thing ("juice of"), and turns
// "sugar: 200 g" round.
func (r *lineReader) lead(text string) string {
	if name, amount, ok := cutTrailing(text); ok {
		if q, rest, err := measure.ParseAs(r.usage, amount); err == nil && !q.IsZero() && rest == "" {
			return amount + " " + name
		}
	}
	low := lower(text)
	if len(text) == 0 || digit(text[0]) {
		return text
	}
	for _, of := range []string{" of ", " from "} {
		at := strings.Index(low, of)
		if at < 0 {
			continue
		}
		after := text[at+len(of):]
		if q, _, err := measure.ParseAs(r.usage, after); err != nil || q.IsZero() {
			continue
		}
		if first, _, err := measure.ParseAs(r.usage, text); err != nil || !first.IsZero() {
			continue
		}
		for _, w := range strings.FieldsFunc(low[:at], func(c rune) bool { return c == ' ' || c == ',' }) {
			if partWords[w] {
				r.line.Preparation = text[:at] + of[:len(of)-1]
				return after
			}
		}
	}
	return text
}

// cutTrailing takes "sugar: 200 g", "Flour - 200 g" and "Flour ... 200 g" apart.
func cutTrailing(text string) (name, amount string, ok bool) {
	if text == "" || digit(text[0]) {
		return "", "", false
	}
	for _, sep := range []string{":", " - ", " – ", " — ", "..", "\t"} {
		if name, amount, ok = strings.Cut(text, sep); ok {
			name, amount = strings.TrimRight(name, ". "), strings.TrimLeft(amount, ". ")
			if name != "" && amount != "" && startsAmount(amount) {
				return name, amount, true
			}
		}
	}
	if i := strings.LastIndexFunc(text, func(c rune) bool { return c == ' ' }); i > 0 {
		// Flour 200 g, Flour 200g: the number is the last or the last but one word.
		for _, at := range []int{i + 1, strings.LastIndex(text[:i], " ") + 1} {
			if at > 1 && digit(text[at]) && !strings.ContainsAny(text[:at], "(,") && !aSize(text[at:]) {
				return strings.TrimSpace(text[:at]), text[at:], true
			}
		}
	}
	return "", "", false
}

func aSize(text string) bool { return strings.Contains(text, "-inch") || strings.Contains(text, "%") }

func digit(c byte) bool { return c >= '0' && c <= '9' }

func startsAmount(text string) bool {
	c, n := utf8.DecodeRuneInString(text)
	if c == '−' { // a minus is no list's dash: the amount is refused
		c, _ = utf8.DecodeRuneInString(text[n:])
	}
	return unicode.IsNumber(c)
}

// first reads the first amount, and what is added to it at once.
func (r *lineReader) first(text string) (string, error) {
	if n, after, ok := times(text); ok {
		// 2 x 400 g tins
		q, rest, err := measure.ParseAs(r.usage, after)
		if err != nil {
			return text, err
		}
		if !q.IsZero() && q.Unit() != measure.Each {
			r.line.Amount, err = measure.New(n, 1, measure.Each)
			r.line.More = append(r.line.More, Extra{Amount: q, Each: true})
			return rest, err
		}
	}
	head, plus := cutPlus(text)
	q, rest, err := measure.ParseAs(r.usage, head)
	if err != nil {
		return text, err
	}
	if q.IsZero() {
		return r.unnumbered(text), nil
	}
	if w, n := firstWord(head); fillWords[lower(w)] && n < len(head) {
		r.line.Size = w // scant ½ cup
	}
	if u, _ := r.unit(rest); packages[u] && (q.Unit().Kind() == measure.Mass || q.Unit().Kind() == measure.Volume) {
		// A 16-ounce bag: one of it.
		r.line.More = append(r.line.More, Extra{Amount: q, Each: true})
		_, rest = r.unit(rest)
		r.line.Amount, err = measure.New(1, 1, u)
		return rest, err
	}
	for _, w := range []string{"or more", "or so", "each"} {
		if after, ok := cutWord(rest, w); ok {
			rest = after
			if after, ok := cutWord(rest, "of"); ok {
				rest = after
			}
		}
	}
	if q.Unit() == measure.Each {
		if after, ok := cutWord(rest, "a", "an"); ok && startsAmount(after) {
			rest = after // ½ of a 1-pound package
		}
	}
	r.line.Amount = q
	if plus == "" {
		return rest, nil
	}
	if rest == "" {
		more, after, err := measure.ParseAs(r.usage, plus)
		if err == nil && more.Adds(q) {
			r.line.More = append(r.line.More, Extra{Amount: more, Plus: true})
			return after, nil
		}
	}
	return strings.TrimSpace(rest + text[len(head):]), nil
}

// unnumbered reads "Pinch of salt", "A few grinds of pepper", "Small handful of mint": a unit without a number.
// A generous pinch and a good handful are one.
func (r *lineReader) unnumbered(text string) string {
	rest := text
	one := false
	var sizes []string
	for {
		w, n := firstWord(rest)
		low := lower(w)
		switch {
		case low == "a" || low == "an":
			one = true
		case low == "few" || low == "several" || low == "some" || low == "couple":
			one = false
		case sizeWords[low]:
			sizes = append(sizes, w)
		default:
			u, after := r.unit(rest)
			if !loose[u] || lower(w) != w && len(w) < 3 {
				return text
			}
			if one {
				if q, err := measure.New(1, 1, u); err == nil {
					r.line.Amount = q
				}
			}
			r.line.Size, r.line.Unit = strings.Join(sizes, " "), u
			return after
		}
		rest = strings.TrimLeft(rest[n:], " ,")
	}
}

// times reads "2 x " with the number before it.
func times(text string) (n int64, after string, ok bool) {
	i := 0
	for i < len(text) && i < 4 && digit(text[i]) {
		n = n*10 + int64(text[i]-'0')
		i++
	}
	if i == 0 {
		return 0, "", false
	}
	after = strings.TrimLeft(text[i:], " ")
	if len(after) < 2 || after[0] != 'x' && after[0] != 'X' {
		return 0, "", false
	}
	after = strings.TrimLeft(after[1:], " ")
	return n, after, after != "" && (digit(after[0]) || after[0] == '(')
}

// cutPlus cuts "2 tablespoons plus 3 cups flour" before and after the plus, where an amount follows it.
func cutPlus(text string) (head, plus string) {
	low := lower(text)
	for _, sep := range []string{" plus ", " + ", " and "} {
		if at := strings.Index(low, sep); at > 0 && startsAmount(text[at+len(sep):]) {
			return text[:at], text[at+len(sep):]
		}
	}
	return text, ""
}

// cutWord takes one of the words off the text's start.
func cutWord(text string, words ...string) (after string, ok bool) {
	for _, w := range words {
		if len(text) > len(w) && strings.EqualFold(text[:len(w)], w) && text[len(w)] == ' ' {
			return strings.TrimLeft(text[len(w):], " "), true
		}
	}
	return text, false
}

// size reads what stands between the number and the unit or the name.
func (r *lineReader) size(text string) string {
	if r.line.Amount.IsZero() || r.line.Amount.Unit() != measure.Each {
		return text
	}
	var sizes []string
	rest := text
	for {
		word, n := firstWord(rest)
		if !sizeWords[lower(word)] {
			break
		}
		sizes = append(sizes, word)
		rest = strings.TrimLeft(rest[n:], " ")
		for _, j := range []string{"to ", "or ", "and "} {
			if after, ok := strings.CutPrefix(rest, j); ok {
				if w, _ := firstWord(after); sizeWords[lower(w)] {
					sizes = append(sizes, strings.TrimSpace(j))
					rest = after
				}
			}
		}
		if after, ok := strings.CutPrefix(rest, ", "); ok {
			rest = after
		}
		if after, ok := cutWord(rest, "or"); ok && startsAmount(after) {
			// 1 large or 2 small heads
			if q, end, err := measure.ParseAs(r.usage, after); err == nil && !q.IsZero() && q.Unit() == measure.Each {
				r.line.More = append(r.line.More, Extra{Amount: q})
				for w, n := firstWord(end); sizeWords[lower(w)]; w, n = firstWord(end) {
					end = strings.TrimLeft(end[n:], " ")
				}
				rest = end
				break
			}
		}
	}
	u, after := r.unit(rest)
	if u == measure.Each {
		if onlyDegree(sizes) {
			return text // "very ripe peaches": it belongs to what follows
		}
		r.line.Size = strings.Join(sizes, " ")
		return rest
	}
	r.line.Size = strings.Join(sizes, " ")
	r.setUnit(u)
	return after
}

func onlyDegree(sizes []string) bool {
	for _, s := range sizes {
		if lower(s) != "very" {
			return false
		}
	}
	return true
}

// setUnit gives the amount a unit that stood later in the line.
func (r *lineReader) setUnit(u measure.Unit) {
	if q, err := measure.Range(r.line.Amount.Low(), r.line.Amount.High(), u); err == nil {
		r.line.Amount = q
	}
}

// unit reads a unit at the start of the text, and what follows it without "of".
func (r *lineReader) unit(text string) (measure.Unit, string) {
	w1, n1 := firstWord(text)
	if w1 == "" {
		return measure.Each, text
	}
	for _, n := range []int{n1 + secondWord(text[n1:]), n1} {
		if n == n1 && len(w1) < 2 {
			break
		}
		name := strings.Trim(text[:n], " .,")
		u, err := measure.ParseUnitAs(r.usage, name)
		if err != nil || u == measure.Each {
			continue
		}
		// The amount's own reader knows sticks of butter from sticks of celery.
		if q, rest, err := measure.ParseAs(r.usage, "2 "+text); err == nil && !q.IsZero() && q.Unit() != measure.Each {
			return q.Unit(), rest
		}
		rest := strings.TrimLeft(text[n:], " .")
		if after, ok := cutWord(rest, "of"); ok {
			rest = after
		}
		return u, rest
	}
	return measure.Each, text
}

// firstWord is the text's first word, of letters, hyphens and apostrophes, and its length in bytes.
func firstWord(text string) (string, int) {
	n := strings.IndexFunc(text, func(c rune) bool { return !unicode.IsLetter(c) && c != '-' && c != '\'' })
	if n < 0 {
		n = len(text)
	}
	return text[:n], n
}

// secondWord is the length of " word" at the start of the text.
func secondWord(text string) int {
	if !strings.HasPrefix(text, " ") {
		return 0
	}
	_, n := firstWord(text[1:])
	if n == 0 {
		return 0
	}
	return n + 1
}
