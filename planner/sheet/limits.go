package sheet

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/safety"
	"tureen/planner/words"
)

// stay is food that waits between a step and what comes after it.
type stay struct {
	dish  *planner.Dish
	from  *planner.Step
	to    *planner.Step // nil: service
	wait  planner.Wait
	since time.Time // the first end of the step's rounds
	until time.Time // the last start of the next step, or the last serving
}

func (s *stay) length() time.Duration { return s.until.Sub(s.since) }

// stays lists the waits of the plan's food, dish by dish in the menu's order. Waits at whose ends a task is missing
// from the plan, or was skipped, are left out.
func (v *view) stays() []stay {
	var out []stay
	for i := range v.p.Dishes {
		d := &v.p.Dishes[i]
		for j := range d.Steps {
			s := &d.Steps[j]
			for _, a := range s.After {
				from := d
				if a.Dish != "" {
					from = v.p.Dish(a.Dish)
				}
				if from == nil || a.FromStart {
					continue
				}
				before := from.Step(a.Step)
				if before == nil {
					continue
				}
				_, since, ok1 := v.rounds(from, before)
				until, _, ok2 := v.rounds(d, s)
				if ok1 && ok2 {
					out = append(out, stay{from, before, s, a.Wait, since, until})
				}
			}
			if w := v.serveWait(d, s); w != nil {
				_, since, ok := v.rounds(d, s)
				if until := v.plan.LastServed(d.Course); ok && !until.IsZero() {
					out = append(out, stay{d, s, nil, *w, since, until})
				}
			}
		}
	}
	return out
}

// serveWait is a step's wait for service; nil for one that another step comes after.
func (v *view) serveWait(d *planner.Dish, s *planner.Step) *planner.Wait {
	if s.Serve != nil {
		return s.Serve
	}
	for i := range v.p.Dishes {
		other := &v.p.Dishes[i]
		for j := range other.Steps {
			for _, a := range other.Steps[j].After {
				if a.Step == s.Key && !a.FromStart && (a.Dish == d.Key || a.Dish == "" && other.Key == d.Key) {
					return nil
				}
			}
		}
	}
	return &planner.Wait{State: s.Stays()}
}

// rounds gives a step's last start and first end among its rounds in the plan.
func (v *view) rounds(d *planner.Dish, s *planner.Step) (lastStart, firstEnd time.Time, ok bool) {
	for _, pl := range v.placed() {
		t := v.tasks[pl.Task]
		if t.Dish != d.Key || t.Step != s.Key || v.p.Progress(pl.Task) == planner.Skipped {
			continue
		}
		if !ok || pl.Start.After(lastStart) {
			lastStart = pl.Start
		}
		if !ok || pl.End.Before(firstEnd) {
			firstEnd = pl.End
		}
		ok = true
	}
	return lastStart, firstEnd, ok
}

// Limits says which published limits the plan's food keeps, for a plan that breaks no rule: the counter's for
// all of it, and for each dish that is in the refrigerator the food that comes nearest to its limit there. It
// promises nothing about the food; whoever shows it adds [safety.Caution].
func Limits(p *planner.Party, plan *planner.Plan) []string {
	var out []string
	stays, counter := check.AgesOf(p, plan).Stays()
	if counter.Any {
		out = append(out, fmt.Sprintf("On the counter, all stays of a food added up: %s.", p.CounterLimit()))
	}
	if len(counter.Hot) > 0 {
		out = append(out, fmt.Sprintf("%s: counted from when it has cooled to %.0f °C, by an estimate.",
			words.And(counter.Hot), safety.HotUntil))
	}
	if len(counter.Rising) > 0 {
		out = append(out, fmt.Sprintf("%s: not held to it while the dough rises, but to %s, our own figure.",
			words.And(counter.Rising), words.Length(2*p.CounterLimit().Minutes)))
	}
	for _, s := range stays {
		from := ""
		if s.Thawed {
			from = ", counted from when it has thawed"
		}
		out = append(out, fmt.Sprintf("%s: %s in the refrigerator in all%s; the limit for %s is %s.", clean(s.Dish.Name),
			words.Length(s.Minutes), from, s.Label, s.Limit))
	}
	if len(out) == 0 {
		return nil
	}
	not := []string{"how cold the refrigerator is", "what came before the shop"}
	if len(counter.Unknown) > 0 {
		not = append(not, "what "+words.And(counter.Unknown)+" is (counted as food that spoils)")
	}
	return append(out, "Not checked: "+words.And(not)+".")
}

// Risks says what an evening's plan can no longer have: courses after their time, food that waits longer
// than it is worth serving. Nothing is at risk when it is empty.
func Risks(p *planner.Party, plan *planner.Plan, f Format) []string {
	v := newView(p, plan, f)
	var out []string
	for _, s := range plan.Served {
		c := p.Course(s.Course)
		if c == nil {
			continue
		}
		at := slices.IndexFunc(c.Servings, func(o planner.Serving) bool { return o.Group == s.Group })
		if at < 0 {
			continue
		}
		if over := s.At.Sub(c.Servings[at].At.Add(c.Servings[at].Late.Duration())); over > 0 {
			out = append(out, fmt.Sprintf("%s comes at %s, %s after its window", words.Upper(v.course(s.Course)),
				f.near(s.At, p.Arrival), length(over)))
		}
	}
	for _, s := range v.stays() {
		over := s.length() - s.wait.WorthUntil.Duration()
		if s.wait.WorthUntil <= 0 || over <= 0 {
			continue
		}
		to := "service"
		if s.to != nil {
			to = fmt.Sprintf("%q", trimStop(s.to.Do))
		}
		out = append(out, fmt.Sprintf("%s waits %s from %q to %s, %s longer than is good for it", clean(s.dish.Name),
			length(s.length()), trimStop(s.from.Do), to, length(over)))
	}
	return out
}

// mostDelay is how far CanWait looks.
const mostDelay = 3 * 60

// CanWait says of each dish that is still to be served until when its service can wait: until when it is at
// its best, when it is no longer worth serving, and when a published limit ends it.
func CanWait(p *planner.Party, plan *planner.Plan, at time.Time, f Format) []string {
	v := newView(p, plan, f)
	var out []string
	for i := range p.Dishes {
		d := &p.Dishes[i]
		last := v.plan.LastServed(d.Course)
		if last.Before(at) {
			continue
		}
		var said []string
		var end time.Time
		for _, s := range v.stays() {
			if s.dish != d || s.to != nil {
				continue
			}
			if best := s.since.Add(s.wait.BestUntil.Duration()); s.wait.BestUntil > 0 && best.Before(p.NightEnd()) {
				said = append(said, "at its best to "+f.near(best, p.Arrival))
			}
			verb := ""
			for _, m := range []struct {
				most planner.Minutes
				verb string
			}{{s.wait.Longest, "may wait to "}, {s.wait.WorthUntil, "worth serving to "}} {
				if e := s.since.Add(m.most.Duration()); m.most > 0 && (end.IsZero() || e.Before(end)) {
					end, verb = e, m.verb
				}
			}
			switch {
			case end.IsZero():
			case end.Before(p.NightEnd()):
				said = append(said, verb+f.near(end, p.Arrival))
			default:
				said = append(said, "can wait all evening")
			}
			break
		}
		if by, ok := v.limitOf(d); ok && (end.IsZero() || last.Add(by).Before(end)) {
			// The limit ends it before the taste does.
			said = slices.DeleteFunc(said, func(s string) bool { return !strings.HasPrefix(s, "at its best") })
			said = append(said, "within the published limits to "+f.near(last.Add(by), p.Arrival))
		}
		if len(said) > 0 {
			out = append(out, clean(d.Name)+": "+strings.Join(said, ", "))
		}
	}
	return out
}

// limitOf finds by how much a dish's service can be later before a food clock runs out, to five minutes;
// ok is false when none does within three hours. The checker itself is asked.
func (v *view) limitOf(d *planner.Dish) (time.Duration, bool) {
	breaks := func(minutes int) bool {
		moved := *v.plan
		moved.Soft = true
		moved.Served = slices.Clone(v.plan.Served)
		for i := range moved.Served {
			if moved.Served[i].Course == d.Course {
				moved.Served[i].At = moved.Served[i].At.Add(time.Duration(minutes) * time.Minute)
			}
		}
		return slices.ContainsFunc(check.Plan(v.p, &moved), func(b check.Broken) bool {
			dish, _, _, _, _ := b.Task.Split()
			return b.Rule == check.RuleClocks && dish == d.Key
		})
	}
	if breaks(0) || !breaks(mostDelay) {
		return 0, false
	}
	good, bad := 0, mostDelay/5
	for bad-good > 1 {
		if mid := (good + bad) / 2; breaks(5 * mid) {
			bad = mid
		} else {
			good = mid
		}
	}
	return time.Duration(5*good) * time.Minute, true
}
