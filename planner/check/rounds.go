package check

import (
	"tureen/planner/safety"

	"tureen/planner"
)

// size works out, from the text of the rules ("Rounds"), in how many rounds a step is done and what each takes, and
// returns how long each is. It shares nothing with [Party.Fit].
func (c *checker) size(w *workStep) (length int) {
	d, s := w.dish, w.step
	covers := d.Covers
	if covers == 0 {
		covers = c.p.Covers
	}
	covers = max(covers, 1)
	for w.rounds = 1; !c.roundFits(w, planner.CeilDiv(covers, w.rounds)); w.rounds++ {
		if w.rounds >= covers {
			break // a round for one cover is the smallest
		}
	}
	each := planner.CeilDiv(covers, w.rounds)
	length = int(s.Time.Likely)
	switch {
	case s.Grows == planner.InRounds || d.Serves <= 0:
	case s.Grows == planner.InProportionToCovers:
		length = planner.CeilDiv(length*covers, d.Serves*w.rounds)
	default:
		asWritten := 1
		for !c.roundFits(w, planner.CeilDiv(d.Serves, asWritten)) && asWritten < d.Serves {
			asWritten++
		}
		length = planner.CeilDiv(length*c.fillings(w, each), asWritten*c.fillings(w, planner.CeilDiv(d.Serves, asWritten)))
	}
	vessels := 1
	w.uses = append([]planner.Use(nil), s.Uses...)
	for i := range w.uses {
		u := &w.uses[i]
		if n := c.times(w, u, each); u.What == planner.AVessel {
			vessels = max(vessels, n)
			u.Amount = u.Units() * n
		} else if n > 1 {
			u.Amount = u.Units() * n
		}
	}
	for i := range w.uses {
		u := &w.uses[i]
		if goesAlong(u) && vessels > 1 {
			u.Amount = u.Units() * max(1, min(vessels, c.stock(u)/u.Units()))
		}
	}
	serves := d.Serves
	if serves <= 0 {
		serves = covers
	}
	w.ml = planner.CeilDiv(s.Leaves.Millilitres*covers, serves*w.rounds)
	w.flat = s.Leaves.Flat * vessels
	if ch := s.Cool; ch != nil && !s.Cooks && w.ml > 0 &&
		(ch.How == "" || ch.How == planner.CoolBath && s.Attention == planner.Touch) {
		litres := max(0.05, float64(w.ml)/1000/float64(vessels))
		est, err := safety.CoolTime(safety.Pot{MadeOf: ch.MadeOf, DepthCM: ch.DepthCM, Litres: litres,
			Consistency: ch.Consistency, Place: ch.Place})
		if err == nil && est.Whole <= int(planner.MaxLength) {
			if length, w.warm = est.StageOne, est.StageOne; ch.How == "" {
				length = est.Whole
			}
		}
	}
	return length
}

// goesAlong: heat without a For of its own is multiplied with the vessels.
func goesAlong(u *planner.Use) bool {
	return u.For == 0 && (u.What == planner.AnOven || u.What == planner.ABurner || u.What == planner.AGrill)
}

// sufficient is for how many covers a use's Amount is enough; 0 for any.
func (c *checker) sufficient(w *workStep, u *planner.Use) int {
	if goesAlong(u) {
		return 0
	}
	n := u.For
	var list []planner.Ware
	switch u.What {
	case planner.AVessel:
		list = c.p.Kitchen.Vessels
	case planner.AnAppliance:
		list = c.p.Kitchen.Appliances
	}
	for _, x := range list {
		if x.Name != u.Name || x.Millilitres == 0 || w.step.Leaves.Millilitres == 0 || w.dish.Serves <= 0 {
			continue
		}
		fits := max(1, x.Millilitres*u.Units()/planner.HotPart(w.dish, w.step, u)*w.dish.Serves/
			w.step.Leaves.Millilitres)
		if n == 0 {
			n = fits
		}
		return min(n, fits)
	}
	return n
}

// times is how often a round of so many covers takes a use's Amount, as far as the kitchen has it.
func (c *checker) times(w *workStep, u *planner.Use, covers int) int {
	n := c.sufficient(w, u)
	if n == 0 {
		return 1
	}
	return max(1, min(planner.CeilDiv(covers, n), c.stock(u)/u.Units()))
}

// fillings is how often an appliance is filled within a hands step for so many covers; once at least.
func (c *checker) fillings(w *workStep, covers int) int {
	n := 1
	for i := range w.step.Uses {
		u := &w.step.Uses[i]
		if enough := c.sufficient(w, u); u.What == planner.AnAppliance && w.step.Attention == planner.Hands && enough > 0 {
			n = max(n, planner.CeilDiv(covers, enough*max(1, c.stock(u)/u.Units())))
		}
	}
	return n
}

// roundFits says whether a round of so many covers can be: by PerRound, and by what the kitchen has.
func (c *checker) roundFits(w *workStep, covers int) bool {
	s := w.step
	if s.Grows == planner.InRounds && s.PerRound > 0 && covers > s.PerRound {
		return false
	}
	for i := range s.Uses {
		u := &s.Uses[i]
		n := c.sufficient(w, u)
		if n == 0 {
			continue
		}
		lacking := covers > n*max(1, c.stock(u)/u.Units())
		byRounds := true
		switch u.What {
		case planner.AVessel:
			byRounds = s.Attention == planner.Hands && u.Through == ""
		case planner.AnAppliance:
			byRounds = s.Attention != planner.Hands
		}
		if lacking && byRounds {
			return false
		}
		if u.What != planner.AVessel {
			continue
		}
		vessels := max(1, c.stock(u)/u.Units())
		for k := range s.Uses {
			if o := &s.Uses[k]; goesAlong(o) {
				if heat := max(1, c.stock(o)/o.Units()); heat < vessels && covers > n*heat {
					return false
				}
			}
		}
	}
	return true
}

// stock is how many of what a use takes the kitchen has: of an oven, the shelves of the largest that it may be in.
func (c *checker) stock(u *planner.Use) int {
	if u.What != planner.AnOven {
		return c.have(u.What, u.Name)
	}
	most := 0
	for _, o := range c.p.Kitchen.Ovens {
		named := u.Name == "" || u.Name == o.Name
		reaches := u.C == 0 || u.C-u.Tolerance <= o.MaxC && u.C+u.Tolerance >= o.MinC
		if named && reaches {
			most = max(most, o.Shelves)
		}
	}
	return most
}
