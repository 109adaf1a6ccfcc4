package measure

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// fataler is what tests and rapid's tests have in common.
type fataler interface {
	Helper()
	Fatal(args ...any)
}

func mustParse(t fataler, text string) Quantity {
	t.Helper()
	q, err := ParseWhole(text)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// TestExactDefinitions: NIST Handbook 44, Appendix C (2024); imperial by the
// Units of Measurement Regulations 1995; labels by 21 CFR 101.9(b)(5)(viii).
func TestExactDefinitions(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"1 cup", "ml", "236.5882365"},
		{"1 tbsp", "ml", "14.78676478125"},
		{"1 tsp", "ml", "4.92892159375"},
		{"1 fl oz", "ml", "29.5735295625"},
		{"1 US gallon", "ml", "3785.411784"},
		{"1 imperial gallon", "ml", "4546.09"},
		{"1 imperial fl oz", "ml", "28.4130625"},
		{"1 label cup", "ml", "240"},
		{"1 label oz", "g", "28"},
		{"1 lb", "g", "453.59237"},
		{"1 oz", "g", "28.349523125"},
		{"1 stone", "lb", "14"},
		{"1 cup", "tbsp", "16"},
		{"1 tbsp", "tsp", "3"},
		{"1 gallon", "cup", "16"},
		{"1 imperial pint", "imperial fl oz", "20"},
		{"1 dash", "pinch", "2"},
		{"1 lb", "butter stick", "4"},
	} {
		unit, err := ParseUnit(c.to)
		if err != nil {
			t.Fatal(err)
		}
		got, err := mustParse(t, c.from).Convert(unit)
		want, _ := new(big.Rat).SetString(c.want)
		if err != nil || got.Low().Cmp(want) != 0 {
			t.Errorf("%s in %s: got %s, %v; want %s", c.from, c.to, got, err, c.want)
		}
	}
}

func TestConvertRefuses(t *testing.T) {
	for _, c := range []struct {
		from string
		to   Unit
	}{{"1 cup", Gram}, {"3 cloves", Gram}, {"3", "clove"}, {"100 g", Each}, {"1 cup", "furlong"}} {
		if got, err := mustParse(t, c.from).Convert(c.to); err == nil {
			t.Errorf("%s in %s: got %s, want a refusal", c.from, c.to, got)
		}
	}
}

func TestAddAndScale(t *testing.T) {
	for _, c := range []struct{ a, b, want string }{
		{"1 cup", "2 tbsp", "1⅛ cups"},
		{"2 tbsp", "1 cup", "1⅛ cups"},
		{"⅓ cup", "⅓ cup", "⅔ cup"},
		{"2–3 cloves", "1 clove", "3–4 cloves"},
		{"1.5 kg", "250 g", "1750 g"},
		{"2", "3", "5"},
	} {
		got, err := mustParse(t, c.a).Add(mustParse(t, c.b))
		if err != nil || got.String() != c.want {
			t.Errorf("%s + %s: got %s, %v; want %s", c.a, c.b, got, err, c.want)
		}
	}
	if got, err := mustParse(t, "1 cup").Add(mustParse(t, "100 g")); err == nil {
		t.Errorf("1 cup + 100 g: got %s, want a refusal", got)
	}
	if got, err := (Quantity{}).Add(mustParse(t, "2 cups")); err != nil || got.String() != "2 cups" {
		t.Errorf("nothing + 2 cups: got %s, %v", got, err)
	}
	for _, c := range []struct {
		q        string
		num, den int
		want     string
	}{
		{"1 cup", 10, 4, "2½ cups"},
		{"1 cup", 1, 3, "⅓ cup"},
		{"2–3 cloves", 2, 1, "4–6 cloves"},
		{"3", 23, 6, "11½"},
		{"100 g", 10, 6, "166⅔ g"},
	} {
		got, err := mustParse(t, c.q).Scale(c.num, c.den)
		if err != nil || got.String() != c.want {
			t.Errorf("%s for %d instead of %d: got %s, %v; want %s", c.q, c.num, c.den, got, err, c.want)
		}
	}
	for _, c := range [][2]int{{0, 4}, {4, 0}, {-1, 4}} {
		if got, err := mustParse(t, "1 cup").Scale(c[0], c[1]); err == nil {
			t.Errorf("Scale(%d, %d): got %s, want a refusal", c[0], c[1], got)
		}
	}
}

func TestSumsAreOrderless(t *testing.T) {
	units := map[Kind][]Unit{}
	for _, u := range Units() {
		if u.Kind() != Count {
			units[u.Kind()] = append(units[u.Kind()], u)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom([]Kind{Volume, Mass}).Draw(t, "kind")
		draw := func(name string) Quantity {
			q, err := New(rapid.Int64Range(1, 200).Draw(t, name), rapid.Int64Range(1, 12).Draw(t, name+" den"),
				rapid.SampledFrom(units[kind]).Draw(t, name+" unit"))
			if err != nil {
				t.Fatal(err)
			}
			return q
		}
		sum := func(a, b Quantity) Quantity {
			q, err := a.Add(b)
			if err != nil {
				t.Fatal(err)
			}
			return q
		}
		a, b, c := draw("a"), draw("b"), draw("c")
		if l, r := sum(sum(a, b), c), sum(a, sum(b, c)); !l.Equal(r) {
			t.Fatalf("(%s + %s) + %s = %s, the other way %s", a, b, c, l, r)
		}
		if l, r := sum(a, b), sum(b, a); !l.Equal(r) {
			t.Fatalf("%s + %s = %s, turned round %s", a, b, l, r)
		}
	})
}

func TestConversionComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := anyQuantity(t, "q")
		to := rapid.SampledFrom(Units()).Draw(t, "to")
		there, err := q.Convert(to)
		if err != nil {
			t.Skip(err)
		}
		back, err := there.Convert(q.Unit())
		if err != nil || !back.Equal(q) {
			t.Fatalf("%s is %s is %s, %v", q, there, back, err)
		}
		n := rapid.IntRange(1, 50).Draw(t, "n")
		up, err := q.Scale(n, 7)
		if err != nil {
			t.Skip(err)
		}
		if down, err := up.Scale(7, n); err != nil || !down.Equal(q) {
			t.Fatalf("%s times %d/7 and back is %s, %v", q, n, down, err)
		}
	})
}
