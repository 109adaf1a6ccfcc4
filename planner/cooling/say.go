package cooling

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/words"
)

func plain(v float64) string { return strconv.FormatFloat(float64(int(v*100+0.5))/100, 'f', -1, 64) }

func upper(c safety.Consistency) string { return words.Upper(string(c)) }

func length(minutes int) string {
	if minutes >= safety.NeverCools {
		return "days"
	}
	return words.Short(minutes)
}

func trays(n int) string { return shallow(n, "tray") }

func shallow(n int, what string) string {
	if n == 1 {
		return "a shallow " + what
	}
	return strconv.Itoa(n) + " shallow " + words.Plural(what)
}

// Do is what is done, in the imperative and without a full stop.
func (g *Going) Do() string {
	w, cm := &g.Way, plain(g.Way.DepthCM)
	const then = "; then into the refrigerator, uncovered until it is cold"
	switch w.How {
	case planner.CoolSliced:
		do := fmt.Sprintf("Slice %s before it goes cold", g.Food.Name)
		if g.Food.body == bird {
			do = fmt.Sprintf("Take %s apart and carve it off the bone before it goes cold", g.Food.Name)
		}
		if g.Food.pulled {
			do = fmt.Sprintf("Pull %s apart before it goes cold", g.Food.Name)
		}
		return fmt.Sprintf("%s, up to %s cm thick, in one layer on %s%s", do, cm, trays(w.Vessels), then)
	case planner.CoolPieces:
		return fmt.Sprintf("Cut %s before it goes cold, into pieces of up to %s kg and %s cm, apart on %s%s", g.Food.Name,
			plain(float64(w.Grams)/1000), cm, trays(w.Vessels), then)
	case planner.CoolFlat:
		return fmt.Sprintf("Lay %s apart, in one layer, on %s%s", g.Food.Name, trays(w.Vessels), then)
	case planner.CoolPortions:
		if g.Food.body == baked {
			return fmt.Sprintf("Cut %s into pieces of %d cm, up to %s cm thick, apart on %s; let it steam off%s", g.Food.Name,
				cutCM, cm, trays(w.Vessels), then)
		}
		return fmt.Sprintf("Divide %s into small tubs, %s cm deep; let it steam off, then into the refrigerator, lids off "+
			"until it is cold", g.Food.Name, cm)
	case planner.CoolAsItIs:
		return fmt.Sprintf("Let %s steam off as it is%s", g.Food.Name, then)
	case planner.CoolBath:
		ice := ""
		if w.IceKG > 0 {
			ice = fmt.Sprintf(" with %s kg of ice", plain(w.IceKG))
		}
		return fmt.Sprintf("Set %s in a sink of cold water%s, stirring now and then, until it is at 21 °C; then in %s, "+
			"%s cm deep, into the refrigerator", g.Food.Name, ice, trays(w.Vessels), cm)
	}
	if g.Food.layered {
		return fmt.Sprintf("Let %s steam off in %s, no deeper than %s cm%s", g.Food.Name,
			shallow(w.Vessels, "dish"), cm, then)
	}
	return fmt.Sprintf("Put %s into %s, %s cm deep, and let it steam off%s", g.Food.Name, trays(w.Vessels), cm, then)
}

// Estimate is what the careful estimate says of both stages, beside the published ones.
func (g *Going) Estimate() string {
	first, whole := safety.TwoStageCooling()
	text := fmt.Sprintf("Careful estimate: 21 °C after %s, 5 °C after %s", length(g.Way.StageOne),
		length(g.Way.Whole))
	if !g.Way.Within {
		text += fmt.Sprintf("; businesses must be there in %s and %s: shallower or thinner is quicker",
			length(first.Minutes), length(whole.Minutes))
		if g.Food.in != nil && g.Food.in.litres < smallLitres {
			text = strings.Replace(text, ": shallower or thinner", "; the sides of small vessels are left out of it", 1)
			text = strings.TrimSuffix(text, " is quicker")
		}
	}
	return text + "."
}

// Say is a line for the host about one food that goes cold.
func (g *Going) Say() string {
	part := ""
	if !g.Task {
		part = ", as part of the step"
	}
	return fmt.Sprintf("%s (%s, after %q%s). %s", g.Do(), amount(&g.Food), g.Step.Do, part, g.Estimate())
}

func amount(f *Food) string {
	if f.body == bird || f.body == joint || f.body == fillets || f.body == pieces {
		if f.Millilitres == 0 {
			return "of unknown weight"
		}
		return fmt.Sprintf("about %.1f kg", float64(f.Millilitres)/1000)
	}
	return fmt.Sprintf("about %.1f l", float64(f.Millilitres)/1000)
}

// Published are the rules that some foods going cold are held to, a line each, with their sources.
func Published(p *planner.Party, all []Going) []string {
	if len(all) == 0 {
		return nil
	}
	has := func(b ...body) bool {
		return slices.ContainsFunc(all, func(g Going) bool { return slices.Contains(b, g.Food.body) })
	}
	air := float64(p.AirC())
	soon := safety.IntoTheCold(safety.Cooked, air)
	out := []string{fmt.Sprintf("Into the refrigerator within %s of leaving the heat%s (%s).", length(soon.Minutes),
		soon.Air(), soon.Source)}
	if rice := safety.IntoTheCold(safety.Rice, air); slices.ContainsFunc(all,
		func(g Going) bool { return g.Food.Kind == safety.Rice }) {
		out[0] += fmt.Sprintf(" Cooked rice within %s (%s).", length(rice.Minutes), rice.Source)
	}
	var most []string
	source := ""
	say := func(what string, l safety.Limit) {
		most, source = append(most, what+" "+strings.TrimPrefix(l.Figure(), "at most ")), l.Source
	}
	if has(thick, inDish, baked) {
		say("thick food", safety.CoolDepth(safety.Thick))
	}
	if has(thin) {
		say("thin", safety.CoolDepth(safety.Thin))
	}
	if has(joint, bird, pieces) {
		weight, thickest := safety.CoolPiece()
		say("meat in pieces of", weight)
		say("and", thickest)
	}
	if len(most) > 0 {
		out = append(out, fmt.Sprintf("At most: %s (%s).", strings.ReplaceAll(strings.Join(most, ", "), ", and", " and"),
			source))
	}
	if has(bird) {
		l := safety.CoolBird()
		out = append(out, fmt.Sprintf("%s (%s).", words.Upper(l.Note), l.Source))
	}
	first, whole := safety.TwoStageCooling()
	f2, further := safety.FurtherCooling()
	return append(out,
		fmt.Sprintf("For businesses: 57 to 21 °C in %s and to 5 °C in %s in all (%s); 60 to 21 °C in %s "+
			"and to 5 °C in %s more (%s).", length(first.Minutes), length(whole.Minutes), first.Source, length(f2.Minutes),
			length(further.Minutes), f2.Source))
}
