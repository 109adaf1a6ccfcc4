package planner

// The figures of a plan, level by level. Smaller is better on every level.
//
//   - OnTime: for every serving, the distance between its time and its target, in started bands of five
//     minutes, added up.
//   - HostFree: the time from half an hour before the arrival to the last target of a course is cut into
//     quarters of an hour from its start; every quarter in which a host has hands work counts 1 for that
//     host. Dressing does not count.
//   - AtBest: for every wait with a BestFrom or BestUntil (every pair of rounds; a Serve wait for every
//     serving; not FromStart), how far its gap misses that range: 1 up to an hour, 2 up to six hours, 3 up
//     to a day, 4 beyond; 0 inside.
//   - Steady: against the plan in force, for every task in both that has not been started: 2 when another
//     person is in charge, and 3 when its start is on another local day, else 1 when its start has moved
//     by more than half an hour. 0 without a plan in force.
//   - Calm: for every person and part of a day in which the person has hands work: 4 for a night (22 to
//     6 o'clock), 1 for a morning (6 to 12), an afternoon (12 to 17) or an evening (17 to 22). And for everybody
//     who is no host, the quarters of an hour that HostFree counts for hosts: what can be made ahead is. And 4 for
//     every hands task out of the house that ends less than four hours before the arrival. In started fours,
//     since a session more is well spent on time for things to go wrong.
//   - Shared: the greatest number of hands minutes that one person has, in started half hours.
//   - Spare: the number of hands and watch tasks that have less than Tight time to spare. What that is, package check
//     says.

// LevelName names one of the things that make a plan good.
type LevelName string

// The levels, in the order in which they matter; their definitions are above.
const (
	OnTime   LevelName = "on time"
	HostFree LevelName = "host free"
	AtBest   LevelName = "at its best"
	Steady   LevelName = "steady"
	Calm     LevelName = "calm"
	Shared   LevelName = "shared"
	Spare    LevelName = "spare"
)

// Levels are all of them, in that order: the one list that is read wherever a plan's levels are gone through. What is
// asked of every level but Spare asks it of Levels[:len(Levels)-1]: that is dear to count.
var Levels = [...]LevelName{OnTime, HostFree, AtBest, Steady, Calm, Shared, Spare}

// Tight is the time to spare below which a task counts on the level Spare.
const Tight Minutes = 10

// Level is a plan's figure on one level; smaller is better.
type Level struct {
	Name   LevelName `json:"name"`
	Value  int       `json:"value"`
	Bound  int       `json:"bound"` // no plan has a better value than this
	Proved bool      `json:"proved"`
}
