package propose

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/portion"
	"tureen/planner/words"
)

//go:embed iced.tsv
var icedTSV string

// icedWords name what is drunk over ice.
var icedWords = sync.OnceValue(func() []string {
	var out []string
	for _, row := range words.Rows("iced.tsv", icedTSV, 3) {
		out = append(out, strings.Split(row[0], "|")...)
	}
	return out
})

// Ice a guest in grams: in glasses, in glasses and around bottles, around bottles alone. Reference table per_guest:
// event rental guide (1.5 lb and 2.5 lb), ice supplier (1 lb).
const (
	iceForGlasses = 680
	iceForBoth    = 1134
	iceForBottles = 454
)

// ice proposes to fetch ice where some is really wanted: for what is drunk over it, for bottles that have no place in
// the refrigerator, and out of doors. It answers the key of that, empty where none is.
func (w *proposer) ice(tub, bottles bool) planner.ChoreKey {
	over := slices.ContainsFunc(w.p.Drinks, func(d planner.Drink) bool {
		return slices.ContainsFunc(icedWords(), func(said string) bool { return says(words.Fold(d.Name), words.Fold(said)) })
	})
	a, what := 0, ""
	switch {
	case over && tub:
		a, what = iceForBoth, "for the glasses and the tub"
	case over:
		a, what = iceForGlasses, "for the glasses"
	case tub:
		a, what = iceForBottles, "for the tub"
	case bottles && portion.PartyKind(w.p) == planner.Barbecue:
		a, what = iceForBottles, "for the bottles outside"
	default:
		return ""
	}
	kg := planner.CeilDiv(a*max(w.p.Covers, 1), 1000)
	item := TripItem{Drink: -1, Good: -1, Item: "ice", Name: "ice"}
	if q, err := measure.New(int64(kg), 1, measure.Kilogram); err == nil {
		item.Amount, item.Left = q, q
	}
	key := w.add(planner.Chore{
		Key: w.freeKey("ice"), Kind: planner.Ice, Attention: planner.Hands, Away: true, Open: shopHours, Time: about(20),
		Do: fmt.Sprintf("Fetch %d kg of ice, %s", kg, what),
		By: []planner.Anchor{{Arrival: true, Offset: -60, Within: 5 * 60}},
	})
	if c := w.p.Chore(key); c != nil && w.p.TripOver(key) {
		item.Met = true
		w.buying.There = append(w.buying.There, item)
		return key
	}
	w.buying.Trips = append(w.buying.Trips, Trip{Chore: key, Items: []TripItem{item}})
	return key
}
