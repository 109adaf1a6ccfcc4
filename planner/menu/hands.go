package menu

import (
	"fmt"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// lastMinutes before a course are when everything comes at once.
const lastMinutes = 30

// hands compares, course by course, what the last half hour asks of hands with the hands that there are. What is done
// as early as it can be lies in the half hour the least, so that the sum is what no plan gets below.
func (w *reckoning) hands() []string {
	var out []string
	for i := range w.p.Courses {
		c := &w.p.Courses[i]
		at, ok := served(c)
		if !ok {
			continue
		}
		end := int(at.Sub(w.p.Arrival) / time.Minute)
		asked, most, biggest := 0, 0, ""
		for j := range w.spans {
			s := &w.spans[j]
			if s.dish.Course != c.Key || s.step.Attention != planner.Hands || s.step.Away {
				continue
			}
			n := handMinutes(s, end)
			asked += n
			if n > most {
				most, biggest = n, s.dish.Name
			}
		}
		have, cooks := w.cooking(at.Add(-lastMinutes*time.Minute), at)
		if asked <= have {
			continue
		}
		who := "nobody cooks then"
		switch {
		case cooks == 1:
			who = fmt.Sprintf("the one who cooks then has %s", words.Length(have))
		case cooks > 1:
			who = fmt.Sprintf("the %d who cook then have %s", cooks, words.Length(have))
		}
		out = append(out, fmt.Sprintf("Half an hour before %s everything comes at once: it asks %s of hands, and %s. %s "+
			"asks the most.",
			c.Name, words.Length(asked), who, biggest))
	}
	return out
}

// handMinutes is how many minutes of hands a step asks at least in the half hour before end. With more people it is
// shorter, but no less of it lies there.
func handMinutes(s *span, end int) int {
	if s.earliest == free {
		return 0
	}
	inside := min(s.earliest, end) - max(s.earliest-s.long, end-lastMinutes)
	return max(inside, 0) * s.people
}

// cooking adds up the minutes that people have hands to give between two instants, and counts those people.
func (w *reckoning) cooking(from, to time.Time) (minutes, people int) {
	for i := range w.p.People {
		own := 0
		for _, h := range w.p.CookingHours(&w.p.People[i]) {
			a, b := h.From, h.To
			if a.Before(from) {
				a = from
			}
			if b.After(to) {
				b = to
			}
			if b.After(a) {
				own += int(b.Sub(a) / time.Minute)
			}
		}
		if own > 0 {
			minutes, people = minutes+own, people+1
		}
	}
	return minutes, people
}
