package recipe

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"tureen/planner"
	"tureen/planner/words"
)

// ask lists what is unsure, the weightiest first.
func (r *Reading) ask() {
	var qs []Question
	if r.Serves == 0 {
		q := Question{About: "serves", Step: -1, Ask: "For how many covers are these amounts?",
			Guess: fmt.Sprintf("%d", DefaultServes)}
		if r.Yield != "" {
			q.Ask = fmt.Sprintf("The recipe says %q: how many covers is that?", r.Yield)
		}
		qs = append(qs, q)
	}
	hands, handsTime := []string{}, 0
	for i := range r.Steps {
		s := &r.Steps[i]
		switch {
		case s.Heat == planner.AnOven && s.Oven.Temperature == 0:
			qs = append(qs, Question{About: "oven", Step: i, Ask: fmt.Sprintf("At what temperature does the oven stand to %s?",
				words.Lower(short(s.Do))), Guess: "180 °C", rank: 1})
		}
		if s.lastOf.High > 0 {
			qs = append(qs, Question{About: "order", Step: i, Ask: fmt.Sprintf("Of which step is it the last %s: %s?", s.lastOf,
				words.Lower(short(s.Do))), Guess: "of none; it comes after the step before it", rank: 1})
		}
		if !s.Guessed {
			continue
		}
		if s.kind == byHand || s.kind == serving || (s.kind == onBurner || s.kind == overBurner) && s.Time.High <= 10 {
			hands = append(hands, words.Lower(short(s.Do)))
			handsTime += (s.Time.Low + s.Time.High) / 2
			continue
		}
		rank := 2
		if s.kind == onBurner || s.kind == overBurner {
			rank = 4
		}
		qs = append(qs, Question{About: "time", Step: i, Ask: fmt.Sprintf("How long does it take to %s?",
			words.Lower(short(s.Do))), Guess: s.Time.String(), rank: rank})
	}
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
	if len(hands) > 0 && r.Prep.High == 0 {
		qs = append(qs, Question{About: "hands", Step: -1,
			Ask:   fmt.Sprintf("How long is the work at counter and stove (%s)? The recipe does not say.", list(hands, 3)),
			Guess: words.Short(handsTime) + " in all", rank: 5})
	}
	if m := r.aheadUnplanned(); m != nil {
		qs = append(qs, Question{About: "ahead", Step: -1,
			Ask: fmt.Sprintf("The recipe says %q: shall it be made ahead, with a step to warm it again?",
				cut(m.From.Text, 60)),
			Guess: "no, it is cooked for its service", rank: 6})
	}
	qs = append(qs, r.askKeeping()...)
	sort.SliceStable(qs, func(i, j int) bool { return qs[i].rank < qs[j].rank })
	r.Questions = qs[:min(len(qs), MaxQuestions)]
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

// DefaultServes is the covers taken where a recipe does not say: common practice, no source; always asked.
const DefaultServes = 4
