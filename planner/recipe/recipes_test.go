package recipe

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden readings anew; read them before you commit")

// The recipes are our own, written as different people write.
func ownRecipes(t testing.TB) []string {
	files, err := filepath.Glob(filepath.Join("testdata", "recipes", "*.*"))
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, f := range files {
		if !strings.HasSuffix(f, ".golden") {
			out = append(out, f)
		}
	}
	if len(out) < 12 {
		t.Fatalf("only %d recipes", len(out))
	}
	return out
}

func TestGoldenReadings(t *testing.T) {
	for _, f := range ownRecipes(t) {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Read(string(text))
		if err != nil {
			t.Errorf("%s: %v", f, err)
			continue
		}
		got, golden := r.Outline(), f+".golden"
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s: got\n%s\nwant\n%s", f, got, want)
		}
	}
}
