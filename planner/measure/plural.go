package measure

import "tureen/planner/words"

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
