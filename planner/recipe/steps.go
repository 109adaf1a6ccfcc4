package recipe

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/remark"
	"tureen/planner/ware"
	"tureen/planner/words"
)

// batch is acts that one person does in one go: a step in the making.
type batch struct {
	deeds []int // in the order of the text
	main  int   // the deed that gives it its heat, attention and name
	sum   [2]float64
	into  *batch // the one that it has gone into
}

// steps makes the cook's steps of the deeds.
func (m *maker) steps() {
	m.contract(func(d *deed) bool { return d.dropped && d.Verb == "" })
	m.keepActs()
	m.passOn()
	m.onlyKept()
	m.contract(func(d *deed) bool { return d.dropped })
	m.midways()
	of := make([]*batch, len(m.all))
	for i := range m.all {
		of[i] = &batch{deeds: []int{i}, main: i, sum: m.all[i].hands}
	}
	m.batches = of
	m.attach()
	m.chains()
	m.prepared()
	m.number()
}

// passOn gives what a deed that says nothing by itself names to the deed that it goes with, and keeps its words.
func (m *maker) passOn() {
	for i, d := range m.all {
		if d.dropped && !d.passed && !d.Leaf {
			m.r.Remarks = append(m.r.Remarks, Remark{Said: remark.Said{Kind: remark.Unread}, From: Place{d.sentence.from.Line,
				strings.TrimSpace(d.Text)}, step: d.Sentence + 1})
		}
		if !d.dropped || len(d.Takes) == 0 {
			continue
		}
		for _, j := range []int{i - 1, i + 1, i - 2, i + 2} {
			if j >= 0 && j < len(m.all) && !m.all[j].dropped && !m.all[j].Leaf {
				m.all[j].Takes, d.Takes = append(m.all[j].Takes, d.Takes...), nil
				break
			}
		}
	}
}

// onlyKept takes food that is put into the cold without a word of what for, in a recipe that says how long something
// else stands there, for kept there until it is wanted.
func (m *maker) onlyKept() {
	if !slices.ContainsFunc(m.all, func(d *deed) bool { return d.kind == doing.Chilling && d.time.High >= 30 }) {
		return
	}
	for i, d := range m.all {
		goesOn := slices.ContainsFunc(m.all[i+1:], func(o *deed) bool {
			return o.kind == doing.Chilling && slices.Contains(o.After, i)
		})
		if !goesOn && d.kind == doing.Chilling && d.time.High == 0 && d.longest.High == 0 && d.until == "" &&
			d.Class != food.Rests &&
			!words.Has(d.Text, "set", "chill", "cold", "firm", "marinate", "marinade", "cool", "rest", "overnight") {
			d.time = measure.Duration{Low: 1, High: 5}
		}
	}
}

// keepActs keeps the acts beneath the steps.
func (m *maker) keepActs() {
	number := map[int]int{}
	for i, d := range m.all {
		if d.Verb == "" && d.dropped {
			continue
		}
		number[i] = len(m.r.acts)
		a := act{Do: d.Verb, Spans: d.span(), After: []int{}, deed: d}
		for _, p := range d.After {
			if n, ok := number[p]; ok {
				a.After = append(a.After, n)
			}
		}
		m.r.acts = append(m.r.acts, a)
	}
}

// eachAlone makes a step of each sentence, each after the one before. It returns a sentence that says a time and
// nothing to do.
func (m *maker) eachAlone(said []*sentence) (unread string) {
	m.batches = make([]*batch, len(m.all))
	last := map[*sentence]int{}
	for i, d := range m.all {
		m.batches[i] = &batch{deeds: []int{i}, main: i, sum: d.hands}
		if d.dropped {
			if d.time.High > 0 {
				unread = d.sentence.text
			}
			continue
		}
		if p, ok := last[d.sentence]; ok {
			m.join(m.at(p), m.at(i))
		}
		last[d.sentence] = i
	}
	before := -1
	for i, d := range m.all {
		d.After = nil
		if before >= 0 && m.all[before].sentence != d.sentence {
			d.After = []int{before}
		}
		if !d.dropped && last[d.sentence] == i {
			before = i
		}
	}
	m.number()
	return unread
}

// at is the batch that a deed is in now.
func (m *maker) at(i int) *batch {
	b := m.batches[i]
	for b.into != nil {
		b = b.into
	}
	return b
}

// join puts a batch into another. What heats or waits gives the step its nature, else what was begun first.
func (m *maker) join(a, b *batch) {
	if a == b {
		return
	}
	main := a.main
	ka, kb := m.all[a.main].kind, m.all[b.main].kind
	if ka == doing.ByHand && kb != doing.ByHand && kb != doing.Preheat || ka == doing.Preheat ||
		ka.Heats() && kb.Heats() && m.all[b.main].takesLonger(m.all[a.main]) ||
		ka == doing.ByHand && kb == doing.ByHand && m.all[a.main].hands[1] < m.all[b.main].hands[1] {
		main = b.main
	}
	a.main = main
	a.deeds = append(a.deeds, b.deeds...)
	slices.Sort(a.deeds)
	a.sum[0] += b.sum[0]
	a.sum[1] += b.sum[1]
	b.into = a
}

// contract takes deeds that say nothing out of the graph.
func (m *maker) contract(out func(*deed) bool) {
	for i, d := range m.all {
		var after []int
		for _, p := range d.After {
			if out(m.all[p]) {
				for _, q := range m.all[p].After {
					if !slices.Contains(after, q) {
						after = append(after, q)
					}
				}
			} else if !slices.Contains(after, p) {
				after = append(after, p)
			}
		}
		slices.Sort(after)
		m.all[i].After = after
	}
}

// before and behind are the batches that a batch comes after, and that come after it.
func (m *maker) before(b *batch) (out []*batch) {
	for _, i := range b.deeds {
		for _, p := range m.all[i].After {
			if o := m.at(p); o != b && !slices.Contains(out, o) {
				out = append(out, o)
			}
		}
	}
	return out
}

func (m *maker) behind(b *batch) (out []*batch) {
	for j, d := range m.all {
		if d.dropped {
			continue
		}
		o := m.at(j)
		if o == b || slices.Contains(out, o) {
			continue
		}
		for _, p := range d.After {
			if m.at(p) == b {
				out = append(out, o)
				break
			}
		}
	}
	return out
}

// attach joins what is no step to the one it serves: participles, headings, the oven, a tin, how a thing is done.
func (m *maker) attach() {
	for i, d := range m.all {
		switch {
		case d.dropped:
		case d.Leaf, d.kind == doing.Preheat, d.Class == food.Readies && m.aloneReady(d), d.Heading:
			if next := m.serves(i); next >= 0 {
				m.join(m.at(next), m.at(i))
			}
		case d.Class == food.Cuts && d.kind == doing.ByHand && len(d.Takes) == 0 && len(d.After) == 0 && d.time.High == 0 &&
			i+1 < len(m.all) &&
			m.all[i+1].sentence == d.sentence && m.all[i+1].kind == doing.ByHand && len(m.all[i+1].Takes) > 0 &&
			!m.all[i+1].dropped:
			m.join(m.at(i+1), m.at(i)) // peel, core and slice the apples: they are one work
		case d.Trailing && i > 0 && m.all[i-1].sentence == d.sentence && (d.kind == doing.ByHand || d.kind == doing.Serving):
			m.join(m.at(i-1), m.at(i))
		}
	}
}

// aloneReady reports whether a tin is made ready, and nothing that is under way put into it.
func (m *maker) aloneReady(d *deed) bool {
	return !slices.ContainsFunc(d.After, func(p int) bool { return m.all[p].Class != food.Readies && !m.all[p].Leaf })
}

// takesLonger reports whether a deed takes longer than another, by what is said or usual.
func (d *deed) takesLonger(o *deed) bool {
	length := func(d *deed) int {
		if d.time.High > 0 {
			return d.time.High
		}
		return d.Usual(d.kind, words.Small(d.Text)+" "+d.stirred).High
	}
	return length(d) > length(o)
}

// serves is the deed that something beside is done for: the first after it, or the next of the text.
func (m *maker) serves(i int) int {
	usable := func(j int) bool {
		d := m.all[j]
		return !d.dropped && !d.Leaf && !d.Heading && (d.kind != doing.Preheat || m.all[i].kind == doing.Preheat)
	}
	for j := i + 1; j < len(m.all) && !m.all[i].Heading; j++ {
		if usable(j) && slices.Contains(m.all[j].After, i) {
			return j
		}
	}
	if m.all[i].kind == doing.Preheat && len(m.all[i].After) > 0 {
		return m.all[i].After[len(m.all[i].After)-1] // the heat is turned down within the work
	}
	for j := i + 1; j < len(m.all) && m.all[i].Heading; j++ {
		if usable(j) && m.all[j].sentence == m.all[i].sentence {
			return j
		}
	}
	for j := i + 1; j < len(m.all); j++ {
		if usable(j) {
			return j
		}
	}
	return -1
}

// chains joins runs that nothing else enters or leaves, as far as one person does them in one go.
func (m *maker) chains() {
	for again := true; again; {
		again = false
		for i, d := range m.all {
			if d.dropped || m.batches[i].into != nil {
				continue
			}
			b := m.at(i)
			before := m.before(b)
			if len(before) != 1 || len(m.behind(before[0])) != 1 || !m.inOneGo(before[0], b) {
				continue
			}
			m.join(before[0], b)
			again = true
		}
	}
}

// mostInOneGo is how many minutes of work by hand make a step at most. Common practice, no source.
const mostInOneGo = 25

// inOneGo reports whether a batch and the one after it are one step.
func (m *maker) inOneGo(a, b *batch) bool {
	x, y := m.all[a.main], m.all[b.main]
	if y.Beside || m.waitsBetween(x, y) || m.tabled(b) && !m.tabled(a) ||
		x.sentence.section != y.sentence.section && !m.trifles(a) {
		return false
	}
	switch {
	case x.kind.Waits() && x.kind == y.kind && (x.time.High == 0 || y.time.High == 0) && x.sentence.paragraph ==
		y.sentence.paragraph:
		return true // put it into the fridge, and let it marinate for 2 hours
	case x.kind == doing.ByHand && (y.kind == doing.ByHand || y.kind == doing.Serving):
		return a.sum[1]+b.sum[1] <= mostInOneGo && (x.time.High == 0 || y.time.High == 0)
	case x.kind == doing.Serving:
		return y.kind == doing.ByHand || y.kind == doing.Serving
	case x.kind == doing.ByHand: // but spreading it with icing, to chill it for 30 minutes, is work
		return m.trifles(a) && a.sum[1] <= 4 && !(y.kind.Waits() && m.finishes(a))
	case y.kind == doing.ByHand:
		return m.trifles(b) && b.sum[1] <= 2 && m.belongs(x, y, b)
	}
	return y.kind != doing.Serving && x.kind.Heats() && y.kind.Heats() && !m.browns(x) && m.sameHeat(x, y)
}

// finishes reports work on each place of what is put together, which is none of the wait's that follows.
func (m *maker) finishes(b *batch) bool {
	return slices.ContainsFunc(b.deeds, func(i int) bool { return finishing[m.all[i].Verb] })
}

var finishing = lists.Set("finishing")

// belongs reports whether trifles belong to the heat or the wait before them.
func (m *maker) belongs(x, y *deed, b *batch) bool {
	return x.sentence == y.sentence && !m.feeds(b) || len(m.behind(b)) == 0 || y.Class == food.GoesOn || y.Aside ||
		b.sum[1] <= 1 && y.Class == food.Moves && x.sentence.paragraph == y.sentence.paragraph &&
			len(m.before(b)) == 1 && m.endsSentence(b)
}

// tabled reports whether work by hand is done for the table by its words: what is before it need not wait for that.
func (m *maker) tabled(b *batch) bool {
	return slices.ContainsFunc(b.deeds, func(i int) bool {
		d := m.all[i]
		lead := words.Small(strings.TrimLeft(d.sentence.text[:min(d.From, len(d.sentence.text))], " ,;"))
		return d.kind == doing.ByHand && (d.lead > 0 || words.Contains(words.Small(d.Text), forTable...) ||
			words.Begins(lead, forTable))
	})
}

// waitsBetween reports whether one of two deeds is in the middle of something, or the recipe says between them that it
// may be made ahead so far.
func (m *maker) waitsBetween(x, y *deed) bool {
	return x.inMiddle() || y.inMiddle() || slices.ContainsFunc(m.r.Remarks, func(k Remark) bool {
		return k.Waits() && !k.whole && x.Sentence < k.step && k.step <= y.Sentence
	})
}

// inMiddle reports what is done in the middle of something, or is the rest of it.
func (d *deed) inMiddle() bool { return d.goesOn || d.ripens || d.midway > 0 || d.last.High > 0 }

// sameHeat reports whether what heats goes on in the same place as one step.
func (m *maker) sameHeat(x, y *deed) bool {
	switch {
	case y.Verb == "reheat": // it may have waited in the cold before it
		return false
	case x.kind == doing.InOven && y.kind == doing.InOven && y.oven != x.oven: // it is turned in the middle
		return x.time.Low > 0 && x.oven.Temperature != 0 && y.oven.Temperature != 0
	case x.kind == y.kind:
		return x.sentence == y.sentence
	}
	return x.kind != doing.InOven && y.kind != doing.InOven && x.time.High == 0 &&
		(x.Class == food.Heats || x.Verb == "melt")
}

// feeds reports whether a batch of trifles stands before what heats in the same sentence: it belongs to that.
func (m *maker) feeds(b *batch) bool {
	for _, o := range m.behind(b) {
		if m.all[o.main].sentence == m.all[b.main].sentence && m.all[o.main].kind != doing.ByHand {
			return true
		}
	}
	return false
}

// endsSentence reports whether nothing of the same sentence comes after a batch.
func (m *maker) endsSentence(b *batch) bool {
	return !slices.ContainsFunc(m.behind(b), func(o *batch) bool {
		return slices.ContainsFunc(o.deeds, func(i int) bool { return m.all[i].sentence == m.all[b.main].sentence })
	})
}

// trifles reports whether a batch has no work to speak of.
func (m *maker) trifles(b *batch) bool {
	for _, i := range b.deeds {
		if d := m.all[i]; !d.trifle() && !d.Leaf {
			return false
		}
	}
	return true
}

func (m *maker) browns(d *deed) bool {
	return d.kind.Heats() && words.Has(d.Text, "brown", "sear", "seal", "colour", "color", "browned")
}

// prepared joins work by hand that goes into the same work by hand: one person does it in one go.
func (m *maker) prepared() {
	for again := true; again; {
		again = false
		for i, d := range m.all {
			if d.dropped || m.batches[i].into != nil {
				continue
			}
			b := m.at(i)
			behind := m.behind(b)
			if m.all[b.main].kind != doing.ByHand || len(behind) != 1 {
				continue
			}
			next := behind[0]
			if m.sidework(b, next) {
				m.join(next, b)
				again = true
			}
		}
		m.chains()
	}
}

// sidework reports whether a batch by hand, which comes after nothing, is done in one go with what it goes into.
func (m *maker) sidework(b, next *batch) bool {
	x, y := m.all[b.main], m.all[next.main]
	if m.tabled(next) && !m.tabled(b) || m.waitsBetween(x, y) {
		return false
	}
	if y.kind != doing.ByHand || x.sentence.section != y.sentence.section || x.time.High > 0 || y.inMiddle() ||
		b.sum[1]+next.sum[1] > mostInOneGo || len(m.before(b)) > 0 {
		return false
	}
	for _, o := range m.before(next) {
		if o != b && m.all[o.main].kind != doing.ByHand {
			return m.trifles(b)
		}
	}
	return true
}

// number makes the steps of the batches, in the order of the text as far as what comes after what allows.
func (m *maker) number() {
	var order []*batch
	placed := map[*batch]bool{}
	var place func(b *batch, depth int)
	place = func(b *batch, depth int) {
		if placed[b] {
			return
		}
		placed[b] = true
		for _, o := range m.before(b) {
			place(o, depth+1)
		}
		order = append(order, b)
	}
	for i, d := range m.all {
		if !d.dropped {
			place(m.at(i), 0)
		}
	}
	first := len(m.r.Steps)
	index := map[*batch]int{}
	for _, b := range order {
		index[b] = len(m.r.Steps)
		m.r.Steps = append(m.r.Steps, m.step(b))
	}
	for _, b := range order {
		s := &m.r.Steps[index[b]]
		s.after = []int{}
		for _, o := range m.before(b) {
			if index[o] < index[b] {
				s.after = append(s.after, index[o])
			}
		}
		s.after = m.r.direct(s.after)
		n := index[b] - 1
		x := m.all[b.deeds[0]]
		s.straight = n >= first && slices.Contains(s.after, n) && m.r.Steps[n].paragraph == s.paragraph
		s.mid = x.midway > 0 || m.all[b.main].midway > 0
		if m.all[b.main].goesOn {
			s.straight = true
		}
	}
	for i := range m.all {
		if d := m.all[i]; !d.dropped {
			d.step = index[m.at(i)]
		}
	}
}

// step makes a step of a batch.
func (m *maker) step(b *batch) Step {
	d := m.all[b.main]
	s := Step{Section: d.sentence.section, From: Place{d.sentence.from.Line, ""}, Attention: d.kind.Attention(),
		Where: planner.Counter, kind: d.kind, paragraph: d.sentence.paragraph, key: d.Verb}
	if s.kind == doing.Preheat {
		s.kind = doing.ByHand
	}
	told := slices.ContainsFunc(b.deeds, func(i int) bool { return m.all[i].kind == d.kind && m.all[i].time.High > 0 })
	for _, i := range b.deeds {
		m.put(&s, m.all[i], i == b.main, told && d.kind.Waits())
		s.spans = append(s.spans, m.all[i].span()...)
	}
	s.Do, s.From.Text = m.wording(b)
	if d.ripens {
		s.mainly = d.Text
	} else if !d.goesOn {
		s.mainly = strings.TrimSuffix(imperative(trimJoin(d.sentence.said(d.From, min(d.To, len(d.sentence.text))))),
			" before")
	}
	if where := d.kind.Where(); (where == planner.Refrigerator || where == planner.Freezer) &&
		!saysCold(words.Small(s.Do)) {
		s.Do += takenSo(where)
	}
	s.clauses = len(b.deeds)
	s.Guessed = s.guess > s.Time.High/2
	for _, i := range b.deeds {
		if x := m.all[i]; x.time.High == 0 {
			s.hands[0], s.hands[1] = s.hands[0]+x.hands[0], s.hands[1]+x.hands[1]
		}
	}
	if d.kind == doing.Serving {
		s.kind = doing.Serving
	}
	switch s.kind {
	case doing.InOven:
		s.Heat, s.Where, s.Cooks = planner.AnOven, planner.Heat, true
		m.turning(&s, b)
	case doing.OnBurner, doing.OverBurner:
		s.Heat, s.Where, s.Cooks = planner.ABurner, planner.Heat, true
	case doing.OnGrill:
		s.Heat, s.Where, s.Cooks = planner.AGrill, planner.Heat, true
	case doing.Chilling:
		s.Where = planner.Refrigerator
	case doing.Freezing:
		s.Where = planner.Freezer
	}
	if d.cooker != "" && s.kind.Heats() {
		s.Heat, s.Oven, s.Then = planner.AnAppliance, measure.Setting{}, nil
		s.Things = ware.Add(s.Things, ware.Thing{Name: d.cooker, Appliance: true})
		if doing.ByItself(d.cooker) && s.kind == doing.OnBurner {
			s.Attention = planner.Unattended
		}
	}
	if s.kind == doing.ByHand || s.kind == doing.Serving {
		s.said, s.Time = s.Time, measure.Duration{}
	}
	if s.Every > 0 {
		s.Attention = planner.Touch
	}
	slices.Sort(s.Parts)
	s.Parts = slices.Compact(s.Parts)
	return s
}

// turning says how hot the oven is, and when it is turned within the step.
func (m *maker) turning(s *Step, b *batch) {
	at := 0
	for _, i := range b.deeds {
		d := m.all[i]
		if d.kind != doing.InOven || d.Leaf {
			continue
		}
		switch {
		case s.Oven.Temperature == 0:
			s.Oven = d.oven
		case d.oven != s.Oven && d.oven.Temperature != 0 && at > 0 && (len(s.Then) == 0 ||
			s.Then[len(s.Then)-1].Oven != d.oven && at > s.Then[len(s.Then)-1].After):
			s.Then = append(s.Then, OvenChange{After: at, Oven: d.oven})
		}
		for _, t := range d.then {
			s.Then = append(s.Then, OvenChange{After: at + t.After, Oven: t.Oven})
		}
		at += d.time.Low
	}
}

func saysCold(low string) bool {
	return words.Contains(low, "chill", "refrigerat", "fridge", "freez", "cold", "overnight", "marinat", "icebox", "ice")
}

// put adds what a deed says to its step; told: how long it waits is said by another.
func (m *maker) put(s *Step, d *deed, main, told bool) {
	s.Parts = append(s.Parts, d.Takes...)
	if d.Leaf {
		return
	}
	s.lead = max(s.lead, d.lead)
	s.grows = s.grows || d.Row != nil && d.Row.Per != "batch" && d.Row.Per != "" && !d.Trailing
	for _, t := range d.things {
		s.Things = ware.Add(s.Things, t)
	}
	s.Until = join(s.Until, d.until)
	s.Every = max(s.Every, d.every)
	if d.last.High > 0 {
		s.lastOf = d.last
	}
	if d.longest.High > 0 {
		s.Longest = d.longest
	}
	if main || d.kind == s.kind || d.time.High > 0 && (d.kind.Heats() && s.kind.Heats()) {
		t := d.time
		if t.High == 0 && d.kind != doing.ByHand && d.kind != doing.Serving && d.kind != doing.Preheat && !told {
			t = m.usual(d)
			s.guess += t.High
		}
		s.Time = plus(s.Time, t)
	} else if d.kind.Heats() || d.kind.Waits() {
		t := d.time
		if t.High == 0 {
			t = m.usual(d)
			s.guess += t.High
		}
		s.Time = plus(s.Time, t)
	}
}

// wording is a step in the imperative, and the words that it was read from.
func (m *maker) wording(b *batch) (do, from string) {
	var said, full []string
	for n := 0; n < len(b.deeds); n++ {
		d := m.all[b.deeds[n]]
		if d.goesOn || d.ripens {
			said, full = append(said, d.Text), append(full, d.sentence.text)
			continue
		}
		if d.Leaf || d.kind == doing.Preheat && b.main != b.deeds[n] ||
			d.Heading && d.Class == food.Makes && len(b.deeds) > 1 && strings.HasSuffix(strings.TrimSpace(d.Text), ":") {
			continue
		}
		// Deeds that stand side by side keep the recipe's own words.
		start, end := d.From, d.To
		for n+1 < len(b.deeds) {
			next := m.all[b.deeds[n+1]]
			if next.Leaf && next.sentence == d.sentence && next.From < end {
				n++
				continue
			}
			if next.sentence != d.sentence || next.goesOn || next.kind == doing.Preheat || next.From > end+1 {
				break
			}
			end = max(end, next.To)
			n++
		}
		end = min(end, len(d.sentence.text))
		text := trimJoin(d.sentence.said(start, end))
		if t := imperative(text); t != "" {
			said = append(said, t)
		}
		full = append(full, strings.TrimSpace(trimJoin(d.sentence.text[start:end])))
	}
	for i := range said {
		if i > 0 {
			said[i] = words.Lower(said[i])
		}
	}
	if len(said) == 0 { // its words went elsewhere: it is never without any
		said = append(said, words.Upper(strings.Trim(m.all[b.main].sentence.text, " .,;:")))
	}
	return words.Cut(strings.Join(said, "; "), 390), words.Cut(strings.Join(full, " "), 600)
}
