package sheet

import (
	"fmt"
	"math"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
)

// Chances says how often each course comes inside its window, what threatens it most, and where beginning earlier
// helps: a section a course.
func Chances(p *planner.Party, plan *planner.Plan, c check.Chances, f Format) []Section {
	v := newView(p, plan, f)
	var out []Section
	for _, x := range c.Courses {
		s := Section{Title: words.Upper(v.course(x.Course))}
		if x.Group != "" {
			s.Title += " for the " + clean(x.Group)
		}
		s.Lines = append(s.Lines, "Inside its window "+ofHundred(x.OnTime)+".")
		if x.Late > 0 {
			s.Lines = append(s.Lines, fmt.Sprintf("In the worst one of twenty it comes %s after its window, or more.",
				words.Short(x.Late)))
		}
		if t := v.tasks[x.Threat]; t != nil && x.OnTime < 1 {
			s.Lines = append(s.Lines, fmt.Sprintf("What threatens it most: %s, which may take %s to %s.", v.called(t),
				words.Short(t.Time.Low), words.Short(t.Time.High)))
		}
		if x.Because != "" {
			s.Lines = append(s.Lines, "As the plan stands it cannot begin earlier: "+words.Lower(x.Because))
		}
		if t := v.tasks[x.Earlier]; t != nil {
			what := ""
			if x.Earlier != x.Threat {
				what = v.called(t) + ": "
			}
			s.Lines = append(s.Lines,
				fmt.Sprintf("%sBegun %s earlier, %s, the course is inside its window %s. The plan allows that.",
					what,
					words.Short(x.Buffer), f.Stamp(plan.Placed(x.Earlier).Start.Add(-x.Buffer.Duration()),
						DayClock), ofHundred(x.With)))
		}
		out = append(out, s)
	}
	return out
}

// ofHundred is a chance as people say it. What is not certain is never said to be.
func ofHundred(p float64) string {
	n := int(math.Round(100 * p))
	switch {
	case p >= 1:
		return "practically always"
	case p > 0 && n == 0:
		return "hardly ever"
	case n == 1:
		return "in one evening of 100"
	case n == 100:
		n = 99
	}
	return fmt.Sprintf("in %d evenings of 100", n)
}
