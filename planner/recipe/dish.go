package recipe

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/portion"
	"tureen/planner/remark"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/ware"
	"tureen/planner/words"
)

// How long food stands where a recipe does not say: common practice, no source. They are wishes and the host's to
// change; the published limits hold beside them.
const (
	hotBest, hotFloor     = 10, 30    // a hot dish before service
	coldBest, coldFloor   = 15, 60    // a cold one
	betweenBest, between  = 10, 45    // hot food before the next step
	onceBest, onceFloor   = 3, 10     // "serve at once"
	warmFloor             = 20        // what was warmed again, before the next step
	readyFloor            = 12 * hour // cut vegetables on the counter
	readyBest             = 4 * hour  // what is cut, of a class that nobody knows
	toWarm                = 90        // the same where that warms it again
	unknownBest           = 30        // what else nobody knows how to keep
	outFloor              = 60        // what was taken out of the cold in time for what is next
	tableBest             = hour      // what is finished for the table
	ovenTolerance         = 10        // °C
	defaultOvenC          = 180       // a moderate oven; always asked
	betterFrom, betterEnd = 12 * hour, 36 * hour
)

// Dish makes a dish of the reading, for the course, made for so many covers (0: the party's). The questions are
// those of the reading. The kitchen may lack what its steps use: the caller knows the kitchen.
func (r *Reading) Dish(course planner.CourseKey, covers int) (planner.Dish, []Question) {
	serves := r.Serves
	if serves == 0 {
		if serves = r.covers; serves == 0 {
			serves = DefaultServes
		}
	}
	d := planner.Dish{Key: planner.DishKey(planner.Key(r.Title)), Name: r.Title, Course: course,
		Serves: min(serves, planner.MaxCovers), Covers: covers, Note: r.note()}
	if d.Key == "" {
		d.Key = "dish"
	}
	keys := r.keys()
	made, after, food := r.skeleton(keys)
	d.Steps, d.Ingredients = made.Steps, made.Ingredients
	for i := range d.Steps {
		if trace.Chills(&planner.Party{}, &made, &made.Steps[i]) {
			d.Steps[i].Where = planner.Refrigerator
		}
	}
	for i := range r.Steps {
		for k, a := range after[i] {
			w := r.wait(a, i, food[a])
			if r.Steps[a].keptFor > 0 && !food[a].PartCooked {
				w = r.asSaid(&r.Steps[a], food[a].Food)
			}
			if _, said := r.saidWait(a, i, food[a]); said && r.hotAgain(a, i, food[a], w) {
				cold := w
				d.Steps[a].Ahead = &cold // it is cooled and made hot again, or neither
				w = planner.Wait{State: planner.Counter, BestUntil: betweenBest, WorthUntil: between}
			}
			if d.Steps[a].Where == planner.Refrigerator && w.State == planner.Counter {
				w = planner.Wait{State: planner.Refrigerator} // where it is already
			}
			d.Steps[i].After[k].Wait = w
		}
	}
	if len(d.Steps) == 0 {
		d.Steps = []planner.Step{{Key: "make", Do: "Make it", Attention: planner.Hands, Where: planner.Counter,
			Time: planner.Span{Low: 20, Likely: 30, High: 45}}}
	} else {
		r.aheadOf(&d)
		last := len(d.Steps) - 1
		w := r.serve(last, food[last])
		d.Steps[last].Serve = &w
	}
	if r.Unlisted {
		r.restsUnknown(&d)
	}
	fillVolumes(&d)
	return d, r.Questions
}

// fillVolumes says of what goes into an appliance about how much there is: what the ingredients weigh that are in it by
// then, a gram as a millilitre.
func fillVolumes(d *planner.Dish) {
	for i := range d.Steps {
		s := &d.Steps[i]
		machine := slices.ContainsFunc(s.Uses, func(u planner.Use) bool { return u.What == planner.AnAppliance })
		if s.Leaves.Millilitres > 0 || !machine {
			continue
		}
		ml := 0.0
		for k := range d.Ingredients {
			in := &d.Ingredients[k]
			at := slices.IndexFunc(d.Steps, func(o planner.Step) bool { return o.Key == in.Step })
			if grams, ok := portion.Grams(in); ok && at <= i {
				ml += grams
			}
		}
		s.Leaves.Millilitres = min(int(ml/50+0.5)*50, mostMillilitres)
	}
}

// mostMillilitres is more than any step leaves that anybody can cook at home.
const mostMillilitres = 500_000

// note keeps what the recipe says and no step holds.
func (r *Reading) note() string {
	var all []string
	for _, m := range r.Remarks {
		said := m.From.Text // several remarks may be read from one sentence, or from a part of it
		if m.Kind != remark.Unread && !slices.ContainsFunc(all, func(o string) bool { return strings.Contains(o, said) }) {
			all = append(slices.DeleteFunc(all, func(o string) bool { return strings.Contains(said, o) }), said)
		}
	}
	return words.Cut(strings.Join(all, " "), 300)
}

// keys names the steps by their verb and noun: brown-beef, chill.
func (r *Reading) keys() []planner.StepKey {
	var out []planner.StepKey
	for i := range r.Steps {
		s := &r.Steps[i]
		name := "ready"
		if !s.Ready || s.key != "" {
			name = "step"
			if s.key != "" {
				name = s.key
			} else if w, _, ok := actionWord(s.Do); s.kind == doing.InOven {
				name = "oven"
			} else if ok {
				name = w
			}
		}
		key := planner.StepKey(planner.Key(name))
		if key == "" {
			key = "step"
		}
		for n := 2; slices.Contains(out, key); n++ {
			key = planner.StepKey(fmt.Sprintf("%s-%d", planner.Key(name), n))
		}
		out = append(out, key)
	}
	return out
}

func (r *Reading) step(i int, keys []planner.StepKey, food planner.Food) planner.Step {
	s := &r.Steps[i]
	t := planner.Span{Low: clampLength(s.Time.Low), High: clampLength(s.Time.High)}
	t.Likely = (t.Low + t.High + 1) / 2
	st := planner.Step{Key: keys[i], Do: words.Cut(s.Do, planner.MaxText-1), Component: s.Section, Attention: s.Attention,
		Time: t, Until: words.Cut(s.Until, planner.MaxText-1), Where: s.Where, Cooks: s.Cooks,
		Leaves: food, Away: s.Away, Source: r.toldOf(i)}
	if s.Attention == planner.Touch {
		st.Every = planner.Minutes(max(s.Every, 1))
	}
	if (s.kind == doing.ByHand || s.kind == doing.Serving) && s.said.High == 0 && s.growsWithCovers() ||
		s.kind == doing.OverBurner &&
			words.Has(s.Do, "batches") {
		st.Grows = planner.InProportionToCovers // peeling, plating and frying in batches grow with the covers
	}
	switch s.Heat {
	case planner.AnOven:
		c := defaultOvenC
		if s.Oven.Temperature != 0 {
			c = s.Oven.Conventional().OvenC()
		}
		c = min(max(c, minOvenC), planner.MaxOvenC)
		u := planner.Use{What: planner.AnOven, C: c, Tolerance: ovenTolerance, For: r.shelfFor(i)}
		for _, ch := range s.Then {
			if planner.Minutes(ch.After) < t.Low {
				u.Then = append(u.Then, planner.HeatStage{After: planner.Minutes(ch.After),
					C: min(max(ch.Oven.Conventional().OvenC(), minOvenC), planner.MaxOvenC)})
			}
		}
		st.Uses = append(st.Uses, u)
	case planner.ABurner, planner.AGrill:
		st.Uses = append(st.Uses, planner.Use{What: s.Heat})
	}
	for _, th := range r.thingsIn(i) {
		u := planner.Use{What: planner.AVessel, Name: th.Name}
		if th.Appliance {
			u.What = planner.AnAppliance
		} else if s.Heat == planner.AnOven || givesForm(th) {
			u.For = r.shelfFor(i)
		}
		st.Uses = append(st.Uses, u)
	}
	return st
}

// toldOf is the text that a step was read from, and in lines of their own the remarks that stand right behind it.
func (r *Reading) toldOf(i int) string {
	text := r.Steps[i].From.Text
	for _, m := range r.Remarks {
		if m.step == i+1 && m.step < len(r.Steps) && !m.whole && !strings.Contains(text, m.From.Text) {
			text += "\n" + m.From.Text
		}
	}
	return text
}

// thingsIn are the things that a step takes. A tin that is filled right before it is baked is the oven's step's: of it
// a second one is baked beside the first.
func (r *Reading) thingsIn(i int) (out []ware.Thing) {
	s := &r.Steps[i]
	for _, th := range s.Things {
		if !(givesForm(th) && s.kind == doing.ByHand && i+1 < len(r.Steps) && r.Steps[i+1].takesTin(i)) {
			out = append(out, th)
		}
	}
	if i > 0 && s.takesTin(i-1) && r.Steps[i-1].kind == doing.ByHand {
		for _, th := range r.Steps[i-1].Things {
			if givesForm(th) {
				out = append(out, th)
			}
		}
	}
	return out
}

// takesTin reports whether a step bakes what the one before it has filled, in a tin that it does not name.
func (s *Step) takesTin(before int) bool {
	return s.Heat == planner.AnOven && len(s.Things) == 0 && slices.Contains(s.after, before)
}

// givesForm reports whether a vessel gives what is baked in it its form.
func givesForm(t ware.Thing) bool {
	return slices.ContainsFunc(forms, func(w string) bool { return strings.Contains(t.Name, w) })
}

// forms are of the names of vessels that give what is baked in them its form. Common practice, no source.
var forms = phrases.Phrases("forms")

// trayFor is for how many covers the shelf and the tin of a recipe are enough: what it serves, and a quarter more.
// Common practice, no source.
func (r *Reading) trayFor() int { return min(r.Serves*5/4, planner.MaxCovers) }

// potCovers is for how many covers a casserole of 7 litres is enough, at half a litre each: common practice, no source.
const potCovers = 14

// shelfFor is for how many covers the shelf of a step is enough: what stands in a pot is deeper than on a tray.
func (r *Reading) shelfFor(i int) int {
	if r.Serves > 0 && r.inPot(i) {
		return max(r.trayFor(), potCovers)
	}
	return max(r.trayFor(), r.onShelf(i))
}

// inPot reports whether a step's food is in a pot, by the vessel that was named last, or by what is done.
func (r *Reading) inPot(i int) bool {
	for n := i; n >= 0; n-- {
		if r.Steps[n].Section != r.Steps[i].Section {
			continue
		}
		for _, t := range r.Steps[n].Things {
			if !t.Appliance && t.Name != "mixing bowl" {
				return t.Name == "casserole" || t.Name == "large pot"
			}
		}
	}
	return words.Has(r.Title, "stew", "daube", "goulash", "tagine", "ragu", "ragù") ||
		words.Has(r.Steps[i].Do, "braise", "stew")
}

// growsWithCovers reports whether work by hand takes longer for more covers, by its verbs: peeling does, greasing a tin
// and folding a batter do not.
func (s *Step) growsWithCovers() bool {
	if s.Ready || s.grows {
		return true
	}
	if len(s.spans) > 0 || s.key != "" {
		return false
	}
	for _, do := range strings.Split(s.Do, "; ") {
		w, _, ok := actionWord(do)
		if row := method.Verb(w); !ok || row != nil && row.Per != "batch" {
			return true
		}
	}
	return false
}

func clampLength(m int) planner.Minutes {
	return min(max(planner.Minutes(m), 1), planner.MaxLength)
}

// wait is how the food waits from one step to a later one.
func (r *Reading) wait(from, to int, food leaving) planner.Wait {
	a, b := &r.Steps[from], &r.Steps[to]
	if food.PartCooked || (a.aside || b.aside) && !a.Ready && to == from+1 {
		return planner.Wait{State: planner.Straight}
	}
	if r.standsOut(from) {
		return planner.Wait{State: planner.Counter, BestUntil: unknownBest, WorthUntil: outFloor}
	}
	if w, ok := r.saidWait(from, to, food); ok {
		return w
	}
	switch {
	case a.Where == planner.Refrigerator || a.Where == planner.Freezer:
		return r.inTheCold(a, food)
	case food.Perishable && !food.hot && b.kind == doing.Standing && trace.TakesOut(b.Do):
		// It is taken out of the cold there.
		if food.known && food.keeps.State == planner.Refrigerator {
			return food.keeps
		}
		return planner.Wait{State: planner.Refrigerator}
	case a.Ready:
		return r.readyWaits(food)
	case a.Cooks && (b.Cooks || b.kind == doing.Standing) && b.straight, b.mid && a.Heat != "", a.mid && b.Heat != "",
		to == from+1 && r.onItsWay(from, to):
		return planner.Wait{State: planner.Straight}
	}
	return r.waitOut(from, to, food)
}

// waitOut is how food waits on the counter from one step to a later one, or as the table of waits says.
func (r *Reading) waitOut(from, to int, food leaving) planner.Wait {
	a, b := &r.Steps[from], &r.Steps[to]
	switch {
	case a.lead > 0 && a.kind == doing.ByHand && !r.heatedOn(to):
		return planner.Wait{State: planner.Counter, BestUntil: planner.Minutes(a.lead + a.lead/2),
			WorthUntil: planner.Minutes(3 * a.lead)}
	case r.justWarmed(from, 0):
		return planner.Wait{State: planner.Counter, BestUntil: betweenBest, WorthUntil: warmFloor}
	case r.waitsFor(&food, b) && !r.atOnce(to):
		return food.keeps
	case a.Cooks && food.Perishable && remark.Reheats(words.Small(b.Do)):
		return planner.Wait{State: planner.Counter, BestUntil: toWarm}
	case a.Cooks && food.Perishable, food.sets:
		return planner.Wait{State: planner.Counter, BestUntil: betweenBest, WorthUntil: between}
	}
	return planner.Wait{State: planner.Counter, BestUntil: unknownBest}
}

// saysAtOnce reports that a step is to be eaten as soon as it is done.
func saysAtOnce(s *Step) bool { return words.Has(words.Small(s.Do), onceWords...) }

var onceWords = phrases.Phrases("at once")

// atOnce reports that a step does no more than serve at once what one step before it leaves: that waits for nothing.
func (r *Reading) atOnce(i int) bool {
	s := &r.Steps[i]
	return s.kind == doing.Serving && len(s.Parts) == 0 && len(r.Order()[i]) == 1 && saysAtOnce(s)
}

// hotAgain reports whether what a part leaves hot would wait in the cold, as the recipe says that it can, and be served
// so: nothing on its way to the table makes it hot again.
func (r *Reading) hotAgain(from, to int, food leaving, w planner.Wait) bool {
	if w.State != planner.Refrigerator || !food.hot || food.PartCooked || r.Steps[from].keptFor > 0 ||
		r.Steps[from].Where == planner.Refrigerator || r.Steps[from].Where == planner.Freezer || !r.warm() {
		return false
	}
	return !r.heatedOn(to)
}

// heatedOn reports whether a step, or one that comes after it, heats the food or puts it into the cold.
func (r *Reading) heatedOn(i int) bool {
	order := r.Order()
	var heats func(i int) bool
	heats = func(i int) bool {
		if s := &r.Steps[i]; s.Heat != "" || s.Where == planner.Refrigerator || s.Where == planner.Freezer {
			return true
		}
		for k := i + 1; k < len(order); k++ {
			if slices.Contains(order[k], i) && heats(k) {
				return true
			}
		}
		return false
	}
	return heats(i)
}

// justWarmed reports whether a step leaves what was warmed for the table, and no more than mixed or laid out after
// that: it is to be eaten warm.
func (r *Reading) justWarmed(i, depth int) bool {
	s := &r.Steps[i]
	if s.Heat != "" {
		return warmedUp(words.Small(s.Do))
	}
	return s.kind == doing.ByHand && depth < len(r.Steps) && slices.ContainsFunc(s.after, func(a int) bool {
		return r.justWarmed(a, depth+1)
	})
}

// warmedUp reports whether a step's words begin with warming what was cooked before.
func warmedUp(low string) bool {
	return remark.Reheats(low) || strings.HasPrefix(low, "warm ") && words.Has(low, "through")
}

// readyWaits is how what was got ready waits: cut vegetables, weighed flour.
func (r *Reading) readyWaits(food leaving) planner.Wait {
	if food.known {
		return food.keeps
	}
	w := planner.Wait{State: r.cold(food.Food), BestUntil: readyBest}
	if w.State == planner.Counter {
		w.WorthUntil = readyFloor
	}
	return w
}

// standsOut reports whether food has been taken out of the cold for what comes next, to be cooked or eaten, and so does
// not go back there after a step by hand: cheese that is laid on its board, a joint that is rubbed with oil.
func (r *Reading) standsOut(i int) bool {
	order := r.Order()
	var look func(i, depth int) bool
	look = func(i, depth int) bool {
		s := &r.Steps[i]
		switch {
		case s.kind == doing.Standing && s.Where == planner.Counter && trace.TakesOut(s.Do):
			return true
		case s.kind != doing.ByHand || depth > len(r.Steps):
			return false
		}
		return slices.ContainsFunc(order[i], func(before int) bool { return look(before, depth+1) })
	}
	return look(i, 0)
}

// saidWait is how food waits for a step by a remark of the recipe.
func (r *Reading) saidWait(from, to int, food leaving) (planner.Wait, bool) {
	unplanned := r.aheadUnplanned() != nil
	after := r.Order()[to]
	all := slices.Clone(r.Remarks) // what is said of a part goes before what is said of the whole
	slices.SortStableFunc(all, func(a, b Remark) int { return a.step - b.step })
	for _, m := range all {
		if m.ofLeftovers() {
			continue
		}
		if m.step == len(r.Steps) && (unplanned || m.step != to && r.fromTheCold(from)) {
			break
		}
		if m.step != to && !(m.step == from+1 && !r.Steps[from].Ready) &&
			!(m.step == len(r.Steps) && to == len(r.Steps)-1 && r.Steps[to].kind == doing.Serving) {
			continue
		}
		if m.step == to && from != to-1 && slices.Contains(after, to-1) && r.Steps[from].Section != r.Steps[to-1].Section {
			continue // it is said of the part before it, and this is another
		}
		switch m.Kind {
		case remark.Ahead, remark.Keeps:
			return planner.Wait{State: r.cold(food.Food), WorthUntil: planner.Minutes(min(m.Time.High, int(planner.MaxWait)))},
				true
		case remark.Better:
			return planner.Wait{State: r.cold(food.Food), BestFrom: betterFrom, BestUntil: betterEnd}, true
		}
	}
	return planner.Wait{}, false
}

// ofLeftovers reports what is said of what is left over, which makes nothing ahead.
func (k *Remark) ofLeftovers() bool { return words.Has(words.Small(k.From.Text), leftovers...) }

var leftovers = phrases.Phrases("leftovers")

// fromTheCold reports whether a step by hand takes up what has stood in the cold: it is turned out, and not kept on.
func (r *Reading) fromTheCold(i int) bool {
	return r.Steps[i].kind == doing.ByHand && slices.ContainsFunc(r.Order()[i], func(k int) bool {
		return r.Steps[k].Where == planner.Refrigerator || r.Steps[k].Where == planner.Freezer
	})
}

// inTheCold is how food that a step has put into the cold waits on there: as long as the recipe says, or as food of its
// class does.
func (r *Reading) inTheCold(s *Step, food leaving) planner.Wait {
	w := planner.Wait{State: s.Where}
	switch {
	case s.Longest.High > s.Time.Low:
		w.WorthUntil = planner.Minutes(min(s.Longest.High-s.Time.Low, int(planner.MaxWait)))
	case food.known && food.keeps.State == s.Where:
		w = food.keeps
	}
	return w
}

// onItsWay reports that a step is in the middle of a longer one, or begins when the one before it ends.
func (r *Reading) onItsWay(from, to int) bool {
	return r.within(to) || r.within(from) || r.goesOn(from, to)
}

// within reports that a step by hand is done in the middle of a longer one: take off the lid, add the barley.
func (r *Reading) within(i int) bool {
	return i > 0 && i+1 < len(r.Steps) && r.Steps[i].kind == doing.ByHand && r.Steps[i].straight &&
		r.Steps[i].clauses < 3 && r.Steps[i-1].Heat != "" && r.Steps[i+1].Heat == r.Steps[i-1].Heat && r.Steps[i+1].straight
}

// A rest of so many minutes begins when what is before it ends; longer ones may begin when there is time. Common
// practice, no source.
const shortRest = 45

// goesOn reports that a step begins when the one before it ends, by what it is: the minutes in which food stands or
// cools, and what a batter with leavening goes through once it is mixed, up to its heat.
func (r *Reading) goesOn(from, to int) bool {
	a, b := &r.Steps[from], &r.Steps[to]
	if a.Ready || a.Where == planner.Refrigerator || a.Where == planner.Freezer || trace.TakesOut(b.Do) {
		return false
	}
	if b.kind == doing.Standing && b.Time.High <= shortRest {
		return true
	}
	// What rests, rises or chills does so at once, and what has cooled goes into the cold.
	if b.kind.Waits() && (a.kind == doing.ByHand || a.kind == doing.Standing && b.kind != doing.Standing) {
		return true
	}
	mixed := r.leavened(a.Section)
	return mixed >= 0 && from >= mixed && (b.kind == doing.ByHand || b.kind.Heats()) && !r.cookedBetween(mixed, to)
}

// wet are the classes of food that set baking powder to work.
var wet = words.Set("milk cream yogurt plant-milk coconut-milk condensed-milk eggs " +
	"raw-egg oil syrup juice water beer wine")

// leavened is the step that leaves a batter or dough with baking powder or soda wet, so that it works from then on; -1
// where there is none. What yeast raises waits as long as its rises say.
func (r *Reading) leavened(section string) int {
	powder := -1
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.Section != section || s.Ready {
			continue
		}
		for _, g := range s.Parts {
			f, ok := food.Find(r.Ingredients[g].Name)
			if ok && powder < 0 && (f.Class.Name == "leaven" && f.Name != "yeast" || f.Name == "self-raising flour") {
				powder = i
			}
		}
		if powder < 0 || s.kind != doing.ByHand {
			continue
		}
		low := words.Small(s.Do)
		if strings.HasPrefix(low, "in another") || strings.HasPrefix(low, "in a separate") ||
			strings.HasPrefix(low, "in a second") {
			continue
		}
		if words.Has(low, "wet", "batter", "dough", "dry") {
			return i
		}
		for _, g := range s.Parts {
			if f, ok := food.Find(r.Ingredients[g].Name); ok && wet[f.Class.Name] {
				return i
			}
		}
	}
	return -1
}

// cookedBetween reports whether any of the steps from one up to before another heats, chills or rests the food.
func (r *Reading) cookedBetween(from, to int) bool {
	for i := from; i < to; i++ {
		if r.Steps[i].kind != doing.ByHand && r.Steps[i].kind != doing.Preheat {
			return true
		}
	}
	return false
}

// warm reports whether the food is hot at the end, as far as the steps tell: it was heated, and neither chilled nor
// left to stand for long.
func (r *Reading) warm() bool {
	hot := false
	for i := range r.Steps {
		s := &r.Steps[i]
		switch {
		case s.Cooks:
			hot = true
		case s.kind == doing.Chilling || s.kind == doing.Freezing || s.kind == doing.Standing && s.Time.High >= 45:
			hot = false
		}
	}
	return hot
}

// aheadUnplanned is a remark that the dish can wait for a day, when nothing in the method warms it again: then it has
// two ways, and is served hot in each.
func (r *Reading) aheadUnplanned() *Remark {
	for i := range r.Remarks {
		if m := &r.Remarks[i]; !m.ofLeftovers() && (m.Kind == remark.Ahead || m.Kind == remark.Better ||
			m.Kind == remark.Keeps && m.Where != planner.Freezer && m.Where != planner.Counter) && m.step == len(r.Steps) &&
			r.warm() && r.spoils() {
			return m
		}
	}
	return nil
}

// aheadOf tells the last step that heats how long what it leaves may wait to be finished, where the recipe says it of
// the whole dish: whether it is made ahead is chosen when the plan is made.
func (r *Reading) aheadOf(d *planner.Dish) {
	r.freezes(d)
	m := r.aheadUnplanned()
	if m == nil {
		return
	}
	for i := len(d.Steps) - 1; i >= 0; i-- {
		if !d.Steps[i].Cooks {
			continue
		}
		w := planner.Wait{State: planner.Refrigerator, WorthUntil: planner.Minutes(min(m.Time.High, int(planner.MaxWait)))}
		if m.Kind == remark.Better {
			w = planner.Wait{State: planner.Refrigerator, BestFrom: betterFrom, BestUntil: betterEnd}
		}
		d.Steps[i].Ahead = &w
		return
	}
}

// freezes tells the last step that heats, or where none does the last, how long what it leaves may be frozen, where the
// recipe says so of the whole dish.
func (r *Reading) freezes(d *planner.Dish) {
	const usual = 28 * day // where it does not say how long; common practice, no source
	for i := range r.Remarks {
		m := &r.Remarks[i]
		if m.Kind != remark.Freezes || m.step != len(r.Steps) || len(d.Steps) == 0 {
			continue
		}
		at := len(d.Steps) - 1
		for k := range d.Steps {
			if d.Steps[k].Cooks && r.warm() {
				at = k
			}
		}
		long := m.Time.High
		if long == 0 {
			long = usual
		}
		d.Steps[at].Freezes = planner.Minutes(min(long, int(planner.MaxWait)))
	}
}

// asSaid is the wait that somebody has said of what a step leaves.
func (r *Reading) asSaid(s *Step, food planner.Food) planner.Wait {
	w := planner.Wait{State: s.keptIn, WorthUntil: planner.Minutes(min(s.keptFor, int(planner.MaxWait)))}
	if w.State == "" {
		w.State = r.cold(food)
	}
	return w
}

// cold is where food waits for hours: what keeps stays on the counter.
func (r *Reading) cold(food planner.Food) planner.State {
	if food.Perishable {
		return planner.Refrigerator
	}
	return planner.Counter
}

// serve is the wait from the last step to service.
func (r *Reading) serve(last int, food leaving) planner.Wait {
	hot, once := r.warm(), false
	for i := range r.Steps {
		if s := &r.Steps[i]; saysAtOnce(s) {
			once = s.kind == doing.Serving || i == last
		}
	}
	s := &r.Steps[last]
	if r.standsOut(last) {
		return planner.Wait{State: planner.Counter, BestUntil: coldBest, WorthUntil: coldFloor}
	}
	if s.lead > 0 {
		return planner.Wait{State: r.cold(food.Food), BestUntil: planner.Minutes(s.lead + s.lead/2),
			WorthUntil: planner.Minutes(3 * s.lead)}
	}
	if s.keptFor > 0 {
		return r.asSaid(s, food.Food)
	}
	for _, m := range r.Remarks {
		once = once || m.Kind == remark.Fresh && m.Time.High == 0
		if m.ofLeftovers() || m.step != len(r.Steps) || s.kind == doing.Serving || r.aheadUnplanned() != nil {
			continue
		}
		switch m.Kind {
		case remark.Ahead, remark.Keeps:
			return planner.Wait{State: r.cold(food.Food), WorthUntil: planner.Minutes(min(m.Time.High, int(planner.MaxWait)))}
		case remark.Better:
			return planner.Wait{State: r.cold(food.Food), BestFrom: betterFrom, BestUntil: betterEnd}
		}
	}
	switch {
	case s.Where == planner.Refrigerator || s.Where == planner.Freezer:
		return r.inTheCold(s, food)
	case once:
		return planner.Wait{State: planner.Counter, BestUntil: onceBest, WorthUntil: onceFloor}
	case food.known:
		return food.keeps
	case !food.Perishable:
		return planner.Wait{State: planner.Counter, BestUntil: tableBest, WorthUntil: readyFloor}
	case hot:
		return planner.Wait{State: planner.Counter, BestUntil: hotBest, WorthUntil: hotFloor}
	}
	return planner.Wait{State: planner.Counter, BestUntil: coldBest, WorthUntil: coldFloor}
}

// ingredients are the dish's, each with the step that needs it first. The same thing twice is one line where the
// amounts add up, and else named with its part.
func (r *Reading) ingredients(keys []planner.StepKey) []planner.Ingredient {
	var out []planner.Ingredient
	amounts := []measure.Quantity{}
	for i, g := range r.Ingredients {
		q := plainSpoons(g.Total())
		if q.IsZero() && g.Unit != measure.Each {
			if one, err := measure.New(1, 1, g.Unit); err == nil {
				q = one // a pinch
			}
		}
		name := words.Cut(strings.Join(nonEmpty(g.PieceSize(), g.Name), " "), planner.MaxName-20)
		var notes []string
		for _, x := range g.More {
			if x.Each && !x.Inches {
				notes = append(notes, x.Amount.String()+" each")
			}
		}
		notes = append(notes, nonEmpty(g.Preparation, g.Note)...)
		in := planner.Ingredient{Name: name, Note: words.Cut(strings.Join(notes, "; "), 200), Optional: g.Optional,
			Have: ingredient.Head(g.Name) == "water"}
		if at := slices.IndexFunc(out, func(o planner.Ingredient) bool {
			return planner.Key(o.Name) == planner.Key(name)
		}); at >= 0 {
			if sum, err := amounts[at].Add(q); err == nil && amounts[at].Adds(q) {
				amounts[at], out[at].Amount = sum, sum.String()
				continue
			}
			part := g.Section
			if part == "" {
				part = fmt.Sprint(i + 1)
			}
			in.Name += " (" + part + ")"
		}
		in.Amount = q.String()
		if _, known := kindOf(g.Name); !known && r.keeps == "yes" {
			in.Kind = safety.None
		}
		for n := range r.Steps {
			if slices.Contains(r.Steps[n].Parts, i) && (n > 0 || len(r.Steps) == 1 || !r.Steps[0].Ready ||
				worksByHand(g.Preparation)) {
				in.Step = keys[n]
				break
			}
		}
		out, amounts = append(out, in), append(amounts, q)
	}
	return out
}

// plainSpoons calls a metric spoon a spoon: cooks have one set, and the two differ by 1.4 %.
func plainSpoons(q measure.Quantity) measure.Quantity {
	to, ok := map[measure.Unit]measure.Unit{"metric-tbsp": measure.Tablespoon, "metric-tsp": measure.Teaspoon}[q.Unit()]
	if !q.IsZero() && strings.HasSuffix(q.Unit().Name(false), "cup") && q.Low().Denom().Int64() > 8 {
		// 5/16 of a cup are 5 tbsp
		if spoons, err := q.Convert(measure.Tablespoon); err == nil && spoons.Low().IsInt() {
			return spoons
		}
	}
	if !ok {
		return q
	}
	if same, err := measure.Range(q.Low(), q.High(), to); err == nil {
		return same
	}
	return q
}
