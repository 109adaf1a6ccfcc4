package bot

import (
	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/propose"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// A dish that somebody brings has no step here, but it has a clock: what it is out of the cold on its way counts, with
// the time on the table, as on the counter.

// How a dish travels, as it is typed.
var travels = []struct {
	name  string
	state planner.State
}{{"cold", planner.Refrigerator}, {"hot", planner.HotHold}, {"as it is", planner.Counter}}

var travelChoices = func() (out []string) {
	for _, w := range travels {
		out = append(out, w.name)
	}
	return out
}()

var travelOptions = []talk.Option{
	{Name: "travels", Help: "how what is brought comes: in a cold bag with ice packs, in a hot box, or as it is",
		Kind: talk.Choice, Choices: travelChoices, Example: "cold"},
	{Name: "travel-time", Help: "how long it is on its way", Kind: talk.Length, Max: int(planner.MaxWait),
		Example: "40 min"},
}

// setTravels notes how a dish travels.
func (t *Turn) setTravels(d *planner.Dish) error {
	if (t.has("travels") || t.has("travel-time")) && d.BroughtBy == "" {
		return talk.Refuse("/dish change dish:… brought-by:Oona travels:cold",
			"Only what somebody brings travels: say who, "+
				"with brought-by:.")
	}
	if v, ok := t.values["travels"]; ok {
		d.Travels = travels[v.N].state
	}
	if t.has("travel-time") {
		d.TravelTime = t.minutes("travel-time")
	}
	if d.BroughtBy == "" {
		d.Travels, d.TravelTime = "", 0
	}
	return nil
}

// travelText says how a dish travels; empty where nobody has said.
func travelText(d *planner.Dish) string {
	how, way := trace.Journey(d)
	text := ""
	for _, w := range travels {
		if w.state == how {
			text = ", travels " + w.name
		}
	}
	if way > 0 {
		text += ", " + words.Short(way) + " on its way"
	}
	return text
}

// tooFarSection says so under a dish.
func (t *Turn) tooFarSection(d *planner.Dish) []talk.Section {
	if line := propose.TooFar(t.Party, d); line != "" {
		return []talk.Section{{Title: careTitle + ": no plan is made of this", Lines: []string{line}}}
	}
	return nil
}
