package shopping

import "tureen/planner"

// Settled is a trip of which it has been noted what was bought on it.
type Settled struct {
	Chore  planner.ChoreKey
	Shop   string
	Ticked bool   // something was ticked off there
	Taken  []Line // not ticked off, and taken as bought
	Left   []Line // not ticked off where other things were: still to be bought
}

// Settle notes, for every trip that is done, what was bought on it: what was ticked off; and of the rest all of it,
// unless somebody has just said that the trip told is done, and things were ticked off on it: then what was not is
// left, and goes on another trip, since the key of one that is over is not given again. Trips of parties that were
// stored before purchases were noted are settled so, too.
func Settle(p *planner.Party, told planner.TaskKey) []Settled {
	var out []Settled
	for i := range p.Chores {
		c := &p.Chores[i]
		w := p.WorkOn(planner.ChoreTask(c.Key))
		if c.Kind != planner.Shop && c.Kind != planner.Ice || w == nil || w.Progress != planner.Done || w.Noted {
			continue
		}
		s := Settled{Chore: c.Key, Shop: c.Shop, Ticked: tickedOn(p, c.Key)}
		list := Of(p, nil)
		for j := range list.Trips {
			t := &list.Trips[j]
			if t.Chore != c.Key {
				continue
			}
			t.Each(func(l *Line) {
				switch {
				case l.Ticked:
				case s.Ticked && told == w.Task:
					s.Left = append(s.Left, *l)
				default:
					Note(p, l, planner.Got{Amounts: l.Bought(), Trip: c.Key, By: w.Person, Paid: l.Price(p), Taken: true})
					s.Taken = append(s.Taken, *l)
				}
			})
		}
		w.Noted = true
		out = append(out, s)
	}
	return out
}

func tickedOn(p *planner.Party, k planner.ChoreKey) bool {
	for i := range p.Bought {
		for _, g := range p.Bought[i].Got {
			if g.Trip == k {
				return true
			}
		}
	}
	return false
}

// Each goes through a trip's lines in order.
func (t *Trip) Each(do func(*Line)) {
	for i := range t.Sections {
		for j := range t.Sections[i].Lines {
			do(&t.Sections[i].Lines[j])
		}
	}
}

// Note adds a purchase to what was bought of a line's thing. What was used of it before, and had not been bought by
// anybody's word, is noted first, so that it is not taken out of this purchase.
func Note(p *planner.Party, l *Line, g planner.Got) {
	got := []planner.Got{g}
	if len(l.used) > 0 {
		u := planner.Got{Used: true}
		for _, q := range l.used {
			u.Amounts = append(u.Amounts, q.String())
		}
		got = []planner.Got{u, g}
	}
	if b := p.Purchased(l.Item); b != nil {
		b.Got = append(b.Got[:len(b.Got):len(b.Got)], got...)
		return
	}
	p.Bought = append(p.Bought, planner.Purchase{Item: l.Item, Name: l.Name, Got: got})
}

// Price is what a line costs, as a purchase keeps it; empty where nobody has said.
func (l *Line) Price(p *planner.Party) string {
	if l.Cost == nil {
		return ""
	}
	return l.Cost.FloatString(placesOf(p))
}

// Wanted lists what is still to be bought on a trip, as a shopper says it: "2 whole chickens", "135 g butter".
func (t *Trip) Wanted() []string {
	var out []string
	t.Each(func(l *Line) {
		if l.Ticked {
			return
		}
		name := l.Name
		if a := l.Text(); a != "" {
			name = a + " " + name
		}
		out = append(out, name)
	})
	return out
}

// Trip finds the trip of a chore; nil when there is none.
func (l *List) Trip(k planner.ChoreKey) *Trip {
	for i := range l.Trips {
		if l.Trips[i].Chore == k {
			return &l.Trips[i]
		}
	}
	return nil
}
