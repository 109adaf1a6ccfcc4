package recipe

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner/ingredient"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// correctFood takes in what is said of an ingredient: that it is none, that its line is another, or that one is
// missing. The error is a *[Refusal], and nothing is changed then.
func (r *Reading) correctFood(c *Correction) error {
	g := c.Food - 1
	if g >= len(r.Ingredients) {
		return Refuse(fmt.Sprintf("There is no ingredient %d.", c.Food), "Name it as it stands in the list.")
	}
	if c.Drop {
		r.dropFood(g)
		return nil
	}
	l, err := ingredient.ParseAs(r.Usage, c.Line)
	if err != nil || l.Name == "" {
		return Refuse("I do not understand "+fmt.Sprintf("%q", words.Cut(c.Line, 40))+" as an ingredient.",
			"Write it as: add 2 tbsp olive oil.")
	}
	all := slices.Clone(r.Ingredients)
	if g >= 0 {
		r.nameAnew(all[g].Name, l.Name)
		all[g].Line = l
		r.Ingredients = all
		return nil
	}
	r.Ingredients = append(all, Ingredient{Line: l, Section: c.Part, From: Place{Text: c.Line}})
	r.readyAnew()
	at := r.Numbered(c.Step)
	if c.Step == 0 {
		at = slices.IndexFunc(r.Steps, func(s Step) bool {
			return !s.Ready && words.Has(words.Small(s.Do), words.Small(l.Name), ingredient.Head(words.Small(l.Name)))
		})
	}
	if c.Step > 0 && at < 0 {
		return r.noStep(c.Step)
	}
	if at >= 0 {
		r.takes(at, len(r.Ingredients)-1)
	}
	return nil
}

// nameAnew puts the new name of an ingredient into the steps that tell of it by the old one.
func (r *Reading) nameAnew(old, name string) {
	if old == name {
		return
	}
	r.Steps = slices.Clone(r.Steps)
	for i := range r.Steps {
		s := &r.Steps[i]
		if at := words.Index(words.Small(s.Do), words.Small(old)); at >= 0 && len(words.Small(s.Do)) == len(s.Do) {
			s.Do = s.Do[:at] + name + s.Do[at+len(old):]
		}
	}
}

// dropFood takes an ingredient out of the list and of the steps that take it in. A step in which it alone is made ready
// goes with it.
func (r *Reading) dropFood(g int) {
	r.Ingredients = slices.Delete(slices.Clone(r.Ingredients), g, g+1)
	r.Steps = slices.Clone(r.Steps)
	for i := len(r.Steps) - 1; i >= 0; i-- {
		s := &r.Steps[i]
		had := len(s.Parts)
		var parts []int
		for _, p := range s.Parts {
			switch {
			case p > g:
				parts = append(parts, p-1)
			case p < g:
				parts = append(parts, p)
			}
		}
		s.Parts = parts
		if s.Ready && had > 0 && len(parts) == 0 && len(r.Steps) > 1 {
			r.drop(i)
		}
	}
	r.readyAnew()
}

// readyAnew lists again what each step of preparation makes ready.
func (r *Reading) readyAnew() {
	r.Steps = slices.Clone(r.Steps)
	for i := range r.Steps {
		if s := &r.Steps[i]; s.Ready && strings.HasPrefix(s.Do, getReady) && len(s.Parts) > 0 {
			s.Do = r.toReady(s.Parts)
		}
	}
}

// getReady begins a step of preparation.
const getReady = "Get ready: "

// toReady says what is made ready of some ingredients.
func (r *Reading) toReady(of []int) string {
	var todo []string
	for _, i := range of {
		todo = append(todo, r.Ingredients[i].Name+" ("+r.Ingredients[i].Preparation+")")
	}
	return words.Cut(getReady+strings.Join(todo, ", "), 300)
}

// Written is the line of an ingredient with another amount or name, as somebody would write it; empty: the one it has.
func (g *Ingredient) Written(amount, name string) string {
	if name == "" {
		name = g.Name
	}
	if amount == "" {
		if amount = g.Total().String(); amount == "" && g.Unit != measure.Each {
			amount = g.Unit.Name(false)
		}
		if g.Size != "" {
			name = g.Size + " " + name
		}
	}
	line := strings.TrimSpace(amount + " " + name)
	if g.Preparation != "" {
		line += ", " + g.Preparation
	}
	return line
}
