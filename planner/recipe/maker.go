package recipe

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/manuscript"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/remark"
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
	turns     measure.Setting  // to what a sentence turns it that tells nothing to do besides
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
			m.keep(*s, remark.Said{Kind: remark.Unread})
		case s.about:
			if !m.remarks(*s) {
				m.keep(*s, remark.Said{Kind: remark.Unread})
			}
		case m.states(s):
		case !m.putsShort(s) && !putsBy(s, sentences[i+1:]) && m.remark(m.alsoRemarks(s)):
		default:
			m.section(s)
			s.oven, m.turns = m.turns, measure.Setting{}
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
	if m.r.Serves == 0 {
		if len(s.text) < 90 && m.yields(s, low) {
			return true
		}
		clause := *s // it serves eight with soup, and it freezes well
		if clause.text, _, _ = strings.Cut(s.text, ","); clause.text != s.text {
			m.yields(&clause, words.Small(clause.text))
		}
	}
	if head, _, ok := strings.Cut(low, ":"); ok && strings.HasSuffix(head, " time") && len(head) < 30 &&
		len(times.Lengths(low)) > 0 {
		m.keep(*s, remark.Said{Kind: remark.Unread}) // marinating time: 30 minutes
		return true
	}
	if words.Begins(unslanted(low), []string{"time.-", "time.—", "time: ", "time. "}) && len(times.Lengths(low)) > 0 {
		m.keep(*s, remark.Said{Kind: remark.Unread}) // how long it took, told again at the end
		return true
	}
	if !words.Has(low, "oven") || len(times.Lengths(s.text)) > 0 ||
		!strings.HasPrefix(low, "oven") && method.Instructs(s.text) {
		return false
	}
	for _, h := range times.Heats(s.text, m.american) {
		if c := h.Conventional().C(); !h.Inside && c >= minOvenC && c <= planner.MaxOvenC {
			m.turns = h.Setting
			return true // Oven 200 °C. Get the oven to 150.
		}
	}
	return false
}

// yields reads "Serves 6." among the method's sentences.
func (m *maker) yields(s *sentence, low string) bool {
	y, ok := manuscript.YieldIn(s.text)
	if !ok || y.Before != "" || strings.HasPrefix(low, "for ") || method.Instructs(s.text) {
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
	for i := range m.r.Ingredients {
		of := m.r.Ingredients[i].Section
		other := func(g Ingredient) bool { return g.Section != of }
		if of != "" && words.Has(s.text, of+" ingredients") && slices.ContainsFunc(m.r.Ingredients, other) {
			s.section = of // stir the raita ingredients together
		}
	}
}

// standsLeast is from how many minutes on food that is served, and that a recipe gives a time, stands so long; ours.
const standsLeast = 30

// standsFirst says whether something else than serving is ordered first, and for so long.
func standsFirst(d *deed, all []times.Length) bool {
	said := strings.Fields(words.Small(d.Text))
	if len(said) == 0 || method.Verb(said[0]) != nil && method.Verb(said[0]).Class == food.Serves {
		return false
	}
	return slices.ContainsFunc(all, func(f times.Length) bool {
		return strings.HasSuffix(strings.TrimSpace(words.Small(d.Text[:f.Start])), " for")
	})
}

// lengths says what the durations of a deed's clause mean.
func (m *maker) lengths(d *deed) {
	all := slices.DeleteFunc(times.Lengths(d.Text), func(f times.Length) bool { return f.Over })
	for i := len(all) - 1; i >= 0; i-- {
		if strings.Contains(words.Small(d.Text[all[i].Start:all[i].End]), "night before") {
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
	if low, high := m.inRounds(d, all); high > 1 {
		d.time.Low, d.time.High = low*d.time.Low, high*d.time.High
	}
	switch {
	case d.kind == doing.Serving && d.time.High >= standsLeast && standsFirst(d, all):
		d.kind = doing.Standing // "carry in the boot for 5 hours and serve": nobody serves for so long
	case d.kind == doing.Serving && !plates[d.Verb]:
		d.time = measure.Duration{}
	case d.kind == doing.ByHand && d.Verb == "cover" && d.time.High >= 5:
		d.kind = doing.Standing // cover, 30 min
	case d.kind == doing.ByHand && d.time.High >= 2*hour:
		d.kind = doing.Standing // nobody works at one thing so long
	}
	if d.time.High == 0 && m.night.High > 0 && (d.kind == doing.Chilling || d.kind == doing.Standing) {
		d.time, m.night = m.night, measure.Duration{}
	}
	for i := range all {
		if all[i].Before && d.time.High == 0 && waitsBefore(d) {
			d.kind, d.time = doing.Standing, all[i].Duration // take it out an hour before
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
	case f.Before && d.kind == doing.ByHand && f.High <= mostLead:
		d.lead = f.High
	case f.Before && !d.kind.Waits(), f.Ahead, f.After && !d.kind.Heats() && !d.kind.Waits():
	case f.More && words.Has(d.Text, ifNeeded...): // nobody knows
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

// inRounds is in how many rounds something is done of which so many go at a time, or that is done in batches of which
// each takes so long; 0: it is not said so.
func (m *maker) inRounds(d *deed, all []times.Length) (low, high int) {
	inAll := func(f times.Length) bool {
		return f.InAll || words.Has(words.Small(d.Text[:f.Start]), "takes", "take", "took") // that is all of them
	}
	if d.time.High == 0 || slices.ContainsFunc(all, inAll) || d.kind != doing.ByHand && !d.kind.Heats() {
		return 0, 0
	}
	if n := times.Batches(d.Text); n > 1 || len(all) != 1 {
		return n, n // in three batches, 5 minutes each
	}
	few, many := times.AtATime(d.Text)
	if many == 0 {
		if words.Has(d.Text, "in batches") && words.Has(d.Text, "a batch", "each batch",
			"per batch") {
			return roundsLow, roundsHigh
		}
		return 0, 0
	}
	pieces := m.pieces(d)
	if pieces == 0 {
		return roundsLow, roundsHigh
	}
	return max((pieces+many-1)/many, 1), max((pieces+few-1)/few, 1)
}

// In how many rounds something is done where only that is said. Common practice, no source.
const roundsLow, roundsHigh = 2, 3

// pieces is of how many pieces what a deed works on is, as far as that is counted; 0: nobody knows.
func (m *maker) pieces(d *deed) (most int) {
	seen := map[*deed]bool{}
	var look func(o *deed)
	look = func(o *deed) {
		if seen[o] {
			return
		}
		seen[o] = true
		for _, g := range o.Takes {
			in := &m.r.Ingredients[g]
			if q := in.Total(); !q.IsZero() && q.Unit() == measure.Each && isMeat(in.Name) {
				n, _ := q.Low().Float64()
				most = max(most, int(n))
			}
		}
		for _, p := range o.After {
			look(m.all[p])
		}
	}
	look(d)
	if most == 0 && words.Has(words.Small(m.r.Yield), "makes") {
		if f := strings.Fields(m.r.Yield); len(f) > 1 {
			most, _ = strconv.Atoi(strings.Trim(f[1], ".,"))
		}
	}
	return min(most, mostPieces)
}

// mostPieces is more than anybody fries one by one.
const mostPieces = 60

// plates are verbs of serving that are work.
var plates = words.Set("plate carve dish arrange portion")

// endsBefore gives the time of "when the rice is tender, after about 20 minutes, take it off" to what went before.
func (m *maker) endsBefore(d *deed, all []times.Length) bool {
	if len(all) != 1 || !all[0].After || all[0].End > d.At-d.From ||
		!words.Begins(words.Small(strings.TrimLeft(d.Text, " ,;")), []string{"when ", "once ", "as soon as "}) {
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
	for _, h := range times.Heats(d.Text, m.american) {
		if c := h.Conventional().C(); !h.Inside && c >= minOvenC && c <= planner.MaxOvenC {
			heats = append(heats, h)
		}
	}
	odd := func(f times.Length) bool { return f.Every || f.UpTo || f.Per > 0 || f.Before || f.Ahead || f.Last }
	if d.kind != doing.InOven || len(heats) < 2 || len(heats) != len(all) || slices.ContainsFunc(all, odd) {
		return false
	}
	for i, f := range all {
		if i > 0 {
			if words.Index(words.Small(d.Text[all[i-1].End:f.Start]), "or") >= 0 {
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
	return f.End <= d.At-d.From && strings.HasPrefix(words.Small(strings.TrimLeft(d.Text, " ,;")), "after ")
}

// waitsBefore reports that food is taken out of the cold so long before.
func waitsBefore(d *deed) bool {
	low := words.Small(d.Text)
	if d.Verb != "take" && d.Verb != "remove" && d.Verb != "bring" {
		return false
	}
	return !d.WasOven && words.Has(low, "out") && words.Has(low, outBefore...) ||
		words.Contains(low, "fridge", "refrigerator", "freezer", "room temperature", "out of the cold",
			"take out",
			"take it out")
}

// outBefore say before what food is taken out of the cold.
var outBefore = phrases.Phrases("out before")

func plus(a, b measure.Duration) measure.Duration {
	return measure.Duration{Low: a.Low + b.Low, High: a.High + b.High}
}

// usual is [deed.usual], but shorter for what is left to cool where rice is in it.
func (m *maker) usual(d *deed) measure.Duration {
	if t, ok := m.bySense(d); ok {
		return t
	}
	if d.ripens {
		return ripeTime(d.until)
	}
	t := d.Usual(d.kind, words.Small(d.Text)+" "+d.stirred)
	if d.kind != doing.Standing || t.High <= spreadHigh || !slices.ContainsFunc(m.r.Ingredients, func(in Ingredient) bool {
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
	if !d.kind.Heats() {
		return longest, false
	}
	if _, signed := d.BySign(d.kind, words.Small(d.Text)); signed {
		return longest, false
	}
	seen := map[*deed]bool{}
	var in func(o *deed)
	in = func(o *deed) {
		if seen[o] {
			return
		}
		seen[o] = true
		if o != d && (o.kind == doing.InOven ||
			o.kind == doing.OnBurner && o.Class == food.Cooks && o.Row != nil && o.Row.Minutes[0] >= 6) {
			return // that is cooked
		}
		for _, g := range o.Takes {
			f, found := food.Find(m.r.Ingredients[g].Name)
			if !found {
				continue
			}
			row := method.Sense(d.Verb, f.Class)
			if row != nil && len(row.Of) > 0 && row.Where == d.kind.Place() && int(row.Minutes[1]) > longest.High {
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

// setsCold reports whether something in the recipe sets in the cold; icing, or what was baked, sets where it stands.
func (m *maker) setsCold() bool {
	oven := slices.ContainsFunc(m.all, func(d *deed) bool { return d.kind == doing.InOven })
	return !oven || slices.ContainsFunc(m.r.Ingredients, func(g Ingredient) bool {
		return words.Contains(words.Small(g.Name), "gelatin", "jelly", "agar", "cream", "chocolate")
	})
}
