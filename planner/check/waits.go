package check

import (
	"tureen/planner"
	"tureen/planner/words"
)

// waits checks rule 1. Of each wait at most one break is named, the gravest.
func (c *checker) waits() {
	for _, a := range c.lags {
		c.lag(a)
	}
	for _, a := range c.arcs {
		c.arc(a)
	}
	for _, w := range c.steps {
		c.rounds(w)
	}
	for _, a := range c.serves {
		c.serveWait(a)
	}
}

// asked says whether rule 1 holds for a wait before a task: not when the task is settled, since either the one before
// is settled too, or it comes too late to matter.
func asked(later *workJob) bool { return !later.settled }

func (c *checker) lag(a *foodArc) {
	for _, p := range a.from.jobs {
		for _, s := range a.to.jobs {
			if !asked(s) {
				continue
			}
			if c.gapBroken(p, s, "the start of", gap(p.start, s.start), a.wait, false) {
				return
			}
		}
	}
}

func (c *checker) arc(a *foodArc) {
	for _, p := range a.from.jobs {
		for _, s := range a.to.jobs {
			if !asked(s) {
				continue
			}
			if c.gapBroken(p, s, "the end of", gap(p.end, s.start), a.wait, c.plan.Soft) {
				a.straight = true
				return
			}
		}
	}
	if a.wait.State != planner.Straight {
		return
	}
	p, s := lastEnd(a.from.jobs), firstStart(a.to.jobs)
	if p == nil || s == nil || !asked(s) || c.plan.Soft && p.settled {
		return
	}
	if g := gap(p.end, s.start); g != 0 {
		a.straight = true
		c.broken(RuleWaits, s.key, "%s goes straight on after %s, but starts %s later.", s.label(), p.label(),
			words.Length(g))
	}
}

// gapBroken reports the first limit of a wait that a gap breaks: since the start or the end of a task, to the next.
func (c *checker) gapBroken(from, to *workJob, since string, g int, w planner.Wait, worthMissed bool) bool {
	limit := ""
	switch {
	case g < 0:
		c.broken(RuleWaits, to.key, "%s starts %s before %s %s.", to.label(), words.Length(-g), since, from.label())
		return true
	case g < int(w.Least):
		limit = words.Length(w.Least) + " is the least"
	case w.Longest != 0 && g > int(w.Longest):
		limit = words.Length(w.Longest) + " is the most"
	case w.WorthUntil != 0 && g > int(w.WorthUntil) && !worthMissed:
		limit = "beyond " + words.Length(w.WorthUntil) + " it is not worth serving"
	default:
		return false
	}
	c.broken(RuleWaits, to.key, "%s starts %s after %s %s; %s.", to.label(), words.Length(g), since, from.label(), limit)
	return true
}

// rounds checks that a step's rounds start in order, RoundGap apart.
func (c *checker) rounds(w *workStep) {
	for i := 1; i < len(w.jobs); i++ {
		a, b := w.jobs[i-1], w.jobs[i]
		if !asked(b) {
			continue
		}
		least := 0
		if w.step.Grows == planner.InRounds {
			least = int(w.step.RoundGap)
		}
		switch g := gap(a.start, b.start); {
		case g < 0:
			c.broken(RuleWaits, b.key, "%s starts before the round before it.", b.label())
		case g < least:
			c.broken(RuleWaits, b.key, "%s starts %s after the round before it; %s is the least.", b.label(), words.Length(g),
				words.Length(least))
		}
	}
}

// serveWait checks how long food waits for its service. Food that is not ready is rule 6's.
func (c *checker) serveWait(a *serveArc) {
	if !a.complete || len(a.from.jobs) == 0 {
		return
	}
	if late := lastEnd(a.from.jobs); late.end.After(a.first) {
		c.broken(RuleService, late.key, "%s is not ready at %s, when %s is served; it ends at %s.", late.label(),
			c.at(a.first),
			a.course, c.at(late.end))
		a.straight = true
		return
	}
	for _, j := range a.from.jobs {
		if c.serveBroken(a, j) {
			return
		}
	}
	if j := lastEnd(a.from.jobs); a.wait.State == planner.Straight && !j.end.Equal(a.first) &&
		(!c.plan.Soft || !j.settled) {
		a.straight = true
		c.broken(RuleWaits, j.key, "%s is served straight on, but %s is served %s after its end.", j.label(), a.course,
			words.Length(gap(j.end, a.first)))
	}
}

func (c *checker) serveBroken(a *serveArc, j *workJob) bool {
	toFirst, toLast := gap(j.end, a.first), gap(j.end, a.last)
	switch w := a.wait; {
	case toFirst < int(w.Least):
		c.broken(RuleWaits, j.key, "%s ends %s before its service; %s is the least.", j.label(), words.Length(toFirst),
			words.Length(w.Least))
	case w.Longest != 0 && toLast > int(w.Longest):
		c.broken(RuleWaits, j.key, "%s ends %s before its last service; %s is the most.", j.label(), words.Length(toLast),
			words.Length(w.Longest))
	case w.WorthUntil != 0 && toLast > int(w.WorthUntil) && !c.plan.Soft:
		c.broken(RuleWaits, j.key, "%s ends %s before its last service; beyond %s it is not worth serving.", j.label(),
			words.Length(toLast), words.Length(w.WorthUntil))
	default:
		return false
	}
	return true
}
