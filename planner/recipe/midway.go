package recipe

import (
	"slices"

	"tureen/planner/doing"
	"tureen/planner/measure"
)

// midways splits what cooks where something is done in the middle of it: "after 20 minutes, brush with egg", "add the
// carrots for the last 45 minutes". What is done is work of its own, and the rest of the time comes after it.
func (m *maker) midways() {
	for i := 0; i < len(m.all); i++ {
		d := m.all[i]
		if d.dropped || d.goesOn || d.midway == 0 && d.last.High == 0 {
			continue
		}
		p := m.cooking(i)
		if p < 0 {
			if d.midway > 0 {
				d.midway = 0
			}
			continue
		}
		long := m.all[p]
		first, rest := long.time, long.time
		if d.midway > 0 {
			first = measure.Duration{Low: d.midway, High: d.midway}
			rest = measure.Duration{Low: long.time.Low - d.midway, High: long.time.High - d.midway}
		} else {
			first = measure.Duration{Low: long.time.Low - d.last.Low, High: long.time.High - d.last.High}
			rest = d.last
			if long.time.Low == long.time.High && first.Low > first.High {
				first.Low, first.High = first.High, first.Low
			}
		}
		if first.Low <= 0 || rest.Low <= 0 || d.kind != doing.ByHand {
			d.midway = 0
			continue
		}
		m.split(i, p, first, rest)
	}
}

// cooking is the deed, of those that one comes after or the last before it that heats, in whose middle it is done.
func (m *maker) cooking(i int) int {
	d := m.all[i]
	need := max(d.midway, d.last.High)
	for p := i - 1; p >= 0; p-- {
		x := m.all[p]
		if x.dropped || x.Leaf || !x.kind.Heats() && !x.kind.Waits() {
			continue
		}
		if x.time.Low > need {
			return p
		}
		if x.time.High > 0 && (x.kind.Heats() || x.time.High*2 > need) { // after the two hours that it has stood
			return -1
		}
	}
	return -1
}

// split puts the rest of the time of p behind what is done in the middle of it.
func (m *maker) split(i, p int, first, rest measure.Duration) {
	long, d := m.all[p], m.all[i]
	long.time = first
	if !long.goesOn {
		long.sign, long.until = long.until, ""
	}
	d.time, d.last = measure.Duration{}, measure.Duration{}
	d.midway = max(d.midway, 1)
	more := &deed{Act: long.Act, kind: long.kind, time: rest, oven: long.oven, set: long.set,
		until: long.sign, sign: long.sign, hot: long.hot, every: long.every, goesOn: true,
		sentence: d.sentence}
	more.Text = "Go on"
	if more.every >= rest.High {
		more.every = 0
	}
	if long.kind == doing.InOven {
		more.Text = "Go on in the oven"
	}
	more.Takes, more.After = nil, []int{i}
	if !slices.Contains(d.After, p) {
		d.After = append(d.After, p)
		slices.Sort(d.After)
	}
	// Everything behind moves by one.
	m.all = slices.Insert(m.all, i+1, more)
	for n, x := range m.all {
		if n == i+1 {
			continue
		}
		for k, a := range x.After {
			switch {
			case a > i:
				x.After[k] = a + 1
			case n > i+1 && (a == i || a == p):
				x.After[k] = i + 1
			}
		}
		slices.Sort(x.After)
		x.After = slices.Compact(x.After)
	}
}
