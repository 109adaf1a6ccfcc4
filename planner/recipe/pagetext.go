package recipe

import (
	"slices"
	"strings"

	"tureen/planner/manuscript"
	"tureen/planner/method"
	"tureen/planner/page"
	"tureen/planner/remark"
	"tureen/planner/times"
	"tureen/planner/words"
)

// A page without data of its recipe is read as the text that people see of it: from the heading of its ingredients on,
// under the page's own heading.

// pageEnds are headings after which a page goes on with other things.
var pageEnds = phrases.Phrases("page ends")

// textOfPage reads a page by its text; ok is false where no list of ingredients and method are found in it.
func textOfPage(text string) (r *Reading, ok bool) {
	title, lines := page.Text(text)
	for i, tries := 0, 0; i < len(lines) && tries < 4; i++ {
		if headingOf(lines[i]) != inIngredients {
			continue
		}
		tries++
		text, ok := recipeFrom(lines, i, title)
		if !ok {
			continue
		}
		if r, err := Read(strings.Join(text, "\n")); err == nil && 2*r.withAmounts() >= len(r.Ingredients) &&
			len(r.Steps) > 0 {
			for i := range r.Ingredients {
				r.Ingredients[i].From.Line = 0
			}
			for i := range r.Steps {
				r.Steps[i].From.Line, r.Steps[i].spans = 0, nil
			}
			for i := range r.Remarks {
				r.Remarks[i].From.Line = 0
			}
			r.Remarks = append([]Remark{{Said: remark.Said{Kind: remark.Unread}, From: Place{
				Text: "The page holds no data of its recipe: this was read from its text. Is all there?"}}}, r.Remarks...)
			return r, true
		}
	}
	return nil, false
}

// withAmounts is how many of the ingredients have an amount.
func (r *Reading) withAmounts() (n int) {
	for i := range r.Ingredients {
		if !r.Ingredients[i].Amount.IsZero() {
			n++
		}
	}
	return n
}

// headingOf is the part of a recipe that a line of a page heads.
func headingOf(line string) part {
	line = words.Small(line)
	if at := strings.IndexByte(line, '['); at > 0 { // [edit]
		line = line[:at]
	}
	line = strings.Trim(line, " :.-")
	if first, _, _ := strings.Cut(line, " ("); headings[first] == inIngredients {
		return inIngredients
	}
	return headings[line]
}

// recipeFrom are the lines of the recipe whose ingredients stand under the i-th line of a page, with the covers that
// stand above it; ok is false where no method follows.
func recipeFrom(lines []string, i int, title string) (out []string, ok bool) {
	text := []string{title}
	for k := max(0, i-30); k < i; k++ {
		if _, ok := manuscript.YieldIn(lines[k]); ok && len(lines[k]) < 60 {
			text = append(text, lines[k])
			break
		}
	}
	text = append(text, "", "Ingredients")
	told, idle := false, 0
	for _, line := range lines[i+1:] {
		if slices.Contains(pageEnds, strings.Trim(words.Small(line), " :.!?")) || len(text) > 250 ||
			told && len(line) > 12 && slices.Contains(text, line) {
			break // what goes on is something else, or all again
		}
		if headingOf(line) == inMethod {
			told, line = true, "Method"
		}
		if line != "" {
			text = append(text, line)
			if idle++; !told || line == "Method" || method.Instructs(line) || len(times.Lengths(line)) > 0 {
				idle = 0
			}
		}
		if idle == 2 { // nothing to do any more
			text = text[:len(text)-idle]
			break
		}
	}
	if !told {
		return nil, false
	}
	return text, true
}
