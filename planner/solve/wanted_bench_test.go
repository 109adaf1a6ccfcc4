package solve_test

import (
	"fmt"
	"os"
	"slices"
	"testing"
	"text/tabwriter"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/propose"
	"tureen/planner/repertoire"
	"tureen/planner/solve"
	"tureen/planner/ways"
)

// menuOf is a party of so many ready dishes of the shelf, with the ways that are chosen for them and all the evening's
// tasks: a host and two who help, four evenings before.
func menuOf(dishes int) (*planner.Party, time.Time) {
	arrival := time.Date(2027, time.March, 13, 19, 0, 0, 0, time.UTC)
	p := &planner.Party{ID: 1, Name: "Supper", Zone: "UTC", Arrival: arrival, Covers: 10, PrepDays: 7,
		Kitchen: planner.HomeKitchen()}
	p.Kitchen.Ovens = append(p.Kitchen.Ovens, p.Kitchen.Ovens[0])
	p.Kitchen.Ovens[1].Name = "second oven"
	for i, k := range []planner.CourseKey{"starter", "main", "dessert"} {
		p.Courses = append(p.Courses, planner.Course{Key: k, Name: string(k), Servings: []planner.Serving{
			{At: arrival.Add(time.Duration(30+50*i) * time.Minute), Early: 10, Late: 20}}})
	}
	for i, k := range []planner.PersonKey{"ana", "ben", "cleo"} {
		x := planner.Person{Key: k, Name: string(k), Role: planner.Host,
			Cooks: planner.DayHours{From: 16 * 60, Until: 21*60 + 30}, Home: planner.DayHours{From: 0, Until: 24 * 60}}
		if i > 0 {
			x.Role = planner.CoHost
		}
		x.Days = []planner.OtherDay{{Date: p.Day().Format(time.DateOnly), Cooks: []planner.DayHours{{From: 9 * 60,
			Until: 24 * 60}}}}
		p.People = append(p.People, x)
	}
	cards := repertoire.List()
	if dishes < 10 { // those with the most to do
		slices.SortStableFunc(cards, func(a, b repertoire.Card) int { return len(b.Dish().Steps) - len(a.Dish().Steps) })
	}
	for i := range dishes {
		d := cards[i].Dish()
		d.Course = p.Courses[i%3].Key
		p.Dishes = append(p.Dishes, d)
	}
	now := arrival.AddDate(0, 0, -4)
	ways.Renew(p, now)
	propose.Renew(p, now)
	return p, now
}

// BenchmarkWanted prints how long a plan takes beside what is wanted of it, in computing time:
//
//	go test -run '^$' -bench Wanted -benchtime 1x ./planner/solve
func BenchmarkWanted(b *testing.B) {
	table := tabwriter.NewWriter(os.Stdout, 2, 8, 2, ' ', tabwriter.AlignRight)
	defer table.Flush()
	row := func(what string, took, wanted time.Duration, more string) {
		fmt.Fprintf(table, "%s\t%s ms\twanted %s ms\t%s\t\n", what, ms(took), ms(wanted), more)
	}
	fmt.Fprintln(table)
	for _, n := range []int{8, 20} {
		p, now := menuOf(n)
		var plan *planner.Plan
		best := time.Hour // of computing, since other programs run beside
		for range 5 {
			begun := cpuTime()
			var clash *solve.Clash
			var err error
			if plan, clash, err = solve.Make(b.Context(), p, solve.Ask{Now: now, FirstOnly: true}); plan == nil {
				b.Fatalf("%d dishes: %v %+v", n, err, clash)
			}
			best = min(best, cpuTime()-begun)
		}
		if broken := check.Plan(p, plan); len(broken) > 0 {
			b.Fatal(broken)
		}
		wanted := 50 * time.Millisecond
		if n == 20 {
			wanted = time.Second
		}
		steps := 0
		for i := range p.Dishes {
			steps += len(p.Dishes[i].Steps)
		}
		row(fmt.Sprintf("first plan, %d dishes", n), best, wanted, fmt.Sprintf("%d steps, %d tasks", steps, len(plan.Tasks)))
		if n == 20 {
			continue
		}
		got, err := solve.SolveWatched(b.Context(), p, solve.Ask{Now: now, Work: shapeWork()})
		if err != nil {
			b.Fatal(err)
		}
		three := slices.Clone(got.Proved[:3])
		row("levels 1 to 3 proved", slices.Max(three), time.Second, fmt.Sprint(got.Names[:3]))
		if slices.Min(three) < 0 {
			row("levels 1 to 3 proved", -1, time.Second, "not all of them")
		}
		begun := cpuTime()
		full, _, err := solve.Make(b.Context(), p, solve.Ask{Now: now})
		if full == nil {
			b.Fatal(err)
		}
		said := ""
		for _, l := range full.Levels {
			if said += fmt.Sprintf("%s %d", l.Name, l.Value); !l.Proved {
				said += fmt.Sprintf(" (at least %d)", l.Bound)
			}
			said += ", "
		}
		row("all levels answered", cpuTime()-begun, 5*time.Second, said)
		evening := p.Clone()
		at := p.Arrival.Add(-time.Hour)
		for _, t := range full.Tasks {
			if start, end := t.Start, t.End; !end.After(at) {
				evening.Work = append(evening.Work, planner.Work{Task: t.Task, Progress: planner.Done, Start: &start, End: &end})
			}
		}
		begun = cpuTime()
		again, clash, err := solve.Make(b.Context(), evening, solve.Ask{Now: at, InForce: full, Soft: true})
		if again == nil {
			b.Fatalf("in the evening: %v %+v", err, clash)
		}
		row("planned again in the evening", cpuTime()-begun, time.Second, "")
	}
	b.ReportMetric(0, "ns/op")
}
