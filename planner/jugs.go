package planner

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"
	"sync"

	"tureen/planner/words"
)

// jugs.tsv: closed appliances that are not filled with what is hot, and to what part of them they are.
//
//go:embed jugs.tsv
var jugsTSV string

type jug struct {
	names, unless []string
	part          int // 2: a half
}

var jugs = sync.OnceValue(func() []jug {
	var out []jug
	for _, row := range words.Rows("jugs.tsv", jugsTSV, 5) {
		n, err := strconv.Atoi(row[2])
		if err != nil || n < 1 {
			panic("jugs.tsv: " + row[2])
		}
		out = append(out, jug{strings.Split(row[0], "|"), strings.Split(row[1], "|"), n})
	}
	return out
})

// coolsEnough is how many minutes on the counter take the burst out of hot liquid; common practice, no source.
const coolsEnough = 20

// HotPart is to what part an appliance of a step is filled: 2 is a half, 1 all of it. Only what comes from the heat
// counts, and what has not cooled since.
func HotPart(d *Dish, s *Step, u *Use) int {
	if u.What != AnAppliance || !slices.ContainsFunc(s.After, func(a After) bool {
		from := d.Step(a.Step)
		w := a.Wait
		return from != nil && !a.FromStart && (a.Dish == "" || a.Dish == d.Key) && from.heats() &&
			(w.State == Straight || w.State == HotHold || (w.State == Counter || w.State == Warm) && w.Least < coolsEnough)
	}) {
		return 1
	}
	name := words.Fold(u.Name)
	said := func(w string) bool { return strings.Contains(name, w) }
	for _, j := range jugs() {
		if slices.ContainsFunc(j.names, said) && !slices.ContainsFunc(j.unless, said) {
			return j.part
		}
	}
	return 1
}

// heats says whether a step has its food on or in the heat.
func (s *Step) heats() bool {
	return s.Cooks || s.Where == Heat || slices.ContainsFunc(s.Uses, func(u Use) bool {
		return u.What == AnOven && u.C > 0 || u.What == ABurner || u.What == AGrill
	})
}
