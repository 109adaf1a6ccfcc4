package trace

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
)

// level is how far a step's heat brings its food.
type level int

const (
	cold      level = iota
	warmed          // cooks nothing raw
	half            // colours meat, cooks what is no meat
	cooks           // somebody says that it cooks; how far, no word tells
	throughly       // cooks to the middle, by verb or sign
)

// heatOf is how far a step's heat goes by what is said of it.
func heatOf(s *planner.Step, parts []Part) level {
	do, sign := read(toldBy(s.Do)), read(s.Until)
	hot := s.Cooks || s.Where == planner.Heat || slices.ContainsFunc(s.Uses, func(u planner.Use) bool {
		return u.What == planner.AnOven && u.C > 0 || u.What == planner.ABurner || u.What == planner.AGrill
	})
	words := do.do
	if hot {
		words = do.any
	}
	if !hot && !words[through] && !words[inPart] && !words[water] {
		return cold
	}
	switch c, ok := degreesIn(s.Do + " " + s.Until); {
	case !ok && (short(do, parts) || short(sign, parts)):
		return half
	case ok && !slices.ContainsFunc(parts, func(p Part) bool { return above(safety.CookTo(p.Kind), c, p) }):
		if words[through] || s.Cooks {
			return throughly
		}
	case ok && do.any[through]:
		return half
	}
	switch {
	case words[through], sign.any[done]:
		return throughly
	case words[inPart]:
		return half
	case words[water] && hot && s.Time.Likely >= boilsThrough:
		return throughly
	case words[water]:
		return half
	case words[warms]:
		return warmed
	case s.Cooks:
		return cooks
	}
	return warmed
}

// short says whether words tell that food is not cooked through. Prawns and crabs are pink when they are.
func short(x said, parts []Part) bool {
	return !x.any[done] && (x.any[rare] || x.any[pink] && !slices.ContainsFunc(parts, func(p Part) bool {
		return p.Kind == safety.Shellfish || p.Kind == safety.LiveShellfish
	}))
}

// endsShort says whether the steps after one go on with a part and end before it is cooked through: "cook for three
// minutes more, until pink". Where raw animal food joins on the way, the word may be of that.
func (t *Trace) endsShort(d *planner.Dish, s *planner.Step, p *Part) bool {
	seen := map[planner.StepKey]bool{}
	var after func(planner.StepKey) bool
	after = func(k planner.StepKey) bool {
		if seen[k] {
			return false
		}
		seen[k] = true
		return slices.ContainsFunc(d.Steps, func(o planner.Step) bool {
			if !slices.ContainsFunc(o.After, func(a planner.After) bool {
				return a.Step == k && a.Dish == "" && !a.FromStart && !a.Aside && a.Wait.State != planner.Freezer
			}) || t.rawJoins(d, &o, p) {
				return false
			}
			if heatOf(&o, []Part{*p}) != half {
				return after(o.Key)
			}
			c, told := degreesIn(o.Do + " " + o.Until)
			return told && above(safety.CookTo(p.Kind), c, *p) ||
				!told && (short(read(toldBy(o.Do)), []Part{*p}) || short(read(o.Until), []Part{*p}))
		})
	}
	return p.Kind.Raw() && after(s.Key)
}

// rawJoins says whether raw animal food of another name goes into a step.
func (t *Trace) rawJoins(d *planner.Dish, s *planner.Step, p *Part) bool {
	return slices.ContainsFunc(t.list(d), func(in listed) bool {
		return in.at == s.Key && slices.ContainsFunc(in.parts, func(o Part) bool {
			return o.Kind.Raw() && o.Name != p.Name
		})
	})
}

// toldBy is what a step's words tell of its heat: of getting things ready what stands behind their names, since
// stewing beef is not stewed.
func toldBy(do string) string {
	list, ready := strings.CutPrefix(do, "Get ready: ")
	if !ready {
		return do
	}
	var out []string
	for list != "" {
		_, after, open := strings.Cut(list, "(")
		said, rest, _ := strings.Cut(after, ")")
		if !open {
			break
		}
		out, list = append(out, said), rest
	}
	return strings.Join(out, "; ")
}

// Steams says whether a step makes what goes into it steaming hot, as far as its words, sign and equipment tell: not
// where it is only warmed, melted or coloured, or taken off below the UK's 70 °C.
func Steams(s *planner.Step) bool {
	if c, ok := degreesIn(s.Do + " " + s.Until); ok && c < safety.Row("cook-uk-core").TempC {
		return false
	}
	switch heatOf(s, nil) {
	case cooks, throughly:
		return true
	case warmed:
		do := read(s.Do).any
		return !do[warms] && !do[rare] && !do[pink] && (s.Cooks || s.Where == planner.Heat)
	}
	return false
}

// above says whether a chart asks for more than c degrees for a part that is raw, by more than the rounding of degrees.
func above(l safety.Limit, c float64, p Part) bool {
	raw := p.Kind.Raw() || p.Kind == safety.RawEgg && !p.Cooked
	return raw && l.Applies() && l.Heated && l.TempC >= c+1
}

// levelOf is how far a step's heat brings one part among others: a temperature that is enough for some is not for
// others, egg that is not cooked by it stays raw, and "until pink" is said of the prawns in it.
func levelOf(s *planner.Step, p *Part, all []Part) level {
	heat := heatOf(s, []Part{*p})
	if p.Kind == safety.Fish {
		heat = heatOf(s, slices.DeleteFunc(slices.Clone(all), func(o Part) bool {
			return o.Kind != safety.Fish && o.Kind != safety.Shellfish && o.Kind != safety.LiveShellfish
		}))
	}
	if _, told := degreesIn(s.Do + " " + s.Until); told && heat == half && p.Kind == safety.RawEgg {
		return warmed
	}
	return heat
}

// degreesIn is the temperature in °C in the middle of food that a text names: one that an oven could have is none.
func degreesIn(text string) (float64, bool) {
	for _, c := range Degrees(text) {
		if c >= 30 && c <= 100 {
			return c, true
		}
	}
	return 0, false
}

// Degrees are the temperatures in °C that a text names. A bath of meat in a bag is set to degrees Celsius that nobody
// spells out: "sous vide at 58".
func Degrees(text string) []float64 { return degrees.Of(text, readDegrees) }

func readDegrees(text string) []float64 {
	var out []float64
	tokens := strings.FieldsFunc(strings.ReplaceAll(text, "°", " "), func(r rune) bool {
		return strings.ContainsRune(" ,;()-–/", r)
	})
	bath := slices.Contains(tokens, "vide")
	for i, w := range tokens {
		w = strings.TrimRight(w, ".")
		digits := strings.TrimRight(w, "CFcf")
		unit := w[len(digits):]
		if unit == "" && i+1 < len(tokens) {
			unit = strings.TrimRight(tokens[i+1], ".")
		}
		n, err := strconv.ParseFloat(digits, 64)
		switch strings.ToUpper(unit) {
		case "F", "FAHRENHEIT":
			n = (n - 32) / 1.8
		case "C", "CELSIUS", "DEGREES":
		default:
			if !bath || i == 0 || tokens[i-1] != "at" || n < 40 || n > 100 {
				continue
			}
		}
		if err == nil {
			out = append(out, n)
		}
	}
	return out
}

// boilsThrough is how many minutes in boiling water cook a piece of meat, fish or an egg to the middle where no word or
// sign tells. Common practice, no source.
const boilsThrough = 10

// cook changes a part by heat.
func (p *Part) cook(l level) {
	animal := p.Kind.Raw()
	switch {
	case l <= warmed, p.kept && p.Kind == safety.None:
	case animal && l == half:
		p.Half = true
	case l == half && (p.Kind == safety.RawEgg || p.Kind == safety.Eggs):
		p.Kind = safety.RawEgg // the yolk is soft
	case p.Class == nil:
		p.Kind, p.Half, p.Cooked = cookedKind(p.Kind), false, p.Kind != safety.None
	default:
		if p.Kind == safety.GarlicOil {
			p.Kind = p.Class.Kind // among other food now
		}
		if p.Kind == p.Class.Kind || p.Class.Cooked != p.Class {
			p.Class = p.Class.Cooked
			p.Kind = p.Class.Kind
		}
		p.Half, p.Cooked = false, p.Kind != safety.None
	}
}

// cookedKind is what a kind of food is once it is cooked, where its class is not known.
func cookedKind(k safety.Kind) safety.Kind {
	switch {
	case k.Raw(), k == safety.CutProduce, k == safety.Sprouts, k == safety.CuredMeat, k == food.Unknown:
		return safety.Cooked
	case k == safety.Eggs, k == safety.RawEgg:
		return safety.EggDish
	}
	return k
}
