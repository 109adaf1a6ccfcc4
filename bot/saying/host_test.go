package saying

import (
	"slices"
	"testing"
	"time"
)

// TestHostsEvening: what hosts say as an evening goes on, of a lamb that is browned first and then goes into the oven.
func TestHostsEvening(t *testing.T) {
	v := supper()
	for i := range v.Tasks {
		v.Tasks[i].Oven = v.Tasks[i].Heat && (v.Tasks[i].Key == "potato-gratin/bake" || v.Tasks[i].Key == "bread-rolls/bake")
	}
	at := v.Now.Add(10 * time.Minute)
	v.Dishes = append(v.Dishes, Dish{"beef-braise", "Beef braise", "main"})
	v.Tasks = append(v.Tasks,
		Task{Key: "beef-braise/brown", Do: "Brown the beef", Dish: "beef-braise", Who: "Noor", Heat: true, At: at},
		Task{Key: "beef-braise/braise", Do: "Braise the beef", Dish: "beef-braise", Who: "Noor", Heat: true, Oven: true,
			At: at.Add(20 * time.Minute)},
		Task{Key: "leftovers", Do: "Put the leftovers into the refrigerator", Who: "Noor", Cools: "leftovers",
			At: at.Add(4 * time.Hour)})
	for _, c := range []struct {
		text, want string
		act        Act
	}{
		{"the beef is in the oven", "/task start task:beef-braise/braise", Tick},
		{"braise is in", "/task start task:beef-braise/braise", Tick},
		{"beef is on the hob", "/task start task:beef-braise/brown", Tick},
		{"put the beef on the stove", "/task start task:beef-braise/brown", Tick},
		{"starter served", "/task done task:starter", Ask},
		{"we've served the starter", "/task done task:starter", Ask},
		{"the soup is served", "/task done task:pumpkin-soup", Ask},
		{"main's on the table", "/task done task:main", Ask},
		{"guests are here", "/now", Look},
		{"the guests have arrived", "/now", Look},
		{"everybody's here", "/now", Look},
		{"leftovers are in the fridge", "/task done task:leftovers", Tick},
		{"put the leftovers in the fridge", "/task done task:leftovers", Tick},
		{"everything up to now is done", "/task caught-up", Ask},
		{"everything's done so far", "/task caught-up", Ask},
		{"all done up to here", "/task caught-up", Ask},
		{"we're caught up", "/task caught-up", Ask},
	} {
		if a := Read(c.text, v); a.Do != c.want || a.Act != c.act {
			t.Errorf("%s: got %q (%d), want %q (%d); near %v", c.text, a.Do, a.Act, c.want, c.act, a.Near)
		}
	}
	v.Last = Last{Kind: Goes, Task: "roast-lamb/carve"}
	v.Tasks[slices.IndexFunc(v.Tasks, func(t Task) bool { return t.Key == "roast-lamb/carve" })].Who = "Noor"
	for text, want := range map[string]string{"main now": "/task start task:roast-lamb/carve",
		"ten more minutes": "/late task:roast-lamb/carve by:10", "not yet": "/late task:roast-lamb/carve by:10",
		"give me 5 more": "/late task:roast-lamb/carve by:5"} {
		if a := Read(text, v); a.Do != want {
			t.Errorf("the course goes; %s: got %q, want %q; near %v", text, a.Do, want, a.Near)
		}
	}
	v.Last = Last{}
	for _, text := range []string{"the starter isn't served yet", "are the guests here?",
		"the guests aren't here yet", "not everything is done so far", "is the starter served?"} {
		if a := Read(text, v); a.Act > Look && a.Act != Chat {
			t.Errorf("%s: got %q (%d)", text, a.Do, a.Act)
		}
	}
}
