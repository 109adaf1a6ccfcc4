package measure

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math/big"
	"strings"
	"sync"
	"unicode"

	"tureen/planner/words"
)

// density.csv: grams in a US cup of an ingredient in a form, from USDA SR28,
// with the figure of GNU units beside it where that has one. Columns as in the
// project's reference table.
//
//go:embed density.csv
var densityCSV string

// aliases.csv: how cooks call what density.csv has under another name: common
// practice, no source.
//
//go:embed aliases.csv
var aliasesCSV string

type densityRow struct {
	ingredient, form string
	group            string     // rows of one ingredient in different forms
	keys             [][]string // token sets that name the ingredient
	forms            map[string]bool
	perCup           *big.Rat
	other            *big.Rat // GNU units' figure, nil for none
	source           string
}

type densityTable struct {
	rows    []densityRow
	aliases map[string][2]string // ingredient and form, by sorted tokens
}

var densities = sync.OnceValue(func() *densityTable {
	t := &densityTable{aliases: map[string][2]string{}}
	for _, f := range csvRows("density.csv", densityCSV) {
		r := densityRow{ingredient: f[0], form: f[1], forms: map[string]bool{}, source: f[8]}
		var ok bool
		if r.perCup, ok = new(big.Rat).SetString(f[3]); !ok {
			panic("measure: density.csv: " + f[0])
		}
		if f[6] != "" {
			if r.other, ok = new(big.Rat).SetString(f[6]); !ok {
				panic("measure: density.csv: " + f[0])
			}
			r.source += "; GNU units 2.22 " + f[7]
		}
		// "not packed" and "dipped not stated" are no forms.
		form := strings.NewReplacer("not packed", "", "spooned or dipped not stated", "").Replace(f[1])
		for _, w := range nameTokens(form) {
			if formWords[w] {
				r.forms[w] = true
			}
		}
		// "zucchini (courgette)" and "butter, clarified / ghee" have two names.
		main, also, _ := strings.Cut(f[0], " (")
		main, slash, _ := strings.Cut(main, " / ")
		r.group = main
		for _, make := range []string{" unbleached", " Diamond Crystal", " Morton"} {
			r.group = strings.TrimSuffix(r.group, make)
		}
		for _, name := range []string{r.group, strings.TrimSuffix(also, ")"), slash} {
			if tokens := nameTokens(name); len(tokens) > 0 {
				r.keys = append(r.keys, tokens)
			}
		}
		t.rows = append(t.rows, r)
	}
	for _, f := range csvRows("aliases.csv", aliasesCSV) {
		found := false
		for _, r := range t.rows {
			found = found || r.ingredient == f[1]
		}
		if !found {
			panic("measure: aliases.csv names no ingredient of density.csv: " + f[1])
		}
		t.aliases[strings.Join(nameTokens(f[0]), " ")] = [2]string{f[1], f[2]}
	}
	return t
})

func csvRows(name, text string) [][]string {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(rows) == 0 {
		panic(fmt.Sprintf("measure: %s: %v", name, err))
	}
	return rows[1:]
}

// formWords are the words of forms that change how much a cup holds.
var formWords = wordSet("sifted unsifted spooned scooped dipped packed unpacked loosely chopped sliced slivered diced cubed cubes grated shredded " +
	"crumbled ground whole halves pitted mashed whipped beaten cooked dry dried drained frozen canned sprigs shelled leaves")

// harmless words of a name do not.
var harmless = wordSet("fresh freshly good quality best organic unsalted salted cold warm hot softened melted room temperature " +
	"fine finely roughly coarsely large small medium ripe raw plain pure extra virgin light unbleached bleached free range toasted roasted " +
	"about plus more for dusting of the and a an to taste optional divided cooled peeled trimmed washed rinsed at your favourite favorite")

func wordSet(list string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(list) {
		set[words.Singular(w)] = true
	}
	return set
}

var plainLetters = strings.NewReplacer("è", "e", "é", "e", "ê", "e", "û", "u", "î", "i", "ñ", "n", "'", "", "’", "")

// nameTokens are the words of a name, lower case, in the singular, sorted by
// nothing: the order of the text.
func nameTokens(text string) []string {
	var tokens []string
	text = plainLetters.Replace(strings.ToLower(text))
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		if w = words.Singular(w); w == "yoghurt" || w == "yogourt" {
			w = "yogurt"
		}
		tokens = append(tokens, w)
	}
	return tokens
}

// densityOf finds the rows that a name means: the first is the likeliest form,
// the others are what it may mean as well. None means that the table does not
// have it. The table's own names come first, then what cooks call them, then
// the name without what stands after its comma.
func densityOf(name string) []densityRow {
	t := densities()
	head, _, _ := strings.Cut(name, "(")
	called, _, _ := strings.Cut(head, ",")
	said := map[string]bool{}
	for _, w := range nameTokens(name) {
		said[w] = true
	}
	if rows := t.named(nameTokens(head)); len(rows) > 0 {
		return inForm(rows, said, "")
	}
	short := nameTokens(called)
	for _, words := range [][]string{short, without(short, nil), without(short, formWords)} {
		a, ok := t.aliases[strings.Join(words, " ")]
		if !ok || len(words) == 0 {
			continue
		}
		var rows []densityRow
		group := groupOf(t, a[0])
		for _, r := range t.rows {
			if r.group == group {
				rows = append(rows, r)
			}
		}
		return inForm(rows, said, a[1])
	}
	return inForm(t.named(short), said, "")
}

// named are the rows whose names the tokens hold and that explain all of them,
// the most telling names only.
func (t *densityTable) named(tokens []string) []densityRow {
	said := map[string]bool{}
	for _, w := range tokens {
		said[w] = true
	}
	var best []densityRow
	most := 0
	for _, r := range t.rows {
		n := 0
		for _, key := range r.keys {
			if all(key, said) && explained(tokens, key) {
				n = max(n, len(key))
			}
		}
		switch {
		case n == 0 || n < most:
		case n > most:
			best, most = []densityRow{r}, n
		default:
			best = append(best, r)
		}
	}
	return best
}

func groupOf(t *densityTable, ingredient string) string {
	for _, r := range t.rows {
		if r.ingredient == ingredient {
			return r.group
		}
	}
	return ingredient
}

func without(words []string, more map[string]bool) []string {
	var kept []string
	for _, w := range words {
		if !harmless[w] && !more[w] {
			kept = append(kept, w)
		}
	}
	return kept
}

func all(words []string, in map[string]bool) bool {
	for _, w := range words {
		if !in[w] {
			return false
		}
	}
	return true
}

// explained reports whether every word of the name is the ingredient's, a form
// or harmless: "butter beans" is not explained by butter.
func explained(name, key []string) bool {
	own := map[string]bool{}
	for _, w := range key {
		own[w] = true
	}
	for _, w := range name {
		if !own[w] && !formWords[w] && !harmless[w] {
			return false
		}
	}
	return true
}

// inForm narrows rows of one ingredient to the form that the name says, if it
// says one; with none said all remain, the alias's form first.
func inForm(rows []densityRow, said map[string]bool, wanted string) []densityRow {
	var exact []densityRow
	for _, r := range rows {
		for w := range said {
			if r.forms[w] {
				exact = append(exact, r)
				break
			}
		}
	}
	if len(exact) > 0 {
		rows = exact
	}
	if len(exact) == 0 && wanted != "" {
		var same []densityRow
		for _, r := range rows {
			if r.form == wanted {
				same = append(same, r)
			}
		}
		if len(same) > 0 {
			rows = same
		}
	}
	return rows
}

// Weighed is what a volume of an ingredient weighs (or the other way round),
// and how far cooks' cups differ.
type Weighed struct {
	Amount     Quantity // the likeliest, in the unit asked for
	Low, High  Quantity // the spread over forms and sources; both Amount when there is one figure only
	Ingredient string   // as the table calls it
	Form       string   // "sifted", "chopped"; "" when the table names none
	Source     string
}

// String is the weight with its spread: "about 190 g (170–215 g as people fill cups)".
func (w Weighed) String() string {
	s := "about " + w.Amount.Round().String()
	low, high := w.Low.Round(), w.High.Round()
	if !low.Equal(high) {
		s += fmt.Sprintf(" (%s to %s as people fill cups)", low, high)
	}
	return s
}

// Weigh converts between volume and weight by the ingredient's density. An
// amount that needs none (weight asked in weight) is converted exactly. The
// error says what is missing: an ingredient that the table does not have, a
// count.
func Weigh(q Quantity, ingredient string, to Unit) (Weighed, error) {
	if q.IsZero() {
		return Weighed{}, &Error{ingredient, "there is no amount to weigh", "write for example 1 cup flour"}
	}
	if !to.Known() {
		return Weighed{}, &Error{string(to), "no unit that I know", "write for example g, ml, cup, tbsp, oz or clove"}
	}
	if q.unit.Kind() == to.Kind() || q.unit.Kind() == Count || to.Kind() == Count {
		same, err := q.Convert(to)
		return Weighed{Amount: same, Low: same, High: same, Ingredient: ingredient}, err
	}
	rows := densityOf(ingredient)
	if len(rows) == 0 {
		return Weighed{}, &Error{ingredient, "I have no density for it", "give the weight"}
	}
	cup := Cup.InBase()
	at := func(perCup *big.Rat) (Quantity, error) {
		f := new(big.Rat).Quo(perCup, cup) // grams a millilitre
		if to.Kind() == Volume {
			f.Inv(f)
		}
		f.Mul(f, q.unit.InBase())
		f.Quo(f, to.InBase())
		return checked(new(big.Rat).Mul(q.lo, f), new(big.Rat).Mul(q.hi, f), to)
	}
	w := Weighed{Ingredient: rows[0].ingredient, Form: rows[0].form, Source: rows[0].source}
	var err error
	if w.Amount, err = at(rows[0].perCup); err != nil {
		return Weighed{}, err
	}
	w.Low, w.High = w.Amount, w.Amount
	for _, r := range rows {
		for _, figure := range []*big.Rat{r.perCup, r.other} {
			if figure == nil {
				continue
			}
			v, err := at(figure)
			if err != nil {
				return Weighed{}, err
			}
			if c, _ := v.Cmp(w.Low); c < 0 {
				w.Low = v
			}
			if c, _ := v.Cmp(w.High); c > 0 {
				w.High = v
			}
		}
	}
	return w, nil
}
