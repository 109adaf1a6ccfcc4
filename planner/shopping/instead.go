package shopping

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// instead.tsv has what a cook takes home when a shop does not have a thing, the likeliest first.
//
//go:embed instead.tsv
var insteadTSV string

// Instead is something to buy in place of what a shop does not have.
type Instead struct {
	Use string // what
	How string // how much of it, and what is otherwise
}

// insteadRows reads the table once, each item as the table of foods spells it.
var insteadRows = sync.OnceValue(func() [][]string { return words.Rows("instead.tsv", insteadTSV, 4) })

// mostInstead is how many things are offered.
const mostInstead = 3

// InsteadOf lists what may be bought in place of something: the rows of that very food, else those of what its name
// ends with, and after them what stands in for it where somebody does not eat it.
func InsteadOf(name string) (out []Instead) {
	add := func(use, how string) {
		if len(out) < mostInstead && !slices.ContainsFunc(out, func(o Instead) bool { return o.Use == use }) {
			out = append(out, Instead{use, how})
		}
	}
	tokens := food.Words(name)
	longest := 0
	for _, r := range insteadRows() {
		of := food.Words(r[0])
		if n := len(of); n <= len(tokens) && slices.Equal(tokens[len(tokens)-n:], of) {
			longest = max(longest, n)
		}
	}
	for _, r := range insteadRows() {
		of := food.Words(r[0])
		if n := len(of); n == longest && n <= len(tokens) && slices.Equal(tokens[len(tokens)-n:], of) {
			add(r[1], r[2])
		}
	}
	for _, s := range safety.Substitutes(name) {
		if use, _, _ := strings.Cut(s.Use, ","); longest < len(tokens) || len(out) == 0 {
			add(use, s.Note)
		}
	}
	return out
}

// Swap has something else bought in every dish that wants an item, or with nothing in its place has them made without
// it. It returns the dishes.
func Swap(p *planner.Party, item planner.Item, instead Instead) (dishes []string) {
	for i := range p.Dishes {
		d := &p.Dishes[i]
		has := func(in planner.Ingredient) bool { return planner.ItemOf(in.Name, in.Frozen) == item && !in.Have }
		if d.BroughtBy != "" || !slices.ContainsFunc(d.Ingredients, has) {
			continue
		}
		dishes = append(dishes, d.Name)
		d.Ingredients = slices.Clone(d.Ingredients)
		into := slices.IndexFunc(d.Ingredients, func(in planner.Ingredient) bool {
			return instead.Use != "" && planner.ItemOf(in.Name, in.Frozen) == planner.ItemOf(instead.Use, false)
		})
		for j := range d.Ingredients {
			in := &d.Ingredients[j]
			if !has(*in) || instead.Use == "" || into >= 0 {
				continue
			}
			note := "instead of " + in.Name
			if instead.How != "" {
				note += ": " + instead.How
			}
			in.Name, in.Note, in.Grams, in.KeepDays, in.Kind, in.Frozen = instead.Use, note, 0, 0, "", false
			into = j
		}
		if instead.Use != "" && !strings.HasPrefix(d.Ingredients[into].Note, "instead of ") {
			d.Ingredients[into].Note = strings.TrimPrefix(fmt.Sprintf("%s, more: there was no %s", d.Ingredients[into].Note,
				item), ", ")
		}
		d.Ingredients = slices.DeleteFunc(d.Ingredients, has)
	}
	return dishes
}
