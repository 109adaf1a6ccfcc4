package recipe

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"tureen/planner/export"
	"tureen/planner/repertoire"
)

// judgeVariable names the folder in whose node_modules the judges of testdata/judge/package.json are.
const judgeVariable = "RECIPE_JUDGES"

// TestIndependentJudges: the export of every ready dish is held against schema.org's own vocabulary and expanded by a
// JSON-LD processor, both written by others.
func TestIndependentJudges(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed")
	}
	modules := os.Getenv(judgeVariable)
	if modules == "" {
		t.Skipf("%s does not name a folder with the judges", judgeVariable)
	}
	folder := t.TempDir()
	for _, c := range repertoire.List() {
		d := c.Dish()
		data, err := export.JSONLD(&d)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, string(c.Key)+".jsonld"), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	out, err := exec.CommandContext(t.Context(), node, filepath.Join("testdata", "judge", "judge.mjs"), modules,
		folder).CombinedOutput()
	if err != nil || !strings.Contains(string(out), " judged, 0 complaints") {
		t.Fatalf("%v\n%.2000s", err, out)
	}
	t.Logf("%s", strings.TrimSpace(string(out)))
}
