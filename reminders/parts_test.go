package reminders

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
	"tureen/store"
)

// TestThingByWhatIsInIt: what is only made ready goes by up to three of its ingredients, and by its dish where there
// are more, or where it was cooked, is the dish's last step, or its only one.
func TestThingByWhatIsInIt(t *testing.T) {
	ready := planner.Step{Key: "chop", Do: "Chop"}
	for _, c := range []struct {
		name   string
		n      int // ingredients of the step
		change func(d *planner.Dish, s *planner.Step)
		want   string
	}{
		{"one", 1, nil, "the leek"}, {"three", 3, nil, "the leek, the carrot and the beet"},
		{"four", 4, nil, "what is ready for the leek soup"}, {"none", 0, nil, "the leek soup"},
		{"twice the same", 2, func(d *planner.Dish, _ *planner.Step) { d.Ingredients[1].Name = "Leek" }, "the leek"},
		{"cooked", 1, func(_ *planner.Dish, s *planner.Step) { s.Cooks = true }, "the leek soup"},
		{"after another", 1, func(_ *planner.Dish, s *planner.Step) { s.After = []planner.After{{Step: "boil"}} },
			"the leek soup"},
		{"the last", 1, func(d *planner.Dish, s *planner.Step) { s.Key = "boil" }, "the leek soup"},
		{"the only one", 1, func(d *planner.Dish, _ *planner.Step) { d.Steps = d.Steps[:1] }, "the leek soup"},
		{"with a name", 1, func(_ *planner.Dish, s *planner.Step) { s.Component = "base" }, "the base"},
	} {
		d := &planner.Dish{Name: "Leek soup", Steps: []planner.Step{ready, {Key: "boil"}}}
		for _, name := range []string{"Leek", "carrot", "beet", "potato"}[:c.n] {
			d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: name, Step: "chop"})
		}
		d.Ingredients = append(d.Ingredients, planner.Ingredient{Name: "salt", Step: "boil"})
		s := ready
		if c.change != nil {
			c.change(d, &s)
		}
		if got := thing(d, &s); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestOpeningIsCut: a first line that is too long ends at a word, and not in "and lay it".
func TestOpeningIsCut(t *testing.T) {
	for do, want := range map[string]string{
		"Roll it out": "Roll it out now.",
		"Roll the pastry out thinly and lay it on the beans that have been drained and cooled for hours": "Roll the pastry " +
			"out thinly now.",
	} {
		if got := opening(do, at(10, 0), 0, time.UTC); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	for _, c := range [][4]string{{"a and b and c", " and ", "a and b", "c"}, {"and b", " and ", "and b", ""},
		{"a", " and ", "a", ""}, {" and b", " and ", "", "b"}} {
		before, after, found := cutLast(c[0], c[1])
		if before != c[2] || after != c[3] || found != (strings.Contains(c[0], c[1])) {
			t.Errorf("%q: %q, %q, %t", c[0], before, after, found)
		}
	}
}

// TestMornings: it is morning at eight, or when somebody's quiet hours end, after midnight too.
func TestMornings(t *testing.T) {
	p, plan := tart()
	for _, c := range []struct {
		quiet planner.DayHours
		want  time.Time
	}{{planner.DayHours{}, at(8, 0)}, {planner.DayHours{From: 60, Until: 60}, at(8, 0)},
		{planner.DayHours{From: 22 * 60, Until: 9*60 + 30}, at(9, 30)}, {planner.DayHours{From: 22 * 60, Until: 24*60 + 30},
			at(0, 30)}} {
		if got := see(p, plan).morning(&planner.Person{Quiet: c.quiet}, at(15, 0)); !got.Equal(c.want) {
			t.Errorf("%v: %v, want %v", c.quiet, got, c.want)
		}
	}
}

// TestJustWorked: of food at its limit hears in their quiet hours whose last task ended in the two hours before.
func TestJustWorked(t *testing.T) {
	p, plan := tart()
	ada, ben := &p.People[0], &p.People[1]
	for _, c := range []struct {
		who  *planner.Person
		kind store.ReminderKind
		at   time.Time
		want bool
	}{
		{ada, AtLimit, at(16, 19), false}, {ada, AtLimit, at(16, 20), true}, {ada, AtLimit, at(18, 20), true},
		{ada, AtLimit, at(18, 21), false}, {ben, AtLimit, at(11, 30), true}, {ben, AtLimit, at(16, 20), false},
		{ada, Bring, at(16, 20), false},
	} {
		if got := see(p, plan).upFor(&store.Reminder{Kind: c.kind, Due: c.at}, c.who); got != c.want {
			t.Errorf("%s of %s at %v: %t", c.kind, c.who.Name, c.at, got)
		}
	}
}

// TestKindsOfChores: a thaw is told as one; of a list to tick, or time kept free, nobody gets a message.
func TestKindsOfChores(t *testing.T) {
	p, plan := tart()
	for kind, want := range map[planner.ChoreKind]store.ReminderKind{planner.Thaw: Thawing, planner.Shop: ShopBy,
		planner.Other: Due, planner.Cool: Due} {
		p.Chores[0].Kind = kind
		if got := find(t, each(p, plan), "due/cream/ben"); got.Kind != want {
			t.Errorf("%s is told as %s", kind, got.Kind)
		}
	}
	p.Chores[0].Quiet = true
	for _, r := range append(each(p, plan), For(p, plan)...) {
		if r.Task == "cream" {
			t.Errorf("%+v", r)
		}
	}
}

// TestTakenOut: who takes food out of the cold is asked whether it is out; other tasks are started.
func TestTakenOut(t *testing.T) {
	p, plan := tart()
	for key, want := range map[string]string{"due/pear-tart/roll/ada": "It is out", "due/pear-tart/rub/ada": "Started"} {
		if got := find(t, each(p, plan), key).Buttons[0].Label; got != want {
			t.Errorf("%s: %q, want %q", key, got, want)
		}
	}
}

// TestNobodyHosts: where nobody does, nobody is asked of others' tasks or told of newer tables.
func TestNobodyHosts(t *testing.T) {
	p, plan := tart()
	plan.Outdated = &planner.Outdated{At: at(9, 0), Breaks: []string{"It stands."}}
	if list := For(p, plan); len(byKind(list, Unticked)) != 1 || len(byKind(list, Outdated)) != 1 {
		t.Fatalf("%q", told(list))
	}
	p.People[0].Role = planner.CoHost
	if list := For(p, plan); len(byKind(list, Unticked)) != 0 || len(byKind(list, Outdated)) != 0 {
		t.Errorf("%q", told(list))
	}
	if list := For(p, nil); len(list) != 1 || list[0].Kind != Guests {
		t.Errorf("without a plan: %q", told(list))
	}
}

// TestGoesOnlyOnce: whoever is asked whether the table is ready is not told the same task besides, and others are.
func TestGoesOnlyOnce(t *testing.T) {
	p, plan := plated()
	count := func() (n int) {
		for _, r := range For(p, plan) {
			if r.Task == "pear-tart/pipe" && (begins(r.Kind) || r.Kind == Session) {
				n++
			}
		}
		return n
	}
	if n := count(); n != 0 {
		t.Errorf("told %d times besides", n)
	}
	plan.Placed("pear-tart/pipe").People = []planner.PersonKey{"ben", "ada"}
	if n := count(); n != 1 {
		t.Errorf("who helps is told %d times", n)
	}
}

// TestSeeToByKey: each time that a task wants its minute is a reminder of its own, by its number and person.
func TestSeeToByKey(t *testing.T) {
	p, plan := touching(20)
	for _, r := range byKind(each(p, plan), See) {
		if parts := strings.Split(r.Key, "/"); parts[0] != "see" || parts[len(parts)-1] != string(r.Person) ||
			strings.TrimPrefix(r.Key, "see/"+string(r.Task)+"/") == r.Key {
			t.Errorf("%s of %s", r.Key, r.Task)
		}
	}
}

// TestPlanThatIsOutOfDate: newer tables are held against plans that are in force, and not against one that its party
// has outgrown.
func TestPlanThatIsOutOfDate(t *testing.T) {
	s, snap := older(t, noon, 121, "older")
	snap.Party.Covers++
	snap, err := s.Save(t.Context(), home, store.Change{Base: snap.Revision, Actor: ada, At: noon, What: "more guests",
		Party: snap.Party, Plan: snap.Plan, Reminders: For(&snap.Party, snap.Plan)})
	if err != nil || snap.Plan.Revision >= snap.Shaped {
		t.Fatal(snap.Plan.Revision, snap.Shaped, err)
	}
	d := &Dispatcher{Store: s, Deliverer: &post{}, Log: quietLog()}
	if _, err := d.Tick(t.Context(), noon); err != nil {
		t.Fatal(err)
	}
	after, err := s.Load(t.Context(), home, snap.Party.ID)
	if err != nil || after.Revision != snap.Revision || after.Plan.Outdated != nil {
		t.Errorf("revision %d, was %d (%v): %+v", after.Revision, snap.Revision, err, after.Plan.Outdated)
	}
	s, snap = older(t, noon, 121, "older")
	for _, id := range []planner.PartyID{snap.Party.ID + 1, snap.Party.ID} {
		err := (&Dispatcher{Store: s}).recheckOne(t.Context(), store.OfCommunity{Community: home, Party: id}, noon)
		if (err != nil) != (id != snap.Party.ID) {
			t.Errorf("party %d: %v", id, err)
		}
	}
	if after, err = s.Load(t.Context(), home, snap.Party.ID); err != nil || after.Plan.Tables != check.Tables() {
		t.Errorf("tables %q (%v)", after.Plan.Tables, err)
	}
}

// TestShopsMayBeShut: where nobody has said when a shop shuts, the last moment says what was taken.
func TestShopsMayBeShut(t *testing.T) {
	p, plan := tart()
	p.Chores[0].By, p.Chores[0].Open = nil, planner.DayHours{From: 9 * 60, Until: 13 * 60}
	for proposed, want := range map[bool]string{true: "shops may be shut (", false: "it is shut by then"} {
		p.Chores[0].Proposed = proposed
		v := see(p, plan)
		last, then := v.lastStart(v.tasks["cream"], plan.Placed("cream"))
		if !last.Equal(at(12, 30)) || !strings.HasPrefix(words.PlainStamps(then), want) {
			t.Errorf("proposed %t: %v, %q", proposed, last, then)
		}
	}
}
