package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/shopping"
	"tureen/planner/words"
)

// What hosts say about things to buy: what is in the house, how it is sold, who brings it, what else is wanted.

// maxPacks is how many sizes of a thing can be noted; each has to be thought of with each.
const maxPacks = 3

// theThing is the thing that is spoken of: one of the list, by its name, or else one that is on no list yet.
func (t *Turn) theThing() (*planner.Good, error) {
	l := shopping.Of(t.Party, t.Plan)
	name := t.text("item")
	k := planner.ItemOf(name, false)
	if t.Party.Good(k) == nil {
		l.There = append(l.There, l.Have...) // also what the dishes say is in the house
		found, err := t.findThing(&l)
		if err != nil {
			return nil, err
		}
		k, name = found[0].line.Item, found[0].line.Name
	}
	return t.good(k, name), nil
}

// good finds what was said about a thing, or begins to say something.
func (t *Turn) good(k planner.Item, name string) *planner.Good {
	if g := t.Party.Good(k); g != nil {
		return g
	}
	t.Party.Goods = append(t.Party.Goods, planner.Good{Item: k, Name: name})
	return &t.Party.Goods[len(t.Party.Goods)-1]
}

// tidyGoods forgets things of which nothing is said.
func (t *Turn) tidyGoods() {
	t.Party.Goods = slices.DeleteFunc(t.Party.Goods, func(g planner.Good) bool {
		return g.Have == "" && g.Extra == "" && g.Shop == "" && g.Section == "" && len(g.Packs) == 0 && g.Price == "" &&
			g.Per == "" && g.Brings == ""
	})
}

func shoppingHouse(_ context.Context, t *Turn) (talk.Reply, error) {
	if rep, several, err := t.houseMany(); several {
		return rep, err
	}
	g, err := t.theThing()
	if err != nil {
		return talk.Reply{}, err
	}
	name, said := g.Name, t.text("amount")
	switch {
	case said == "" || words.Fold(said) == planner.Enough:
		g.Have = planner.Enough
	case words.Fold(said) == talk.Emptying:
		g.Have = ""
	default:
		q, err := measure.ParseWhole(said)
		if err != nil || q.IsZero() {
			return talk.Reply{}, talk.Refuse("/shopping have item:"+name+" amount:200 g",
				"amount: say how much of %s is there, or none.", name)
		}
		g.Have = q.String()
	}
	house := g.Have
	t.tidyGoods()
	rep := talk.Reply{Next: "Next: /shopping list"}
	switch house {
	case planner.Enough:
		t.did("noted enough %s in the house", name)
		rep.Text = fmt.Sprintf("There is enough %s in the house; nobody need buy it.", name)
		return rep, nil
	case "":
		t.did("noted that no %s is in the house", name)
		rep.Text = fmt.Sprintf("No %s is in the house.", name)
	default:
		t.did("noted %s %s in the house", house, name)
		rep.Text = fmt.Sprintf("In the house: %s %s.", house, name)
	}
	rep.Text += t.stillToBuy(planner.ItemOf(name, false))
	return rep, nil
}

// stillToBuy says what of a thing is to be bought now; empty when it is on no list.
func (t *Turn) stillToBuy(k planner.Item) string {
	l := shopping.Of(t.Party, t.Plan)
	for _, o := range allLines(&l) {
		if o.line.Item != k {
			continue
		}
		if o.line.Ticked {
			return "\nNothing of it is to be bought."
		}
		line, _ := t.thingLine(o.line, o.trip)
		return "\nTo buy: " + line + "."
	}
	return ""
}

func shoppingSold(_ context.Context, t *Turn) (talk.Reply, error) {
	if t.has("currency") {
		c := t.emptyable("currency")
		if utf8.RuneCountInString(c) > 5 {
			return talk.Reply{}, talk.Refuse("currency:€", "currency: give its sign or its three letters.")
		}
		t.Party.Currency = c
	}
	g, err := t.theThing()
	if err != nil {
		return talk.Reply{}, err
	}
	before := fmt.Sprint(*g, t.snapshot.Party.Currency)
	name := g.Name
	if t.has("shop") {
		g.Shop = t.emptyable("shop")
	}
	if t.has("section") {
		g.Section = t.emptyable("section")
	}
	if err := t.setSold(g); err != nil {
		return talk.Reply{}, err
	}
	if fmt.Sprint(*g, t.Party.Currency) == before {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to note about %s: its size, its price, its shop.", name)
	}
	text := soldText(t.Party, g)
	k := g.Item
	t.tidyGoods()
	t.did("said how %s is sold", name)
	return talk.Reply{Text: words.Upper(name) + ": " + text + "." + t.stillToBuy(k), Next: "Next: /shopping list"}, nil
}

// setSold sets packages and prices.
func (t *Turn) setSold(g *planner.Good) error {
	price := ""
	if t.has("price") && words.Fold(t.text("price")) != talk.Emptying {
		p, err := shopping.ParsePrice(t.text("price"))
		if err != nil {
			return talk.Refuse("price:2.49", "price: %s", talk.Sentence(err.Error()))
		}
		price = p.FloatString(decimals(t.text("price")))
	}
	if t.has("per") {
		if err := shopping.ParsePer(t.emptyable("per")); err != nil {
			return talk.Refuse("per:kg", "per: %s", talk.Sentence(err.Error()))
		}
	}
	size := t.text("size")
	switch {
	case words.Fold(size) == talk.Emptying:
		g.Packs = nil
		size = ""
	case size != "":
		q, err := measure.ParseWhole(size)
		if err != nil || q.IsZero() || q.IsRange() {
			return talk.Refuse("size:250 g", "size: say what is in one pack, not %q.", talk.Shown(size))
		}
		size = q.String()
		at := slices.IndexFunc(g.Packs, func(p planner.Pack) bool { return p.Size == size })
		if at < 0 {
			if len(g.Packs) == maxPacks {
				return talk.Refuse("size:none", "%d sizes of %s are noted, and no more can be; size:none forgets them.", maxPacks,
					g.Name)
			}
			if len(g.Packs) > 0 {
				first, _ := measure.ParseWhole(g.Packs[0].Size)
				if !first.Adds(q) {
					return talk.Refuse("size:none", "%s is sold by %s already; a size of another kind cannot stand beside it. "+
						"size:none forgets it.", words.Upper(g.Name), g.Packs[0].Size)
				}
			}
			g.Packs = append(g.Packs, planner.Pack{Size: size})
			at = len(g.Packs) - 1
		}
		if t.has("price") {
			g.Packs[at].Price = price
		}
		return nil
	}
	if t.has("per") {
		g.Per = t.emptyable("per")
	}
	if !t.has("price") {
		return nil
	}
	if len(g.Packs) == 1 && !t.has("per") {
		g.Packs[0].Price = price
		return nil
	}
	if len(g.Packs) > 1 {
		return talk.Refuse(fmt.Sprintf("size:%s price:2.49", g.Packs[0].Size),
			"%s is sold in several sizes: say which the price is for.", words.Upper(g.Name))
	}
	g.Price = price
	if price == "" {
		g.Per = ""
	} else if g.Per == "" && t.isMeasured(g.Item) {
		return talk.Refuse(fmt.Sprintf("/shopping packs item:%s price:%s per:kg", g.Name, t.text("price")),
			"Say what the price of %s is for: per:kg, or size:250 g for a pack.", g.Name)
	}
	return nil
}

// isMeasured reports whether a thing is on the list by weight or volume, so that a price for one of it says nothing.
func (t *Turn) isMeasured(k planner.Item) bool {
	l := shopping.Of(t.Party, t.Plan)
	return slices.ContainsFunc(allLines(&l), func(o onList) bool {
		return o.line.Item == k && slices.ContainsFunc(o.line.Amounts, func(q measure.Quantity) bool {
			return q.Unit().Kind() != measure.Count
		})
	})
}

// soldText is what is noted of how a thing is sold.
func soldText(p *planner.Party, g *planner.Good) string {
	var parts []string
	money := func(price string) string {
		r, err := shopping.ParsePrice(price)
		if err != nil || r == nil {
			return ""
		}
		return shopping.Money(p, r)
	}
	for _, s := range g.Packs {
		part := "packs of " + s.Size
		if m := money(s.Price); m != "" {
			part += " at " + m
		}
		parts = append(parts, part)
	}
	if m := money(g.Price); m != "" {
		per := g.Per
		if per == "" {
			per = "piece"
		}
		parts = append(parts, m+" a "+per)
	}
	if g.Shop != "" {
		parts = append(parts, "bought at the "+g.Shop)
	}
	if g.Section != "" {
		parts = append(parts, "in the section "+g.Section)
	}
	if len(parts) == 0 {
		return "sold loose, and no price is known"
	}
	return words.And(parts)
}

func shoppingBring(_ context.Context, t *Turn) (talk.Reply, error) {
	g, err := t.theThing()
	if err != nil {
		return talk.Reply{}, err
	}
	name, k := g.Name, g.Item
	if t.yes("remove", false) {
		switch {
		case g.Brings == "":
			return talk.Reply{}, talk.Refuse("/shopping list", "Nobody brings %s.", name)
		case g.Brings != t.Me.Key && t.Me.Role != planner.Host:
			return talk.Reply{}, talk.Refuse("/shopping list", "%s brings %s; only %s or a host can take that back.",
				t.personName(g.Brings), name, t.personName(g.Brings))
		}
		had := t.personName(g.Brings)
		g.Brings = ""
		t.tidyGoods()
		t.did("put %s back on the list, which %s was to bring", name, had)
		return talk.Reply{Text: fmt.Sprintf("%s no longer brings %s.", had, name) + t.stillToBuy(k),
			Next: "Next: /shopping list"}, nil
	}
	who := t.Me.Key
	if t.has("who") {
		who = t.values["who"].person
	}
	switch {
	case g.Brings == who:
		return talk.Reply{}, talk.Refuse("/shopping list", "%s brings %s already.", t.personName(who), name)
	case g.Brings != "" && g.Brings != t.Me.Key && t.Me.Role != planner.Host:
		return talk.Reply{}, talk.Refuse("/shopping list", "%s brings %s. Ask %s to leave it to you.", t.personName(g.Brings),
			name, t.personName(g.Brings))
	}
	g.Brings = who
	if who == t.Me.Key {
		t.did("took on to bring %s", name)
	} else {
		t.did("put %s down to bring %s", t.personName(who), name)
	}
	l := shopping.Of(t.Party, t.Plan)
	rep := talk.Reply{Text: fmt.Sprintf("%s brings %s; nobody else need buy it.", t.personName(who), name),
		Next: "Next: /shopping list"}
	for i := range l.Brought {
		if line := &l.Brought[i]; line.Item == k {
			what, _ := t.thingLine(line, nil)
			rep.Text = fmt.Sprintf("%s brings %s; nobody else need buy it.", t.personName(who), what)
			rep.Buttons = []talk.Button{t.button("Bought: "+line.Name, "shopping tick", "item", buttonThing(line))}
		}
	}
	return rep, nil
}

func shoppingAdd(_ context.Context, t *Turn) (talk.Reply, error) {
	name := t.text("item")
	k := planner.ItemOf(name, false)
	if n := utf8.RuneCountInString(name); n > planner.MaxName {
		return talk.Reply{}, talk.Refuse("", "Shorten the name to %d characters; it has %d.", planner.MaxName, n)
	}
	g := t.good(k, name)
	if g.Extra = t.text("amount"); g.Extra == "" {
		g.Extra = planner.AsNeeded
	}
	if t.has("shop") {
		g.Shop = t.emptyable("shop")
	}
	if t.has("section") {
		g.Section = t.emptyable("section")
	}
	t.did("put %s on the shopping list", name)
	return talk.Reply{Text: fmt.Sprintf("On the list: %s.", name) + t.stillToBuy(k), Next: "Next: /shopping list"}, nil
}

func shoppingRemove(_ context.Context, t *Turn) (talk.Reply, error) {
	g, err := t.theThing()
	if err != nil {
		return talk.Reply{}, err
	}
	name, k := g.Name, g.Item
	if g.Extra == "" {
		var of []string
		for _, d := range t.Party.Dishes {
			for _, in := range d.Ingredients {
				if planner.ItemOf(in.Name, in.Frozen) == k && !slices.Contains(of, d.Name) {
					of = append(of, d.Name)
				}
			}
		}
		if len(of) > 0 {
			return talk.Reply{}, talk.Refuse("/shopping have item:"+name,
				"It stays on the list, for %s; if you have %s, say so.", words.And(of), name)
		}
		return talk.Reply{}, talk.Refuse("/shopping list", "Nobody put %s on the list by itself.", name)
	}
	g.Extra, g.Brings = "", ""
	t.tidyGoods()
	t.did("took %s off the shopping list", name)
	text := fmt.Sprintf("Off the list: %s.", name)
	if still := t.stillToBuy(k); strings.HasPrefix(still, "\nTo buy") {
		text = fmt.Sprintf("On the list for its dishes alone now: %s.", name) + still
	}
	return talk.Reply{Text: text, Next: "Next: /shopping list"}, nil
}
