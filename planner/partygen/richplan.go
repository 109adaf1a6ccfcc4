package partygen

import (
	"slices"
	"time"

	"tureen/planner"
)

// richPlan is made by hand, so that it owes nothing to the planner or the checker.
func richPlan() *planner.Plan {
	at := lisbon
	held := func(what planner.Equipment, name string, from, to time.Time) planner.Held {
		return planner.Held{What: what, Name: name, Amount: 1, From: from, To: to}
	}
	oven := func(name string, c int, from, to time.Time) planner.Held {
		return planner.Held{What: planner.AnOven, Name: name, Amount: 1, C: c, From: from, To: to}
	}
	var tasks []planner.Placed
	place := func(k planner.TaskKey, start, end time.Time, people []planner.PersonKey, uses ...planner.Held) {
		tasks = append(tasks, planner.Placed{Task: k, Start: start, End: end, People: people, Uses: uses})
	}
	people := func(keys ...planner.PersonKey) []planner.PersonKey { return keys }
	const burner, vessel = planner.ABurner, planner.AVessel

	place("shopping", at(thursday, 10, 0), at(thursday, 11, 0), people("ana"))
	place("soup/chop", at(friday, 17, 0), at(friday, 17, 30), people("ana", "cleo"),
		held(planner.ACounter, "", at(friday, 17, 0), at(friday, 17, 30)))
	place("tart/dough", at(friday, 17, 0), at(friday, 17, 20), people("ben"),
		held(planner.ACounter, "", at(friday, 17, 0), at(friday, 17, 20)))
	place("soup/simmer", at(friday, 17, 30), at(friday, 18, 10), people("ana"),
		held(burner, "", at(friday, 17, 30), at(friday, 18, 10)), held(vessel, "large pot", at(friday, 17, 30),
			at(friday, 18, 10)))
	place("soup/blend", at(friday, 18, 21), at(friday, 18, 31), people("ana"),
		held(planner.AnAppliance, "blender", at(friday, 18, 21), at(friday, 18, 31)))
	place("sorbet/freeze", at(friday, 18, 35), at(friday, 22, 35), people("ana"))

	place("tart/bake", at(saturday, 14, 30), at(saturday, 15, 5), people("ben"), oven("oven", 180, at(saturday, 14, 30),
		at(saturday, 15, 5)))
	place("tart/custard", at(saturday, 15, 20), at(saturday, 15, 35), people("ben"),
		held(burner, "", at(saturday, 15, 20), at(saturday, 15, 35)), held(vessel, "saucepan", at(saturday, 15, 20),
			at(saturday, 15, 35)))
	place("tart/fill", at(saturday, 15, 40), at(saturday, 15, 50), people("ben"))
	place("tart/chill", at(saturday, 15, 50), at(saturday, 17, 50), people("ben"))
	place("table", at(saturday, 16, 0), at(saturday, 16, 15), people("ana", "cleo"))
	place("braise/brown", at(saturday, 16, 55), at(saturday, 17, 20), people("ana"),
		held(burner, "", at(saturday, 16, 55), at(saturday, 17, 20)), held(vessel, "casserole", at(saturday, 16, 55),
			at(saturday, 19, 50)))
	place("braise/braise", at(saturday, 17, 20), at(saturday, 19, 50), people("ana"),
		oven("oven", 150, at(saturday, 17, 20), at(saturday, 19, 50)),
		held(planner.AHotPlace, "warming tray", at(saturday, 19, 50), at(saturday, 20, 45)))
	place("wine", at(saturday, 17, 30), at(saturday, 19, 30), people("cleo"))
	place("bread/proof", at(saturday, 17, 45), at(saturday, 18, 45), people("cleo"))
	place("fritters/batter", at(saturday, 18, 30), at(saturday, 18, 40), people("ben"),
		held(vessel, "mixing bowl", at(saturday, 18, 30), at(saturday, 19, 54)))
	place("bread/bake", at(saturday, 18, 45), at(saturday, 19, 25), people("cleo"),
		oven("small oven", 230, at(saturday, 18, 45), at(saturday, 19, 25)))
	place("soup/reheat", at(saturday, 19, 20), at(saturday, 19, 40), people("ben"),
		held(burner, "", at(saturday, 19, 20), at(saturday, 19, 40)), held(vessel, "large pot", at(saturday, 19, 20),
			at(saturday, 19, 40)),
		held(burner, "", at(saturday, 19, 40), at(saturday, 20, 0)))
	place("fritters/fry", at(saturday, 19, 42), at(saturday, 19, 48), people("ben"),
		held(burner, "", at(saturday, 19, 42), at(saturday, 19, 48)), held(vessel, "frying pan", at(saturday, 19, 42),
			at(saturday, 19, 48)))
	place("fritters/fry.2", at(saturday, 19, 48), at(saturday, 19, 54), people("ben"),
		held(burner, "", at(saturday, 19, 48), at(saturday, 19, 54)), held(vessel, "frying pan", at(saturday, 19, 48),
			at(saturday, 19, 54)))
	place("braise/gravy", at(saturday, 19, 55), at(saturday, 20, 5), people("ana"),
		held(burner, "", at(saturday, 19, 55), at(saturday, 20, 5)), held(vessel, "saucepan", at(saturday, 19, 55),
			at(saturday, 20, 5)))
	slices.SortStableFunc(tasks, func(a, b planner.Placed) int { return a.Start.Compare(b.Start) })
	return &planner.Plan{
		Made: at(thursday, 8, 0), Status: planner.Feasible, Tasks: tasks,
		Served: []planner.Served{
			{Course: "starter", At: at(saturday, 20, 0)},
			{Course: "main", Group: "toddlers", At: at(saturday, 20, 15)},
			{Course: "main", At: at(saturday, 20, 45)},
			{Course: "dessert", At: at(saturday, 21, 45)},
		},
	}
}
