package scale

import (
	"fmt"
	"strings"

	"tureen/planner"
	"tureen/planner/words"
)

// Work says how a dish's steps are done for the covers that it is made for, where that is not just as the dish has
// them: rounds, batches, more vessels or shelves at once, vessels to borrow. A sentence a matter, in the steps' order.
func Work(p *planner.Party, d *planner.Dish) []string {
	var out []string
	for i := range d.Steps {
		s := &d.Steps[i]
		fit := p.Fit(d, s)
		out = append(out, Step(p, d, s, &fit)...)
	}
	return out
}

// Step is what Work says of one step.
func Step(p *planner.Party, d *planner.Dish, s *planner.Step, fit *planner.Fit) []string {
	var out []string
	if fit.Rounds > 1 {
		out = append(out, fmt.Sprintf("%s: %s%s", s.Do, inRounds(p, d, s, fit), because(p, d, s)))
	}
	if fit.Batches > 1 {
		out = append(out, fmt.Sprintf("%s: in %d batches%s%s", s.Do, fit.Batches, ofAbout(fit.Millilitres/fit.Batches),
			because(p, d, s)))
	}
	if more := atOnce(s, fit); more != "" {
		out = append(out, fmt.Sprintf("%s: %s", s.Do, more))
	}
	for _, l := range fit.Lacks {
		out = append(out, Borrow(s, l))
	}
	return out
}

func ofAbout(ml int) string {
	if ml == 0 {
		return ""
	}
	return " of about " + litres(ml)
}

// Borrow is the sentence about a vessel of which there are too few.
func Borrow(s *planner.Step, l planner.Lack) string {
	if l.Space > 0 {
		place := "oven"
		switch l.On {
		case planner.ABurner:
			place = "stove"
		case planner.AGrill:
			place = "grill"
		}
		text := fmt.Sprintf("%s: it wants %s and the %s takes %d at once: ", s.Do, words.Count(l.Wanted, l.Name), place,
			l.Space)
		if l.Have < l.Space && !l.Guess {
			text += fmt.Sprintf("borrow %d (/kitchen ware name:%s count:%d), and ", l.Space-l.Have, l.Name, l.Space)
		}
		return text + "cook the rest in another place, or share it out over others"
	}
	if l.Guess {
		return fmt.Sprintf("%s: it wants %s: borrow, use others, or tell me that you have them "+
			"(/kitchen ware name:%s count:%d)", s.Do, words.Count(l.Wanted, l.Name), l.Name, l.Wanted)
	}
	return fmt.Sprintf("%s: it wants %s and there %s: borrow %d (/kitchen ware name:%s count:%d), or share it out over "+
		"others", s.Do,
		words.Count(l.Wanted, l.Name), isAre(l.Have), l.Wanted-l.Have, l.Name, l.Wanted)
}

func isAre(n int) string {
	if n == 1 {
		return "is 1"
	}
	return fmt.Sprintf("are %d", n)
}

// inRounds is "in 3 rounds of 8, 8 and 7 covers, about 1.3 l each".
func inRounds(p *planner.Party, d *planner.Dish, s *planner.Step, fit *planner.Fit) string {
	covers := max(d.Makes(p), 1)
	last := covers - (fit.Rounds-1)*fit.Covers
	text := fmt.Sprintf("%d rounds of %d covers", fit.Rounds, fit.Covers)
	if last != fit.Covers && last > 0 {
		text = fmt.Sprintf("%d rounds of %d covers, the last of %d", fit.Rounds, fit.Covers, last)
	}
	if ml := fit.Millilitres; ml > 0 && fit.Vessels == 1 {
		text += ", about " + litres(ml) + " each"
	}
	return text
}

// because says what makes the rounds.
func because(p *planner.Party, d *planner.Dish, s *planner.Step) string {
	for i := range s.Uses {
		u := &s.Uses[i]
		switch u.What {
		case planner.AnAppliance, planner.AVessel:
			for _, w := range append(append([]planner.Ware(nil), p.Kitchen.Appliances...), p.Kitchen.Vessels...) {
				part := planner.HotPart(d, s, u)
				if w.Name != u.Name || w.Millilitres == 0 ||
					s.Leaves.Millilitres*d.Makes(p) <= w.Millilitres*u.Units()/part*max(d.Serves, 1) {
					continue
				}
				if part > 1 {
					return fmt.Sprintf(" (the %s holds %s, of what is hot %s)", u.Name, litres(w.Millilitres),
						litres(w.Millilitres/part))
				}
				return fmt.Sprintf(" (the %s holds %s)", u.Name, litres(w.Millilitres))
			}
		case planner.AnOven:
			if u.For > 0 {
				return fmt.Sprintf(" (%s of the oven for %d)", words.Count(u.Units(), "shelf"), u.For)
			}
		}
	}
	return ""
}

// atOnce says which things a round takes more of than the step has.
func atOnce(s *planner.Step, fit *planner.Fit) string {
	var parts []string
	for i := range fit.Uses {
		u := &fit.Uses[i]
		if u.Units() == s.Uses[i].Units() {
			continue
		}
		name := u.Name
		switch u.What {
		case planner.AnOven:
			name = "shelf"
		case planner.ABurner, planner.AGrill:
			name = string(u.What)
		}
		parts = append(parts, words.Count(u.Units(), name))
	}
	if len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, ", ") + " at once"
}

func litres(ml int) string {
	if ml < 1000 {
		return fmt.Sprintf("%d ml", (ml+25)/50*50)
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", float64(ml)/1000), ".0") + " l"
}
