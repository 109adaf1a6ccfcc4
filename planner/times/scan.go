package times

import (
	_ "embed"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/words"
)

//go:embed words.tsv
var table string

var lists = words.TableOf(table)

// token is a word, a number or a mark of a text, in lower case.
type token struct {
	text       string
	start, end int
	value      float64 // of a number in figures
	number     bool
}

var fractions = map[string]float64{"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1.0 / 3, "⅔": 2.0 / 3, "⅛": 0.125}

// scan cuts a text, which is in lower case, into tokens.
func scan(low string) []token {
	var out []token
	for i := 0; i < len(low); {
		c, n := utf8.DecodeRuneInString(low[i:])
		start := i
		switch {
		case unicode.IsSpace(c):
			i += n
			continue
		case c >= '0' && c <= '9':
			t := figures(low, i)
			out, i = append(out, t), t.end
			continue
		case fractions[string(c)] > 0:
			i += n
			out = append(out, token{low[start:i], start, i, fractions[string(c)], true})
			continue
		case unicode.IsLetter(c):
			for i < len(low) {
				if c, n = utf8.DecodeRuneInString(low[i:]); !unicode.IsLetter(c) {
					break
				}
				i += n
			}
		default:
			i += n
		}
		out = append(out, token{text: low[start:i], start: start, end: i})
	}
	return out
}

// figures reads a number in figures at a byte: 20, 1.5, 1,5, 1/2, 1½, 1 1/2, 1-1/2.
func figures(low string, i int) token {
	digits := func(from int) int {
		for from < len(low) && low[from] >= '0' && low[from] <= '9' {
			from++
		}
		return from
	}
	number := func(from, to int) float64 {
		v := 0.0
		for ; from < to; from++ {
			v = min(v*10+float64(low[from]-'0'), 1e9)
		}
		return v
	}
	end := digits(i)
	t := token{start: i, number: true, value: number(i, end)}
	part := func(from int) (v float64, to int, ok bool) { // 1/2
		a := digits(from)
		if a > from && a < len(low) && low[a] == '/' {
			if b := digits(a + 1); b > a+1 && b-a < 4 && number(a+1, b) > 0 {
				return number(from, a) / number(a+1, b), b, true
			}
		}
		return 0, 0, false
	}
	if v, to, ok := part(i); ok {
		t.value, end = v, to
	} else if end+1 < len(low) && (low[end] == '.' || low[end] == ',') && digits(end+1) == end+2 {
		t.value += number(end+1, end+2) / 10
		end += 2
	} else {
		gap := end
		for gap < len(low) && low[gap] == ' ' && gap < end+1 {
			gap++
		}
		c, n := utf8.DecodeRuneInString(low[gap:])
		if gap == end && c == '-' { // 1-1/2: no range runs down
			gap++
			c, n = utf8.DecodeRuneInString(low[gap:])
		}
		if f := fractions[string(c)]; f > 0 {
			t.value, end = t.value+f, gap+n
		} else if v, to, ok := part(gap); ok && v < 1 && gap > end {
			t.value, end = t.value+v, to
		}
	}
	t.text, t.end = low[i:end], end
	return t
}

// valued are the words of a list that stand before numbers.
func valued(list string) map[string]float64 {
	out := map[string]float64{}
	for _, p := range lists.Phrases(list) {
		var w string
		var v float64
		if _, err := fmt.Sscan(p, &w, &v); err != nil {
			panic("times: " + p + ": " + err.Error())
		}
		out[w] = v
	}
	return out
}

var numberWords, units = valued("numbers"), valued("units")

// phrase is some words, and what they mean.
type phrase struct {
	words     []string
	low, high float64
}

func phrasesOf(list string) (out []phrase) {
	for _, p := range lists.Phrases(list) {
		out = append(out, phrase{words: strings.Fields(p)})
	}
	return out
}

// loose are numbers that nobody counts.
var loose = func() (out []phrase) {
	for _, p := range phrasesOf("loose") {
		n := len(p.words) - 2
		if _, err := fmt.Sscan(p.words[n], &p.low); err != nil {
			panic("times: " + err.Error())
		}
		if _, err := fmt.Sscan(p.words[n+1], &p.high); err != nil {
			panic("times: " + err.Error())
		}
		p.words = p.words[:n]
		out = append(out, p)
	}
	return out
}()

var nights = phrasesOf("nights")

// startsAt is how many tokens from the i-th on are the words of a phrase; 0: they are not.
func startsAt(t []token, i int, p phrase) int {
	for k, w := range p.words {
		if i+k >= len(t) || t[i+k].text != w {
			return 0
		}
	}
	return len(p.words)
}
