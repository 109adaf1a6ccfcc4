package cooling

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/portion"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// Food is what goes cold, as far as heat goes.
type Food struct {
	Name        string // "the turkey"
	pulled      bool   // a joint that the dish has in shreds
	layered     bool   // it is put together in the dish that it will be baked in
	again       bool   // a joint that goes into the oven once more, of a piece
	Millilitres int    // about; grams of what is solid
	Grams       int    // of the largest piece of meat; 0: nobody has said, or none
	Kind        safety.Kind
	body        body
	in          *vessel // in which it stands already; nil: a pot, or nobody has said
}

// Bird says whether it is a whole bird, Joint whether it is a large piece of meat.
func (f *Food) Bird() bool { return f.body == bird }

// Joint says whether it is meat of a piece.
func (f *Food) Joint() bool { return f.body == joint }

// Thin says whether it is a liquid that moves by itself.
func (f *Food) Thin() bool { return f.body == thin }

// traced is a dish with what food its steps leave, which is followed once for all that is asked of them.
type traced struct {
	p     *planner.Party
	d     *planner.Dish
	foods *trace.Trace
}

// leaves is what kind of perishable food a step leaves; ok is false where it is none, or is to be finished elsewhere.
// All that this package knows of it, it asks here.
func (t *traced) leaves(s *planner.Step) (kind safety.Kind, ok bool) {
	l := t.foods.Leaves(t.d.Key, s.Key)
	if l.PartCooked {
		return "", false
	}
	return l.Kind(), l.Perishable
}

// look tells what a step leaves.
func (t *traced) look(s *planner.Step) Food {
	p, d := t.p, t.d
	kind, _ := t.leaves(s)
	f := Food{Name: called(d, s), Millilitres: Volume(p, d, s), Kind: kind, body: thick, in: standsIn(d, s)}
	if f.in != nil && f.in.litres >= smallLitres {
		if holds := f.in.litres * float64(units(s)*p.Fit(d, s).Vessels); holds < float64(f.Millilitres)/1000 {
			f.in = nil
		}
	}
	if t.layered(s) {
		f.layered, f.body, f.in, f.Name = true, thick, nil, dishName(d)
		return f
	}
	made := madeBody(d, s)
	if made == "" {
		if c := t.foods.Again(d, s); c != nil && (data().body[c.Name] == inDish || data().body[c.Name] == baked) {
			made = data().body[c.Name]
		}
	}
	if made != "" {
		f.body = made
	}
	w := wholePiece(p, d, s)
	switch {
	case f.body == noBody || f.body == thin || (f.body == inDish || f.body == baked) && f.in != nil || f.body == loaf:
	case made == thick && w != nil && !w.bird && (w.share < 0.5 || anyIn("in pieces", portion.Words(d.Name)...)):
		// a stew with meat in it: who writes no word of it cuts that up
	case w != nil && w.bird:
		f.body, f.Grams, f.Name = bird, w.grams, "the "+w.name
	case w != nil:
		f.body, f.Grams, f.Name, f.pulled, f.again = joint, w.grams, "the "+w.name, pulls(d), bakedAgain(d, s)
	default:
		if b := drySolid(d, s); b != "" && made == "" {
			f.body = b
		}
	}
	if f.Grams > 0 && (f.body == bird || f.body == joint) && s.Leaves.Millilitres == 0 {
		f.Millilitres = f.Grams
	}
	return f
}

// called is what a cook says for a step's food: its component, what its words say that it makes, or the dish. A name
// with capitals in it stays as its host spelt it.
func called(d *planner.Dish, s *planner.Step) string {
	if s.Component != "" {
		return "the " + s.Component
	}
	if len(d.Steps) > 0 && s.Key != d.Steps[len(d.Steps)-1].Key {
		for _, f := range food.All(s.Do) {
			if f.Class != nil && f.Class.Group == "made" && !goesIn(d, f.Said()) {
				return "the " + f.Said()
			}
		}
	}
	return dishName(d)
}

func dishName(d *planner.Dish) string {
	if n := words.Lower(d.Name); n == strings.ToLower(n) {
		return "the " + n
	}
	return d.Name
}

// layered says whether a step puts together what the dish's next step bakes where it stands.
func (t *traced) layered(s *planner.Step) bool {
	return s.Attention == planner.Hands && slices.ContainsFunc(t.d.Steps, func(n planner.Step) bool {
		oven := slices.ContainsFunc(n.Uses, func(u planner.Use) bool { return u.What == planner.AnOven && u.C > 0 })
		return oven && len(n.After) == 1 && n.After[0].Step == s.Key && n.After[0].Dish == "" && !n.After[0].FromStart &&
			t.foods.Assembled(t.d, &n) != nil
	})
}

// goesIn says whether a dish's ingredients name a food: what goes in is not what comes out.
func goesIn(d *planner.Dish, said string) bool {
	return slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool { return words.Has(in.Name, said) })
}

// pulls says whether a step of a dish pulls its meat into shreds.
func pulls(d *planner.Dish) bool {
	return slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
		return slices.ContainsFunc(clauses(s.Do), func(c string) bool {
			said := portion.Words(c)
			return len(said) > 0 && data().in("pull", said[0])
		})
	})
}

// bakedAgain says whether the dish's own later step bakes what a step leaves.
func bakedAgain(d *planner.Dish, s *planner.Step) bool {
	return slices.ContainsFunc(d.Steps, func(u planner.Step) bool {
		said := portion.Words(u.Do)
		return u.Key != s.Key && !u.Finish && len(said) > 0 && !data().in("warm", said[0]) &&
			slices.ContainsFunc(u.Uses, func(x planner.Use) bool { return x.What == planner.AnOven }) &&
			comesBefore(d, s, u.Key)
	})
}

// madeBody is what the component's or the dish's name says that is made: stock, gratin; empty where the table has
// nothing of it.
func madeBody(d *planner.Dish, s *planner.Step) body {
	made := []string{}
	name := s.Component
	if name == "" {
		name = d.Name
	}
	if f, ok := food.Find(name); ok && f.Class != nil {
		made = append(made, f.Class.Name)
	}
	for _, v := range verbsOf(d, s) {
		made = append(made, v.Leaves)
	}
	for _, class := range made {
		switch b := data().body[class]; b {
		case noBody, thick, thin, inDish, baked, loaf:
			return b
		}
	}
	return ""
}

// verbsOf are the senses in which a step's first word may be meant, by the foods that came into it.
func verbsOf(d *planner.Dish, s *planner.Step) []food.Verb {
	var out []food.Verb
	for _, c := range clauses(s.Do) {
		said := portion.Words(c)
		if len(said) == 0 {
			continue
		}
		for _, v := range food.Verbs() {
			if v.Name != said[0] || len(v.Of) == 0 {
				continue
			}
			for _, in := range intoIt(d, s) {
				if f, ok := food.Find(in.Name); ok && f.Class != nil && of(&v, f.Class) {
					out = append(out, v)
					break
				}
			}
		}
	}
	return out
}

func of(v *food.Verb, c *food.Class) bool {
	for _, o := range v.Of {
		if o == c.Name || o == "@"+c.Group {
			return true
		}
	}
	return false
}

// drySolid is what lies flat by itself: fish or pieces of meat that are more than half of what came into a food that
// has next to no liquid, and were not cooked in one, or are lifted out of it. Empty for all else.
func drySolid(d *planner.Dish, s *planner.Step) body {
	for _, u := range upstream(d, s) {
		for _, c := range clauses(u.Do) {
			if said := portion.Words(c); len(said) > 0 && data().in("cook-wet", said[0]) && said[0] != "poach" {
				return ""
			}
		}
	}
	grams := map[body]float64{}
	total, lifted := 0.0, slices.ContainsFunc(clauses(s.Do), func(c string) bool {
		return slices.ContainsFunc(portion.Words(c), func(w string) bool { return data().in("lift", w) })
	})
	for _, in := range intoIt(d, s) {
		g, ok := portion.Grams(in)
		f, known := food.Find(in.Name)
		if !ok || !known || f.Class == nil || lifted && data().in("liquid", f.Class.Name) {
			continue
		}
		total += g
		if b := data().body[f.Class.Name]; b == fillets || b == pieces {
			grams[b] += g
		}
	}
	for _, b := range []body{fillets, pieces} {
		if grams[b] > total/2 {
			return b
		}
	}
	return ""
}

// standsIn is the vessel in which a step's food stands when it ends, as far as its equipment or its plate says so; nil
// for a pot.
func standsIn(d *planner.Dish, s *planner.Step) *vessel {
	for _, u := range s.Uses {
		if u.What == planner.AVessel {
			if v := data().vesselOf(portion.Words(u.Name)); v != nil {
				return v
			}
		}
	}
	for _, from := range upstream(d, s) {
		for _, u := range from.Uses {
			if u.What == planner.AVessel && u.Through != "" && (u.Through == s.Key || comesBefore(d, s, u.Through)) {
				if v := data().vesselOf(portion.Words(u.Name)); v != nil {
					return v
				}
			}
		}
	}
	for _, u := range upstream(d, s) {
		for _, c := range clauses(u.Do) {
			// "pour it into glasses" says where it is, and lets nothing pass unsaid.
			if _, into, ok := strings.Cut(c, " into "); ok {
				if v := data().vesselOf(portion.Words(into)); v != nil && v.litres < smallLitres {
					return v
				}
			}
		}
	}
	return nil
}

// comesBefore says whether a step lies on the way to a later one.
func comesBefore(d *planner.Dish, s *planner.Step, later planner.StepKey) bool {
	to := d.Step(later)
	if to == nil {
		return false
	}
	for _, u := range upstream(d, to) {
		if u.Key == s.Key {
			return true
		}
	}
	return false
}

// units is how many vessels a step takes, at least one.
func units(s *planner.Step) int {
	n := 1
	for i := range s.Uses {
		if u := &s.Uses[i]; u.What == planner.AVessel {
			n = max(n, u.Units())
		}
	}
	return n
}

// Volume is about how much a step leaves for the covers that its dish is made for, in millilitres: as the step says, or
// what the ingredients weigh that came into it where it does not.
func Volume(p *planner.Party, d *planner.Dish, s *planner.Step) int {
	ml := float64(s.Leaves.Millilitres)
	if ml == 0 {
		dry, water := 0.0, 0.0
		for _, in := range intoIt(d, s) {
			grams, ok := portion.Grams(in)
			f, known := food.Find(in.Name)
			switch {
			case !ok:
			case known && f.Class != nil && data().swell[f.Class.Name] > 0:
				dry += grams * (data().swell[f.Class.Name] - 1)
			case known && f.Class != nil && f.Class.Name == "water":
				water += grams
			}
			if ok {
				ml += grams
			}
		}
		ml += max(0, dry-water) // what they take up of water that nobody has written down
	}
	return int(ml*float64(d.Makes(p))/float64(max(d.Serves, 1)) + 0.5)
}
