package recipe

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/measure"
)

// pieces reads how large each piece is: "1 14-ounce can", "1 (400 g) tin", "4 six-ounce fillets",
// "1 3-inch piece of ginger", "100 g / 3½ oz".
func (r *lineReader) pieces(text string) string {
	if r.line.Amount.IsZero() {
		return text
	}
	rest, each := text, r.line.Amount.Unit().Kind() == measure.Count
	if after, ok := strings.CutPrefix(rest, "/"); ok && !each {
		if q, end, err := measure.ParseAs(r.usage, strings.TrimLeft(after, " ")); err == nil && !q.IsZero() &&
			q.Unit() != measure.Each {
			r.line.More = append(r.line.More, Extra{Amount: q})
			return r.pieces(end)
		}
	}
	inner, after, paren := cutParen(rest)
	if !paren && (!each || !startsPiece(rest)) {
		return text
	}
	if !paren {
		inner = rest
	}
	if x, end, ok := r.extra(inner); ok && (end == "" || !paren) {
		x.Each = each && (x.Inches || x.Amount.Unit().Kind() == measure.Mass || x.Amount.Unit().Kind() == measure.Volume) &&
			!paren
		if !paren {
			after = end
		}
		next := strings.TrimLeft(after, " -")
		for w, n := firstWord(next); n > 0 && sizeWords[lower(w)]; w, n = firstWord(next) {
			next = strings.TrimLeft(next[n:], " ,")
		}
		u, next := r.unit(next)
		if r.line.Amount.Unit() == measure.Each && u.Kind() == measure.Count && u != measure.Each {
			r.setUnit(u)
			x.Each, after = true, next
		} else if !paren && !x.Each {
			return text
		}
		r.line.More = append(r.line.More, x)
		return r.pieces(strings.TrimLeft(after, " ,"))
	}
	return text
}

func startsPiece(text string) bool {
	if startsAmount(text) {
		return true
	}
	w, _ := firstWord(text) // six-ounce
	head, _, hyphen := strings.Cut(w, "-")
	return hyphen && numeralWords[lower(head)]
}

// cutParen takes a parenthesis off the text's start.
func cutParen(text string) (inner, after string, ok bool) {
	if !strings.HasPrefix(text, "(") {
		return "", text, false
	}
	end := strings.IndexByte(text, ')')
	if end < 0 {
		return "", text, false
	}
	return strings.TrimSpace(text[1:end]), strings.TrimLeft(text[end+1:], " "), true
}

// extra reads a further amount, or a length, at the text's start.
func (r *lineReader) extra(text string) (x Extra, rest string, ok bool) {
	text = skipAbout(text)
	if w, n := firstWord(text); strings.Contains(w, "-") {
		if head, tail, _ := strings.Cut(w, "-"); numeralWords[lower(head)] {
			text = head + " " + tail + text[n:]
		}
	}
	// 3- to 6-pound, 8-to-10 pound
	text = strings.NewReplacer("- to ", " to ", "-to-", " to ", "- or ", " or ").Replace(text)
	q, rest, err := measure.ParseAs(r.usage, text)
	if err != nil {
		return x, text, false
	}
	if q.IsZero() {
		q, rest, ok = lengthAt(text)
		return Extra{Amount: q, Inches: ok}, rest, ok
	}
	if q.Unit() == measure.Each {
		for _, inch := range lengthUnits {
			if after, ok := cutUnit(rest, inch); ok {
				return Extra{Amount: q, Inches: true}, after, true
			}
		}
		// 1 heaping cup
		sized := lineReader{usage: r.usage, line: &Line{Amount: q}}
		if after := sized.size(rest); sized.line.Amount.Unit() != measure.Each {
			return Extra{Amount: sized.line.Amount}, after, true
		}
	}
	return Extra{Amount: q}, strings.TrimLeft(rest, " -"), true
}

var lengthUnits = []string{"inches", "inch", "in", "cm", "mm", `"`, "centimetres", "centimeters"}

// lengthAt reads "3-inch": measure takes it for a name.
func lengthAt(text string) (q measure.Quantity, rest string, ok bool) {
	for _, inch := range lengthUnits {
		for _, sep := range []string{"-", " ", ""} {
			at := strings.Index(text, sep+inch)
			if at <= 0 || at > 12 {
				continue
			}
			after, whole := cutUnit(text[at+len(sep):], inch)
			if q, rest, err := measure.Parse(text[:at]); whole && err == nil && !q.IsZero() && rest == "" {
				return q, after, true
			}
		}
	}
	return q, text, false
}

// cutUnit takes a unit's spelling off the text, where the word ends there.
func cutUnit(text, unit string) (after string, ok bool) {
	after, ok = strings.CutPrefix(strings.TrimLeft(text, "- "), unit)
	if !ok {
		return text, false
	}
	if c, _ := utf8.DecodeRuneInString(after); unicode.IsLetter(c) {
		return text, false
	}
	return strings.TrimLeft(after, " -."), true
}

// skipAbout steps over words before a further amount.
func skipAbout(text string) string {
	for {
		w, n := firstWord(text)
		if !aboutWords[lower(w)] {
			return strings.TrimPrefix(text, "~")
		}
		text = strings.TrimLeft(text[n:], " .")
	}
}

// lower is the text in lower case, of the same length in bytes, so that places in one are places in the other: the few
// letters whose small form is longer or shorter stay.
func lower(text string) string {
	if !utf8.ValidString(text) {
		small := []byte(text) // a piece that was cut within a letter
		for i, c := range small {
			if c >= 'A' && c <= 'Z' {
				small[i] = c + 'a' - 'A'
			}
		}
		return string(small)
	}
	return strings.Map(func(c rune) rune {
		if small := unicode.ToLower(c); utf8.RuneLen(small) == utf8.RuneLen(c) {
			return small
		}
		return c
	}, text)
}

// cut shortens a text to n characters.
func cut(text string, n int) string {
	rs := []rune(text)
	if len(rs) <= n {
		return text
	}
	return string(rs[:n]) + "…"
}
