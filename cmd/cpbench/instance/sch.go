package instance

import "strings"

// readSCH reads a ProGen/max file: sizes, then each activity's successors with lags in brackets, from start to start,
// then durations and demands, then capacities. Activities count from 0, the source, to n+1, the sink.
func (s *scanner) readSCH(in *Instance) {
	f := s.fields("the sizes")
	if len(f) < 2 {
		s.fail("the first line holds the numbers of activities and of resources")
	}
	n := s.count(f[0], "activities") + 2
	resources := s.count(f[1], "resources")
	if n > maxActivities || resources > maxActivities {
		s.fail("%d activities, %d resources: too many", n, resources)
	}
	for i := range n {
		f := s.fields("an activity's successors")
		if len(f) < 3 {
			s.fail("%d fields: activity, modes, number of successors, successors, lags", len(f))
		}
		if s.activity(f[0], 0, n) != i {
			s.fail("activity %s out of order", f[0])
		}
		s.singleMode(f[1])
		k := s.count(f[2], "number of successors")
		if len(f) != 3+2*k {
			s.fail("%d successors announced, with %d fields for successors and lags", k, len(f)-3)
		}
		for j := range k {
			lag := f[3+k+j]
			if !strings.HasPrefix(lag, "[") || !strings.HasSuffix(lag, "]") {
				s.fail("lag %q does not stand in brackets (one lag each)", lag)
			}
			w := s.number(strings.Trim(lag, "[]"), "lag")
			in.Lags = append(in.Lags, Lag{i, s.activity(f[3+j], 0, n), w})
		}
	}
	s.usage(in, 0, n, resources)
	f = s.fields("the capacities")
	if len(f) != resources {
		s.fail("%d capacities for %d resources", len(f), resources)
	}
	s.capacities(in, f)
}
