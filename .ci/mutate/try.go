package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"time"
)

// measure runs a package's tests as they are: they must pass, and a mutant may take some times as long.
func (r *room) measure() error {
	begun := time.Now()
	for _, asked := range r.asked() {
		if out, err := test("", 10*time.Minute, asked); err != nil {
			return fmt.Errorf("%s without any change: %w\n%s", strings.Join(asked, " "), err, out)
		}
	}
	r.limit = min(4*time.Since(begun)+30*time.Second, 5*time.Minute)
	return nil
}

// asked are the packages whose tests are run, those that come first alone.
func (r *room) asked() [][]string {
	out := [][]string{{"./" + r.dir}}
	if len(r.then) > 0 {
		var more []string
		for _, dir := range r.then {
			more = append(more, "./"+dir)
		}
		out = append(out, more)
	}
	return out
}

// test runs packages' tests, the code changed as an overlay says. What runs too long is ended with all its children.
func test(overlay string, limit time.Duration, packages []string) (string, error) {
	args := []string{"test", "-vet=off", "-ldflags=-s -w", "-failfast", "-count=1", "-timeout", limit.String()}
	if overlay != "" {
		args = append(args, "-overlay", overlay)
	}
	var out strings.Builder
	cmd := exec.Command("go", append(args, packages...)...)
	cmd.Stdout, cmd.Stderr = &out, &out
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	if err := cmd.Start(); err != nil {
		return "", err
	}
	late := time.AfterFunc(limit+time.Minute, func() { _ = syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) })
	defer late.Stop()
	err := cmd.Wait()
	return out.String(), err
}

var failed = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)`)

// run finds out what becomes of a mutant.
func (m *mutant) run() {
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	src, err := os.ReadFile(m.file)
	if err != nil {
		panic(err)
	}
	changed := filepath.Join(dir, filepath.Base(m.file))
	text := string(src[:m.from]) + m.put + string(src[m.to:])
	if err := os.WriteFile(changed, []byte(text), 0o600); err != nil {
		panic(err)
	}
	where, err := filepath.Abs(m.file)
	if err != nil {
		panic(err)
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": {where: changed}})
	if err != nil {
		panic(err)
	}
	overlay := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(overlay, list, 0o600); err != nil {
		panic(err)
	}
	m.fate = alive
	for _, packages := range m.room.asked() {
		out, err := test(overlay, m.room.limit, packages)
		if err == nil {
			continue
		}
		m.fate = dead
		switch name := failed.FindStringSubmatch(out); {
		case strings.Contains(out, "[build failed]"), strings.Contains(out, "[setup failed]"):
			m.fate = stillborn
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
