package check

import (
	"fmt"
	"time"

	"tureen/planner"
	"tureen/planner/words"
)

// courseApart is the least time between a group's courses, in minutes, where their targets allow it.
const courseApart = 15

// readServed reads when the groups are served; servings that are doubled or unknown are named by service.
func (c *checker) readServed() {
	for _, s := range c.plan.Served {
		k := servedKey{s.Course, s.Group}
		if _, ok := c.served[k]; !ok {
			c.served[k] = s.At
		}
	}
}

// service checks rule 6; that dishes are ready has been checked along with their waits.
func (c *checker) service() {
	known := map[servedKey]bool{}
	type turn struct {
		course     *planner.Course
		at, target time.Time
	}
	before := map[string]turn{}
	for i := range c.p.Courses {
		co := &c.p.Courses[i]
		for _, s := range co.Servings {
			k := servedKey{co.Key, s.Group}
			known[k] = true
			at, ok := c.served[k]
			if !ok {
				c.broken(RuleService, "", "The plan does not say when %s.", isServed(co, s.Group))
				continue
			}
			early, late := s.At.Add(-s.Early.Duration()), s.At.Add(s.Late.Duration())
			switch {
			case at.Truncate(time.Minute) != at:
				c.broken(RuleComplete, "", "%s at %s, which is no whole minute.", isServed(co, s.Group),
					at.In(c.loc).Format("Mon 15:04:05.999"))
			case at.Before(early):
				c.broken(RuleService, "", "%s at %s, before %s.", isServed(co, s.Group), c.at(at), c.at(early))
			case at.After(late) && !c.plan.Soft:
				c.broken(RuleService, "", "%s at %s, after %s.", isServed(co, s.Group), c.at(at), c.at(late))
			}
			if b, ok := before[s.Group]; ok {
				least := min(courseApart, max(gap(b.target, s.At), 0))
				if g := gap(b.at, at); g < least {
					c.broken(RuleService, "", "%s %s after %s; %s is the least.", isServed(co, s.Group), words.Length(g),
						courseName(b.course), words.Length(least))
				}
			}
			before[s.Group] = turn{co, at, s.At}
		}
	}
	seen := map[servedKey]bool{}
	for _, s := range c.plan.Served {
		k := servedKey{s.Course, s.Group}
		switch {
		case !known[k]:
			c.broken(RuleService, "", "The plan serves %s, which the party does not ask for.", servedName(s))
		case seen[k]:
			c.broken(RuleService, "", "The plan serves %s twice.", servedName(s))
		}
		seen[k] = true
	}
}

func courseName(co *planner.Course) string {
	if co.Name != "" {
		return co.Name
	}
	return string(co.Key)
}

func isServed(co *planner.Course, group string) string {
	if group == "" {
		return fmt.Sprintf("%s is served", courseName(co))
	}
	return fmt.Sprintf("%s is served to the %s", courseName(co), group)
}

func servedName(s planner.Served) string {
	if s.Group == "" {
		return string(s.Course)
	}
	return fmt.Sprintf("%s to the %s", s.Course, s.Group)
}
