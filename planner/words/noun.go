package words

import (
	_ "embed"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"
)

// nouns.tsv has the nouns of food and kitchen whose plural no rule tells: one, many ("-" where both are the same or
// the word is not counted), and other spellings of the plural that are only read. A "+" before a word says that
// longer words end in it: breadknife, meatloaf.
//
//go:embed nouns.tsv
var nounsTSV string

type nounTable struct {
	many   map[string]string // singular to plural
	one    map[string]string // plural, or another spelling of it, to singular
	ending []string          // the singulars that longer words end in
}

var nouns = sync.OnceValue(func() nounTable {
	t := nounTable{many: map[string]string{}, one: map[string]string{}}
	for _, line := range strings.Split(strings.TrimSpace(nounsTSV), "\n")[1:] {
		cell := append(strings.Split(line, "\t"), "")
		one, longer := strings.CutPrefix(cell[0], "+")
		many := cell[1]
		if many == "-" {
			many = one
		}
		t.many[one], t.one[many] = many, one
		for _, also := range strings.Fields(cell[2]) {
			t.one[also] = one
		}
		if longer {
			t.ending = append(t.ending, one)
		}
	}
	return t
})

// Singular is a name for one thing: "tomato" for "tomatoes", "bay leaf" for "bay leaves", "clove of garlic" for
// "cloves of garlic". What is in the singular, or is not counted, stays as it is.
func Singular(name string) string {
	from, to := head(name)
	return name[:from] + singular(name[from:to]) + name[to:]
}

// Plural is a name for several things: "knives" for "knife", "tins of tomatoes" for "tin of tomatoes". What is in the
// plural, or is not counted, stays as it is.
func Plural(name string) string {
	from, to := head(name)
	return name[:from] + plural(name[from:to]) + name[to:]
}

// Count is a number of things by their name for one: "1 tin", "2 baking trays", "3 tins of tomatoes".
func Count(n int, name string) string {
	return CountAs(n, name, Plural(name))
}

// CountAs is Count where more than a noun changes: "1 dish is", "2 dishes are".
func CountAs(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// head finds the noun that a name turns on: the last word before a comma, a bracket, or a word as "of".
func head(name string) (from, to int) {
	to = len(name)
	if i := strings.IndexAny(name, ",;(/"); i > 0 {
		to = i
	}
	for _, join := range []string{" of ", " with ", " in ", " for ", " from ", " on "} {
		if i := strings.Index(name[:to], join); i > 0 {
			to = i
		}
	}
	to = len(strings.TrimRight(name[:to], " "))
	return strings.LastIndexByte(name[:to], ' ') + 1, to
}

func plural(word string) string {
	if singular(word) != word {
		return word
	}
	low := Small(word)
	if _, many, known := entry(low); known {
		return likeness(word, low, many)
	}
	switch {
	case low == "" || !letterEnds(low) || possessive(low):
		return word
	case ends(low, "s", "x", "z", "sh", "ch"):
		return word + "es"
	case ends(low, "y") && !ends(low, "ay", "ey", "oy", "uy"):
		return word[:len(word)-1] + "ies"
	}
	return word + "s"
}

func singular(word string) string {
	low := Small(word)
	if one, _, known := entry(low); known {
		return likeness(word, low, one)
	}
	cut := func(n int) string { return word[:len(word)-n] }
	switch {
	case len(low) <= 3 || !ends(low, "s") || possessive(low):
		return word
	case ends(low, "ss", "us"):
		return word
	case ends(low, "ies") && len(low) > 4:
		return cut(3) + "y"
	case ends(low, "oes", "ches", "shes", "sses", "xes", "zzes", "tzes"):
		return cut(2)
	case ends(low, "uses") && len(low) > 6 && !ends(low, "auses", "ouses"):
		return cut(2) // cactuses; but sauces, pulses, houses
	}
	return cut(1)
}

// entry finds a word, in lower case, in the table: as it stands, without its accents, or by its ending.
func entry(low string) (one, many string, known bool) {
	t := nouns()
	for _, w := range []string{low, unaccented(low)} {
		if many, known = t.many[w]; known {
			return w, many, true
		}
		if one, known = t.one[w]; known {
			return one, t.many[one], true
		}
	}
	if i := strings.LastIndexByte(low, '-') + 1; i > 0 {
		if one, many, known = entry(low[i:]); known {
			return low[:i] + one, low[:i] + many, true
		}
		return "", "", false
	}
	for _, e := range t.ending {
		for _, form := range []string{e, t.many[e]} {
			if front, is := strings.CutSuffix(low, form); is && utf8.RuneCountInString(front) > 1 {
				return front + e, front + t.many[e], true
			}
		}
	}
	return "", "", false
}

// likeness writes want, a form out of the table, with as much of the word's own letters as the two share: accents and
// capitals stay.
func likeness(word, low, want string) string {
	own, plain, wanted := []rune(word), []rune(unaccented(low)), []rune(unaccented(want))
	if len(own) != len(plain) {
		return want
	}
	n := 0
	for n < len(plain) && n < len(wanted) && plain[n] == wanted[n] {
		n++
	}
	return string(own[:n]) + string(wanted[n:])
}

func ends(low string, tails ...string) bool {
	for _, t := range tails {
		if strings.HasSuffix(low, t) {
			return true
		}
	}
	return false
}

// possessive tells "shepherd's", whose s makes no plural.
func possessive(low string) bool { return ends(low, "'s", "’s", "'", "’") }
