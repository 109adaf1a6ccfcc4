package cooling

import (
	"strings"
	"testing"

	"tureen/planner"
)

// TestGlazedLater: a joint that the dish bakes once more goes cold in pieces as heavy as is published, and in slices
// where it is only made hot again; a pie stays in its dish.
func TestGlazedLater(t *testing.T) {
	for _, c := range []struct {
		do   string
		want planner.CoolHow
		say  string
	}{
		{"Bake until it is shiny", planner.CoolPieces, "into pieces of up to 1.25 kg"},
		{"Reheat it in the oven", planner.CoolSliced, "Slice"},
	} {
		p, d := ahead("Ham", "Simmer the joint", 0, "2.5 kg:gammon joint")
		d.Steps[0].Serve = nil
		d.Steps = append(d.Steps, planner.Step{Key: "again", Do: c.do, Where: planner.Heat, Cooks: true,
			Attention: planner.Watch, Time: planner.Span{Likely: 40}, Serve: &planner.Wait{},
			Uses:  []planner.Use{{What: planner.AnOven, C: 200}},
			After: []planner.After{{Step: "cook", Wait: planner.Wait{State: planner.Refrigerator, Least: 720}}}})
		all := Of(p, d)
		if len(all) != 1 || all[0].Way.How != c.want || !strings.Contains(all[0].Do(), c.say) {
			t.Errorf("%s: %+v", c.do, all)
		}
	}
	p, d := ahead("Leeks and chicken under a crust", "Cover with the pastry and bake", 4000, "1 kg:leeks",
		"1 kg:chicken thighs, diced", "500 g:shortcrust pastry")
	d.Steps[0].Uses = []planner.Use{{What: planner.AnOven, C: 190}}
	if all := Of(p, d); len(all) != 1 || all[0].Way.How != planner.CoolAsItIs {
		t.Errorf("a pie: %+v", all)
	}
}
