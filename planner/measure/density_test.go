package measure

import (
	"encoding/csv"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// flour is grams a millilitre by USDA SR28 and The Cake Bible: 125 g a US cup, 113.4 to 141.8.
var flour = func() *Density {
	perCup := func(tenths int64) *big.Rat { return new(big.Rat).Quo(big.NewRat(tenths, 10), Cup.InBase()) }
	return &Density{Likely: perCup(1250), Low: perCup(1134), High: perCup(1418)}
}()

// TestWeighBothWays: what is heavy takes little room.
func TestWeighBothWays(t *testing.T) {
	w, err := Weigh(mustParse(t, "1 cup"), flour, Gram)
	if err != nil || w.Low.String() != "113.4 g" || w.Amount.String() != "125 g" || w.High.String() != "141.8 g" {
		t.Errorf("a cup of flour: %s to %s to %s, %v", w.Low, w.Amount, w.High, err)
	}
	w, err = Weigh(mustParse(t, "125 g"), flour, Cup)
	if low, _ := w.Low.Cmp(w.Amount); err != nil || w.Amount.String() != "1 cup" || low >= 0 {
		t.Errorf("125 g of flour: %s to %s to %s, %v", w.Low, w.Amount, w.High, err)
	}
	if high, _ := w.High.Cmp(w.Amount); high <= 0 {
		t.Errorf("125 g of flour take no more than %s", w.High)
	}
	for _, q := range []string{"3", "2 cloves", "1 cup"} {
		if w, err := Weigh(mustParse(t, q), nil, Gram); err == nil {
			t.Errorf("%s of something: got %s, want a refusal", q, w)
		}
	}
	if w, err := Weigh(mustParse(t, "100 g"), nil, Kilogram); err != nil || w.High.String() != "0.1 kg" {
		t.Errorf("weight in weight: %s, %v", w, err)
	}
	if _, err := Weigh(Quantity{}, flour, Gram); err == nil {
		t.Error("no amount was weighed")
	}
}

// TestUnitsAreReferenceRows compares the embedded table with the project's reference table, when that stands beside
// the repository.
func TestUnitsAreReferenceRows(t *testing.T) {
	read := func(name string) []map[string]string {
		f, err := os.Open(filepath.Join("..", "..", "..", "shared", "reference", name))
		if err != nil {
			t.Skipf("the shared reference tables are not beside this repository: %v", err)
		}
		defer f.Close()
		return maps(t, csv.NewReader(f))
	}
	units := map[string]map[string]string{}
	for _, m := range read("units.csv") {
		units[m["unit"]] = m
	}
	for _, m := range maps(t, csv.NewReader(strings.NewReader(unitsCSV))) {
		if m["row"] == "" {
			continue // SI units and counts are not in the reference table
		}
		ref := units[m["row"]]
		if ref == nil || ref["value"] != m["per_base"] || ref["source"] != m["source"] ||
			ref["definition"] != m["definition"] || ref["exact"] != m["exact"] {
			t.Errorf("%s is not the reference row %q", m["id"], m["row"])
		}
	}
}

func maps(t *testing.T, r *csv.Reader) []map[string]string {
	t.Helper()
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, v := range row {
			m[rows[0][i]] = v
		}
		out = append(out, m)
	}
	return out
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, _, err := Parse("1 1/2 cups all-purpose flour, sifted"); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "amounts/s")
}

func BenchmarkWeigh(b *testing.B) {
	q, err := ParseWhole("1½ cups")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Weigh(q, flour, Gram); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "weighed/s")
}
