package manuscript

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/words"
)

// NotText says why something that was sent is no text, and what to do instead; empty where it is one.
func NotText(text string) (why, try string) {
	switch {
	case officeFile(text):
		return "This is an office document, which I cannot read.", "Copy its text and paste it."
	case strings.HasPrefix(text, "PK\x03\x04"), strings.HasPrefix(text, "\x1f\x8b"), strings.HasPrefix(text, "7z\xbc\xaf"),
		strings.HasPrefix(text, "Rar!\x1a"):
		return "This is a packed file, and no text.", "Unpack it, and send the recipe as .txt or .md."
	case picture(text):
		return "This is a picture, which I cannot read.", "Type or paste what it says."
	case strings.HasPrefix(text, "%PDF"):
		return "This is a PDF, which I cannot read.", "Copy its text and paste it."
	case !utf8.ValidString(text) || strings.ContainsRune(text, 0):
		return "This is no text that I can read.", "Send the recipe as plain text, in UTF-8."
	}
	return "", ""
}

// officeFile knows the files of word processors: a package of XML or, before 2007, a compound file.
func officeFile(text string) bool {
	head := text[:min(len(text), 2000)]
	return strings.HasPrefix(text, "\xd0\xcf\x11\xe0") ||
		strings.HasPrefix(text, "PK\x03\x04") && (strings.Contains(head, "[Content_Types].xml") ||
			strings.Contains(head, "mimetypeapplication/vnd.oasis"))
}

// picture knows the pictures that cameras, telephones and the web make, by their first bytes.
func picture(text string) bool {
	for _, mark := range []string{"\x89PNG", "\xff\xd8\xff", "GIF8", "II*\x00", "MM\x00*"} {
		if strings.HasPrefix(text, mark) {
			return true
		}
	}
	head := text[:min(len(text), 16)]
	return strings.HasPrefix(text, "RIFF") && strings.Contains(head, "WEBP") || strings.HasPrefix(text, "BM") &&
		strings.ContainsRune(head, 0) ||
		len(head) >= 12 && head[4:8] == "ftyp"
}

// ForeignLetters names the letters of a text of which more than half are not those that English is written in.
func ForeignLetters(text string) string {
	all := 0
	count := make([]int, len(scripts))
	for _, r := range text[:min(len(text), 4000)] {
		if !unicode.IsLetter(r) {
			continue
		}
		all++
		for i, s := range scripts {
			if unicode.In(r, s.tables...) {
				count[i]++
				break
			}
		}
	}
	for i, n := range count {
		if all >= 8 && 2*n > all {
			return scripts[i].name
		}
	}
	return ""
}

var scripts = []struct {
	name   string
	tables []*unicode.RangeTable
}{
	{"Chinese or Japanese characters", []*unicode.RangeTable{unicode.Han, unicode.Hiragana, unicode.Katakana}},
	{"Korean letters", []*unicode.RangeTable{unicode.Hangul}},
	{"Cyrillic letters", []*unicode.RangeTable{unicode.Cyrillic}},
	{"Greek letters", []*unicode.RangeTable{unicode.Greek}},
	{"Arabic letters", []*unicode.RangeTable{unicode.Arabic}},
	{"Hebrew letters", []*unicode.RangeTable{unicode.Hebrew}},
	{"Thai letters", []*unicode.RangeTable{unicode.Thai}},
	{"letters of India", []*unicode.RangeTable{unicode.Devanagari, unicode.Bengali, unicode.Gurmukhi, unicode.Gujarati,
		unicode.Tamil, unicode.Telugu, unicode.Kannada, unicode.Malayalam, unicode.Sinhala}},
	{"Georgian or Armenian letters", []*unicode.RangeTable{unicode.Georgian, unicode.Armenian}},
}

// Words that stand in nearly every recipe of a language, and in none of English.
var foreignMarks = []struct{ name, words string }{
	{"German", "und mit das der die eine zutaten zubereitung esslöffel minuten backen salz"},
	{"French", "et avec les des dans une pendant minutes farine beurre sel ajouter préparation"},
	{"Spanish", "y con los las una durante harina sal aceite ingredientes minutos añadir"},
	{"Italian", "e con gli di una farina sale olio ingredienti minuti aggiungere cuocere"},
	{"Portuguese", "e com os das uma farinha sal azeite ingredientes minutos adicione"},
	{"Dutch", "en met het een voor bloem zout boter ingrediënten minuten"},
	{"Swedish", "och med i till över minuter salt smör mjöl tills ingredienser lägg koka blanda"},
	{"Danish or Norwegian", "og med i til af av minutter salt smør mel ingredienser bland kog kok tilsæt tilsett"},
	{"Finnish", "ja minuuttia suola voita jauhoja sekoita lisää kunnes keitä ainekset anna"},
	{"Polish", "i z na do w minut sól soli masło masła mąki dodaj wymieszaj składniki gotuj"},
	{"Czech", "a s na do v minut soli másla mouky přidejte vařte suroviny postup"},
	{"Hungarian", "és a az egy percig só vaj liszt hozzávalók majd hozzáadjuk főzzük"},
	{"Romanian", "și si cu la de minute sare unt făină ingrediente adaugă se"},
	{"Turkish", "ve bir ile için dakika tuz tereyağı un malzemeler yapılışı ekleyin"},
}

// ForeignWords names the language that the words of a recipe are of; empty: English, or none that is known.
func ForeignWords(text string) string {
	count := map[string]int{}
	english := 0
	for _, w := range strings.FieldsFunc(words.Small(text), func(c rune) bool { return !unicode.IsLetter(c) }) {
		count[w]++
		switch w {
		case "the", "and", "with", "in", "for", "of", "until", "to":
			english++
		}
	}
	for _, f := range foreignMarks {
		n, kinds := 0, 0
		for _, w := range strings.Fields(f.words) {
			if count[w] > 0 {
				n += count[w]
				kinds++
			}
		}
		if kinds >= 4 && n > english*2 {
			return f.name
		}
	}
	return ""
}
