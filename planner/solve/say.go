package solve

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/cp"
	"tureen/planner/mend"
	"tureen/planner/propose"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
)

// This file has the requirements of a party as sentences, and the conditions (see model.need) that carry them.

func (m *model) needNow() []cp.Lit {
	return m.need("now", func() Requirement { return Requirement{Text: m.saySince()} })
}

func (m *model) needSoonest(j *duty) []cp.Lit {
	return m.need("soonest "+string(j.Key), func() Requirement {
		return Requirement{Text: fmt.Sprintf("%s is to begin at %s at the earliest.", j.label(),
			m.clockTime(m.instant(j.soonest))), Task: j.Key}
	})
}

func (m *model) needBefore(j *duty) []cp.Lit {
	return m.need("before "+string(j.Key), func() Requirement {
		return Requirement{Text: fmt.Sprintf("%s is to begin before %s.", j.label(), m.clockTime(m.instant(j.before))),
			Task: j.Key}
	})
}

func (m *model) needHours(p int) []cp.Lit {
	if !m.explain {
		return nil
	}
	who := m.people[p]
	return m.need("hours "+string(who.Key), func() Requirement { return Requirement{Text: m.sayHours(p)} })
}

func (m *model) needHands(p int) []cp.Lit {
	who := m.people[p]
	return m.need("hands "+string(who.Key), func() Requirement {
		return Requirement{Text: fmt.Sprintf("%s has one pair of hands.", who.Name)}
	})
}

func (m *model) needOven(k int) []cp.Lit {
	o := &m.p.Kitchen.Ovens[k]
	return m.need("oven "+o.Name, func() Requirement { return Requirement{Text: m.sayOven(o)} })
}

func (m *model) needMax(k int) []cp.Lit {
	a := m.arcs[k]
	return m.need(fmt.Sprintf("max %d", k), func() Requirement {
		return Requirement{Text: m.sayWait(a, a.wait.Longest) + " (safety limit).", Task: m.taskOf(a), Limit: true}
	})
}

func (m *model) needFloor(k int) []cp.Lit {
	a := m.arcs[k]
	return m.need(fmt.Sprintf("floor %d", k), func() Requirement {
		return Requirement{Text: m.sayWait(a, a.wait.WorthUntil) + " to be worth serving.", Task: m.taskOf(a)}
	})
}

func (m *model) needStraight(k int) []cp.Lit {
	if !m.names {
		return nil
	}
	a := m.arcs[k]
	return m.need(fmt.Sprintf("straight on %d", k), func() Requirement {
		from := m.nodes[a.from].jobs[0]
		if a.to < 0 {
			return Requirement{Text: fmt.Sprintf("%s is served right when it ends.", from.label()), Task: from.Key}
		}
		return Requirement{Text: fmt.Sprintf("%s begins right when %s ends%s.", m.nodes[a.to].jobs[0].label(),
			from.label(), m.alsoAfter(a)), Task: from.Key}
	})
}

// alsoAfter names what else a step comes after, which may take longer.
func (m *model) alsoAfter(a arc) string {
	var others []string
	for _, k := range m.nodes[a.to].in {
		if o := m.arcs[k]; o.from != a.from {
			others = append(others, m.nodes[o.from].jobs[0].label())
		}
	}
	if len(others) == 0 {
		return ""
	}
	return ", and also comes after " + words.And(others)
}

func (m *model) needCounter(j *duty) []cp.Lit {
	return m.need("counter "+string(j.Dish), func() Requirement { return m.sayCounter(j) })
}

func (m *model) needRefrigerator(j *duty, k safety.Kind) []cp.Lit {
	return m.need("refrigerator "+string(j.Key), func() Requirement { return m.sayRefrigerator(j, k) })
}

func (m *model) taskOf(a arc) planner.TaskKey { return m.nodes[a.from].jobs[0].Key }

// clockTime is an instant as people say it: "Sat 17:35".
func (g *graph) clockTime(t time.Time) string { return words.Stamp(t, words.DayClock, g.p.Location()) }

func (g *graph) sayServing(c *planner.Course, s *planner.Serving) string {
	name := "The " + c.Named()
	if s.Group != "" {
		name += " for " + s.Group
	}
	from, to := s.At.Add(-s.Early.Duration()), s.At.Add(s.Late.Duration())
	if from.Equal(to) {
		return fmt.Sprintf("%s is served at %s.", name, g.clockTime(s.At))
	}
	return fmt.Sprintf("%s is served between %s and %s.", name, g.clockTime(from),
		words.Stamp(to, words.Clock, g.p.Location()))
}

func (g *graph) saySince() string {
	if g.now > 0 {
		return fmt.Sprintf("It is %s already: nothing can be done earlier.", g.clockTime(g.instant(g.now)))
	}
	if g.p.PrepDays == 0 {
		return "There is no prep day: work begins on the day of the party."
	}
	return fmt.Sprintf("Prep begins on %s.",
		words.StampAs(g.origin, words.Date, g.origin.In(g.p.Location()).Format("Monday")))
}

func (g *graph) sayHours(p int) string {
	who := g.people[p]
	var parts []string
	for _, w := range g.p.CookingHours(who) {
		if w.To.After(g.instant(g.now)) {
			parts = append(parts, fmt.Sprintf("%s to %s", g.clockTime(w.From), words.Stamp(w.To, words.Clock, g.p.Location())))
		}
	}
	if len(parts) == 0 {
		return fmt.Sprintf("%s has no cooking hours.", who.Name)
	}
	return fmt.Sprintf("%s cooks only %s.", who.Name, strings.Join(parts, ", "))
}

func (g *graph) sayNobody(j *duty) string {
	if j.claim >= 0 {
		return g.sayClaim(j) + " " + g.sayWho(j)
	}
	if j.Hands > len(g.people) {
		return fmt.Sprintf("%s needs %d people, and there are %d.", j.label(), j.Hands, len(g.people))
	}
	return g.sayWho(j)
}

func (g *graph) sayWho(j *duty) string {
	switch {
	case j.Who.Person != "" && j.Who.Skill != "":
		return fmt.Sprintf("%s is for %s, who needs the skill %s.", j.label(), g.personName(j.Who.Person), j.Who.Skill)
	case j.Who.Person != "":
		return fmt.Sprintf("%s is for %s.", j.label(), g.personName(j.Who.Person))
	case len(j.lead) == 0:
		return fmt.Sprintf("%s needs the skill %s, which nobody has.", j.label(), j.Who.Skill)
	}
	return fmt.Sprintf("%s needs the skill %s.", j.label(), j.Who.Skill)
}

func (g *graph) personName(k planner.PersonKey) string {
	if p := g.p.Person(k); p != nil {
		return p.Name
	}
	return string(k)
}

func (g *graph) sayClaim(j *duty) string {
	return fmt.Sprintf("%s has claimed %s.", g.people[j.claim].Name, j.label())
}

// sayWait is the beginning of a sentence on how long food may wait.
func (m *model) sayWait(a arc, length planner.Minutes) string {
	n := m.nodes[a.from]
	until := "before service"
	if a.to >= 0 {
		until = "for “" + m.nodes[a.to].step.Do + "”"
	}
	if a.fromStart {
		return fmt.Sprintf("From the start of %s no more than %s may pass %s", n.jobs[0].label(), words.Short(length),
			until)
	}
	return fmt.Sprintf("After %s the food may wait at most %s %s", n.jobs[0].label(), words.Short(length), until)
}

// sayCounter and sayRefrigerator say a clock's limit; the figure is always the table's, whatever the party asks for.
func (m *model) sayCounter(j *duty) Requirement {
	l := m.p.CounterLimit()
	text := fmt.Sprintf("%s may be out of the cold for at most %s%s in all its waits together (published limit: %s).",
		j.node.dish.Name, words.Short(l.Minutes), l.Air(), l.Source)
	if j.food.Dough {
		text = fmt.Sprintf("%s, a raw dough with egg or milk, may be out of the cold for at most %s in all: our own figure, "+
			"twice that of %s.", j.node.dish.Name, words.Short(m.counterLimit(j)), l.Source)
	}
	if j.way > 0 {
		text += fmt.Sprintf(" Its way here is %s of that.", words.Short(j.way))
	}
	if long := propose.OnTable(m.p, j.node.dish); long > 0 {
		text += fmt.Sprintf(" It stands out, which is %s of that after it is served.", words.Short(long))
	}
	return Requirement{Task: j.Key, Limit: true, Text: text + m.sayStay(j.node.dish, l.Minutes)}
}

// saySoon says how soon cooked food is in the cold.
func (m *model) saySoon(j *duty) Requirement {
	l, what := j.soon.Limit, "it"
	if l == safety.IntoTheCold(safety.Rice, float64(m.p.AirC())) {
		what = "its rice"
	}
	text := fmt.Sprintf("%s must be in the cold %s after %s has left the heat%s (published limit: %s)", j.node.dish.Name,
		l.Figure(), what, l.Air(), l.Source)
	if j.soon.Steam > 0 && !j.settled {
		text += fmt.Sprintf(", of which it steams off for %s", words.Short(j.soon.Steam))
	}
	return Requirement{Task: j.Key, Limit: true, Text: text + "."}
}

// sayStay says of a dish which stay out of the cold is too long by itself, and what to type so that it is in the cold.
func (m *model) sayStay(d *planner.Dish, most int) string {
	for i := range m.arcs {
		a := &m.arcs[i]
		from := m.nodes[a.from]
		if from.dish != d || a.fromStart || !perishable(from.jobs[0]) || int(a.wait.Least) <= most ||
			a.wait.State != planner.Counter && a.wait.State != planner.Warm {
			continue
		}
		if a.to < 0 {
			return fmt.Sprintf(" After %s it would stand for %s: /step serve step:%s/%s wait:refrigerator lets it wait in the "+
				"cold.",
				from.jobs[0].label(), words.Short(a.wait.Least), d.Key, from.step.Key)
		}
		return fmt.Sprintf(" After %s it would stand for %s: /step after step:%s/%s of:%s/%s wait:refrigerator lets it "+
			"wait in "+
			"the cold.", from.jobs[0].label(), words.Short(a.wait.Least), m.nodes[a.to].dish.Key, m.nodes[a.to].step.Key, d.Key,
			from.step.Key)
	}
	for _, n := range m.nodes {
		j := n.jobs[0]
		if n.dish == d && perishable(j) && j.where == planner.Counter && !j.food.Hot && int(n.step.Time.Likely) > most {
			in := "where:refrigerator puts it into the cold."
			if left := most - int(propose.OnTable(m.p, d)); propose.SaysOut(n.step.Do) && left > 1 {
				in = fmt.Sprintf("time:%dm sets a part of it out; the rest waits in the refrigerator until that is eaten.", left/2)
			} else if trace.PlaceIn(n.step.Do) != "" { // with where: alone its words would still have it out
				in = "where:refrigerator do:… puts it into the cold, in words that say so too."
			}
			return fmt.Sprintf(" %s takes %s: /step change step:%s/%s %s", j.label(), words.Short(n.step.Time.Likely), d.Key,
				n.step.Key, in)
		}
	}
	return ""
}

func (m *model) sayRefrigerator(j *duty, k safety.Kind) Requirement {
	l := m.p.RefrigeratorLimit(k)
	return Requirement{Task: j.Key, Limit: true,
		Text: fmt.Sprintf("%s may be in the refrigerator for at most %s in all as "+
			"%s (%s).", j.node.dish.Name, words.Short(l.Minutes), k.Label(), l.By())}
}

func (m *model) sayBy(j *duty, a planner.Anchor) string {
	switch {
	case a.At != nil:
		return fmt.Sprintf("%s must be done by %s.", j.label(), m.clockTime(a.At.Add(a.Offset.Duration())))
	case a.Arrival:
		return fmt.Sprintf("%s must be done by %s, for the guests' arrival.", j.label(),
			m.clockTime(m.p.Arrival.Add(a.Offset.Duration())))
	case a.Course != "":
		return fmt.Sprintf("%s must be done before the %s is served.", j.label(), a.Course)
	}
	return fmt.Sprintf("%s must be done before %s.", j.label(), m.name(a.Task))
}

// sayWare says how much of a thing there is and who wants it.
func (m *model) sayWare(what planner.Equipment, name string, have int, held []int) string {
	var wants []string
	for _, i := range held {
		if l := m.held[i].job.label(); !m.held[i].settled && !slices.Contains(wants, l) {
			wants = append(wants, l)
		}
	}
	return fmt.Sprintf("The kitchen has %s for %s.", countOf(have, what, name), words.Few(wants, fewSaid))
}

// fewSaid is how many names stand in a sentence before the rest is counted.
const fewSaid = 4

func countOf(n int, what planner.Equipment, name string) string {
	noun := mend.EquipmentName(what, name)
	switch {
	case n == 0:
		return "no " + noun
	case n == 1:
		return "one " + noun
	case what == planner.ACounter:
		return fmt.Sprintf("%d places at the counter", n)
	}
	return fmt.Sprintf("%d × %s", n, noun)
}

// sayTooMany says that jobs want more of a thing at once than there is.
func (m *model) sayTooMany(h *hold, have int, held []int) string {
	if have == 0 {
		return m.sayWare(h.use.What, h.use.Name, have, held)
	}
	return fmt.Sprintf("%s needs %s at once, and the kitchen has %s.", h.job.label(),
		countOf(h.use.Units(), h.use.What, h.use.Name),
		countOf(have, h.use.What, h.use.Name))
}

func (m *model) sayOven(o *planner.Oven) string {
	var wants []string
	for i := range m.loads {
		l := &m.loads[i]
		if l.settled || !slices.ContainsFunc(l.ovens, func(k int) bool { return &m.p.Kitchen.Ovens[k] == o }) {
			continue
		}
		at := "off"
		if l.use.C > 0 {
			at = fmt.Sprintf("%d °C", l.use.C)
		}
		want := fmt.Sprintf("%s (%s, %d of its shelves)", l.job.label(), at, l.use.Units())
		if !slices.Contains(wants, want) {
			wants = append(wants, want)
		}
	}
	return fmt.Sprintf("The %s has %d shelves, one temperature at a time, and needs time to change it; it is wanted for "+
		"%s.", o.Name, o.Shelves, words.Few(wants, fewSaid))
}

func (m *model) sayNoOven(h *hold) string {
	u := h.use
	if u.Name != "" && m.p.Kitchen.Oven(u.Name) == nil {
		return fmt.Sprintf("%s needs the oven “%s”, which the kitchen does not have.", h.job.label(), u.Name)
	}
	if len(m.p.Kitchen.Ovens) == 0 {
		return fmt.Sprintf("%s needs an oven, and the kitchen has none.", h.job.label())
	}
	return fmt.Sprintf("%s needs %d shelves at %d °C, which no oven of the kitchen gives.", h.job.label(), u.Units(),
		u.C)
}

func (m *model) sayCold(state planner.State, kind string, have int, in []inCold) string {
	var wants []string
	for _, c := range in {
		what := c.job.label()
		if (kind == "ml" && c.ml > 0 || kind != "ml" && c.flat > 0) && !slices.Contains(wants, what) {
			wants = append(wants, what)
		}
	}
	much := "what comes from"
	if len(in) == 1 && kind == "ml" {
		much = "the " + spaceOf(kind, in[0].ml) + " that come from"
	}
	return fmt.Sprintf("The %s has %s for %s %s.", state, spaceOf(kind, have), much, words.Few(wants, fewSaid))
}

func (m *model) sayTooLarge(c inCold, kind string, have int) string {
	want := c.ml
	if kind != "ml" {
		want = c.flat
	}
	return fmt.Sprintf("What %s leaves needs %s in the %s, which has %s.", c.job.label(), spaceOf(kind, want), c.state,
		spaceOf(kind, have))
}

func spaceOf(kind string, n int) string {
	switch {
	case kind == "ml":
		return fmt.Sprintf("%.1f litres", float64(n)/1000)
	case n == 1:
		return "one flat place"
	}
	return fmt.Sprintf("%d flat places", n)
}
