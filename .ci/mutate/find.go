package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// mutant is one change to one file.
type mutant struct {
	room     *room
	file     string // from the root
	line     int
	col      int
	in       string // the function, or the declaration's first word
	from, to int    // bytes of the file
	put      string
	was, is  string        // what is changed, as it is shown
	decl     *ast.FuncDecl // the function that it is in; nil: none
	begin    int           // of the function's text
	named    int           // where its name ends
	end      int
	number   int // among those that are built together, from 1
	fate     fate
	told     string // by which test it was killed, or why it lives or is none
}

type fate int

const (
	untold    fate = iota
	stillborn      // it does not compile
	dead           // a test noticed
	alive          // none did
)

// name tells a mutant from others, without its line, so that a list of names outlives changes elsewhere in the file.
func (m *mutant) name() string { return fmt.Sprintf("%s %s: %s => %s", m.file, m.in, m.was, m.is) }

func (m *mutant) String() string {
	switch m.fate {
	case dead:
		return fmt.Sprintf("killed    %s:%d %s: %s => %s (%s)", m.file, m.line, m.in, m.was, m.is, m.told)
	case alive:
		return fmt.Sprintf("SURVIVED  %s:%d %s %s\n\t- %s\n\t+ %s\n\t%s", m.file, m.line, m.in, m.told, m.was, m.is, m.name())
	}
	return fmt.Sprintf("no mutant %s:%d %s => %s", m.file, m.line, m.was, m.is)
}

// finder walks one file.
type finder struct {
	room *room
	file string
	src  string
	set  *token.FileSet
	in   string
	decl *ast.FuncDecl
	list []mutant
	up   []ast.Node // what the node is in, the outermost first
}

// mutants lists all that can be done to a package's files, in the order of the text.
func (r *room) mutants() ([]mutant, error) {
	names, err := filepath.Glob(filepath.Join(r.dir, "*.go"))
	if err != nil {
		return nil, err
	}
	var out []mutant
	r.set = token.NewFileSet()
	for _, name := range names {
		fits := len(r.files) == 0 || slices.ContainsFunc(r.files, func(p string) bool {
			ok, _ := filepath.Match(p, filepath.Base(name))
			return ok
		})
		if strings.HasSuffix(name, "_test.go") || !fits {
			continue
		}
		src, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		f := &finder{room: r, file: name, src: string(src), set: r.set}
		tree, err := parser.ParseFile(f.set, name, src, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		for _, d := range tree.Decls {
			f.in, f.decl = "top", nil
			switch d := d.(type) {
			case *ast.FuncDecl:
				f.in, f.decl = d.Name.Name, d
			case *ast.GenDecl:
				if d.Tok == token.IMPORT || d.Tok == token.TYPE {
					continue
				}
			}
			ast.Inspect(d, f.node)
		}
		for i := range f.list {
			if m := &f.list[i]; m.decl != nil {
				m.begin, m.named, m.end = f.at(m.decl.Pos()), f.at(m.decl.Name.End()), f.at(m.decl.End())
			}
		}
		out = append(out, f.list...)
	}
	return out, nil
}

func (f *finder) at(p token.Pos) int { return f.set.Position(p).Offset }

// add notes that the text from one place to another may become something else. around is what is shown of it.
func (f *finder) add(from, to token.Pos, put string, around ast.Node) {
	a, b := f.at(from), f.at(to)
	x, y := f.at(around.Pos()), f.at(around.End())
	f.list = append(f.list, mutant{room: f.room, file: f.file, decl: f.decl, line: f.set.Position(from).Line,
		col: f.set.Position(from).Column, in: f.in, from: a, to: b,
		put: put, was: brief(f.src[x:y]), is: brief(f.src[x:a] + put + f.src[b:y])})
}

var spaces = regexp.MustCompile(`\s+`)

// brief is a text on one line, its middle left out where it is long.
func brief(text string) string {
	r := []rune(strings.TrimSpace(spaces.ReplaceAllString(text, " ")))
	if len(r) == 0 {
		return "nothing"
	}
	if len(r) > 150 {
		return string(r[:100]) + " … " + string(r[len(r)-45:])
	}
	return string(r)
}

// others are what an operator is mistaken for.
var others = map[token.Token][]string{
	token.EQL: {"!="}, token.NEQ: {"=="}, token.LSS: {"<=", ">="}, token.LEQ: {"<", ">"}, token.GTR: {">=", "<="},
	token.GEQ:  {">", "<"},
	token.LAND: {"||"}, token.LOR: {"&&"}, token.ADD: {"-"}, token.SUB: {"+"}, token.MUL: {"/"}, token.QUO: {"*"},
	token.REM:        {"*"},
	token.ADD_ASSIGN: {"-="}, token.SUB_ASSIGN: {"+="}, token.MUL_ASSIGN: {"/="}, token.INC: {"--"}, token.DEC: {"++"},
	token.BREAK: {"continue"}, token.CONTINUE: {"break"},
}

// node finds what can be done at a node.
func (f *finder) node(n ast.Node) bool {
	if n == nil {
		f.up = f.up[:len(f.up)-1]
		return true
	}
	f.up = append(f.up, n)
	if f.idle() {
		return true
	}
	switch n := n.(type) {
	case *ast.BinaryExpr:
		for _, op := range others[n.Op] {
			f.add(n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), op, n)
		}
	case *ast.AssignStmt:
		for _, op := range others[n.Tok] {
			f.add(n.TokPos, n.TokPos+token.Pos(len(n.Tok.String())), op, n)
		}
		if n.Tok != token.DEFINE {
			f.add(n.Pos(), n.End(), "", n)
		}
	case *ast.IncDecStmt:
		f.add(n.TokPos, n.TokPos+2, others[n.Tok][0], n)
	case *ast.BranchStmt:
		for _, op := range others[n.Tok] {
			if n.Label == nil {
				f.add(n.Pos(), n.End(), op, n)
			}
		}
	case *ast.ExprStmt:
		f.add(n.Pos(), n.End(), "", n)
	case *ast.IfStmt:
		if _, plain := n.Cond.(*ast.BinaryExpr); !plain { // others are turned by their operator
			f.add(n.Cond.Pos(), n.Cond.End(), "!("+f.text(n.Cond)+")", n.Cond)
		}
		f.empty(n.Body.List, n.Body.Lbrace+1, n.Body.Rbrace)
	case *ast.CaseClause:
		f.empty(n.Body, n.Colon+1, n.End())
	case *ast.BasicLit:
		f.literal(n)
	case *ast.Ident:
		switch n.Name {
		case "true":
			f.add(n.Pos(), n.End(), "false", n)
		case "false":
			f.add(n.Pos(), n.End(), "true", n)
		}
	case *ast.ReturnStmt:
		f.returned(n)
	case *ast.CallExpr:
		f.swapped(n)
	}
	return true
}

// idle says whether what is at hand is only how much make sets aside, which changes nothing.
func (f *finder) idle() bool {
	for i, n := range f.up[:len(f.up)-1] {
		if call, ok := n.(*ast.CallExpr); ok && f.text(call.Fun) == "make" && f.up[i+1] == call.Args[len(call.Args)-1] {
			if _, isMap := call.Args[0].(*ast.MapType); isMap || len(call.Args) == 3 {
				return true
			}
		}
	}
	return false
}

func (f *finder) text(n ast.Node) string { return f.src[f.at(n.Pos()):f.at(n.End())] }

// empty leaves out what a branch does.
func (f *finder) empty(list []ast.Stmt, from, to token.Pos) {
	if len(list) > 0 {
		a, b := f.at(from), f.at(to)
		f.list = append(f.list, mutant{room: f.room, file: f.file, decl: f.decl, line: f.set.Position(list[0].Pos()).Line,
			col: f.set.Position(list[0].Pos()).Column, in: f.in, from: a, to: b,
			put: " ", was: "{ " + brief(f.src[a:b]) + " }", is: "{ }"})
	}
}

// returned answers nothing in the place of the last result.
func (f *finder) returned(n *ast.ReturnStmt) {
	if len(n.Results) == 0 {
		return
	}
	last := n.Results[len(n.Results)-1]
	text := f.text(last)
	for _, nothing := range []string{"nil", "0", `""`} {
		_, lit := last.(*ast.BasicLit)
		if text != nothing && text != "true" && text != "false" && !lit {
			f.add(last.Pos(), last.End(), nothing, n)
		}
	}
}

// swapped changes two neighbouring arguments about, where both are names; the order of what max and min take is
// nothing.
func (f *finder) swapped(n *ast.CallExpr) {
	if fun := f.text(n.Fun); fun == "max" || fun == "min" {
		return
	}
	for i := 1; i < len(n.Args); i++ {
		a, b := f.text(n.Args[i-1]), f.text(n.Args[i])
		if named(n.Args[i-1]) && named(n.Args[i]) && a != b {
			f.add(n.Args[i-1].Pos(), n.Args[i].End(), b+", "+a, n)
		}
	}
}

func named(e ast.Expr) bool {
	switch e.(type) {
	case *ast.Ident, *ast.SelectorExpr:
		return true
	}
	return false
}

// inSQL are what is mistaken for each other in a statement.
var inSQL = [][2]string{{" < ?", " <= ?"}, {" <= ?", " < ?"}, {" > ", " >= "}, {" AND ", " OR "}, {" OR ",
	" AND "}, {" DESC", " ASC"},
	{"ORDER BY due", "ORDER BY id"}, {" + 1", " + 2"}, {"IS NULL", "IS NOT NULL"}, {" IN (", " NOT IN ("},
	{"'sending'", "'sent'"}, {"'waiting'", "'sent'"}}

func (f *finder) literal(n *ast.BasicLit) {
	var in ast.Node = n
	if expr, ok := f.up[len(f.up)-2].(ast.Expr); ok { // so that a figure is told from others
		in = expr
	}
	switch n.Kind {
	case token.INT:
		if v, err := strconv.ParseInt(n.Value, 0, 64); err == nil {
			f.add(n.Pos(), n.End(), strconv.FormatInt(v+1, 10), in)
			if v > 0 {
				f.add(n.Pos(), n.End(), strconv.FormatInt(v-1, 10), in)
			}
		}
	case token.FLOAT:
		f.add(n.Pos(), n.End(), "("+n.Value+" * 1.1)", in)
	case token.STRING:
		if !regexp.MustCompile(`\b(SELECT|UPDATE|DELETE|INSERT)\b`).MatchString(n.Value) {
			return
		}
		for _, pair := range inSQL {
			for at := 0; ; {
				i := strings.Index(n.Value[at:], pair[0])
				if i < 0 {
					break
				}
				at += i
				f.add(n.Pos()+token.Pos(at), n.Pos()+token.Pos(at+len(pair[0])), pair[1], n)
				f.list[len(f.list)-1].was = brief(around(n.Value, at, pair[0]))
				f.list[len(f.list)-1].is = brief(around(n.Value[:at]+pair[1]+n.Value[at+len(pair[0]):], at, pair[1]))
				at += len(pair[0])
			}
		}
	}
}

// around is a statement near a place.
func around(text string, at int, what string) string {
	return text[max(0, at-40):min(len(text), at+len(what)+30)]
}
