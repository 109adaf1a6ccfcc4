package propose

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"tureen/planner"
	"tureen/planner/words"
)

//go:embed out.tsv
var outTSV string

// outPhrases are the words that say that food stands out while people help themselves, or where nothing cools it.
var outPhrases = sync.OnceValue(func() []string {
	var out []string
	for _, row := range words.Rows("out.tsv", outTSV, 3) {
		out = append(out, strings.Split(row[0], "|")...)
	}
	return out
})

// StandsOut says whether a dish stands out from when it is served until the end of service: as somebody has said of it
// or of its course, else by its words or its course's. Of its steps only the last speak of how it is served: "salt, and
// leave out of the refrigerator" is work before it.
func StandsOut(p *planner.Party, d *planner.Dish) bool {
	c := p.Course(d.Course)
	if d.Out == "" && c != nil && c.Out != "" {
		return c.Out == planner.Yes
	}
	if d.Out != "" {
		return d.Out == planner.Yes
	}
	text := d.Name + ". " + d.Note
	if c != nil {
		text += ". " + c.Name
	}
	for i := range d.Steps {
		if s := &d.Steps[i]; !goesOn(d, s.Key) {
			text += ". " + s.Do
		}
	}
	return SaysOut(text)
}

// SaysOut says whether words are of food that stands out.
func SaysOut(text string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc(outPhrases(), func(said string) bool { return says(text, said) })
}

// goesOn says whether another step of the dish takes what a step leaves.
func goesOn(d *planner.Dish, k planner.StepKey) bool {
	return slices.ContainsFunc(d.Steps, func(next planner.Step) bool {
		return slices.ContainsFunc(next.After, func(a planner.After) bool { return a.Dish == "" && a.Step == k })
	})
}

// says tells whether a text has a phrase in whole words, which may have an s behind them, and is not about what the
// food
// is taken out of.
func says(text, phrase string) bool {
	letter := func(s string, first bool) bool {
		r, _ := utf8.DecodeRuneInString(s)
		if !first {
			r, _ = utf8.DecodeLastRuneInString(s)
		}
		return unicode.IsLetter(r)
	}
	for {
		at := strings.Index(text, phrase)
		if at < 0 {
			return false
		}
		before, after := text[:at], strings.TrimPrefix(text[at+len(phrase):], "s")
		if !letter(before, false) && !letter(after, true) && !strings.HasPrefix(after, " of ") {
			return true
		}
		text = text[at+len(phrase):]
	}
}

// How long a buffet stands after the last course is served, in minutes, and how often platters are thought of; common
// practice, no source.
const (
	standsFor    = 60
	mostPlatters = 3
)

// longestOut is how long anything stands out before it is taken in: three quarters of the published time, so that some
// is left for what it stood before it came to the table. Our own margin, no source.
func longestOut(p *planner.Party) planner.Minutes {
	return planner.Minutes(p.CounterLimit().Minutes * 3 / 4)
}

// OnTable is for how long after the last serving of its course a dish that stands out counts on the counter's clock
// (rule 2): to the end of service, or until it is taken in if that is sooner; 0 for any other dish.
func OnTable(p *planner.Party, d *planner.Dish) planner.Minutes {
	c := p.Course(d.Course)
	if c == nil || len(c.Servings) == 0 || !StandsOut(p, d) {
		return 0
	}
	return min(longestOut(p), planner.Minutes(words.Minutes(endOfService(p).Sub(latest(c)))))
}

// endOfService is when a buffet is over.
func endOfService(p *planner.Party) time.Time {
	end := time.Time{}
	for i := range p.Courses {
		end = planner.Later(end, latest(&p.Courses[i]))
	}
	return end.Add(standsFor * time.Minute)
}

// platters proposes to take in what stands out of a course, or to put fresh platters in its place, before the published
// time at room temperature is over; what stands when the leftovers are put away goes with them. It answers the keys of
// the courses of which all that spoils stands out, and by when what is left of them then is taken in.
func (w *proposer) platters(leftovers time.Time) map[planner.CourseKey]time.Time {
	limit, long := w.p.CounterLimit(), longestOut(w.p)
	standing := map[planner.CourseKey]time.Time{}
	for i := range w.p.Courses {
		c := &w.p.Courses[i]
		if len(c.Servings) == 0 {
			continue
		}
		var names []string
		others := false
		for j := range w.p.Dishes {
			if d := &w.p.Dishes[j]; d.Course == c.Key && Spoils(w.p, d) {
				if !StandsOut(w.p, d) {
					others = true
				} else if names = append(names, d.Name); d.BroughtBy != "" {
					names[len(names)-1] = "the " + words.Lower(d.Name)
				}
			}
		}
		if len(names) == 0 {
			continue
		}
		by := earliest(c).Add(-c.Servings[0].Early.Duration()).Add(long.Duration())
		for n := planner.Minutes(1); n <= mostPlatters && by.Before(leftovers.Add(putAway*time.Minute)); n++ {
			at := by
			chore := planner.Chore{Key: w.freeKey("platters " + string(c.Key)), Kind: planner.Other,
				Attention: planner.Hands, MaxHands: 2, Time: about(putAway),
				From: &planner.Anchor{Course: c.Key, Offset: long*n - 2*putAway - c.Servings[0].Early},
				By:   []planner.Anchor{{At: &at}},
				Do:   fmt.Sprintf("Take in what stands out of %s, or put out fresh platters", words.And(names)),
				Note: fmt.Sprintf("Out of the cold for %s in all (%s), and %s of that here, our own figure. What has stood "+
					"longer is thrown away; fresh food goes onto a clean platter, not onto what has stood.", limit.Figure(),
					limit.Source, words.Length(long)),
			}
			if w.canEnd(&chore, by.Add(-2*putAway*time.Minute), by) {
				w.add(chore)
			}
			by = by.Add(long.Duration())
		}
		if !others {
			standing[c.Key] = by
		}
	}
	return standing
}
