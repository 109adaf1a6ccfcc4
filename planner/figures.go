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
//     6 o'clock), 1 for a morning (6 to 12), an afternoon (12 to 17) or an evening (17 to 22).
//   - Shared: the greatest number of hands minutes that one person has, in started half hours.
//   - Room: the number of hands and watch tasks that have less than ten minutes' room. What room is, RoomOf says.
