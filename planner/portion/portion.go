// Package portion says how much of a food handbooks reckon for a guest, and how much of its main food a dish has.
//
// The figures are rows of portions.csv, each with its source; [For] puts the rows of one kind together to a range.
// Which kind a food is, [KindOf] tells from the words of an ingredient; [Of] finds a dish's main food and what a cover
// gets of it. The figures are for planning: what guests eat is not known to any table.
package portion

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// portions.csv: rows of the project's reference table of amounts a guest, with the kind that we count them to before
// them.
//
//go:embed portions.csv
var portionsCSV string

// Kind is what a food is to the handbooks, raw unless its name says otherwise.
type Kind string

// The kinds of food that the table has rows for.
const (
	Meat          Kind = "meat" // boneless
	StewMeat      Kind = "stew-meat"
	GroundMeat    Kind = "ground-meat"
	MeatOnBone    Kind = "meat-on-bone"
	Poultry       Kind = "poultry" // boneless
	PoultryOnBone Kind = "poultry-on-bone"
	Fish          Kind = "fish" // fillets and steaks
	WholeFish     Kind = "whole-fish"
	Mussels       Kind = "mussels"
	Soup          Kind = "soup" // before a main course
	SoupMain      Kind = "soup-main"
	Leaves        Kind = "leaves"
	Rice          Kind = "rice"
	Pasta         Kind = "pasta"
	PastaSide     Kind = "pasta-side"
	Potatoes      Kind = "potatoes"
	Beans         Kind = "beans" // dried
	Vegetables    Kind = "vegetables"
	Cheese        Kind = "cheese" // a course of it
)

// Protein reports whether a kind is what a main course is reckoned by.
func (k Kind) Protein() bool {
	return slices.Contains([]Kind{Meat, StewMeat, GroundMeat, MeatOnBone, Poultry, PoultryOnBone, Fish, WholeFish,
		Mussels}, k)
}

// Range is what handbooks reckon for a guest.
type Range struct {
	Low, High float64
	Unit      string   // "g", "ml"
	Sources   []string // of the rows, each once
	Notes     []string // why it is not the rows' own range, with the source of each factor
}

// Range's far ends are FarFactor below and above: what is beyond is worth a second look. The factor is ours.
const FarFactor = 1.5

// Far says on which side an amount is far from the range: -1 under, +1 over, 0 neither.
func (r Range) Far(amount float64) int {
	switch {
	case amount*FarFactor < r.Low:
		return -1
	case amount > r.High*FarFactor:
		return 1
	}
	return 0
}

// String is the range as a cook reads it: "113–227 g".
func (r Range) String() string {
	low, high := strconv.FormatFloat(r.Low, 'f', -1, 64), strconv.FormatFloat(r.High, 'f', -1, 64)
	if low == high {
		return low + " " + r.Unit
	}
	return low + "–" + high + " " + r.Unit
}

// manyCourses is from how many courses on a main course is smaller.
const manyCourses = 4

// For is the range for a guest who eats one dish of the kind in a meal of so many courses, where proteins counts the
// dishes of meat, poultry or fish on the table at the same time. Only the low end falls: nobody is told to cook less.
// ok is false for a kind that the table has no row for.
func For(kind Kind, courses, proteins int) (r Range, ok bool) {
	r, ok = rangeOf(string(kind))
	if !ok || !kind.Protein() {
		return r, ok
	}
	low := r.Low
	if courses >= manyCourses {
		f, _ := rangeOf("factor-courses")
		low *= f.Low
		r.Notes = append(r.Notes, fmt.Sprintf("less in %d courses, by %g to %g: %s", courses, f.Low, f.High,
			strings.Join(f.Sources, "; ")))
	}
	if proteins > 1 {
		f, _ := rangeOf("factor-second")
		low *= f.Low
		r.Notes = append(r.Notes, fmt.Sprintf("less beside a second one, by %g to %g: %s", f.Low, f.High,
			strings.Join(f.Sources, "; ")))
	}
	r.Low = float64(int(low + 0.5))
	return r, true
}

type row struct {
	kind, item, unit, source, how string
	low, high                     float64
}

// said is a row's source as a person reads it.
func (r *row) said() string {
	if r.how == "memory" {
		return r.source + ", from memory"
	}
	return r.source
}

// rangeOf puts a kind's rows together.
func rangeOf(kind string) (Range, bool) {
	var out Range
	for _, r := range rows() {
		if r.kind != kind {
			continue
		}
		if len(out.Sources) == 0 {
			out.Low, out.High, out.Unit = r.low, r.high, strings.ReplaceAll(r.unit, "mL", "ml")
		}
		out.Low, out.High = min(out.Low, r.low), max(out.High, r.high)
		if s := r.said(); !slices.Contains(out.Sources, s) {
			out.Sources = append(out.Sources, s)
		}
	}
	return out, len(out.Sources) > 0
}

// rows reads the embedded table once. A fault in it is ours, and every test of the package would meet it: hence the
// panics.
var rows = sync.OnceValue(func() []row {
	all, err := csv.NewReader(strings.NewReader(portionsCSV)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("portion: portions.csv: %v", err))
	}
	var out []row
	for _, f := range all[1:] {
		low, err1 := strconv.ParseFloat(f[2], 64)
		high, err2 := strconv.ParseFloat(f[3], 64)
		if err1 != nil || err2 != nil || low > high {
			panic(fmt.Sprintf("portion: portions.csv: %s: no range", f[1]))
		}
		out = append(out, row{kind: f[0], item: f[1], low: low, high: high, unit: f[4], source: f[7], how: f[8]})
	}
	return out
})
