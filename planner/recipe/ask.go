package recipe

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/words"
)

// How long a guess must be for it to be asked about, in minutes; a shorter one is said and no more. Common practice, no
// source.
const (
	asksHeat = 20
	asksWait = 90
)

// ask lists what is unsure and would hurt, the weightiest first: nobody is asked more than [MaxQuestions] things. What
// was guessed besides stands with the steps.
func (r *Reading) ask() {
	if r.Unlisted {
		return // whoever knows it by heart is asked nothing
	}
	var qs []Question
	if r.Serves == 0 {
		q := Question{About: "serves", Step: -1, Ask: "For how many covers are these amounts?",
			Guess: fmt.Sprintf("%d", DefaultServes)}
		if r.covers > 0 {
			q.Guess = fmt.Sprintf("%d, the party's covers", r.covers)
		}
		if r.Yield != "" {
			q.Ask = fmt.Sprintf("The recipe says %q: how many covers is that?", r.Yield)
		}
		qs = append(qs, q)
	}
	qs = append(qs, r.askSteps()...)
	qs = append(qs, r.askParts()...)
	if r.woven {
		var names []string
		for i := range r.Ingredients {
			names = append(names, r.Ingredients[i].Name)
		}
		qs = append(qs, Question{About: "ingredients", Step: -1,
			Ask:   fmt.Sprintf("I found the ingredients in the sentences of the method (%s): is one missing?", list(names, 8)),
			Guess: "none is", rank: 1})
	}
	if len(r.Steps) == 0 {
		qs = append(qs, Question{About: "time", Step: -1, Ask: "There is no method: what is done, and how long does it take?",
			Guess: "one step of 30 min by hand", rank: 1})
	}
	if r.Cook.High > 0 && !slices.ContainsFunc(r.Steps, func(s Step) bool { return s.Heat != "" }) {
		qs = append(qs, Question{About: "heat", Step: -1,
			Ask: fmt.Sprintf("The recipe speaks of %s of cooking, and no step is in an oven or on a burner: where does it go?",
				r.Cook), Guess: "nowhere; add the step", rank: 1})
	}
	qs = append(qs, r.askKeeping()...)
	sort.SliceStable(qs, func(i, j int) bool { return qs[i].rank < qs[j].rank })
	r.Questions = qs[:min(len(qs), MaxQuestions)]
}

// askSteps asks about heat without a temperature or a time, long waits that nothing tells, and what it is the last of.
func (r *Reading) askSteps() (qs []Question) {
	oven := false
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.Heat == planner.AnOven && s.Oven.Temperature == 0 && !oven {
			oven = true // the others are taken alike
			qs = append(qs, Question{About: "oven", Step: i, Ask: fmt.Sprintf("At what temperature does the oven stand to %s?",
				words.Lower(short(s.about()))), Guess: "180 °C", rank: 1})
		}
		if s.lastOf.High > 0 {
			qs = append(qs, Question{About: "order", Step: i, Ask: fmt.Sprintf("Of which step is it the last %s: %s?", s.lastOf,
				words.Lower(short(s.about()))), Guess: "of none; it comes after the step before it", rank: 1})
		}
		if !s.Guessed || !(s.kind.Heats() && s.Time.High >= asksHeat || s.kind.Waits() && s.Time.High >= asksWait) {
			continue
		}
		rank := 2
		if s.kind == doing.OnBurner || s.kind == doing.OverBurner || s.kind.Waits() {
			rank = 4
		}
		qs = append(qs, Question{About: "time", Step: i, Ask: fmt.Sprintf("How long does it take to %s?",
			words.Lower(short(s.about()))), Guess: s.Time.String(), rank: rank})
	}
	return qs
}

// askParts asks about food that no step takes in, and about raw meat that is never heated.
func (r *Reading) askParts() (qs []Question) {
	if len(r.Steps) == 0 || slices.ContainsFunc(r.Steps, func(s Step) bool { return s.told }) {
		return nil
	}
	var left, raw []string
	guess := "yes; else add the step that cooks it"
	after := r.Order()
	for g := range r.Ingredients {
		in := &r.Ingredients[g]
		first := slices.IndexFunc(r.Steps, func(s Step) bool { return !s.Ready && slices.Contains(s.Parts, g) })
		k, known := kindOf(in.Name)
		switch {
		case first < 0:
			if known && k.Perishable() && !in.Optional && len(in.Text) < 80 {
				left = append(left, in.Name)
			}
		case known && k.Raw() && isMeat(in.Name) && !r.heatedFrom(first, after):
			raw = append(raw, in.Name)
			if slices.Contains(neverRaw, k) {
				guess = "no: add the step that cooks it"
			}
		}
	}
	if len(raw) > 0 {
		qs = append(qs, Question{About: "heat", Step: -1, Ask: fmt.Sprintf("No step heats this: %s. Is it eaten raw?",
			list(raw, 3)), Guess: guess, rank: 0})
	}
	if len(left) > 0 && len(r.Steps) > 1 {
		qs = append(qs, Question{About: "parts", Step: -1, Ask: fmt.Sprintf("Which step takes in: %s?", list(left, 4)),
			Guess: "the first", rank: 3})
	}
	return qs
}

// neverRaw are kinds of meat that no dish is known to have raw: common practice, no source.
var neverRaw = []food.Kind{food.Poultry, food.GroundMeat, food.Game, food.Offal}

// isMeat reports whether an ingredient is meat or fish by its name: eggs and produce are eaten raw, and nobody asks.
func isMeat(name string) bool {
	f, ok := food.Find(name)
	return ok && (f.Class.Group == "meat" || f.Class.Group == "fish") && !slices.Contains(eatenAsIs, f.Class.Name)
}

// eatenAsIs are classes of meat and fish that are bought to be eaten without heat: pickled herring, ham.
var eatenAsIs = phrases.Phrases("eaten as it is")

// heatedFrom reports whether a step, or one that comes after it, heats what it takes in.
func (r *Reading) heatedFrom(first int, after [][]int) bool {
	in := map[int]bool{first: true}
	for i := first; i < len(r.Steps); i++ {
		if in[i] || slices.ContainsFunc(after[i], func(a int) bool { return in[a] }) {
			in[i] = true
			if r.Steps[i].Heat != "" {
				return true
			}
		}
	}
	return false
}

// about is what a question calls a step.
func (s *Step) about() string {
	if s.mainly != "" {
		return s.mainly
	}
	return s.Do
}

// short is the first few words of an instruction.
func short(do string) string {
	if at := strings.IndexAny(do, ";,("); at > 12 {
		do = do[:at]
	}
	w := strings.Fields(do)
	if len(w) > 7 {
		return strings.Join(w[:7], " ") + " …"
	}
	return strings.Join(w, " ")
}

// list names the first few of a list.
func list(all []string, most int) string {
	if len(all) > most {
		return strings.Join(all[:most], "; ") + fmt.Sprintf("; and %d more", len(all)-most)
	}
	return strings.Join(all, "; ")
}

// TakeCovers says for how many a recipe is taken to be that does not say: the party's covers.
func (r *Reading) TakeCovers(n int) {
	r.covers = n
	r.ask()
}

// DefaultServes is the covers taken where neither a recipe nor a party says: common practice, no source; always asked.
const DefaultServes = 4
