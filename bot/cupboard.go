package bot

import (
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/propose"
	"tureen/planner/shopping"
	"tureen/planner/words"
)

// What most kitchens have in the cupboard is asked about once, all of it in one press, before anybody goes to buy it.

// theCupboard is what is typed for all of it.
const theCupboard = "cupboard"

// inCupboard are the things still to be bought that may well be in the house.
func (t *Turn) inCupboard() (names []string) {
	l := t.theList()
	for _, o := range allLines(&l) {
		if o.trip != nil && !o.line.Ticked && propose.InCupboard(o.line.Name) && !slices.Contains(names, o.line.Name) {
			names = append(names, o.line.Name)
		}
	}
	return names
}

// askCupboard asks in a list whether they are, as long as nothing has been bought.
func (t *Turn) askCupboard(rep *talk.Reply) {
	names := t.inCupboard()
	if len(names) < 2 || len(t.Party.Bought) > 0 {
		return
	}
	title := "In the cupboard already? (/shopping have item:" + theCupboard + " takes them off; one alone: item:" +
		names[0] + ")"
	rep.Sections = append(rep.Sections, talk.Section{Title: title, Lines: []string{strings.Join(names, ", ")}})
	if t.Me.Role != planner.Onlooker {
		rep.Buttons = append(rep.Buttons, t.button("All of these are in the cupboard", "shopping have", "item", theCupboard))
	}
}

// cupboardLooked notes that all of it is there, since somebody has looked and ticked that off.
func (t *Turn) cupboardLooked() string {
	names := t.inCupboard()
	if len(names) == 0 || len(t.Party.Bought) > 0 {
		return ""
	}
	for _, name := range names {
		t.good(planner.ItemOf(name, false), name).Have = planner.Enough
	}
	return fmt.Sprintf(". In the house: %s; /shopping have item:… amount:none says what is not", words.And(names))
}

// houseMany notes of several things at once, or of all that the cupboard has, that there is enough of them; ok
// is false where one thing is meant.
func (t *Turn) houseMany() (rep talk.Reply, ok bool, err error) {
	text := t.text("item")
	list := t.theList()
	var names []string
	if _, missing := t.findNamed(&list, text); missing == nil {
		return rep, false, nil
	}
	switch {
	case words.Fold(text) == theCupboard:
		if names = t.inCupboard(); len(names) == 0 {
			return rep, true, talk.Refuse("/shopping list", "Nothing on the list is what a cupboard has.")
		}
	case strings.Contains(text, ",") && !t.has("amount"):
		names = splitNames(text)
	default:
		return rep, false, nil
	}
	for _, name := range names {
		found, err := t.findNamed(&list, name)
		if err != nil {
			return rep, true, err
		}
		t.good(found[0].line.Item, found[0].line.Name).Have = planner.Enough
	}
	t.did("noted that %s are in the house", words.And(names))
	return talk.Reply{Text: fmt.Sprintf("In the house: %s; nobody need buy them.", words.And(names)),
		Next: "Next: /shopping have item:… amount:none for what is not"}, true, nil
}

// plainList is the list as text to paste elsewhere.
func plainList(l *shopping.List, shop string) talk.Reply {
	rep := talk.Reply{Next: "Next: /shopping list has the days and the dishes"}
	for i := range l.Trips {
		trip := &l.Trips[i]
		if shop != "" && planner.Key(shop) != planner.Key(trip.Shop) {
			continue
		}
		var lines []string
		for _, w := range trip.Wanted() {
			lines = append(lines, "- "+w)
		}
		if len(lines) > 0 {
			where := words.Upper(trip.Shop)
			if where == "" {
				where = "Shopping"
			}
			rep.Sections = append(rep.Sections, talk.Section{Title: where, Lines: lines})
		}
	}
	rep.Text = "To paste:"
	if len(rep.Sections) == 0 {
		rep.Text = "Nothing is left to buy."
	}
	return rep
}
