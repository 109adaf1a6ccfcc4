// Package ware knows the vessels and appliances that a recipe's words name, and the places (ovens, burners, the cold)
// that they put food into. The words stand in ware.tsv.
package ware

import (
	_ "embed"
	"strings"

	"tureen/planner/words"
)

//go:embed ware.tsv
var table string

// Thing is a vessel or an appliance.
type Thing struct {
	Name      string
	Appliance bool
}

// word is a row of ware.tsv: a word, and the thing or the place that it names.
type word struct {
	word, what string
	thing      Thing
}

// things are the vessels and appliances that a method names, places the ovens, burners and cold places.
var things, places = func() (things, places []word) {
	for _, l := range strings.Split(strings.TrimSpace(table), "\n")[1:] {
		f := strings.Split(l, "\t")
		w := word{f[0], f[1], Thing{f[2], f[1] == "appliance"}}
		if w.thing.Name != "" {
			things = append(things, w)
		} else {
			places = append(places, w)
		}
	}
	return things, places
}()

// In are the things that a text names.
func In(text string) (out []Thing) {
	low := words.Small(text)
	for _, t := range things {
		if strings.Contains(low, t.word) {
			low = strings.ReplaceAll(low, t.word, " ")
			out = Add(out, t.thing)
		}
	}
	if words.Has(low, "blend", "liquidize", "liquidise") {
		out = Add(out, Thing{"blender", true})
	}
	return out
}

// First is the first thing of the table that a text names by a whole word.
func First(text string) (Thing, bool) {
	for _, t := range things {
		if words.Has(text, t.word) {
			return t.thing, true
		}
	}
	return Thing{}, false
}

// Of is a thing by the name that a kitchen has for it; what is not known is a vessel.
func Of(name string) Thing {
	name = strings.ToLower(strings.TrimSpace(name))
	for _, t := range things {
		if t.word == name || t.thing.Name == name {
			return t.thing
		}
	}
	return Thing{Name: name}
}

// Add adds a thing to others, once.
func Add(all []Thing, t Thing) []Thing {
	for _, o := range all {
		if o == t {
			return all
		}
	}
	return append(all, t)
}

// At reports whether a clause, in small letters, puts or has the food in a place: "to the oven", but not "out of the
// oven". The places are oven, burner, grill, refrigerator and freezer.
func At(low, place string) bool {
	for _, p := range places {
		if p.what != place {
			continue
		}
		for from := 0; ; {
			at := words.Index(low[from:], p.word)
			if at < 0 {
				break
			}
			at += from
			from = at + len(p.word)
			before := strings.TrimRight(low[:at], " ")
			before = strings.TrimSuffix(strings.TrimSuffix(before, " the"), " your")
			if !strings.HasSuffix(before, " from") && !strings.HasSuffix(before, " of") && !strings.HasSuffix(before, "dutch") &&
				before != "from" && !noPlace[next(low[from:])] {
				return true
			}
		}
	}
	return false
}

// noPlace are words after which a freezer bag, or what else is no place, was meant.
var noPlace = words.Set("bag bags safe proof mitt gloves rack")

func next(after string) string {
	w, _ := words.First(strings.TrimLeft(after, " -"))
	return w
}
