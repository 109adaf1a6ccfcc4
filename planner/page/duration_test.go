package page

import (
	"testing"

	"tureen/planner/measure"
)

// The examples of ISO 8601-1:2019, 5.5.2, from memory; those with years and months have no fixed length.
func TestISODurations(t *testing.T) {
	for text, want := range map[string]int{"PT1H": 60, "PT1H30M": 90, "P1DT12H": 36 * 60, "P2W": 14 * 24 * 60,
		"PT36H": 36 * 60, "PT0.5H": 30, "PT0,5H": 30, "PT90S": 2, "P1D": 1440, "PT15M": 15} {
		d, err := ParseISODuration(text)
		if err != nil || d.Low != want || d.High != want {
			t.Errorf("%s: got %v, %v, want %d min", text, d, err, want)
		}
		if again, err := ParseISODuration(ISODuration(want)); err != nil || again.Low != want {
			t.Errorf("%d min as %q is read as %v, %v", want, ISODuration(want), again, err)
		}
	}
	for _, text := range []string{"", "P", "PT", "P1Y", "P1M", "P3Y6M4DT12H30M5S", "wwwwwwPT1H", "1H", "PT1H30", "-PT1H",
		"PT99999999999999H", "P1000000W", "PT1HT2M"} {
		if d, err := ParseISODuration(text); err == nil {
			t.Errorf("%q: read as %v", text, d)
		}
	}
}

func FuzzISODuration(f *testing.F) {
	for _, s := range []string{"PT1H30M", "P1W2DT3H4M5S", "P", "PT0.5H", "PT1,5M"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ParseISODuration(text)
		if err == nil && (d.Low < 0 || d.High > measure.MaxMinutes) {
			t.Errorf("%q: %v", text, d)
		}
	})
}
