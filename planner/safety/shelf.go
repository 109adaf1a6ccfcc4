package safety

import (
	"fmt"

	"tureen/planner/food"
	"tureen/planner/words"
)

// ShelfLife is how long something keeps in the refrigerator once it is bought fresh.
type ShelfLife struct {
	Name     string // as the source calls it: "chicken, whole"
	From, To int    // days: the published range
	Limit    bool   // a limit that a plan keeps; else quality, and a word of advice
	Days     int    // that a plan allows: To, or what the strictest limit of its kind leaves
	Stricter Limit  // that limit, where it is what Days rests on
	Source   string
	How      How
}

// Figure is the range as people say it: "1 to 2 days".
func (s ShelfLife) Figure() string {
	to := words.Count(s.To, "day")
	if s.To == 1 || s.From == s.To {
		return to
	}
	return fmt.Sprintf("%d to %s", s.From, to)
}

// String is the sentence that a day to buy rests on.
func (s ShelfLife) String() string {
	text := fmt.Sprintf("%s: %s in the refrigerator from purchase (%s)", s.Name, s.Figure(), s.Source)
	if s.Stricter.Applies() {
		text += fmt.Sprintf("; taken as %s (%s)", words.Short(s.Days*24*60), s.Stricter.Source)
	}
	return text
}

// Shelf is how long an ingredient keeps in the refrigerator once it is bought fresh, by its name; nil where the table
// of foods does not have it. Of one of a kind that has limits, the strictest of that kind holds too. Dried, tinned and
// cooked things are not in the table, nor is what only begins with a name: chicken stock is no chicken.
func Shelf(name string) *ShelfLife {
	f, ok := food.Find(name)
	row := f.Shelf()
	if !ok || row == nil {
		return nil
	}
	s := &ShelfLife{Name: row.Name, From: row.From, To: row.To, Limit: row.Rests != "quality", Days: row.To,
		Source: row.Source.Text, How: How(row.Source.How)}
	if _, known := tables().kindIndex[Kind(row.Rests)]; known {
		if l := strictest(limitsOf(Kind(row.Rests)).refrigerator); l.Applies() && l.Minutes < s.To*24*60 {
			s.Days, s.Stricter = max(1, l.Minutes/(24*60)), l
		}
	}
	return s
}
