package recipe

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/manuscript"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/safety"
	"tureen/planner/times"
	"tureen/planner/words"
)

// maker makes steps of a method's sentences.
type maker struct {
	r         *Reading
	american  bool
	all       []*deed
	oven      measure.Setting  // as it was turned last
	turned    *sentence        // in which the oven was turned
	night     measure.Duration // what is done the night before rests so long
	carry     string           // the part that the paragraph is about
	paragraph int
	batches   []*batch
	cooker    string // the appliance that was heated up
	way       string // how the food is cooked, in a method that tells several ways
	cooked    bool   // something was cooked for long so far
	aside     int    // the paragraph of another way
	bracket   bool   // within "(If using oil: …", which is another way
	said      int    // sentences so far, of those that are no remarks
}

// minOvenC is the least that an oven is turned to; what is below it is the food's temperature, or a slip.
const minOvenC = 50

// readMethod makes the steps: acts of the sentences that are no remarks, and the cook's steps of those.
func readMethod(r *Reading, sentences []sentence) {
	m := maker{r: r, american: r.Usage == measure.American, aside: -1}
	told := slices.ContainsFunc(sentences, func(s sentence) bool { return s.told })
	if !told {
		m.ready()
	}
	var said []*sentence
	ready := len(m.r.Steps)
	for i := range sentences {
		s := &sentences[i]
		switch {
		case s.told && m.tell(*s):
		case m.bracketed(s.text), m.otherWay(s):
			m.keep(*s, Remark{Kind: Unread})
		case s.about:
			if !m.remarks(*s) {
				m.keep(*s, Remark{Kind: Unread})
			}
		case m.states(s):
		case m.remark(m.alsoRemarks(s)):
		default:
			m.section(s)
			said = append(said, s)
			m.said++
		}
	}
	if len(said) > 0 {
		m.deeds(said)
		m.steps()
	}
	m.place(said, ready)
	r.garnish()
	r.guessHands()
	r.fitCooking()
	if told {
		for i := range r.Steps {
			r.Steps[i].Parts = r.partsOf(&r.Steps[i])
		}
	}
}

// states reads a sentence that says for how many it is, or how hot the oven.
func (m *maker) states(s *sentence) bool {
	low := words.Small(s.text)
	if m.r.Serves == 0 && len(s.text) < 60 && m.yields(s, low) {
		return true
	}
	if head, _, ok := strings.Cut(low, ":"); ok && strings.HasSuffix(head, " time") && len(head) < 30 &&
		len(times.Lengths(low)) > 0 {
		m.keep(*s, Remark{Kind: Unread}) // marinating time: 30 minutes
		return true
	}
	if !strings.HasPrefix(low, "oven") || len(times.Lengths(s.text)) > 0 {
		return false
	}
	for _, h := range times.Heats(s.text, m.american) {
		if c := h.Conventional().C(); !h.Inside && c >= minOvenC && c <= planner.MaxOvenC {
			m.oven = h.Setting
			return true // Oven 200 °C.
		}
	}
	return false
}

// yields reads "Serves 6." among the method's sentences.
func (m *maker) yields(s *sentence, low string) bool {
	y, ok := manuscript.YieldIn(s.text)
	if !ok || y.Before != "" || strings.HasPrefix(low, "for ") || instructs(s.text) {
		return false
	}
	m.r.Yield = strings.TrimRight(s.text, ".")
	if y.Serves > 0 {
		m.r.Serves = y.Serves
	}
	return true
}

// section takes the part that a sentence names at its beginning: "For the custard, …", "Ragù: fry …".
func (m *maker) section(s *sentence) {
	if name, ok := forSection(s.text); ok {
		s.section = name
	} else if part, _, ok := strings.Cut(s.text, ": "); ok && len(strings.Fields(part)) <= 3 && m.hasPart(part) {
		if s.section = words.Small(part); slices.Contains(stages, s.section) {
			s.section = ""
			m.carry, m.paragraph = "", s.paragraph
			return
		}
	} else if m.paragraph == s.paragraph && m.carry != "" {
		s.section = m.carry // a part that a paragraph begins with holds to its end
	}
	m.carry, m.paragraph = s.section, s.paragraph
}

// standsLeast is from how many minutes on food that is served, and that a recipe gives a time, stands so long; ours.
const standsLeast = 30

// standsFirst says whether something else than serving is ordered first, and for so long.
func standsFirst(d *deed, all []times.Length) bool {
	said := strings.Fields(words.Small(d.text))
	if len(said) == 0 || method.Verb(said[0]) != nil && method.Verb(said[0]).Class == food.Serves {
		return false
	}
	return slices.ContainsFunc(all, func(f times.Length) bool {
		return strings.HasSuffix(strings.TrimSpace(words.Small(d.text[:f.Start])), " for")
	})
}

// lengths says what the durations of a deed's clause mean.
func (m *maker) lengths(d *deed) {
	all := times.Lengths(d.text)
	for i := len(all) - 1; i >= 0; i-- {
		if strings.Contains(words.Small(d.text[all[i].Start:all[i].End]), "night before") {
			m.night = all[i].Duration // it says when, and how long what follows rests
			all = append(all[:i:i], all[i+1:]...)
		}
	}
	if len(all) == 1 && leadsIn(d, all[0]) {
		d.midway = all[0].High // after 20 minutes, brush with egg
		return
	}
	if m.inTurn(d, all) || m.endsBefore(d, all) {
		return
	}
	for _, f := range all {
		m.length(d, f, len(all) == 1)
	}
	if n := times.Batches(d.text); n > 1 && !slices.ContainsFunc(all, func(f times.Length) bool { return f.InAll }) &&
		(d.kind == byHand || heats(d.kind)) {
		d.time.Low, d.time.High = n*d.time.Low, n*d.time.High // in three batches, 5 minutes each
	}
	switch {
	case d.kind == serving && d.time.High >= standsLeast && standsFirst(d, all):
		d.kind = standing // "carry in the boot for 5 hours and serve": nobody serves for so long
	case d.kind == serving && !plates[d.Verb]:
		d.time = measure.Duration{}
	case d.kind == byHand && d.Verb == "cover" && d.time.High >= 5:
		d.kind = standing // cover, 30 min
	case d.kind == byHand && d.time.High >= 2*hour:
		d.kind = standing // nobody works at one thing so long
	}
	if d.time.High == 0 && m.night.High > 0 && (d.kind == chilling || d.kind == standing) {
		d.time, m.night = m.night, measure.Duration{}
	}
	for i := range all {
		if all[i].Before && d.time.High == 0 && waitsBefore(d) {
			d.kind, d.time = standing, all[i].Duration // take it out an hour before
		}
	}
}

// length says what a length of a deed's clause means; alone: it is the only one.
func (m *maker) length(d *deed, f times.Length, alone bool) {
	switch {
	case f.Every:
		d.every = f.Low
	case f.Last:
		d.last = f.Duration
	case f.Before && d.kind == byHand && f.High <= mostLead:
		d.lead = f.High
	case f.Before && !waits(d.kind), f.Ahead, f.After && !heats(d.kind) && !waits(d.kind):
	case f.More && words.Has(d.text, ifNeeded...): // nobody knows
	case f.UpTo:
		d.longest = f.Duration
		if d.time.High == 0 && alone && !f.Vague {
			d.time = measure.Duration{Low: max(f.Low/2, 1), High: f.High}
			d.longest = measure.Duration{}
		}
	case f.Per > 0:
		d.time = m.byWeight(f)
	case d.time.High == 0:
		d.time = f.Duration
	case f.More:
		d.time = plus(d.time, f.Duration)
	}
}

// plates are verbs of serving that are work.
var plates = words.Set("plate carve dish arrange portion")

// endsBefore gives the time of "when the rice is tender, after about 20 minutes, take it off" to what went before.
func (m *maker) endsBefore(d *deed, all []times.Length) bool {
	if len(all) != 1 || !all[0].After || all[0].End > d.At-d.From || !begins(words.Small(strings.TrimLeft(d.text, " ,;")),
		[]string{"when ", "once ", "as soon as "}) {
		return false
	}
	for _, p := range d.After {
		if before := m.all[p]; !before.Leaf && before.time.High == 0 {
			before.time = all[0].Duration
			return true
		}
	}
	return false
}

// mostLead is how many minutes before the meal a work by hand is done at most, if it is told so: earlier is ahead.
const mostLead = 4 * hour

// inTurn reads an oven's heats that follow each other, each with its time: "220 for 30 min, then 130 for 5 h".
func (m *maker) inTurn(d *deed, all []times.Length) bool {
	var heats []times.Heat
	for _, h := range times.Heats(d.text, m.american) {
		if c := h.Conventional().C(); !h.Inside && c >= minOvenC && c <= planner.MaxOvenC {
			heats = append(heats, h)
		}
	}
	if d.kind != inOven || len(heats) < 2 || len(heats) != len(all) || slices.ContainsFunc(all, func(f times.Length) bool {
		return f.Every || f.UpTo || f.Per > 0 || f.Before || f.Ahead || f.Last
	}) {
		return false
	}
	for i, f := range all {
		if i > 0 {
			if indexWord(words.Small(d.text[all[i-1].End:f.Start]), "or") >= 0 {
				return false // another way
			}
			d.then = append(d.then, OvenChange{After: d.time.Low, Oven: heats[i].Setting})
			m.oven = heats[i].Setting
		}
		d.time = plus(d.time, f.Duration)
	}
	return true
}

// byWeight is a time that is told for a weight, for what the heaviest line of the ingredients weighs.
func (m *maker) byWeight(f times.Length) measure.Duration {
	heaviest := 0.0
	for i := range m.r.Ingredients {
		in := &m.r.Ingredients[i]
		if _, err := in.Total().Convert(measure.Gram); err == nil && isMeat(in.Name) {
			heaviest = max(heaviest, amountOf(in, "kg")*1000)
		}
	}
	if heaviest == 0 {
		return f.Duration
	}
	n := heaviest / float64(f.Per)
	return measure.Duration{Low: min(int(float64(f.Low)*n+0.5), day), High: min(int(float64(f.High)*n+0.5), day)}
}

// leadsIn reports whether a length stands before the verb and says after how long it is done.
func leadsIn(d *deed, f times.Length) bool {
	return f.End <= d.At-d.From && strings.HasPrefix(words.Small(strings.TrimLeft(d.text, " ,;")), "after ")
}

// waitsBefore reports that food is taken out of the cold so long before.
func waitsBefore(d *deed) bool {
	low := words.Small(d.text)
	return (d.Verb == "take" || d.Verb == "remove" || d.Verb == "bring") &&
		containsAny(low, "fridge", "refrigerator", "freezer", "room temperature", "out of the cold", "take out",
			"take it out")
}

func plus(a, b measure.Duration) measure.Duration {
	return measure.Duration{Low: a.Low + b.Low, High: a.High + b.High}
}

// usual is [deed.usual], but shorter for what is left to cool where rice is in it.
func (m *maker) usual(d *deed) measure.Duration {
	if t, ok := m.bySense(d); ok {
		return t
	}
	t := d.usual()
	if d.kind != standing || t.High <= spreadHigh || !slices.ContainsFunc(m.r.Ingredients, func(in Ingredient) bool {
		f, ok := food.Find(in.Name)
		return ok && f.Class != nil && f.Class.Cooked.Kind == safety.Rice
	}) {
		return t
	}
	return measure.Duration{Low: spreadLow, High: spreadHigh}
}

// bySense is how long a verb takes with what is in the pot, by the rows of the table that speak of its classes: the
// longest of what nothing has cooked so far.
func (m *maker) bySense(d *deed) (longest measure.Duration, ok bool) {
	if !heats(d.kind) {
		return longest, false
	}
	if _, signed := d.bySign(words.Small(d.text)); signed {
		return longest, false
	}
	seen := map[*deed]bool{}
	var in func(o *deed)
	in = func(o *deed) {
		if seen[o] {
			return
		}
		seen[o] = true
		if o != d && (o.kind == inOven ||
			o.kind == onBurner && o.Class == food.Cooks && o.row != nil && o.row.Minutes[0] >= 6) {
			return // that is cooked
		}
		for _, g := range o.Takes {
			f, found := food.Find(m.r.Ingredients[g].Name)
			if !found {
				continue
			}
			row := method.Sense(d.Verb, f.Class)
			if row != nil && len(row.Of) > 0 && row.Where == placeOf[d.kind] && int(row.Minutes[1]) > longest.High {
				longest, ok = measure.Duration{Low: int(row.Minutes[0]), High: int(row.Minutes[1])}, true
			}
		}
		for _, p := range o.After {
			in(m.all[p])
		}
	}
	in(d)
	return longest, ok
}

// How long cooked rice is guessed to cool on the counter, in minutes: spread out, as it is not to stand for an hour.
// Common practice, no source.
const spreadLow, spreadHigh = 30, 40

// usual is our guess at an unsaid time: by the row of its verb or of another in its words ("leave to rise"), or by what
// is done. It is always asked or said.
func (d *deed) usual() measure.Duration {
	low := words.Small(d.text) + " " + d.stirred
	if waits(d.kind) && containsAny(low, untilWanted...) {
		return measure.Duration{Low: 1, High: 5} // where it waits, and no time that it needs
	}
	if d.kind == standing && words.Has(low, "completely", "cold") {
		return measure.Duration{Low: 60, High: 90}
	}
	if t, ok := d.bySign(low); ok {
		return t
	}
	for _, w := range append([]string{d.Verb}, strings.FieldsFunc(low, notLetter)...) {
		row := method.Verb(w)
		if row == nil || (lets[row.Name] || row.Name == "set") && row.Name == d.Verb || row.Minutes[1] < 1 {
			continue
		}
		place := row.Where
		if place == "burner" && row.Attention == "hands" {
			place = "hands"
		}
		if place == placeOf[d.kind] && (place != "counter" || row.Attention != "hands") {
			return measure.Duration{Low: max(int(row.Minutes[0]), 1), High: int(row.Minutes[1] + 0.5)}
		}
	}
	return usualOf[d.kind]
}

// signs are signs that something on a burner is done, each with the minutes that it takes to come. Common practice, no
// source.
var signs = func() map[string]measure.Duration {
	out := map[string]measure.Duration{}
	all := phrases.Phrases("signs")
	for i := 0; i+1 < len(all); i += 2 {
		var d measure.Duration
		if _, err := fmt.Sscan(all[i+1], &d.Low, &d.High); err != nil {
			panic("recipe: " + all[i] + ": " + err.Error())
		}
		out[all[i]] = d
	}
	return out
}()

// bySign is how long it takes on a burner or grill until the last of the signs that a clause names, where its verb
// tells no more than that something is cooked.
func (d *deed) bySign(low string) (longest measure.Duration, ok bool) {
	if d.kind != onBurner && d.kind != overBurner && d.kind != onGrill || d.row != nil && d.row.Minutes[0] >= 8 {
		return longest, false
	}
	at := strings.Index(low, "until ")
	if at < 0 {
		at = max(strings.Index(low, "according to "), strings.Index(low, "as per "))
	}
	if at < 0 {
		return longest, false
	}
	for sign, t := range signs {
		if (t.High > longest.High || t.High == longest.High && t.Low > longest.Low) && indexWord(low[at:], sign) >= 0 {
			longest, ok = t, true
		}
	}
	return longest, ok
}

// lets are verbs that say nothing of how long: let, leave, allow.
var lets = words.Set("let leave allow keep suffer")

var placeOf = map[action]string{inOven: "oven", onBurner: "burner", overBurner: "hands", onGrill: "grill",
	chilling: "refrigerator", freezing: "freezer", standing: "counter"}

// usualOf are guesses at what no verb's row tells. Common practice, no source.
var usualOf = map[action]measure.Duration{
	inOven: {Low: 30, High: 45}, onBurner: {Low: 10, High: 15}, overBurner: {Low: 5, High: 10},
	onGrill: {Low: 8, High: 12}, chilling: {Low: 2 * hour, High: 2 * hour}, freezing: {Low: 4 * hour, High: 6 * hour},
	standing: {Low: 15, High: 20},
}
