// Package check reads a plan independently of who made it: which rules it breaks, how good it is, how much time to
// spare it leaves.
//
// [Plan] (plan.go) is the judge. It knows a party and a plan, works on instants, and has a file for each rule of
// package planner's documentation: waits.go, clocks.go, hands.go, equipment.go and oven.go, storage.go, service.go,
// tasks.go; rounds.go and graph.go read the steps that they speak of. broken.go numbers the rules. [Judge] (judge.go)
// reads several plans of a party, and asks the rules about people alone, which is quicker.
//
// What is known of a plan besides is asked of the same reading, so that it cannot disagree with the rules: its figure
// on every level (figures.go), how long a task may run over (spare.go), why it stands where it does (why.go), how
// likely courses are on time when lengths vary (chance.go, chance_net.go). [MoveToMarks] (day_marks.go) moves a day's
// longer tasks to five-minute marks of the clock: it is here since all that it asks is what would break, and at what
// cost.
//
// It shares nothing with package solve but what package planner holds for both: see "What is shared" there. The tests
// that list every plan of a tiny party through this reading, and hold package solve to what they find, stand here too.
package check
