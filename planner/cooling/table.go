package cooling

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"
	"sync"

	"tureen/planner/food"
	"tureen/planner/words"
)

//go:embed bodies.tsv
var bodiesTSV string

//go:embed words.tsv
var wordsTSV string

//go:embed swell.tsv
var swellTSV string

//go:embed vessels.tsv
var vesselsTSV string

// body is what a food is as far as heat goes.
type body string

const (
	noBody  body = "none"    // it is cold, or nothing that the limits speak of
	thick   body = "thick"   // heat must creep through; whatever nobody knows, too
	thin    body = "thin"    // moves by itself
	inDish  body = "dish"    // stays in what it was baked in
	baked   body = "baked"   // likewise, and much of it is cut up: gratins, lasagne
	loaf    body = "loaf"    // of a piece, in its tin
	fillets body = "fillets" // flat already
	pieces  body = "meat"    // meat in pieces
	joint   body = "joint"   // a large piece of meat
	bird    body = "bird"    // a whole one
)

// vessel is how deep food stands in one, and how much it holds.
type vessel struct {
	words  []string
	cm     float64
	litres float64
}

type tables struct {
	body    map[string]body
	words   map[string][]string
	vessels []vessel
	swell   map[string]float64 // dry food takes up water as it is cooked: how many times its weight it is then
}

var data = sync.OnceValue(func() *tables {
	t := &tables{body: map[string]body{}, words: map[string][]string{}, swell: map[string]float64{}}
	for _, f := range words.Rows("bodies.tsv", bodiesTSV, 3) {
		if _, err := food.ClassOf(f[0]); err != nil {
			panic("cooling: bodies.tsv: " + err.Error())
		}
		t.body[f[0]] = body(f[1])
	}
	for _, f := range words.Rows("swell.tsv", swellTSV, 3) {
		times, err := strconv.ParseFloat(f[1], 64)
		if _, err2 := food.ClassOf(f[0]); err != nil || err2 != nil {
			panic("cooling: swell.tsv: no class or no figure of " + f[0])
		}
		t.swell[f[0]] = times
	}
	for _, f := range words.Rows("words.tsv", wordsTSV, 3) {
		t.words[f[0]] = strings.Fields(f[1])
	}
	for _, f := range words.Rows("vessels.tsv", vesselsTSV, 4) {
		cm, err := strconv.ParseFloat(f[1], 64)
		litres, err2 := strconv.ParseFloat(f[2], 64)
		if err != nil || err2 != nil {
			panic("cooling: vessels.tsv: no figures of " + f[0])
		}
		t.vessels = append(t.vessels, vessel{strings.Fields(f[0]), cm, litres})
	}
	return t
})

// in says whether a word stands in the table in a role.
func (t *tables) in(role, word string) bool { return slices.Contains(t.words[role], word) }

// vesselOf finds a vessel by the words of its name; nil for one whose depth nobody knows, such as a pot.
func (t *tables) vesselOf(said []string) *vessel {
	for i := range t.vessels {
		v := &t.vessels[i]
		if !slices.ContainsFunc(v.words, func(w string) bool { return !slices.Contains(said, w) }) {
			return v
		}
	}
	return nil
}
