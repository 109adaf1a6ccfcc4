package bot

import (
	"fmt"
	"strings"

	"tureen/planner"
	"tureen/planner/menu"
	"tureen/planner/safety"
)

// What words can tell of whether a dish suits a guest: a finding is a reason to look, and none is no promise.
// [safety.AllergenCaution] goes with every list of them.

// readDiets reads what a guest does not eat; each word is one of safety's diets.
func readDiets(text string) ([]string, error) {
	var out []string
	for _, word := range splitNames(text) {
		d, err := safety.ParseDiet(word)
		if err != nil {
			return nil, refuse("diets:vegetarian", "diets: %v.%s An allergy goes into allergies:.", err, didYouMean(word, knownDiets()))
		}
		out = append(out, string(d))
	}
	return out, nil
}

func knownDiets() []string {
	var names []string
	for _, d := range safety.Diets() {
		names = append(names, string(d))
	}
	return names
}

// against lists what on the menu stands against a guest's diets and allergies, a line an ingredient. Only
// says of which dish; empty means all.
func against(p *planner.Party, g *planner.Guest, only planner.DishKey) []string {
	var lines []string
	for i := range p.Dishes {
		d := &p.Dishes[i]
		if only != "" && d.Key != only {
			continue
		}
		for _, in := range d.Ingredients {
			for _, why := range menu.Against(in.Name, g) {
				lines = append(lines, fmt.Sprintf("%s, %s: %s", d.Name, in.Name, why.Text))
			}
		}
	}
	return lines
}

// forGuests lists what of a dish stands against whom, with the caution; nothing when nothing does.
func forGuests(p *planner.Party, only planner.DishKey) []Section {
	var lines []string
	for i := range p.Guests {
		g := &p.Guests[i]
		for _, line := range against(p, g, only) {
			lines = append(lines, g.Name+": "+line)
		}
	}
	return cautioned("Look again, for your guests", lines)
}

// mostAgainst is how many findings a reply names.
const mostAgainst = 12

func cautioned(title string, lines []string) []Section {
	if len(lines) == 0 {
		return nil
	}
	if n := len(lines); n > mostAgainst {
		lines = append(lines[:mostAgainst:mostAgainst], fmt.Sprintf("and %d more; /guest list has a guest's all", n-mostAgainst))
	}
	return []Section{{title, append(lines, strings.ReplaceAll(safety.AllergenCaution, "\n", " "))}}
}
