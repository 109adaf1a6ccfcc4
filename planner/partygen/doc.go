// Package partygen makes parties for tests and benchmarks: one rich party with a plan made by hand (Rich),
// random parties of any size (Draw, and Seeded for saved seeds), parties of the shape that homes have (Shaped; saved
// ones lie in planner/solve/testdata/shapes), and tiny ones that can be enumerated (Tiny).
package partygen
