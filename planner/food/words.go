package food

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/words"
)

// token is a word of a text: as it is spelt, without accents, and in the singular; or the mark of a comma, bracket or
// slash, which no name goes across.
type token struct{ raw, word string }

// stop is the word of such a mark.
const stop = "|"

// mostRead is how much of a text is looked at, in bytes: no ingredient has more, and a page pasted by mistake costs
// little.
const mostRead = 2000

// folded is a text as names are compared. Most texts have no accents, and then it is quickly done.
func folded(text string) string {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return words.Fold(text)
		}
	}
	return strings.ToLower(text)
}

// one is a word in the singular: by what the tables' own words were put in, which is quicker, or else by the rule.
func (t *tables) one(word string) string {
	if s, ok := t.singular[word]; ok {
		return s
	}
	return words.Singular(word)
}

// learn keeps a word's singular, and its plural's.
func (t *tables) learn(word string) string {
	if s, ok := t.singular[word]; ok {
		return s
	}
	s := words.Singular(word)
	t.singular[word] = s
	if many := words.Plural(s); words.Singular(many) == s {
		t.singular[many] = s
	}
	return s
}

// tokensOf cuts a text into words. A hyphen parts words, an apostrophe does not.
func (t *tables) tokensOf(text string) []token {
	if len(text) > mostRead {
		text = strings.ToValidUTF8(text[:mostRead], "")
	}
	text = strings.ReplaceAll(folded(text), "'s", "")
	tokens := make([]token, 0, 8)
	from := -1
	end := func(to int) {
		if from >= 0 {
			raw := strings.ReplaceAll(text[from:to], "'", "")
			if raw != "" {
				tokens = append(tokens, token{raw, t.one(raw)})
			}
			from = -1
		}
	}
	for i, r := range text {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if from < 0 {
				from = i
			}
		case r == '\'':
		case r == '-' || r == '=' || unicode.IsSpace(r):
			end(i)
		default:
			end(i)
			tokens = append(tokens, token{stop, stop})
		}
	}
	end(len(text))
	return tokens
}

// foldsOf are the words of a table's text, folded.
func (t *tables) foldsOf(text string) []string {
	var out []string
	for _, w := range t.tokensOf(text) {
		out = append(out, t.learn(w.raw))
	}
	return out
}

func setOf(list string) map[string]bool {
	set := map[string]bool{}
	for w := range strings.FieldsSeq(list) {
		set[w] = true
	}
	return set
}

// Words are the words of a text as they are compared here: lower case, without accents, each in the singular. A comma,
// bracket or slash is a word too, which no other is like.
func Words(text string) []string {
	var out []string
	for _, w := range data().tokensOf(text) {
		out = append(out, w.word)
	}
	return out
}

// not is a row of not.tsv: where a word of the first stands before one of the second, the words numbered in drop tell
// nothing by themselves; with a doubt they leave one.
type not struct {
	first, second []string
	drop1, drop2  bool
	doubt         string
	head          string // which of the two the look-up takes: "1", "2", or "-" for neither
}

// stateRow is a row of states.tsv for one of its words.
type stateRow struct {
	phrase  []string
	groups  []string // of which classes it speaks; none for all
	classes []*Class
	becomes *Class // nil for no change
	cooked  bool   // it becomes what its class leaves when it is cooked
	state   string
	tells   []Tell
}

func (s *stateRow) fits(c *Class) bool {
	return len(s.groups)+len(s.classes) == 0 || slices.Contains(s.groups, c.Group) || slices.Contains(s.classes, c)
}

func (t *tables) readWords() {
	for _, l := range records("not.tsv") {
		for first := range strings.SplitSeq(l.of("first"), "|") {
			for second := range strings.SplitSeq(l.of("second"), "|") {
				drop, doubt := strings.CutSuffix(l.of("drop"), "?")
				n := not{first: t.foldsOf(first), second: t.foldsOf(second), drop1: strings.Contains(drop, "1"),
					drop2: strings.Contains(drop, "2"), head: l.of("head")}
				if doubt {
					n.doubt = l.of("why")
				}
				if len(n.first) == 0 || len(n.second) == 0 || !n.drop1 && !n.drop2 || l.of("why") == "" {
					l.fail("a word or its reason is lacking")
				}
				t.nots[n.first[0]] = append(t.nots[n.first[0]], n)
			}
		}
	}
	for _, l := range records("states.tsv") {
		r := stateRow{state: l.of("state"), cooked: l.of("becomes") == "cooked"}
		if !r.cooked {
			r.becomes = t.classOf(l, "becomes")
		}
		for k := range strings.FieldsSeq(l.of("tells")) {
			r.tells = append(r.tells, t.telling(l, k))
		}
		for of := range strings.FieldsSeq(l.of("of")) {
			if g, ok := strings.CutPrefix(of, "@"); ok {
				r.groups = append(r.groups, g)
			} else if c := t.class[of]; c != nil {
				r.classes = append(r.classes, c)
			} else {
				l.fail("no class %q", of)
			}
		}
		for w := range strings.SplitSeq(l.of("words"), "|") {
			r.phrase = t.foldsOf(w)
			t.warns[r.phrase[0]] = t.warns[r.phrase[0]] || len(r.tells) > 0
			t.states[r.phrase[0]] = append(t.states[r.phrase[0]], r)
		}
	}
	for _, rows := range t.states {
		slices.SortStableFunc(rows, func(a, b stateRow) int { return len(b.phrase) - len(a.phrase) })
	}
	for _, l := range records("plain.tsv") {
		for w := range strings.FieldsSeq(l.of("words")) {
			t.plain[t.learn(w)] = l.of("role")
		}
	}
}
