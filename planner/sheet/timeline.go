package sheet

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
)

// Timeline is a plan as it is drawn: the days before by session, the last hours to scale.
type Timeline struct {
	Title, Under string // "Harvest dinner"; "Sat 26 Sep, guests at 19:30, 8 covers"
	Zone         *time.Location
	Days         []TimelineDay // with work before From, in order
	From, To     time.Time     // what is drawn to scale
	Now          time.Time     // zero: outside of that
	Marks        []TimelineMark
	Bands        []Band // people in the party's order, ovens, and where food waits
	Version      string // "Plan made Fri 25 Sep 18:02, revision 41"
}

// TimelineDay is a day before the last hours.
type TimelineDay struct {
	Title    string
	Sessions []TimelineSession
}

// TimelineSession is what somebody does on such a day.
type TimelineSession struct {
	Title     string           // "Ana 19:30-20:45"
	Stretches []planner.Window // of work
	Lines     []string         // dish by dish
}

// TimelineMark is an instant that everybody looks to.
type TimelineMark struct {
	At   time.Time
	Text string // "Guests", "Main"
}

// Band is a row of the drawing.
type Band struct {
	Title string
	Bars  []Bar // by From
}

// Bar is a stretch of time in a band.
type Bar struct {
	From, To time.Time
	Until    time.Time // how long it may run over before the plan breaks, at most an hour; zero: not told
	Look     Look
	Text     string // with its time first where it begins within the drawing
	Over     bool   // done or skipped
}

// Look says how a bar is drawn.
type Look int

// The looks of bars.
const (
	ByHand  Look = iota // somebody has their hands in it
	Watched             // somebody is near, or comes back to it now and then
	Alone               // it goes on by itself
	Hot                 // an oven at its temperature, with something in it
	Warming             // an oven on its way there
	Waiting             // food that waits
)

// afterLast is how much of the time after the last serving is drawn.
const afterLast = 45 * time.Minute

// mostSpare is how much of a task's time to spare is drawn.
const mostSpare = 60

// leastWait is the shortest wait of food that is drawn.
const leastWait = 15 * time.Minute

// Draw puts a plan together to be drawn, as it stands at an instant.
func Draw(p *planner.Party, plan *planner.Plan, now time.Time, f Format) Timeline {
	v := newView(p, plan, f)
	t := Timeline{Title: clean(p.Name), Zone: f.Zone, From: p.Arrival.Add(-planner.LateOn), To: p.Arrival.Add(afterLast),
		Under: fmt.Sprintf("%s, guests at %s, %s", f.Stamp(p.Arrival, Date), f.Stamp(p.Arrival, Clock),
			words.Count(p.Covers, "cover")),
		Version: fmt.Sprintf("Plan made %s %s, revision %d", f.Stamp(plan.Made, Date), f.Stamp(plan.Made, Clock),
			plan.Revision),
		Marks: []TimelineMark{{p.Arrival, "Guests"}}}
	for _, s := range plan.Served {
		name := v.course(s.Course)
		if s.Group != "" {
			name += " (" + clean(s.Group) + ")"
		}
		t.Marks = append(t.Marks, TimelineMark{s.At, words.Upper(name)})
		t.To = planner.Later(t.To, s.At.Add(afterLast))
	}
	slices.SortStableFunc(t.Marks, func(a, b TimelineMark) int { return a.At.Compare(b.At) })
	for _, pl := range v.placed() {
		if len(pl.People) > 0 && pl.End.After(t.To) && pl.End.Sub(pl.Start) < planner.LateOn {
			t.To = pl.End
		}
	}
	if !now.Before(t.From) && now.Before(t.To) {
		t.Now = now
	}
	t.Days = v.daysBefore(t.From)
	for _, who := range v.everybody() {
		t.add(v.workBand(who, &t))
	}
	for i := range p.Kitchen.Ovens {
		t.add(v.ovenBand(&p.Kitchen.Ovens[i], &t))
	}
	for _, place := range []struct {
		state planner.State
		title string
	}{
		{planner.Refrigerator, "In the refrigerator"}, {planner.Freezer, "In the freezer"},
		{planner.Counter, "On the counter"}, {planner.Heat, "Kept hot"},
	} {
		t.add(v.waitBand(place.state, place.title, &t))
	}
	return t
}

func (t *Timeline) add(b Band) {
	if len(b.Bars) > 0 {
		t.Bands = append(t.Bands, b)
	}
}

// shows says whether a stretch lies within the drawing, at least in part.
func (t *Timeline) shows(from, to time.Time) bool { return to.After(t.From) && from.Before(t.To) }

// daysBefore are the sessions that begin before an instant.
func (v *view) daysBefore(late time.Time) (out []TimelineDay) {
	for _, day := range v.days(Only{}) {
		d := TimelineDay{}
		for _, who := range v.everybody() {
			var all []*planner.Placed
			for _, pl := range v.placed() {
				if v.f.day(pl.Start) == day && pl.Start.Before(late) && len(pl.People) > 0 && pl.People[0] == who {
					all = append(all, pl)
				}
			}
			if len(all) == 0 {
				continue
			}
			d.Title = v.f.Stamp(all[0].Start, Date)
			s := TimelineSession{Title: v.name(who), Stretches: planner.SessionOf(v.p, all).Stretches}
			var when []string
			for _, w := range s.Stretches {
				when = append(when, Stretch(w, v.f))
			}
			if len(when) > 0 {
				s.Title += " " + words.And(when)
			}
			for _, group := range v.byDish(all) {
				s.Lines = append(s.Lines, v.groupLine(group, who))
			}
			d.Sessions = append(d.Sessions, s)
		}
		if len(d.Sessions) > 0 {
			out = append(out, d)
		}
	}
	return out
}

// workBand is what a person does in the last hours, or what nobody is charged with.
func (v *view) workBand(who planner.PersonKey, t *Timeline) Band {
	b := Band{Title: "By itself"}
	if who != "" {
		b.Title = v.name(who)
	}
	for _, pl := range v.placed() {
		task := v.tasks[pl.Task]
		if !t.shows(pl.Start, pl.End) || !slices.Contains(pl.People, who) && !(len(pl.People) == 0 && who == "") {
			continue
		}
		look := Watched
		switch task.Attention {
		case planner.Hands:
			look = ByHand
		case planner.Unattended:
			look = Alone
		}
		text := words.Brief(clean(task.Do), inLine)
		if d := v.p.Dish(task.Dish); d != nil {
			text += " (" + clean(d.Name) + ")"
		}
		progress := v.p.Progress(pl.Task)
		bar := v.bar(pl.Start, pl.End, look, text, progress == planner.Done || progress == planner.Skipped, t)
		if !bar.Over && look == ByHand {
			spare, _ := check.SpareOf(v.p, v.plan, pl.Task)
			bar.Until = pl.End.Add(min(spare, mostSpare).Duration())
		}
		b.Bars = append(b.Bars, bar)
	}
	return b
}

// bar is a bar with the time at which it begins, where that is to be seen.
func (v *view) bar(from, to time.Time, look Look, text string, over bool, t *Timeline) Bar {
	if !from.Before(t.From) {
		text = v.f.Stamp(from, Clock) + " " + text
	}
	return Bar{From: from, To: to, Look: look, Text: text, Over: over}
}

// ovenBand is what an oven does in the last hours.
func (v *view) ovenBand(oven *planner.Oven, t *Timeline) Band {
	b := Band{Title: words.Upper(strings.TrimPrefix(v.ovenName(oven.Name), "the "))}
	for _, s := range v.settings(oven) {
		if t.shows(s.at, s.hot) {
			b.Bars = append(b.Bars, v.bar(s.at, s.hot, Warming, fmt.Sprintf("heat to %d °C", s.c), false, t))
		}
	}
	for _, l := range v.loads(oven.Name) {
		if !t.shows(l.held.From, l.held.To) {
			continue
		}
		text := v.dishName(l.placed)
		if l.held.C > 0 {
			text += fmt.Sprintf(", %d °C", l.held.C)
		}
		if l.held.Amount > 0 && oven.Shelves > 1 {
			text += ", " + words.CountAs(l.held.Amount, "shelf", "shelves")
		}
		over := v.p.Progress(l.placed.Task) == planner.Done
		b.Bars = append(b.Bars, v.bar(l.held.From, l.held.To, Hot, text, over, t))
	}
	slices.SortStableFunc(b.Bars, func(a, b Bar) int { return a.From.Compare(b.From) })
	return b
}

func (v *view) dishName(pl *planner.Placed) string {
	task := v.tasks[pl.Task]
	if d := v.p.Dish(task.Dish); d != nil {
		return clean(d.Name)
	}
	return words.Brief(clean(task.Do), inLine)
}

// waitBand is what waits in one place in the last hours; what several steps take of one thing waits until the last of
// them.
func (v *view) waitBand(state planner.State, title string, t *Timeline) Band {
	type thing struct {
		dish *planner.Dish
		from *planner.Step
	}
	b := Band{Title: title}
	at := map[thing]int{}
	for _, s := range v.stays() {
		if s.wait.State != state || !t.shows(s.since, s.until) || s.length() < leastWait {
			continue
		}
		k := thing{s.dish, s.from}
		if i, known := at[k]; known {
			b.Bars[i].To = planner.Later(b.Bars[i].To, s.until)
			continue
		}
		at[k] = len(b.Bars)
		name := clean(s.dish.Name)
		if s.from.Component != "" {
			name += ": " + clean(s.from.Component)
		}
		b.Bars = append(b.Bars, Bar{From: s.since, To: s.until, Look: Waiting, Text: name})
	}
	slices.SortStableFunc(b.Bars, func(a, b Bar) int { return a.From.Compare(b.From) })
	for i := range b.Bars {
		b.Bars[i].Text += ", until " + v.f.near(b.Bars[i].To, v.p.Arrival)
	}
	return b
}

// String tells in words what the drawing shows.
func (t Timeline) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s. %s. %s.\n", t.Title, t.Under, t.Version)
	for _, d := range t.Days {
		for _, s := range d.Sessions {
			fmt.Fprintf(&b, "%s, %s: %s.\n", d.Title, s.Title, strings.Join(s.Lines, "; "))
		}
	}
	for _, m := range t.Marks {
		fmt.Fprintf(&b, "%s %s.\n", m.At.In(t.Zone).Format("15:04"), m.Text)
	}
	for _, band := range t.Bands {
		var bars []string
		for _, x := range band.Bars {
			bars = append(bars, x.Text)
		}
		fmt.Fprintf(&b, "%s: %s.\n", band.Title, strings.Join(bars, "; "))
	}
	return b.String()
}
