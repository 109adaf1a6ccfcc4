package measure

import (
	_ "embed"
	"encoding/csv"
	"math/big"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// units.csv: the units, each with the row of the project's reference table
// that defines it (column row), its exact size in millilitres or grams, and
// all its spellings; the first two are what we print for one and for several.
//
//go:embed units.csv
var unitsCSV string

// Unit is the id of a unit in units.csv. The empty unit counts things: 3 eggs.
type Unit string

// The units that code names. Any id of units.csv will do.
const (
	Each        Unit = ""
	Gram        Unit = "g"
	Kilogram    Unit = "kg"
	Ounce       Unit = "oz"
	Pound       Unit = "lb"
	ButterStick Unit = "butter-stick"
	Millilitre  Unit = "ml"
	Litre       Unit = "l"
	Teaspoon    Unit = "us-tsp"
	Tablespoon  Unit = "us-tbsp"
	FluidOunce  Unit = "us-fl-oz"
	Cup         Unit = "us-cup"
	Pint        Unit = "us-pint"
	Quart       Unit = "us-quart"
)

// Kind says what a unit measures.
type Kind string

// What units measure. Only units of one kind convert, and of counts only a
// unit into itself.
const (
	Volume Kind = "volume"
	Mass   Kind = "mass"
	Count  Kind = "count"
)

// System is where a unit is at home; it decides how its numbers are written.
type System string

// The systems of units.csv.
const (
	US       System = "us"
	Label    System = "label" // US nutrition labels
	Imperial System = "imperial"
	Metric   System = "metric"
	Counted  System = "count"
)

type unitRow struct {
	id        Unit
	kind      Kind
	base      *big.Rat // millilitres or grams in one; 1 for counts
	baseFloat float64  // about base
	system    System
	names     []string
	// definition and source as in the reference table
	definition, source string
}

type unitTable struct {
	rows   []unitRow
	byID   map[Unit]int
	byName map[string]Unit // lower case; single letters in their own case
}

// unitsOnce reads the embedded table. A fault in it is ours; every test would
// meet it, hence the panics.
var unitsOnce = sync.OnceValue(func() *unitTable {
	records, err := csv.NewReader(strings.NewReader(unitsCSV)).ReadAll()
	if err != nil {
		panic("measure: units.csv: " + err.Error())
	}
	t := &unitTable{byID: map[Unit]int{}, byName: map[string]Unit{}}
	add := func(r unitRow) {
		r.baseFloat = floatOf(r.base)
		t.byID[r.id] = len(t.rows)
		t.rows = append(t.rows, r)
		for _, n := range r.names {
			key := nameKey(n)
			if other, taken := t.byName[key]; taken && other != r.id {
				panic("measure: units.csv: " + n + " is two units")
			}
			t.byName[key] = r.id
		}
	}
	t.byID[Each] = 0
	t.rows = append(t.rows, unitRow{id: Each, kind: Count, base: big.NewRat(1, 1), baseFloat: 1, system: Counted,
		names: []string{"", ""}})
	for _, f := range records[1:] {
		base, ok := new(big.Rat).SetString(f[2])
		if !ok {
			panic("measure: units.csv: " + f[2])
		}
		names := strings.Split(f[5], "|")
		add(unitRow{
			id: Unit(f[0]), kind: Kind(f[1]), base: base, system: System(f[4]),
			names: names, definition: f[7], source: f[8],
		})
	}
	return t
})

func nameKey(name string) string {
	if utf8.RuneCountInString(name) == 1 {
		return name
	}
	return strings.ToLower(name)
}

func (u Unit) row() (unitRow, bool) {
	t := unitsOnce()
	i, ok := t.byID[u]
	if !ok {
		return unitRow{}, false
	}
	return t.rows[i], true
}

// Known reports whether the unit is in the table.
func (u Unit) Known() bool { _, ok := u.row(); return ok }

// Kind is what the unit measures; "" for an unknown unit.
func (u Unit) Kind() Kind { r, _ := u.row(); return r.kind }

// System is where the unit is at home.
func (u Unit) System() System { r, _ := u.row(); return r.system }

// InBase is how many millilitres (volume) or grams (mass) one of the unit is,
// exactly; a copy that the caller may change. Nil for an unknown unit.
func (u Unit) InBase() *big.Rat {
	r, ok := u.row()
	if !ok {
		return nil
	}
	return new(big.Rat).Set(r.base)
}

// Source is the definition of the unit and the document that it is from.
func (u Unit) Source() (definition, source string) {
	r, _ := u.row()
	return r.definition, r.source
}

// Name is the printed name for one (plural false) or several.
func (u Unit) Name(plural bool) string {
	r, ok := u.row()
	if !ok {
		return string(u)
	}
	if plural && len(r.names) > 1 {
		return r.names[1]
	}
	return r.names[0]
}

// Usage says whose cups and pints a text means when it does not say.
type Usage string

// The usages. The zero value is American.
const (
	American    Usage = ""
	British     Usage = "british"
	Australian  Usage = "australian"  // and New Zealand's cup, but its 20 ml tablespoon
	Continental Usage = "continental" // 250 ml cups, 15 ml and 5 ml spoons
)

// Spoons and cups in a British book of today are metric; pints are imperial.
var usageOf = map[Usage]map[Unit]Unit{
	American: {},
	British: {
		"us-pint": "imp-pint", "us-quart": "imp-quart", "us-gallon": "imp-gallon", "us-gill": "imp-gill",
		"us-fl-oz": "imp-fl-oz", "us-cup": "metric-cup", "us-tbsp": "metric-tbsp", "us-tsp": "metric-tsp",
	},
	Australian: {
		"us-pint": "imp-pint", "us-fl-oz": "imp-fl-oz",
		"us-cup": "metric-cup", "us-tbsp": "au-tbsp", "us-tsp": "metric-tsp",
	},
	Continental: {"us-cup": "metric-cup", "us-tbsp": "metric-tbsp", "us-tsp": "metric-tsp"},
}

// ParseUnit reads a unit's name, all of the text or nothing: "tablespoons",
// "fl. oz.", "imperial pint".
func ParseUnit(text string) (Unit, error) { return ParseUnitAs(American, text) }

// ParseUnitAs is ParseUnit for a text of the usage.
func ParseUnitAs(usage Usage, text string) (Unit, error) {
	text = strings.TrimSpace(text)
	u, n := matchUnit(usage, text)
	if n == 0 || strings.TrimSpace(text[n:]) != "" {
		return "", &Error{text, "no unit that I know", "write for example g, ml, cup, tbsp, oz or clove"}
	}
	return u, nil
}

// matchUnit finds the longest unit name at the start of s and says how many
// bytes it takes; 0 when there is none.
func matchUnit(usage Usage, s string) (Unit, int) {
	if strings.HasPrefix(s, "#") {
		return Pound, 1
	}
	const most = 3 // words in the longest name
	var ends []int
	var words []string
	pos := 0
	for len(words) < most {
		start := pos
		for pos < len(s) {
			r, w := utf8.DecodeRuneInString(s[pos:])
			if !unicode.IsLetter(r) && !(pos > start && r == '3') {
				break
			}
			pos += w
		}
		if pos == start {
			break
		}
		words = append(words, s[start:pos])
		if pos < len(s) && s[pos] == '.' {
			pos++
		}
		ends = append(ends, pos)
		next := pos
		for next < len(s) && (s[next] == ' ' || s[next] == '\u0009') {
			next++
		}
		if next == pos && s[pos-1] != '.' {
			break
		}
		pos = next
	}
	t := unitsOnce()
	for k := len(words); k > 0; k-- {
		u, ok := t.byName[nameKey(strings.Join(words[:k], " "))]
		if !ok && k == 1 && utf8.RuneCountInString(words[0]) == 1 {
			// C, G and L are as good as c, g and l; T and t are two spoons.
			u, ok = t.byName[strings.ToLower(words[0])]
		}
		if ok {
			if own, is := usageOf[usage][u]; is {
				if named := strings.ToLower(words[0]); named != "us" {
					u = own
				}
			}
			return u, ends[k-1]
		}
	}
	return "", 0
}
