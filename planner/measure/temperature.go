package measure

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Temperature is exact to a tenth of a degree on both scales: it counts
// ninetieths of a degree Celsius, of which a tenth °C has nine and a tenth °F
// five. The zero value is 0 °C.
type Temperature int

const (
	ninetieths   = 90
	perTenthC    = 9
	perTenthF    = 5
	freezeTenthF = 320
)

// Celsius is the temperature to the nearest tenth of a degree.
func Celsius(c float64) Temperature { return Temperature(math.Round(c*10)) * perTenthC }

// Fahrenheit is the temperature to the nearest tenth of a degree:
// C = (F - 32) × 5/9 (NIST SP 811, 2008, B.8).
func Fahrenheit(f float64) Temperature {
	return (Temperature(math.Round(f*10)) - freezeTenthF) * perTenthF
}

// C is the temperature in degrees Celsius.
func (t Temperature) C() float64 { return float64(t) / ninetieths }

// F is the temperature in degrees Fahrenheit.
func (t Temperature) F() float64 { return float64(t)/(10*perTenthF) + 32 }

// String is the temperature to the degree on the Celsius scale, as for the
// middle of a roast: "54 °C". For ovens see [Temperature.OvenC].
func (t Temperature) String() string { return fmt.Sprintf("%.0f °C", math.Round(t.C())) }

const (
	ovenStepC = 10
	ovenStepF = 25
)

// OvenC is the mark of a Celsius oven nearest to the temperature, in tens of
// degrees, halves up: 350 °F (176.7 °C) is the 180 mark, 400 °F the 200 mark.
func (t Temperature) OvenC() int { return ovenStepC * int(math.Floor(t.C()/ovenStepC+0.5)) }

// OvenF is the mark of a Fahrenheit oven nearest to the temperature, in steps
// of 25 degrees, halves up: 180 °C (356 °F) is the 350 mark.
func (t Temperature) OvenF() int { return ovenStepF * int(math.Floor(t.F()/ovenStepF+0.5)) }

// Gas marks by custom: mark 1 is 275 °F and each further mark 25 °F more; the
// half and the quarter stand below it (UK gas-mark table, from memory).
var gasMarks = []struct {
	mark string
	f    float64
}{
	{"¼", 225}, {"½", 250}, {"1", 275}, {"2", 300}, {"3", 325}, {"4", 350},
	{"5", 375}, {"6", 400}, {"7", 425}, {"8", 450}, {"9", 475}, {"10", 500},
}

// Gas is the temperature of a gas mark ("4", "½", "1/4"); ok is false when
// there is no such mark.
func Gas(mark string) (t Temperature, ok bool) {
	mark = strings.NewReplacer("1/2", "½", "1/4", "¼").Replace(strings.TrimSpace(mark))
	for _, g := range gasMarks {
		if g.mark == mark {
			return Fahrenheit(g.f), true
		}
	}
	return 0, false
}

// GasMark is the nearest gas mark; ok is false outside the marks.
func (t Temperature) GasMark() (mark string, ok bool) {
	const halfStep = ovenStepF / 2.0
	best := math.Inf(1)
	for _, g := range gasMarks {
		if d := math.Abs(t.F() - g.f); d < best {
			best, mark = d, g.mark
		}
	}
	return mark, best <= halfStep
}

// Setting is what somebody turns an oven to.
type Setting struct {
	Temperature Temperature // as turned to
	Fan         bool        // with the fan running
}

// fanFall is how much lower a fan oven is set for the same effect: common
// practice, no source; some books say 25 °F.
const fanFall = 20 * ninetieths

// Conventional is the temperature of an oven without a fan that does the same.
func (s Setting) Conventional() Temperature {
	if s.Fan {
		return s.Temperature + fanFall
	}
	return s.Temperature
}

// WithFan is the setting of a fan oven that does the same.
func (s Setting) WithFan() Setting {
	return Setting{Temperature: s.Conventional() - fanFall, Fan: true}
}

// String is the setting as an oven is marked: "180 °C", "160 °C fan".
func (s Setting) String() string {
	text := strconv.Itoa(s.Temperature.OvenC()) + " °C"
	if s.Fan {
		text += " fan"
	}
	return text
}

// What books call an oven without a figure: common practice, no source.
var ovenWords = []struct {
	words string
	c     float64
}{
	{"very cool|very slow", 110}, {"cool|slow", 150}, {"moderately slow|warm", 160},
	{"moderate|medium", 180}, {"moderately hot|fairly hot", 190}, {"very hot", 240}, {"hot", 220},
}

// The range of temperatures that a kitchen knows, freezer to pizza oven.
const (
	minKitchenC = -40
	maxKitchenC = 500
	maxBareC    = 300 // a number without a scale is °C up to here
)

const temperatureTry = "write for example 180 °C, 350 °F, 160 °C fan or gas mark 4"

// ParseTemperature reads a temperature as recipes give it, all of the text or
// nothing: "180", "180 °C", "350F", "gas mark 4", "160 °C fan", "moderate
// oven". Of a list of equals ("180C/160C fan/gas 4", "400°F (200°C)") it takes
// the first and refuses the list when the others are more than a mark away.
func ParseTemperature(text string) (Setting, error) {
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == '(' || r == ')' || r == ',' || r == ';' })
	var all []string
	for _, p := range parts {
		// Gas mark 1/2 holds a slash of its own.
		p = strings.NewReplacer("1/2", "½", "1/4", "¼").Replace(p)
		all = append(all, strings.Split(p, "/")...)
	}
	var first Setting
	read := 0
	for _, p := range all {
		p = strings.TrimSpace(p)
		if p == "" {
			continue
		}
		s, why := readTemperature(strings.ToLower(p))
		if why != "" {
			return Setting{}, &Error{text, why, temperatureTry}
		}
		if read++; read == 1 {
			first = s
			continue
		}
		// Only ovens are given twice over; 1/0 is no list.
		if s.Temperature.C() < 30 || first.Temperature.C() < 30 {
			return Setting{}, &Error{text, "no list of oven temperatures", temperatureTry}
		}
		if apart := math.Abs(s.Conventional().C() - first.Conventional().C()); apart > 15 {
			return Setting{}, &Error{text, "these are not the same temperature", "give the one that you mean"}
		}
	}
	if read == 0 {
		return Setting{}, &Error{text, "no temperature", temperatureTry}
	}
	return first, nil
}

// readTemperature reads one temperature of lower-case text; why is what is
// wrong, "" when nothing is.
func readTemperature(s string) (set Setting, why string) {
	s = strings.Join(strings.Fields(strings.NewReplacer("º", "°", "˚", "°", "fan oven", "fan", "fan-forced", "fan",
		"fan forced", "fan",
		"convection", "fan", "preheated", "", "about", "", "at ", "").Replace(s)), " ")
	for _, fan := range []string{"fan ", " fan", "fan"} {
		if t := strings.TrimSuffix(strings.TrimPrefix(s, fan), fan); t != s {
			s, set.Fan = strings.TrimSpace(t), true
			break
		}
	}
	s = strings.TrimSuffix(s, " oven")
	for _, w := range ovenWords {
		for _, name := range strings.Split(w.words, "|") {
			if s == name {
				set.Temperature = Celsius(w.c)
				return set, ""
			}
		}
	}
	if mark, ok := cutAny(s, "gas mark", "gas", "mark"); ok {
		t, known := Gas(strings.TrimLeft(mark, " ."))
		if !known {
			return set, "no gas mark that I know"
		}
		set.Temperature = t
		return set, ""
	}
	negative := strings.HasPrefix(s, "-") || strings.HasPrefix(s, "−")
	if negative {
		s = strings.TrimLeft(s, "-−")
	}
	if s == "" || !isDigit(s[0]) {
		return set, "no temperature"
	}
	v, n, err := readNumber(s)
	if err != nil || v.Cmp(new(big.Rat).SetInt64(10_000)) > 0 {
		return set, "no temperature of a kitchen"
	}
	degrees := floatOf(v)
	if negative {
		degrees = -degrees
	}
	switch unit := strings.Trim(s[n:], " .°"); unit {
	case "c", "celsius", "degrees c", "degrees celsius", "deg c", "centigrade", "degrees centigrade", "":
		if unit == "" && degrees > maxBareC {
			return set, "°C or °F?"
		}
		set.Temperature = Celsius(degrees)
	case "degrees", "deg":
		if degrees > maxBareC {
			return set, "°C or °F?"
		}
		set.Temperature = Celsius(degrees)
	case "f", "fahrenheit", "degrees f", "degrees fahrenheit", "deg f":
		set.Temperature = Fahrenheit(degrees)
	default:
		return set, "no temperature"
	}
	switch {
	case set.Temperature.C() > maxKitchenC:
		return set, "hotter than any kitchen's oven"
	case set.Temperature.C() < minKitchenC:
		return set, "colder than any kitchen's freezer"
	}
	return set, ""
}

func cutAny(s string, prefixes ...string) (rest string, ok bool) {
	for _, p := range prefixes {
		if after, ok := strings.CutPrefix(s, p); ok {
			return after, true
		}
	}
	return s, false
}
