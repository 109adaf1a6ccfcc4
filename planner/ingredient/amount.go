package ingredient

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/measure"
	"tureen/planner/words"
)

// AmountFirst reports whether a line begins with an amount.
func AmountFirst(usage measure.Usage, text string) bool {
	if len(text) > MaxLine {
		return false
	}
	text = tidy(text)
	if q, rest, err := measure.ParseAs(usage, text); err != nil || !q.IsZero() && rest != "" {
		return err == nil || StartsAmount(text) || strings.HasPrefix(text, "-")
	}
	return StartsAmount(text)
}

// AmountLast reports whether a line ends with an amount: "Flour 200 g".
func AmountLast(usage measure.Usage, text string) bool {
	if len(text) > MaxLine {
		return false
	}
	_, amount, ok := cutTrailing(tidy(text))
	if !ok {
		return false
	}
	q, rest, err := measure.ParseAs(usage, amount)
	return err == nil && !q.IsZero() && rest == ""
}

// cutTrailing takes "sugar: 200 g", "Flour - 200 g" and "Flour ... 200 g" apart.
func cutTrailing(text string) (name, amount string, ok bool) {
	if text == "" || digit(text[0]) {
		return "", "", false
	}
	for _, sep := range []string{":", " - ", " – ", " — ", "..", "\t"} {
		if name, amount, ok = strings.Cut(text, sep); ok {
			name, amount = strings.TrimRight(name, ". "), strings.TrimLeft(amount, ". ")
			if name != "" && amount != "" && StartsAmount(amount) {
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

func StartsAmount(text string) bool {
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
	if w, n := words.First(head); fillWords[words.Small(w)] && n < len(head) {
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
		if after, ok := cutWord(rest, "a", "an"); ok && StartsAmount(after) {
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
		w, n := words.First(rest)
		low := words.Small(w)
		switch {
		case low == "a" || low == "an":
			one = true
		case low == "few" || low == "several" || low == "some" || low == "couple":
			one = false
		case sizeWords[low]:
			sizes = append(sizes, w)
		default:
			u, after := r.unit(rest)
			if !loose[u] || words.Small(w) != w && len(w) < 3 {
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
	low := words.Small(text)
	for _, sep := range []string{" plus ", " + ", " and "} {
		if at := strings.Index(low, sep); at > 0 && StartsAmount(text[at+len(sep):]) {
			return text[:at], text[at+len(sep):]
		}
	}
	return text, ""
}
