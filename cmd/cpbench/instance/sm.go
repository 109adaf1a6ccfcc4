package instance

import "strings"

// readSM reads a PSPLIB single-mode file: banner lines, then blocks under headings. Successors start at or after the
// end of their predecessor; activities count from 1.
func (s *scanner) readSM(in *Instance) {
	n := s.jobs()
	s.heading("PRECEDENCE RELATIONS")
	s.fields("the column titles")
	type arc struct{ from, to int }
	var arcs []arc
	for i := range n {
		f := s.fields("an activity's successors")
		if len(f) < 3 {
			s.fail("%d fields: activity, modes, number of successors, successors", len(f))
		}
		if s.activity(f[0], 1, n) != i {
			s.fail("activity %s out of order", f[0])
		}
		s.singleMode(f[1])
		if k := s.count(f[2], "number of successors"); k != len(f)-3 {
			s.fail("%d successors announced, %d listed", k, len(f)-3)
		}
		for _, succ := range f[3:] {
			arcs = append(arcs, arc{i, s.activity(succ, 1, n)})
		}
	}
	s.heading("REQUESTS/DURATIONS")
	titles := s.fields("the column titles")
	resources := 0
	for _, t := range titles {
		if strings.HasPrefix(t, "R") {
			resources++
		}
	}
	s.fields("the line under the titles")
	s.usage(in, 1, n, resources)
	s.heading("RESOURCEAVAILABILITIES")
	s.fields("the resources' names")
	f := s.fields("the capacities")
	if len(f) != resources {
		s.fail("%d capacities for %d resources", len(f), resources)
	}
	s.capacities(in, f)
	for _, a := range arcs {
		in.Lags = append(in.Lags, Lag{a.from, a.to, in.Duration[a.from]})
	}
}

// jobs finds the line with the number of activities.
func (s *scanner) jobs() int {
	for {
		line, more := s.next()
		if !more {
			s.fail("no line with the number of jobs")
		}
		if strings.HasPrefix(line, "jobs") {
			_, v, _ := strings.Cut(line, ":")
			n := s.count(strings.TrimSpace(v), "number of jobs")
			if n < 2 || n > maxActivities {
				s.fail("%d jobs", n)
			}
			return n
		}
	}
}

// heading skips to the line after a block's heading.
func (s *scanner) heading(title string) {
	for {
		line, more := s.next()
		if !more {
			s.fail("no block %s", title)
		}
		if strings.HasPrefix(line, title) {
			return
		}
	}
}
