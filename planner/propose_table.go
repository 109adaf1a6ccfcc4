package planner

import (
	"fmt"
	"time"

	"tureen/planner/measure"
)

// table proposes to lay it and to set out what the dishes are served in.
func (w *proposer) table() {
	if w.p.Covers < 1 || len(w.p.Courses) == 0 {
		return
	}
	// A quarter of an hour before the doorbell all of it stands.
	by := []Anchor{{Arrival: true, Offset: -15, Within: minutesADay}}
	w.add(Chore{
		Key: w.freeKey("lay-table"), Kind: LayTable, Attention: Hands, MaxHands: 2, Time: about(10 + 3*w.p.Covers/2),
		Do: fmt.Sprintf("Lay the table for %d", w.p.Covers), By: by,
	})
	if n := len(w.p.Dishes); n > 0 {
		w.add(Chore{
			Key: w.freeKey("set-out"), Kind: SetOut, Attention: Hands, MaxHands: 2, Time: about(8 + 2*n),
			Do: fmt.Sprintf("Set out serving pieces for %s, with a label each", measure.CountOf(n, "dish")), By: by,
		})
	}
}

// Eating a course takes some twenty minutes, and a plate by hand half a minute; common practice, no source.
const (
	eatMinutes   = 20
	plateSeconds = 30
	washReady    = 5 // before the next course is served
)

// wash proposes to wash plates between courses where they do not last.
func (w *proposer) wash() {
	for _, ware := range w.p.Kitchen.Plates {
		clean := ware.Count
		var before *Course // the last course that used it
		used := 0
		for i := range w.p.Courses {
			c := &w.p.Courses[i]
			need := 0
			for j := range w.p.Dishes {
				if d := &w.p.Dishes[j]; d.Course == c.Key && d.Ware == ware.Name {
					need += d.Makes(w.p)
				}
			}
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
func (w *proposer) washOne(ware string, n int, after, before *Course) {
	gap := int(earliest(before).Sub(earliest(after)) / time.Minute)
	from, by := Anchor{Course: after.Key, Offset: eatMinutes}, []Anchor{{Course: before.Key, Offset: -washReady}}
	c := Chore{Key: w.freeKey("wash " + ware), Kind: Wash, From: &from, By: by}
	if run := int(w.p.Kitchen.Dishwasher); run > 0 && eatMinutes+run+washReady <= gap {
		c.Attention, c.Time = Rest, Span{Low: Minutes(run), Likely: Minutes(run), High: Minutes(run)}
		c.Do = fmt.Sprintf("Run the dishwasher: the %s wants %s more", before.Named(), measure.CountOf(n, "clean "+ware))
		w.add(c)
		return
	}
	c.Attention, c.MaxHands = Hands, 2
	c.Time = about(max(5, CeilDiv(n*plateSeconds, 60)))
	c.Do = fmt.Sprintf("Wash %s by hand, for the %s", measure.CountOf(n, ware), before.Named())
	if room := gap - int(c.Time.Likely) - washReady; room < eatMinutes {
		from.Offset = Minutes(max(5, room)) // as soon as the first plates come back
	}
	w.add(c)
}

func earliest(c *Course) time.Time {
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
		if x.Dress <= 0 || x.Role == Looker {
			continue
		}
		w.add(Chore{
			Key: w.freeKey("dress " + string(x.Key)), Kind: Dress, Attention: Hands, Time: about(int(x.Dress)), Who: Who{Person: x.Key},
			Do: "Get dressed", By: []Anchor{{Arrival: true, Offset: -5, Within: 90}},
		})
	}
}
