// Package picture draws a plan: the days before by session, the last hours to scale, as a PNG that is read upright on
// a phone, 390 points wide, and on paper in black and white.
//
// What is drawn is a [sheet.Timeline], which also says it in words for those who cannot see it; here are only paper,
// ink and type. A picture is laid out from top to bottom first, since its height follows from what is on it, and
// then painted. Every sort of bar differs in its form and has its words beside it, so that no colour is needed to tell
// them apart.
//
//   - picture.go: the picture as a whole, and its type and inks
//   - days.go: the days before
//   - hours.go: the last hours
//   - lanes.go: where a bar's words find room
//   - bar.go: the form of each sort of bar, and the key to them
package picture
