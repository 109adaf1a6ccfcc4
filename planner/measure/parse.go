package measure

import (
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Parse reads the amount that a text starts with, as an American recipe means
// it, and returns the rest of the text. A text that starts with no amount
// ("salt to taste", "00 flour") is no error: the quantity is zero and the rest
// is the whole text. An error means that there is an amount and it makes no
// sense (1/0, -3, a million litres).
func Parse(text string) (q Quantity, rest string, err error) { return ParseAs(American, text) }

// ParseWhole reads a text that is an amount and nothing else; empty text is no
// amount.
func ParseWhole(text string) (Quantity, error) {
	q, rest, err := Parse(text)
	if err != nil {
		return Quantity{}, err
	}
	if rest != "" {
		return Quantity{}, &Error{text, "not an amount that I can read", "write for example 200 g, 1½ cups or 3"}
	}
	return q, nil
}

// ParseAs is [Parse] for a text of the usage.
func ParseAs(usage Usage, text string) (q Quantity, rest string, err error) {
	whole := strings.TrimSpace(text)
	if whole == "" {
		return Quantity{}, "", nil
	}
	if !utf8.ValidString(whole) {
		return Quantity{}, whole, &Error{strings.ToValidUTF8(whole, "?"), "not readable text", "type it again"}
	}
	r := reader{usage: usage, text: whole}
	q, n, err := r.amount(skipLead(whole))
	if err != nil {
		return Quantity{}, whole, err
	}
	if n == 0 {
		return Quantity{}, whole, nil
	}
	for {
		more, end, joined := r.more(n, q.unit)
		if !joined {
			break
		}
		if q, err = q.Add(more); err != nil {
			return Quantity{}, whole, err
		}
		n = end
	}
	return q, r.restAfter(n, q.unit), nil
}

// skipLead steps over a list mark and words that only say "about".
func skipLead(s string) int {
	n := 0
	for _, mark := range []string{"- ", "* ", "• ", "– "} {
		if strings.HasPrefix(s, mark) {
			n = len(mark) + blanks(s[len(mark):])
			break
		}
	}
	if strings.HasPrefix(s[n:], "~") {
		return n + 1 + blanks(s[n+1:])
	}
	for {
		word, w := nextWord(s[n:])
		switch strings.ToLower(word) {
		case "about", "approximately", "approx", "around", "roughly", "ca", "circa", "scant", "generous":
			if n+w < len(s) && s[n+w] == '.' {
				w++
			}
			n += w + blanks(s[n+w:])
		case "at":
			if least, m := nextWord(s[n+w:]); strings.EqualFold(least, "least") {
				n += w + m
				n += blanks(s[n:])
				continue
			}
			return n
		case "a":
			// A 3/4-pound steak.
			if m := n + w + blanks(s[n+w:]); m < len(s) && isDigit(s[m]) {
				return m
			}
			return n
		default:
			return n
		}
	}
}

func blanks(s string) int {
	n := 0
	for n < len(s) {
		r, w := utf8.DecodeRuneInString(s[n:])
		if !unicode.IsSpace(r) {
			break
		}
		n += w
	}
	return n
}

// reader reads amounts at positions of one text.
type reader struct {
	usage Usage
	text  string
}

// amount reads number or range and unit at the position. n is the position
// after it, 0 when there is no amount.
func (r reader) amount(at int) (q Quantity, n int, err error) {
	s := r.text[at:]
	if sign, w := utf8.DecodeRuneInString(s); (sign == '-' || sign == '−' || sign == '–') && at == 0 || sign == '−' {
		if v, _, _ := readNumber(s[w:]); v != nil {
			return q, 0, &Error{r.text, "an amount cannot be negative", "write it without the minus"}
		}
	}
	lo, n, err := readNumber(s)
	if err != nil || n == 0 {
		return q, 0, err
	}
	if noAmount(s, n) {
		// 8 1/2-inch slices are eight slices.
		whole := digits(s)
		if whole == 0 || whole == n || !strings.HasPrefix(s[whole:], " ") || !strings.HasPrefix(s[n:], "-") {
			return q, 0, nil
		}
		if lo, err = numeral(s[:whole], s[:whole]); err != nil {
			return q, 0, err
		}
		q, err = checked(lo, lo, Each)
		return q, at + whole, err
	}
	if err := r.tooLarge(s[n:]); err != nil {
		return q, 0, err
	}
	if w, m := nextWord(s[n:]); strings.EqualFold(w, "dozen") {
		lo.Mul(lo, big.NewRat(12, 1))
		n += m
	}
	unit, end := r.unitAfter(at + n)
	hi := lo
	if high, hunit, hend, ok, err := r.rangeEnd(end, unit); err != nil {
		return q, 0, err
	} else if ok {
		hi, end = high, hend
		if unit == Each {
			unit = hunit
		} else if hunit != unit {
			// 500 g - 1 kg: the far end in the unit of the near one.
			from, _ := hunit.row()
			into, _ := unit.row()
			hi = new(big.Rat).Mul(high, new(big.Rat).Quo(from.base, into.base))
		}
	}
	q, err = checked(lo, hi, unit)
	if e, ok := err.(*Error); ok {
		e.Text = r.text
	}
	return q, end, err
}

// tooLarge refuses a number that goes on as no kitchen's does.
func (r reader) tooLarge(after string) error {
	e := after
	if raised(e) || len(e) > 1 && (e[0] == 'e' || e[0] == 'E') &&
		(isDigit(e[1]) || len(e) > 2 && (e[1] == '-' || e[1] == '+') && isDigit(e[2])) {
		return &Error{r.text, "I do not read powers of ten", "write the number out"}
	}
	if w, _ := nextWord(after); strings.EqualFold(w, "million") || strings.EqualFold(w, "billion") {
		return &Error{r.text, "no kitchen counts in " + strings.ToLower(w) + "s", "check the number and the unit"}
	}
	if strings.HasPrefix(after, " 000") {
		return &Error{r.text, "the thousands stand apart", "write 10000 or 10,000 in one piece"}
	}
	return nil
}

// raised reports whether a number goes on with a power: 10^9, 10⁹.
func raised(after string) bool {
	c, w := utf8.DecodeRuneInString(after)
	return c == '^' && len(after) > w && (isDigit(after[w]) || after[w] == '-') ||
		c != utf8.RuneError && strings.ContainsRune("⁰¹²³⁴⁵⁶⁷⁸⁹", c)
}

// noAmount tells numbers that belong to a name: 00 flour, 2% milk, 5-spice.
func noAmount(s string, n int) bool {
	after := s[n:]
	if strings.HasPrefix(after, "%") || strings.HasPrefix(after, " %") {
		return true
	}
	if s[:n] == "00" {
		return true
	}
	if strings.HasPrefix(after, "-") && len(after) > 1 {
		if c, _ := utf8.DecodeRuneInString(after[1:]); unicode.IsLetter(c) {
			u, w := matchUnit(American, after[1:])
			return w == 0 || u.Kind() == Count // 1-inch, 5-spice; but 8-ounce is an amount
		}
	}
	return false
}

// unitAfter finds a unit at the position; without one it is Each and the
// position stays.
func (r reader) unitAfter(at int) (Unit, int) {
	n := at + blanks(r.text[at:])
	if n == at && strings.HasPrefix(r.text[n:], "-") {
		n++
	}
	u, w := matchUnit(r.usage, r.text[n:])
	if w == 0 {
		return Each, at
	}
	if generic, is := notButter[u]; is && !r.meansButter(n+w) {
		u = generic
	}
	return u, n + w
}

// A stick, a pat and a knob are butter where butter is spoken of, or nothing
// at all; of celery or ginger they are pieces.
var notButter = map[Unit]Unit{ButterStick: "whole-stick", "pat": "piece", "knob": "piece"}

func (r reader) meansButter(at int) bool {
	rest := strings.ToLower(strings.TrimSpace(r.text[at:]))
	if rest == "" || strings.HasPrefix(rest, "+") || strings.HasPrefix(rest, "plus") {
		return true
	}
	// Digits follow in a range of sticks.
	if c, _ := utf8.DecodeRuneInString(rest); !unicode.IsLetter(c) && !strings.ContainsFunc(rest, unicode.IsLetter) {
		return true
	}
	if name := strings.ToLower(r.text[:at]); strings.HasSuffix(name, "butter stick") ||
		strings.HasSuffix(name, "butter sticks") {
		return true
	}
	for _, fat := range []string{"butter", "margarine", "shortening"} {
		if strings.Contains(rest, fat) {
			return true
		}
	}
	return false
}

// rangeEnd reads "-3", " to 3 cups", " or 3" at the position. Between two
// different units only a dash or "to" makes a range: "1 cup or 250 ml" says
// one amount twice.
func (r reader) rangeEnd(at int, unit Unit) (high *big.Rat, hunit Unit, end int, ok bool, err error) {
	n := at + blanks(r.text[at:])
	rest := r.text[n:]
	sep, or := "", false
	for _, s := range []string{"-", "–", "—", "‑", "to ", "or "} {
		if strings.HasPrefix(rest, s) && (len(s) < 3 || n > at || s == "‑" || s == "–" || s == "—") {
			sep, or = s, s == "or "
			break
		}
	}
	if sep == "" {
		return nil, "", 0, false, nil
	}
	n += len(sep)
	n += blanks(r.text[n:])
	if n >= len(r.text) || !isDigit(r.text[n]) && signOfFirst(r.text[n:]) == nil && r.text[n] != '.' {
		if word, _ := nextWord(r.text[n:]); numberWords[strings.ToLower(word)] < 2 {
			return nil, "", 0, false, nil
		}
	}
	high, w, err := readNumber(r.text[n:])
	if err != nil || w == 0 || noAmount(r.text[n:], w) {
		return nil, "", 0, false, err
	}
	hunit, end = r.unitAfter(n + w)
	if unit != Each && hunit != unit {
		same := hunit != Each && hunit.Kind() == unit.Kind() && unit.Kind() != Count
		if or || !same {
			return nil, "", 0, false, nil
		}
	}
	return high, hunit, end, true, nil
}

func signOfFirst(s string) *big.Rat {
	c, _ := utf8.DecodeRuneInString(s)
	return signOf(c)
}

// Pairs of units that people write one after the other: 1 lb 4 oz.
var follows = map[Unit]Unit{Pound: Ounce, Kilogram: Gram, Litre: Millilitre, "stone": Pound, "imp-pint": "imp-fl-oz",
	Pint: FluidOunce}

// more reads what is added to an amount: "+ 100 g", "plus 2 tbsp", "4 oz"
// after pounds.
func (r reader) more(at int, unit Unit) (q Quantity, end int, ok bool) {
	n := at + blanks(r.text[at:])
	linked := false
	for _, link := range []string{"+", "plus ", "and ", "& "} {
		if strings.HasPrefix(strings.ToLower(r.text[n:]), link) {
			n += len(link)
			n += blanks(r.text[n:])
			linked = true
			break
		}
	}
	if n == at || n >= len(r.text) {
		return q, 0, false
	}
	q, end, err := r.amount(n)
	if err != nil || end == 0 || q.unit == Each || q.unit.Kind() == Count || q.unit.Kind() != unit.Kind() {
		return q, 0, false
	}
	if !linked && follows[unit] != q.unit {
		return q, 0, false
	}
	return q, end, true
}

// restAfter is the text after an amount, without the "of" between them.
func (r reader) restAfter(n int, unit Unit) string {
	rest := strings.TrimLeft(r.text[n:], " \t\r\n,;")
	if word, w := nextWord(rest); strings.EqualFold(word, "of") && w < len(rest) {
		rest = rest[w:]
	}
	return strings.TrimSpace(rest)
}
