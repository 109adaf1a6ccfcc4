package solve

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/words"
)

// moreOf adds one of a thing to the kitchen; for an oven, another like the named one.
func moreOf(what planner.Equipment, name string) change {
	noun := equipmentName(what, name)
	c := change{text: fmt.Sprintf("Find one more %s.", noun), kind: "more " + noun}
	switch what {
	case planner.AnOven:
		return moreOvens(name)
	case planner.ABurner:
		c.do = func(p *planner.Party) string { return fmt.Sprintf("kitchen fittings burners:%d", p.Kitchen.Burners+1) }
		c.apply = func(p *planner.Party) bool { p.Kitchen.Burners++; return true }
	case planner.AGrill:
		c.do = func(p *planner.Party) string { return fmt.Sprintf("kitchen fittings grills:%d", p.Kitchen.Grills+1) }
		c.apply = func(p *planner.Party) bool { p.Kitchen.Grills++; return true }
	case planner.ACounter:
		c.do = func(p *planner.Party) string { return fmt.Sprintf("kitchen fittings counter:%d", p.Kitchen.Counter+1) }
		c.apply = func(p *planner.Party) bool { p.Kitchen.Counter++; return true }
	default:
		c.do = func(p *planner.Party) string {
			n, _ := p.Kitchen.Stock(what, name)
			return fmt.Sprintf("kitchen ware name:%s count:%d", name, n+1)
		}
		c.apply = func(p *planner.Party) bool {
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

func moreOvens(name string) change {
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
	return change{
		text: "Find one more oven, perhaps a neighbour's.", kind: "oven",
		do: func(p *planner.Party) string {
			o := another(&p.Kitchen)
			return fmt.Sprintf("kitchen oven name:%s shelves:%d lowest:%d highest:%d preheat:%s", o.Name,
				o.Shelves, o.MinC, o.MaxC, words.Short(o.Preheat))
		},
		apply: func(p *planner.Party) bool {
			p.Kitchen.Ovens = append(p.Kitchen.Ovens, another(&p.Kitchen))
			return true
		},
	}
}

// moreLitres is the space in the cold that a mend thinks of.
const moreLitres = 10

func moreCold(state planner.State, kind string) change {
	c := change{text: fmt.Sprintf("Make space for %d litres more in the %s.", moreLitres, state),
		kind: "room " + string(state) + kind}
	if kind != "ml" {
		c.text = fmt.Sprintf("Free one more flat place in the %s.", state)
	}
	space := func(p *planner.Party) *planner.Cold {
		if state == planner.Freezer {
			return &p.Kitchen.Freezer
		}
		return &p.Kitchen.Refrigerator
	}
	c.do = func(p *planner.Party) string {
		prefix := ""
		if state == planner.Freezer {
			prefix = "freezer-"
		}
		if kind != "ml" {
			return fmt.Sprintf("kitchen space %sflat:%d", prefix, space(p).Flat+1)
		}
		return fmt.Sprintf("kitchen space %s:%d", state, space(p).Millilitres/1000+moreLitres)
	}
	c.apply = func(p *planner.Party) bool {
		if kind == "ml" {
			space(p).Millilitres, space(p).Given = space(p).Millilitres+moreLitres*1000, true
		} else {
			space(p).Flat, space(p).FlatGiven = space(p).Flat+1, true
		}
		return true
	}
	return c
}
