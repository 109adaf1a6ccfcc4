package check_test

import (
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// edge is a figure of a rule: with one value the plan made by hand keeps every rule, with the next it breaks this one.
type edge struct {
	name    string
	rule    check.Rule
	set     func(s *spoiler, n int)
	ok, bad int
	said    []string // parts of the sentence about the break, in their order
}

func (e *edge) try(t *testing.T, n int) []check.Broken {
	p, plan := partygen.Rich()
	e.set(&spoiler{t, p, plan}, n)
	return check.Plan(p, plan)
}

// holds tries both sides of the edges.
func holds(t *testing.T, edges []edge) {
	for _, e := range edges {
		t.Run(e.name, func(t *testing.T) {
			for _, b := range e.try(t, e.ok) {
				t.Errorf("%d: rule %d, %s", e.ok, b.Rule, b.Text)
			}
			got := e.try(t, e.bad)
			if len(got) == 0 {
				t.Fatalf("%d: nothing is named", e.bad)
			}
			for _, b := range got {
				if b.Rule != e.rule {
					t.Errorf("%d: rule %d, want %d alone: %s", e.bad, b.Rule, e.rule, b.Text)
				}
			}
			rest := words.PlainStamps(got[0].Text)
			for _, part := range e.said {
				_, after, found := strings.Cut(rest, part)
				if !found {
					t.Errorf("%q does not say %q, in this order: %q", got[0].Text, part, e.said)
				}
				rest = after
			}
		})
	}
}

func minutes(n int) planner.Minutes { return planner.Minutes(n) }

// The plan made by hand, by the clock in Lisbon: the shell is baked until 15:05 and filled from 15:40 to 15:50, with a
// custard of 15:20 to 15:35; the braise is in the oven from 17:20 to 19:50 and served at 20:15 and 20:45; fritters are
// fried at 19:42 and 19:48, of a batter whisked until 18:40, and served at 20:00, as the soup is, heated until 19:40.
func TestEdgesOfWaits(t *testing.T) {
	wait := func(d planner.DishKey, k planner.StepKey, n int, do func(w *planner.Wait, n planner.Minutes)) func(*spoiler,
		int) {
		return func(s *spoiler, m int) { do(&s.step(d, k).After[n].Wait, minutes(m)) }
	}
	serve := func(d planner.DishKey, k planner.StepKey, do func(w *planner.Wait, n planner.Minutes)) func(*spoiler, int) {
		return func(s *spoiler, m int) { do(s.step(d, k).Serve, minutes(m)) }
	}
	least := func(w *planner.Wait, n planner.Minutes) { w.Least = n }
	most := func(w *planner.Wait, n planner.Minutes) { w.Longest = n }
	worth := func(w *planner.Wait, n planner.Minutes) { w.Longest, w.WorthUntil = 0, n }
	fromStart := func(do func(w *planner.Wait, n planner.Minutes)) func(*spoiler, int) {
		return func(s *spoiler, n int) {
			a := planner.After{Step: "custard", FromStart: true}
			do(&a.Wait, minutes(n))
			f := s.step("tart", "fill")
			f.After = append(f.After, a)
		}
	}
	holds(t, []edge{
		{"least", check.RuleWaits, wait("tart", "fill", 0, least), 35, 36,
			[]string{"Fill the shell", "35 minutes", "after the end of", "Bake the shell", "36 minutes is the least"}},
		{"most", check.RuleWaits, wait("tart", "fill", 1, most), 5, 4,
			[]string{"Fill the shell", "5 minutes", "Cook the custard", "4 minutes is the most"}},
		{"worth it", check.RuleWaits, wait("tart", "fill", 1, worth), 5, 4, []string{"Fill the shell", "5 minutes",
			"4 minutes"}},
		{"least from start to start", check.RuleWaits, fromStart(least), 20, 21,
			[]string{"Fill the shell", "20 minutes", "the start of", "Cook the custard", "21 minutes is the least"}},
		{"most from start to start", check.RuleWaits, fromStart(most), 20, 19, []string{"20 minutes",
			"19 minutes is the most"}},
		{"worth it from start to start", check.RuleWaits, fromStart(worth), 20, 19, []string{"20 minutes", "19 minutes"}},
		{"most after every round", check.RuleWaits, wait("fritters", "fry", 0, most), 68, 67, []string{"round 2",
			"Whisk the batter"}},
		{"least before every round", check.RuleWaits, wait("fritters", "fry", 0, least), 62, 63, []string{"round 1",
			"Whisk the batter"}},
		{"between rounds", check.RuleWaits, func(s *spoiler, n int) { s.step("fritters", "fry").RoundGap = minutes(n) }, 6, 7,
			[]string{"round 2", "6 minutes", "7 minutes is the least"}},
		{"before its service, the least", check.RuleWaits, serve("bread", "bake", least), 35, 36,
			[]string{"Bake the bread", "35 minutes", "36 minutes is the least"}},
		{"before its service, the most", check.RuleWaits, serve("soup", "reheat", most), 20, 19,
			[]string{"Heat the soup", "20 minutes", "19 minutes is the most"}},
		{"before its first service, the least", check.RuleWaits, serve("braise", "braise", least), 25, 26,
			[]string{"Braise the meat", "25 minutes", "26 minutes is the least"}},
		{"before its last service, the most", check.RuleWaits, serve("braise", "braise", most), 55, 54,
			[]string{"Braise the meat", "55 minutes", "54 minutes is the most"}},
		{"before its last service, worth it", check.RuleWaits, serve("braise", "braise", worth), 55, 54,
			[]string{"Braise the meat", "55 minutes", "54 minutes"}},
		{"straight on, too late", check.RuleWaits, func(s *spoiler, n int) { s.move("bread/bake", n) }, 0, 1,
			[]string{"Bake the bread", "straight on after", "Let the dough rise", "1 minute later"}},
		{"straight to the table", check.RuleWaits, func(s *spoiler, n int) {
			s.step("bread", "bake").Serve = &planner.Wait{State: planner.Straight}
			s.move("bread/proof", 35+n)
			s.move("bread/bake", 35+n)
		}, 0, -1, []string{"Bake the bread", "served straight on", "1 minute after its end"}},
	})
}

func TestEdgesOfClocks(t *testing.T) {
	holds(t, []edge{
		{"a hot day", check.RuleClocks, func(s *spoiler, n int) {
			s.p.RoomTemperatureC = n
		}, 32, 33, []string{"Blend the soup", "in the cold at most 1 h after"}},
		{"counter time over waits", check.RuleClocks, func(s *spoiler, n int) {
			s.step("fritters", "fry").After[0].Wait.Longest = 0
			s.move("fritters/batter", n)
		}, -36, -37, []string{"Fry the fritters", "the last service", "2 h 1 min", "at most 2 h"}},
		{"a raw dough that rises", check.RuleClocks, func(s *spoiler, n int) {
			s.p.Dish("bread").Ingredients = []planner.Ingredient{{Name: "flour", Amount: "500 g"}, {Name: "eggs", Amount: "2"},
				{Name: "yeast", Amount: "7 g"}}
			s.step("bread", "proof").Time = partygen.Exactly(minutes(n))
			s.retime("bread/proof", saturday(18, 45).Add(-minutes(n).Duration()), saturday(18, 45))
		}, 240, 241, []string{"Let the dough rise", "4 h 1 min", "4 hours for a raw dough"}},
		{"counter time behind a first cooking", check.RuleClocks, func(s *spoiler, n int) {
			// Chicken stands raw for 1 h 50 min, and begins anew where it is simmered through at 18:10.
			s.step("soup", "chop").Do, s.step("soup", "chop").Leaves = "Joint the chicken", planner.Food{}
			s.step("soup", "simmer").After[0].Wait = planner.Wait{State: planner.Counter}
			s.move("soup/chop", -80)
			s.give("soup/chop", "ana", "ben")
			s.step("soup", "blend").After[0].Wait.Longest = 0
			s.step("soup", "reheat").After[0].Wait.Least = 0 // it need not be cold
			s.move("soup/blend", n-21)
		}, 120, 121, []string{"Blend the soup", "2 h 1 min", "at most 2 h"}},
		{"counter time before a first cooking", check.RuleClocks, func(s *spoiler, n int) {
			s.step("soup", "chop").Do, s.step("soup", "chop").Leaves = "Joint the chicken", planner.Food{}
			s.step("soup", "simmer").After[0].Wait = planner.Wait{State: planner.Counter}
			s.move("soup/chop", 30-n)
			s.step("soup", "chop").Grows, s.step("soup", "chop").Time = planner.Fixed, partygen.Exactly(30)
			s.step("soup", "chop").Attention, s.step("soup", "chop").MaxHands = planner.Unattended, 0
			s.give("soup/chop", "ana")
			s.plan.Made = s.plan.Made.Add(-time.Hour)
		}, 120, 125, []string{"Joint the chicken", "Simmer the soup", "2 h 5 min", "at most 2 h"}},
		{"counter time at work", check.RuleClocks, func(s *spoiler, n int) {
			s.step("tart", "fill").After[1].Wait.Longest = 0
			s.move("tart/custard", n)
			s.give("tart/custard", "ana")
		}, -75, -76, []string{"At the end of", "Fill the shell", "1 h 31 min", "in the cold at most 2 h"}},
		// Soup keeps for three days or four, by the strictest source for three.
		{"days in the refrigerator", check.RuleClocks, func(s *spoiler, n int) {
			s.step("soup", "reheat").After[0].Wait.Longest = 0
			s.step("soup", "reheat").Leaves.Kind = safety.Soup
			s.p.PrepDays, s.plan.Made = 9, s.plan.Made.Add(-9*24*time.Hour)
			s.p.Chore("shopping").By = nil
			limit := int(safety.RefrigeratorLimit(safety.Soup).Minutes)
			was := int(s.task("soup/reheat").Start.Sub(s.task("soup/blend").End).Minutes())
			back := limit - was + n
			for _, k := range []planner.TaskKey{"soup/chop", "soup/simmer", "soup/blend"} {
				s.move(k, -back)
				s.step("soup", planner.StepKey(strings.TrimPrefix(string(k), "soup/"))).Attention = planner.Unattended
				s.task(k).People = s.task(k).People[:1]
			}
			s.step("soup", "chop").Time = partygen.Exactly(7) // 14 of it, for 8: too short for a mark
			s.retime("soup/chop", s.task("soup/simmer").Start.Add(-14*time.Minute), s.task("soup/simmer").Start)
			s.step("soup", "simmer").Time, s.step("soup", "simmer").After[0].Wait = partygen.Exactly(40), planner.Wait{}
			s.p.People[0].Cooks, s.p.People[0].Home = planner.DayHours{Until: 24 * 60}, planner.DayHours{Until: 24 * 60}
		}, 0, 1, []string{"Blend the soup", "Heat the soup", "in the refrigerator", "the limit for cooked food",
			"is at most 2 days"}},
		{"part-cooked food", check.RuleClocks, func(s *spoiler, n int) {
			s.step("braise", "braise").After[0].Wait.State = planner.Refrigerator
			s.move("braise/brown", -n)
		}, 0, 1, []string{"Brown the meat", "part-cooked", "waits 1 minute"}},
		{"held hot in an oven", check.RuleClocks, func(s *spoiler, n int) {
			t := s.task("soup/reheat")
			s.step("soup", "reheat").Serve.Hold = &planner.Use{What: planner.AnOven, Name: "spare", C: n}
			s.p.Kitchen.Ovens = append(s.p.Kitchen.Ovens, planner.Oven{Name: "spare", Shelves: 1, MinC: 50, MaxC: 250})
			t.Uses[2] = planner.Held{What: planner.AnOven, Name: "spare", Amount: 1, C: n, From: t.Uses[2].From,
				To: t.Uses[2].To}
		}, 63, 62, []string{"Heat the soup", "63 °C"}},
	})
}

func TestEdgesOfHands(t *testing.T) {
	of := func(s *spoiler, k planner.TaskKey, end bool) int { // minutes after midnight, in Lisbon
		at := s.task(k).Start
		if end {
			at = s.task(k).End
		}
		at = at.In(s.p.Location())
		return at.Hour()*60 + at.Minute()
	}
	holds(t, []edge{
		{"hours begin", check.RuleHands, func(s *spoiler, n int) {
			s.p.People[0].Cooks.From = minutes(of(s, "shopping", false) + n)
		}, 0, 1, []string{"Ana", "Shop for the party", "Thu 10:00", "Thu 11:00"}},
		{"nights end", check.RuleNights, func(s *spoiler, n int) {
			s.p.WorkHours = planner.DayHours{From: minutes(of(s, "shopping", false) + n), Until: 24 * 60}
		}, 0, 1, []string{"Shop for the party", "Thu 10:00", "Thu 11:00", "Thu 10:01"}},
		{"a touch an hour after hands", check.RuleNights, func(s *spoiler, n int) {
			s.step("sorbet", "freeze").Attention = planner.Watch
			s.p.WorkHours = planner.DayHours{From: 0, Until: minutes(of(s, "sorbet/freeze", true) - 60 - n)}
		}, 0, 1, []string{"Freeze the sorbet"}},
		{"hours end", check.RuleHands, func(s *spoiler, n int) {
			s.p.People[0].Days = []planner.OtherDay{{Date: "2026-09-24",
				Cooks: []planner.DayHours{{From: 0, Until: minutes(of(s, "shopping", true) + n)}}}}
		}, 0, -1, []string{"Ana", "Shop for the party", "Thu 10:00", "Thu 11:00"}},
		{"a charge begins within hours", check.RuleHands, func(s *spoiler, n int) {
			s.give("sorbet/freeze", "cleo")
			s.p.People[2].Days[0].Cooks = []planner.DayHours{{From: 0, Until: minutes(of(s, "sorbet/freeze", false) + n)}}
		}, 1, 0, []string{"Cleo", "in charge of", "Freeze the sorbet", "Fri 18:35"}},
		{"a charge begins when the hours do", check.RuleHands, func(s *spoiler, n int) {
			s.give("sorbet/freeze", "ben")
			s.p.People[1].Days = []planner.OtherDay{{Date: "2026-09-25", Cooks: []planner.DayHours{
				{From: 17 * 60, Until: 18 * 60}, {From: minutes(of(s, "sorbet/freeze", false) + n), Until: 20 * 60}}}}
		}, 0, 1, []string{"Ben", "in charge of", "Freeze the sorbet"}},
		{"at home to the end of a watch", check.RuleHands, func(s *spoiler, n int) {
			s.worksLate()
			s.step("sorbet", "freeze").Attention = planner.Watch
			s.p.People[1].Home = planner.DayHours{From: 0, Until: 0}
			s.p.People[0].Days = []planner.OtherDay{{Date: "2026-09-25",
				Cooks: []planner.DayHours{{From: 0, Until: 20 * 60}},
				Home:  []planner.DayHours{{From: 0, Until: minutes(of(s, "sorbet/freeze", true) + n)}}}}
			s.p.People[1].Days = []planner.OtherDay{{Date: "2026-09-25", Cooks: []planner.DayHours{{From: 0, Until: 18 * 60}},
				Home: []planner.DayHours{{From: 0, Until: 18 * 60}}}}
			s.p.People[2].Days[0].Home = []planner.DayHours{{From: 0, Until: 60}}
			s.p.People[2].Days[0].Cooks = []planner.DayHours{{From: 0, Until: 18 * 60}}
		}, 0, -1, []string{"Nobody is at home", "Freeze the sorbet", "Fri 22:34"}},
		{"most hands", check.RuleHands, func(s *spoiler, n int) {
			s.step("tart", "fill").MaxHands, s.step("tart", "fill").Time = n, partygen.Exactly(minutes(10*n))
			s.give("tart/fill", "ben", "cleo")
		}, 2, 1, []string{"Fill the shell", "at most 1 person", "has 2"}},
		{"fewest hands", check.RuleHands, func(s *spoiler, n int) {
			s.step("tart", "fill").Hands = n
		}, 1, 2, []string{"Fill the shell", "needs 2 people", "has 1"}},
		{"in hand one after the other", check.RuleHands, func(s *spoiler, n int) {
			s.give("table", "ben", "cleo")
			s.move("table", -10+n) // the tart is filled until 15:50
		}, 0, -1, []string{"Ben has", "Fill the shell", "in hand at Sat 15:49", "Lay the table"}},
		{"in hand one before the other", check.RuleHands, func(s *spoiler, n int) {
			s.give("table", "ben", "cleo")
			s.move("table", 135+n) // from 18:15 to the batter of 18:30
		}, 0, 1, []string{"Ben has", "Lay the table", "in hand at Sat 18:30", "Whisk the batter"}},
		{"in charge when back", check.RuleHands, func(s *spoiler, n int) {
			s.step("sorbet", "freeze").Serve.WorthUntil = 0
			start := s.task("shopping").End.Add(time.Duration(n*5) * time.Minute)
			s.retime("sorbet/freeze", start, start.Add(4*time.Hour))
		}, 0, -1, []string{"Ana is away for", "Shop for the party", "Freeze the sorbet", "Thu 10:55"}},
		{"in charge before going", check.RuleHands, func(s *spoiler, n int) {
			s.step("sorbet", "freeze").Serve.WorthUntil = 0
			s.p.People[0].Cooks.From = 8 * 60
			start := s.task("shopping").Start.Add(time.Duration(n*5) * time.Minute)
			s.retime("sorbet/freeze", start, start.Add(4*time.Hour))
		}, -1, 0, []string{"Ana is away for", "Shop for the party", "Freeze the sorbet", "Thu 10:00"}},
		{"for somebody else to do", check.RuleHands, func(s *spoiler, n int) {
			s.step("tart", "fill").Who.Person = []planner.PersonKey{"ben", "ana"}[n]
		}, 0, 1, []string{"Fill the shell", "for Ana", "not for Ben"}},
		{"a skill", check.RuleHands, func(s *spoiler, n int) {
			s.p.People[1].Skills = [][]string{{"knives", "pastry"}, {"knives"}}[n]
		}, 0, 1, []string{"Make the dough", `"pastry"`, "Ben"}},
		{"a claim", check.RuleClaims, func(s *spoiler, n int) {
			s.give("fritters/batter", []planner.PersonKey{"ben", "cleo"}[n])
		}, 0, 1, []string{"Whisk the batter", "by Ben", "to Cleo"}},
	})
}
