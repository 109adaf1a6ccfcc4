package cp

import "io"

// Status says how sure a result is.
type Status uint8

const (
	// Unknown: the limit came before any answer. It is never to be read as "impossible".
	Unknown Status = iota
	// Infeasible: proved that no assignment keeps all constraints and assumptions; see Result.Core.
	Infeasible
	// Feasible: a solution, not proved best; see Result.Levels for what is proved.
	Feasible
	// Optimal: a solution, every level proved (or no levels to minimise).
	Optimal
)

// String is the status in lower case, as cmd/cpbench prints it.
func (s Status) String() string {
	switch s {
	case Infeasible:
		return "infeasible"
	case Feasible:
		return "feasible"
	case Optimal:
		return "optimal"
	}
	return "unknown"
}

// Limits bounds a solve. The zero value means: until done, or until the context ends. A solve that ends by Work or
// Conflicts gives the same answer every time; one that the context ends does not.
type Limits struct {
	// Work is a number of elementary steps (bounds set, clauses and tasks looked at); 0 is no limit. A step takes
	// some tens of nanoseconds.
	Work int64
	// Conflicts is a number of dead ends; 0 is no limit.
	Conflicts int64
	// Seed varies the random choices. Equal seeds give equal runs.
	Seed uint64
	// FirstOnly ends at the first solution.
	FirstOnly bool
	// OnSolution, if set, sees every better solution as it is found: the values of the variables and of the
	// levels, valid during the call only. Returning false ends the search. Solutions are better in the order of
	// the levels.
	OnSolution func(values, levels []int) bool
	// OnBound, if set, sees what is proved as it is proved: the best values of the levels so far and their bounds,
	// valid during the call only.
	OnBound func(best, bound []int)
	// Breed, if set, is asked once for a way to make solutions without search, which it may not have (nil). least
	// holds the lower bounds of the variables that follow at the root.
	Breed func(p *Problem, least []int, seed uint64) Breeder
	// Proof, if set, is written what the answer rests on, for a checker to follow (the form is told in proof.go).
	// A write that fails only stops the proof.
	Proof io.Writer
}

// Result is the answer of Solve.
type Result struct {
	Status Status
	// Values holds a value a variable, for Optimal and Feasible.
	Values []int
	// Levels holds, a level each, what was reached and what is proved; for Optimal and Feasible.
	Levels []LevelResult
	// Core, for Infeasible: indexes into Problem.Assumptions, ascending, of a set that clashes together with the
	// constraints. Empty: the constraints clash alone. CoreMinimal says that leaving out any one of them makes the
	// rest feasible (proved within the limit).
	Core        []int
	CoreMinimal bool
	Stats       Stats
}

// LevelResult is the value reached at a level and the best bound proved for it, given the values of the levels
// before it.
type LevelResult struct {
	Value, Bound int
	Proved       bool
}

// Stats counts what a solve did.
type Stats struct {
	Work, Conflicts, Decisions, Restarts, Solutions int64
}
