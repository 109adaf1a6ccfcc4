// Package words writes and compares English: one and many, counts, lists, lengths of time, first letters, names, and
// the mark of an instant in a text. It knows nobody, and no fact about food: whatever tureen prints should read as if
// one person had written it, so each of these is written here once.
//
//   - [Singular], [Plural], [Uncounted] and [Count] are for names of food and kitchen: "1 quiche", "2 bread knives",
//     "3 tins of tomatoes". A name may have several words; its noun is found, and the rest stays.
//   - [And], [Or] and [Few] join lists.
//   - [Length] says a time in a sentence, [Short] where there is little space; [ShortRange] from a time to another.
//     What any of them writes can be typed again. There is no third form.
//   - [Upper] and [Lower] change a first letter, whatever the script; [Small] all, and keeps their places.
//   - [First] is a first word, [Has] looks for phrases, [Cut] shortens. [Table] is how packages embed lists of words.
//   - [Fold] compares names, [Match] looks one up: who types a name exactly means that one, and only then any that
//     fold alike. Keys, which are kept, are made elsewhere.
//   - [Memo] keeps what a text was read as by tables that never change.
//   - [Stamp] marks an instant where it is written, [RenderStamps] is for the face that draws it. Nothing searches
//     finished text for times: whoever writes an instant marks it.
//
// # Why not a library
//
// On the 438 pairs of testdata/pairs.tsv (214 regular nouns, 111 odd ones, 113 that are not counted; checked by hand),
// so many were right:
//
//	                            singular of the plural     plural of the singular
//	                            regular odd uncounted      regular odd uncounted
//	gertd/go-pluralize v0.2.1     213    98   102            212   103    28
//	jinzhu/inflection v1.0.0      206    73    95            210    84    22
//	this package                  214   111   113            214   111   113
//
// (go run . ../pairs.tsv in testdata/peers). The table nouns.tsv was made beside the pairs, so that its full score says
// only that it does what was wanted. The libraries were not made for a kitchen: both write quich, brioch and chilly,
// and neither knows that garlic is not counted, which they would have to be taught from the same table.
package words
