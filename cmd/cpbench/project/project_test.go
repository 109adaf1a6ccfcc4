package project

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"

	"tureen/planner/cp"
)

// drawProject draws a project: lags of all sizes between activities in order, release times, several resources.
func drawProject(r *rand.Rand, n int) *cp.Problem {
	p := &cp.Problem{}
	end := p.NewVar(r.IntN(10), 20*n, "end")
	duration := make([]int, n)
	for i := range n {
		x := p.NewVar(r.IntN(2)*r.IntN(20), 20*n, "start")
		duration[i] = 1 + r.IntN(9)
		p.AddLag(x.At(), end.At(), duration[i]+r.IntN(2)*r.IntN(5))
		for range r.IntN(3) {
			if i > 0 {
				p.AddLag(cp.Var(1+r.IntN(i)).At(), x.Plus(r.IntN(3)), r.IntN(12)-2)
			}
		}
	}
	for range 1 + r.IntN(3) {
		c := cp.Cumulative{Capacity: 3 + r.IntN(10)}
		for i, d := range duration {
			if r.IntN(3) > 0 {
				x := cp.Var(1 + i)
				c.Uses = append(c.Uses, cp.Use{Start: x.At(), End: x.Plus(d), Demand: r.IntN(c.Capacity + 1)})
			}
		}
		p.Cumulatives = append(p.Cumulatives, c)
	}
	machine := cp.Disjunctive{}
	for i, d := range duration {
		if r.IntN(4) == 0 {
			machine.Tasks = append(machine.Tasks, cp.DisjTask{Start: cp.Var(1 + i).At(), End: cp.Var(1 + i).Plus(d)})
		}
	}
	p.Disjunctives = []cp.Disjunctive{machine}
	p.Levels = []cp.Level{{Name: "end", Terms: []cp.Term{{Coef: 1, X: end}}, Const: r.IntN(3) - 1}}
	return p
}

// plan turns a schedule in direction dir into values.
func (b *both) plan(p *cp.Problem, dir int, s *schedule) []int {
	values := make([]int, len(p.Vars))
	for i, x := range b.gens[0].variable {
		values[x] = int(s.starts[i])
		if dir == 1 {
			values[x] = int(s.makespan - s.starts[i] - b.gens[0].duration[i])
		}
	}
	sink := p.Levels[0].Terms[0].X
	values[sink] = max(int(s.makespan), p.Vars[sink].Lo)
	return values
}

// found is the project in p, or nil, as the engine asks for it; asked is false if the engine refutes p at once.
func found(p *cp.Problem) (pr *project, asked bool) {
	cp.Solve(context.Background(), p, cp.Limits{Work: 1, Breed: func(p *cp.Problem, least []int, _ uint64) cp.Breeder {
		pr, asked = newProject(p, least), true
		return nil
	}})
	return pr, asked
}

// breeding bounds a solve by what else is in lim, with schedules bred beside the search.
func breeding(lim cp.Limits) cp.Limits {
	lim.Breed = Breeder
	return lim
}

// TestGeneration: whatever the list, serial and parallel generation in both directions make schedules that pass Check;
// turning and justifying make them no longer.
func TestGeneration(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 11))
		p := drawProject(r, 5+r.IntN(30))
		pr, asked := found(p)
		if !asked {
			t.Fatalf("seed %d: refuted", seed)
		}
		if pr == nil {
			if len(p.Cumulatives) > 0 && usesBind(p) {
				t.Fatalf("seed %d: not seen to be a project", seed)
			}
			continue
		}
		b := newBoth(pr)
		check := func(what string, dir int, s *schedule) {
			t.Helper()
			if err := cp.Check(p, b.plan(p, dir, s)); err != nil {
				t.Fatalf("seed %d, direction %d, %s: %v", seed, dir, what, err)
			}
		}
		for range 5 {
			for dir, g := range b.gens {
				keys := make([]int32, len(pr.variable))
				for i := range keys {
					keys[i] = r.Int32N(50)
				}
				s, other := pr.schedule(), pr.schedule()
				g.parallel(g.byKey(keys, 50), &s)
				check("parallel", dir, &s)
				g.serial(g.byKey(keys, 50), &s)
				check("serial", dir, &s)
				b.turn(dir, &s, &other)
				check("turned", 1-dir, &other)
				before := s.makespan
				b.justify(dir, &s)
				check("justified", dir, &s)
				if s.makespan > before {
					t.Errorf("seed %d: justified from %d to %d", seed, before, s.makespan)
				}
			}
		}
	}
}

// usesBind says whether any resource can be short at all.
func usesBind(p *cp.Problem) bool {
	for _, c := range p.Cumulatives {
		sum := 0
		for _, u := range c.Uses {
			sum += u.Demand
		}
		if sum > c.Capacity {
			return true
		}
	}
	return false
}

// TestEvolution: the best is a schedule of its makespan, never gets longer, and equal seeds give equal ones.
func TestEvolution(t *testing.T) {
	run := func(seed uint64) (best []int32, steps int64) {
		r := rand.New(rand.NewPCG(seed, 12))
		p := drawProject(r, 40)
		pr, _ := found(p)
		if pr == nil {
			t.Fatalf("seed %d: not seen to be a project", seed)
		}
		v := newEvolution(pr, seed)
		for k := 0; v.seed(k); k++ {
		}
		for range 2000 {
			before := v.best.makespan
			v.step()
			if v.best.makespan > before {
				t.Fatalf("seed %d: from %d to %d", seed, before, v.best.makespan)
			}
		}
		if err := cp.Check(p, v.plan(p, 0, &v.best)); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		return v.best.starts, v.steps()
	}
	for seed := range uint64(5) {
		a, n := run(seed)
		b, m := run(seed)
		if !reflect.DeepEqual(a, b) || n != m {
			t.Errorf("seed %d: %v after %d, then %v after %d", seed, a, n, b, m)
		}
	}
}

// TestJoin: a better solution found elsewhere becomes the best, and a parent in whatever direction.
func TestJoin(t *testing.T) {
	p := drawProject(rand.New(rand.NewPCG(1, 12)), 40)
	pr, _ := found(p)
	good := newEvolution(pr, 1)
	for range 3000 {
		good.step()
	}
	values := good.plan(p, 0, &good.best)
	for children := range 2 {
		v := newEvolution(pr, 2)
		for k := 0; v.seed(k); k++ {
		}
		for range 1 + children*2*firstPopulation { // into the parents of each direction
			v.step()
		}
		v.join(values)
		if v.best.makespan > good.best.makespan {
			t.Errorf("best is %d after %d joined", v.best.makespan, good.best.makespan)
		}
		if v.dir != children {
			t.Fatalf("direction %d", v.dir)
		}
		for _, s := range v.pop[v.dir][:v.filled] {
			if err := cp.Check(p, v.plan(p, v.dir, &s)); err != nil {
				t.Errorf("direction %d: %v", v.dir, err)
			}
		}
	}
}

// TestGeneratedAnswers: with deadlines and plans to start from, too, generation changes no answer.
func TestGeneratedAnswers(t *testing.T) {
	generated, infeasible := 0, 0
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 13))
		p := drawProject(r, 4+r.IntN(6))
		for x := 1; x < len(p.Vars); x++ {
			if r.IntN(8) == 0 {
				p.Vars[x].Hi = p.Vars[x].Lo + r.IntN(25)
			}
		}
		if r.IntN(3) == 0 {
			for _, d := range p.Vars {
				p.Start = append(p.Start, d.Lo)
			}
		}
		a, b := cp.Solve(t.Context(), p, breeding(cp.Limits{})), cp.Solve(t.Context(), p, cp.Limits{})
		if a.Status != b.Status || !reflect.DeepEqual(a.Levels, b.Levels) {
			t.Errorf("seed %d: %v %v with, %v %v without", seed, a.Status, a.Levels, b.Status, b.Levels)
		}
		if pr, _ := found(p); pr != nil {
			generated++
		}
		if a.Status == cp.Infeasible {
			infeasible++
		}
	}
	if generated < 100 || infeasible < 10 {
		t.Errorf("only %d projects, %d infeasible", generated, infeasible)
	}
}

// TestGenerationGivesWay: a large project with deadlines that generation breaks is searched without it.
func TestGenerationGivesWay(t *testing.T) {
	for seed := range uint64(4) {
		r := rand.New(rand.NewPCG(seed, 14))
		p := drawProject(r, 50)
		first := cp.Solve(t.Context(), p, breeding(cp.Limits{FirstOnly: true}))
		for x := 1; x < len(p.Vars); x += 5 { // deadlines that this plan, turned about, keeps
			p.Vars[x].Hi = first.Values[x]
		}
		p.Start = first.Values
		last := cp.MaxValue
		r2 := cp.Solve(t.Context(), p, breeding(cp.Limits{Work: 3_000_000, OnSolution: func(_, levels []int) bool {
			if levels[0] >= last {
				t.Errorf("seed %d: %d after %d", seed, levels[0], last)
			}
			last = levels[0]
			return true
		}}))
		if r2.Status != cp.Feasible && r2.Status != cp.Optimal {
			t.Errorf("seed %d: %v", seed, r2.Status)
		}
	}
}

// TestNoProject: what generation does not know keeps a problem from being a project.
func TestNoProject(t *testing.T) {
	base := func() *cp.Problem {
		p := &cp.Problem{}
		end := p.NewVar(0, 50, "end")
		x, y := p.NewVar(0, 50, "x"), p.NewVar(0, 50, "y")
		p.AddLag(x.At(), end.At(), 5)
		p.AddLag(y.At(), end.At(), 5)
		p.Cumulatives = []cp.Cumulative{{Capacity: 1, Uses: []cp.Use{
			{Start: x.At(), End: x.Plus(5), Demand: 1}, {Start: y.At(), End: y.Plus(5), Demand: 1}}}}
		p.Levels = []cp.Level{{Terms: []cp.Term{{Coef: 1, X: end}}}}
		return p
	}
	for _, c := range []struct {
		what    string
		change  func(p *cp.Problem)
		project bool
	}{
		{"nothing changed", func(*cp.Problem) {}, true},
		{"a level to enlarge", func(p *cp.Problem) { p.Levels[0].Terms[0].Coef = -1 }, false},
		{"no level", func(p *cp.Problem) { p.Levels = nil }, false},
		{"a clause", func(p *cp.Problem) { p.AddClause(cp.Var(1).AtLeast(3), cp.Var(2).AtLeast(3)) }, false},
		{"a condition", func(p *cp.Problem) { p.AddLag(cp.Var(1).At(), cp.Var(2).At(), 1, p.NewBool("b").True()) }, false},
		{"a maximum lag", func(p *cp.Problem) {
			p.AddLag(cp.Var(1).At(), cp.Var(2).At(), 1)
			p.AddLag(cp.Var(2).At(), cp.Var(1).At(), -9)
		}, false},
		{"an optional use", func(p *cp.Problem) { p.Cumulatives[0].Uses[0].If = []cp.Lit{p.NewBool("b").True()} }, false},
		{"a use of two variables", func(p *cp.Problem) { p.Cumulatives[0].Uses[0].End = cp.Var(2).At() }, false},
		{"a calendar", func(p *cp.Problem) {
			p.Calendars = []cp.Calendar{{At: cp.Var(1).At(), Forbidden: []cp.Range{{From: 3, To: 4}}}}
		}, false},
		{"an assumption", func(p *cp.Problem) {
			p.Assumptions = []cp.Assumption{{Name: "late", Lits: []cp.Lit{cp.Var(1).AtLeast(7)}}}
		}, false},
	} {
		p := base()
		c.change(p)
		if pr, asked := found(p); !asked || (pr != nil) != c.project {
			t.Errorf("%s: asked %v, project %v", c.what, asked, pr != nil)
		}
	}
}

// TestDeadline: a schedule that generation makes too late is not taken; the search finds the one in time.
func TestDeadline(t *testing.T) {
	p := &cp.Problem{}
	end := p.NewVar(0, 50, "end")
	long, urgent := p.NewVar(0, 50, "long"), p.NewVar(0, 3, "urgent")
	p.AddLag(long.At(), end.At(), 9)
	p.AddLag(urgent.At(), end.At(), 2)
	p.Cumulatives = []cp.Cumulative{{Capacity: 1, Uses: []cp.Use{
		{Start: long.At(), End: long.Plus(9), Demand: 1}, {Start: urgent.At(), End: urgent.Plus(2), Demand: 1}}}}
	p.Levels = []cp.Level{{Terms: []cp.Term{{Coef: 1, X: end}}}}
	r := cp.Solve(t.Context(), p, breeding(cp.Limits{}))
	if r.Status != cp.Optimal || r.Levels[0].Value != 11 || r.Values[urgent] > 3 {
		t.Errorf("%v %v", r.Status, r.Values)
	}
}
