package propose

import (
	"fmt"
	"time"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// Kept is something bought on a way to a shop that keeps only so long until a task needs it (rule 12).
type Kept struct {
	Trip   planner.ChoreKey
	Use    planner.TaskKey // the task that needs it first
	Within planner.Minutes // from the trip's end to the start of Use, at most
	Name   string
	Life   *safety.ShelfLife // what is published about it; nil where nothing is
	said   bool              // the hosts' own word is the shorter
}

// Keeping lists what the hosts' own ways to shops bring that does not keep for as long as need be, and what was bought
// on any way that is done. A way that is proposed hangs on its things already, and one that is begun is past changing.
func Keeping(p *planner.Party) []Kept { return append(coming(p), bought(p)...) }

// bought lists what was bought on ways that are done and has a published limit, from the last of the ways that it was
// bought on.
func bought(p *planner.Party) []Kept {
	var out []Kept
	w := proposer{p: p}
	for i := range p.Bought {
		var from planner.ChoreKey
		var at time.Time
		for _, g := range p.Bought[i].Got {
			was := p.WorkOn(planner.ChoreTask(g.Trip))
			if g.Trip != "" && p.Chore(g.Trip) != nil && was != nil && was.Progress == planner.Done && was.End != nil &&
				!was.End.Before(at) {
				from, at = g.Trip, *was.End
			}
		}
		if from == "" {
			continue
		}
		for j := range p.Dishes {
			d := &p.Dishes[j]
			for k := range d.Ingredients {
				in := &d.Ingredients[k]
				step, item := d.Step(in.Step), TripItem{Ingredient: k}
				w.fill(&item, d)
				if len(d.Steps) == 0 || d.BroughtBy != "" || in.Have || d.NeedsThawing(in) || item.Item != p.Bought[i].Item {
					continue
				}
				if step == nil {
					step = &d.Steps[0]
				}
				if bound, _, life := keeps(p, d, in, step); bound > 0 && life != nil && life.Limit {
					out = append(out, Kept{from, planner.StepTask(d.Key, step.Key, 1), bound, in.Name, life, false})
				}
			}
		}
	}
	return out
}

// coming lists what ways to come bring.
func coming(p *planner.Party) []Kept {
	own := map[planner.ChoreKey]bool{}
	for i := range p.Chores {
		if c := &p.Chores[i]; c.Kind == planner.Shop && !c.Proposed &&
			p.Progress(planner.ChoreTask(c.Key)) == planner.Waiting {
			own[c.Key] = true
		}
	}
	if len(own) == 0 {
		return nil
	}
	var out []Kept
	for _, t := range ToBuy(p).Trips {
		if !own[t.Chore] {
			continue
		}
		for i := range t.Items {
			item := &t.Items[i]
			d := p.Dish(item.Dish)
			if d == nil || item.Use == "" || item.Met {
				continue
			}
			in := &d.Ingredients[item.Ingredient]
			step := d.Step(in.Step)
			if step == nil {
				step = &d.Steps[0]
			}
			if d.NeedsThawing(in) {
				continue
			}
			if bound, _, life := keeps(p, d, in, step); bound > 0 {
				out = append(out, Kept{t.Chore, item.Use, bound, in.Name, life,
					bound == planner.Minutes(in.KeepDays)*minutesADay})
			}
		}
	}
	return out
}

// String says how soon it is used: "Prawns: within 3 days of buying (…)".
func (k *Kept) String() string {
	if k.Life == nil || k.said {
		return fmt.Sprintf("%s: within %s of buying (as the dish says)", words.Upper(k.Name), words.Length(k.Within))
	}
	text := fmt.Sprintf("%s: within %s of buying (%s)", words.Upper(k.Name), words.Count(k.Life.Days, "day"), k.Life)
	if raw := planner.Minutes(k.Life.Days)*minutesADay - k.Within; raw > 0 {
		text += fmt.Sprintf(", of which %s are still to come after that step begins", words.Length(raw))
	}
	return text
}
