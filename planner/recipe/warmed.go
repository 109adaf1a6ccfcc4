package recipe

import (
	"slices"

	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/remark"
	"tureen/planner/ware"
	"tureen/planner/words"
)

// warmed puts what is warmed for the table by its name before what that goes into, wherever the text tells it: "warm
// the lentils through before serving", behind the dressing of the salad.
func (m *maker) warmed() {
	for i := range m.all {
		d := m.all[i]
		if d.Leaf || d.dropped || !warmsAgain(d) || !words.Has(words.Small(d.sentence.text), forService...) {
			continue
		}
		p := m.lastAlone(i)
		if p < 0 || p == i {
			continue
		}
		next := m.goesInto(p)
		if len(next) == 0 || slices.Equal(next, []int{i}) {
			continue
		}
		for _, q := range next {
			if x := m.all[q]; q != i {
				x.After = slices.DeleteFunc(x.After, func(a int) bool { return a == p || a == i })
				x.After = append(x.After, i)
			}
		}
		d.After = []int{p}
		if low := words.Small(d.Text); d.kind == doing.InOven && !ware.At(low, "oven") {
			d.kind, d.hot = doing.OnBurner, false
		}
		m.takesTail(i)
		m.move(i, slices.Min(next))
	}
}

// takesTail gives a deed the words of the next one that only says when: "warm it through before serving".
func (m *maker) takesTail(i int) {
	d := m.all[i]
	if i+1 == len(m.all) || m.all[i+1].sentence != d.sentence || !m.all[i+1].Trailing {
		return
	}
	o := m.all[i+1]
	d.To, d.Text = o.To, d.Text+o.Text
	o.dropped, o.passed = true, true
}

// warmsAgain reports whether a deed makes hot again and does nothing else.
func warmsAgain(d *deed) bool {
	low := words.Small(d.Text[min(max(d.At-d.From, 0), len(d.Text)):])
	return remark.Reheats(low) || d.Verb == "reheat" || d.Class == food.Heats && words.Has(low, "through", "again") ||
		d.Verb == "warm" || d.Verb == "rewarm"
}

// forService say that something is done right before food is served.
var forService = phrases.Phrases("for service")

// lastAlone is the last deed, before the i-th of the text, that leaves what that names by itself; -1: it names nothing
// that an ingredient or a part is called.
func (m *maker) lastAlone(i int) int {
	at := -1
	for _, w := range m.all[i].Names {
		for k := range i {
			d := m.all[k]
			if d.dropped || d.Leaf {
				continue
			}
			if slices.ContainsFunc(d.Takes, func(g int) bool { return says(m.r.Ingredients[g].Name, w) }) {
				at = k
				break
			}
			if slices.Contains(words.Apart(d.sentence.section), w) {
				at = k
			}
		}
		if at >= 0 {
			break
		}
	}
	for at >= 0 {
		next := m.goesInto(at)
		next = slices.DeleteFunc(next, func(q int) bool { return q == i })
		if len(next) != 1 || m.all[next[0]].kind == doing.Serving || m.joins(next[0]) {
			return at
		}
		at = next[0]
	}
	return at
}

// goesInto are the deeds that take in what another leaves.
func (m *maker) goesInto(p int) (out []int) {
	for q, d := range m.all {
		if !d.dropped && slices.Contains(d.After, p) {
			out = append(out, q)
		}
	}
	return out
}

// joins reports whether a deed takes in what several others left.
func (m *maker) joins(q int) bool {
	n := 0
	for _, p := range m.all[q].After {
		if d := m.all[p]; !d.Leaf && d.kind != doing.Preheat && d.Class != food.Readies {
			n++
		}
	}
	return n > 1
}

// move puts the deed at a place before the one at an earlier place.
func (m *maker) move(from, to int) {
	if to >= from {
		return
	}
	for _, x := range m.all {
		for k, a := range x.After {
			switch {
			case a == from:
				x.After[k] = to
			case a >= to && a < from:
				x.After[k] = a + 1
			}
		}
		slices.Sort(x.After)
		x.After = slices.Compact(x.After)
	}
	d := m.all[from]
	m.all = slices.Insert(slices.Delete(m.all, from, from+1), to, d)
}
