package reminders

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/store"
)

// TestLeads: who works with hands hears five minutes before, who goes out half an hour before, the others on time; and
// who takes part, that another is in charge.
func TestLeads(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(p *planner.Party)
		due  time.Time
	}{
		{"hands", func(*planner.Party) {}, at(9, 55)},
		{"hands, elsewhere", func(p *planner.Party) { p.Dishes[0].Steps[0].Away = true }, at(9, 30)},
		{"a watch", func(p *planner.Party) { p.Dishes[0].Steps[0].Attention = planner.Watch }, at(10, 0)},
	} {
		p, plan := tart()
		plan.Placed("pear-tart/rub").People = []planner.PersonKey{"ada", "ben"}
		c.do(p)
		list := each(p, plan)
		first, second := find(t, list, "due/pear-tart/rub/ada"), find(t, list, "due/pear-tart/rub/ben")
		for _, r := range []store.Reminder{first, second} {
			if !r.Due.Equal(c.due) || !r.At.Equal(at(10, 0)) || !strings.Contains(r.Text, "Ada and Ben together") {
				t.Errorf("%s: %v, %q", c.name, r.Due, r.Text)
			}
		}
		const charge = "Ada is in charge."
		if strings.Contains(first.Text, charge) || !strings.Contains(second.Text, charge) {
			t.Errorf("%s: who is in charge is told so: %q, %q", c.name, first.Text, second.Text)
		}
		// The last moment: Ben shops from 11:00; without hands, the pastry is cold for an hour by 16:00.
		if last := map[bool]time.Time{true: at(10, 40), false: at(14, 40)}[c.name != "a watch"]; !first.Until.Equal(last) {
			t.Errorf("%s: of use until %v", c.name, first.Until)
		}
	}
}

// TestLastMomentIsWorthTelling: from a quarter of an hour of room on.
func TestLastMomentIsWorthTelling(t *testing.T) {
	for minutes, want := range map[int]int{14: 0, 15: 1, 16: 1} {
		p, plan := tart()
		plan.Placed("pear-tart/bake").Start = at(16, 20+minutes) // the rolling ends at 16:20
		n := 0
		for _, r := range byKind(each(p, plan), Last) {
			if r.Task == "pear-tart/roll" {
				n++
				if !r.Due.Equal(at(16, minutes)) || !r.Until.Equal(at(16, minutes+20)) {
					t.Errorf("%d minutes of room: at %v until %v", minutes, r.Due, r.Until)
				}
			}
		}
		if n != want {
			t.Errorf("%d minutes of room: told %d times, want %d", minutes, n, want)
		}
	}
}

// TestOvenStaysOn: over a pause of up to 45 minutes an oven is left on, so that a load at the same setting asks for
// nothing; after a longer one it is cold.
func TestOvenStaysOn(t *testing.T) {
	for _, c := range []struct {
		pause, celsius int
		want           []string // when it is to be set, and how
	}{
		{0, 180, nil}, {45, 180, nil}, {46, 180, []string{"18:46 Turn the oven on"}},
		{10, 200, []string{"18:17 Turn the oven up"}}, {5, 200, []string{"18:15 Turn the oven up"}},
		{10, 130, []string{"18:15 Turn the oven down"}}, {46, 200, []string{"18:44 Turn the oven on"}},
	} {
		p, plan := tart()
		p.Kitchen.Ovens = []planner.Oven{{Name: "oven", Shelves: 2, MinC: 50, MaxC: 250, Preheat: 15, Rise: 20, Fall: 20}}
		p.Chores = append(p.Chores, planner.Chore{Key: "warm", Do: "Warm the plates", Attention: planner.Unattended,
			Time: span(5)})
		start := at(18, 15+c.pause)
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: "warm", Start: start, End: start.Add(5 * time.Minute),
			People: []planner.PersonKey{"ada"}, Uses: []planner.Held{{What: planner.AnOven, Name: "oven", Amount: 1,
				C: c.celsius, From: start, To: start.Add(5 * time.Minute)}}})
		var got []string
		for _, r := range byKind(each(p, plan), Preheat) {
			if r.Task == "warm" {
				first, _, _ := strings.Cut(r.Text, " to ")
				got = append(got, r.Due.In(p.Location()).Format("15:04 ")+first)
				if r.Person != "ada" || !r.At.Equal(start) || strings.Contains(r.Text, "cold oven") {
					t.Errorf("%d minutes' pause: %+v", c.pause, r)
				}
			}
		}
		heat := p.Kitchen.Ovens[0].PreheatTo(c.celsius)
		if c.pause == 46 { // from cold
			c.want = []string{start.Add(-heat.Duration()).In(p.Location()).Format("15:04 ") + "Turn the oven on"}
		}
		if strings.Join(got, ", ") != strings.Join(c.want, ", ") {
			t.Errorf("%d minutes' pause, %d °C: got %q, want %q", c.pause, c.celsius, got, c.want)
		}
	}
}

// TestOvenAfterStages: the next load finds the oven as the step before it left it, and not as that began: off, lower or
// higher.
func TestOvenAfterStages(t *testing.T) {
	for _, c := range []struct {
		left, celsius int
		want          string
	}{{150, 170, "Turn the oven up to 170 °C"}, {220, 200, "Turn the oven down to 200 °C"}, {150, 150, ""},
		{0, 180, "Turn the oven on to 180 °C"}} {
		p, plan := tart()
		p.Kitchen.Ovens = []planner.Oven{{Name: "oven", Shelves: 2, MinC: 50, MaxC: 250, Preheat: 15, Rise: 20, Fall: 20}}
		p.Dishes[0].Steps[2].Uses[0].Then = []planner.HeatStage{{After: 15, C: c.left}}
		p.Chores = append(p.Chores, planner.Chore{Key: "warm", Do: "Warm the plates", Attention: planner.Unattended,
			Time: span(5)})
		start := plan.Placed("pear-tart/bake").End.Add(40 * time.Minute)
		plan.Tasks = append(plan.Tasks, planner.Placed{Task: "warm", Start: start, End: start.Add(5 * time.Minute),
			People: []planner.PersonKey{"ada"}, Uses: []planner.Held{{What: planner.AnOven, Name: "oven", Amount: 1,
				C: c.celsius, From: start, To: start.Add(5 * time.Minute)}}})
		got := ""
		for _, r := range byKind(each(p, plan), Preheat) {
			if strings.HasPrefix(r.Key, "preheat/warm/") {
				got, _, _ = strings.Cut(r.Text, " now")
			}
		}
		if got != c.want {
			t.Errorf("left at %d, wanted at %d: %q, want %q", c.left, c.celsius, got, c.want)
		}
	}
}

// TestStagesFollowTheStart: a change of temperature comes so long after the step has begun, and not once it is over.
func TestStagesFollowTheStart(t *testing.T) {
	for _, c := range []struct {
		work planner.Work
		want []string
	}{
		{planner.Work{}, []string{"17:45 Turn the oven down to 150 °C now.", "17:55 Turn the oven up to 190 °C now.",
			"18:05 Turn the oven off now."}},
		{planner.Work{Progress: planner.Started, Start: instantOf(at(17, 40))}, []string{
			"17:55 Turn the oven down to 150 °C now.", "18:05 Turn the oven up to 190 °C now.",
			"18:15 Turn the oven off now."}},
		{planner.Work{Progress: planner.Done}, nil},
	} {
		p, plan := tart()
		p.Dishes[0].Steps[2].Uses[0].Then = []planner.HeatStage{{After: 15, C: 150}, {After: 25, C: 190}, {After: 35}}
		c.work.Task = "pear-tart/bake"
		p.Work = []planner.Work{c.work}
		var got []string
		for _, r := range each(p, plan) {
			if strings.HasPrefix(r.Key, "stage/") {
				first, _, _ := strings.Cut(r.Text, "\n")
				got = append(got, r.Due.In(p.Location()).Format("15:04 ")+first)
			}
		}
		if strings.Join(got, ", ") != strings.Join(c.want, ", ") {
			t.Errorf("%+v: got %q, want %q", c.work, got, c.want)
		}
	}
}
