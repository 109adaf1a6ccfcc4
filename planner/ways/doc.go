// Package ways knows the ways in which a dish can be made: for its service, so that its last heat ends when it is
// served; or ahead, so that it goes cold before and is finished, as the table of waits (package food) says of what it
// is; or frozen (freeze.go), a week before where nobody has time later, and thawed. What is not served hot has only to
// be brought to room temperature, crisped or whipped again (cool.go).
//
// [Renew] chooses a way for every dish of which nothing is begun, and changes its steps to it (change.go): a step that
// makes it hot again comes in, or one that the recipe has goes out, since nobody cools and reheats for nothing. What is
// made ahead has time to get cold through ([cold]), so that no food is cooked and reheated on one evening. The steps as
// they were read stay with the dish, and a host who changes one of them has the last word.
//
// The engine has no steps that may be done or not, so the choice is made before it looks at the clock, by the same
// reasons as the levels have (choose.go): what loses nothing by waiting is made ahead as soon as somebody has hands
// before; what loses a little only where it frees the hosts' hands while guests are there; what loses plainly never by
// itself. Where no plan is found the other ways are tried ([Others]).
//
// Where food of the way ahead waits (spot.go) it keeps as the recipe says, else as the table does; cooling and the
// limits follow from the steps, whoever put them there.
package ways
