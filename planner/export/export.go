// Package export writes a dish as a schema.org recipe, for other programs and for package recipe to read back.
package export

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/page"
	"tureen/planner/words"
)

// JSONLD writes a dish as a schema.org Recipe, which package recipe reads back with the same covers, ingredients and
// steps: what is done, how long, attention, heat, sign and order. How long food keeps between the steps has no place
// in the format and is read from the defaults again.
func JSONLD(d *planner.Dish) ([]byte, error) {
	type step struct {
		Type     string `json:"@type"`
		Position int    `json:"position"`
		Text     string `json:"text"`
		Time     string `json:"timeRequired"`
	}
	out := struct {
		Context      string   `json:"@context"`
		Type         string   `json:"@type"`
		Name         string   `json:"name"`
		Description  string   `json:"description,omitempty"`
		Yield        string   `json:"recipeYield"`
		Ingredients  []string `json:"recipeIngredient"`
		Instructions []step   `json:"recipeInstructions"`
	}{Context: "https://schema.org", Type: "Recipe", Name: d.Name, Description: d.Note,
		Yield: fmt.Sprintf("%d servings", d.Serves), Ingredients: []string{}, Instructions: []step{}}
	for _, g := range d.Ingredients {
		line := strings.TrimSpace(g.Amount + " " + g.Name)
		if g.Note != "" {
			line += ", " + g.Note
		}
		if g.Optional && !strings.Contains(g.Note, "optional") {
			line += " (optional)"
		}
		out.Ingredients = append(out.Ingredients, line)
	}
	number := map[planner.StepKey]int{}
	for i := range d.Steps {
		s := &d.Steps[i]
		number[s.Key] = i + 1
		out.Instructions = append(out.Instructions, step{"HowToStep", i + 1, told(s, number),
			page.ISODuration(int(s.Time.Likely))})
	}
	return json.MarshalIndent(out, "", "  ")
}

// told is a step in words that are read back exactly: "Roast the salmon. Takes 12–15 min; watch; oven at 200 °C;
// until it flakes; after 1, 2."
func told(s *planner.Step, number map[planner.StepKey]int) string {
	att := string(s.Attention)
	if s.Attention == planner.Touch {
		att = "touch every " + words.Short(s.Every)
	}
	parts := []string{"Takes " + words.ShortRange(s.Time.Low, s.Time.High), att}
	for _, u := range s.Uses {
		switch u.What {
		case planner.AnOven:
			parts = append(parts, fmt.Sprintf("oven at %d °C", u.C))
		case planner.ABurner, planner.AGrill:
			parts = append(parts, "on the "+string(u.What))
		case planner.AVessel, planner.AnAppliance:
			parts = append(parts, "with "+u.Name)
		}
	}
	if s.Where == planner.Refrigerator || s.Where == planner.Freezer {
		parts = append(parts, "in the "+string(s.Where))
	}
	if s.Until != "" {
		parts = append(parts, "until "+strings.ReplaceAll(s.Until, ";", ","))
	}
	var after []string
	for _, a := range s.After {
		if n := number[a.Step]; a.Dish == "" && n > 0 && !a.FromStart {
			after = append(after, strconv.Itoa(n))
		}
	}
	if len(after) > 0 {
		parts = append(parts, "after "+strings.Join(after, ", "))
	}
	return strings.TrimRight(strings.ReplaceAll(s.Do, "\n", " "), ". ") + ". " + strings.Join(parts, "; ") + "."
}
