package ingredient

import "testing"

// TestALengthIsNoNumber: what is cut off at a length is one piece, and what is cut to one stays a preparation; ours.
func TestALengthIsNoNumber(t *testing.T) {
	for _, c := range []struct{ line, amount, name string }{
		{"2 cm ginger, grated", "1 piece", "ginger"},
		{"2-inch piece fresh ginger", "1 piece", "fresh ginger"},
		{"5 cm cinnamon stick", "1 piece", "cinnamon stick"},
		{"1 3-inch piece of ginger", "1 piece", "ginger"},
		{"23 cm tart case", "", "23-cm tart case"},
		{"4 boneless (skinless chicken breasts, thinly sliced)", "4", "boneless skinless chicken breasts"},
		{"3 large (free-range) eggs", "3", "eggs"},
	} {
		l, err := parse(c.line)
		if err != nil || l.Amount.String() != c.amount || l.Name != c.name {
			t.Errorf("%s: %q of %q, %v", c.line, l.Amount, l.Name, err)
		}
	}
	if all := Several("", "500g floury potatoes, peeled, 2cm dice"); all != nil {
		t.Errorf("one line is %q", all)
	}
}
