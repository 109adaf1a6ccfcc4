// Package method reads what a recipe's method does as a graph of food: single acts, each with the acts that must be
// over before it, because what they left goes into it.
//
// # How a method is read
//
// A sentence becomes words (words.go), of which some tell the cook to do something (told.go): those are the acts. Each
// act has a clause, the words from its lead ("in another bowl, …") to the next act (clause.go), and the clause has
// phrases: preposition, determiner, words (phrase.go).
//
// What is under way are streams: the foods in one, the names that it was given, what was done to it, the vessel it lies
// in (stream.go). One stream is in hand. A clause decides which streams go in, by what its phrases mean (mean.go), and
// whether what is in hand goes in too or something new is begun (begin.go, reader.go); it leaves one new stream in
// hand.
// So an act comes after those that left what goes into it, and what is independent stays so.
// What stays in a pan when meat is taken out of it, the juices or the fat, comes after that act and takes nothing of
// the meat along. A participle before a noun
// ("the grated cheese") is an act of its own before its verb, by itself or pointing back to the stream it speaks of.
//
// Which ingredients an act takes in is said by takes.go. Verbs, with class, attention, place and usual minutes, stand
// in verbs.tsv of package food; the other words in words.tsv, and what unnamed things may be called in becomes.tsv.
// When in doubt it goes on with what is in hand: a false beginning loses every order across it, a missed one adds some.
//
// It knows no minutes, heat or remarks: package recipe reads those from the acts' words.
package method

import "tureen/planner/food"

// Ingredient is what is asked of a line of ingredients.
type Ingredient struct{ Name, Section, Note string }

// Sentence is a piece of the method: acts keep to one.
type Sentence struct {
	Text    string
	Section string // the part of the dish that it stands under
	Adds    bool   // it tells nothing by a verb, and something is put in all the same
	Opens   bool   // it is the first of a paragraph, where paragraphs have several
}

// Act is one thing done.
type Act struct {
	Verb     string         // its plain form; empty: a sentence in which nothing is told
	Class    food.VerbClass // empty where Verb is
	Leaf     bool           // a participle before a noun: it was done before
	Heading  bool           // it only says what the next acts make
	Sentence int
	From, To int      // the bytes of its clause in the sentence
	At, End  int      // the verb's own
	After    []int    // the acts that left what it takes in
	Takes    []int    // the ingredients that go in here
	Names    []string // what is spoken of, each word in the singular
	Begins   bool     // it takes in nothing that was under way
	Aside    bool     // what it leaves is set aside
	Beside   bool     // "meanwhile": it is begun while something else goes on
	Trailing bool     // "…, stirring": it says how the act before is done
	phrases  [][]string
}
