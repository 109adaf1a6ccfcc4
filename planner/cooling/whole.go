package cooling

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/portion"
	"tureen/planner/words"
)

// smallBirdGrams is what the birds weigh of which one is a portion; common practice, no source.
const smallBirdGrams = 600

// piece is meat that went into the food whole.
type piece struct {
	name  string // as the ingredient has it: turkey, beef brisket
	bird  bool
	grams int // of one, for the covers; 0: nobody has said
	// of all that is weighed, as far as anybody has said
	share float64
}

// upstream are a step and all of its dish that its food came through, the step first.
func upstream(d *planner.Dish, s *planner.Step) []*planner.Step {
	out := []*planner.Step{s}
	for i := 0; i < len(out); i++ {
		for _, a := range out[i].After {
			from := d.Step(a.Step)
			if a.Dish == "" && !a.FromStart && from != nil && !slices.Contains(out, from) {
				out = append(out, from)
			}
		}
	}
	return out
}

// intoIt are the ingredients that went into a step's food; what no step names counts from the dish's first.
func intoIt(d *planner.Dish, s *planner.Step) []*planner.Ingredient {
	var out []*planner.Ingredient
	through := upstream(d, s)
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		at := d.Step(in.Step)
		if at == nil && len(d.Steps) > 0 {
			at = &d.Steps[0]
		}
		if !in.Optional && slices.Contains(through, at) && !d.CoolsWith(in) {
			out = append(out, in)
		}
	}
	return out
}

// wholePiece is the largest piece of meat that nobody has cut up on the way to the end of a step; nil for none.
func wholePiece(p *planner.Party, d *planner.Dish, s *planner.Step) *piece {
	var best *piece
	total := 0.0
	for _, in := range intoIt(d, s) {
		grams, _ := portion.Grams(in)
		total += grams
	}
	for _, in := range intoIt(d, s) {
		f, ok := food.Find(in.Name)
		if !ok || f.Class == nil || cutUp(in, f) || cutBy(d, s, f) {
			continue
		}
		var x piece
		switch f.Class.Name {
		case "raw-poultry", "marinated-poultry":
			x = piece{name: f.Said(), bird: true, grams: pieceGrams(p, d, in)}
			if anyIn("small-bird", f.Name) || x.grams > 0 && x.grams <= smallBirdGrams {
				continue
			}
		case "raw-meat", "game", "marinated-meat":
			x = piece{name: f.Said(), grams: pieceGrams(p, d, in)}
		default:
			continue
		}
		if grams, ok := portion.Grams(in); ok && total > 0 {
			x.share = grams / total
		} else {
			x.share = 1
		}
		if best == nil || x.bird && !best.bird || x.bird == best.bird && (x.grams == 0 || x.grams > best.grams) {
			best = &x
		}
	}
	return best
}

// cutUp says whether an ingredient is in pieces as it is bought: chicken thighs, diced beef.
func cutUp(in *planner.Ingredient, f food.Food) bool {
	said := append(portion.Words(in.Name), portion.Words(in.Note)...)
	return anyIn("small", append(said, strings.Fields(f.Name)...)...) && !slices.Contains(said, "whole")
}

func anyIn(role string, said ...string) bool {
	return slices.ContainsFunc(said, func(w string) bool {
		return data().in(role, w) || data().in(role, words.Singular(w))
	})
}

// cutBy says whether a step on the way cuts a food up. What is cut is the food that the same part of the sentence
// names,
// or the meat where it names none: "slice the onions and roast the bird" leaves the bird whole.
func cutBy(d *planner.Dish, s *planner.Step, f food.Food) bool {
	return slices.ContainsFunc(upstream(d, s), func(u *planner.Step) bool {
		return slices.ContainsFunc(clauses(u.Do), func(c string) bool {
			said := portion.Words(c)
			if len(said) == 0 || !data().in("cut", said[0]) {
				return false
			}
			named := food.All(c)
			return len(named) == 0 || slices.ContainsFunc(named, func(o food.Food) bool {
				return o.Name == f.Name || o.Class != nil && f.Class != nil && o.Class.Group == f.Class.Group
			})
		})
	})
}

// clauses are the parts of a sentence that each begin with a verb, as a step is worded.
func clauses(do string) []string {
	text := strings.ToLower(do)
	for _, join := range []string{" and ", " then ", ";", ".", ":"} {
		text = strings.ReplaceAll(text, join, ",")
	}
	var out []string
	for _, c := range strings.Split(text, ",") {
		c = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(c), "then "))
		if c != "" {
			out = append(out, c)
		}
	}
	return out
}

// pieceGrams is what one piece of an ingredient weighs: of a counted one each, else all of it, which is the strict way
// to be wrong; 0 where nobody has said.
func pieceGrams(p *planner.Party, d *planner.Dish, in *planner.Ingredient) int {
	all, ok := portion.Grams(in)
	if !ok {
		return 0
	}
	q, err := measure.ParseWhole(in.Amount)
	if err != nil {
		return 0
	}
	if n, _ := q.High().Float64(); q.Unit().Kind() == measure.Count && n > 0 {
		return int(all / n)
	}
	return int(all*float64(d.Makes(p))/float64(max(d.Serves, 1)) + 0.5)
}
