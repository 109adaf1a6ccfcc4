package doing

import (
	"slices"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/ware"
)

// Said is what the words of one step tell of how it is done, for who gives nothing but words.
type Said struct {
	Attention planner.Attention
	OvenC     int // °C, conventional, of an oven that it names or needs; 0: none is named
}

// longWait is from how many minutes on a step whose words both work and let stand is mostly the standing. Common
// practice, no source.
const longWait = 45

// ByItself reports whether a text names an appliance that cooks for hours with nobody near.
func ByItself(text string) bool {
	return slices.ContainsFunc(ware.In(text), func(t ware.Thing) bool { return slices.Contains(byItself, t.Name) })
}

var byItself = lists.Phrases("by itself")

// Told reads the words of one step that takes so many minutes: what cooks is watched, what stands is left alone, what
// is done by hand takes hands.
func Told(do string, minutes int) Said {
	var heats, waits, hands, works bool
	oven := 0
	wasOven := false
	for _, a := range method.Read(nil, []method.Sentence{{Text: do}}) {
		d := Act{Act: a, Text: do[a.From:min(a.To, len(do))], Row: method.Verb(a.Verb), WasOven: wasOven,
			Sets: func() bool { return false }}
		if a.Leaf || a.Verb == "" {
			continue
		}
		works = works || !slices.Contains([]food.VerbClass{food.Moves, food.GoesOn}, a.Class)
		switch k := d.Kind(); {
		case k == InOven, k == OnBurner:
			heats, wasOven = true, wasOven || k == InOven
		case k.Heats():
			hands = true
		case k.Waits():
			waits = true
		}
	}
	for _, t := range times.Heats(do, false) {
		if c := t.Conventional().OvenC(); !t.Inside && wasOven && oven == 0 {
			oven = c
		}
	}
	said := Said{planner.Hands, oven}
	switch {
	case heats && !hands && ByItself(do):
		said.Attention = planner.Unattended
	case heats:
		said.Attention = planner.Watch
	case waits && (!hands || minutes >= longWait), !works && minutes >= longWait:
		said.Attention = planner.Unattended
	}
	return said
}
