package partygen

import (
	"fmt"

	"tureen/planner"
	"tureen/planner/safety"
)

// kinds are the dishes of shaped parties: what a home kitchen makes, each with the waits, the heat and the space that
// such dishes ask for. Common practice, no source.
var kinds = []struct {
	name   string
	course planner.CourseKey
	steps  func(g *shaping, d *planner.Dish)
}{
	{"Roast", "main", roastShape},
	{"Gratin", "main", gratinShape},
	{"Braise", "main", braiseShape},
	{"Vegetables", "main", vegetableShape},
	{"Salad", "main", saladShape},
	{"Sauce", "main", sauceShape},
	{"Soup", "starter", soupShape},
	{"Loaf", "starter", loafShape},
	{"Spread", "starter", spreadShape},
	{"Fritters", "starter", fritterShape},
	{"Tart", "dessert", tartShape},
	{"Cream", "dessert", creamShape},
	{"Ice", "dessert", iceShape},
	{"Cake", "dessert", cakeShape},
}

// shaped adds a step; the options that follow shape it. Its key counts the dish's steps.
func (g *shaping) shaped(d *planner.Dish, do string, a planner.Attention, low, high int, where planner.State,
	options ...func(*planner.Step)) planner.StepKey {
	s := planner.Step{Key: planner.StepKey(fmt.Sprintf("s%d", len(d.Steps)+1)), Do: do, Attention: a,
		Time: spread(g.five(low, high)), Where: where}
	for _, o := range options {
		o(&s)
	}
	d.Steps = append(d.Steps, s)
	return s.Key
}

func afterStep(k planner.StepKey, w planner.Wait) func(*planner.Step) {
	return func(s *planner.Step) { s.After = append(s.After, planner.After{Step: k, Wait: w}) }
}

func served(w planner.Wait) func(*planner.Step) { return func(s *planner.Step) { s.Serve = &w } }

func leaving(kind safety.Kind, ml, flat int) func(*planner.Step) {
	return func(s *planner.Step) {
		s.Leaves = planner.Food{Perishable: true, Kind: kind, Millilitres: ml, Flat: flat}
	}
}

// dry is food that takes space and does not spoil.
func dry(ml, flat int) func(*planner.Step) {
	return func(s *planner.Step) { s.Leaves = planner.Food{Millilitres: ml, Flat: flat} }
}

func taking(us ...planner.Use) func(*planner.Step) {
	return func(s *planner.Step) { s.Uses = append(s.Uses, us...) }
}

func cooking(s *planner.Step) { s.Cooks = true }

func growing(s *planner.Step) { s.Grows = planner.InProportionToCovers }

func byTwo(s *planner.Step) { s.MaxHands = 2 }

func pot(name string) planner.Use { return planner.Use{What: planner.AVessel, Name: name} }

func potUntil(name string, k planner.StepKey) planner.Use {
	return planner.Use{What: planner.AVessel, Name: name, Through: k}
}

func machine(name string) planner.Use { return planner.Use{What: planner.AnAppliance, Name: name} }

func ovenAt(c, shelves, tolerance int) planner.Use {
	return planner.Use{What: planner.AnOven, C: c, Amount: shelves, Tolerance: tolerance}
}

var (
	hob   = planner.Use{What: planner.ABurner}
	place = planner.Use{What: planner.ACounter}
)

func cooled(w planner.Wait) planner.Wait { w.State = planner.Refrigerator; return w }

func aside(w planner.Wait) planner.Wait { w.State = planner.Counter; return w }

func warm(w planner.Wait) planner.Wait { w.State = planner.Warm; return w }

func roastShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Season the joint", planner.Hands, 10, 20, planner.Counter, taking(place),
		leaving(safety.RedMeat, 4000, 1))
	b := g.shaped(d, "Let it lose its chill", planner.Unattended, 30, 45, planner.Counter, leaving(safety.RedMeat, 0, 0),
		afterStep(a, cooled(planner.Wait{BestFrom: 240})))
	c := g.shaped(d, "Roast it", planner.Watch, 60, 110, planner.Heat, cooking, taking(ovenAt(10*g.Roll(16, 20), 1, 10),
		pot("roasting tin")), leaving(safety.Cooked, 0, 0), afterStep(b, planner.Wait{}))
	r := g.shaped(d, "Let it rest", planner.Unattended, 15, 20, planner.Counter, leaving(safety.Cooked, 0, 0),
		afterStep(c, planner.Wait{}))
	g.shaped(d, "Carve", planner.Hands, 10, 10, planner.Counter, taking(place), leaving(safety.Cooked, 0, 0),
		afterStep(r, warm(planner.Wait{WorthUntil: 25})), served(warm(planner.Wait{WorthUntil: 15})))
}

func gratinShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Peel and slice", planner.Hands, 15, 30, planner.Counter, growing, taking(place))
	b := g.shaped(d, "Layer it", planner.Hands, 10, 20, planner.Counter, taking(place, potUntil("baking dish", "s3")),
		leaving(safety.Cooked, 2500, 1), afterStep(a, aside(planner.Wait{WorthUntil: 60})))
	g.shaped(d, "Bake it", planner.Watch, 40, 70, planner.Heat, cooking, taking(ovenAt(10*g.Roll(17, 20), 1, 15)),
		leaving(safety.Cooked, 0, 0), afterStep(b, cooled(planner.Wait{})),
		served(warm(planner.Wait{BestFrom: 5, BestUntil: 30, WorthUntil: 60})))
}

func braiseShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Cut up and chop", planner.Hands, 20, 40, planner.Counter, growing, byTwo, taking(place),
		leaving(safety.RedMeat, 3000, 0))
	b := g.shaped(d, "Brown", planner.Hands, 15, 25, planner.Heat, cooking, taking(hob, pot("frying pan")),
		afterStep(a, cooled(planner.Wait{WorthUntil: 1440})),
		func(s *planner.Step) {
			s.Leaves = planner.Food{Perishable: true, Kind: safety.RedMeat, Millilitres: 3000, PartCooked: true}
		})
	c := g.shaped(d, "Braise", planner.Watch, 100, 180, planner.Heat, cooking, taking(ovenAt(10*g.Roll(14, 17), 1, 15),
		pot("casserole")), leaving(safety.Cooked, 4000, 0), afterStep(b, planner.Wait{}))
	g.shaped(d, "Heat through", planner.Watch, 20, 30, planner.Heat, cooking, taking(hob, pot("large pot")),
		leaving(safety.Cooked, 0, 0), afterStep(c, cooled(planner.Wait{Least: 60, BestFrom: 720})),
		served(warm(planner.Wait{BestUntil: 15, WorthUntil: 45})))
}

func vegetableShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Trim", planner.Hands, 10, 20, planner.Counter, growing, taking(place),
		leaving(safety.CutProduce, 1000, 0))
	b := g.shaped(d, "Blanch", planner.Hands, 10, 10, planner.Heat, cooking, taking(hob, pot("large pot")),
		leaving(safety.Cooked, 1000, 0), afterStep(a, cooled(planner.Wait{})))
	g.shaped(d, "Toss in butter", planner.Hands, 5, 10, planner.Heat, taking(hob, pot("frying pan")),
		leaving(safety.Cooked, 0, 0), afterStep(b, cooled(planner.Wait{})),
		served(warm(planner.Wait{BestUntil: 10, WorthUntil: 20})))
}

func saladShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Wash and dry the leaves", planner.Hands, 10, 20, planner.Counter, taking(place),
		leaving(safety.CutProduce, 3000, 0))
	b := g.shaped(d, "Whisk the dressing", planner.Hands, 5, 10, planner.Counter, taking(pot("mixing bowl")))
	g.shaped(d, "Toss", planner.Hands, 5, 5, planner.Counter, taking(place), leaving(safety.CutProduce, 0, 0),
		afterStep(a, cooled(planner.Wait{BestUntil: 600})), afterStep(b, aside(planner.Wait{})),
		served(aside(planner.Wait{BestUntil: 5, WorthUntil: 15})))
}

func sauceShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Reduce the stock", planner.Watch, 30, 60, planner.Heat, cooking, taking(hob, pot("saucepan")),
		leaving(safety.Soup, 700, 0))
	k := g.shaped(d, "Finish", planner.Hands, 5, 10, planner.Heat, cooking, taking(hob, pot("saucepan")),
		leaving(safety.Soup, 700, 0), afterStep(a, cooled(planner.Wait{})),
		served(planner.Wait{State: planner.HotHold, BestUntil: 20, WorthUntil: 45, Hold: &planner.Use{What: planner.AHotPlace,
			Name: "warming tray"}}))
	for i := range g.p.Dishes { // from a roast's juices, where there is one
		if o := &g.p.Dishes[i]; len(o.Steps) > 2 && o.Steps[2].Do == "Roast it" {
			d.Step(k).After = append(d.Step(k).After, planner.After{Dish: o.Key, Step: o.Steps[2].Key,
				Wait: aside(planner.Wait{})})
			return
		}
	}
}

func soupShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Peel and chop", planner.Hands, 15, 30, planner.Counter, growing, taking(place),
		leaving(safety.CutProduce, 2000, 0))
	b := g.shaped(d, "Sweat", planner.Hands, 10, 10, planner.Heat, cooking, taking(hob, pot("large pot")),
		leaving(safety.Soup, 2000, 0), afterStep(a, cooled(planner.Wait{})))
	c := g.shaped(d, "Simmer", planner.Watch, 20, 40, planner.Heat, cooking, taking(hob, pot("large pot")),
		leaving(safety.Soup, 3000, 0), afterStep(b, planner.Wait{}))
	e := g.shaped(d, "Blend", planner.Hands, 10, 10, planner.Counter, taking(machine("blender")),
		leaving(safety.Soup, 2500, 0), afterStep(c, aside(planner.Wait{Longest: 60})))
	g.shaped(d, "Heat", planner.Watch, 15, 15, planner.Heat, cooking, taking(hob, pot("large pot")),
		leaving(safety.Soup, 2500, 0), afterStep(e, cooled(planner.Wait{})),
		served(warm(planner.Wait{BestUntil: 10, WorthUntil: 25})))
}

func loafShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Mix the dough", planner.Hands, 15, 15, planner.Counter,
		taking(machine("stand mixer"), pot("mixing bowl")))
	b := g.shaped(d, "Let it rise", planner.Unattended, 60, 120, planner.Counter, afterStep(a, planner.Wait{}))
	c := g.shaped(d, "Shape", planner.Hands, 10, 15, planner.Counter, taking(place, potUntil("baking tray", "s5")),
		afterStep(b, aside(planner.Wait{WorthUntil: 30})))
	e := g.shaped(d, "Let it rise again", planner.Unattended, 30, 45, planner.Counter, afterStep(c, planner.Wait{}))
	g.shaped(d, "Bake", planner.Watch, 25, 45, planner.Heat, cooking, taking(ovenAt(10*g.Roll(20, 23), 1, 10)),
		afterStep(e, aside(planner.Wait{WorthUntil: 20})),
		served(aside(planner.Wait{BestFrom: 15, BestUntil: 240, WorthUntil: 720})))
}

func spreadShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Poach", planner.Watch, 15, 20, planner.Heat, cooking, taking(hob, pot("saucepan")),
		leaving(safety.Cooked, 800, 0))
	b := g.shaped(d, "Flake and mix", planner.Hands, 15, 25, planner.Counter, taking(place, pot("mixing bowl")),
		leaving(safety.Cooked, 800, 0), afterStep(a, aside(planner.Wait{Least: 15, Longest: 60})))
	g.shaped(d, "Plate", planner.Hands, 10, 15, planner.Counter, byTwo, taking(place), leaving(safety.Cooked, 0, 0),
		afterStep(b, cooled(planner.Wait{Least: 120, BestFrom: 360})),
		served(aside(planner.Wait{WorthUntil: 30})))
}

func fritterShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Make the batter", planner.Hands, 10, 15, planner.Counter, taking(pot("mixing bowl")),
		leaving(safety.RawEgg, 1000, 0))
	g.shaped(d, "Fry", planner.Hands, 5, 10, planner.Heat, cooking, taking(hob, pot("frying pan")),
		leaving(safety.Cooked, 0, 0), afterStep(a, cooled(planner.Wait{Least: 30})),
		func(s *planner.Step) { s.Grows, s.PerRound = planner.InRounds, 4 },
		served(warm(planner.Wait{BestUntil: 20, WorthUntil: 40})))
}

func tartShape(g *shaping, d *planner.Dish) {
	pastry := func(s *planner.Step) {
		for i := range g.p.People {
			if len(g.p.People[i].Skills) > 0 {
				s.Who.Skill = "pastry"
			}
		}
	}
	a := g.shaped(d, "Make the pastry", planner.Hands, 15, 25, planner.Counter, pastry, taking(place, pot("mixing bowl")),
		dry(600, 0))
	b := g.shaped(d, "Roll out and line the tin", planner.Hands, 15, 15, planner.Counter,
		taking(place, potUntil("tart tin", "s6")), dry(900, 1), afterStep(a, cooled(planner.Wait{Least: 60})))
	c := g.shaped(d, "Bake the case blind", planner.Watch, 20, 30, planner.Heat, cooking, taking(ovenAt(180, 1, 10)),
		afterStep(b, cooled(planner.Wait{Least: 30})))
	e := g.shaped(d, "Fill", planner.Hands, 15, 25, planner.Counter, taking(place), leaving(safety.Custard, 1200, 1),
		afterStep(c, aside(planner.Wait{})))
	f := g.shaped(d, "Bake the tart", planner.Watch, 30, 45, planner.Heat, cooking,
		taking(ovenAt(10*g.Roll(15, 18), 1, 10)), leaving(safety.Custard, 1200, 0),
		afterStep(e, aside(planner.Wait{WorthUntil: 30})))
	g.shaped(d, "Let it cool", planner.Unattended, 60, 60, planner.Counter, leaving(safety.Custard, 1200, 1),
		afterStep(f, planner.Wait{}), served(cooled(planner.Wait{BestUntil: 480})))
}

func creamShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Heat the cream", planner.Hands, 15, 15, planner.Heat, cooking, taking(hob, pot("saucepan")),
		leaving(safety.Custard, 1200, 0))
	b := g.shaped(d, "Pour into moulds", planner.Hands, 10, 10, planner.Counter, taking(place),
		leaving(safety.Custard, 1200, 1), afterStep(a, aside(planner.Wait{WorthUntil: 20})))
	g.shaped(d, "Unmould and plate", planner.Hands, 10, 15, planner.Counter, byTwo, taking(place),
		leaving(safety.Custard, 1200, 0), afterStep(b, cooled(planner.Wait{Least: 240, BestUntil: 1440})),
		served(aside(planner.Wait{BestUntil: 15, WorthUntil: 40})))
}

func iceShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Boil the syrup", planner.Hands, 10, 10, planner.Heat, cooking, taking(hob, pot("saucepan")))
	b := g.shaped(d, "Freeze, stirring", planner.Touch, 180, 240, planner.Freezer, func(s *planner.Step) {
		s.Every = 30
	}, dry(1500, 0), afterStep(a, cooled(planner.Wait{Least: 60})))
	g.shaped(d, "Scoop", planner.Hands, 5, 10, planner.Counter, func(s *planner.Step) {
		s.WhenCalled = true
	}, afterStep(b, planner.Wait{State: planner.Freezer, BestUntil: 2880}), served(aside(planner.Wait{WorthUntil: 5})))
}

func cakeShape(g *shaping, d *planner.Dish) {
	a := g.shaped(d, "Mix the cake batter", planner.Hands, 15, 25, planner.Counter, taking(machine("stand mixer"), place))
	b := g.shaped(d, "Bake it", planner.Watch, 30, 50, planner.Heat, cooking, taking(ovenAt(10*g.Roll(16, 18), 1, 5),
		potUntil("cake tin", "s3")), afterStep(a, aside(planner.Wait{WorthUntil: 20})))
	c := g.shaped(d, "Let it cool", planner.Unattended, 60, 90, planner.Counter, afterStep(b, planner.Wait{}))
	g.shaped(d, "Fill and cover", planner.Hands, 20, 30, planner.Counter, byTwo, taking(place),
		leaving(safety.WhippedCream, 2500, 1), afterStep(c, aside(planner.Wait{BestUntil: 720})),
		served(cooled(planner.Wait{BestUntil: 480, WorthUntil: 1440})))
}
