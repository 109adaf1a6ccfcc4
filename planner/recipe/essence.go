package recipe

import (
	"encoding/json"
	"strings"
	"unicode"
)

// used are the properties of a schema.org Recipe that a reading is made of.
var used = []string{"@type", "name", "description", "recipeYield", "recipeIngredient", "ingredients",
	"recipeInstructions", "prepTime", "cookTime", "totalTime", brokenAt}

// Essence is the part of a recipe's file that its reading is made of, to be kept: of a page or of data the recipe
// alone, of anything else all. [ReadFile] makes the same reading of it.
func Essence(data []byte) []byte {
	text := strings.TrimLeftFunc(strings.TrimPrefix(string(data), "\ufeff"), unicode.IsSpace)
	var n node
	switch {
	case strings.HasPrefix(text, "{"), strings.HasPrefix(text, "["), strings.HasPrefix(text, "//"):
		if v, err := decode(uncommented(text)); err == nil {
			n = findRecipe(v)
		}
	case looksLikePage(text):
		if n, _ = recipeOfPage([]byte(text)); n != nil {
			if _, err := fromNode(n); err != nil {
				n = nil // it is read by its text
			}
		}
	}
	if n == nil {
		return data
	}
	kept := node{}
	for _, key := range used {
		if v, ok := n[key]; ok {
			kept[key] = textual(v)
		}
	}
	out, err := json.Marshal(kept)
	if err != nil {
		return data
	}
	return out
}

// textual is a value whose texts have lost what is no text, as the reading leaves it away: JSON would write a sign for
// it.
func textual(v any) any {
	switch v := v.(type) {
	case string:
		return strings.ToValidUTF8(v, "")
	case []any:
		out := make([]any, len(v))
		for i := range v {
			out[i] = textual(v[i])
		}
		return out
	case map[string]any:
		out := make(map[string]any, len(v))
		for k := range v {
			out[k] = textual(v[k])
		}
		return out
	}
	return v
}
