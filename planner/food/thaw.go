package food

import (
	"slices"
	"strings"
)

// Thawing is how a frozen food comes to be used.
type Thawing struct {
	How    string // one of the ways below; "" where nobody can tell
	Grams  int    // of one piece, where nobody has said what it weighs
	Source Source
}

// The ways: eaten as it is; heated or cooked as it is, if nobody says otherwise; in pieces that come in packs; one
// large piece.
const (
	EatenFrozen = "eaten"
	FromFrozen  = "frozen"
	InPacks     = "pack"
	InOne       = "whole"
)

type thawRow struct {
	words          [][]string
	foods, classes []string
	Thawing
}

func (t *tables) readThaws() {
	for _, l := range records("thaw.tsv") {
		r := thawRow{Thawing: Thawing{How: l.of("how"), Source: t.source(l)}, classes: strings.Fields(l.of("classes"))}
		if l.of("words") != "" {
			for w := range strings.SplitSeq(l.of("words"), "|") {
				r.words = append(r.words, strings.Fields(w))
			}
		}
		if l.of("foods") != "" {
			t.foodsOf(l)
			r.foods = strings.Split(l.of("foods"), "|")
		}
		for _, c := range r.classes {
			if !t.knownOf(c) {
				l.fail("no class or group %q", c)
			}
		}
		thaws := r.How != FromFrozen && r.How != EatenFrozen
		if thaws {
			r.Grams = l.integer("grams")
		}
		if thaws && (!slices.Contains([]string{"", InPacks, InOne}, r.How) || r.Grams == 0) {
			l.fail("no way to thaw, or no weight")
		}
		t.thaws = append(t.thaws, r)
	}
}

// ThawingOf is how what a text names comes out of the freezer: the first row of the table whose words stand in it and
// whose foods and classes fit.
func ThawingOf(text string) Thawing {
	t := data()
	f, known := Find(text)
	var raw []string
	for _, w := range t.tokensOf(text) {
		raw = append(raw, w.raw)
	}
	for i := range t.thaws {
		r := &t.thaws[i]
		if len(r.words) > 0 && !slices.ContainsFunc(r.words, func(phrase []string) bool {
			return slices.ContainsFunc(windows(raw, len(phrase)), func(w []string) bool { return slices.Equal(w, phrase) })
		}) {
			continue
		}
		if len(r.foods) > 0 && !(known && slices.Contains(r.foods, f.Name)) {
			continue
		}
		if len(r.classes) > 0 && !(known && slices.ContainsFunc(r.classes, func(c string) bool {
			g, group := strings.CutPrefix(c, "@")
			return group && f.Class.Group == g || c == f.Class.Name
		})) {
			continue
		}
		return r.Thawing
	}
	return Thawing{}
}

// windows are the runs of so many words.
func windows(all []string, n int) [][]string {
	var out [][]string
	for i := 0; i+n <= len(all); i++ {
		out = append(out, all[i:i+n])
	}
	return out
}
