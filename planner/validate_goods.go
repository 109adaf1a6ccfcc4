package planner

import "tureen/planner/measure"

// goods checks what was said about things to buy.
func (ps *problems) goods(p *Party) {
	seen := map[Item]bool{}
	for i := range p.Goods {
		g := &p.Goods[i]
		where := "item " + g.Name
		if seen[g.Item] || g.Item == "" {
			ps.add(where, "Say once, not twice, how it is with %s.", g.Name)
		}
		seen[g.Item] = true
		ps.text(where, "the item's name", g.Name, MaxName, true)
		ps.text(where, "the shop", g.Shop, MaxName, false)
		ps.text(where, "the section", g.Section, MaxName, false)
		amounts := []string{g.Have, g.Extra}
		if g.Have == Enough {
			amounts[0] = ""
		}
		if g.Extra == AsNeeded {
			amounts[1] = ""
		}
		for _, s := range g.Packs {
			amounts = append(amounts, s.Size)
		}
		for _, a := range amounts {
			if _, err := measure.ParseWhole(a); err != nil {
				ps.add(where, "Give amounts of %s as 200 g or 3: %v.", g.Name, err)
			}
		}
		if g.Brings != "" && p.Person(g.Brings) == nil {
			ps.add(where, "Let somebody of the party bring %s; %q is not one of them.%s", g.Name, g.Brings,
				didYouMean(string(g.Brings), peopleNames(p)))
		}
	}
	ps.text("party", "the currency", p.Currency, 5, false)
}
