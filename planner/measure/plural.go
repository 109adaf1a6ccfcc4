package measure

import (
	"fmt"
	"slices"
	"strings"
)

// CountOf is a number of things by their name in the singular: "1 tin", "2 baking trays", "3 dishes".
func CountOf(n int, name string) string {
	if n == 1 {
		return "1 " + name
	}
	i := strings.LastIndexByte(name, ' ') + 1
	return fmt.Sprintf("%d %s%s", n, name[:i], Plural(name[i:]))
}

// uncounted are things that are counted and have no plural of their own: 2 garlic would be heads.
var uncounted = map[string]bool{
	"garlic": true, "celery": true, "broccoli": true, "asparagus": true, "couscous": true, "spinach": true, "parsley": true, "basil": true, "fennel": true,
	"rice": true, "bread": true, "butter": true, "fish": true, "salmon": true, "cod": true, "squid": true, "beef": true, "pork": true, "lamb": true, "ice": true,
	"mint": true, "dill": true, "thyme": true, "rosemary": true, "sage": true, "tofu": true, "halloumi": true, "mozzarella": true, "feta": true, "chocolate": true,
}

// NameFor puts a thing's name in the singular or plural that its amount asks for: 2 limes, 1 lime. What is
// weighed or in bunches stays as it was typed.
func NameFor(name string, amounts ...Quantity) string {
	if len(amounts) != 1 || amounts[0].Unit() != Each {
		return name
	}
	head, tail := name, ""
	if i := strings.IndexAny(name, ",("); i > 0 {
		head, tail = strings.TrimRight(name[:i], " "), name[len(strings.TrimRight(name[:i], " ")):]
	}
	for _, of := range []string{" of ", " with ", " in ", " for "} {
		if i := strings.Index(head, of); i > 0 {
			head, tail = head[:i], head[i:]+tail
		}
	}
	i := strings.LastIndexByte(head, ' ') + 1
	last := strings.ToLower(head[i:])
	one := Singular(last)
	if uncounted[one] || last == "" {
		return name
	}
	up := amounts[0].Up()
	if n := up.High(); n.IsInt() && n.Num().IsInt64() && n.Num().Int64() == 1 {
		if one != last {
			return head[:i] + one + tail
		}
		return name
	}
	if one != last {
		return name // it is in the plural already
	}
	return head[:i] + Plural(head[i:]) + tail
}

// Plural is a singular word in the plural, as far as English has rules for what is eaten.
func Plural(word string) string {
	low := strings.ToLower(word)
	ends := func(tails ...string) bool {
		return slices.ContainsFunc(tails, func(t string) bool { return strings.HasSuffix(low, t) })
	}
	switch {
	case ends("s", "x", "sh", "ch", "potato", "tomato", "mango", "chilli"):
		return word + "es"
	case ends("leaf", "loaf", "half", "shelf"):
		return word[:len(word)-1] + "ves"
	case ends("y") && !ends("ay", "ey", "oy"):
		return word[:len(word)-1] + "ies"
	}
	return word + "s"
}
