package trace

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// CookedTo is what a step that cooks is to bring its food to by the published charts, as the middle of a sentence: "at
// least 73.9 °C (165 °F) in the middle (foodsafety.gov)". It is empty where nothing is published for what goes into
// the step, or where the step's own sign asks for as much. Food that was cooked before and comes out of the cold is
// heated again. What a step cooks in part only another one brings there. That a step reaches it is for people to see.
func CookedTo(p *planner.Party, d *planner.Dish, s *planner.Step) string {
	return OfDish(p, d).CookedTo(d, s)
}

// CookedTo is [CookedTo] for who asks about several steps of a dish that has been followed.
func (t *Trace) CookedTo(d *planner.Dish, s *planner.Step) string {
	l := t.Leaves(d.Key, s.Key)
	if !l.Hot || s.Leaves.PartCooked || l.PartCooked && l.ToFinish {
		return ""
	}
	var most safety.Limit
	raw, in := safety.None, t.party.AuthoritiesOf()
	for _, r := range t.goesIn(d, s) {
		l := safety.CookToIn(in, r.kind)
		if r.pork {
			l = safety.CookPorkTo(in)
		}
		if l.Applies() && (!most.Applies() || l.TempC > most.TempC) {
			most, raw = l, r.kind
		}
	}
	if t.again(d, s) {
		if l := safety.Reheat(in); !most.Applies() || l.TempC > most.TempC {
			most, raw = l, safety.None
		}
	}
	inside := safety.CookStuffingTo(in)
	stuffed := raw.Raw() && t.stuffed(d, s)
	switch {
	case !most.Applies():
		return ""
	case signAsks(s.Until, most.TempC) && stuffed && !read(s.Until).any[stuffs]:
		return fmt.Sprintf("the stuffing too: %s in its middle (%s)", inside.Figure(), inside.Authority)
	case signAsks(s.Until, most.TempC):
		return ""
	}
	text := most.Figure()
	if most.Heated {
		text += " in the middle"
	}
	if stuffed && most.TempC >= inside.TempC {
		text += ", and in the middle of the stuffing"
	} else if stuffed {
		text += fmt.Sprintf(", the stuffing's middle %s (%s)", inside.Figure(), inside.Authority)
	}
	if rest := safety.RestAfterCooking(raw); rest.Applies() && rest.Authority == most.Authority {
		text += fmt.Sprintf(", then %s of rest", words.Short(rest.Minutes))
	}
	return fmt.Sprintf("%s (%s)", text, most.Authority)
}

// stuffed says whether what a step cooks was stuffed in it or on the way to it.
func (t *Trace) stuffed(d *planner.Dish, s *planner.Step) bool {
	seen := map[planner.StepKey]bool{}
	var any func(*planner.Step) bool
	any = func(s *planner.Step) bool {
		if s == nil || seen[s.Key] {
			return false
		}
		seen[s.Key] = true
		l := t.Leaves(d.Key, s.Key)
		animal := slices.ContainsFunc(l.In, func(p Part) bool { return p.Kind.Raw() })
		return animal && read(s.Do).any[stuffs] || slices.ContainsFunc(s.After, func(a planner.After) bool {
			return a.Dish == "" && !a.FromStart && !a.Aside && any(d.Step(a.Step))
		})
	}
	return any(s)
}

// EndsAt is the temperature in °C in the middle at which a step that cooks through ends: as its words or its sign say,
// else what is published for the raw food in it; 0 where nothing is.
func (t *Trace) EndsAt(d *planner.Dish, s *planner.Step) float64 {
	if c, told := degreesIn(s.Do + " " + s.Until); told {
		return c
	}
	most := 0.0
	for _, r := range t.goesIn(d, s) {
		if l := safety.CookTo(r.kind); l.Applies() && l.Heated {
			most = max(most, l.TempC)
		}
	}
	return most
}

// rawFood is raw food that a step cooks; pork is a whole cut of it.
type rawFood struct {
	kind safety.Kind
	pork bool
}

func rawOf(k safety.Kind, name string) rawFood {
	return rawFood{k, k == safety.RedMeat && slices.ContainsFunc(food.Tells(name), func(t food.Tell) bool {
		return t.Tag == food.Pork && t.Certainty == food.Contains
	})}
}

// goesIn lists the raw food that a step cooks. What is made of raw food and is not cooked by its name counts
// as that: of a fish cake nobody knows here whether its fish was cooked before. Stocks have no published temperature,
// nor have doughs, which are bread once they are baked.
func (t *Trace) goesIn(d *planner.Dish, s *planner.Step) (raw []rawFood) {
	l := t.Leaves(d.Key, s.Key)
	if !l.heats && !s.Cooks {
		return nil
	}
	beside, fed := t.beside(d, s, 0), false
	var came []Part
	for i := range s.After {
		if a := &s.After[i]; !a.FromStart {
			came = append(came, t.before(d, a)...)
		}
	}
	for i := range l.In {
		p := &l.In[i]
		if p.aside || p.loose && passesBy(d, s) || slices.Contains(beside, p.Name) {
			continue
		}
		here := slices.ContainsFunc(came, func(o Part) bool { return o.Name == p.Name })
		fed = fed || here && p.Kind != safety.None
		if p.Kind.Raw() || here && l.Perishable && (p.Kind == safety.Eggs || p.Kind == safety.RawEgg) {
			raw = append(raw, rawOf(p.Kind, p.Name))
		}
	}
	if fed {
		return raw
	}
	for _, f := range named(s.Do) {
		if f.Class.Group != "made" || f.Kind() == safety.Soup {
			continue
		}
		for w := range strings.FieldsSeq(f.Said()) {
			if k, ok := food.KindOf(w); ok && k.Raw() {
				raw = append(raw, rawOf(k, w))
			}
		}
	}
	return raw
}

// before is what the step that another one comes after leaves.
func (t *Trace) before(d *planner.Dish, a *planner.After) []Part {
	if a.Dish != "" {
		return t.Leaves(a.Dish, a.Step).Parts
	}
	return t.Leaves(d.Key, a.Step).Parts
}

// beside names what was put aside on the way to a step and that no step has named since.
func (t *Trace) beside(d *planner.Dish, s *planner.Step, depth int) (names []string) {
	if depth > len(d.Steps) {
		return nil
	}
	for i := range s.After {
		a := &s.After[i]
		from := d.Step(a.Step)
		if from == nil || a.FromStart || a.Dish != "" && a.Dish != d.Key {
			continue
		}
		names = append(names, t.beside(d, from, depth+1)...)
		if a.Aside {
			for _, p := range t.before(d, a) {
				names = append(names, p.Name)
			}
		}
	}
	return slices.DeleteFunc(names, func(name string) bool {
		return slices.ContainsFunc(t.Leaves(d.Key, s.Key).In, func(p Part) bool {
			return p.Name == name && slices.ContainsFunc(named(s.Do), func(f food.Food) bool {
				return f.Name == p.food || f.Kind() == p.Kind || f.Generic() && f.Class.Group == p.group
			})
		})
	})
}

// again says whether food that was cooked comes into a step out of the cold.
func (t *Trace) again(d *planner.Dish, s *planner.Step) bool {
	return slices.ContainsFunc(s.After, func(a planner.After) bool {
		of := d
		if a.Dish != "" && a.Dish != d.Key {
			of = t.party.Dish(a.Dish)
		}
		if a.FromStart || a.Aside || of == nil || of.Step(a.Step) == nil ||
			a.Wait.State != planner.Refrigerator && a.Wait.State != planner.Freezer {
			return false
		}
		return t.wasHot(of, of.Step(a.Step), 0) && slices.ContainsFunc(t.Leaves(of.Key, a.Step).Parts, func(p Part) bool {
			return p.Cooked && slices.Contains([]safety.Kind{safety.Cooked, safety.Soup, safety.Rice, safety.Pasta,
				safety.EggDish}, p.Kind)
		})
	})
}

// wasHot says whether a step's food was cooked in it or before it.
func (t *Trace) wasHot(d *planner.Dish, s *planner.Step, depth int) bool {
	if t.Leaves(d.Key, s.Key).Hot || depth > len(d.Steps) {
		return depth <= len(d.Steps)
	}
	return slices.ContainsFunc(s.After, func(a planner.After) bool {
		from := d.Step(a.Step)
		return a.Dish == "" && !a.FromStart && from != nil && t.wasHot(d, from, depth+1)
	})
}

// signAsks says whether a sign names a temperature of at least so much, to the degree.
func signAsks(sign string, c float64) bool {
	n, ok := degreesIn(sign)
	return ok && n+1 > c
}
