package planner

import (
	"slices"

	"tureen/planner/safety"
)

// Fit is how a step is done for the covers that its dish is made for: what each of its rounds takes, and what the
// kitchen lacks for it. The rules that it follows are in the package's documentation, under "Rounds".
type Fit struct {
	Rounds      int
	Covers      int // of a round; the last one may be for fewer
	Time        Span
	Uses        []Use // of a round, in the step's order, with Amount for its covers
	Millilitres int   // of space, and of food to cool, of a round
	Flat        int
	Vessels     int // sets of the vessel that is multiplied most, at least 1
	Batches     int // fillings of an appliance within a round of a hands step, at least 1
	Cool        *safety.Cooled
	Lacks       []Lack
}

// Lack is a vessel of which a round would take more than there are. The plan does with what there is: nobody braises
// twice over for want of a pot that can be borrowed. More than the heat has space for would make rounds.
type Lack struct {
	Name         string
	Wanted, Have int
	Guess        bool      // nobody has said how many there are: Have is what many homes have
	On           Equipment // what they stand on or in, when it has no space for as many as are wanted
	Space        int       // and how many it has space for; 0: enough
}

// enough is for how many covers a use is enough, by its For and by what the thing holds; 0: for any number.
func (p *Party) enough(d *Dish, s *Step, u *Use) int {
	n := u.For
	if u.What == AVessel || u.What == AnAppliance {
		holds, ml := p.Kitchen.holds(u)*u.Units()/HotPart(d, s, u), s.Leaves.Millilitres
		if holds > 0 && ml > 0 && d.Serves > 0 {
			fits := max(1, holds*d.Serves/ml)
			if n == 0 || fits < n {
				n = fits
			}
		}
	}
	return n
}

// holds is what one of a vessel or an appliance holds; 0 when nobody has said.
func (k *Kitchen) holds(u *Use) int {
	for _, w := range k.wares(u.What) {
		if w.Name == u.Name {
			return w.Millilitres
		}
	}
	return 0
}

// sets is how many times a use's Amount the kitchen has, at least 1: that it lacks even one is said elsewhere.
func (p *Party) sets(u *Use) int {
	have := 0
	if u.What == AnOven {
		for i := range p.Kitchen.Ovens {
			o := &p.Kitchen.Ovens[i]
			if (u.Name == "" || u.Name == o.Name) && (u.C == 0 || u.C+u.Tolerance >= o.MinC && u.C-u.Tolerance <= o.MaxC) {
				have = max(have, o.Shelves)
			}
		}
	} else {
		have, _ = p.Kitchen.Stock(u.What, u.Name)
	}
	return max(1, have/u.Units())
}

// follows says whether a use without a For of its own goes with the vessels that stand on it or in it.
func (u *Use) follows() bool {
	return u.For == 0 && (u.What == AnOven || u.What == ABurner || u.What == AGrill)
}

// borrowed says whether a step does without the pieces of a vessel that the kitchen lacks, instead of taking rounds.
func (s *Step) borrowed(u *Use) bool {
	return u.What == AVessel && (s.Attention != Hands || u.Through != "")
}

// refills says whether an appliance is filled again within a step: whoever stands at it does not come back for the
// second batch later.
func (s *Step) refills(u *Use) bool { return u.What == AnAppliance && s.Attention == Hands }

// batches is how often the appliances of a hands step are filled for so many covers, at least once.
func (p *Party) batches(d *Dish, s *Step, covers int) int {
	most := 1
	for i := range s.Uses {
		u := &s.Uses[i]
		if n := p.enough(d, s, u); n > 0 && s.refills(u) {
			most = max(most, CeilDiv(covers, n*p.sets(u)))
		}
	}
	return most
}

// Fit works out the rounds of a step of the party's dish. It never fails: what makes no sense is for [Party.Validate].
func (p *Party) Fit(d *Dish, s *Step) Fit {
	covers := max(d.Makes(p), 1)
	most := p.roundOf(d, s)
	f := Fit{Rounds: 1, Covers: covers, Vessels: 1, Batches: 1, Time: s.Time}
	if most > 0 {
		f.Rounds = CeilDiv(covers, most)
		f.Covers = CeilDiv(covers, f.Rounds)
	}
	f.Uses = slices.Clone(s.Uses)
	for i := range f.Uses {
		u := &f.Uses[i]
		n := p.enough(d, s, u)
		if n == 0 || u.follows() {
			continue
		}
		wanted := CeilDiv(f.Covers, n)
		have := p.sets(u)
		if s.refills(u) {
			wanted = min(wanted, have)
		}
		if wanted > have && u.What == AVessel {
			stock, _ := p.Kitchen.Stock(u.What, u.Name)
			l := Lack{Name: u.Name, Wanted: wanted * u.Units(), Have: stock, Guess: !p.Kitchen.Binds(u.What, u.Name)}
			if on, room := p.spaceFor(s); on != "" && room < wanted {
				l.On, l.Space = on, room*u.Units()
			}
			f.Lacks = append(f.Lacks, l)
		}
		if u.What == AVessel {
			f.Vessels = max(f.Vessels, min(wanted, have))
		}
		u.Amount = u.Units() * min(wanted, have)
	}
	for i := range f.Uses {
		if u := &f.Uses[i]; u.follows() && f.Vessels > 1 {
			u.Amount = u.Units() * min(f.Vessels, p.sets(u))
		}
	}
	serves := d.Serves
	if serves <= 0 {
		serves = covers
	}
	f.Millilitres = CeilDiv(s.Leaves.Millilitres*covers, serves*f.Rounds)
	f.Flat = s.Leaves.Flat * f.Vessels
	f.Batches = p.batches(d, s, f.Covers)
	f.Time = p.roundTime(d, s, most, covers, &f)
	p.cool(s, &f)
	return f
}

// spaceFor is how many sets of a step's vessels its heat has space for, and which heat that is; empty without any.
func (p *Party) spaceFor(s *Step) (on Equipment, room int) {
	for k := range s.Uses {
		if o := &s.Uses[k]; o.follows() && (on == "" || p.sets(o) < room) {
			on, room = o.What, p.sets(o)
		}
	}
	return on, room
}

// roundOf is the most covers that a round of the step can be for, by PerRound and by what the kitchen has; 0: any
// number.
func (p *Party) roundOf(d *Dish, s *Step) int {
	most := 0
	atMost := func(n int) {
		if most == 0 || n < most {
			most = n
		}
	}
	if s.Grows == InRounds && s.PerRound > 0 {
		atMost(s.PerRound)
	}
	for i := range s.Uses {
		u := &s.Uses[i]
		if u.follows() {
			continue
		}
		n := p.enough(d, s, u)
		if n == 0 {
			continue
		}
		if !s.borrowed(u) && !s.refills(u) {
			atMost(n * p.sets(u))
		}
		if u.What != AVessel {
			continue
		}
		for k := range s.Uses {
			// As many vessels as there are burners for, where the kitchen has so many.
			if o := &s.Uses[k]; o.follows() && p.sets(o) < p.sets(u) {
				atMost(n * p.sets(o))
			}
		}
	}
	return most
}

// roundTime is how long a round takes: the step's time is for the covers that its dish serves, in as many rounds and
// batches as those take; with InRounds it is a round's own.
func (p *Party) roundTime(d *Dish, s *Step, most, covers int, f *Fit) Span {
	if s.Grows == InRounds || d.Serves <= 0 {
		return s.Time
	}
	num, den := covers, d.Serves*f.Rounds
	if s.Grows != InProportionToCovers {
		rounds := 1
		if most > 0 {
			rounds = CeilDiv(d.Serves, most)
		}
		num, den = f.Batches, rounds*p.batches(d, s, CeilDiv(d.Serves, rounds))
	}
	part := func(m Minutes) Minutes { return Minutes(CeilDiv(int(m)*num, den)) }
	return Span{part(s.Time.Low), part(s.Time.Likely), part(s.Time.High)}
}

// cool puts the estimate in place of the time of a step that cools, where its volume is known.
func (p *Party) cool(s *Step, f *Fit) {
	is, toWhole := s.Bath()
	if !is || f.Millilitres == 0 {
		return
	}
	c, err := safety.CoolTime(safety.Pot{
		Place: s.Cool.Place, MadeOf: s.Cool.MadeOf, Consistency: s.Cool.Consistency, DepthCM: s.Cool.DepthCM,
		Litres: max(0.05, float64(f.Millilitres)/1000/float64(f.Vessels)),
	})
	if err != nil || c.Whole > int(MaxLength) {
		return
	}
	if c.IceKG > 0 {
		c.IceKG *= float64(f.Vessels)
	}
	f.Cool = &c
	f.Time = Span{Minutes(c.StageOne), Minutes(c.StageOne), Minutes(c.StageOne)}
	if toWhole {
		f.Time.Likely, f.Time.High = Minutes(c.Whole), Minutes(c.Whole)
	}
}

// Warm is for how long of a step's own time its food counts as on the counter: all of it, or of one that cools only
// until it is at 21 °C.
func (f *Fit) Warm(length int) int {
	if f.Cool == nil {
		return length
	}
	return min(length, f.Cool.StageOne)
}
