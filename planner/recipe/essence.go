package recipe

import (
	"strings"
	"unicode"

	"tureen/planner/page"
)

// Essence is the part of a recipe's file that its reading is made of, to be kept: of a page or of data the recipe
// alone, of anything else all. [ReadFile] makes the same reading of it.
func Essence(data []byte) []byte {
	text := strings.TrimLeftFunc(strings.TrimPrefix(string(data), "\ufeff"), unicode.IsSpace)
	if !page.IsData(text) && !page.IsHTML(text) {
		return data
	}
	found, err := page.Find(text)
	if err != nil {
		return data
	}
	if page.IsHTML(text) {
		if _, err := fromPage(found); err != nil {
			return data // it is read by its text
		}
	}
	if out := found.Essence(); out != nil {
		return out
	}
	return data
}
