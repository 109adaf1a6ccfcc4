package safety

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// limits.csv: rows of the project's reference table of published limits, its
// columns unchanged, with an id and the authority's short name before them.
//
//go:embed limits.csv
var limitsCSV string

// limits_own.csv: rows that the reference table lacks or has from a page that is about something else, in the same
// columns.
//
//go:embed limits_own.csv
var ownLimitsCSV string

// kinds.csv says which rows speak of which kind of food. A field with several
// ids names sources that may disagree, or cuts that one kind covers.
//
//go:embed kinds.csv
var kindsCSV string

// Tables is the text of the limits' tables, so that it can be told when they have changed.
func Tables() string { return limitsCSV + ownLimitsCSV + kindsCSV }

type kindRow struct {
	kind                       Kind
	refrigerator, cook, thawed []Limit
}

type table struct {
	limits    []Limit
	byID      map[string]int
	kinds     []kindRow
	kindIndex map[Kind]int
}

// tables reads the embedded files once. A fault in them is ours, not a
// person's, and every test of the package would meet it: hence the panics.
var tables = sync.OnceValue(func() *table {
	t := &table{byID: map[string]int{}, kindIndex: map[Kind]int{}}
	for _, f := range append(records("limits.csv", limitsCSV), records("limits_own.csv", ownLimitsCSV)...) {
		l, err := readLimit(f)
		if err != nil {
			panic(fmt.Sprintf("safety: limits.csv, %s: %v", f["id"], err))
		}
		t.byID[l.ID] = len(t.limits)
		t.limits = append(t.limits, l)
	}
	for _, f := range records("kinds.csv", kindsCSV) {
		row := kindRow{
			kind:         Kind(f["kind"]),
			refrigerator: t.named(f["refrigerator"]), cook: t.named(f["cook"]), thawed: t.named(f["thawed"]),
		}
		t.kindIndex[row.kind] = len(t.kinds)
		t.kinds = append(t.kinds, row)
	}
	return t
})

// limit returns the row with the id, which must be there.
func limit(id string) Limit {
	t := tables()
	i, ok := t.byID[id]
	if !ok {
		panic("safety: limits.csv has no row " + id)
	}
	return t.limits[i]
}

func (t *table) named(ids string) []Limit {
	var limits []Limit
	for id := range strings.FieldsSeq(ids) {
		i, ok := t.byID[id]
		if !ok {
			panic("safety: kinds.csv names a row that limits.csv lacks: " + id)
		}
		limits = append(limits, t.limits[i])
	}
	return limits
}

// records reads CSV text into one map a row, by the names of the first line.
func records(name, text string) []map[string]string {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(rows) == 0 {
		panic(fmt.Sprintf("safety: %s: %v", name, err))
	}
	out := make([]map[string]string, 0, len(rows)-1)
	for _, r := range rows[1:] {
		m := make(map[string]string, len(r))
		for i, v := range r {
			m[rows[0][i]] = v
		}
		out = append(out, m)
	}
	return out
}

// A temperature field is a figure, a bound ("<=90"), a span ("40-140") or a
// fall ("135 to 70"). The last figure is the one that the limit is about.
var figure = regexp.MustCompile(`-?\d+(?:\.\d+)?`)

func readLimit(f map[string]string) (Limit, error) {
	l := Limit{
		ID: f["id"], Topic: Topic(f["topic"]), Subject: f["subject"], Bound: Bound(f["op"]),
		Authority: Authority(f["authority"]), Source: f["source"], How: How(f["how"]), Note: f["note"],
	}
	if l.Bound != AtMost && l.Bound != AtLeast {
		l.Bound = Rule
	}
	var err error
	if f["temp_f"] != "" && f["temp_c"] != "" {
		l.Heated, l.Above = true, strings.HasPrefix(f["temp_c"], ">")
		if l.TempF, err = lastFigure(f["temp_f"]); err != nil {
			return l, err
		}
		if l.TempC, err = lastFigure(f["temp_c"]); err != nil {
			return l, err
		}
	}
	if metric, is := map[string]float64{"inch": 2.54, "lb": 453.592}[f["unit"]]; is && f["max"] != "" {
		most, err := strconv.ParseFloat(f["max"], 64)
		l.Sized, l.Size, l.Unit = true, most*metric, map[string]string{"inch": "cm", "lb": "g"}[f["unit"]]
		return l, err
	}
	perUnit := map[string]float64{"s": 1.0 / 60, "min": 1, "h": 60, "d": 24 * 60, "h per 4-5 lb": 60,
		"min per lb": 1}[f["unit"]]
	if perUnit == 0 || f["max"] == "" && f["min"] == "" {
		return l, nil
	}
	l.Timed = true
	far, near := f["max"], f["min"]
	if far == "" {
		far = near
	}
	if near == "" {
		near = far
	}
	high, err := strconv.ParseFloat(far, 64)
	if err != nil {
		return l, err
	}
	low, err := strconv.ParseFloat(near, 64)
	if err != nil {
		return l, err
	}
	l.Minutes, l.From = int(high*perUnit), int(low*perUnit)
	return l, nil
}

func lastFigure(text string) (float64, error) {
	// The minus of a span ("40-140") is no sign.
	all := figure.FindAllString(strings.ReplaceAll(text, "-", " "), -1)
	if strings.HasPrefix(text, "-") {
		all = figure.FindAllString(text, -1)
	}
	if len(all) == 0 {
		return 0, fmt.Errorf("no figure in %q", text)
	}
	return strconv.ParseFloat(all[len(all)-1], 64)
}
