package planner

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// wordsOf are a text's words, in lower case.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return r != '\'' && (r < 'a' || r > 'z') && r < 0x80 && (r < '0' || r > '9')
	})
}

// saysFrozen says whether words call something frozen, and not what it is not or may be.
func saysFrozen(text string) bool {
	said := wordsOf(text)
	i := slices.Index(said, "frozen")
	return i >= 0 && !slices.Contains(said, "or") && (i == 0 || !slices.Contains([]string{"not", "never", "non",
		"previously", "from", "un"}, said[i-1]))
}

// saysThaw says whether words speak of thawing something, or of taking it out of the freezer.
func saysThaw(text string) bool {
	said := wordsOf(text)
	for i, w := range said {
		switch {
		case i > 0 && slices.Contains([]string{"not", "without", "don't", "never"}, said[i-1]):
		case slices.Contains([]string{"thaw", "thaws", "thawing", "defrost", "defrosts", "defrosting", "unfreeze"}, w):
			return true
		case w == "thawed" || w == "defrosted":
			if i > 0 && slices.Contains([]string{"until", "fully", "completely", "is", "are", "has", "have"}, said[i-1]) {
				return true
			}
		case w == "freezer":
			before := strings.Join(said[max(0, i-3):i], " ")
			if strings.HasSuffix(before, "from the") || strings.HasSuffix(before, "out of the") ||
				strings.HasSuffix(before, "from") || strings.HasSuffix(before, "out of") {
				return true
			}
		}
	}
	return false
}

// ThawsBy is how a step thaws food, by its words and its place; empty where it does not.
func (s *Step) ThawsBy() safety.ThawMethod {
	thaws := saysThaw(s.Do) || saysFrozen(s.Do) && (s.Attention != Hands || s.Time.Likely >= 60)
	if !thaws || s.Cooks || s.Where == Heat || s.Where == Freezer {
		return ""
	}
	said := strings.Join(wordsOf(s.Do), " ")
	in := func(places ...string) bool {
		return slices.ContainsFunc(places, func(p string) bool { return strings.Contains(said, p) })
	}
	switch {
	case in("microwave"):
		return safety.InMicrowave
	case s.Where == Refrigerator || in("fridge", "refrigerator", "chiller"):
		return safety.InRefrigerator
	case in("hot water", "warm water"):
		return safety.OnCounter
	case in("water", "cold tap"):
		return safety.InColdWater
	}
	return safety.OnCounter
}

// Thawer is the step that thaws an ingredient, by its words; nil where none does.
func (d *Dish) Thawer(in *Ingredient) *Step {
	for i := range d.Steps {
		s := &d.Steps[i]
		if s.ThawsBy() == "" {
			continue
		}
		// Where no food is named, the salt is not what was frozen.
		if about, named := d.thaws(s, in); about && (named || kindOf(in) != food.None) {
			return s
		}
	}
	return nil
}

func kindOf(in *Ingredient) food.Kind {
	f, _ := food.Find(in.Name)
	return f.Kind()
}

// thaws says whether a thawing step is about an ingredient: it names it, or nothing else of the dish, and the
// ingredient goes into it.
func (d *Dish) thaws(s *Step, in *Ingredient) (about, named bool) {
	of, _ := food.Find(in.Name)
	for i := range d.Ingredients {
		o := &d.Ingredients[i]
		f, known := food.Find(o.Name)
		if !known || !slices.ContainsFunc(food.All(s.Do), func(x food.Food) bool { return x.Name == f.Name }) {
			continue
		}
		if named = true; o == in || f.Name == of.Name {
			return true, true
		}
	}
	at := in.Step
	if d.Step(at) == nil {
		at = d.Steps[0].Key
	}
	return !named && at == s.Key, named
}

// IsFrozen says whether an ingredient comes out of the freezer: as the hosts say it, as its name or its note does, or
// as a step's words do.
func (d *Dish) IsFrozen(in *Ingredient) bool {
	return in.Frozen || saysFrozen(in.Name) || saysFrozen(in.Note) || d.Thawer(in) != nil
}

// NeedsThawing says whether a frozen ingredient is thawed by a chore of its own: not what is eaten or cooked as it
// comes out of the freezer, and not what a step of the dish thaws.
func (d *Dish) NeedsThawing(in *Ingredient) bool {
	if !d.IsFrozen(in) {
		return false
	}
	if s := d.Thawer(in); s != nil && s.Time.Likely+d.leastAfter(s) >= leastThaw {
		return false
	}
	how := food.ThawingOf(in.Name).How
	return in.Grams > 0 || how != food.EatenFrozen && (in.Frozen || how != food.FromFrozen ||
		slices.ContainsFunc(wordsOf(in.Name+" "+in.Note), func(w string) bool { return w == "thawed" || w == "defrosted" }))
}

// leastThaw is the shortest time that a step is thought to thaw something in, in minutes: below it, it only takes it
// out. Common practice, no source.
const leastThaw = 30

// leastAfter is the least that what a step leaves waits on the counter.
func (d *Dish) leastAfter(s *Step) Minutes {
	most := Minutes(0)
	for i := range d.Steps {
		for _, a := range d.Steps[i].After {
			if a.Step == s.Key && a.Dish == "" && !a.FromStart && a.Wait.State == Counter {
				most = max(most, a.Wait.Least)
			}
		}
	}
	return most
}

// thawing complains about a step that thaws food as the source forbids it: for hours on the counter, or in water and
// then not cooked at once.
func (ps *problems) thawing(p *Party, d *Dish, s *Step) {
	by := s.ThawsBy()
	if by == "" || !d.thawsPerishable(s) {
		return
	}
	where, never := string(d.Key)+"/"+string(s.Key), safety.ThawOnCounter()
	switch by {
	case safety.OnCounter:
		limit := Minutes(safety.CounterLimit(float64(p.AirC())).Minutes)
		if long := s.Time.Likely + d.leastAfter(s); long > limit {
			ps.add(where,
				"Never thaw it on the counter or in warm water, as for %s here: its outside is warm long before its middle has "+
					"thawed. Thaw it in the refrigerator, or in a leak-proof bag in cold water that is changed every %s (%s). Leave "+
					"the step out, say frozen:yes of the ingredient, and a thawing is proposed in time.",
				words.Length(long), words.Length(Minutes(safety.WaterChangeMinutes)), never.Source)
		}
	case safety.InColdWater, safety.InMicrowave:
		for i := range d.Steps {
			for _, a := range d.Steps[i].After {
				if w := a.Wait; a.Step == s.Key && a.Dish == "" && !a.FromStart && (w.State == Freezer ||
					w.State == Refrigerator && (w.Least > atOnce || w.Longest == 0 || w.Longest > 2*atOnce)) {
					ps.add(where, "Let what was thawed in water or in the microwave be cooked at once, not wait in the %s for %s; "+
						"or thaw it in the refrigerator (%s).", w.State, d.Steps[i].Key, never.Source)
				}
			}
		}
	}
}

// atOnce is how long food that was thawed in water may be got ready before it is cooked at once: in minutes, our own
// reading of the source's word.
const atOnce = 60

// thawsPerishable says whether what a step thaws spoils; what nobody knows does.
func (d *Dish) thawsPerishable(s *Step) bool {
	spoils := func(f food.Food) bool { return f.Kind() != food.None && f.Class.Whole != food.None }
	known, any := true, false
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		f, ok := food.Find(in.Name)
		if about, _ := d.thaws(s, in); about {
			any = true
			known = known && ok
			if ok && spoils(f) {
				return true
			}
		}
	}
	if any {
		return !known
	}
	for _, f := range food.All(s.Do) {
		if any = true; spoils(f) {
			return true
		}
	}
	return !any
}
