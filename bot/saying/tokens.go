package saying

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"tureen/planner/words"
)

// token is a word of a sentence, or a number, a length or a time of several words.
type token struct {
	raw  string // as it was typed, folded, slips mended
	word string // as patterns have it: "#n", "#len", "#time" for figures
	n    int    // of those: the number, the minutes, the minutes of the day
	fill bool   // it means nothing
	name bool   // it was typed with a capital
	half bool   // a time of which it is not said whether it is before noon
}

const (
	mostText   = 400 // of a sentence, in bytes; what is longer is no such message
	mostTokens = 48
)

// sentence is what somebody typed, in clauses.
type sentence struct {
	clauses [][]token
	joins   []string // what stands before each clause: a stop, "and", "if"
	asked   bool     // it ends with a question mark
	quoted  bool     // it repeats somebody's words
}

// scan takes a text apart at spaces and stops. A stop between figures belongs to them: 20.30.
func scan(text string) (raw []string, quoted, asked bool) {
	text, quoted = unquoted(text)
	var cur strings.Builder
	flush := func() {
		if cur.Len() > 0 {
			raw = append(raw, cur.String())
			cur.Reset()
		}
	}
	rs := []rune(text)
	for i, r := range rs {
		figure := i > 0 && i+1 < len(rs) && unicode.IsDigit(rs[i-1]) && unicode.IsDigit(rs[i+1])
		inWord := i > 0 && i+1 < len(rs) && unicode.IsLetter(rs[i-1]) && unicode.IsLetter(rs[i+1])
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.Mn, r):
			cur.WriteRune(r)
		case (r == ':' || r == '.') && figure, (r == '\'' || r == '’' || r == '-') && inWord:
			cur.WriteRune(map[bool]rune{true: '\'', false: r}[r == '’'])
		case r == '+':
			flush()
			raw = append(raw, "more")
		case strings.ContainsRune(",;.!?–—\n", r):
			flush()
			asked = asked || r == '?'
			raw = append(raw, ",")
		default:
			flush()
		}
		if len(raw) >= mostTokens {
			return raw, quoted, asked
		}
	}
	flush()
	return raw, quoted, asked
}

// unquoted is a text without what stands in quotation marks, and whether somebody is quoted there.
func unquoted(text string) (string, bool) {
	quoted := strings.HasPrefix(strings.TrimSpace(text), ">")
	for _, marks := range []string{`""`, "“”", "„“", "«»"} {
		m := []rune(marks)
		for {
			from := strings.IndexRune(text, m[0])
			if from < 0 {
				break
			}
			rest := text[from+len(string(m[0])):]
			to := strings.IndexRune(rest, m[1])
			if to < 0 {
				break
			}
			quoted = quoted || strings.Contains(strings.TrimSpace(rest[:to]), " ")
			text = text[:from] + " " + rest[:to] + " " + rest[to+len(string(m[1])):]
		}
	}
	return text, quoted
}

// read puts a text into the words of the tables.
func (r *reader) read(text string) sentence {
	raw, quoted, asked := scan(text)
	s := sentence{quoted: quoted, asked: asked}
	var tokens []token
	for _, w := range raw {
		if w == "," {
			tokens = append(tokens, token{word: ","})
			continue
		}
		first := []rune(w)[0]
		r.expand(&tokens, words.Fold(w), unicode.IsUpper(first), 0)
		if len(tokens) > 2*mostTokens {
			break
		}
	}
	tokens = figures(tokens)
	for _, p := range lex().phrases {
		for i := 0; i+len(p[0]) <= len(tokens); i++ {
			if hasAt(tokens, i, p[0]) {
				var put []token
				for _, w := range p[1] {
					put = append(put, token{raw: w, word: w})
				}
				tokens = slices.Replace(tokens, i, i+len(p[0]), put...)
			}
		}
	}
	for i := range tokens {
		for _, skip := range lex().skips {
			if hasAt(tokens, i, skip) {
				for j := range skip {
					tokens[i+j].fill = true
				}
			}
		}
	}
	cur, join := []token{}, ""
	for _, t := range tokens {
		if t.word == "," || t.word == "and" || t.word == "but" || t.word == "because" || t.word == "so" || t.word == "if" {
			s.clauses, s.joins = append(s.clauses, cur), append(s.joins, join)
			cur, join = nil, t.word
			continue
		}
		cur = append(cur, t)
	}
	s.clauses, s.joins = append(s.clauses, cur), append(s.joins, join)
	return s
}

func hasAt(tokens []token, at int, said []string) bool {
	if at+len(said) > len(tokens) {
		return false
	}
	for i, w := range said {
		if tokens[at+i].word != w {
			return false
		}
	}
	return true
}

// expand puts a typed word into those that patterns have: a slip is mended, a short form is written out.
func (r *reader) expand(to *[]token, w string, capital bool, deep int) {
	w = r.mended(w)
	if parts, ok := lex().said[w]; ok && deep < 3 {
		if len(parts) == 1 {
			*to = append(*to, token{raw: w, word: lex().canonical(parts)[0], name: capital})
			return
		}
		for _, p := range parts {
			r.expand(to, p, false, deep+1)
		}
		return
	}
	for _, end := range shortEnds {
		if head, ok := strings.CutSuffix(w, end[0]); ok && head != "" && deep < 3 {
			r.expand(to, head, capital, deep+1)
			r.expand(to, end[1], false, deep+1)
			return
		}
	}
	*to = append(*to, token{raw: w, word: w, name: capital})
}

// shortEnds are the ends of short forms, and what they stand for.
var shortEnds = [][2]string{{"n't", "not"}, {"'s", "is"}, {"'re", "is"}, {"'m", "is"}, {"'ll", "will"}, {"'ve", "have"},
	{"'d", "could"}}

var numberWords = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
	"nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
	"eighteen": 18, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "ninety": 90, "couple": 2,
	"dozen": 12, "seventeen": 17, "nineteen": 19, "seventy": 70, "eighty": 80}

// minuteWords are what minutes are called when they are glued to a figure.
var minuteWords = words.Set("m min mins minute minutes")

// figures finds numbers, lengths and times among tokens.
func figures(in []token) []token {
	var out []token
	for i := 0; i < len(in); {
		f, used := figureAt(in[i:])
		if used == 0 {
			f, used = in[i], 1
		}
		out = append(out, f)
		i += used
	}
	return out
}

// figureAt reads the figure that a text begins with; used is 0 where there is none.
func figureAt(in []token) (f token, used int) {
	word := func(i int) string {
		if i < len(in) {
			return in[i].word
		}
		return ""
	}
	raw := func(used int) string {
		var all []string
		for _, t := range in[:used] {
			all = append(all, t.raw)
		}
		return strings.Join(all, " ")
	}
	figure := func(kind string, n, used int, half bool) (token, int) {
		return token{raw: raw(used), word: kind, n: n, half: half}, used
	}
	switch {
	case word(0) == "half" && (word(1) == "an" || word(1) == "a") && word(2) == "hour":
		return figure("#len", 30, 3, false)
	case word(0) == "half" && word(1) == "hour":
		return figure("#len", 30, 2, false)
	case (word(0) == "an" || word(0) == "a") && word(1) == "half" && word(2) == "hour":
		return figure("#len", 30, 3, false)
	case word(0) == "quarter" && word(1) == "of" && word(2) == "an" && word(3) == "hour":
		return figure("#len", 15, 4, false)
	case word(0) == "a" && word(1) == "quarter":
		if f, n := figureAt(in[1:]); n > 0 {
			f.raw = raw(n + 1)
			return f, n + 1
		}
	case (word(0) == "half" || word(0) == "quarter") && (word(1) == "past" || word(1) == "to"):
		if h, n := number(in[2:]); n > 0 && h >= 1 && h <= 12 {
			m := h * 60
			switch {
			case word(0) == "half" && word(1) == "past":
				m += 30
			case word(1) == "past":
				m += 15
			case word(0) == "quarter":
				m -= 15
			default:
				return token{}, 0
			}
			return figure("#time", m, 2+n, true)
		}
	case word(0) == "half":
		if h, n := number(in[1:]); n > 0 && h >= 1 && h <= 12 {
			return figure("#time", h*60+30, 1+n, true)
		}
	case (word(0) == "an" || word(0) == "1") && word(1) == "hour":
		return figure("#len", 60, 2, false)
	}
	if m, half, ok := clock(word(0)); ok {
		used = 1
		if word(1) == "pm" || word(1) == "am" {
			m, half, used = m%720, false, 2
			if word(1) == "pm" {
				m += 720
			}
		}
		return figure("#time", m, used, half)
	}
	if digits := strings.TrimRight(word(0), "abcdefghijklmnopqrstuvwxyz"); digits != word(0) { // 10min
		n, err := strconv.Atoi(digits)
		if unit := word(0)[len(digits):]; err == nil && n > 0 && n < 1000 && minuteWords[unit] {
			return figure("#len", n, 1, false)
		}
	}
	n, used := number(in)
	if used == 0 {
		return token{}, 0
	}
	at := used
	more := word(at) == "more"
	if more {
		at++
	}
	switch word(at) {
	case "min", "m":
		f, _ := figure("#len", n, at+1, false)
		if more {
			f.raw = "more " + f.raw
		}
		return f, at + 1
	case "hour", "h":
		if !more && n <= 24 {
			return figure("#len", n*60, at+1, false)
		}
	case "pm", "am", "o'clock", "oclock":
		if !more && n >= 1 && n <= 12 {
			m := n * 60
			if word(at) == "pm" && n < 12 {
				m += 720
			}
			return figure("#time", m, at+1, word(at) != "pm" && word(at) != "am")
		}
	}
	return figure("#n", n, used, false)
}

// number reads a number in figures or in words: "twenty five" too, and "a couple of".
func number(in []token) (n, used int) {
	if len(in) == 0 {
		return 0, 0
	}
	if v, err := strconv.Atoi(in[0].word); err == nil && v >= 0 && v < 100000 {
		return v, 1
	}
	at := 0
	if in[0].word == "a" && len(in) > 1 && (in[1].word == "couple" || in[1].word == "dozen") {
		at = 1
	}
	v, ok := numberWords[in[at].word]
	if !ok {
		return 0, 0
	}
	used = at + 1
	if v == 2 && in[at].word == "couple" && used < len(in) && in[used].word == "of" {
		used++
	}
	if v >= 20 && v%10 == 0 && used < len(in) {
		if one := numberWords[in[used].word]; one > 0 && one < 10 {
			return v + one, used + 1
		}
	}
	return v, used
}

// clock reads a time of the day in one word: 20:30, 20.30, 20h30, 8pm, 830, 2030. half is true where it may be the
// hour before noon or after.
func clock(w string) (m int, half, ok bool) {
	tail := 0
	head, pm := strings.CutSuffix(w, "pm")
	if !pm {
		var am bool
		if head, am = strings.CutSuffix(w, "am"); am {
			tail = -1
		}
	}
	h, mm := 0, 0
	var err1, err2 error
	switch {
	case strings.ContainsAny(head, ":.h"):
		a, b, _ := strings.Cut(strings.NewReplacer(".", ":", "h", ":").Replace(head), ":")
		if len(b) != 2 && b != "" || b == "" && !strings.HasSuffix(head, "h") || a == "" {
			return 0, false, false
		}
		h, err1 = strconv.Atoi(a)
		if b != "" {
			mm, err2 = strconv.Atoi(b)
		}
		if b == "" && h < 13 {
			return 0, false, false // "2h" is a length
		}
	case len(head) == 3 || len(head) == 4:
		h, err1 = strconv.Atoi(head[:len(head)-2])
		mm, err2 = strconv.Atoi(head[len(head)-2:])
		if h == 0 {
			return 0, false, false
		}
	case pm || tail < 0:
		h, err1 = strconv.Atoi(head)
	default:
		return 0, false, false
	}
	if err1 != nil || err2 != nil || h < 0 || h > 23 || mm < 0 || mm > 59 {
		return 0, false, false
	}
	if pm && h < 12 {
		h += 12
	}
	return h*60 + mm, !pm && tail == 0 && h > 0 && h <= 12, true
}
