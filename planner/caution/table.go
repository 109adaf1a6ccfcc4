package caution

import (
	"embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

//go:embed *.tsv
var files embed.FS

// row is a line of cautions.tsv.
type row struct {
	key, title, says, short, source string
	when                            [][]term
	refuses                         [][]term // when no plan is made, nil for never
	risk                            string   // how it stands with guests at risk: no, check, or nothing
	own                             bool     // the row's source speaks of them too, and not the advice to them
	guest                           string   // what is said of such a guest, "" for the short sentence
}

// term is one thing that must be so at a step, or must not.
type term struct {
	not      bool
	what, of string
}

// set is a sort of food by kind, class or name.
type set struct {
	kinds   []safety.Kind
	classes []string
	foods   []string
	without string // what another set has is not in this one
}

type phrase struct {
	words []string
	role  string
}

// tables is what the files say. A fault in them is ours, and every test of the package would meet it: hence the panics.
type tables struct {
	rows    []row
	sets    map[string]set
	phrases map[string][]phrase // by their first word, longest first
	roles   map[string]bool
	advice  map[string][2]string // who publishes it for whom: in the UK, and elsewhere
}

var data = sync.OnceValue(func() *tables {
	t := &tables{sets: map[string]set{}, phrases: map[string][]phrase{}, roles: map[string]bool{},
		advice: map[string][2]string{}}
	for _, r := range rows("sets.tsv", 3) {
		var s set
		for w := range strings.FieldsSeq(r[1]) {
			kind, of, _ := strings.Cut(w, ":")
			switch kind {
			case "kind":
				s.kinds = append(s.kinds, safety.Kind(of))
			case "class":
				s.classes = append(s.classes, of)
			case "food":
				s.foods = append(s.foods, strings.ReplaceAll(of, "_", " "))
			default:
				s.without = strings.TrimPrefix(w, "!")
			}
		}
		t.sets[r[0]] = s
	}
	for _, r := range rows("words.tsv", 3) {
		t.roles[r[0]] = true
		for said := range strings.SplitSeq(r[1], "|") {
			p := phrase{food.Words(said), r[0]}
			t.phrases[p.words[0]] = append(t.phrases[p.words[0]], p)
		}
	}
	for _, all := range t.phrases {
		slices.SortStableFunc(all, func(a, b phrase) int { return len(b.words) - len(a.words) })
	}
	for _, r := range rows("advice.tsv", 4) {
		t.advice[r[0]] = [2]string{sourced(r[1]), sourced(r[2])}
	}
	for _, r := range rows("cautions.tsv", 8) {
		one := row{key: r[0], title: r[1], when: t.terms(r[2]), says: figures(r[5]), short: figures(r[6]),
			source: sourced(r[7])}
		if r[3] != "-" {
			one.refuses = t.terms(r[3])
		}
		if r[4] != "-" {
			how, text, _ := strings.Cut(r[4], ": ")
			one.risk, one.own, one.guest = strings.Fields(how)[0], strings.HasSuffix(how, " own"), figures(text)
		}
		t.rows = append(t.rows, one)
	}
	return t
})

// sourced is a source as it is printed: whether it was read is for who changes the table.
func sourced(text string) string { return strings.ReplaceAll(text, ", from memory", "") }

// terms reads a row's "when"; what it names must be there.
func (t *tables) terms(when string) [][]term {
	var out [][]term
	for alternative := range strings.SplitSeq(when, " | ") {
		var all []term
		for w := range strings.FieldsSeq(alternative) {
			x := term{not: strings.HasPrefix(w, "!")}
			x.what, x.of, _ = strings.Cut(strings.TrimPrefix(w, "!"), ":")
			known := tests[x.what] != nil
			switch x.what {
			case "says", "told", "before", "dish", "name", "noted", "remarked":
				for role := range strings.SplitSeq(x.of, "+") {
					known = known && t.roles[role]
				}
			case "country":
				known = x.of == string(safety.UnitedKingdom) || x.of == string(safety.UnitedStates)
			case "raw", "half", "had", "of", "out", "under", "raw-plant", "never-hot", "brief", "boiled", "tinned", "low-oven":
				_, ok := t.sets[x.of]
				known = known && (ok || x.what == "boiled" && x.of == "")
			}
			if !known {
				panic(fmt.Sprintf("cautions.tsv: no term %q", w))
			}
			all = append(all, x)
		}
		out = append(out, all)
	}
	return out
}

// figures writes the published figures into a sentence.
func figures(text string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, "{")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		name, after, _ := strings.Cut(rest, "}")
		id, part, _ := strings.Cut(name, ":")
		if id == "usual-way" { // our own figure, in no table
			b.WriteString(words.Short(trace.UsualWay))
			text = after
			continue
		}
		l := safety.Row(id)
		switch part {
		case "temp":
			l.Timed, l.Bound, l.Topic = false, safety.Rule, ""
			b.WriteString(l.Figure())
		case "time":
			b.WriteString(words.Short(l.From))
		case "most":
			b.WriteString(words.Short(l.Minutes))
		default:
			b.WriteString(l.Figure())
		}
		text = after
	}
}

// rows are those of one of the package's tables.
func rows(file string, columns int) [][]string {
	text, err := files.ReadFile(file)
	if err != nil {
		panic(err)
	}
	return words.Rows(file, string(text), columns)
}

// found is a phrase of a text, with its place.
type found struct {
	role string
	at   int
}

// blocks are the roles of phrases that say nothing here, and whose words do not either: "no longer pink".
var blocks = []string{"not-rare", "skip"}

// read finds the roles of a text's words in their order.
func read(text string) []found {
	var out []found
	tokens := food.Words(text)
	for i := 0; i < len(tokens); i++ {
		for _, p := range data().phrases[tokens[i]] {
			if i+len(p.words) > len(tokens) || !slices.Equal(tokens[i:i+len(p.words)], p.words) {
				continue
			}
			out = append(out, found{p.role, i})
			if slices.Contains(blocks, p.role) { // longest first: a shorter phrase here, and its words, tell nothing
				i += len(p.words) - 1
				break
			}
		}
	}
	return out
}

func has(all []found, role string) bool {
	return slices.ContainsFunc(all, func(f found) bool { return f.role == role })
}

// place is where a role is first said at or after a place; -1 for nowhere.
func place(all []found, role string, from int) int {
	for _, f := range all {
		if f.role == role && f.at >= from {
			return f.at
		}
	}
	return -1
}
