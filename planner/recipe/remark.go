package recipe

import (
	"slices"
	"strings"

	"tureen/planner/measure"
	"tureen/planner/method"
)

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
		m.r.Remarks = append(m.r.Remarks, Remark{Kind: k, Time: d, From: s.from, step: m.said})
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
		if f.ahead || strings.Contains(low, "ahead") && containsWord(low, "made", "make", "prepared", "prepare",
			"assembled") {
			return keep(Ahead, length(f))
		}
		if containsWord(low, "keeps", "will keep", "can be kept", "stored", "store", "keep it in", "keep in") {
			return keep(Ahead, length(f))
		}
	}
	switch {
	case strings.Contains(low, "better next day"), strings.Contains(low, "better the next day"),
		strings.Contains(low, "better on the second day"), strings.Contains(low, "even better the"),
		strings.Contains(low, "best made the day before"):
		return keep(Better, aDay)
	case strings.Contains(low, "a day ahead"), strings.Contains(low, "the day before") &&
		(strings.Contains(low, "can be") || strings.Contains(low, "can make")), strings.Contains(low, "day in advance"):
		return keep(Ahead, aDay)
	case strings.Contains(low, "freezes well"), strings.Contains(low, "can be frozen"),
		strings.Contains(low, "will freeze"):
		return keep(Freezes, measure.Duration{})
	case containsWord(low, "keep", "hold") && (containsWord(low, "warm") || strings.Contains(low, "warm oven")) &&
		!strings.Contains(low, "while"):
		return keep(KeepWarm, measure.Duration{})
	case strings.Contains(low, "(keep the rest"), strings.Contains(low, "(reserve the rest"),
		strings.Contains(low, "(save the rest"):
		keep(Later, measure.Duration{}) // and the rest of the sentence is an instruction
		return false
	case strings.HasPrefix(low, "keep the rest"), strings.HasPrefix(low, "reserve the rest"),
		strings.HasPrefix(low, "save the rest"):
		return keep(Later, measure.Duration{})
	}
	if len(all) == 0 && !instructs(s.text) {
		return keep(Unread, measure.Duration{})
	}
	return false
}

// instructs reports whether a text tells somebody to do something.
func instructs(text string) bool {
	_, _, ok := method.Told(text)
	return ok
}
