package recipe

import (
	"strconv"
	"strings"

	"tureen/planner/manuscript"
	"tureen/planner/measure"
	"tureen/planner/page"
	"tureen/planner/times"
	"tureen/planner/words"
)

// MaxText is the longest recipe that is read, in bytes: a long recipe has ten thousand.
const MaxText = 60_000

// Refusal is why a text was not read as a recipe, and what to do instead.
type Refusal = page.Refusal

// Refuse refuses, for a reason, and says what to do instead.
func Refuse(why, try string) *Refusal { return &Refusal{Why: why, Try: try} }

// Minutes in an hour and a day.
const (
	hour = 60
	day  = 24 * hour
)

// endless refuses a text with a length in it that no dish takes.
func endless(text string) error {
	if said := times.Endless(text); said != "" {
		return Refuse(strconv.Quote(words.Cut(said, 40))+" is longer than any dinner is prepared.", "Check the number.")
	}
	return nil
}

// readable refuses what is no recipe's text.
func readable(text string) error {
	low := words.Small(text[:min(len(text), 2000)])
	not, try := manuscript.NotText(text)
	switch {
	case strings.TrimSpace(text) == "":
		return Refuse("There is no text in it.", "Paste the recipe's ingredients and method.")
	case not != "":
		return Refuse(not, try)
	case len(text) > MaxText:
		return Refuse("This is too long for one recipe: "+strconv.Itoa(len(text)/1000)+" kB.",
			"Send one recipe alone, at most "+strconv.Itoa(MaxText/1000)+" kB.")
	case manuscript.ForeignLetters(text) != "":
		return Refuse("This is written in "+manuscript.ForeignLetters(text)+", and I read English only.", inEnglish)
	case OnlyAddress(text):
		return Refuse("I open no addresses.", "Save the page and send the file, or paste the recipe's text.")
	case strings.Contains(low, "<html") || strings.Contains(low, "<!doctype") || strings.Contains(low, "<script"):
		return Refuse("This is a page and not plain text.",
			"Send it as a file that ends in .html, or paste the recipe's text alone.")
	}
	return nil
}

// inEnglish is what to do with a recipe in another language.
const inEnglish = "Translate it, or type the dish with /dish add and /step add."

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
