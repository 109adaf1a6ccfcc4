package scale

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/portion"
	"tureen/planner/words"
)

// Pans says which pans a dish fills at the covers that it is made for, where it is baked in one whose depth matters and
// whose size is known, and that is for fewer or more: how many like it, which other size holds as much at the same
// depth, and for how many covers whole ones are.
func Pans(p *planner.Party, d *planner.Dish) []string {
	var out []string
	var said []string
	for i := range d.Steps {
		for k := range d.Steps[i].Uses {
			u := &d.Steps[i].Uses[k]
			if u.What != planner.AVessel || !bakedIn(u.Name) || slices.Contains(said, u.Name) {
				continue
			}
			if text := pansFor(p, d, u); text != "" {
				out, said = append(out, text), append(said, u.Name)
			}
		}
	}
	return out
}

// bakedIn says whether a vessel gives what is baked in it its form.
func bakedIn(name string) bool {
	return anyOf(portion.Words(name), strings.Fields("cake tart pie flan quiche loaf terrine mould mold springform bundt"))
}

// deeper is by how much more a pan may be filled before another one is thought of; common practice, no source.
const deeper = 1.1

func pansFor(p *planner.Party, d *planner.Dish, u *planner.Use) string {
	at := slices.IndexFunc(p.Kitchen.Vessels, func(w planner.Ware) bool { return w.Name == u.Name })
	if at < 0 || u.For == 0 || p.Kitchen.Vessels[at].Across == 0 {
		return ""
	}
	w := &p.Kitchen.Vessels[at]
	covers := d.Makes(p)
	wanted := float64(covers) / float64(u.For) * float64(u.Units()) // pans
	if whole := math.Round(wanted); whole >= 1 && math.Abs(wanted-whole) <= (deeper-1)*whole {
		return ""
	}
	n := int(math.Ceil(wanted))
	filled := n * u.For / u.Units()
	text := fmt.Sprintf("%s of %s is for %d covers", words.Upper(w.Name), Size(w), u.For/u.Units())
	if one, ok := sizeFor(w, wanted, 1); ok {
		text += fmt.Sprintf("; %d fill one of %s", covers, one)
	}
	if n > 1 {
		if each, ok := sizeFor(w, wanted, n); ok {
			text += fmt.Sprintf(", or %d of %s", n, each)
		}
		text += fmt.Sprintf(". %d whole ones are for %d: /dish change dish:%s covers:%d", n, filled, d.Key, filled)
	}
	return text
}

// Size is how wide a pan is: "27 cm", "20 by 30 cm"; empty when nobody has said.
func Size(w *planner.Ware) string {
	switch {
	case w.Across == 0:
		return ""
	case w.Wide == 0:
		return fmt.Sprintf("%d cm", w.Across)
	}
	return fmt.Sprintf("%d by %d cm", w.Wide, w.Across)
}

// sizeFor is the smallest pan of the same form of which n hold as much as so many of w, in whole centimetres.
func sizeFor(w *planner.Ware, wanted float64, n int) (string, bool) {
	const least, most = 10, 45 // no home oven takes more
	from := panOf(w.Across, w.Wide)
	for across := least; across <= most; across++ {
		wide := 0
		if w.Wide > 0 {
			wide = int(math.Round(float64(across) * float64(w.Wide) / float64(w.Across)))
		}
		f, err := measure.PanFactor(from, panOf(across, wide), n)
		if err != nil {
			return "", false
		}
		if f >= wanted*0.97 {
			return Size(&planner.Ware{Across: across, Wide: wide}), true
		}
	}
	return "", false
}

func panOf(across, wide int) measure.Pan {
	if wide == 0 {
		return measure.Pan{DiameterCM: float64(across)}
	}
	return measure.Pan{LengthCM: float64(across), WidthCM: float64(wide)}
}

func anyOf(have, list []string) bool {
	return slices.ContainsFunc(have, func(w string) bool { return slices.Contains(list, w) })
}
