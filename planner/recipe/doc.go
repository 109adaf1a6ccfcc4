// Package recipe reads recipes as people write them (a pasted text, a page's schema.org data, one line for the
// impatient), asks what is unsure, takes corrections, and makes the planner's dish.
//
// Start at [Read], which makes a [Reading] of a text, and at [Reading.Dish], which makes a dish of that; what the
// reading is unsure of stands in its questions. [ReadFile] also takes pages and schema.org data, which package page
// finds (page.go), [ReadLine] a dish in one line; told.go reads what package export wrote.
//
// Package manuscript makes plain lines of a text. They are split into title, yield, ingredient lines and method
// (text.go and headline.go; where the method's sentences alone hold the ingredients, woven.go finds them there).
// Package ingredient takes the lines apart. The method is split into sentences (sentence.go). A page without data is
// read by its text (pagetext.go). Sentences that package remark knows as remarks are kept as such (remark.go), each
// with the step that it speaks of (remarkplace.go); of the others package method makes acts, each with those that it
// comes after.
//
// Here each act gets its heat and place (package doing), vessels (package ware) and time (package times, maker.go),
// what is done in the middle of another is put there (midway.go), what comes to pass by itself is waited for (ripe.go),
// what is warmed for the table stands before what it goes into (warmed.go), and what one person does in one go is
// joined to a step (steps.go), with the work that the ingredient lines ask for (work.go). order.go says what comes
// after what, keeping.go what food each step leaves, dish.go how it waits, ask.go what is unsure, notread.go what was
// not understood. correct.go and reshape.go do what somebody says of a reading (package corrections reads the words).
// ownline.go reads a dish that has no recipe (its days package onday). The words stand in tables: verbs.tsv of package
// food, words.tsv and phrases.tsv; testdata/README.md says how well all that reads recipes of our own, and what it read
// wrong at first.
//
// The package is pure: it knows no chat, store, clock or network. What it cannot read it refuses with a sentence
// that a person can act on, and what it is unsure of it asks; it makes nothing up in silence.
package recipe
