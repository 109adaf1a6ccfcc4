package propose

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/portion"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// evening.tsv has the tasks of an evening that are an entry of their own, since a time or a cold place decides, or that
// hold a list; lists.tsv what stands on the lists. Both by the kind of party and by what it needs.
//
//go:embed evening.tsv
var eveningTSV string

//go:embed lists.tsv
var listsTSV string

// eveningTask is a row of evening.tsv.
type eveningTask struct {
	key, needs, do, list   string
	kinds                  []string
	kind                   planner.ChoreKind
	attention              planner.Attention
	minutes, aCover, aDish float64
	most                   int
	by                     string // arrival, or course: once for each course that needs it
	offset, within         planner.Minutes
}

// eveningTasks reads the table once. A fault in it is ours and every test meets it: hence the panic.
var eveningTasks = sync.OnceValue(func() []eveningTask {
	var out []eveningTask
	for _, f := range words.Rows("evening.tsv", eveningTSV, 15) {
		number := func(text string) float64 {
			n, err := strconv.ParseFloat(text, 64)
			if err != nil {
				panic("propose: evening.tsv: " + err.Error())
			}
			return n
		}
		out = append(out, eveningTask{key: f[0], kinds: strings.Split(f[1], "|"), needs: f[2],
			kind: planner.ChoreKind(f[3]), attention: planner.Attention(f[4]), minutes: number(f[5]), aCover: number(f[6]),
			aDish: number(f[7]), most: int(number(f[8])), by: f[9], offset: planner.Minutes(number(f[10])),
			within: planner.Minutes(number(f[11])), do: f[12], list: f[13]})
	}
	return out
})

// listLines are the rows of lists.tsv.
var listLines = sync.OnceValue(func() [][]string { return words.Rows("lists.tsv", listsTSV, 5) })

// evening proposes what belongs to the evening by its kind.
func (w *proposer) evening() {
	if w.p.Covers < 1 || len(w.p.Courses) == 0 {
		return
	}
	kind := string(portion.PartyKind(w.p))
	for _, e := range eveningTasks() {
		switch {
		case !slices.Contains(e.kinds, kind):
		case e.by == "arrival":
			if w.needs(e.needs, nil) {
				w.addEvening(&e, kind, nil)
			}
		default:
			for i := range w.p.Courses {
				if c := &w.p.Courses[i]; len(c.Servings) > 0 && w.needs(e.needs, c) {
					w.addEvening(&e, kind, c)
				}
			}
		}
	}
}

// addEvening makes a chore of a row.
func (w *proposer) addEvening(e *eveningTask, kind string, c *planner.Course) {
	x := planner.Chore{Key: w.freeKey(e.key), Kind: e.kind, Attention: e.attention,
		Time: about(int(e.minutes + e.aCover*float64(w.p.Covers) + e.aDish*float64(len(w.p.Dishes)))),
		By:   []planner.Anchor{{Arrival: true, Offset: e.offset, Within: e.within}}}
	if e.attention == planner.Hands {
		x.MaxHands = e.most
	}
	course := ""
	if c != nil {
		x.Key, course = w.freeKey(e.key+" "+string(c.Key)), c.Named()
		x.By[0].Arrival, x.By[0].Course = false, c.Key
	}
	plates, n := w.platesOf(c)
	x.Do = strings.NewReplacer("{covers}", strconv.Itoa(w.p.Covers), "{course}", course, "{n}", strconv.Itoa(n),
		"{plates}", plates, "{dishes}", words.Count(len(w.p.Dishes), "dish")).Replace(e.do)
	if lines := w.list(e.list, kind); len(lines) > 0 {
		x.Note, x.Quiet = "To tick: "+strings.Join(lines, "; ")+".", true
	}
	w.add(x)
}

// list is what stands on one of the lists.
func (w *proposer) list(name, kind string) []string {
	var out []string
	for _, f := range listLines() {
		if f[0] == name && slices.Contains(strings.Split(f[1], "|"), kind) && w.needs(f[2], nil) {
			out = append(out, f[3])
		}
	}
	return out
}

// needs says whether the party, or a course of it, has what a row is for.
func (w *proposer) needs(what string, c *planner.Course) bool {
	dish := func(is func(d *planner.Dish) bool) bool {
		return slices.ContainsFunc(w.p.Dishes, func(d planner.Dish) bool {
			return (c == nil || d.Course == c.Key) && is(&d)
		})
	}
	switch what {
	case "-":
		return true
	case "dishes":
		return len(w.p.Dishes) > 0
	case "dishwasher":
		return w.p.Kitchen.Dishwasher > 0
	case "children":
		return slices.ContainsFunc(w.p.Guests, portion.IsChild)
	case "bread":
		return dish(func(d *planner.Dish) bool {
			return d.Course == "bread" || has(d.Name, "bread", "loaf", "rolls", "baguette")
		})
	case "cheese":
		return dish(w.coldCheese)
	case "hot plates":
		n := 0
		if c != nil {
			_, n = w.platesOf(c)
		}
		return n > 0 && dish(w.servedHot) && !dish(func(d *planner.Dish) bool { return !w.servedHot(d) && d.Plate != "" })
	case "cold bowls":
		n := 0
		if c != nil {
			_, n = w.platesOf(c)
		}
		return n > 0 && dish(iced)
	}
	panic(fmt.Sprintf("propose: nothing is known of what needs %q", what))
}

// platesOf is the plate that most of a course's dishes are served on, and how many of it the course takes.
func (w *proposer) platesOf(c *planner.Course) (name string, n int) {
	if c == nil {
		return "", 0
	}
	for i := range w.p.Dishes {
		if d := &w.p.Dishes[i]; d.Course == c.Key && d.Plate != "" {
			if k := w.p.PlatesFor(c, d.Plate); k > n {
				name, n = d.Plate, k
			}
		}
	}
	return words.Plural(name), n
}

// servedHot says whether a dish goes to the table from the heat.
func (w *proposer) servedHot(d *planner.Dish) bool {
	foods := trace.OfDish(w.p, d)
	var hot func(s *planner.Step, depth int) bool
	hot = func(s *planner.Step, depth int) bool {
		return foods.Leaves(d.Key, s.Key).Hot || depth < len(d.Steps) && slices.ContainsFunc(s.After,
			func(a planner.After) bool {
				from := d.Step(a.Step)
				return from != nil && a.Dish == "" && !inTheCold(a.Wait.State) && a.Wait.Least < coolsIn && hot(from, depth+1)
			})
	}
	return slices.ContainsFunc(d.Steps, func(s planner.Step) bool {
		return !goesOn(d, s.Key) && (s.Serve == nil || !inTheCold(s.Serve.State) && s.Serve.Least < coolsIn) && hot(&s, 0)
	})
}

// coolsIn is after how many minutes on the counter food is no longer hot on a plate; common practice, no source.
const coolsIn = 25

func inTheCold(s planner.State) bool { return s == planner.Refrigerator || s == planner.Freezer }

// iced says whether a dish is eaten as cold as it can be: an ice, a cold soup.
func iced(d *planner.Dish) bool {
	if slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return s.Where == planner.Freezer }) {
		return true
	}
	return has(d.Name, "soup") && has(d.Name, "cold", "chilled", "iced") || has(d.Name, "gazpacho", "sorbet", "granita")
}

// coldCheese says whether a dish is cheese to be eaten as it is, and no step of its own takes it out in time.
func (w *proposer) coldCheese(d *planner.Dish) bool {
	cheeses := 0
	for i := range d.Ingredients {
		if f, ok := food.Find(d.Ingredients[i].Name); ok && strings.Contains(f.Class.Name, "cheese") {
			cheeses++
		}
	}
	if !(cheeses > 1 || has(d.Name, "cheese", "cheeses") && (d.Course == "cheese" || len(d.Steps) == 0)) ||
		slices.ContainsFunc(d.Steps, func(s planner.Step) bool { return s.Cooks }) {
		return false
	}
	standing := planner.Minutes(0)
	for i := range d.Steps {
		s := &d.Steps[i]
		if s.Attention == planner.Unattended && s.Where == planner.Counter {
			standing += s.Time.Likely // "take it out an hour before"
		}
		for _, a := range s.After {
			if a.Wait.State == planner.Counter {
				standing += a.Wait.Least
			}
		}
		if s.Serve != nil {
			standing += s.Serve.Least
		}
	}
	return standing < cheeseStands
}

// cheeseStands is how long cheese stands out at least before it is eaten, in minutes; common practice, no source.
const cheeseStands = 20

// has says whether a name has one of the words, whole.
func has(name string, any ...string) bool {
	return slices.ContainsFunc(portion.Words(name), func(w string) bool { return slices.Contains(any, w) })
}

// Clearing a course and carrying in the next: so many seconds a cover, one more pair of hands from so many covers on;
// common practice, no source.
const (
	serveSeconds = 25
	serveLeast   = 3
	manyCovers   = 12
)

// serve keeps time free between courses at a table, for clearing and carrying in.
func (w *proposer) serve() {
	if portion.PartyKind(w.p).Helped() || w.p.Covers < 1 {
		return
	}
	var before *planner.Course
	for i := range w.p.Courses {
		next := &w.p.Courses[i]
		if len(next.Servings) == 0 || !slices.ContainsFunc(w.p.Dishes, func(d planner.Dish) bool {
			return d.Course == next.Key
		}) {
			continue
		}
		last := before
		if before = next; last != nil {
			w.serveOne(last, next)
		}
	}
}

// serveOne keeps the time between two courses.
func (w *proposer) serveOne(before, next *planner.Course) {
	hands := 1
	if w.p.Covers >= manyCovers && w.seated() > 1 {
		hands = 2
	}
	long := max(serveLeast, int(math.Ceil(float64(w.p.Covers*serveSeconds)/60/float64(hands))))
	gap := words.Minutes(earliest(next).Sub(earliest(before)))
	if gap < eatMinutes/2+long+washReady {
		return
	}
	w.add(planner.Chore{Key: w.freeKey("serve " + string(next.Key)), Kind: planner.Serve, Attention: planner.Hands,
		Quiet: true,
		Hands: hands, Time: planner.Span{Low: planner.Minutes(long), Likely: planner.Minutes(long),
			High: planner.Minutes(long)},
		Do:   fmt.Sprintf("Clear the %s, carry in the %s", before.Named(), next.Named()),
		From: &planner.Anchor{Course: before.Key, Offset: planner.Minutes(min(eatMinutes, gap-long-washReady))},
		By:   []planner.Anchor{{Course: next.Key}}})
}

// seated is how many of the people there are can serve.
func (w *proposer) seated() int {
	n := 0
	for i := range w.p.People {
		if w.p.People[i].Role != planner.Onlooker {
			n++
		}
	}
	return n
}
