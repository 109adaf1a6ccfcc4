package trace

import (
	"embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"tureen/planner/food"
	"tureen/planner/words"
)

//go:embed *.tsv
var files embed.FS

// role is what a row of words.tsv or roles.tsv says that something is.
type role string

// The roles of words.
const (
	through      role = "through" // verbs that cook to the middle
	inPart       role = "part"
	warms        role = "warm"
	rare         role = "rare" // signs of what is not cooked through
	pink         role = "pink" // a sign of the one or the other, by the food
	done         role = "done" // signs of what is
	soaks        role = "soak"
	whips        role = "whip"
	handles      role = "handle"
	washes       role = "wash"
	cuts         role = "cut"
	water        role = "water" // boiling water that food is put into
	pulps        role = "pulp"
	kneads       role = "kneads"
	tops         role = "tops"
	candy        role = "candy"
	dryHeat      role = "dry heat"
	wetHeat      role = "wet heat"
	tinned       role = "tinned"
	bakes        role = "bakes"
	refrigerator role = "refrigerator"
	freezer      role = "freezer"
	counter      role = "counter"
	leaving      role = "leaving"
	coldBag      role = "cold bag" // how a dish comes that is brought
	hotBox       role = "hot box"
	onTheWay     role = "on the way"
	at           role = "at"        // a preposition before a place
	between      role = "between"   // what stands between it and the place
	place        role = "place"     // what is neither cold nor hot
	placeOff     role = "place off" // what is not where it is off
	stuffs       role = "stuffs"
	poursOver    role = "pours over"
	keepsWarm    role = "keeps warm" // what keeps warm that came hot into it
)

// tables is what the files say. A fault in them is ours, and every test of the package would meet it: hence the panics.
type tables struct {
	phrases   map[string][]phrase // by their first word, longest first
	roles     map[*food.Class]role
	histamine []string
	made      []made
	cuts      map[*food.Class]*food.Class // what is left of a food that was cut
	verbs     map[string][]food.VerbClass // by each form of a verb
}

type phrase struct {
	words []string
	role  role
}

var data = sync.OnceValue(func() *tables {
	t := &tables{phrases: map[string][]phrase{}, roles: map[*food.Class]role{},
		cuts: map[*food.Class]*food.Class{}, verbs: map[string][]food.VerbClass{}}
	t.readMade()
	for _, r := range rows("words.tsv", 4) {
		for said := range strings.SplitSeq(r[1], "|") {
			p := phrase{food.Words(said), role(r[0])}
			t.phrases[p.words[0]] = append(t.phrases[p.words[0]], p)
		}
	}
	for _, all := range t.phrases {
		slices.SortStableFunc(all, func(a, b phrase) int { return len(b.words) - len(a.words) })
	}
	for _, r := range rows("roles.tsv", 4) {
		c, err := food.ClassOf(r[0])
		if err != nil {
			panic(fmt.Sprintf("roles.tsv: %v", err))
		}
		t.roles[c] = role(r[1])
	}
	for _, r := range rows("histamine.tsv", 2) {
		t.histamine = append(t.histamine, strings.Split(r[0], "|")...)
	}
	return t
})

// readMade reads what steps leave as a cook would call it.
func (t *tables) readMade() {
	class := func(file, name string) *food.Class {
		c, err := food.ClassOf(name)
		if err != nil {
			panic(fmt.Sprintf("%s: %v", file, err))
		}
		return c
	}
	for _, r := range rows("made.tsv", 7) {
		m := made{heat: r[2]}
		if r[0] != "-" {
			m.class = class("made.tsv", r[0])
		}
		if r[1] != "-" {
			m.words = strings.Fields(r[1])
		}
		if _, err := fmt.Sscan(r[3], &m.minutes); err != nil ||
			!slices.Contains([]string{"cold", "hot", "oven", again, assembled}, m.heat) {
			panic(fmt.Sprintf("made.tsv: %v", r))
		}
		if r[4] != "-" {
			for one := range strings.SplitSeq(r[4], ";") {
				m.with = append(m.with, terms(one))
			}
		}
		if r[5] != "-" {
			m.without = append(m.without, terms(r[5]))
		}
		t.made = append(t.made, m)
	}
	for _, r := range rows("cuts.tsv", 3) {
		t.cuts[class("cuts.tsv", r[0])] = class("cuts.tsv", r[1])
	}
	for _, v := range food.Verbs() {
		for _, form := range append(v.Forms, v.Name) {
			if !slices.Contains(t.verbs[form], v.Class) {
				t.verbs[form] = append(t.verbs[form], v.Class)
			}
		}
	}
}

// terms are classes, @groups and =names, of which a name may have several words up to the next term.
func terms(text string) []string {
	var out []string
	named := false
	for _, w := range strings.Fields(text) {
		_, err := food.ClassOf(w)
		if named && err != nil && w[0] != '=' && w[0] != '@' {
			out[len(out)-1] += " " + w
			continue
		}
		if err != nil && w[0] != '=' && w[0] != '@' {
			panic(fmt.Sprintf("made.tsv: no class %q", w))
		}
		named = w[0] == '='
		out = append(out, w)
	}
	return out
}

// Tables is the text of the files, so that it can be told when they have changed.
func Tables() string { return food.TextOf(files) }

// rows are those of one of the package's tables.
func rows(file string, columns int) [][]string {
	text, err := files.ReadFile(file)
	if err != nil {
		panic(err)
	}
	return words.Rows(file, string(text), columns)
}
