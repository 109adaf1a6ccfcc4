package solve_test

import (
	"slices"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// Two people make a task of 16 minutes one of 8, which may start off the five-minute marks of the evening before. The
// eve's nine minutes have room for it only from 21:51 on; listing every plan of a tiny party found that the model
// forbade it.
func TestMoreHandsFreeATaskFromTheMarks(t *testing.T) {
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	hours := []planner.DayHours{{From: 21*60 + 51, Until: 22 * 60}}
	p := &planner.Party{Zone: "UTC", Arrival: arrival, Covers: 2, PrepDays: 1,
		Courses: []planner.Course{{Key: "main", Servings: []planner.Serving{{At: arrival.Add(30 * time.Minute)}}}},
		Dishes: []planner.Dish{{Key: "nuts", Course: "main", Serves: 2, Steps: []planner.Step{
			{Key: "make", Do: "Shell the nuts", Attention: planner.Hands, MaxHands: 2, Time: partygen.Exactly(16),
				Where: planner.Counter}}}},
	}
	for _, k := range []planner.PersonKey{"ana", "ben"} {
		p.People = append(p.People, planner.Person{Key: k, Role: planner.Host,
			Days: []planner.OtherDay{{Date: "2026-09-25", Cooks: hours}, {Date: "2026-09-26"}}})
	}
	plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-24 * time.Hour)})
	if err != nil || plan != nil {
		t.Fatalf("got %+v, %v: the hands' hours end at half past nine", plan, err)
	}
	says := slices.ContainsFunc(clash.Requirements, func(r solve.Requirement) bool {
		return r.Text == "Work on the days before lies between 7:00 and 21:30." && !r.Limit
	})
	mends := slices.ContainsFunc(clash.Mends, func(m planner.Mend) bool {
		return m.Do == "party change work-hours:6:00-23:00" && len(m.With) == 0
	})
	if !says || !mends {
		t.Errorf("that nights are free is said: %v, how to give way: %v: %+v", says, mends, clash)
	}
	p.WorkHours = planner.DayHours{From: 6 * 60, Until: 23 * 60}
	plan, clash, err = solve.Make(t.Context(), p, solve.Ask{Now: arrival.Add(-24 * time.Hour)})
	if err != nil || plan == nil {
		t.Fatalf("got %+v, %v, want a plan", clash, err)
	}
	if at := plan.Tasks[0].Start.Format("15:04"); at != "21:51" && at != "21:52" {
		t.Errorf("got a start at %s, want 21:51 or 21:52", at)
	}
}
