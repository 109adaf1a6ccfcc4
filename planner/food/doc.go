// Package food has the one table of foods: what a word in an ingredient, a step or a dish's name means, and what is
// known of it. Whoever asks what kind of food something is for the published limits, what allergens its words point
// to, how it is sold and kept, what a cup of it weighs or what of it is thrown away asks here.
//
// # What a food is here
//
// A food is what a shop sells or a kitchen makes and what a cook has a name for: celery, chicken stock, gratin.
// foods.tsv has one line for each: its own name, the other names and spellings for it (courgette and zucchini are one
// food), its class, what it tells of allergens and diets, and marks. Everything else hangs on the class or is keyed
// by the food:
//
//   - compounds.tsv: more of the same, each with its source: what is sold or made of several things, with its usual
//     composition, and plain foods that are met beside it.
//   - classes.tsv: what may be said of all such foods alike: the kind of food for the published limits as it goes into
//     a dish, and while it is whole or unopened; what it becomes when it is cooked; where in a shop it lies; where it
//     is kept. Raw ingredients and made things have one list, and verbs.tsv and waits.tsv speak of the same classes.
//   - kinds.tsv: the kinds that the limits of package safety tell apart, and how strict each is beside the others.
//   - tellings.tsv: what a food tells of an allergen, a diet or a guest at risk, how surely, by whose word, and what
//     takes it away: that it is cooked through, pasteurised, cut small, or free of something by its words.
//   - shelf.tsv, pieces.tsv, density.tsv: days in the refrigerator; weight of one and share trimmed; grams a cup.
//     Package measure does the arithmetic with them.
//   - verbs.tsv and waits.tsv: what a cook does to a class and what that leaves; how a class waits in a place.
//   - thaw.tsv: what is cooked or eaten as it comes out of the freezer, comes in packs, or is one large piece.
//   - states.tsv: words that change a food ("dried apricots", "minced turkey", "cooked rice"), and what they tell by
//     themselves: raw oysters.
//   - not.tsv: words that are not what they say: butter beans are no butter.
//   - plain.tsv: words that change nothing: cuts, forms, praise.
//   - sources.tsv: where each figure is from. "Common practice, no source" is written where that is so.
//
// # How a name is looked up
//
// [Find] puts the text into lower-case words without accents, each in the singular. A comma or bracket ends what is
// spoken of; "or", "and", "with" begin another food. In the first part the longest names are found, words that are
// not what they say are taken out, and the last of the names is the food, since English puts the noun last: a
// pheasant stock is a stock. "Leg of lamb" is lamb, as no leg is a food. A word that the tables do not know before
// the name changes nothing (heirloom tomatoes); after it the food is unknown, and Find says so: tomato brittle may be
// anything. Then the words of states.tsv change its class.
// "Flour, bread" is bread flour, and "chicken or vegetable stock" two stocks.
//
// [All] lists every food that a text names, for what may be spoilt by one of them. [KindOf] is the strictest kind of
// a text, and never guesses: what nobody knows has no kind. [Tells] goes by every word, sub-words too, since a wrong
// alarm is better than none.
//
// # How to add a food
//
// Write a line into foods.tsv, at the other foods of its class. Names are in any spelling, the food's own name first;
// a name that begins with = stands for that very form only (=peppers, as pepper is a spice). In tells stand the keys
// of tellings.tsv. What a longer name's words tell by themselves is told too: garlic bread is bread. Marks: season,
// for what may come in every course; hot, for what seasons by its heat; generic, for a name that yields to a more
// telling one before it (ricotta cheese); mixed, for what is made after many recipes (dressing), so that [Unclear] says
// that nobody knows what is in it. A fault in a table is found when it is read, and every test of the package
// meets it.
package food
