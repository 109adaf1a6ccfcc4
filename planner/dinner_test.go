package planner_test

import (
	"time"
	_ "time/tzdata"

	"tureen/planner"
	"tureen/planner/safety"
)

// The dinners of these tests are invented: dishes of ordinary home cooking, with lengths from common practice, no source.

// dinner is a party of three people with the first so many of its dishes, and chores.
func dinner(dishes int) *planner.Party {
	at := clockOn(26)
	p := &planner.Party{
		ID: 1, Name: "Dinner", Zone: "Europe/Lisbon", Arrival: at(19, 30), Covers: 8, PrepDays: 2,
		Courses: []planner.Course{
			{Key: "starter", Name: "Starter", Servings: []planner.Serving{{At: at(20, 0), Early: 10, Late: 15}}},
			{Key: "main", Name: "Main", Servings: []planner.Serving{{At: at(20, 45), Early: 10, Late: 15}}},
			{Key: "dessert", Name: "Dessert", Servings: []planner.Serving{{At: at(21, 45), Early: 10, Late: 20}}},
		},
		Kitchen: planner.HomeKitchen(),
		People: []planner.Person{
			{Key: "ines", Name: "Inês", Role: planner.Host, Dress: 30, Cooks: hours(9, 22), Home: hours(7, 23)},
			{Key: "rui", Name: "Rui", Role: planner.CoHost, Cooks: hours(14, 22), Home: hours(13, 23)},
			{Key: "marta", Name: "Marta", Role: planner.CoHost, Days: []planner.OtherDay{
				{Date: "2026-09-26", Cooks: []planner.DayHours{hours(10, 22)}, Home: []planner.DayHours{hours(10, 22)}}}},
		},
	}
	all := []planner.Dish{carrotSoup(), roastLamb(), pearTart(), gratin(), beans(), focaccia(), pannaCotta(), salad(),
		rillettes(), redWineSauce(), lemonSorbet(), cheeseStraws()}
	p.Dishes = all[:dishes]
	nine := clockOn(24)(9, 0)
	p.Chores = []planner.Chore{
		{Key: "shop", Kind: planner.Shop, Do: "Shop", Attention: planner.Hands, Time: takes(75), Away: true,
			From: &planner.Anchor{At: &nine}, By: []planner.Anchor{{Task: "lamb/season"}, {Task: "soup/chop"}, {Task: "tart/dough"}}},
		{Key: "table", Kind: planner.LayTable, Do: "Lay the table", Attention: planner.Hands, MaxHands: 2, Time: takes(30),
			By: []planner.Anchor{{Arrival: true, Within: 300}}},
		{Key: "wine", Kind: planner.Chill, Do: "Chill the wine", Attention: planner.Rest, Time: takes(180), Where: planner.Refrigerator,
			Leaves: planner.Food{Millilitres: 6000}, By: []planner.Anchor{{Course: "starter", Offset: -10, Within: 120}}},
		{Key: "dress", Kind: planner.Dress, Do: "Dress", Attention: planner.Hands, Time: takes(30), Who: planner.Who{Person: "ines"},
			By: []planner.Anchor{{Arrival: true, Within: 60}}},
	}
	return p
}

// clockOn gives instants of a day of September 2026 in Lisbon.
func clockOn(day int) func(h, m int) time.Time {
	loc, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		panic(err) // tzdata is embedded
	}
	return func(h, m int) time.Time { return time.Date(2026, time.September, day, h, m, 0, 0, loc).UTC() }
}

func hours(from, until planner.Minutes) planner.DayHours {
	return planner.DayHours{From: from * 60, Until: until * 60}
}

func takes(likely planner.Minutes) planner.Span {
	return planner.Span{Low: likely - likely/5, Likely: likely, High: likely + likely/3}
}

// step makes a step; the options that follow shape it.
func step(key planner.StepKey, do string, a planner.Attention, minutes planner.Minutes, where planner.State, shape ...func(*planner.Step)) planner.Step {
	s := planner.Step{Key: key, Do: do, Attention: a, Time: takes(minutes), Where: where}
	for _, f := range shape {
		f(&s)
	}
	return s
}

func after(key planner.StepKey, w planner.Wait) func(*planner.Step) {
	return func(s *planner.Step) { s.After = append(s.After, planner.After{Step: key, Wait: w}) }
}

func afterOf(d planner.DishKey, key planner.StepKey, w planner.Wait) func(*planner.Step) {
	return func(s *planner.Step) { s.After = append(s.After, planner.After{Dish: d, Step: key, Wait: w}) }
}

func uses(us ...planner.Use) func(*planner.Step) {
	return func(s *planner.Step) { s.Uses = append(s.Uses, us...) }
}

func leaves(kind safety.Kind, ml int) func(*planner.Step) {
	return func(s *planner.Step) { s.Leaves = planner.Food{Perishable: true, Kind: kind, Millilitres: ml} }
}

// keeps is food that takes room and does not spoil.
func keeps(ml int) func(*planner.Step) {
	return func(s *planner.Step) { s.Leaves = planner.Food{Millilitres: ml} }
}

func every(m planner.Minutes) func(*planner.Step) { return func(s *planner.Step) { s.Every = m } }

func flat(n int) func(*planner.Step) { return func(s *planner.Step) { s.Leaves.Flat = n } }

func serve(w planner.Wait) func(*planner.Step) { return func(s *planner.Step) { s.Serve = &w } }

func cooks(s *planner.Step) { s.Cooks = true }

func grows(s *planner.Step) { s.Growth = planner.WithBatch }

func oven(c, shelves, tolerance int) planner.Use {
	return planner.Use{What: planner.AnOven, Amount: shelves, C: c, Tolerance: tolerance}
}

func vessel(name string) planner.Use { return planner.Use{What: planner.AVessel, Name: name} }

var (
	burner   = planner.Use{What: planner.ABurner}
	counter  = planner.Use{What: planner.ACounter}
	straight = planner.Wait{}
	cold     = planner.Wait{State: planner.Refrigerator}
	aside    = planner.Wait{State: planner.Counter}
)

func dish(key planner.DishKey, name string, course planner.CourseKey, steps ...planner.Step) planner.Dish {
	return planner.Dish{Key: key, Name: name, Course: course, Serves: 6, Steps: steps}
}

func carrotSoup() planner.Dish {
	return dish("soup", "Carrot soup", "starter",
		step("chop", "Peel and chop the carrots", planner.Hands, 25, planner.Counter, grows, uses(counter), leaves(safety.CutProduce, 2000)),
		step("sweat", "Sweat the vegetables", planner.Hands, 10, planner.Heat, cooks, uses(burner, vessel("large pot")), leaves(safety.Soup, 2000), after("chop", cold)),
		step("simmer", "Simmer until soft", planner.Watch, 30, planner.Heat, cooks, uses(burner, vessel("large pot")), leaves(safety.Soup, 3000), after("sweat", straight)),
		step("blend", "Blend", planner.Hands, 10, planner.Counter, uses(planner.Use{What: planner.AnAppliance, Name: "blender"}), leaves(safety.Soup, 2500), after("simmer", planner.Wait{State: planner.Counter, Max: 60})),
		step("reheat", "Heat the soup", planner.Watch, 15, planner.Heat, cooks, uses(burner, vessel("large pot")), leaves(safety.Soup, 2500), after("blend", cold),
			serve(planner.Wait{State: planner.Warm, BestUntil: 10, Floor: 25})),
	)
}

func roastLamb() planner.Dish {
	return dish("lamb", "Roast lamb", "main",
		step("season", "Season the lamb", planner.Hands, 15, planner.Counter, uses(counter), leaves(safety.RedMeat, 4000), flat(1)),
		step("temper", "Let the lamb lose its chill", planner.Rest, 45, planner.Counter, leaves(safety.RedMeat, 0), after("season", planner.Wait{State: planner.Refrigerator, BestFrom: 240})),
		step("roast", "Roast the lamb", planner.Watch, 80, planner.Heat, cooks, uses(oven(190, 1, 10), vessel("roasting tin")), leaves(safety.Cooked, 0), after("temper", straight)),
		step("rest", "Let the lamb rest", planner.Rest, 20, planner.Counter, leaves(safety.Cooked, 0), after("roast", straight)),
		step("carve", "Carve", planner.Hands, 10, planner.Counter, uses(counter), leaves(safety.Cooked, 0), after("rest", planner.Wait{State: planner.Warm, Floor: 25}),
			serve(planner.Wait{State: planner.Warm, Floor: 10})),
	)
}

func pearTart() planner.Dish {
	return dish("tart", "Pear tart", "dessert",
		step("dough", "Make the short pastry", planner.Hands, 20, planner.Counter, uses(counter, vessel("mixing bowl")), leaves(safety.Cooked, 600)),
		step("roll", "Roll out and line the tin", planner.Hands, 15, planner.Counter, uses(counter, planner.Use{What: planner.AVessel, Name: "tart tin", Until: "cool"}), leaves(safety.Cooked, 900), flat(1),
			after("dough", planner.Wait{State: planner.Refrigerator, Min: 60})),
		step("blind", "Bake the case blind", planner.Watch, 25, planner.Heat, cooks, uses(oven(180, 1, 10)), after("roll", planner.Wait{State: planner.Refrigerator, Min: 30})),
		step("fill", "Arrange the pears and fill", planner.Hands, 25, planner.Counter, uses(counter), leaves(safety.Custard, 1200), flat(1), after("blind", aside)),
		step("bake", "Bake the tart", planner.Watch, 40, planner.Heat, cooks, uses(oven(170, 1, 10)), leaves(safety.Custard, 1200), after("fill", planner.Wait{State: planner.Counter, Floor: 30})),
		step("cool", "Let the tart cool", planner.Rest, 60, planner.Counter, leaves(safety.Custard, 1200), flat(1), after("bake", straight), serve(planner.Wait{State: planner.Refrigerator, BestUntil: 480})),
	)
}

func gratin() planner.Dish {
	return dish("gratin", "Potato gratin", "main",
		step("slice", "Peel and slice the potatoes", planner.Hands, 25, planner.Counter, grows, uses(counter)),
		step("layer", "Layer with cream", planner.Hands, 15, planner.Counter, uses(counter, planner.Use{What: planner.AVessel, Name: "baking dish", Until: "bake"}), leaves(safety.Cooked, 2500), flat(1), after("slice", planner.Wait{State: planner.Counter, Floor: 60})),
		step("bake", "Bake the gratin", planner.Watch, 60, planner.Heat, cooks, uses(oven(180, 1, 15)), leaves(safety.Cooked, 0), after("layer", cold),
			serve(planner.Wait{State: planner.Warm, BestFrom: 5, BestUntil: 30, Floor: 60})),
	)
}

func beans() planner.Dish {
	return dish("beans", "Green beans", "main",
		step("trim", "Trim the beans", planner.Hands, 15, planner.Counter, grows, uses(counter), leaves(safety.CutProduce, 800)),
		step("blanch", "Blanch the beans", planner.Hands, 10, planner.Heat, cooks, uses(burner, vessel("large pot")), leaves(safety.Cooked, 800), after("trim", cold)),
		step("toss", "Toss the beans in butter", planner.Hands, 6, planner.Heat, uses(burner, vessel("frying pan")), leaves(safety.Cooked, 0), after("blanch", cold),
			serve(planner.Wait{State: planner.Warm, BestUntil: 5, Floor: 15})),
	)
}

func focaccia() planner.Dish {
	return dish("bread", "Focaccia", "starter",
		step("mix", "Mix the dough", planner.Hands, 15, planner.Counter, uses(planner.Use{What: planner.AnAppliance, Name: "stand mixer"}, vessel("mixing bowl"))),
		step("prove", "Let it rise", planner.Rest, 90, planner.Counter, after("mix", straight)),
		step("shape", "Stretch into the tray", planner.Hands, 10, planner.Counter, uses(counter, planner.Use{What: planner.AVessel, Name: "baking tray", Until: "bake"}), after("prove", planner.Wait{State: planner.Counter, Floor: 30})),
		step("second", "Let it rise again", planner.Rest, 40, planner.Counter, after("shape", straight)),
		step("bake", "Bake the focaccia", planner.Watch, 25, planner.Heat, cooks, uses(oven(220, 1, 10)), after("second", planner.Wait{State: planner.Counter, Floor: 20}),
			serve(planner.Wait{State: planner.Counter, BestFrom: 15, BestUntil: 240, Floor: 720})),
	)
}

func pannaCotta() planner.Dish {
	return dish("panna", "Panna cotta", "dessert",
		step("soak", "Soak the gelatine", planner.Rest, 10, planner.Counter),
		step("heat", "Heat the cream", planner.Hands, 15, planner.Heat, cooks, uses(burner, vessel("saucepan")), leaves(safety.Custard, 1200), after("soak", planner.Wait{State: planner.Counter, Floor: 15})),
		step("pour", "Pour into moulds", planner.Hands, 10, planner.Counter, uses(counter), leaves(safety.Custard, 1200), flat(1), after("heat", planner.Wait{State: planner.Counter, Floor: 20})),
		step("unmould", "Unmould and plate", planner.Hands, 12, planner.Counter, uses(counter), leaves(safety.Custard, 1200), after("pour", planner.Wait{State: planner.Refrigerator, Min: 240, BestUntil: 1440}),
			serve(planner.Wait{State: planner.Counter, BestUntil: 15, Floor: 40})),
	)
}

func salad() planner.Dish {
	return dish("salad", "Leaf salad", "main",
		step("wash", "Wash and dry the leaves", planner.Hands, 15, planner.Counter, uses(counter), leaves(safety.CutProduce, 3000)),
		step("dressing", "Whisk the dressing", planner.Hands, 8, planner.Counter, uses(vessel("mixing bowl"))),
		step("toss", "Toss the salad", planner.Hands, 5, planner.Counter, uses(counter), leaves(safety.CutProduce, 0), after("wash", planner.Wait{State: planner.Refrigerator, BestUntil: 600}), after("dressing", aside),
			serve(planner.Wait{State: planner.Counter, BestUntil: 5, Floor: 15})),
	)
}

func rillettes() planner.Dish {
	return dish("salmon", "Salmon rillettes", "starter",
		step("poach", "Poach the salmon", planner.Watch, 15, planner.Heat, cooks, uses(burner, vessel("saucepan")), leaves(safety.Cooked, 800)),
		step("mix", "Flake and mix", planner.Hands, 20, planner.Counter, uses(counter, vessel("mixing bowl")), leaves(safety.Cooked, 800), after("poach", planner.Wait{State: planner.Counter, Min: 15, Max: 60})),
		step("toast", "Toast the bread", planner.Hands, 8, planner.Heat, uses(planner.Use{What: planner.AGrill}), serve(planner.Wait{State: planner.Counter, BestUntil: 10, Floor: 30})),
		step("plate", "Plate the rillettes", planner.Hands, 10, planner.Counter, uses(counter), leaves(safety.Cooked, 0), after("mix", planner.Wait{State: planner.Refrigerator, Min: 120, BestFrom: 360}), after("toast", aside),
			serve(planner.Wait{State: planner.Counter, Floor: 20})),
	)
}

func redWineSauce() planner.Dish {
	return dish("sauce", "Red wine sauce", "main",
		step("reduce", "Reduce the stock and wine", planner.Watch, 45, planner.Heat, cooks, uses(burner, vessel("saucepan")), leaves(safety.Soup, 700)),
		step("finish", "Finish with the roasting juices", planner.Hands, 10, planner.Heat, cooks, uses(burner, vessel("saucepan")), leaves(safety.Soup, 700), after("reduce", cold), afterOf("lamb", "roast", aside),
			serve(planner.Wait{State: planner.HotHold, BestUntil: 15, Floor: 45, Hold: &planner.Use{What: planner.ASource, Name: "warming tray"}})),
	)
}

func lemonSorbet() planner.Dish {
	return dish("sorbet", "Lemon sorbet", "dessert",
		step("syrup", "Boil the syrup", planner.Hands, 10, planner.Heat, cooks, uses(burner, vessel("saucepan"))),
		step("freeze", "Freeze, stirring", planner.Touch, 240, planner.Freezer, every(30), keeps(1500), after("syrup", planner.Wait{State: planner.Refrigerator, Min: 60})),
		step("scoop", "Scoop the sorbet", planner.Hands, 8, planner.Counter, uses(counter), after("freeze", planner.Wait{State: planner.Freezer, BestUntil: 2880}), serve(planner.Wait{State: planner.Straight})),
	)
}

func cheeseStraws() planner.Dish {
	return dish("straws", "Cheese straws", "starter",
		step("roll", "Roll out with cheese", planner.Hands, 20, planner.Counter, uses(counter), leaves(safety.Cooked, 600), flat(1)),
		step("cut", "Cut and twist", planner.Hands, 15, planner.Counter, uses(counter), leaves(safety.Cooked, 600), flat(1), after("roll", planner.Wait{State: planner.Refrigerator, Min: 30})),
		step("bake", "Bake the straws", planner.Watch, 15, planner.Heat, cooks, uses(oven(200, 2, 10), vessel("baking tray")), after("cut", planner.Wait{State: planner.Refrigerator, Min: 15}),
			serve(planner.Wait{State: planner.Counter, BestUntil: 480})),
	)
}
