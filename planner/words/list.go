package words

import (
	"fmt"
	"strings"
)

// And joins a list as a sentence does: "a, b and c".
func And(list []string) string { return join(list, " and ") }

// Or joins what may be chosen from: "a, b or c".
func Or(list []string) string { return join(list, " or ") }

func join(list []string, last string) string {
	n := len(list)
	if n < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:n-1], ", ") + last + list[n-1]
}

// Few is And of a list that may be long: no more than so many parts (two at least), of which the last then counts the
// rest: "a, b and 7 more".
func Few(list []string, most int) string {
	most = max(most, 2)
	if len(list) <= most {
		return And(list)
	}
	return fmt.Sprintf("%s and %d more", strings.Join(list[:most-1], ", "), len(list)-most+1)
}
