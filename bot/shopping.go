package bot

import (
	"context"
	"fmt"
	"strings"
	"time"

	"tureen/planner/shopping"
)

var shoppingCommands = []Command{
	{Name: "shopping list", Help: "What to buy, shop by shop, with the days between which to buy it", Access: Lookers, Example: "/shopping list", Run: shoppingList,
		Options: []Option{{Name: "shop", Help: "only this shop", Kind: Text, Example: "supermarket"}}},
}

func shoppingList(_ context.Context, t *Turn) (Reply, error) {
	l := shopping.Of(t.Party, t.Plan)
	rep := Reply{Next: "Next: /plan make, then each thing has its days"}
	if t.Plan != nil {
		rep.Next = "Next: /task claim for who goes, /task done when it is bought"
	}
	var shops []string
	n := 0
	for i := range l.Trips {
		trip := &l.Trips[i]
		name := trip.Shop
		if name == "" {
			name = "anywhere"
		}
		shops = append(shops, name)
		if s := t.text("shop"); s != "" && !strings.HasPrefix(fold(name), fold(s)) {
			continue
		}
		title := strings.TrimSuffix(sentence(name), ".")
		if !trip.Start.IsZero() {
			title += ", " + t.dayClock(trip.Start)
			if x := t.Party.Person(trip.Who); x != nil {
				title += ", " + x.Name
			}
		}
		for _, s := range trip.Sections {
			sec := Section{Title: title}
			if s.Name != "" {
				sec.Title += ": " + s.Name
			}
			for j := range s.Lines {
				sec.Lines = append(sec.Lines, t.shoppingLine(&s.Lines[j], trip))
				n++
			}
			rep.Sections = append(rep.Sections, sec)
		}
	}
	if t.has("shop") && len(rep.Sections) == 0 {
		return Reply{}, refuse("/shopping list", "Nothing is bought at %q.%s", shown(t.text("shop")), didYouMean(t.text("shop"), shops))
	}
	if !t.has("shop") && len(l.House) > 0 {
		var names []string
		for i := range l.House {
			name := l.House[i].Name
			if a := l.House[i].Text(); a != "" {
				name += " (" + a + ")"
			}
			names = append(names, name)
		}
		rep.Sections = append(rep.Sections, Section{Title: "In the house: look whether it is", Lines: []string{strings.Join(names, ", ") + "."}})
	}
	rep.Text = fmt.Sprintf("%s to buy, for %s.", count(n, "thing is", "things are"), count(t.Party.Covers, "cover", "covers"))
	if n == 0 {
		rep.Text, rep.Next = "There is nothing to buy.", "Next: "+t.nextStep()
	}
	return rep, nil
}

// shoppingLine is a thing to buy: how much, what, for which dishes, and between which days.
func (t *Turn) shoppingLine(l *shopping.Line, trip *shopping.Trip) string {
	line := l.Name
	if a := l.Text(); a != "" {
		line = a + " " + line
	}
	if l.Frozen {
		line += ", frozen"
	}
	for _, n := range l.Notes {
		line += ", " + clean(n, false)
	}
	if l.Optional {
		line += ", if you like"
	}
	var dishes []string
	for _, k := range l.For {
		if d := t.Party.Dish(k); d != nil {
			dishes = append(dishes, d.Name)
		}
	}
	if len(dishes) > 0 {
		line += " – " + list(dishes, "and")
	}
	if l.FirstUse.IsZero() {
		return line
	}
	if l.NotBefore.After(t.Party.Opens()) && trip.Start.Before(l.NotBefore.Add(24*time.Hour)) {
		line += fmt.Sprintf(" (not before %s, needed %s)", t.dayClock(l.NotBefore), t.dayClock(l.FirstUse))
	} else {
		line += fmt.Sprintf(" (needed %s)", t.dayClock(l.FirstUse))
	}
	return line
}
