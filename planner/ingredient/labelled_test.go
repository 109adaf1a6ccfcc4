package ingredient

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"

	"tureen/planner/measure"
	"tureen/planner/words"
)

// linesFile is where labelled ingredient lines are: INGREDIENT_LINES, or the whole reference set when it is
// beside the repository, or the sample of it in testdata. See testdata/ingredient_lines.LICENSE.
func linesFile(t *testing.T) string {
	if f := os.Getenv("INGREDIENT_LINES"); f != "" {
		return f
	}
	whole := filepath.Join("..", "..", "..", "shared", "reference", "ingredient_lines", "dev.csv")
	if _, err := os.Stat(whole); err == nil {
		return whole
	}
	return filepath.Join("testdata", "ingredient_lines.csv")
}

type labelled struct{ input, name, qty, rangeEnd, unit, asLabelled string }

func readLabelled(t *testing.T, file string) []labelled {
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	col := map[string]int{}
	for i, h := range rows[0] {
		col[h] = i
	}
	var out []labelled
	for _, r := range rows[1:] {
		out = append(out, labelled{r[col["input"]], r[col["name"]], r[col["qty"]], r[col["range_end"]], r[col["unit"]],
			strings.TrimSpace(r[col["qty_as_labelled"]])})
	}
	return out
}

// two reports whether a line has more than one quantity: then its label keeps them all.
func (l labelled) two() bool {
	return len(strings.Fields(strings.TrimSuffix(l.asLabelled, " dozen"))) > 1
}

// number is the labelled quantity in figures: the labels leave words as words ("half", "few"), and "3 dozen" as 3.
func (l labelled) number() string {
	switch {
	case l.qty == "half":
		return "0.5"
	case l.qty == "few":
		return "" // no number
	case strings.HasSuffix(l.asLabelled, " dozen"):
		if n, err := strconv.Atoi(l.qty); err == nil {
			return strconv.Itoa(12 * n)
		}
	}
	return l.qty
}

// quantities writes the near and the far end to three places, as the labels do.
func quantities(q measure.Quantity) (low, high string) {
	if q.IsZero() {
		return "", ""
	}
	three := func(s string) string { return strings.TrimSuffix(strings.TrimRight(s, "0"), ".") }
	low = three(q.Low().FloatString(3))
	if q.IsRange() {
		high = three(q.High().FloatString(3))
	}
	return low, high
}

// unitOf writes a line's unit as the labels do: sizes count as units.
func unitOf(size string, unit measure.Unit) string {
	return strings.TrimSpace(normalUnit(size + " " + string(unit)))
}

// normalUnit writes a unit with measure's id, so that spellings do not count as misses.
func normalUnit(text string) string {
	fields := strings.Fields(words.Small(text))
	for i, w := range fields {
		if u, err := measure.ParseUnit(w); err == nil && u != measure.Each {
			fields[i] = string(u)
		} else if u := measure.Unit(w); u.Known() && u != measure.Each {
			fields[i] = w
		} else {
			fields[i] = words.Singular(w)
		}
		if fields[i] == "butter-stick" || fields[i] == "whole-stick" {
			fields[i] = "stick"
		}
	}
	return strings.Join(fields, " ")
}

func TestIngredientLines(t *testing.T) {
	file := linesFile(t)
	rows := readLabelled(t, file)
	if len(rows) < 50 {
		t.Fatalf("%s has only %d lines", file, len(rows))
	}
	var one, qty, unit, both, head, exact, two, twoBoth int
	misses := map[string][]string{}
	for _, r := range rows {
		l, err := parse(r.input)
		if err != nil {
			misses["refused"] = append(misses["refused"], fmt.Sprintf("%q: %v", r.input, err))
		}
		if r.two() {
			two++
			found := map[string]bool{}
			low, high := quantities(l.Amount)
			found[strings.TrimSuffix(low+"-"+high, "-")] = true
			for _, m := range l.More {
				low, high := quantities(m.Amount)
				found[strings.TrimSuffix(low+"-"+high, "-")] = true
			}
			all := true
			for i, w := range strings.Fields(r.asLabelled) {
				if i < 2 && !found[w] {
					all = false
				}
			}
			if all {
				twoBoth++
			} else {
				misses["two"] = append(misses["two"], fmt.Sprintf("%q: got %v, want %s", r.input, found, r.asLabelled))
			}
			continue
		}
		one++
		low, high := quantities(l.Amount)
		qOK := low == r.number() && high == r.rangeEnd
		if qOK {
			qty++
		} else {
			misses["quantity"] = append(misses["quantity"], fmt.Sprintf("%q: got %s-%s, want %s-%s", r.input, low, high, r.qty,
				r.rangeEnd))
		}
		gotU, wantU := unitOf(l.Size, l.Unit), normalUnit(r.unit)
		if gotU == wantU {
			unit++
			if qOK {
				both++
			}
		} else {
			misses["unit"] = append(misses["unit"], fmt.Sprintf("%q: got %q, want %q", r.input, gotU, wantU))
		}
		if Head(l.Name) == Head(r.name) {
			head++
		} else {
			misses["name"] = append(misses["name"], fmt.Sprintf("%q: got %q, want %q", r.input, l.Name, r.name))
		}
		if strings.EqualFold(l.Name, r.name) {
			exact++
		}
	}
	percent := func(n, of int) float64 { return 100 * float64(n) / float64(max(of, 1)) }
	t.Logf("%s: %d lines with one quantity: quantity %.1f %%, unit %.1f %%, both %.1f %%, name's head noun %.1f %% "+
		"(whole name %.1f %%)",
		filepath.Base(file), one, percent(qty, one), percent(unit, one), percent(both, one), percent(head, one),
		percent(exact, one))
	t.Logf("%d lines with two quantities: both found %.1f %%", two, percent(twoBoth, two))
	var kinds []string
	for k := range misses {
		kinds = append(kinds, k)
	}
	sort.Strings(kinds)
	most := 8
	if os.Getenv("ALL_MISSES") != "" {
		most = len(rows)
	}
	for _, k := range kinds {
		t.Logf("%s: %d misses, such as\n  %s", k, len(misses[k]), strings.Join(misses[k][:min(most, len(misses[k]))], "\n  "))
	}
	for _, c := range []struct {
		what     string
		got, min float64
	}{{"quantity", percent(qty, one), 99}, {"unit", percent(unit, one), 97}, {"head noun", percent(head, one), 90},
		{"two quantities", percent(twoBoth, max(two, 1)), 85}} {
		if c.got < c.min && !(c.what == "two quantities" && two == 0) {
			t.Errorf("%s agrees on %.1f %% of the lines, want at least %.0f %%", c.what, c.got, c.min)
		}
	}
}
