// Package safety holds what authorities publish about food at a dinner: how
// long food may stand on the counter, in the refrigerator and after thawing,
// how hot and how cold it is held and cooked, and which words of an ingredient
// point to an allergen or break a diet.
//
// The figures are rows of limits.csv and allergens.csv, each with the document
// it is from and whether that document was read or recalled from memory. The
// functions only choose among rows. Two rules decide the choice:
//
//   - Within one source a range ("3 to 4 days") ends at its far end: that is
//     the source's limit. The near end is kept in [Limit.From].
//   - Where sources disagree, the strictest of them is the answer, and
//     [Published] lists them all. Cooked rice keeps 1 day (UK), not 6 (US).
//
// Nothing here says that a dish is safe. It says which published limit applies;
// local authorities, labels and medical advice go before it: see [Caution].
//
// The package imports the standard library only and knows no clock.
package safety

// Caution is the sentence that goes with every answer about limits.
const Caution = "These are published limits, not a promise that food is safe: " +
	"your local food authority, the label and medical advice go first."

// CautionInShort is the same where a reply is about one dish: the whole sentence stands with the plan.
const CautionInShort = "Published limits, no promise: your food authority, the label and medical advice go first."
