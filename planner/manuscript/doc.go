// Package manuscript makes plain lines of a recipe's text, however somebody wrote it down: with Markdown's marks, front
// matter, pictures in place of bullets, items that go on indented, blanks that do not break, all in capitals. It knows
// no food and no verbs: package recipe reads the lines.
//
// Start at [Lines] in lines.go. front.go reads what stands between two lines of dashes on top, marks.go takes off what
// only looks, yield.go reads for how many a line says that it is.
package manuscript
