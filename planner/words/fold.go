package words

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// Fold is a name as names are compared: case, accents, ligatures, the width of letters and the number of spaces do
// not count, and letters of their own are spelt as on a keyboard that lacks them: "FÊTE" and "fete", "Straße" and
// "strasse", "œuf" and "oeuf" are one. Marks that make another letter, as in Japanese or Thai, stay.
//
// Folded text is for comparing, not for keeping: the rule may grow.
func Fold(name string) string {
	name = strings.ToValidUTF8(name, "\uFFFD")
	for range 4 { // one round may leave what the next takes: the tests know no name that wants a third
		next := norm.NFC.String(foldOnce(norm.NFKD.String(name)))
		if next == name {
			break
		}
		name = next
	}
	return name
}

func foldOnce(name string) string {
	name = cases.Fold().String(name)
	name = strings.Map(func(r rune) rune {
		if accent(r) || unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, name)
	return strings.Join(strings.Fields(ownLetters.Replace(name)), " ")
}

// ownLetters are letters, in lower case, that Unicode does not take apart; and the apostrophe that a phone types.
var ownLetters = strings.NewReplacer("ß", "ss", "ø", "o", "æ", "ae", "œ", "oe", "ł", "l", "đ", "d", "ð", "d",
	"þ", "th", "ı", "i", "ħ", "h", "’", "'")

// accent reports a mark that is put on a letter and leaves it what it is: those of European letters, the points of
// Hebrew and Arabic. The two marks of Japanese, which make ga of ka, are none, though Unicode files them alike.
func accent(r rune) bool {
	return unicode.Is(unicode.Mn, r) && r != '\u3099' && r != '\u309a' &&
		unicode.In(r, unicode.Inherited, unicode.Hebrew, unicode.Arabic)
}

// unaccented is a word without its accents, letter for letter otherwise.
func unaccented(word string) string {
	if ascii(word) {
		return word
	}
	word = strings.Map(func(r rune) rune {
		if accent(r) {
			return -1
		}
		return r
	}, norm.NFD.String(word))
	return norm.NFC.String(word)
}

func ascii(s string) bool {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// Match says which of some names a person means: the places of those that are exactly so, and only where there is none,
// of those that [Fold] alike. Several places mean that the person has to say which.
func Match(want string, names []string) []int {
	var exact, alike []int
	want = strings.TrimSpace(norm.NFC.String(want))
	folded := Fold(want)
	for i, n := range names {
		switch {
		case strings.TrimSpace(norm.NFC.String(n)) == want:
			exact = append(exact, i)
		case Fold(n) == folded:
			alike = append(alike, i)
		}
	}
	if exact != nil {
		return exact
	}
	return alike
}
