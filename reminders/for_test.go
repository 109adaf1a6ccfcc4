package reminders

import (
	"strings"
	"testing"
	"time"

	_ "time/tzdata"

	"tureen/planner"
	"tureen/store"
)

// Saturday 26 September 2026; Lisbon is an hour ahead of UTC.
func at(hour, minute int) time.Time { return time.Date(2026, 9, 26, hour-1, minute, 0, 0, time.UTC) }

func instantOf(t time.Time) *time.Time { return &t }

// tart is a party with one dish that has nearly everything a reminder may speak of, and its plan.
func tart() (*planner.Party, *planner.Plan) {
	p := &planner.Party{
		ID: 1, Name: "Autumn supper", Zone: "Europe/Lisbon", Arrival: at(19, 0), Covers: 8, Kitchen: planner.HomeKitchen(),
		Courses: []planner.Course{{Key: "dessert", Name: "dessert", Servings: []planner.Serving{{At: at(21, 0), Late: 10}}}},
		People: []planner.Person{
			{Key: "ada", Name: "Ada", Role: planner.Host, Cooks: planner.DayHours{From: 540, Until: 1320}},
			{Key: "ben", Name: "Ben", Role: planner.CoHost, Cooks: planner.DayHours{From: 540, Until: 1320}},
		},
		Dishes: []planner.Dish{{Key: "pear-tart", Name: "Pear tart", Course: "dessert", Serves: 8, Steps: []planner.Step{
			{Key: "rub", Do: "Rub the butter into the flour", Component: "pastry", Attention: planner.Hands, Time: span(20), Where: planner.Counter},
			{Key: "roll", Do: "Roll out the pastry", Component: "shell", Attention: planner.Hands, Time: planner.Span{Low: 15, Likely: 20, High: 30},
				Where: planner.Counter, After: []planner.After{{Step: "rub", Wait: planner.Wait{State: planner.Refrigerator, Min: 60}}}},
			{Key: "bake", Do: "Bake the tart", Attention: planner.Watch, Time: planner.Span{Low: 35, Likely: 45, High: 55}, Where: planner.Heat, Cooks: true,
				Until: "browned at the rim", Uses: []planner.Use{{What: planner.AnOven, C: 180}},
				After: []planner.After{{Step: "roll", Wait: planner.Wait{State: planner.Counter}}},
				Serve: &planner.Wait{State: planner.Counter, Min: 30}},
		}}},
		Chores: []planner.Chore{{Key: "cream", Kind: planner.Shop, Do: "Buy cream", Attention: planner.Hands, Time: span(30), Away: true,
			By: []planner.Anchor{{Task: "pear-tart/bake"}}}},
	}
	hands := func(k planner.TaskKey, start time.Time, minutes int, who ...planner.PersonKey) planner.Placed {
		return planner.Placed{Task: k, Start: start, End: start.Add(time.Duration(minutes) * time.Minute), People: who}
	}
	bake := hands("pear-tart/bake", at(17, 30), 45, "ben")
	bake.Uses = []planner.Held{{What: planner.AnOven, Name: "oven", Amount: 1, C: 180, From: bake.Start, To: bake.End}}
	plan := &planner.Plan{Made: at(8, 0), Revision: 1, Tasks: []planner.Placed{
		hands("pear-tart/rub", at(10, 0), 20, "ada"),
		hands("chore/cream", at(11, 0), 30, "ben"),
		hands("pear-tart/roll", at(16, 0), 20, "ada"),
		bake,
	}, Served: []planner.Served{{Course: "dessert", At: at(21, 0)}}}
	return p, plan
}

func span(m planner.Minutes) planner.Span { return planner.Span{Low: m, Likely: m, High: m} }

// told renders reminders one a line: due in Lisbon, person, kind, task, first line.
func told(list []store.Reminder) []string {
	zone, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		panic(err) // the zones are embedded
	}
	var out []string
	for _, r := range list {
		first, _, _ := strings.Cut(PlainStamps(r.Text), "\n")
		out = append(out, strings.Join([]string{r.Due.In(zone).Format("Mon 15:04"), string(r.Person), string(r.Kind), string(r.Task), first}, "|"))
	}
	return out
}

func find(t *testing.T, list []store.Reminder, key string) store.Reminder {
	t.Helper()
	for _, r := range list {
		if r.Key == key {
			return r
		}
	}
	t.Fatalf("no reminder %q among %q", key, told(list))
	return store.Reminder{}
}
