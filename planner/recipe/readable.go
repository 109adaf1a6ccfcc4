package recipe

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner/measure"
)

// MaxText is the longest recipe that is read, in bytes: a long recipe has ten thousand.
const MaxText = 60_000

// Refusal is why a text was not read, and what to do instead.
type Refusal struct{ Why, Try string }

// Error is the refusal in one or two sentences.
func (e *Refusal) Error() string { return e.Why + " " + e.Try }

// readable refuses what is no recipe's text.
func readable(text string) error {
	low := lower(text[:min(len(text), 2000)])
	switch {
	case strings.TrimSpace(text) == "":
		return &Refusal{"There is no text in it.", "Paste the recipe's ingredients and method."}
	case strings.HasPrefix(text, "PK\x03\x04"), strings.HasPrefix(text, "\x1f\x8b"):
		return &Refusal{"This is a packed file, and no text.", "Unpack it, and send the recipe as .txt or .md."}
	case strings.HasPrefix(text, "\x89PNG"), strings.HasPrefix(text, "\xff\xd8\xff"), strings.HasPrefix(text, "GIF8"), strings.HasPrefix(text, "RIFF") && strings.Contains(text[:min(len(text), 16)], "WEBP"):
		return &Refusal{"This is a picture, which I cannot read.", "Type or paste what it says."}
	case strings.HasPrefix(text, "%PDF"):
		return &Refusal{"This is a PDF, which I cannot read.", "Copy its text and paste it."}
	case !utf8.ValidString(text) || strings.ContainsRune(text, 0):
		return &Refusal{"This is no text that I can read.", "Send the recipe as plain text, in UTF-8."}
	case len(text) > MaxText:
		return &Refusal{"This is too long for one recipe: " + strconv.Itoa(len(text)/1000) + " kB.", "Send one recipe alone, at most " + strconv.Itoa(MaxText/1000) + " kB."}
	case OnlyAddress(text):
		return &Refusal{"I open no addresses.", "Save the page and send the file, or paste the recipe's text."}
	case strings.Contains(low, "<html") || strings.Contains(low, "<!doctype") || strings.Contains(low, "<script"):
		return &Refusal{"This is a page and not plain text.", "Send it as a file that ends in .html, or paste the recipe's text alone."}
	}
	return nil
}

// OnlyAddress reports whether a text is the address of a page and nothing else. This package opens none.
func OnlyAddress(text string) bool {
	f := strings.Fields(text)
	return len(f) == 1 && (strings.HasPrefix(f[0], "http://") || strings.HasPrefix(f[0], "https://") || strings.HasPrefix(f[0], "www."))
}

// usageOf tells British cups and spoons from American ones by the words that only one side uses.
func usageOf(text string) measure.Usage {
	low := lower(text)
	british := 0
	for _, w := range []string{"gas mark", "gas ", "caster sugar", "double cream", "plain flour", "self-raising", "tin ", "tins ", "fan", "courgette", "aubergine", "litre", "yoghurt", "grill ", "hob", "grams"} {
		if strings.Contains(low, w) {
			british++
		}
	}
	american := 0
	for _, w := range []string{"all-purpose", "skillet", "°f", "degrees f", " cups", " cup ", "stick ", "broil", "heavy cream", "cilantro", "quart", "pounds", " lb"} {
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
}

func foreignWords(t *textReader) string {
	count := map[string]int{}
	english := 0
	see := func(text string) {
		for _, w := range strings.FieldsFunc(lower(text), func(c rune) bool { return !unicode.IsLetter(c) }) {
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
