package bot

import (
	"strings"
	"testing"
)

// TestKnownIsStillSaid: who says that they know a warning hears whether it is still said, as it is while somebody at
// the table falls ill more easily.
func TestKnownIsStillSaid(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Aioli course:main", "/ingredient add dish:aioli name:egg yolks amount:3",
		"/step add dish:aioli name:beat do:Beat the yolks with oil time:20 min",
		"/step serve step:aioli/beat wait:refrigerator longest:1 h")
	const quiet, still = "is not said again", "is still said"
	if got := plain(tb.must("Ana", "/dish know dish:aioli")); !strings.Contains(got, quiet) ||
		strings.Contains(got, still) {
		t.Errorf("nobody is at risk: %s", got)
	}
	tb.must("Ana", "/guest add name:Zoe diets:pregnant")
	if got := plain(tb.must("Ana", "/dish know dish:aioli")); !strings.Contains(got, still) ||
		strings.Contains(got, quiet) {
		t.Errorf("somebody is: %s", got)
	}
	if got := plain(tb.must("Ana", "/dish show dish:aioli")); !strings.Contains(got, "Raw or barely warmed egg") {
		t.Errorf("it is said no more: %s", got)
	}
}
