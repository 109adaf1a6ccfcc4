package partygen

import (
	"slices"
	"time"

	"tureen/planner"
	"tureen/planner/safety"
)

// Tiny makes a party of two or three tasks whose people cook for some minutes only, so that every plan of it
// can be listed, and the instant at which it is planned. It is made to be tight: about half have no plan.
// Each person's hours are given by the day, so that they end when they say.
func Tiny(d Dice) (*planner.Party, time.Time) {
	g := &drawing{Dice: d}
	arrival := time.Date(2026, time.September, 26, 18, 0, 0, 0, time.UTC)
	g.p = &planner.Party{ID: 1, Name: "Tiny", Zone: "UTC", Arrival: arrival, Covers: pick(d, 2, 4), PrepDays: 1}
	t := &tiny{drawing: g, day: 24 * 60}
	t.hours()
	t.kitchen()
	t.courses()
	for n := d.Roll(2, 3); n > 0; {
		n -= t.dish(n)
	}
	for i := range g.p.Dishes {
		g.carryPartCooked(&g.p.Dishes[i])
	}
	t.finishPartCooked()
	for i := range g.p.Dishes {
		g.made(&g.p.Dishes[i], 55)
	}
	g.neverChilled()
	if chance(d, 25) {
		t.chore()
	}
	if chance(d, 15) {
		all := planner.Tasks(g.p)
		g.p.Work = []planner.Work{{Task: all[d.Roll(0, len(all)-1)].Key,
			Person: g.p.People[d.Roll(0, len(g.p.People)-1)].Key}}
	}
	t.ahead()
	return g.p, arrival.Add(-t.before.Duration())
}

// tiny counts minutes from the midnight before the party's day minus a day.
type tiny struct {
	*drawing
	day    planner.Minutes // of the party, from the prep day's midnight
	before planner.Minutes // from planning to the arrival
	last   planner.Minutes // the start of the last window
	late   bool            // there is a window on the evening before
	length planner.Minutes
}

// hours gives everybody a short window before service, and some of them one earlier.
func (t *tiny) hours() {
	g := t.drawing
	t.last, t.length = 18*60+minutes(g, 0, 20), minutes(g, 6, 11)
	windows := []planner.DayHours{{From: t.last, Until: t.last + t.length}}
	t.before = minutes(g, 3, 5) // some minutes before the first window, for preheating
	party, prep := "2026-09-26", "2026-09-25"
	start := t.last
	var eve []planner.DayHours
	switch g.Roll(1, 5) {
	case 1, 2: // about two hours earlier, so that food stands on the counter for as long as it may,
		// or, a quarter of the time, four, for raw dough and for what is raw for two hours and cooked for two
		start = t.last - minutes(g, 100, 125)
		windows = append(windows, planner.DayHours{From: start, Until: start + minutes(g, 3, 6)})
		if chance(g, 25) {
			start = t.last - minutes(g, 220, 245)
			windows = append(windows, planner.DayHours{From: start, Until: start + minutes(g, 3, 6)})
		}
		t.before += 18*60 - start
	case 3: // the evening before, where five-minute marks count
		from := 21*60 + minutes(g, 50, 58)
		eve, t.late = []planner.DayHours{{From: from, Until: from + minutes(g, 8, 22)}}, true
		t.before += 42*60 - from
	case 4: // a day earlier, so that food is in the refrigerator for as long as it may
		from := t.last + t.length - minutes(g, 4, 12)
		eve = []planner.DayHours{{From: from, Until: from + minutes(g, 3, 8)}}
		t.before += 42*60 - from
	default:
		t.before += 18*60 - start
	}
	for i, key := range []planner.PersonKey{"ana", "ben"}[:g.Roll(1, 2)] {
		x := planner.Person{Key: key, Name: string(key), Role: planner.CoHost}
		if i == 0 || chance(g, 30) {
			x.Role = planner.Host
		}
		mine := windows
		if i > 0 {
			mine = windows[:g.Roll(1, len(windows))]
			if chance(g, 30) {
				mine = []planner.DayHours{{From: t.last + 2, Until: t.last + t.length}}
			}
		}
		home := []planner.DayHours{{From: t.last - 2, Until: t.last + minutes(g, 5, 15)}}
		x.Days = []planner.OtherDay{{Date: party, Cooks: mine, Home: home}, {Date: prep, Cooks: eve}}
		if chance(g, 50) {
			x.Skills = []string{"pastry"}
		}
		g.p.People = append(g.p.People, x)
	}
}

// ahead draws what makes work ahead better or worse: the hosts' wish, an evening that ends about half past nine, a
// morning that begins about seven, one two days before.
func (t *tiny) ahead() {
	g := t.drawing
	if chance(g, 75) { // else the usual hours of the days before bind
		g.p.WorkHours = planner.DayHours{From: minutes(g, 0, 420), Until: minutes(g, 21*60+20, 24*60)}
	}
	if chance(g, 30) {
		g.p.Ahead = pick(g, planner.AsMuchAsCanBe, planner.SameDay)
	}
	if !t.late || chance(g, 40) {
		return
	}
	sooner := pick(g, minutes(g, 25, 35), minutes(g, 25, 35), 14*60+55)
	date := "2026-09-25"
	if chance(g, 40) {
		g.p.PrepDays, date = 2, "2026-09-24"
		t.before += 24 * 60
	}
	t.before += sooner
	for i := range g.p.People {
		day := &g.p.People[i].Days[1]
		day.Date, day.Cooks = date, slices.Clone(day.Cooks) // they are one list for all
		for k := range day.Cooks {
			day.Cooks[k].From, day.Cooks[k].Until = day.Cooks[k].From-sooner, day.Cooks[k].Until-sooner
		}
	}
}

func (t *tiny) kitchen() {
	g := t.drawing
	g.p.Kitchen = planner.Kitchen{
		Ovens:   []planner.Oven{{Name: "oven", Shelves: g.Roll(1, 2), MinC: 50, MaxC: 200, Preheat: 4, Rise: 2, Fall: 3}},
		Burners: g.Roll(1, 2), Counter: 1, Vessels: []planner.Ware{{Name: "pan", Count: 1}},
		HotPlaces:    []planner.Ware{{Name: "tray", Count: 1}},
		Refrigerator: planner.Cold{Millilitres: 1000 * g.Roll(1, 3), Flat: 1},
		Freezer:      planner.Cold{Millilitres: 1000, Flat: 1},
	}
	if chance(g, 15) {
		g.p.Kitchen.Ovens = append(g.p.Kitchen.Ovens, planner.Oven{Name: "small oven", Shelves: 1, MinC: 50, MaxC: 160,
			Preheat: 3, Rise: 1, Fall: 2})
	}
	if chance(g, 10) {
		g.p.RoomTemperatureC = 33
	} else {
		g.p.Kitchen = given(g.p.Kitchen) // else the one flat place in the freezer is a guess
	}
}

func (t *tiny) courses() {
	g := t.drawing
	at := func(m planner.Minutes) time.Time {
		return time.Date(2026, time.September, 26, 0, int(m), 0, 0, time.UTC)
	}
	target := t.last + t.length + minutes(g, -2, 4)
	c := planner.Course{Key: "main", Name: "Main",
		Servings: []planner.Serving{{At: at(target), Early: minutes(g, 0, 1), Late: minutes(g, 0, 2)}}}
	if chance(g, 20) {
		c.Servings = append(c.Servings, planner.Serving{Group: "children", At: at(target - minutes(g, 0, 3)),
			Early: minutes(g, 0, 1), Late: minutes(g, 0, 1)})
	}
	g.p.Courses = []planner.Course{c}
	if chance(g, 15) {
		g.p.Courses = append(g.p.Courses, planner.Course{Key: "dessert", Name: "Dessert", Servings: []planner.Serving{
			{At: at(target + minutes(g, 0, 6)), Early: minutes(g, 0, 2), Late: minutes(g, 0, 1)}}})
	}
}

// dish adds a dish of at most so many tasks and says how many it has.
func (t *tiny) dish(most int) int {
	g := t.drawing
	d := planner.Dish{Key: dishKey(len(g.p.Dishes)), Name: "Dish", Course: g.course(), Serves: 2}
	tasks := 0
	for n := min(g.Roll(1, 3), most); tasks < n; {
		s := t.step(n - tasks)
		s.Key, s.Do = planner.StepKey([]string{"one", "two", "three"}[len(d.Steps)]), "Do it"
		if i := len(d.Steps) - 1; i >= 0 {
			a := planner.After{Step: d.Steps[g.Roll(max(i-1, 0), i)].Key}
			p := d.Step(a.Step)
			a.Wait = t.wait(p)
			if chance(g, 10) {
				a.FromStart, a.Wait = true, planner.Wait{State: planner.Counter, Least: minutes(g, 0, 3),
					Longest: pick[planner.Minutes](g, 0, 4)}
			}
			s.After = []planner.After{a}
			if !a.FromStart && chance(g, 10) && len(p.Uses) == 0 {
				p.Uses = []planner.Use{{What: planner.AVessel, Name: "pan", Through: s.Key}}
			}
		} else if len(g.p.Dishes) > 0 && chance(g, 25) {
			other := &g.p.Dishes[0]
			p := &other.Steps[g.Roll(0, len(other.Steps)-1)]
			s.After = []planner.After{{Dish: other.Key, Step: p.Key, Wait: t.wait(p)}}
		}
		if chance(g, 30) {
			w := t.wait(&s)
			s.Serve = &w
		}
		d.Steps = append(d.Steps, s)
		tasks += g.p.Fit(&d, &s).Rounds
	}
	g.p.Dishes = append(g.p.Dishes, d)
	return tasks
}

func (t *tiny) step(most int) planner.Step {
	g := t.drawing
	s := planner.Step{Attention: pick(g, planner.Hands, planner.Hands, planner.Hands, planner.Watch, planner.Touch,
		planner.Unattended), Time: Exactly(minutes(g, 1, 5)),
		Where: pick(g, planner.Counter, planner.Counter, planner.Heat, planner.Refrigerator)}
	if chance(g, 10) {
		s.Time = Exactly(minutes(g, 15, 17))
	}
	if s.Attention == planner.Touch {
		s.Every = 1
	}
	if s.Attention == planner.Hands {
		s.MaxHands = g.Roll(1, 2)
		if len(g.p.People) > 1 && chance(g, 10) {
			s.Hands, s.MaxHands = 2, 0
		}
		s.Away = chance(g, 10)
	}
	s.Leaves.Kind = safety.None
	if chance(g, 60) {
		s.Leaves = planner.Food{Perishable: true, Kind: pick(g, safety.Cooked, safety.WhippedCream)}
	}
	s.Leaves.Millilitres = 500 * g.Roll(0, 3)
	if chance(g, 15) {
		s.Leaves.Flat = 1
	}
	if g.p.Covers == 4 && most > 1 && chance(g, 15) {
		s.Grows, s.PerRound, s.RoundGap = planner.InRounds, 2, minutes(g, 0, 4)
	} else if chance(g, 15) {
		s.Grows = planner.InProportionToCovers
	}
	switch last := &g.p.People[len(g.p.People)-1]; {
	case chance(g, 15):
		s.Who.Person = last.Key
	case len(last.Skills) > 0 && chance(g, 15):
		s.Who.Skill = last.Skills[0]
	}
	if s.Where == planner.Heat {
		s.Cooks = chance(g, 70)
		switch g.Roll(1, 4) {
		case 1:
			s.Uses = []planner.Use{{What: planner.ABurner, Amount: g.Roll(1, g.p.Kitchen.Burners)}}
		case 2:
			s.Uses = []planner.Use{{What: planner.ABurner}, {What: planner.AVessel, Name: "pan"}}
		default:
			u := planner.Use{What: planner.AnOven, C: pick(g, 100, 120, 160), Tolerance: pick(g, 0, 0, 20, 30),
				Shut: s.Attention != planner.Touch && chance(g, 25)}
			if chance(g, 10) && s.Time.Likely > 1 {
				u.Then = []planner.HeatStage{{After: 1, C: pick(g, 80, 140)}}
				u.Tolerance = 0
			} else if chance(g, 8) {
				u.C, u.Tolerance = 0, 0
			}
			if most > 1 && s.Grows == planner.Fixed && chance(g, 20) {
				u.For = 2 // more covers take a second shelf, or a second round
			}
			s.Uses = []planner.Use{u}
			s.Leaves.PartCooked = s.Leaves.Perishable && chance(g, 15)
		}
	}
	return s
}

func (t *tiny) wait(p *planner.Step) planner.Wait {
	g := t.drawing
	w := planner.Wait{}
	state := g.Roll(1, 8)
	if p.Leaves.PartCooked && state > 2 && state < 8 {
		state = 2
	}
	switch state {
	case 1, 2:
		return w
	case 3, 4, 5:
		w.State = pick(g, planner.Counter, planner.Counter, planner.Warm)
	case 6:
		w.State = planner.Refrigerator
		if chance(g, 50) {
			return w // without limits but the clock's
		}
	case 7:
		w.State = planner.Freezer
	case 8:
		w.State = planner.HotHold
		if w.Hold = (&planner.Use{What: planner.AHotPlace, Name: "tray"}); chance(g, 40) {
			w.Hold = &planner.Use{What: planner.AnOven, C: 80, Tolerance: pick(g, 0, 10)}
		}
	}
	if chance(g, 30) {
		w.Least = minutes(g, 1, 3)
	}
	if chance(g, 30) {
		w.Longest = w.Least + pick[planner.Minutes](g, 1, 3, 110)
	}
	if chance(g, 20) {
		w.WorthUntil = w.Least + pick[planner.Minutes](g, 2, 100)
	}
	if chance(g, 35) {
		w.BestFrom = w.Least + minutes(g, 0, 3)
		w.BestUntil = w.BestFrom + pick[planner.Minutes](g, 1, 60)
	}
	return w
}

func (t *tiny) chore() {
	g := t.drawing
	c := planner.Chore{Key: "chore", Kind: pick(g, planner.Other, planner.Dress), Do: "Do a chore",
		Attention: pick(g, planner.Hands, planner.Unattended),
		Time:      Exactly(minutes(g, 1, 4))}
	first := g.p.Dishes[0].Key
	a := pick(g, planner.Anchor{Course: "main", Offset: -2, Within: minutes(g, 0, 6)},
		planner.Anchor{Task: planner.StepTask(first, g.p.Dishes[0].Steps[0].Key, 1), Within: minutes(g, 0, 4)},
		planner.Anchor{Arrival: true, Offset: t.last - 18*60 + t.length})
	if chance(g, 40) {
		c.From = &planner.Anchor{Task: planner.StepTask(first, g.p.Dishes[0].Steps[0].Key, 1), Offset: minutes(g, 0, 2)}
		if chance(g, 50) {
			c.From.Within = c.Time.Likely + minutes(g, 0, 3)
		}
	} else {
		c.By = []planner.Anchor{a}
	}
	if chance(g, 20) {
		from := t.last + minutes(g, -2, 4)
		c.Open = planner.DayHours{From: from, Until: from + c.Time.Likely + minutes(g, 0, 3)}
	}
	if chance(g, 30) {
		c.Where, c.Leaves = planner.Refrigerator, planner.Food{Millilitres: 1000}
	}
	g.p.Chores = append(g.p.Chores, c)
}

// finishPartCooked serves part-cooked food that nothing comes after straight on: it may not wait.
func (t *tiny) finishPartCooked() {
	followed := map[planner.TaskKey]bool{}
	for _, d := range t.p.Dishes {
		for _, s := range d.Steps {
			for _, a := range s.After {
				key := a.Dish
				if key == "" {
					key = d.Key
				}
				if !a.FromStart {
					followed[planner.StepTask(key, a.Step, 1)] = true
				}
			}
		}
	}
	for i := range t.p.Dishes {
		d := &t.p.Dishes[i]
		for j := range d.Steps {
			if s := &d.Steps[j]; s.Leaves.PartCooked && s.Serve == nil && !followed[planner.StepTask(d.Key, s.Key, 1)] {
				s.Serve = &planner.Wait{}
			}
		}
	}
}
