package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// long is a function of n lines, its braces included.
func long(name string, n int) string {
	return fmt.Sprintf("func %s() {\n%s}\n", name, strings.Repeat("\tprintln()\n", n-2))
}

const small = `// Package shop is a small one.
package shop

import "fmt"

/* A comment
of two lines. */

// Exported is counted, and so is its method.
type Exported struct{ Field int }

func (e *Exported) Method() { fmt.Println(` + "`of\n\ntwo lines`" + `) }

type hidden[T any] struct{}

func (h hidden[T]) Method() {}

const A, b = 1, 2 // A alone
`

// TestBudget: a package at its budget passes; one line, name, file, wide line or long function more is said.
func TestBudget(t *testing.T) {
	const branches = "func winding(a, b bool) {\n\tif a && b || b {\n\t}\n\tfor range 3 {\n\t}\n\tswitch {\n" +
		"\tcase a:\n\tdefault:\n\t}\n}\n"
	wide := "// " + strings.Repeat("é", 118) + "\n"
	for _, c := range []struct {
		what, file, text string
		budget           string
		want             string // "": within budget
	}{
		{"as it is", "", "", "shop 8 3 1 0 0", ""},
		{"no line", "", "", "", "shop has no line in .ci/budget"},
		{"a line for nothing", "", "", "shop 8 3 1 0 0\nstall 1 1 1 0 0", "stall has a line"},
		{"a line less", "", "", "shop 7 3 1 0 0", "shop has 8 lines, 1 more than its budget of 7"},
		{"a name less", "", "", "shop 8 2 1 0 0", "shop has 3 names, 1 more"},
		{"a file more", "more.go", "package shop\n", "shop 9 3 1 0 0", "shop has 2 files, 1 more"},
		{"a wide line", "wide_test.go", "package shop\n\n" + wide, "shop 8 3 1 0 0", "wide_test.go:3: 121 columns"},
		{"one not so wide", "wide_test.go", "package shop\n\n" + strings.Replace(wide, "é", "", 1), "shop 8 3 1 0 0", ""},
		{"a long function", "f.go", "package shop\n\n" + long("f", 81), "shop 90 3 2 0 0",
			"f.go:3: f: 81 lines, complexity 1"},
		{"one not so long", "f.go", "package shop\n\n" + long("f", 80), "shop 90 3 2 0 0", ""},
		{"a long test", "f_test.go", "package shop\n\n" + long("f", 81), "shop 8 3 1 0 0", ""},
		{"a reason", "f.go", "package shop\n\n// f is.\n//\n// Kept whole: a list.\n" + long("f", 81), "shop 90 3 2 0 0", ""},
		{"a reason without words", "f.go", "package shop\n\n// Kept whole:\n" + long("f", 81), "shop 90 3 2 0 0",
			"f: 81 lines"},
		{"a winding one", "f.go", "package shop\n\n" + strings.ReplaceAll(branches, "\tfor range 3 {\n\t}\n",
			strings.Repeat("\tfor range 3 {\n\t}\n", 26)), "shop 90 3 2 0 0", "f.go:3: winding: 60 lines, complexity 31"},
		{"one not so winding", "f.go", "package shop\n\n" + strings.ReplaceAll(branches, "\tfor range 3 {\n\t}\n",
			strings.Repeat("\tfor range 3 {\n\t}\n", 25)), "shop 90 3 2 0 0", ""},
		{"a large budget", "", "", "shop 5001 3 1 0 0", "its line must say why"},
		{"a large budget with its reason", "", "", "shop 5001 3 1 0 0 # it grows", ""},
	} {
		root := t.TempDir()
		write := func(name, text string) {
			t.Helper()
			name = filepath.Join(root, name)
			if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		write("shop/shop.go", small)
		write("shop/testdata/no.go", "not Go")
		write(".ci/budget", "# why\npackage lines names files wide long\n"+c.budget+"\n")
		if c.file != "" {
			write("shop/"+c.file, c.text)
		}
		var out, errs bytes.Buffer
		status := run([]string{"-root", root}, &out, &errs)
		if c.want == "" && (status != 0 || !strings.HasPrefix(out.String(), "within budget: 1 packages, ")) ||
			c.want != "" && (status != 1 || !strings.Contains(errs.String(), c.want)) {
			t.Errorf("%s: status %d, %q %q, want %q", c.what, status, &out, &errs, c.want)
		}
		if c.want != "" && c.budget != "" { // the table printed anew is one that is kept
			out.Reset()
			if run([]string{"-root", root, "-print"}, &out, &errs); strings.Contains(out.String(), " 5001 ") {
				t.Errorf("%s: printed\n%s", c.what, &out)
			}
			write(".ci/budget", out.String())
			if status := run([]string{"-root", root}, &out, &errs); status != 0 {
				t.Errorf("%s: printed\n%s\nthen %s", c.what, &out, &errs)
			}
		}
	}
}
