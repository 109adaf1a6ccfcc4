package recipe

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/words"
)

// hasPart reports whether the ingredients have a part of that name, or one of them is called so; or it is a stage.
func (m *maker) hasPart(name string) bool {
	name = words.Small(name)
	if slices.Contains(stages, name) || madeHere[name] {
		return true
	}
	if !strings.Contains(name, " ") && slices.ContainsFunc(m.r.Ingredients, func(g Ingredient) bool {
		return says(g.Name, words.Singular(name)) && method.Verb(name) == nil
	}) {
		return true
	}
	return slices.ContainsFunc(m.r.Ingredients, func(g Ingredient) bool { return g.Section == words.Small(name) })
}

// forSection reads "For the pastry, rub …", "Make the salad: …".
func forSection(text string) (string, bool) {
	low := words.Small(text)
	for _, lead := range []string{"for the ", "to make the ", "make the "} {
		if after, ok := strings.CutPrefix(low, lead); ok {
			if at := strings.IndexAny(after, ",:"); at > 0 && len(strings.Fields(after[:at])) <= 3 {
				return strings.TrimSpace(after[:at]), true
			}
		}
	}
	return "", false
}

// What a remark says, by the phrases of phrases.tsv. Common practice, no source.
var (
	keepWords, aheadWords, aheadVerbs  = phrases.Phrases("keeps"), phrases.Phrases("ahead"), phrases.Phrases("made ahead")
	freezeWords, betterWords, supposes = phrases.Phrases("freezes"), phrases.Phrases("better"), phrases.Phrases("supposes")
	forTable                           = phrases.Phrases("for the table")
	warmsAgain                         = phrases.Phrases("warms again")
	otherWays, keepsRest               = phrases.Phrases("another way"), phrases.Phrases("keep the rest")
	asides                             = phrases.Phrases("asides")
	notFrozen, sameDay                 = phrases.Phrases("not frozen"), phrases.Phrases("same day")
	onTheDay, atOnce, untilWanted      = phrases.Phrases("on the day"), phrases.Phrases("at once"),
		phrases.Phrases("until wanted")
	untilEvening = phrases.Phrases("until the evening")
)

// sameDayLength is how long before the meal "in the morning" is, or what keeps "until the evening". Common practice, no
// source.
var sameDayLength = measure.Duration{Low: 12 * hour, High: 12 * hour}

// remark reads a sentence that is no instruction; a sentence that has both leaves its instructions to be read.
func (m *maker) remark(s sentence) bool {
	low := words.Small(s.text)
	k, found := remarkOf(low)
	if (s.note || !instructs(s.text) || onlySupposes(low)) && m.remarks(s) {
		return true
	}
	switch {
	case begins(low, asides) && len(times.Lengths(low)) == 0 && len(low) < 60:
		m.keep(s, Remark{Kind: Unread}) // how a letter ends
		return true
	case !found && anotherWay(low), begins(low, optionLeads) && !words.Has(low, "now", "then"),
		strings.HasPrefix(low, "if you ") && !strings.Contains(low, ",") &&
			!words.Has(low, "like", "want", "wish", "prefer", "have", "are", "do", "use", "using", "desire"):
		m.keep(s, Remark{Kind: Unread}) // a way to do it, and nothing to do besides
		return true
	case found && k.Kind == Later:
		m.keep(s, k)
		return begins(low, keepsRest)
	case s.note, len(times.Lengths(s.text)) == 0 && !instructs(s.text):
		m.keep(s, Remark{Kind: Unread})
		return true
	}
	return false
}

// remarks keeps what a sentence says of waiting, a remark for each of its parts that says some; false: none does.
func (m *maker) remarks(s sentence) bool {
	any := false
	for _, part := range clausesOf(s.text) {
		if k, ok := remarkOf(words.Small(part)); ok {
			any = true
			k.of = part
			if begins(words.Small(part), subjectEnds) {
				k.of = s.text
			}
			m.keep(s, k)
		}
	}
	return any
}

// alsoRemarks takes off an instruction's end what it says of waiting: "braise it for 3 hours, and it is better two days
// ahead". The work stays.
func (m *maker) alsoRemarks(s *sentence) sentence {
	if head, tail, two := strings.Cut(s.text, "; "); two && !instructs(head) && instructs(tail) {
		if k, ok := remarkOf(words.Small(head)); ok && k.Kind != Later { // it keeps three days; let it stand an hour before
			k.of, k.From, k.step = head, Place{s.from.Line, head}, m.said
			m.r.Remarks = append(m.r.Remarks, k)
			s.text = tail
			if s.at >= 0 {
				s.at += len(head) + len("; ")
			}
		}
	}
	for _, joint := range remarkJoints {
		at := strings.LastIndex(s.text, joint)
		if at <= 0 {
			continue
		}
		tail := s.text[at+len(joint):]
		k, ok := remarkOf(words.Small(tail))
		if !ok || k.Kind == Later || k.Kind == KeepWarm || k.Kind == Unread || instructs(tail) || !asks(s.text[:at]) {
			continue
		}
		k.of, k.From, k.step = tail, Place{s.from.Line, tail}, m.said+1
		m.r.Remarks = append(m.r.Remarks, k)
		s.text = s.text[:at]
		break
	}
	return *s
}

// asks reports whether a text gives an instruction, or says how long something has to stand.
func asks(text string) bool {
	low := words.Small(text)
	_, remarks := remarkOf(low)
	return instructs(text) || !remarks && len(times.Lengths(low)) > 0 && words.Has(low, "must", "has to", "have to",
		"needs to", "should")
}

var remarkJoints = []string{"; ", " – ", " — ", ", and it ", ", which ", ", it ", ", this ", ", but it ", " (",
	", "}

// clausesOf cuts a sentence where one thing that is said of waiting ends and another begins.
func clausesOf(text string) (out []string) {
	for _, p := range strings.Split(text, "; ") {
		for _, joint := range []string{", and ", " and ", ", but ", ", or "} {
			a, b, ok := strings.Cut(p, joint)
			if !ok {
				continue
			}
			x, one := remarkOf(words.Small(a))
			y, other := remarkOf(words.Small(b))
			if one && other && x.Kind != y.Kind && x.Time.High > 0 && y.Time.High > 0 {
				out, p = append(out, a), b
				break
			}
		}
		out = append(out, p)
	}
	return out
}

// anotherWay reports a sentence that tells of another way, or of what comes after the meal.
func anotherWay(low string) bool {
	return begins(low, otherWays)
}

// optionLeads begin what may be done, and need not be.
var optionLeads = phrases.Phrases("options")

// ways are what food may be cooked in, where a method tells of it in several ways, each under its name.
var ways = phrases.Phrases("ways")

// wayOf is the way that a text begins with: "Slow cooker method: …".
func wayOf(text string) string {
	head, _, ok := strings.Cut(words.Small(text), ":")
	if !ok {
		return ""
	}
	for _, lead := range []string{"for the ", "in the ", "in a ", "to make in the "} {
		head = strings.TrimPrefix(head, lead)
	}
	head = strings.ReplaceAll(strings.ReplaceAll(head, "airfryer", "air fryer"), "-", " ")
	for _, end := range []string{" bake", " method", " version", " instructions", " directions", " option"} {
		head = strings.TrimSuffix(head, end)
	}
	if slices.Contains(ways, head) {
		return head
	}
	return ""
}

// otherWay reports a sentence of another way than the one that was read: the first is taken.
func (m *maker) otherWay(s *sentence) bool {
	w := wayOf(s.text)
	if w == "" && s.section != "" {
		w = wayOf(s.section + ":")
	}
	if w != "" {
		switch {
		case m.way == "" && !m.cooked:
			m.way = w
		case m.way != w:
			m.aside = s.paragraph
		}
	}
	if _, waits := remarkOf(words.Small(s.text)); waits {
		return m.aside == s.paragraph
	}
	for _, f := range times.Lengths(s.text) {
		m.cooked = m.cooked || f.High >= 20 && !f.UpTo && !f.Ahead
	}
	return m.aside == s.paragraph
}

// bracketed reports a sentence within brackets that tell of another way: "(If using oil, heat it. Add the onion.)"
func (m *maker) bracketed(text string) bool {
	was := m.bracket
	if begins(words.Small(text), []string{"(if ", "(or ", "(alternatively", "(you can", "(you may"}) {
		was, m.bracket = true, true
	}
	if strings.Contains(text, ")") && strings.LastIndexByte(text, ')') > strings.LastIndexByte(text, '(') {
		m.bracket = false
	}
	return was
}

func begins(low string, with []string) bool {
	return slices.ContainsFunc(with, func(lead string) bool { return strings.HasPrefix(low, lead) })
}

func (m *maker) keep(s sentence, k Remark) {
	k.From, k.step = s.from, m.said
	k.whole = s.about || s.note
	m.r.Remarks = append(m.r.Remarks, k)
}

// onlySupposes reports whether a sentence says what can be done, and tells nobody to do it.
func onlySupposes(low string) bool { return containsAny(low, supposes...) || startsWithKeeping(low) }

// startsWithKeeping is "Store in an airtight tin …".
func startsWithKeeping(low string) bool {
	return begins(low, []string{"store ", "keep ", "freeze ", "refrigerate leftover", "best ", "make up to "})
}

// remarkOf says what a text remarks, if anything.
func remarkOf(low string) (Remark, bool) {
	long := longest(low)
	aDay := measure.Duration{Low: day, High: day}
	switch {
	case containsAny(low, onTheDay...) && words.Has(low, "best", "eat", "eaten", "enjoy"):
		return Remark{Kind: Fresh, Time: aDay}, true
	case containsAny(low, atOnce...) && words.Has(low, "best", "eat", "eaten", "eating"):
		return Remark{Kind: Fresh}, true
	case containsAny(low, notFrozen...):
		return Remark{Kind: Unread, where: planner.Freezer}, true
	case containsAny(low, "(keep the rest", "(reserve the rest", "(save the rest"), begins(low, keepsRest):
		return Remark{Kind: Later}, true
	case containsAny(low, betterWords...) && !(words.Has(low, aheadWords...) && long.High > day):
		return Remark{Kind: Better, Time: aDay}, true
	case long.High >= 6*hour && words.Has(low, "better", "improves", "improve") && !words.Has(low, "keeps", "keep"):
		return Remark{Kind: Better, Time: long}, true
	case words.Has(low, keepWords...) && long.High == 0 && containsAny(low, untilEvening...):
		return Remark{Kind: Keeps, Time: sameDayLength, where: keptWhere(low)}, true
	case containsAny(low, sameDay...) && words.Has(low, aheadVerbs...) && (long.High == 0 || long.High >= 2*day):
		return Remark{Kind: Ahead, Time: sameDayLength, where: keptWhere(low)}, true
	case words.Has(low, aheadWords...) && (words.Has(low, aheadVerbs...) || long.High > 0):
		if long.High == 0 {
			long = aDay
		}
		return Remark{Kind: Ahead, Time: long, where: keptWhere(low)}, true
	case words.Has(low, keepWords...) && long.High >= 4*hour, words.Has(low, "keep") && long.High >= day:
		return Remark{Kind: Keeps, Time: long, where: keptWhere(low)}, true
	case containsAny(low, freezeWords...), long.High >= 2*day && words.Has(low, "freeze", "frozen", "freezer"):
		return Remark{Kind: Freezes, Time: long, where: planner.Freezer}, true
	case words.Has(low, "keep", "hold") && (words.Has(low, "warm") || strings.Contains(low, "warm oven")) &&
		!strings.Contains(low, "while"):
		return Remark{Kind: KeepWarm}, true
	case words.Has(low, keepWords...) && containsAny(low, "airtight", "fridge", "refrigerator", "container", "tin"):
		return Remark{Kind: Keeps, where: keptWhere(low)}, true
	}
	return Remark{}, false
}

// longest is the first length in a text that says how long something may wait, or its longest.
func longest(low string) measure.Duration {
	var out measure.Duration
	for _, f := range times.Lengths(low) {
		if f.UpTo || f.Ahead {
			return f.Duration
		}
		if f.High > out.High {
			out = f.Duration
		}
	}
	return out
}

// keptWhere is the place where something is kept so long.
func keptWhere(low string) planner.State {
	switch {
	case placeIn(low, "refrigerator") || containsAny(low, "refrigerate", "chilled"):
		return planner.Refrigerator
	case containsAny(low, "freezer", "frozen", "freeze"):
		return planner.Freezer
	case containsAny(low, "airtight", "room temperature", " tin", "container", "counter"):
		return planner.Counter
	}
	return ""
}

// keepsOnly takes a deed that says how long food keeps for a remark: that is never a time in which something is done.
func (m *maker) keepsOnly(i int) {
	d := m.all[i]
	if d.Leaf || d.dropped {
		return
	}
	low := words.Small(d.text)
	last := i+1 == len(m.all)
	k, found := remarkOf(low)
	switch {
	case d.Verb == "store", d.Verb == "keep" && found && k.Kind == Keeps:
	case d.Verb == "keep" && d.time.High == 0 && containsAny(low, untilWanted...):
		k, found = Remark{Kind: Keeps, Time: longest(words.Small(d.sentence.text[d.From:])), where: keptWhere(low)}, true
	case waits(d.kind) && d.time.High >= 4*hour && containsAny(low, untilWanted...) && upToSoLong(low):
		k, found = Remark{Kind: Keeps, Time: longest(low), where: d.kind.where()}, true
	case d.Verb == "freeze" && (last && (d.time.High == 0 || d.time.High > 12*hour) || d.longest.High > 0 ||
		d.time.High >= 2*day):
		k, found = Remark{Kind: Freezes, Time: longest(low), where: planner.Freezer}, true
	case d.holds(low):
		k, found = Remark{Kind: KeepWarm}, true
	case waits(d.kind) && last && (d.time.High >= 2*day || d.longest.High >= 2*day && d.time.Low < 6*hour &&
		d.time.Low*2 <= d.time.High):
		k, found = Remark{Kind: Keeps, Time: longest(low), where: d.kind.where()}, true
	default:
		return
	}
	d.dropped, d.passed = true, true
	if !found {
		k = Remark{Kind: Keeps, Time: longest(low), where: keptWhere(low)}
	}
	k.From = Place{d.sentence.from.Line, strings.TrimSpace(d.text)}
	k.step = d.Sentence + 1
	m.r.Remarks = append(m.r.Remarks, k)
}

// holds reports a deed that keeps the food warm for as long as it may.
func (d *deed) holds(low string) bool {
	return (heats(d.kind) || waits(d.kind)) && words.Has(low, "keep warm", "keep it warm", "keep them warm", "hold") &&
		(d.longest.High > 0 || d.time.High == 0 || upToSoLong(low))
}

func upToSoLong(low string) bool {
	return slices.ContainsFunc(times.Lengths(low), func(f times.Length) bool { return f.UpTo })
}

// where is where the food is meanwhile.
func (a action) where() planner.State {
	switch {
	case a == chilling:
		return planner.Refrigerator
	case a == freezing:
		return planner.Freezer
	case heats(a):
		return planner.Heat
	}
	return planner.Counter
}

// instructs reports whether a text tells somebody to do something.
func instructs(text string) bool {
	_, _, ok := method.Told(text)
	return ok
}
