package solve_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/solve"
	"tureen/planner/words"
)

// impossible are parties without a plan: what spoils the dinner, what the clash must speak of, and a mend that must be
// offered.
var impossible = []struct {
	name  string
	spoil func(p *planner.Party)
	now   time.Time
	says  []string // parts of its sentences
	mend  string   // part of a mend's text
	do    string   // the message that makes it
}{
	{name: "one cook, and only in the evening",
		spoil: func(p *planner.Party) {
			p.People = p.People[:1]
			p.People[0].Cooks = partygen.Hours(19, 22)
			p.PrepDays = 0
		},
		says: []string{"Inês cooks only Sat 19:00 to 22:35", "no prep day"}, mend: "help in the kitchen",
		do: "people add name:Helper role:co-host cooks:12:00-24:00"},
	{name: "no burner",
		spoil: func(p *planner.Party) { p.Kitchen.Burners = 0 },
		says:  []string{"no burner", "Sweat the vegetables"}, mend: "one more burner", do: "kitchen fittings burners:1"},
	{name: "a claim by somebody who leaves",
		spoil: func(p *planner.Party) {
			p.Work = append(p.Work, planner.Work{Task: "lamb/carve", Person: "rui"})
			p.People[1].Days = []planner.OtherDay{{Date: "2026-09-26", Cooks: []planner.DayHours{partygen.Hours(14, 19)},
				Home: []planner.DayHours{partygen.Hours(14, 19)}}}
		},
		says: []string{"Rui has claimed", "Rui cooks only"}, mend: "Let somebody else do “Carve (Roast lamb)”",
		do: "task give-back task:lamb/carve"},
	{name: "no flat place in the refrigerator",
		spoil: func(p *planner.Party) { p.Kitchen.Refrigerator.Flat = 0 },
		says:  []string{"The refrigerator has 0 flat places"}, mend: "one more flat place", do: "kitchen space flat:1"},
	{name: "nobody shops before five", now: partygen.ClockOn(26)(17, 0),
		spoil: func(*planner.Party) {},
		says:  []string{"It is Sat 17:00 already"}, mend: "later"},
	{name: "a skill that nobody has",
		spoil: func(p *planner.Party) { p.Dish("lamb").Step("carve").Who.Skill = "carving" },
		says:  []string{"carving, which nobody has"}, mend: "Let anybody do"},
	{name: "the meat waits too long for safety",
		spoil: func(p *planner.Party) {
			p.Dish("lamb").Step("temper").Time = partygen.Takes(150) // two and a half hours on the counter
		},
		says: []string{"out of the cold for at most 2 h"}, mend: "Leave out Roast lamb", do: "dish remove dish:lamb"},
}

func TestAClashSaysWhatClashesAndWhatMendsIt(t *testing.T) {
	for _, row := range impossible {
		t.Run(row.name, func(t *testing.T) {
			p := partygen.Dinner(8)
			row.spoil(p)
			now := partygen.ClockOn(23)(18, 0)
			if !row.now.IsZero() {
				now = row.now
			}
			plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now})
			if err != nil || plan != nil {
				t.Fatalf("got %v, %v, want a clash", plan, err)
			}
			if clash.Unproved {
				t.Fatalf("the clash is not proved: %+v", clash)
			}
			var all []string
			for _, r := range clash.Requirements {
				all = append(all, words.PlainStamps(r.Text))
			}
			for _, part := range row.says {
				if !strings.Contains(strings.Join(all, "\n"), part) {
					t.Errorf("no sentence says …%s…:\n%s", part, strings.Join(all, "\n"))
				}
			}
			i := slices.IndexFunc(clash.Mends, func(m planner.Mend) bool { return strings.Contains(m.Text, row.mend) })
			if i < 0 {
				t.Fatalf("no mend says …%s…: %+v", row.mend, clash.Mends)
			}
			if clash.Mends[i].Do != row.do {
				t.Errorf("the mend is made by %q, want %q", clash.Mends[i].Do, row.do)
			}
			for _, m := range clash.Mends {
				if strings.Contains(m.Text, "safety") || strings.Contains(m.Text, "limit") {
					t.Errorf("a mend touches a safety limit: %+v", m)
				}
			}
		})
	}
}

// The requirements that a clash names clash by themselves, and each of them is needed for it.
func TestAClashNamesNoMoreThanClashes(t *testing.T) {
	for _, row := range impossible {
		if row.name == "no burner" || strings.HasPrefix(row.name, "a skill") || strings.HasPrefix(row.name, "the meat") {
			continue // seen before any search
		}
		p := partygen.Dinner(8)
		row.spoil(p)
		now := partygen.ClockOn(23)(18, 0)
		if !row.now.IsZero() {
			now = row.now
		}
		ids, clash, needless, err := solve.Core(t.Context(), p, solve.Ask{Now: now})
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		if !clash || len(needless) > 0 {
			t.Errorf("%s: %v clash alone: %v; not needed: %v", row.name, ids, clash, needless)
		}
	}
}

// Two steps of different lengths that both begin right when one ends, and that a third follows at once: nothing but
// the steps clashes, and the two are named.
func TestStepsThatContradictEachOtherAreNamed(t *testing.T) {
	straight := planner.Wait{State: planner.Straight}
	step := func(key planner.StepKey, do string, long planner.Minutes, after ...planner.StepKey) planner.Step {
		s := planner.Step{Key: key, Do: do, Attention: planner.Unattended, Where: planner.Counter,
			Time: planner.Span{Low: long, Likely: long, High: long}}
		for _, a := range after {
			s.After = append(s.After, planner.After{Step: a, Wait: straight})
		}
		return s
	}
	p := partygen.Dinner(4)
	d := p.Dish("soup")
	last := step("last", "Lay it out", 5, "short", "long")
	last.Serve = &planner.Wait{State: planner.Counter}
	d.Ingredients = nil
	d.Steps = []planner.Step{step("first", "Begin it", 10), step("short", "Rest it briefly", 10, "first"),
		step("long", "Rest it at length", 40, "first"), last}
	p.Work = nil
	_, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: partygen.ClockOn(23)(18, 0)})
	if err != nil || clash == nil {
		t.Fatalf("%v, clash %+v", err, clash)
	}
	said := ""
	for _, r := range clash.Requirements {
		said += r.Text + " "
	}
	if !strings.Contains(said, "Rest it briefly") || !strings.Contains(said, "Rest it at length") ||
		!strings.Contains(said, "begins right when") {
		t.Errorf("it says %q, want the two steps", said)
	}
}

func TestMakeRefusesAPartyThatItDoesNotUnderstand(t *testing.T) {
	rows := []struct {
		name  string
		spoil func(p *planner.Party)
		says  string
	}{
		{"a step that is not there", func(p *planner.Party) { p.Dish("soup").Steps[1].After[0].Step = "peel" }, `"peel"`},
		{"a course that is not there", func(p *planner.Party) { p.Dish("soup").Course = "soup" }, `"soup"`},
		{"a circle", func(p *planner.Party) {
			p.Dish("soup").Steps[0].After = []planner.After{{Step: "reheat", Wait: planner.Wait{State: planner.Counter}}}
		}, "waits for itself"},
		{"hot, but in nothing", func(p *planner.Party) {
			p.Dish("soup").Step("reheat").Serve.State = planner.HotHold
		}, "held hot"},
		{"a claim by a stranger", func(p *planner.Party) {
			p.Work = []planner.Work{{Task: "soup/chop", Person: "zoe"}}
		}, "zoe"},
	}
	for _, row := range rows {
		p := partygen.Dinner(4)
		row.spoil(p)
		_, _, err := solve.Make(t.Context(), p, solve.Ask{Now: partygen.ClockOn(23)(18, 0)})
		if err == nil || !strings.Contains(err.Error(), row.says) {
			t.Errorf("%s: got %v, want …%s…", row.name, err, row.says)
		}
	}
}
