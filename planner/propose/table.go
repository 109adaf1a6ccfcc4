package propose

import (
	"fmt"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// Eating a course takes some twenty minutes, and a plate by hand half a minute; common practice, no source.
const (
	eatMinutes   = 20
	plateSeconds = 30
	washReady    = 5 // before the next course is served
)

// wash proposes to wash plates between courses where they do not last.
func (w *proposer) wash() {
	for _, ware := range w.p.Kitchen.Plates {
		if !ware.PlatesGiven() {
			continue
		}
		clean := ware.Count
		var before *planner.Course // the last course that used it
		used := 0
		for i := range w.p.Courses {
			c := &w.p.Courses[i]
			need := w.p.PlatesFor(c, ware.Name)
			if need == 0 {
				continue
			}
			if n := min(need-clean, used); n > 0 {
				w.washOne(ware.Name, n, before, c)
				clean, used = clean+n, used-n
			}
			take := min(need, clean)
			clean, used, before = clean-take, used+take, c
		}
	}
}

// washOne proposes a wash after one course and before another; when the dishwasher's run fits between them,
// that, else hands, as many minutes as there are.
func (w *proposer) washOne(ware string, n int, after, before *planner.Course) {
	gap := int(earliest(before).Sub(earliest(after)) / time.Minute)
	from, by := planner.Anchor{Course: after.Key, Offset: eatMinutes},
		[]planner.Anchor{{Course: before.Key, Offset: -washReady}}
	c := planner.Chore{Key: w.freeKey("wash " + ware), Kind: planner.Wash, From: &from, By: by}
	if run := int(w.p.Kitchen.Dishwasher); run > 0 && eatMinutes+run+washReady <= gap {
		c.Attention, c.Time = planner.Unattended, planner.Span{Low: planner.Minutes(run), Likely: planner.Minutes(run),
			High: planner.Minutes(run)}
		c.Do = fmt.Sprintf("Run the dishwasher: the %s wants %s more", before.Named(), words.Count(n, "clean "+ware))
		w.add(c)
		return
	}
	c.Attention, c.MaxHands = planner.Hands, 2
	c.Time = about(max(5, planner.CeilDiv(n*plateSeconds, 60)))
	c.Do = fmt.Sprintf("Wash %s by hand, for the %s", words.Count(n, ware), before.Named())
	if room := gap - int(c.Time.Likely) - washReady; room < eatMinutes {
		from.Offset = planner.Minutes(max(5, room)) // as soon as the first plates come back
	}
	w.add(c)
}

func earliest(c *planner.Course) time.Time {
	var at time.Time
	for i, s := range c.Servings {
		if i == 0 || s.At.Before(at) {
			at = s.At
		}
	}
	return at
}

// dress gives everybody who needs it their time before the mirror.
func (w *proposer) dress() {
	for i := range w.p.People {
		x := &w.p.People[i]
		if x.Dress <= 0 || x.Role == planner.Onlooker {
			continue
		}
		c := planner.Chore{
			Key: w.freeKey("dress " + string(x.Key)), Kind: planner.Dress, Attention: planner.Hands, Time: about(int(x.Dress)),
			Who: planner.Who{Person: x.Key},
			Do:  "Get dressed", By: []planner.Anchor{{Arrival: true, Offset: -30, Within: 90}},
		}
		if by := w.p.Arrival.Add(-30 * time.Minute); !w.canEnd(&c, by.Add(-90*time.Minute), by) {
			c.By[0].Offset = -5 // who comes home late
		}
		w.add(c)
	}
}
