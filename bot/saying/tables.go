package saying

import (
	_ "embed"
	"math"
	"slices"
	"strings"
	"sync"

	"tureen/planner/words"
)

//go:embed words.tsv
var wordsText string

//go:embed meanings.tsv
var meaningsText string

//go:embed phrases.tsv
var phrasesText string

// meaning is a row of meanings.tsv: what a phrase means of one kind of thing.
type meaning struct{ id, of, pick, act, do, change, short string }

// phrase is a row of phrases.tsv: a pattern, and after what kind of message it is one.
type phrase struct {
	id, when string
	node     node
	asks     bool // it is worded as a question itself
}

// lexicon is what the three tables say.
type lexicon struct {
	said    map[string][]string // a word as it is typed, to those that patterns have
	phrases [][2][]string       // several words, to others
	skips   [][]string          // words that mean nothing
	diets   map[string]string   // words of a diet, to its name
	advice  map[string]string
	days    map[string]string // days, to what the command takes
	parts   map[string]string // and parts of them
	given   map[string]bool   // first names that are words as well
	hours   [][2]string       // when somebody can, in words, and what the command takes
	known   map[string]bool   // words that are no slips
	speech  map[string]bool   // words that patterns have, and short for them: no names of things
	means   map[string][]meaning
	order   []string // the meanings, in the table's order
	pattern []phrase
	weight  map[string]map[string]float64 // by meaning: how telling its words are
	uses    map[string]int                // in how many patterns a word stands
	must    map[string][]string           // by meaning: the words that all of its phrases have
	denies  map[string]bool               // meanings of which most phrases have a "not" or a "no"
}

// lex reads the tables once.
var lex = sync.OnceValue(func() *lexicon {
	l := &lexicon{said: map[string][]string{}, diets: map[string]string{}, advice: map[string]string{},
		days: map[string]string{}, parts: map[string]string{}, given: map[string]bool{},
		known: map[string]bool{}, speech: map[string]bool{}, means: map[string][]meaning{},
		weight: map[string]map[string]float64{}, denies: map[string]bool{}, uses: map[string]int{},
		must: map[string][]string{}}
	for _, r := range words.Rows("words.tsv", wordsText, 3) {
		said := strings.Fields(r[1])
		for _, w := range append(slices.Clone(said), strings.Fields(r[2])...) {
			l.known[w] = true
		}
		switch r[0] {
		case "word":
			l.said[r[1]] = strings.Fields(r[2])
			l.speech[r[1]] = true
		case "phrase":
			l.phrases = append(l.phrases, [2][]string{said, strings.Fields(r[2])})
		case "skip":
			l.skips = append(l.skips, said)
		case "diet":
			l.diets[r[1]] = r[2]
		case "day":
			l.days[r[1]] = r[2]
		case "hours":
			l.hours = append(l.hours, [2]string{r[1], r[2]})
		case "part":
			l.parts[r[1]] = r[2]
		case "advice":
			l.advice[r[1]] = r[2]
		case "given":
			for _, w := range said {
				l.given[w] = true
			}
		}
	}
	for _, r := range words.Rows("meanings.tsv", meaningsText, 7) {
		m := meaning{r[0], r[1], r[2], r[3], r[4], r[5], r[6]}
		if l.means[m.id] == nil {
			l.order = append(l.order, m.id)
		}
		l.means[m.id] = append(l.means[m.id], m)
	}
	for i := range l.phrases {
		l.phrases[i][0] = l.canonical(l.phrases[i][0])
	}
	for i := range l.skips {
		l.skips[i] = l.canonical(l.skips[i])
	}
	sets := map[string]node{}
	spread := map[string]map[string]bool{}
	denying, of := map[string]int{}, map[string]int{}
	for _, r := range words.Rows("phrases.tsv", phrasesText, 3) {
		n, literals := compile(r[2], sets)
		if _, is := strings.CutPrefix(r[0], "="); !is {
			l.must[r[0]] = both(l.must[r[0]], n.always(), of[r[0]] == 0)
		}
		for _, w := range literals {
			l.known[w], l.speech[w] = true, true
		}
		if name, is := strings.CutPrefix(r[0], "="); is {
			sets[name] = n
			continue
		}
		l.pattern = append(l.pattern, phrase{r[0], r[1], n, asksItself(r[2])})
		of[r[0]]++
		if slices.Contains(literals, "not") || slices.Contains(literals, "no") {
			denying[r[0]]++
		}
		if r[1] == "told" { // that question alone asks for it: nothing is near to it by its words
			continue
		}
		l.denies[r[0]] = 2*denying[r[0]] > of[r[0]]
		for _, w := range literals {
			l.uses[w]++
			if spread[w] == nil {
				spread[w] = map[string]bool{}
			}
			spread[w][r[0]] = true
		}
	}
	for w, in := range spread {
		for id := range in {
			if l.weight[id] == nil {
				l.weight[id] = map[string]float64{}
			}
			l.weight[id][w] = math.Log(float64(len(l.order)) / float64(len(in)))
		}
	}
	return l
})

// asksItself reports whether a pattern begins as questions do: what it means is asked for, and no question about it.
func asksItself(pattern string) bool {
	first, _, _ := strings.Cut(strings.TrimLeft(pattern, "[("), " ")
	for _, w := range strings.FieldsFunc(first, func(r rune) bool { return r == '|' || r == ']' || r == ')' }) {
		if asking[w] {
			return true
		}
	}
	return false
}

// asking are the words that questions begin with, as patterns spell them.
var asking = words.Set("what who when where why how which is have can could will must do did")

// canonical are words as patterns have them.
func (l *lexicon) canonical(said []string) (out []string) {
	for _, w := range said {
		switch parts, ok := l.said[w]; {
		case ok && len(parts) == 1 && parts[0] != w:
			out = append(out, l.canonical(parts)...)
		default:
			out = append(out, w)
		}
	}
	return out
}
