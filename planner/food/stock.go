package food

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"tureen/planner/measure"
)

// places are where food waits at home.
var places = []string{"counter", "refrigerator", "freezer", "hot hold"}

func knownPlace(p string) bool { return slices.Contains(places, p) }

// Shelf is how long something keeps in the refrigerator once it is bought fresh: a row of the published table,
// unchanged.
type Shelf struct {
	Name     string // as the source calls it: "chicken, whole"
	From, To int    // days: the published range
	Rests    string // a kind, whose strictest limit holds too; "bacon", a limit though no kind; "quality": no limit
	Source   Source
}

func (t *tables) readShelf() {
	for _, l := range records("shelf.tsv") {
		s := &Shelf{Name: strings.ToLower(l.of("name")), From: l.integer("from_days"), To: l.integer("to_days"),
			Rests: l.of("rests"), Source: t.source(l)}
		if l.of("subtitle") != "" {
			s.Name += ", " + l.of("subtitle")
		}
		if _, kind := t.kind[Kind(s.Rests)]; s.To < s.From || !kind && s.Rests != "bacon" && s.Rests != "quality" {
			l.fail("no range, or it rests on nothing")
		}
		foods, _ := t.foodsOf(l)
		for _, f := range foods {
			if t.shelves[f] != nil {
				l.fail("%s stands twice", t.foods[f].name)
			}
			t.shelves[f] = s
		}
	}
}

// Shelf is how long the food keeps in the refrigerator once it is bought fresh; nil where the table does not have it,
// or where the text says that it is not fresh. It is shared: not to be changed.
func (f Food) Shelf() *Shelf {
	if f.Class == nil || f.Class != data().foods[f.index].class || f.Is("frozen") {
		return nil
	}
	return data().shelves[f.index]
}

// Piece is what one of a food weighs, and what of it is thrown away; or how much juice one gives.
type Piece struct {
	Item     string   // as the table calls it
	Size     string   // "medium", "bunch"
	Edible   *big.Rat // grams that are left of one; of juice, grams that one gives
	Refuse   *big.Rat // the part that is thrown away, 0 to 1; nil in a row about juice
	What     string   // what is thrown away, as the source says
	AsBought *big.Rat // grams of one as it is bought, nil where the source does not say
	Source   string
}

func (t *tables) readPieces() {
	for _, l := range records("pieces.tsv") {
		p := &Piece{Item: l.of("item"), Size: l.of("size"), Edible: l.figure("edible_g"), Refuse: l.figure("refuse_percent"),
			What: l.of("what"), AsBought: l.figure("as_bought_g"), Source: t.cited(l)}
		if p.Refuse != nil {
			p.Refuse.Quo(p.Refuse, big.NewRat(100, 1))
		}
		if p.Refuse == nil && p.Edible == nil || p.Refuse != nil && p.Refuse.Cmp(big.NewRat(1, 1)) >= 0 {
			l.fail("it says nothing, or all of it is thrown away")
		}
		foods, _ := t.foodsOf(l)
		for _, f := range foods {
			if t.pieces[f] != nil {
				l.fail("%s stands twice", t.foods[f].name)
			}
			t.pieces[f] = p
		}
	}
}

// cited is a row's source as a person reads it, with the row's place in it.
func (t *tables) cited(l line) string {
	s := t.source(l)
	text := s.Text
	if l.of("ref") != "" {
		text += ", " + l.of("ref")
	}
	if strings.HasPrefix(s.How, "memory") && !strings.Contains(text, "no source") {
		text += ", from memory"
	}
	return text
}

// Percent is the part that is thrown away in whole percent; 0 in a row about juice.
func (p *Piece) Percent() int {
	if p.Refuse == nil {
		return 0
	}
	percent := new(big.Rat).Mul(p.Refuse, big.NewRat(100, 1))
	return int(percent.Num().Int64() / percent.Denom().Int64())
}

// Trimming says what is lost on the way from the shop to the pot: "11 % is trimmed away (USDA ...)".
func (p *Piece) Trimming() string {
	return fmt.Sprintf("%d %% is trimmed away (%s)", p.Percent(), p.Source)
}

// AsBought is the weight to buy for a weight of what a text names that is ready to cook, and whose row says so; ok is
// false, and q comes back as it is, where the table does not have it or q is no weight.
func AsBought(q measure.Quantity, text string) (bought measure.Quantity, by *Piece, ok bool) {
	f, _ := Find(text)
	p := f.Piece()
	if p == nil || p.Refuse == nil {
		return q, nil, false
	}
	bought, ok = measure.AsBought(q, p.Refuse)
	return bought, p, ok
}

// Juiced is how many of a fruit give an amount of its juice, with the source; 0 where the text names no juice that
// the table has.
func Juiced(q measure.Quantity, text string) (fruits int, source string) {
	f, _ := Find(text)
	p := f.Piece()
	if p == nil || p.Refuse != nil {
		return 0, ""
	}
	return measure.Juiced(q, p.Edible, DensityOf(text)), p.Source
}

// Piece is what one of the food weighs and what of it is thrown away; nil where the table does not have it. It is
// shared: not to be changed.
func (f Food) Piece() *Piece {
	if f.Class == nil || f.Class != data().foods[f.index].class {
		return nil
	}
	return data().pieces[f.index]
}

type densityRow struct {
	ingredient, form string
	forms            map[string]bool
	likely, other    *big.Rat // grams a millilitre; other nil for none
	alone            bool     // what is meant where no form is said
	source           string
}

func (t *tables) readDensity() {
	cup := measure.Cup.InBase()
	for _, l := range records("density.tsv") {
		r := densityRow{ingredient: l.of("ingredient"), form: l.of("form"), forms: map[string]bool{},
			likely: l.figure("g_per_us_cup"),
			other:  l.figure("other_g_per_us_cup"), source: t.cited(l)}
		if r.likely == nil || r.likely.Sign() == 0 {
			l.fail("no figure")
		}
		r.likely.Quo(r.likely, cup)
		if r.other != nil {
			r.other.Quo(r.other, cup)
			r.source += "; GNU units 2.22 " + l.of("other_name")
		}
		// "not packed" and "dipped not stated" are no forms.
		for _, w := range t.foldsOf(strings.NewReplacer("not packed", "", "spooned or dipped not stated",
			"").Replace(r.form)) {
			if role := t.plain[w]; role == "form" || role == "small" || role == "cut" || formWords[w] {
				r.forms[w] = true
			}
		}
		foods, alone := t.foodsOf(l)
		for i, f := range foods {
			r.alone = alone[i]
			t.density[f] = append(t.density[f], r)
		}
	}
}

// formWords say how a cup is filled, or what is in it, beside the forms of plain.tsv.
var formWords = setOf("scooped dipped packed unpacked loosely ground whole half cooked dry frozen canned leaf sprig")

// DensityOf is the density of what a text names, in the form that it says ("chopped", "cooked"): nil where the table
// does not have it, or where the text's food is not known.
func DensityOf(text string) *measure.Density {
	f, ok := Find(text)
	if !ok {
		return nil
	}
	rows := inForm(data().density[f.index], data().tokensOf(text))
	if len(rows) == 0 {
		return nil
	}
	first := rows[0]
	d := &measure.Density{Likely: first.likely, Low: first.likely, High: first.likely, Ingredient: first.ingredient,
		Form: first.form, Source: first.source}
	for _, r := range rows {
		for _, v := range []*big.Rat{r.likely, r.other} {
			switch {
			case v == nil:
			case v.Cmp(d.Low) < 0:
				d.Low = v
			case v.Cmp(d.High) > 0:
				d.High = v
			}
		}
	}
	return d
}

// inForm narrows the rows of a food to the form that a text says. With none said, those that are meant then, or else
// all.
func inForm(rows []densityRow, said []token) []densityRow {
	var exact, usual []densityRow
	for _, r := range rows {
		if slices.ContainsFunc(said, func(t token) bool { return r.forms[t.word] || t.word == "dried" && r.forms["dry"] }) {
			exact = append(exact, r)
		}
		if r.alone {
			usual = append(usual, r)
		}
	}
	switch {
	case len(exact) > 0:
		return exact
	case len(usual) > 0:
		return usual
	}
	return rows
}
