package recipe

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/times"
	"tureen/planner/words"
)

// CorrectionsIn reads corrections in words, as one would say them: "step 3 takes 20 minutes, remove 2 and 5; 4 needs
// nothing before it; 6 after 2; dough keeps two days in the fridge; serves 8". The numbers are those that were shown,
// whatever is removed. The error is a *[Refusal].
func (r *Reading) CorrectionsIn(text string) ([]Correction, error) {
	r.keepNumbers()
	var out, gone []Correction
	for _, said := range sentencesSaid(text) {
		all, unread := r.correctionsOf(said)
		if unread != "" {
			return nil, refuse("I do not know what "+strconv.Quote(words.Cut(unread, 40))+" corrects.",
				"Write it as: step 3 takes 20 minutes; remove 2 and 5; 6 after 2; dough keeps two days in the fridge.")
		}
		for _, c := range all {
			if c.Drop {
				gone = append(gone, c)
			} else {
				out = append(out, c)
			}
		}
	}
	return append(out, gone...), nil
}

// sentencesSaid cuts a text at its semicolons, lines and full stops that end something.
func sentencesSaid(text string) (out []string) {
	for _, line := range strings.FieldsFunc(text, func(c rune) bool { return c == ';' || c == '\n' }) {
		for _, s := range strings.Split(line+" ", ". ") {
			if s = strings.Trim(s, " .-•*"); s != "" {
				out = append(out, s)
			}
		}
	}
	return out
}

// correctionsOf reads what one sentence corrects. It is cut at commas and "and" as far as each piece corrects something
// by itself; what does not, goes on with the piece before it, or begins the next. Unread is what corrects nothing.
func (r *Reading) correctionsOf(said string) (out []Correction, unread string) {
	if c, ok := r.newWords(said); ok {
		return []Correction{c}, ""
	}
	var last []Correction // of the piece before
	before := ""
	for _, p := range piecesSaid(said) {
		joined := strings.TrimSpace(before + " " + p)
		switch all, ok := r.correctionIn(p); {
		case ok && !(len(last) > 0 && last[0].Do != ""):
			out, last, before = append(out, last...), all, p
		default:
			if all, ok = r.correctionIn(joined); !ok {
				if len(last) > 0 {
					return nil, p
				}
				all = nil
			}
			last, before = all, joined
		}
	}
	if len(last) == 0 {
		return nil, before
	}
	return append(out, last...), ""
}

// piecesSaid cuts a sentence at its commas and at "and", but not within a length or a temperature.
func piecesSaid(said string) (out []string) {
	from, spans := 0, times.Spans(words.Small(said))
	within := func(at int) bool {
		return slices.ContainsFunc(spans, func(s times.Span) bool { return s.Start < at && at < s.End })
	}
	for at := 0; at < len(said); at++ {
		for _, cutAt := range []string{", and ", ", then ", ", ", " and then ", " and "} {
			if strings.HasPrefix(said[at:], cutAt) && !within(at) {
				out = append(out, said[from:at])
				at += len(cutAt) - 1
				from = at + 1
				break
			}
		}
	}
	return append(out, said[from:])
}

// newWords reads "step 3: whisk the eggs": what a step is, in other words.
func (r *Reading) newWords(said string) (c Correction, ok bool) {
	head, tail, cutIt := strings.Cut(said, ":")
	n := numbersIn(words.Small(head))
	w := strings.Fields(words.Small(head))
	if !cutIt || len(n) != 1 || len(w) > 2 || len(w) == 2 && w[0] != "step" || len(strings.Fields(tail)) < 2 {
		return c, false
	}
	if _, other := r.correctionIn(head + " " + tail); other {
		return c, false
	}
	return Correction{Step: n[0], Do: words.Cut(strings.TrimSpace(tail), planner.MaxText-1)}, true
}

// placesSaid are the words for where a step is done.
var placesSaid = []struct {
	words []string
	heat  string
	where planner.State
}{
	{[]string{"oven", "bakes"}, "oven", ""},
	{[]string{"hob", "stove", "burner", "simmers"}, "burner", ""},
	{[]string{"grill", "broiler"}, "grill", ""},
	{[]string{"fridge", "refrigerator", "cold"}, "", planner.Refrigerator},
	{[]string{"freezer", "frozen"}, "", planner.Freezer},
	{[]string{"counter", "room temperature"}, "", planner.Counter},
}

// correctionIn reads one correction.
func (r *Reading) correctionIn(said string) ([]Correction, bool) {
	low := words.Small(said)
	var lengths []measure.Duration
	bare := low // without its lengths and temperatures, whose numbers are no steps
	for _, b := range slices.Backward(sortedSpans(low)) {
		bare = bare[:b.Start] + " " + bare[b.End:]
	}
	for _, f := range times.Lengths(low) {
		lengths = append(lengths, f.Duration)
	}
	steps := r.stepsSaid(bare)
	switch {
	case words.Has(low, "serves", "feeds", "people", "servings", "portions") && len(steps) == 1 &&
		!words.Has(low, "step"):
		return []Correction{{Serves: steps[0]}}, true
	case words.Has(low, "remove", "drop", "delete", "no step", "leave out", "skip", "without step"):
		var out []Correction
		for _, n := range steps {
			out = append(out, Correction{Step: n, Drop: true})
		}
		return out, len(out) > 0
	case words.Has(low, "nothing before it", "nothing before", "any time", "by itself", "waits for nothing") &&
		len(steps) == 1:
		return []Correction{{Step: steps[0], After: []int{0}}}, true
	case words.Has(low, "into", "goes in", "go in", "belongs to", "belong to") && len(steps) == 1 &&
		len(r.named(low)) > 0:
		return []Correction{{Step: steps[0], Takes: r.named(low)}}, true
	case words.Has(low, "before") && len(steps) == 2:
		return []Correction{{Step: steps[1], After: steps[:1]}}, true
	case words.Has(low, "after", "needs") && len(steps) > 1:
		return []Correction{{Step: steps[0], After: steps[1:]}}, true
	case words.Has(low, "keeps", "keep", "can wait", "waits", "lasts") && len(lengths) == 1:
		n := r.madeStep(low, steps)
		return []Correction{{Step: n, Wait: lengths[0].High, WaitWhere: keptWhere(low)}}, n > 0
	case len(steps) == 0 && len(lengths) == 1:
		if n := r.stepNamed(low, nil); n > 0 {
			steps = []int{n}
		}
	}
	if len(steps) != 1 {
		return nil, false
	}
	c := r.stepSaid(steps[0], said, bare, lengths)
	return []Correction{c}, c.ofStep()
}

// stepSaid is what is said of one step: how long, how hot, whose attention, where, until when.
func (r *Reading) stepSaid(step int, said, bare string, lengths []measure.Duration) Correction {
	low := words.Small(said)
	c := Correction{Step: step}
	if len(lengths) == 1 {
		c.Low, c.High = lengths[0].Low, lengths[0].High
		if words.Has(low, "every") {
			c.Every, c.Low, c.High = lengths[0].High, 0, 0
		}
	}
	for _, t := range times.Heats(oneTemp(low), r.Usage == measure.American) {
		c.OvenC = t.Conventional().OvenC()
	}
	for _, a := range []planner.Attention{planner.Hands, planner.Watch, planner.Unattended} {
		if words.Has(low, string(a)) {
			c.Attention = a
		}
	}
	for _, p := range placesSaid {
		if words.Has(bare, p.words...) && c.OvenC == 0 {
			c.Heat, c.Where = p.heat, p.where
		}
	}
	if _, sign, ok := strings.Cut(said, " until "); ok {
		c.Until = strings.TrimSpace(sign)
	}
	return c
}

// named are the ingredients, from 1, whose names a text has: all of it, or its last word.
func (r *Reading) named(low string) (out []int) {
	for i := range r.Ingredients {
		name := words.Small(r.Ingredients[i].Name)
		w := strings.Fields(name)
		if len(w) > 0 && (words.Has(low, name) || words.Has(low, w[len(w)-1])) {
			out = append(out, i+1)
		}
	}
	return out
}

// ordinals are steps by their place.
var ordinals = map[string]int{"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7,
	"eighth": 8, "ninth": 9, "tenth": 10}

// stepsSaid are the numbers in a text that has lost its lengths: as figures, after "step" in words, or by their place.
func (r *Reading) stepsSaid(text string) []int {
	if out := numbersIn(text); len(out) > 0 {
		return out
	}
	w := strings.Fields(text)
	for i := range w {
		n := smallNumbers[w[i]]
		switch {
		case i > 0 && strings.HasPrefix(w[i-1], "step") && (n > 0 || w[i] == "one"):
			return []int{max(n, 1)}
		case i+1 < len(w) && strings.HasPrefix(w[i+1], "step") && ordinals[w[i]] > 0:
			return []int{ordinals[w[i]]}
		case i+1 < len(w) && w[i] == "last" && strings.HasPrefix(w[i+1], "step") && len(r.Steps) > 0:
			return []int{r.Number(len(r.Steps) - 1)}
		}
	}
	return nil
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

// stepNamed is the number of the step that is meant: by its number, or the last that works with what is named, or does
// it: "dough keeps", "baking takes".
func (r *Reading) stepNamed(low string, numbers []int) int {
	if len(numbers) == 1 {
		return numbers[0]
	}
	for i := len(r.Steps) - 1; i >= 0; i-- {
		if r.Steps[i].names(low) {
			return r.Number(i)
		}
	}
	return 0
}

// names reports whether a word of a text is of the step: of what is done, its part, or its verb.
func (s *Step) names(low string) bool {
	for _, w := range strings.FieldsFunc(low, func(c rune) bool { return !unicode.IsLetter(c) && c != '-' }) {
		if len(w) < 3 || waitingWords[w] {
			continue
		}
		if words.Has(s.Do, w) || words.Small(s.Section) == w || len(s.key) > 2 && s.key != "keep" &&
			strings.HasPrefix(w, strings.TrimSuffix(s.key, "e")) && len(w) <= len(s.key)+3 {
			return true
		}
	}
	return false
}

// waitingWords say for how long, and name no step.
var waitingWords = words.Set("the for can two day one its and it's keeps keep days hours minutes fridge refrigerator " +
	"freezer counter lasts waits takes take wait only more less about with that this there then over before " +
	"after until they have into long week weeks night overnight")

// orderAnew lets a step come after others, by their numbers; 0 alone: after none. Where one of them stands behind it,
// the steps are put into another order.
func (r *Reading) orderAnew(i int, numbers []int) error {
	after := []int{}
	for _, n := range numbers {
		at := r.numbered(n)
		switch {
		case n == 0:
		case at < 0:
			return r.noStep(n)
		case at == i:
			return refuse(fmt.Sprintf("Step %d cannot come after itself.", n), "")
		default:
			after = append(after, at)
		}
	}
	steps := slices.Clone(r.Steps)
	explicit := r.order()
	for n := range steps {
		if steps[n].after == nil {
			steps[n].after = explicit[n]
		}
	}
	steps[i].after, steps[i].straight = after, false
	if i+1 < len(steps) && slices.Max(append([]int{-1}, after...)) > i {
		steps[i+1].straight = false
	}
	order := inOrder(steps)
	if order == nil {
		return refuse(fmt.Sprintf("Step %d comes after step %d itself, over what stands between them.", numbers[0],
			r.Number(i)), fmt.Sprintf("Say first what step %d comes after, as in: %d needs nothing before it.", numbers[0],
			numbers[0]))
	}
	r.Steps = steps
	r.rearrange(order)
	return nil
}

// inOrder puts steps behind what they come after, else as they stand: their indexes; nil where that goes in a circle.
func inOrder(steps []Step) (order []int) {
	placed := make([]bool, len(steps))
	for len(order) < len(steps) {
		next := -1
		for i := range steps {
			if !placed[i] && !slices.ContainsFunc(steps[i].after, func(a int) bool { return !placed[a] }) {
				next = i
				break
			}
		}
		if next < 0 {
			return nil
		}
		placed[next] = true
		order = append(order, next)
	}
	return order
}

// rearrange puts the steps, by their indexes, into another order.
func (r *Reading) rearrange(order []int) {
	if slices.IsSorted(order) {
		return
	}
	to := make([]int, len(order)+1)
	to[len(order)] = len(order)
	steps := make([]Step, len(order))
	for n, i := range order {
		to[i], steps[n] = n, r.Steps[i]
	}
	for n := range steps {
		after := make([]int, len(steps[n].after))
		for k, a := range steps[n].after {
			after[k] = to[a]
		}
		slices.Sort(after)
		steps[n].after = after
	}
	r.Steps, r.Remarks = steps, slices.Clone(r.Remarks)
	for n := range r.Remarks {
		r.Remarks[n].step = to[min(r.Remarks[n].step, len(order))]
	}
}

// madeStep is the number of the step that leaves what is named, so that it can wait: the first that names it, or the
// rest in the cold or on the counter that follows it alone.
func (r *Reading) madeStep(low string, numbers []int) int {
	if len(numbers) == 1 {
		return numbers[0]
	}
	i := slices.IndexFunc(r.Steps, func(s Step) bool { return !s.Ready && s.names(low) })
	if i < 0 {
		return 0
	}
	after := r.order()
	for {
		var behind []int
		for n := range after {
			if slices.Contains(after[n], i) {
				behind = append(behind, n)
			}
		}
		if len(behind) != 1 || !waits(r.Steps[behind[0]].kind) || len(after[behind[0]]) > 1 {
			return r.Number(i)
		}
		i = behind[0]
	}
}
