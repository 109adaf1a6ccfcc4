package measure

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestScaleAs(t *testing.T) {
	for _, c := range []struct {
		amount   string
		growth   Growth
		num, den int
		want     string
		note     string
	}{
		{"200 g", Linear, 10, 4, "500 g", ""},
		{"3", Stepwise, 10, 4, "8", "7½"},
		{"2", Stepwise, 8, 4, "4", ""},
		{"1", Stepwise, 1, 4, "1", "¼"},
		{"2 tins", Stepwise, 23, 6, "8 tins", "7⅔"},
		// 2 to the power of ¾ is 1.682.
		{"1 tsp", Sublinear, 8, 4, "1.682 tsp", "taste"},
		{"1 tsp", Sublinear, 2, 4, "½ tsp", ""},
		{"1 tsp", Sublinear, 4, 4, "1 tsp", ""},
	} {
		got, err := mustParse(t, c.amount).ScaleAs(c.growth, c.num, c.den)
		if err != nil || got.Amount.String() != c.want || !strings.Contains(got.Note, c.note) ||
			(c.note == "") != (got.Note == "") {
			t.Errorf("%s, %s, %d for %d: got %s, note %q, %v; want %s, note %q", c.amount, c.growth, c.num, c.den, got.Amount,
				got.Note, err, c.want, c.note)
		}
	}
	if _, err := mustParse(t, "1 tsp").ScaleAs(Linear, 0, 4); err == nil {
		t.Error("scaled to no covers")
	}
}

// TestSublinearLiesBetween: more covers never take less, nor more than in
// proportion.
func TestSublinearLiesBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := mustParse(t, "2 tsp")
		den := rapid.IntRange(1, 30).Draw(t, "den")
		num := rapid.IntRange(den, 300).Draw(t, "num")
		got, err := q.ScaleAs(Sublinear, num, den)
		if err != nil {
			t.Fatal(err)
		}
		linear, err := q.Scale(num, den)
		if err != nil {
			t.Fatal(err)
		}
		if c, _ := got.Amount.Cmp(q); c < 0 {
			t.Fatalf("%d for %d: %s is less than before", num, den, got.Amount)
		}
		// Three decimals of the factor may round up.
		if g, l := floatOf(got.Amount.High()), floatOf(linear.High()); g > l*1.001 {
			t.Fatalf("%d for %d: %s is more than %s", num, den, got.Amount, linear)
		}
	})
}

func TestPanFactor(t *testing.T) {
	for _, c := range []struct {
		from, to Pan
		pans     int
		want     float64
	}{
		{Pan{DiameterCM: 24}, Pan{DiameterCM: 24}, 2, 2},
		{Pan{DiameterCM: 20}, Pan{DiameterCM: 28}, 1, 1.96},
		{Pan{LengthCM: 20, WidthCM: 30}, Pan{LengthCM: 30, WidthCM: 40}, 1, 2},
		{Pan{DiameterCM: 20}, Pan{LengthCM: 20, WidthCM: 20}, 1, 4 / math.Pi},
	} {
		if got, err := PanFactor(c.from, c.to, c.pans); err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v to %d of %v: got %v, %v; want %v", c.from, c.pans, c.to, got, err, c.want)
		}
	}
	for _, bad := range []Pan{{}, {LengthCM: -1, WidthCM: 2}, {DiameterCM: math.NaN()}, {DiameterCM: math.Inf(1)}} {
		if got, err := PanFactor(Pan{DiameterCM: 20}, bad, 1); err == nil {
			t.Errorf("%v: got %v, want a refusal", bad, got)
		}
	}
}

func TestEggs(t *testing.T) {
	for _, c := range []struct {
		eggs          string
		whole, beaten int
		say           string
	}{
		{"3", 3, 0, "3 eggs"},
		{"1", 1, 0, "1 egg"},
		{"3.75", 3, 38, "3 eggs, and beat 1 more and use 38 g of it"},
		{"0.37", 0, 19, "beat 1 egg and use 19 g of it"},
		{"2.95", 3, 0, "3 eggs"},
		{"2.05", 2, 0, "2 eggs"},
		{"1½", 1, 25, "1 egg, and beat 1 more and use 25 g of it"},
	} {
		whole, beaten, say := Eggs(mustParse(t, c.eggs))
		if whole != c.whole || beaten != c.beaten || say != c.say {
			t.Errorf("%s eggs: got %d, %d g, %q; want %d, %d g, %q", c.eggs, whole, beaten, say, c.whole, c.beaten, c.say)
		}
	}
	if _, _, say := Eggs(mustParse(t, "100 g")); say != "" {
		t.Errorf("100 g are no eggs: %q", say)
	}
}
