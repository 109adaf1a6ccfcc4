// Package cp is the scheduling engine: problems over bounded integers, solved by lazy clause generation. It knows
// integers only, imports the standard library only, reads no clock and starts no goroutine.
//
// Start reading with Problem (problem.go): the door is Solve(ctx, problem, limits), and Check judges an assignment
// independently of the search.
package cp
