package recipe

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/ware"
	"tureen/planner/words"
)

// deed is an act of the method with what its words say of heat, time and place.
type deed struct {
	doing.Act
	kind     doing.Kind
	time     measure.Duration
	longest  measure.Duration
	last     measure.Duration // it is for the last so long of something
	midway   int              // it is done so many minutes into what it comes after
	every    int
	lead     int // it is done so many minutes before the meal
	oven     measure.Setting
	then     []OvenChange
	set      bool // its words say how hot the oven is
	until    string
	things   []ware.Thing
	hot      bool       // when it is over the food is in an oven
	grilled  bool       // and on a grill
	cooker   string     // the appliance with a heat of its own that the food is in
	stirred  string     // "cook and stir until golden": what is said of both
	hands    [2]float64 // by the table of verbs, for work by hand
	sign     string     // of the whole, where something is done in its middle
	step     int
	goesOn   bool // not in the text: the rest of a time in whose middle something is done
	ripens   bool // not told to do: it waits for what another says that it is done after
	dropped  bool // it says nothing by itself
	passed   bool // what it says was given to another
	sentence *sentence
}

// trifle reports whether it is no work to speak of.
func (d *deed) trifle() bool {
	work := d.hands[1] - fetchHigh*float64(len(d.Takes))
	return d.kind == doing.Preheat || d.kind == doing.ByHand && d.time.High == 0 && work <= 0.8
}

// deeds are the method's acts, in the order of the text.
func (m *maker) deeds(sentences []*sentence) {
	var list []method.Ingredient
	for i := range m.r.Ingredients {
		list = append(list, method.Ingredient{Name: m.r.Ingredients[i].Name, Section: m.r.Ingredients[i].Section})
	}
	var said []method.Sentence
	paragraphs := 1
	for i := 1; i < len(sentences); i++ {
		if sentences[i].paragraph != sentences[i-1].paragraph {
			paragraphs++
		}
	}
	several := len(sentences) > paragraphs // a paragraph a sentence parts nothing
	for i, s := range sentences {
		text := s.text
		if m.announces(sentences, i) {
			text = strings.TrimRight(text, ".!") + ":"
		}
		for _, lead := range dayLeads {
			if low := words.Small(text); strings.HasPrefix(low, lead+" ") && len(low) == len(text) {
				text = strings.Repeat(" ", len(lead)) + text[len(lead):] // next day take it out
				break
			}
		}
		if end := doing.WantsTime(text); end > 0 && !strings.ContainsAny(text[end:], ",;:") {
			text = text[:end] + strings.Repeat(" ", len(text)-end) // "before you cut it": nothing to do yet
		}
		opens := several && (i == 0 || sentences[i-1].paragraph != s.paragraph)
		said = append(said, method.Sentence{Text: text, Section: s.section, Adds: s.adds, Opens: opens})
	}
	for _, a := range method.Read(list, said) {
		s := sentences[a.Sentence]
		a.To = min(a.To, len(s.text))
		m.all = append(m.all, &deed{Act: doing.Act{Act: a, Text: s.text[a.From:a.To], Row: method.Verb(a.Verb),
			American: m.american, Sets: m.setsCold}, sentence: s})
	}
	for i := range m.all {
		m.read(i)
		m.workOnHand(m.all[i])
		if d := m.all[i]; i > 0 && d.lead == 0 && d.kind == doing.ByHand && m.all[i-1].sentence == d.sentence {
			d.lead = m.all[i-1].lead // an hour before, grate the apples and toss all
		}
		m.keepsOnly(i)
	}
	m.ripen()
	m.warmed()
}

// dayLeads say on which day what follows them is done.
var dayLeads = phrases.Phrases("day leads")

// announces reports a short sentence that only names what the next ones do: "Bake the pie", "Make the filling." It
// stands first in its paragraph, or on a line of its own, and its verb is told again behind it.
func (m *maker) announces(all []*sentence, i int) bool {
	s := all[i]
	if i > 0 && all[i-1].paragraph == s.paragraph || i+1 == len(all) || len(strings.Fields(s.text)) > 6 ||
		strings.ContainsAny(s.text, ",;:(") || len(times.Lengths(s.text)) > 0 || len(times.Heats(s.text, m.american)) > 0 {
		return false
	}
	verb, at, ok := method.Told(s.text)
	if first, _ := words.First(words.Small(s.text)); !ok || at > 0 && !stepLeads[first] {
		return false
	}
	paragraph := all[i+1].paragraph
	if namesWork[verb] && paragraph == s.paragraph && i+2 < len(all) && all[i+2].paragraph == paragraph {
		return true // cook the beetroot: how, its paragraph tells
	}
	if paragraph != s.paragraph && strings.HasSuffix(s.text, ".") {
		return false
	}
	for _, o := range all[i+1:] {
		if o.paragraph != paragraph {
			break
		}
		if o.section == s.section && tellsAgain(o.text, verb) {
			return true
		}
	}
	return false
}

// namesWork are verbs that say what is to be, and not how.
var namesWork = lists.Set("names work")

// tellsAgain reports whether a verb is among what a sentence tells to do.
func tellsAgain(text, verb string) bool {
	for len(text) > 0 {
		v, at, ok := method.Told(text)
		if !ok {
			return false
		}
		if v == verb {
			return true
		}
		next := strings.IndexAny(text[at:], ",;") // the next clause
		if and := strings.Index(text[at:], " and "); and >= 0 && (next < 0 || and < next) {
			next = and + len(" and")
		}
		if next < 0 {
			return false
		}
		text = strings.TrimLeft(text[at+next+1:], " ")
	}
	return false
}

// read says what a deed's words tell.
func (m *maker) read(i int) {
	d := m.all[i]
	if d.Leaf {
		d.hands = d.usualHands(m.r)
		return
	}
	d.grilled = slices.ContainsFunc(d.After, func(p int) bool { return m.all[p].grilled }) && !takesOut[d.Verb]
	d.WasOven = m.turned != nil && m.turned == d.sentence ||
		slices.ContainsFunc(d.After, func(p int) bool { return m.all[p].hot })
	d.goesOnTo()
	d.WasGrill = d.grilled
	d.kind = d.Kind()
	d.until, d.things = untilOf(d.Text), ware.In(d.Text)
	m.inCooker(d)
	m.temperature(d)
	if all := times.Lengths(d.Text); d.Verb == "" && len(all) > 0 && all[0].InAll {
		d.kind = doing.ByHand // it will take 90 minutes in all
	}
	m.lengths(d)
	if d.Verb == "add" && d.At == d.From && d.time.High > 0 && d.kind == doing.ByHand {
		for _, p := range d.After {
			if m.all[p].kind.Heats() {
				d.kind = m.all[p].kind // chicken in, 3 minutes
			}
		}
		if d.kind == doing.ByHand && words.Has(words.Small(d.Text), "in the fat", "in the oil", "in the butter", "in butter",
			"in oil", "in the pan") {
			d.kind = doing.OverBurner // crumbs in the fat till gold, 4 minutes
		}
	}
	m.isHot(d)
	switch {
	case d.contingent(), d.time.High == 0 && (d.kind.Waits() || d.kind.Heats()) && d.inBrackets():
		d.kind, d.time, d.until, d.hands = doing.ByHand, measure.Duration{}, "", [2]float64{0.2, 0.5}
	case d.Verb == "":
		m.verbless(i)
	case i > 0 && isOr(d, m.all[i-1]):
		m.orElse(i) // grill it or bake it until …
	case d.Trailing && i > 0 && !m.all[i-1].Leaf && m.all[i-1].sentence == d.sentence:
		m.trails(d, m.all[i-1])
	case i > 0:
		m.cookAndStir(d, m.all[i-1])
	}
}

// isHot says whether a deed leaves its food in the oven or under a grill, and how long what is done by hand takes.
func (m *maker) isHot(d *deed) {
	d.grilled = d.kind == doing.OnGrill || d.kind == doing.ByHand && (d.grilled || d.Class == food.Moves &&
		ware.At(words.Small(d.Text), "grill"))
	switch d.kind {
	case doing.InOven:
		d.hot = true
	case doing.ByHand:
		d.hands = d.usualHands(m.r)
		d.hot = (d.WasOven && !words.Has(d.Text, standsThere...) || ware.At(words.Small(d.Text), "oven")) &&
			!(takesOut[d.Verb] && !words.Has(d.Text, "foil", "lid", "cover"))
	case doing.Preheat:
		d.hot = d.WasOven
		if ware.At(words.Small(d.Text), "oven") {
			m.turned = d.sentence
		}
	}
}

// cookAndStir gives what is said of both, in "cook and stir until golden", to the first.
func (m *maker) cookAndStir(d, before *deed) {
	if d.Class != food.Mixes && d.Verb != "turn" || d.kind != doing.ByHand || before.sentence != d.sentence ||
		before.kind != doing.OnBurner && before.kind != doing.OverBurner || before.until != "" || before.time.High > 0 ||
		words.Small(strings.TrimSpace(before.Text)) != before.Verb+" and" &&
			!strings.HasSuffix(before.Text, ", "+before.Verb+" and ") {
		return
	}
	before.stirred, before.until, before.time = words.Small(d.Text), d.until, d.time
	d.until, d.time = "", measure.Duration{}
}

// inCooker finds the appliance with a heat of its own that the food is in: nothing else heats it there.
func (m *maker) inCooker(d *deed) {
	low := words.Small(d.Text)
	for _, t := range d.things {
		switch {
		case cookers[t.Name]:
			d.cooker = t.Name
		case !t.Appliance && givesForm(t), heatedVessels[t.Name]:
			return
		}
	}
	switch {
	case d.cooker != "":
		if d.kind == doing.Preheat {
			m.cooker = d.cooker
		}
		return
	case takesOut[d.Verb], ware.At(low, "oven"), ware.At(low, "burner"), ware.At(low, "grill"):
		return
	}
	for _, p := range d.After {
		if c := m.all[p].cooker; c != "" && !cookersLeft[c] {
			d.cooker = c
		}
	}
	if d.kind.Heats() && d.cooker == "" && m.oven.Temperature == 0 {
		d.cooker = m.cooker
	}
	if d.cooker != "" && d.kind == doing.ByHand && len(times.Lengths(d.Text)) > 0 && words.Has(d.Text, "setting", "mode") {
		d.kind = doing.OnBurner // use the appliance's setting for 12 minutes
	}
}

// cookers are appliances with a heat of their own, cookersLeft those that food is taken out of before the next act,
// heatedVessels what stands on a burner. Common practice, no source.
var cookers, cookersLeft, heatedVessels = phraseSet("cookers"), phraseSet("cookers left"), phraseSet("heated vessels")

func phraseSet(name string) map[string]bool {
	out := map[string]bool{}
	for _, p := range phrases.Phrases(name) {
		out[p] = true
	}
	return out
}

// trails takes what says how or when the act before is done.
func (m *maker) trails(d, before *deed) {
	if before.kind == doing.ByHand && before.time.High == 0 && d.kind.Waits() && d.time.High >= longChill {
		before.kind = d.kind // let it firm up by chilling it for three hours
	}
	if d.kind != doing.ByHand && d.kind != doing.Serving {
		d.kind, d.hands, d.hot = doing.ByHand, d.usualHands(m.r), before.hot
	}
	before.every = max(before.every, d.every)
	if before.time.High == 0 && d.time.High > 0 {
		before.time, d.time = d.time, measure.Duration{}
	}
}

// longChill is from how many minutes on what is told of how a thing is done is what is done. Common practice, no
// source.
const longChill = 30

// isOr reports a second way to cook, of two with "or" between them.
func isOr(d, before *deed) bool {
	return d.kind.Heats() && before.sentence == d.sentence && before.kind.Heats() &&
		(strings.HasSuffix(strings.TrimRight(words.Small(before.Text), " ,"), " or") ||
			strings.HasPrefix(words.Small(strings.TrimLeft(d.Text, " ,")), "or "))
}

// goesOnTo takes "continue to cook", "keep stirring" and "begin by frying" for the verb that it is about.
func (d *deed) goesOnTo() {
	if !goingOn[d.Verb] {
		return
	}
	f := strings.Fields(words.Small(d.Text[min(d.End-d.From, len(d.Text)):]))
	for len(f) > 0 && (f[0] == "to" || f[0] == "by" || f[0] == "on" || f[0] == "with" || strings.HasSuffix(f[0], "ly")) {
		f = f[1:]
	}
	if len(f) == 0 {
		return
	}
	if row := method.Verb(strings.Trim(f[0], ",.;:")); row != nil && row.Class != food.GoesOn &&
		(d.Verb != "keep" || strings.HasSuffix(f[0], "ing")) {
		d.Row, d.Verb, d.Class = row, row.Name, row.Class
	}
}

var goingOn = words.Set("continue keep start begin carry finish")

// contingent reports what is only done where something is amiss: "if the sauce is too thick, add …".
func (d *deed) contingent() bool {
	lead := strings.TrimLeft(words.Small(d.Text[:min(max(d.At-d.From, 0), len(d.Text))]), " (")
	return strings.HasPrefix(lead, "if ") && words.Has(lead, amiss...) || (d.kind.Waits() || d.kind.Heats()) &&
		(strings.HasPrefix(lead, "optional") || words.Begins(lead, ifLiked) ||
			d.kind.Waits() && words.Has(d.Text, ifLiked...))
}

// inBrackets reports a clause that is only said in passing: "skim off the fat (chill it first, and it lifts off)".
func (d *deed) inBrackets() bool {
	before := d.sentence.text[:min(d.At, len(d.sentence.text))]
	return strings.Count(before, "(") > strings.Count(before, ")")
}

// amiss are words for what has not come out as it should; ifLiked of what may be left out, ifNeeded of what is not
// always; standsThere are vessels by which food has left the oven.
var amiss, ifLiked, ifNeeded, standsThere = phrases.Phrases("amiss"), phrases.Phrases("if liked"),
	phrases.Phrases("if needed"), phrases.Phrases("stands there")

// takesOut are verbs after which the food is no more in the oven.
var takesOut = words.Set("remove take lift transfer serve drain carve cut slice unmould unmold invert place arrange " +
	"spoon cool")

// verbless reads a clause in which nothing is told: a time or a heat of what was told before, or a remark.
func (m *maker) verbless(i int) {
	d := m.all[i]
	if d.kind != doing.ByHand {
		return
	}
	if d.time.High >= 3 && m.oven.Temperature != 0 &&
		(d.tellsUnknown() || startsWithDigit(strings.TrimLeft(d.Text, " (")) && d.At == d.From) &&
		!slices.ContainsFunc(m.all[:i], func(o *deed) bool { return o.kind == doing.InOven }) {
		// The oven is on, and nothing was in it.
		d.kind, d.hot, d.oven, d.Row = doing.InOven, true, m.oven, method.Verb("bake")
		return
	}
	d.dropped = true
	if i == 0 {
		return
	}
	before := m.all[i-1]
	if before.sentence.paragraph == d.sentence.paragraph && before.kind != doing.ByHand && before.kind != doing.Serving &&
		before.time.High == 0 && d.time.High > 0 {
		before.time, before.longest, before.every = d.time, d.longest, max(before.every, d.every)
		before.until = join(before.until, d.until)
		if before.sentence == d.sentence { // the words of another sentence stay what they are, beside the step
			before.To, before.Text, d.passed = d.To, before.Text+d.Text, true
		}
	}
}

// orElse takes a second way to cook for the first one's: its sign and its time are told of both.
func (m *maker) orElse(i int) {
	d, before := m.all[i], m.all[i-1]
	if before.time.High == 0 {
		before.time = d.time
	}
	before.until = join(before.until, d.until)
	before.Text, before.To, d.passed = before.Text+d.Text, d.To, true
	before.Takes, d.Takes = append(before.Takes, d.Takes...), nil
	d.dropped = true
}

// tellsUnknown reports whether a clause begins with a word that seems to tell something, which no table has.
func (d *deed) tellsUnknown() bool {
	f := strings.Fields(words.Small(d.Text))
	if len(f) < 3 {
		return false
	}
	_, isFood := food.Find(f[0])
	return !isFood && !determiners[f[0]] && !leadWords[f[0]] && (f[1] == "for" || f[1] == "at" || f[1] == "it" ||
		f[1] == "them" || f[1] == "in" || f[1] == "until")
}

// temperature takes the oven's setting, or the food's own as the sign that it is done.
func (m *maker) temperature(d *deed) {
	if d.sentence != nil && d.sentence.oven.Temperature != 0 {
		m.oven, d.sentence.oven = d.sentence.oven, measure.Setting{}
	}
	for _, t := range times.Heats(d.Text, m.american) {
		c := t.Conventional().C()
		switch {
		case t.Inside:
			if d.until == "" {
				d.until = t.Temperature.String() + " inside"
			}
		case c >= minOvenC && c <= planner.MaxOvenC && !d.set && (d.kind == doing.Preheat || d.kind == doing.InOven):
			d.oven, d.set = t.Setting, true
			m.oven = t.Setting
		case c >= minOvenC && c <= planner.MaxOvenC && (d.kind == doing.ByHand || d.kind.Waits()) &&
			(ware.At(words.Small(d.Text), "oven") ||
				words.Has(words.Small(d.Text), "oven on", "oven to", "oven up", "oven down", "oven at")):
			m.oven = t.Setting // pour round the stock, oven down to 150
		}
	}
	if !d.set {
		d.oven = m.oven
	}
}

// usualHands is how long a verb takes by hand, by the table and the amounts that it takes in.
func (d *deed) usualHands(r *Reading) [2]float64 {
	if d.Row == nil || d.Heading {
		return [2]float64{}
	}
	low, high := d.Row.Minutes[0], d.Row.Minutes[1]
	if d.Row.Attention != string(planner.Hands) {
		low, high = 0.2, 0.5
	}
	sum := [2]float64{}
	for _, g := range d.Takes {
		in := &r.Ingredients[g]
		f, ok := food.Find(in.Name)
		if !ok {
			continue
		}
		if s := method.Sense(d.Verb, f.Class); s != d.Row && s != nil && s.Attention == string(planner.Hands) {
			n := amountOf(in, s.Per)
			sum[0] += n * s.Minutes[0]
			sum[1] += n * s.Minutes[1]
		}
	}
	n := float64(len(d.Takes))
	switch {
	case sum[1] > 0:
		low, high = max(sum[0], low/2), max(sum[1], high/2)
	case d.Class == food.Cuts && n > 1:
		low, high = low*min(n, 6), high*min(n, 6)
	}
	return [2]float64{min(low+n*fetchLow, mostHands), min(high+n*fetchHigh, mostHands)}
}

// workOnHand gives work by hand on what was only fetched or cut so far its time by the amount of that: cut it into
// pieces, halve them the long way.
func (m *maker) workOnHand(d *deed) {
	if d.Class != food.Cuts || d.kind != doing.ByHand || d.Leaf || len(d.Takes) > 0 {
		return
	}
	found := map[int]bool{}
	var look func(i, depth int)
	look = func(i, depth int) {
		o := m.all[i]
		whole := o.kind == doing.OnBurner && slices.ContainsFunc(o.Takes, func(g int) bool { // eggs are peeled one by one
			return says(m.r.Ingredients[g].Name, "egg")
		})
		if depth > 4 || o.kind != doing.ByHand && !o.kind.Waits() && !whole || o.Class == food.Mixes {
			return
		}
		for _, g := range o.Takes {
			found[g] = true
		}
		for _, p := range o.After {
			look(p, depth+1)
		}
	}
	for _, p := range d.After {
		look(p, 0)
	}
	h := [2]float64{}
	for g := range found {
		in := &m.r.Ingredients[g]
		f, ok := food.Find(in.Name)
		if !ok {
			continue
		}
		if s := method.Sense(d.Verb, f.Class); s != nil && len(s.Of) > 0 && (s.Per == "kg" || s.Per == "piece") {
			n := amountOf(in, s.Per)
			h[0], h[1] = h[0]+n*s.Minutes[0], h[1]+n*s.Minutes[1]
		}
	}
	if h[1] > d.hands[1] {
		d.hands = [2]float64{min(h[0], mostHands), min(h[1], mostHands)}
	}
}

// How long it takes to get an ingredient out and weigh it, in minutes. Common practice, no source.
const fetchLow, fetchHigh = 0.2, 0.4

// mostHands is the most minutes that one act by hand is guessed at.
const mostHands = 30

// amountOf is how many of a unit an ingredient line has: kilograms, pieces or batches.
func amountOf(in *Ingredient, per string) float64 {
	q := in.Total()
	if q.IsZero() {
		return 0.5
	}
	switch per {
	case "kg":
		if g, err := q.Convert(measure.Gram); err == nil {
			n, _ := g.Low().Float64()
			return min(n/1000, 5)
		}
		for _, x := range in.More { // two, of which each or all weigh so much
			if g, err := x.Amount.Convert(measure.Gram); err == nil && !x.Inches {
				n, _ := g.Low().Float64()
				if times, _ := q.Low().Float64(); x.Each && q.Unit() == measure.Each {
					n *= times
				}
				return min(n/1000, 5)
			}
		}
		if f, ok := food.Find(in.Name); ok && q.Unit() == measure.Each {
			if p := f.Piece(); p != nil && p.Edible != nil && p.Refuse != nil {
				one, _ := p.Edible.Float64()
				n, _ := q.Low().Float64()
				return min(n*one/1000, 5)
			}
		}
		return 0.5
	case "piece":
		n, _ := q.Low().Float64()
		if q.Unit() == measure.Each {
			return min(n, 20)
		}
	}
	return 1
}
