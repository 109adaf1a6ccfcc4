package recipe

import (
	"encoding/json"
	"strings"
	"unicode"
)

// used are the properties of a schema.org Recipe that a reading is made of.
var used = []string{"@type", "name", "description", "recipeYield", "recipeIngredient", "ingredients",
	"recipeInstructions", "prepTime", "cookTime", "totalTime"}

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
		n, _ = recipeOfPage([]byte(text))
	}
	if n == nil {
		return data
	}
	kept := node{}
	for _, key := range used {
		if v, ok := n[key]; ok {
			kept[key] = v
		}
	}
	out, err := json.Marshal(kept)
	if err != nil {
		return data
	}
	return out
}
