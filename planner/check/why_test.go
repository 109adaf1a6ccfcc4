package check_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
)

// supperPlan has the browning at 16:00, the table at 17:50 and the thickening at 18:40.
func supperPlan() *planner.Plan {
	at := partygen.ClockOn(26)
	place := func(k planner.TaskKey, h, m, minutes int, uses ...planner.Held) planner.Placed {
		start := at(h, m)
		end := start.Add(time.Duration(minutes) * time.Minute)
		for i := range uses {
			uses[i].From, uses[i].To = start, end
		}
		return planner.Placed{Task: k, Start: start, End: end, People: []planner.PersonKey{"ines"}, Uses: uses}
	}
	onBurner := planner.Held{What: planner.ABurner, Amount: 1}
	return &planner.Plan{Made: at(9, 0), Tasks: []planner.Placed{
		place("ragout/brown", 16, 0, 20, onBurner), place("ragout/simmer", 16, 20, 60, onBurner),
		place("table", 17, 50, 15), place("ragout/thicken", 18, 40, 10, onBurner),
	}, Served: []planner.Served{{Course: "main", At: at(19, 0)}}}
}

// reason is how far a task can go and what decides it.
type reason struct {
	task             planner.TaskKey
	earliest, latest time.Time
	before, after    string
}

// The times were worked out by hand from the plan.
func TestWhySaysHowFarATaskCanGoAndWhatDecides(t *testing.T) {
	at := partygen.ClockOn(26)
	explains(t, "sugar", []reason{
		{"ragout/brown", at(9, 0), at(17, 15), "hours for cooking", "5 minutes is the least"}, // 17:15 + 20 + 60 + 5 = 18:40
		{"ragout/simmer", at(9, 20), at(17, 35), "hours for cooking", "5 minutes is the least"},
		{"table", at(16, 20), at(18, 15), "Brown the sugar", "Sat 18:30"},
		{"ragout/thicken", at(18, 20), at(18, 50), "30 minutes", "main is served"},
	})
}

// Meat that was simmered through by 16:50 has stood for two hours at 19:00, less the ten minutes on the hob.
func TestWhySaysThatAFoodClockDecides(t *testing.T) {
	at := partygen.ClockOn(26)
	explains(t, "meat", []reason{
		{"ragout/brown", at(15, 30), at(17, 15), "2 h 1 min on the counter", "5 minutes is the least"},
		{"ragout/simmer", at(15, 50), at(17, 35), "2 h 1 min on the counter", "5 minutes is the least"},
		{"ragout/thicken", at(18, 20), at(18, 50), "30 minutes", "main is served"},
	})
}

func explains(t *testing.T, of string, rows []reason) {
	t.Helper()
	p, plan := partygen.Supper(of), supperPlan()
	if broken := check.Plan(p, plan); len(broken) > 0 {
		t.Fatalf("the plan made by hand breaks rules: %+v", broken)
	}
	for _, row := range rows {
		why, err := check.Why(p, plan, row.task)
		if err != nil {
			t.Fatalf("%s: %v", row.task, err)
		}
		if !why.Earliest.Equal(row.earliest) || !why.Latest.Equal(row.latest) {
			t.Errorf("%s: from %v to %v, want %v to %v", row.task, why.Earliest, why.Latest, row.earliest, row.latest)
		}
		if got := strings.Join(why.Before, " "); !strings.Contains(got, row.before) {
			t.Errorf("%s: not earlier because %q, want …%s…", row.task, got, row.before)
		}
		if got := strings.Join(why.After, " "); !strings.Contains(got, row.after) {
			t.Errorf("%s: not later because %q, want …%s…", row.task, got, row.after)
		}
	}
}

func TestWhyOfWorkThatHasBegunAndOfNothing(t *testing.T) {
	p, plan := partygen.Supper("meat"), supperPlan()
	start := plan.Placed("ragout/brown").Start
	p.Work = []planner.Work{{Task: "ragout/brown", Progress: planner.Started, Start: &start, Person: "ines"}}
	why, err := check.Why(p, plan, "ragout/brown")
	if err != nil || !why.Earliest.Equal(start) || !why.Latest.Equal(start) {
		t.Errorf("got %+v, %v, want no room: it has begun", why, err)
	}
	if _, err := check.Why(p, plan, "ragout/freeze"); err == nil {
		t.Error("a task that is not in the plan has reasons")
	}
}
