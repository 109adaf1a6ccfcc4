// Package corrections reads what somebody says of a reading in words, as one would say it: "step 3 takes 20 minutes,
// remove 2 and 5; 6 after 2; dough keeps two days in the fridge; serves 8". Package recipe then does it. Its phrases
// stand in phrases.tsv.
package corrections

import (
	_ "embed"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/manuscript"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/recipe"
	"tureen/planner/remark"
	"tureen/planner/times"
	"tureen/planner/ware"
	"tureen/planner/words"
)

//go:embed phrases.tsv
var table string

var phrases = words.TableOf(table)

// said is a reading of which something is said.
type said struct{ *recipe.Reading }

// Unread is a piece of what was said that corrects nothing as far as is known; then nothing at all is corrected.
type Unread struct {
	Piece string
	Near  []string // what was perhaps meant, as one would say it: at most two
}

// Error says which piece it is.
func (u *Unread) Error() string {
	return "I do not know what " + strconv.Quote(words.Cut(u.Piece, 60)) + " corrects, and changed nothing."
}

// In reads corrections in words, all of them or none. The numbers are those that were shown, whatever is removed. The
// error is an *[Unread] or a *[recipe.Refusal].
func In(reading *recipe.Reading, text string) ([]recipe.Correction, error) {
	r := said{reading}
	var out, gone, foods []recipe.Correction
	for _, line := range strings.Split(text, "\n") {
		var all []recipe.Correction
		_, _, whole := cutPhrase(line, "says divide")
		if whole {
			all, whole = r.newSteps(line)
		}
		for _, said := range sentencesSaid(line) {
			if whole {
				break
			}
			some, unread := r.correctionsOf(said)
			if unread != "" {
				return nil, &Unread{unread, r.near(unread)}
			}
			all = append(all, some...)
		}
		for _, c := range all {
			switch {
			case c.Drop && c.Food > 0:
				foods = append(foods, c)
			case c.Drop:
				gone = append(gone, c)
			default:
				out = append(out, c)
			}
		}
	}
	// What is taken out goes last, and the ingredients from the last on: until then each has the number that it had.
	slices.SortStableFunc(foods, func(a, b recipe.Correction) int { return b.Food - a.Food })
	foods = slices.CompactFunc(foods, func(a, b recipe.Correction) bool { return a.Food == b.Food })
	out = append(append(out, gone...), foods...)
	for i := 1; i < len(out); i++ {
		out[i].Next = true
	}
	return out, nil
}

// sentencesSaid cuts a text at its semicolons, lines and full stops that end something.
func sentencesSaid(text string) (out []string) {
	for _, line := range strings.Split(text, ";") {
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
func (r said) correctionsOf(said string) (out []recipe.Correction, unread string) {
	if all, ok := r.newSteps(said); ok {
		return all, ""
	}
	if c, ok := r.newWords(said); ok {
		return []recipe.Correction{c}, ""
	}
	if all, ok := r.foodsSaid(said); ok {
		return all, ""
	}
	var last []recipe.Correction // of the piece before
	before := ""
	for _, p := range times.Pieces(said) {
		p = withUnit(before, p)
		joined := strings.TrimSpace(before + " " + p)
		if both, ok := r.correctionIn(joined); ok && before != "" && len(last) == 0 {
			last, before = both, joined // 2 and 6 take an hour each
			continue
		}
		all, ok := r.correctionIn(p)
		if !ok && len(last) == 1 && last[0].Line != "" && last[0].Food == 0 {
			all, ok = r.moreFood("add "+p, "add "+words.Small(p)) // add 2 onions and 3 carrots
		}
		switch {
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

// withUnit gives a piece that ends in a bare number the unit that the piece before it ends in: "step 8 takes 5 minutes
// and step 1 takes 2".
func withUnit(before, piece string) string {
	had, w := strings.Fields(before), strings.Fields(piece)
	if len(had) == 0 || len(w) < 3 || len(numbersIn(w[len(w)-1])) == 0 && manuscript.Numbers[w[len(w)-1]] == 0 ||
		!words.Has(w[len(w)-2], phrases.Phrases("says takes")...) ||
		len(times.Lengths(piece)) > 0 || len(times.Lengths("2 "+had[len(had)-1])) == 0 {
		return piece
	}
	return piece + " " + had[len(had)-1]
}

// changeRE is "change step 3 to …", "replace 3 with …".
var changeRE = regexp.MustCompile(`(?i)^(?:change|replace|rewrite|make|rename)\s+(?:step\s+)?(\d{1,3})\s+` +
	`(?:to|with|by|into|as)?\s*(?:say\s+|read\s+)?:?\s*(.+)$`)

// newWords reads "step 3: whisk the eggs", "7 should say roll out the pastry": what a step is, in other words; and
// "call it Sunday pie".
func (r said) newWords(said string) (c recipe.Correction, ok bool) {
	if _, name, ok := cutPhrase(said, "says name"); ok && name != "" && len(numbersIn(said)) == 0 {
		return recipe.Correction{Title: words.Cut(strings.Trim(name, " :\"'.“”"), 70)}, true
	}
	head, tail, ok := cutPhrase(said, "says do")
	if m := changeRE.FindStringSubmatch(said); m != nil && method.Instructs(m[2]) {
		head, tail, ok = "step "+m[1], m[2], true
	}
	n := numbersIn(words.Small(head))
	if w := strings.Fields(words.Small(head)); !ok || len(n) != 1 || len(w) > 3 || len(strings.Fields(tail)) < 2 {
		return c, false
	}
	orders := false
	if v, at, ok := method.Told(tail); ok && at == 0 {
		first, _ := words.First(words.Small(tail))
		orders = v == first
	}
	if _, other := r.correctionIn(head + " " + tail); other && !orders {
		return c, false
	}
	if words.Has(tail, "step") && strings.Contains(tail, ":") || tail[0] >= '0' && tail[0] <= '9' {
		return c, false // step 1: 2 min, step 2: 12 min
	}
	if work, ok := strings.CutSuffix(strings.TrimRight(tail, ".! "), " first"); ok { // step 5: rest 1 hour first
		return recipe.Correction{Step: n[0], Add: words.Cut(work, planner.MaxText-1), Before: true}, true
	}
	if all := times.Lengths(tail); len(all) == 1 {
		c.Low, c.High = all[0].Low, all[0].High
	}
	c.Step, c.Do = n[0], words.Upper(words.Cut(strings.Trim(tail, " :\"“”"), planner.MaxText-1))
	return c, true
}

// cutPhrase cuts a text at the first of the phrases of a row.
func cutPhrase(said, row string) (head, tail string, ok bool) {
	low := " " + words.Small(said) + " "
	if len(low) != len(said)+2 {
		return "", "", false
	}
	at, n := -1, 0
	for _, p := range phrases.Phrases(row) {
		if p != ":" {
			p = " " + p + " "
		}
		if i := strings.Index(low, p); i >= 0 && (at < 0 || i < at || i == at && len(p) > n) {
			at, n = i, len(p)
		}
	}
	if at < 0 {
		return "", "", false
	}
	said = " " + said + " "
	return strings.TrimSpace(said[:at]), strings.TrimSpace(said[at+n:]), true
}

// newSteps reads steps that are to be added, or that one is to be divided into: "add a step after 3: chill 1 hour",
// "3 is two steps: poach the chicken 25 min; shred it".
func (r said) newSteps(said string) ([]recipe.Correction, bool) {
	if head, tail, ok := cutPhrase(said, "says divide"); ok {
		n := numbersIn(head)
		if len(n) == 0 { // split 5 into …
			if first, rest, cut := strings.Cut(tail, " into "); cut {
				n, tail = numbersIn(first), rest
			}
		}
		if len(n) == 1 && tail != "" {
			return []recipe.Correction{{Step: n[0], Split: words.Cut(strings.Trim(tail, " :\"“”"), planner.MaxText-1)}}, true
		}
	}
	if c, ok := r.workPlaced(said); ok {
		return []recipe.Correction{c}, true
	}
	before := words.Has(said, "before")
	head, do, ok := strings.Cut(said, ":")
	if !words.Has(head, phrases.Phrases("says add")...) {
		return nil, false
	}
	n := numbersIn(head)
	if !ok || len(n) == 0 { // add "strain the stock" after step 3; add a step: strain the stock, after 3
		if !ok {
			_, do, _ = cutPhrase(said, "says add")
		}
		at := max(strings.LastIndex(do, " after "), strings.LastIndex(do, " before "))
		if at < 0 {
			return nil, false
		}
		n, do = numbersIn(do[at:]), do[:at]
	}
	do = strings.Trim(do, " :,\"“”")
	if len(n) != 1 || do == "" || !method.Instructs(do) && len(times.Lengths(do)) == 0 {
		return nil, false
	}
	return []recipe.Correction{{Step: n[0], Add: words.Cut(do, planner.MaxText-1), Before: before}}, true
}

// placeRE is where work is put that stands before it or behind it: "…, before step 3", "after 5, …".
var placeRE = regexp.MustCompile(`(?i)^(.*?)[\s,]*\b(before|after)\s+(?:step\s+)?(\d{1,3})\b[\s,:]*(.*)$`)

// workPlaced reads work that is told with its place: "peel the leeks, 15 minutes, before step 1". What a step does
// already is no new one: which is meant is asked.
func (r said) workPlaced(said string) (c recipe.Correction, ok bool) {
	m := placeRE.FindStringSubmatch(said)
	if m == nil || (m[1] == "") == (m[4] == "") {
		return c, false
	}
	do := m[1] + m[4]
	led := false
	for _, lead := range phrases.Phrases("says a step") {
		rest, ok := strings.CutPrefix(words.Small(do), lead)
		if ok && len(words.Small(do)) == len(do) && rest != "" && strings.ContainsAny(rest[:1], " :,") {
			do, led = strings.TrimLeft(do[len(do)-len(rest):], " :,"), true
			break
		}
	}
	do = strings.Trim(do, " :,\"“”")
	v, at, works := method.Told(do)
	first, _ := words.First(words.Small(do))
	if row := method.Verb(first); !works || at != 0 || row == nil || v != first && row.Name != first || len(numbersIn(
		times.Without(times.Scaled(do)))) > 0 {
		return c, false
	}
	if !led && m[4] == "" && len(times.Lengths(do)) != 1 && !strings.Contains(said, ",") {
		return c, false
	}
	if !led && r.alreadyDone(do) > 0 {
		return c, false
	}
	n := numbersIn(m[3])
	if len(n) != 1 {
		return c, false
	}
	return recipe.Correction{Step: n[0], Add: words.Cut(do, planner.MaxText-1),
		Before: words.Small(m[2]) == "before"}, true
}

// alreadyDone is the number of the step that does all that some words say; 0: none.
func (r said) alreadyDone(do string) int {
	low := words.Small(do)
	for i := range r.Steps {
		if does(&r.Steps[i], low) && len(r.leftOver(low, []int{r.Number(i)})) == 0 {
			return r.Number(i)
		}
	}
	return 0
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

// saysOf reports whether a text has one of the phrases of a row.
func saysOf(low, row string) bool { return words.Has(low, phrases.Phrases(row)...) }

// withoutOther takes off what is said not to be: 40 min, not 25; 7 after 2, not after 6.
func withoutOther(low string) string {
	for _, instead := range []string{" not ", " instead of ", " rather than ", " not after "} {
		a, b, ok := strings.Cut(low, instead)
		if ok && b != "" && b[0] >= '0' && b[0] <= '9' && (instead != " not after " || saysOf(a, "says after")) {
			low = a
		}
	}
	return low
}

// apart parts a step's number from what comes after it: "step 2 an hour" is not two of them.
func apart(low string) string {
	parts := strings.Fields(low)
	for i := 1; i < len(parts); i++ {
		if strings.HasPrefix(parts[i-1], "step") && len(numbersIn(parts[i])) == 1 {
			parts[i] += ","
		}
	}
	return strings.Join(parts, " ")
}

// lengthsIn are how long things are said to take; ok is false where a length says when something is done.
func lengthsIn(low string) (out []measure.Duration, ok bool) {
	for _, f := range times.Lengths(low) {
		if f.Last || f.Before || f.After && strings.HasSuffix(strings.TrimRight(low[:f.Start], " "), "after") {
			return nil, false
		}
		out = append(out, f.Duration)
	}
	return out, true
}

// correctionIn reads one correction.
func (r said) correctionIn(said string) ([]recipe.Correction, bool) {
	low := words.Small(said)
	low = apart(withoutOther(low))
	if all, ok := r.foodsSaid(said); ok {
		return all, true
	}
	lengths, ok := lengthsIn(low)
	if !ok {
		return nil, false
	}
	bare := times.Without(times.Scaled(low)) // the numbers of lengths and temperatures are no steps
	steps := r.stepsSaid(bare)
	if saysOf(low, "says remove") && len(steps) > 0 && len(lengths) == 0 {
		var out []recipe.Correction
		for _, n := range steps {
			out = append(out, recipe.Correction{Step: n, Drop: true})
		}
		return out, true
	}
	if all, ok := r.orderSaid(low, steps); ok {
		return all, true
	}
	if n := r.forMany(low, steps); n > 0 && len(lengths) == 0 {
		return []recipe.Correction{{Serves: n}}, len(r.leftOver(low, nil)) == 0
	}
	if c, ok := r.goesWith(low); ok && len(steps) == 0 {
		return []recipe.Correction{c}, true
	}
	switch {
	case words.Has(low, "into", "goes in", "go in", "belongs to", "belong to") && len(steps) == 1 &&
		len(r.Named(low)) > 0:
		return []recipe.Correction{{Step: steps[0], Takes: r.Named(low)}}, true
	case saysOf(low, "says keeps") && len(lengths) == 1 && !(len(steps) > 0 && words.Has(low, "lasts")):
		n := r.madeStep(low, steps)
		return []recipe.Correction{{Step: n, Wait: lengths[0].High, WaitWhere: remark.KeptWhere(low)}}, n > 0
	case len(steps) == 0:
		if n := r.stepNamed(low, nil); n > 0 {
			steps = []int{n}
		} else if n := r.onlyOven(); n > 0 && words.Has(low, "oven") {
			steps = []int{n}
		}
	}
	var out []recipe.Correction
	for _, n := range steps {
		if c := r.stepSaid(n, low, bare, lengths); c.OfStep() {
			out = append(out, c)
		}
	}
	return out, len(out) > 0 && len(out) == len(steps) && len(r.leftOver(low, steps)) == 0
}

// onlyOven is the number of the one step that is in the oven; 0: none is, or several are.
func (r said) onlyOven() (n int) {
	for i := range r.Steps {
		if r.Steps[i].Heat == planner.AnOven {
			if n > 0 {
				return 0
			}
			n = r.Number(i)
		}
	}
	return n
}

// forMany is for how many covers somebody says that it is; 0: they say nothing of that.
func (r said) forMany(low string, steps []int) int {
	y, ok := manuscript.YieldIn(low)
	switch {
	case words.Has(low, "we are") && len(steps) == 1:
		return steps[0]
	case ok && slices.ContainsFunc(r.Ingredients, func(g recipe.Ingredient) bool {
		return words.Has(words.Small(y.Before), words.Apart(words.Small(g.Name))...)
	}): // bacon is 6 slices
	case ok && !words.Has(low, "step", "steps", "oven") && len(times.Heats(times.Scaled(low), false)) == 0:
		return y.Serves
	}
	return 0
}

var firstRE = regexp.MustCompile(`^(?:do|make|start|begin|start with|begin with|cook|prepare)\s+(.+?)` +
	`(?:\s+(?:comes?|goes|is|are))?\s+first$`)

// orderSaid reads what comes before what.
func (r said) orderSaid(low string, steps []int) ([]recipe.Correction, bool) {
	two := len(steps) == 2
	switch {
	case saysOf(low, "says nothing before") && len(steps) == 1:
		return []recipe.Correction{{Step: steps[0], After: []int{0}}}, true
	case saysOf(low, "says not after") && two:
		after := []int{}
		if i := r.Numbered(steps[0]); i >= 0 {
			for _, a := range r.Order()[i] {
				if n := r.Number(a); n != steps[1] {
					after = append(after, n)
				}
			}
		}
		if len(after) == 0 {
			after = []int{0}
		}
		return []recipe.Correction{{Step: steps[0], After: after}}, true
	case words.Has(low, "before") && two:
		return []recipe.Correction{{Step: steps[1], After: steps[:1]}}, true
	case saysOf(low, "says after") && len(steps) > 1:
		return []recipe.Correction{{Step: steps[0], After: steps[1:]}}, true
	}
	if m := firstRE.FindStringSubmatch(low); m != nil && len(steps) == 0 { // do the seeds first
		if all := r.ofFood(m[1]); len(all) > 0 {
			return []recipe.Correction{{Step: r.Number(all[0]), After: []int{0}}}, true
		}
	}
	if a, b, ok := cutPhrase(low, "says not after"); ok && len(steps) == 0 { // the beans don't wait for the lamb
		if all := r.apart(a, b); len(all) > 0 {
			return all, true
		}
	}
	if a, b, ok := cutPhrase(low, "says after"); ok && len(steps) == 0 { // rolling out comes after chilling
		first, then := r.stepNamed(b, nil), r.stepNamed(a, nil)
		if first > 0 && then > 0 && first != then {
			return []recipe.Correction{{Step: then, After: []int{first}}}, true
		}
	}
	return nil, false
}

// stepSaid is what is said of one step: how long, how hot, whose attention, where, with what, until when.
func (r said) stepSaid(step int, low, bare string, lengths []measure.Duration) recipe.Correction {
	c := recipe.Correction{Step: step}
	if len(lengths) == 1 {
		c.Low, c.High = lengths[0].Low, lengths[0].High
		if words.Has(low, "every") {
			c.Every, c.Low, c.High = lengths[0].High, 0, 0
		}
	}
	for _, t := range times.Heats(times.Scaled(low), r.Usage == measure.American) {
		c.OvenC = t.Conventional().OvenC()
	}
	for _, w := range strings.Fields(bare) {
		if n, err := strconv.Atoi(w); err == nil && n > recipe.MaxSteps && n <= planner.MaxOvenC && c.OvenC == 0 {
			c.OvenC = n // 180 in step 8
		}
	}
	for _, a := range []planner.Attention{planner.Hands, planner.Watch, planner.Unattended} {
		if saysOf(low, "says "+string(a)) {
			c.Attention = a
		}
	}
	for _, p := range placesSaid {
		if words.Has(bare, p.words...) && c.OvenC == 0 {
			c.Heat, c.Where = p.heat, p.where
		}
	}
	if i := r.Numbered(step); i >= 0 && saysOf(low, "says uses") {
		if t, ok := ware.First(low); ok && c.Heat == "" && c.Where == "" {
			for _, had := range r.Steps[i].Things {
				c.Things = append(c.Things, had.Name)
			}
			c.Things = append(c.Things, t.Name)
		}
	}
	for _, lead := range []string{" until ", " till "} {
		if _, sign, ok := strings.Cut(" "+low, lead); ok && len(lengths) == 0 {
			c.Until = strings.TrimSpace(sign)
			if at := strings.LastIndex(c.Until, " in "); at > 0 && len(numbersIn(c.Until[at:])) > 0 {
				c.Until = c.Until[:at]
			}
		}
	}
	return c
}

// ordinals are steps by their place.
var ordinals = map[string]int{"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7,
	"eighth": 8, "ninth": 9, "tenth": 10}

// stepsSaid are the numbers in a text that has lost its lengths: as figures, after "step" in words, or by their place.
func (r said) stepsSaid(text string) []int {
	if out := numbersIn(text); len(out) > 0 {
		return slices.DeleteFunc(out, func(n int) bool { return n > recipe.MaxSteps })
	}
	w := strings.Fields(text)
	for i := range w {
		n := manuscript.Numbers[w[i]]
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
		if n, err := strconv.Atoi(w); err == nil && n > 0 && n <= recipe.MaxSteps {
			out = append(out, n)
		}
	}
	return out
}

// stepNamed is the number of the step that is meant: by its number, or the last that works with what is named, or does
// it: "dough keeps", "baking takes".
func (r said) stepNamed(low string, numbers []int) int {
	if len(numbers) == 1 {
		return numbers[0]
	}
	for k, of := range []func(*recipe.Step, string) bool{does, tells, names} {
		if k == 2 && slices.ContainsFunc(words.Apart(low), isWork) {
			break // a work that no step tells of is none of another step
		}
		for i := len(r.Steps) - 1; i >= 0; i-- {
			if of(&r.Steps[i], low) {
				return r.Number(i)
			}
		}
	}
	return 0
}

// does reports whether a word of a text is the step's verb, or the step begins with it: bake, baking, rolling.
func does(s *recipe.Step, low string) bool {
	first, _ := words.First(words.Small(s.Do))
	return slices.ContainsFunc(words.Apart(low), func(w string) bool {
		row := method.Verb(w)
		if row == nil {
			row = method.Verb(strings.TrimSuffix(w, "s"))
		}
		return row != nil && (row.Name == s.Verb() || row.Name == first) && !waitingWords[w]
	})
}

// tells reports whether a step tells of what a word of a text does: "let it cool", of cooling.
func tells(s *recipe.Step, low string) bool {
	return slices.ContainsFunc(words.Apart(low), func(w string) bool {
		return isWork(w) && slices.ContainsFunc(words.Apart(words.Small(s.Do)), func(x string) bool {
			return method.Verb(x) == method.Verb(w)
		})
	})
}

// isWork reports whether a word is what somebody does, as they speak of it: chopping.
func isWork(w string) bool {
	return strings.HasSuffix(w, "ing") && method.Verb(w) != nil && !waitingWords[w]
}

// names reports whether a word of a text is of the step: of what is done, or its part.
func names(s *recipe.Step, low string) bool {
	return slices.ContainsFunc(words.Apart(low), func(w string) bool {
		return len(w) > 2 && !waitingWords[w] && (words.Has(s.Do, w) || words.Small(s.Section) == w)
	})
}

// waitingWords say for how long, and name no step.
var waitingWords = words.Set("the for can two day one its and it's keeps keep days hours minutes fridge refrigerator " +
	"freezer counter lasts waits takes take wait only more less about with that this there then over before " +
	"after until they have into long week weeks night overnight step steps let last lasts needs need done set has")

// madeStep is the number of the step that leaves what is named, so that it can wait: the first that names it, or the
// rest in the cold or on the counter that follows it alone.
func (r said) madeStep(low string, numbers []int) int {
	if len(numbers) == 1 {
		return numbers[0]
	}
	i := r.partStep(low)
	if i < 0 {
		i = slices.IndexFunc(r.Steps, func(s recipe.Step) bool { return !s.Ready && names(&s, low) })
	}
	if i < 0 { // a dough is a pastry
		low = strings.NewReplacer("pastry", "dough", "crust", "dough", "dough", "pastry").Replace(low)
		i = slices.IndexFunc(r.Steps, func(s recipe.Step) bool { return !s.Ready && names(&s, low) })
	}
	if before, _, ok := cutPhrase(low, "says keeps"); i < 0 && ok && r.isDish(strings.TrimSpace(before)) {
		i = r.finished()
	}
	if i < 0 {
		return 0
	}
	after := r.Order()
	for {
		var behind []int
		for n := range after {
			if slices.Contains(after[n], i) {
				behind = append(behind, n)
			}
		}
		if len(behind) != 1 || !r.Steps[behind[0]].Waits() || len(after[behind[0]]) > 1 {
			return r.Number(i)
		}
		i = behind[0]
	}
}
