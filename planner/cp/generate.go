package cp

// How generated schedules come into a solve. They are solutions like any other: checked before they are taken.

// generated finds the first solution by schedule generation, where the problem is a project; false if it is none, or
// if there is a plan to start from.
func (s *solver) generated() bool {
	if len(s.p.Start) > 0 {
		return false
	}
	pr := newProject(s.p, s.e.root)
	if pr == nil {
		return false
	}
	if s.evolution = newEvolution(pr, s.lim.Seed); s.evolution == nil {
		return false
	}
	s.evolution.seeds()
	s.e.work += s.evolution.steps()
	return s.adopt()
}

// adopt takes the best generated schedule, if it is better than the best solution and breaks no upper bound (the only
// constraint that generation does not look at).
func (s *solver) adopt() bool {
	v := s.evolution
	values := make([]int, len(s.p.Vars))
	for i, x := range v.gens[0].variable {
		values[x] = int(v.best.starts[i])
	}
	sink := s.p.Levels[0].Terms[0].X
	values[sink] = max(int(v.best.makespan), s.p.Vars[sink].Lo)
	if s.values != nil && values[sink] >= s.values[sink] {
		return false
	}
	for x, d := range s.p.Vars {
		if values[x] > d.Hi {
			return false
		}
	}
	s.take(values)
	return true
}

// evolve breeds schedules for at most budget work, to improve level 0.
func (s *solver) evolve(budget int64) {
	v := s.evolution
	if s.best[0] < int(v.best.makespan) {
		v.join(s.values)
	}
	for end := s.e.work + budget; s.e.work < end && s.bound[0] < s.best[0] && !s.stop(); {
		v.step()
		s.e.work += v.steps()
		if int(v.best.makespan) < s.best[0] && s.adopt() {
			s.learn(0, limited, 0)
		}
	}
}
