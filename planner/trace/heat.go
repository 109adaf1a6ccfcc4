package trace

import (
	"regexp"
	"slices"
	"strconv"

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
	do, sign := read(s.Do), read(s.Until)
	hot := s.Cooks || s.Where == planner.Heat || slices.ContainsFunc(s.Uses, func(u planner.Use) bool {
		return u.What == planner.AnOven && u.C > 0 || u.What == planner.ABurner || u.What == planner.AGrill
	})
	words := do.do
	if hot {
		words = do.any
	}
	if !hot && !words[through] && !words[inPart] {
		return cold
	}
	switch c, ok := degreesIn(s.Do + " " + s.Until); {
	case (do.any[rare] && !do.any[done] || sign.any[rare] && !sign.any[done]) && !ok:
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
	case words[warms] && !s.Cooks:
		return warmed
	case words[warms]:
		return warmed
	case s.Cooks:
		return cooks
	}
	return warmed
}

// above says whether a chart asks for more than c degrees for a part that is raw, by more than the rounding of degrees.
func above(l safety.Limit, c float64, p Part) bool {
	raw := p.Kind.Raw() || p.Kind == safety.RawEgg && !p.Cooked
	return raw && l.Applies() && l.Heated && l.TempC >= c+1
}

// levelOf is how far a step's heat brings one part, where its words name a temperature that is enough for some: egg that
// is not cooked stays raw.
func levelOf(s *planner.Step, heat level, p *Part) level {
	c, ok := degreesIn(s.Do + " " + s.Until)
	switch {
	case !ok || heat != half:
	case !above(safety.CookTo(p.Kind), c, *p):
		return throughly
	case p.Kind == safety.RawEgg:
		return warmed
	}
	return heat
}

var degrees = regexp.MustCompile(`(\d{2,3}) ?°? ?([CF])\b`)

// degreesIn is the temperature in °C in the middle of food that a text names: one that an oven could have is none.
func degreesIn(text string) (float64, bool) {
	for _, m := range degrees.FindAllStringSubmatch(text, -1) {
		n, err := strconv.ParseFloat(m[1], 64)
		if m[2] == "F" {
			n = (n - 32) / 1.8
		}
		if err == nil && n >= 30 && n <= 100 {
			return n, true
		}
	}
	return 0, false
}

// cook changes a part by heat.
func (p *Part) cook(l level) {
	animal := p.Kind.Raw()
	switch {
	case l <= warmed:
	case animal && l == half:
		p.Half = true
	case p.Class == nil:
		p.Kind, p.Half, p.Cooked = cookedKind(p.Kind), false, p.Kind != safety.None
	default:
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
	case k.Raw(), k == safety.CutProduce, k == safety.CuredMeat, k == food.Unknown:
		return safety.Cooked
	case k == safety.Eggs, k == safety.RawEgg:
		return safety.EggDish
	}
	return k
}
