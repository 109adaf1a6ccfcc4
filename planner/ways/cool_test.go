package ways_test

import (
	"slices"
	"testing"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/solve"
	"tureen/planner/ways"
)

const (
	peppers = "Roasted peppers\nServes 6\n6 red peppers\n3 tbsp olive oil\n\nRoast the peppers at 220 °C for 40 " +
		"minutes. " +
		"Skin the peppers and marinate in the oil in the refrigerator for 2 hours. Serve. "
	bread = "White bread\nServes 6\n500 g strong flour\n7 g dried yeast\n320 ml water\n2 tsp salt\n\nMix the flour, " +
		"yeast, water and salt and knead for 10 minutes. Leave to rise for 1 hour. Shape. Bake at 230 °C for 35 minutes. "
	cream = "Whipped cream\nServes 6\n300 ml double cream\n1 tbsp sugar\n\nWhip the cream with the sugar for 5 minutes. "
)

// TestCoolFinishes: what is not served hot is brought to room temperature, crisped or whipped again where it has waited
// for longer than it is at its best, as the table of waits says; and a party can be planned so.
func TestCoolFinishes(t *testing.T) {
	for _, row := range []struct {
		name, text, do string
		want           planner.Way
		change         func(p *planner.Party)
	}{
		{"peppers", peppers, "Take it out of the refrigerator, so that it is not cold", planner.MadeAhead, nil},
		{"bread, fresh", bread, "", planner.ForService, nil},
		{"bread, ahead", bread, "Crisp it in the oven", planner.MadeAhead, func(p *planner.Party) {
			p.Ahead = planner.AsMuchAsCanBe
		}},
		{"cream, fresh", cream, "", planner.ForService, nil},
		{"cream, ahead", cream, "Whisk it again briefly", planner.MadeAhead, func(p *planner.Party) {
			p.Ahead = planner.AsMuchAsCanBe
		}},
		{"cream, the host's word", cream, "Whisk it again briefly", planner.MadeAhead, func(p *planner.Party) {
			p.Dishes[0].Way = planner.MadeAhead
		}},
	} {
		p, d, now := supper(t, row.text)
		if row.change != nil {
			row.change(p)
		}
		if got := ways.Of(p, d, now); got.Way != row.want {
			t.Errorf("%s: %q, since %q; want %q", row.name, got.Way, got.Why, row.want)
			for _, s := range d.Steps {
				t.Logf("%+v", s)
			}
			continue
		}
		ways.Renew(p, now)
		at := slices.IndexFunc(d.Steps, func(s planner.Step) bool { return s.Finish })
		if (at >= 0) != (row.do != "") || at >= 0 && d.Steps[at].Do != row.do {
			t.Errorf("%s: finished by step %d of %+v", row.name, at, d.Steps)
			continue
		}
		plan, clash, err := solve.Make(t.Context(), p, solve.Ask{Now: now})
		if err != nil || clash != nil {
			t.Errorf("%s: no plan: %v %v", row.name, err, clash)
			continue
		}
		if broken := check.Plan(p, plan); len(broken) > 0 {
			t.Errorf("%s: %v", row.name, broken)
		}
	}
}
