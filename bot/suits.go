package bot

import (
	"fmt"
	"slices"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/menu"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// What words can tell of whether a dish suits a guest: a finding is a reason to look, and none is no promise.
// [safety.AllergenCaution] goes with every list of them.
//
// What one guest may not eat is told to those who cook, one at a time, and not to the channel: such lines go into a
// reply's Aside, or the whole reply is Private. The channel is told numbers.

// readDiets reads what a guest does not eat; each word is one of safety's diets.
func readDiets(text string) ([]string, error) {
	var out []string
	for _, word := range splitNames(text) {
		d, err := safety.ParseDiet(word)
		if err != nil {
			return nil, talk.Refuse("diets:vegetarian", "diets: %v.%s An allergy goes into allergies:.", err,
				talk.DidYouMean(word, knownDiets()))
		}
		if !slices.Contains(out, string(d)) {
			out = append(out, string(d))
		}
	}
	return out, nil
}

// readCare reads what published advice a guest is under: pregnant, vulnerable, infant, small child.
func readCare(text string) ([]string, error) {
	var out []string
	for _, word := range splitNames(text) {
		d, err := safety.ParseDiet(word)
		if err != nil || !d.IsAdvice() {
			return nil, talk.Refuse("advice:pregnant", "advice: I don't know %q; say %s.", talk.Shown(word),
				words.Or(careNames()))
		}
		if !slices.Contains(out, string(d)) {
			out = append(out, string(d))
		}
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

func careNames() []string {
	var names []string
	for _, d := range safety.Diets() {
		if d.IsAdvice() {
			names = append(names, string(d))
		}
	}
	return names
}

// cooks reports whether the asker is one of those who cook, who are told what a guest may not eat.
func (t *Turn) cooks() bool { return t.Me != nil && t.Me.Role != planner.Onlooker }

// against lists what on the menu stands against a guest's diets and allergies, a line an ingredient. Only
// says of which dish; empty means all.
func against(p *planner.Party, g *planner.Guest, only planner.DishKey) []string {
	var lines []string
	for i := range p.Dishes {
		d := &p.Dishes[i]
		if only != "" && d.Key != only {
			continue
		}
		v, reasons := menu.Suits(p, d, g)
		for _, r := range reasons {
			if r.Ingredient == "" {
				lines = append(lines, fmt.Sprintf("%s: %s", d.Name, r))
			} else {
				lines = append(lines, fmt.Sprintf("%s, %s", d.Name, r))
			}
		}
		if v == menu.Not {
			if help := menu.Help(p, d, g); help != "" {
				lines = append(lines, wouldHelp+help)
			}
		}
	}
	return lines
}

// forGuests lists, for a cook, what of a dish stands against whom, with the caution; nothing when nothing does.
func (t *Turn) forGuests(only planner.DishKey) []talk.Section {
	if !t.cooks() {
		return nil
	}
	var lines []string
	for i := range t.Party.Guests {
		g := &t.Party.Guests[i]
		for _, line := range against(t.Party, g, only) {
			lines = append(lines, g.Name+": "+line)
		}
	}
	return cautioned("Look again, for your guests", lines)
}

// forGuestsOf says, to a cook, for which guests an ingredient of a dish wants a second look.
func (t *Turn) forGuestsOf(d *planner.Dish, ingredient string) []talk.Section {
	if !t.cooks() {
		return nil
	}
	var lines []string
	for i := range t.Party.Guests {
		g := &t.Party.Guests[i]
		found := menu.Against(ingredient, g, t.Party.AuthoritiesOf())
		for _, why := range found {
			lines = append(lines, g.Name+": "+why.Text)
		}
		if len(found) > 0 {
			if help := menu.Help(t.Party, d, g); help != "" {
				lines = append(lines, wouldHelp+help)
			}
		}
	}
	return cautioned("Look again, for your guests", lines)
}

const wouldHelp = "What would help: "

// mostAgainst is how many findings a reply names.
const mostAgainst = 12

func cautioned(title string, lines []string) []talk.Section {
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: title, Lines: append(firstLines(lines, mostAgainst,
		"/guest table guest:… has a guest's all"),
		safety.AllergenCaution)}}
}
