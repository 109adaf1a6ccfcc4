// Package project makes schedules of resource-constrained projects without search: activities of fixed duration with
// time lags, resources of steady capacity, a makespan to shrink, and nothing else. Most of the public benchmark files
// are such problems, so cmd/cpbench hands Breeder to the engine (cp.Limits.Breed).
//
// # Where to start reading
//
// project.go finds the project in a problem; sgs.go and parallel.go generate schedules, by the keys of rules.go;
// justify.go pushes them together, evolve.go breeds them, breeder.go hands them to the engine.
//
// # Why parties go without
//
// It stood in the engine once, and no party ever came in. Measured on the 28 parties of planner/testdata/shapes, in
// November 2026, seven runs each, medians:
//
//   - None is a project. Parties have choices (400 to 10,000 clauses), calendars (40 to 600) and maximum lags (food's
//     clocks), which generation cannot look at.
//   - The first plan hardly searches: 0 to 74 dead ends with 8 dishes, at most 89 with 12, 168 to 1090 with 20. Were
//     its values known for nothing, which is more than generation can do, planner.Make would save no more than 1 ms of
//     7 to 15 with 8 dishes, 1 to 7 of 18 to 41 with 12, and 17 to 36 of 70 to 104 with 20.
//   - What is left of a party as a project (lags that go forward, uses that are always there) can be scheduled, and the
//     search led towards its best schedule. The first plan then came out as without it for 16 parties, with more dead
//     ends; later at the table for 8 of 4 and 8 dishes; and less late, with food further from its best, for 4 of 20.
//     Led towards everybody's earliest instants, without any schedule, all 28 came out the same on the first four
//     levels, 26 on all: what helped those 4 was not generation.
//
// What breeding and neighbourhoods bring at 100 million: on 13 hard instances of J120 (best known more than 15 % above
// the critical path) a gap of 2.11 % instead of 6.67 %, on every 15th one of 1.59 instead of 3.52 %, on all 80 of 1.35
// instead of 3.39 %.
//
// # Tried, and did not pay
//
//   - Double justification of the first schedule alone: no better after 50 million units on four instances of J120.
//   - Populations of 600 instead of 300, and of 150; parents drawn of four instead of two; moving up to 20 keys of a
//     child instead of 12; beginning anew after 60 generations without progress: all worse on 13 hard instances of
//     J120 with 100,000 to 600,000 children.
//   - More for neighbourhoods than for breeding on J120 (2.78 % instead of 2.11 % on the 13), or hardly any (2.19 %).
package project
