package page

import (
	"bytes"
	"strings"
	"unicode"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"tureen/planner/words"
)

// IsHTML reports whether a text is a page, as far as its beginning tells.
func IsHTML(text string) bool {
	low := words.Small(text[:min(len(text), 4000)])
	if !strings.HasPrefix(low, "<") {
		return false
	}
	for _, mark := range []string{"<html", "<!doctype", "<script", "<body", "<head", "itemscope", "typeof=", "<div", "<p>",
		"<span"} {
		if strings.Contains(low, mark) {
			return true
		}
	}
	return false
}

// recipeOfPage finds a page's recipe.
func recipeOfPage(data []byte) (node, error) {
	doc, err := html.Parse(bytes.NewReader(data))
	if err != nil {
		return nil, &Refusal{"I cannot make sense of this page.", "Paste the recipe's text instead."}
	}
	var broken error
	var found node
	eachNode(doc, func(n *html.Node) bool {
		if found != nil {
			return false
		}
		if holdsData(n) {
			v, err := decode(dataOf(n))
			if err != nil {
				broken = err
			} else {
				found = findRecipe(v)
			}
			return false
		}
		return true
	})
	if found == nil {
		eachNode(doc, func(n *html.Node) bool {
			if found == nil && isScope(n) && (strings.HasSuffix(strings.TrimRight(attr(n, "itemtype"), "/"),
				"schema.org/Recipe") || lastSegment(attr(n, "typeof")) == "Recipe") {
				found = scope(n)
			}
			return found == nil
		})
	}
	switch {
	case found != nil:
		return found, nil
	case broken != nil:
		return nil, broken
	}
	return nil, &Refusal{"This page holds no recipe data that I know.",
		"Paste the recipe's ingredients and method as text."}
}

// holdsData reports the element in which pages keep JSON-LD.
func holdsData(n *html.Node) bool {
	return n.Type == html.ElementNode && n.DataAtom == atom.Script &&
		strings.Contains(words.Small(attr(n, "type")), "ld+json")
}

// maxDepth is how deep pages and data may nest.
const maxDepth = 200

// eachNode visits a tree; visit answers whether to go below a node.
func eachNode(n *html.Node, visit func(*html.Node) bool) {
	type place struct {
		n     *html.Node
		depth int
	}
	stack := []place{{n, 0}}
	for len(stack) > 0 {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if !visit(p.n) || p.depth > maxDepth {
			continue
		}
		for c := p.n.LastChild; c != nil; c = c.PrevSibling {
			stack = append(stack, place{c, p.depth + 1})
		}
	}
}

func attr(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func has(n *html.Node, name string) bool {
	for _, a := range n.Attr {
		if a.Key == name {
			return true
		}
	}
	return false
}

func isScope(n *html.Node) bool {
	return n.Type == html.ElementNode && (has(n, "itemscope") || has(n, "typeof"))
}

func lastSegment(address string) string {
	return address[strings.LastIndexAny(address, "/#:")+1:]
}

// scope gathers the properties of an item, of microdata or RDFa, as JSON-LD would have them.
func scope(n *html.Node) node {
	kind := attr(n, "itemtype")
	if kind == "" {
		kind = attr(n, "typeof")
	}
	out := node{"@type": lastSegment(strings.TrimRight(kind, "/"))}
	first := true
	eachNode(n, func(c *html.Node) bool {
		if first {
			first = false
			return true
		}
		if c.Type != html.ElementNode {
			return false
		}
		names := attr(c, "itemprop")
		if names == "" {
			names = attr(c, "property")
		}
		if names == "" {
			return !isScope(c)
		}
		var value any
		switch {
		case isScope(c):
			value = map[string]any(scope(c))
		case has(c, "content"):
			value = attr(c, "content")
		case has(c, "datetime"):
			value = attr(c, "datetime")
		case c.DataAtom == atom.Link || c.DataAtom == atom.A || c.DataAtom == atom.Img:
			value = attr(c, "href") + attr(c, "src")
			if c.DataAtom == atom.A {
				value = textOf(c)
			}
		default:
			value = textOf(c)
		}
		for _, name := range strings.Fields(names) {
			name = lastSegment(name)
			if list, ok := out[name].([]any); ok {
				out[name] = append(list, value)
			} else {
				out[name] = []any{value}
			}
		}
		return !isScope(c) && c.DataAtom == 0 // what a property holds is its own
	})
	return out
}

// textOf is the text of an element, a line a block.
func textOf(n *html.Node) string {
	var b strings.Builder
	eachNode(n, func(c *html.Node) bool {
		switch {
		case c.Type == html.TextNode:
			// A line break in a page's source is a blank.
			if c.PrevSibling != nil && isBlock(c.PrevSibling) && c.PrevSibling.DataAtom != atom.Br {
				b.WriteByte('\n')
			}
			if f := strings.Fields(c.Data); len(f) > 0 {
				if unicode.IsSpace(rune(c.Data[0])) {
					b.WriteByte(' ')
				}
				b.WriteString(strings.Join(f, " "))
				if unicode.IsSpace(rune(c.Data[len(c.Data)-1])) {
					b.WriteByte(' ')
				}
			} else {
				b.WriteByte(' ')
			}
		case c.Type != html.ElementNode:
			return c == n
		case c != n && (c.DataAtom == atom.Script || c.DataAtom == atom.Style):
			return false
		case c != n && isBlock(c):
			b.WriteString("\n")
		}
		return true
	})
	return strings.TrimSpace(b.String())
}

// isBlock reports an element that begins a line.
func isBlock(n *html.Node) bool {
	switch n.DataAtom {
	case atom.Br, atom.P, atom.Li, atom.Div, atom.Tr, atom.H1, atom.H2, atom.H3, atom.H4, atom.H5, atom.Dt, atom.Dd,
		atom.Section, atom.Ul, atom.Ol:
		return true
	}
	return false
}

// dataOf is what a script element holds, as it stands.
func dataOf(n *html.Node) string {
	var b strings.Builder
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		b.WriteString(c.Data)
	}
	return b.String()
}

// stripped is a text without HTML: marks taken away, entities resolved, scripts and styles dropped.
func stripped(text string) string {
	text = strings.ToValidUTF8(text, "")
	if !strings.ContainsAny(text, "<&") {
		return strings.TrimSpace(text)
	}
	text = html.UnescapeString(text) // many pages escape twice
	if !strings.Contains(text, "<") {
		return strings.TrimSpace(text)
	}
	doc, err := html.Parse(strings.NewReader(text))
	if err != nil {
		return strings.TrimSpace(text)
	}
	return textOf(doc)
}
