package propose

import (
	"fmt"
	"time"

	"tureen/planner"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// TooFar says of a dish that is brought that it is out of the cold for too long, on its way and on the table (rule 2),
// and what to do; empty where it is not. What is served after some work here has its table time on that work's clock.
func TooFar(p *planner.Party, d *planner.Dish) string {
	way, table, limit := trace.OfDish(p, d).OnTheWay(d), planner.Minutes(0), p.CounterLimit()
	if len(d.Steps) == 0 {
		table = OnTable(p, d)
	}
	if way == 0 || int(way+table) <= limit.Minutes {
		return ""
	}
	long := words.Short(way) + " on its way"
	if _, told := trace.Journey(d); told == 0 {
		long += " (as the plan takes it: nobody has said)"
	}
	if table > 0 {
		long += " and " + words.Short(table) + " on the table"
	}
	if d.Travels == "" {
		long += ", where nobody has said that it travels cold or hot"
	}
	return fmt.Sprintf("%s is out of the cold for %s; at most %s in all (%s). Have it brought in a cold bag with ice "+
		"packs, and put it into the refrigerator here (/dish change dish:%s travels:cold).", d.Name, long,
		words.Short(limit.Minutes), limit.Source, d.Key)
}

// Brought food is in the cold a quarter of an hour after the guests are here; what is served within three quarters of
// an hour stays out. Common practice, no source.
const (
	broughtIn = 15
	soonEaten = 45
)

// broughtIn proposes to put what guests bring into the refrigerator when they come, unless it comes hot or is served
// soon.
func (w *proposer) broughtIn() {
	var names []string
	foods := trace.Of(w.p)
	for i := range w.p.Dishes {
		d := &w.p.Dishes[i]
		c := w.p.Course(d.Course)
		if how, _ := trace.Journey(d); d.BroughtBy != "" && len(d.Steps) == 0 && how != planner.HotHold && c != nil &&
			len(c.Servings) > 0 && earliest(c).Sub(w.p.Arrival) > soonEaten*time.Minute && foods.Warms(d) {
			names = append(names, words.Lower(d.Name))
		}
	}
	by := w.p.Arrival.Add(broughtIn * time.Minute)
	chore := planner.Chore{Key: w.freeKey("brought in"), Kind: planner.Other, Attention: planner.Hands, Time: about(5),
		From: &planner.Anchor{Arrival: true}, By: []planner.Anchor{{Arrival: true, Offset: broughtIn}},
		Do: "Put what is brought into the refrigerator: " + words.And(names)}
	if len(names) > 0 && w.canEnd(&chore, w.p.Arrival.Add(5*time.Minute), by) {
		w.add(chore)
	}
}
