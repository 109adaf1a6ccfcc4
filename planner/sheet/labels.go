package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/food"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// Labels are the labels for what stands in the refrigerator or the freezer in a plan, in the order in which it goes in,
// a section a container: what it is, for how many, which allergens its words tell of, when it was made, by when it is
// used, where it is kept, what is still to be done with it. A container is what a step leaves; food of which several
// steps take has one. Whoever shows them adds [safety.Caution] and [safety.AllergenCaution].
func Labels(p *planner.Party, plan *planner.Plan, f Format) []Section {
	v := newView(p, plan, f)
	stays := v.stays()
	var labels []label
	for _, s := range stays {
		if s.wait.State != planner.Refrigerator && s.wait.State != planner.Freezer || s.length() < time.Minute {
			continue
		}
		i := slices.IndexFunc(labels, func(l label) bool {
			return l.dish == s.dish && l.from == s.from && l.state == s.wait.State
		})
		if i < 0 {
			labels, i = append(labels, label{dish: s.dish, from: s.from, state: s.wait.State}), len(labels)
		}
		labels[i].stays = append(labels[i].stays, s)
	}
	slices.SortStableFunc(labels, func(a, b label) int { return a.stays[0].since.Compare(b.stays[0].since) })
	ages := check.AgesOf(v.p, v.plan)
	var out []Section
	for _, l := range labels {
		out = append(out, v.label(&l, ages))
	}
	return out
}

// label is a container: what a step leaves, in one state, with each of its waits.
type label struct {
	dish  *planner.Dish
	from  *planner.Step
	state planner.State
	stays []stay
}

func (v *view) label(l *label, ages *check.Ages) Section {
	title := clean(l.dish.Name)
	if l.from.Component != "" {
		title += ": " + clean(l.from.Component)
	}
	made, until := l.stays[0].since, l.stays[0].until
	for _, s := range l.stays {
		if s.until.After(until) {
			until = s.until
		}
	}
	sec := Section{Title: title, Lines: []string{
		fmt.Sprintf("After %q, for %d covers", trimStop(l.from.Do), l.dish.Makes(v.p)),
	}}
	contents := v.contents(l.dish, l.from)
	if len(contents) > 0 {
		sec.Lines = append(sec.Lines, "Made of "+words.And(contents))
	}
	sec.Lines = append(sec.Lines, allergenLines(contents)...)
	sec.Lines = append(sec.Lines, servedWith(contents, v.meets(l.dish, l.from, ages))...)
	by, first := v.useBy(l, ages)
	when := "Made " + v.dated(made)
	if !first.IsZero() && first.Before(made) {
		when = "First cooked " + v.dated(first) + ", made " + v.dated(made)
	}
	sec.Lines = append(append(sec.Lines, when, by), v.rawEgg(l, ages)...)
	sec.Lines = append(sec.Lines,
		fmt.Sprintf("Kept in the %s until %s", l.state, v.dated(until)))
	slices.SortStableFunc(l.stays, func(a, b stay) int { return a.until.Compare(b.until) })
	for _, s := range l.stays {
		sec.Lines = append(sec.Lines, v.remains(&s))
	}
	return sec
}

// dated is an instant with its full date: a label is read when the weekday no longer tells.
func (v *view) dated(t time.Time) string { return v.f.Stamp(t, Date) + " " + v.f.Stamp(t, Clock) }

// rawEgg says of what has raw egg in it how long that keeps, where the line above it speaks of another food.
func (v *view) rawEgg(l *label, ages *check.Ages) []string {
	limit := v.p.RefrigeratorLimit(safety.RawEgg)
	if !slices.ContainsFunc(ages.Leaves(l.dish.Key, l.from.Key).Parts, func(p trace.Part) bool {
		return p.Kind == safety.RawEgg && !p.Cooked
	}) || !limit.Applies() {
		return nil
	}
	return []string{fmt.Sprintf("Raw egg is in it: %s", limit)}
}

// firstCooked is when a sort of cooked food that a step leaves was first cooked in a plan; frozen says whether it has
// been in the freezer since.
func (v *view) firstCooked(d *planner.Dish, s *planner.Step, sort trace.Cold, ages *check.Ages,
	depth int) (first time.Time,
	frozen bool) {
	l := ages.Leaves(d.Key, s.Key)
	if !slices.Contains(l.Colds(), sort) || depth > maxDepth {
		return first, false
	}
	for i := range s.After {
		a := &s.After[i]
		from := d
		if a.Dish != "" {
			from = v.p.Dish(a.Dish)
		}
		if a.FromStart || from == nil || from.Step(a.Step) == nil {
			continue
		}
		at, was := v.firstCooked(from, from.Step(a.Step), sort, ages, depth+1)
		frozen = frozen || was || !at.IsZero() && a.Wait.State == planner.Freezer
		if !at.IsZero() && (first.IsZero() || at.Before(first)) {
			first = at
		}
	}
	if _, end, ok := v.rounds(d, s); first.IsZero() && l.Hot && ok {
		first = end
	}
	return first, frozen
}

// maxDepth is how many steps a label looks back; a dish has fewer.
const maxDepth = 60

// useBy is the published limit counted from when the food was first cooked, or its time in the refrigerator began where
// it is raw, or the dish's own where that is sooner; first is when it was first cooked.
func (v *view) useBy(l *label, ages *check.Ages) (text string, first time.Time) {
	s := l.stays[0]
	own, ownSet := time.Time{}, false
	for _, x := range l.stays {
		if x.wait.Longest > 0 {
			if by := x.since.Add(x.wait.Longest.Duration()); !ownSet || by.Before(own) {
				own, ownSet = by, true
			}
		}
	}
	ownText := ""
	if ownSet {
		ownText = "Use by " + v.dated(own) + ": the dish's own limit"
	}
	leaves := ages.Leaves(l.dish.Key, l.from.Key)
	if !leaves.Perishable {
		return cmp.Or(ownText, "Food that keeps, as far as is known: no published limit is counted"), first
	}
	cold := ages.Cold(l.dish.Key, l.from.Key)
	var sort trace.Cold
	var by time.Time
	left, limit := 0, safety.Limit{}
	for _, c := range leaves.Colds() {
		most := v.p.RefrigeratorLimit(c.Kind)
		if !most.Applies() {
			continue
		}
		n := most.Minutes - cold[c]
		ends := s.since.Add(time.Duration(n) * time.Minute)
		if c.Cooked {
			cooked, frozen := v.firstCooked(l.dish, l.from, c, ages, 0)
			if from := cooked.Add(time.Duration(most.Minutes) * time.Minute); !cooked.IsZero() && !frozen && from.Before(ends) {
				ends = from
			}
			if !cooked.IsZero() && (first.IsZero() || cooked.Before(first)) {
				first = cooked
			}
		}
		if !limit.Applies() || ends.Before(by) || ends.Equal(by) && food.Stricter(sort.Kind, c.Kind) == c.Kind {
			limit, sort, left, by = most, c, n, ends
		}
	}
	if !limit.Applies() {
		return cmp.Or(ownText, "No published limit for "+leaves.Kind().Label()), first
	}
	if l.state == planner.Freezer {
		return fmt.Sprintf("Once thawed use within %s in the refrigerator: the limit for %s is %s; in the freezer it "+
			"stands still", words.Length(max(left, 0)), leaves.Label(sort), limit), first
	}
	if ownSet && own.Before(by) {
		return ownText, first
	}
	line := fmt.Sprintf("Use by %s: the limit for %s is %s", v.dated(by), leaves.Label(sort), limit)
	if sort.Kind.Raw() {
		line += "; what is raw counts from when it was bought"
	}
	return line, first
}

// remains is what comes next: when, what, at which heat, how long, who; or when it is served.
func (v *view) remains(s *stay) string {
	if s.to == nil {
		return fmt.Sprintf("Then: %s serve it, %s", v.f.Stamp(s.until, DayClock), v.course(s.dish.Course))
	}
	for _, pl := range v.placed() {
		t := v.tasks[pl.Task]
		// The stay's dish is the one that it comes from: the step itself tells which dish goes on.
		if _, step := v.p.StepOf(t); step != s.to || !pl.Start.Equal(s.until) && t.Rounds == 1 {
			continue
		}
		line := fmt.Sprintf("Then: %s %s", v.f.Stamp(pl.Start, DayClock), v.called(t))
		for _, h := range pl.Uses {
			if h.What == planner.AnOven && h.C > 0 {
				line += fmt.Sprintf(", %s at %d °C", v.ovenName(h.Name), h.C)
			}
		}
		line += ", " + length(pl.End.Sub(pl.Start))
		if s.to.Until != "" {
			line += ", until " + trimStop(s.to.Until)
		}
		if who := v.people(pl); who != "" {
			line += " – " + who
		}
		return line + v.mark(pl.Task)
	}
	return "Then: " + trimStop(s.to.Do)
}

// contents are the names of what has gone into what a step leaves: the ingredients that it and the steps before it
// take. An ingredient of which nobody has said what needs it counts with every step of its dish: a label leaves nothing
// out.
func (v *view) contents(d *planner.Dish, s *planner.Step) []string {
	seen := v.upTo(d, s)
	var names []string
	for i := range v.p.Dishes {
		dish := &v.p.Dishes[i]
		for j := range dish.Ingredients {
			in := &dish.Ingredients[j]
			if dish.CoolsWith(in) {
				continue
			}
			if slices.ContainsFunc(seen, func(x place) bool {
				return x.dish == dish && (in.Step == "" || x.step.Key == in.Step)
			}) {
				if name := clean(in.Name); !slices.Contains(names, name) {
					names = append(names, name)
				}
			}
		}
	}
	return names
}

// place is a step of a dish.
type place struct {
	dish *planner.Dish
	step *planner.Step
}

// upTo are a step and those that its food comes from.
func (v *view) upTo(d *planner.Dish, s *planner.Step) (seen []place) {
	todo := []place{{d, s}}
	for len(todo) > 0 {
		x := todo[0]
		todo = todo[1:]
		if x.dish == nil || x.step == nil || slices.Contains(seen, x) {
			continue
		}
		seen = append(seen, x)
		for _, a := range x.step.After {
			from := x.dish
			if a.Dish != "" {
				from = v.p.Dish(a.Dish)
			}
			if from != nil && !a.FromStart {
				todo = append(todo, place{from, from.Step(a.Step)})
			}
		}
	}
	return seen
}

// meets are the names of what meets the food of a step only when the dish is served, by its steps: what a recipe lays
// together without saying so may lie in the container already.
func (v *view) meets(d *planner.Dish, s *planner.Step, ages *check.Ages) (names []string) {
	last := &d.Steps[len(d.Steps)-1]
	before := v.upTo(d, last)
	if last == s || ages.Leaves(d.Key, last.Key).Hot || !slices.Contains(before, place{d, s}) {
		return nil
	}
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		at := d.Step(in.Step)
		if at == nil || at == last || d.CoolsWith(in) || !slices.Contains(before, place{d, at}) {
			continue
		}
		alone := !slices.ContainsFunc(d.Steps, func(o planner.Step) bool {
			here := d.Step(o.Key)
			both := v.upTo(d, here)
			return here != last && slices.Contains(both, place{d, at}) && slices.Contains(both, place{d, s})
		})
		if alone {
			names = append(names, clean(in.Name))
		}
	}
	return names
}

// servedWith says which allergens come to the food when it is served, of those that are not in it.
func servedWith(contents, with []string) []string {
	var out []string
	for _, name := range with {
		for _, f := range safety.Allergens(name) {
			if _, in := safety.AllergenIn(strings.Join(contents, ", "), f.Allergen); !in {
				out = append(out, fmt.Sprintf("%s (%s)", f.Allergen, name))
			}
		}
	}
	if len(out) == 0 {
		return nil
	}
	return []string{"In the dish with it: " + words.And(out)}
}

// allergenLines say which allergens the ingredients' words tell of, the sure ones first.
func allergenLines(ingredients []string) []string {
	var sure, perhaps []string
	has := func(list []string, a safety.Allergen) bool {
		return slices.ContainsFunc(list, func(s string) bool { return strings.HasPrefix(s, string(a)+" (") })
	}
	for _, want := range []safety.Certainty{safety.Contains, safety.MayContain} {
		for _, name := range ingredients {
			for _, f := range safety.Allergens(name) {
				if f.Certainty != want || has(sure, f.Allergen) || has(perhaps, f.Allergen) {
					continue
				}
				said := fmt.Sprintf("%s (%s)", f.Allergen, name)
				if want == safety.Contains {
					sure = append(sure, said)
				} else {
					perhaps = append(perhaps, said)
				}
			}
		}
	}
	if len(sure)+len(perhaps) == 0 {
		if len(ingredients) == 0 {
			return []string{"Contains: its ingredients are not noted"}
		}
		return []string{"Allergens: none named in the ingredients; traces not checked"}
	}
	var out []string
	if len(sure) > 0 {
		out = append(out, "Contains "+words.And(sure))
	}
	if len(perhaps) > 0 {
		out = append(out, "May contain "+words.And(perhaps)+": look at the packet")
	}
	return out
}
