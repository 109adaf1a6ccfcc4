package main

import (
	"cmp"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// asked is one test of a package: how long it takes, and which lines of the room it comes to.
type asked struct {
	dir  string
	name string
	took time.Duration
	seen map[string][]span // by file
	flag []string          // what its program is told besides
}

// span is what a cover profile counts as one: from its first line and column to its last.
type span struct{ line, col, toLine, toCol int }

func (s span) has(line, col int) bool {
	return (line > s.line || line == s.line && col >= s.col) && (line < s.toLine || line == s.toLine && col < s.toCol)
}

// measure runs each test alone, as the code is, and notes where it comes to. All must pass.
func (r *room) measure(workers int, patience time.Duration) error {
	r.blocks = map[string][]span{}
	for _, dir := range append([]string{r.dir}, r.then...) {
		if err := r.measureDir(dir, workers); err != nil {
			return fmt.Errorf("%s without any change: %w", dir, err)
		}
	}
	r.tests = slices.DeleteFunc(r.tests, func(t asked) bool { return t.took > patience })
	slices.SortStableFunc(r.tests, func(a, b asked) int {
		other := func(t asked) int {
			if t.dir == r.dir {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(other(a), other(b)), cmp.Compare(a.took, b.took))
	})
	return nil
}

var listed = regexp.MustCompile(`(?m)^(Test|Fuzz|Example)\w+$`)

func (r *room) measureDir(dir string, workers int) error {
	tmp, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer os.RemoveAll(tmp)
	bin := filepath.Join(tmp, "tests")
	out, err := exec.Command("go", "test", "-c", "-vet=off", "-cover", "-coverpkg=./"+r.dir, "-o", bin, "./"+dir).
		CombinedOutput()
	if err != nil {
		return fmt.Errorf("%w\n%s", err, out)
	}
	names, err := in(dir, time.Minute, variable+"=", bin, "-test.list", ".")
	if err != nil {
		return fmt.Errorf("%w\n%s", err, names)
	}
	var flags []string
	if usage, _ := in(dir, time.Minute, variable+"=", bin, "-h"); strings.Contains(usage, "-rapid.nofailfile") {
		flags = []string{"-rapid.nofailfile"} // else what a mutant fails is kept beside the tests
	}
	var mu sync.Mutex
	var wait sync.WaitGroup
	free := make(chan struct{}, workers)
	for i, name := range listed.FindAllString(names, -1) {
		wait.Go(func() {
			free <- struct{}{}
			defer func() { <-free }()
			profile, begun := filepath.Join(tmp, strconv.Itoa(i)), time.Now()
			said, ran := in(dir, 15*time.Minute, variable+"=", bin, "-test.run", "^"+name+"$", "-test.coverprofile", profile)
			took := time.Since(begun)
			mu.Lock()
			defer mu.Unlock()
			t := asked{dir: dir, name: name, took: took, seen: map[string][]span{}, flag: flags}
			if ran == nil {
				ran = r.read(profile, t.seen)
			}
			if ran != nil {
				err = fmt.Errorf("%s: %w\n%s", name, ran, said)
			}
			if len(t.seen) > 0 {
				r.tests = append(r.tests, t)
			}
		})
	}
	wait.Wait()
	return err
}

var covered = regexp.MustCompile(`(?m)^\S+/(\S+\.go):(\d+)\.(\d+),(\d+)\.(\d+) \d+ (\d+)$`)

// read reads a cover profile: all blocks, and those that were come to.
func (r *room) read(profile string, seen map[string][]span) error {
	text, err := os.ReadFile(profile)
	if err != nil {
		return err
	}
	first := len(r.blocks) == 0
	for _, m := range covered.FindAllStringSubmatch(string(text), -1) {
		var n [4]int
		for i := range n {
			n[i], _ = strconv.Atoi(m[2+i])
		}
		s := span{n[0], n[1], n[2], n[3]}
		if first {
			r.blocks[m[1]] = append(r.blocks[m[1]], s)
		}
		if m[6] != "0" {
			seen[m[1]] = append(seen[m[1]], s)
		}
	}
	return nil
}

// comes are the tests that come to a mutant: all of them where a profile does not count its place, as with a
// declaration or the expression of a case.
func (m *mutant) comes() []asked {
	file := filepath.Base(m.file)
	here := func(list []span) bool {
		return slices.ContainsFunc(list, func(s span) bool { return s.has(m.line, m.col) })
	}
	if !here(m.room.blocks[file]) {
		return m.room.tests
	}
	var out []asked
	for _, t := range m.room.tests {
		if here(t.seen[file]) {
			out = append(out, t)
		}
	}
	return out
}
