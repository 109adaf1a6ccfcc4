// Package store keeps parties in one SQLite file. It is the only package that speaks SQL.
//
// A party is stored in pieces (piece.go): one row a course, a dish, a person, a field of its settings, a
// task of its plan. A change is then the set of pieces that it touched, which keeps the journal small and
// makes undo exact: undo.go puts the pieces back, unless somebody else has touched them since.
//
// Every row carries the community that its party belongs to, and every statement asks for it, but for those
// that the system needs for itself: what is due, pruning, backup. isolation_test.go lists them.
//
// One method is one transaction. There is one writing connection, which takes its lock when a transaction
// begins, and a pool of reading ones. Instants come in from the caller; SQL never asks for the time.
//
// Where to start reading: party.go (a party's life), journal.go (what is written with each change),
// reminder.go (what is due). The tables are in migrations/.
package store
