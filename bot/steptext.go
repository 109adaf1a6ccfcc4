package bot

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// stepText says back all of a step, as it was understood.
func stepText(t *Turn, d *planner.Dish, s *planner.Step) string {
	fit := t.Party.Fit(d, s)
	parts := []string{string(s.Key) + ": " + s.Do, attentionText(s.Attention, s.Hands, s.MaxHands, s.Every) + ", " +
		timeText(d, s, &fit)}
	return strings.Join(append(parts, stepParts(t, d, s)...), "; ")
}

// timeText is how long a step takes at the party, with what the dish says where that differs.
func timeText(d *planner.Dish, s *planner.Step, fit *planner.Fit) string {
	if fit.Time == s.Time {
		return spanText(s.Time)
	}
	return spanText(fit.Time) + " " + asWritten(d, s, fit)
}

// stepParts says how a step is done, a thing each.
func stepParts(t *Turn, d *planner.Dish, s *planner.Step) []string {
	var parts []string
	fit := t.Party.Fit(d, s)
	switch s.Grows {
	case planner.InProportionToCovers:
		if fit.Time == s.Time {
			parts = append(parts, "more covers take longer")
		}
	case planner.InRounds:
		parts = append(parts, "a round for every "+words.Count(s.PerRound, "cover"))
	}
	if s.Component != "" {
		parts = append(parts, "makes the "+s.Component)
	}
	for _, u := range s.Uses {
		parts = append(parts, useText(&u))
	}
	if s.Cool != nil {
		parts = append(parts, coolText(s, &fit))
	}
	if s.Where != planner.Counter && s.Where != planner.Heat {
		parts = append(parts, "in the "+string(s.Where))
	}
	if s.Until != "" {
		parts = append(parts, "until "+s.Until)
	}
	for i := range s.After {
		parts = append(parts, afterText(d, &s.After[i]))
	}
	parts = append(parts, leavesText(t.Party, t.foodOf(d, s)))
	switch {
	case s.Leaves.Millilitres > 0 && usesAppliance(s) && !goesCold(d, s):
		parts = append(parts, "about "+roomText(&s.Leaves))
	case s.Leaves.Millilitres > 0 || s.Leaves.Flat > 0:
		parts = append(parts, "takes "+roomText(&s.Leaves)+" in the cold")
	}
	if s.Serve != nil {
		parts = append(parts, "before service "+waitText(s.Serve))
	}
	if who := whoText(t, &s.Who); who != "" {
		parts = append(parts, who)
	}
	if s.WhenCalled {
		parts = append(parts, "starts when called")
	}
	if s.Away {
		parts = append(parts, "out of the house")
	}
	return parts
}

// leavesText says what food a step leaves, as it follows from what is in it: for each limit the strictest kind.
func leavesText(p *planner.Party, f *trace.Leaves) string {
	if !f.Perishable {
		return keepsText
	}
	strictest := map[int]safety.Kind{}
	var limits []int
	for _, c := range f.Colds() {
		most := p.RefrigeratorLimit(c.Kind).Minutes
		k, there := strictest[most]
		if !there {
			k, limits = c.Kind, append(limits, most)
		}
		strictest[most] = food.Stricter(k, c.Kind)
	}
	slices.Sort(limits)
	var kinds []string
	for _, most := range limits {
		kind := strings.ReplaceAll(string(strictest[most]), "-", " ")
		if strictest[most] == safety.Cooked {
			kind += " food"
		}
		kinds = append(kinds, kind)
	}
	text := words.And(kinds)
	if f.PartCooked {
		text = "part-cooked " + text
	}
	return "leaves " + text + ", perishable"
}

// foodOf is the food that a dish's steps leave; the dish may not be on the menu yet.
func (t *Turn) foodOf(d *planner.Dish, s *planner.Step) *trace.Leaves {
	return trace.OfDish(t.Party, d).Leaves(d.Key, s.Key)
}

func usesAppliance(s *planner.Step) bool {
	return slices.ContainsFunc(s.Uses, func(u planner.Use) bool { return u.What == planner.AnAppliance })
}

// goesCold says whether what a step leaves is in the cold, in it or after it.
func goesCold(d *planner.Dish, s *planner.Step) bool {
	cold := func(st planner.State) bool { return st == planner.Refrigerator || st == planner.Freezer }
	return cold(s.Where) || s.Serve != nil && cold(s.Serve.State) ||
		slices.ContainsFunc(d.Steps, func(next planner.Step) bool {
			return slices.ContainsFunc(next.After, func(a planner.After) bool {
				return a.Dish == "" && a.Step == s.Key && cold(a.Wait.State)
			})
		})
}

// asWritten says beside a step's time at the party what it is in the dish.
func asWritten(d *planner.Dish, s *planner.Step, fit *planner.Fit) string {
	switch {
	case fit.Cool != nil && fit.Time.Likely > fit.Time.Low:
		return "to 5 °C by a careful estimate"
	case fit.Cool != nil:
		return "to 21 °C by a careful estimate"
	case fit.Batches > 1:
		return fmt.Sprintf("in %d batches (%s for %d)", fit.Batches, spanText(s.Time), d.Serves)
	case fit.Rounds > 1:
		return fmt.Sprintf("a round (%s for %d)", spanText(s.Time), d.Serves)
	}
	return fmt.Sprintf("(%s for %d)", spanText(s.Time), d.Serves)
}

// stepLine is a step in a dish's list. What goes without saying there is left out: that it comes after the step in the
// line above, when nothing is said of the wait, that what it leaves keeps or is what that step left, and a sign that
// its words name already.
func stepLine(t *Turn, d *planner.Dish, s *planner.Step) string {
	text := stepText(t, d, s)
	text = strings.Replace(text, "; "+keepsText, "", 1)
	if s.Until != "" && strings.Contains(s.Do, "until "+s.Until) {
		text = strings.Replace(text, "; until "+s.Until, "", 1)
	}
	at := slices.IndexFunc(d.Steps, func(o planner.Step) bool { return o.Key == s.Key })
	switch {
	case at > 0 && len(s.After) == 0:
		text += "; at any time before it is needed"
	case at > 0 && len(s.After) == 1:
		a := &s.After[0]
		if leaves := leavesText(t.Party, t.foodOf(d, s)); a.Dish == "" && a.Step == d.Steps[at-1].Key &&
			leavesText(t.Party, t.foodOf(d, &d.Steps[at-1])) == leaves {
			text = strings.Replace(text, "; "+leaves, "", 1)
		}
		if a.Dish == "" && a.Step == d.Steps[at-1].Key {
			said := "; " + afterText(d, a)
			switch a.Wait {
			case planner.Wait{State: planner.Counter}:
				text = strings.Replace(text, said, "", 1)
			case planner.Wait{State: planner.Straight}:
				if !a.FromStart {
					text = strings.Replace(text, said, "; "+straightOn, 1)
				}
			}
		}
	}
	if to := trace.CookedTo(t.Party, d, s); to != "" {
		text += "; published: " + to
	}
	return text
}

// keepsText says that what a step leaves has no limit of time.
const keepsText = "leaves what keeps on the counter"

func attentionText(a planner.Attention, hands, most int, every planner.Minutes) string {
	switch a {
	case planner.Hands:
		switch n := max(hands, 1); {
		case most > n:
			return fmt.Sprintf("%d to %d people's hands", n, most)
		case n > 1:
			return fmt.Sprintf("%d people's hands", n)
		}
		return "hands"
	case planner.Touch:
		return "a touch every " + words.Short(every)
	}
	return string(a)
}

func whoText(t *Turn, w *planner.Who) string {
	var parts []string
	if x := t.Party.Person(w.Person); w.Person != "" && x != nil {
		parts = append(parts, "by "+x.Name)
	}
	if w.Skill != "" {
		parts = append(parts, "by somebody for "+w.Skill)
	}
	return strings.Join(parts, ", ")
}

// useName is a piece of equipment as it is typed.
func useName(u *planner.Use) string {
	if u.Name != "" {
		return u.Name
	}
	return string(u.What)
}

func useText(u *planner.Use) string {
	text := useName(u)
	if u.Units() > 1 {
		text = fmt.Sprintf("%d %s", u.Units(), text)
		if u.What == planner.ABurner {
			text += "s"
		}
	}
	if u.What == planner.AnOven {
		text = useName(u)
		switch {
		case u.C == 0:
			text += " off"
		case u.Tolerance > 0:
			text += fmt.Sprintf(" at %d °C (give or take %d)", u.C, u.Tolerance)
		default:
			text += fmt.Sprintf(" at %d °C", u.C)
		}
		if u.Units() > 1 {
			text += ", " + words.Count(u.Units(), "shelf")
		}
		for _, h := range u.Then {
			text += fmt.Sprintf(", after %s %d °C", words.Short(h.After), h.C)
		}
		if u.Shut {
			text += ", door shut"
		}
	}
	if u.For > 0 {
		text += fmt.Sprintf(" for up to %s", words.Count(u.For, "cover"))
	}
	if u.Through != "" {
		text += " through " + string(u.Through)
	}
	return text
}

func afterText(d *planner.Dish, a *planner.After) string {
	name := string(a.Step)
	if a.Dish != "" && a.Dish != d.Key {
		name = string(a.Dish) + "/" + name
	}
	if a.FromStart {
		text := "from the start of " + name
		if l := limitsText(&a.Wait); l != "" {
			text += " (" + l + ")"
		}
		return text
	}
	return "after " + name + " (" + waitText(&a.Wait) + ")"
}

// waitText says how food waits: "refrigerator, 1 h to 2 days".
func waitText(w *planner.Wait) string {
	text := string(w.State)
	if w.State == planner.Straight {
		text = straightOn
	}
	if w.Hold != nil {
		text += " on " + useText(w.Hold)
	}
	if l := limitsText(w); l != "" {
		text += ", " + l
	}
	return text
}

func limitsText(w *planner.Wait) string {
	var parts []string
	switch {
	case w.Least > 0 && w.Longest > 0:
		parts = append(parts, words.Short(w.Least)+" to "+words.Short(w.Longest))
	case w.Least > 0:
		parts = append(parts, "at least "+words.Short(w.Least))
	case w.Longest > 0:
		parts = append(parts, "longest "+words.Short(w.Longest))
	}
	switch {
	case w.BestFrom > 0 && w.BestUntil > 0:
		parts = append(parts, "best from "+words.Short(w.BestFrom)+" to "+words.Short(w.BestUntil))
	case w.BestFrom > 0:
		parts = append(parts, "best from "+words.Short(w.BestFrom))
	case w.BestUntil > 0:
		parts = append(parts, "best within "+words.Short(w.BestUntil))
	}
	if w.WorthUntil > 0 {
		parts = append(parts, "worth serving until "+words.Short(w.WorthUntil))
	}
	return strings.Join(parts, ", ")
}

// roomText is the room that food takes in the cold: "1500 ml and 1 flat place".
func roomText(f *planner.Food) string {
	var parts []string
	if f.Millilitres > 0 {
		parts = append(parts, fmt.Sprintf("%d ml", f.Millilitres))
	}
	if f.Flat > 0 {
		parts = append(parts, words.Count(f.Flat, "flat place"))
	}
	return words.And(parts)
}
