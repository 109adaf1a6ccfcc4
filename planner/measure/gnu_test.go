package measure

import (
	"math/big"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// gnuNames are the names of our units in GNU units (definitions.units 2.22).
// What it has no name for stands by its definition, which checks our
// arithmetic and not the figure: label, metric and dash-sized units, go, pat.
var gnuNames = map[Unit]string{
	"us-gallon": "gallon", "us-quart": "quart", "us-pint": "pint", "us-cup": "uscup", "us-gill": "usgill",
	"us-fl-oz": "usfluidounce", "us-tbsp": "ustablespoon", "us-tsp": "usteaspoon", "jigger": "jigger",
	"imp-gallon": "brgallon", "imp-quart": "brquart", "imp-pint": "brpint", "imp-gill": "brgill",
	"imp-fl-oz":  "brfluidounce",
	"metric-cup": "metriccup", "au-tbsp": "australiatablespoon", "japanese-cup": "japancup", "go": "180.39 ml",
	"label-cup": "240 ml", "label-tbsp": "15 ml", "label-tsp": "5 ml", "label-fl-oz": "30 ml", "label-oz": "28 g",
	"metric-tbsp": "15 ml", "metric-tsp": "5 ml", "dessertspoon": "10 ml",
	"dash": "usteaspoon/8", "pinch": "usteaspoon/16", "smidgen": "usteaspoon/32",
	"lb": "pound", "oz": "ounce", "stone": "stone", "butter-stick": "pound/4", "pat": "5 g", "knob": "15 g",
	"ml": "milliliter", "cl": "centiliter", "dl": "deciliter", "l": "liter", "mg": "milligram", "g": "gram",
	"kg": "kilogram",
}

// TestGNUUnits compares every conversion between units of one kind with GNU
// units, to six digits.
func TestGNUUnits(t *testing.T) {
	path, err := exec.LookPath("units")
	if err != nil {
		t.Skip("GNU units is not installed (Debian package units)")
	}
	var ask strings.Builder
	type pair struct{ from, to Unit }
	var pairs []pair
	for _, a := range Units() {
		if a.Kind() == Count {
			continue
		}
		if gnuNames[a] == "" {
			t.Errorf("%s has no name in GNU units here", a)
			continue
		}
		for _, b := range Units() {
			if a != b && a.Kind() == b.Kind() && gnuNames[b] != "" {
				pairs = append(pairs, pair{a, b})
				ask.WriteString("1 " + gnuNames[a] + "\n" + gnuNames[b] + "\n")
			}
		}
	}
	cmd := exec.Command(path, "--terse", "--output-format", "%.12g")
	cmd.Stdin = strings.NewReader(ask.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("units: %v", err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(pairs) {
		t.Fatalf("GNU units gave %d answers to %d questions; the first: %.200s", len(lines), len(pairs), out)
	}
	one := big.NewRat(1, 1)
	for i, p := range pairs {
		want, err := strconv.ParseFloat(strings.TrimSpace(lines[i]), 64)
		if err != nil {
			t.Errorf("%s in %s: GNU units says %q", p.from, p.to, lines[i])
			continue
		}
		q, err := Range(one, one, p.from)
		if err != nil {
			t.Fatal(err)
		}
		got, err := q.Convert(p.to)
		if err != nil {
			t.Fatal(err)
		}
		if g := floatOf(got.Low()); g/want < 1-5e-7 || g/want > 1+5e-7 {
			t.Errorf("1 %s in %s: got %.9g, GNU units says %.9g", p.from, p.to, g, want)
		}
	}
	t.Logf("%d conversions compared", len(pairs))
}
