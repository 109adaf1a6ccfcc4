package solve_test

import (
	"context"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"
	"time"

	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// A call whose context ends gives the best plan that it has by then, which keeps every rule, or says that it found
// none; it never says that there is none, and it leaves nothing running.
func TestACancelledPlanIsTheBestSoFar(t *testing.T) {
	p := partygen.Dinner(8)
	before := runtime.NumGoroutine()
	over, cancel := context.WithCancel(t.Context())
	cancel()
	plan, clash, err := solve.Make(over, p, solve.Ask{Now: partygen.ClockOn(23)(18, 0)})
	if err != nil || plan != nil || clash == nil || !clash.Unproved {
		t.Errorf("cancelled before it began: %v, %+v, %v; want a clash that is not proved", plan, clash, err)
	}
	// The context ends at the n-th look at it, so that the test does not hang on any clock.
	plans := 0
	for looks := 2; looks < 400; looks += looks / 2 {
		plan, clash, err := solve.Make(&ending{Context: t.Context(), looks: looks}, p,
			solve.Ask{Now: partygen.ClockOn(23)(18, 0)})
		switch {
		case err != nil:
			t.Errorf("after %d looks: %v", looks, err)
		case plan == nil && !clash.Unproved:
			t.Errorf("after %d looks: no plan, as if that were proved: %+v", looks, clash)
		case plan != nil:
			plans++
			if broken := check.Plan(p, plan); len(broken) > 0 {
				t.Errorf("after %d looks: %+v", looks, broken)
			}
		}
	}
	if plans < 3 {
		t.Errorf("only %d of the calls had a plan when they were cancelled", plans)
	}
	if after := runtime.NumGoroutine(); after > before {
		t.Errorf("%d goroutines before, %d after", before, after)
	}
}

// The same where there is no plan: the search for reasons and mends ends too.
func TestACancelledClashSaysNothingFalse(t *testing.T) {
	p := partygen.Dinner(8)
	p.Kitchen.Refrigerator.Flat = 0
	for looks := 1; looks < 80; looks += 1 + looks/2 {
		plan, clash, err := solve.Make(&ending{Context: t.Context(), looks: looks}, p,
			solve.Ask{Now: partygen.ClockOn(23)(18, 0)})
		if err != nil || plan != nil || clash == nil {
			t.Fatalf("after %d looks: %v, %+v, %v", looks, plan, clash, err)
		}
		for _, r := range clash.Requirements {
			if r.Text == "The steps' own lengths and waits contradict each other, whatever the clock says." {
				t.Errorf("after %d looks: %s", looks, r.Text)
			}
		}
	}
}

// ending is a context that ends when it has been looked at so often.
type ending struct {
	context.Context
	looks int
}

func (c *ending) Err() error {
	if c.looks--; c.looks < 0 {
		return context.Canceled
	}
	return nil
}

// BenchmarkCancel prints how long a call goes on after its context has ended, at a random moment: the median, the 99th
// percentile and the worst of 200 calls for each party, by the clock and as computing time, which is what a machine
// that nobody else uses would take. It is run once:
//
//	go test -run '^$' -bench Cancel -benchtime 1x ./planner/solve
func BenchmarkCancel(b *testing.B) {
	for _, s := range shapes(b) {
		if s.Seed > 3 || s.Dishes < 8 || s.People < 3 {
			continue
		}
		b.Run(s.Name(), func(b *testing.B) {
			begun := time.Now()
			if _, _, err := solve.Make(b.Context(), s.Party, solve.Ask{Now: s.Now}); err != nil {
				b.Fatal(err)
			}
			whole := time.Since(begun)
			r := rand.New(rand.NewPCG(1, 2))
			var late, busy []time.Duration
			for range 200 {
				ctx, cancel := context.WithCancel(b.Context())
				var at time.Time
				var used time.Duration
				timer := time.AfterFunc(time.Duration(r.Int64N(int64(whole))),
					func() { at, used = time.Now(), cpuTime(); cancel() })
				plan, _, err := solve.Make(ctx, s.Party, solve.Ask{Now: s.Now})
				end, usedAll := time.Now(), cpuTime()
				if err != nil {
					b.Fatal(err)
				}
				if plan != nil && len(check.Plan(s.Party, plan)) > 0 {
					b.Fatal("a cancelled plan breaks rules")
				}
				if timer.Stop() {
					cancel()
					continue // it was done before
				}
				<-ctx.Done()
				late, busy = append(late, end.Sub(at)), append(busy, usedAll-used)
			}
			for _, of := range []struct {
				unit string
				took []time.Duration
			}{{"clock-ms", late}, {"cpu-ms", busy}} {
				slices.Sort(of.took)
				n := len(of.took)
				b.ReportMetric(float64(of.took[n/2])/1e6, of.unit)
				b.ReportMetric(float64(of.took[n*99/100])/1e6, "p99-"+of.unit)
				b.ReportMetric(float64(of.took[n-1])/1e6, "worst-"+of.unit)
			}
		})
	}
}
