package saying

import (
	"slices"
	"strings"
	"unicode"

	"tureen/planner/words"
)

// token is a word of a sentence, or a number, a length or a time of several words.
type token struct {
	raw   string // as it was typed, folded, slips mended
	word  string // as patterns have it: "#n", "#len", "#time" for figures
	n     int    // of those: the number, the minutes, the minutes of the day
	typed string // as it was typed, folded, where that was taken for a slip
	fill  bool   // it means nothing
	name  bool   // it was typed with a capital
	half  bool   // a time of which it is not said whether it is before noon
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
	text, quoted = unquoted(strings.ReplaceAll(text, "👍", " ok "))
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
		if t := &tokens[at+i]; t.word != w && !(w == "one" && t.word == "#n" && t.n == 1) {
			return false
		}
	}
	return true
}

// expand puts a typed word into those that patterns have: a slip is mended, a short form is written out.
func (r *reader) expand(to *[]token, w string, capital bool, deep int) {
	typed := ""
	if is := r.mended(w); is != w {
		typed, w = w, is
	}
	if parts, ok := lex().said[w]; ok && deep < 3 {
		if len(parts) == 1 {
			*to = append(*to, token{raw: w, word: lex().canonical(parts)[0], name: capital, typed: typed})
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
	*to = append(*to, token{raw: w, word: w, name: capital, typed: typed})
}

// shortEnds are the ends of short forms, and what they stand for.
var shortEnds = [][2]string{{"n't", "not"}, {"'s", "is"}, {"'re", "is"}, {"'m", "is"}, {"'ll", "will"}, {"'ve", "have"},
	{"'d", "could"}}
