package recipe

import (
	"fmt"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// Outline is the reading as a person checks it against the recipe, a thing a line.
func (r *Reading) Outline() string {
	var b strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	p("%s, %s", r.Title, r.For())
	for _, t := range []struct {
		what string
		d    measure.Duration
	}{{"prep", r.Prep}, {"cooking", r.Cook}, {"in all", r.Total}} {
		if t.d.High > 0 {
			p("%s: %s", t.what, t.d)
		}
	}
	p("Ingredients")
	for i := range r.Ingredients {
		p("  %s", r.Ingredients[i].Outline())
	}
	p("Steps")
	after := r.Order()
	for i := range r.Steps {
		p("  %d %s", r.Number(i), r.StepOutline(i, after[i]))
	}
	if len(r.Remarks) > 0 {
		p("Remarks")
		for _, m := range r.Remarks {
			text := string(m.Kind)
			if m.Time.High > 0 {
				text += " " + m.Time.String()
			}
			text += fmt.Sprintf(": %q", words.Cut(m.From.Text, 90))
			if m.From.Line > 0 {
				text += fmt.Sprintf(" (line %d)", m.From.Line)
			}
			p("  %s", text)
		}
	}
	if len(r.Questions) > 0 {
		p("Questions")
		for _, q := range r.Questions {
			p("  %s (guess: %s)", q.Ask, q.Guess)
		}
	}
	return b.String()
}

// For is for how many it is: "for 6", "1 large loaf".
func (r *Reading) For() string {
	switch {
	case r.Serves == 0 && r.Yield != "":
		return r.Yield
	case r.Serves == 0:
		return "for how many it does not say"
	}
	return fmt.Sprintf("for %d", r.Serves)
}

// Outline is the line as it was understood: amount | name | preparation | note.
func (g *Ingredient) Outline() string {
	amount := plainSpoons(g.Total()).String()
	if amount == "" && g.Unit != measure.Each {
		amount = g.Unit.Name(false)
	}
	if amount == "" {
		amount = "-"
	}
	if g.Size != "" {
		amount += ", " + g.Size
	}
	for _, x := range g.More {
		switch {
		case x.Plus:
		case x.Inches:
			amount += ", a length"
		case x.Each:
			amount += ", " + x.Amount.String() + " each"
		default:
			amount += ", = " + x.Amount.String()
		}
	}
	parts := nonEmpty(amount, g.Name, g.Preparation, g.Note)
	if g.Optional {
		parts = append(parts, "optional")
	}
	if g.Section != "" {
		parts = append(parts, "for the "+g.Section)
	}
	return strings.Join(parts, " | ")
}

// StepOutline is a step in the trade's words.
func (r *Reading) StepOutline(i int, after []int) string {
	s := &r.Steps[i]
	att := string(s.Attention)
	if s.Attention == planner.Touch {
		att = "touch every " + words.Short(s.Every)
	}
	guess := ""
	if s.Guessed {
		guess = " (my guess)"
	}
	parts := []string{fmt.Sprintf("%s, %s%s", att, s.Time, guess)}
	if s.On.Said {
		parts = append(parts, s.On.String())
	}
	switch {
	case s.Heat == planner.AnOven && s.Oven.Temperature != 0:
		oven := fmt.Sprintf("oven %d °C", s.Oven.Temperature.OvenC())
		if s.Oven.Fan {
			oven += " fan"
		}
		for _, ch := range s.Then {
			oven += fmt.Sprintf(", after %s %d °C", words.Short(ch.After), ch.Oven.Temperature.OvenC())
		}
		parts = append(parts, oven)
	case s.Heat != "":
		parts = append(parts, string(s.Heat))
	case s.Where != planner.Counter:
		parts = append(parts, string(s.Where))
	}
	for _, t := range s.Things {
		parts = append(parts, t.Name)
	}
	if s.Until != "" {
		parts = append(parts, "until "+s.Until)
	}
	if s.Longest.High > 0 {
		parts = append(parts, "at most "+words.Short(s.Longest.High))
	}
	if s.keptFor > 0 {
		kept := "then keeps " + words.Short(s.keptFor)
		if s.keptIn != "" {
			kept += " (" + string(s.keptIn) + ")"
		}
		parts = append(parts, kept)
	}
	if s.Section != "" {
		parts = append(parts, "for the "+s.Section)
	}
	var nums []string
	for _, a := range after {
		nums = append(nums, fmt.Sprint(r.Number(a)))
	}
	if len(nums) > 0 {
		parts = append(parts, "after "+strings.Join(nums, ", "))
	}
	line := fmt.Sprintf("%s [%s]", s.Do, strings.Join(parts, "; "))
	if s.From.Line > 0 {
		line += fmt.Sprintf(" (line %d)", s.From.Line)
	}
	return line
}

// StepLines are the steps, each in a line.
func (r *Reading) StepLines() []string {
	after := r.Order()
	var out []string
	for i := range r.Steps {
		out = append(out, r.StepOutline(i, after[i]))
	}
	return out
}

func nonEmpty(all ...string) (out []string) {
	for _, s := range all {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}
