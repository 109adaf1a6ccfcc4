package bot

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// A course of a usual name need not be added before there is a dish for it: it comes with its first dish, at its usual
// time after the guests.

//go:embed usualcourses.tsv
var usualCourseTable string

// usualCourse is a course that people have, and how long after the guests it is served.
type usualCourse struct {
	name   string
	called []string
	after  time.Duration
}

var usualCourses = usualFrom(words.Rows("usualcourses.tsv", usualCourseTable, 4))

func usualFrom(rows [][]string) (out []usualCourse) {
	for _, r := range rows {
		minutes, err := strconv.Atoi(r[1])
		if err != nil {
			panic("bot: usualcourses.tsv: " + err.Error())
		}
		out = append(out, usualCourse{r[0], append([]string{r[0]}, strings.Split(r[2], ", ")...),
			time.Duration(minutes) * time.Minute})
	}
	return out
}

// usualNamed is which of the usual courses a name means; -1: none.
func usualNamed(name string) int {
	return slices.IndexFunc(usualCourses, func(u usualCourse) bool {
		return slices.ContainsFunc(u.called, func(w string) bool { return words.Fold(w) == words.Fold(name) })
	})
}

// apart is how far from the course before it one is served that goes between two others.
const apart = 15 * time.Minute

// usualCourse adds a course of a usual name that the party does not have, and says so in the reply; ok is false where
// the name is none of these.
func (t *Turn) usualCourse(name string) (planner.CourseKey, bool) {
	i := usualNamed(name)
	if i < 0 {
		return "", false
	}
	for c := range t.Party.Courses {
		if x := &t.Party.Courses[c]; usualNamed(x.Name) == i {
			return x.Key, true
		}
	}
	at := t.between(i)
	shown := words.Upper(usualCourses[i].name)
	if err := t.addCourse(shown, planner.Serving{At: at, Early: startEarly, Late: startLate}); err != nil {
		return "", false
	}
	t.came = append(t.came, fmt.Sprintf("%s is a course now, at %s; /course change course:%s at:… moves it.", shown,
		t.clock(at), planner.Key(shown)))
	return planner.CourseKey(planner.Key(shown)), true
}

// between is the usual time of a course, as far as those that come before and after it at the party allow.
func (t *Turn) between(i int) time.Time {
	at := t.Party.Arrival.Add(usualCourses[i].after)
	var before, after time.Time
	for c := range t.Party.Courses {
		x := &t.Party.Courses[c]
		j := usualNamed(x.Name)
		switch first := firstServing(x); {
		case j < 0 || j == i:
		case j < i && first.After(before):
			before = first
		case j > i && (after.IsZero() || first.Before(after)):
			after = first
		}
	}
	if !before.IsZero() && at.Before(before.Add(apart)) {
		at = before.Add(apart)
	}
	if !after.IsZero() && at.After(after.Add(-apart)) {
		if at = after.Add(-apart); at.Before(before) {
			at = before.Add(after.Sub(before) / 2).Truncate(time.Minute)
		}
	}
	return at
}
