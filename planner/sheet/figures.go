package sheet

import (
	"fmt"

	"tureen/planner"
	"tureen/planner/words"
)

// Figures says in plain words how good a plan is, a line a level, and how sure that is.
func Figures(plan *planner.Plan) []string {
	var out []string
	if plan.Status == planner.Optimal {
		out = append(out, "No plan is better: that is proved.")
	} else {
		out = append(out, "The plan keeps every rule. A better one may exist.")
	}
	for _, l := range plan.Levels {
		text := levelText(l)
		if text == "" {
			continue
		}
		switch {
		case l.Proved || l.Value <= l.Bound:
			if l.Value > 0 {
				text += " (no plan does better)"
			}
		case l.Name != planner.Spare && l.Name != planner.Steady:
			text += " (at best " + atBest(l) + ")"
		}
		out = append(out, text)
	}
	return out
}

func levelText(l planner.Level) string {
	zero := l.Value == 0
	switch l.Name {
	case planner.OnTime:
		if zero {
			return "Courses: each at its time, to the five minutes."
		}
		return fmt.Sprintf("Courses: %s off their times, all together.", words.Short(5*l.Value))
	case planner.HostFree:
		if zero {
			return "Host: hands free from half an hour before the guests to the last course."
		}
		return fmt.Sprintf("Host: busy in %s while the guests are there.", quarters(l.Value))
	case planner.AtBest:
		if zero {
			return "Food: everything waits only as long as is good for it."
		}
		return fmt.Sprintf("Food: not all waits just as is good for it, %s:"+
			" up to an hour off is 1, up to six 2, up to a day 3, more 4.", points(l.Value))
	case planner.Steady:
		if zero {
			return "Changes: nothing that people were told has moved much."
		}
		return fmt.Sprintf("Changes to what people were told, %s:"+
			" another hour is 1, another person 2, another day 3.", points(l.Value))
	case planner.Ahead:
		if zero {
			return "Ahead: all is done before the day, or as near to it as is wanted."
		}
		return fmt.Sprintf("Ahead: %s for work on the day: 1 for each quarter of an hour of hands, and each hour of "+
			"watching, "+
			"in the morning; 2 later, 4 in the last four hours before the guests, 8 from an hour before them.", points(l.Value))
	case planner.Calm:
		if zero {
			return "Calm: no hands work is left."
		}
		return fmt.Sprintf("Calm: %s or fewer: 2 for a session before the day, and 1 for each day before the eve and each "+
			"half "+
			"hour too long; 2 for a late end; 1 for each part of the party's day, and each quarter of an hour around dinner; "+
			"4 for a night.", points(4*l.Value))
	case planner.Shared:
		return fmt.Sprintf("Work: the busiest person has about %s of hands work.", words.Short(30*l.Value))
	case planner.Spare:
		if zero {
			return "Time to spare: every task may run ten minutes over."
		}
		if l.Value == 1 {
			return "Time to spare: one task may not run ten minutes over."
		}
		return fmt.Sprintf("Time to spare: %d tasks may not run ten minutes over.", l.Value)
	}
	return ""
}

// atBest is a level's bound in the words of its figure.
func atBest(l planner.Level) string {
	switch l.Name {
	case planner.OnTime:
		return words.Short(5 * l.Bound)
	case planner.Calm:
		return fmt.Sprint(4 * l.Bound)
	case planner.HostFree:
		return quarters(l.Bound)
	case planner.Shared:
		return words.Short(30 * l.Bound)
	}
	return fmt.Sprint(l.Bound)
}

func points(n int) string {
	if n == 1 {
		return "1 point"
	}
	return fmt.Sprintf("%d points", n)
}

func quarters(n int) string {
	switch n {
	case 0:
		return "none"
	case 1:
		return "one quarter of an hour"
	}
	return fmt.Sprintf("%d quarters of an hour", n)
}
