// Package planner holds a hosted dinner: the party, its people, kitchen, courses and dishes, the tasks
// that follow from them, and the plan that puts every task on the clock.
//
// It is pure. Time comes in as a value; nothing here reads a clock, a file or a network.
//
// Where to start reading: party.go (who, where, when), dish.go (what is cooked and how), plan.go (the answer),
// levels.go (what makes one good). From there the story runs: [Tasks] expands a party into tasks, package propose adds
// those that are no dish, package solve places them on the clock, and package check says independently which rule a
// plan breaks and how good it is. Validation (validate.go) says what of a party makes no sense.
//
// # What is shared
//
// Packages solve and check are both written from the rules below, so that each finds the other's mistakes. They share
// the data types, and what is a reading of the party and no rule: its calendar (calendar.go), the ovens' arithmetic
// (oven.go), what the kitchen has (kitchen.go), the list of the levels and how much time to spare is tight (levels.go).
// A second version of these would have to agree with the first to the minute, and would find nothing. All else stands
// twice on purpose, the rounds of a step too ([Party.Fit] for solve, rounds.go in check). What keeps food hot by the
// published limit is said once, in hot.go, for validation, solve and check. Two more readings of the party are made
// once for both: what food a step leaves (package trace), and what a trip brings from when (package propose, Keeping).
// They rest on tables of words, which a second reader would only copy; their tests hold them to dishes typed and read.
//
// # The rules a plan must keep
//
// The rules are stated here once; packages solve and check are both written from this text. All gaps are
// in whole minutes between instants; a task takes the minutes from its start to just before its end. Where
// several readings are possible, the words below choose one.
//
// A task is settled when its [Work] says started, done or skipped. Settled tasks stay where they are: a done one from
// Work.Start (without one: its planned length before its end) to Work.End; a started one from Work.Start until its
// planned length and Extra have passed, or until the plan's making if that is later; a skipped one takes no time at
// Work.End. Starts are cut and ends raised to whole minutes. Settled tasks are exempt from rules 3, 4, 7 and 9 to 11
// and, between two of them, from rule 1; but their people and what they hold after the plan's making is not free for
// others. A done one may be that of somebody who has left. A skipped task holds nothing and needs nobody. A step whose
// rounds are all skipped is passed over: its waits are not asked, and the steps after it (or service) come after the
// steps before it instead, in the state of the wait before it (Straight: Counter), without limits but the clocks.
// Skipped rounds of a step that has others are left out of its waits, and so is a wait from an unsettled task to a
// settled one.
//
// Rounds. A step is done in the fewest rounds, each a task of its own, of which each, made for an equal part of the
// covers rounded up, is within PerRound (with InRounds) and asks for no more than the kitchen has. A use's Amount is
// enough for as many covers as its For says, and of a vessel or an appliance whose Millilitres are known for no more
// than whose share of the step's Leaves.Millilitres it holds (at least one), a blender half as much of what comes from
// the heat (jugs.tsv); more covers take it so many times more.
// Without For, ovens, burners and grills are taken as many times as the vessel that is multiplied most. Of an oven the
// kitchen has the shelves of the largest that the use may be in. A vessel of a step that is no hands step, or that
// stays occupied to a later one, makes no rounds: as much of it is taken as there is, and the rest is to be borrowed.
// An appliance of a hands step makes none either: it is filled again, in batches. What the kitchen has not even once is
// taken once. A round takes the step's time, which without InRounds is for the covers that the dish serves: grown with
// the batches that those take, and divided by the rounds, or with InProportionToCovers grown in proportion to the
// covers and divided by the rounds; rounded up. A step that cools (with Cool and Leaves.Millilitres; it does not cook,
// and is a touch step with a bath, or its Cool has no How) takes the estimate of [safety.CoolTime] for a round's
// millilitres, shared over its vessels: to 21 °C, without How to 5 °C.
//
//  1. Order and waits. For every [After] from step p to step s the gap g = start(s) - end(p) obeys its
//     [Wait]: g >= 0; g >= Least; g <= Longest where that is set; g <= WorthUntil where that is set; g = 0 in state
//     [Straight]. With FromStart the gap runs from start(p), the state says nothing, and no food passes. This
//     holds for every round of s after every round of p; but Straight asks only that the first start among
//     the rounds of s is the last end among those of p. A step's rounds start in their order, RoundGap apart
//     at least. A step that has Serve obeys the same Wait up to each serving of its course: Least counts to the
//     first, Longest and WorthUntil to the last, and Straight means that the last round ends when the first is served.
//     A step without Serve that no other step comes after (FromStart apart) is served from the counter, or from the
//     refrigerator or the freezer where that is its Where.
//
//  2. Food clocks follow the food that each step leaves, which package trace infers from the ingredients, from what
//     is done and from the words; what is said of it only adds. Counter time counts where a step leaves food that
//     spoils: the step's own length, when its Where is the counter and nothing is heated in it, and the waits after
//     it in state Counter, Warm or Straight (whose gap may be more than 0 with rounds, several servings, or in an
//     evening plan). It adds up along every path of steps; a mixture inherits its oldest part; a step that leaves
//     nothing that spoils adds nothing and turns nothing back. It never passes [Party.CounterLimit], or twice that
//     for a raw dough that rises. It begins anew once, at the end of a step that cooks what was raw through for the
//     first time: not where anything in it was cooked before, or is of those that cooking makes no younger, nor with
//     a guest at risk. So both phases together are at most 4 h: our own margin, no source; compare FSANZ's guide of 2
//     and 4 hours. Roast meat of a piece and whole birds are hot by themselves when they leave the heat: where the
//     clock begins anew with them, it begins when the estimate of package cooling (StillHot), by weight and end
//     temperature, falls to 57 °C: at most 45 minutes after the step's end, and none of what left the heat below 60
//     °C. The food has of these minutes those that pass before it waits or is dealt with elsewhere than on the
//     counter, or something that spoils joins it; the rest is lost. Cooked food that is hot and has to be in the cold
//     next (a least wait, or a step there), and cooked rice, mixed or not, that is there for the first time, leaves
//     the step before with no more on the clock than [safety.IntoTheCold], less the half hour in which it steams off
//     where it is hot still and the step is not settled (package cooling: SoonCold). A step that cools counts on the
//     counter until it is at 21 °C by the estimate, and from then as in the refrigerator. Refrigerator time adds up
//     for every sort of food apart, by its kind and by whether it was cooked: over waits and steps in the
//     refrigerator, from the first step of the path that leaves that sort; it stands still in the freezer, and, for as
//     long as the chart has it frozen (package propose: FrozenIn), in a step that thaws it in the refrigerator; up to
//     the end of a step and of each wait after it never passes [Party.RefrigeratorLimit] of the kind. A wait for
//     service counts to the last serving; on the counter also the time after that for which a dish that stands out
//     does so (package propose: OnTable): to the end of service, an hour after the last target of a course, or until
//     it is taken in, after three quarters of [Party.CounterLimit], if that is sooner. What somebody brings has as much
//     on its clock before its first step as its way here takes, half an hour where nobody has said (package trace:
//     OnTheWay); in a plan for before the evening that, and for what has no step the time that it stands out too, is
//     within the limit by itself. Until it is served or worked on it is in the refrigerator.
//     HotHold needs a Hold in a hot place with its
//     name, on a burner, or in an oven whose whole tolerance is at safety.HotHold or more. Food that an unsettled
//     step leaves part-cooked and that a later step cooks goes straight on, all of it (a gap of 0 between any two
//     rounds), or is held hot; and part-cooked food never waits in the refrigerator or the freezer.
//
//  3. Hands. A hands step has between Hands and MaxHands people, each within cooking hours for the whole of
//     it and at nothing else with their hands; any other task has one. A chore that puts hot food into the cold (Cool)
//     may end up to an hour after those hours, while that person is at home. Watch and touch tasks have at every
//     minute somebody at home (Home, or cooking hours), awake and not away on a task. Every task has a person in charge
//     (People[0]) who at its start is within cooking hours and not away on another task. The person in charge is the
//     one, or has the skill, that Who names.
//
//  4. Equipment. Uses of one kind never pass what the kitchen has, of vessels only where the hosts have said how many
//     there are ([Kitchen.Binds]). Each round holds its Uses from its start
//     to its end, or to the end of the last round of Through; a Wait's Hold from its end to the last start of
//     the step that follows, or to the last serving. Oven loads overlap only on one setting, each within its
//     tolerance of it and the oven's range, and within the shelves; between any two loads on different
//     settings lies the oven's change-over, but for food that stays in there to wait (in an evening plan also
//     from such a wait to its next step); no load goes in or comes out while another keeps the door shut (at
//     its very ends it may); a load whose temperature changes shows its first setting, leaves the last, and
//     has the oven to itself; a load of no length is none. A load leaves time for preheating from cold after
//     the plan's making, unless a settled load is in that oven then, or the plan says that the oven was on
//     (Plan.Heating) and the load leaves time to change over from that.
//
//  5. Storage. Millilitres and flat places in refrigerator and freezer suffice at every minute from the
//     plan's making on, each where the hosts have given it ([Kitchen.GivenSpace]): a figure that nobody has given
//     forbids nothing. A round takes its space while its Where is there, and from its end to the last start
//     of the steps (or the last serving) that its food waits for in that state: once, however many they are.
//     Its space is its share of the step's millilitres, which where it does not say them are what its ingredients
//     come to ([Volumes]), grown with the covers and rounded up, and Flat for each set of its vessels. A chore's space
//     is as it says.
//
//  6. Service. Every serving is inside its window (in an evening plan: not before it), its dishes have ended
//     by then, and each group is served its courses in their order: at least 15 minutes apart, or as far as
//     their targets if that is less.
//
//  7. Chores keep their From and By (a From with Within: they end at most so long after its instant, or after the
//     plan's making where that is later and a settled task says the instant), and lie within one day's Open where
//     they have it (in an evening plan they need not). A step's key without a round means all its rounds: the first
//     start in By, the last end in From. An anchor on a skipped or unknown task does not count.
//
//  8. Claims. A claimed or assigned task has that person in charge.
//
//  9. Nothing that is not settled is planned before the plan was made, or before the prep days, or before the instant
//     that people have said it begins at the soonest (Work.NotBefore); nor, where they have said on which day it is
//     done, after that day (Work.StartsBefore), but in an evening plan.
//
//  10. Before the party's day, a task of a quarter of an hour or more starts on a five-minute mark of the
//     clock, unless it goes straight on from a step before it. That is all that binds. On the party's day such tasks
//     are moved to marks, and sessions of the days before to begin on a quarter of an hour, wherever no other rule
//     breaks and no level is the worse for it (package check: MoveToMarks); where a wait, an oven or somebody's hands
//     decide, the minute stays. As it is told, a session begins on the quarter before its first task, and has its tasks
//     in their order without minutes.
//
//  11. A task takes its planned duration: [Span].Likely of its round, divided over the hands.
//
//  12. What keeps only so long is bought in time. Where the hosts have added or changed a way to a shop (a Shop chore
//     that is not Proposed; others have it in their By), what it brings (package propose: Keeping) is used by a start
//     at most so many days after the trip's end as are published from the purchase of that raw food, less what it
//     still lies raw after that start, or as KeepDays says if that is less. So is what was bought on a way that is
//     done, whoever made it, from the end that was said: by what is published alone, and from the last way that it
//     was bought on. It does not bind where the trip is under way or skipped, or the use settled or not in the plan.
//     An evening plan keeps it too.
//
//  13. Nights. What is not settled and starts before the party's day lies within that day's [Party.DayWork]: a hands
//     task as a whole, from 7:00 to 21:30 where the hosts have not said otherwise. What is watched, touched or only
//     begun starts no sooner, and may end, or be begun where nobody attends it, up to an hour later; so may a chore
//     that puts hot food into the cold.
//
// In an evening plan (Soft) service may be late. These may be missed too, each as little as can be: a WorthUntil,
// Straight after a settled step, and a By, or a From's Within, whose instant is the clock's, the arrival's or a settled
// task's. Longest and rule 2 may not. It may leave dishes out (Plan.Without) so that the others have a plan: what is to
// be done, and has been done, for such a dish counts as skipped, and stands in no plan. Who cooks at the last target of
// a course stays on to the end of the night ([Party.StaysOn]).
package planner
