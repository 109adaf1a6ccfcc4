package ways

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/words"
)

//go:embed finish.tsv
var finishText string

// finishing is a row of finish.tsv: how food is brought back after its wait.
type finishing struct {
	begins    string // of the table of waits: what its finish begins with
	classes   []string
	heat      planner.Equipment // empty: it stands on the counter
	do        string
	attention planner.Attention
	minutes   int
	litre     int // more minutes for each litre from the second on
	celsius   int
	hot       bool // it is served hot
}

var finishings = sync.OnceValue(func() (out []finishing) {
	for _, r := range words.Rows("finish.tsv", finishText, 10) {
		f := finishing{begins: r[0], do: r[3], attention: planner.Attention(r[4]), hot: r[8] == "yes"}
		if r[1] != "-" {
			f.classes = strings.Fields(r[1])
		}
		if r[2] != "counter" {
			f.heat = planner.Equipment(r[2])
		}
		if _, err := fmt.Sscan(r[5]+" "+r[6]+" "+r[7], &f.minutes, &f.litre, &f.celsius); err != nil {
			panic(fmt.Sprintf("finish.tsv: %v", r))
		}
		out = append(out, f)
	}
	return out
})

// finishOf is how food of a class is brought back where its finish is so, whatever it says of thawing before; nil:
// there is nothing to do, or it is the recipe's own work.
func finishOf(class *food.Class, finish string) *finishing {
	for i := range finishings() {
		f := &finishings()[i]
		if strings.HasPrefix(finish, f.begins) && (len(f.classes) == 0 || slices.Contains(f.classes, class.Name)) &&
			!strings.HasPrefix(finish, f.begins+" in ") {
			return f
		}
	}
	return nil
}
