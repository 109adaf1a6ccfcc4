package check

import (
	"tureen/planner"
	"tureen/planner/cooling"
	"tureen/planner/propose"
	"tureen/planner/trace"
)

// Judge reads one plan after the other of a party that does not change meanwhile: what follows from the party alone is
// read once. All the plans are of one sort, an evening's or not.
type Judge struct {
	p     *planner.Party
	known *known
}

// Of is the judge of a party's plans.
func Of(p *planner.Party) *Judge { return &Judge{p: p, known: newKnown()} }

func (j *Judge) reading(plan *planner.Plan) *checker { return read(j.p, plan, j.known) }

// Plan is as the function [Plan].
func (j *Judge) Plan(plan *planner.Plan) []Broken { return j.reading(plan).rules() }

// Figures gives a plan's figure on every level, in their order, from the plan alone: Bound equals Value and
// nothing is proved; whoever made the plan knows better. inForce is the plan that people were told, or nil.
// Skipped tasks count nowhere.
func (j *Judge) Figures(plan, inForce *planner.Plan) []planner.Level {
	return j.reading(plan).figures(inForce)
}

// known is what follows from the party alone, each part read when it is asked for first.
type known struct {
	cooking, home map[planner.PersonKey][]planner.Window // everybody's hours
	foods         *trace.Trace                           // nil until the clocks are looked at
	hot           map[planner.TaskKey]int                // with foods: see [cooling.StillHot]
	soon          map[planner.TaskKey]cooling.Soon       // likewise: see [cooling.SoonCold]
	table         map[planner.DishKey]int                // likewise: see [propose.OnTable]
	kept          []propose.Kept                         // see [propose.Keeping]
	sizes         map[*planner.Step]sized
	asked         bool // what is kept has been asked for
}

func newKnown() *known { return &known{sizes: map[*planner.Step]sized{}} }

func (k *known) follow(p *planner.Party) {
	if k.foods != nil {
		return
	}
	k.foods = trace.Of(p)
	k.hot, k.soon = cooling.StillHot(p, k.foods), cooling.SoonCold(p, k.foods)
	k.table = map[planner.DishKey]int{}
	for i := range p.Dishes {
		k.table[p.Dishes[i].Key] = int(propose.OnTable(p, &p.Dishes[i]))
	}
}

func (k *known) keptOf(p *planner.Party) []propose.Kept {
	if !k.asked {
		k.kept, k.asked = propose.Keeping(p), true
	}
	return k.kept
}
