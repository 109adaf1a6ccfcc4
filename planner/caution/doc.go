// Package caution says what in a dish is dangerous though no clock is broken: raw fish that was not frozen, marinade
// that becomes a sauce, beans that never boil. It knows no dish by name: each row of cautions.tsv says when it holds,
// of which foods (sets.tsv), by which words of a step (words.tsv) and by what happens along the steps, as package
// trace follows the food.
//
// # When a row holds
//
// A row's "when" has alternatives, between bars. One of them holds at a step where all its terms do; an exclamation
// mark turns a term round. The terms stand in scene.go: what food is raw, half cooked or there at all, what the step
// says, whether the food is served or waits after it, and a few that look along the steps (along.go).
//
// A figure in a sentence is never written there: {row} is the figure of a row of package safety's limits, {row:temp}
// its temperature alone and {row:time} its time alone.
//
// A part of a sentence that stands in brackets is said in one country alone: "[UK:…][else:…]". "risk" says how a
// dish of
// which the row holds stands with guests who fall ill more easily (package menu asks), and whether the row's own source
// speaks of them or the advice to them (advice.tsv); "refuses" has the terms by which no plan is made at all.
//
// # What is said when
//
// [Of] finds what holds of a party's dishes, [News] what a change has brought. What is eaten raw is known once it is
// said how a step's food is served, or once the dishes are complete, as they are to be planned: until then the next
// step may cook it. Who has said "I know" of a dish is not told again ([planner.Dish.Known]), except while a guest at
// risk is at the table. A warning that is said in many ordinary dishes warns of nothing: a test counts.
package caution
