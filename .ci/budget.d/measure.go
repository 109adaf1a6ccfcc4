package main

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/parser"
	"go/scanner"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"
)

// house is what every package has, by its path in the module.
type house map[string]*pack

type pack struct {
	has       figures
	offenders []offender
}

// offender is a wide line or a long function.
type offender struct {
	column int // of the table
	file   string
	line   int
	what   string
}

func (o offender) String() string { return fmt.Sprintf("%s:%d: %s", o.file, o.line, o.what) }

func (h house) names() []string { return slices.Sorted(maps.Keys(h)) }

func (h house) total() (sum figures) {
	for _, p := range h {
		for k, n := range p.has {
			sum[k] += n
		}
	}
	return sum
}

// measure counts the Go files under root, but for what begins with a dot and test data.
func measure(root string) (house, error) {
	h := house{}
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		hidden := strings.HasPrefix(d.Name(), ".") && rel != "."
		if d.IsDir() && (hidden || d.Name() == "testdata") {
			return fs.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(name, ".go") {
			return nil
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		at := filepath.ToSlash(filepath.Dir(rel))
		if h[at] == nil {
			h[at] = &pack{}
		}
		return h[at].add(rel, text)
	})
	for _, name := range free {
		if p := h[name]; p != nil {
			p.has[0], p.has[1], p.has[2] = 0, 0, 0
		}
	}
	return h, err
}

// add counts a file.
func (p *pack) add(name string, text []byte) error {
	files := token.NewFileSet()
	file, err := parser.ParseFile(files, name, text, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		return err
	}
	for i, line := range strings.Split(string(text), "\n") {
		if n := utf8.RuneCountInString(line); n > mostColumns {
			p.offend(offender{3, name, i + 1, fmt.Sprintf("%d columns", n)})
		}
	}
	if strings.HasSuffix(name, "_test.go") {
		return nil
	}
	p.has[0] += goLines(text)
	p.has[2]++
	for _, d := range file.Decls {
		p.has[1] += exported(d)
		if f, ok := d.(*ast.FuncDecl); ok {
			p.function(files, f)
		}
	}
	return nil
}

func (p *pack) offend(o offender) {
	p.has[o.column]++
	p.offenders = append(p.offenders, o)
}

// goLines counts the lines that hold any Go.
func goLines(text []byte) int {
	files := token.NewFileSet()
	file := files.AddFile("", files.Base(), len(text))
	var s scanner.Scanner
	s.Init(file, text, nil, 0) // without comments
	lines, last := 0, 0
	for {
		pos, tok, lit := s.Scan()
		if tok == token.EOF {
			return lines
		}
		if tok == token.SEMICOLON && lit == "\n" {
			continue // it is not written
		}
		first := file.Line(pos)
		for i, part := range strings.Split(cmp.Or(lit, tok.String()), "\n") {
			if strings.TrimSpace(part) != "" && first+i > last {
				last = first + i
				lines++
			}
		}
	}
}

// exported counts the exported names that a declaration brings.
func exported(d ast.Decl) int {
	n := 0
	count := func(names ...*ast.Ident) {
		for _, name := range names {
			if name.IsExported() {
				n++
			}
		}
	}
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv == nil || ast.IsExported(receiver(d)) {
			count(d.Name)
		}
	case *ast.GenDecl:
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				count(s.Name)
			case *ast.ValueSpec:
				count(s.Names...)
			}
		}
	}
	return n
}

// receiver is the name of a method's type.
func receiver(f *ast.FuncDecl) string {
	name := ""
	ast.Inspect(f.Recv.List[0].Type, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && name == "" {
			name = id.Name
		}
		return true
	})
	return name
}

// function holds a function to the limits of length and complexity.
func (p *pack) function(files *token.FileSet, f *ast.FuncDecl) {
	from, to := files.Position(f.Pos()), files.Position(f.End())
	lines, ways := to.Line-from.Line+1, complexity(f)
	if lines <= mostLines && ways <= mostComplexity || kept(f.Doc) {
		return
	}
	name := f.Name.Name
	if f.Recv != nil {
		name = receiver(f) + "." + name
	}
	p.offend(offender{4, from.Filename, from.Line, fmt.Sprintf("%s: %d lines, complexity %d", name, lines, ways)})
}

// kept says whether a comment gives the reason for a long function.
func kept(doc *ast.CommentGroup) bool {
	if doc == nil {
		return false
	}
	for _, line := range strings.Split(doc.Text(), "\n") {
		if why, ok := strings.CutPrefix(line, wholeBecause); ok && strings.TrimSpace(why) != "" {
			return true
		}
	}
	return false
}

// complexity is McCabe's: one more than there are branches.
func complexity(f *ast.FuncDecl) int {
	ways := 1
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.IfStmt, *ast.ForStmt, *ast.RangeStmt:
			ways++
		case *ast.CaseClause:
			if n.List != nil {
				ways++
			}
		case *ast.CommClause:
			if n.Comm != nil {
				ways++
			}
		case *ast.BinaryExpr:
			if n.Op == token.LAND || n.Op == token.LOR {
				ways++
			}
		}
		return true
	})
	return ways
}
