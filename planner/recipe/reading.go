package recipe

import (
	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/ingredient"
	"tureen/planner/measure"
	"tureen/planner/onday"
	"tureen/planner/remark"
	"tureen/planner/ware"
)

// Reading is what was understood of a recipe. Every part says where in the text it came from.
type Reading struct {
	Title       string
	Yield       string // as written: "8 servings", "1 large loaf"
	Serves      int    // covers; 0: the recipe does not say
	Usage       measure.Usage
	Prep        measure.Duration // times of the whole, as the recipe states them; zero: not stated
	Cook        measure.Duration
	Total       measure.Duration
	Ingredients []Ingredient
	Steps       []Step
	Remarks     []Remark
	Unlisted    bool       // nobody has said what goes into it: a dish in one line, not a recipe
	Bought      bool       // it is Unlisted, and collected ready
	Questions   []Question // what the reader is unsure of, with its guess; the weightiest first, at most MaxQuestions
	acts        []act      // what is done, each by itself
	woven       bool       // the ingredients were found in the method's sentences
	covers      int        // taken where it does not say for how many it is; 0: [DefaultServes]
	keeps       string     // "yes" or "no", where somebody has said whether what is not known keeps
}

// MaxQuestions is the most questions that a reading asks.
const MaxQuestions = 3

// Place is where something stands in the text that was read.
type Place struct {
	Line int    // from 1; 0: it comes from no line
	Text string // the words
}

// Ingredient is an ingredient line of a recipe.
type Ingredient struct {
	ingredient.Line
	Section string // "pastry", from "For the pastry"; empty: the dish's own
	From    Place
}

// Step is one thing to do, as far as it was understood.
type Step struct {
	Do        string
	Section   string // the part of the dish it makes
	From      Place
	Attention planner.Attention
	Every     int              // minutes between touches
	Time      measure.Duration // never zero
	Guessed   bool             // the time is a guess, and was asked or is said
	Where     planner.State    // Counter, Refrigerator, Freezer or Heat
	Cooks     bool
	Heat      planner.Equipment // what heats it: AnOven, ABurner, AGrill; empty: nothing
	Oven      measure.Setting   // zero: the recipe gives no temperature
	Then      []OvenChange
	Things    []ware.Thing // vessels and appliances
	Until     string
	Longest   measure.Duration // how long the food may go on waiting afterwards; zero: not said
	Ready     bool             // it is the preparation that the ingredient lines ask for
	keptFor   int              // minutes for which somebody has said that what it leaves may wait
	keptIn    planner.State    // and where; empty: not said
	number    int              // as it is shown, from 1; 0: its place among the steps
	On        onday.Day        // the day that a dish's one line says
	Away      bool             // whoever does it is out of the house
	Parts     []int            // the ingredients that it names, as indexes of Reading.Ingredients
	clauses   int              // things done in it
	hands     [2]float64       // minutes by hand, by the table of verbs
	said      measure.Duration // the part of the time that the recipe states, for hands
	kind      doing.Kind
	key       string // its verb
	mainly    string // the words of what gives it its time
	grows     bool   // its work grows with the covers
	lead      int    // it is done so many minutes before the meal
	guess     int    // minutes of its time that are a guess
	paragraph int
	told      bool             // read from our own export, with its order
	after     []int            // the steps that left what it takes in
	straight  bool             // follows the step before it without a wait
	mid       bool             // done in the middle of what the step before it began, which goes on after it
	aside     bool             // browned meat waits beside it, and is not in it
	lastOf    measure.Duration // it is for the last so long of something that was not found
	spans     [][2]int         // the bytes of the text that it was read from
}

// Verb is the verb that gives the step its name.
func (s *Step) Verb() string { return s.key }

// Waits reports whether the step lets the food stand.
func (s *Step) Waits() bool { return s.kind.Waits() }

// OvenChange is a new setting of the oven within a step.
type OvenChange struct {
	After int // minutes
	Oven  measure.Setting
}

// Remark is something the recipe says that is no step.
type Remark struct {
	remark.Said
	From  Place
	step  int    // steps that stand before it
	of    string // the words that say it, where that is less than the sentence
	whole bool   // it stands in a headnote, note or storage section, and not among the steps
}

// Question is something that the reader is unsure of.
type Question struct {
	About string // "serves", "time", "oven", "heat", "parts", "order", "ingredients", "keeps"
	Step  int    // index of Reading.Steps; -1: none
	Ask   string // "How long does …?"
	Guess string // what is taken unless somebody says otherwise
	rank  int
}
