package measure

import (
	"strings"

	"tureen/planner/words"
)

// Words are the words of a food's name, folded: lower case, each in the singular, what stands after a comma last.
func Words(name string) []string {
	fields := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return strings.ContainsRune(" ,;()/", r) })
	for i, w := range fields {
		fields[i] = words.Singular(w)
	}
	return fields
}
