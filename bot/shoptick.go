package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/shopping"
	"tureen/planner/words"
)

// onList is a line of the list and the trip that it is on; nil when it is on none.
type onList struct {
	line *shopping.Line
	trip *shopping.Trip
}

// all lists the lines of a list: what is still to be bought on trips first, then what is brought, bought, over.
func allLines(l *shopping.List) []onList {
	var out []onList
	for i := range l.Trips {
		trip := &l.Trips[i]
		trip.Each(func(line *shopping.Line) { out = append(out, onList{line, trip}) })
	}
	for _, part := range [][]shopping.Line{l.Brought, l.There, l.Over} {
		for i := range part {
			out = append(out, onList{&part[i], nil})
		}
	}
	return out
}

// findThing finds the lines of a thing by its name; none is a refusal with the nearest names.
func (t *Turn) findThing(l *shopping.List) ([]onList, error) {
	return t.findNamed(l, t.text("item"))
}

// findNamed is findThing of a name that no option has.
func (t *Turn) findNamed(l *shopping.List, text string) ([]onList, error) {
	all := allLines(l)
	k := planner.ItemOf(text, false)
	match := func(same func(o onList) bool) []onList {
		var out []onList
		for _, o := range all {
			if same(o) {
				out = append(out, o)
			}
		}
		return out
	}
	key := planner.Key(text)
	either := func(same func(string) bool) func(onList) bool {
		return func(o onList) bool { return same(string(o.line.Item)) || same(o.line.Name) }
	}
	var found []onList
	for _, same := range []func(o onList) bool{
		func(o onList) bool { return o.line.Item == k },
		func(o onList) bool { return planner.ItemOf(o.line.Name, o.line.Frozen) == k },
		either(func(s string) bool { return words.Fold(s) == words.Fold(text) }),
		either(func(s string) bool { return key != "" && planner.Key(s) == key }),
		either(func(s string) bool { return len(key) >= 3 && strings.HasPrefix(planner.Key(s), key) }),
		either(func(s string) bool { return len(key) >= 3 && strings.Contains("-"+planner.Key(s), "-"+key) }),
	} {
		if found = match(same); len(found) > 0 {
			break
		}
	}
	var names []string
	for _, o := range found {
		if !slices.Contains(names, o.line.Name) {
			names = append(names, o.line.Name)
		}
	}
	things := map[planner.Item]bool{}
	for _, o := range found {
		things[o.line.Item] = true
	}
	if len(things) > 1 {
		return nil, talk.Refuse("", "item: more than one goes by %q: say %s.", talk.Shown(text), words.Or(names))
	}
	if len(found) == 0 {
		names = nil
		for _, o := range all {
			names = append(names, o.line.Name)
		}
		return nil, talk.Refuse("/shopping list", "item: there is no %q on the list.%s", talk.Shown(text),
			talk.DidYouMean(text, names))
	}
	return found, nil
}

// everything is said of all that is left at a shop.
const everything = "everything"

// tickAll ticks off what is left at a shop.
func (t *Turn) tickAll(l *shopping.List) (talk.Reply, error) {
	if !t.has("shop") && slices.ContainsFunc(l.Trips, func(o shopping.Trip) bool { return o.Shop != l.Trips[0].Shop }) {
		return talk.Reply{}, talk.Refuse("/shopping tick item:everything shop:supermarket",
			"Say at which shop everything is bought.")
	}
	var shops, names []string
	var last *shopping.Trip
	for i := range l.Trips {
		trip := &l.Trips[i]
		name := t.tripName(trip)
		shops = append(shops, name)
		if t.has("shop") && !isShop(name, t.text("shop")) || t.has("shop") && last != nil &&
			planner.Key(last.Shop) == planner.Key(trip.Shop) {
			continue // a later trip to the same shop has its own time
		}
		last = trip
		trip.Each(func(line *shopping.Line) {
			if !line.Ticked {
				t.tick(line, trip)
				names = append(names, line.Name)
			}
		})
	}
	switch {
	case last == nil:
		return talk.Reply{}, talk.Refuse("/shopping list", "Nothing is bought at %q.%s", talk.Shown(t.text("shop")),
			talk.DidYouMean(t.text("shop"), shops))
	case len(names) == 0:
		return talk.Reply{}, talk.Refuse("/shopping list", "All of it is ticked off already.")
	}
	where := " at the " + t.tripName(last)
	if !t.has("shop") {
		where = ""
	}
	t.did("bought all that was left%s", where)
	return t.afterTick(last, fmt.Sprintf("Bought: %s", some(names)), ""), nil
}

// tick notes a line as bought by the asker, all of it.
func (t *Turn) tick(line *shopping.Line, trip *shopping.Trip) {
	shopping.Note(t.Party, line, t.gotOf(line, trip))
}

func (t *Turn) gotOf(line *shopping.Line, trip *shopping.Trip) planner.Got {
	got := planner.Got{By: t.Me.Key, Amounts: line.Bought(), Paid: line.Price(t.Party)}
	if trip != nil && t.Party.Chore(trip.Chore) != nil {
		got.Trip = trip.Chore
	}
	return got
}

func shoppingTick(_ context.Context, t *Turn) (talk.Reply, error) {
	l := t.theList()
	if words.Fold(t.text("item")) == everything {
		return t.tickAll(&l)
	}
	found, err := t.findThing(&l)
	if err != nil {
		return talk.Reply{}, err
	}
	at := slices.IndexFunc(found, func(o onList) bool { return !o.line.Ticked })
	if at < 0 {
		line := found[0].line
		if len(line.Got) == 0 {
			return talk.Reply{}, talk.Refuse(fmt.Sprintf("/shopping have item:%s amount:none", line.Item),
				"Nothing of %s is to be bought; it is in the house.", line.Name)
		}
		return talk.Reply{}, talk.Refuse("/shopping untick item:"+string(line.Item), "Ticked off already: %s, %s.", line.Name,
			t.boughtBy(line.Got))
	}
	line, trip := found[at].line, found[at].trip
	got := t.gotOf(line, trip)
	if t.has("amount") {
		q, err := measure.ParseWhole(t.text("amount"))
		if err != nil {
			return talk.Reply{}, err
		}
		got.Amounts, got.Paid = []string{q.String()}, ""
	}
	if t.has("paid") {
		p, err := shopping.ParsePrice(t.text("paid"))
		if err != nil {
			return talk.Reply{}, talk.Refuse("paid:2.49", "paid: %s", talk.Sentence(err.Error()))
		}
		got.Paid = p.FloatString(max(2, decimals(t.text("paid"))))
	}
	shopping.Note(t.Party, line, got)
	t.did("bought %s", thingText(line, got.Amounts))
	rep := t.afterTick(trip, "Bought: "+thingText(line, got.Amounts), line.Item)
	if rep.Again == "" { // else the list has it
		rep.Buttons = append(rep.Buttons, t.button("Not bought: "+line.Name, "shopping untick", "item", buttonThing(line)))
	}
	return rep, nil
}

func decimals(price string) int {
	_, part, _ := strings.Cut(strings.Replace(price, ",", ".", 1), ".")
	return len(part)
}

func thingText(l *shopping.Line, amounts []string) string {
	if len(amounts) == 0 {
		return l.Name
	}
	text := strings.Join(amounts, " + ")
	return text + " " + nameFor(l.Name, text)
}

// nameFor is a thing's name as its amount, where that is one of one kind, asks for: 1 egg, 2 eggs.
func nameFor(name, amount string) string {
	if q, err := measure.ParseWhole(amount); err == nil && !q.IsZero() {
		return measure.NameFor(name, q)
	}
	return name
}

// isOrAre is the verb for an amount: 500 g is, 6 are, 1 bottle is.
func isOrAre(amount string) string {
	q, err := measure.ParseWhole(amount)
	if n, _ := q.High().Float64(); err == nil && q.Unit().Kind() == measure.Count && n > 1 {
		return "are"
	}
	return "is"
}

// afterTick says what is left on a trip, with a button for each of the next things; where its answer stands in the
// place of the list that was ticked, the list.
func (t *Turn) afterTick(trip *shopping.Trip, first string, thing planner.Item) talk.Reply {
	l := shopping.Of(t.Party, t.Plan)
	if t.Request.InPlace && trip != nil {
		shop := t.tripName(trip)
		if len(l.Trips) == 1 {
			shop = ""
		}
		if rep, err := t.shoppingCard(&l, shop); err == nil {
			rep.Text = first + ".\n" + rep.Text
			return rep
		}
	}
	rep := talk.Reply{Text: first + ".", Next: "Next: /shopping list"}
	for _, o := range allLines(&l) {
		if o.line.Item == thing && !o.line.Ticked {
			rep.Text += fmt.Sprintf("\n%s more %s needed.", o.line.Text(), isOrAre(o.line.Text()))
			break
		}
	}
	if trip == nil {
		return rep
	}
	left := 0
	for i := range l.Trips {
		if l.Trips[i].Chore != trip.Chore {
			continue
		}
		l.Trips[i].Each(func(o *shopping.Line) {
			if o.Ticked {
				return
			}
			if left++; left <= 9 {
				b := t.button("Bought: "+o.Name, "shopping tick", "item", buttonThing(o))
				b.InPlace = true
				rep.Buttons = append(rep.Buttons, b)
			}
		})
	}
	name := t.tripName(trip)
	rep.Next = "Next: /shopping list shop:" + name
	where := " at the " + name
	if trip.Shop == "" {
		where = ""
	}
	if left > 0 {
		rep.Text += fmt.Sprintf("\n%s left%s.", words.CountAs(left, "item is", "items are"), where)
		return rep
	}
	rep.Text += fmt.Sprintf("\nNothing is left to buy%s.", where)
	if task := planner.ChoreTask(trip.Chore); t.Party.Chore(trip.Chore) != nil && t.Party.Progress(task) != planner.Done {
		rep.Next = "Next: /task done task:" + string(task)
		b := t.button("Done there", "task done", "task", string(task))
		b.Style = talk.Main
		rep.Buttons = append(rep.Buttons, b)
	}
	return rep
}

func shoppingUntick(_ context.Context, t *Turn) (talk.Reply, error) {
	l := t.theList()
	found, err := t.findThing(&l)
	if err != nil {
		return talk.Reply{}, err
	}
	line, trip := found[0].line, found[0].trip
	b := t.Party.Purchased(line.Item)
	if b == nil {
		return talk.Reply{}, talk.Refuse("/shopping tick item:"+string(line.Item), "Nothing of %s is ticked off.", line.Name)
	}
	last := b.Got[len(b.Got)-1]
	if b.Got = b.Got[: len(b.Got)-1 : len(b.Got)-1]; len(b.Got) == 0 {
		t.Party.Bought = slices.DeleteFunc(t.Party.Bought, func(o planner.Purchase) bool { return o.Item == line.Item })
	}
	t.did("took %s off what is bought", thingText(line, last.Amounts))
	return t.afterTick(trip, "Not bought after all: "+thingText(line, last.Amounts), ""), nil
}

// tripOf is the trip of a task with what is still to be bought on it; nil when it is none, or nothing is.
func (t *Turn) tripOf(task *planner.Task) *shopping.Trip {
	if task.Chore == "" {
		return nil
	}
	l := shopping.Of(t.Party, t.Plan)
	trip := l.Trip(task.Chore)
	if trip == nil || len(trip.Wanted()) == 0 {
		return nil
	}
	return trip
}
