package partygen

import (
	"time"

	"tureen/planner"
	"tureen/planner/safety"
)

// The dinners below are invented: dishes of ordinary home cooking, with lengths from common practice, no source.

// Dinner is a party of three people with the first so many of its dishes, and chores.
func Dinner(dishes int) *planner.Party {
	at := ClockOn(26)
	p := &planner.Party{
		ID: 1, Name: "Dinner", Zone: "Europe/Lisbon", Arrival: at(19, 30), Covers: 8, PrepDays: 2,
		Courses: []planner.Course{
			{Key: "starter", Name: "Starter", Servings: []planner.Serving{{At: at(20, 0), Early: 10, Late: 15}}},
			{Key: "main", Name: "Main", Servings: []planner.Serving{{At: at(20, 45), Early: 10, Late: 15}}},
			{Key: "dessert", Name: "Dessert", Servings: []planner.Serving{{At: at(21, 45), Early: 10, Late: 20}}},
		},
		Kitchen: given(planner.HomeKitchen()),
		People: []planner.Person{
			{Key: "ines", Name: "Inês", Role: planner.Host, Dress: 30, Cooks: Hours(9, 22), Home: Hours(7, 23)},
			{Key: "rui", Name: "Rui", Role: planner.CoHost, Cooks: Hours(14, 22), Home: Hours(13, 23)},
			{Key: "marta", Name: "Marta", Role: planner.CoHost, Days: []planner.OtherDay{
				{Date: "2026-09-26", Cooks: []planner.DayHours{Hours(10, 22)}, Home: []planner.DayHours{Hours(10, 22)}}}},
		},
	}
	all := []planner.Dish{carrotSoup(), roastLamb(), pearTart(), gratin(), beans(), focaccia(), pannaCotta(), salad(),
		rillettes(), redWineSauce(), lemonSorbet(), cheeseStraws()}
	p.Dishes = all[:dishes]
	nine := ClockOn(24)(9, 0)
	p.Chores = []planner.Chore{
		{Key: "shop", Kind: planner.Shop, Do: "Shop", Attention: planner.Hands, Time: Takes(75), Away: true,
			From: &planner.Anchor{At: &nine}, By: []planner.Anchor{{Task: "lamb/season"}, {Task: "soup/chop"},
				{Task: "tart/dough"}}},
		{Key: "table", Kind: planner.LayTable, Do: "Lay the table", Attention: planner.Hands, MaxHands: 2, Time: Takes(30),
			By: []planner.Anchor{{Arrival: true, Within: 300}}},
		{Key: "wine", Kind: planner.Chill, Do: "Chill the wine", Attention: planner.Unattended, Time: Takes(180),
			Where:  planner.Refrigerator,
			Leaves: planner.Food{Millilitres: 6000}, By: []planner.Anchor{{Course: "starter", Offset: -10, Within: 120}}},
		{Key: "dress", Kind: planner.Dress, Do: "Dress", Attention: planner.Hands, Time: Takes(30),
			Who: planner.Who{Person: "ines"},
			By:  []planner.Anchor{{Arrival: true, Within: 60}}},
	}
	return p
}

// Supper is one dish of one person: it is begun at leisure, left to simmer, and thickened before service at 19:00. Of
// meat it must not stand for long; of sugar it may.
func Supper(of string) *planner.Party {
	at := ClockOn(26)
	return &planner.Party{Zone: "Europe/Lisbon", Arrival: at(18, 30), Covers: 4,
		Courses: []planner.Course{{Key: "main", Name: "Main", Servings: []planner.Serving{{At: at(19, 0)}}}},
		Kitchen: given(planner.HomeKitchen()),
		People:  []planner.Person{{Key: "ines", Name: "Inês", Role: planner.Host, Cooks: Hours(9, 22), Home: Hours(9, 22)}},
		Dishes: []planner.Dish{aDish("ragout", "Ragout", "main",
			aStep("brown", "Brown the "+of, planner.Hands, 20, planner.Heat, cooking, taking(hob)),
			aStep("simmer", "Simmer", planner.Watch, 60, planner.Heat, cooking, taking(hob), afterStep("brown", planner.Wait{})),
			aStep("thicken", "Thicken it", planner.Hands, 10, planner.Heat, cooking, taking(hob),
				afterStep("simmer", planner.Wait{State: planner.Counter, Least: 5}),
				served(planner.Wait{State: planner.Warm, WorthUntil: 30})),
		)},
		Chores: []planner.Chore{{Key: "table", Kind: planner.LayTable, Do: "Lay the table", Attention: planner.Hands,
			Time: Takes(15), By: []planner.Anchor{{Arrival: true}}}},
	}
}

// ClockOn gives instants of a day of September 2026 in Lisbon.
func ClockOn(day int) func(h, m int) time.Time {
	return func(h, m int) time.Time { return lisbon(day-24, h, m) }
}

// Hours is a stretch of a day between two hours.
func Hours(from, until planner.Minutes) planner.DayHours {
	return planner.DayHours{From: from * 60, Until: until * 60}
}

// Takes is a length of time that is not quite sure.
func Takes(likely planner.Minutes) planner.Span {
	return planner.Span{Low: likely - likely/5, Likely: likely, High: likely + likely/3}
}

// aStep makes a step; the options that follow shape it.
func aStep(key planner.StepKey, do string, a planner.Attention, minutes planner.Minutes, where planner.State,
	shape ...func(*planner.Step)) planner.Step {
	s := planner.Step{Key: key, Do: do, Attention: a, Time: Takes(minutes), Where: where}
	for _, f := range shape {
		f(&s)
	}
	return s
}

func aDish(key planner.DishKey, name string, course planner.CourseKey, steps ...planner.Step) planner.Dish {
	return planner.Dish{Key: key, Name: name, Course: course, Serves: 6, Steps: steps}
}

func afterOf(d planner.DishKey, key planner.StepKey, w planner.Wait) func(*planner.Step) {
	return func(s *planner.Step) { s.After = append(s.After, planner.After{Dish: d, Step: key, Wait: w}) }
}

func every(m planner.Minutes) func(*planner.Step) { return func(s *planner.Step) { s.Every = m } }

func carrotSoup() planner.Dish {
	return aDish("soup", "Carrot soup", "starter",
		aStep("chop", "Peel and chop the carrots", planner.Hands, 25, planner.Counter, growing, taking(place),
			leaving(safety.CutProduce, 2000, 0)),
		aStep("sweat", "Sweat the vegetables", planner.Hands, 10, planner.Heat, cooking, taking(hob, pot("large pot")),
			leaving(safety.Soup, 2000, 0), afterStep("chop", cooled(planner.Wait{}))),
		aStep("simmer", "Simmer until soft", planner.Watch, 30, planner.Heat, cooking, taking(hob, pot("large pot")),
			leaving(safety.Soup, 3000, 0), afterStep("sweat", planner.Wait{})),
		aStep("blend", "Blend", planner.Hands, 10, planner.Counter,
			taking(planner.Use{What: planner.AnAppliance, Name: "blender"}), leaving(safety.Soup, 2500, 0),
			afterStep("simmer", planner.Wait{State: planner.Counter, Longest: 60})),
		aStep("reheat", "Heat the soup", planner.Watch, 15, planner.Heat, cooking, taking(hob, pot("large pot")),
			leaving(safety.Soup, 2500, 0), afterStep("blend", cooled(planner.Wait{})),
			served(planner.Wait{State: planner.Warm, BestUntil: 10, WorthUntil: 25})),
	)
}

func roastLamb() planner.Dish {
	return aDish("lamb", "Roast lamb", "main",
		aStep("season", "Season the lamb", planner.Hands, 15, planner.Counter, taking(place),
			leaving(safety.RedMeat, 4000, 1)),
		aStep("temper", "Let the lamb lose its chill", planner.Unattended, 45, planner.Counter, leaving(safety.RedMeat, 0, 0),
			afterStep("season", planner.Wait{State: planner.Refrigerator, BestFrom: 240})),
		aStep("roast", "Roast the lamb", planner.Watch, 80, planner.Heat, cooking,
			taking(ovenAt(190, 1, 10), pot("roasting tin")), leaving(safety.Cooked, 0, 0), afterStep("temper", planner.Wait{})),
		aStep("rest", "Let the lamb rest", planner.Unattended, 20, planner.Counter, leaving(safety.Cooked, 0, 0),
			afterStep("roast", planner.Wait{})),
		aStep("carve", "Carve", planner.Hands, 10, planner.Counter, taking(place), leaving(safety.Cooked, 0, 0),
			afterStep("rest", planner.Wait{State: planner.Warm, WorthUntil: 25}),
			served(planner.Wait{State: planner.Warm, WorthUntil: 10})),
	)
}

func pearTart() planner.Dish {
	return aDish("tart", "Pear tart", "dessert",
		aStep("dough", "Make the short pastry", planner.Hands, 20, planner.Counter, taking(place, pot("mixing bowl")),
			dry(600, 0)),
		aStep("roll", "Roll out and line the tin", planner.Hands, 15, planner.Counter,
			taking(place, planner.Use{What: planner.AVessel, Name: "tart tin", Through: "cool"}), dry(900, 1),
			afterStep("dough", planner.Wait{State: planner.Refrigerator, Least: 60})),
		aStep("blind", "Bake the case blind", planner.Watch, 25, planner.Heat, cooking, taking(ovenAt(180, 1, 10)),
			afterStep("roll", planner.Wait{State: planner.Refrigerator, Least: 30})),
		aStep("fill", "Arrange the pears and fill", planner.Hands, 25, planner.Counter, taking(place),
			leaving(safety.Custard, 1200, 1), afterStep("blind", aside(planner.Wait{}))),
		aStep("bake", "Bake the tart", planner.Watch, 40, planner.Heat, cooking, taking(ovenAt(170, 1, 10)),
			leaving(safety.Custard, 1200, 0), afterStep("fill", planner.Wait{State: planner.Counter, WorthUntil: 30})),
		aStep("cool", "Let the tart cool", planner.Unattended, 60, planner.Counter, leaving(safety.Custard, 1200, 1),
			afterStep("bake", planner.Wait{}), served(planner.Wait{State: planner.Refrigerator, BestUntil: 480})),
	)
}

func gratin() planner.Dish {
	return aDish("gratin", "Potato gratin", "main",
		aStep("slice", "Peel and slice the potatoes", planner.Hands, 25, planner.Counter, growing, taking(place)),
		aStep("layer", "Layer with cream", planner.Hands, 15, planner.Counter,
			taking(place, planner.Use{What: planner.AVessel, Name: "baking dish", Through: "bake"}),
			leaving(safety.Cooked, 2500, 1), afterStep("slice", planner.Wait{State: planner.Counter, WorthUntil: 60})),
		aStep("bake", "Bake the gratin", planner.Watch, 60, planner.Heat, cooking, taking(ovenAt(180, 1, 15)),
			leaving(safety.Cooked, 0, 0), afterStep("layer", cooled(planner.Wait{})),
			served(planner.Wait{State: planner.Warm, BestFrom: 5, BestUntil: 30, WorthUntil: 60})),
	)
}

func beans() planner.Dish {
	return aDish("beans", "Green beans", "main",
		aStep("trim", "Trim the beans", planner.Hands, 15, planner.Counter, growing, taking(place),
			leaving(safety.CutProduce, 800, 0)),
		aStep("blanch", "Blanch the beans", planner.Hands, 10, planner.Heat, cooking, taking(hob, pot("large pot")),
			leaving(safety.Cooked, 800, 0), afterStep("trim", cooled(planner.Wait{}))),
		aStep("toss", "Toss the beans in butter", planner.Hands, 6, planner.Heat, taking(hob, pot("frying pan")),
			leaving(safety.Cooked, 0, 0), afterStep("blanch", cooled(planner.Wait{})),
			served(planner.Wait{State: planner.Warm, BestUntil: 5, WorthUntil: 15})),
	)
}

func focaccia() planner.Dish {
	return aDish("bread", "Focaccia", "starter",
		aStep("mix", "Mix the dough", planner.Hands, 15, planner.Counter,
			taking(planner.Use{What: planner.AnAppliance, Name: "stand mixer"}, pot("mixing bowl"))),
		aStep("prove", "Let it rise", planner.Unattended, 90, planner.Counter, afterStep("mix", planner.Wait{})),
		aStep("shape", "Stretch into the tray", planner.Hands, 10, planner.Counter,
			taking(place, planner.Use{What: planner.AVessel, Name: "baking tray", Through: "bake"}),
			afterStep("prove", planner.Wait{State: planner.Counter, WorthUntil: 30})),
		aStep("second", "Let it rise again", planner.Unattended, 40, planner.Counter, afterStep("shape", planner.Wait{})),
		aStep("bake", "Bake the focaccia", planner.Watch, 25, planner.Heat, cooking, taking(ovenAt(220, 1, 10)),
			afterStep("second", planner.Wait{State: planner.Counter, WorthUntil: 20}),
			served(planner.Wait{State: planner.Counter, BestFrom: 15, BestUntil: 240, WorthUntil: 720})),
	)
}

func pannaCotta() planner.Dish {
	return aDish("panna", "Panna cotta", "dessert",
		aStep("soak", "Soak the gelatine", planner.Unattended, 10, planner.Counter),
		aStep("heat", "Heat the cream", planner.Hands, 15, planner.Heat, cooking, taking(hob, pot("saucepan")),
			leaving(safety.Custard, 1200, 0), afterStep("soak", planner.Wait{State: planner.Counter, WorthUntil: 15})),
		aStep("pour", "Pour into moulds", planner.Hands, 10, planner.Counter, taking(place), leaving(safety.Custard, 1200, 1),
			afterStep("heat", planner.Wait{State: planner.Counter, WorthUntil: 20})),
		aStep("unmould", "Unmould and plate", planner.Hands, 12, planner.Counter, taking(place),
			leaving(safety.Custard, 1200, 0), afterStep("pour", planner.Wait{State: planner.Refrigerator, Least: 240,
				BestUntil: 1440}),
			served(planner.Wait{State: planner.Counter, BestUntil: 15, WorthUntil: 40})),
	)
}

func salad() planner.Dish {
	return aDish("salad", "Leaf salad", "main",
		aStep("wash", "Wash and dry the leaves", planner.Hands, 15, planner.Counter, taking(place),
			leaving(safety.CutProduce, 3000, 0)),
		aStep("dressing", "Whisk the dressing", planner.Hands, 8, planner.Counter, taking(pot("mixing bowl"))),
		aStep("toss", "Toss the salad", planner.Hands, 5, planner.Counter, taking(place), leaving(safety.CutProduce, 0, 0),
			afterStep("wash", planner.Wait{State: planner.Refrigerator, BestUntil: 600}),
			afterStep("dressing", aside(planner.Wait{})),
			served(planner.Wait{State: planner.Counter, BestUntil: 5, WorthUntil: 15})),
	)
}

func rillettes() planner.Dish {
	return aDish("salmon", "Salmon rillettes", "starter",
		aStep("poach", "Poach the salmon", planner.Watch, 15, planner.Heat, cooking, taking(hob, pot("saucepan")),
			leaving(safety.Cooked, 800, 0)),
		aStep("mix", "Flake and mix", planner.Hands, 20, planner.Counter, taking(place, pot("mixing bowl")),
			leaving(safety.Cooked, 800, 0), afterStep("poach", planner.Wait{State: planner.Counter, Least: 15, Longest: 60})),
		aStep("toast", "Toast the bread", planner.Hands, 8, planner.Heat, taking(planner.Use{What: planner.AGrill}),
			served(planner.Wait{State: planner.Counter, BestUntil: 10, WorthUntil: 30})),
		aStep("plate", "Plate the rillettes", planner.Hands, 10, planner.Counter, taking(place), leaving(safety.Cooked, 0, 0),
			afterStep("mix", planner.Wait{State: planner.Refrigerator, Least: 120, BestFrom: 360}),
			afterStep("toast", aside(planner.Wait{})),
			served(planner.Wait{State: planner.Counter, WorthUntil: 20})),
	)
}

func redWineSauce() planner.Dish {
	return aDish("sauce", "Red wine sauce", "main",
		aStep("reduce", "Reduce the stock and wine", planner.Watch, 45, planner.Heat, cooking, taking(hob, pot("saucepan")),
			leaving(safety.Soup, 700, 0)),
		aStep("finish", "Finish with the roasting juices", planner.Hands, 10, planner.Heat, cooking,
			taking(hob, pot("saucepan")), leaving(safety.Soup, 700, 0), afterStep("reduce", cooled(planner.Wait{})),
			afterOf("lamb", "roast", aside(planner.Wait{})),
			served(planner.Wait{State: planner.HotHold, BestUntil: 15, WorthUntil: 45,
				Hold: &planner.Use{What: planner.AHotPlace, Name: "warming tray"}})),
	)
}

func lemonSorbet() planner.Dish {
	return aDish("sorbet", "Lemon sorbet", "dessert",
		aStep("syrup", "Boil the syrup", planner.Hands, 10, planner.Heat, cooking, taking(hob, pot("saucepan"))),
		aStep("freeze", "Freeze, stirring", planner.Touch, 240, planner.Freezer, every(30), dry(1500, 0),
			afterStep("syrup", planner.Wait{State: planner.Refrigerator, Least: 60})),
		aStep("scoop", "Scoop the sorbet", planner.Hands, 8, planner.Counter, taking(place),
			afterStep("freeze", planner.Wait{State: planner.Freezer, BestUntil: 2880}),
			served(planner.Wait{State: planner.Straight})),
	)
}

func cheeseStraws() planner.Dish {
	return aDish("straws", "Cheese straws", "starter",
		aStep("roll", "Roll out with cheese", planner.Hands, 20, planner.Counter, taking(place),
			leaving(safety.Cooked, 600, 1)),
		aStep("cut", "Cut and twist", planner.Hands, 15, planner.Counter, taking(place), leaving(safety.Cooked, 600, 1),
			afterStep("roll", planner.Wait{State: planner.Refrigerator, Least: 30})),
		aStep("bake", "Bake the straws", planner.Watch, 15, planner.Heat, cooking,
			taking(ovenAt(200, 2, 10), pot("baking tray")),
			afterStep("cut", planner.Wait{State: planner.Refrigerator, Least: 15}),
			served(planner.Wait{State: planner.Counter, BestUntil: 480})),
	)
}
