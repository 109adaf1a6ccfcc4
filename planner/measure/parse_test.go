package measure

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text, want string
		unit       Unit
		rest       string
	}{
		{"2 1/2 cups flour", "2½ cups", Cup, "flour"},
		{"½ tsp. salt", "½ tsp", Teaspoon, "salt"},
		{"1½ c. sugar", "1½ cups", Cup, "sugar"},
		{"1-1/2 cups milk", "1½ cups", Cup, "milk"},
		{"1 ⅓ cups", "1⅓ cups", Cup, ""},
		{"1 and 1/2 cups", "1½ cups", Cup, ""},
		{"1⁄2 cup", "½ cup", Cup, ""},
		{"1/3 cup", "⅓ cup", Cup, ""},
		{"2 3/7 cups", "2 3/7 cups", Cup, ""},
		{"2-3 cloves garlic", "2–3 cloves", "clove", "garlic"},
		{"2–3 tbsp", "2–3 tbsp", Tablespoon, ""},
		{"1 to 1 1/2 lb beef", "1–1½ lb", Pound, "beef"},
		{"1½ - 2 cups x", "1½–2 cups", Cup, "x"},
		{"3/4-1 lb", "¾–1 lb", Pound, ""},
		{"2 or 3 carrots", "2–3", Each, "carrots"},
		{"500 g - 1 kg potatoes", "500–1000 g", Gram, "potatoes"},
		{"1 cup to 1½ cups stock", "1–1½ cups", Cup, "stock"},
		// Said twice, not a range.
		{"1 cup or 250 ml milk", "1 cup", Cup, "or 250 ml milk"},
		{"3 eggs", "3", Each, "eggs"},
		{"an egg", "1", Each, "egg"},
		{"half an onion", "½", Each, "onion"},
		{"a dozen eggs", "12", Each, "eggs"},
		{"half a dozen", "6", Each, ""},
		{"2 dozen eggs", "24", Each, "eggs"},
		{"a couple of carrots", "2", Each, "carrots"},
		{"one and a half cups rice", "1½ cups", Cup, "rice"},
		{"a pinch of salt", "1 pinch", "pinch", "salt"},
		{"1,5 kg potatoes", "1.5 kg", Kilogram, "potatoes"},
		{"1,000 g", "1000 g", Gram, ""},
		{"12,500 g", "12500 g", Gram, ""},
		{".5 l", "0.5 l", Litre, ""},
		{"200g flour", "200 g", Gram, "flour"},
		{"- 200 g flour", "200 g", Gram, "flour"},
		{"about 2 cups", "2 cups", Cup, ""},
		{"8-ounce steak", "8 oz", Ounce, "steak"},
		{"2 fl. oz. rum", "2 fl oz", FluidOunce, "rum"},
		{"1 imperial pint ale", "1 imperial pint", "imp-pint", "ale"},
		{"2 T butter", "2 tbsp", Tablespoon, "butter"},
		{"2 t salt", "2 tsp", Teaspoon, "salt"},
		{"1 LB BEEF", "1 lb", Pound, "BEEF"},
		{"1 lb 4 oz beef", "1¼ lb", Pound, "beef"},
		{"1 kg 200 g flour", "1200 g", Gram, "flour"},
		{"1 cup plus 2 tbsp sugar", "1⅛ cups", Cup, "sugar"},
		// 2 × 113.3980925 g + 100 g
		{"2 sticks + 100 g butter", "326.796185 g", Gram, "butter"},
		{"2 sticks butter", "2 sticks", ButterStick, "butter"},
		{"1 stick celery", "1 whole stick", "whole-stick", "celery"},
		{"1 knob of butter", "1 knob", "knob", "butter"},
		{"1 knob ginger", "1 piece", "piece", "ginger"},
		{"1 (14 oz) tin tomatoes", "1", Each, "(14 oz) tin tomatoes"},
		{"2 large eggs", "2", Each, "large eggs"},
		{"8 1/2-inch-thick slices veal", "8", Each, "1/2-inch-thick slices veal"},
		{"A 3/4-pound steak", "¾ lb", Pound, "steak"},
		{"At least 1 cup cheese", "1 cup", Cup, "cheese"},
		// No amount at all.
		{"salt to taste", "", Each, "salt to taste"},
		{"00 flour", "", Each, "00 flour"},
		{"2% milk", "", Each, "2% milk"},
		{"3 1/2% milk", "", Each, "3 1/2% milk"},
		{"5-spice powder", "", Each, "5-spice powder"},
		{"a little salt", "", Each, "a little salt"},
		{"juice of 1 lemon", "", Each, "juice of 1 lemon"},
		{"", "", Each, ""},
		{"ملح", "", Each, "ملح"},
		{"🧂 salt", "", Each, "🧂 salt"},
	} {
		q, rest, err := Parse(c.text)
		if err != nil || q.String() != c.want || q.Unit() != c.unit || rest != c.rest {
			t.Errorf("Parse(%q): got %q, unit %q, rest %q, %v; want %q, %q, %q", c.text, q, q.Unit(), rest, err, c.want, c.unit,
				c.rest)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ text, say string }{
		{"1/0 cup", "divided by 0"},
		{"2 1/0 cups", "divided by 0"},
		{"-3 eggs", "negative"},
		{"−3 eggs", "negative"},
		{"0 eggs", "more than 0"},
		{"3-2 eggs", "backwards"},
		{"1000000000 litres", "any kitchen"},
		{"1e9 litres", "powers of ten"},
		{"10 000 g", "10000"},
		{"99999999999999 g", "any kitchen"},
		{strings.Repeat("9", 10_000) + " g", "digits"},
		{"1/" + strings.Repeat("9", 79) + " g", "digits"},
		{"1 cup\xff", "readable"},
	} {
		_, rest, err := Parse(c.text)
		var refusal *Error
		if !errors.As(err, &refusal) || !strings.Contains(err.Error(), c.say) || refusal.Try == "" {
			t.Errorf("Parse(%.40q): got error %v, want one that says %q and what to write", c.text, err, c.say)
		}
		if len(err.Error()) > 300 {
			t.Errorf("Parse(%.40q): the refusal is %d characters long", c.text, len(err.Error()))
		}
		if rest == "" {
			t.Errorf("Parse(%.40q): the text is lost", c.text)
		}
	}
	for _, text := range []string{"2 eggs", "salt", "200 gallon hats", "{}"} {
		if q, err := ParseWhole(text); err == nil {
			t.Errorf("ParseWhole(%q): got %q, want a refusal", text, q)
		}
	}
}

// TestUsage: whose pint is meant. UK pint 568.26125 ml (Units of Measurement
// Regulations 1995), Australian tablespoon 20 ml (AS 1325-1972).
func TestUsage(t *testing.T) {
	for _, c := range []struct {
		usage Usage
		text  string
		ml    string
	}{
		{American, "1 pint", "473.176473"},
		{British, "1 pint", "568.26125"},
		{British, "1 US pint", "473.176473"},
		{British, "2 tbsp", "30"},
		{Australian, "2 tbsp", "40"},
		{Australian, "1 cup", "250"},
		{Continental, "1 cup", "250"},
		{British, "10 fl oz", "284.130625"},
	} {
		q, _, err := ParseAs(c.usage, c.text)
		if err != nil {
			t.Fatal(err)
		}
		got, err := q.Convert(Millilitre)
		if err != nil || got.String() != c.ml+" ml" {
			t.Errorf("%s, %s: got %s, %v; want %s ml", c.usage, c.text, got, err, c.ml)
		}
	}
}

// anyQuantity draws quantities of every unit, ranges among them.
func anyQuantity(t *rapid.T, name string) Quantity {
	u := rapid.SampledFrom(Units()).Draw(t, name+" unit")
	den := rapid.SampledFrom([]int64{1, 1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 97, 1000}).Draw(t, name+" den")
	num := rapid.Int64Range(1, 5000).Draw(t, name+" num")
	q, err := New(num, den, u)
	if err != nil {
		t.Skip(err) // 5000 gallons are more than a kitchen's
	}
	if rapid.Bool().Draw(t, name+" range") {
		more, err := New(rapid.Int64Range(1, 500).Draw(t, name+" more"), den, u)
		if err != nil {
			t.Skip(err)
		}
		high, err := q.Add(more)
		if err != nil {
			t.Skip(err)
		}
		if q, err = Range(q.Low(), high.High(), u); err != nil {
			t.Skip(err)
		}
	}
	return q
}

func TestTextReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := anyQuantity(t, "q")
		back, err := ParseWhole(q.String())
		if err != nil || !back.Equal(q) {
			t.Fatalf("%q reads back as %q, %v", q, back, err)
		}
		data, err := json.Marshal(map[string]Quantity{"amount": q})
		if err != nil {
			t.Fatal(err)
		}
		var m map[string]Quantity
		if err := json.Unmarshal(data, &m); err != nil || !m["amount"].Equal(q) {
			t.Fatalf("%s reads back as %v, %v", data, m, err)
		}
	})
}

// An amount in front of an ingredient is the same amount, and the ingredient
// stays as it was.
func TestParseLeavesTheName(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := anyQuantity(t, "q")
		name := rapid.SampledFrom([]string{"butter", "unsalted butter, melted", "butter (cold)"}).Draw(t, "name")
		got, rest, err := Parse(q.String() + " " + name)
		if err != nil || !got.Equal(q) || rest != name {
			t.Fatalf("%q + %q: got %q, %q, %v", q, name, got, rest, err)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"2 1/2 cups flour", "1-1/2", "½–¾ tsp", "1 lb 4 oz", "2 sticks + 100 g butter", "1/0",
		"-3",
		"1e9 l", "a dozen", "half an onion", "00 flour", "1,000.5 g", "2 x 400 g", "1 to 2", "٣ eggs", "1 and", "1 -", "."} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, usage := range []Usage{American, British, Australian, Continental} {
			q, rest, err := ParseAs(usage, s)
			if err != nil {
				if !q.IsZero() {
					t.Fatalf("%q: an amount and an error", s)
				}
				continue
			}
			if len(rest) > len(s) || !utf8.ValidString(rest) {
				t.Fatalf("%q: rest %q is no part of it", s, rest)
			}
			if q.IsZero() {
				if rest != strings.TrimSpace(s) {
					t.Fatalf("%q: no amount, but rest %q", s, rest)
				}
				continue
			}
			if back, err := ParseWhole(q.String()); err != nil || !back.Equal(q) {
				t.Fatalf("%q: %q reads back as %q, %v", s, q, back, err)
			}
		}
	})
}
