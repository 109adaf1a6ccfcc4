package repertoire

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"tureen/planner"
	"tureen/planner/safety"
)

// Card is a ready dish and what can be said of it before it is on a menu.
type Card struct {
	Key    planner.DishKey
	Name   string
	Course planner.CourseKey // "main", "dessert"; one of Courses
	Diets  []safety.Diet     // the diets it suits as far as its ingredients' words tell
	Serves int
	Ahead  planner.StepKey // the last step that a host does before the day; empty: the dish is made on the day
	Source string          // where its facts are from, or that it is common practice
	dish   planner.Dish
}

// Courses are the courses that cards are for, in order of service.
var Courses = []planner.CourseKey{"nibbles", "starter", "soup", "fish", "main", "side", "salad", "bread", "cheese",
	"dessert"}

// Diets are the diets that a card may claim.
var Diets = []safety.Diet{safety.Vegetarian, safety.Vegan, safety.GlutenFree, safety.DairyFree, safety.NutFree}

// Lead is how long before service the dish's first step starts at the latest,
// with every wait at its shortest and all hands there: a feeling for the dish,
// not a plan.
func (c *Card) Lead() planner.Minutes { return lead(&c.dish) }

// Dish is the whole dish, a copy that the caller may change.
func (c *Card) Dish() planner.Dish {
	d := c.dish
	d.Ingredients = slices.Clone(d.Ingredients)
	d.Steps = slices.Clone(d.Steps)
	for i := range d.Steps {
		s := &d.Steps[i]
		s.Uses = slices.Clone(s.Uses)
		if s.Cool != nil {
			c := *s.Cool
			s.Cool = &c
		}
		s.After = slices.Clone(s.After)
		for j := range s.After {
			s.After[j].Wait = copyWait(s.After[j].Wait)
		}
		if s.Serve != nil {
			w := copyWait(*s.Serve)
			s.Serve = &w
		}
	}
	return d
}

func copyWait(w planner.Wait) planner.Wait {
	if w.Hold != nil {
		h := *w.Hold
		w.Hold = &h
	}
	return w
}

// List is every card, in order of service and then by name. The slice is the
// caller's own.
func List() []Card { return slices.Clone(shelf()) }

// Find finds a card by its name, however it is capitalised or accented; a
// beginning, or some words of the name, will do when only one card has them.
func Find(name string) (Card, bool) {
	want := planner.Key(name)
	if want == "" {
		return Card{}, false
	}
	var near []Card
	for _, c := range shelf() {
		if string(c.Key) == want || planner.Key(c.Name) == want {
			return c, true
		}
		if hasWords(planner.Key(c.Name), want) {
			near = append(near, c)
		}
	}
	if len(near) == 1 {
		return near[0], true
	}
	return Card{}, false
}

// hasWords tells whether every word of want begins a word of name.
func hasWords(name, want string) bool {
	words := strings.Split(name, "-")
	for _, w := range strings.Split(want, "-") {
		if !slices.ContainsFunc(words, func(have string) bool { return strings.HasPrefix(have, w) }) {
			return false
		}
	}
	return true
}

//go:embed dishes/*.txt
var cards embed.FS

// shelf reads the cards once. A fault in one is ours and every test meets it: hence the panic.
var shelf = sync.OnceValue(func() []Card {
	files, err := fs.Glob(cards, "dishes/*.txt")
	if err != nil {
		panic(err)
	}
	var all []Card
	for _, f := range files {
		text, err := cards.ReadFile(f)
		if err != nil {
			panic(err)
		}
		c, err := readCard(string(text))
		if err != nil {
			panic(fmt.Sprintf("repertoire: %s: %v", f, err))
		}
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b Card) int {
		if d := slices.Index(Courses, a.Course) - slices.Index(Courses, b.Course); d != 0 {
			return d
		}
		return strings.Compare(a.Name, b.Name)
	})
	return all
})

// lead is the longest chain of steps and shortest waits.
func lead(d *planner.Dish) planner.Minutes {
	end := map[planner.StepKey]planner.Minutes{}
	var most planner.Minutes
	for i := range d.Steps { // a card's steps stand after those that they come after
		s := &d.Steps[i]
		var from planner.Minutes
		for _, a := range s.After {
			if a.Dish == "" && !a.FromStart {
				from = max(from, end[a.Step]+a.Wait.Least)
			}
		}
		end[s.Key] = from + s.Time.Likely
		e := end[s.Key]
		if s.Serve != nil {
			e += s.Serve.Least
		}
		most = max(most, e)
	}
	return most
}
