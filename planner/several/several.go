// Package several tells the recipes of one text, page or file apart, where there are more than one. Package recipe
// reads each.
package several

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"tureen/planner/manuscript"
	"tureen/planner/page"
	"tureen/planner/recipe"
	"tureen/planner/words"
)

// One is one of several recipes in a file.
type One struct {
	Title  string
	Source []byte // what [recipe.ReadFile] reads it from
}

// mostRecipes is how many recipes of one file are told apart.
const mostRecipes = 12

// In tells the recipes of a file apart, where there are more than one: each with a title, ingredients and a method
// of its own. It is nil where there is one, or none.
func In(data []byte) []One {
	text := strings.TrimSpace(strings.TrimPrefix(string(data), "\ufeff"))
	var all []One
	switch {
	case len(data) > recipe.MaxPage:
	case page.IsData(text), page.IsHTML(text): // pages repeat their own, and name others
		for _, source := range page.All(text) {
			all = addOne(all, source)
		}
	case len(text) <= mostRecipes*recipe.MaxText && isText(text):
		all = ofText(text)
	}
	if len(all) < 2 {
		return nil
	}
	return all[:min(len(all), mostRecipes)]
}

// addOne adds a recipe that can be read by itself.
func addOne(all []One, source []byte) []One {
	r, err := recipe.ReadFile(source)
	if err != nil || len(r.Steps) == 0 || len(r.Ingredients) == 0 ||
		slices.ContainsFunc(all, func(o One) bool { return words.Small(o.Title) == words.Small(r.Title) }) {
		return all
	}
	return append(all, One{r.Title, source})
}

// ofText cuts a text at the titles of its recipes, as far as each part can be read by itself.
func ofText(text string) (out []One) {
	lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text), "\n")
	starts := beginnings(lines)
	if len(starts) < 2 || len(starts) > 4*mostRecipes {
		return nil
	}
	if one := strings.Join(lines[starts[0]:starts[1]], "\n"); len(addOne(nil, []byte(one))) == 0 {
		starts[0] = 0 // what stands above is no preface
	}
	more := map[int]bool{} // those that have parts which are no recipes of their own
	for i := range starts {
		end := len(lines)
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		source := []byte(strings.TrimRight(strings.Join(lines[starts[i]:end], "\n"), "-*=_ \n"))
		grown := addOne(out, source)
		switch {
		case len(grown) > len(out):
			out = grown
		case len(out) == 0:
			return nil // the text does not begin with a recipe of its own: it is one
		default: // it belongs to the one before
			last := &out[len(out)-1]
			last.Source = slices.Concat(last.Source, []byte("\n\n"), source)
			more[len(out)-1] = true
		}
	}
	for i := range more { // once each, however many parts were added: hostile text has many
		if r, err := recipe.ReadFile(out[i].Source); err != nil || r.Title != out[i].Title {
			return nil
		}
	}
	return out
}

// beginnings are the lines that may be titles of recipes: above a yield or a list of ingredients, with a yield in them,
// below a line that separates, or marked as a title.
func beginnings(lines []string) (out []int) {
	add := func(i int) {
		if i >= 0 && !slices.Contains(out, i) {
			out = append(out, i)
		}
	}
	separated := false
	for i, raw := range lines {
		line := strings.TrimSpace(raw)
		text := manuscript.Text(line)
		switch {
		case line == "":
			continue
		case len(line) >= 3 && strings.Trim(line, "-*=_~ ") == "":
			separated = true
			continue
		case separated || strings.HasPrefix(line, "# "):
			add(i)
		case headsList(text), len(text) <= 60 && isYield(text):
			add(titleAbove(lines, i))
		case len(text) <= 70 && !strings.HasSuffix(text, ".") && titled(text) && (i == 0 ||
			strings.TrimSpace(lines[i-1]) == ""):
			add(i)
		}
		separated = false
	}
	slices.Sort(out)
	return out
}

func headsList(text string) bool {
	list, _ := recipe.Heads(text)
	return list
}

func startsWithDigit(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

func isText(text string) bool {
	not, _ := manuscript.NotText(text)
	return not == "" && manuscript.ForeignLetters(text) == ""
}

// titled reports whether a line names a dish and for how many it is.
func titled(text string) bool {
	y, ok := manuscript.YieldIn(text)
	return ok && y.Serves > 0 && len(y.Before) > 2 && y.After == "" && !startsWithDigit(text)
}

// isYield reports whether a line begins with for how many it is.
func isYield(text string) bool {
	y, ok := manuscript.YieldIn(text)
	return ok && y.Before == ""
}

// titleAbove is the nearest line above that may be a title, over lines of yields, times and remarks; -1: none is.
func titleAbove(lines []string, at int) int {
	for i, seen := at-1, 0; i >= 0 && seen < 4; i-- {
		text := manuscript.Text(strings.TrimSpace(lines[i]))
		if text == "" {
			continue
		}
		seen++
		if len(text) > 70 || startsWithDigit(text) || isYield(text) ||
			strings.HasSuffix(text, ".") || recipe.Tells(text) {
			continue
		}
		if _, heading := recipe.Heads(text); heading {
			return -1
		}
		if i == 0 || strings.TrimSpace(lines[i-1]) == "" {
			return i
		}
	}
	return -1
}

// EssenceOfAll is the part of a file with several recipes that their readings are made of. [In] tells the same
// recipes apart in it.
func EssenceOfAll(data []byte, all []One) []byte {
	if len(all) == 0 || !bytes.HasPrefix(all[0].Source, []byte("{")) {
		return data
	}
	var list []json.RawMessage
	for _, o := range all {
		list = append(list, o.Source)
	}
	out, err := json.Marshal(list)
	if err != nil {
		return data
	}
	return out
}
