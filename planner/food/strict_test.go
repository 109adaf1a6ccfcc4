package food_test

import (
	"os"
	"strings"
	"testing"

	"tureen/planner/food"
)

// TestCompoundsSpoil: a compound food that holds meat, fish or shellfish keeps on the counter only in a class whose
// foods are dried, cured by salt, or rendered: so that no row for the sake of allergens makes food that spoils keep.
func TestCompoundsSpoil(t *testing.T) {
	keeping := map[string]bool{"condiments": true, "paste": true, "crackers": true, "stock-cube": true, "dried-fish": true,
		"fat": true, "oil": true, "herb-butter": true, "cake": true, "pastry": true, "pasta": true}
	text, err := os.ReadFile("compounds.tsv")
	if err != nil {
		t.Fatal(err)
	}
	rows := strings.Split(strings.TrimSpace(string(text)), "\n")[1:]
	for _, row := range rows {
		f := strings.Split(row, "\t")
		c, err := food.ClassOf(f[2])
		if err != nil {
			t.Fatal(err)
		}
		for tell := range strings.FieldsSeq(f[3]) {
			tag, _, _ := strings.Cut(tell, ":")
			animal := tag == "meat" || tag == "pork" || tag == "fish" || tag == "crustaceans" || tag == "molluscs"
			if animal && c.Kind == food.None && !keeping[c.Name] {
				t.Errorf("%s tells %s and would keep as %s", f[0], tag, c.Name)
			}
		}
	}
	if len(rows) < 3000 {
		t.Errorf("%d rows, want at least 3000", len(rows))
	}
}
