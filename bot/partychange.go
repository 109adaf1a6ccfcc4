package bot

import (
	"context"
	"fmt"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/portion"
	"tureen/planner/words"
)

func partyChange(_ context.Context, t *Turn) (talk.Reply, error) {
	p := t.Party
	var said []string
	oldDay, oldZone := talk.DayOf(p.Day()), t.zone()
	zone, err := t.zoneNamed(oldZone)
	if err != nil {
		return talk.Reply{}, err
	}
	if t.has("name") {
		p.Name = t.text("name")
		said = append(said, "it is called "+p.Name)
	}
	day := oldDay
	if t.has("date") {
		day = t.values["date"].Day
	}
	if day != oldDay || zone.String() != p.Zone {
		shift := int(day.In(time.UTC).Sub(oldDay.In(time.UTC)).Hours() / 24)
		moveParty(p, oldZone, zone, shift)
		said = append(said, fmt.Sprintf("it is on %s (%s), and the courses keep their hours", t.day(p.Arrival), p.Zone))
	}
	if t.has("arrive") {
		if p.Arrival, err = t.timeOn("arrive", day, zone); err != nil {
			return talk.Reply{}, err
		}
		said = append(said, "the guests arrive "+t.full(p.Arrival))
	}
	if t.has("arrive") || t.has("date") {
		if err := t.notPast(p.Arrival, zone); err != nil {
			return talk.Reply{}, err
		}
	}
	if t.has("covers") {
		p.Covers = t.whole("covers", 0)
		said = append(said, "it has "+words.Count(p.Covers, "cover"))
	}
	if t.has("place") {
		p.Place = t.text("place")
		said = append(said, "it is at "+p.Place)
	}
	if t.has("prep-days") {
		p.PrepDays = t.whole("prep-days", 0)
		said = append(said, fmt.Sprintf("work may be planned from %s", t.day(p.Opens())))
	}
	if t.has("kind") {
		p.Kind = planner.PartyKind(t.choice("kind", ""))
		said = append(said, kindText(p))
	}
	if t.has("ahead") {
		p.Ahead = t.aheadWish()
		said = append(said, aheadText(p.Ahead))
	}
	if v, ok := t.values["work-hours"]; ok {
		if p.WorkHours = t.workHours(); len(v.Hours) != 1 {
			return talk.Reply{}, talk.Refuse("/party change work-hours:7:00-22:30", "work-hours: one stretch of the day.")
		}
		said = append(said, "work on the days before lies between "+p.WorkHours.From.Clock()+" and "+
			p.WorkHours.Until.Clock())
	}
	if t.has("country") {
		p.Country = countryOf[t.text("country")]
		said = append(said, "cooked food keeps by "+p.AuthoritiesOf().By())
	}
	if t.has("room-temperature") {
		p.RoomTemperatureC = t.whole("room-temperature", 0)
		said = append(said, fmt.Sprintf("food stands at %d °C", p.RoomTemperatureC))
	}
	if len(said) == 0 {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to change.")
	}
	t.did("changed the party: %s", words.And(said))
	rep := talk.Reply{Text: talk.Sentence(p.Name + ": " + words.And(said)), Next: "Next: " + t.nextStep()}
	if t.has("covers") {
		rep.Sections = t.scaledMenu()
	}
	return rep, nil
}

// kindText says how a party eats.
func kindText(p *planner.Party) string {
	switch portion.PartyKind(p) {
	case planner.FamilyStyle:
		return "bowls and platters go round the table"
	case planner.Buffet:
		return "it is a buffet"
	case planner.Barbecue:
		return "it is a barbecue"
	case planner.Brunch:
		return "it is a brunch"
	case planner.Standing:
		return "it is a party with bites, standing"
	}
	return "each guest gets a plate, course by course"
}

// aheadText says what is wanted of the days before.
func aheadText(w planner.AheadWish) string {
	switch w {
	case planner.AsMuchAsCanBe:
		return "as much as can be is made ahead, even where a little is lost by it"
	case planner.SameDay:
		return "all is cooked on the same day, as far as that goes"
	}
	return "what loses nothing by it is made ahead"
}

// moveParty moves all that a party has on the clock by so many days, into another zone or not, at the same hours.
func moveParty(p *planner.Party, oldZone, zone *time.Location, shift int) {
	move := func(at time.Time) time.Time { return sameClock(at, oldZone, zone, shift) }
	p.Zone = zone.String()
	p.Arrival = move(p.Arrival)
	for i := range p.Courses {
		for j := range p.Courses[i].Servings {
			s := &p.Courses[i].Servings[j]
			s.At = move(s.At)
		}
	}
	for i := range p.People {
		for j := range p.People[i].Days {
			o := &p.People[i].Days[j]
			if d, err := time.Parse(time.DateOnly, o.Date); err == nil {
				o.Date = talk.DayOf(d).Plus(shift).String()
			}
		}
	}
	moveChores(p, move)
	for i := range p.Work {
		for _, said := range []**time.Time{&p.Work[i].NotBefore, &p.Work[i].NotAfter} {
			if *said != nil {
				at := move(**said)
				*said = &at
			}
		}
	}
}

// sameClock moves an instant by days and to another zone so that clocks on the wall show the same.
func sameClock(at time.Time, from, to *time.Location, days int) time.Time {
	l := at.In(from)
	return time.Date(l.Year(), l.Month(), l.Day()+days, l.Hour(), l.Minute(), 0, 0, to).UTC()
}

func moveChores(p *planner.Party, move func(time.Time) time.Time) {
	for i := range p.Chores {
		c := &p.Chores[i]
		anchors := c.By
		if c.From != nil && c.From.At != nil {
			at := move(*c.From.At)
			c.From.At = &at
		}
		for j := range anchors {
			if anchors[j].At != nil {
				at := move(*anchors[j].At)
				anchors[j].At = &at
			}
		}
	}
}

// workHours are the hours of a day before the party's that are wanted for work; none where nobody has said any.
func (t *Turn) workHours() (h planner.DayHours) {
	if v, ok := t.values["work-hours"]; ok && len(v.Hours) == 1 {
		h = v.Hours[0]
	}
	return h
}
