package ingredient

import (
	"regexp"
	"strings"
	"unicode/utf8"

	"tureen/planner/measure"
	"tureen/planner/words"
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

// MaxLine is the most of a line that is read, in bytes. Longer ones are prose.
const MaxLine = 600

// ParseAs reads an ingredient line as a recipe of the usage means it. A line that names nothing but words ("salt") is
// no error; the error, from measure, is for an amount that makes no sense.
func ParseAs(usage measure.Usage, text string) (Line, error) {
	l := Line{Text: strings.TrimSpace(text)}
	if !utf8.ValidString(text) {
		return l, &measure.Error{Text: strings.ToValidUTF8(text, "?"), Why: "not readable text", Try: "type it again"}
	}
	if len(text) > MaxLine {
		return l, &measure.Error{Text: words.Cut(text, 40), Why: "too long for an ingredient",
			Try: "give each ingredient a line of its own"}
	}
	r := lineReader{usage: usage, line: &l}
	rest := aLength(r.lead(tidy(modern(inFull(text)))))
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

// PieceSize is the line's size where that is part of what one buys: large eggs, but not a heaping spoon.
func (l *Line) PieceSize() string {
	if l.Amount.Unit() != measure.Each || fillWords[words.Small(l.Size)] {
		return ""
	}
	return l.Size
}

// Packed reports whether it comes in what a shop sells a weight in: a tin, a packet.
func (l *Line) Packed() bool { return packages[l.Unit] }

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
	low := words.Small(text)
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

// cutWord takes one of the words off the text's start.
func cutWord(text string, all ...string) (after string, ok bool) {
	for _, w := range all {
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
		word, n := words.First(rest)
		if !sizeWords[words.Small(word)] {
			break
		}
		sizes = append(sizes, word)
		rest = strings.TrimLeft(rest[n:], " ")
		for _, j := range []string{"to ", "or ", "and "} {
			if after, ok := strings.CutPrefix(rest, j); ok {
				if w, _ := words.First(after); sizeWords[words.Small(w)] {
					sizes = append(sizes, strings.TrimSpace(j))
					rest = after
				}
			}
		}
		if after, ok := strings.CutPrefix(rest, ", "); ok {
			rest = after
		}
		if after, ok := cutWord(rest, "or"); ok && StartsAmount(after) {
			// 1 large or 2 small heads
			if q, end, err := measure.ParseAs(r.usage, after); err == nil && !q.IsZero() && q.Unit() == measure.Each {
				r.line.More = append(r.line.More, Extra{Amount: q})
				for w, n := words.First(end); sizeWords[words.Small(w)]; w, n = words.First(end) {
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
		if words.Small(s) != "very" {
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
	w1, n1 := words.First(text)
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

// secondWord is the length of " word" at the start of the text.
func secondWord(text string) int {
	if !strings.HasPrefix(text, " ") {
		return 0
	}
	_, n := words.First(text[1:])
	if n == 0 {
		return 0
	}
	return n + 1
}
