package safety

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// reference opens a table of the shared reference folder, beside the
// repository, or skips the test: a fresh machine does not have it.
func reference(t *testing.T, name string) []map[string]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "reference", name))
	if err != nil {
		t.Skipf("the shared reference tables are not beside this repository: %v", err)
	}
	return records(name, string(text))
}

// readElsewhere are the rows of limits.csv that the reference table lacks: their column "how" says where they were
// read,
// or that they are from memory.
var readElsewhere = []string{"cool-meat-weight", "cool-meat-thick", "cool-bird", "cool-anz-stage1", "cool-anz-stage2"}

// TestLimitsAreReferenceRows: every row of limits.csv is a row of the
// reference table, unchanged, or was read elsewhere.
func TestLimitsAreReferenceRows(t *testing.T) {
	cols := []string{"topic", "subject", "op", "temp_f", "temp_c", "min", "max", "unit", "note", "source", "how"}
	key := func(m map[string]string) string {
		var b strings.Builder
		w := csv.NewWriter(&b)
		var fields []string
		for _, c := range cols {
			fields = append(fields, m[c])
		}
		if err := w.Write(fields); err != nil {
			t.Fatal(err)
		}
		w.Flush()
		return b.String()
	}
	known := map[string]bool{}
	for _, m := range reference(t, "safety.csv") {
		known[key(m)] = true
	}
	for _, m := range records("limits.csv", limitsCSV) {
		if !known[key(m)] && !slices.Contains(readElsewhere, m["id"]) {
			t.Errorf("%s: not a row of the reference table: %s", m["id"], key(m))
		}
	}
}
