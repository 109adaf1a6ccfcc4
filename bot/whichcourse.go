package bot

import (
	_ "embed"
	"slices"
	"strings"

	"tureen/planner"
	"tureen/planner/food"
	"tureen/planner/recipe"
	"tureen/planner/words"
)

// Of several recipes that are kept at once each goes to the course that its name or its food tells of; else it is the
// main course's. A party that has no courses yet gets them with what is put into them.

//go:embed courses.tsv
var courseTable string

// courseWords are a dish's words with the course that they tell of.
var courseWords = words.Rows("courses.tsv", courseTable, 3)

// guessCourse is the course that a recipe tells of.
func (t *Turn) guessCourse(r *recipe.Reading) planner.CourseKey {
	title := " " + words.Fold(r.Title) + " "
	for i := range t.Party.Courses {
		name := words.Fold(t.Party.Courses[i].Name)
		if strings.Contains(title, " "+name+" ") {
			return t.Party.Courses[i].Key
		}
		for _, row := range courseWords {
			if row[1] == name && (strings.Contains(title, " "+words.Fold(row[0])+" ") ||
				strings.Contains(title, " "+words.Fold(words.Plural(row[0]))+" ")) && (name != "dessert" || sweet(r)) {
				return t.Party.Courses[i].Key
			}
		}
	}
	named := func(name string) *planner.Course {
		i := slices.IndexFunc(t.Party.Courses, func(c planner.Course) bool { return words.Fold(c.Name) == name })
		if i < 0 {
			return nil
		}
		return &t.Party.Courses[i]
	}
	if c := named("dessert"); c != nil && sweet(r) {
		return c.Key
	}
	if k, ok := t.guessNew(r, title); ok {
		return k
	}
	if c := named("main"); c != nil {
		return c.Key
	}
	return t.Party.Courses[len(t.Party.Courses)/2].Key
}

// guessNew is a course that comes with a recipe: the one that it tells of where the party had none when the command was
// given, and a dessert for what is sweet.
func (t *Turn) guessNew(r *recipe.Reading, title string) (planner.CourseKey, bool) {
	if sweet(r) {
		return t.usualCourse("dessert")
	}
	if len(t.snapshot.Party.Courses) > 0 {
		return "", false
	}
	for _, row := range courseWords {
		if row[1] != "dessert" && (strings.Contains(title, " "+words.Fold(row[0])+" ") ||
			strings.Contains(title, " "+words.Fold(words.Plural(row[0]))+" ")) {
			return t.usualCourse(row[1])
		}
	}
	return t.usualCourse("main")
}

// sweet says whether there is something sweet in a recipe, and nothing that no dessert has.
func sweet(r *recipe.Reading) bool {
	some := false
	for _, in := range r.Ingredients {
		f, ok := food.Find(in.Name)
		if !ok || f.Class == nil {
			continue
		}
		switch f.Class.Name {
		case "sugar", "syrup", "chocolate", "confectionery", "jam":
			some = true
		case "onions", "raw-meat", "game", "raw-poultry", "raw-fish", "raw-shellfish", "cured-meat", "stock",
			"stock-cube", "potato":
			return false
		}
	}
	return some
}
