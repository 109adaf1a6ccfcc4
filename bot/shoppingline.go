package bot

import (
	"fmt"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/shopping"
	"tureen/planner/words"
)

// tooEarly reports whether an instant before which something would be bought too early is worth saying: it is still to
// come, and work may be planned before it.
func (t *Turn) tooEarly(notBefore time.Time) bool {
	return notBefore.After(t.Now) && notBefore.After(t.Party.Opens())
}

// tripWindow says between which days the whole of a trip is in time.
func (t *Turn) tripWindow(trip *shopping.Trip) string {
	if trip.By.IsZero() || trip.Progress == planner.Done {
		return ""
	}
	line := "By " + t.dayClock(trip.By) + " at the latest"
	if t.tooEarly(trip.From) && trip.From.Before(trip.By) {
		line = fmt.Sprintf("Not before %s; by %s at the latest", t.dayClock(trip.From), t.dayClock(trip.By))
		if !trip.Start.IsZero() {
			// What is bought counts from the way's end; the list's head says its start.
			leave := trip.From.Add(trip.Start.Sub(trip.End))
			line = fmt.Sprintf("Leave no sooner than %s; back by %s at the latest", t.dayClock(leave), t.dayClock(trip.By))
		}
	}
	switch {
	case trip.Start.IsZero():
	case trip.End.After(trip.By):
		line += ": the trip is too late for some of it, /plan make moves it"
	case trip.From.After(trip.End) && !trip.From.After(trip.By):
		line += ": the trip is early for some of it"
	}
	return line
}

// thingLine is a thing to buy: how much, what, how it is packed, for which dishes, and between which days.
// common reports that a package's size is marked as a common one.
func (t *Turn) thingLine(l *shopping.Line, trip *shopping.Trip) (line string, common bool) {
	line = l.Name
	if a := l.Text(); a != "" {
		line = a + " " + line
	}
	if len(l.Short) > 0 {
		line += " more"
	}
	if l.Frozen && !strings.Contains(words.Fold(l.Name), "frozen") {
		line += ", frozen"
	}
	for _, n := range l.Notes {
		line += ", " + talk.Clean(n, false)
	}
	if l.Optional && len(l.For) > 0 {
		line += ", if you like"
	}
	if l.Loss != nil && !l.Ticked {
		line = fmt.Sprintf("about %s for %s trimmed", line, l.Trimmed.Round())
	}
	if dishes := t.dishNames(l.For); len(dishes) > 0 {
		line += " – " + words.And(dishes)
	}
	var more []string
	if l.Ticked {
		line = "✓ " + line
		if by := t.boughtBy(l.Got); by != "" {
			more = append(more, by)
		}
	} else {
		more, common = t.howBought(l)
		if d := t.thingDays(l); d != "" {
			more = append(more, d)
		}
	}
	if len(more) > 0 {
		line += " (" + strings.Join(more, "; ") + ")"
	}
	return line, common
}

func (t *Turn) howBought(l *shopping.Line) (more []string, common bool) {
	if len(l.Got) > 0 && len(l.Short) > 0 {
		more = append(more, t.boughtBy(l.Got))
	}
	if len(l.Buy.Packs) > 0 {
		var packs []string
		for _, p := range l.Buy.Packs {
			packs = append(packs, p.String())
		}
		text := words.And(packs)
		if l.Buy.Common {
			text, common = text+"*", true
		}
		if !l.Buy.LeftOver.IsZero() {
			text += ", " + l.Buy.LeftOver.Round().String() + " left over"
		}
		more = append(more, text)
	}
	if n, _ := l.Juiced(); n > 0 {
		more = append(more, fmt.Sprintf("the juice of about %d", n))
	}
	if l.Cost != nil {
		more = append(more, shopping.Money(t.Party, l.Cost))
	}
	return more, common
}

// boughtBy says who has bought a thing: "Ben", or "Ana and Ben"; and when nobody ticked it off.
func (t *Turn) boughtBy(got []planner.Got) string {
	var names []string
	taken := false
	for _, g := range got {
		if g.Used {
			continue
		}
		taken = taken || g.Taken
		if g.By == "" {
			continue
		}
		if n := t.personName(g.By); len(names) == 0 || names[len(names)-1] != n {
			names = append(names, n)
		}
	}
	switch {
	case len(names) == 0 && len(got) == 0:
		return ""
	case len(names) == 0:
		return "bought"
	case taken:
		return "taken as bought, " + words.And(names)
	}
	return "bought by " + words.And(names)
}

// thingDays says by when a thing must be there, and before when it is too early to buy it.
func (t *Turn) thingDays(l *shopping.Line) string {
	if l.BuyBy.IsZero() {
		return ""
	}
	by := "by " + t.dayClock(l.BuyBy)
	if l.Frozen {
		by += ", when it begins to thaw"
	}
	if t.tooEarly(l.NotBefore) {
		return "not before " + t.dayClock(l.NotBefore) + ", " + by
	}
	return by
}
