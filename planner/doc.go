// Package planner holds a hosted dinner: the party, its people, kitchen, courses and dishes, the tasks
// that follow from them, and the plan that puts every task on the clock.
//
// It is pure. Time comes in as a value; nothing here reads a clock, a file or a network.
//
// Where to start reading: party.go (who, where, when), dish.go (what is cooked and how), plan.go (the
// answer). From there the story runs: [Tasks] expands a party into tasks, [Make] places them on the
// clock, [Check] says independently of Make which rule a plan breaks, [Figures] gives how good it is (figures.go
// defines the levels).
//
// # The rules a plan must keep
//
// The rules are stated here once; the planner and the checker are both written from this text.
// All gaps are in whole minutes between instants. Finished, skipped and started work stays where it
// is and is exempt from the rules about people's hours, equipment and the past.
//
//  1. Order and waits. For every [After] from step p to step s the gap g = start(s) - end(p) obeys
//     its [Wait]: g >= Min; g <= Max where Max is set; g <= Floor where Floor is set; g = 0 in state
//     [Straight]. With FromStart the gap runs from start(p). Every round of s comes after every round
//     of p. A step that has Serve obeys the same Wait up to each serving of its course: a step must
//     have ended when its course's first serving is served, Max and Floor count to the last one.
//     A step without Serve that no other step comes after is served from the counter.
//  2. Food clocks. Counter time of perishable food adds up, along every path, over waits in state
//     Counter or Warm and over steps whose Where is Counter; cooking does not turn it back, a mixture
//     inherits its oldest part; it never passes safety.CounterLimit at the party's room temperature.
//     Refrigerator time adds up over waits and steps in the refrigerator, starts again at the first
//     step that cooks, stands still in the freezer, and never passes safety.RefrigeratorLimit of the
//     kind of food that the step leaves. HotHold needs a Hold that names a source of heat. Food left
//     part-cooked goes straight on or is held hot.
//  3. Hands. A hands step has between Hands and MaxHands people, each within cooking hours for the whole
//     of it and at nothing else with their hands; watch and touch steps have at every minute somebody
//     at home, awake and not away on a task. Every task has a person in charge (People[0]) who is within
//     cooking hours at its start. Who is obeyed.
//  4. Equipment. Uses of one kind never pass what the kitchen has. Oven loads overlap only on one
//     setting, each within its tolerance of it, and within the shelves; between loads on different
//     settings lies the oven's change-over; nothing opens a shut door; a load whose temperature
//     changes has the oven to itself. The first load leaves room for preheating after the plan's making.
//  5. Storage. Millilitres and flat places in refrigerator and freezer suffice at every minute.
//  6. Service. Every serving is inside its window (in an evening plan: not before it), and
//     its dishes are ready.
//  7. Chores keep their From and By.
//  8. Claims. A claimed or assigned task is done by that person.
//  9. Nothing that has not started is planned before the plan was made, or before the prep days.
//
// 10. Before the party's day, a task of a quarter of an hour or more starts on a five-minute mark.
// 11. A task takes its planned duration: [Span].Likely grown with the batch, divided over the hands.
package planner
