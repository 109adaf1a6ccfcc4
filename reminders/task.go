package reminders

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/cooling"
	"tureen/planner/words"
	"tureen/store"
)

// task lists the reminders of one placed task.
func (v *view) task(pl *planner.Placed) []store.Reminder {
	t := v.tasks[pl.Task]
	if t == nil || len(pl.People) == 0 {
		return nil // the plan is out of date
	}
	if c := v.p.Chore(t.Chore); c != nil && c.Quiet {
		return nil // a list to tick, or time kept free: the day's list and the sheet have it
	}
	switch v.p.Progress(pl.Task) {
	case planner.Waiting:
		under := v.underWay(t, pl)
		return append(v.toStart(t, pl, under), under...)
	case planner.Started:
		return v.underWay(t, pl)
	}
	return nil
}

// toStart tells a task's people that it is due, and when the last moment to start it has come. Whoever was asked before
// that whether the beans are soft, as if they were on the heat, is asked first whether they are.
func (v *view) toStart(t *planner.Task, pl *planner.Placed, under []store.Reminder) []store.Reminder {
	d, s := v.p.StepOf(t)
	cold := v.outOfTheCold(d, s, pl)
	kind, lead := Due, v.lead(t)
	things, shop := "", ""
	switch {
	case cold != "":
		kind, lead = TakeOut, 0
	}
	if c := v.p.Chore(t.Chore); c != nil {
		switch c.Kind {
		case planner.Thaw:
			kind = Thawing
		case planner.Shop:
			kind = ShopBy
			things, shop = v.toBuy(c.Key)
		}
	}
	first := opening(t.Do, pl.Start, lead, v.zone)
	about := v.about(t, pl)
	if do := trimStop(t.Do); cold == "" && !strings.Contains(first, do) { // it was cut
		about = fmt.Sprintf("In full: %s. %s", do, about)
	}
	if cold != "" {
		if first = fmt.Sprintf("Take %s now.", cold); len([]rune(first)) > longestFirst {
			first = fmt.Sprintf("Take the %s out of the cold now.", words.Lower(words.Brief(named(d.Name), longestFirst/2-5)))
		}
		about = fmt.Sprintf("Then: %s. %s", trimStop(t.Do), about)
	}
	last, then := v.lastStart(t, pl)
	room := v.spare(pl, last, then)
	until := pl.End
	if last.After(until) {
		until = last
	}
	var out []store.Reminder
	for i, who := range pl.People {
		lines := []string{first, about}
		buttons, open := v.startButtons(t.Key), ""
		if cold != "" {
			buttons[0].Label = "It is out"
		}
		if i == 0 {
			open, buttons = v.askUnticked(who, pl, pl.Start.Add(-lead), buttons)
		}
		if things != "" {
			lines = []string{first, things, about}
			buttons = append(buttons, v.listButton(shop))
		}
		if by := v.coldBy(t); by != "" {
			lines = append(lines, by)
		}
		if w := v.whereNow(d, s, pl); w != "" && cold == "" {
			lines = append(lines, w)
		}
		if i > 0 {
			lines = append(lines, fmt.Sprintf("%s is in charge.", v.name(pl.People[0])))
		} else if room != "" {
			lines = append(lines, room)
		}
		lines = append(lines, open)
		out = append(out, store.Reminder{
			Key: fmt.Sprintf("due/%s/%s", t.Key, who), Kind: kind, Person: who, Task: t.Key,
			Due: pl.Start.Add(-lead), At: pl.Start, Until: until,
			Text: strings.TrimSpace(strings.Join(lines, "\n")), Buttons: buttons,
		})
	}
	if last.Sub(pl.Start) >= minSpare {
		out = append(out, v.lastMoment(t, pl, last, then, under))
	}
	return out
}

// lead is how long before its start a task is told.
func (v *view) lead(t *planner.Task) time.Duration {
	c := v.p.Chore(t.Chore)
	switch {
	case t.Away || c != nil && c.Kind == planner.Shop:
		return leadAway
	case t.Attention == planner.Hands:
		return leadHands
	}
	return 0
}

// listButton shows what is to be bought in a shop.
func (v *view) listButton(shop string) store.Press {
	return store.Press{Label: "The list", Do: fmt.Sprintf("shopping list shop:%s party:%d", shop, v.p.ID)}
}

// lastMoment tells who is in charge of a task that it has to start now, or something comes late.
func (v *view) lastMoment(t *planner.Task, pl *planner.Placed, last time.Time, then string,
	under []store.Reminder) store.Reminder {
	opens := "Last moment to start"
	if slices.ContainsFunc(under, func(r store.Reminder) bool { return !r.Due.After(last) }) {
		opens = "Not started yet? Then this is the last moment"
	}
	return store.Reminder{
		Key: fmt.Sprintf("last/%s/%s", t.Key, pl.People[0]), Kind: Last, Person: pl.People[0], Task: t.Key,
		Due: last, At: last, Until: last.Add(pl.End.Sub(pl.Start)),
		Text: fmt.Sprintf("%s: %s.\n%s\nIf it starts later, %s.", opens, words.Lower(trimStop(t.Do)), v.about(t, pl),
			then),
		Buttons: v.startButtons(t.Key),
	}
}

// underWay asks whether a task is done, and tells when a touch step wants its minute.
func (v *view) underWay(t *planner.Task, pl *planner.Placed) []store.Reminder {
	_, s := v.p.StepOf(t)
	start, end, extra, since := pl.Start, pl.End, time.Duration(0), "planned from"
	if w := v.p.WorkOn(t.Key); w != nil {
		extra = w.Extra.Duration()
		if w.Start != nil && w.Progress == planner.Started {
			start, since = *w.Start, "since"
			end = start.Add(t.Length(len(pl.People)).Duration()) // the plan's may have the extra time in it already
		}
	}
	who := pl.People[0]
	ask := func(at time.Time, first, more string) store.Reminder {
		return store.Reminder{
			// More time asks again, as a new question.
			Key: fmt.Sprintf("check/%s/%d/%s", t.Key, extra/time.Minute, who), Kind: Check, Person: who, Task: t.Key,
			Due: at, At: at, Until: planner.Later(end.Add(extra), at).Add(time.Hour),
			Text: strings.TrimSpace(fmt.Sprintf("%s\n%s, %s %s. %s", first, v.called(t), since,
				words.Stamp(start, words.Clock, v.zone), more)),
			Buttons: []store.Press{v.press("Done", "task done", t.Key), v.press("10 more minutes", "task longer", t.Key),
				v.press("Why?", "task why", t.Key)},
		}
	}
	published := ""
	if s != nil {
		if to := v.foodsOf(t.Dish).trace.CookedTo(v.p.Dish(t.Dish), s); to != "" {
			published = " Published: " + to + "."
		}
	}
	if s != nil {
		published += v.goesCold(t, s, end.Add(extra))
	}
	var out []store.Reminder
	switch {
	case s == nil || t.Attention == planner.Hands:
		if t.Chore != "" && t.Attention != planner.Hands && end.Sub(start) > 0 {
			out = append(out, ask(end.Add(extra), fmt.Sprintf("Time is up: %s.", undone(trimStop(t.Do))), "It should be done."))
		}
		// Hands show that they are at it only by being asked; once, when it has taken as long as it may.
		if t.Attention == planner.Hands && v.p.Progress(t.Key) == planner.Started {
			at := start.Add(max(t.Time.High.Duration(), end.Sub(start)))
			if extra > 0 {
				at = end.Add(extra)
			}
			out = append(out, ask(at, fmt.Sprintf("Still at it? %s.", words.Upper(trimStop(t.Do))), "It should be done."))
		}
	case s.Until != "" && extra > 0: // it was looked at, and wanted more
		out = append(out, ask(end.Add(extra), v.question(t, s.Until),
			fmt.Sprintf("It has had %s more.", words.Length(words.Minutes(extra)))+published))
	case s.Until != "":
		low := start.Add(min(t.Time.Low.Duration(), end.Sub(start)))
		more := fmt.Sprintf("It can be from %s on and is likely at %s.", words.Stamp(low, words.Clock, v.zone),
			words.Stamp(end, words.Clock, v.zone))
		if !low.Before(end) {
			more = "It should be there now."
		}
		out = append(out, ask(low, v.question(t, s.Until), more+published))
	case s.Where == planner.Heat:
		out = append(out, ask(end.Add(extra), fmt.Sprintf("Time is up: %s %s, if it looks done.",
			words.Lower(words.Brief(named(v.p.Dish(t.Dish).Name), longestFirst/3)), v.takeOff(t)), strings.TrimSpace(published)))
	case cooling.Itself(s):
		out = append(out, ask(end.Add(extra), v.question(t, "is it "+coolTo(s)+" in the middle"),
			"Then into the refrigerator at once, shallow; a thermometer tells."))
	}
	if s == nil || t.Attention != planner.Touch || s.Every <= 0 || oftenTouched(t, s) {
		return out
	}
	every := s.Every.Duration()
	times := int((end.Add(extra).Sub(start) - time.Minute) / every)
	for i := 1; i <= times; i++ {
		at := start.Add(time.Duration(i) * every)
		out = append(out, store.Reminder{
			Key: fmt.Sprintf("see/%s/%d/%s", t.Key, i, who), Kind: See, Person: who, Task: t.Key, Due: at, At: at,
			Until: at.Add(every),
			Text: fmt.Sprintf("See to it now: %s.\n%s, every %s; time %d of %d.", trimStop(t.Do), v.called(t),
				words.Length(s.Every), i, times),
			Buttons: []store.Press{v.press("Done with all of it", "task done", t.Key), v.press("Why?", "task why", t.Key)},
		})
	}
	return out
}

// takeOff is where what is on the heat, or in an oven, comes off.
func (v *view) takeOff(t *planner.Task) string {
	if v.inOven(t.Key) {
		return "out of the oven"
	}
	return "off the heat"
}

// coolTo is the temperature at which a step that cools ends.
func coolTo(s *planner.Step) string {
	if _, toWhole := s.Bath(); toWhole {
		return "at 5 °C"
	}
	return "at 21 °C"
}

// coldBy says by when food is in the refrigerator that a chore puts there; empty for any other task.
func (v *view) coldBy(t *planner.Task) string {
	c := v.p.Chore(t.Chore)
	if c != nil && strings.HasPrefix(string(c.Key), "leftovers") {
		return v.leftUntil(t.Key)
	}
	end, ok := v.soonAfter(c)
	if !ok || c.Kind != planner.Cool {
		return ""
	}
	return fmt.Sprintf("In the refrigerator by %s.", words.Stamp(end, words.Clock, v.zone))
}

// leftUntil says which dishes' own time out of the cold is over soonest, of those that are put away next: what has
// stood before it was served has less of it left. Dishes that are put away sooner or later by themselves are not named.
func (v *view) leftUntil(k planner.TaskKey) string {
	var out []string
	for i := range v.p.Dishes {
		d := &v.p.Dishes[i]
		until, spoils := v.foodAges().TableUntil(d)
		served := slices.ContainsFunc(v.plan.Served, func(s planner.Served) bool {
			return s.Course == d.Course && s.At.Before(v.at[k].Start)
		})
		if spoils && served && !v.plan.LeavesOut(d.Key) && until.After(v.at[k].Start.Add(-time.Hour)) {
			out = append(out, fmt.Sprintf("%s until %s", named(d.Name), words.Stamp(until, words.Clock, v.zone)))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return fmt.Sprintf("By the plan, what is left may be put away so long (%s): %s. What has stood longer is thrown away.",
		v.p.CounterLimit(), words.And(out))
}

// goesCold says of a step whose food goes cold, and is too little for a chore, what comes next; empty for any other.
func (v *view) goesCold(t *planner.Task, s *planner.Step, end time.Time) string {
	g, ok := cooling.At(v.foodsOf(t.Dish).cold, s)
	if !ok || g.Task || g.Step.Key != s.Key {
		return ""
	}
	return fmt.Sprintf(" Then %s, by %s.", words.Lower(g.Do()),
		words.Stamp(end.Add(cooling.SteamOff*time.Minute), words.Clock, v.zone))
}

func (v *view) startButtons(k planner.TaskKey) []store.Press {
	return []store.Press{
		v.press("Started", "task start", k), v.press("Done", "task done", k),
		v.press("In 10 minutes", "task snooze", k), v.press("Why?", "task why", k),
	}
}

// press makes a button that says something about a task. Ten minutes is what snooze and more mean without a
// length. The party is named, since whoever presses may have another one in mind.
func (v *view) press(label, command string, k planner.TaskKey) store.Press {
	return store.Press{Label: label, Do: fmt.Sprintf("%s task:%s party:%d", command, k, v.p.ID)}
}

// waitsBefore calls f for every wait of food that ends with the step, with how long it is in the plan.
func (v *view) waitsBefore(d *planner.Dish, s *planner.Step, pl *planner.Placed,
	f func(from *planner.Dish, pred *planner.Step, w planner.Wait, gap time.Duration)) {
	if d == nil || s == nil {
		return
	}
	for _, a := range s.After {
		from := d
		if a.Dish != "" {
			from = v.p.Dish(a.Dish)
		}
		if from == nil || a.FromStart {
			continue
		}
		pred := from.Step(a.Step)
		if pred == nil {
			continue
		}
		end, known := v.endOf(from.Key, pred.Key)
		if gap := pl.Start.Sub(end); known && gap > 0 {
			f(from, pred, a.Wait, gap)
		}
	}
}

// endOf is when the last round of a step ends, as planned.
func (v *view) endOf(d planner.DishKey, s planner.StepKey) (end time.Time, known bool) {
	for round := 1; ; round++ {
		pl := v.at[planner.StepTask(d, s, round)]
		if pl == nil {
			return end, known
		}
		if pl.End.After(end) {
			end = pl.End
		}
		known = true
	}
}

// outOfTheCold names what has to come out of the refrigerator or freezer for a task, "the pastry out of the
// refrigerator"; empty when nothing has.
func (v *view) outOfTheCold(d *planner.Dish, s *planner.Step, pl *planner.Placed) string {
	var parts []string
	var things [2][]string
	places := [2]planner.State{planner.Refrigerator, planner.Freezer}
	v.waitsBefore(d, s, pl, func(from *planner.Dish, pred *planner.Step, w planner.Wait, _ time.Duration) {
		for i, place := range places {
			if w.State == place {
				things[i] = addNew(things[i], thing(from, pred))
			}
		}
	})
	for i, place := range places {
		if len(things[i]) > 0 {
			parts = append(parts, fmt.Sprintf("%s out of the %s", words.And(things[i]), place))
		}
	}
	return words.And(parts)
}

// whereNow says where the food that a task works on is waiting: "On the counter: the barley and the mushrooms."
func (v *view) whereNow(d *planner.Dish, s *planner.Step, pl *planner.Placed) string {
	var places []string
	things := map[string][]string{}
	v.waitsBefore(d, s, pl, func(from *planner.Dish, pred *planner.Step, w planner.Wait, _ time.Duration) {
		if place := waiting(w); place != "" {
			places = addNew(places, place)
			things[place] = addNew(things[place], thing(from, pred))
		}
	})
	for i, place := range places {
		places[i] = fmt.Sprintf("%s: %s.", words.Upper(place), words.And(things[place]))
	}
	return strings.Join(places, " ")
}

// undone is what is to be done once something has been long enough where it was put: to take it out.
func undone(do string) string {
	what, put := strings.CutPrefix(do, "Put ")
	what, where, into := strings.Cut(what, " into the ")
	if !put || !into {
		return do
	}
	return "Take " + what + " out of the " + where
}
