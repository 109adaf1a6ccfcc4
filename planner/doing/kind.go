package doing

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/ware"
	"tureen/planner/words"
)

// Kind says what an act does, by its verb's row in the table and the places that its clause names.
func (d *Act) Kind() Kind {
	c := clauseFacts{low: words.Small(d.Text), timed: len(times.Lengths(d.Text)) > 0, wasOven: d.WasOven,
		wasGrill: d.WasGrill}
	for _, t := range times.Heats(d.Text, d.American) {
		c.setting = c.setting || !t.Inside
		c.baking = c.baking || !t.Inside && t.Conventional().C() > 110
	}
	at := c.low
	if i := words.Index(at, "while the oven"); i > 0 && d.Class == food.Rests {
		at, c.setting, c.baking = at[:i], false, false // chill for 20 minutes while the oven heats
	}
	c.oven = ware.At(at, "oven")
	switch {
	case d.turnsHeat(c):
		return Preheat
	case d.Row != nil && d.Class == food.Cuts && d.Row.Attention == "unattended": // soak, thaw
		if d.Row.Where == "refrigerator" {
			return Chilling
		}
		return Standing
	case d.Heading, d.Verb == "" && onlyUpTo(d.Text):
		return ByHand // good at room temperature, up to 2 hours
	case d.Verb == "":
		return placeKind(c)
	}
	if k := d.placedIn(c); k != ByHand {
		return k
	}
	switch d.Class {
	case food.Rests:
		return d.restKind(c)
	case food.Cooks, food.Heats:
		return d.cookKind(c)
	case food.Serves:
		return Serving
	}
	return d.workKind(c)
}

// takesTime reports whether a text says how long something takes, and not only how long before something it is done.
func takesTime(text string) bool {
	return slices.ContainsFunc(times.Lengths(text), func(l times.Length) bool { return !l.Before })
}

// onlyUpTo reports whether a text says nothing but up to how long.
func onlyUpTo(text string) bool {
	all := times.Lengths(text)
	return len(all) > 0 && !slices.ContainsFunc(all, func(l times.Length) bool { return !l.UpTo })
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
func (d *Act) placedIn(c clauseFacts) Kind {
	switch {
	case ware.At(c.low, "freezer") && d.Verb != "take":
		return Freezing
	case ware.At(c.low, "refrigerator") && d.Verb != "take" && d.Verb != "remove" && d.Class != food.Serves:
		return Chilling
	case c.oven && c.timed && c.setting, c.setting && c.timed && c.wasOven && (d.Verb == "turn" || d.Class == food.GoesOn):
		return InOven
	}
	return ByHand
}

// workKind is for a verb that is work by hand, unless its clause says how long it is to be in some heat.
func (d *Act) workKind(c clauseFacts) Kind {
	turns := d.Verb == "turn"
	switch {
	case d.Verb == "reheat" || d.Verb == "rewarm" || d.Verb == "thicken" && c.timed:
		return d.cookKind(c)
	case d.Class == food.Mixes && ware.At(c.low, "burner"):
		return OverBurner
	case c.oven && c.timed && !turns && d.Class != food.Mixes: // return it to the oven for 20 minutes
		return InOven
	case c.wasOven && c.timed && d.Class == food.Moves && words.Has(c.low, "back in", "back into", "return", "back on"):
		return InOven // pop them back in for another 12 minutes
	case c.wasOven && (d.Verb == "continue" || d.Verb == "finish" && c.timed):
		return InOven
	case c.timed && d.Verb == "give" && ware.At(c.low, "burner"):
		return OnBurner
	case c.timed:
		return d.timedKind(c)
	}
	return ByHand
}

// timedKind is for work by hand of which a time is said: "give it another 10 minutes", "15 minutes under the grill".
func (d *Act) timedKind(c clauseFacts) Kind {
	gives := d.Verb == "give"
	switch {
	case gives && c.wasOven && words.Has(c.low, "another", "more", "longer", "further", "until"):
		return InOven
	case gives && words.Has(c.low, restsIn...):
		return Standing
	case d.Verb != "turn" && ware.At(c.low, "grill"):
		return OnGrill
	}
	return heatWithin(d.Text, d.American)
}

// turnsHeat reports whether a deed only turns an oven or burner on, up, down or off.
func (d *Act) turnsHeat(c clauseFacts) bool {
	oven := c.oven || ware.At(c.low, "grill")
	switch d.Verb {
	case "preheat", "pre-heat":
		return true
	case "heat", "light", "warm":
		return oven && (!c.timed || !takesTime(d.Text)) && len(d.Takes) == 0 && !words.Has(c.low, "plates", "through")
	case "get", "switch":
		return oven
	case "bring":
		return !c.timed && words.Has(objectOf(words.Small(d.Text[min(d.End-d.From, len(d.Text)):])), "oven", "grill",
			"broiler", "barbecue")
	case "set", "adjust":
		return !c.timed && words.Has(objectOf(words.Small(d.Text[min(d.End-d.From, len(d.Text)):])), "heat", "flame", "gas",
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

// placeKind is for a clause without a verb: "Oven 150 °C, 2 hours".
func placeKind(c clauseFacts) Kind {
	switch {
	case c.oven && (c.timed || c.setting), c.setting && c.timed && c.wasOven,
		c.baking && c.timed && !words.Has(c.low, "oil", "sugar", "syrup", "caramel"):
		return InOven
	case !c.timed:
		return ByHand
	case ware.At(c.low, "refrigerator"):
		return Chilling
	case ware.At(c.low, "grill"), c.wasGrill && !words.Has(c.low, "rest", "stand", "cool"):
		return OnGrill
	case ware.At(c.low, "burner"):
		return OnBurner
	case WantsTime(c.low) > 0:
		if c.wasOven && words.Has(c.low, "another", "more", "longer", "further") {
			return InOven
		}
		return Standing
	}
	for _, w := range words.Apart(c.low) {
		if row := method.Verb(w); row != nil && row.Class == food.Cooks && row.Name == w {
			return OfRow(row)
		}
	}
	return ByHand
}

// WantsTime is where the length ends that something is said to need: "it wants two hours in the fridge", "the dough
// needs another 30 minutes"; 0: nothing is.
func WantsTime(text string) int {
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
var restsIn = lists.Phrases("given to stand")

// OfRow is what a cooking verb does where nothing but its row tells.
func OfRow(row *food.Verb) Kind {
	switch {
	case row.Where == "oven":
		return InOven
	case row.Where == "grill":
		return OnGrill
	case row.Attention == "hands":
		return OverBurner
	}
	return OnBurner
}
