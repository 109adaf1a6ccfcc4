package store

import (
	"context"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"tureen/planner"
)

// Every statement in the package asks for the community, but for these.
var systemStatements = map[string]bool{
	systemDue: true, systemNextDue: true, systemMarkSending: true, systemMarkSent: true, systemMarkFailed: true,
	systemPutOff:     true,
	systemDrop:       true,
	systemPruneParty: true, systemPruneReading: true, systemPruneSent: true, systemBackup: true, systemOfAccount: true,
	systemOtherTables:                    true,
	systemParties:                        true, // a step of the tables' own, through all that there are
	"SELECT count(*) FROM sqlite_schema": true, // whether a file is ours, before anything is read
}

var (
	isStatement = regexp.MustCompile(`(?s)^\s*(SELECT|INSERT|UPDATE|DELETE|VACUUM|WITH|REPLACE)\s`)
	asks        = regexp.MustCompile(`WHERE community = \?|WHERE .* AND community = \?`)
	gives       = regexp.MustCompile(`^INSERT INTO \w+ \(community,`)
)

func TestEveryStatementAsksForTheCommunity(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			text, err := strconv.Unquote(lit.Value)
			if err != nil {
				t.Fatal(err)
			}
			if !isStatement.MatchString(text) {
				return true
			}
			seen++
			if systemStatements[text] || asks.MatchString(text) || gives.MatchString(text) {
				return true
			}
			t.Errorf("%s: this statement does not ask for the community:\n%s", name, text)
			return true
		})
	}
	if seen < 30 {
		t.Errorf("only %d statements found: the test does not see them any more", seen)
	}
}

// Two communities hold parties that are alike in everything. Whoever asks one of them with the other's
// party gets nothing and changes nothing; every exported method is tried.
func TestNobodyReadsAcross(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	create(t, s, home, supper())
	theirs := create(t, s, "others", supper()).Party.ID
	list := []Reminder{{Key: "k", Due: t0.Add(time.Hour), Person: "ada", Kind: "due", Task: "bean-stew/cook",
		Text: "Cook"}}
	edit(t, s, "others", theirs, ada, "planned", func(c *Change) {
		c.Plan, c.Reminders, c.KeepReminders = planFor(&c.Party, 2), list, false
	})
	edit(t, s, "others", theirs, ben, "more covers", func(c *Change) { c.Party.Covers = 9 })
	if err := s.SetFocus(ctx, "others", "kitchen", "", theirs); err != nil {
		t.Fatal(err)
	}
	if err := s.SetReading(ctx, "others", "kitchen", "u1", Reading{At: t0, Source: []byte("Soup")}); err != nil {
		t.Fatal(err)
	}
	removed := create(t, s, "others", planner.Party{Name: "gone"}).Party.ID
	if err := s.Remove(ctx, "others", ada, t0, removed); err != nil {
		t.Fatal(err)
	}
	look := func() any {
		snap, err := s.Load(ctx, "others", theirs)
		if err != nil {
			t.Fatal(err)
		}
		j, err := s.Journal(ctx, "others", theirs, 100)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := s.Reminders(ctx, "others", theirs)
		if err != nil {
			t.Fatal(err)
		}
		return []any{snap, j, rows}
	}
	before := look()

	tries := map[string]func() error{
		"Load":     func() error { _, err := s.Load(ctx, home, theirs); return err },
		"LoadPair": func() error { _, _, err := s.LoadPair(ctx, home, theirs); return err },
		"Save": func() error {
			_, err := s.Save(ctx, home, Change{Base: 3, Party: planner.Party{ID: theirs}})
			return err
		},
		"Remove":    func() error { return s.Remove(ctx, home, ada, t0, theirs) },
		"Recover":   func() error { return s.Recover(ctx, home, ada, t0, removed, nil) },
		"Journal":   func() error { _, err := s.Journal(ctx, home, theirs, 10); return err },
		"Undo":      func() error { _, _, err := s.Undo(ctx, home, theirs, ben, t0, nil); return err },
		"Redo":      func() error { _, _, err := s.Redo(ctx, home, theirs, ben, t0, nil); return err },
		"Focus":     func() error { _, err := s.Focus(ctx, home, "kitchen", "u1"); return err },
		"SetFocus":  func() error { return s.SetFocus(ctx, home, "kitchen", "u1", theirs) },
		"Reading":   func() error { _, err := s.Reading(ctx, home, "kitchen", "u1"); return err },
		"Reminders": func() error { _, err := s.Reminders(ctx, home, theirs); return err },
		"Snooze": func() error {
			_, err := s.Snooze(ctx, home, theirs, "bean-stew/cook", "ada", t0.Add(2*time.Hour))
			return err
		},
	}
	own := map[string]bool{ // what takes no party of somebody else's
		"Close": true, "Create": true, "List": true, "Removed": true,
		"Due": true, "NextDue": true, "MarkSending": true, "MarkSent": true, "MarkFailed": true, "Posted": true,
		"PutOff": true, "Drop": true,
		"OnRearm": true, "OtherTables": true,
		"Backup": true, "Prune": true, "SetReading": true, "PartiesOf": true,
	}
	for m := range reflect.TypeFor[*Store]().Methods() {
		try := tries[m.Name]
		if try == nil {
			if !own[m.Name] {
				t.Errorf("%s is not tried", m.Name)
			}
			continue
		}
		if err := try(); !errors.Is(err, ErrNotFound) {
			t.Errorf("%s: %v, want ErrNotFound", m.Name, err)
		}
	}
	list2, err := s.List(ctx, home)
	if err != nil || len(list2) != 1 || list2[0].ID == theirs {
		t.Errorf("List: %+v (%v), want home's own party", list2, err)
	}
	if after := look(); !reflect.DeepEqual(before, after) {
		t.Errorf("the others' party changed:\n%+v\n%+v", before, after)
	}
}
