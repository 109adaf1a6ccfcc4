package measure

import (
	"strings"

	"tureen/planner/words"
)

// NameFor puts a thing's name in the singular or plural that its amount asks for: 2 limes, 1 lime. What is
// weighed or in bunches stays as it was typed.
func NameFor(name string, amounts ...Quantity) string {
	if len(amounts) != 1 || amounts[0].Unit() != Each {
		return name
	}
	up := amounts[0].Up()
	if n := up.High(); n.IsInt() && n.Num().IsInt64() && n.Num().Int64() == 1 {
		return words.Singular(name)
	}
	return words.Plural(name)
}

// Singular is a lower-case word as the keys of things to buy have it. They are kept in files, so that this rule does not
// follow [words.Singular], which is for all else: it may only change together with what is kept.
func Singular(w string) string {
	switch {
	case w == "leaves":
		return "leaf"
	case w == "chillies", w == "chilies":
		return "chilli"
	case w == "loaves":
		return "loaf"
	case w == "halves":
		return "half"
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "oes"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "ches"):
		return w[:len(w)-2]
	case strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "us") && len(w) > 3:
		return w[:len(w)-1]
	}
	return w
}
