package measure

import (
	"testing"

	"pgregory.net/rapid"
)

func TestRound(t *testing.T) {
	for _, c := range []struct{ exact, want string }{
		{"187.3 g", "185 g"},
		{"3.7 g", "3.7 g"},
		{"7.3 g", "7.5 g"},
		{"33.3 g", "33 g"},
		{"166 2/3 g", "165 g"},
		{"326.796185 g", "330 g"},
		{"1234 g", "1.25 kg"},
		{"0.18 kg", "180 g"},
		{"236.5882365 ml", "235 ml"},
		{"2.37 l", "2.35 l"},
		{"⅓ cup", "⅓ cup"},
		{"⅔ cup", "⅔ cup"},
		{"0.37 cup", "6 tbsp"},
		{"2.49 cups", "2½ cups"},
		{"16 tbsp", "1 cup"},
		{"5 tbsp", "5 tbsp"},
		{"4 tbsp", "¼ cup"},
		{"3 tsp", "1 tbsp"},
		{"0.19 tsp", "¼ tsp"},
		{"1 1/3 tsp", "1⅓ tsp"},
		{"0.01 tsp", "1/16 tsp"},
		{"2–3 tbsp", "2–3 tbsp"},
		{"1.26 lb", "1¼ lb"},
		{"0.2 lb", "3¼ oz"},
		{"0.37", "⅓"},
		{"0.9", "1"},
		{"2.3", "2½"},
		{"5.75", "6"},
		{"3⅓ cloves", "3½ cloves"},
		{"2.2–5.1 cloves", "2–5 cloves"},
	} {
		if got := mustParse(t, c.exact).Round(); got.String() != c.want {
			t.Errorf("%s: got %s, want %s", c.exact, got, c.want)
		}
	}
	if got := (Quantity{}).Round(); !got.IsZero() {
		t.Errorf("no amount rounds to %s", got)
	}
}

// TestRoundingStaysInItsLimits: the limits stated in round.go.
func TestRoundingStaysInItsLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom(Units()).Draw(t, "unit")
		q, err := New(rapid.Int64Range(1, 100_000).Draw(t, "num"), rapid.Int64Range(1, 10_000).Draw(t, "den"), u)
		if err != nil {
			t.Skip(err)
		}
		r := q.Round()
		if again := r.Round(); !again.Equal(r) {
			t.Fatalf("%s rounds to %s, and that to %s", q, r, again)
		}
		off := q.Off(r)
		v := floatOf(q.Low())
		if u.Kind() == Count {
			allowed := 0.5
			if v < 4 {
				allowed = 0.25
			}
			if v < 1 {
				allowed = 0.25 // below ⅛ the least piece is a quarter
			}
			if off*v > allowed+1e-9 {
				t.Fatalf("%s rounds to %s: off by %v pieces", q, r, off*v)
			}
			return
		}
		inBase := v * floatOf(u.InBase())
		least := 0.1
		if !isSI(u) {
			smallest := u
			if l, ok := ladders[u]; ok {
				smallest = l[len(l)-1]
			}
			least = floatOf(smallest.InBase())/16 + 1e-9
		}
		if off > RoundingLimit+1e-9 && off*inBase > least {
			t.Fatalf("%s rounds to %s: off by %.1f %%", q, r, off*100)
		}
	})
}
