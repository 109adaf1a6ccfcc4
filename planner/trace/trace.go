package trace

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/safety"
)

// Leaves is the food that a step leaves.
type Leaves struct {
	In         []Part // what goes into the step, as it is before anything is done
	Parts      []Part
	Perishable bool
	PartCooked bool // animal food in it has met heat and is not cooked through
	Hot        bool // it was cooked or heated in this step
	Anew       bool // what was raw is cooked through here for the first time: its time on the counter begins anew
	ToFinish   bool // it is part-cooked, and a later step cooks it
	Dough      bool // a raw dough that rises
	Joined     bool // something that spoils comes in here, beside what the steps before leave
	Unknown    []string
	heats      bool // it cooks, in part at least
}

// Cold is one limit that food in the refrigerator is held to.
type Cold struct {
	Kind   safety.Kind
	Cooked bool
}

// Label is what a person calls the sort: of what is only soaked or rises no limit of its own is published.
func (c Cold) Label() string {
	if c.Kind == safety.Cooked && !c.Cooked {
		return "uncooked food that spoils, as cooked food"
	}
	return c.Kind.Label()
}

// Label is what a person calls a sort of food that the step leaves: raw poultry that has met heat is not raw any more,
// and kept as if it were.
func (l *Leaves) Label(c Cold) string {
	if c.Kind.Raw() && slices.ContainsFunc(l.Parts, func(p Part) bool { return p.Kind == c.Kind && p.Half }) {
		return strings.TrimPrefix(c.Kind.Label(), "raw ") + " not cooked through (kept as raw)"
	}
	return c.Label()
}

// Colds lists what the refrigerator's limits are asked of, each once: kinds, and those cooked apart from those raw.
func (l *Leaves) Colds() []Cold {
	var out []Cold
	for _, p := range l.Parts {
		if c := (Cold{p.Kind, p.Cooked}); p.Kind != safety.None && !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	return out
}

// Kind is the strictest of the kinds, for who names one; None where nothing spoils.
func (l *Leaves) Kind() safety.Kind {
	k := safety.None
	for _, p := range l.Parts {
		k = food.Stricter(k, p.Kind)
	}
	return k
}

// Trace is the food of a party's dishes.
type Trace struct {
	party  *planner.Party
	atRisk bool
	steps  map[key]*Leaves // nil while a step is being worked out
	lists  map[*planner.Dish][]listed
}

// listed is an ingredient's foods, and the step that they go into first.
type listed struct {
	parts []Part
	at    planner.StepKey
}

type key struct {
	dish planner.DishKey
	step planner.StepKey
}

// Of follows the food of all dishes of a party. It is pure, and keeps no part of the party.
func Of(p *planner.Party) *Trace {
	t := &Trace{party: p, atRisk: p.AtRisk(), steps: map[key]*Leaves{}, lists: map[*planner.Dish][]listed{}}
	for i := range p.Dishes {
		for j := range p.Dishes[i].Steps {
			t.follow(&p.Dishes[i], &p.Dishes[i].Steps[j])
		}
	}
	for i := range p.Dishes {
		t.finish(&p.Dishes[i])
	}
	return t
}

// finish says of food that a step leaves part-cooked whether a later step is to cook it.
func (t *Trace) finish(d *planner.Dish) {
	for range d.Steps { // a step's word reaches those before it in so many rounds at most
		for i := range d.Steps {
			s := &d.Steps[i]
			here := t.steps[key{d.Key, s.Key}]
			for _, a := range s.After {
				before := t.steps[key{d.Key, a.Step}]
				if a.Dish != "" && a.Dish != d.Key {
					before = t.steps[key{a.Dish, a.Step}]
				}
				if here != nil && before != nil && !a.FromStart && before.PartCooked {
					before.ToFinish = before.ToFinish || here.heats || here.ToFinish
				}
			}
		}
	}
}

// Leaves is what a step leaves; nothing where there is no such step.
func (t *Trace) Leaves(d planner.DishKey, s planner.StepKey) *Leaves {
	if l := t.steps[key{d, s}]; l != nil {
		return l
	}
	return &Leaves{}
}

// OfDish follows the food of a dish that may not be on the menu yet.
func OfDish(p *planner.Party, d *planner.Dish) *Trace {
	t := &Trace{party: p, atRisk: p.AtRisk(), steps: map[key]*Leaves{}, lists: map[*planner.Dish][]listed{}}
	for j := range d.Steps {
		t.follow(d, &d.Steps[j])
	}
	t.finish(d)
	return t
}

// follow works out a step after those before it.
func (t *Trace) follow(d *planner.Dish, s *planner.Step) *Leaves {
	k := key{d.Key, s.Key}
	if l, ok := t.steps[k]; ok {
		return l // nil in a circle, which validation names
	}
	t.steps[k] = nil
	l := &Leaves{}
	anew := !t.atRisk
	for _, a := range s.After {
		from := d
		if a.Dish != "" && a.Dish != d.Key {
			from = t.party.Dish(a.Dish)
		}
		if a.FromStart || from == nil || from.Step(a.Step) == nil {
			continue
		}
		before := t.follow(from, from.Step(a.Step))
		if before == nil {
			continue
		}
		for _, p := range before.Parts {
			p.aside = a.Aside
			anew = anew && (p.aside || p.renews())
			l.add(p)
		}
	}
	for _, p := range t.joins(d, s, l.Parts) {
		if p.Class != nil && p.Kind == p.Class.Kind && p.Class.Whole != p.Kind && !p.Cooked {
			p.Kind, p.Whole = p.Class.Whole, true
		}
		if n := len(l.Parts); p.Kind != safety.None {
			l.add(p)
			l.Joined = l.Joined || len(l.Parts) > n
			continue
		}
		l.add(p)
	}
	l.In = slices.Clone(l.Parts)
	t.work(d, s, l, anew)
	t.steps[k] = l
	return l
}

// add puts a part in, once.
func (l *Leaves) add(p Part) {
	if !slices.Contains(l.Parts, p) {
		l.Parts = append(l.Parts, p)
	}
}

// joins are the foods that go into the dish at a step, beside what came from the steps before it.
func (t *Trace) joins(d *planner.Dish, s *planner.Step, there []Part) []Part {
	var out, all []Part
	first := s.Key == d.Steps[0].Key
	for _, in := range t.list(d) {
		all = append(all, in.parts...)
		if in.at == s.Key {
			out = append(out, in.parts...)
		}
	}
	out = append(out, spoken(s.Do, all, there)...)
	if len(d.Ingredients) == 0 && first && !speaks(d) {
		whole := planner.Ingredient{Name: d.Name}
		out = append(out, partsOf(&whole)...)
	}
	return out
}

// list is what a dish's ingredients are, found once for all its steps.
func (t *Trace) list(d *planner.Dish) []listed {
	all, found := t.lists[d]
	if found {
		return all
	}
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		if d.CoolsWith(in) {
			continue
		}
		parts := partsOf(in)
		for i := range parts {
			parts[i].joint(d)
		}
		at, loose := enters(d, in)
		for i := range parts {
			parts[i].loose = loose && parts[i].Kind.Raw()
		}
		all = append(all, listed{parts, at})
	}
	t.lists[d] = all
	return all
}

// speaks says whether any step of a dish names a food.
func speaks(d *planner.Dish) bool {
	return slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return len(named(s.Do)) > 0 })
}

// enters is the step that an ingredient goes into first; loose where no step says so.
func enters(d *planner.Dish, in *planner.Ingredient) (at planner.StepKey, loose bool) {
	if in.Step != "" && d.Step(in.Step) != nil {
		return in.Step, false
	}
	for i := range d.Steps {
		if Names(d.Steps[i].Do, in) {
			if cooksUnnamed(d, i) {
				return d.Steps[0].Key, false
			}
			return d.Steps[i].Key, false
		}
	}
	if read(d.Steps[0].Do).any[kneads] && !ofDough(in) {
		for i := range d.Steps {
			if read(d.Steps[i].Do).do[tops] {
				return d.Steps[i].Key, false
			}
		}
	}
	return d.Steps[0].Key, true
}

// passesBy says of a step that it names other food than what no step names, which a later one cooks: the wine that is
// boiled down first cooks no meat.
func passesBy(d *planner.Dish, s *planner.Step) bool {
	at := slices.IndexFunc(d.Steps, func(o planner.Step) bool { return o.Key == s.Key })
	return slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool {
		return !d.CoolsWith(&in) && (in.Step == s.Key || in.Step == "" && Names(s.Do, &in))
	}) && slices.ContainsFunc(d.Steps[at+1:], func(o planner.Step) bool { return heatOf(&o, nil) >= half })
}

// cooksUnnamed says whether one of the steps before one cooks, and none of them names anything to cook: "roast until it
// falls apart" is of the pork that the next step pulls.
func cooksUnnamed(d *planner.Dish, at int) bool {
	cooks := false
	for i := range d.Steps[:at] {
		s := &d.Steps[i]
		if len(named(s.Do)) > 0 || slices.ContainsFunc(d.Ingredients, func(in planner.Ingredient) bool {
			return in.Step == s.Key || Names(s.Do, &in)
		}) {
			return false
		}
		cooks = cooks || heatOf(s, nil) >= half
	}
	return cooks
}

// work changes the parts by what the step does, and says what it leaves.
func (t *Trace) work(d *planner.Dish, s *planner.Step, l *Leaves, anew bool) {
	do := read(s.Do)
	beside := slices.Clone(l.Parts)
	beside = slices.DeleteFunc(beside, func(p Part) bool { return !p.aside })
	l.Parts = slices.DeleteFunc(l.Parts, func(p Part) bool { return p.aside })
	heat := heatOf(s, l.Parts)
	isLoose := func(p Part) bool { return p.loose }
	if slices.ContainsFunc(l.Parts, isLoose) {
		if passesBy(d, s) {
			for i := range l.Parts {
				if l.Parts[i].loose {
					beside = append(beside, l.Parts[i])
				}
			}
			l.Parts = slices.DeleteFunc(l.Parts, isLoose)
		}
		for i := range l.Parts {
			l.Parts[i].loose = false
		}
	}
	raw := slices.ContainsFunc(l.Parts, func(p Part) bool { return p.Kind != safety.None })
	egg := slices.ContainsFunc(l.Parts, func(p Part) bool {
		return p.Kind == safety.RawEgg || p.Whole && p.Kind == safety.Eggs
	})
	for i := range l.Parts {
		p := &l.Parts[i]
		if p.Whole && !(heat == cold && p.staysWhole(do.do)) {
			p.Kind, p.Whole = p.Class.Kind, false
		}
		p.wet(do)
		if do.do[whips] && p.Class != nil && p.Class.Name == "cream" && (!egg || namesPart(s.Do, p)) {
			p.Kind = safety.WhippedCream
		}
	}
	l.mix(d, s, heat, t.cameFrom(d, s), func(p *Part) level {
		if to := levelOf(s, p, l.Parts); to <= half || !t.endsShort(d, s, p) {
			return to
		}
		return half
	})
	l.say(&s.Leaves)
	l.Dough = heat == cold && fermenting(l.Parts)
	l.Parts = append(l.Parts, beside...)
	for _, p := range l.Parts {
		l.Perishable = l.Perishable || p.Kind != safety.None
		l.PartCooked = l.PartCooked || p.Half
		if !p.Known && !slices.Contains(l.Unknown, p.Name) {
			l.Unknown = append(l.Unknown, p.Name)
		}
	}
	l.Hot, l.heats = heat > cold, heat > warmed
	l.Anew = anew && raw && heat == throughly && !l.PartCooked && len(beside) == 0
}

// cameFrom is what the steps before one have left for it.
func (t *Trace) cameFrom(d *planner.Dish, s *planner.Step) []Part {
	var out []Part
	for i := range s.After {
		if a := &s.After[i]; !a.FromStart && !a.Aside {
			out = append(out, t.before(d, a)...)
		}
	}
	return out
}

// mix is what heat and company make of the parts; of is how far the heat brings one.
func (l *Leaves) mix(d *planner.Dish, s *planner.Step, heat level, came []Part, of func(*Part) level) {
	keep := func() {
		for i := range l.Parts {
			l.Parts[i].Kind, l.Parts[i].Half, l.Parts[i].Cooked, l.Parts[i].kept = safety.None, false, false, true
		}
	}
	inOven := read(s.Do).any[bakes] ||
		slices.ContainsFunc(s.Uses, func(u planner.Use) bool { return u.What == planner.AnOven })
	switch {
	case heat >= half && (preserved(l.Parts) || panBread(s, l.Parts) || pudding(s, l.Parts)),
		heat >= half && inOven && (toasted(l.Parts) || !custardByName(d.Name) && !eggFilling(s, l.Parts, came) &&
			(dough(l.Parts) || breadByName(d.Name, l.Parts) || breadByName(s.Do, l.Parts))):
		keep()
	case heat >= half && candied(s, l.Parts), heat < half && pickled(l.Parts):
		keep()
	case underOil(l.Parts):
		for i := range l.Parts {
			if l.Parts[i].growsUnderOil() {
				l.Parts[i].Kind, l.Parts[i].Cooked = safety.GarlicOil, heat > warmed
			}
		}
	default:
		custard := custardy(l.Parts)
		for i := range l.Parts {
			p := &l.Parts[i]
			if p.cook(of(p)); heat > warmed && custard && (p.Kind == safety.EggDish || p.Kind == safety.Soup) {
				p.Kind = safety.Custard
			}
		}
	}
}

// say puts in what somebody has said that the step leaves: for what nobody knows, and beside what is known.
func (l *Leaves) say(f *planner.Food) {
	switch {
	case f.Kind == "" && !f.Perishable:
	case f.Kind == safety.None:
		for i := range l.Parts {
			if !l.Parts[i].Known {
				l.Parts[i].Kind, l.Parts[i].Known = safety.None, true
			}
		}
	default:
		k := f.Kind
		if k == "" {
			k = safety.Cooked
		}
		n := len(l.Parts)
		l.Parts = slices.DeleteFunc(l.Parts, func(p Part) bool { return !p.Known || p.Said && p.Kind != k })
		if l.Kind() != k || len(l.Parts) < n {
			l.Parts = append(l.Parts, Part{Name: k.Label(), Kind: k, Known: true, Said: true, Half: f.PartCooked,
				Cooked: !k.Raw() && k != safety.RawEgg && k != safety.CutProduce && k != safety.Sprouts})
		}
	}
	if !f.PartCooked {
		return
	}
	half := false
	for i := range l.Parts {
		l.Parts[i].Half = l.Parts[i].Half || l.Parts[i].Kind.Raw()
		half = half || l.Parts[i].Half
	}
	for i := range l.Parts {
		l.Parts[i].Half = l.Parts[i].Half || !half && l.Parts[i].Kind != safety.None
	}
}

// Chills says of a dish's step whose words name no place, that nobody attends and that is longer than food may be out
// of the cold, that it is in the refrigerator: so a cook would have it; not of what came hot and is left in its pot.
func Chills(p *planner.Party, d *planner.Dish, s *planner.Step) bool {
	foods := OfDish(p, d)
	l := foods.Leaves(d.Key, s.Key)
	most := p.CounterLimit().Minutes
	if foods.keptWarm(d, s, false, 0) {
		return false // the rice that is left in the pan overnight
	}
	return s.Where == planner.Counter && s.Attention == planner.Unattended && l.Perishable && !l.Hot && !l.Dough &&
		PlaceIn(s.Do) == "" && int(s.Time.Likely) > most
}

// keptWarm says whether what a step works with came hot, and has since been left in what keeps it warm, in no cold.
func (t *Trace) keptWarm(d *planner.Dish, s *planner.Step, left bool, depth int) bool {
	left = left || read(s.Do).any[keepsWarm]
	return depth < len(d.Steps) && slices.ContainsFunc(s.After, func(a planner.After) bool {
		before := d.Step(a.Step)
		if a.Dish != "" || a.FromStart || before == nil || a.Wait.State == planner.Refrigerator ||
			before.Where == planner.Refrigerator || before.Where == planner.Freezer {
			return false
		}
		if t.Leaves(d.Key, before.Key).Hot {
			return left
		}
		return t.keptWarm(d, before, left, depth+1)
	})
}
