package reminders

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/shopping"
	"tureen/planner/trace"
	"tureen/store"
)

// The kinds of reminder.
const (
	Session store.ReminderKind = "session" // several tasks, the first of which is to be started
	Due     store.ReminderKind = "due"     // a task is to be started
	TakeOut store.ReminderKind = "out"     // the same, and its food comes out of the cold
	Thawing store.ReminderKind = "thaw"    // a thaw is to be started
	ShopBy  store.ReminderKind = "shop"    // time to go shopping
	Bring   store.ReminderKind = "bring"   // what somebody has said they would bring
	Last    store.ReminderKind = "last"    // the last moment to start a task
	Check   store.ReminderKind = "check"   // is it done?
	See     store.ReminderKind = "see"     // a touch step's minute of hands
	Preheat store.ReminderKind = "preheat" // an oven is to be set
	Guests  store.ReminderKind = "guests"  // they come in half an hour
	Service store.ReminderKind = "service" // a course is served in a few minutes
	Go      store.ReminderKind = "go"      // the last of a course's final steps: is the table ready?
	Digest  store.ReminderKind = "digest"  // a person's next day
	// Unticked asks a host about what others have not ticked off.
	Unticked store.ReminderKind = "unticked"
	// Fallen tells that a dish is off the plan.
	Fallen store.ReminderKind = "fallen"
	// AtLimit asks about food that is about to pass its limit on the counter, and that nobody has gone on with.
	AtLimit store.ReminderKind = "limit"
	// Outdated tells a host what the plan breaks by newer tables of foods and limits.
	Outdated store.ReminderKind = "outdated"
	Told     store.ReminderKind = "told"   // what is somebody's in the plan: is it fine?
	Unsaid   store.ReminderKind = "unsaid" // to a host: who has not said that it is, or has said that it is not
)

// ForOne reports whether a kind of reminder is between tureen and one person: how far their own work is, what is
// theirs, what they may have forgotten. What begins, and what a course waits for, is for all who cook to see.
func ForOne(k store.ReminderKind) bool {
	switch k {
	case Check, See, Digest, Unticked, Outdated, Told, Unsaid:
		return true
	}
	return false
}

// How long before the instant it speaks of a reminder comes. Common practice, no source.
const (
	leadHands   = 5 * time.Minute
	leadAway    = 30 * time.Minute
	leadGuests  = 30 * time.Minute
	leadService = 5 * time.Minute
)

// For lists all reminders of a party, past and to come, by due instant and key. Without a plan only those
// that the party itself gives are there. A reminder whose Person is empty is for everybody, in the
// party's channel.
func For(p *planner.Party, plan *planner.Plan) []store.Reminder {
	v := see(p, plan)
	return v.inOrder(v.gather(v.each(plan), plan))
}

// each lists what every task, oven, course and day wants by itself.
func (v *view) each(plan *planner.Plan) []store.Reminder {
	p := v.p
	out := v.party()
	if plan != nil {
		for i := range v.plan.Tasks {
			of := v.task(&v.plan.Tasks[i])
			if p.Unaccepted(plan, &plan.Tasks[i]) {
				for n := range of {
					of[n].Text += fmt.Sprintf("\nMeant for %s, who has not said yes.", v.name(plan.Tasks[i].People[0]))
				}
			}
			out = append(out, of...)
		}
		out = append(out, v.goes()...)
		out = append(out, v.ovens()...)
		out = append(out, v.digests()...)
		out = append(out, v.brings()...)
		out = append(out, append(v.atLimits(), v.notCold()...)...)
		out = append(out, v.outdated()...)
		out = append(out, v.told(plan)...)
		out = append(out, v.untickedOfAll()...)
		out = append(out, v.fallen()...)
	}
	return out
}

// inOrder keeps people's quiet hours, and sorts.
func (v *view) inOrder(out []store.Reminder) []store.Reminder {
	out = v.keepQuiet(out)
	slices.SortFunc(out, func(a, b store.Reminder) int {
		return cmp.Or(a.Due.Compare(b.Due), cmp.Compare(a.Key, b.Key))
	})
	return out
}

// view is a party and its plan, prepared for looking things up.
type view struct {
	p     *planner.Party
	plan  *planner.Plan
	zone  *time.Location
	tasks map[planner.TaskKey]*planner.Task
	at    map[planner.TaskKey]*planner.Placed
	list  *shopping.List            // made when it is asked for
	ages  *check.Ages               // likewise
	foods map[planner.DishKey]foods // of a dish, likewise
}

// foods is what is known of a dish's food.
type foods struct {
	trace *trace.Trace
	cold  []cooling.Going // what of it goes cold
}

// foodsOf follows a dish's food, once for all its tasks.
func (v *view) foodsOf(k planner.DishKey) foods {
	f, known := v.foods[k]
	if d := v.p.Dish(k); !known && d != nil {
		f = foods{trace.OfDish(v.p, d), cooling.Of(v.p, d)}
		v.foods[k] = f
	}
	return f
}

func see(p *planner.Party, plan *planner.Plan) *view {
	plan = accepted(p, plan)
	v := &view{p: p, plan: plan, zone: p.Location(), tasks: map[planner.TaskKey]*planner.Task{},
		at: map[planner.TaskKey]*planner.Placed{}, foods: map[planner.DishKey]foods{}}
	tasks := planner.Tasks(p)
	for i := range tasks {
		v.tasks[tasks[i].Key] = &tasks[i]
	}
	if plan != nil {
		for i := range plan.Tasks {
			v.at[plan.Tasks[i].Task] = &plan.Tasks[i]
		}
	}
	return v
}
