package recipe

import (
	_ "embed"

	"tureen/planner/words"
)

// The words and phrases that take a recipe's text apart. They are those of cooks, chosen by us from common practice, no
// source; none is there for the sake of one recipe.

//go:embed words.tsv
var wordTable string

//go:embed phrases.tsv
var phraseTable string

var lists, phrases = words.TableOf(wordTable), words.TableOf(phraseTable)
