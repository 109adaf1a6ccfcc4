package planner

import (
	"fmt"
	"strconv"
	"strings"
)

// TaskKey names a task: "dish/step", "dish/step.2" for a second round, "key" for a chore. It stays the same when the
// plan is made anew.
type TaskKey string

// StepTask is the key of a round of a step; rounds count from 1, and the first has no number.
func StepTask(d DishKey, s StepKey, round int) TaskKey {
	if round <= 1 {
		return TaskKey(string(d) + "/" + string(s))
	}
	return TaskKey(fmt.Sprintf("%s/%s.%d", d, s, round))
}

// ChoreTask is the key of a chore's task: the chore's own, which has no slash.
func ChoreTask(c ChoreKey) TaskKey { return TaskKey(c) }

// Split takes a key apart: a chore's has only chore set, a step's the others, with its round from 1.
// ok is false for text that is no task key.
func (k TaskKey) Split() (d DishKey, s StepKey, round int, chore ChoreKey, ok bool) {
	head, tail, found := strings.Cut(string(k), "/")
	switch {
	case head == "" || found && tail == "":
		return "", "", 0, "", false
	case !found:
		return "", "", 0, ChoreKey(head), true
	}
	round = 1
	if name, n, numbered := strings.Cut(tail, "."); numbered {
		r, err := strconv.Atoi(n)
		if err != nil || r < 2 || strconv.Itoa(r) != n {
			return "", "", 0, "", false
		}
		tail, round = name, r
	}
	return DishKey(head), StepKey(tail), round, "", true
}

// Task is a step, a round of one, or a chore, as the plan places it.
type Task struct {
	Key       TaskKey
	Dish      DishKey // empty for a chore
	Step      StepKey
	Round     int // from 1
	Rounds    int
	Chore     ChoreKey
	Do        string
	Attention Attention
	Hands     int
	MaxHands  int
	Time      Span // grown with the batch, with Hands people
	Away      bool
	Who       Who
}

// Length is how long the task takes with so many people, rounded up to whole minutes.
func (t *Task) Length(people int) Minutes {
	if t.Attention != Hands || people <= t.Hands {
		return t.Time.Likely
	}
	return Minutes(CeilDiv(int(t.Time.Likely)*t.Hands, people))
}

// Tasks expands a party into its tasks: dishes in menu order, steps in the dish's order, rounds in
// order, then the chores. Finished and skipped ones are among them.
func Tasks(p *Party) []Task {
	var out []Task
	for i := range p.Dishes {
		d := &p.Dishes[i]
		for j := range d.Steps {
			s := &d.Steps[j]
			fit := p.Fit(d, s)
			t := Task{
				Dish: d.Key, Step: s.Key, Rounds: fit.Rounds,
				Do:        doFor(d, s.Do, d.Makes(p), d.Serves*max(fit.Rounds, 1)),
				Attention: s.Attention, Away: s.Away, Who: s.Who,
				Time: fit.Time,
			}
			t.Hands, t.MaxHands = handsOf(s.Attention, s.Hands, s.MaxHands)
			for r := 1; r <= fit.Rounds; r++ {
				t.Key, t.Round = StepTask(d.Key, s.Key, r), r
				out = append(out, t)
			}
		}
	}
	for i := range p.Chores {
		c := &p.Chores[i]
		t := Task{Key: ChoreTask(c.Key), Chore: c.Key, Round: 1, Rounds: 1, Do: c.Do, Attention: c.Attention,
			Time: c.Time, Away: c.Away, Who: c.Who}
		t.Hands, t.MaxHands = handsOf(c.Attention, c.Hands, c.MaxHands)
		out = append(out, t)
	}
	return out
}

func handsOf(a Attention, hands, most int) (int, int) {
	if a != Hands {
		return 0, 0
	}
	hands = max(hands, 1)
	return hands, max(hands, most)
}

// LeftAt is the setting in °C at which a task leaves an oven that it holds: the last one, where its step changes it; 0:
// off.
func (p *Party) LeftAt(t *Task, pl *Placed, h *Held) int {
	if t != nil && h.From.Equal(pl.Start) {
		if _, s := p.StepOf(t); s != nil {
			for _, u := range s.Uses {
				if n := len(u.Then); n > 0 && u.What == AnOven {
					return u.Then[n-1].C
				}
			}
		}
	}
	return h.C
}

// StepOf finds a task's dish and step; both nil for a chore.
func (p *Party) StepOf(t *Task) (*Dish, *Step) {
	d := p.Dish(t.Dish)
	if d == nil {
		return nil, nil
	}
	return d, d.Step(t.Step)
}
