package measure

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestScales: C = (F - 32) × 5/9, NIST SP 811 (2008) B.8; the pairs of the
// safety charts (USDA FSIS, foodsafety.gov) as they print them.
func TestScales(t *testing.T) {
	for _, c := range []struct{ f, c float64 }{
		{32, 0}, {212, 100}, {-40, -40}, {0, -17.8}, {40, 4.4}, {41, 5}, {135, 57.2}, {140, 60},
		{145, 62.8}, {160, 71.1}, {165, 73.9}, {350, 176.7}, {400, 204.4},
	} {
		if got := Fahrenheit(c.f).C(); math.Abs(got-c.c) > 0.05 {
			t.Errorf("%v °F: got %v °C, want %v", c.f, got, c.c)
		}
		if got := Fahrenheit(c.f).F(); got != c.f {
			t.Errorf("%v °F comes back as %v", c.f, got)
		}
	}
}

// TestOvenMarks: what British books print beside Fahrenheit and gas marks: UK
// gas-mark table, common practice, from memory. Ovens marked 400 °F and 350 °F
// are used as 200 °C and 180 °C: common practice, no source.
func TestOvenMarks(t *testing.T) {
	for _, c := range []struct {
		f, c int
		gas  string
	}{
		{225, 110, "¼"}, {250, 120, "½"}, {275, 140, "1"}, {300, 150, "2"}, {325, 160, "3"}, {350, 180, "4"},
		{375, 190, "5"}, {400, 200, "6"}, {425, 220, "7"}, {450, 230, "8"}, {475, 250, "9"},
	} {
		temp := Fahrenheit(float64(c.f))
		if got := temp.OvenC(); got != c.c {
			t.Errorf("%d °F: got the %d °C mark, want %d", c.f, got, c.c)
		}
		if got := Celsius(float64(c.c)).OvenF(); got != c.f {
			t.Errorf("%d °C: got the %d °F mark, want %d", c.c, got, c.f)
		}
		if got, ok := temp.GasMark(); !ok || got != c.gas {
			t.Errorf("%d °F: got gas mark %s, %v; want %s", c.f, got, ok, c.gas)
		}
		if got, ok := Gas(c.gas); !ok || got != temp {
			t.Errorf("gas mark %s: got %v °F, want %d", c.gas, got.F(), c.f)
		}
	}
	if mark, ok := Celsius(54).GasMark(); ok {
		t.Errorf("54 °C has gas mark %s, want none", mark)
	}
}

func TestParseTemperature(t *testing.T) {
	for _, c := range []struct {
		text, want   string
		conventional int
	}{
		{"180", "180 °C", 180},
		{"180C", "180 °C", 180},
		{"180 °C", "180 °C", 180},
		{"180º", "180 °C", 180},
		{"180 degrees C", "180 °C", 180},
		{"350F", "180 °C", 180},
		{"350 °F", "180 °C", 180},
		{"400 degrees Fahrenheit", "200 °C", 200},
		{"gas mark 4", "180 °C", 180},
		{"Gas 6", "200 °C", 200},
		{"gas mark 1/2", "120 °C", 120},
		{"160 °C fan", "160 °C fan", 180},
		{"fan 160C", "160 °C fan", 180},
		{"160C fan oven", "160 °C fan", 180},
		{"180C/160C fan/gas 4", "180 °C", 180},
		{"400°F (200°C)", "200 °C", 200},
		{"moderate oven", "180 °C", 180},
		{"very hot oven", "240 °C", 240},
		{"-18 °C", "-20 °C", -20},
	} {
		got, err := ParseTemperature(c.text)
		if err != nil || got.String() != c.want || got.Conventional().OvenC() != c.conventional {
			t.Errorf("%q: got %s (conventional %d), %v; want %s (%d)", c.text, got, got.Conventional().OvenC(), err, c.want,
				c.conventional)
		}
	}
	for _, c := range []struct{ text, say string }{
		{"", "no temperature"}, {"900 °C", "hotter"}, {"400", "°C or °F"}, {"gas mark 17", "gas mark"},
		{"warmish", "no temperature"},
		{"180 potatoes", "no temperature"}, {"180C/350C", "same"}, {"-300 °C", "colder"}, {"1/0 °C", "no list"},
		{strings.Repeat("9", 500), "kitchen"}, {"🔥", "no temperature"},
	} {
		if got, err := ParseTemperature(c.text); err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%.40q: got %s, %v; want a refusal that says %q", c.text, got, err, c.say)
		}
	}
	if got := (Setting{Temperature: Celsius(180)}).WithFan(); got.String() != "160 °C fan" || got.WithFan() != got {
		t.Errorf("180 °C with a fan: got %s", got)
	}
	if got := Celsius(54).String(); got != "54 °C" {
		t.Errorf("core temperature: got %s", got)
	}
}

func TestOvenMarksAreNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		temp := Temperature(rapid.IntRange(0, 300*ninetieths).Draw(t, "t"))
		if d := math.Abs(float64(temp.OvenC()) - temp.C()); d > ovenStepC/2.0 {
			t.Fatalf("%v °C: mark %d is %v away", temp.C(), temp.OvenC(), d)
		}
		if d := math.Abs(float64(temp.OvenF()) - temp.F()); d > ovenStepF/2.0 {
			t.Fatalf("%v °F: mark %d is %v away", temp.F(), temp.OvenF(), d)
		}
	})
}

func FuzzParseTemperature(f *testing.F) {
	for _, s := range []string{"180", "350 °F", "gas mark 4", "160C fan", "180C/160C fan/gas 4", "400°F (200°C)",
		"moderate oven", "-18", "1/0"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		set, err := ParseTemperature(s)
		if err != nil {
			return
		}
		if c := set.Temperature.C(); c < minKitchenC || c > maxKitchenC {
			t.Fatalf("%q: %v °C", s, c)
		}
		if again, err := ParseTemperature(set.String()); err != nil || again.Fan != set.Fan ||
			again.Temperature.OvenC() != set.Temperature.OvenC() {
			t.Fatalf("%q is %s, reads back as %s, %v", s, set, again, err)
		}
	})
}
