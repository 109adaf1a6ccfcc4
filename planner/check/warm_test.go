package check_test

import (
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/partygen"
	"tureen/planner/safety"
)

// potful is a stew of a food, cooked from 12:00 to 13:00 and put away for the next day.
func potful(food string) (*planner.Party, *planner.Dish) {
	noon := time.Date(2026, 10, 9, 12, 0, 0, 0, time.UTC)
	start, end := noon, noon.Add(time.Hour)
	p := &planner.Party{Zone: "UTC", Arrival: noon.Add(30 * time.Hour), Covers: 8, Kitchen: planner.HomeKitchen(),
		Courses: []planner.Course{{Key: "main", Servings: []planner.Serving{{At: noon.Add(31 * time.Hour)}}}},
		Dishes: []planner.Dish{{Key: "pot", Name: "Pot", Course: "main", Serves: 8,
			Ingredients: []planner.Ingredient{{Name: food, Amount: "2 kg"}},
			Steps: []planner.Step{{Key: "cook", Do: "Simmer it until tender", Attention: planner.Watch, Where: planner.Heat,
				Cooks: true, Time: partygen.Exactly(60), Leaves: planner.Food{Millilitres: 4000},
				Serve: &planner.Wait{State: planner.Refrigerator, Least: 600}}}}},
		Work: []planner.Work{{Task: "pot/cook", Progress: planner.Done, Start: &start, End: &end}}}
	p.Chores = []planner.Chore{{Key: cooling.Key("pot", "cook"), Kind: planner.Cool, Do: "Put it away"}}
	return p, &p.Dishes[0]
}

// TestGoesCold: cooked food is to be in the cold two hours after it left the heat (USDA FSIS, "Danger Zone"), one on a
// hot day, and rice one (FSA, "Cooking safely"); what it stood on the counter since counts.
func TestGoesCold(t *testing.T) {
	for _, c := range []struct {
		name, food string
		set        func(p *planner.Party)
		minutes    int
		told       bool
		kind       safety.Kind
	}{
		{"stew", "minced beef", func(*planner.Party) {}, 120, true, safety.Cooked},
		{"a hot day", "minced beef", func(p *planner.Party) { p.RoomTemperatureC = 33 }, 60, true, safety.Cooked},
		{"as warm as can be", "minced beef", func(p *planner.Party) { p.RoomTemperatureC = 32 }, 120, true, safety.Cooked},
		{"rice", "rice", func(*planner.Party) {}, 60, true, safety.Rice},
		{"taken as done", "minced beef", func(p *planner.Party) { p.Work[0].Assumed = true }, 120, false, safety.Cooked},
	} {
		p, d := potful(c.food)
		c.set(p)
		w, ok := check.GoesCold(p, d, "cook")
		end := *p.Work[0].End
		if !ok || !w.By.Equal(end.Add(time.Duration(c.minutes)*time.Minute)) || !w.Left.Equal(end) || w.Told != c.told ||
			w.Limit != safety.IntoTheCold(c.kind, float64(p.AirC())) || w.Chore() != planner.ChoreTask(p.Chores[0].Key) {
			t.Errorf("%s: %+v, %v", c.name, w, ok)
		}
		if _, ok := check.GoesCold(p, d, "none"); ok {
			t.Errorf("%s: there is no such step", c.name)
		}
		still := check.StillWarm(p)
		if len(still) != 1 || still[0].By != w.By {
			t.Errorf("%s: still warm: %+v", c.name, still)
		}
		p.Work = nil
		if _, ok := check.GoesCold(p, d, "cook"); ok || len(check.StillWarm(p)) > 0 {
			t.Errorf("%s: nothing is done, and it is warm", c.name)
		}
	}
}

// TestGoesColdAfterAStand: what has stood on the counter for so long has so much less.
func TestGoesColdAfterAStand(t *testing.T) {
	p, d := potful("minced beef")
	d.Steps[0].Serve = nil
	d.Steps = append(d.Steps, planner.Step{Key: "season", Do: "Season it", Attention: planner.Hands,
		Where: planner.Counter,
		Time:  partygen.Exactly(5), Leaves: planner.Food{Millilitres: 4000},
		After: []planner.After{{Step: "cook", Wait: planner.Wait{State: planner.Counter}}},
		Serve: &planner.Wait{State: planner.Refrigerator, Least: 600}})
	start := p.Work[0].End.Add(20 * time.Minute)
	end := start.Add(5 * time.Minute)
	p.Work = append(p.Work, planner.Work{Task: "pot/season", Progress: planner.Done, Start: &start, End: &end})
	w, ok := check.GoesCold(p, d, "season")
	if want := p.Work[0].End.Add(2 * time.Hour); !ok || !w.By.Equal(want) || !w.Left.Equal(end) {
		t.Errorf("got %+v, %v, want it in the cold by %v", w, ok, want)
	}
}

// TestStillWarmUntilSomebodySaysSo: what was done with it, or left undone on purpose, ends it; what tureen took as left
// undone by itself does not.
func TestStillWarmUntilSomebodySaysSo(t *testing.T) {
	for _, c := range []struct {
		name string
		work planner.Work
		warm bool
	}{
		{"claimed", planner.Work{Person: "ana"}, true}, {"started", planner.Work{Progress: planner.Started}, false},
		{"done", planner.Work{Progress: planner.Done}, false}, {"left", planner.Work{Progress: planner.Skipped}, false},
		{"taken as left", planner.Work{Progress: planner.Skipped, Assumed: true}, true},
		{"taken as done", planner.Work{Progress: planner.Done, Assumed: true}, false},
	} {
		p, _ := potful("minced beef")
		c.work.Task = planner.ChoreTask(p.Chores[0].Key)
		p.Work = append(p.Work, c.work)
		if got := check.StillWarm(p); (len(got) > 0) != c.warm {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
	p, _ := potful("minced beef")
	p.Chores = nil
	if got := check.StillWarm(p); len(got) > 0 {
		t.Errorf("no task puts it away: %+v", got)
	}
	p, d := potful("minced beef")
	d.Steps[0].Leaves.Millilitres = 800 // a panful is part of its own step
	if got := check.StillWarm(p); len(got) > 0 {
		t.Errorf("a panful: %+v", got)
	}
}

// TestLaterBreaks: what may start later as far as Why says, with what goes straight on after it, breaks nothing so, and
// a minute later what Why says; nothing goes straight on before it.
func TestLaterBreaks(t *testing.T) {
	for _, k := range []planner.TaskKey{"ragout/brown", "table", "ragout/thicken"} {
		p, plan := partygen.Supper("sugar"), supperPlan()
		why, err := check.Why(p, plan, k)
		if err != nil {
			t.Fatal(err)
		}
		by := planner.Minutes(why.Latest.Sub(plan.Placed(k).Start) / time.Minute)
		if got := check.LaterBreaks(p, plan, k, by); got != "" {
			t.Errorf("%s, %d minutes later: %s", k, by, got)
		}
		if got := check.LaterBreaks(p, plan, k, by+1); got == "" || got != why.After[0] {
			t.Errorf("%s, %d minutes later: %q, want %q", k, by+1, got, why.After)
		}
	}
	p, plan := partygen.Supper("sugar"), supperPlan()
	if got := check.LaterBreaks(p, plan, "ragout/simmer", 1); got == "" {
		t.Error("what goes straight on may wait")
	}
}

// TestTightest: of the hands and watching of some hours the first that has least to spare, and none that has enough.
func TestTightest(t *testing.T) {
	p, plan := partygen.Rich()
	first, last := plan.Tasks[0].Start, p.Arrival.Add(12*time.Hour)
	for _, x := range plan.Tasks {
		if x.Start.Before(first) {
			first = x.Start
		}
	}
	for from := first; from.Before(last); from = from.Add(47 * time.Minute) {
		to := from.Add(3 * time.Hour)
		least := planner.Minutes(planner.Tight)
		for _, task := range planner.Tasks(p) {
			x := plan.Placed(task.Key)
			if task.Attention != planner.Hands && task.Attention != planner.Watch || x.Start.Before(from) ||
				!x.Start.Before(to) {
				continue
			}
			spare, _ := check.SpareOf(p, plan, x.Task)
			least = min(least, spare)
		}
		k, spare, ok := check.Tightest(p, plan, from, to)
		if spare != least || ok != (least < planner.Tight) {
			t.Errorf("from %v: %s has %d, %v, want %d", from, k, spare, ok, least)
			continue
		}
		if !ok {
			continue
		}
		if of, _ := check.SpareOf(p, plan, k); of != spare || plan.Placed(k).Start.Before(from) ||
			!plan.Placed(k).Start.Before(to) {
			t.Errorf("from %v: %s is said to have %d, and has %d", from, k, spare, of)
		}
	}
}
