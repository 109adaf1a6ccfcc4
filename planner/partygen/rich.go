package partygen

import (
	"time"
	_ "time/tzdata" // the zone's rules, wherever the tests run

	"tureen/planner"
	"tureen/planner/safety"
)

// day counts from Thursday 24 September 2026, two days before the rich party, in Lisbon.
func lisbon(day, hour, minute int) time.Time {
	loc, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		panic(err) // tzdata is embedded
	}
	return time.Date(2026, time.September, 24+day, hour, minute, 0, 0, loc).UTC()
}

// The days of the rich party, as lisbon counts them.
const (
	thursday = iota
	friday
	saturday
)

// Exactly is a length of time that is sure.
func Exactly(likely planner.Minutes) planner.Span {
	return planner.Span{Low: likely, Likely: likely, High: likely}
}

// Rich returns a party that has something of everything, valid, and a plan of it made by hand that keeps
// every rule. Both are fresh: the caller may change them.
func Rich() (*planner.Party, *planner.Plan) { return richParty(), richPlan() }

func richParty() *planner.Party {
	kitchen := planner.HomeKitchen()
	kitchen.Ovens = append(kitchen.Ovens, planner.Oven{Name: "small oven", Shelves: 1, MinC: 50, MaxC: 240, Preheat: 10,
		Rise: 5, Fall: 12})
	kitchen.Appliances[1].Millilitres = 8000 // of the blender: the soup is one batch, hot as it is
	kitchen.Burners, kitchen.Counter = 3, 2
	kitchen.Refrigerator = planner.Cold{Millilitres: 10000, Flat: 1}
	kitchen.Freezer = planner.Cold{Millilitres: 1500, Flat: 1}
	kitchen = given(kitchen)
	nine := lisbon(thursday, 9, 0)
	cleo := func(date string, from, until planner.Minutes) planner.OtherDay {
		h := []planner.DayHours{{From: from, Until: until}}
		return planner.OtherDay{Date: date, Cooks: h, Home: h}
	}
	return &planner.Party{
		ID: 1, Name: "Vintage supper", Zone: "Europe/Lisbon", Arrival: lisbon(saturday, 19, 30), Covers: 8, PrepDays: 2,
		Courses: []planner.Course{
			{Key: "starter", Name: "Starter", Servings: []planner.Serving{{At: lisbon(saturday, 20, 0), Early: 5, Late: 10}}},
			{Key: "main", Name: "Main", Servings: []planner.Serving{
				{Group: "toddlers", At: lisbon(saturday, 20, 15), Early: 10, Late: 10},
				{At: lisbon(saturday, 20, 45), Early: 5, Late: 15}}},
			{Key: "dessert", Name: "Dessert", Servings: []planner.Serving{{At: lisbon(saturday, 21, 45), Early: 10, Late: 15}}},
		},
		Kitchen: kitchen,
		People: []planner.Person{
			{Key: "ana", Name: "Ana", Role: planner.Host, Cooks: planner.DayHours{From: 540, Until: 1320},
				Home: planner.DayHours{From: 420, Until: 1380}},
			{Key: "ben", Name: "Ben", Role: planner.CoHost, Skills: []string{"pastry"},
				Cooks: planner.DayHours{From: 840, Until: 1320}, Home: planner.DayHours{From: 780, Until: 1350}},
			{Key: "cleo", Name: "Cleo", Role: planner.CoHost, Days: []planner.OtherDay{cleo("2026-09-25", 1020, 1260),
				cleo("2026-09-26", 600, 1290)}},
			{Key: "dan", Name: "Dan", Role: planner.Onlooker, Cooks: planner.DayHours{From: 540, Until: 1320}},
		},
		Guests: []planner.Guest{{Name: "Eva"}, {Name: "Filipa", Group: "toddlers"}},
		Dishes: []planner.Dish{richSoup(), richFritters(), richBread(), richBraise(), richTart(), richSorbet()},
		Chores: []planner.Chore{
			{Key: "shopping", Kind: planner.Shop, Do: "Shop for the party", Attention: planner.Hands, Time: Exactly(60),
				Away: true,
				From: &planner.Anchor{At: &nine}, By: []planner.Anchor{{Task: "soup/chop", Offset: -30}}},
			{Key: "table", Kind: planner.LayTable, Do: "Lay the table", Attention: planner.Hands, MaxHands: 2, Time: Exactly(30),
				By: []planner.Anchor{{Arrival: true, Within: 240}}},
			{Key: "wine", Kind: planner.Chill, Do: "Chill the wine", Attention: planner.Unattended, Time: Exactly(120),
				Where:  planner.Refrigerator,
				Leaves: planner.Food{Millilitres: 3000}, By: []planner.Anchor{{Course: "starter", Offset: -10}}},
		},
		Work: []planner.Work{{Task: "fritters/batter", Person: "ben"}},
	}
}

func richSoup() planner.Dish {
	return planner.Dish{Key: "soup", Name: "Pumpkin soup", Course: "starter", Serves: 4, Steps: []planner.Step{
		{Key: "chop", Do: "Chop the vegetables", Attention: planner.Hands, MaxHands: 2, Time: Exactly(30),
			Grows: planner.InProportionToCovers,
			Where: planner.Counter, Leaves: planner.Food{Perishable: true, Kind: safety.CutProduce},
			Uses: []planner.Use{{What: planner.ACounter}}},
		{Key: "simmer", Do: "Simmer the soup", Attention: planner.Watch, Time: Exactly(40), Where: planner.Heat, Cooks: true,
			Leaves: planner.Food{Perishable: true, Kind: safety.Soup},
			Uses:   []planner.Use{{What: planner.ABurner}, {What: planner.AVessel, Name: "large pot"}},
			After:  []planner.After{{Step: "chop"}}},
		{Key: "blend", Do: "Blend the soup", Attention: planner.Hands, Time: Exactly(10), Where: planner.Counter,
			Leaves: planner.Food{Perishable: true, Kind: safety.Soup, Millilitres: 2000},
			Uses:   []planner.Use{{What: planner.AnAppliance, Name: "blender"}},
			After:  []planner.After{{Step: "simmer", Wait: planner.Wait{State: planner.Counter, Longest: 60}}}},
		{Key: "reheat", Do: "Heat the soup", Attention: planner.Watch, Time: Exactly(20), Where: planner.Heat, Cooks: true,
			Leaves: planner.Food{Perishable: true, Kind: safety.Soup},
			Uses:   []planner.Use{{What: planner.ABurner}, {What: planner.AVessel, Name: "large pot"}},
			After:  []planner.After{{Step: "blend", Wait: planner.Wait{State: planner.Refrigerator, Least: 60, Longest: 2880}}},
			Serve:  &planner.Wait{State: planner.HotHold, Longest: 30, Hold: &planner.Use{What: planner.ABurner}}},
	}}
}

func richFritters() planner.Dish {
	return planner.Dish{Key: "fritters", Name: "Sweetcorn fritters", Course: "starter", Serves: 8, Steps: []planner.Step{
		{Key: "batter", Do: "Whisk the batter", Attention: planner.Hands, Time: Exactly(10), Where: planner.Counter,
			Leaves: planner.Food{Perishable: true, Kind: safety.RawEgg},
			Uses:   []planner.Use{{What: planner.AVessel, Name: "mixing bowl", Through: "fry"}}},
		{Key: "fry", Do: "Fry the fritters", Attention: planner.Hands, Time: Exactly(6), Grows: planner.InRounds, PerRound: 4,
			RoundGap: 6,
			Where:    planner.Heat, Cooks: true, Leaves: planner.Food{Perishable: true, Kind: safety.Cooked},
			Uses:  []planner.Use{{What: planner.ABurner}, {What: planner.AVessel, Name: "frying pan"}},
			After: []planner.After{{Step: "batter", Wait: planner.Wait{State: planner.Counter, Least: 15, Longest: 90}}},
			Serve: &planner.Wait{State: planner.Warm, Longest: 30, BestUntil: 10}},
	}}
}

func richBread() planner.Dish {
	return planner.Dish{Key: "bread", Name: "Potato bread", Course: "starter", Serves: 8, Steps: []planner.Step{
		{Key: "proof", Do: "Let the dough rise, folding it now and then", Attention: planner.Touch, Every: 20,
			Time: Exactly(60), Where: planner.Counter},
		{Key: "bake", Do: "Bake the bread", Attention: planner.Watch, Time: Exactly(40), Where: planner.Heat, Cooks: true,
			Uses:  []planner.Use{{What: planner.AnOven, C: 230, Then: []planner.HeatStage{{After: 15, C: 200}}}},
			After: []planner.After{{Step: "proof"}},
			Serve: &planner.Wait{State: planner.Counter, Least: 20, Longest: 240}},
	}}
}

func richBraise() planner.Dish {
	return planner.Dish{Key: "braise", Name: "Braised shoulder", Course: "main", Serves: 8, Steps: []planner.Step{
		{Key: "brown", Do: "Brown the meat", Attention: planner.Hands, Time: Exactly(25), Where: planner.Heat, Cooks: true,
			Leaves: planner.Food{Perishable: true, Kind: safety.RedMeat, PartCooked: true},
			Uses:   []planner.Use{{What: planner.ABurner}, {What: planner.AVessel, Name: "casserole", Through: "braise"}}},
		{Key: "braise", Do: "Braise the meat", Until: "tender to the fork", Attention: planner.Watch, Time: Exactly(150),
			Where: planner.Heat, Cooks: true,
			Leaves: planner.Food{Perishable: true, Kind: safety.Cooked},
			Uses:   []planner.Use{{What: planner.AnOven, C: 150, Tolerance: 10, Shut: true}},
			After:  []planner.After{{Step: "brown"}},
			Serve: &planner.Wait{State: planner.HotHold, Longest: 90, WorthUntil: 75, BestUntil: 30,
				Hold: &planner.Use{What: planner.AHotPlace, Name: "warming tray"}}},
		{Key: "gravy", Do: "Make the gravy in the pan", Attention: planner.Hands, Time: Exactly(10), Where: planner.Heat,
			Cooks:  true,
			Leaves: planner.Food{Perishable: true, Kind: safety.Soup},
			Uses:   []planner.Use{{What: planner.ABurner}, {What: planner.AVessel, Name: "saucepan"}},
			After:  []planner.After{{Step: "braise", Wait: planner.Wait{State: planner.Counter, Longest: 20}}},
			Serve:  &planner.Wait{State: planner.Warm, Longest: 60}},
	}}
}

func richTart() planner.Dish {
	custard := planner.Food{Perishable: true, Kind: safety.Custard}
	filled := planner.Food{Perishable: true, Kind: safety.Custard, Millilitres: 1500, Flat: 1}
	return planner.Dish{Key: "tart", Name: "Custard tart", Course: "dessert", Serves: 8, Steps: []planner.Step{
		{Key: "dough", Do: "Make the dough", Attention: planner.Hands, Time: Exactly(20), Where: planner.Counter,
			Who:    planner.Who{Skill: "pastry"},
			Leaves: planner.Food{Millilitres: 500, Flat: 1}, Uses: []planner.Use{{What: planner.ACounter}}},
		{Key: "bake", Do: "Bake the shell", Attention: planner.Watch, Time: Exactly(35), Where: planner.Heat, Cooks: true,
			Uses:  []planner.Use{{What: planner.AnOven, C: 180, Tolerance: 5}},
			After: []planner.After{{Step: "dough", Wait: planner.Wait{State: planner.Refrigerator, Least: 60, Longest: 2880}}}},
		{Key: "custard", Do: "Cook the custard", Attention: planner.Hands, Time: Exactly(15), Where: planner.Heat,
			Cooks: true, Leaves: custard,
			Uses: []planner.Use{{What: planner.ABurner}, {What: planner.AVessel, Name: "saucepan"}}},
		{Key: "fill", Do: "Fill the shell", Attention: planner.Hands, Time: Exactly(10), Where: planner.Counter,
			Leaves: filled,
			After: []planner.After{{Step: "bake", Wait: planner.Wait{State: planner.Counter, Least: 30}},
				{Step: "custard", Wait: planner.Wait{State: planner.Counter, Longest: 60}}}},
		{Key: "chill", Do: "Chill the tart", Attention: planner.Unattended, Time: Exactly(120), Where: planner.Refrigerator,
			Leaves: filled,
			After:  []planner.After{{Step: "fill"}},
			Serve:  &planner.Wait{State: planner.Refrigerator, Longest: 1440, BestUntil: 720}},
	}}
}

func richSorbet() planner.Dish {
	return planner.Dish{Key: "sorbet", Name: "Lemon sorbet", Course: "dessert", Serves: 8, Steps: []planner.Step{
		{Key: "freeze", Do: "Freeze the sorbet", Attention: planner.Unattended, Time: Exactly(240), Where: planner.Freezer,
			Leaves: planner.Food{Millilitres: 1000, Flat: 1},
			Serve:  &planner.Wait{State: planner.Freezer, WorthUntil: 2880}},
	}}
}
