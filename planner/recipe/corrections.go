package recipe

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
)

// CorrectionsIn reads corrections in words, as one would say them: "step 3 takes 20 minutes; remove 2 and 5; 4 needs
// nothing before it; 6 after 2; dough keeps two days in the fridge; serves 8". The numbers are those that were shown,
// whatever is removed. The error is a *[Refusal].
func (r *Reading) CorrectionsIn(text string) ([]Correction, error) {
	var out, gone []Correction
	for _, said := range strings.FieldsFunc(text, func(c rune) bool { return c == ';' || c == '\n' || c == '.' }) {
		said = strings.TrimSpace(said)
		if said == "" {
			continue
		}
		all, ok := r.correctionIn(said)
		if !ok {
			return nil, &Refusal{"I do not know what " + strconv.Quote(cut(said, 40)) + " corrects.",
				"Write it as: step 3 takes 20 minutes; remove 2 and 5; 6 after 2; dough keeps two days in the fridge."}
		}
		for _, c := range all {
			if c.Drop {
				gone = append(gone, c)
			} else {
				out = append(out, c)
			}
		}
	}
	// The last goes first, so that the others keep their numbers until they go.
	slices.SortFunc(gone, func(a, b Correction) int { return b.Step - a.Step })
	return append(out, slices.CompactFunc(gone, func(a, b Correction) bool { return a.Step == b.Step })...), nil
}

// correctionIn reads one of them.
func (r *Reading) correctionIn(said string) ([]Correction, bool) {
	low := lower(said)
	var times []measure.Duration
	bare := low // without its lengths and temperatures, whose numbers are no steps
	for _, b := range slices.Backward(spansOf(low)) {
		bare = bare[:b.start] + " " + bare[b.end:]
	}
	for _, f := range durations(low) {
		times = append(times, f.Duration)
	}
	steps := numbersIn(bare)
	switch {
	case containsWord(low, "serves", "feeds") && len(steps) == 1 && !containsWord(low, "step"):
		return []Correction{{Serves: steps[0]}}, true
	case containsWord(low, "remove", "drop", "delete", "no step", "leave out"):
		var out []Correction
		for _, n := range steps {
			out = append(out, Correction{Step: n, Drop: true})
		}
		return out, len(out) > 0
	case containsWord(low, "nothing before it", "any time", "by itself") && len(steps) == 1:
		return []Correction{{Step: steps[0], After: []int{0}}}, true
	case containsWord(low, "after") && len(steps) > 1:
		return []Correction{{Step: steps[0], After: steps[1:]}}, true
	case containsWord(low, "keeps", "keep", "can wait") && len(times) == 1:
		n := r.stepNamed(low, steps)
		return []Correction{{Step: n, Wait: times[0].High, WaitWhere: keptWhere(low)}}, n > 0
	case len(steps) != 1:
		return nil, false
	}
	c := Correction{Step: steps[0]}
	if len(times) == 1 {
		c.Low, c.High = times[0].Low, times[0].High
	}
	for _, t := range temperatures(low, r.Usage == measure.American) {
		c.OvenC = t.Conventional().OvenC()
	}
	for _, a := range []planner.Attention{planner.Hands, planner.Watch, planner.Unattended} {
		if containsWord(low, string(a)) {
			c.Attention = a
		}
	}
	return []Correction{c}, c.ofStep()
}

// numbersIn are the whole numbers of a text.
func numbersIn(text string) (out []int) {
	for _, w := range strings.FieldsFunc(text, func(c rune) bool { return c < '0' || c > '9' }) {
		if n, err := strconv.Atoi(w); err == nil && n > 0 && n <= maxSteps {
			out = append(out, n)
		}
	}
	return out
}

// stepNamed is the number of the step that is meant: by its number, or the last that works with what is named.
func (r *Reading) stepNamed(low string, numbers []int) int {
	if len(numbers) == 1 {
		return numbers[0]
	}
	for i := len(r.Steps) - 1; i >= 0; i-- {
		for _, w := range strings.Fields(low) {
			if len(w) > 3 && w != "keeps" && w != "days" && w != "fridge" &&
				(containsWord(r.Steps[i].Do, w) || lower(r.Steps[i].Section) == w) {
				return i + 1
			}
		}
	}
	return 0
}

// orderAnew lets a step come after others, by their numbers; 0 alone: after none.
func (r *Reading) orderAnew(c *Correction) error {
	var after []int
	for _, n := range c.After {
		switch {
		case n == 0:
		case n >= c.Step:
			return &Refusal{fmt.Sprintf("Step %d stands before step %d.", c.Step, n),
				"Put it on the menu and say it with /step after."}
		default:
			after = append(after, n-1)
		}
	}
	s := &r.Steps[c.Step-1]
	s.after, s.straight = after, false
	return nil
}

// waitAnew says how long what a step leaves may wait.
func (r *Reading) waitAnew(c *Correction) {
	after := r.order()
	to := len(r.Steps)
	for i := range r.Steps {
		if slices.Contains(after[i], c.Step-1) {
			to = i
			break
		}
	}
	r.Remarks = append(slices.Clone(r.Remarks), Remark{Kind: Keeps, Time: measure.Duration{Low: c.Wait, High: c.Wait},
		From: Place{0, "as you said"}, step: to, where: c.WaitWhere})
}
