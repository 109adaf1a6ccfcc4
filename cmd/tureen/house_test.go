package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const (
	root   = "../.."
	module = "tureen/"
)

// room is a package as the picture in DEVELOPERS.md shows it.
type room struct {
	name  string // its path within the module
	line  int    // where it stands in the picture
	knows []string
}

// picture reads the fenced block of "The house". A package is a line: its path, what it is, and after "knows" the
// packages that it imports, by the last part of their paths; a line that begins with a space goes on with the one
// before.
func picture(t *testing.T) []room {
	t.Helper()
	page, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(page), "## The house\n")
	_, rest, ok := strings.Cut(rest, "```\n")
	block, _, closed := strings.Cut(rest, "```\n")
	if !ok || !closed {
		t.Fatal("DEVELOPERS.md has no picture of the house")
	}
	var rooms []room
	for i, line := range strings.Split(strings.TrimSuffix(strings.ReplaceAll(block, "\n ", " "), "\n"), "\n") {
		what, knows, ok := strings.Cut(line, "  knows ")
		if !ok {
			t.Errorf("the picture does not say whom this one knows: %s", line)
			continue
		}
		r := room{name: strings.Fields(what)[0], line: i}
		if knows = strings.TrimSpace(knows); knows != "nobody" {
			r.knows = regexp.MustCompile(`,\s+`).Split(knows, -1)
		}
		rooms = append(rooms, r)
	}
	byName := map[string]string{}
	for _, r := range rooms {
		if other := byName[path.Base(r.name)]; other != "" {
			t.Errorf("the picture cannot tell %s from %s", r.name, other)
		}
		byName[path.Base(r.name)] = r.name
	}
	for i, r := range rooms {
		rooms[i].knows = nil
		for _, name := range r.knows {
			if byName[name] == "" {
				t.Errorf("the picture says that %s knows %s, which is not in it", r.name, name)
				continue
			}
			rooms[i].knows = append(rooms[i].knows, byName[name])
		}
	}
	return rooms
}

// source is a Go file of the house.
type source struct {
	room    string
	name    string
	test    bool
	imports []string
	file    *ast.File
}

// sources reads every Go file of the module.
func sources(t *testing.T) []source {
	t.Helper()
	var out []source
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && name != root && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
			return fs.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(name, ".go") {
			return nil
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		s := source{room: filepath.ToSlash(filepath.Dir(rel)), name: rel, test: strings.HasSuffix(name, "_test.go")}
		if s.file, err = parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution); err != nil {
			return err
		}
		for _, i := range s.file.Imports {
			p, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			s.imports = append(s.imports, p)
		}
		out = append(out, s)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestArrows holds the picture: every package stands in it and knows whom its line says, no more and no fewer, and all
// of them stand below it. Tests may look up.
func TestArrows(t *testing.T) {
	knows := map[string]map[string]bool{}
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		if knows[s.room] == nil {
			knows[s.room] = map[string]bool{}
		}
		for _, p := range s.imports {
			if p, ours := strings.CutPrefix(p, module); ours {
				knows[s.room][p] = true
			}
		}
	}
	rooms := picture(t)
	line := map[string]int{}
	for _, r := range rooms {
		line[r.name] = r.line
		if knows[r.name] == nil {
			t.Errorf("the picture shows %s, which is not there", r.name)
		}
	}
	for _, r := range rooms {
		for _, p := range r.knows {
			if !knows[r.name][p] {
				t.Errorf("the picture says that %s knows %s, and it does not", r.name, p)
			}
			delete(knows[r.name], p)
			if line[p] <= r.line {
				t.Errorf("%s knows %s, which does not stand below it", r.name, p)
			}
		}
		for p := range knows[r.name] {
			t.Errorf("%s imports %s: its line in the picture of DEVELOPERS.md does not say so", r.name, p)
		}
		delete(knows, r.name)
	}
	for name := range knows {
		t.Errorf("%s does not stand in the picture of DEVELOPERS.md", name)
	}
}

// inWing says whether a package is of the planner's wing.
func inWing(room string) bool { return room == "planner" || strings.HasPrefix(room, "planner/") }

// TestBorders: who speaks SQL, who Discord, and what the planner's wing must not touch.
func TestBorders(t *testing.T) {
	outside := regexp.MustCompile(`^(net|net/.*|database/.*|os|os/.*|syscall|log|log/.*)$`)
	sql := regexp.MustCompile(`^(database/.*|modernc\.org/.*)$`)
	for _, s := range sources(t) {
		for _, p := range s.imports {
			switch {
			case strings.Contains(p, "/discordgo") && s.room != "bot/discord":
				t.Errorf("%s imports %s: only bot/discord may", s.name, p)
			case s.test:
			case sql.MatchString(p) && s.room != "store" && s.room != "store/held":
				t.Errorf("%s imports %s: only store speaks SQL", s.name, p)
			case inWing(s.room) && s.room != "planner/partygen" && outside.MatchString(p): // parties for tests may ask how many
				t.Errorf("%s imports %s: the planner's wing is pure", s.name, p)
			case s.room == "planner/cp" && strings.Contains(p, "."), s.room == "planner/cp" && strings.HasPrefix(p, module):
				t.Errorf("%s imports %s: the engine has the standard library only", s.name, p)
			}
		}
	}
}

// TestPure: nothing in the planner's wing reads a clock or starts a goroutine.
func TestPure(t *testing.T) {
	clocks := []string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTicker", "NewTimer"}
	files := 0
	for _, s := range sources(t) {
		if s.test || !inWing(s.room) {
			continue
		}
		files++
		ast.Inspect(s.file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GoStmt:
				t.Errorf("%s starts a goroutine", s.name)
			case *ast.SelectorExpr:
				if x, ok := n.X.(*ast.Ident); ok && x.Name == "time" && slices.Contains(clocks, n.Sel.Name) {
					t.Errorf("%s reads the clock: time.%s", s.name, n.Sel.Name)
				}
			}
			return true
		})
	}
	if files < 100 {
		t.Errorf("only %d files seen", files)
	}
}

// lengthVerb is a number with a unit of time after it in a format, or such a unit joined to a number.
var lengthVerb = regexp.MustCompile(`%[-+.0-9]*[dvsgf] ?(min|mins|minutes?|h|hours?|days?)\b|^ ` +
	`(min|minutes?|h|hours?|days?)\b`)

// TestOneWriterOfLengths: nobody but planner/words writes a number of minutes, hours or days by itself. It sees formats
// and pieces of text that are joined; whoever hides a unit in a variable goes unseen. A place that says something else
// by it stands here with its reason.
func TestOneWriterOfLengths(t *testing.T) {
	other := map[string]string{" minutes": "names a variable of the engine, which nobody reads"}
	seen := map[string]bool{}
	for _, s := range sources(t) {
		if s.test || s.room == "planner/words" || s.room == "planner/partygen" || strings.HasPrefix(s.room, "planner/cp") ||
			strings.HasPrefix(s.room, "cmd/cpbench") || s.room == "bot/discord/standin" {
			continue
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			text, err := strconv.Unquote(lit.Value)
			if err != nil || !lengthVerb.MatchString(text) {
				return true
			}
			seen[text] = true
			if other[text] == "" {
				t.Errorf("%s writes a length of time by itself: %q", s.name, text)
			}
			return true
		})
	}
	for text := range other {
		if !seen[text] {
			t.Errorf("nobody writes %q any more: strike it from the list", text)
		}
	}
}
