package check

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"tureen/planner"
)

// The chance of a plan: lengths are ranges, and a plan reserves the likely ones. Played through some thousands of
// times under its own policy (keep the order, start when ready, never before it is planned), it shows how often each
// course comes inside its window, which task is most to blame where it does not, and whether a quarter of an hour more
// before that task would help.
//
// A length is drawn from the triangular distribution over low, likely and high, each task by itself. Nobody is thought
// to hurry, to leave at the end of their hours, or to plan anew; so the chances are those of a plan that nobody mends.

// Chances are what playing a plan through came to.
type Chances struct {
	Runs    int
	Courses []CourseChance // in order of service
}

// CourseChance is how one serving fared.
type CourseChance struct {
	Course planner.CourseKey
	Group  string
	OnTime float64         // share of the runs in which it was inside its window
	Late   planner.Minutes // how far past its window it was in the worst of twenty runs; 0: inside
	// the task whose overruns cost most in the runs in which it was late; empty when there were none
	Threat planner.TaskKey
	// Earlier is Threat, or what led up to it, where starting it Buffer earlier keeps every rule and helps; With is the
	// chance then. It is empty where that does not help.
	Earlier planner.TaskKey
	Buffer  planner.Minutes
	With    float64
	Because string // why Threat cannot begin earlier as the plan stands, in a sentence; empty when it can, or need not
}

// chanceBuffers are the buffers that are tried, for so many of the tasks that threaten a course most.
var chanceBuffers = []planner.Minutes{15, 10, 5}

const chanceTries = 3

// ChancesOf plays a plan through so many times; equal seeds give equal answers. The plan keeps every rule, or the
// answer means little.
func ChancesOf(p *planner.Party, plan *planner.Plan, runs int, seed uint64) Chances {
	y := newPlay(p, plan)
	first := y.run(runs, seed)
	out := Chances{Runs: runs}
	finder := newSpareFinder(p, plan)
	for i := range y.serves {
		s := &y.serves[i]
		c := CourseChance{Course: s.course, Group: s.group, OnTime: first.onTime[i],
			Late: planner.Minutes(math.Ceil(first.late[i]))}
		threats := first.threats(i)
		if len(threats) > 0 {
			c.Threat = y.tasks[threats[0]].key
		}
		for n, t := range threats[:min(len(threats), chanceTries)] {
			block := finder.block(y.tasks[t].key)
			for _, by := range chanceBuffers {
				moved := finder.move(block, -by)
				if broken := finder.checker(moved).rules(); len(broken) > 0 {
					if n == 0 {
						c.Because = broken[0].Text
					}
					continue
				}
				if again := newPlay(p, moved).run(runs, seed); again.onTime[i] > max(c.OnTime, c.With)+0.01 {
					c.Earlier, c.Buffer, c.With = y.tasks[t].key, by, again.onTime[i]
				}
				break
			}
		}
		if c.Earlier != "" {
			c.Because = ""
		}
		out.Courses = append(out.Courses, c)
	}
	return out
}

// play is a plan as a network of instants: what has to be over before what.
type play struct {
	tasks  []playedTask // by planned start
	serves []playedServe
}

type playedTask struct {
	key             planner.TaskKey
	start, end      float64 // as planned, in minutes from the plan's making
	low, mode, high float64 // its length
	fixed           bool    // over: it ends when it ended
	before          []playedArc
}

// playedArc says that an instant of an earlier task, plus a lag, comes before.
type playedArc struct {
	task      int
	fromStart bool
	lag       float64
}

type playedServe struct {
	course      planner.CourseKey
	group       string
	at, latest  float64
	before      []playedArc
	beforeServe int     // the group's serving before, or -1
	apart       float64 // from that one
}

// played is what the runs came to.
type played struct {
	onTime []float64
	late   []float64
	blame  [][]float64 // by serving and task, minutes of overrun on the way to a late service
}

// threats are the tasks that are to blame for a serving's lateness, the most first.
func (r *played) threats(serve int) []int {
	var out []int
	for t, b := range r.blame[serve] {
		if b > 0 {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(r.blame[serve][b], r.blame[serve][a]) })
	return out
}

// run plays the plan through so many times.
func (y *play) run(runs int, seed uint64) played {
	r := rand.New(rand.NewPCG(seed, 0x6368616e6365))
	out := played{onTime: make([]float64, len(y.serves)), late: make([]float64, len(y.serves))}
	lateness := make([][]float64, len(y.serves))
	for range y.serves {
		out.blame = append(out.blame, make([]float64, len(y.tasks)))
	}
	n := len(y.tasks)
	start, end, because := make([]float64, n), make([]float64, n), make([]int, n)
	served, cause := make([]float64, len(y.serves)), make([]int, len(y.serves))
	for range runs {
		for i := range y.tasks {
			t := &y.tasks[i]
			u := r.Float64() // drawn for each task, so that the same run is the same run in another plan
			start[i], because[i] = t.start, -1
			for _, a := range t.before {
				if at := a.instant(start, end); at > start[i]+1e-9 {
					start[i], because[i] = at, a.task
				}
			}
			end[i] = start[i] + triangular(u, t.low, t.mode, t.high)
			if t.fixed {
				end[i] = t.end
			}
		}
		for i := range y.serves {
			s := &y.serves[i]
			served[i], cause[i] = s.at, -1
			for _, a := range s.before {
				if at := a.instant(start, end); at > served[i]+1e-9 {
					served[i], cause[i] = at, a.task
				}
			}
			if b := s.beforeServe; b >= 0 && served[b]+s.apart > served[i]+1e-9 {
				served[i], cause[i] = served[b]+s.apart, cause[b]
			}
			over := max(0, served[i]-s.latest)
			lateness[i] = append(lateness[i], over)
			if over < 1e-9 {
				out.onTime[i]++
				continue
			}
			for t := cause[i]; t >= 0; t = because[t] {
				out.blame[i][t] += max(0, end[t]-start[t]-(y.tasks[t].end-y.tasks[t].start))
			}
		}
	}
	for i := range y.serves {
		out.onTime[i] /= float64(runs)
		slices.Sort(lateness[i])
		out.late[i] = lateness[i][runs*19/20]
	}
	return out
}

func (a *playedArc) instant(start, end []float64) float64 {
	if a.fromStart {
		return start[a.task] + a.lag
	}
	return end[a.task] + a.lag
}

// triangular turns a number between 0 and 1 into a length, by the inverse of the distribution function.
func triangular(u, low, mode, high float64) float64 {
	if high <= low {
		return mode
	}
	if cut := (mode - low) / (high - low); u < cut {
		return low + math.Sqrt(u*(high-low)*(mode-low))
	}
	return high - math.Sqrt((1-u)*(high-low)*(high-mode))
}
