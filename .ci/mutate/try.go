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
func in(dir string, limit time.Duration, env, name string, args ...string) (string, error) {
	var out strings.Builder
	cmd := exec.Command(name, args...)
	cmd.Dir, cmd.Stdout, cmd.Stderr, cmd.Env = dir, &out, &out, append(os.Environ(), env)
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

// run finds out what becomes of a mutant that is built alone: first the tests that come to it and take little are
// asked, then one after another those that take longer, and at last those of other packages.
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
		if _, err := in(".", 10*time.Minute, variable+"=", "go", "build", "-overlay", overlay, "./"+m.room.dir); err != nil {
			m.fate = stillborn
		}
		return
	}
	built, bin := "", filepath.Join(tmp, "tests")
	for len(tests) > 0 {
		now := quick(tests)
		tests = tests[len(now):]
		if dir := now[0].dir; dir != built {
			out, err := in(".", 10*time.Minute, variable+"=", "go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-overlay",
				overlay, "-o", bin, "./"+dir)
			if err != nil {
				m.fate, m.told = stillborn, out
				return
			}
			built = dir
		}
		if m.ask(bin, now, variable+"=") {
			return
		}
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
	file := filepath.Join(tmp, "overlay.json")
	return file, writeOverlay(file, map[string]string{where: changed})
}

// writeOverlay writes the list for the compiler of what stands in the place of what.
func writeOverlay(file string, replace map[string]string) error {
	list, err := json.Marshal(map[string]map[string]string{"Replace": replace})
	if err != nil {
		return err
	}
	return os.WriteFile(file, list, 0o600)
}
