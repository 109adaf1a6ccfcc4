package recipe

import (
	"slices"
	"strings"

	"tureen/planner/doing"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/words"
)

// ripen puts a wait before what is done when something has come to pass by itself: "fold in the cream as soon as the
// mass begins to set", "when the mash is only just warm, stir in the flour". Nobody tells how long that takes. What is
// done when hot food is cold needs none: it goes into the cold by itself.
func (m *maker) ripen() {
	for i := 0; i < len(m.all); i++ {
		d := m.all[i]
		if d.Leaf || d.dropped || d.kind.Waits() || len(d.After) == 0 {
			continue
		}
		until, from, to := ripeness(d.Text)
		if until == "" || slices.ContainsFunc(d.After, func(p int) bool { return m.stands(p, 0) }) {
			continue
		}
		wait := &deed{Act: d.Act, kind: doing.Standing, until: until, ripens: true, sentence: d.sentence}
		wait.Act.Act = method.Act{Verb: "wait", Sentence: d.Sentence, From: d.From + from, To: d.From + to, At: d.From + from,
			End: d.From + from, After: slices.Clone(d.After)}
		wait.Text, wait.Row = "Wait until "+until, method.Verb("cool")
		m.insert(i, wait)
		d.After = []int{i}
		i++
	}
}

// stands reports whether a deed lets the food stand, or only goes on with what does.
func (m *maker) stands(i, depth int) bool {
	d := m.all[i]
	if d.kind.Waits() {
		return true
	}
	return depth < 3 && d.trifle() && slices.ContainsFunc(d.After, func(p int) bool { return m.stands(p, depth+1) })
}

// ripeness is what a clause waits for: "the mass begins to set", of "as soon as the mass begins to set, …", and where
// it says so.
func ripeness(text string) (until string, from, to int) {
	low := words.Small(text)
	if len(low) != len(text) {
		return "", 0, 0
	}
	for _, lead := range ripeLeads {
		at := words.Index(low, lead)
		if at < 0 {
			continue
		}
		for _, sign := range ripeSigns {
			end := words.Index(low[at:], sign)
			if end < 0 {
				continue
			}
			end += at + len(sign)
			if said := low[at+len(lead) : end]; strings.ContainsAny(said, ",;:.") ||
				strings.Contains(said, " - ") || strings.Contains(said, "–") || len(strings.Fields(said)) > mostRipe {
				continue
			}
			return strings.TrimSpace(text[at+len(lead) : end]), at, end
		}
	}
	return "", 0, 0
}

// mostRipe is of how many words such a sign is at most. Common practice, no source.
const mostRipe = 9

// When something is done by what has come to pass, and the signs of that.
var ripeLeads, ripeSigns = phrases.Phrases("ripe leads"), phrases.Phrases("ripe signs")

// ripeTime is how long something takes that comes to pass by itself. Common practice, no source.
func ripeTime(until string) measure.Duration {
	low := words.Small(until)
	if words.Has(low, "set", "setting") {
		return measure.Duration{Low: 15, High: 30}
	}
	return measure.Duration{Low: 15, High: 25}
}

// insert puts a deed before another.
func (m *maker) insert(at int, d *deed) {
	for _, x := range m.all {
		for k, a := range x.After {
			if a >= at {
				x.After[k] = a + 1
			}
		}
	}
	m.all = slices.Insert(m.all, at, d)
}
