package food

import (
	"embed"
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"sync"

	"tureen/planner/words"
)

//go:embed *.tsv
var files embed.FS

// Tables is the text of the files, so that it can be told when they have changed.
func Tables() string { return TextOf(files) }

// TextOf is the text of all embedded tables of a package, in the order of their names.
func TextOf(tables embed.FS) string {
	var out strings.Builder
	names, err := tables.ReadDir(".")
	for _, n := range names {
		text, fault := tables.ReadFile(n.Name())
		if out.WriteString(n.Name()); fault == nil {
			out.Write(text)
		}
	}
	if err != nil || out.Len() == 0 {
		panic("food: the tables cannot be read")
	}
	return out.String()
}

// tables is all that the files say. A fault in them is ours, not a person's, and every test of the package would meet
// it: hence the panics.
type tables struct {
	sources  map[string]Source
	kinds    []kindRow
	kind     map[Kind]int
	classes  []Class
	class    map[string]*Class
	tellings map[string]Tell
	foods    []row
	own      map[string]int    // by the food's own name
	byName   map[string][]name // by the first word of the name
	nots     map[string][]not  // by the first word
	states   map[string][]stateRow
	plain    map[string]string // a word, and what it is of: cut, form, small, plain
	warns    map[string]bool   // by the first word of a state: it tells something
	shelves  map[int]*Shelf
	pieces   map[int]*Piece
	density  map[int][]densityRow
	singular map[string]string // of the words in the tables, one and many
	verbs    []Verb
	waits    []Wait
	thaws    []thawRow
	readings words.Memo[string, *reading]
}

// row is a line of foods.tsv.
type row struct {
	name  string
	class *Class
	own   []Tell // what the line tells; what the words of a name tell besides is found by them
	marks []string
}

func (r *row) has(mark string) bool { return slices.Contains(r.marks, mark) }

// name is one of a food's names.
type name struct {
	shown string // as it is said when the name tells something
	words []string
	exact string // the last word as it must be spelt, "" for any form
	food  int
}

// Source is where a figure is from.
type Source struct {
	Key, Text string
	How       string // "read: …" or "memory"
}

var data = sync.OnceValue(func() *tables {
	t := &tables{
		sources: map[string]Source{}, kind: map[Kind]int{}, class: map[string]*Class{}, tellings: map[string]Tell{},
		own: map[string]int{}, byName: map[string][]name{}, nots: map[string][]not{},
		states: map[string][]stateRow{}, plain: map[string]string{},
		warns:   map[string]bool{},
		shelves: map[int]*Shelf{}, pieces: map[int]*Piece{}, density: map[int][]densityRow{}, singular: map[string]string{},
	}
	for _, f := range records("sources.tsv") {
		t.sources[f.of("key")] = Source{f.of("key"), f.of("text"), f.of("how")}
	}
	t.readKinds()
	t.readClasses()
	t.readTellings()
	t.readFoods()
	t.readWords()
	t.readShelf()
	t.readPieces()
	t.readDensity()
	t.readVerbs()
	t.readWaits()
	t.readThaws()
	return t
})

// line is a line of a table, by the names of its columns.
type line struct {
	file   string
	number int
	fields map[string]string
}

func (l line) of(column string) string {
	v, ok := l.fields[column]
	if !ok {
		panic(fmt.Sprintf("food: %s has no column %s", l.file, column))
	}
	return v
}

func (l line) fail(format string, args ...any) {
	panic(fmt.Sprintf("food: %s:%d: %s", l.file, l.number, fmt.Sprintf(format, args...)))
}

func (l line) integer(column string) int {
	n, err := strconv.Atoi(l.of(column))
	if err != nil || n < 0 {
		l.fail("%s: %q is no whole number", column, l.of(column))
	}
	return n
}

// figure is a decimal figure of a column, nil where there is none.
func (l line) figure(column string) *big.Rat {
	v := l.of(column)
	if v == "" {
		return nil
	}
	r, ok := new(big.Rat).SetString(v)
	if !ok || r.Sign() < 0 {
		l.fail("%s: %q is no figure", column, v)
	}
	return r
}

// records reads a table: a line of column names, then a line a row, with tabs between the fields.
func records(file string) []line {
	text, err := files.ReadFile(file)
	if err != nil {
		panic("food: " + err.Error())
	}
	all := strings.Split(strings.TrimRight(string(text), "\n"), "\n")
	head := strings.Split(all[0], "\t")
	var out []line
	for i, s := range all[1:] {
		fields := strings.Split(s, "\t")
		l := line{file, i + 2, map[string]string{}}
		if len(fields) != len(head) {
			l.fail("%d fields for %d columns", len(fields), len(head))
		}
		for k, h := range head {
			l.fields[h] = strings.TrimSpace(fields[k])
		}
		out = append(out, l)
	}
	return out
}

// source is the row's source, which must be one of sources.tsv.
func (t *tables) source(l line) Source {
	s, ok := t.sources[l.of("source")]
	if !ok {
		l.fail("no source %q", l.of("source"))
	}
	return s
}

// classOf is the class that a column names, which must be one of classes.tsv; nil for none.
func (t *tables) classOf(l line, column string) *Class {
	if l.of(column) == "" {
		return nil
	}
	c := t.class[l.of(column)]
	if c == nil {
		l.fail("no class %q", l.of(column))
	}
	return c
}

// foodsOf are the foods that a column names, each by its own name.
func (t *tables) foodsOf(l line) (foods []int, alone []bool) {
	for n := range strings.SplitSeq(l.of("foods"), "|") {
		n, only := strings.CutSuffix(n, "!")
		i, ok := t.own[n]
		if !ok {
			l.fail("no food %q", n)
		}
		foods, alone = append(foods, i), append(alone, only)
	}
	return foods, alone
}

func (t *tables) readFoods() {
	compounds := records("compounds.tsv")
	for _, l := range compounds {
		t.source(l)
	}
	for _, l := range append(records("foods.tsv"), compounds...) {
		r := row{name: strings.TrimPrefix(l.of("food"), "="), class: t.classOf(l, "class"),
			marks: strings.Fields(l.of("marks"))}
		if r.class == nil {
			l.fail("no class")
		}
		for _, m := range r.marks {
			if !slices.Contains([]string{"season", "generic", "hot", "mixed"}, m) {
				l.fail("no mark %q", m)
			}
		}
		for k := range strings.FieldsSeq(l.of("tells")) {
			r.own = append(r.own, t.telling(l, k))
		}
		names := append([]string{l.of("food")}, strings.Split(l.of("also"), "|")...)
		for _, n := range names {
			if n == "" {
				continue
			}
			exact := ""
			if n, ok := strings.CutPrefix(n, "="); ok {
				exact = n
			}
			words := t.foldsOf(n)
			if len(words) == 0 {
				l.fail("%q has no words", n)
			}
			for _, o := range t.byName[words[0]] {
				if slices.Equal(o.words, words) && o.exact == exact {
					l.fail("%q is two foods, or stands twice", n)
				}
			}
			shown := strings.TrimPrefix(n, "=")
			if own := t.foldsOf(r.name); len(own) == 1 && slices.Contains(words, own[0]) {
				shown = r.name // unsalted butter tells by its butter
			}
			t.byName[words[0]] = append(t.byName[words[0]], name{shown, words, exact, len(t.foods)})
		}
		t.own[r.name] = len(t.foods)
		t.foods = append(t.foods, r)
	}
	for _, names := range t.byName {
		slices.SortStableFunc(names, func(a, b name) int {
			if len(a.words) != len(b.words) {
				return len(b.words) - len(a.words)
			}
			return len(b.exact) - len(a.exact)
		})
	}
}
