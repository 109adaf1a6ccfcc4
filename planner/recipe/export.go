package recipe

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/page"
	"tureen/planner/words"
)

// JSONLD writes a dish as a schema.org Recipe, which [ReadFile] reads back with the same covers, ingredients and
// steps: what is done, how long, attention, heat, sign and order. How long food keeps between the steps has no place
// in the format and is read from the defaults again.
func JSONLD(d *planner.Dish) ([]byte, error) {
	type step struct {
		Type     string `json:"@type"`
		Position int    `json:"position"`
		Text     string `json:"text"`
		Time     string `json:"timeRequired"`
	}
	out := struct {
		Context      string   `json:"@context"`
		Type         string   `json:"@type"`
		Name         string   `json:"name"`
		Description  string   `json:"description,omitempty"`
		Yield        string   `json:"recipeYield"`
		Ingredients  []string `json:"recipeIngredient"`
		Instructions []step   `json:"recipeInstructions"`
	}{Context: "https://schema.org", Type: "Recipe", Name: d.Name, Description: d.Note,
		Yield: fmt.Sprintf("%d servings", d.Serves), Ingredients: []string{}, Instructions: []step{}}
	for _, g := range d.Ingredients {
		line := strings.Join(nonEmpty(g.Amount, g.Name), " ")
		if g.Note != "" {
			line += ", " + g.Note
		}
		if g.Optional && !strings.Contains(g.Note, "optional") {
			line += " (optional)"
		}
		out.Ingredients = append(out.Ingredients, line)
	}
	number := map[planner.StepKey]int{}
	for i := range d.Steps {
		s := &d.Steps[i]
		number[s.Key] = i + 1
		out.Instructions = append(out.Instructions, step{"HowToStep", i + 1, told(s, number),
			page.ISODuration(int(s.Time.Likely))})
	}
	return json.MarshalIndent(out, "", "  ")
}

// told is a step in words that are read back exactly: "Roast the salmon. Takes 12–15 min; watch; oven at 200 °C;
// until it flakes; after 1, 2."
func told(s *planner.Step, number map[planner.StepKey]int) string {
	att := string(s.Attention)
	if s.Attention == planner.Touch {
		att = "touch every " + words.Short(s.Every)
	}
	parts := []string{"Takes " + words.ShortRange(s.Time.Low, s.Time.High), att}
	for _, u := range s.Uses {
		switch u.What {
		case planner.AnOven:
			parts = append(parts, fmt.Sprintf("oven at %d °C", u.C))
		case planner.ABurner, planner.AGrill:
			parts = append(parts, "on the "+string(u.What))
		case planner.AVessel, planner.AnAppliance:
			parts = append(parts, "with "+u.Name)
		}
	}
	if s.Where == planner.Refrigerator || s.Where == planner.Freezer {
		parts = append(parts, "in the "+string(s.Where))
	}
	if s.Until != "" {
		parts = append(parts, "until "+strings.ReplaceAll(s.Until, ";", ","))
	}
	var after []string
	for _, a := range s.After {
		if n := number[a.Step]; a.Dish == "" && n > 0 && !a.FromStart {
			after = append(after, strconv.Itoa(n))
		}
	}
	if len(after) > 0 {
		parts = append(parts, "after "+strings.Join(after, ", "))
	}
	return strings.TrimRight(strings.ReplaceAll(s.Do, "\n", " "), ". ") + ". " + strings.Join(parts, "; ") + "."
}

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
		clauses: 1, told: true, Ready: strings.HasPrefix(f[1], "Get ready: ")}
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
			name := strings.TrimPrefix(p, "with ")
			t := Thing{Name: name}
			for _, known := range things {
				if known.thing.Name == name {
					t = known.thing
				}
			}
			st.Things = addThing(st.Things, t)
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
func (s *Step) toldKind() action {
	if w, _, ok := actionWord(s.Do); ok {
		if row := method.Verb(w); row != nil && row.Class == food.Serves {
			return serving
		}
	}
	switch {
	case s.Heat == planner.AnOven:
		return inOven
	case s.Heat == planner.AGrill:
		return onGrill
	case s.Heat == planner.ABurner:
		return onBurner
	case s.Where == planner.Refrigerator:
		return chilling
	case s.Where == planner.Freezer:
		return freezing
	case s.Attention == planner.Unattended:
		return standing
	}
	return byHand
}
