package picture

import (
	"bytes"
	"flag"
	"fmt"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"git.sr.ht/~sbinet/cmpimg"

	"tureen/planner"
	"tureen/planner/partygen"
	"tureen/planner/sheet"
)

var update = flag.Bool("update", false, "draw the golden pictures anew")

// drawn is the rich party as it is drawn at an instant.
func drawn(at func(*planner.Party) time.Time) sheet.Timeline {
	p, plan := partygen.Rich()
	return sheet.Draw(p, plan, at(p), sheet.Plain(p.Location()))
}

func daysBefore(p *planner.Party) time.Time { return p.Day().Add(-48 * time.Hour) }
func underWay(p *planner.Party) time.Time   { return p.Arrival.Add(-40 * time.Minute) }

// TestGolden holds pictures against those that a person has looked at, by how different the eye sees their colours
// (YIQ, as package cmpimg weighs them).
func TestGolden(t *testing.T) {
	for _, c := range []struct {
		name  string
		at    func(*planner.Party) time.Time
		shade Shade
	}{{"before-light", daysBefore, Light}, {"midway-light", underWay, Light}, {"midway-dark", underWay, Dark}} {
		got, err := PNG(drawn(c.at), c.shade)
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join("testdata", c.name+".png")
		if *update {
			if err := os.WriteFile(file, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if same, err := cmpimg.EqualApprox("png", got, want, 0.1); err != nil || !same {
			t.Errorf("%s looks different (%v): draw it anew with -update and look at it", c.name, err)
		}
	}
	light, err := os.ReadFile(filepath.Join("testdata", "before-light.png"))
	if err != nil {
		t.Fatal(err)
	}
	for _, other := range []string{"midway-light", "midway-dark"} { // the measure tells pictures apart
		data, err := os.ReadFile(filepath.Join("testdata", other+".png"))
		if err != nil {
			t.Fatal(err)
		}
		if same, _ := cmpimg.EqualApprox("png", light, data, 0.1); same {
			t.Errorf("before-light and %s count as the same", other)
		}
	}
}

// contrast is WCAG 2.2's contrast ratio of two colours (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio).
func contrast(a, b color.NRGBA) float64 {
	luminance := func(c color.NRGBA) float64 {
		part := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
	}
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// TestContrast: words stand out from the paper by 4.5 (WCAG 2.2, 1.4.3), bars and lines that tell something by 3
// (1.4.11); the formula is held against W3C's own figures: 21 for black on white, and #777777, which just fails.
func TestContrast(t *testing.T) {
	white := grey(0xff)
	if c := contrast(grey(0), white); math.Abs(c-21) > 1e-9 {
		t.Errorf("black on white: %g", c)
	}
	if c := contrast(grey(0x77), white); math.Abs(c-4.48) > 0.005 {
		t.Errorf("#777777 on white: %g, published 4.48", c)
	}
	for shade, in := range inksOf {
		for name, c := range map[string]color.NRGBA{"text": in.text, "faint": in.faint, "work": in.work, "heat": in.heat,
			"mark": in.mark} {
			if got := contrast(c, in.paper); got < 4.5 {
				t.Errorf("shade %d: %s has a contrast of %.2f", shade, name, got)
			}
		}
	}
}

// TestAnyNames: whatever people call things, the picture has its width, and all of it lies on it.
func TestAnyNames(t *testing.T) {
	for _, name := range []string{"", "é", "Soufflé à l’ail, ⅔ of it", "寿司 🍣", strings.Repeat("W", 500),
		strings.Repeat("a long name ", 60), "<script>alert(1)</script>", "\u202eright to left", "a\nb\tc"} {
		p, plan := partygen.Rich()
		p.Name = name
		p.People[0].Name, p.Dishes[0].Name, p.Courses[0].Name, p.Kitchen.Ovens[0].Name = name, name, name, "oven"
		data, err := PNG(sheet.Draw(p, plan, p.Arrival, sheet.Plain(p.Location())), Light)
		if err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		size, err := png.DecodeConfig(bytes.NewReader(data))
		if err != nil || size.Width != Width*dots || size.Height > 10_000 {
			t.Errorf("%q: %d by %d (%v)", name, size.Width, size.Height, err)
		}
	}
}

// TestNothingToDraw: a party of which nothing is planned has a picture too.
func TestNothingToDraw(t *testing.T) {
	p, _ := partygen.Rich()
	p.Dishes, p.Chores = nil, nil
	for _, plan := range []*planner.Plan{{}, {Made: p.Arrival}} {
		if data, err := PNG(sheet.Draw(p, plan, p.Arrival, sheet.Plain(p.Location())), Dark); err != nil || len(data) == 0 {
			t.Errorf("%v", err)
		}
	}
}

// BenchmarkPNG draws 60 tasks; what it prints is computing time on a core of its own.
func BenchmarkPNG(b *testing.B) {
	t := drawn(underWay)
	n := 0
	for _, band := range t.Bands {
		n += len(band.Bars)
	}
	for i := 0; n < 60; i++ {
		band := &t.Bands[i%3]
		x := band.Bars[i%len(band.Bars)]
		x.Text = fmt.Sprintf("%s, and again %d", x.Text, i)
		band.Bars = append(band.Bars, x)
		n++
	}
	for b.Loop() {
		if _, err := PNG(t, Light); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(n), "bars")
}
