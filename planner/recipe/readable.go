package recipe

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/measure"
	"tureen/planner/page"
	"tureen/planner/times"
	"tureen/planner/words"
)

// MaxText is the longest recipe that is read, in bytes: a long recipe has ten thousand.
const MaxText = 60_000

// Refusal is why a text was not read as a recipe, and what to do instead.
type Refusal = page.Refusal

func refuse(why, try string) *Refusal { return &Refusal{Why: why, Try: try} }

// Minutes in an hour and a day.
const (
	hour = 60
	day  = 24 * hour
)

// endless refuses a text with a length in it that no dish takes.
func endless(text string) error {
	if said := times.Endless(text); said != "" {
		return refuse(strconv.Quote(words.Cut(said, 40))+" is longer than any dinner is prepared.", "Check the number.")
	}
	return nil
}

// readable refuses what is no recipe's text.
func readable(text string) error {
	low := words.Small(text[:min(len(text), 2000)])
	switch {
	case strings.TrimSpace(text) == "":
		return refuse("There is no text in it.", "Paste the recipe's ingredients and method.")
	case officeFile(text):
		return refuse("This is an office document, which I cannot read.", "Copy its text and paste it.")
	case strings.HasPrefix(text, "PK\x03\x04"), strings.HasPrefix(text, "\x1f\x8b"), strings.HasPrefix(text, "7z\xbc\xaf"),
		strings.HasPrefix(text, "Rar!\x1a"):
		return refuse("This is a packed file, and no text.", "Unpack it, and send the recipe as .txt or .md.")
	case picture(text):
		return refuse("This is a picture, which I cannot read.", "Type or paste what it says.")
	case strings.HasPrefix(text, "%PDF"):
		return refuse("This is a PDF, which I cannot read.", "Copy its text and paste it.")
	case !utf8.ValidString(text) || strings.ContainsRune(text, 0):
		return refuse("This is no text that I can read.", "Send the recipe as plain text, in UTF-8.")
	case len(text) > MaxText:
		return refuse("This is too long for one recipe: "+strconv.Itoa(len(text)/1000)+" kB.",
			"Send one recipe alone, at most "+strconv.Itoa(MaxText/1000)+" kB.")
	case foreignLetters(text) != "":
		return refuse("This is written in "+foreignLetters(text)+", and I read English only.", inEnglish)
	case OnlyAddress(text):
		return refuse("I open no addresses.", "Save the page and send the file, or paste the recipe's text.")
	case strings.Contains(low, "<html") || strings.Contains(low, "<!doctype") || strings.Contains(low, "<script"):
		return refuse("This is a page and not plain text.",
			"Send it as a file that ends in .html, or paste the recipe's text alone.")
	}
	return nil
}

// inEnglish is what to do with a recipe in another language.
const inEnglish = "Translate it, or type the dish with /dish add and /step add."

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

// foreignLetters names the letters of a text of which more than half are not those that English is written in.
func foreignLetters(text string) string {
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

// OnlyAddress reports whether a text is the address of a page and nothing else. This package opens none.
func OnlyAddress(text string) bool {
	f := strings.Fields(text)
	return len(f) == 1 && (strings.HasPrefix(f[0], "http://") || strings.HasPrefix(f[0], "https://") ||
		strings.HasPrefix(f[0], "www."))
}

var britishWords, americanWords = phrases.Phrases("british words"), phrases.Phrases("american words")

// usageOf tells British cups and spoons from American ones by the words that only one side uses.
func usageOf(text string) measure.Usage {
	low := words.Small(text)
	british := 0
	for _, w := range britishWords {
		if strings.Contains(low, w) {
			british++
		}
	}
	american := 0
	for _, w := range americanWords {
		if strings.Contains(low, w) {
			american++
		}
	}
	if british > american {
		return measure.British
	}
	return measure.American
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

func foreignWords(t *textReader) string {
	count := map[string]int{}
	english := 0
	see := func(text string) {
		for _, w := range strings.FieldsFunc(words.Small(text), func(c rune) bool { return !unicode.IsLetter(c) }) {
			count[w]++
			switch w {
			case "the", "and", "with", "in", "for", "of", "until", "to":
				english++
			}
		}
	}
	for _, s := range t.method {
		see(s.text)
	}
	for _, g := range t.r.Ingredients {
		see(g.Text)
	}
	for _, p := range t.intro {
		see(p.Text)
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
