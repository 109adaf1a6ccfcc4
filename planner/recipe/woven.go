package recipe

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner/method"
	"tureen/planner/remark"
	"tureen/planner/words"
	"tureen/planner/woven"
)

// cut is what a step's words leave out of a sentence, and say instead: amounts are made for other covers, and the words
// are not.
type cut struct {
	start, end int
	instead    string
}

// woven reads the ingredients of a recipe that names them in its method alone. It finds nothing where fewer than two
// have an amount.
func (t *textReader) woven() error {
	r := woven.Reader{Usage: t.r.Usage, Title: t.r.Title}
	for i := range t.method {
		r.All += t.method[i].text + " "
	}
	told := slices.Clone(t.method)
	found := make([][]woven.Found, len(told))
	var all []Ingredient
	amounts := 0
	for n := range told {
		s := &told[n]
		s.cuts = nil
		found[n] = r.In(s.text)
		for _, f := range found[n] {
			if !f.Amount.IsZero() {
				amounts++
			}
			all = append(all, Ingredient{Line: f.Line, From: s.from})
			instead := f.Name
			if !strings.HasSuffix(words.Small(s.text[:f.Start]), "the ") {
				instead = "the " + f.Name
			}
			s.cuts = append(s.cuts, cut{f.Start, f.End, instead})
		}
	}
	if amounts < 2 && !t.named {
		return nil
	}
	for n, s := range told {
		if k, remarks := remark.Of(words.Small(s.text)); remarks && k.Kind != remark.Unread && !method.Instructs(s.text) {
			continue // it is good in a sandwich
		}
		if t.isTitle(s) {
			continue
		}
		if len(found[n]) == 0 && !method.Instructs(s.text) && proseList(s.text) == "" {
			continue // what is told of another dish, or of the next week
		}
		for _, l := range r.Bare(s.text, found[n]) {
			all = append(all, Ingredient{Line: l, From: s.from})
		}
	}
	if len(all) > maxIngredients {
		return Refuse("This is more than one recipe: I count "+strconv.Itoa(len(all))+" ingredients.",
			"Send one recipe alone.")
	}
	t.r.Ingredients = all
	t.r.woven = true
	t.method = told
	return nil
}

// said is a part of a sentence without the amounts of its ingredients.
func (s *sentence) said(start, end int) string {
	text, from := "", start
	for _, c := range s.cuts {
		if c.start >= from && c.end <= end {
			text, from = text+s.text[from:c.start]+c.instead, c.end
		}
	}
	return text + s.text[from:end]
}
