package measure

import (
	"math/big"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// The fractions that have a sign of their own in Unicode.
var vulgar = []struct {
	sign     rune
	num, den int64
}{
	{'½', 1, 2}, {'⅓', 1, 3}, {'⅔', 2, 3}, {'¼', 1, 4}, {'¾', 3, 4},
	{'⅕', 1, 5}, {'⅖', 2, 5}, {'⅗', 3, 5}, {'⅘', 4, 5}, {'⅙', 1, 6}, {'⅚', 5, 6},
	{'⅛', 1, 8}, {'⅜', 3, 8}, {'⅝', 5, 8}, {'⅞', 7, 8}, {'⅐', 1, 7}, {'⅑', 1, 9}, {'⅒', 1, 10},
}

// Number words that start an amount. "half" may follow "and".
var numberWords = map[string]int64{
	"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
	"eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}

// Words after "a" that make it no number: a little salt, a few leaves.
var vagueWords = map[string]bool{"little": true, "few": true, "bit": true, "lot": true, "touch": true, "good": true}

const (
	maxDigits = 80  // in one numeral
	maxBits   = 220 // of a numerator or denominator; past it a sum has lost its sense
)

// readNumber reads one number at the start of s and says how many bytes it
// took: an integer, a decimal (1.5, 1,5, .5, 1,000), a fraction (1/2, ½), a
// mixed number (1½, 1 1/2, 1-1/2) or a number word. No number is n = 0.
func readNumber(s string) (value *big.Rat, n int, err error) {
	if s == "" {
		return nil, 0, nil
	}
	if s[0] >= '0' && s[0] <= '9' || s[0] == '.' && len(s) > 1 && isDigit(s[1]) {
		return readNumeral(s)
	}
	r, w := utf8.DecodeRuneInString(s)
	if f := signOf(r); f != nil {
		return f, w, nil
	}
	return readWord(s)
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

func digits(s string) int {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return n
}

func signOf(r rune) *big.Rat {
	for _, v := range vulgar {
		if v.sign == r {
			return big.NewRat(v.num, v.den)
		}
	}
	return nil
}

func readNumeral(s string) (*big.Rat, int, error) {
	whole := digits(s)
	// 1,000 and 12,500.5 are thousands; 1,5 is a decimal comma.
	text, n := s[:whole], whole
	for whole > 0 && whole <= 3 && n+4 <= len(s) && s[n] == ',' && digits(s[n+1:]) == 3 {
		text += s[n+1 : n+4]
		n += 4
	}
	if n < len(s) && (s[n] == '.' || s[n] == ',' && n == whole && whole > 0) && n+1 < len(s) && isDigit(s[n+1]) {
		d := digits(s[n+1:])
		text += "." + s[n+1:n+1+d]
		n += 1 + d
		v, err := numeral(text, s[:n])
		return v, n, err
	}
	v, err := numeral(text, s[:n])
	if err != nil {
		return nil, n, err
	}
	if den, w := denominator(s[n:]); w > 0 {
		f, err := fraction(text, den, s[:n+w])
		return f, n + w, err
	}
	return withFraction(v, s, n)
}

// withFraction goes on after the whole number v, the first n bytes of s, where a fraction follows: 1½, 1 ½, 1 1/2,
// 1-1/2, 1 and 1/2.
func withFraction(v *big.Rat, s string, n int) (*big.Rat, int, error) {
	rest, gap := s[n:], 0
	for gap < len(rest) && (rest[gap] == ' ' || rest[gap] == '\t') {
		gap++
	}
	if r, w := utf8.DecodeRuneInString(rest[gap:]); signOf(r) != nil {
		return v.Add(v, signOf(r)), n + gap + w, nil
	}
	if gap == 0 {
		if strings.HasPrefix(rest, "-") {
			gap = 1
			if r, w := utf8.DecodeRuneInString(rest[1:]); signOf(r) != nil {
				f := signOf(r)
				if v.Cmp(f) > 0 {
					return v.Add(v, f), n + 1 + w, nil
				}
			}
		} else {
			return v, n, nil
		}
	} else if w := strings.TrimPrefix(rest[gap:], "and "); len(w) < len(rest[gap:]) {
		if r, width := utf8.DecodeRuneInString(w); signOf(r) != nil {
			return v.Add(v, signOf(r)), n + gap + 4 + width, nil
		}
		if digits(w) > 0 {
			gap += 4
		}
	}
	num := digits(rest[gap:])
	if num == 0 || num > maxDigits {
		return v, n, nil
	}
	den, w := denominator(rest[gap+num:])
	if w == 0 {
		return v, n, nil
	}
	end := n + gap + num + w
	f, err := fraction(rest[gap:gap+num], den, s[:end])
	if err != nil {
		return nil, end, err
	}
	if f.Cmp(big.NewRat(1, 1)) >= 0 {
		return v, n, nil // "2 3/2" is two numbers, and "1-3/2" a range
	}
	return v.Add(v, f), end, nil
}

// denominator reads "/4" or "⁄4" and says how many bytes it took.
func denominator(s string) (den string, n int) {
	r, w := utf8.DecodeRuneInString(s)
	if r != '/' && r != '⁄' && r != '∕' {
		return "", 0
	}
	for w < len(s) && s[w] == ' ' {
		w++
	}
	d := digits(s[w:])
	if d == 0 {
		return "", 0
	}
	return s[w : w+d], w + d
}

func numeral(text, whole string) (*big.Rat, error) {
	if len(text) > maxDigits {
		return nil, &Error{whole, "too many digits", "write a number that can be weighed"}
	}
	if strings.HasPrefix(text, ".") {
		text = "0" + text
	}
	v, ok := new(big.Rat).SetString(text)
	if !ok {
		return nil, &Error{whole, "not a number", "write it as 2, 1.5 or 1/2"}
	}
	return v, nil
}

func fraction(num, den, whole string) (*big.Rat, error) {
	if len(num) > maxDigits || len(den) > maxDigits {
		return nil, &Error{whole, "too many digits", "write a fraction such as 1/2"}
	}
	n, _ := new(big.Int).SetString(num, 10)
	d, _ := new(big.Int).SetString(den, 10)
	if n == nil || d == nil {
		return nil, &Error{whole, "not a fraction", "write it as 1/2"}
	}
	if d.Sign() == 0 {
		return nil, &Error{whole, "nothing can be divided by 0", "write a fraction such as 1/2"}
	}
	return new(big.Rat).SetFrac(n, d), nil
}

func readWord(s string) (*big.Rat, int, error) {
	word, n := nextWord(s)
	low := strings.ToLower(word)
	v, ok := numberWords[low]
	switch {
	case low == "half":
		// half a cup, half an onion, half of a loaf
		end := n
		if w, m := nextWord(s[end:]); strings.EqualFold(w, "of") {
			end += m
		}
		if w, m := nextWord(s[end:]); strings.EqualFold(w, "a") || strings.EqualFold(w, "an") {
			end += m
		} else {
			end = n
		}
		v := big.NewRat(1, 2)
		if w, m := nextWord(s[end:]); strings.EqualFold(w, "dozen") {
			return v.Mul(v, big.NewRat(12, 1)), end + m, nil
		}
		return v, end, nil
	case low == "dozen":
		return big.NewRat(12, 1), n, nil
	case !ok:
		return nil, 0, nil
	}
	next, m := nextWord(s[n:])
	next = strings.ToLower(next)
	if low == "a" || low == "an" {
		switch {
		case vagueWords[next], next == "":
			return nil, 0, nil
		case next == "couple":
			if of, k := nextWord(s[n+m:]); strings.EqualFold(of, "of") {
				m += k
			}
			return big.NewRat(2, 1), n + m, nil
		case next == "half":
			return big.NewRat(1, 2), n + m, nil
		case next == "quarter", next == "third":
			den := map[string]int64{"quarter": 4, "third": 3}[next]
			if of, k := nextWord(s[n+m:]); strings.EqualFold(of, "of") {
				m += k
				if a, k := nextWord(s[n+m:]); strings.EqualFold(a, "a") || strings.EqualFold(a, "an") {
					m += k
				}
			}
			return big.NewRat(1, den), n + m, nil
		}
	}
	if next == "dozen" {
		return big.NewRat(12*v, 1), n + m, nil
	}
	if next == "and" {
		// one and a half
		if a, k := nextWord(s[n+m:]); strings.EqualFold(a, "a") {
			if h, l := nextWord(s[n+m+k:]); strings.EqualFold(h, "half") {
				return big.NewRat(2*v+1, 2), n + m + k + l, nil
			}
		}
	}
	return big.NewRat(v, 1), n, nil
}

// nextWord returns the letters at the start of s after blanks, and the bytes
// up to their end.
func nextWord(s string) (word string, n int) {
	start := 0
	for start < len(s) && (s[start] == ' ' || s[start] == '\t') {
		start++
	}
	n = start
	for n < len(s) {
		r, w := utf8.DecodeRuneInString(s[n:])
		if !unicode.IsLetter(r) {
			break
		}
		n += w
	}
	if n == start {
		return "", 0
	}
	return s[start:n], n
}

// formatNumber writes r exactly, so that readNumber gets the same number:
// 2, 1½, 0.5 (where halves are written so: metric), 2 3/7.
func formatNumber(r *big.Rat, decimals bool) string {
	if r.IsInt() {
		return r.Num().String()
	}
	dec, isDec := finite(r)
	if decimals && isDec {
		return dec
	}
	whole, frac := split(r)
	lead := ""
	if whole.Sign() > 0 {
		lead = whole.String()
	}
	for _, v := range vulgar {
		if frac.Cmp(big.NewRat(v.num, v.den)) == 0 {
			return lead + string(v.sign)
		}
	}
	small := frac.Denom().IsInt64() && frac.Denom().Int64() <= 64
	if isDec && !(small && len(dec)-strings.IndexByte(dec, '.') > 3) {
		return dec
	}
	if lead != "" {
		lead += " "
	}
	return lead + frac.Num().String() + "/" + frac.Denom().String()
}

func split(r *big.Rat) (whole *big.Int, frac *big.Rat) {
	whole = new(big.Int).Quo(r.Num(), r.Denom())
	return whole, new(big.Rat).Sub(r, new(big.Rat).SetInt(whole))
}

// finite writes r as a decimal, if it has an end within twelve places.
func finite(r *big.Rat) (string, bool) {
	const places = 12
	s := r.FloatString(places)
	if v, ok := new(big.Rat).SetString(s); !ok || v.Cmp(r) != 0 {
		return "", false
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), "."), true
}

// floatOf is r as a float64, for comparisons that need no exactness.
func floatOf(r *big.Rat) float64 { f, _ := r.Float64(); return f }

// fromFloat is f to three places, exactly.
func fromFloat(f float64) *big.Rat {
	r, ok := new(big.Rat).SetString(strconv.FormatFloat(f, 'f', 3, 64))
	if !ok {
		return new(big.Rat)
	}
	return r
}
