package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// event is a moment of the run sheet. Events of one minute stand in the order of their kinds.
type event struct {
	at   time.Time
	kind int
	key  planner.TaskKey
	text string
}

// The kinds of event, in the order in which they stand within a minute.
const (
	evArrive = iota
	evEnd    // before what is served, which may come out of the oven in the same minute
	evServe
	evOven
	evStart
	evTouch
)

// Run is the run sheet: the party's day minute by minute, from "from" on (zero: from four hours before the guests come,
// with what goes on then) to the last task. Beside what people do it has what follows from it: when the oven is heated
// or turned, what comes
// out of the refrigerator, when things come out of the heat, when to baste, when the guests come, when
// each course is served. Its sections are the stretches of the evening.
func Run(p *planner.Party, plan *planner.Plan, from time.Time, f Format) []Section {
	v := newView(p, plan, f)
	usual := from.IsZero()
	if usual {
		from = p.Arrival.Add(-planner.LateOn)
	}
	var all []event
	for _, pl := range v.placed() {
		all = append(all, v.events(pl)...)
	}
	for i := range p.Kitchen.Ovens {
		oven := &p.Kitchen.Ovens[i]
		for _, s := range v.settings(oven) {
			all = append(all, event{s.at, evOven, s.load.Task, fmt.Sprintf("%s, for %s: %s", v.setText(oven.Name, s),
				f.Stamp(s.hot, Clock), v.called(v.tasks[s.load.Task]))})
		}
	}
	all = append(all, event{p.Arrival, evArrive, "", "The guests arrive"})
	for _, s := range plan.Served {
		all = append(all, event{s.At, evServe, "", v.serveText(s)})
	}
	slices.SortStableFunc(all, func(a, b event) int {
		return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.kind, b.kind), cmp.Compare(a.key, b.key), cmp.Compare(a.text, b.text))
	})
	stretches := v.stretches()
	out := make([]Section, len(stretches))
	for i, s := range stretches {
		out[i].Title = s.title
	}
	for _, e := range all {
		if pl := plan.Placed(e.key); usual && e.kind == evStart && e.at.Before(from) && pl != nil && pl.End.After(from) &&
			p.Progress(e.key) != planner.Skipped {
			e.at = from // it goes on
		}
		if e.at.Before(from) || e.at.Before(p.Day()) {
			continue
		}
		at := 0
		for i, s := range stretches {
			if !e.at.Before(s.from) {
				at = i
			}
		}
		out[at].Lines = append(out[at].Lines, fmt.Sprintf("%s %s", f.near(e.at, p.Arrival), e.text))
	}
	return slices.DeleteFunc(out, func(s Section) bool { return len(s.Lines) == 0 })
}

func (v *view) serveText(s planner.Served) string {
	text := "Serve the " + words.Lower(v.course(s.Course))
	if s.Group != "" {
		text += " to the " + clean(s.Group)
	}
	var dishes []string
	for i := range v.p.Dishes {
		if v.p.Dishes[i].Course == s.Course {
			dishes = append(dishes, clean(v.p.Dishes[i].Name))
		}
	}
	if len(dishes) > 0 {
		text += ": " + words.And(dishes)
	}
	return text
}

// lastStretch is the time before the guests that has a title of its own.
const lastStretch = 2 * time.Hour

// stretch is a part of the day with a title.
type stretch struct {
	from  time.Time
	title string
}

// stretches cuts the day: the morning and afternoon, the last two hours before the guests, then course by
// course, each from when the one before it is served.
func (v *view) stretches() []stretch {
	out := []stretch{{time.Time{}, "During the day"}, {v.p.Arrival.Add(-lastStretch), "Before the guests"}}
	start := v.p.Arrival
	seen := map[planner.CourseKey]bool{}
	for _, s := range v.plan.Served {
		if seen[s.Course] {
			continue
		}
		seen[s.Course] = true
		out = append(out, stretch{start, "To the " + words.Lower(v.course(s.Course)) + ", " + v.f.Stamp(s.At, Clock)})
		if s.At.Add(time.Minute).After(start) {
			start = s.At.Add(time.Minute)
		}
	}
	return append(out, stretch{start, "After that"})
}

// events are the moments of one task.
func (v *view) events(pl *planner.Placed) []event {
	t := v.tasks[pl.Task]
	progress := v.p.Progress(pl.Task)
	if progress == planner.Skipped {
		return []event{{pl.Start, evStart, pl.Task, v.called(t) + " (skipped)"}}
	}
	out := []event{{pl.Start, evStart, pl.Task, v.startText(pl, t)}}
	if progress == planner.Done {
		return out
	}
	_, s := v.p.StepOf(t)
	if t.Attention == planner.Touch && s != nil && s.Every > 0 && !oftenTouched(t, s) {
		for at := pl.Start.Add(s.Every.Duration()); at.Before(pl.End); at = at.Add(s.Every.Duration()) {
			out = append(out, event{at, evTouch, pl.Task, fmt.Sprintf("%sa hand for it: %s", v.who(pl), v.called(t))})
		}
	}
	if t.Attention == planner.Hands {
		return out
	}
	end := "Done: " + v.called(t)
	for _, h := range pl.Uses {
		if h.What == planner.AnOven && h.To.Equal(pl.End) && s != nil {
			end = fmt.Sprintf("Out of %s: %s", v.ovenName(h.Name), v.thing(t))
			break
		}
	}
	if s != nil && s.Until != "" {
		end += ", if " + clean(s.Until)
	}
	if d, _ := v.p.StepOf(t); d != nil {
		if to := trace.CookedTo(v.p, d, s); to != "" {
			end += "; " + to
		}
		if s.Cool != nil {
			first, whole := safety.TwoStageCooling()
			end += fmt.Sprintf(", if it is at %.0f °C; the rule for businesses is %s from the heat, and %s to %.0f °C (%s)",
				whole.TempC, words.Short(whole.Minutes), words.Short(first.Minutes), first.TempC, whole.Source)
		}
	}
	return append(out, event{pl.End, evEnd, pl.Task, end})
}

// oftenTouched: what wants a hand more often than this is said once, and not at every time.
func oftenTouched(t *planner.Task, s *planner.Step) bool {
	const often = 6
	return t.Time.Likely > often*s.Every
}

// startText says what is done from a task's start: who, what, from where, in which oven, until when.
func (v *view) startText(pl *planner.Placed, t *planner.Task) string {
	text := v.who(pl) + v.inFull(t)
	if n := v.roundCovers(t); n > 0 {
		text += fmt.Sprintf(", for %d covers", n)
	}
	if d, s := v.p.StepOf(t); s != nil {
		if fit := v.p.Fit(d, s); fit.Batches > 1 {
			text += fmt.Sprintf(", in %d batches", fit.Batches)
		}
	}
	if cold := v.comesOut(t); cold != "" {
		text += ", " + cold
	}
	for _, h := range pl.Uses {
		if h.What == planner.AnOven {
			heat := fmt.Sprintf("%d °C", h.C)
			if h.C == 0 {
				heat = "off"
			}
			text += fmt.Sprintf(", in %s (%s)", v.ovenName(h.Name), heat)
			break
		}
	}
	for _, h := range pl.Uses {
		if h.What == planner.AVessel && h.Amount > 1 {
			text += fmt.Sprintf(", in %d × %s", h.Amount, clean(h.Name))
		}
	}
	if in := v.coldPlace(t); in != "" {
		text += ", in the " + in
	}
	if _, s := v.p.StepOf(t); t.Attention == planner.Touch && s != nil && s.Every > 0 && oftenTouched(t, s) {
		text += fmt.Sprintf(", a hand every %s", words.Short(s.Every))
	}
	if t.Attention == planner.Hands {
		text += ", " + length(pl.End.Sub(pl.Start))
	} else {
		text += ", until " + v.f.near(pl.End, pl.Start)
	}
	if to := v.goesInto(t); to != "" {
		text += ", then into the " + to
	}
	if _, s := v.p.StepOf(t); s != nil && s.WhenCalled {
		text += ", when the host calls"
	}
	return text + v.mark(pl.Task)
}

// roundCovers is for how many covers a round is; 0 for what is not done in rounds.
func (v *view) roundCovers(t *planner.Task) int {
	d, s := v.p.StepOf(t)
	if s == nil || t.Rounds < 2 {
		return 0
	}
	fit := v.p.Fit(d, s)
	return max(0, min(fit.Covers, d.Makes(v.p)-(t.Round-1)*fit.Covers))
}

// comesOut says from which cold place a step's food comes.
func (v *view) comesOut(t *planner.Task) string {
	_, s := v.p.StepOf(t)
	if s == nil {
		return ""
	}
	for i := range s.After {
		if a := &s.After[i]; !a.FromStart {
			if text := outOf(&a.Wait); text != "" {
				return text
			}
		}
	}
	return ""
}

// coldPlace says in which cold place a task's food is meanwhile.
func (v *view) coldPlace(t *planner.Task) string {
	where := planner.Straight
	if _, s := v.p.StepOf(t); s != nil {
		where = s.Where
	} else if c := v.p.Chore(t.Chore); c != nil && !strings.Contains(c.Do, string(c.Where)) {
		where = c.Where
	}
	if where == planner.Refrigerator || where == planner.Freezer {
		return string(where)
	}
	return ""
}

// goesInto says into which cold place a step's food goes when the step is over.
func (v *view) goesInto(t *planner.Task) string {
	d, s := v.p.StepOf(t)
	if s == nil || v.coldPlace(t) != "" {
		return ""
	}
	for i := range v.p.Dishes {
		other := &v.p.Dishes[i]
		for j := range other.Steps {
			for _, a := range other.Steps[j].After {
				from := a.Dish
				if from == "" {
					from = other.Key
				}
				if from == d.Key && a.Step == s.Key && !a.FromStart && (a.Wait.State == planner.Refrigerator ||
					a.Wait.State == planner.Freezer) {
					return string(a.Wait.State)
				}
			}
		}
	}
	if s.Serve != nil && (s.Serve.State == planner.Refrigerator || s.Serve.State == planner.Freezer) {
		return string(s.Serve.State)
	}
	return ""
}

func (v *view) who(pl *planner.Placed) string {
	if who := v.people(pl); who != "" {
		return who + ": "
	}
	return ""
}

// thing names what a task works on, the dish before what was done with it: "the pear tart (bake the shell)".
func (v *view) thing(t *planner.Task) string {
	d, s := v.p.StepOf(t)
	if d == nil {
		return v.called(t)
	}
	of := words.Lower(trimStop(t.Do))
	if s.Component != "" {
		of = clean(s.Component)
	}
	if t.Rounds > 1 {
		of += fmt.Sprintf(", round %d of %d", t.Round, t.Rounds)
	}
	return fmt.Sprintf("%s (%s)", clean(d.Name), of)
}
