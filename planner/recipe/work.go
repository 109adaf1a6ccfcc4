package recipe

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
)

// ready makes steps of the work that the ingredient lines ask for (onions, finely chopped), one for each part of the
// dish that the lines name.
func (m *maker) ready() {
	var parts []string
	for _, g := range m.r.Ingredients {
		if !slices.Contains(parts, g.Section) {
			parts = append(parts, g.Section)
		}
	}
	for _, part := range parts {
		var todo []string
		var of []int
		line := 0
		for i := range m.r.Ingredients {
			g := &m.r.Ingredients[i]
			if g.Section != part || !g.madeReady() {
				continue
			}
			if line == 0 {
				line = g.From.Line
			}
			of = append(of, i)
			todo = append(todo, g.Name+" ("+g.Preparation+")")
		}
		if len(todo) > 0 {
			do := "Get ready: " + strings.Join(todo, ", ")
			m.r.Steps = append(m.r.Steps, Step{Do: cut(do, 300), Section: part, From: Place{line, "the ingredient lines"},
				Attention: planner.Hands, Where: planner.Counter, Ready: true, clauses: len(todo), Parts: of})
		}
	}
}

// madeReady reports whether the line asks for work before the method begins. What comes out of a tin is cut already.
func (g *Ingredient) madeReady() bool {
	return g.Preparation != "" && worksByHand(g.Preparation) && !packages[g.Unit]
}

// worksByHand reports whether a preparation is work: chopped is, softened or bought ground is not.
func worksByHand(prep string) bool {
	return containsWord(prep, "chopped", "sliced", "diced", "minced", "grated", "peeled", "cut", "crushed", "shredded",
		"halved", "quartered", "cubed", "trimmed",
		"zested", "juiced", "pitted", "stoned", "cored", "seeded", "deseeded", "julienned", "shelled", "deveined", "zest",
		"juice", "picked", "boned", "skinned", "scrubbed", "cubes", "chunks", "slices", "wedges", "rings", "strips", "dice",
		"matchsticks")
}

// Our guess at what the ingredient lines ask for: minutes for each line. Common practice, no source.
const readyLow, readyHigh = 1, 3

// guessHands gives work by hand its time: what the recipe says, and for the rest the table of verbs. Where the recipe
// states its preparation and the guess is off by more than a third, the guess is scaled to it.
func (r *Reading) guessHands() {
	guess, said := 0.0, 0.0
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.kind != byHand && s.kind != serving || s.told {
			continue
		}
		if s.Ready {
			s.hands = [2]float64{float64(s.clauses * readyLow), float64(s.clauses * readyHigh)}
		}
		said += float64(s.said.Low+s.said.High) / 2
		if s.said.High == 0 {
			guess += (s.hands[0] + s.hands[1]) / 2
		}
	}
	scale := 1.0
	if left := float64(r.Prep.Low) - said; left > 0 && guess > 0 && (guess > left*4/3 || guess < left*2/3) {
		scale = left / guess
	}
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.kind != byHand && s.kind != serving || s.told {
			continue
		}
		if s.said.High > 0 {
			s.Time = s.said
			continue
		}
		low := max(int(s.hands[0]*scale+0.5), 1)
		s.Time, s.Guessed = measure.Duration{Low: low, High: max(int(s.hands[1]*scale+0.5), low)}, true
	}
}
