// Package saying understands what people say about a party in words of their own: "soup's done", "guests 20 min late",
// "I'll make the dessert".
//
// [Read] is pure: from a sentence, and a [View] of the party, to one command of the house, or to the two nearest, or to
// nothing. It carries nothing out: whoever asks does that, at once where the command only looks or ticks off one's own
// task ([Look], [Tick]), and after a Yes otherwise ([Ask], [Lose]).
//
// A sentence is put into words that the tables know (tokens.go: slips of the finger, short forms, numbers, lengths,
// times), and each clause of it is held against the patterns of phrases.tsv from its first word to its last
// (pattern.go): a word that no pattern has, such as a "not", is never passed over, but for those that words.tsv says
// mean nothing. A pattern's slots are filled with what the party has (things.go). What a pattern means stands in
// meanings.tsv: the command, whether it may be done at once, and what it changes, in words. Where no pattern fits, the
// nearest meanings are found by the words that they share with it (nearest.go); those are only ever offered.
//
// All that is English stands in the three tables, and none of it in Go.
package saying
