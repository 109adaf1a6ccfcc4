package recipe

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/manuscript"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/safety"
	"tureen/planner/times"
	"tureen/planner/words"
)

// A dish without a recipe, in one line: somebody's own ("lasagne, mine: 45 min work, the day before, 50 min at 180")
// or one that is bought ("cheesecake, bought: collect Saturday, out 30 minutes before"). Nobody has said what goes
// into it, so its ingredients are not known, it is taken for cooked food that spoils, and nothing is asked.

// OnDay is when a step is done, as far as a line says so.
type OnDay struct {
	Said   bool
	Before int    // days before the party's
	Name   string // a day in words that a calendar tells: "saturday", "5 dec"; empty: see Before
	Part   string // "morning", "afternoon", "evening"; empty: any hour
	Clock  string // "11:00": it begins about then
}

// String is the day as one says it: "the day before", "saturday morning 11:00".
func (d OnDay) String() string {
	day := d.Name
	switch {
	case day != "":
	case d.Before == 0:
		day = "on the day"
	case d.Before == 1:
		day = "the day before"
	default:
		day = words.Count(d.Before, "day") + " before"
	}
	return strings.Join(nonEmpty(day, d.Part, d.Clock), " ")
}

// Lengths that are taken where a line does not say them: common practice, no source.
const (
	collecting = 30 // on the way to what was ordered, and back
	longWork   = 60 // beyond it food comes out of the refrigerator as it is needed
)

// ownOrBought reads whose a dish is, between its name and the colon.
func ownOrBought(r *Reading, part string) bool {
	part = words.Small(strings.Trim(part, " ()"))
	bought := slices.Contains(boughtWords, part) || begins(part, []string{"ordered from ", "bought from ", "bought at "})
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
	var pending OnDay
	open := "" // work without its time yet
	for _, p := range strings.FieldsFunc(tail, func(c rune) bool { return c == ',' || c == ';' }) {
		for _, lead := range []string{"and ", "then "} {
			p = strings.TrimPrefix(strings.TrimSpace(p), lead)
		}
		day, rest := dayIn(strings.Trim(p, ". "))
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
			day, pending = pending, OnDay{}
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
	s := Step{From: Place{1, text}, Attention: planner.Hands, Where: planner.Counter, kind: byHand, clauses: 1}
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
		s.Do, s.key, s.kind = "Take "+r.Title+" out of the refrigerator", "take-out", standing
		if words.Has(low, "freezer") {
			s.Do = "Take " + r.Title + " out of the freezer"
		}
		s.Attention = planner.Unattended
		return []Step{s}
	}
	set := oneTemp(low)
	heat := times.Heats(set, r.Usage == measure.American)
	var left []string
	bare := set
	for _, b := range slices.Backward(sortedSpans(set)) {
		bare = bare[:b.Start] + " " + bare[b.End:]
	}
	for _, w := range strings.FieldsFunc(bare, func(c rune) bool { return !unicode.IsLetter(c) && c != '-' }) {
		if !filling[w] {
			left = append(left, w)
		}
	}
	said := strings.Join(left, " ")
	oven := said == "" && len(heat) > 0 || said == "oven"
	switch {
	case oven:
		s.Do, s.key, s.kind = "Bake "+r.Title, "bake", inOven
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
		if row == nil || s.kind != byHand {
			continue
		}
		s.key = row.Name
		switch {
		case row.Class == food.Cooks:
			s.kind, s.Attention, s.Cooks = rowKind(row), planner.Watch, true
		case row.Class == food.Rests && row.Attention != "hands":
			s.kind = map[string]action{"refrigerator": chilling, "freezer": freezing}[row.Where]
			if s.kind == byHand {
				s.kind = standing
			}
		}
	}
	switch {
	case placeIn(low, "freezer"):
		s.kind = freezing
	case placeIn(low, "refrigerator"):
		s.kind = chilling
	case s.kind == byHand && s.Time.High > longestByHand:
		s.kind = standing // nobody works at it for so long
	}
	switch {
	case heats(s.kind):
		s.Heat = map[action]planner.Equipment{inOven: planner.AnOven, onGrill: planner.AGrill}[s.kind]
		if s.Heat == "" {
			s.Heat = planner.ABurner
		}
		s.Where = planner.Heat
	case waits(s.kind):
		s.Attention, s.Where = planner.Unattended, s.kind.where()
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

func sortedSpans(text string) []times.Span {
	all := times.Spans(text)
	slices.SortFunc(all, func(a, b times.Span) int { return a.Start - b.Start })
	var out []times.Span
	for _, s := range all {
		if len(out) == 0 || s.Start >= out[len(out)-1].End {
			out = append(out, s)
		}
	}
	return out
}

var (
	weekdays = words.Set("sunday monday tuesday wednesday thursday friday saturday " +
		"sun mon tue tues wed thu thur thurs fri sat")
	months = words.Set("january february march april may june july august september october " +
		"november december jan feb mar " +
		"apr jun jul aug sep sept oct nov dec")
	dayParts = map[string]string{"morning": "morning", "afternoon": "afternoon", "evening": "evening", "night": "evening",
		"day": ""}
)

// dayIn takes the day out of a piece of a line, and the hour behind it; rest is what is left of its words.
func dayIn(text string) (day OnDay, rest string) {
	all := strings.Fields(text)
	low := make([]string, len(all))
	for i, w := range all {
		low[i] = strings.Trim(words.Small(w), ".,()")
	}
	for i := range low {
		d, n := dayAt(low[i:])
		if n == 0 {
			continue
		}
		kept := slices.Clone(all[:i])
		tail := low[i+n:]
		if len(tail) > 0 && (tail[0] == "at" || tail[0] == "by" || tail[0] == "from") && len(tail) > 1 && isClock(tail[1]) {
			tail, n = tail[1:], n+1
		}
		if len(tail) > 0 && isClock(tail[0]) {
			d.Clock, n = tail[0], n+1
		}
		if k := len(kept) - 1; k > 0 && isClock(low[k]) && slices.Contains([]string{"at", "by", "from"}, low[k-1]) {
			d.Clock, kept = low[k], kept[:k-1] // pick up at 18:00 on the day
		}
		return d, strings.TrimSpace(strings.Join(append(kept, all[i+n:]...), " "))
	}
	return OnDay{}, text
}

// isClock reports whether a word is a time of day: 11:00, 3pm, noon.
func isClock(w string) bool {
	digit := w != "" && w[0] >= '0' && w[0] <= '9'
	return w == "noon" || digit && (strings.Contains(w, ":") || strings.HasSuffix(w, "am") || strings.HasSuffix(w, "pm"))
}

// dayAt reads a day at the beginning of some words, and says how many of them it is; 0: none.
func dayAt(w []string) (d OnDay, n int) {
	d.Said = true
	lead := ""
	for n < 2 && n < len(w)-1 && slices.Contains([]string{"on", "by", "the", "a", "in", "that", "same"}, w[n]) {
		lead = w[n]
		n++
	}
	at := func(i int) string {
		if n+i < len(w) {
			return w[n+i]
		}
		return ""
	}
	part, isPart := dayParts[at(0)]
	number, err := numberSaid(at(0))
	switch {
	case isPart && at(1) == "before":
		d.Before, d.Part = 1, part
		return d, n + 2
	case isPart && lead != "" && lead != "a" && (at(0) != "day" || lead == "same" || at(1) == "" || at(1) == "at" ||
		isClock(at(1))):
		d.Part = part
		return d, n + 1
	case err == nil && number > 0 && number <= planner.MaxPrepDays && (at(1) == "days" || at(1) == "day") &&
		slices.Contains([]string{"before", "ahead", "earlier", "beforehand"}, at(2)):
		d.Before = number
		return d, n + 3
	case weekdays[at(0)]:
		d.Name = at(0)
		if p, ok := dayParts[at(1)]; ok && p != "" {
			d.Part = p
			return d, n + 2
		}
		return d, n + 1
	}
	if words := dateAt(at(0), at(1)); words > 0 {
		d.Name = strings.Join(w[n:n+words], " ")
		return d, n + words
	}
	return OnDay{}, 0
}

// dateAt is of how many of two words a date is: "5 dec", "dec 5", "2026-12-05"; 0: none.
func dateAt(first, second string) int {
	number, err := strconv.Atoi(first)
	switch {
	case err == nil && number > 0 && number <= 31 && months[second], months[first] && second != "" && second[0] <= '9':
		return 2
	case len(first) == 10 && strings.Count(first, "-") == 2 && first[0] == '2':
		return 1
	}
	return 0
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
		if s.Serve != nil && !s.Cooks && r.Steps[i].kind != standing && r.Steps[i].kind != serving {
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

// numberSaid is a number in figures or in words.
func numberSaid(w string) (int, error) {
	switch {
	case w == "one":
		return 1, nil
	case manuscript.Numbers[w] > 0:
		return manuscript.Numbers[w], nil
	}
	return strconv.Atoi(w)
}
