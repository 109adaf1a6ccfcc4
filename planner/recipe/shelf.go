package recipe

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/portion"
	"tureen/planner/ware"
	"tureen/planner/words"
)

//go:embed shelf.tsv
var shelfTable string

// shelfHolds is what a shelf of a household's oven takes of a group of foods, in grams, on a tray of some 30 by 40 cm
// or in a tin of that size: in pieces in one layer, and whole, as a joint is, or wrapped.
var shelfHolds = func() map[string][2]float64 {
	out := map[string][2]float64{}
	for _, row := range words.Rows("shelf.tsv", shelfTable, 4) {
		pieces, err := strconv.ParseFloat(row[1], 64)
		whole, err2 := strconv.ParseFloat(row[2], 64)
		if err != nil || err2 != nil {
			panic("recipe: shelf.tsv: " + row[0])
		}
		out[row[0]] = [2]float64{pieces, whole}
	}
	return out
}()

// onShelf is for how many covers one shelf takes what a step puts on it, by its weight and kind: a handful of nuts
// needs no second tray; 0 where nobody knows, or where a tin gives the form.
func (r *Reading) onShelf(i int) int {
	if r.Serves == 0 || r.Steps[i].Heat != planner.AnOven || slices.ContainsFunc(r.thingsIn(i),
		func(t ware.Thing) bool { return givesForm(t) && !words.Has(t.Name, phrases.Phrases("no form")...) }) {
		return 0
	}
	parts := r.putIn(i)
	sum, heaviest, holds := 0.0, 0.0, 0.0
	for _, g := range parts {
		in := &r.Ingredients[g]
		grams, weighed := portion.Grams(&planner.Ingredient{Name: in.Name, Amount: in.Total().String()})
		f, known := food.Find(in.Name)
		if !known || !weighed || shelfHolds[f.Class.Group][0] == 0 {
			continue // oil and herbs take no place
		}
		sum += grams
		if grams > heaviest {
			heaviest, holds = grams, shelfHolds[f.Class.Group][0]
			if r.staysWhole(i, in, f.Class.Group) {
				holds = shelfHolds[f.Class.Group][1]
			}
		}
	}
	if sum == 0 || holds == 0 || sum-heaviest > heaviest {
		return 0
	}
	return min(int(float64(r.Serves)*holds/sum), planner.MaxCovers)
}

// staysWhole reports whether an ingredient goes into the oven in one piece: a joint of meat, or what nobody cuts.
func (r *Reading) staysWhole(i int, in *Ingredient, group string) bool {
	if group == "meat" || group == "fish" {
		return words.Has(words.Small(in.Name+" "+in.Preparation), phrases.Phrases("joints")...)
	}
	cuts := func(a int) bool { return food.CutsSmall(r.Steps[a].Do) }
	prep := slices.DeleteFunc(words.Apart(words.Small(in.Preparation)), func(w string) bool { return stillWhole[w] })
	return !worksByHand(strings.Join(prep, " ")) && !cuts(i) && !slices.ContainsFunc(r.Order()[i], cuts)
}

// stillWhole is work on what stays in one piece.
var stillWhole = phraseSet("still whole")

// putIn are the ingredients that a step has in the oven: its own, and those of what stands before it and nothing heats.
func (r *Reading) putIn(i int) (parts []int) {
	after, seen, todo := r.Order(), map[int]bool{}, []int{i}
	for len(todo) > 0 {
		n := todo[0]
		todo = todo[1:]
		if s := &r.Steps[n]; !seen[n] && !s.Ready && (n == i || s.Heat == "") {
			parts, todo = append(parts, s.Parts...), append(todo, after[n]...)
		}
		seen[n] = true
	}
	slices.Sort(parts)
	return slices.Compact(parts)
}
