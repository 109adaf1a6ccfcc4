package safety

import (
	"strings"
	"testing"
)

// TestSubstitutes: what stands in for what; common practice, no source, but for
// the rows that carry one.
func TestSubstitutes(t *testing.T) {
	for _, c := range []struct{ found, want string }{
		{"butter", "dairy-free margarine|olive oil"},
		{"unsalted butter", "dairy-free margarine|olive oil"},
		{"peanut butter", "sunflower seed butter"}, // and no margarine
		{"double cream", "oat cream|coconut cream|soya cream"},
		{"ice cream", "fruit sorbet"},
		{"walnuts", "toasted sunflower seeds"},
		{"pork", ""},
		{"butter beans", ""},
		{"", ""},
	} {
		var got []string
		for _, s := range Substitutes(c.found) {
			got = append(got, s.Use)
		}
		if strings.Join(got, "|") != c.want {
			t.Errorf("%q: got %q, want %q", c.found, got, c.want)
		}
	}
}

// TestSubstituteTable: every row has a source, its word is one that the word
// table finds, and what comes instead is free of what the word tells, sure or
// not: a row that only swaps one word for the same allergen helps nobody.
func TestSubstituteTable(t *testing.T) {
	for _, s := range substitutesOnce() {
		if s.Source == "" || s.How == "" || s.Note == "" {
			t.Errorf("%s for %s: note, source or how is missing", s.Use, s.For)
		}
		told := tell(s.For)
		if len(told) == 0 {
			t.Errorf("%q tells of nothing, so that nobody is led to its substitute", s.For)
		}
		helps := false
		for _, was := range told {
			still := false
			for _, is := range tell(s.Use) {
				still = still || is.Tag == was.Tag
			}
			helps = helps || !still
		}
		if !helps {
			t.Errorf("%s for %s takes nothing away", s.Use, s.For)
		}
	}
}

// TestContactAdvice: each way has words of its own and a source.
func TestContactAdvice(t *testing.T) {
	seen := map[string]bool{}
	for _, by := range []Contact{ByOil, ByMachine, ByBoard} {
		do, source := ContactAdvice(by)
		if do == "" || source == "" || seen[do] {
			t.Errorf("%s: %q (%s)", by, do, source)
		}
		seen[do] = true
	}
}

// TestCare: published advice names its publisher; a choice of diet does not.
// Older guests are spared what carries listeria, not what holds mercury.
func TestAdvice(t *testing.T) {
	for _, c := range []struct {
		diet Diet
		name string
		want string // in the finding, "" for none
	}{
		{Pregnant, "brie", "(CDC, Safer Food Choices (2024-2025); UK NHS, Foods to avoid in pregnancy)"},
		{Pregnant, "swordfish", "(FDA and EPA, Advice about Eating Fish)"},
		{Vulnerable, "swordfish", ""},
		{Vulnerable, "calf's liver", ""},
		{Pregnant, "calf's liver", "no liver"},
		{Vulnerable, "smoked salmon", "(FDA, Food Safety for Moms-to-Be, and for Older Adults)"},
		{Infant, "raw egg", "not for infants (raw egg)"},
		{Infant, "honey", "no honey (CDC"},
	} {
		conflicts, _ := Against(c.diet, c.name)
		var all []string
		for _, x := range conflicts {
			all = append(all, x.String())
		}
		if got := strings.Join(all, "; "); c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s, %s: got %q, want %q in it", c.diet, c.name, got, c.want)
		}
	}
	for word, want := range map[string]Diet{"immunocompromised": Vulnerable, "expecting": Pregnant, "baby": Infant} {
		if d, err := ParseDiet(word); err != nil || d != want || !d.IsAdvice() {
			t.Errorf("%s: %v, %v", word, d, err)
		}
	}
	if Vegan.IsAdvice() {
		t.Error("to be vegan is a choice")
	}
}
