package planner

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/measure"
)

// Volumes are the millilitres of food that the dishes' steps leave, for the covers that each dish serves, as its
// ingredients tell where no step says it.
type Volumes struct {
	p  *Party
	of map[DishKey]map[StepKey]float64
}

// Volumes begins to reckon them; nothing is reckoned before it is asked for.
func (p *Party) Volumes() *Volumes { return &Volumes{p: p, of: map[DishKey]map[StepKey]float64{}} }

// Of is what a step leaves: what it says, else what goes into it and into the steps before it. What several steps take
// of one is shared between them. An ingredient whose amount nobody can tell counts nothing, for nothing is forbidden
// for what is not known.
func (v *Volumes) Of(d *Dish, s *Step) int {
	known := v.of[d.Key]
	if known == nil {
		known = map[StepKey]float64{}
		v.of[d.Key] = known
		for i := range d.Ingredients {
			in := &d.Ingredients[i]
			at := in.Step
			if d.Step(at) == nil && len(d.Steps) > 0 {
				at = d.Steps[0].Key
			}
			known["in "+at] += v.bulk(d, in)
		}
	}
	if ml, ok := known[s.Key]; ok {
		return int(ml)
	}
	known[s.Key] = 0 // steps that go round in a circle are for Validate
	ml := float64(s.Leaves.Millilitres)
	if ml == 0 {
		ml = known["in "+s.Key]
		for i := range s.After {
			a := &s.After[i]
			from := d
			if a.Dish != "" {
				from = v.p.Dish(a.Dish)
			}
			if a.FromStart || a.Aside || from == nil || from.Step(a.Step) == nil {
				continue
			}
			ml += float64(v.Of(from, from.Step(a.Step))) / float64(v.takers(from, a.Step))
		}
	}
	known[s.Key] = ml
	return int(ml)
}

// takers counts the steps that take food of a step; at least 1.
func (v *Volumes) takers(d *Dish, k StepKey) int {
	n := 0
	for i := range v.p.Dishes {
		o := &v.p.Dishes[i]
		for j := range o.Steps {
			if slices.ContainsFunc(o.Steps[j].After, func(a After) bool {
				return a.Step == k && !a.FromStart && !a.Aside && (a.Dish == d.Key || a.Dish == "" && o == d)
			}) {
				n++
			}
		}
	}
	return max(n, 1)
}

// bulk is an ingredient's millilitres; a gram is taken for one: common practice, no source.
func (v *Volumes) bulk(d *Dish, in *Ingredient) float64 {
	if in.Optional || d.CoolsWith(in) || isWater(in.Name) && drains(d) {
		return 0
	}
	q, err := measure.ParseWhole(in.Amount)
	if err != nil || q.IsZero() {
		return 0
	}
	to := measure.Gram
	switch q.Unit().Kind() {
	case measure.Volume:
		to = measure.Millilitre
	case measure.Count:
		n, _ := q.High().Float64()
		if in.Grams > 0 {
			return n * float64(in.Grams)
		}
		f, _ := food.Find(in.Name)
		if piece := f.Piece(); piece != nil && q.Unit() == measure.Each && piece.Edible != nil {
			each, _ := piece.Edible.Float64()
			return n * each
		}
		return 0
	}
	if q, err = q.Convert(to); err != nil {
		return 0
	}
	n, _ := q.High().Float64()
	return n
}

func isWater(name string) bool {
	w := strings.Fields(strings.ToLower(name))
	return len(w) > 0 && w[len(w)-1] == "water"
}

// drains says whether what a dish is boiled or soaked in is poured away.
func drains(d *Dish) bool {
	return slices.ContainsFunc(d.Steps, func(s Step) bool {
		do := strings.ToLower(s.Do)
		return strings.Contains(do, "drain") || strings.Contains(do, "strain") || strings.Contains(do, "discard")
	})
}

// PlatesFor is how many of a plate or glass a course takes: one a guest, however many of its dishes are served on it.
func (p *Party) PlatesFor(c *Course, plate string) int {
	need := 0
	for i := range p.Dishes {
		if d := &p.Dishes[i]; d.Course == c.Key && d.Plate == plate {
			need += d.Makes(p)
		}
	}
	return min(need, p.Covers)
}

// ChilledMillilitres is how much the dishes put into the refrigerator, each the most that any of its steps does.
func (p *Party) ChilledMillilitres() int {
	v, all := p.Volumes(), 0
	for i := range p.Dishes {
		d, most := &p.Dishes[i], 0
		put := func(s *Step) {
			if s != nil {
				most = max(most, v.Of(d, s))
			}
		}
		for j := range d.Steps {
			s := &d.Steps[j]
			if s.Where == Refrigerator || s.Serve != nil && s.Serve.State == Refrigerator {
				put(s)
			}
			for _, a := range s.After {
				if a.Dish == "" && a.Wait.State == Refrigerator {
					put(d.Step(a.Step))
				}
			}
		}
		all += CeilDiv(most*d.Makes(p), max(d.Serves, 1))
	}
	return all
}
