package planner

import "slices"

// ValidateKitchen lists what makes no sense in a kitchen.
func ValidateKitchen(k *Kitchen) []Problem {
	var out problems
	out.twice("kitchen", "ovens", names(k.Ovens, func(o Oven) string { return o.Name }))
	for _, o := range k.Ovens {
		where := "oven " + o.Name
		out.text(where, "the oven's name", o.Name, MaxName, true)
		out.within(where, "the oven's shelves", o.Shelves, 1, 10)
		if o.MinC < 0 || o.MaxC > MaxOvenC || o.MinC >= o.MaxC {
			out.add(where, "Give the oven's lowest and highest temperature, the lowest first, up to %d °C; %d to %d makes no "+
				"sense.", MaxOvenC, o.MinC, o.MaxC)
		}
		out.within(where, "the minutes to preheat", int(o.Preheat), 0, 240)
		out.within(where, "the minutes for a rise of 50 °C", int(o.Rise), 0, 240)
		out.within(where, "the minutes for a fall of 50 °C", int(o.Fall), 0, 240)
	}
	out.within("kitchen", "the number of burners", k.Burners, 0, 50)
	out.within("kitchen", "the number of grills", k.Grills, 0, 20)
	out.within("kitchen", "the places at the counter", k.Counter, 0, 50)
	out.wares("appliances", k.Appliances)
	out.wares("vessels", k.Vessels)
	out.wares("hot places", k.HotPlaces)
	out.wares("plates and glasses", k.Plates)
	out.within("kitchen", "the minutes that the dishwasher runs", int(k.Dishwasher), 0, 600)
	for _, c := range []struct {
		name string
		cold Cold
	}{{"refrigerator", k.Refrigerator}, {"freezer", k.Freezer}} {
		out.within("kitchen", "the litres in the "+c.name, c.cold.Millilitres/1000, 0, maxLitres)
		if c.cold.Millilitres < 0 {
			out.add("kitchen", "Give the space in the %s in litres, 0 or more.", c.name)
		}
		out.within("kitchen", "the flat places in the "+c.name, c.cold.Flat, 0, 50)
	}
	return out
}

func (ps *problems) wares(what string, list []Ware) {
	ps.twice("kitchen", what, names(list, func(w Ware) string { return w.Name }))
	for _, w := range list {
		ps.text("kitchen", "a name among the "+what, w.Name, MaxName, true)
		ps.within("kitchen", "the number of "+w.Name, w.Count, 1, 2000)
		ps.within("kitchen", "the millilitres that the "+w.Name+" holds", w.Millilitres, 0, maxLitres*1000)
		ps.within("kitchen", "the centimetres of the "+w.Name, w.Across, 0, 200)
		ps.within("kitchen", "the centimetres of the "+w.Name, w.Wide, 0, w.Across)
	}
}

// wares are the named things of a kind; nil for the kinds that have no names.
func (k *Kitchen) wares(what Equipment) []Ware {
	switch what {
	case AnAppliance:
		return k.Appliances
	case AVessel:
		return k.Vessels
	case AHotPlace:
		return k.HotPlaces
	}
	return nil
}

// ValidateUse lists what makes no sense in a use of the kitchen's equipment by a task. where names the task.
func ValidateUse(p *Party, where string, u *Use) []Problem {
	var out problems
	lacks := func(format string, args ...any) { out.lacks(where, format, args...) }
	k := &p.Kitchen
	if u.Amount < 0 {
		out.add(where, "Say how many it takes, 1 or more, not %d.", u.Amount)
	}
	out.within(where, "the covers that it is enough for", u.For, 0, MaxCovers)
	if u.What != AnOven && (u.C != 0 || u.Tolerance != 0 || u.Shut || len(u.Then) > 0) {
		out.add(where, "Give a temperature for an oven only, not for a %s.", u.What)
	}
	have := 0
	switch u.What {
	case AnOven:
		out.oven(k, where, u)
		return out
	case ABurner:
		have = k.Burners
	case AGrill:
		have = k.Grills
	case ACounter:
		have = k.Counter
	case AHotPlace, AnAppliance, AVessel:
		list := k.wares(u.What)
		all := names(list, func(w Ware) string { return w.Name })
		i := slices.Index(all, u.Name)
		switch {
		case u.Name == "":
			out.add(where, "Say which %s it takes.%s", u.What, didYouMean("", all))
			return out
		case i < 0:
			lacks("Add %q to the kitchen or take another %s: the kitchen has none of that name.%s", u.Name, u.What,
				didYouMean(u.Name, all))
			return out
		}
		have = list[i].Count
	default:
		out.add(where, "Use an oven, burner, grill, hot place, appliance, vessel or counter; %q is none of them.", u.What)
		return out
	}
	if u.Units() > have && k.Binds(u.What, u.Name) {
		name := u.Name
		if name == "" {
			name = string(u.What)
		}
		if have == 0 {
			if u.What == ACounter {
				name = "place to work at"
			}
			lacks("Add a %s to the kitchen first; it has none.", name)
		} else {
			lacks("Take no more than the kitchen has, %d × %s; %d are too many.", have, name, u.Units())
		}
	}
	return out
}

func (ps *problems) oven(k *Kitchen, where string, u *Use) {
	if len(k.Ovens) == 0 {
		ps.lacks(where, "Add an oven to the kitchen first; it has none.")
		return
	}
	all := names(k.Ovens, func(o Oven) string { return o.Name })
	if u.Name != "" && !slices.Contains(all, u.Name) {
		ps.lacks(where, "Name one of the kitchen's ovens, not %q.%s", u.Name, didYouMean(u.Name, all))
		return
	}
	ps.within(where, "the tolerance in °C", u.Tolerance, 0, 100)
	if u.C == 0 && u.Tolerance != 0 {
		ps.add(where, "Drop the tolerance, or give a temperature: an oven that is off has none.")
	}
	var shelves []int
	for _, o := range k.Ovens {
		if u.Name == "" || u.Name == o.Name {
			shelves = append(shelves, o.Shelves)
		}
	}
	if most := slices.Max(shelves); u.Units() > most {
		ps.lacks(where, "Take at most %d shelves of an oven, not %d.", most, u.Units())
	}
	ps.ovenHeat(k, where, u, u.C)
	last := Minutes(0)
	for _, st := range u.Then {
		if st.After <= last {
			ps.add(where, "Put the oven's changes of temperature in order, each later than the one before.")
		}
		last = st.After
		ps.ovenHeat(k, where, u, st.C)
	}
}

// ovenHeat complains when no oven that the use may take reaches a temperature.
func (ps *problems) ovenHeat(k *Kitchen, where string, u *Use, c int) {
	switch {
	case c == 0:
		return
	case c < 0 || c > MaxOvenC:
		ps.add(where, "Give an oven temperature up to %d °C; %d °C is no home oven's.", MaxOvenC, c)
		return
	}
	low, high := MaxOvenC, 0
	for _, o := range k.Ovens {
		if u.Name != "" && u.Name != o.Name {
			continue
		}
		if c+u.Tolerance >= o.MinC && c-u.Tolerance <= o.MaxC {
			return
		}
		low, high = min(low, o.MinC), max(high, o.MaxC)
	}
	ps.lacks(where, "Choose a temperature that the oven reaches, %d to %d °C, not %d °C.", low, high, c)
}
