package console

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	_ "time/tzdata"
)

var update = flag.Bool("update", false, "write the transcripts anew")

// A transcript is a talk as the terminal prints it, from an empty database. Its first line says how it begins:
//
//	# as Ana at 2026-09-24T10:00:00Z
//
// The lines that begin with a name and > or with # are said again, and what is printed must be the file.
func TestTranscripts(t *testing.T) {
	files, err := filepath.Glob("testdata/transcripts/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no transcripts (%v)", err)
	}
	begins := regexp.MustCompile(`^# as (\S+) at (\S+)\n`)
	said := regexp.MustCompile(`^([\p{L}\p{N}]+> |#)`)
	for _, path := range files {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txt"), func(t *testing.T) {
			t.Parallel()
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			want := string(data)
			m := begins.FindStringSubmatch(want)
			if m == nil {
				t.Fatalf("it does not begin as %q says", begins)
			}
			var in strings.Builder
			for _, line := range strings.Split(want, "\n") {
				if said.MatchString(line) {
					in.WriteString(strings.TrimPrefix(line, m[1]+"> ") + "\n")
				}
			}
			var out, errs bytes.Buffer
			dir := t.TempDir()
			status := Main(context.Background(), []string{"-db", filepath.Join(dir, "tureen.db"), "-as", m[1], "-now", m[2], "-files", dir},
				strings.NewReader(in.String()), &out, &errs)
			if status != 0 || errs.Len() > 0 {
				t.Errorf("status %d\n%s", status, errs.String())
			}
			if got := out.String(); got != want {
				if *update {
					if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
						t.Fatal(err)
					}
					return
				}
				t.Errorf("the talk went otherwise; see with -update and a diff. First difference:\n%s", firstDifference(got, want))
			}
		})
	}
}

// firstDifference shows where two texts part.
func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return "got:  " + g[i] + "\nwant: " + w[i]
		}
	}
	return "one is longer than the other"
}
