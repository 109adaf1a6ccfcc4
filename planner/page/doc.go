// Package page finds the recipes that a web page holds, as text: in its schema.org data (JSON-LD, microdata, RDFa), or
// in what people see of it. It understands none of them: package recipe does, from what it is given here.
//
// Start at [Find] in recipe.go, which finds a [Recipe] in a page (html.go) or in data (decode.go, which also reads data
// that breaks off, as far as it goes), whatever shape its properties have. [All] tells several apart, [Recipe.Essence]
// is what to keep of one (essence.go). Where a page holds no data, [Text] is its heading and its lines (text.go).
// Lengths of time are written and read as ISO 8601 has them (duration.go).
//
// It opens nothing and follows no address. What it is given was written by anybody, so depth and length are bounded.
package page
