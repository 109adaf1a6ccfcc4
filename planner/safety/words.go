package safety

import (
	"strings"
	"sync"

	"tureen/planner/food"
)

// Certainty is how surely a word tells something.
type Certainty = food.Certainty

// The certainties. What is neither is free as far as the words tell, which is no promise: see [AllergenCaution].
const (
	Contains   = food.Contains
	MayContain = food.MayContain // check the label
)

// folded is a text as what guests say is compared: lower case, each word in the singular.
func folded(text string) string { return strings.Join(food.Words(text), " ") }

// told remembers what was found in texts: a menu's few ingredients are looked up for each guest and diet. It is emptied
// when it is full.
var told = struct {
	sync.Mutex
	by map[string][]food.Tell
}{by: map[string][]food.Tell{}}

const mostTold = 4096

// tell finds what the words of an ingredient tell, in the order of the text. The answer is shared: it is not to be
// changed.
func tell(text string) []food.Tell {
	told.Lock()
	found, ok := told.by[text]
	told.Unlock()
	if ok {
		return found
	}
	found = food.Tells(text)
	told.Lock()
	defer told.Unlock()
	if len(told.by) >= mostTold {
		clear(told.by)
	}
	told.by[strings.Clone(text)] = found
	return found
}
