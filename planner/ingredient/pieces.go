package ingredient

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/measure"
	"tureen/planner/words"
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
		for w, n := words.First(next); n > 0 && sizeWords[words.Small(w)]; w, n = words.First(next) {
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
	if StartsAmount(text) {
		return true
	}
	w, _ := words.First(text) // six-ounce
	head, _, hyphen := strings.Cut(w, "-")
	return hyphen && numeralWords[words.Small(head)]
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
	if w, n := words.First(text); strings.Contains(w, "-") {
		if head, tail, _ := strings.Cut(w, "-"); numeralWords[words.Small(head)] {
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
		w, n := words.First(text)
		if !aboutWords[words.Small(w)] {
			return strings.TrimPrefix(text, "~")
		}
		text = strings.TrimLeft(text[n:], " .")
	}
}

// takeParens takes the parentheses out of the text; amounts in them become further amounts.
func (r *lineReader) takeParens(text string) (rest string, notes []string) {
	for {
		open := strings.IndexByte(text, '(')
		if open < 0 {
			return strings.Join(strings.Fields(strings.ReplaceAll(text, " ,", ",")), " "), notes
		}
		end := strings.IndexByte(text[open:], ')')
		inner := text[open+1:]
		after := ""
		if end >= 0 {
			inner, after = text[open+1:open+end], text[open+end+1:]
		}
		if inner = strings.TrimSpace(inner); !r.further(inner) && inner != "" {
			notes = append(notes, inner)
		}
		text = text[:open] + " " + after
	}
}

// further reads a further amount from a parenthesis or what stands between commas.
func (r *lineReader) further(text string) bool {
	said := skipAbout(strings.TrimSpace(text))
	if !startsPiece(said) && !startsNumeral(said) {
		return false
	}
	x, rest, ok := r.extra(said)
	if !ok || x.Inches {
		return false
	}
	unit := x.Amount.Unit()
	rest = strings.Trim(rest, " .,;")
	measured := unit != measure.Each && (unit.Kind() != measure.Count || rest == "")
	counted := unit == measure.Each && rest == "" // (25 to 30)
	if unit == measure.Each && rest != "" {
		counted = words.Has(rest, "ears", "cloves") && len(strings.Fields(rest)) == 1
	}
	if !measured && !counted {
		return false
	}
	if w := strings.Fields(rest); len(w) > 4 {
		return false
	}
	x.Each = words.Has(rest, "each", "apiece") || words.Has(text, "each")
	r.line.More = append(r.line.More, x)
	return rest == "" || words.Has(rest, "each", "apiece", "total", "in all", "drained", "dressed", "packed",
		"prepared", "weight") || len(strings.Fields(rest)) <= 2
}

func startsNumeral(text string) bool {
	w, _ := words.First(text)
	return numeralWords[words.Small(w)]
}
