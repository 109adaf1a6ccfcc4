package doing

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/method"
	"tureen/planner/remark"
	"tureen/planner/times"
	"tureen/planner/ware"
	"tureen/planner/words"
)

// restKind is what it is that food is left to do: simmer, cool, chill.
func (d *Act) restKind(c clauseFacts) Kind {
	row := d.Row
	switch {
	case row == nil:
		return ByHand
	case row.Where == "freezer":
		return Freezing
	case lets[row.Name] && leavesNoFood(c.low):
		return ByHand
	case lets[row.Name] || row.Name == "set":
	case row.Where == "refrigerator":
		return coldUnless(c)
	case row.Attention == "hands" || row.Name == "sit" && !c.timed:
		return ByHand
	default:
		return Standing
	}
	does, _, _ := strings.Cut(c.low, " not ") // do not suffer it to boil
	for _, w := range words.Apart(does) {
		if k, ok := d.leftTo(c, w); ok && !(w == "rest" && d.Verb != "rest" && strings.Contains(c.low, "the rest")) {
			return k
		}
	}
	switch {
	case words.Has(c.low, "cold"):
		return Standing // suffer it to become quite cold
	case ware.At(c.low, "burner") && !words.Has(c.low, "off"):
		return OnBurner
	case !c.timed || words.Has(c.low, "set up", "timer"):
		return ByHand
	case d.Verb == "set" && !words.Has(c.low, "aside"):
		return Chilling
	case c.wasOven && remark.Longest(c.low).High >= hour && remark.Longest(c.low).High < 10*hour &&
		!words.Has(c.low, "out", "off", "rest", "cool", "cold", "stand"):
		return InOven // oven down to 150, and leave it for 4 hours
	}
	return Standing
}

// leavesNoFood reports "leave some paper hanging over the edges", "leave an inch of space".
func leavesNoFood(low string) bool {
	f := strings.Fields(objectOf(low))
	return slices.ContainsFunc(f, func(w string) bool { return noFood[strings.Trim(w, ",.;:")] })
}

var noFood = lists.Set("leaves no food")

// coldUnless is in the cold, where the clause does not say otherwise.
func coldUnless(c clauseFacts) Kind {
	if words.Has(c.low, "room temperature") {
		return Standing
	}
	return Chilling
}

// leftTo is what a word of a clause says that food is left to do; ok is false where it says nothing of the kind.
func (d *Act) leftTo(c clauseFacts, w string) (k Kind, ok bool) {
	row := method.Verb(w)
	if row == nil || row.Name == d.Verb || lets[row.Name] || w == "setting" || strings.Contains(c.low, w+" rack") {
		return ByHand, false
	}
	switch {
	case row.Class == food.Cooks && (row.Where == "oven" || c.wasOven) && !ware.At(c.low, "burner"):
		return InOven, true
	case row.Class == food.Cooks && row.Attention != "hands":
		return OnBurner, true
	case row.Name == "set":
		if d.Verb == "set" || !d.Sets() {
			return Standing, d.Verb != "set"
		}
		return coldUnless(c), true
	case row.Class == food.Rests && row.Where == "refrigerator":
		return coldUnless(c), true
	case row.Class == food.Rests && row.Attention != "hands",
		row.Name == "soak", row.Name == "thaw", row.Name == "defrost":
		return Standing, true
	}
	return ByHand, false
}

// cookKind is where something is cooked: by the place that is named, by where the food is, or by the verb's row.
func (d *Act) cookKind(c clauseFacts) Kind {
	low, burner := c.low, ware.At(c.low, "burner")
	if d.Row == nil || d.cooksNothing(low, burner) {
		return ByHand
	}
	switch {
	case d.Verb == "bring" && words.Has(low, "room temperature"):
		return Standing
	case ware.At(low, "grill") && (words.Has(low, "under", "on", "over") || d.Row.Where == "grill"):
		return OnGrill
	case c.oven, c.baking && !burner && !words.Has(low, "oil", "fat") && (ovenVerbs[d.Verb] || d.Verb == "toast"):
		return InOven
	case d.Row.Where == "grill", c.wasGrill && d.Verb == "cook" && !burner &&
		!words.Has(low, "pan", "saucepan", "skillet"):
		return OnGrill
	case d.Verb == "roast" && !c.oven && !c.timed && words.Has(low, "in the fat", "in the oil", "in oil", "in butter",
		"in the butter", "pan"):
		return OverBurner
	case d.Row.Where == "oven" && !burner:
		return InOven
	case !burner && d.goesOnInOven(c):
		return InOven
	case d.Row.Attention == "hands",
		words.Contains(low, "stirring constantly", "stirring all", "stirring continuously", "whisking constantly"):
		return OverBurner
	}
	return OnBurner
}

// goesOnInOven is a braise without a pot that simmers, and what is said of food that is in the oven as well.
func (d *Act) goesOnInOven(c clauseFacts) bool {
	return d.Verb == "braise" && !words.Has(c.low, "simmer", "simmering", "pan", "pot") || c.wasOven &&
		ovenVerbs[d.Verb] &&
		!words.Has(c.low, "pan", "heat", "stir", "stirring", "saucepan", "boil")
}

// cooksNothing is "bring the edges together", "melt the chocolate": no heat is named.
func (d *Act) cooksNothing(low string, burner bool) bool {
	switch d.Verb {
	case "bring":
		return !words.Contains(low, "boil", "simmer", "bubbl", "heat", "temperature")
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
func heatWithin(clause string, american bool) Kind {
	fields := strings.Fields(words.Small(clause))
	for i := 1; i < len(fields); i++ {
		row := method.Verb(strings.Trim(fields[i], ",;:."))
		if row == nil || row.Class != food.Cooks || strings.Trim(fields[i], ",;:.") != row.Name {
			continue
		}
		lead := strings.HasSuffix(fields[i-1], ",") || fields[i-1] == "to" || fields[i-1] == "and" || fields[i-1] == "then"
		if lead && (i+1 == len(fields) || !row.Noun || slices.Contains([]string{"for", "at", "in", "until"}, fields[i+1])) {
			return OfRow(row)
		}
	}
	for _, l := range times.Lengths(clause) { // 2nd prove 45 minutes
		before := strings.Fields(words.Small(clause[:l.Start]))
		if len(before) == 0 {
			continue
		}
		if row := method.Verb(before[len(before)-1]); row != nil && row.Class == food.Rests && row.Attention != "hands" {
			if row.Where == "refrigerator" {
				return Chilling
			}
			return Standing
		}
	}
	for _, t := range times.Heats(clause, american) {
		if !t.Inside && t.Conventional().C() > 110 {
			return InOven
		}
	}
	return ByHand
}
