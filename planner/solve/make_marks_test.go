package solve_test

import (
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
	if err != nil || plan == nil {
		t.Fatalf("got %+v, %v, want a plan", clash, err)
	}
	if at := plan.Tasks[0].Start.Format("15:04"); at != "21:51" && at != "21:52" {
		t.Errorf("got a start at %s, want 21:51 or 21:52", at)
	}
}
