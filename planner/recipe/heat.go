package recipe

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/words"
)

// kindOf says what a deed does, by its verb's row in the table and the places that its clause names. wasOven: what it
// goes on with is in an oven.
func (m *maker) kindOf(d *deed, wasOven bool) action {
	c := clauseFacts{low: words.Small(d.text), timed: len(times.Lengths(d.text)) > 0, wasOven: wasOven,
		wasGrill: d.grilled}
	for _, t := range times.Heats(d.text, m.american) {
		c.setting = c.setting || !t.Inside
		c.baking = c.baking || !t.Inside && t.Conventional().C() > 110
	}
	c.oven = placeIn(c.low, "oven")
	switch {
	case turnsHeat(d, c):
		return preheat
	case d.row != nil && d.Class == food.Cuts && d.row.Attention == "unattended": // soak, thaw
		if d.row.Where == "refrigerator" {
			return chilling
		}
		return standing
	case d.Heading:
		return byHand
	case d.Verb == "":
		return placeKind(c)
	}
	if k := placedIn(d, c); k != byHand {
		return k
	}
	switch d.Class {
	case food.Rests:
		return m.restKind(d, c)
	case food.Cooks, food.Heats:
		return cookKind(d, c)
	case food.Serves:
		return serving
	}
	return m.workKind(d, c)
}

// clauseFacts is what a clause says of heat and place.
type clauseFacts struct {
	low            string
	timed, setting bool // it says how long, how hot
	baking         bool // as hot as only an oven is
	oven, wasOven  bool
	wasGrill       bool
}

// placedIn is what a clause does whose words put the food into the cold, or for so long into an oven so hot.
func placedIn(d *deed, c clauseFacts) action {
	switch {
	case placeIn(c.low, "freezer") && d.Verb != "take":
		return freezing
	case placeIn(c.low, "refrigerator") && d.Verb != "take" && d.Verb != "remove" && d.Class != food.Serves:
		return chilling
	case c.oven && c.timed && c.setting, c.setting && c.timed && c.wasOven && (d.Verb == "turn" || d.Class == food.GoesOn):
		return inOven
	}
	return byHand
}

// workKind is for a verb that is work by hand, unless its clause says how long it is to be in some heat.
func (m *maker) workKind(d *deed, c clauseFacts) action {
	turns := d.Verb == "turn"
	switch {
	case d.Verb == "reheat" || d.Verb == "rewarm" || d.Verb == "thicken" && c.timed:
		return cookKind(d, c)
	case d.Class == food.Mixes && placeIn(c.low, "burner"):
		return overBurner
	case c.oven && c.timed && !turns && d.Class != food.Mixes: // return it to the oven for 20 minutes
		return inOven
	case c.wasOven && c.timed && d.Class == food.Moves && words.Has(c.low, "back in", "back into", "return", "back on"):
		return inOven // pop them back in for another 12 minutes
	case c.wasOven && (d.Verb == "continue" || d.Verb == "finish" && c.timed):
		return inOven
	case c.timed && d.Verb == "give" && placeIn(c.low, "burner"):
		return onBurner
	case c.timed:
		return m.timedKind(d, c)
	}
	return byHand
}

// timedKind is for work by hand of which a time is said: "give it another 10 minutes", "15 minutes under the grill".
func (m *maker) timedKind(d *deed, c clauseFacts) action {
	gives := d.Verb == "give"
	switch {
	case gives && c.wasOven && words.Has(c.low, "another", "more", "longer", "further", "until"):
		return inOven
	case gives && words.Has(c.low, restsIn...):
		return standing
	case d.Verb != "turn" && placeIn(c.low, "grill"):
		return onGrill
	}
	return heatWithin(d.text, m.american)
}

// turnsHeat reports whether a deed only turns an oven or burner on, up, down or off.
func turnsHeat(d *deed, c clauseFacts) bool {
	oven := c.oven || placeIn(c.low, "grill")
	switch d.Verb {
	case "preheat", "pre-heat":
		return true
	case "heat", "light", "warm":
		return oven && !c.timed && len(d.Takes) == 0 && !words.Has(c.low, "plates", "through")
	case "get", "switch":
		return oven
	case "bring":
		return !c.timed && words.Has(objectOf(words.Small(d.text[min(d.End-d.From, len(d.text)):])), "oven", "grill",
			"broiler", "barbecue")
	case "set", "adjust":
		return !c.timed && words.Has(objectOf(words.Small(d.text[min(d.End-d.From, len(d.text)):])), "heat", "flame", "gas",
			"oven", "burner", "grill", "broiler", "dial", "hob")
	case "turn":
		return !c.timed && (words.Has(c.low, "heat", "flame", "gas") || oven && len(d.Takes) == 0 &&
			words.Has(c.low, "on", "up", "down", "off", "to") && !words.Has(c.low, "dish", "tin", "tray"))
	case "reduce", "lower", "increase", "raise", "drop":
		return !c.timed && (oven || words.Has(c.low, "heat", "flame", "temperature", "simmer"))
	}
	return false
}

// objectOf is what stands after a verb, up to the first preposition: "the oven", of "the oven to 200 °C".
func objectOf(after string) string {
	f := strings.Fields(after)
	for i, w := range f {
		if i > 0 && prepositions[strings.Trim(w, ",;:.")] {
			return strings.Join(f[:i], " ")
		}
	}
	return after
}

var prepositions = lists.Set("prepositions")

// setsCold reports whether something in the recipe sets in the cold; icing, or what was baked, sets where it stands.
func (m *maker) setsCold() bool {
	oven := slices.ContainsFunc(m.all, func(d *deed) bool { return d.kind == inOven })
	return !oven || slices.ContainsFunc(m.r.Ingredients, func(g Ingredient) bool {
		return containsAny(words.Small(g.Name), "gelatin", "jelly", "agar", "cream", "chocolate")
	})
}

// placeKind is for a clause without a verb: "Oven 150 °C, 2 hours".
func placeKind(c clauseFacts) action {
	switch {
	case c.oven && (c.timed || c.setting), c.setting && c.timed && c.wasOven,
		c.baking && c.timed && !words.Has(c.low, "oil", "sugar", "syrup", "caramel"):
		return inOven
	case !c.timed:
		return byHand
	case placeIn(c.low, "refrigerator"):
		return chilling
	case placeIn(c.low, "grill"):
		return onGrill
	case placeIn(c.low, "burner"):
		return onBurner
	case wantsTime(c.low) > 0:
		if c.wasOven && words.Has(c.low, "another", "more", "longer", "further") {
			return inOven
		}
		return standing
	}
	for _, w := range strings.FieldsFunc(c.low, notLetter) {
		if row := method.Verb(w); row != nil && row.Class == food.Cooks && row.Name == w {
			return rowKind(row)
		}
	}
	return byHand
}

// wantsTime is where the length ends that something is said to need: "it wants two hours in the fridge", "the dough
// needs another 30 minutes"; 0: nothing is.
func wantsTime(text string) int {
	all := times.Lengths(text)
	if len(all) == 0 {
		return 0
	}
	head := strings.Fields(words.Small(text[:all[0].Start]))
	for len(head) > 1 && beforeLength[head[len(head)-1]] {
		head = head[:len(head)-1]
	}
	if n := len(head); n > 2 && head[n-2] == "to" && method.Verb(head[n-1]) != nil &&
		method.Verb(head[n-1]).Class == food.Rests {
		head = head[:n-2] // it needs to rest half an hour
	}
	if n := len(head); n < 2 || n > 6 || !wants[head[n-1]] || head[0] == "you" || head[0] == "we" {
		return 0
	}
	return all[0].End
}

var wants, beforeLength = lists.Set("wants"), lists.Set("before a length")

// restsIn are words of a time that something is given to stand in.
var restsIn = phrases.Phrases("given to stand")

// rowKind is what a cooking verb does where nothing but its row tells.
func rowKind(row *food.Verb) action {
	switch {
	case row.Where == "oven":
		return inOven
	case row.Where == "grill":
		return onGrill
	case row.Attention == "hands":
		return overBurner
	}
	return onBurner
}

// restKind is what it is that food is left to do: simmer, cool, chill.
func (m *maker) restKind(d *deed, c clauseFacts) action {
	row := d.row
	switch {
	case row == nil:
		return byHand
	case row.Where == "freezer":
		return freezing
	case lets[row.Name] && leavesNoFood(c.low):
		return byHand
	case lets[row.Name] || row.Name == "set":
	case row.Where == "refrigerator":
		return coldUnless(c)
	case row.Attention == "hands" || row.Name == "sit" && !c.timed:
		return byHand
	default:
		return standing
	}
	does, _, _ := strings.Cut(c.low, " not ") // do not suffer it to boil
	for _, w := range strings.FieldsFunc(does, notLetter) {
		if k, ok := m.leftTo(d, c, w); ok && !(w == "rest" && d.Verb != "rest" && strings.Contains(c.low, "the rest")) {
			return k
		}
	}
	switch {
	case words.Has(c.low, "cold"):
		return standing // suffer it to become quite cold
	case placeIn(c.low, "burner") && !words.Has(c.low, "off"):
		return onBurner
	case !c.timed || words.Has(c.low, "set up", "timer"):
		return byHand
	case d.Verb == "set" && !words.Has(c.low, "aside"):
		return chilling
	case c.wasOven && longest(c.low).High >= hour && longest(c.low).High < 10*hour &&
		!words.Has(c.low, "out", "off", "rest", "cool", "cold", "stand"):
		return inOven // oven down to 150, and leave it for 4 hours
	}
	return standing
}

// leavesNoFood reports "leave some paper hanging over the edges", "leave an inch of space".
func leavesNoFood(low string) bool {
	f := strings.Fields(objectOf(low))
	return slices.ContainsFunc(f, func(w string) bool { return noFood[strings.Trim(w, ",.;:")] })
}

var noFood = lists.Set("leaves no food")

// coldUnless is in the cold, where the clause does not say otherwise.
func coldUnless(c clauseFacts) action {
	if words.Has(c.low, "room temperature") {
		return standing
	}
	return chilling
}

// leftTo is what a word of a clause says that food is left to do; ok is false where it says nothing of the kind.
func (m *maker) leftTo(d *deed, c clauseFacts, w string) (k action, ok bool) {
	row := method.Verb(w)
	if row == nil || row.Name == d.Verb || lets[row.Name] || w == "setting" || strings.Contains(c.low, w+" rack") {
		return byHand, false
	}
	switch {
	case row.Class == food.Cooks && (row.Where == "oven" || c.wasOven) && !placeIn(c.low, "burner"):
		return inOven, true
	case row.Class == food.Cooks && row.Attention != "hands":
		return onBurner, true
	case row.Name == "set":
		if d.Verb == "set" || !m.setsCold() {
			return standing, d.Verb != "set"
		}
		return coldUnless(c), true
	case row.Class == food.Rests && row.Where == "refrigerator":
		return coldUnless(c), true
	case row.Class == food.Rests && row.Attention != "hands",
		row.Name == "soak", row.Name == "thaw", row.Name == "defrost":
		return standing, true
	}
	return byHand, false
}

func notLetter(c rune) bool { return !(c >= 'a' && c <= 'z' || c > 0x7f || c == '-') }

// cookKind is where something is cooked: by the place that is named, by where the food is, or by the verb's row.
func cookKind(d *deed, c clauseFacts) action {
	low, burner := c.low, placeIn(c.low, "burner")
	if d.row == nil || d.cooksNothing(low, burner) {
		return byHand
	}
	switch {
	case d.Verb == "bring" && words.Has(low, "room temperature"):
		return standing
	case placeIn(low, "grill") && (words.Has(low, "under", "on", "over") || d.row.Where == "grill"):
		return onGrill
	case c.oven, c.baking && !burner && !words.Has(low, "oil", "fat") && (ovenVerbs[d.Verb] || d.Verb == "toast"):
		return inOven
	case d.row.Where == "grill", c.wasGrill && d.Verb == "cook" && !burner &&
		!words.Has(low, "pan", "saucepan", "skillet"):
		return onGrill
	case d.Verb == "roast" && !c.oven && !c.timed && words.Has(low, "in the fat", "in the oil", "in oil", "in butter",
		"in the butter", "pan"):
		return overBurner
	case d.row.Where == "oven" && !burner:
		return inOven
	case !burner && d.goesOnInOven(c):
		return inOven
	case d.row.Attention == "hands",
		containsAny(low, "stirring constantly", "stirring all", "stirring continuously", "whisking constantly"):
		return overBurner
	}
	return onBurner
}

// goesOnInOven is a braise without a pot that simmers, and what is said of food that is in the oven as well.
func (d *deed) goesOnInOven(c clauseFacts) bool {
	return d.Verb == "braise" && !words.Has(c.low, "simmer", "simmering", "pan", "pot") || c.wasOven &&
		ovenVerbs[d.Verb] &&
		!words.Has(c.low, "pan", "heat", "stir", "stirring", "saucepan", "boil")
}

// cooksNothing is "bring the edges together", "melt the chocolate": no heat is named.
func (d *deed) cooksNothing(low string, burner bool) bool {
	switch d.Verb {
	case "bring":
		return !containsAny(low, "boil", "simmer", "bubbl", "heat", "temperature")
	case "colour", "color":
		return !burner && words.Has(low, "colouring", "coloring", "icing", "frosting", "paste")
	case "melt":
		return !burner && !words.Has(low, "pan", "saucepan", "pot", "skillet") && !strings.Contains(low, "heat")
	}
	return false
}

// ovenVerbs are verbs of heat that are said of what is in the oven as well.
var ovenVerbs = words.Set("cook braise brown crisp reheat warm heat finish continue")

// heatWithin is what heats the food in a timed clause that begins with work by hand: "tip into the pan to fry for
// 10 minutes", "spread on a tray: 40 minutes at 200 °C".
func heatWithin(clause string, american bool) action {
	fields := strings.Fields(words.Small(clause))
	for i := 1; i < len(fields); i++ {
		row := method.Verb(strings.Trim(fields[i], ",;:."))
		if row == nil || row.Class != food.Cooks || strings.Trim(fields[i], ",;:.") != row.Name {
			continue
		}
		lead := strings.HasSuffix(fields[i-1], ",") || fields[i-1] == "to" || fields[i-1] == "and" || fields[i-1] == "then"
		if lead && (i+1 == len(fields) || !row.Noun || slices.Contains([]string{"for", "at", "in", "until"}, fields[i+1])) {
			return rowKind(row)
		}
	}
	for _, l := range times.Lengths(clause) { // 2nd prove 45 minutes
		before := strings.Fields(words.Small(clause[:l.Start]))
		if len(before) == 0 {
			continue
		}
		if row := method.Verb(before[len(before)-1]); row != nil && row.Class == food.Rests && row.Attention != "hands" {
			if row.Where == "refrigerator" {
				return chilling
			}
			return standing
		}
	}
	for _, t := range times.Heats(clause, american) {
		if !t.Inside && t.Conventional().C() > 110 {
			return inOven
		}
	}
	return byHand
}
