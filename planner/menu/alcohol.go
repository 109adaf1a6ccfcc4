package menu

import (
	_ "embed"
	"fmt"
	"strconv"
	"sync"

	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// alcoholTSV says how much of the alcohol stays in what was simmered or baked for so long.
//
//go:embed alcohol.tsv
var alcoholTSV string

// stays are its rows, the shortest first. A fault in it is ours and every test meets it: hence the panic.
var stays = sync.OnceValue(func() (out [][2]int) {
	for _, f := range words.Rows("alcohol.tsv", alcoholTSV, 3) {
		minutes, err := strconv.Atoi(f[0])
		percent, err2 := strconv.Atoi(f[1])
		if err != nil || err2 != nil {
			panic("menu: alcohol.tsv: a number is wanted")
		}
		out = append(out, [2]int{minutes, percent})
	}
	return out
})

// cookedDown says of wine and the like in a dish how much of its alcohol stays for who is pregnant, where it is cooked
// for a while: that is a matter for her, and no plain no. Of what is poured in at the end, or flamed, most stays.
func cookedDown(d *planner.Dish, in *planner.Ingredient, f *Finding) {
	first := entersAt(d, in)
	if found, _ := safety.Against(safety.AlcoholFree, f.Word); first < 0 || len(found) == 0 {
		return
	}
	minutes, percent := planner.Minutes(0), 0
	for i := range d.Steps[first:] {
		if s := &d.Steps[first+i]; trace.Steams(s) && comesOf(d, first)[s.Key] {
			minutes += s.Time.Low
		}
	}
	for _, row := range stays() {
		if int(minutes) >= row[0] {
			percent = row[1]
		}
	}
	if percent > 0 {
		f.Sure = false
		f.Text = fmt.Sprintf("cooked for %s, about %d %% of its alcohol stays (USDA Table of Nutrient Retention Factors); "+
			"whether to eat it is for who is pregnant to say, with medical advice", words.Short(minutes), percent)
	}
}
