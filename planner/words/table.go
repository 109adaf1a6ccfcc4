package words

import (
	"fmt"
	"slices"
	"strings"
)

// Rows are the rows of a table below its head, as packages embed them: so many columns with tabs between them, none of
// them empty. Anything else is our mistake, and every start would meet it.
func Rows(name, text string, columns int) [][]string {
	var out [][]string
	for i, row := range strings.Split(strings.TrimSpace(text), "\n") {
		f := strings.Split(row, "\t")
		if len(f) != columns || slices.Contains(f, "") {
			panic(fmt.Sprintf("%s, line %d: %d columns are wanted, none of them empty", name, i+1, columns))
		}
		out = append(out, f)
	}
	return out[1:]
}

// Table is a table of lists of words, as packages embed them: a row has a list's name, a tab and the list.
type Table map[string]string

// TableOf reads a table; its first row says what stands in the columns.
func TableOf(text string) Table {
	t := Table{}
	for _, row := range strings.Split(strings.TrimSpace(text), "\n")[1:] {
		name, list, _ := strings.Cut(row, "\t")
		t[name] = list
	}
	return t
}

// row is a list by its name; that there is none is our mistake, and every start would meet it.
func (t Table) row(name string) string {
	list, ok := t[name]
	if !ok {
		panic("words: no list called " + name)
	}
	return list
}

// Set is a list of single words.
func (t Table) Set(name string) map[string]bool { return Set(t.row(name)) }

// Phrases is a list whose entries may have several words, with bars between them.
func (t Table) Phrases(name string) []string { return strings.Split(t.row(name), "|") }

// Set is a set of the words of a text.
func Set(text string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(text) {
		m[w] = true
	}
	return m
}
