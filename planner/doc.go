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
// All gaps are in whole minutes between instants. A plan has every task, skipped ones too.
//
// Begun work (finished, skipped or started) stays where it is: finished work from Work.Start to Work.End;
// started work from Work.Start for its duration and Work.Extra, and at least to the plan's making; skipped
// work at Work.End, without length and without people or equipment. Where one of these instants is not
// known, the plan may say what it likes. A rule is broken only where a task takes part that has not begun:
// begun work fills hands, ovens and shelves as others must respect, but breaks nothing by itself. Begun work is done
// by Work.Person, where that is set. Waits to and from a skipped step do not count; what came before it still comes before what
// came after it (gap of at least 0). A wait from a step that has not begun to one that has does not count.
//
//  1. Order and waits. For every [After] from step p to step s the gap g = start(s) - end(p) obeys
//     its [Wait]: g >= 0; g >= Min; g <= Max where Max is set; g <= Floor where Floor is set; g = 0 in state
//     [Straight]. With FromStart the gap runs from start(p), and only Min and Max count. All this holds
//     for every pair of a round of p and a round of s; but Straight asks only that the first start among the
//     rounds of s is the last end among those of p. RoundGap lies between the starts of a round and the next.
//     A step that has Serve obeys the same Wait up to the servings of its course: g >= 0 and Min count to the first
//     serving (as planned), Max and Floor to the last one, and Straight means that its last round ends when
//     the first serving is served. A step without Serve that no other step comes after (FromStart left aside) is served
//     from the counter: as if it had Serve with state Counter and no lengths.
//  2. Food clocks. Counter time of perishable food adds up, along every path, over waits in state
//     Counter or Warm and over steps whose Where is Counter; cooking does not turn it back, a mixture
//     inherits its oldest part; it never passes safety.CounterLimit at the party's room temperature, up to the
//     last serving. A wait counts when what waits is perishable; a step counts when something that goes into it, or what it
//     leaves, is. Food that is not perishable adds nothing and turns nothing back. Straight counts as Counter (its gap
//     is 0 but for rounds, several servings, and evening plans). FromStart carries no food.
//     Refrigerator time adds up in the same way over waits and steps in the refrigerator, starts again at the first
//     step on its path that cooks (at the end of it), stands still in the freezer, and never passes safety.RefrigeratorLimit of the
//     kind of food that the step leaves: not at the end of a step that leaves perishable food, nor during a wait
//     after it. HotHold needs a Hold that names a source of heat (a source, a burner, or an oven
//     at safety.HotHold or more). Food left part-cooked goes straight on or is held hot.
//  3. Hands. A hands step has between Hands and MaxHands people, each within cooking hours for the whole
//     of it and at nothing else with their hands; who is away on a task has no hands for another. Watch and touch steps have at
//     every minute somebody at home, awake and not away on a task. Every task has a person in charge (People[0]) who is within
//     cooking hours at its start; other tasks than hands have only that person. The person in charge is the one, or has the skill, that Who
//     asks for; further hands may be anybody's.
//  4. Equipment. Uses of one kind never pass what the kitchen has. A Hold is taken by each round of the
//     earlier step anew, from its end to the last start among the rounds of the later one (Serve: to the last serving). A Use with
//     Until is taken to the last end among the rounds of that step. Oven loads overlap only on one
//     setting, each within its tolerance of it and all within the oven's range, and within the shelves; between any two loads
//     on different settings lies the oven's change-over; nothing goes in, comes out or is touched
//     between the start and the end of a load with a shut door; a load whose temperature
//     changes has the oven to itself, goes in at C and comes out at its last stage's. The first load in an oven
//     that holds no begun one leaves room for preheating after the plan's making. A load of no length is none.
//  5. Storage. Millilitres and flat places in refrigerator and freezer suffice at every minute. A step there
//     takes the room of what it leaves; what waits there takes it from its end to the last start among the steps (rounds, servings)
//     that it waits for in that state, once. Room grows with Makes / Serves (millilitres only) and is then divided over the rounds of
//     the step, rounded up each time; each round takes its share.
//  6. Service. Every serving is inside its window (in an evening plan: not before it), and
//     its dishes are ready. Servings of one group in a course and the next course that has it lie at least 15 minutes
//     apart, or as far as their targets, if that is less.
//  7. Chores keep their From and By. Of a step in rounds, By means the first start and From the last end, if
//     the key names no round beyond the first. An anchor on a skipped or unknown task does not count.
//  8. Claims. A claimed or assigned task has that person in charge.
//  9. Nothing that has not begun is planned before the plan was made, or before the prep days.
//
// 10. Before the party's day, a task of a quarter of an hour or more starts on a five-minute mark, unless it
// goes straight on from another step.
// 11. A task takes its planned duration: [Span].Likely grown with the batch, divided over the hands.
//
// In an evening plan (Soft) service may be late. These may be missed too, each as little as can be: a Floor, Straight after
// begun work, and a By whose instant is the clock's, the arrival's or begun work's. Published limits (Max, rule 2) may not.
// Who cooks at the last target of a course stays on to the end of the night ([Party.StaysOn]).
package planner
