package recipe

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// maker makes steps of a method's sentences.
type maker struct {
	r         *Reading
	oven      measure.Setting // as it was turned last
	american  bool
	section   string
	paragraph int
	meanwhile bool
	night     measure.Duration // what is done the night before rests so long
	midway    int              // minutes into the step before that the next clause is told for
	turned    string           // the sentence in which the oven was turned
	pause     bool             // the next step does not join the one before it
}

// minOvenC is the least that an oven is turned to; what is below it is the food's temperature, or a slip.
const minOvenC = 50

// readMethod makes the steps. Clauses of work by hand in one paragraph are one step; whatever heats, chills or
// waits is a step of its own.
func readMethod(r *Reading, method []sentence) {
	m := maker{r: r, american: r.Usage == measure.American}
	if !slices.ContainsFunc(method, func(s sentence) bool { return s.told }) {
		m.ready()
	}
	for _, s := range method {
		m.sentence(s)
	}
	r.guessHands()
	for i := range r.Steps {
		r.Steps[i].Parts = r.partsOf(&r.Steps[i])
	}
	r.placeUnnamed()
}

func (m *maker) sentence(s sentence) {
	if s.told && m.tell(s) {
		return
	}
	if s.about {
		if !instructs(s.text) || len(durations(s.text)) > 0 {
			m.remark(s)
		}
		return
	}
	if s.paragraph != m.paragraph {
		// A part that a paragraph begins with holds to its end: "For the custard, …".
		m.pause, m.section, m.paragraph = true, s.section, s.paragraph
	}
	low := lower(s.text)
	if m.r.Serves == 0 && len(s.text) < 40 {
		said := s.text
		if w := wordYield.FindStringSubmatch(said); w != nil {
			said = w[1] + strconv.Itoa(smallNumbers[lower(w[2])]) + said[len(w[0]):]
		}
		if f := yieldRE.FindStringSubmatch(said); f != nil && !strings.HasPrefix(low, "for ") {
			m.r.Yield = strings.TrimRight(s.text, ".")
			for _, n := range f[1:] {
				if v, err := strconv.Atoi(n); err == nil && v > 0 &&
					(!strings.HasPrefix(low, "make") || portionWord(low+" "+lower(m.r.Title))) {
					m.r.Serves = v
					return
				}
			}
			return
		}
	}
	if strings.HasPrefix(low, "oven") && len(durations(s.text)) == 0 {
		for _, h := range temperatures(s.text, m.american) {
			if c := h.Conventional().C(); !h.inside && c >= minOvenC && c <= planner.MaxOvenC {
				m.oven = h.Setting
				return // Oven 200 °C.
			}
		}
	}
	if m.remark(s) {
		return
	}
	if strings.HasPrefix(low, "meanwhile") || strings.HasPrefix(low, "in the meantime") ||
		strings.HasPrefix(low, "while ") {
		m.meanwhile = true
		m.pause = true
	}
	if sec, ok := forSection(s.text); ok {
		m.section = sec
	} else if part, rest, ok := strings.Cut(s.text, ": "); ok && len(strings.Fields(part)) <= 3 && m.hasPart(part) {
		m.section, s.text = lower(part), rest // Ragù: fry the onions …
	}
	for _, c := range clauses(s.text) {
		m.clause(c, s)
	}
}

// clause makes a step of a clause, or joins it to the one before.
func (m *maker) clause(c string, s sentence) {
	if len(m.r.Steps) >= maxSteps {
		return // refused in the end
	}
	if after, ok := strings.CutPrefix(c, "meanwhile "); ok {
		c, m.meanwhile, m.pause = after, true, true
	}
	last := m.last()
	wasOven := last != nil && (last.Heat == planner.AnOven || strings.Contains(last.Do, " to the oven") ||
		strings.Contains(last.Do, " in the oven") || strings.Contains(last.Do, " into the oven"))
	wasOven = wasOven || m.turned != "" && m.turned == s.text
	a := classify(c, wasOven)
	all := durations(c)
	temps := temperatures(c, m.american)
	var setting *measure.Setting
	until := untilOf(c)
	for i := range temps {
		if temps[i].inside {
			if until == "" {
				until = temps[i].Temperature.String() + " inside"
			}
			continue
		}
		if c := temps[i].Conventional().C(); c >= minOvenC && c <= planner.MaxOvenC && setting == nil {
			setting = &temps[i].Setting
		}
	}
	if setting != nil && (a == preheat || a == inOven) {
		m.oven = *setting
	}
	if a == preheat && strings.Contains(lower(c), "oven") {
		m.turned = s.text
	}
	if a == preheat && m.midway > 0 && last != nil {
		last.Do = cut(last.Do+"; after "+words.Short(m.midway)+" "+words.Lower(strings.Trim(c, " .")), 390)
		m.midway = 0
	}
	if a == preheat {
		return // the oven is turned on by the plan; a step needs no hands for it
	}
	for i := len(all) - 1; i >= 0; i-- {
		if strings.Contains(lower(c[all[i].start:all[i].end]), "night before") {
			// It says when, and how long what follows rests.
			m.night = all[i].Duration
			all = append(all[:i:i], all[i+1:]...)
		}
	}
	time, waits, every, lastOf := m.lengths(all)
	if time.High == 0 && m.night.High > 0 && (a == chilling || a == standing) {
		time, m.night = m.night, measure.Duration{}
	}
	if before := leadBefore(all); before != nil {
		m.r.Steps = append(m.r.Steps, Step{Do: imperative(c), Section: m.section, From: s.from, Attention: planner.Unattended,
			Where: planner.Counter, Time: before.Duration, kind: standing})
		m.pause = true
		return
	}
	if low := lower(c); m.midway == 0 && last != nil && last.Heat != "" && len(all) == 1 &&
		strings.HasPrefix(low, "after ") && all[0].High < last.Time.Low && strings.Trim(c[all[0].end:], " ,.") == "" {
		m.midway = all[0].High // After 20 minutes, brush with egg.
		return
	}
	if m.midway == 0 && last != nil && last.Heat != "" && lastOf.High > 0 && lastOf.High < last.Time.Low &&
		tellsWhen(c, all[0]) {
		m.midway = last.Time.Low - lastOf.High // 10 minutes before the end, …
		return
	}
	if at := m.midway; at > 0 {
		m.midway = 0
		if left := last.Time.Low - at; a == byHand && time.High == 0 &&
			m.inTheLast(c, s, measure.Duration{Low: left, High: left + last.Time.High - last.Time.Low}) {
			return
		}
	}
	if lastOf.High > 0 && m.inTheLast(c, s, lastOf) {
		return
	}
	if time.High == 0 && last != nil && until != "" && strings.HasPrefix(lower(strings.TrimSpace(c)), "until") {
		last.Until = join(last.Until, until)
		return
	}
	if time.High == 0 && (a == inOven || a == onBurner || a == onGrill) && last != nil && last.kind == a && last.Guessed &&
		!m.pause {
		m.extend(last, c, until, s)
		return
	}
	// A piece of a sentence with a time and nothing else belongs to what was said before it.
	if _, _, verb := actionWord(c); !verb && time.High > 0 && a == byHand && last != nil && last.Guessed && !m.pause &&
		last.kind != byHand && last.kind != serving {
		last.Time, last.Guessed, last.Longest = time, false, waits
		last.Until = join(last.Until, until)
		last.Do = cut(last.Do+", "+c, 390)
		return
	}
	byHands := a == byHand || a == serving
	if low := lower(c); last != nil && !last.Ready &&
		(strings.HasPrefix(low, "do not ") || strings.HasPrefix(low, "don't ") || strings.HasPrefix(low, "never ") ||
			!m.pause && last.Cooks && time.High == 0 && len(strings.Fields(c)) <= 2 &&
				inPassing[lower(strings.Trim(strings.Fields(c)[0], ".,"))]) {
		// A warning, or a word in passing ("cover", "strain"): no work of its own.
		last.Do = cut(last.Do+"; "+words.Lower(strings.Trim(c, " .")), 390)
		return
	}
	if byHands && last != nil && (last.kind == byHand || last.kind == serving) && !m.pause && !last.Ready &&
		last.Section == m.section && !m.meanwhile {
		m.extend(last, c, until, s)
		last.said = plus(last.said, time)
		if a == serving {
			last.kind = serving
		}
		return
	}
	st := Step{Do: imperative(c), Section: m.section, From: Place{s.from.Line, c}, Attention: a.attention(), Time: time,
		Where: planner.Counter, Until: until, Longest: waits,
		Things: thingsIn(c), kind: a, clauses: 1, Meanwhile: m.meanwhile, paragraph: m.paragraph}
	st.straight = last != nil && !m.pause && !last.Ready
	st.lastOf = lastOf
	switch a {
	case inOven:
		st.Heat, st.Where, st.Cooks, st.Oven = planner.AnOven, planner.Heat, true, m.oven
		if setting != nil {
			st.Oven = *setting
		}
	case onBurner, overBurner:
		st.Heat, st.Where, st.Cooks = planner.ABurner, planner.Heat, true
	case onGrill:
		st.Heat, st.Where, st.Cooks = planner.AGrill, planner.Heat, true
	case chilling:
		st.Where = planner.Refrigerator
	case freezing:
		st.Where = planner.Freezer
	case byHand, serving:
		st.said, st.Time = time, measure.Duration{}
	}
	if every > 0 {
		st.Attention, st.Every = planner.Touch, every
	}
	if st.Time.High == 0 && !byHands {
		st.Time, st.Guessed = usual(a, c), true
	}
	if a == inOven && st.Guessed && m.r.Cook.High > 0 && m.only(inOven) {
		st.Time, st.Guessed = m.r.Cook, false
	}
	m.r.Steps = append(m.r.Steps, st)
	m.pause, m.meanwhile = false, false
}

// tellsWhen reports that a clause says from the end of the cooking when something is done, and not what.
func tellsWhen(c string, f found) bool {
	switch lower(strings.Trim(c[:f.start], " ,")) {
	case "", "about", "for the last", "in the last", "for the final", "in the final", "during the last":
	default:
		return false
	}
	after := lower(strings.Trim(c[f.end:], " ,."))
	return after == "" || strings.HasPrefix(after, "before ") || after == "of cooking" || after == "of the cooking"
}

// inPassing is done at the stove without more ado.
var inPassing = set(`cover uncover drain strain`)

func (m *maker) last() *Step {
	if n := len(m.r.Steps); n > 0 {
		return &m.r.Steps[n-1]
	}
	return nil
}

func (m *maker) only(a action) bool {
	for _, s := range m.r.Steps {
		if s.kind == a {
			return false
		}
	}
	return true
}

// extend adds a clause to a step.
func (m *maker) extend(st *Step, c, until string, _ sentence) {
	if st.Do != "" {
		st.Do = cut(st.Do+"; "+words.Lower(imperative(c)), 390)
	}
	st.From.Text = cut(st.From.Text+"; "+c, 600)
	st.Until = join(st.Until, until)
	st.clauses++
	for _, t := range thingsIn(c) {
		st.Things = addThing(st.Things, t)
	}
}

// inTheLast splits the step that cooks, from whose end it is told: what is added for the last 45 minutes is work in the
// middle of it, and what was made ready for that since is done meanwhile. It reports false where no step is so long.
func (m *maker) inTheLast(c string, s sentence, d measure.Duration) bool {
	n := len(m.r.Steps) - 1
	for n >= 0 && m.r.Steps[n].kind == byHand && !m.r.Steps[n].Ready && m.r.Steps[n].Section == m.section {
		n--
	}
	if n < 0 || m.r.Steps[n].Heat == "" || m.r.Steps[n].Time.Low <= d.High {
		return false
	}
	rest := m.r.Steps[n]
	first := &m.r.Steps[n]
	first.Time = measure.Duration{Low: first.Time.Low - d.Low, High: first.Time.High - d.Low}
	first.Until = ""
	if !strings.HasPrefix(first.Do, "Go on") {
		first.Do = cut(first.Do+": the first "+first.Time.String(), 390)
	}
	for i := n + 1; i < len(m.r.Steps); i++ {
		m.r.Steps[i].apart = i == n+1
	}
	add := Step{Do: imperative(c), Section: m.section, From: Place{s.from.Line, c}, Attention: planner.Hands,
		Where: planner.Counter, kind: byHand, clauses: 1, straight: true, mid: true,
		paragraph: m.paragraph, said: measure.Duration{Low: 2, High: 5}}
	rest.Do, rest.Time, rest.straight, rest.From = "Go on", d, true, Place{s.from.Line, c}
	if rest.Heat == planner.AnOven {
		rest.Do = "Go on in the oven"
	}
	m.r.Steps = append(m.r.Steps, add, rest)
	m.pause, m.meanwhile = false, false
	return true
}

// lengths says what the durations of a clause mean: its time, how long the food may wait after, a rhythm.
func (m *maker) lengths(all []found) (time, longest measure.Duration, every int, last measure.Duration) {
	for _, f := range all {
		switch {
		case f.every:
			every = f.Low
		case f.last:
			last = f.Duration
		case f.before, f.ahead:
		case f.upTo:
			longest = f.Duration
			if time.High == 0 && len(all) == 1 {
				time = measure.Duration{Low: max(f.Low/2, 1), High: f.High}
				longest = measure.Duration{}
			}
		case time.High == 0:
			time = f.Duration
		case f.more:
			time = plus(time, f.Duration)
		}
	}
	return time, longest, every, last
}

func leadBefore(all []found) *found {
	for i := range all {
		if all[i].before {
			return &all[i]
		}
	}
	return nil
}

func plus(a, b measure.Duration) measure.Duration {
	return measure.Duration{Low: a.Low + b.Low, High: a.High + b.High}
}
