package solve

import (
	"context"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/mend"
)

// A Grade is one change that a host could make, for tests: of one kind only one is made.
type Grade struct {
	Kind, Text string
	Mild       int // what it costs among equally many changes
	Apply      func(p *planner.Party) bool
}

// EveryGrade lists the changes that a clash may be mended by, from the party alone.
func EveryGrade(p *planner.Party) []Grade {
	var out []Grade
	add := func(kind string, mild int, steps ...mend.Change) {
		for n, c := range steps {
			out = append(out, Grade{Kind: kind, Text: c.Text, Mild: mild * (n + 1), Apply: c.Apply})
		}
	}
	for _, c := range p.Courses {
		add("later "+string(c.Key), mildLater, mend.ServeLater(p, c.Key, 15), mend.ServeLater(p, c.Key, 30),
			mend.ServeLater(p, c.Key, 60))
	}
	for _, x := range p.People {
		if x.Role != planner.Onlooker {
			add("earlier "+string(x.Key), mildHours, mend.LongerHours(p, x.Key, 30, 0), mend.LongerHours(p, x.Key, 60, 0),
				mend.LongerHours(p, x.Key, 120, 0))
			add("longer "+string(x.Key), mildHours, mend.LongerHours(p, x.Key, 0, 30), mend.LongerHours(p, x.Key, 0, 60))
		}
	}
	k := &p.Kitchen
	add("burner", mildKit, mend.MoreOf(planner.ABurner, ""))
	add("grill", mildKit, mend.MoreOf(planner.AGrill, ""))
	add("counter", mildKit, mend.MoreOf(planner.ACounter, ""))
	for _, list := range []struct {
		what planner.Equipment
		of   []planner.Ware
	}{{planner.AHotPlace, k.HotPlaces}, {planner.AnAppliance, k.Appliances}, {planner.AVessel, k.Vessels}} {
		for _, w := range list.of {
			add(w.Name, mildKit, mend.MoreOf(list.what, w.Name))
		}
	}
	for _, s := range []planner.State{planner.Refrigerator, planner.Freezer} {
		add("litres "+string(s), mildKit, mend.MoreCold(s, "ml"))
		add("flat "+string(s), mildKit, mend.MoreCold(s, "flat"))
	}
	if len(k.Ovens) > 0 {
		add("oven", mildOven, mend.MoreOvens(k.Ovens[0].Name))
	}
	add("prep", mildPrep, mend.AddPrepDay())
	add("helper", mildHelper, mend.AddHelper())
	if g, err := newGraph(p, Ask{Now: p.Opens()}); err == nil {
		for _, j := range g.jobs {
			if j.claim >= 0 {
				add("free "+string(j.Key), mildClaim, mend.FreeTask(j.Key, j.label()))
			}
			if j.Who != (planner.Who{}) {
				add("who "+string(j.Key), mildAnyone, mend.LetAnybody(&j.Task, j.label()))
			}
		}
		for _, a := range g.arcs {
			if a.wait.WorthUntil > 0 && !a.fromStart {
				c := mend.WorthLonger(g.nodes[a.from].dish, g.nodes[a.from].step)
				add(c.Kind, mildWait, c)
			}
		}
	}
	return out
}

// Changed is the party after some changes; nil where one of them changes nothing.
func Changed(p *planner.Party, grades ...Grade) *planner.Party {
	q := p.Clone()
	for _, g := range grades {
		if !g.Apply(q) {
			return nil
		}
	}
	return q
}

// Possible says whether there is a plan; sure is false where the engine did not find out.
func Possible(ctx context.Context, p *planner.Party, ask Ask) (possible, sure bool) {
	ask.FirstOnly, ask.Work = true, mendWork
	plan, m, err := attempt(ctx, p, ask)
	if err != nil {
		return false, true
	}
	return plan != nil, plan != nil || m.verdict == cp.Infeasible
}

// Concessions are what mends a party that has no plan, without later meals and dishes less.
func Concessions(ctx context.Context, p *planner.Party, ask Ask) ([]planner.Mend, error) {
	_, m, err := attempt(ctx, p, ask)
	if err != nil {
		return nil, err
	}
	return m.concessions(ctx, mostMends, concedeWork), nil
}
