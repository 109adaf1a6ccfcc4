package recipe

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/safety"
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

// placeUnnamed gives perishable ingredients that no step names ("add the meat") to the first step of their part, so
// that their limits hold from the start.
func (r *Reading) placeUnnamed() {
	for g := range r.Ingredients {
		k, _ := kindOf(r.Ingredients[g].Name)
		if k == safety.None || slices.ContainsFunc(r.Steps, func(s Step) bool { return slices.Contains(s.Parts, g) }) {
			continue
		}
		first := slices.IndexFunc(r.Steps, func(s Step) bool { return !s.Ready && s.kind != standing && s.Section == r.Ingredients[g].Section })
		if first < 0 {
			first = slices.IndexFunc(r.Steps, func(s Step) bool { return !s.Ready && s.kind != standing })
		}
		if first >= 0 {
			r.Steps[first].Parts = append(r.Steps[first].Parts, g)
		}
	}
}

// ready makes steps of the work that the ingredient lines ask for (onions, finely chopped), one for each part of the
// dish that the lines name.
func (m *maker) ready() {
	var parts []string
	for _, g := range m.r.Ingredients {
		if !slices.Contains(parts, g.Section) {
			parts = append(parts, g.Section)
		}
	}
	for _, part := range parts {
		var todo []string
		line := 0
		for i := range m.r.Ingredients {
			g := &m.r.Ingredients[i]
			if g.Section != part || !g.madeReady() {
				continue
			}
			if line == 0 {
				line = g.From.Line
			}
			todo = append(todo, g.Name+" ("+g.Preparation+")")
		}
		if len(todo) > 0 {
			do := "Get ready: " + strings.Join(todo, ", ")
			m.r.Steps = append(m.r.Steps, Step{Do: cut(do, 300), Section: part, From: Place{line, "the ingredient lines"}, Attention: planner.Hands, Where: planner.Counter, Ready: true, clauses: len(todo)})
		}
	}
}

// madeReady reports whether the line asks for work before the method begins. What comes out of a tin is cut already.
func (g *Ingredient) madeReady() bool {
	return g.Preparation != "" && worksByHand(g.Preparation) && !packages[g.Unit]
}

// worksByHand reports whether a preparation is work: chopped is, softened or bought ground is not.
func worksByHand(prep string) bool {
	return containsWord(prep, "chopped", "sliced", "diced", "minced", "grated", "peeled", "cut", "crushed", "shredded", "halved", "quartered", "cubed", "trimmed",
		"zested", "juiced", "pitted", "stoned", "cored", "seeded", "deseeded", "julienned", "shelled", "deveined", "zest", "juice", "picked", "boned", "skinned", "scrubbed", "cubes", "chunks", "slices", "wedges", "rings", "strips", "dice", "matchsticks")
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
		if f := yieldRE.FindStringSubmatch(s.text); f != nil && !strings.HasPrefix(low, "for ") {
			m.r.Yield = strings.TrimRight(s.text, ".")
			for _, n := range f[1:] {
				if v, err := strconv.Atoi(n); err == nil && v > 0 && (!strings.HasPrefix(low, "make") || portionWord(low+" "+lower(m.r.Title))) {
					m.r.Serves = v
					return
				}
			}
			return
		}
	}
	if m.remark(s) {
		return
	}
	if strings.HasPrefix(low, "meanwhile") || strings.HasPrefix(low, "in the meantime") || strings.HasPrefix(low, "while ") {
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

// hasPart reports whether the ingredients have a part of that name.
func (m *maker) hasPart(name string) bool {
	return slices.ContainsFunc(m.r.Ingredients, func(g Ingredient) bool { return g.Section == lower(name) })
}

// forSection reads "For the pastry, rub …", "Make the salad: …".
func forSection(text string) (string, bool) {
	low := lower(text)
	for _, lead := range []string{"for the ", "to make the ", "make the "} {
		if after, ok := strings.CutPrefix(low, lead); ok {
			if at := strings.IndexAny(after, ",:"); at > 0 && len(strings.Fields(after[:at])) <= 3 {
				return strings.TrimSpace(after[:at]), true
			}
		}
	}
	return "", false
}

// remark reads a sentence that is no instruction.
func (m *maker) remark(s sentence) bool {
	low := lower(s.text)
	all := durations(s.text)
	keep := func(k RemarkKind, d measure.Duration) bool {
		m.r.Remarks = append(m.r.Remarks, Remark{Kind: k, Time: d, From: s.from, step: len(m.r.Steps)})
		return true
	}
	aDay := measure.Duration{Low: day, High: day}
	length := func(f found) measure.Duration {
		return f.Duration
	}
	if strings.Contains(low, "the day before") && strings.Contains(low, "you can make") {
		return keep(Ahead, aDay)
	}
	for _, f := range all {
		if f.ahead || strings.Contains(low, "ahead") && containsWord(low, "made", "make", "prepared", "prepare", "assembled") {
			return keep(Ahead, length(f))
		}
		if containsWord(low, "keeps", "will keep", "can be kept", "stored", "store", "keep it in", "keep in") {
			return keep(Ahead, length(f))
		}
	}
	switch {
	case strings.Contains(low, "better next day"), strings.Contains(low, "better the next day"), strings.Contains(low, "better on the second day"), strings.Contains(low, "even better the"), strings.Contains(low, "best made the day before"):
		return keep(Better, aDay)
	case strings.Contains(low, "a day ahead"), strings.Contains(low, "the day before") && (strings.Contains(low, "can be") || strings.Contains(low, "can make")), strings.Contains(low, "day in advance"):
		return keep(Ahead, aDay)
	case strings.Contains(low, "freezes well"), strings.Contains(low, "can be frozen"), strings.Contains(low, "will freeze"):
		return keep(Freezes, measure.Duration{})
	case containsWord(low, "keep", "hold") && (containsWord(low, "warm") || strings.Contains(low, "warm oven")) && !strings.Contains(low, "while"):
		return keep(KeepWarm, measure.Duration{})
	case strings.Contains(low, "(keep the rest"), strings.Contains(low, "(reserve the rest"), strings.Contains(low, "(save the rest"):
		keep(Later, measure.Duration{}) // and the rest of the sentence is an instruction
		return false
	case strings.HasPrefix(low, "keep the rest"), strings.HasPrefix(low, "reserve the rest"), strings.HasPrefix(low, "save the rest"):
		return keep(Later, measure.Duration{})
	}
	if len(all) == 0 && !instructs(s.text) {
		return keep(Unread, measure.Duration{})
	}
	return false
}

// instructs reports whether any clause of a sentence tells somebody to do something.
func instructs(text string) bool {
	for _, c := range clauses(text) {
		if _, _, ok := actionWord(c); ok {
			return true
		}
		low := lower(c)
		if strings.HasPrefix(low, "for the ") || strings.HasPrefix(low, "when ") || strings.HasPrefix(low, "while ") || strings.HasPrefix(low, "in a") || strings.HasPrefix(low, "in the") || strings.HasPrefix(low, "with ") || strings.HasPrefix(low, "using ") || strings.HasPrefix(low, "once ") || strings.HasPrefix(low, "make the") {
			return true
		}
	}
	return false
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
	wasOven := last != nil && (last.Heat == planner.AnOven || strings.Contains(last.Do, " to the oven") || strings.Contains(last.Do, " in the oven") || strings.Contains(last.Do, " into the oven"))
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
		m.r.Steps = append(m.r.Steps, Step{Do: imperative(c), Section: m.section, From: s.from, Attention: planner.Rest, Where: planner.Counter, Time: before.Duration, kind: standing})
		m.pause = true
		return
	}
	if lastOf.High > 0 && last != nil && last.Heat != "" && last.Time.Low > lastOf.High {
		m.inTheLast(c, s, lastOf)
		return
	}
	if time.High == 0 && last != nil && until != "" && strings.HasPrefix(lower(strings.TrimSpace(c)), "until") {
		last.Until = join(last.Until, until)
		return
	}
	if time.High == 0 && (a == inOven || a == onBurner || a == onGrill) && last != nil && last.kind == a && last.Guessed && !m.pause {
		m.extend(last, c, until, s)
		return
	}
	// A piece of a sentence with a time and nothing else belongs to what was said before it.
	if _, _, verb := actionWord(c); !verb && time.High > 0 && a == byHand && last != nil && last.Guessed && !m.pause && last.kind != byHand && last.kind != serving {
		last.Time, last.Guessed, last.Longest = time, false, waits
		last.Until = join(last.Until, until)
		last.Do = cut(last.Do+", "+c, 390)
		return
	}
	byHands := a == byHand || a == serving
	if low := lower(c); last != nil && !last.Ready && (strings.HasPrefix(low, "do not ") || strings.HasPrefix(low, "don't ") || strings.HasPrefix(low, "never ") ||
		!m.pause && last.Cooks && time.High == 0 && len(strings.Fields(c)) <= 2 && inPassing[lower(strings.Trim(strings.Fields(c)[0], ".,"))]) {
		// A warning, or a word in passing ("cover", "strain"): no work of its own.
		last.Do = cut(last.Do+"; "+lowerFirst(strings.Trim(c, " .")), 390)
		return
	}
	if byHands && last != nil && (last.kind == byHand || last.kind == serving) && !m.pause && !last.Ready && last.Section == m.section && !m.meanwhile {
		m.extend(last, c, until, s)
		last.said = plus(last.said, time)
		if a == serving {
			last.kind = serving
		}
		return
	}
	st := Step{Do: imperative(c), Section: m.section, From: Place{s.from.Line, c}, Attention: a.attention(), Time: time, Where: planner.Counter, Until: until, Longest: waits,
		Things: thingsIn(c), kind: a, clauses: 1, Meanwhile: m.meanwhile, paragraph: m.paragraph}
	st.straight = last != nil && !m.pause && !last.Ready
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
		st.Do = cut(st.Do+"; "+lowerFirst(imperative(c)), 390)
	}
	st.From.Text = cut(st.From.Text+"; "+c, 600)
	st.Until = join(st.Until, until)
	st.clauses++
	for _, t := range thingsIn(c) {
		st.Things = addThing(st.Things, t)
	}
}

// inTheLast splits the step before: what is added for the last 45 minutes is work in the middle of it.
func (m *maker) inTheLast(c string, s sentence, d measure.Duration) {
	n := len(m.r.Steps) - 1
	rest := m.r.Steps[n]
	first := &m.r.Steps[n]
	first.Time = measure.Duration{Low: first.Time.Low - d.Low, High: first.Time.High - d.Low}
	first.Until = ""
	add := Step{Do: imperative(c), Section: m.section, From: Place{s.from.Line, c}, Attention: planner.Hands, Where: planner.Counter, kind: byHand, clauses: 1, straight: true, paragraph: m.paragraph, said: measure.Duration{Low: 2, High: 5}}
	rest.Do, rest.Time, rest.straight, rest.From = "Go on", d, true, Place{s.from.Line, c}
	if rest.Heat == planner.AnOven {
		rest.Do = "Go on in the oven"
	}
	m.r.Steps = append(m.r.Steps, add, rest)
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

// usual is our guess at an unsaid time, in minutes. Common practice, no source; always asked or said.
func usual(a action, clause string) measure.Duration {
	low := lower(clause)
	switch a {
	case inOven:
		return measure.Duration{Low: 30, High: 45}
	case onBurner:
		if containsWord(low, "boil", "reheat", "warm", "heat", "scald", "steaming") {
			return measure.Duration{Low: 5, High: 10}
		}
		return measure.Duration{Low: 15, High: 25}
	case overBurner:
		return measure.Duration{Low: 5, High: 10}
	case onGrill:
		return measure.Duration{Low: 8, High: 12}
	case chilling:
		return measure.Duration{Low: 2 * hour, High: 2 * hour}
	case freezing:
		return measure.Duration{Low: 4 * hour, High: 6 * hour}
	case standing:
		if containsWord(low, "completely") {
			return measure.Duration{Low: 60, High: 90}
		}
		if containsWord(low, "rise", "prove", "proof") {
			return measure.Duration{Low: 60, High: 90}
		}
		return measure.Duration{Low: 20, High: 30}
	}
	return measure.Duration{Low: 3, High: 6}
}

// Our guess at work by hand: minutes for each thing done, and for each ingredient made ready.
const (
	clauseLow, clauseHigh = 2, 4
	readyLow, readyHigh   = 2, 4
)

// guessHands gives work by hand its time: what the recipe says, and for the rest our guess, or a share of the
// preparation time that the recipe states for the whole.
func (r *Reading) guessHands() {
	clauses, said := 0, 0
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.kind != byHand && s.kind != serving {
			continue
		}
		if s.said.High == 0 {
			clauses += s.clauses
		} else {
			said += s.said.High
		}
	}
	share := 0
	if clauses > 0 && r.Prep.Low > said {
		share = (r.Prep.Low - said) / clauses
	}
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.kind != byHand && s.kind != serving || s.told {
			continue
		}
		switch n := max(s.clauses, 1); {
		case s.said.High > 0:
			s.Time = measure.Duration{Low: s.said.Low + (n-1)*clauseLow, High: s.said.High + (n-1)*clauseHigh}
			s.Guessed = n > 2
		case share > 0:
			s.Time = measure.Duration{Low: max(n*share*3/4, 1), High: max(n*share*5/4, 2)}
			s.Guessed = true
		case s.Ready:
			s.Time, s.Guessed = measure.Duration{Low: n * readyLow, High: n * readyHigh}, true
		default:
			s.Time, s.Guessed = measure.Duration{Low: max(n*clauseLow, 3), High: max(n*clauseHigh, 5)}, true
		}
	}
}

// untilOf is the sign that something is done, from its clause.
func untilOf(c string) string {
	low := lower(c)
	at := -1
	for _, w := range []string{"until ", "till "} {
		if i := strings.Index(low, w); i >= 0 && (i == 0 || low[i-1] == ' ') {
			at = i + len(w)
			break
		}
	}
	if at < 0 {
		return ""
	}
	sign := c[at:]
	for _, f := range durations(sign) {
		sign = sign[:f.start]
		break
	}
	for _, stop := range []string{"; ", " (about", " (around", ". "} {
		if i := strings.Index(sign, stop); i > 0 {
			sign = sign[:i]
		}
	}
	sign = strings.Trim(sign, " ,.;:-–(")
	for _, w := range []string{" about", " for", " or", " at least", " another"} {
		sign = strings.TrimRight(strings.TrimSuffix(sign, w), " ,")
	}
	return sign
}

func join(a, b string) string {
	switch {
	case a == "":
		return b
	case b == "" || strings.Contains(a, b):
		return a
	}
	return a + ", " + b
}

// imperative is a clause as an instruction: without what leads in, with a capital.
func imperative(c string) string {
	c = strings.Trim(c, " ,;.:!-–")
	_, at, ok := actionWord(c)
	if lead := lower(c[:at]); ok && at > 0 && at < 30 && !strings.HasPrefix(lead, "in ") && !strings.HasPrefix(lead, "on ") && !strings.HasPrefix(lead, "when ") && !strings.HasPrefix(lead, "once ") {
		c = c[at:]
	}
	for _, lead := range []string{"Meanwhile, ", "meanwhile, ", "Meanwhile ", "meanwhile ", "Then ", "then ", "The next day, "} {
		c = strings.TrimPrefix(c, lead)
	}
	if low := lower(c); strings.HasPrefix(low, "make the ") && strings.Contains(c, ":") || strings.HasPrefix(low, "for the ") || strings.HasPrefix(low, "to make the ") {
		if i := strings.IndexAny(c, ",:"); i > 0 && i < 40 && len(c) > i+2 {
			c = strings.TrimLeft(c[i+1:], " ")
		}
	}
	return upperFirst(c)
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	rs := []rune(s)
	return strings.ToUpper(string(rs[0])) + string(rs[1:])
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	rs := []rune(s)
	return strings.ToLower(string(rs[0])) + string(rs[1:])
}

// partsOf finds the ingredients that a step names, by their head nouns.
func (r *Reading) partsOf(s *Step) []int {
	var out []int
	words := map[string]bool{}
	for _, w := range strings.FieldsFunc(lower(s.Do), func(c rune) bool {
		return c == ' ' || c == ',' || c == ';' || c == '.' || c == '(' || c == ')' || c == ':'
	}) {
		words[Singular(w)] = true
	}
	everything := words["everything"] || strings.Contains(lower(s.Do), "all the ingredients")
	for i, g := range r.Ingredients {
		named := everything || g.Section != "" && words[Singular(Head(g.Section))] && !r.begun(s, g.Section)
		head := Head(g.Name)
		for _, w := range strings.Fields(lower(g.Name)) {
			w = Singular(strings.Trim(w, ",'"))
			if len(w) > 2 && words[w] && !adjectives[w] && !participles[w] && !commonWords[w] && (w == head || !madeOf[head]) {
				named = true
			}
		}
		if s.Ready {
			named = g.Section == s.Section && r.Ingredients[i].madeReady()
		}
		if named && (s.Ready || g.Section == "" || s.Section == "" || g.Section == s.Section || words[head]) {
			out = append(out, i)
		}
	}
	return out
}

// begun reports whether an earlier step made the part that is named.
func (r *Reading) begun(s *Step, section string) bool {
	for i := range r.Steps {
		o := &r.Steps[i]
		if o == s {
			return false
		}
		if !o.Ready && (o.Section == section || containsWord(o.Do, section, Head(section))) {
			return true
		}
	}
	return false
}

// madeOf are heads of names whose other words say what they are made of: beef stock is no beef.
var madeOf = set(`stock broth oil powder sauce vinegar syrup juice paste purée puree extract flakes sugar flour seed wine water zest rind peel cube granule`)

var commonWords = set(`and with the for bunch head stick skin bone piece ball of tablespoon nice big`)
