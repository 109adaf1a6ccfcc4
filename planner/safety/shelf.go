package safety

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"tureen/planner/words"
)

// shelf.csv: how many days food that was bought fresh keeps in the refrigerator. The columns from id on are
// those of the project's reference table, unchanged; names are what cooks call it, and rests says of which kind of
// kinds.csv it is, so that the strictest limit of that kind holds too; bacon, of which the figure is a limit but
// which is no kind there; or quality: common practice, no source.
//
//go:embed shelf.csv
var shelfCSV string

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
	switch {
	case s.To == 1:
		return "1 day"
	case s.From == s.To:
		return fmt.Sprintf("%d days", s.To)
	}
	return fmt.Sprintf("%d to %d days", s.From, s.To)
}

// String is the sentence that a day to buy rests on.
func (s ShelfLife) String() string {
	text := fmt.Sprintf("%s: %s in the refrigerator from purchase (%s)", s.Name, s.Figure(), s.Source)
	if s.Stricter.Applies() {
		text += fmt.Sprintf("; taken as %s (%s)", span(s.Days*24*60), s.Stricter.Source)
	}
	return text
}

var shelf = sync.OnceValue(func() map[string]*ShelfLife {
	t := map[string]*ShelfLife{}
	for _, m := range records("shelf.csv", shelfCSV) {
		s := &ShelfLife{Name: strings.ToLower(m["name"]), Limit: m["rests"] != "quality", Source: m["source"], How: How(m["how"])}
		if m["subtitle"] != "" {
			s.Name += ", " + m["subtitle"]
		}
		var err, err2 error
		s.From, err = strconv.Atoi(m["fridge_min_days"])
		s.To, err2 = strconv.Atoi(m["fridge_max_days"])
		if err != nil || err2 != nil || s.To < s.From {
			panic("safety: shelf.csv: " + m["id"])
		}
		s.Days = s.To
		if _, known := tables().kindIndex[Kind(m["rests"])]; known {
			if l := strictest(Kind(m["rests"]).row().refrigerator); l.Applies() && l.Minutes < s.To*24*60 {
				s.Days, s.Stricter = max(1, l.Minutes/(24*60)), l
			}
		}
		for _, name := range strings.Split(m["names"], "|") {
			if _, twice := t[name]; twice {
				panic("safety: shelf.csv: " + name + " is two things")
			}
			t[name] = s
		}
	}
	return t
})

// shelfPlain are words before a name that change nothing about how long it keeps.
var shelfPlain = map[string]bool{
	"fresh": true, "ripe": true, "large": true, "small": true, "medium": true, "raw": true, "firm": true, "free": true, "range": true, "organic": true,
	"boneless": true, "skinless": true, "lean": true, "good": true, "unwaxed": true, "baby": true, "young": true,
}

// notFresh are words that say that something was not bought fresh, or is not the thing itself.
var notFresh = []string{"dried", "tinned", "canned", "stock", "juice", "oil", "paste", "powder", "smoked", "cooked", "ground", "sauce", "vinegar", "sun-dried", "frozen", "jar", "pickled", "fat"}

// Shelf is how long an ingredient keeps in the refrigerator once it is bought fresh, by its name in the
// singular or plural; nil where the table does not have it. The caller must not change it. Dried, tinned and cooked things are not
// in it, nor is what only begins with a name: chicken stock is no chicken.
func Shelf(name string) *ShelfLife {
	name, _, _ = strings.Cut(strings.ToLower(name), ",")
	name, _, _ = strings.Cut(name, "(")
	said := strings.Fields(strings.ReplaceAll(name, "'", ""))
	for i := range said {
		said[i] = words.Singular(said[i])
	}
	t := shelf()
	if s := t[strings.Join(said, " ")]; s != nil {
		return s
	}
	for _, w := range notFresh {
		for _, v := range said {
			if v == w {
				return nil
			}
		}
	}
	for len(said) > 1 && shelfPlain[said[0]] {
		said = said[1:]
		if s := t[strings.Join(said, " ")]; s != nil {
			return s
		}
	}
	return nil
}
