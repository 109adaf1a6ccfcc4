package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestUnit has systemd judge the unit that the README gives to copy, with this test in the program's place.
func TestUnit(t *testing.T) {
	judge, err := exec.LookPath("systemd-analyze")
	if err != nil {
		t.Skip("systemd-analyze is not installed")
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(readme), "```ini\n")
	unit, _, closed := strings.Cut(rest, "```")
	if !ok || !closed || strings.Count(unit, "/usr/local/bin/tureen") != 1 {
		t.Fatal("the README gives no unit")
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "tureen.service")
	if err := os.WriteFile(path, []byte(strings.Replace(unit, "/usr/local/bin/tureen", self, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(judge, "verify", "--man=no", "--recursive-errors=no", path).CombinedOutput()
	if err != nil || strings.Contains(string(out), "tureen.service") {
		t.Errorf("%v: %s", err, out)
	}
}
