package page

import (
	"strings"
	"unicode"

	"tureen/planner/words"
)

// Refusal is why a text was not read, and what to do instead.
type Refusal struct{ Why, Try string }

// Error is the refusal in one or two sentences.
func (e *Refusal) Error() string { return e.Why + " " + e.Try }

// Recipe is a recipe as a page's data says it, as text: nothing of it is understood yet.
type Recipe struct {
	Name, About       string
	Yields            []string // "8 servings", "8"
	Prep, Cook, Total string   // times, as ISO 8601 has them, or as the page does
	Lines             []string // of the ingredients
	Method            []Piece
	Broken            string // what is to be said of data that breaks off; empty: it is whole
	data              node
}

// Piece is a piece of a method.
type Piece struct {
	Text, Section string
	Step          bool // the page has it as a step by itself
}

// IsData reports whether a text is JSON, as far as its beginning tells.
func IsData(text string) bool {
	list, isList := strings.CutPrefix(text, "[")
	stamped := isList && strings.IndexFunc(list, unicode.IsDigit) == 0 // [18:02] a chat's message
	return strings.HasPrefix(text, "{") || isList && !stamped || strings.HasPrefix(text, "//")
}

// Find finds the recipe in a page, or in data ([IsData]): the first of them. The error is a *[Refusal].
func Find(text string) (*Recipe, error) {
	n, err := find(text)
	if err != nil {
		return nil, err
	}
	return recipeOf(n), nil
}

func find(text string) (node, error) {
	if !IsData(text) {
		return recipeOfPage([]byte(text))
	}
	v, err := decode(uncommented(text))
	if err != nil {
		return nil, err
	}
	n := findRecipe(v)
	if n == nil {
		return nil, &Refusal{"There is no schema.org Recipe in this data" + otherType(v) + ".",
			"Save the recipe's own page, or paste its text."}
	}
	return n, nil
}

// recipeOf takes a Recipe's properties as text.
func recipeOf(n node) *Recipe {
	r := &Recipe{data: n, Name: wordsOf(n["name"]), About: wordsOf(n["description"]), Prep: wordsOf(n["prepTime"]),
		Cook: wordsOf(n["cookTime"]), Total: wordsOf(n["totalTime"]), Method: instructions(n["recipeInstructions"], "", 0)}
	r.Broken, _ = n[brokenAt].(string)
	for _, key := range []string{"recipeIngredient", "ingredients"} {
		for _, v := range flat(n[key]) {
			r.Lines = append(r.Lines, strings.Split(ingredientText(v), "\n")...)
		}
		if len(r.Lines) > 0 {
			break
		}
	}
	for _, one := range flat(n["recipeYield"]) {
		text := wordsOf(one)
		if m, ok := one.(map[string]any); ok {
			text = strings.TrimSpace(wordsOf(m["value"]) + " " + wordsOf(m["unitText"]))
		}
		if text != "" {
			r.Yields = append(r.Yields, text)
		}
	}
	return r
}

// Unit codes of UN/ECE Recommendation 20 that recipes use, from memory.
var unitCodes = map[string]string{"G21": "cup", "G24": "tablespoon", "G25": "teaspoon", "GRM": "g", "KGM": "kg",
	"MLT": "ml", "LTR": "l", "CLT": "cl", "DLT": "dl", "ONZ": "oz", "LBR": "lb", "PTL": "pint", "QTL": "quart"}

// ingredientText is an ingredient as a line of text.
func ingredientText(v any) string {
	m, ok := v.(map[string]any)
	if !ok {
		return wordsOf([]any{v})
	}
	unit := wordsOf(m["unitText"])
	if unit == "" {
		code := wordsOf(m["unitCode"])
		if unit = unitCodes[code]; unit == "" && len(code) < 8 {
			unit = code
		}
	}
	return strings.TrimSpace(strings.TrimSpace(wordsOf(m["value"])+" "+unit) + " " + wordsOf(m["name"]))
}

// instructions gathers the method from text, lists, HowToStep, HowToSection and ItemList.
func instructions(v any, section string, depth int) []Piece {
	var out []Piece
	if depth > 8 {
		return nil
	}
	for _, one := range flat(v) {
		switch one := one.(type) {
		case string:
			out = append(out, Piece{Text: stripped(one), Section: section})
		case map[string]any:
			inner := section
			if isType(one, "HowToSection") {
				inner = words.Small(strings.TrimSuffix(wordsOf(one["name"]), ":"))
				for _, lead := range []string{"for the ", "make the ", "the "} {
					inner = strings.TrimPrefix(inner, lead)
				}
				if len(strings.Fields(inner)) > 4 {
					inner = section
				}
			}
			if list := one["itemListElement"]; list != nil {
				out = append(out, instructions(list, inner, depth+1)...)
				continue
			}
			text := wordsOf(one["text"])
			if text == "" {
				text = wordsOf(one["name"])
			}
			if text == "" {
				text = wordsOf(one["description"])
			}
			out = append(out, Piece{Text: text, Section: inner, Step: true})
		}
	}
	return out
}
