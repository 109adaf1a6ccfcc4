package planner

import (
	_ "embed"
	"strings"
	"sync"

	"tureen/planner/food"
	"tureen/planner/measure"
)

// same.tsv: what is bought as one thing under several names.
//
//go:embed same.tsv
var sameTable string

type sameName struct {
	as   string
	unit measure.Unit // "*": as it is
}

var sameNames = sync.OnceValue(func() map[string]sameName {
	t := map[string]sameName{}
	for _, row := range strings.Split(strings.TrimSpace(sameTable), "\n")[1:] {
		if strings.HasPrefix(row, "#") {
			continue
		}
		f := strings.Split(row, "\t")
		as, unit, _ := strings.Cut(f[2], "|")
		t[f[0]+"\t"+f[1]] = sameName{as, measure.Unit(unit)}
	}
	return t
})

// sizesOf are the words for how large one of a thing is.
var sizesOf = []string{"small", "medium", "large", "big", "medium-sized", "large-sized", "small-sized", "smallish",
	"largish"}

// WithoutSize is a name without the word for how large one of it is: "large onions" are onions. It stays where the
// amount is no number of them.
func WithoutSize(name string, q measure.Quantity) string {
	if q.IsZero() || q.Unit() != measure.Each {
		return name
	}
	first, rest, _ := strings.Cut(strings.TrimSpace(name), " ")
	for _, s := range sizesOf {
		if strings.EqualFold(first, s) && strings.TrimSpace(rest) != "" {
			if _, known := food.Find(rest); known {
				return rest
			}
		}
	}
	return name
}

// BoughtAs is what an ingredient is bought as, with the amount in the unit in which that is counted: whites of eggs are
// bought as eggs, sticks and ribs of celery are one, and so are onions of whatever size.
func BoughtAs(name string, q measure.Quantity) (string, measure.Quantity) {
	name = WithoutSize(name, q)
	key := string(ItemOf(name, false))
	s, ok := sameNames()[key+"\t"+string(q.Unit())]
	if !ok {
		s, ok = sameNames()[key+"\t*"]
	}
	if !ok {
		return name, q
	}
	if s.unit == "*" || q.IsZero() || q.Unit().Kind() != measure.Count {
		return s.as, q
	}
	if same, err := measure.Range(q.Low(), q.High(), s.unit); err == nil {
		q = same
	}
	return s.as, q
}
