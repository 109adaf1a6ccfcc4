package solve_test

import (
	"fmt"
	"os"
	"runtime"
	"slices"
	"strings"
	"testing"
	"text/tabwriter"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/partygen"
	"tureen/planner/solve"
)

// BenchmarkShape prints, for every saved party of testdata/shapes, how long it took until there was a first plan that
// had passed Check (solve.Make), until the engine had proved the first levels, what is proved in the end, and the
// memory it took; then how time grows with dishes, people and days. It is run once:
//
//	go test -run '^$' -bench Shape -benchtime 1x ./planner/solve
//
// SHAPE=dishes08 takes the parties whose names contain it; WORK=100000000 gives the engine other work than Make does.
func BenchmarkShape(b *testing.B) {
	table := tabwriter.NewWriter(os.Stdout, 2, 8, 2, ' ', tabwriter.AlignRight)
	defer table.Flush()
	fmt.Fprintln(table, "\nparty\ttasks\tfirst\tlevel 1\t1 and 2\tall ms\tMB\tproved\tgaps\t")
	for _, s := range shapes(b) {
		if strings.Contains(s.Name(), os.Getenv("SHAPE")) {
			fmt.Fprintln(table, measured(b, s, shapeWork()))
		}
	}
}

// BenchmarkShapeGrowth varies one number of a shape at a time: medians of three seeds.
func BenchmarkShapeGrowth(b *testing.B) {
	table := tabwriter.NewWriter(os.Stdout, 2, 8, 2, ' ', tabwriter.AlignRight)
	defer table.Flush()
	fmt.Fprintln(table, "\nshape\tplanned\ttasks\tfirst ms\tlevel 1\t1 and 2\tproved\t")
	usual := partygen.Shape{Dishes: 8, People: 3, Ovens: 1, Days: 5}
	var rows []partygen.Shape
	for _, n := range []int{2, 4, 8, 12, 16, 20} {
		s := usual
		s.Dishes, s.Ovens = n, 1+n/13
		rows = append(rows, s)
	}
	for n := 1; n <= 6; n++ {
		s := usual
		s.People = n
		rows = append(rows, s)
	}
	for n := 1; n <= 5; n++ {
		s := usual
		s.Days = n
		rows = append(rows, s)
	}
	for _, s := range rows {
		fmt.Fprintln(table, grown(b, s))
	}
}

func shapeWork() (work int64) {
	work = 20_000_000
	fmt.Sscan(os.Getenv("WORK"), &work)
	return work
}

// firstPlan times a first plan that has passed Check; zero when there is none.
func firstPlan(b *testing.B, s partygen.Saved) (time.Duration, *planner.Plan) {
	begun := time.Now()
	plan, _, err := solve.Make(b.Context(), s.Party, solve.Ask{Now: s.Now, FirstOnly: true})
	took := time.Since(begun)
	if err != nil {
		b.Fatal(err)
	}
	if plan == nil {
		return 0, nil
	}
	if broken := check.Plan(s.Party, plan); len(broken) > 0 {
		b.Fatalf("%s: the plan breaks rules: %+v", s.Name(), broken)
	}
	return took, plan
}

func measured(b *testing.B, s partygen.Saved, work int64) string {
	first, plan := firstPlan(b, s)
	if plan == nil {
		return s.Name() + "\t\tno plan\t\t\t\t\t\t\t"
	}
	peak := watchMemory()
	begun := time.Now()
	got, err := solve.SolveWatched(b.Context(), s.Party, solve.Ask{Now: s.Now, Work: work})
	took := time.Since(begun)
	mb := peak()
	if err != nil {
		b.Fatal(err)
	}
	proved, gaps := 0, []string{}
	for i, at := range got.Proved {
		if at >= 0 {
			proved++
		} else if got.Bounds[i] < got.Values[i] {
			gaps = append(gaps, fmt.Sprintf("%s %d of %d", got.Names[i], got.Bounds[i], got.Values[i]))
		}
	}
	return fmt.Sprintf("%s\t%d\t%s\t%s\t%s\t%s\t%.0f\t%d of %d\t%s\t", s.Name(), len(plan.Tasks), ms(first),
		ms(got.Proved[0]), ms(max2(got.Proved[:2])), ms(took), mb, proved, len(got.Proved), strings.Join(gaps, ", "))
}

// max2 is when the last of two levels was proved.
func max2(at []time.Duration) time.Duration {
	if slices.Min(at) < 0 {
		return -1
	}
	return slices.Max(at)
}

func ms(d time.Duration) string {
	if d < 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f", float64(d)/float64(time.Millisecond))
}

// watchMemory samples the heap until the function that it returns is called, which gives the greatest growth in MB,
// garbage included.
func watchMemory() func() float64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	base, most := m.HeapAlloc, m.HeapAlloc
	stop, done := make(chan bool), make(chan bool)
	go func() {
		defer close(done)
		tick := time.NewTicker(10 * time.Millisecond)
		defer tick.Stop()
		for {
			select {
			case <-stop:
				return
			case <-tick.C:
				var now runtime.MemStats
				runtime.ReadMemStats(&now)
				most = max(most, now.HeapAlloc)
			}
		}
	}()
	return func() float64 {
		close(stop)
		<-done
		return float64(most-base) / (1 << 20)
	}
}

// grown is a row of the growth table: medians over seeds.
func grown(b *testing.B, shape partygen.Shape) string {
	const seeds = 3
	var firsts, ones, twos []time.Duration
	proved, levels, tasks, planned := 0, 0, 0, 0
	for seed := uint64(1); seed <= seeds; seed++ {
		s := partygen.ShapedFrom(seed, shape)
		first, plan := firstPlan(b, s)
		if plan == nil {
			continue
		}
		planned++
		tasks += len(plan.Tasks)
		got, err := solve.SolveWatched(b.Context(), s.Party, solve.Ask{Now: s.Now, Work: shapeWork()})
		if err != nil {
			b.Fatal(err)
		}
		firsts = append(firsts, first)
		ones, twos = append(ones, got.Proved[0]), append(twos, max2(got.Proved[:2]))
		for _, at := range got.Proved {
			levels++
			if at >= 0 {
				proved++
			}
		}
	}
	name := fmt.Sprintf("%d dishes, %d people, %d ovens, %d days", shape.Dishes, shape.People, shape.Ovens, shape.Days)
	if planned == 0 {
		return fmt.Sprintf("%s\t0 of %d\t\t\t\t\t\t", name, seeds)
	}
	return fmt.Sprintf("%s\t%d of %d\t%d\t%s\t%s\t%s\t%d of %d\t", name, planned, seeds, tasks/planned,
		ms(median(firsts)),
		ms(median(ones)), ms(median(twos)), proved, levels)
}

// median is the middle one; what never came (-1) is later than all.
func median(of []time.Duration) time.Duration {
	late := func(d time.Duration) time.Duration {
		if d < 0 {
			return 1 << 62
		}
		return d
	}
	slices.SortFunc(of, func(a, b time.Duration) int { return int(min(max(late(a)-late(b), -1), 1)) })
	return of[len(of)/2]
}
