package saying

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"tureen/planner/words"
)

// Read says what a sentence means at a party. It never says that more than one thing is to be done.
func Read(text string, v *View) Answer {
	if len(text) > mostText || strings.TrimSpace(text) == "" {
		return Answer{}
	}
	r := newReader(v)
	s := r.read(text)
	if s.quoted {
		return Answer{} // who repeats another's words says nothing
	}
	r.nameAll(&s)
	for _, c := range [][][]token{{s.joined()}, s.atStops(), s.clauses} {
		if a, ok := r.ofClauses(&s, c); ok {
			return a
		}
	}
	one, near := r.nearest(&s)
	if one == nil {
		return Answer{Near: near}
	}
	if one.Act == Tick { // by its words alone, in no order that a pattern has: it asks
		one.Act = Ask
	}
	return Answer{Meant: *one}
}

// joined is all of a sentence as one clause.
func (s *sentence) joined() []token {
	var out []token
	for i, c := range s.clauses {
		if i > 0 && s.joins[i] != "," {
			out = append(out, token{raw: s.joins[i], word: s.joins[i]})
		}
		out = append(out, c...)
	}
	return out
}

// atStops are a sentence's clauses as its stops divide it.
func (s *sentence) atStops() [][]token {
	out := [][]token{s.clauses[0]}
	for i := 1; i < len(s.clauses); i++ {
		if s.joins[i] == "," {
			out = append(out, s.clauses[i])
			continue
		}
		last := &out[len(out)-1]
		*last = append(append(slices.Clone(*last), token{raw: s.joins[i], word: s.joins[i]}), s.clauses[i]...)
	}
	return out
}

// nameAll notes what and whom the sentence names, for an "it" or a "he" in another clause.
func (r *reader) nameAll(s *sentence) {
	for _, c := range s.clauses {
		for at := range c {
			for _, g := range r.v.Guests {
				if r.whom == "" && r.inName(&c[at], "guest/"+g.Name) {
					r.whom = g.Name
				}
			}
			for _, p := range r.v.People {
				if r.whom == "" && p != r.v.Me && r.inName(&c[at], "person/"+p) {
					r.whom = p
				}
			}
			for n := min(longestSpan, len(c)-at); n > 0 && r.named == nil; n-- {
				r.named = r.thingIn(c[at : at+n])
			}
		}
	}
}

// doubtful are words that take back what stands beside them.
var doubtful = words.Set("not no if when unless until said say says tell told think wish hope could why who what before")

// ofClauses reads each clause by itself, and answers where one thing alone is meant.
func (r *reader) ofClauses(s *sentence, clauses [][]token) (Answer, bool) {
	var found []Answer
	doubt, on, idle := s.asked, false, 0
	for i, c := range clauses {
		if len(clauses) == len(s.clauses) && s.joins[i] == "if" {
			on = true
			continue
		}
		a, ok := r.clause(s, c)
		switch {
		case ok:
			found = append(found, a)
		case blank(c):
			idle++
		default:
			doubt = doubt || len(c) > 9 || slices.ContainsFunc(c, func(t token) bool { return doubtful[t.word] })
		}
	}
	chat := slices.ContainsFunc(found, func(a Answer) bool { return a.Act == Chat })
	told := slices.DeleteFunc(slices.Clone(found), func(a Answer) bool { return a.Act == Chat })
	switch {
	case len(told) == 0 && chat && !doubt && len(found)+idle == len(clauses):
		return found[0], true
	case len(told) == 0:
		return Answer{}, false
	}
	best := told[0]
	for _, a := range told[1:] {
		switch {
		case strings.HasPrefix(best.Do, a.Do):
		case strings.HasPrefix(a.Do, best.Do):
			best = a
		case a.id == best.id && best.Act > Tick: // "I'll make the dessert, I love making tarts"
		default: // two things at once: one after the other, please
			return Answer{Near: []Meant{best.Meant, a.Meant}}, true
		}
	}
	switch {
	case on && best.Act == Tick: // "if the soup is done, ..."
		return Answer{}, false
	case doubt && best.Act == Tick:
		best.Act = Ask
	}
	return best, true
}

func blank(c []token) bool {
	return !slices.ContainsFunc(c, func(t token) bool { return !t.fill })
}

// when reports whether a phrase is said after a message like the last one.
func (r *reader) when(kind string) bool {
	last := r.v.Last
	switch kind {
	case "-":
		return true
	case "question":
		return last.Kind == Question
	case "check":
		return last.Kind == Check
	case "due":
		return last.Kind == Due
	}
	return last.Kind == Nothing && r.onlyStarted() != nil || last.Kind == About && last.Task != "" // "task"
}

// onlyStarted is the speaker's own task that is going on, where it is one alone.
func (r *reader) onlyStarted() *Task {
	var one *Task
	for i := range r.v.Tasks {
		if t := &r.v.Tasks[i]; t.State == Started && t.Who == r.v.Me {
			if one != nil {
				return nil
			}
			one = t
		}
	}
	return one
}

// clause finds the first pattern that fits a clause and means something here.
func (r *reader) clause(s *sentence, c []token) (Answer, bool) {
	var out Answer
	for _, after := range []bool{true, false} { // what answers the last message goes before what stands by itself
		for i := range lex().pattern {
			p := &lex().pattern[i]
			if (p.when != "-") != after || !r.when(p.when) {
				continue
			}
			m := &matcher{reader: r, tokens: c, id: p.id}
			ok := m.match(&p.node, 0, binding{}, func(at int, b binding) bool {
				if !m.whole(at) {
					return false
				}
				if p.when != "-" && b.thing == nil {
					b.thing = r.lastThing()
					if one := r.onlyStarted(); p.when == "task" && r.v.Last.Kind == Nothing && one != nil {
						b.thing = &thing{of: "task", name: "it", tasks: []*Task{one}}
					}
				}
				id := p.id
				if s.asked && !p.asks && (id == "done" || id == "start" || id == "out" || id == "in" || id == "longer") &&
					b.thing != nil {
					id = map[bool]string{true: "isout", false: "isdone"}[id == "out" || id == "in"]
				}
				var good bool
				out, good = r.meant(id, b)
				return good
			})
			if ok {
				return out, true
			}
		}
	}
	return Answer{}, false
}

var acts = map[string]Act{"look": Look, "tick": Tick, "ask": Ask, "lose": Lose, "chat": Chat, "yes": Yes, "no": No}

// meant fills a meaning's row; ok is false where the party has nothing for it.
func (r *reader) meant(id string, b binding) (a Answer, ok bool) {
	if id == "lateself" && b.thing != nil && b.thing.of == "course" {
		id = "courseat"
	}
	row := rowFor(id, &b)
	if row == nil {
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
	fill := map[string]string{"person": b.person, "guest": b.guest, "item": b.item, "covers": strconv.Itoa(r.v.Covers),
		"advice": b.care}
	var task *Task
	if b.thing != nil {
		fill["name"], fill["dish"] = b.thing.name, b.thing.key
		if b.thing.course != nil {
			fill["course"] = b.thing.course.Key
		}
		if strings.Contains(row.do, "{task}") {
			if task = r.pick(b.thing.tasks, row.pick, b.did); task == nil {
				return a, false
			}
			if id == "longer" && task.State == Waiting && task.At.After(r.v.Now) && r.v.Last.Kind != Check {
				return r.meant("lateself", b)
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
	r.fillFigures(id, &b, fill)
	r.fillEats(&b, fill)
	if len(r.v.Ovens) == 1 {
		fill["oven"] = r.v.Ovens[0]
	}
	for _, k := range []string{"person", "guest", "item", "oven", "allergies"} {
		if strings.ContainsAny(fill[k], ":\"\\") {
			return a, false // it could be read as an option: who is called so is named by a command
		}
	}
	var good bool
	if a.Do, good = filled(row.do, fill); !good {
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
	if a.Act == Tick && task != nil && (task.Who != "" && task.Who != r.v.Me || r.farOff(id, task, b.thing)) {
		a.Act = Ask
	}
	return a, true
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
	for _, d := range r.v.Dishes {
		if d.Key == t.Dish {
			name += " (" + d.Name + ")"
		}
	}
	if t.Who != "" && t.Who != r.v.Me {
		name += ", which " + t.Who + " has"
	}
	return name
}

// soon is within which time a task that nobody has called started is one that somebody may well have done. Ours.
const soon = 60

// farOff reports whether a tick may well mean another task of the dish: this one is not going on, and is not to be yet.
func (r *reader) farOff(id string, t *Task, th *thing) bool {
	if t.State != Waiting || len(th.tasks) < 2 || r.v.Last.Task == t.Key || id == "snooze" {
		return false
	}
	return t.At.Sub(r.v.Now).Minutes() > soon
}

// pick chooses the task that is meant among those that were named.
func (r *reader) pick(tasks []*Task, how, did string) *Task {
	all := slices.Clone(tasks)
	if did != "" {
		all = slices.DeleteFunc(all, func(t *Task) bool { return verbOf(t) != did })
	}
	if how == "heatin" || how == "heatout" || how == "heat" {
		if hot := slices.DeleteFunc(slices.Clone(all), func(t *Task) bool { return !t.Heat }); len(hot) > 0 {
			all = hot
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
	return all[0]
}

// fillFigures puts numbers, lengths and times where a command takes them.
func (r *reader) fillFigures(id string, b *binding, fill map[string]string) {
	now := r.v.Now.Hour()*60 + r.v.Now.Minute()
	if b.hasN {
		fill["n"] = strconv.Itoa(b.n)
		fill["more"] = strconv.Itoa(r.v.Covers + b.n)
		if r.v.Covers > b.n {
			fill["fewer"] = strconv.Itoa(r.v.Covers - b.n)
		}
	}
	if b.hasLen {
		fill["len"] = strconv.Itoa(b.length)
	}
	switch {
	case id == "courseat":
		c := (*Course)(nil)
		if b.thing != nil {
			c = b.thing.course
		} else if len(r.v.Course) > 0 {
			c = &r.v.Course[0]
			fill["course"], fill["name"] = c.Key, "the "+words.Lower(c.Name)
		}
		switch {
		case c == nil:
		case b.hasTime:
			fill["time"] = minutesText(nearestTo(b.time, c.At, b.half))
		case b.hasLen && b.earlier:
			fill["time"] = minutesText(c.At - b.length)
		case b.hasLen:
			fill["time"] = minutesText(c.At + b.length)
		}
	case id == "arrive" && b.hasTime:
		fill["time"] = minutesText(nearestTo(b.time, r.v.Arrive, b.half))
	case b.hasTime: // when something happened
		at := b.time
		for b.half && at+720 <= now {
			at += 720
		}
		fill["time"] = minutesText(at)
	case b.hasLen:
		fill["time"] = minutesText(now - b.length) // so long ago
	}
}

// nearestTo is a time of the clock's face, before noon or after, whichever is nearer to another time.
func nearestTo(m, to int, half bool) int {
	if half && abs(m%720-to) > abs(m%720+720-to) {
		return m%720 + 720
	}
	if half {
		return m % 720
	}
	return m
}

// fillEats adds what was said of a guest to what is known, since a command says all of it.
func (r *reader) fillEats(b *binding, fill map[string]string) {
	diets, allergies := []string{}, []string{}
	for _, g := range r.v.Guests {
		if g.Name == b.guest {
			diets, allergies = slices.Clone(g.Diets), slices.Clone(g.Allergies)
		}
	}
	add := func(to []string, more string) string {
		for _, m := range strings.Split(more, ", ") {
			if m != "" && !slices.Contains(to, m) {
				to = append(to, m)
			}
		}
		return strings.Join(to, ", ")
	}
	if b.diets != "" {
		fill["diets"] = add(diets, b.diets)
	}
	if b.food != "" {
		fill["allergies"] = add(allergies, b.food)
	}
}

// filled puts values into a template. What stands in [ ] goes where its value is not there; ok is false where another is
// missing.
func filled(template string, with map[string]string) (string, bool) {
	var b strings.Builder
	for {
		from := strings.IndexAny(template, "{[")
		if from < 0 {
			break
		}
		b.WriteString(template[:from])
		end := strings.IndexByte(template[from:], map[byte]byte{'{': '}', '[': ']'}[template[from]]) + from
		inner := template[from+1 : end]
		if template[from] == '[' {
			if text, ok := filled(inner, with); ok {
				b.WriteString(text)
			}
		} else {
			text := with[inner]
			if text == "" {
				return "", false
			}
			b.WriteString(text)
		}
		template = template[end+1:]
	}
	b.WriteString(template)
	return b.String(), true
}
