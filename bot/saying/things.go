package saying

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"tureen/planner/words"
)

// binding is what a pattern's slots hold.
type binding struct {
	thing                                  *thing // a task, a dish or a course, as it was named
	did                                    string // the verb of a task that "was carved"
	person, guest, item, diets, food, care string
	newGuest                               bool
	gone                                   string // whose kind the name is: guest or person
	n, length, time                        int
	hasN, hasLen, hasTime, half            bool
	earlier                                bool
	day, part, can                         string // as the command takes them
}

// thing is what a stretch of words names.
type thing struct {
	of     string // dish, task or course
	key    string // of a dish or a course
	tasks  []*Task
	name   string
	course *Course
}

// reader reads one sentence at one party.
type reader struct {
	v     *View
	names map[string]bool            // all words of the party's names
	words map[string]map[string]bool // by "kind/key": the words of its name
	named *thing                     // what the sentence names anywhere, for "it"
	onHob bool                       // it speaks of a hob, and not of an oven
	whom  string                     // and whom, for "he"

	except, lessThanAll bool // it makes an exception; it has a word that may make one
}

func newReader(v *View) *reader {
	r := &reader{v: v, names: map[string]bool{}, words: map[string]map[string]bool{}}
	add := func(key string, names ...string) {
		set := map[string]bool{}
		for _, n := range names {
			for _, w := range parts(n) {
				set[w], r.names[w] = true, true
				one := words.Singular(w)
				set[one], r.names[one] = true, true
				set[lex().canonical([]string{w})[0]] = true
			}
		}
		r.words[key] = set
	}
	for _, c := range v.Course {
		add("course/"+c.Key, c.Name)
	}
	dish := map[string]string{}
	for _, d := range v.Dishes {
		dish[d.Key] = d.Name
		add("dish/"+d.Key, d.Name)
	}
	for _, t := range v.Tasks {
		add("task/"+t.Key, t.Do, dish[t.Dish])
	}
	for _, p := range v.People {
		add("person/"+p, p)
	}
	for _, g := range v.Guests {
		add("guest/"+g.Name, g.Name)
	}
	for _, i := range v.Items {
		add("item/"+i, i)
	}
	return r
}

// parts are a name's words that tell it from others.
func parts(name string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(words.Fold(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}) {
		if !idle[w] {
			out = append(out, w)
		}
	}
	return out
}

// idle are words that a name may have and that name nothing.
var idle = words.Set("an a the my our your that this of to for with in into on at some any it and its put make do is " +
	"out let them all up now what who")

// forms are a word as it may stand in a name: without the ends of verbs and plurals.
func forms(t *token) []string {
	out := []string{t.raw, t.word, words.Singular(t.raw)}
	for _, end := range []string{"ing", "ed", "es", "d", "s", "en"} {
		if stem, ok := strings.CutSuffix(t.raw, end); ok && len(stem) >= 3 {
			out = append(out, stem, stem+"e")
			if n := len(stem); stem[n-1] == stem[n-2] {
				out = append(out, stem[:n-1])
			}
		}
	}
	return out
}

func (r *reader) inName(t *token, key string) bool {
	return slices.ContainsFunc(forms(t), func(f string) bool { return r.words[key][f] })
}

// telling are the tokens of a stretch that name something; ok is false where one is a figure.
func telling(span []token) (out []*token, ok bool) {
	for i := range span {
		t := &span[i]
		switch {
		case strings.HasPrefix(t.word, "#"):
			return nil, false
		case !t.fill && !idle[t.word] && !idle[t.raw]:
			out = append(out, t)
		}
	}
	return out, len(out) > 0
}

// allIn reports whether all of some tokens stand in a name.
func (r *reader) allIn(tokens []*token, key string) bool {
	return !slices.ContainsFunc(tokens, func(t *token) bool { return !r.inName(t, key) })
}

// thingIn is what a stretch of words names: a course, else a dish, else tasks.
func (r *reader) thingIn(span []token) *thing {
	tell, ok := telling(span)
	if !ok {
		return nil
	}
	for i := range r.v.Course {
		if c := &r.v.Course[i]; r.allIn(tell, "course/"+c.Key) {
			return &thing{of: "course", key: c.Key, name: "the " + words.Lower(c.Name), tasks: r.tasksOf("", c.Key), course: c}
		}
	}
	var dish *Dish
	for i := range r.v.Dishes {
		if d := &r.v.Dishes[i]; r.allIn(tell, "dish/"+d.Key) {
			if dish != nil {
				return nil // which of them?
			}
			dish = d
		}
	}
	if dish != nil {
		return &thing{of: "dish", key: dish.Key, name: "the " + words.Lower(dish.Name), tasks: r.tasksOf(dish.Key, ""),
			course: r.courseOf(dish.Course)}
	}
	th := &thing{of: "task"}
	for i := range r.v.Tasks {
		if t := &r.v.Tasks[i]; r.allIn(tell, "task/"+t.Key) {
			th.tasks = append(th.tasks, t)
		}
	}
	if len(th.tasks) == 0 || len(th.tasks) > 1 && slices.ContainsFunc(th.tasks, func(t *Task) bool {
		return t.Dish != th.tasks[0].Dish
	}) {
		return nil
	}
	var raw []string
	for _, t := range tell {
		raw = append(raw, t.raw)
	}
	th.name = "the " + strings.Join(raw, " ")
	th.course = r.courseOf(r.dishCourse(th.tasks[0].Dish))
	return th
}

func (r *reader) dishCourse(key string) string {
	for _, d := range r.v.Dishes {
		if d.Key == key {
			return d.Course
		}
	}
	return ""
}

func (r *reader) courseOf(key string) *Course {
	for i := range r.v.Course {
		if r.v.Course[i].Key == key {
			return &r.v.Course[i]
		}
	}
	return nil
}

// tasksOf are the tasks of a dish, or of all dishes of a course.
func (r *reader) tasksOf(dish, course string) (out []*Task) {
	for i := range r.v.Tasks {
		t := &r.v.Tasks[i]
		if t.Dish != "" && (t.Dish == dish || course != "" && r.dishCourse(t.Dish) == course) {
			out = append(out, t)
		}
	}
	return out
}

// lastThing is what was last spoken of.
func (r *reader) lastThing() *thing {
	for i := range r.v.Tasks {
		if t := &r.v.Tasks[i]; t.Key == r.v.Last.Task && t.Key != "" {
			return &thing{of: "task", name: "it", tasks: []*Task{t}, course: r.courseOf(r.dishCourse(t.Dish))}
		}
	}
	if c := r.courseOf(r.v.Last.Course); c != nil {
		return &thing{of: "course", key: c.Key, name: "the " + words.Lower(c.Name), course: c, tasks: r.tasksOf("", c.Key)}
	}
	return nil
}

var pronouns = words.Set("it that them they this")

// longestSpan is how many words a name may have in a sentence.
const longestSpan = 8

// slot fits a slot of a pattern from a place on, the longest stretch first.
func (r *reader) slot(m *matcher, name string, at int, b binding, then func(int, binding) bool) bool {
	t := &m.tokens[at]
	longest := min(longestSpan, len(m.tokens)-at)
	switch name {
	case "task", "dish", "course":
		for n := longest; n > 0; n-- {
			if last := &m.tokens[at+n-1]; last.fill && n > 1 {
				continue
			}
			th := r.thingIn(m.tokens[at : at+n])
			if th == nil && n == 1 && pronouns[t.word] {
				if th = r.named; th == nil {
					th = r.lastThing()
				}
			}
			if th == nil || name == "dish" && th.of != "dish" || name == "course" && th.course == nil {
				continue
			}
			c := b
			c.thing = th
			if then(at+n, c) {
				return true
			}
		}
		return false
	case "person":
		for _, p := range r.v.People {
			if r.inName(t, "person/"+p) && p != r.v.Me {
				b.person = p
				return then(at+1, b)
			}
		}
		return false
	case "guest", "whoever":
		return r.nameSlot(name, t, at, b, then)
	case "any":
		for n := len(m.tokens) - at; n >= 0; n-- {
			if then(at+n, b) {
				return true
			}
		}
		return false
	case "item", "thing":
		for n := min(3, longest); n > 0; n-- {
			if item := r.itemIn(m.tokens[at:at+n], name == "thing"); item != "" {
				c := b
				c.item = item
				if then(at+n, c) {
					return true
				}
			}
		}
		return false
	case "day":
		return r.daySlot(m, at, b, then)
	case "hours":
		if b.can = r.hours(m.tokens[at:]); b.can == "" {
			return false
		}
		return then(len(m.tokens), b)
	case "loose", "dressed":
		return r.looseSlot(m, name, at, b, then)
	case "diet", "food", "advice":
		return r.eatsSlot(m, name, at, b, then)
	}
	return r.figureSlot(name, t, at, b, then)
}

// figureSlot fits a slot for a number, a length, a time, or a word of doing.
func (r *reader) figureSlot(name string, t *token, at int, b binding, then func(int, binding) bool) bool {
	switch {
	case name == "n" && t.word == "#n" && t.n > 0:
		b.n, b.hasN = t.n, true
	case name == "len" && (t.word == "#len" || t.word == "#n") && t.n > 0 && t.n <= 12*60:
		b.length, b.hasLen = t.n, true
	case name == "longer" && t.word == "#len" && strings.Contains(t.raw, "more"): // "15 more min"
		b.length, b.hasLen = t.n, true
	case name == "time" && t.word == "#time":
		b.time, b.hasTime, b.half = t.n, true, t.half
	case name == "time" && t.word == "#n" && t.n >= 1 && t.n <= 23:
		b.time, b.hasTime, b.half = t.n*60, true, t.n <= 12
	case name == "made" && t.raw == "made":
	case name == "shift" && (t.word == "later" || t.word == "late" || t.word == "more"):
	case name == "shift" && (t.word == "earlier" || t.word == "sooner"):
		b.earlier = true
	case name == "did" || name == "doing":
		if b.did = r.verb(t); b.did == "" || strings.HasSuffix(t.raw, "ing") != (name == "doing") {
			return false
		}
	default:
		return false
	}
	return then(at+1, b)
}

// looseSlot fits what a task is done to where that is called by another name, as "the meat" that is browned is, and
// "dressed": the one task of the speaker's own by its verb that is under way, or is to be soon.
func (r *reader) looseSlot(m *matcher, name string, at int, b binding, then func(int, binding) bool) bool {
	to, did := at+1, b.did
	if name == "dressed" && m.tokens[at].raw != "dressed" && m.tokens[at].raw != "changed" {
		return false
	}
	if name == "loose" {
		if to = len(m.tokens); r.thingIn(m.tokens[at:]) != nil || to-at > 3 {
			return false
		}
	}
	var one *Task
	for i := range r.v.Tasks {
		t := &r.v.Tasks[i]
		is := verbOf(t) == did
		if name == "dressed" {
			is = t.Dish == "" && strings.Contains(words.Fold(t.Do), "dress")
		}
		if !is || t.Who != r.v.Me || t.State == Over ||
			t.State == Waiting && (t.At.IsZero() || t.At.Sub(r.v.Now).Minutes() > soon) {
			continue
		}
		if one != nil {
			return false
		}
		one = t
	}
	if one == nil {
		return false
	}
	b.thing, b.did = &thing{of: "task", name: "it", tasks: []*Task{one}}, ""
	return then(to, b)
}

// daySlot fits a day, with the part of it: "Friday evening".
func (r *reader) daySlot(m *matcher, at int, b binding, then func(int, binding) bool) bool {
	if b.day = lex().days[m.tokens[at].word]; b.day == "" {
		return false
	}
	if b.part = ""; m.tokens[at].word == "tonight" {
		b.part = "evening"
	}
	if part := lex().parts[wordAt(m.tokens, at+1)]; part != "" {
		b.part = part
		return then(at+2, b)
	}
	return then(at+1, b)
}

// verb is what a word says that is done, where a task begins with it: "carved", "laid".
func (r *reader) verb(t *token) string {
	if idle[t.word] || strings.HasPrefix(t.word, "#") {
		return ""
	}
	for i := range r.v.Tasks {
		do := verbOf(&r.v.Tasks[i])
		if do != "" && slices.Contains(forms(t), do) && t.raw != do {
			return do
		}
	}
	return ""
}

func verbOf(t *Task) string {
	w, _, _ := strings.Cut(words.Fold(t.Do), " ")
	return w
}

// nameSlot fits a guest's name, or a person's; "he" is who was named before.
func (r *reader) nameSlot(name string, t *token, at int, b binding, then func(int, binding) bool) bool {
	for _, g := range r.v.Guests {
		if r.inName(t, "guest/"+g.Name) || (t.word == "he" || t.word == "she" || t.word == "they") && r.whom == g.Name {
			b.guest, b.gone = g.Name, "guest"
			return then(at+1, b)
		}
	}
	if name == "whoever" {
		for _, p := range r.v.People {
			if p != r.v.Me && (r.inName(t, "person/"+p) || (t.word == "he" || t.word == "she") && r.whom == p) {
				b.person, b.gone = p, "person"
				return then(at+1, b)
			}
		}
		return false
	}
	if said := r.newName(t); said != "" {
		b.guest, b.newGuest = words.Upper(said), true
		return then(at+1, b)
	}
	return false
}

// newName is the name of somebody who is not named yet: a word with a capital that means nothing else, was only taken
// for a slip of what does, or is a first name too; or a guest of whom nobody says who it is.
func (r *reader) newName(t *token) string {
	switch {
	case t.word == someGuest:
		return "a guest"
	case !t.name:
		return ""
	case t.typed != "" && !r.names[t.typed]:
		return t.typed
	case !r.names[t.word] && lex().given[t.raw], !lex().known[t.word] && !r.names[t.word] && !t.fill:
		return t.raw
	}
	return ""
}

// someGuest stands for "one of our guests".
const someGuest = "someguest"

// joining are the words between clauses that no thing has in its name.
var joining = words.Set("but because so if")

// itemIn is the item that a stretch of words names; another than is known only where that may be.
func (r *reader) itemIn(span []token, other bool) string {
	tell, ok := telling(span)
	if !ok {
		return ""
	}
	for _, i := range r.v.Items {
		if r.allIn(tell, "item/"+i) {
			return i
		}
	}
	if !other || span[len(span)-1].fill || idle[span[len(span)-1].word] {
		return ""
	}
	var raw []string
	for _, t := range tell {
		if (lex().speech[t.raw] || joining[t.raw]) && !r.names[t.raw] {
			return ""
		}
		raw = append(raw, t.raw)
	}
	return strings.Join(raw, " ")
}

// eatsSlot fits a diet, what somebody must not get, or advice for people who fall ill more easily.
func (r *reader) eatsSlot(m *matcher, name string, at int, b binding, then func(int, binding) bool) bool {
	for n := min(4, len(m.tokens)-at); n > 0; n-- {
		span := m.tokens[at : at+n]
		var canon, raw []string
		for i := range span {
			if t := &span[i]; strings.HasPrefix(t.word, "#") {
				raw = nil
				break
			} else if !t.fill {
				canon, raw = append(canon, t.word), append(raw, t.raw)
			}
		}
		if len(raw) == 0 {
			continue
		}
		c := b
		switch text := strings.Join(canon, " "); {
		case name == "diet" && lex().diets[text] != "":
			c.diets = lex().diets[text]
		case name == "advice" && lex().advice[text] != "":
			c.care = lex().advice[text]
		case name == "food":
			c.food = foods(span)
		}
		if c.diets+c.care+c.food != b.diets+b.care+b.food && then(at+n, c) {
			return true
		}
	}
	return false
}

// foods is a list of what somebody must not get: "nuts or milk" is "nuts, milk".
func foods(span []token) string {
	var all []string
	cur := ""
	for i := range span {
		switch t := &span[i]; {
		case t.word == "or" || t.word == "and":
			all, cur = append(all, cur), ""
		case idle[t.word] || t.fill || strings.ContainsAny(t.raw, ":/\""):
		case lex().speech[t.raw]:
			return ""
		default:
			cur = strings.TrimSpace(cur + " " + t.raw)
		}
	}
	all = append(all, cur)
	if slices.Contains(all, "") {
		return ""
	}
	return strings.Join(all, ", ")
}

// minutesText writes minutes of the day as commands take them.
func minutesText(m int) string {
	m = (m%1440 + 1440) % 1440
	return strconv.Itoa(m/60) + ":" + string(rune('0'+m%60/10)) + string(rune('0'+m%10))
}
