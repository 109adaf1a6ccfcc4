//go:build !unix

package planner_test

import "time"

// cpuTime is not known here; benchmarks then show 0.
func cpuTime() time.Duration { return 0 }
