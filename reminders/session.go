package reminders

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// sessionLines is how many tasks a session's message lists before it says how many more there are.
const sessionLines = 10

// session is the message that tells a group of tasks: what to do now, what in which order, where things are, until
// when. It is kept true while they are ticked off.
func (v *view) session(g *group, single map[string]*store.Reminder, asked *planner.Plan) store.Reminder {
	first := g.of[0]
	own := func(pl *planner.Placed) *store.Reminder { return single[fmt.Sprintf("due/%s/%s", pl.Task, g.who)] }
	r := store.Reminder{Key: g.key, Kind: Session, Person: g.who, Due: first.Start.Add(-v.lead(v.tasks[first.Task])),
		At: first.Start, Live: true, Silent: g.late && g.idle < pause}
	var waits, at *planner.Placed // the first that is to begin, and the first that somebody is at
	for _, pl := range g.of {
		r.Until = planner.Later(r.Until, pl.End)
		switch v.p.Progress(pl.Task) {
		case planner.Waiting:
			if s := own(pl); s != nil {
				r.Until = planner.Later(r.Until, s.Until)
				if waits == nil {
					waits = pl
				}
			}
		case planner.Started:
			if at == nil || v.tasks[at.Task].Attention != planner.Hands {
				at = pl
			}
		}
	}
	if r.Over = waits == nil; !r.Over && len(g.of) == 1 { // by itself it says all that there is to say
		s := own(waits)
		r.Kind, r.Task, r.Text, r.Buttons = s.Kind, s.Task, s.Text, s.Buttons
		return r
	}
	if waits != nil && v.p.Progress(first.Task) != planner.Waiting {
		r.Due = own(waits).Due // the first has been begun already
	}
	lines := []string{"All of this is done."}
	switch {
	case at != nil && (r.Over || v.tasks[at.Task].Attention == planner.Hands):
		t := v.tasks[at.Task]
		r.Task = at.Task
		r.Buttons = []store.Press{v.press("Done", "task done", t.Key), v.press("10 more minutes", "task longer", t.Key),
			v.press("Why?", "task why", t.Key)}
		lines[0] = fmt.Sprintf("Under way since %s: %s.", words.Stamp(at.Start, words.Clock, v.zone),
			words.Lower(words.Brief(trimStop(t.Do), longestFirst-len("Under way since 00:00: ."))))
	case waits != nil:
		t := v.tasks[waits.Task]
		r.Task, r.Buttons = waits.Task, v.startButtons(t.Key)
		lines[0], _, _ = strings.Cut(own(waits).Text, "\n")
		if own(waits).Kind == ShopBy {
			_, shop := v.toBuy(v.tasks[waits.Task].Chore)
			r.Buttons = append(r.Buttons, v.listButton(shop))
		}
	}
	r.Text = strings.Join(append(lines, v.sessionLines(g, waits, &r, asked)...), "\n")
	return r
}

// sessionLines are what stands below a session's first line.
func (v *view) sessionLines(g *group, waits *planner.Placed, r *store.Reminder, asked *planner.Plan) []string {
	var last time.Time
	for _, pl := range g.of {
		if t := v.tasks[pl.Task]; t.Attention == planner.Unattended && !t.Away {
			last = planner.Later(last, pl.Start)
		} else {
			last = planner.Later(last, pl.End)
		}
	}
	lines := []string{fmt.Sprintf("Until %s, in this order:", words.Stamp(last, words.Clock, v.zone))}
	var where, meant []string
	for i, pl := range g.of {
		if i < sessionLines {
			lines = append(lines, v.sessionLine(pl))
		}
		t := v.tasks[pl.Task]
		if v.p.Progress(pl.Task) != planner.Waiting {
			continue
		}
		d, s := v.p.StepOf(t)
		v.waitsBefore(d, s, pl, func(from *planner.Dish, pred *planner.Step, w planner.Wait, _ time.Duration) {
			if place := waiting(w); place != "" && !slices.ContainsFunc(g.of, func(o *planner.Placed) bool {
				return o.Task == planner.StepTask(from.Key, pred.Key, 1) &&
					v.p.Progress(o.Task) == planner.Waiting // not yet made
			}) {
				where = addNew(where, thing(from, pred)+" "+place)
			}
		})
		if o := asked.Placed(pl.Task); o != nil && v.p.Unaccepted(asked, o) {
			meant = addNew(meant, v.name(o.People[0]))
		}
	}
	if n := len(g.of) - sessionLines; n > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", n))
	}
	if len(where) > 0 {
		lines = append(lines, words.Upper(words.Few(where, 2*untickedShown))+".")
	}
	if waits != nil {
		t := v.tasks[waits.Task]
		if c := v.p.Chore(t.Chore); c != nil && c.Kind == planner.Shop {
			if things, _ := v.toBuy(c.Key); things != "" {
				lines = append(lines, things)
			}
		}
		if by := v.coldBy(t); by != "" {
			lines = append(lines, by)
		}
		if by, then := v.lastStart(t, waits); waits.People[0] == g.who && then != "" {
			lines = append(lines, v.spare(waits, by, then))
		}
	}
	if len(meant) > 0 {
		lines = append(lines, fmt.Sprintf("Meant for %s, who has not said yes.", words.And(meant)))
	}
	open, buttons := v.askUnticked(g.who, g.of[0], r.Due, r.Buttons)
	if r.Buttons = buttons; open != "" {
		lines = append(lines, open)
	}
	return lines
}

// sessionLine is one task of a list: "[ ] 18:05 Slice the leeks (leek soup), 20 min".
func (v *view) sessionLine(pl *planner.Placed) string {
	t := v.tasks[pl.Task]
	box := map[planner.Progress]string{planner.Done: "[x]", planner.Started: "[>]"}[v.p.Progress(pl.Task)]
	if box == "" {
		box = "[ ]"
	}
	line := fmt.Sprintf("%s %s %s", box, words.Stamp(pl.Start, words.Clock, v.zone),
		words.Brief(trimStop(t.Do), longestFirst-len("[ ] 00:00 ")))
	if d := v.p.Dish(t.Dish); d != nil {
		line += " (" + named(d.Name)
		if t.Rounds > 1 {
			line += fmt.Sprintf(", round %d of %d", t.Round, t.Rounds)
		}
		line += ")"
	}
	if length := words.Minutes(pl.End.Sub(pl.Start)); t.Attention == planner.Hands || t.Away {
		line += ", " + words.Short(planner.Minutes(length))
	} else {
		line += " until " + words.Stamp(pl.End, words.Clock, v.zone)
	}
	if len(pl.People) > 1 {
		var names []string
		for _, k := range pl.People {
			names = append(names, v.name(k))
		}
		line += ": " + words.And(names) + " together"
	}
	return line
}
