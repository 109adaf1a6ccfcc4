package recipe

import (
	"slices"
	"strings"

	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/method"
	"tureen/planner/remark"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// place says of each remark how many steps stand before it: those of what it speaks of, where it names that, else in a
// note those of the whole dish, and else those that stand before it in the text.
func (m *maker) place(said []*sentence, ready int) {
	for i := range m.r.Remarks {
		k := &m.r.Remarks[i]
		n := k.step
		k.step = min(ready, len(m.r.Steps))
		for _, d := range m.all {
			if !d.dropped && (k.whole || slices.Index(said, d.sentence) < n) {
				k.step = max(k.step, d.step+1)
			}
		}
		switch k.Kind {
		case remark.Ahead, remark.Keeps, remark.Better, remark.Freezes:
			if at := m.r.speaksOf(k); at >= 0 && (k.whole || at < k.step) {
				k.step = m.r.coldBefore(at) + 1
			}
		}
	}
}

// coldBefore is the step whose food waits in the cold where a remark speaks of one that only makes it hot again: that
// one comes after the wait.
func (r *Reading) coldBefore(at int) int {
	if !remark.Reheats(words.Small(r.Steps[at].Do)) {
		return at
	}
	for _, a := range r.Order()[at] {
		if !r.Steps[a].Ready {
			return a
		}
	}
	return at
}

// How a remark names what it speaks of, and what names the whole.
var subjectEnds, wholeDish = phrases.Phrases("subject ends"), phrases.Phrases("whole dish")

// speaksOf is the last step of what a remark speaks of; -1: it does not say, or of the whole.
func (r *Reading) speaksOf(k *Remark) int {
	low := words.Small(k.From.Text)
	if k.of != "" {
		low = words.Small(k.of)
	}
	if v, _, ok := actionWord(low); ok && (v == "assemble" || v == "layer" || v == "build") ||
		words.Has(low, "assembled", "layered") {
		return r.lastAssembly()
	}
	subject := ""
	for _, end := range subjectEnds {
		if at := words.Index(low, end); at >= 0 && (subject == "" || at < len(subject)) {
			if subject = low[:at]; at == 0 {
				// Freeze the lamb for up to a month; make the custard a day ahead.
				subject = low[len(end):]
			}
		}
	}
	if at := strings.LastIndexAny(subject, ",;:"); at >= 0 && at+2 < len(subject) {
		subject = subject[at+1:]
	}
	if v, at, ok := actionWord(low); ok && subject == "" {
		subject = low[at+len(v):]
	}
	for _, w := range words.Apart(subject) {
		if slices.Contains(wholeDish, w) {
			break
		}
		if at := r.lastOf(words.Singular(w)); at >= 0 {
			return at
		}
	}
	return r.lastDone(low)
}

// lastDone is the last step of what a remark says can be done before, with what its food cools in after that: "the ham
// can be simmered two days ahead"; -1: it names no such work, or the whole dish is done after it.
func (r *Reading) lastDone(low string) int {
	_, after, ok := strings.Cut(low, "can be ")
	if !ok {
		return -1
	}
	said, _ := words.First(after)
	verb := method.Verb(said)
	if verb == nil || verb.Class != food.Cooks && verb.Class != food.Heats || remark.IsMaking(verb.Name) {
		return -1
	}
	at := -1
	for i := range r.Steps {
		if r.Steps[i].kind.Heats() && slices.ContainsFunc(words.Apart(words.Small(r.Steps[i].Do)), func(w string) bool {
			v := method.Verb(w)
			return v != nil && v.Name == verb.Name
		}) {
			at = i
		}
	}
	for at >= 0 && at+1 < len(r.Steps) && r.Steps[at+1].kind == doing.Standing && !trace.TakesOut(r.Steps[at+1].Do) {
		at++
	}
	return at
}

// lastOf is the last step that is of a part of the dish, or of what a word names, before that goes into another; -1 for
// nothing of the name.
func (r *Reading) lastOf(name string) int {
	part := -1
	for i := range r.Steps {
		if s := &r.Steps[i]; !s.Ready && s.Section != "" && slices.Contains(strings.Fields(s.Section), name) {
			part = i
		}
	}
	if part >= 0 || name == "" {
		return part
	}
	named := r.lastWith(name) // the method names no parts, and the list of ingredients does
	if named < 0 {
		named = slices.IndexFunc(r.Steps, func(s Step) bool {
			return !s.Ready && (r.takesIn(&s, name) || madeHere[name] && says(s.Do, name))
		})
	}
	if named < 0 {
		return -1
	}
	after := r.Order()
	for i := named + 1; i < len(r.Steps); i++ {
		if !slices.Contains(after[i], named) {
			continue
		}
		others := 0
		for _, a := range after[i] {
			if !r.Steps[a].Ready {
				others++
			}
		}
		if others > 1 || r.Steps[i].kind == doing.Serving {
			break
		}
		named = i
	}
	return named
}

// lastWith is the last step that takes in ingredients of a part of the list, and of no other; -1: none.
func (r *Reading) lastWith(part string) int {
	at := -1
	for i := range r.Steps {
		of := func(g int) bool { return slices.Contains(strings.Fields(r.Ingredients[g].Section), part) }
		if s := &r.Steps[i]; !s.Ready && len(s.Parts) > 0 && slices.ContainsFunc(s.Parts, of) {
			at = i
		}
	}
	return at
}

// madeHere are things that a method makes and speaks of.
var madeHere = lists.Set("made here")

// takesIn reports whether a step takes in an ingredient of the name.
func (r *Reading) takesIn(s *Step, name string) bool {
	return slices.ContainsFunc(s.Parts, func(g int) bool {
		return says(r.Ingredients[g].Name, name)
	})
}

// says reports whether a text has a word, in the singular or plural.
func says(text, name string) bool {
	return slices.ContainsFunc(words.Apart(words.Small(text)), func(w string) bool {
		return words.Singular(w) == name
	})
}

// lastAssembly is the last step by hand before what comes last in the oven, or else that puts things together.
func (r *Reading) lastAssembly() int {
	at := -1
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.kind == doing.InOven && i > 0 {
			for at = i - 1; at >= 0 && (r.Steps[at].kind != doing.ByHand || r.Steps[at].Ready); at-- {
			}
		}
	}
	for i := range r.Steps {
		if words.Has(words.Small(r.Steps[i].Do), "assemble", "layer", "build", "pile", "arrange") && i > at {
			at = i
		}
	}
	return at
}
