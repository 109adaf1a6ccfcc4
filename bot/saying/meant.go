package saying

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"tureen/planner/words"
)

var acts = map[string]Act{"look": Look, "tick": Tick, "ask": Ask, "lose": Lose, "chat": Chat, "yes": Yes, "no": No}

// meant fills a meaning's row; ok is false where the party has nothing for it.
func (r *reader) meant(id string, b binding) (a Answer, ok bool) {
	if id == "lateself" && b.thing != nil && b.thing.of == "course" {
		id = "courseat"
	}
	row := rowFor(id, &b)
	if row == nil || r.excepted(id, acts[row.act]) {
		return a, false
	}
	a.Act, a.id = acts[row.act], id
	if a.Act == Chat {
		if row.change != "-" {
			a.Said = row.change
		}
		return a, true
	}
	if row.do == "-" {
		return a, true
	}
	fill, task, ok := r.fill(id, row, &b)
	if !ok {
		if task != nil { // it has not begun: what is late is its beginning
			return r.meant("lateself", b)
		}
		return a, false
	}
	if a.Do, ok = filled(row.do, fill); !ok {
		return a, false
	}
	if b.newGuest {
		a.Do = strings.Replace(a.Do, "/guest change guest:", "/guest add name:", 1)
	}
	if row.change != "-" {
		a.Change, _ = filled(row.change, fill)
	}
	if row.short != "-" {
		a.Short, _ = filled(row.short, fill)
		a.Short = strings.TrimPrefix(a.Short, "the ")
	}
	if a.Act == Tick && task != nil && task.State == Over && task.Who != "" && task.Who != r.v.Me && id != "longer" {
		a.Act, a.Do, a.Change, a.Short = Look, "/task show task:"+task.Key, "how far: "+fill["do"], "" // somebody was first
		return a, true
	}
	if a.Act == Tick && task != nil && (task.Who != "" && task.Who != r.v.Me || r.farOff(id, task, b.thing)) {
		a.Act = Ask
	}
	return a, true
}

// excepted reports whether a meaning would take in what a sentence leaves out: all but one thing, of which a command
// can only do all. What a guest does not eat is no such thing.
func (r *reader) excepted(id string, act Act) bool {
	return r.except && (act == Tick || act == Ask || act == Lose) && id != "diet" && id != "allergy" && id != "advice" ||
		r.lessThanAll && (id == "gotall" || id == "caughtup" || id == "fine")
}

// fill is what a meaning's row is filled with, and the task that it is about. It is not ok where the party has nothing
// for it, and with a task where that has not begun that is to take longer.
func (r *reader) fill(id string, row *meaning, b *binding) (fill map[string]string, task *Task, ok bool) {
	fill = map[string]string{"person": b.person, "guest": b.guest, "item": b.item, "covers": strconv.Itoa(r.v.Covers),
		"advice": b.care, "day": b.day, "part": b.part, "can": b.can, "helper": cmp.Or(b.person, r.v.Me)}
	if when := b.day; when != "" {
		if strings.HasSuffix(when, "day") && when != "today" {
			when = "on " + words.Upper(when)
		}
		fill["when"] = strings.TrimSpace(when + " " + b.part)
	}
	if b.thing != nil {
		fill["name"], fill["dish"] = b.thing.name, b.thing.key
		if b.thing.course != nil {
			fill["course"] = b.thing.course.Key
		}
		if strings.Contains(row.do, "{task}") {
			if task = r.pick(b.thing.tasks, row.pick, b.did); task == nil {
				return nil, nil, false
			}
			if id == "longer" && task.State == Waiting && task.At.After(r.v.Now) && r.v.Last.Kind != Check {
				return nil, task, false
			}
			fill["task"], fill["do"] = task.Key, r.called(task)
			if fill["name"] == "it" || b.thing.of == "task" {
				fill["name"] = words.Lower(strings.TrimRight(task.Do, "."))
			}
		}
	}
	if id == "courseat" && b.thing != nil && b.thing.course != nil {
		fill["name"] = "the " + words.Lower(b.thing.course.Name)
	}
	r.fillFigures(id, b, fill)
	r.fillEats(b, fill)
	if len(r.v.Ovens) == 1 {
		fill["oven"] = r.v.Ovens[0]
	}
	for _, k := range []string{"person", "helper", "guest", "item", "oven", "allergies"} {
		if strings.ContainsAny(fill[k], ":\"\\") {
			return nil, nil, false // it could be read as an option: who is called so is named by a command
		}
	}
	return fill, task, true
}

// rowFor is a meaning's row for the kind of thing that was named.
func rowFor(id string, b *binding) *meaning {
	rows := lex().means[id]
	of := b.gone
	if b.thing != nil {
		of = b.thing.of
	}
	for i := range rows {
		switch row := &rows[i]; {
		case row.of == "-":
			return row
		case row.of != of:
		case row.pick == "one" && b.thing.of == "course": // a course of one dish is that dish
			if dish := oneDish(b.thing); dish != "" {
				b.thing = &thing{of: "dish", key: dish, name: b.thing.name, tasks: b.thing.tasks, course: b.thing.course}
				return rowFor(id, b)
			}
			return row
		default:
			return row
		}
	}
	if b.thing == nil || len(b.thing.tasks) == 0 {
		return nil
	}
	for i := range rows { // what can be done to a task alone is done to one of its tasks
		if rows[i].of == "task" || rows[i].of == "dish" && b.thing.of == "course" && oneDish(b.thing) != "" {
			if rows[i].of == "dish" {
				b.thing.key = oneDish(b.thing)
			}
			if strings.Contains(rows[i].do, "{dish}") && b.thing.of != "dish" && rows[i].of != "dish" {
				continue
			}
			return &rows[i]
		}
	}
	if of == "task" && rows[0].of == "dish" && b.thing.tasks[0].Dish != "" {
		b.thing.key = b.thing.tasks[0].Dish
		return &rows[0]
	}
	return nil
}

func oneDish(th *thing) string {
	dish := ""
	for _, t := range th.tasks {
		if dish != "" && t.Dish != dish {
			return ""
		}
		dish = t.Dish
	}
	return dish
}

// called is a task as a question names it, with who has it where that is somebody else.
func (r *reader) called(t *Task) string {
	name := strings.TrimRight(t.Do, ".")
	var more []string
	for _, d := range r.v.Dishes {
		if d.Key == t.Dish {
			more = append(more, d.Name)
		}
	}
	if t.Who != "" && t.Who != r.v.Me {
		more = append(more, t.Who+" has it")
	}
	if len(more) > 0 {
		name += " (" + strings.Join(more, "; ") + ")"
	}
	return name
}

// soon is within which time a task that nobody has called started is one that somebody may well have done. Ours.
const soon = 60

// farOff reports whether a tick may well mean something else: this task is not going on, and is not to be yet.
func (r *reader) farOff(id string, t *Task, th *thing) bool {
	if t.State != Waiting || r.v.Last.Task == t.Key || id == "snooze" || id == "longer" {
		return false
	}
	if t.At.IsZero() || t.At.Sub(r.v.Now) > 24*time.Hour { // nothing is planned yet, or it is of another day
		return true
	}
	if len(th.tasks) < 2 {
		return false
	}
	return t.At.Sub(r.v.Now).Minutes() > soon
}

// pick chooses the task that is meant among those that were named.
func (r *reader) pick(tasks []*Task, how, did string) *Task {
	if how == "cold" {
		return r.putsAway(tasks)
	}
	all := slices.Clone(tasks)
	if did != "" {
		all = slices.DeleteFunc(all, func(t *Task) bool { return verbOf(t) != did })
	}
	if how == "heatin" || how == "heatout" || how == "heat" {
		if hot := slices.DeleteFunc(slices.Clone(all), func(t *Task) bool { return !t.Heat }); len(hot) > 0 {
			all = hot
		}
		oven := slices.DeleteFunc(slices.Clone(all), func(t *Task) bool { return !t.Oven || t.State == Over })
		if len(oven) > 0 && !r.onHob {
			all = oven // what goes in goes into the oven, though something is browned before
		}
	}
	mine := func(t *Task) int {
		if t.Who == r.v.Me {
			return 0
		}
		return 1
	}
	rank := func(t *Task) int {
		switch how {
		case "next", "heatin":
			return []int{0, 2, 4}[t.State] + mine(t)
		case "failed":
			return []int{4, 0, 2}[t.State]
		case "mine":
			return []int{1, 0, 2}[t.State] + 4*mine(t)
		case "free":
			n := []int{0, 2, 4}[t.State]
			if t.Who != "" {
				n += 8
			}
			return n
		}
		return []int{2, 0, 4}[t.State] + mine(t)
	}
	slices.SortStableFunc(all, func(a, b *Task) int {
		order := a.At.Compare(b.At)
		if how == "failed" && a.State == Over {
			order = -order
		}
		return cmp.Or(cmp.Compare(rank(a), rank(b)), order)
	})
	if len(all) == 0 {
		return nil
	}
	if how == "under" && all[0].State == Waiting && oneDish(&thing{tasks: all}) != "" {
		return r.lastDue(all)
	}
	return all[0]
}

// putsAway is the chore that puts the food of a dish into the cold, the one that is open first.
func (r *reader) putsAway(tasks []*Task) (out *Task) {
	for i := range r.v.Tasks {
		t := &r.v.Tasks[i]
		if t.Cools == "" || t.State == Over || len(tasks) == 0 || t.Cools != tasks[0].Dish && t.Cools != tasks[0].Key ||
			out != nil && !t.At.Before(out.At) {
			continue
		}
		out = t
	}
	return out
}

// lastDue is the last of a dish's tasks that should have begun by now, since who says that the soup is done does not
// speak of the first thing that was cut for it; else the first of all.
func (r *reader) lastDue(all []*Task) *Task {
	out := all[0]
	for _, t := range all {
		if t.State == Waiting && !t.At.After(r.v.Now) && !t.At.Before(out.At) && t.Who == all[0].Who {
			out = t
		}
	}
	return out
}
