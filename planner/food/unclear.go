package food

import (
	"slices"
	"strings"
)

// Unclear is what of a text the tables cannot answer for: words that they do not know, or the name of what is made
// after many recipes, as a dressing is; mixed tells the two apart. It is empty where all is known, and for what the
// text says to be free of every one of the tags: "vegan dressing".
func Unclear(text string, tags ...Tag) (words string, mixed bool) {
	p := data().read(text)
	without := data().withouts(p.tokens)
	answered := false
	for i, c := range p.clauses {
		if c.empty || c.aside && !p.listed(i) || later[c.opener] && c.opener != "or" {
			continue
		}
		answered = true
		free := without[c.from]
		if len(tags) > 0 && !slices.ContainsFunc(tags, func(t Tag) bool { return !free[t] }) {
			continue
		}
		switch f, ok := p.food(i); {
		case !ok:
			return p.text(c.from, c.to), false
		case p.t.foods[f.index].has("mixed"):
			return f.Said(), true
		}
	}
	if !answered {
		return strings.TrimSpace(text), false
	}
	return "", false
}
