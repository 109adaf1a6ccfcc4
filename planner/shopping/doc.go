// Package shopping says what to buy for a party, where, between which days, in which packages and what it costs.
//
// propose.ToBuy finds what is wanted and on which way to which shop it is bought. [Of] merges that: what is the
// same thing is one line of a trip, summed exactly whatever the units; what does not add up (2 tins and 400 g)
// stands side by side, and an amount that package measure cannot read stands as it was written. Nothing is left
// out: every ingredient is on exactly one line, and the tests count.
//
// A line then says how it is bought: never less than is needed, as weight with its trimmings, in the packages
// that are sold, with what is left over and what it costs. With a plan it knows when it is first used, by when
// it must be in the house, and before when it would be too old, with the published figure that this rests on.
//
// What was ticked off is kept by thing and amount, not by trip: so it stands whatever is planned anew, and
// [News] can say to whoever has bought something what a change of the menu means for it. [Settle] notes what was
// bought on a trip that is done; what nobody bought there goes on another trip.
//
// Where to start reading: list.go, merge.go; then pack.go, price.go, news.go, settle.go.
package shopping
