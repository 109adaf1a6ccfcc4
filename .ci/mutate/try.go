package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"time"
)

// in runs a program in a directory. What runs too long is ended with all its children.
func in(dir string, limit time.Duration, name string, args ...string) (string, error) {
	var out strings.Builder
	cmd := exec.Command(name, args...)
	cmd.Dir, cmd.Stdout, cmd.Stderr = dir, &out, &out
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	if err := cmd.Start(); err != nil {
		return "", err
	}
	late := time.AfterFunc(limit, func() { _ = syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) })
	defer late.Stop()
	err := cmd.Wait()
	return out.String(), err
}

var failed = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)`)

// run finds out what becomes of a mutant: first the tests that come to it and take little are asked, then one after
// another those that take longer, and at last those of other packages.
func (m *mutant) run() {
	m.fate = alive
	tmp, err := os.MkdirTemp("", "mutate")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(tmp)
	overlay, err := m.overlay(tmp)
	if err != nil {
		panic(err)
	}
	tests := m.comes()
	if len(tests) == 0 {
		m.told = "no test comes here"
		if _, err := in(".", 10*time.Minute, "go", "build", "-overlay", overlay, "./"+m.room.dir); err != nil {
			m.fate = stillborn
		}
		return
	}
	built, bin := "", filepath.Join(tmp, "tests")
	for len(tests) > 0 {
		now := quick(tests)
		tests = tests[len(now):]
		if dir := now[0].dir; dir != built {
			out, err := in(".", 10*time.Minute, "go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-overlay", overlay,
				"-o", bin, "./"+dir)
			if err != nil {
				m.fate, m.told = stillborn, out
				return
			}
			built = dir
		}
		var names []string
		limit := 30 * time.Second
		for _, t := range now {
			names = append(names, t.name)
			limit += 5 * t.took
		}
		out, err := in(built, limit+10*time.Second, bin, "-test.failfast", "-test.timeout", limit.String(),
			"-test.run", "^("+strings.Join(names, "|")+")$")
		if err == nil {
			continue
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
		return
	}
}

// quick are the first tests of a list that are of one package and take some seconds together, the first one anyway.
func quick(tests []asked) []asked {
	var sum time.Duration
	for i, t := range tests {
		if sum += t.took; i > 0 && (sum > 3*time.Second || t.dir != tests[0].dir) {
			return tests[:i]
		}
	}
	return tests
}

// overlay writes the changed file, and the list for the compiler that puts it into its place.
func (m *mutant) overlay(tmp string) (string, error) {
	src, err := os.ReadFile(m.file)
	if err != nil {
		return "", err
	}
	changed := filepath.Join(tmp, filepath.Base(m.file))
	text := string(src[:m.from]) + m.put + string(src[m.to:])
	if err := os.WriteFile(changed, []byte(text), 0o600); err != nil {
		return "", err
	}
	where, err := filepath.Abs(m.file)
	if err != nil {
		return "", err
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": {where: changed}})
	if err != nil {
		return "", err
	}
	file := filepath.Join(tmp, "overlay.json")
	return file, os.WriteFile(file, list, 0o600)
}
