package bot

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/shopping"
	"tureen/planner/words"
)

// card gathers a list for a reply.
type card struct {
	t       *Turn
	only    string // this shop alone, by the beginning of its name; empty: all
	several bool   // there are several trips: things are ticked off a trip at a time
	rep     talk.Reply
	shops   []string
	shown   int
	open    int
	ticked  int
	lines   int
	missing string // a trip that is in no plan
	common  bool   // a package is marked as a common size
	shelf   []string
	losses  []string
}

func (c *card) again() []string {
	if c.only == "" {
		return nil
	}
	return []string{"shop", buttonShop(c.only)}
}

func shopName(shop string) string {
	if shop == "" {
		return "anywhere"
	}
	return shop
}

// isShop reports whether a shop is meant by the beginning of its name, as it is typed or as a button has it.
func isShop(name, typed string) bool {
	k := planner.Key(typed)
	return strings.HasPrefix(words.Fold(name), words.Fold(typed)) || k != "" && strings.HasPrefix(planner.Key(name), k)
}

// buttonShop is a shop's name as a button can carry it.
func buttonShop(name string) string {
	if k := planner.Key(name); len(name) > planner.MaxKey || strings.ContainsAny(name, ":\"\\") {
		return k
	}
	return name
}

// tripName is how a trip is spoken of; its ice is fetched wherever there is some.
func (t *Turn) tripName(trip *shopping.Trip) string {
	if c := t.Party.Chore(trip.Chore); c != nil && c.Kind == planner.Ice || c == nil && trip.Chore == "ice" {
		return "ice"
	}
	return shopName(trip.Shop)
}

// trip puts a trip on the card: who goes when, between which days, and then its sections.
func (c *card) trip(trip *shopping.Trip) {
	t := c.t
	name := t.tripName(trip)
	c.shops = append(c.shops, name)
	if c.only != "" && !isShop(name, c.only) {
		return
	}
	c.shown++
	title := strings.TrimSuffix(talk.Sentence(name), ".")
	head := title
	if !trip.Start.IsZero() {
		head += ", " + t.dayClock(trip.Start)
	}
	if x := t.Party.Person(trip.Who); x != nil {
		head += ", " + x.Name
	}
	chore := t.Party.Chore(trip.Chore)
	if t.Plan != nil && trip.Start.IsZero() {
		head += ", not in the plan yet"
		if c.missing == "" {
			c.missing = "the way to the " + name
			if trip.Shop == "" {
				c.missing = "the shopping"
			}
		}
	}
	switch trip.Progress {
	case planner.Started:
		head += ", under way"
	case planner.Done:
		head += ", done"
	case planner.Skipped:
		head += ", left out"
	}
	var lines []string
	if w := t.tripWindow(trip); w != "" {
		lines = append(lines, w)
	}
	if trip.Cost.Known() {
		lines = append(lines, t.costLine(&trip.Cost, "About %s for what is still to be bought"))
	}
	if head != title || len(lines) > 0 {
		c.section(head, lines)
	}
	if c.only != "" {
		b := t.button("All of it bought", "shopping tick", "item", everything, "shop", buttonShop(name))
		b.InPlace = true
		c.rep.Buttons = append(c.rep.Buttons, b)
	}
	if chore != nil && c.only != "" {
		task := string(planner.ChoreTask(trip.Chore))
		if w := t.Party.WorkOn(planner.TaskKey(task)); w == nil || w.Person == "" {
			c.rep.Buttons = append(c.rep.Buttons, t.button("I go", "task claim", "task", task))
		}
		if trip.Progress != planner.Done {
			c.rep.Buttons = append(c.rep.Buttons, t.button("Done there", "task done", "task", task))
		}
	} else if c.several {
		c.rep.Buttons = append(c.rep.Buttons, t.button("Shop: "+name, "shopping list", "shop", buttonShop(name)))
	}
	for _, s := range trip.Sections {
		if s.Name != "" {
			c.section(title+": "+s.Name, nil)
		} else if head != title || len(lines) > 0 {
			c.section(title+": anything else", nil)
		} else {
			c.section(title, nil)
		}
		for j := range s.Lines {
			c.line(&s.Lines[j], trip)
		}
	}
}

func (c *card) section(title string, lines []string) {
	c.rep.Sections = append(c.rep.Sections, talk.Section{Title: title, Lines: lines})
	c.lines += len(lines)
}

// line puts a thing into the last section, with a button that ticks it off, or takes that back.
func (c *card) line(l *shopping.Line, trip *shopping.Trip) {
	s := &c.rep.Sections[len(c.rep.Sections)-1]
	text, common := c.t.thingLine(l, trip)
	c.common = c.common || common
	s.Lines = append(s.Lines, text)
	c.lines++
	c.note(l)
	if !l.Ticked {
		c.open++
	} else if len(l.Got) > 0 {
		c.ticked++
	}
	if c.several || trip == nil && l.Ticked {
		return
	}
	label, do := "Bought: "+l.Name, "shopping tick"
	if l.Ticked {
		label, do = "Not bought: "+l.Name, "shopping untick"
	}
	b := c.t.button(label, do, "item", buttonThing(l))
	b.Line, b.InPlace = c.lines, true
	c.rep.Buttons = append(c.rep.Buttons, b)
}

// buttonThing is a thing's name as a button can carry it.
func buttonThing(l *shopping.Line) string {
	const most = 44 // bytes, with room for the command and the party
	if len(l.Item) <= most && !strings.ContainsAny(string(l.Item), ":\"\\") {
		return string(l.Item)
	}
	return planner.Key(string(l.Item))
}

// note keeps what a line's days rest on, for the foot.
func (c *card) note(l *shopping.Line) {
	if l.Ticked {
		return
	}
	if l.Loss != nil {
		if text := l.Name + ": " + l.Loss.Trimming(); !slices.Contains(c.losses, text) {
			c.losses = append(c.losses, text)
		}
	}
	if !c.t.tooEarly(l.NotBefore) {
		return // no day rests on it
	}
	for _, s := range l.Shelf {
		text := s.String()
		if !slices.Contains(c.shelf, text) {
			c.shelf = append(c.shelf, text)
		}
	}
}

// rest is what is bought on no trip.
func (c *card) rest(l *shopping.List) {
	t := c.t
	var who []planner.PersonKey
	for i := range l.Brought {
		if k := l.Brought[i].Brings; !slices.Contains(who, k) {
			who = append(who, k)
		}
	}
	for _, k := range who {
		c.section(t.personName(k)+" brings", nil)
		for i := range l.Brought {
			if l.Brought[i].Brings == k {
				c.line(&l.Brought[i], nil)
			}
		}
	}
	there := func(title string, pick func(*shopping.Line) bool) {
		first := true
		for i := range l.There {
			if line := &l.There[i]; pick(line) {
				if first {
					c.section(title, nil)
					first = false
				}
				c.line(line, nil)
			}
		}
	}
	there("Bought already", func(l *shopping.Line) bool { return len(l.Got) > 0 })
	there("In the house, as you said", func(l *shopping.Line) bool { return len(l.Got) == 0 && !l.Used })
	var used []string
	for i := range l.There {
		if l.There[i].Used {
			used = append(used, l.There[i].Name)
		}
	}
	if len(used) > 0 {
		c.section("Used already", []string{strings.Join(used, ", ") + "."})
	}
	if len(l.Over) > 0 {
		c.section("Bought, and no longer needed", nil)
		for i := range l.Over {
			c.line(&l.Over[i], nil)
			c.ticked--
		}
	}
	tap := func(x shopping.Line) bool { return planner.Key(x.Name) == "water" } // nobody need look for it
	if have := slices.DeleteFunc(slices.Clone(l.Have), tap); len(have) > 0 {
		var names []string
		for i := range have {
			name := have[i].Name
			if a := have[i].Text(); a != "" {
				name += " (" + a + ")"
			}
			names = append(names, name)
		}
		c.section("In the house: look whether it is", []string{strings.Join(names, ", ") + "."})
	}
	if l.Cost.Known() {
		lines := []string{t.costLine(&l.Cost, "%s in all")}
		if rest := new(big.Rat).Sub(&l.Cost.Sum, &l.Cost.Paid); l.Cost.Paid.Sign() > 0 && rest.Sign() > 0 {
			lines = append(lines, fmt.Sprintf("%s is paid, %s is still to be bought", shopping.Money(t.Party, &l.Cost.Paid),
				shopping.Money(t.Party, rest)))
		}
		if l.Cost.Unpriced == 0 && t.Party.Covers > 0 {
			each := new(big.Rat).Quo(&l.Cost.Sum, new(big.Rat).SetInt64(int64(t.Party.Covers)))
			lines = append(lines, fmt.Sprintf("%s a cover", shopping.Money(t.Party, each)))
		}
		c.section("What the dinner costs", lines)
	}
}

// foot says what the days and the marks rest on.
func (c *card) foot() []talk.Section {
	var out []talk.Section
	if len(c.shelf) > 0 {
		const most = 8
		lines := c.shelf
		if n := len(lines); n > most {
			lines = append(lines[:most-1:most-1], fmt.Sprintf("and %d more", n-most+1))
		}
		lines = append(lines, "What the label says goes first")
		out = append(out, talk.Section{Title: "The days rest on", Lines: lines})
	}
	if len(c.losses) > 0 {
		out = append(out, talk.Section{Title: "What is trimmed away", Lines: c.losses})
	}
	if c.common {
		out = append(out, talk.Section{Title: "*", Lines: []string{"A size that is often sold (common practice, no " +
			"source); /shopping packs says yours"}})
	}
	return out
}

// costLine writes a sum, and how much of the list it leaves out.
func (t *Turn) costLine(c *shopping.Cost, form string) string {
	line := fmt.Sprintf(form, shopping.Money(t.Party, &c.Sum))
	if c.Unpriced > 0 {
		line += fmt.Sprintf("; of %s no price is known", words.Count(c.Unpriced, "item"))
	}
	return line
}
