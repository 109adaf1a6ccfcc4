package safety

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
)

// unread are the rows of the limits that nothing reads, each with what it is kept for.
var unread = map[string]string{
	"danger-us":           "where the figures of the clocks come from; no clock reads a span",
	"danger-food-code":    "likewise",
	"danger-uk":           "likewise",
	"danger-anz":          "likewise",
	"cold-hold-food-code": "the 5 °C of rule 2; what a refrigerator is set to nobody is asked",
	"cold-hold-us":        "likewise, 4 °C",
	"cold-hold-uk":        "likewise, 8 °C by law",
	"cool-uk":             "1 to 2 h: the 2 h of the counter's clock and rice's 1 h are read instead, and are as strict",
	"reheat-uk":           "no figure: its words are the warning of what is reheated twice",
	"raw-egg-susceptible": "no figure: its words are the warnings for guests at risk",
	"fridge-pudding":      "of an opened bought pudding: the row of custards has taken its figure",
	"raw-egg-uk":          "no figure: its words are the warnings of raw and soft egg in the UK",
}

// TestEveryRowIsRead: a row of the limits is named in the code, in the table of kinds or in a sentence of a warning, or
// its topic is asked for as a whole; else it says above why it stands there. What is said to be unread is.
func TestEveryRowIsRead(t *testing.T) {
	var all strings.Builder
	for _, folder := range []string{"..", "../../bot", "../../reminders"} {
		err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
			ext := filepath.Ext(path)
			if err != nil || d.IsDir() || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "testdata") ||
				ext != ".go" && ext != ".tsv" && filepath.Base(path) != "kinds.csv" {
				return err
			}
			text, err := os.ReadFile(path)
			all.Write(text)
			all.WriteByte('\n')
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	text := all.String()
	if !strings.Contains(text, `Published(HotHolding)`) {
		t.Error("no topic is asked for as a whole any more")
	}
	words, known := map[string]bool{}, map[string]bool{}
	for word := range strings.FieldsFuncSeq(text, func(r rune) bool {
		return r != '-' && !unicode.IsLower(r) && !unicode.IsDigit(r)
	}) {
		words[word] = true
	}
	for _, l := range tables().limits {
		known[l.ID] = true
		named := words[l.ID] || l.Topic == HotHolding
		if _, kept := unread[l.ID]; named == kept {
			t.Errorf("%s: named is %v, and the list of unread rows has it: %v", l.ID, named, kept)
		}
	}
	for id := range unread {
		if !known[id] {
			t.Errorf("%s is no row", id)
		}
	}
}
