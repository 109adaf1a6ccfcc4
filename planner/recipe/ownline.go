package recipe

import (
	"slices"
	"strings"
	"unicode"

	"tureen/planner"
	"tureen/planner/doing"
	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/onday"
	"tureen/planner/safety"
	"tureen/planner/times"
	"tureen/planner/ware"
	"tureen/planner/words"
)

// A dish without a recipe, in one line: somebody's own ("lasagne, mine: 45 min work, the day before, 50 min at 180")
// or one that is bought ("cheesecake, bought: collect Saturday, out 30 minutes before"). Nobody has said what goes
// into it, so its ingredients are not known, it is taken for cooked food that spoils, and nothing is asked.

// Lengths that are taken where a line does not say them: common practice, no source.
const (
	collecting = 30 // on the way to what was ordered, and back
	longWork   = 60 // beyond it food comes out of the refrigerator as it is needed
)

// ownOrBought reads whose a dish is, between its name and the colon.
func ownOrBought(r *Reading, part string) bool {
	part = words.Small(strings.Trim(part, " ()"))
	bought := slices.Contains(boughtWords, part) ||
		words.Begins(part, []string{"ordered from ", "bought from ", "bought at "})
	if !bought && !slices.Contains(ownWords, part) {
		return false
	}
	r.Unlisted, r.Bought = true, r.Bought || bought
	return true
}

var ownWords, boughtWords = phrases.Phrases("own dish"), phrases.Phrases("bought dish")

// headParts are the name and what else stands before a line's colon: "lasagne, mine", and so "my lasagne", "lasagne
// (mine)", "lasagne by heart".
func headParts(head string) (out []string) {
	for _, p := range strings.Split(strings.NewReplacer(" (", ", ", ")", "").Replace(head), ",") {
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, p)
		}
	}
	if len(out) == 0 {
		return nil
	}
	name := out[0]
	for _, w := range append(append(phrases.Phrases("own before"), ownWords...), boughtWords...) {
		if rest, ok := cutWords(name, w, true); ok {
			return append([]string{rest, ownBy(w)}, out[1:]...)
		}
		if rest, ok := cutWords(name, w, false); ok && strings.Contains(w, " ") {
			return append([]string{rest, w}, out[1:]...)
		}
	}
	return out
}

// ownBy is what "my lasagne" says of whose it is.
func ownBy(w string) string {
	if slices.Contains(boughtWords, w) {
		return w
	}
	return ownWords[0]
}

// cutWords takes words off a text's beginning, or its end.
func cutWords(text, w string, first bool) (rest string, ok bool) {
	if n := len(w); len(text) > n+2 && first && text[n] == ' ' && words.Small(text[:n]) == w {
		return strings.TrimSpace(text[n:]), true
	} else if at := len(text) - n; at > 2 && !first && text[at-1] == ' ' && words.Small(text[at:]) == w {
		return strings.TrimSpace(text[:at]), true
	}
	return text, false
}

// IsOwnLine reports whether a text is a dish in one line whose head says whose it is.
func IsOwnLine(text string) bool {
	head, tail, ok := strings.Cut(strings.TrimSpace(text), ":")
	if !ok || strings.TrimSpace(tail) == "" || strings.Contains(head, "\n") || len(text) > 2*ingredient.MaxLine {
		return false
	}
	parts := headParts(head)
	return len(parts) > 1 && slices.ContainsFunc(parts[1:], func(p string) bool { return ownOrBought(&Reading{}, p) })
}

// ownSteps reads what is done for a dish of which nobody says what goes into it. Unread is a piece that is not
// understood.
func (r *Reading) ownSteps(tail string) (unread string) {
	var pending onday.Day
	open := "" // work without its time yet
	for _, p := range strings.FieldsFunc(tail, func(c rune) bool { return c == ',' || c == ';' }) {
		for _, lead := range []string{"and ", "then "} {
			p = strings.TrimPrefix(strings.TrimSpace(p), lead)
		}
		day, rest := onday.In(strings.Trim(p, ". "))
		if rest == "" {
			switch {
			case day.Said && len(r.Steps) > 0:
				r.Steps[len(r.Steps)-1].On = day
			case day.Said:
				pending = day
			}
			continue
		}
		if open != "" {
			rest = open + ", " + rest
		}
		steps := r.ownStep(rest)
		if len(steps) == 0 {
			if open = rest; len(times.Lengths(rest)) > 0 {
				return rest
			}
			continue
		}
		open = ""
		if !day.Said {
			day, pending = pending, onday.Day{}
		}
		steps[len(steps)-1].On = day
		for _, s := range steps {
			s.after, s.told = []int{}, true
			if n := len(r.Steps); n > 0 {
				s.after = []int{n - 1}
			}
			r.Steps = append(r.Steps, s)
		}
	}
	return open
}

// ownStep reads one piece: collecting, taking out, work of any kind, an oven, or what a reader of steps knows.
func (r *Reading) ownStep(text string) []Step {
	low := strings.ReplaceAll(words.Small(text), "'s ", " ")
	s := Step{From: Place{1, text}, Attention: planner.Hands, Where: planner.Counter, kind: doing.ByHand, clauses: 1}
	lengths := times.Lengths(low)
	if len(lengths) > 0 {
		s.Time = lengths[0].Duration
		s.said = s.Time
	}
	switch {
	case startsPhrase(low, phrases.Phrases("collect")):
		s.collect(r, low)
		return []Step{s}
	case len(lengths) != 1:
		return nil
	case startsPhrase(low, phrases.Phrases("take out")):
		s.Do, s.key, s.kind = "Take "+r.Title+" out of the refrigerator", "take-out", doing.Standing
		if words.Has(low, "freezer") {
			s.Do = "Take " + r.Title + " out of the freezer"
		}
		s.Attention = planner.Unattended
		return []Step{s}
	}
	set := times.Scaled(low)
	heat := times.Heats(set, r.Usage == measure.American)
	var left []string
	notWord := func(c rune) bool { return !unicode.IsLetter(c) && c != '-' }
	for _, w := range strings.FieldsFunc(times.Without(set), notWord) {
		if !filling[w] {
			left = append(left, w)
		}
	}
	said := strings.Join(left, " ")
	oven := said == "" && len(heat) > 0 || said == "oven"
	switch {
	case oven:
		s.Do, s.key, s.kind = "Bake "+r.Title, "bake", doing.InOven
		s.Heat, s.Where, s.Cooks, s.Attention = planner.AnOven, planner.Heat, true, planner.Watch
		if len(heat) > 0 {
			s.Oven = heat[0].Setting
		}
	case said == "" || slices.Contains(phrases.Phrases("work"), said):
		return s.work(r.Title)
	default:
		if all := stepsOf(text); len(all) == 1 && all[0].Time == s.Time {
			return all
		}
		s.as(text, low, left)
	}
	return []Step{s}
}

// as makes a step of a length and what is said of it: "40 minutes simmering", "freeze 6 hours", "10 min to top it".
func (s *Step) as(text, low string, left []string) {
	s.Do, s.key = words.Upper(strings.TrimSpace(text)), left[0]
	for _, w := range left {
		row := method.Verb(w)
		if row == nil || s.kind != doing.ByHand {
			continue
		}
		s.key = row.Name
		switch {
		case row.Class == food.Cooks:
			s.kind, s.Attention, s.Cooks = doing.OfRow(row), planner.Watch, true
		case row.Class == food.Rests && row.Attention != "hands":
			s.kind = map[string]doing.Kind{"refrigerator": doing.Chilling, "freezer": doing.Freezing}[row.Where]
			if s.kind == doing.ByHand {
				s.kind = doing.Standing
			}
		}
	}
	switch {
	case ware.At(low, "freezer"):
		s.kind = doing.Freezing
	case ware.At(low, "refrigerator"):
		s.kind = doing.Chilling
	case s.kind == doing.ByHand && s.Time.High > longestByHand:
		s.kind = doing.Standing // nobody works at it for so long
	}
	switch {
	case s.kind.Heats():
		s.Heat = map[doing.Kind]planner.Equipment{doing.InOven: planner.AnOven, doing.OnGrill: planner.AGrill}[s.kind]
		if s.Heat == "" {
			s.Heat = planner.ABurner
		}
		s.Where = planner.Heat
	case s.kind.Waits():
		s.Attention, s.Where = planner.Unattended, s.kind.Where()
	}
}

// longestByHand is beyond which what is said of a time is no work. Common practice, no source.
const longestByHand = 3 * hour

// filling are words between what is done and its time that say nothing more.
var filling = words.Set("in the an a at for about of to it and degrees hot")

// stepsOf are the steps that the reader of lines makes of a piece.
func stepsOf(piece string) []Step {
	r, _, err := ReadLine("dish: " + piece)
	if err != nil {
		return nil
	}
	for i := range r.Steps {
		r.Steps[i].From = Place{1, piece}
	}
	return r.Steps
}

// work is so long by hand on a dish: in the last hour it is on the counter, before that what goes into it comes out
// of the refrigerator as it is needed.
func (s *Step) work(title string) []Step {
	s.Do, s.key = "Prepare "+title, "prepare"
	if s.Time.High <= longWork {
		return []Step{*s}
	}
	first := *s
	first.Time = measure.Duration{Low: max(s.Time.Low-longWork, 1), High: s.Time.High - longWork}
	first.Do, first.key = "Begin "+title+"; take out of the refrigerator only what is being worked on", "begin"
	first.Where, first.said = planner.Refrigerator, first.Time
	s.Do, s.key = "Finish the work on "+title, "prepare"
	s.Time = measure.Duration{Low: longWork, High: longWork}
	s.said = s.Time
	return []Step{first, *s}
}

// collect is the way to what was ordered, on which somebody is out of the house.
func (s *Step) collect(r *Reading, low string) {
	s.Do, s.key, s.Away = "Collect "+r.Title, "collect", true
	if s.Time.High == 0 {
		s.Time = measure.Duration{Low: collecting, High: collecting}
		s.Guessed = true
	}
	for _, lead := range []string{" from ", " at "} {
		if at := strings.Index(low, lead); at >= 0 {
			where := s.From.Text[at:] // lower changes no byte's place of a line of plain letters
			if len(low) != len(s.From.Text) {
				where = low[at:]
			}
			if len(times.Lengths(where)) == 0 && len(where) < 60 {
				s.Do += where
				break
			}
		}
	}
}

func startsPhrase(low string, all []string) bool {
	return slices.ContainsFunc(all, func(p string) bool { return low == p || strings.HasPrefix(low, p+" ") })
}

// restsUnknown lets what nobody knows wait in the cold between its steps, and says that it spoils. What is bought by
// a name that keeps (bread) keeps.
func (r *Reading) restsUnknown(d *planner.Dish) {
	if r.namedToKeep() {
		return
	}
	for i := range d.Steps {
		s := &d.Steps[i]
		for k := range s.After {
			if from := d.Step(s.After[k].Step); s.After[k].Wait.State == planner.Counter && (!from.Cooks || r.Steps[i].On.Said) {
				s.After[k].Wait = planner.Wait{State: planner.Refrigerator}
			}
		}
		if s.Serve != nil && !s.Cooks && r.Steps[i].kind != doing.Standing && r.Steps[i].kind != doing.Serving {
			s.Serve = &planner.Wait{State: planner.Refrigerator}
		}
	}
}

// namedToKeep reports whether the dish is by its whole name bread or crackers, which keep on the counter; a cake may
// have cream in it.
func (r *Reading) namedToKeep() bool {
	f, ok := food.Find(r.Title)
	return ok && (f.Class.Name == "bread" || f.Class.Name == "crackers") && f.Kind() == safety.None &&
		f.Name == words.Singular(words.Small(r.Title))
}
