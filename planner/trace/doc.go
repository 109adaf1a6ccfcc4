// Package trace follows the food of each dish through its steps: what goes into a step, what is done to it there, and
// so what food the step leaves for the published limits. Nobody has to say it. A step that is typed and one that a
// recipe was read into are followed alike, and nothing of it is stored: it is worked out anew from what was said.
//
// # How food is followed
//
// Each ingredient is a [Part]. It goes into the step that was said, else into the first step whose words name it, else
// into the dish's first step. A dish without ingredients has the foods that its steps name, or its own name does. From
// step to step all parts flow on along the waits, over dishes too. What nobody knows is taken for cooked food, which
// spoils, and is listed in [Leaves.Unknown], to be asked about once.
//
// A step changes its parts (heat.go): heat cooks them through, in part, or only warms them, by the verb, the sign and
// the temperature that its words name; doughs become baked goods (baked.go), fruit with sugar and what lies in vinegar
// keeps, garlic or herbs under oil do not; what was dry and is soaked spoils. A mixture keeps every part's limits.
//
// What somebody has said of a step (Leaves.Kind) comes on top: it stands for what nobody knows, and makes nothing that
// is known to spoil keep.
//
// [Trace.Made] (made.go) calls what a step leaves as a cook would: a dressing, cut onions, a pâté. It follows from
// what
// went in, from the heat and from what was done, never from the dish's name, and is unknown where no row of made.tsv
// says; then nobody lets it wait. How such food waits stands in package food.
//
// # Where it is used
//
// Packages check and solve ask [Of] for the food that their clocks follow; so do the replies that name a limit.
// words.tsv has the verbs and signs, roles.tsv what a class of food is to a dough, a preserve or an oil, histamine.tsv
// the fish that cooking makes no younger. Each row says why, and its source.
package trace
