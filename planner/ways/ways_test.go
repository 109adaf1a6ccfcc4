package ways_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/cooling"
	"tureen/planner/recipe"
	"tureen/planner/solve"
	"tureen/planner/ways"
)

// supper is a party of a host alone with one dish read from a text, planned from four days before.
func supper(t *testing.T, text string) (*planner.Party, *planner.Dish, time.Time) {
	t.Helper()
	arrival := time.Date(2027, time.March, 13, 19, 0, 0, 0, time.UTC)
	p := &planner.Party{ID: 1, Name: "Supper", Zone: "UTC", Arrival: arrival, Covers: 6, PrepDays: 7,
		Kitchen: planner.HomeKitchen(), Courses: []planner.Course{{Key: "main", Name: "Main",
			Servings: []planner.Serving{{At: arrival.Add(time.Hour), Early: 10, Late: 15}}}},
		People: []planner.Person{{Key: "ana", Name: "Ana", Role: planner.Host,
			Cooks: planner.DayHours{From: 9 * 60, Until: 21*60 + 30}, Home: planner.DayHours{From: 0, Until: 24 * 60}}}}
	r, err := recipe.Read(text)
	if err != nil {
		t.Fatal(err)
	}
	d, _ := r.Dish("main", 0)
	p.Dishes = []planner.Dish{d}
	return p, &p.Dishes[0], arrival.AddDate(0, 0, -4)
}

const (
	braise = "Beef in ale\nServes 6\n1.2 kg stewing beef, cubed\n2 onions, sliced\n500 ml ale\n\n" +
		"Brown the beef for 10 minutes. Add the onions and the ale and cook in the oven at 160 °C for 2 hours. "
	soup = "Leek soup\nServes 6\n6 leeks, sliced\n1.2 l vegetable stock\n\n" +
		"Simmer the leeks in the stock for 20 minutes. Blend until smooth and season. Serve hot. "
	gratin = "Gratin\nServes 6\n1 kg potatoes\n500 ml cream\n\n" +
		"Slice the potatoes. Add the cream and bake at 180 °C for 60 minutes. "
	steak = "Steaks\nServes 6\n6 beef steaks\n2 tbsp oil\n\nFry the steaks in the oil for 6 minutes. Serve at once. "
	roast = "Roast beef\nServes 6\n2 kg beef rib\n2 tbsp oil\n\nRub the beef with the oil and roast at 180 °C for 90 " +
		"minutes. " +
		"Rest for 20 minutes. Carve and serve. "
	cod = "Cod with tomatoes\nServes 6\n1.2 kg cod fillet\n600 g tinned tomatoes\n200 ml fish stock\n1 onion, sliced\n\n" +
		"Simmer the onion with the tomatoes and the stock for 20 minutes. Lay in the cod, cover and simmer for 15 minutes. " +
		"Serve. "
	salad = "Rice salad\nServes 6\n300 g rice\n3 tbsp oil\n\nBoil the rice for 12 minutes and drain. Toss with the oil. " +
		"Serve cold. "
)

// TestChoice: which way is taken of which dish, by what it is and by what the recipe says.
func TestChoice(t *testing.T) {
	for _, row := range []struct {
		name, text string
		want       planner.Way
		change     func(p *planner.Party)
	}{
		{"a braise", braise, planner.MadeAhead, nil},
		{"a braise that is better the next day", braise + "Better the next day.", planner.MadeAhead, nil},
		{"a soup", soup, planner.MadeAhead, nil},
		{"a soup, says the recipe", soup + "Can be made two days ahead.", planner.MadeAhead, nil},
		{"a gratin, which loses a little", gratin, planner.ForService, nil},
		{"a gratin, as much as can be", gratin, planner.MadeAhead, func(p *planner.Party) {
			p.Ahead = planner.AsMuchAsCanBe
		}},
		{"steaks", steak, "", nil},
		{"a roast", roast, "", nil},
		{"fish", cod, "", nil},
		{"what is cold", salad, "", nil},
		{"nothing ahead", braise, planner.ForService, func(p *planner.Party) { p.Ahead = planner.SameDay }},
		{"nobody there before", braise, planner.ForService, func(p *planner.Party) {
			p.PrepDays = 0
			p.People[0].Cooks.From, p.People[0].Home.From = 15*60, 15*60
		}},
		{"as the host has it", braise, planner.ForService, func(p *planner.Party) { p.Dishes[0].Way = planner.ForService }},
	} {
		p, d, now := supper(t, row.text)
		if row.change != nil {
			row.change(p)
		}
		got := ways.Of(p, d, now)
		if got.Way != row.want || (got.Why == "") != (row.want == "") {
			t.Errorf("%s: %q, since %q; want %q", row.name, got.Way, got.Why, row.want)
		}
	}
}

// TestFinish: what is made ahead waits in the cold until it is cold through and is made hot again; for service nothing
// of that is done; and a party can be planned in each way, with every rule kept.
func TestFinish(t *testing.T) {
	for _, text := range []string{braise, braise + "Better the next day. Reheat slowly for 20 minutes and serve.",
		soup + "Can be made two days ahead.", gratin, braise + "Cool and chill overnight. Reheat for 30 minutes and serve."} {
		for _, way := range []planner.Way{planner.MadeAhead, planner.ForService, planner.MadeAhead} {
			p, d, now := supper(t, text)
			d.Way = way
			ways.Renew(p, now)
			again := slices.IndexFunc(d.Steps, func(s planner.Step) bool {
				return strings.HasPrefix(s.Do, "Reheat")
			})
			if d.Taken == "" {
				continue // "chill overnight" says when it is made
			}
			if d.Taken != way || (again >= 0) != (way == planner.MadeAhead) {
				t.Errorf("%q, %s: made %q, hot again by step %d", text, way, d.Taken, again)
				continue
			}
			plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now, FirstOnly: true})
			if err != nil || clash != nil {
				t.Errorf("%q, %s: no plan: %v %v", text, way, err, clash)
				continue
			}
			if broken := check.Plan(p, plan); len(broken) > 0 {
				t.Errorf("%q, %s: %v", text, way, broken)
			}
			if again >= 0 {
				s := &d.Steps[again]
				from := plan.Placed(planner.StepTask(d.Key, s.After[0].Step, 1))
				if wait := plan.Placed(planner.StepTask(d.Key, s.Key, 1)).Start.Sub(from.End); wait < 3*time.Hour {
					t.Errorf("%q: reheated %v after it was made", text, wait)
				}
			}
			d.Way = planner.ForService
			ways.Renew(p, now)
			if way == planner.ForService && ways.Take(p, d, way) {
				t.Errorf("%q: taking the same way again changed something", text)
			}
			d.AsRead, d.Taken, d.Way = nil, "", ""
		}
	}
}

// TestOwnReheating: what a recipe warms up after blending, though nothing cooled it, waits in the cold between the two
// where it is made ahead, and nothing makes it hot a second time.
func TestOwnReheating(t *testing.T) {
	p, d, now := supper(t, braise+"Reheat for 10 minutes. Can be made two days ahead.")
	d.Way = planner.ForService
	if ways.Renew(p, now); d.Taken != d.Way || strings.HasPrefix(d.Steps[len(d.Steps)-1].Do, "Reheat") {
		t.Errorf("from the fire, made %q, it is heated again: %+v", d.Taken, d.Steps)
	}
	for _, end := range []string{"Can be made two days ahead.", ""} {
		for _, way := range []planner.Way{planner.MadeAhead, planner.ForService} {
			p, d, now := supper(t, soup+"Blend until smooth. Reheat for 10 minutes. "+end)
			d.Way = way
			ways.Renew(p, now)
			last := d.Steps[len(d.Steps)-1]
			if d.Taken != way || !strings.HasPrefix(last.Do, "Reheat") || last.Serve == nil ||
				last.Serve.State == planner.Refrigerator {
				t.Fatalf("%q, %s: made %q, ends with %+v", end, way, d.Taken, last)
			}
			if chilled := last.After[0].Wait.State == planner.Refrigerator; chilled != (way == planner.MadeAhead) {
				t.Errorf("%q, %s: waits %+v before it is hot again", end, way, last.After[0].Wait)
			}
			if slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return s.Finish }) {
				t.Errorf("%q, %s: made hot again twice", end, way)
			}
		}
	}
}

// TestHostsWord: a step that the hosts have changed stays as they have it, and what somebody has begun is not made in
// another way.
func TestHostsWord(t *testing.T) {
	p, d, now := supper(t, soup)
	ways.Renew(p, now)
	at := slices.IndexFunc(d.Steps, func(s planner.Step) bool { return s.Finish })
	if at < 0 {
		t.Fatal("the soup is not finished")
	}
	d.Steps[at].Do, d.Steps[at].Finish = "Reheat it on the wood stove", false
	p.Ahead = planner.SameDay
	ways.Renew(p, now)
	if s := d.Step(planner.StepKey("finish")); s != nil && s.Do != "Reheat it on the wood stove" {
		t.Errorf("the hosts' step became %+v", s)
	}
	p, d, now = supper(t, soup)
	ways.Renew(p, now)
	p.Work = []planner.Work{{Task: planner.StepTask(d.Key, d.Steps[0].Key, 1), Progress: planner.Started}}
	p.Ahead = planner.SameDay
	if changed := ways.Renew(p, now); len(changed) > 0 || d.Taken != planner.MadeAhead {
		t.Errorf("a dish that is begun is made %s", d.Taken)
	}
}

// TestNotMadeInTime: what was to be made ahead and was not is served as it comes, while it is not in the cold.
func TestNotMadeInTime(t *testing.T) {
	for _, row := range []struct {
		done int // so many steps
		want planner.Way
	}{{0, planner.ForService}, {1, planner.ForService}, {9, planner.MadeAhead}} {
		p, d, now := supper(t, soup)
		ways.Renew(p, now)
		at := slices.IndexFunc(d.Steps, func(s planner.Step) bool { return s.Finish })
		for i := range d.Steps[:min(row.done, at)] {
			p.Work = append(p.Work, planner.Work{Task: planner.StepTask(d.Key, d.Steps[i].Key, 1), Progress: planner.Done})
		}
		ways.Renew(p, p.Arrival.Add(-2*time.Hour))
		if d.Taken != row.want {
			t.Errorf("two hours before, %d steps done: made %s, want %s", row.done, d.Taken, row.want)
		}
	}
}

// TestNoLaterForAhead: a recipe that says "two days ahead" is never planned later than without it.
func TestNoLaterForAhead(t *testing.T) {
	for _, text := range []string{braise, soup, gratin} {
		var late []int
		for _, said := range []string{"", "Can be made two days ahead."} {
			p, _, now := supper(t, text+said)
			ways.Renew(p, now)
			plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now})
			if err != nil || clash != nil {
				t.Fatalf("%q: %v %v", text+said, err, clash)
			}
			for _, l := range plan.Levels {
				if l.Name == planner.Ahead {
					late = append(late, l.Value)
				}
			}
		}
		if late[1] > late[0] {
			t.Errorf("%q: work ahead is at %d as it is, at %d with “two days ahead”", text, late[0], late[1])
		}
	}
}

// TestPutTogetherOnTheEve: what is put together of hot parts and baked waits between the two in shallow dishes, and is
// not baked, chilled and made hot once more; from the cold it bakes a quarter of an hour longer. For service it goes
// straight on. What is browned under the grill on top of a soup waits before that.
func TestPutTogetherOnTheEve(t *testing.T) {
	const lasagne = "Lasagne\nServes 6\n1 kg minced beef\n800 g tinned tomatoes\n400 g lasagne sheets\n60 g butter\n" +
		"60 g flour\n1 l milk\n\nFry the beef for 15 minutes, add the tomatoes and simmer for 40 minutes. Melt the butter, " +
		"stir in the flour and the milk and cook for 5 minutes. " +
		"Layer the meat, the lasagne sheets and the sauce in a dish. " +
		"Bake at 180 °C for 45 minutes."
	p, d, now := supper(t, lasagne)
	ways.Renew(p, now)
	find := func(of string) *planner.Step {
		i := slices.IndexFunc(d.Steps, func(s planner.Step) bool { return strings.HasPrefix(s.Do, of) })
		if i < 0 {
			t.Fatalf("no step %q among %+v", of, d.Steps)
		}
		return &d.Steps[i]
	}
	bake := find("Bake")
	if w := bake.After[0].Wait; d.Taken != planner.MadeAhead || bake.Time.Likely != 60 ||
		w.State != planner.Refrigerator || w.Least != 6*60 ||
		slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return s.Finish }) {
		t.Errorf("%s: %+v", d.Taken, d.Steps)
	}
	g, ok := cooling.At(cooling.Of(p, d), find("Layer"))
	if want := "Let the lasagne steam off in 2 shallow dishes, no deeper than"; !ok || !strings.HasPrefix(g.Do(), want) {
		t.Errorf("%q, want %q", g.Do(), want)
	}
	ways.Take(p, d, planner.ForService)
	if bake = find("Bake"); bake.Time.Likely != 45 || bake.After[0].Wait.State != planner.Counter {
		t.Errorf("for service: %+v", bake)
	}

	p, d, now = supper(t, "Onion soup\nServes 6\n1.5 kg onions\n80 g butter\n2 l beef stock\n8 slices toast\n"+
		"200 g gruyere\n\n"+
		"Slice the onions. Cook in the butter for 45 minutes. Add the stock and simmer for 30 minutes. Top with the toast "+
		"and the gruyere and grill for 5 minutes.")
	ways.Renew(p, now)
	if again := find("Reheat"); d.Taken != planner.MadeAhead || find("Top").After[0].Step != again.Key {
		t.Errorf("%s: %+v", d.Taken, d.Steps)
	}
}
