package portion

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"unicode"

	"tureen/planner"
	"tureen/planner/words"
)

//go:embed kinds.tsv
var kindsTSV string

// kindWords are the words that tell a kind of party, those that tell most first.
var kindWords = sync.OnceValue(func() [][]string { return words.Rows("kinds.tsv", kindsTSV, 3) })

// bitesCourses are courses of what is eaten in the hand.
var bitesCourses = []string{"nibbles", "bites", "canapes", "snacks", "aperitif", "drinks", "tapas", "mezze"}

// PartyKind is how a party eats: as somebody has said, else as the words of its name, place and courses tell, else as
// its dishes do; a plate for each where nothing tells.
func PartyKind(p *planner.Party) planner.PartyKind {
	if p.Kind != "" {
		return p.Kind
	}
	name, courses := spaced(p.Name+" "+p.Place), ""
	for i := range p.Courses {
		courses += spaced(p.Courses[i].Name)
	}
	for _, row := range kindWords() {
		k, in := planner.PartyKind(row[0]), name
		if k != planner.Standing { // cocktails may come before a dinner
			in += courses
		}
		if slices.ContainsFunc(strings.Split(row[1], "|"), func(said string) bool {
			return strings.Contains(in, spaced(said))
		}) {
			return k
		}
	}
	out := 0
	for i := range p.Dishes {
		d := &p.Dishes[i]
		c := p.Course(d.Course)
		if d.Out == planner.Yes || d.Out == "" && c != nil && c.Out == planner.Yes {
			out++
		}
	}
	switch {
	case len(p.Courses) > 0 && !slices.ContainsFunc(p.Courses, func(c planner.Course) bool { return !bites(&c) }):
		return planner.Standing
	case out > 0 && 2*out >= len(p.Dishes):
		return planner.Buffet
	case slices.Contains(brunchHours, p.Arrival.In(p.Location()).Hour()):
		return planner.Brunch
	}
	return planner.Plated
}

// brunchHours are those at which guests who come are not asked to lunch yet; common practice, no source.
var brunchHours = []int{8, 9, 10}

// spaced is a text as small words with a space around each.
func spaced(text string) string {
	return " " + strings.Join(strings.FieldsFunc(words.Fold(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ") + " "
}

// bites says whether a course is of what is eaten in the hand.
func bites(c *planner.Course) bool {
	return slices.ContainsFunc(Words(c.Name), func(w string) bool { return slices.Contains(bitesCourses, w) }) ||
		slices.Contains(bitesCourses, string(c.Key))
}

// childWords tell of a guest, a group or a note that it is a child's.
var childWords = []string{"child", "children", "kid", "kids", "toddler", "baby", "babies"}

// IsChild says whether a guest eats as a child does, by what is said of them.
func IsChild(g planner.Guest) bool {
	return slices.ContainsFunc(Words(strings.Join(g.Diets, " ")+" "+g.Group+" "+g.Note), func(w string) bool {
		return slices.Contains(childWords, w)
	})
}
