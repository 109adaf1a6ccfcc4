package page

import (
	"encoding/json"
	"strings"

	"golang.org/x/net/html"
)

// used are the properties of a schema.org Recipe that a reading is made of.
var used = []string{"@type", "name", "description", "recipeYield", "recipeIngredient", "ingredients",
	"recipeInstructions", "prepTime", "cookTime", "totalTime", brokenAt}

// Essence is the part of a recipe's data that it is made of, to be kept: [Find] finds the same recipe in it. It is nil
// where there is nothing to keep.
func (r *Recipe) Essence() []byte { return essence(r.data) }

func essence(n node) []byte {
	kept := node{}
	for _, key := range used {
		if v, ok := n[key]; ok {
			kept[key] = textual(v)
		}
	}
	out, err := json.Marshal(kept)
	if err != nil {
		return nil
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

// All are the essences of all recipes of a page or of data that have a method, none within another.
func All(text string) (out [][]byte) {
	var nodes []node
	if IsData(text) {
		if v, err := decode(uncommented(text)); err == nil {
			nodes = recipesIn(v)
		}
	} else if doc, err := html.Parse(strings.NewReader(text)); err == nil {
		eachNode(doc, func(n *html.Node) bool {
			if !holdsData(n) {
				return true
			}
			if v, err := decode(dataOf(n)); err == nil {
				nodes = append(nodes, recipesIn(v)...)
			}
			return false
		})
	}
	for _, n := range nodes {
		if source := essence(n); source != nil && n["recipeInstructions"] != nil {
			out = append(out, source)
		}
	}
	return out
}

// recipesIn are the recipes of a value, none within another.
func recipesIn(v any) (out []node) {
	switch v := v.(type) {
	case map[string]any:
		if isType(v, "Recipe") {
			return []node{v}
		}
		for _, key := range []string{"@graph", "mainEntity", "itemListElement", "item", "hasPart"} {
			out = append(out, recipesIn(v[key])...)
		}
	case []any:
		for _, one := range v {
			out = append(out, recipesIn(one)...)
		}
	}
	return out
}
