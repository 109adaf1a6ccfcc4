package recipe

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/method"
)

// kindOf says what a deed does, by its verb's row in the table and the places that its clause names. wasOven: what it
// goes on with is in an oven.
func (m *maker) kindOf(d *deed, wasOven bool) action {
	low := lower(d.text)
	timed, setting := len(durations(d.text)) > 0, false
	for _, t := range temperatures(d.text, m.american) {
		setting = setting || !t.inside
	}
	oven := placeIn(low, "oven")
	switch {
	case m.turnsHeat(d, low, timed, oven):
		return preheat
	case d.row != nil && d.Class == food.Cuts && d.row.Attention == "unattended":
		if d.row.Where == "refrigerator" {
			return chilling
		}
		return standing // soak, thaw
	case d.Heading:
		return byHand
	case d.Verb == "":
		return placeKind(low, timed, setting, oven, wasOven)
	case placeIn(low, "freezer") && d.Verb != "take":
		return freezing
	case placeIn(low, "refrigerator") && d.Verb != "take" && d.Verb != "remove" && !m.servesCold(d):
		return chilling
	case oven && timed && setting:
		return inOven
	case setting && timed && wasOven && (d.Verb == "turn" || d.Class == food.GoesOn):
		return inOven
	}
	switch d.Class {
	case food.Rests:
		return m.restKind(d, low, timed, wasOven)
	case food.Cooks, food.Heats:
		return cookKind(d, low, oven, wasOven)
	case food.Serves:
		return serving
	}
	switch {
	case d.Verb == "reheat" || d.Verb == "rewarm" || d.Verb == "thicken" && timed:
		return cookKind(d, low, oven, wasOven)
	case d.Class == food.Mixes && placeIn(low, "burner"):
		return overBurner
	case oven && timed && d.Verb != "turn" && (d.Class != food.Mixes || placed[d.Verb]):
		return inOven // return it to the oven for 20 minutes
	case d.Verb == "continue" && wasOven:
		return inOven
	case timed && d.Verb != "turn" && placeIn(low, "grill"):
		return onGrill
	case d.Verb == "finish" && timed && wasOven:
		return inOven
	case timed:
		return heatWithin(d.text, m.american)
	}
	return byHand
}

var placed = set("put place set return")

// servesCold reports a clause that only says where something comes from or waits for its table.
func (m *maker) servesCold(d *deed) bool { return d.Class == food.Serves }

// turnsHeat reports whether a deed only turns an oven or burner on, up, down or off.
func (m *maker) turnsHeat(d *deed, low string, timed, oven bool) bool {
	oven = oven || placeIn(low, "grill")
	switch d.Verb {
	case "preheat", "pre-heat":
		return true
	case "heat", "light", "warm":
		return oven && !timed && len(d.Takes) == 0 && !containsWord(low, "plates", "through")
	case "get", "switch":
		return oven
	case "turn", "set", "adjust":
		if containsWord(low, "heat", "flame", "gas") && !timed {
			return true
		}
		return oven && !timed && (containsWord(low, "on", "up", "down", "off", "to") && len(d.Takes) == 0) &&
			!containsWord(low, "dish", "tin", "tray")
	case "reduce", "lower", "increase", "raise", "drop":
		return !timed && (containsWord(low, "heat", "flame", "temperature") || oven)
	}
	return false
}

// setsCold reports whether something in the recipe sets in the cold; icing, or what was baked, sets where it stands.
func (m *maker) setsCold() bool {
	oven := slices.ContainsFunc(m.all, func(d *deed) bool { return d.kind == inOven })
	return !oven || slices.ContainsFunc(m.r.Ingredients, func(g Ingredient) bool {
		return containsAny(lower(g.Name), "gelatin", "jelly", "agar", "cream", "chocolate")
	})
}

// placeKind is for a clause without a verb: "Oven 150 °C, 2 hours".
func placeKind(low string, timed, setting, oven, wasOven bool) action {
	switch {
	case oven && (timed || setting), setting && timed && wasOven:
		return inOven
	case placeIn(low, "refrigerator") && timed:
		return chilling
	case placeIn(low, "grill") && timed:
		return onGrill
	case timed && placeIn(low, "burner"):
		return onBurner
	}
	for _, w := range strings.FieldsFunc(low, notLetter) {
		if row := method.Verb(w); timed && row != nil && row.Class == food.Cooks && row.Name == w {
			return rowKind(row)
		}
	}
	return byHand
}

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
func (m *maker) restKind(d *deed, low string, timed, wasOven bool) action {
	if d.row != nil && d.row.Where == "freezer" {
		return freezing
	}
	lets := d.Verb == "let" || d.Verb == "leave" || d.Verb == "allow" || d.Verb == "keep" || d.Verb == "set"
	if !lets {
		switch {
		case d.row != nil && d.row.Where == "refrigerator":
			if containsWord(low, "room temperature") {
				return standing
			}
			return chilling
		case d.row != nil && d.row.Attention == "hands", d.Verb == "sit" && !timed:
			return byHand
		}
		return standing
	}
	for _, w := range strings.FieldsFunc(low, notLetter) {
		row := method.Verb(w)
		if row == nil || row.Name == d.Verb || w == "setting" || w == row.Name && row.Noun && row.Class != food.Rests && row.Class != food.Cooks {
			continue
		}
		switch {
		case row.Class == food.Cooks && row.Where == "oven" || row.Class == food.Cooks && wasOven:
			return inOven
		case row.Class == food.Cooks && row.Attention != "hands":
			return onBurner
		case row.Class == food.Rests && row.Where == "refrigerator" || row.Name == "set" && d.Verb != "set":
			if containsWord(low, "room temperature") || row.Name == "set" && !m.setsCold() {
				return standing
			}
			return chilling
		case row.Class == food.Rests && row.Attention != "hands" || row.Name == "soak" || row.Name == "thaw" ||
			row.Name == "defrost":
			return standing
		}
	}
	switch {
	case containsWord(low, "set up", "timer"):
		return byHand
	case timed && d.Verb == "set" && !containsWord(low, "aside"):
		return chilling
	case timed && placeIn(low, "burner"):
		return onBurner
	case timed:
		return standing
	}
	return byHand
}

func notLetter(c rune) bool { return !(c >= 'a' && c <= 'z' || c > 0x7f || c == '-') }

// cookKind is where something is cooked: by the place that is named, by where the food is, or by the verb's row.
func cookKind(d *deed, low string, oven, wasOven bool) action {
	burner := placeIn(low, "burner")
	hands := d.row != nil && d.row.Attention == "hands"
	switch {
	case d.Verb == "bring" && !containsAny(low, "boil", "simmer", "bubbl", "heat", "temperature"):
		return byHand
	case d.Verb == "bring" && containsWord(low, "room temperature"):
		return standing
	case d.Verb == "melt" && !burner && !containsWord(low, "pan", "saucepan", "pot", "skillet") && !containsAny(low, "heat"):
		return byHand
	case placeIn(low, "grill") && (containsWord(low, "under", "on", "over") || d.row.Where == "grill"):
		return onGrill
	case oven:
		return inOven
	case d.row == nil:
		return byHand
	case d.row.Where == "grill":
		return onGrill
	case d.row.Where == "oven" && !burner:
		return inOven
	case d.Verb == "braise" && !burner && !containsWord(low, "simmer", "simmering", "pan", "pot"):
		return inOven
	case wasOven && !burner && ovenVerbs[d.Verb] && !containsWord(low, "pan", "heat", "stir", "stirring", "saucepan", "boil"):
		return inOven
	case hands || containsAny(low, "stirring constantly", "stirring all", "stirring continuously", "whisking constantly"):
		return overBurner
	}
	return onBurner
}

// ovenVerbs are verbs of heat that are said of what is in the oven as well.
var ovenVerbs = set("cook braise brown crisp reheat warm heat finish continue")

// heatWithin is what heats the food in a timed clause that begins with work by hand: "tip into the pan to fry for
// 10 minutes", "spread on a tray: 40 minutes at 200 °C".
func heatWithin(clause string, american bool) action {
	words := strings.Fields(lower(clause))
	for i := 1; i < len(words); i++ {
		row := method.Verb(strings.Trim(words[i], ",;:."))
		if row == nil || row.Class != food.Cooks || strings.Trim(words[i], ",;:.") != row.Name {
			continue
		}
		lead := strings.HasSuffix(words[i-1], ",") || words[i-1] == "to" || words[i-1] == "and" || words[i-1] == "then"
		if lead && (i+1 == len(words) || !row.Noun || slices.Contains([]string{"for", "at", "in", "until"}, words[i+1])) {
			return rowKind(row)
		}
	}
	for _, t := range temperatures(clause, american) {
		if !t.inside && t.Conventional().C() > 110 {
			return inOven
		}
	}
	return byHand
}
