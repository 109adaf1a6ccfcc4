package trace

import (
	"embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"tureen/planner/food"
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
	at           role = "at"        // a preposition before a place
	between      role = "between"   // what stands between it and the place
	place        role = "place"     // what is neither cold nor hot
	placeOff     role = "place off" // what is not where it is off
	stuffs       role = "stuffs"
	poursOver    role = "pours over"
)

// tables is what the files say. A fault in them is ours, and every test of the package would meet it: hence the panics.
type tables struct {
	phrases   map[string][]phrase // by their first word, longest first
	roles     map[*food.Class]role
	histamine []string
}

type phrase struct {
	words []string
	role  role
}

var data = sync.OnceValue(func() *tables {
	t := &tables{phrases: map[string][]phrase{}, roles: map[*food.Class]role{}}
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

// Tables is the text of the files, so that it can be told when they have changed.
func Tables() string { return food.TextOf(files) }

// rows are the lines of a file below its head, each with so many fields, none of them empty.
func rows(file string, fields int) [][]string {
	text, err := files.ReadFile(file)
	if err != nil {
		panic(err)
	}
	var out [][]string
	for i, l := range strings.Split(strings.TrimSuffix(string(text), "\n"), "\n") {
		f := strings.Split(l, "\t")
		if len(f) != fields || slices.Contains(f, "") {
			panic(fmt.Sprintf("%s, line %d: %d fields are wanted, none of them empty", file, i+1, fields))
		}
		if i > 0 {
			out = append(out, f)
		}
	}
	return out
}
