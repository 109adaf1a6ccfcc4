package page

import (
	"slices"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// besideText are elements that hold none of a page's own text.
var besideText = []atom.Atom{atom.Script, atom.Style, atom.Nav, atom.Footer, atom.Form, atom.Button, atom.Noscript,
	atom.Svg, atom.Select, atom.Iframe, atom.Template, atom.Head}

// Text is a page as people see it: its own heading and its lines, without what stands beside.
func Text(page string) (title string, lines []string) {
	doc, err := html.Parse(strings.NewReader(page))
	if err != nil {
		return "", nil
	}
	var gone []*html.Node
	eachNode(doc, func(n *html.Node) bool {
		if n.Type == html.ElementNode && slices.Contains(besideText, n.DataAtom) {
			gone = append(gone, n)
			return false
		}
		if n.DataAtom == atom.H1 && title == "" {
			title = strings.Join(strings.Fields(textOf(n)), " ")
		}
		return true
	})
	for _, n := range gone {
		n.Parent.RemoveChild(n)
	}
	lines = strings.Split(textOf(doc), "\n")
	for i := range lines {
		lines[i] = strings.TrimSpace(lines[i])
	}
	return title, lines
}
