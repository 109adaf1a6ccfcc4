package mend

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/words"
)

// MoreOf adds one of a thing to the kitchen; for an oven, another like the named one.
func MoreOf(what planner.Equipment, name string) Change {
	noun := EquipmentName(what, name)
	c := Change{Text: fmt.Sprintf("Find one more %s.", noun), Kind: "more " + noun}
	switch what {
	case planner.AnOven:
		return MoreOvens(name)
	case planner.ABurner:
		c.Do = func(p *planner.Party) string { return fmt.Sprintf("kitchen fittings burners:%d", p.Kitchen.Burners+1) }
		c.Apply = func(p *planner.Party) bool { p.Kitchen.Burners++; return true }
	case planner.AGrill:
		c.Do = func(p *planner.Party) string { return fmt.Sprintf("kitchen fittings grills:%d", p.Kitchen.Grills+1) }
		c.Apply = func(p *planner.Party) bool { p.Kitchen.Grills++; return true }
	case planner.ACounter:
		c.Do = func(p *planner.Party) string { return fmt.Sprintf("kitchen fittings counter:%d", p.Kitchen.Counter+1) }
		c.Apply = func(p *planner.Party) bool { p.Kitchen.Counter++; return true }
	default:
		c.Do = func(p *planner.Party) string {
			n, _ := p.Kitchen.Stock(what, name)
			return fmt.Sprintf("kitchen ware name:%s count:%d", name, n+1)
		}
		c.Apply = func(p *planner.Party) bool {
			for _, ws := range [][]planner.Ware{p.Kitchen.HotPlaces, p.Kitchen.Appliances, p.Kitchen.Vessels} {
				if i := slices.IndexFunc(ws, func(w planner.Ware) bool { return w.Name == name }); i >= 0 {
					ws[i].Count, ws[i].Given = ws[i].Count+1, true
					return true
				}
			}
			return false
		}
	}
	return c
}

// MoreOvens adds an oven like the named one.
func MoreOvens(name string) Change {
	another := func(k *planner.Kitchen) planner.Oven {
		o := planner.HomeKitchen().Ovens[0]
		if like := k.Oven(name); like != nil {
			o = *like
		}
		for _, nth := range []string{"second", "third", "fourth"} {
			if k.Oven(nth+" "+o.Name) == nil {
				o.Name = nth + " " + o.Name
				break
			}
		}
		return o
	}
	return Change{
		Text: "Find one more oven, perhaps a neighbour's.", Kind: "oven",
		Do: func(p *planner.Party) string {
			o := another(&p.Kitchen)
			return fmt.Sprintf("kitchen oven name:%s shelves:%d lowest:%d highest:%d preheat:%s", o.Name,
				o.Shelves, o.MinC, o.MaxC, words.Short(o.Preheat))
		},
		Apply: func(p *planner.Party) bool {
			p.Kitchen.Ovens = append(p.Kitchen.Ovens, another(&p.Kitchen))
			return true
		},
	}
}

// MoreLitres is the space in the cold that a mend thinks of.
const MoreLitres = 10

// MoreCold makes more space in the refrigerator or freezer: litres, or a flat place.
func MoreCold(state planner.State, kind string) Change {
	c := Change{Text: fmt.Sprintf("Make space for %d litres more in the %s.", MoreLitres, state),
		Kind: "room " + string(state) + kind}
	if kind != "ml" {
		c.Text = fmt.Sprintf("Free one more flat place in the %s.", state)
	}
	space := func(p *planner.Party) *planner.Cold {
		if state == planner.Freezer {
			return &p.Kitchen.Freezer
		}
		return &p.Kitchen.Refrigerator
	}
	c.Do = func(p *planner.Party) string {
		prefix := ""
		if state == planner.Freezer {
			prefix = "freezer-"
		}
		if kind != "ml" {
			return fmt.Sprintf("kitchen space %sflat:%d", prefix, space(p).Flat+1)
		}
		return fmt.Sprintf("kitchen space %s:%d", state, space(p).Millilitres/1000+MoreLitres)
	}
	c.Apply = func(p *planner.Party) bool {
		if kind == "ml" {
			space(p).Millilitres, space(p).Given = space(p).Millilitres+MoreLitres*1000, true
		} else {
			space(p).Flat, space(p).FlatGiven = space(p).Flat+1, true
		}
		return true
	}
	return c
}

// EquipmentName is how a sentence names a thing of the kitchen.
func EquipmentName(what planner.Equipment, name string) string {
	if name != "" {
		return name
	}
	if what == planner.ACounter {
		return "place at the counter"
	}
	return fmt.Sprint(what)
}
