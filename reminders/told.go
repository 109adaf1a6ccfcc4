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

// A plan that wants the work of others than hosts is a draft until they are told; then each takes on what is theirs, or
// does not. Until then nobody but a host is reminded of it: the work's reminders go to the first host.

// answerBy is how long before the party's day what nobody has accepted goes to the host.
const answerBy = 2 * 24 * time.Hour

// accepted is the plan with those in charge whom it is agreed with.
func accepted(p *planner.Party, plan *planner.Plan) *planner.Plan {
	host := p.FirstHost()
	if plan == nil || host == nil || !plan.Asked() {
		return plan
	}
	out := *plan
	out.Tasks = slices.Clone(plan.Tasks)
	helps := map[planner.PersonKey]bool{}
	for _, w := range p.Work {
		helps[w.Person] = true
	}
	for i := range out.Tasks {
		pl := &out.Tasks[i]
		var people []planner.PersonKey
		if p.Unaccepted(plan, pl) {
			people = append(people, host.Key)
		}
		for n, k := range pl.People {
			x := p.Person(k)
			agreed := x != nil && (x.Role == planner.Host || helps[k])
			if n == 0 && len(people) > 0 || n > 0 && !agreed || slices.Contains(people, k) {
				continue
			}
			people = append(people, k)
		}
		pl.People = people
	}
	return &out
}

// unaccepted lists, by person, the tasks that somebody was told of and has not taken on.
func unaccepted(p *planner.Party, plan *planner.Plan) map[planner.PersonKey][]*planner.Placed {
	out := map[planner.PersonKey][]*planner.Placed{}
	for i := range plan.Tasks {
		if pl := &plan.Tasks[i]; p.Unaccepted(plan, pl) {
			out[pl.People[0]] = append(out[pl.People[0]], pl)
		}
	}
	return out
}

// PartOf is what somebody has in a plan, a line a day: "Thu 19:30-20:45: Leek soup and Beef braise".
func PartOf(p *planner.Party, plan *planner.Plan, who planner.PersonKey, all []*planner.Placed) []string {
	v := &view{p: p, zone: p.Location()}
	var out []string
	for _, s := range planner.Sessions(p, plan) {
		var mine []*planner.Placed
		var names []string
		for _, pl := range all {
			if s.Person != who || !slices.Contains(s.Tasks, pl.Task) {
				continue
			}
			mine = append(mine, pl)
			name := string(pl.Task)
			if d, _, _, chore, _ := pl.Task.Split(); chore == "" && p.Dish(d) != nil {
				name = named(p.Dish(d).Name)
			} else if c := p.Chore(chore); c != nil {
				name = words.Lower(words.Brief(clean(c.Do), longestName/2))
			}
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		if len(mine) == 0 {
			continue
		}
		from := mine[0].Start
		of := planner.SessionOf(p, mine).Stretches
		if len(of) > 0 && of[0].From.Before(from) {
			from = of[0].From
		}
		when := words.Stamp(from, words.DayClock, v.zone)
		if len(of) > 0 {
			if last := of[len(of)-1].To; last.After(mine[0].Start) {
				when += "-" + words.Stamp(last, words.Clock, v.zone)
			}
		}
		out = append(out, when+": "+words.And(names))
	}
	return out
}

// told asks each person whether what is theirs is fine, and tells the host who has not said so in time, and who cannot.
func (v *view) told(plan *planner.Plan) []store.Reminder {
	host := v.p.FirstHost()
	if plan.Told == nil || host == nil {
		return nil
	}
	if v.p.ToldOnTheDay(plan) {
		return v.toldToday(plan)
	}
	var out []store.Reminder
	open := unaccepted(v.p, plan)
	late := planner.Later(v.p.Day().Add(-answerBy).UTC(), plan.Told.Add(3*time.Hour))
	for i := range v.p.People {
		x := &v.p.People[i]
		if len(open[x.Key]) == 0 {
			continue
		}
		lines := PartOf(v.p, plan, x.Key, open[x.Key])
		press := func(label, says string) store.Press {
			return store.Press{Label: label, Do: fmt.Sprintf("plan answer says:%s party:%d", says, v.p.ID)}
		}
		out = append(out, store.Reminder{Key: fmt.Sprintf("told/%s/%d", x.Key, plan.Told.Unix()), Kind: Told,
			Person: x.Key, Due: *plan.Told, At: *plan.Told, Until: v.p.Arrival,
			Text: strings.Join(append([]string{fmt.Sprintf("Your part in %s: is this fine?", named(v.p.Name))}, lines...),
				"\n"),
			Buttons: []store.Press{press("Fine", "fine"), press("Another day", "another day"), press("Not me", "not me")},
		})
		if late.Before(v.p.Arrival) {
			out = append(out, store.Reminder{Key: fmt.Sprintf("unsaid/%s/%d", x.Key, plan.Told.Unix()), Kind: Unsaid,
				Person: host.Key, Due: v.morningAfter(host, late), At: late, Until: v.p.Arrival,
				Text: strings.Join(append([]string{fmt.Sprintf("%s has not said yes: it is yours now, unless somebody takes it.",
					v.name(x.Key))}, lines...), "\n"),
				Buttons: []store.Press{{Label: "I do it", Do: fmt.Sprintf("plan answer who:%s says:not me party:%d", x.Key,
					v.p.ID)}, {Label: "Ask again", Do: fmt.Sprintf("plan tell party:%d", v.p.ID)}},
			})
		}
	}
	for _, a := range plan.Answers {
		out = append(out, store.Reminder{Key: fmt.Sprintf("answer/%s/%d", a.Person, a.At.Unix()), Kind: Unsaid,
			Person: host.Key, Due: a.At, At: a.At, Until: v.p.Arrival, Text: a.Says,
			Buttons: []store.Press{{Label: "The plan", Do: fmt.Sprintf("plan show party:%d", v.p.ID)}}})
	}
	return out
}

// morningAfter is an instant, or the end of the quiet hours on its day where those are later.
func (v *view) morningAfter(who *planner.Person, at time.Time) time.Time {
	return planner.Later(at, v.morning(who, at))
}

// toldToday tells each person what is theirs in a plan that was made, or told, on the party's day: it is theirs unless
// they say no.
func (v *view) toldToday(plan *planner.Plan) (out []store.Reminder) {
	for i := range v.p.People {
		x := &v.p.People[i]
		var mine []*planner.Placed
		for j := range plan.Tasks {
			pl := &plan.Tasks[j]
			if w := v.p.WorkOn(pl.Task); len(pl.People) > 0 && pl.People[0] == x.Key && x.Role != planner.Host &&
				(w == nil || w.Person == "" && w.Progress == planner.Waiting) {
				mine = append(mine, pl)
			}
		}
		if len(mine) == 0 {
			continue
		}
		lines := PartOf(v.p, plan, x.Key, mine)
		out = append(out, store.Reminder{Key: fmt.Sprintf("told/%s/%d", x.Key, plan.Told.Unix()), Kind: Told,
			Person: x.Key, Due: *plan.Told, At: *plan.Told, Until: v.p.Arrival,
			Text:    strings.Join(append([]string{fmt.Sprintf("Your part in %s today:", named(v.p.Name))}, lines...), "\n"),
			Buttons: []store.Press{{Label: "Not me", Do: fmt.Sprintf("plan answer says:not me party:%d", v.p.ID)}},
		})
	}
	return out
}
