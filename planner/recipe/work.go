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
		line := 0
		for i := range m.r.Ingredients {
			g := &m.r.Ingredients[i]
			if g.Section != part || !g.madeReady() {
				continue
			}
			if line == 0 {
				line = g.From.Line
			}
			todo = append(todo, g.Name+" ("+g.Preparation+")")
		}
		if len(todo) > 0 {
			do := "Get ready: " + strings.Join(todo, ", ")
			m.r.Steps = append(m.r.Steps, Step{Do: cut(do, 300), Section: part, From: Place{line, "the ingredient lines"},
				Attention: planner.Hands, Where: planner.Counter, Ready: true, clauses: len(todo)})
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

// usual is our guess at an unsaid time, in minutes. Common practice, no source; always asked or said.
func usual(a action, clause string) measure.Duration {
	low := lower(clause)
	switch a {
	case inOven:
		return measure.Duration{Low: 30, High: 45}
	case onBurner:
		if containsWord(low, "boil", "reheat", "warm", "heat", "scald", "steaming") {
			return measure.Duration{Low: 5, High: 10}
		}
		return measure.Duration{Low: 15, High: 25}
	case overBurner:
		return measure.Duration{Low: 5, High: 10}
	case onGrill:
		return measure.Duration{Low: 8, High: 12}
	case chilling:
		return measure.Duration{Low: 2 * hour, High: 2 * hour}
	case freezing:
		return measure.Duration{Low: 4 * hour, High: 6 * hour}
	case standing:
		if containsWord(low, "completely") {
			return measure.Duration{Low: 60, High: 90}
		}
		if containsWord(low, "rise", "prove", "proof") {
			return measure.Duration{Low: 60, High: 90}
		}
		return measure.Duration{Low: 20, High: 30}
	}
	return measure.Duration{Low: 3, High: 6}
}

// Our guess at work by hand: minutes for each thing done, and for each ingredient made ready.
const (
	clauseLow, clauseHigh = 2, 4
	readyLow, readyHigh   = 2, 4
)

// guessHands gives work by hand its time: what the recipe says, and for the rest our guess, or a share of the
// preparation time that the recipe states for the whole.
func (r *Reading) guessHands() {
	clauses, said := 0, 0
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.kind != byHand && s.kind != serving {
			continue
		}
		if s.said.High == 0 {
			clauses += s.clauses
		} else {
			said += s.said.High
		}
	}
	share := 0
	if clauses > 0 && r.Prep.Low > said {
		share = (r.Prep.Low - said) / clauses
	}
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.kind != byHand && s.kind != serving || s.told {
			continue
		}
		switch n := max(s.clauses, 1); {
		case s.said.High > 0:
			s.Time = measure.Duration{Low: s.said.Low + (n-1)*clauseLow, High: s.said.High + (n-1)*clauseHigh}
			s.Guessed = n > 2
		case share > 0:
			s.Time = measure.Duration{Low: max(n*share*3/4, 1), High: max(n*share*5/4, 2)}
			s.Guessed = true
		case s.Ready:
			s.Time, s.Guessed = measure.Duration{Low: n * readyLow, High: n * readyHigh}, true
		default:
			s.Time, s.Guessed = measure.Duration{Low: max(n*clauseLow, 3), High: max(n*clauseHigh, 5)}, true
		}
	}
}
