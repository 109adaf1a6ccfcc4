package solve_test

import (
	"reflect"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

func TestTheSameQuestionGetsTheSamePlan(t *testing.T) {
	ask := solve.Ask{Now: partygen.ClockOn(23)(18, 0), Work: 3_000_000}
	first := mustMake(t, partygen.Dinner(8), ask)
	second := mustMake(t, partygen.Dinner(8), ask)
	if !reflect.DeepEqual(first, second) {
		t.Error("two plans of one party differ")
	}
}

func TestAPlanMadeAnewChangesLittle(t *testing.T) {
	now := partygen.ClockOn(23)(18, 0)
	p := partygen.Dinner(8)
	plan := mustMake(t, p, solve.Ask{Now: now, Work: 3_000_000})
	taken := plan.Placed("gratin/layer").People[0]
	other := planner.PersonKey("marta")
	if taken == other {
		other = "rui"
	}
	rows := []struct {
		name string
		edit func(p *planner.Party)
		most int // of Steady
	}{
		{"nothing has changed", func(*planner.Party) {}, 0},
		{"everything is claimed by whom it was given to", func(p *planner.Party) {
			for _, x := range plan.Tasks {
				p.Work = append(p.Work, planner.Work{Task: x.Task, Person: x.People[0]})
			}
		}, 0},
		{"somebody else claims one task", func(p *planner.Party) {
			p.Work = append(p.Work, planner.Work{Task: "gratin/layer", Person: other})
		}, 8},
		{"a drink is to be chilled, too", func(p *planner.Party) {
			p.Chores = append(p.Chores, planner.Chore{Key: "water", Kind: planner.Chill, Do: "Chill the water",
				Attention: planner.Unattended, Time: partygen.Takes(60),
				Where: planner.Refrigerator, Leaves: planner.Food{Millilitres: 2000}, By: []planner.Anchor{{Arrival: true}}})
		}, 0},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p := partygen.Dinner(8)
			row.edit(p)
			again := mustMake(t, p, solve.Ask{Now: now.Add(time.Hour), InForce: plan, Work: 3_000_000})
			for _, l := range again.Levels {
				if l.Name == planner.Steady && l.Value > row.most {
					t.Errorf("steady is %d, want %d at most", l.Value, row.most)
				}
			}
			for _, w := range p.Work {
				if got := again.Placed(w.Task).People[0]; got != w.Person {
					t.Errorf("%s is %s's, want %s, who claimed it", w.Task, got, w.Person)
				}
			}
		})
	}
}

func TestDoneWorkStaysWhereItWas(t *testing.T) {
	p := partygen.Dinner(8)
	plan := mustMake(t, p, solve.Ask{Now: partygen.ClockOn(23)(18, 0), Work: 3_000_000})
	now := partygen.ClockOn(26)(17, 0)
	live(p, plan, now, 7*time.Minute)
	again := mustMake(t, p, solve.Ask{Now: now, InForce: plan, Soft: true, Work: 3_000_000})
	settled := 0
	for _, w := range p.Work {
		at := again.Placed(w.Task)
		settled++
		if !at.Start.Equal(*w.Start) || w.End != nil && !at.End.Equal(*w.End) || at.People[0] != w.Person {
			t.Errorf("%s: %v to %v by %v, but it was %v to %v by %s", w.Task, at.Start, at.End, at.People, w.Start, w.End,
				w.Person)
		}
	}
	if settled < 5 {
		t.Errorf("only %d tasks were done by %v: too few to say anything", settled, now)
	}
	for _, x := range again.Tasks {
		if p.WorkOn(x.Task) == nil && x.Start.Before(now) {
			t.Errorf("%s is planned in the past, at %v", x.Task, x.Start)
		}
	}
}

// A search that is given no time says so, and never that there is no plan.
func TestNoTimeIsNotImpossible(t *testing.T) {
	plan, clash, err := solve.Make(t.Context(), partygen.Dinner(8), solve.Ask{Now: partygen.ClockOn(23)(18, 0), Work: 1})
	if err != nil || plan != nil || clash == nil || !clash.Unproved || len(clash.Mends) > 0 {
		t.Errorf("got %v, %+v, %v, want an unproved clash without mends", plan, clash, err)
	}
}
