package recipe

import (
	"regexp"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/ware"
)

// toldRE is the end of a step in the words of our own export.
var toldRE = regexp.MustCompile(`^(.*)\. Takes ([^;]+); (hands|watch|unattended|rest|touch every [^;.]+)((?:; ` +
	`[^;]+)*)\.$`)

// attentionTold is the attention of a word of the export; "rest" is what unattended was called at first.
func attentionTold(word string) planner.Attention {
	if word == "rest" {
		return planner.Unattended
	}
	return planner.Attention(word)
}

// tell reads a step in the words of our own export.
func (m *maker) tell(s sentence) bool {
	f := toldRE.FindStringSubmatch(s.text)
	if f == nil {
		return false
	}
	d, err := measure.ParseDuration(f[2])
	if err != nil {
		return false
	}
	st := Step{Do: f[1], Section: s.section, From: s.from, Attention: attentionTold(f[3]), Time: d, Where: planner.Counter,
		clauses: 1, told: true, Ready: strings.HasPrefix(f[1], getReady)}
	if every, ok := strings.CutPrefix(f[3], "touch every "); ok {
		e, err := measure.ParseDuration(every)
		if err != nil {
			return false
		}
		st.Attention, st.Every = planner.Touch, e.Low
	}
	for _, p := range strings.Split(strings.TrimPrefix(f[4], "; "), "; ") {
		switch {
		case strings.HasPrefix(p, "oven at "):
			set, err := measure.ParseTemperature(strings.TrimPrefix(p, "oven at "))
			if err != nil {
				return false
			}
			st.Heat, st.Oven = planner.AnOven, set
		case p == "on the burner" || p == "on the grill":
			st.Heat = planner.Equipment(strings.TrimPrefix(p, "on the "))
		case p == "in the refrigerator" || p == "in the freezer":
			st.Where = planner.State(strings.TrimPrefix(p, "in the "))
		case strings.HasPrefix(p, "with "):
			st.Things = ware.Add(st.Things, ware.Of(strings.TrimPrefix(p, "with ")))
		case strings.HasPrefix(p, "until "):
			st.Until = strings.TrimPrefix(p, "until ")
		case strings.HasPrefix(p, "after "):
			for _, n := range strings.Split(strings.TrimPrefix(p, "after "), ", ") {
				if k, err := strconv.Atoi(n); err == nil && k >= 1 && k <= len(m.r.Steps) {
					st.after = append(st.after, k-1)
				}
			}
		}
	}
	if st.Heat != "" {
		st.Where, st.Cooks = planner.Heat, true
	}
	st.kind = st.toldKind()
	st.said = d
	m.r.Steps = append(m.r.Steps, st)
	return true
}

// toldKind is what a step of our own export does.
func (s *Step) toldKind() doing.Kind {
	if w, _, ok := actionWord(s.Do); ok {
		if row := method.Verb(w); row != nil && row.Class == food.Serves {
			return doing.Serving
		}
	}
	switch {
	case s.Heat == planner.AnOven:
		return doing.InOven
	case s.Heat == planner.AGrill:
		return doing.OnGrill
	case s.Heat == planner.ABurner:
		return doing.OnBurner
	case s.Where == planner.Refrigerator:
		return doing.Chilling
	case s.Where == planner.Freezer:
		return doing.Freezing
	case s.Attention == planner.Unattended:
		return doing.Standing
	}
	return doing.ByHand
}
