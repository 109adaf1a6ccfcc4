package planner

// The figures of a plan, level by level. Smaller is better on every level.
//
//   - OnTime: for every serving, the distance between its time and its target, in started bands of five
//     minutes, added up.
//   - HostFree: the time from half an hour before the arrival to the last target of a course is cut into
//     quarters of an hour from its start; every quarter in which a host has hands work counts 1 for that
//     host. Dressing does not count, nor does the time kept free for serving, which is a few minutes a course, nor the
//     minute or two by hand in which a dish goes to the table ([Step.Serves]): counted, it would be done early for
//     company.
//   - AtBest: for every wait with a BestFrom or BestUntil (every pair of rounds; a Serve wait for every
//     serving; not FromStart), how far its gap misses that range: 1 up to an hour, 2 up to six hours, 3 up
//     to a day, 4 beyond; 0 inside. A wait on the counter or kept warm for which nobody has said any length, of food
//     that spoils, is best up to half an hour.
//   - Steady: against the plan in force, for every task in both that has not been started: 2 when another
//     person is in charge, and 3 when its start is on another local day, else 1 when its start has moved
//     by more than half an hour. 0 without a plan in force.
//   - Ahead: every unsettled task counts by when it ends: 0 on an earlier day, 1 from the midnight that the party's day
//     begins with, 2 from noon (or four hours before the arrival, where that is earlier), 4 from four hours before the
//     arrival, 8 from an hour before it; what ends at such an instant is before it. That for each started quarter of an
//     hour of hands, by its planned length with the fewest people, times those; and for each started hour of watch or
//     touch, or else ovens are left for dinner; and 1 for a chore that goes on without anybody, such as wine that gets
//     cold, since somebody begins it. For a host who wants it all on the same day it is another figure: for
//     every such task of a dish that ends before that midnight, those quarters and hours.
//   - Calm: what a person does with their hands on one day before the party's, but for errands out of the house, is a
//     session, from its first start to its last end; a task belongs to the local day on which it starts. What a person
//     is in charge of and has to watch or touch belongs to it too, as if it ended an hour sooner (or as it starts, if
//     that is later): it need not be sat out. A session counts 2, and 1 more for each day that it lies before the
//     eve; 1 for each started half hour over two hours, or
//     over three on a Saturday or Sunday; 2 if it ends after 21:15; 2 if it begins before 7 o'clock. Of the party's
//     day, every part in which a person has hands work counts 1: a morning (6 to 12), an afternoon (12 to 17), an
//     evening (17 to 22); and of any day 4 a night (22 to 6 o'clock). And for everybody who is no host, the quarters of
//     an hour that HostFree counts for hosts. And 4 for every hands task out of the house that ends less than four
//     hours before the arrival. In started fours, since a session more is well spent on time for things to go wrong.
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
	Ahead    LevelName = "ahead"
	Calm     LevelName = "calm"
	Shared   LevelName = "shared"
	Spare    LevelName = "spare"
)

// Levels are all of them, in the order that matters to this party: the one list that is read wherever a plan's levels
// are gone through. Spare is the last, and dear to count. Who wants as much made ahead as can be puts that before what
// waiting costs the food.
func (p *Party) Levels() []LevelName {
	if p.Ahead == AsMuchAsCanBe {
		return []LevelName{OnTime, HostFree, Steady, Ahead, AtBest, Calm, Shared, Spare}
	}
	return []LevelName{OnTime, HostFree, AtBest, Steady, Ahead, Calm, Shared, Spare}
}

// AheadWish is what the hosts have said about work on the days before the party.
type AheadWish string

// The wishes.
const (
	AheadBalanced AheadWish = "" // what loses nothing by it
	AsMuchAsCanBe AheadWish = "as much as can be"
	SameDay       AheadWish = "the same day"
)

// Tight is the time to spare below which a task counts on the level Spare.
const Tight Minutes = 10

// Level is a plan's figure on one level; smaller is better.
type Level struct {
	Name   LevelName `json:"name"`
	Value  int       `json:"value"`
	Bound  int       `json:"bound"` // no plan has a better value than this
	Proved bool      `json:"proved"`
}
