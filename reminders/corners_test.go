package reminders

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// TestUntickedToTheMinute: what ends by the time of the next task's reminder is asked about there, and nothing that
// ends a minute later; of others' work the host hears of what ended half an hour before they are asked, 45 minutes
// before the guests come at seven.
func TestUntickedToTheMinute(t *testing.T) {
	for _, c := range []struct {
		ends  time.Time
		ben   bool // asked with the baking at 17:30, of which he hears then
		ada   bool // asked about all
		first planner.PersonKey
	}{
		{at(17, 30), true, true, "ben"}, {at(17, 31), false, true, "ben"}, {at(17, 45), false, true, "ben"},
		{at(17, 46), false, false, "ben"}, {at(11, 30), false, false, "ada"}, {at(11, 30), false, false, ""},
	} {
		p, plan := tart()
		plan.Tasks[1].End = c.ends
		if plan.Tasks[1].People = nil; c.first != "" {
			plan.Tasks[1].People = []planner.PersonKey{c.first, "ben"}
		}
		list := For(p, plan)
		ben := slices.Contains(see(p, plan).unticked("ben", plan.Placed("pear-tart/bake"), at(17, 30)), "buy cream")
		ada := false
		for _, r := range byKind(list, Unticked) {
			ada = ada || strings.Contains(r.Text, "Buy cream (Ben)")
			if r.Person != "ada" || !r.Due.Equal(at(18, 15)) || !r.At.Equal(r.Due) || !r.Until.Equal(p.Arrival) {
				t.Errorf("%+v", r)
			}
		}
		if ben != c.ben || ada != c.ada {
			t.Errorf("%v of %s: Ben is asked %v, want %v; the host %v, want %v", c.ends, c.first, ben, c.ben, ada, c.ada)
		}
		p.Chores[0].Kind = planner.Cool
		for _, r := range For(p, plan) {
			if strings.Contains(r.Text, "Not ticked off: buy cream") ||
				strings.Contains(r.Text, "uy cream (Ben)") {
				t.Errorf("hot food is asked about by itself: %s", r.Text)
			}
		}
	}
}

// TestAnswers: the host hears what somebody has answered, when they did.
func TestAnswers(t *testing.T) {
	p, plan := tart()
	asked := at(9, 0).Add(-96 * time.Hour)
	plan.Told = &asked
	plan.Answers = []planner.Answer{{Person: "ben", At: at(10, 0), Says: "Ben cannot bake."}}
	for _, r := range byKind(For(p, plan), Unsaid) {
		if r.Text == "Ben cannot bake." && r.Person == "ada" && r.Due.Equal(at(10, 0)) && r.At.Equal(r.Due) &&
			r.Until.Equal(p.Arrival) && len(r.Buttons) == 1 && r.Buttons[0].Do == "plan show party:1" {
			return
		}
	}
	t.Errorf("%q", told(For(p, plan)))
}

// TestNobodyHasSaidYesInTime: of that the host hears where others were told before the party's day; on the day itself
// what is told stands until somebody says no.
func TestNobodyHasSaidYesInTime(t *testing.T) {
	for _, c := range []struct {
		asked time.Time
		says  bool
	}{{at(0, 0).Add(-time.Minute), true}, {at(0, 0), false}} {
		p, plan := tart()
		plan.Told = &c.asked
		if got := len(byKind(For(p, plan), Unsaid)) > 0; got != c.says {
			t.Errorf("told at %v: the host hears %v", c.asked, got)
		}
	}
}

// TestConcerned: that a dish is off the plan concerns hosts, who has work of it and who cooks for its course; nobody
// else.
func TestConcerned(t *testing.T) {
	p, plan := tart()
	p.Dishes = append(p.Dishes, planner.Dish{Key: "fool", Name: "Fool", Course: "dessert"},
		planner.Dish{Key: "soup", Name: "Soup", Course: "starter", Steps: []planner.Step{{Key: "boil"}}})
	p.People = append(p.People, planner.Person{Key: "cleo", Name: "Cleo", Role: planner.CoHost})
	for _, c := range []struct {
		dish planner.DishKey
		who  planner.PersonKey
		set  func()
		want bool
	}{
		{"fool", "ada", nil, true}, {"fool", "ben", nil, true}, {"fool", "cleo", nil, false}, {"soup", "ben", nil, false},
		{"soup", "ada", nil, true},
		{"soup", "cleo", func() { p.Work = []planner.Work{{Task: "soup/boil", Person: "cleo"}} }, true},
		{"soup", "ben", nil, false}, {"pear-tart", "cleo", nil, false},
		{"fool", "ben", func() { plan.Tasks = plan.Tasks[1:2] }, false}, // only the shopping is theirs
	} {
		if c.set != nil {
			c.set()
		}
		v := see(p, plan)
		if got := v.concerned(p.Person(c.who), p.Dish(c.dish)); got != c.want {
			t.Errorf("%s concerns %s: %v", c.dish, c.who, got)
		}
	}
}

// TestServedOrWanted: a course comes when the plan says, else when it is wanted, else with the guests.
func TestServedOrWanted(t *testing.T) {
	p, plan := tart()
	plan.Served[0].At = at(21, 5)
	if got := see(p, plan).served("dessert"); !got.Equal(at(21, 5)) {
		t.Errorf("in the plan: %v", got)
	}
	plan.Served = nil
	if got := see(p, plan).served("dessert"); !got.Equal(at(21, 0)) {
		t.Errorf("wanted: %v", got)
	}
	p.Courses[0].Servings = nil
	for _, k := range []planner.CourseKey{"dessert", "starter"} {
		if got := see(p, plan).served(k); !got.Equal(p.Arrival) {
			t.Errorf("%s, nowhere: %v", k, got)
		}
	}
	v := see(p, plan)
	if v.course("starter") != "the course" || v.course("dessert") != "dessert" ||
		v.name("zoe") != "somebody who has left" ||
		v.name("ben") != "Ben" {
		t.Errorf("%q, %q, %q, %q", v.course("starter"), v.course("dessert"), v.name("zoe"), v.name("ben"))
	}
}

// TestQuestion: a sign of doneness is asked for with its dish, without what it ended in.
func TestQuestion(t *testing.T) {
	p, plan := tart()
	v := see(p, plan)
	for _, c := range []struct {
		task planner.TaskKey
		sign string
		want string
	}{
		{"pear-tart/bake", "Browned at the rim.", "Pear tart: browned at the rim?"},
		{"pear-tart/bake", "54 °C in the middle", "Pear tart: 54 °C in the middle?"},
		{"pear-tart/bake", "is it done?!", "Pear tart: is it done?"}, {"cream", "there is no more.", "There is no more?"},
	} {
		if got := words.PlainStamps(v.question(v.tasks[c.task], c.sign)); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// TestShopNamesFour: a reminder to go shopping names four things, and of five three and how many more there are; none
// where nothing is wanted, or there is no such way.
func TestShopNamesFour(t *testing.T) {
	p, plan := shopped()
	v := see(p, plan)
	if things, shop := v.toBuy("shop-supermarket"); !strings.HasSuffix(things, "flour and 2 more.") ||
		shop != "supermarket" {
		t.Errorf("five: %q at %q", things, shop)
	}
	p.Dishes[0].Ingredients = p.Dishes[0].Ingredients[1:]
	if things, _ := see(p, plan).toBuy("shop-supermarket"); strings.Contains(things, "more") ||
		strings.Count(things, ",") != 2 || !strings.HasPrefix(things, "Buy ") {
		t.Errorf("four: %q", things)
	}
	if things, shop := v.toBuy("shop-baker"); things != "" || shop != "" {
		t.Errorf("no such way: %q at %q", things, shop)
	}
	p.Dishes[0].Ingredients = nil
	if things, shop := see(p, plan).toBuy("shop-supermarket"); things != "" || shop != "" {
		t.Errorf("nothing is wanted: %q at %q", things, shop)
	}
}

// TestOvenOfNobody: an oven that nobody is to see to has nobody who is told to turn it on.
func TestOvenOfNobody(t *testing.T) {
	p, plan := tart()
	plan.Placed("pear-tart/bake").People = nil
	for _, r := range For(p, plan) {
		if r.Kind == Preheat {
			t.Errorf("%+v", r)
		}
	}
}
