package recipe

import (
	"encoding/json"
	"strings"
	"unicode"
	"unicode/utf8"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/remark"
	"tureen/planner/words"
)

// act is a single act of the method, beneath the steps.
type act struct {
	Do    string   `json:"do"`
	Spans [][2]int `json:"spans"`
	After []int    `json:"after"`
	deed  *deed
}

// locate finds the bytes of the source at which each sentence stands, whatever blanks and lines' ends stand in it; -1
// where its words were changed.
func locate(source string, all []sentence) {
	var plain strings.Builder
	var places []int // of each byte of plain in the source
	blank := true
	for i, c := range words.Small(source) {
		switch {
		case !unicode.IsSpace(c):
			plain.WriteRune(c)
			for k := range utf8.RuneLen(c) {
				places = append(places, i+k)
			}
			blank = false
		case !blank:
			plain.WriteByte(' ')
			places = append(places, i)
			blank = true
		}
	}
	low, from := plain.String(), 0
	places = append(places, len(source))
	for i := range all {
		s := &all[i]
		s.at, s.places = -1, places
		text := words.Small(s.text)
		if text == "" || s.from.Line == 0 {
			continue
		}
		if at := strings.Index(low[from:], text); at >= 0 {
			s.at = from + at
			from = s.at + len(text)
		} else {
			s.at = strings.Index(low, text)
		}
	}
}

// span is where a deed stands in the source; none where that is not known. Participles in it are acts of their own.
func (d *deed) span() [][2]int {
	s := d.sentence
	if s.at < 0 || d.goesOn || d.From >= d.To {
		return [][2]int{}
	}
	return [][2]int{{s.places[s.at+d.From], s.places[s.at+d.To-1] + 1}}
}

// JSON is the reading for other programs: ingredients, steps, the acts beneath them, remarks and questions.
func (r *Reading) JSON() ([]byte, error) {
	type oneLine struct {
		Text   string `json:"text"`
		Name   string `json:"name"`
		Amount string `json:"amount"`
	}
	type step struct {
		Do        string            `json:"do"`
		Spans     [][2]int          `json:"spans"`
		After     []int             `json:"after"`
		Attention planner.Attention `json:"attention"`
		Least     int               `json:"least"`
		Most      int               `json:"most"`
		Guessed   bool              `json:"guessed"`
		Heat      planner.Equipment `json:"heat"`
		Oven      string            `json:"oven,omitempty"`
		Where     planner.State     `json:"where"`
		Things    []string          `json:"things"`
		Until     string            `json:"until,omitempty"`
		Parts     []int             `json:"parts"`
	}
	type said struct {
		Kind  remark.Kind   `json:"kind"`
		Most  int           `json:"most"`
		Where planner.State `json:"where,omitempty"`
		Step  int           `json:"step"`
		Text  string        `json:"text"`
	}
	out := struct {
		Title       string    `json:"title"`
		Serves      int       `json:"serves"`
		Ingredients []oneLine `json:"ingredients"`
		Steps       []step    `json:"steps"`
		Actions     []act     `json:"actions"`
		Remarks     []said    `json:"remarks"`
		Questions   []string  `json:"questions"`
	}{Title: r.Title, Serves: r.Serves, Actions: r.acts}
	for i := range r.Ingredients {
		g := &r.Ingredients[i]
		out.Ingredients = append(out.Ingredients, oneLine{g.From.Text, g.Name, g.Total().String()})
	}
	after := r.Order()
	for i := range r.Steps {
		s := &r.Steps[i]
		one := step{Do: s.Do, Spans: s.spans, After: after[i], Attention: s.Attention, Least: s.Time.Low,
			Most: s.Time.High, Guessed: s.Guessed, Heat: s.heated(), Where: s.Where, Until: s.Until, Parts: s.Parts}
		if s.Heat == planner.AnOven && s.Oven.Temperature != 0 {
			one.Oven = s.Oven.String()
		}
		for _, t := range s.Things {
			one.Things = append(one.Things, t.Name)
		}
		out.Steps = append(out.Steps, one)
	}
	for _, m := range r.Remarks {
		out.Remarks = append(out.Remarks, said{m.Kind, m.Time.High, m.Where, max(m.step-1, 0), m.From.Text})
	}
	for _, q := range r.Questions {
		out.Questions = append(out.Questions, q.Ask)
	}
	return json.Marshal(out)
}

// heated is what heats a step's food as other programs know it: an appliance with a heat of its own stands among the
// things, and does what an oven, a grill or a burner does.
func (s *Step) heated() planner.Equipment {
	switch {
	case s.Heat != planner.AnAppliance:
		return s.Heat
	case s.kind == doing.InOven:
		return planner.AnOven
	case s.kind == doing.OnGrill:
		return planner.AGrill
	}
	return planner.ABurner
}
