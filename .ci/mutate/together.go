package main

import (
	"fmt"
	"go/ast"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Most of the time of a mutant goes into building it. So those that stand in functions are built together: beside each
// function stand its mutants, under names of their own, and in its place one that calls the one which the environment
// asks for. What does not compile is found by the lines that the compiler complains of.

// variable is what says which mutant is meant, from 1.
const variable = "MUTANT"

// build is a room's mutants that are built together, and its tests.
type build struct {
	room *room
	list []*mutant
	tmp  string
	bins map[string]string // the test program of each package
}

// together builds mutants, or notes that they do not compile.
func together(r *room, list []*mutant) (*build, error) {
	tmp, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return nil, err
	}
	b := &build{room: r, list: list, tmp: tmp, bins: map[string]string{}}
	for range 12 { // the compiler does not complain of everything at once
		lines, err := b.write()
		if err != nil {
			return b, err
		}
		out, err := exec.Command("go", "build", "-gcflags=-e", "-overlay", b.overlay(), "./"+r.dir).CombinedOutput()
		if err == nil {
			break
		}
		found := false
		for _, c := range complaint.FindAllStringSubmatch(string(out), -1) {
			line, _ := strconv.Atoi(c[2])
			for _, at := range lines[filepath.Base(c[1])] {
				if at.from <= line && line <= at.to && at.m.fate == untold {
					at.m.fate, found = stillborn, true
				}
			}
		}
		if !found {
			return b, fmt.Errorf("%s: the mutants cannot be built together:\n%s", r.dir, out)
		}
	}
	for _, dir := range append([]string{r.dir}, r.then...) {
		bin := filepath.Join(tmp, strings.ReplaceAll(dir, "/", "-"))
		out, err := exec.Command("go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-overlay", b.overlay(), "-o", bin,
			"./"+dir).CombinedOutput()
		if err != nil {
			return b, fmt.Errorf("%s: %w\n%s", dir, err, out)
		}
		b.bins[dir] = bin
	}
	return b, nil
}

var complaint = regexp.MustCompile(`(?m)^(\S+\.go):(\d+):\d+: `)

func (b *build) overlay() string { return filepath.Join(b.tmp, "overlay.json") }

// place is where a mutant's function stands in a file that has been written.
type place struct {
	from, to int // lines
	m        *mutant
}

// write writes the room's files with the mutants that may compile, and says where each stands.
func (b *build) write() (map[string][]place, error) {
	byFile, replace, lines := map[string][]*mutant{}, map[string]string{}, map[string][]place{}
	for _, m := range b.list {
		if m.fate == untold {
			byFile[m.file] = append(byFile[m.file], m)
		}
	}
	head := ""
	for _, file := range slices.Sorted(maps.Keys(byFile)) {
		src, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		text := string(src)
		byFunc := map[*ast.FuncDecl][]*mutant{}
		for _, m := range byFile[file] {
			byFunc[m.decl] = append(byFunc[m.decl], m)
		}
		out := text
		decls := slices.Collect(maps.Keys(byFunc))
		slices.SortFunc(decls, func(x, y *ast.FuncDecl) int { return int(y.Pos() - x.Pos()) }) // the last first
		for _, d := range decls {
			at := b.room.set.Position(d.Name.End()).Offset
			out = out[:at] + "__0" + out[at:]
		}
		line := strings.Count(out, "\n") + 1
		add := func(s string) {
			out += s
			line += strings.Count(s, "\n")
		}
		slices.Reverse(decls)
		for _, d := range decls {
			add("\n" + b.chooser(d, text, byFunc[d]) + "\n")
			for _, m := range byFunc[d] {
				from := line
				add(m.copy(text) + "\n")
				lines[filepath.Base(file)] = append(lines[filepath.Base(file)], place{from, line, m})
			}
		}
		put := filepath.Join(b.tmp, filepath.Base(file))
		if err := os.WriteFile(put, []byte(out), 0o600); err != nil {
			return nil, err
		}
		where, err := filepath.Abs(file)
		if err != nil {
			return nil, err
		}
		replace[where] = put
		head = packageLine.FindString(text)
		if head == "" {
			return nil, fmt.Errorf("%s: no package line", file)
		}
	}
	if head != "" {
		put := filepath.Join(b.tmp, "mutant__.go")
		text := head + "\n\nimport (\n\t\"os\"\n\t\"strconv\"\n)\n\nvar mutant__, _ = strconv.Atoi(os.Getenv(\"" + variable +
			"\"))\n"
		if err := os.WriteFile(put, []byte(text), 0o600); err != nil {
			return nil, err
		}
		where, err := filepath.Abs(filepath.Join(b.room.dir, "mutant__.go"))
		if err != nil {
			return nil, err
		}
		replace[where] = put
	}
	return lines, writeOverlay(b.overlay(), replace)
}

var packageLine = regexp.MustCompile(`(?m)^package \w+`)

// copy is a mutant's function under the mutant's own name.
func (m *mutant) copy(text string) string {
	at := func(n int) int { return n - m.begin }
	whole := text[m.begin:m.end]
	whole = whole[:at(m.from)] + m.put + whole[at(m.to):]
	return whole[:at(m.named)] + fmt.Sprintf("__%d", m.number) + whole[at(m.named):]
}

// chooser is the function that stands in the place of one with mutants.
func (b *build) chooser(d *ast.FuncDecl, text string, list []*mutant) string {
	part := func(n ast.Node) string {
		return text[b.room.set.Position(n.Pos()).Offset:b.room.set.Position(n.End()).Offset]
	}
	var params, args []string
	for i, p := range d.Type.Params.List {
		names := []string{fmt.Sprintf("p%d__", i)}
		if len(p.Names) > 0 {
			names = nil
			for k, n := range p.Names {
				names = append(names, n.Name)
				if n.Name == "_" {
					names[k] = fmt.Sprintf("p%d_%d__", i, k)
				}
			}
		}
		for _, n := range names {
			params = append(params, n+" "+part(p.Type))
			if _, more := p.Type.(*ast.Ellipsis); more {
				n += "..."
			}
			args = append(args, n)
		}
	}
	head, call, generic, results := "func ", d.Name.Name, "", ""
	if d.Recv != nil {
		name := "r__"
		if n := d.Recv.List[0].Names; len(n) > 0 && n[0].Name != "_" {
			name = n[0].Name
		}
		head += "(" + name + " " + part(d.Recv.List[0].Type) + ") "
		call = name + "." + call
	}
	if d.Type.TypeParams != nil {
		generic = part(d.Type.TypeParams)
	}
	give := func(number int) string {
		return fmt.Sprintf("%s__%d(%s)", call, number, strings.Join(args, ", "))
	}
	if d.Type.Results != nil {
		results = " " + part(d.Type.Results)
		plain := give
		give = func(number int) string { return "return " + plain(number) }
	}
	var out strings.Builder
	fmt.Fprintf(&out, "%s%s%s(%s)%s {\n\tswitch mutant__ {\n", head, d.Name.Name, generic, strings.Join(params, ", "),
		results)
	for _, m := range list {
		fmt.Fprintf(&out, "\tcase %d:\n\t\t%s\n", m.number, give(m.number))
		if results == "" {
			out.WriteString("\t\treturn\n")
		}
	}
	fmt.Fprintf(&out, "\t}\n\t%s\n}\n", give(0))
	return out.String()
}

// run asks the tests that come to a mutant, the quick ones first.
func (b *build) run(m *mutant) {
	m.fate = alive
	tests := m.comes()
	if len(tests) == 0 {
		m.told = "no test comes here"
	}
	for len(tests) > 0 {
		now := quick(tests)
		tests = tests[len(now):]
		if m.ask(b.bins[now[0].dir], now, fmt.Sprintf("%s=%d", variable, m.number)) {
			return
		}
	}
}

// ask runs tests and says whether they notice the mutant.
func (m *mutant) ask(bin string, tests []asked, env string) bool {
	var names []string
	limit := 30 * time.Second
	for _, t := range tests {
		names = append(names, t.name)
		limit += 5 * t.took
	}
	args := append([]string{"-test.failfast", "-test.timeout", limit.String(), "-test.run",
		"^(" + strings.Join(names, "|") + ")$"}, tests[0].flag...)
	out, err := in(tests[0].dir, limit+10*time.Second, env, bin, args...)
	if err == nil {
		return false
	}
	m.fate = dead
	switch name := failed.FindStringSubmatch(out); {
	case name != nil:
		m.told = name[1]
	case strings.Contains(out, "panic: test timed out"):
		m.told = "it does not end"
	default:
		m.told = "it panics"
	}
	return true
}
