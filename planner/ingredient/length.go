package ingredient

import (
	"regexp"

	"tureen/planner/food"
	"tureen/planner/words"
)

// lengthRE is a length before what is cut off at it: "2 cm ginger", "2-inch piece fresh ginger".
var lengthRE = regexp.MustCompile(`(?i)^(\d+(?:[.,/]\d+)?|[½¼¾])[\s-]?(cm|mm|inch(?:es)?|centimet(?:re|er)s?)\s+` +
	`(?:(pieces?|knobs?|lengths?|chunks?|sticks?|thumbs?)\s+(?:of\s+)?)?(.+)$`)

// aLength makes one piece of so many centimetres of "2 cm ginger": a length is no number of things. What is sold by its
// size across (a 23 cm tart case) keeps that in its name.
func aLength(text string) string {
	m := lengthRE.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	if m[3] == "" {
		name, _ := cutName(m[4])
		f, ok := food.Find(name)
		if !ok || !cutShort[f.Class.Group] {
			return m[1] + "-" + m[2] + " " + m[4]
		}
	}
	return "1 " + m[1] + "-" + m[2] + " piece of " + m[4]
}

// cutShort are the groups of foods of which a length is cut off.
var cutShort = words.Set("vegetable fruit herb spice")

// cutTo reports what says how large the pieces of the thing before it are: "2cm dice".
func cutTo(text string) bool { return prepares(text) && lengthRE.MatchString(text) }
