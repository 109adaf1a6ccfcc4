package solve

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/safety"
)

// addArcs looks up the waits between steps and up to service.
func (g *graph) addArcs() error {
	followed := make([]bool, len(g.nodes))
	for _, n := range g.nodes {
		for _, a := range n.step.After {
			dish := a.Dish
			if dish == "" {
				dish = n.dish.Key
			}
			from := g.node(dish, a.Step)
			if from == nil {
				return fmt.Errorf("“%s” (%s) comes after a step %q of %s, which is not there", n.step.Do, n.dish.Name,
					a.Step, dish)
			}
			if !a.FromStart {
				followed[from.i] = true
			}
			g.arcs = append(g.arcs, arc{from: from.i, to: n.i, wait: a.Wait, fromStart: a.FromStart})
		}
	}
	for _, n := range g.nodes {
		course := slices.IndexFunc(g.p.Courses, func(c planner.Course) bool { return c.Key == n.dish.Course })
		if course < 0 {
			return fmt.Errorf("%s is for a course %q, which is not there", n.dish.Name, n.dish.Course)
		}
		if len(g.p.Courses[course].Servings) == 0 {
			return fmt.Errorf("the course %s is never served: give it a time", g.p.Courses[course].Name)
		}
		switch {
		case n.step.Serve != nil:
			g.arcs = append(g.arcs, arc{from: n.i, to: -1, course: course, wait: *n.step.Serve})
		case !followed[n.i]:
			g.arcs = append(g.arcs, arc{from: n.i, to: -1, course: course, wait: planner.Wait{State: n.step.Stays()}})
		}
	}
	for _, a := range g.arcs {
		if err := g.soundArc(a); err != nil {
			return err
		}
	}
	return nil
}

func (g *graph) node(d planner.DishKey, s planner.StepKey) *node {
	for _, n := range g.nodes {
		if n.dish.Key == d && n.step.Key == s {
			return n
		}
	}
	return nil
}

// soundArc refuses waits that no plan could make safe.
func (g *graph) soundArc(a arc) error {
	n := g.nodes[a.from]
	if a.fromStart {
		return nil
	}
	if a.wait.State == planner.HotHold && !a.wait.Hold.KeepsHot() {
		return fmt.Errorf("after “%s” (%s) the food is held hot, but nothing named keeps it hot: name a hot place, a "+
			"burner or an oven at 63 °C or more",
			n.step.Do, n.dish.Name)
	}
	food, s := n.jobs[0].food, a.wait.State
	chilled := s == planner.Refrigerator || s == planner.Freezer
	if food.PartCooked && s != planner.HotHold && (chilled || food.ToFinish && a.wait.Least > 0) {
		return fmt.Errorf(
			"“%s” (%s) leaves the food part-cooked, raw inside: it is cooked through at once, never kept to be "+
				"finished later (%s)", n.step.Do, n.dish.Name, safety.PartialCooking().Source)
	}
	return nil
}

// bestUnsaid gives food that spoils a best time on the counter where nobody has said how long it may stand there.
func (g *graph) bestUnsaid() {
	const best = 30
	for i := range g.arcs {
		a := &g.arcs[i]
		food := g.nodes[a.from].jobs[0].food
		if (a.wait == planner.Wait{State: planner.Counter} || a.wait == planner.Wait{State: planner.Warm}) && !a.fromStart &&
			food.Perishable {
			a.wait.BestUntil = best
		}
	}
}

// passSkipped joins what came before a skipped step to what comes after it.
func (g *graph) passSkipped() {
	for {
		i := slices.IndexFunc(g.nodes, func(n *node) bool {
			return n.skipped && slices.ContainsFunc(g.arcs, func(a arc) bool { return a.from == n.i || a.to == n.i })
		})
		if i < 0 {
			return
		}
		var kept, before, after []arc
		for _, a := range g.arcs {
			switch {
			case a.from == i && a.to == i:
			case a.to == i:
				before = append(before, a)
			case a.from == i:
				after = append(after, a)
			default:
				kept = append(kept, a)
			}
		}
		for _, b := range before {
			for _, a := range after {
				if b.fromStart || a.fromStart {
					continue
				}
				state := b.wait.State
				if state == planner.Straight {
					state = planner.Counter
				}
				kept = append(kept, arc{from: b.from, to: a.to, course: a.course, wait: planner.Wait{State: state}})
			}
		}
		g.arcs = kept
	}
}

// acyclic refuses steps that wait for each other. It leaves the nodes' order in g.order.
func (g *graph) acyclic() error {
	const visiting, visited = 1, 2
	mark := make([]int, len(g.nodes))
	var visit func(i int) error
	visit = func(i int) error {
		switch mark[i] {
		case visiting:
			n := g.nodes[i]
			return fmt.Errorf("“%s” (%s) waits for itself through the steps it comes after", n.step.Do, n.dish.Name)
		case visited:
			return nil
		}
		mark[i] = visiting
		for _, k := range g.nodes[i].in {
			if err := visit(g.arcs[k].from); err != nil {
				return err
			}
		}
		mark[i] = visited
		g.order = append(g.order, g.nodes[i])
		return nil
	}
	for i := range g.nodes {
		if err := visit(i); err != nil {
			return err
		}
	}
	return nil
}
