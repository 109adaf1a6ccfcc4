package propose

import (
	"fmt"
	"slices"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/portion"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// thaw proposes a thawing for every frozen ingredient.
func (w *proposer) thaw() {
	for i := range w.p.Dishes {
		d := &w.p.Dishes[i]
		for j := range d.Ingredients {
			if in := &d.Ingredients[j]; len(d.Steps) > 0 && d.NeedsThawing(in) {
				w.thawOne(d, j)
			}
		}
	}
}

func (w *proposer) thawOne(d *planner.Dish, ingredient int) {
	in := &d.Ingredients[ingredient]
	step := d.Step(in.Step)
	if step == nil {
		step = &d.Steps[0]
	}
	kind := thawedKind(w.p, d, in, step)
	at := planner.Anchor{Task: planner.StepTask(d.Key, step.Key, 1)}
	grams, piece, guess := thawWeight(w.p, d, in)
	c := planner.Chore{
		Key: w.freeKey("thaw " + in.Name), Kind: planner.Thaw, Attention: planner.Unattended, Where: planner.Refrigerator,
		Leaves: planner.Food{Perishable: true, Kind: kind, Millilitres: grams * 5 / 4},
	}
	minutes, rate, err := safety.ThawTime(piece, safety.InRefrigerator)
	if err != nil {
		return // Validate says so about its weight
	}
	keeps := safety.KeepsAfterThaw(kind, safety.InRefrigerator)
	c.Do = fmt.Sprintf("Move the %s (%s) from the freezer to the refrigerator to thaw", in.Name, d.Name)
	if soonest := usableStarts(w.p, d)[step.Key].to; w.p.Opens().Add(planner.Minutes(minutes +
		minutesADay/2).Duration()).After(soonest) {
		// No day is left for the refrigerator: cold water, and cooked at once.
		if minutes, rate, err = safety.ThawTime(piece, safety.InColdWater); err != nil {
			return
		}
		keeps = safety.KeepsAfterThaw(kind, safety.InColdWater)
		c.Attention, c.Where, c.Leaves = planner.Watch, planner.Counter, planner.Food{Perishable: true, Kind: kind}
		c.Do = fmt.Sprintf("Thaw the %s (%s) in a leak-proof bag in cold water, fresh every %s", in.Name, d.Name,
			words.Length(safety.WaterChangeMinutes))
	}
	c.Time = planner.Span{Low: planner.Minutes(minutes), Likely: planner.Minutes(minutes), High: planner.Minutes(minutes)}
	// The days after thawing run on until the food is cooked; what the dish may take of them is left to it.
	at.Within = max(coldWaterGrace, planner.Minutes(keeps.Minutes)-rawWait(w.p, d, step))
	c.By = []planner.Anchor{at}
	c.Note = thawNote(minutes, rate, keeps)
	if guess {
		c.Note += fmt.Sprintf(" Nobody has said what it weighs: the long time, for a piece of %s, is taken (/ingredient "+
			"change "+
			"dish:%s ingredient:%s grams:…).", kilos(piece), d.Key, in.Name)
	} else if in.Grams == 0 && piece == smallPack {
		c.Note += " Taken for packs of up to 1 kg: say grams:… of the ingredient if a piece is heavier."
	}
	w.thaws = append(w.thaws, thawing{d.Key, ingredient, len(w.out)})
	w.add(c)
}

// smallPack is the weight in grams that is taken for a piece or a pack of which nobody has said any; common practice,
// no source.
const smallPack = 1000

// thawedKind is what kind of food an ingredient is once it has thawed: by its name, else what its step leaves, else
// cooked food, which is the strict way to be wrong.
func thawedKind(p *planner.Party, d *planner.Dish, in *planner.Ingredient, step *planner.Step) safety.Kind {
	if f, ok := food.Find(in.Name); ok && f.Kind() != food.None {
		return f.Kind()
	}
	if k := trace.OfDish(p, d).Leaves(d.Key, step.Key).Kind(); k != safety.None {
		return k
	}
	return safety.Cooked
}

func thawNote(minutes int, rate, keeps safety.Limit) string {
	long := words.Short(minutes)
	if keeps.Minutes == 0 {
		return fmt.Sprintf("Takes about %s; then it is cooked at once (%s).", long, rate.Source)
	}
	return fmt.Sprintf("Takes about %s; then it keeps %s (%s).", long, keeps.Figure(), rate.Source)
}

// FrozenIn is for how many minutes of its own length a step that thaws food in the refrigerator has all food of a kind
// frozen still, by the chart's careful end: those do not count as days in the refrigerator. It is 0 for any other step,
// and where something of that kind goes in that was not frozen.
func FrozenIn(p *planner.Party, d *planner.Dish, s *planner.Step, kind safety.Kind) int {
	if s.ThawsBy() != safety.InRefrigerator {
		return 0
	}
	least := 0
	for i := range d.Ingredients {
		in := &d.Ingredients[i]
		if k, known := food.KindOf(in.Name); known && k != kind || !known && kind != safety.Cooked {
			continue
		}
		if d.Thawer(in) != s {
			if in.Step == "" || in.Step == s.Key {
				return 0
			}
			continue
		}
		_, piece, _ := thawWeight(p, d, in)
		minutes, _, err := safety.ThawTime(piece, safety.InRefrigerator)
		if err != nil {
			return 0
		}
		if least == 0 || minutes < least {
			least = minutes
		}
	}
	return min(least, int(s.Time.Likely))
}

// thawing says where in the proposals an ingredient's thawing stands.
type thawing struct {
	dish       planner.DishKey
	ingredient int
	at         int
}

// coldWaterGrace is the time allowed between thawing in cold water and the step: "cooked at once".
const coldWaterGrace = 15

// thawWeight is the whole weight of a frozen ingredient for the party, and that of its heaviest piece: what the hosts
// say, else what the amount does. A bird, a joint or a leg is one piece, prawns come in packs; where nobody can tell it
// is one piece again, and guess says so, as it does where the weight itself is a guess.
func thawWeight(p *planner.Party, d *planner.Dish, in *planner.Ingredient) (grams, piece int, guess bool) {
	as := food.ThawingOf(in.Name + " " + in.Note)
	if as.How == food.FromFrozen {
		as.How = food.InPacks // peas, berries
	}
	typical := max(as.Grams, smallPack)
	piece, guess = in.Grams, in.Grams == 0 && as.How != food.InPacks
	if piece == 0 {
		piece = typical
	}
	grams = piece
	q, err := measure.ParseWhole(in.Amount)
	if err != nil || q.IsZero() {
		return grams, piece, guess
	}
	makes := func(g float64) int { return int(g*float64(max(1, d.Makes(p)))/float64(max(1, d.Serves))) + 1 }
	if g, err := q.Convert(measure.Gram); err == nil {
		f, _ := g.High().Float64()
		if grams = makes(f); in.Grams > 0 {
			return grams, piece, false
		}
		switch as.How {
		case food.InPacks:
			return grams, min(smallPack, grams), false
		case food.InOne:
			return grams, min(max(int(f), 1), mostPieces*typical), false // a hundredweight of legs is several
		}
		return grams, min(max(int(f), 1), mostPieces*typical), true
	}
	if q.Unit().Kind() == measure.Count {
		if said, ok := portion.Grams(in); ok && in.Grams == 0 {
			n, _ := q.High().Float64()
			return makes(said), int(said/max(n, 1)) + 1, false
		}
		if n, _ := q.High().Float64(); as.How != food.InPacks || in.Grams > 0 {
			grams = makes(n * float64(piece))
		}
	}
	return grams, piece, guess
}

// mostPieces is how many times what one usually weighs is still taken for one piece.
const mostPieces = 3

func kilos(grams int) string { return fmt.Sprintf("%g kg", float64(grams)/1000) }

// rawWait is the longest that food may lie in the refrigerator from a step until it is cooked.
func rawWait(p *planner.Party, d *planner.Dish, s *planner.Step) planner.Minutes {
	foods := trace.OfDish(p, d)
	var look func(s *planner.Step, depth int) planner.Minutes
	look = func(s *planner.Step, depth int) planner.Minutes {
		if s.Cooks || depth > len(d.Steps) {
			return 0
		}
		most := planner.Minutes(0)
		for i := range d.Steps {
			next := &d.Steps[i]
			for _, a := range next.After {
				if a.Step != s.Key || a.Dish != "" && a.Dish != d.Key || a.FromStart {
					continue
				}
				here := planner.Minutes(0)
				if a.Wait.State == planner.Refrigerator {
					here = max(0, longestWait(p, &a.Wait, foods.Leaves(d.Key, s.Key)))
				}
				most = max(most, s.Time.Likely+here+look(next, depth+1))
			}
		}
		return most
	}
	return look(s, 0)
}

// thawOf finds the thawing of an ingredient; nil when it needs none.
func (w *proposer) thawOf(d *planner.Dish, ingredient int) *planner.Chore {
	for _, t := range w.thaws {
		if t.dish == d.Key && t.ingredient == ingredient {
			return &w.out[t.at]
		}
	}
	return nil
}

// How long drinks take to chill in a refrigerator, and how much space a bottle takes there; common practice,
// no source.
const (
	chillWine      = 150
	chillSparkling = 210
	chillSoft      = 180
	chillInTub     = 45 // in water with ice
	bottleSpace    = 1000
	litresPerCold  = 3 // bottles may take a third of the refrigerator
)

// drinks proposes chilling, ice and opening.
func (w *proposer) drinks() {
	bottles := map[planner.DrinkKind]int{}
	for _, d := range w.p.Drinks {
		bottles[d.Kind] += d.Bottles
	}
	cold := bottles[planner.White] + bottles[planner.Sparkling] + bottles[planner.Soft]
	tub := cold*bottleSpace*litresPerCold > w.p.Kitchen.Refrigerator.Millilitres
	var ice planner.ChoreKey
	if len(w.p.Drinks) > 0 {
		ice = w.ice(tub, cold > 0)
	}
	for _, k := range []struct {
		kind planner.DrinkKind
		key  string
		what string
		time int
	}{{planner.White, "chill-white", "white wine", chillWine}, {planner.Sparkling, "chill-sparkling", "sparkling wine",
		chillSparkling}, {planner.Soft, "chill-soft", "soft drinks", chillSoft}} {
		n := bottles[k.kind]
		if n == 0 {
			continue
		}
		c := planner.Chore{
			Key: w.freeKey(k.key), Kind: planner.Chill, Attention: planner.Unattended, Where: planner.Refrigerator,
			Time:   about(k.time),
			Do:     fmt.Sprintf("Put the %s into the refrigerator (%s)", k.what, words.Count(n, "bottle")),
			Leaves: planner.Food{Millilitres: n * bottleSpace},
			By:     []planner.Anchor{{Arrival: true, Within: 60}},
		}
		if tub {
			c.Where, c.Leaves, c.Time = planner.Counter, planner.Food{}, about(chillInTub)
			c.Do = fmt.Sprintf("Stand the %s in a tub of water and ice (%s)", k.what, words.Count(n, "bottle"))
			c.From = &planner.Anchor{Task: planner.ChoreTask(ice)}
		}
		key := w.add(c)
		if k.kind == planner.White {
			w.add(planner.Chore{
				Key: w.freeKey("pour-white"), Kind: planner.Other, Attention: planner.Hands, Time: about(5),
				Do:   "Take the first white wine out of the cold and open it",
				From: &planner.Anchor{Task: planner.ChoreTask(key)}, By: []planner.Anchor{{Arrival: true, Offset: 15, Within: 30}},
			})
		}
	}
	if bottles[planner.Red] > 0 {
		w.add(planner.Chore{
			Key: w.freeKey("open-red"), Kind: planner.Other, Attention: planner.Hands, Time: about(5),
			Do: "Open the red wine and let it stand",
			By: []planner.Anchor{{Arrival: true, Within: 120}},
		})
	}
}

func (w *proposer) chillOf(k planner.DrinkKind) *planner.Chore {
	key := map[planner.DrinkKind]planner.ChoreKey{planner.White: "chill-white", planner.Sparkling: "chill-sparkling",
		planner.Soft: "chill-soft"}[k]
	at := slices.IndexFunc(w.out, func(c planner.Chore) bool { return key != "" && c.Key == key })
	if at < 0 {
		return nil
	}
	return &w.out[at]
}

// makeRoom clears the refrigerator before the first things come into it.
func (w *proposer) clearRefrigerator() {
	var by []planner.Anchor
	for _, t := range w.trips {
		by = append(by, planner.Anchor{Task: planner.ChoreTask(t.Chore)})
	}
	if len(by) == 0 || !w.fillsRefrigerator() {
		return
	}
	w.add(planner.Chore{Key: w.freeKey("make-room"), Kind: planner.ClearRefrigerator, Attention: planner.Hands,
		Time: about(15), Do: "Make space in the refrigerator", By: by})
}

func (w *proposer) fillsRefrigerator() bool {
	for i := range w.out {
		if w.out[i].Where == planner.Refrigerator {
			return true
		}
	}
	for i := range w.p.Dishes {
		for j := range w.p.Dishes[i].Steps {
			for _, a := range w.p.Dishes[i].Steps[j].After {
				if a.Wait.State == planner.Refrigerator {
					return true
				}
			}
		}
	}
	return false
}
