package talk

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/words"
)

// Clean takes out of a person's text what could change how the rest of a message is shown: control
// characters, bidirectional overrides and isolates, and bytes that are no text. Line breaks stay when
// they are wanted, else they become spaces. Emoji and right-to-left letters are left alone. A text of which nothing
// can be seen is empty.
func Clean(text string, breaks bool) string {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '\n' && breaks:
			b.WriteRune(r)
		case r == '\n' || r == '\t' || r == '\u2028' || r == '\u2029':
			b.WriteRune(' ')
		case r == utf8.RuneError, unicode.IsControl(r), isOverride(r):
		default:
			b.WriteRune(r)
		}
	}
	if !strings.ContainsFunc(b.String(), isSeen) {
		return ""
	}
	return strings.TrimSpace(b.String())
}

// isSeen reports whether a character shows something by itself. The five are letters and signs that are blank.
func isSeen(r rune) bool {
	return unicode.IsGraphic(r) && !unicode.IsSpace(r) && !unicode.Is(unicode.Mn, r) &&
		!strings.ContainsRune("\u115f\u1160\u3164\uffa0\u2800", r)
}

func isOverride(r rune) bool {
	return r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069' || r == '\ufeff' || r >= 0xe0000 &&
		r <= 0xe007f
}

// Sentence makes a sentence of an error's text.
func Sentence(text string) string {
	if text == "" {
		return text
	}
	text = words.Upper(text)
	if !strings.ContainsRune(".!?", rune(text[len(text)-1])) {
		text += "."
	}
	return text
}

// Nearest picks, of some names, those that a person who typed word may have meant, the nearest first and
// at most three. A name of which a word begins so counts as near.
func Nearest(word string, names []string) []string {
	type found struct {
		name string
		far  int
	}
	w := []rune(words.Fold(word))
	if len(w) == 0 || len(w) > 60 {
		return nil
	}
	var list []found
	for _, n := range names {
		f := []rune(words.Fold(n))
		far := distance(w, f)
		if len(w) >= 3 && (strings.HasPrefix(string(f), string(w)) || strings.Contains(string(f), " "+string(w))) {
			far = 1
		}
		if far <= max(1, min(len(w), len(f))/3) {
			list = append(list, found{n, far})
		}
	}
	slices.SortStableFunc(list, func(a, b found) int { return a.far - b.far })
	var out []string
	for _, f := range list {
		twice := slices.ContainsFunc(out, func(o string) bool { return words.Fold(o) == words.Fold(f.name) })
		if !twice && len(out) < 3 {
			out = append(out, f.name)
		}
	}
	return out
}

// OneSlip reports whether two names are one slip of a finger apart.
func OneSlip(a, b string) bool { return distance([]rune(words.Fold(a)), []rune(words.Fold(b))) == 1 }

// distance is the optimal string alignment distance: insertions, deletions, changes, and swaps of
// neighbours, each counting one.
func distance(a, b []rune) int {
	before, prev, cur := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		cur[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				cur[j] = min(cur[j], before[j-2]+1)
			}
		}
		before, prev, cur = prev, cur, before
	}
	return prev[len(b)]
}

// DidYouMean is " Did you mean X or Y?" for names near a word, else nothing.
func DidYouMean(word string, names []string) string {
	if near := Nearest(word, names); len(near) > 0 {
		return " Did you mean " + words.Or(near) + "?"
	}
	return ""
}

// Shown cuts a person's text to what fits a sentence.
func Shown(text string) string {
	text = Clean(text, false)
	if r := []rune(text); len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return text
}
