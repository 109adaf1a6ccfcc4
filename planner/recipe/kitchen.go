package recipe

import (
	_ "embed"
	"strings"

	"tureen/planner/words"
)

//go:embed kitchen.tsv
var kitchenTable string

// thingWord is a row of kitchen.tsv: a word, and the thing or the place that it names.
type thingWord struct {
	word, what string
	thing      Thing
}

// things are the vessels and appliances that a method names, places the ovens, burners and cold places.
var things, places = func() (things, places []thingWord) {
	for _, l := range strings.Split(strings.TrimSpace(kitchenTable), "\n")[1:] {
		f := strings.Split(l, "\t")
		w := thingWord{f[0], f[1], Thing{f[2], f[1] == "appliance"}}
		if w.thing.Name != "" {
			things = append(things, w)
		} else {
			places = append(places, w)
		}
	}
	return things, places
}()

func thingsIn(text string) []Thing {
	var out []Thing
	low := words.Small(text)
	for _, t := range things {
		if strings.Contains(low, t.word) {
			low = strings.ReplaceAll(low, t.word, " ")
			out = addThing(out, t.thing)
		}
	}
	if words.Has(low, "blend", "liquidize", "liquidise") {
		out = addThing(out, Thing{"blender", true})
	}
	return out
}

func addThing(all []Thing, t Thing) []Thing {
	for _, o := range all {
		if o == t {
			return all
		}
	}
	return append(all, t)
}

// placeIn reports whether a clause puts or has the food in a place: "to the oven", but not "out of the oven".
func placeIn(low, what string) bool {
	for _, p := range places {
		if p.what != what {
			continue
		}
		for from := 0; ; {
			at := indexWord(low[from:], p.word)
			if at < 0 {
				break
			}
			at += from
			from = at + len(p.word)
			before := strings.TrimRight(low[:at], " ")
			before = strings.TrimSuffix(strings.TrimSuffix(before, " the"), " your")
			if !strings.HasSuffix(before, " from") && !strings.HasSuffix(before, " of") && !strings.HasSuffix(before, "dutch") &&
				before != "from" && !bagged(low[from:]) {
				return true
			}
		}
	}
	return false
}

// bagged reports a freezer bag, or what else is no place.
func bagged(after string) bool {
	w, _ := words.First(strings.TrimLeft(after, " -"))
	return w == "bag" || w == "bags" || w == "safe" || w == "proof" || w == "mitt" || w == "gloves" || w == "rack"
}

// indexWord is where a whole word or phrase stands in a text; -1 for nowhere.
func indexWord(text, word string) int {
	for from := 0; ; {
		at := strings.Index(text[from:], word)
		if at < 0 {
			return -1
		}
		at += from
		end := at + len(word)
		if (at == 0 || !letter(text[at-1])) && (end == len(text) || !letter(text[end])) {
			return at
		}
		from = end
	}
}

func letter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 0x80 || c == '-' }

func containsAny(text string, all ...string) bool {
	for _, w := range all {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}
