package partygen

import (
	"fmt"

	"tureen/planner"
	"tureen/planner/safety"
)

// dish adds a random dish: some preparation, cooking, a rest, a last touch. Its steps form a chain; sometimes
// a side line joins it, or another dish's step comes first.
func (g *drawing) dish(n int) {
	d := planner.Dish{Key: dishKey(n), Name: fmt.Sprintf("Dish %c", 'A'+n), Course: g.course(), Serves: pick(g, 4, 6, 8)}
	steps := []func(*drawing) planner.Step{
		(*drawing).prep,
		pick(g, (*drawing).simmer, (*drawing).bake, (*drawing).fry, (*drawing).sear),
	}
	if chance(g, 35) {
		cold := pick(g, (*drawing).cool, (*drawing).freeze)
		if g.size.Fits > 0 && chance(g, 33) {
			cold = (*drawing).iced
		}
		steps = append(steps, cold)
	}
	if chance(g, 40) {
		steps = append(steps, (*drawing).finish)
	}
	if chance(g, 20) {
		steps = steps[1:]
	}
	for _, make := range steps {
		s := make(g)
		s.Key = planner.StepKey(fmt.Sprintf("s%d", len(d.Steps)+1))
		s.Do = fmt.Sprintf("Do step %d", len(d.Steps)+1)
		if i := len(d.Steps); i > 0 {
			s.After = []planner.After{{Step: d.Steps[i-1].Key, Wait: g.wait(&d.Steps[i-1], &s)}}
		}
		d.Steps = append(d.Steps, s)
	}
	if chance(g, 25) { // a side line: a sauce, a filling
		s := g.prep()
		s.Key, s.Do = "side", "Make the side"
		d.Steps = append(d.Steps, s)
		last := &d.Steps[len(d.Steps)-2]
		last.After = append(last.After, planner.After{Step: "side", Wait: g.wait(&s, last)})
	}
	if n > 0 && chance(g, 12) { // from another dish's pan
		other := &g.p.Dishes[g.Roll(0, n-1)]
		p := &other.Steps[len(other.Steps)-1]
		d.Steps[0].After = append(d.Steps[0].After, planner.After{Dish: other.Key, Step: p.Key, Wait: g.wait(p, &d.Steps[0])})
		if p.Serve == nil {
			w := planner.Wait{State: planner.HotHold, Longest: 120, Hold: &planner.Use{What: planner.AHotPlace,
				Name: "warming tray"}}
			p.Serve = &w
		}
	}
	g.carryPartCooked(&d)
	g.lastSteps(&d)
	g.p.Dishes = append(g.p.Dishes, d)
}

// carryPartCooked has a step that cooks nothing pass part-cooked food on, straight on or hot as it came: somebody says
// so of each.
func (g *drawing) carryPartCooked(d *planner.Dish) {
	for i := range d.Steps {
		s := &d.Steps[i]
		for j := range s.After {
			a := &s.After[j]
			from := d
			if a.Dish != "" && a.Dish != d.Key {
				from = g.p.Dish(a.Dish)
			}
			p := from.Step(a.Step)
			if a.FromStart || !p.Leaves.PartCooked {
				continue
			}
			if a.Wait.State != planner.HotHold {
				a.Wait = planner.Wait{}
			}
			if !s.Cooks {
				s.Leaves.PartCooked, s.Leaves.Perishable, s.Leaves.Kind = true, true, p.Leaves.Kind
				if s.Serve != nil && s.Serve.State != planner.HotHold {
					s.Serve = &planner.Wait{}
				}
			}
		}
	}
}

// lastSteps says how the dish waits for its service.
func (g *drawing) lastSteps(d *planner.Dish) {
	i := len(d.Steps) - 1
	if d.Steps[i].Key == "side" {
		i--
	}
	s := &d.Steps[i]
	switch g.Roll(1, 6) {
	case 1:
		s.Serve = &planner.Wait{State: planner.Warm, Longest: minutes(g, 20, 60), BestUntil: minutes(g, 5, 20)}
	case 2:
		s.Serve = &planner.Wait{State: planner.HotHold, Longest: minutes(g, 30, 90), BestUntil: 20,
			Hold: &planner.Use{What: planner.AHotPlace, Name: "warming tray"}}
	case 3:
		s.Serve = &planner.Wait{State: planner.Refrigerator, WorthUntil: 60 * minutes(g, 4, 40), BestFrom: minutes(g, 0, 120)}
	case 4:
		s.Serve = &planner.Wait{State: planner.Counter, WorthUntil: 60 * minutes(g, 1, 4)}
	case 5:
		if s.Leaves.PartCooked {
			break
		}
		s.Serve = &planner.Wait{State: planner.Counter, Longest: minutes(g, 15, 40)}
	}
	if s.Leaves.PartCooked && (s.Serve == nil || s.Serve.State != planner.HotHold) {
		s.Serve = &planner.Wait{State: planner.HotHold, Longest: 60, Hold: &planner.Use{What: planner.ABurner}}
	}
}

// wait is how food waits between two steps, as the first one's food may.
func (g *drawing) wait(p, s *planner.Step) planner.Wait {
	if p.Leaves.PartCooked {
		return planner.Wait{}
	}
	rounds := p.Grows == planner.InRounds || s.Grows == planner.InRounds
	switch roll := g.Roll(1, 10); {
	case roll <= 2 && !rounds:
		return planner.Wait{}
	case roll <= 5:
		return planner.Wait{State: planner.Counter, Least: pick[planner.Minutes](g, 0, 0, 10, 20),
			Longest: pick[planner.Minutes](g, 0, 60, 90)}
	case roll <= 8 && p.Where != planner.Heat:
		w := planner.Wait{State: planner.Refrigerator, Least: pick[planner.Minutes](g, 0, 30, 60, 120)}
		if chance(g, 50) {
			w.WorthUntil = 60 * minutes(g, 4, 48)
		}
		if chance(g, 40) {
			w.BestUntil = w.Least + 60*minutes(g, 1, 12)
			w.WorthUntil = 0
		}
		return w
	case roll == 9 && s.Where != planner.Heat:
		return planner.Wait{State: planner.Freezer, Least: 60}
	}
	return planner.Wait{State: planner.Counter}
}

func (g *drawing) food(kinds ...safety.Kind) planner.Food {
	f := planner.Food{Millilitres: 250 * g.Roll(0, 8), Kind: safety.None} // said: what nobody knows is held to spoil
	if chance(g, 65) {
		f.Perishable, f.Kind = true, pick(g, kinds...)
	}
	if chance(g, 12) {
		f.Flat = 1
	}
	return f
}

func (g *drawing) prep() planner.Step {
	s := planner.Step{Attention: planner.Hands, MaxHands: g.Roll(1, 2), Time: spread(5 * minutes(g, 1, 8)),
		Where: planner.Counter,
		Grows: pick(g, planner.Fixed, planner.InProportionToCovers), Leaves: g.food(safety.CutProduce, safety.Cooked,
			safety.RawEgg, safety.Salad)}
	if chance(g, 60) {
		s.Uses = append(s.Uses, planner.Use{What: planner.ACounter})
	}
	if chance(g, 25) {
		s.Uses = append(s.Uses, planner.Use{What: planner.AnAppliance, Name: pick(g, "blender", "food processor",
			"hand mixer")})
	}
	if chance(g, 15) {
		for i := range g.p.People {
			if len(g.p.People[i].Skills) > 0 {
				s.Who.Skill = "pastry"
			}
		}
	}
	return s
}

func (g *drawing) simmer() planner.Step {
	return planner.Step{Attention: pick(g, planner.Watch, planner.Watch, planner.Hands),
		Time: spread(5 * minutes(g, 2, 9)), Where: planner.Heat, Cooks: true,
		Leaves: g.food(safety.Cooked, safety.Soup, safety.Rice, safety.Custard),
		Uses: []planner.Use{{What: planner.ABurner},
			{What: planner.AVessel, Name: pick(g, "saucepan", "large pot", "casserole"), For: g.enough()}}}
}

func (g *drawing) bake() planner.Step {
	u := planner.Use{What: planner.AnOven, C: 10 * g.Roll(12, 22), Tolerance: pick(g, 0, 5, 10, 20), Shut: chance(g, 20)}
	s := planner.Step{Attention: pick(g, planner.Watch, planner.Touch, planner.Unattended),
		Time: spread(5 * minutes(g, 3, 18)), Where: planner.Heat, Cooks: true,
		Leaves: g.food(safety.Cooked, safety.EggDish)}
	if s.Attention == planner.Touch {
		s.Every, u.Shut = 15, false
	}
	u.For = g.enough()
	if chance(g, 10) {
		u.Then = []planner.HeatStage{{After: s.Time.Likely / 2, C: u.C - 20}}
	}
	s.Uses = []planner.Use{u}
	return s
}

func (g *drawing) fry() planner.Step {
	s := planner.Step{Attention: planner.Hands, Time: spread(minutes(g, 3, 12)), Where: planner.Heat, Cooks: true,
		Leaves: g.food(safety.Cooked),
		Uses:   []planner.Use{{What: planner.ABurner}, {What: planner.AVessel, Name: "frying pan"}}}
	s.Uses[1].For = g.enough()
	if chance(g, 40) {
		s.Grows, s.PerRound, s.RoundGap = planner.InRounds, g.Roll(3, 6), minutes(g, 0, 5)
	}
	return s
}

// enough is for how many covers a piece of equipment is enough, if anybody has said.
func (g *drawing) enough() int {
	if g.size.Fits > 0 && chance(g, g.size.Fits) {
		return g.Roll(3, 8)
	}
	return 0
}

// iced cools what was cooked in ice water.
func (g *drawing) iced() planner.Step {
	s := planner.Step{Attention: planner.Touch, Every: 10, Time: spread(40), Where: planner.Counter,
		Leaves: g.food(safety.Soup, safety.Cooked),
		Uses:   []planner.Use{{What: planner.AVessel, Name: "roasting tin", For: g.enough()}},
		Cool: &planner.Cooling{Place: safety.PlaceStirredIce, MadeOf: safety.Metal,
			Consistency: pick(g, safety.Thin, safety.Thick), DepthCM: 5}}
	s.Leaves.Millilitres += 500
	if chance(g, 50) {
		s.Cool.How = planner.CoolBath
	}
	return s
}

// sear leaves part-cooked food: it goes straight on.
func (g *drawing) sear() planner.Step {
	s := g.fry()
	s.Grows, s.PerRound, s.RoundGap, s.Uses[1].For = planner.Fixed, 0, 0, 0
	s.Leaves = planner.Food{Perishable: true, Kind: safety.RedMeat, PartCooked: true}
	return s
}

func (g *drawing) cool() planner.Step {
	return planner.Step{Attention: planner.Unattended, Time: spread(30 * minutes(g, 1, 8)), Where: planner.Refrigerator,
		Leaves: g.food(safety.Cooked, safety.Custard, safety.WhippedCream)}
}

func (g *drawing) freeze() planner.Step {
	return planner.Step{Attention: planner.Unattended, Time: spread(60 * minutes(g, 1, 5)), Where: planner.Freezer,
		Leaves: g.food(safety.Custard)}
}

func (g *drawing) finish() planner.Step {
	return planner.Step{Attention: planner.Hands, MaxHands: g.Roll(1, 3), Time: spread(minutes(g, 3, 15)),
		Where: planner.Counter, Leaves: g.food(safety.Cooked)}
}
