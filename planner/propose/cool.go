package propose

import (
	"tureen/planner"
	"tureen/planner/cooling"
)

// mostCoolHands is the longest that anybody stands over food that goes cold, in minutes; common practice, no source.
const mostCoolHands = 10

// cool proposes that hot food which goes cold next is portioned and put into the refrigerator, where that is more than
// a part of the step itself: as soon as it has steamed off, and before what is done with it cold.
func (w *proposer) cool() {
	for i := range w.p.Dishes {
		for _, g := range cooling.Of(w.p, &w.p.Dishes[i]) {
			if g.Task {
				w.coolOne(&g)
			}
		}
	}
}

func (w *proposer) coolOne(g *cooling.Going) {
	hands := min(mostCoolHands, 4+g.Way.Vessels)
	c := planner.Chore{
		Key: cooling.Key(g.Dish.Key, g.Step.Key), Kind: planner.Cool, Attention: planner.Hands, Where: planner.Counter,
		Time: about(hands), Do: g.Do(), Note: g.Estimate(),
		From: &planner.Anchor{Task: planner.StepTask(g.Dish.Key, g.Step.Key, 1), Within: cooling.SteamOff},
	}
	if g.Way.How == planner.CoolBath {
		c.Attention, c.Time = planner.Watch, about(g.Way.StageOne)
		c.From.Within += c.Time.Likely
	}
	for _, k := range g.After(w.p) {
		c.By = append(c.By, planner.Anchor{Task: k})
	}
	w.add(c)
}
