package trace_test

import (
	"testing"

	"tureen/planner/safety"
	"tureen/planner/trace"
)

// TestColdLabels: what is kept under a limit is called what it is, also where the limit is another food's.
func TestColdLabels(t *testing.T) {
	half := trace.Leaves{Parts: []trace.Part{{Kind: safety.Poultry, Half: true}, {Kind: safety.Fish}}}
	for _, c := range []struct {
		of   trace.Cold
		want string
	}{
		{trace.Cold{Kind: safety.Poultry}, "poultry not cooked through (kept as raw)"},
		{trace.Cold{Kind: safety.Fish}, "raw fish"},
		{trace.Cold{Kind: safety.Cooked}, "uncooked food that spoils, as cooked food"},
		{trace.Cold{Kind: safety.Cooked, Cooked: true}, safety.Cooked.Label()},
		{trace.Cold{Kind: safety.Sprouts}, "raw sprouts"},
	} {
		if got := half.Label(c.of); got != c.want {
			t.Errorf("%+v: %q, want %q", c.of, got, c.want)
		}
	}
}
