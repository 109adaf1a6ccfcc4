package recipe

import (
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/method"
	"tureen/planner/remark"
	"tureen/planner/times"
	"tureen/planner/ware"
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

// keptSo begin what goes on saying how it waits: "can be assembled the day before; keep chilled".
var keptSo = phrases.Phrases("kept so")

// How a letter ends, and what is said to be done for the table.
var asides, forTable = phrases.Phrases("asides"), phrases.Phrases("for the table")

// remark reads a sentence that is no instruction; a sentence that has both leaves its instructions to be read.
func (m *maker) remark(s sentence) bool {
	low := words.Small(s.text)
	k, found := remark.Of(low)
	if (s.note || !method.Instructs(s.text) || remark.Supposes(low)) && m.remarks(s) {
		return true
	}
	switch {
	case words.Begins(low, asides) && len(times.Lengths(low)) == 0 && len(low) < 60:
		m.keep(s, remark.Said{Kind: remark.Unread}) // how a letter ends
		return true
	case !found && remark.AnotherWay(low), words.Begins(low, optionLeads) && !words.Has(low, "now", "then"),
		strings.HasPrefix(low, "if you ") && !strings.Contains(low, ",") &&
			!words.Has(low, "like", "want", "wish", "prefer", "have", "are", "do", "use", "using", "desire"):
		m.keep(s, remark.Said{Kind: remark.Unread}) // a way to do it, and nothing to do besides
		return true
	case found && k.Kind == remark.Later:
		m.keep(s, k)
		return remark.Rest(low)
	case s.note, len(times.Lengths(s.text)) == 0 && !method.Instructs(s.text):
		m.keep(s, remark.Said{Kind: remark.Unread})
		return true
	}
	return false
}

// remarks keeps what a sentence says of waiting, a remark for each of its parts that says some; false: none does.
func (m *maker) remarks(s sentence) bool {
	any := false
	for _, part := range remark.Clauses(s.text) {
		if k, ok := remark.Of(words.Small(part)); ok {
			any = true
			if words.Begins(words.Small(part), subjectEnds) {
				part = s.text
			}
			m.keep(s, k)
			m.r.Remarks[len(m.r.Remarks)-1].of = part
		}
	}
	return any
}

// alsoRemarks takes off an instruction's end what it says of waiting: "braise it for 3 hours, and it is better two days
// ahead". The work stays.
func (m *maker) alsoRemarks(s *sentence) sentence {
	for _, joint := range []string{"; ", " - ", " – ", " — "} {
		head, tail, two := strings.Cut(s.text, joint)
		if !two || method.Instructs(head) || !method.Instructs(tail) || words.Begins(words.Small(tail), keptSo) {
			continue
		}
		if k, ok := remark.Of(words.Small(head)); ok && k.Kind != remark.Later {
			// it keeps three days; let it stand an hour before
			m.r.Remarks = append(m.r.Remarks, Remark{Said: k, From: Place{s.from.Line, head}, step: m.said, of: head})
			s.text = tail
			if s.at >= 0 {
				s.at += len(head) + len(joint)
			}
			break
		}
	}
	for _, joint := range remarkJoints {
		at := strings.LastIndex(s.text, joint)
		if at <= 0 {
			continue
		}
		tail := s.text[at+len(joint):]
		k, ok := remark.Of(words.Small(tail))
		if !ok || k.Kind == remark.Later || k.Kind == remark.KeepWarm || k.Kind == remark.Unread ||
			method.Instructs(tail) || !remark.Asks(s.text[:at]) {
			continue
		}
		m.r.Remarks = append(m.r.Remarks, Remark{Said: k, From: Place{s.from.Line, tail}, step: m.said + 1, of: tail})
		s.text = s.text[:at]
		break
	}
	return *s
}

var remarkJoints = []string{"; ", " – ", " — ", ", and it ", ", which ", ", it ", ", this ", ", but it ", " (",
	", "}

// optionLeads begin what may be done, and need not be.
var optionLeads = phrases.Phrases("options")

// otherWay reports a sentence of another way than the one that was read: the first is taken.
func (m *maker) otherWay(s *sentence) bool {
	w := remark.WayOf(s.text)
	if w == "" && s.section != "" {
		w = remark.WayOf(s.section + ":")
	}
	if w != "" {
		switch {
		case m.way == "" && !m.cooked:
			m.way = w
		case m.way != w:
			m.aside = s.paragraph
		}
	}
	if _, waits := remark.Of(words.Small(s.text)); waits {
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
	if words.Begins(words.Small(text), []string{"(if ", "(or ", "(alternatively", "(you can", "(you may"}) {
		was, m.bracket = true, true
	}
	if strings.Contains(text, ")") && strings.LastIndexByte(text, ')') > strings.LastIndexByte(text, '(') {
		m.bracket = false
	}
	return was
}

func (m *maker) keep(s sentence, k remark.Said) {
	m.r.Remarks = append(m.r.Remarks, Remark{Said: k, From: s.from, step: m.said, whole: s.about || s.note})
}

// keepsOnly takes a deed that says how long food keeps for a remark: that is never a time in which something is done.
func (m *maker) keepsOnly(i int) {
	d := m.all[i]
	if d.Leaf || d.dropped {
		return
	}
	low := words.Small(d.Text)
	last := i+1 == len(m.all)
	k, found := remark.Of(low)
	if m.putBy(i, low) {
		return
	}
	switch {
	case d.Verb == "store", d.Verb == "keep" && found && k.Kind == remark.Keeps:
	case d.Verb == "keep" && d.time.High == 0 && remark.UntilWanted(low):
		k, found = remark.Said{Kind: remark.Keeps, Time: remark.Longest(words.Small(d.sentence.text[d.From:])),
			Where: remark.KeptWhere(low)}, true
	case d.kind.Waits() && d.time.High >= 4*hour && remark.UntilWanted(low) && remark.UpTo(low):
		k, found = remark.Said{Kind: remark.Keeps, Time: remark.Longest(low), Where: d.kind.Where()}, true
	case d.Verb == "freeze" && (last && (d.time.High == 0 || d.time.High > 12*hour) || d.longest.High > 0 ||
		d.time.High >= 2*day):
		k, found = remark.Said{Kind: remark.Freezes, Time: remark.Longest(low), Where: planner.Freezer}, true
	case d.holds(low):
		k, found = remark.Said{Kind: remark.KeepWarm}, true
		if ware.At(low, "refrigerator") {
			k = remark.Said{Kind: remark.Keeps, Time: remark.Longest(low), Where: planner.Refrigerator}
		}
	case d.kind.Waits() && last && (d.time.High >= 2*day || d.longest.High >= 2*day && d.time.Low < 6*hour &&
		d.time.Low*2 <= d.time.High):
		k, found = remark.Said{Kind: remark.Keeps, Time: remark.Longest(low), Where: d.kind.Where()}, true
	default:
		return
	}
	d.dropped, d.passed = true, true
	if !found {
		k = remark.Said{Kind: remark.Keeps, Time: remark.Longest(low), Where: remark.KeptWhere(low)}
	}
	m.r.Remarks = append(m.r.Remarks, Remark{Said: k, From: Place{d.sentence.from.Line, strings.TrimSpace(d.Text)},
		step: d.Sentence + 1})
}

// putsBy reports a sentence that has food put by for a time that it tells, with more to be done after it: "Keep in a
// cupboard overnight. Slice …".
func putsBy(s *sentence, next []sentence) bool {
	low := words.Small(s.text)
	if s.note || !words.Begins(low, putByLeads) || remark.UpTo(low) || !tellsHours(low) {
		return false
	}
	if len(next) == 0 || next[0].note || !method.Instructs(next[0].text) {
		return false
	}
	then := words.Small(next[0].text)
	return !remark.Supposes(then) && !words.Begins(then, forTable)
}

// putByLeads begin a sentence that has food put by.
var putByLeads = phrases.Phrases("put by")

// tellsHours reports a time of an hour to a day that is no limit: who keeps it longer stores it.
func tellsHours(low string) bool {
	return slices.ContainsFunc(times.Lengths(low), func(f times.Length) bool {
		return f.Low >= hour && f.High <= day && !f.UpTo && !f.Ahead
	})
}

// putBy makes a step of food that is put by in the midst of the method for a time that is told: "keep it on the worktop
// for 6 hours", "keep in a tin overnight" with work that comes after it. How long food can be kept is none.
func (m *maker) putBy(i int, low string) bool {
	d := m.all[i]
	if d.Verb != "keep" && d.Verb != "store" && d.Verb != "hold" || d.time.Low < hour || d.time.High > day ||
		d.longest.High > 0 ||
		remark.UpTo(low) || remark.UntilWanted(low) || words.Has(low, "can", "may", "will", "keeps", "warm", "hot") ||
		len(times.Heats(low, d.American)) > 0 {
		return false
	}
	if !slices.ContainsFunc(m.all[i+1:], func(o *deed) bool { return !o.dropped && o.Verb != "" && !d.sentence.note }) {
		return false
	}
	d.kind = doing.Standing
	if ware.At(low, "refrigerator") {
		d.kind = doing.Chilling
	}
	return true
}

// atMost say that a heat is a limit, and none that cooks.
var atMost = phrases.Phrases("at most")

// holds reports a deed that keeps the food warm for as long as it may.
func (d *deed) holds(low string) bool {
	if d.Verb == "hold" && d.At == d.From && words.Has(low, atMost...) && len(times.Heats(low, d.American)) > 0 {
		return true // hold 60 °C max, 30 min
	}
	return (d.kind.Heats() || d.kind.Waits()) && words.Has(low, "keep warm", "keep it warm", "keep them warm", "hold") &&
		(d.longest.High > 0 || d.time.High == 0 || remark.UpTo(low))
}
