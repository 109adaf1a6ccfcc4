package caution

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner/food"
)

// The terms about how food is kept that a recipe says, and that no clock sees: the oven that holds it too cool, the
// shelf that stands in its notes.

// cooler says whether food that was hot is kept warm at a temperature below so many °C, for longer than it may be out
// of the cold; of how long a note keeps it, only its words tell.
func (x *scene) cooler(of string) bool {
	limit, err := strconv.ParseFloat(of, 64)
	if err != nil || !x.l.Perishable || x.l.Dough || !x.everHot("") {
		return false
	}
	low := func(text string) bool {
		said, all := read(text), degrees(text)
		return has(said, "keeps") && has(said, "warmly") && len(all) > 0 && slices.Max(all) < limit
	}
	return x.s.Time.Likely > heldMinutes && low(x.s.Do) || slices.ContainsFunc(notes(x.k.dish.Note), low)
}

// cultured says whether it is yoghurt or the like that is made: milk, kept warm for its culture's sake.
func (x *scene) cultured(string) bool {
	return has(x.k.words, "cultures") &&
		!slices.ContainsFunc(x.before(), func(y *scene) bool { return y.had("animal") })
}

// outLong says whether what spoils is left on a shelf or outside the refrigerator for a night or longer.
// Of the notes only a shelf counts, and only for what
// is served: "at room temperature" they say of crusts and mixtures too.
func (x *scene) outLong(string) bool {
	if !x.l.Perishable || x.l.Dough {
		return false
	}
	said := read(x.s.Do)
	if has(said, "keeps") && has(said, "outside") && has(said, "long") &&
		!has(said, "chills") {
		return true
	}
	return x.served() && slices.ContainsFunc(notes(x.k.dish.Note), func(sentence string) bool {
		said, foods := read(sentence), food.All(sentence)
		return has(said, "keeps") && has(said, "shelf") && !has(said, "chills") &&
			(len(foods) == 0 || slices.ContainsFunc(foods, func(f food.Food) bool { return f.Kind() != food.None }))
	})
}

// notes are the sentences of what a recipe says of the whole dish.
func notes(note string) []string {
	return strings.FieldsFunc(strings.ReplaceAll(note, ". ", "\n"), func(r rune) bool { return r == '\n' })
}
