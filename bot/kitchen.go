package bot

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/measure"
	"tureen/planner/scale"
	"tureen/planner/words"
)

var wareKinds = []string{"vessel", "appliance", string(planner.AHotPlace), "plate"}

var kitchenCommands = []command{
	{talk.Command{Name: "kitchen show", Help: "What the kitchen has",
		Access: talk.Onlookers, Example: "/kitchen show"}, kitchenShow},
	{talk.Command{Name: "kitchen oven", Help: "Add, change or remove an oven",
		Access: talk.CoHosts, MayLack: true,
		Example: "/kitchen oven name:small oven shelves:1 lowest:50 highest:230 preheat:10 min",
		Options: []talk.Option{
			{Name: "name", Help: "which oven", Kind: talk.Text, Required: true, Example: "small oven"},
			{Name: "shelves", Help: "shelves in use at once", Kind: talk.Whole, Min: 1, Max: 10, Example: "2"},
			{Name: "lowest", Help: "its lowest temperature", Kind: talk.Temperature, Example: "50"},
			{Name: "highest", Help: "its highest temperature", Kind: talk.Temperature, Example: "250"},
			{Name: "preheat", Help: "from cold to 180 °C", Kind: talk.Length, Max: 240, Example: "15 min"},
			{Name: "rise", Help: "for 50 °C more", Kind: talk.Length, Max: 240, Example: "6 min"},
			{Name: "fall", Help: "for 50 °C less", Kind: talk.Length, Max: 240, Example: "15 min"},
			{Name: "remove", Help: "yes: the kitchen does not have it", Kind: talk.YesNo, Example: "yes"},
		}}, kitchenOven},
	{talk.Command{Name: "kitchen fittings", Help: "Burners, grills, counter places and the dishwasher",
		Access: talk.CoHosts, MayLack: true, Example: "/kitchen fittings burners:4 counter:3",
		Options: []talk.Option{
			{Name: "burners", Help: "burners in use at once", Kind: talk.Whole, Max: 50, Example: "4"},
			{Name: "grills", Help: "grills", Kind: talk.Whole, Max: 20, Example: "1"},
			{Name: "counter", Help: "places to work at", Kind: talk.Whole, Max: 50, Example: "3"},
			{Name: "dishwasher", Help: "how long it runs; 0: there is none", Kind: talk.Length, Max: 600, Example: "90 min"},
			{Name: "home", Help: "yes: everything as in a well-equipped home", Kind: talk.YesNo, Example: "yes"},
		}}, kitchenSet},
	{talk.Command{Name: "kitchen ware", Help: "How many there are of a vessel, appliance, hot place, plate or glass",
		Access: talk.CoHosts, Menu: true, MayLack: true, Example: "/kitchen ware name:tart tin count:2 size:24 cm",
		Options: []talk.Option{
			{Name: "name", Help: "which vessel, appliance, plate or glass", Kind: talk.Text, Required: true,
				Example: "tart tin"},
			{Name: "count", Help: "how many; 0 for none", Kind: talk.Whole, Max: 1000, Example: "2"},
			{Name: "holds", Help: "what one of it holds; 0 if it does not matter", Kind: talk.Text, Example: "2 l"},
			{Name: "size", Help: "across, or its two sides", Kind: talk.Text, Example: "27 cm, or 20 x 30"},
			{Name: "kind", Help: "what it is, if it is new", Kind: talk.Choice, Choices: wareKinds, Example: "vessel"},
		}}, kitchenWare},
	{talk.Command{Name: "kitchen space", Help: "Free space in the refrigerator and the freezer",
		Access: talk.CoHosts, MayLack: true, Example: "/kitchen space refrigerator:two shelves",
		Options: []talk.Option{
			{Name: "refrigerator", Help: "free in it: a shelf, two, half of it, or litres", Kind: talk.Text,
				Example: "two shelves"},
			{Name: "flat", Help: "places in it where a tray lies flat", Kind: talk.Whole, Max: 50, Example: "3"},
			{Name: "freezer", Help: "free in it: a drawer, half of it, or litres", Kind: talk.Text, Example: "a drawer"},
			{Name: "freezer-flat", Help: "places in it where a tray lies flat", Kind: talk.Whole, Max: 50, Example: "1"},
		}}, kitchenCold},
}

// wares is the kitchen's list of a kind of ware.
func wares(k *planner.Kitchen, kind string) *[]planner.Ware {
	switch kind {
	case "appliance":
		return &k.Appliances
	case string(planner.AHotPlace):
		return &k.HotPlaces
	case "plate":
		return &k.Plates
	}
	return &k.Vessels
}

func kitchenLine(k *planner.Kitchen) string {
	parts := []string{words.Count(len(k.Ovens), "oven"), words.Count(k.Burners, "burner"),
		words.Count(k.Counter, "counter place")}
	for _, state := range []planner.State{planner.Refrigerator, planner.Freezer} {
		if ml, _ := k.GivenSpace(state); ml >= 0 {
			parts = append(parts, fmt.Sprintf("%d l %s", ml/1000, state))
		}
	}
	return strings.Join(parts, ", ")
}

func ovenLine(o *planner.Oven) string {
	return fmt.Sprintf("%s: %s, %d to %d °C, preheats in %s", o.Name, words.Count(o.Shelves, "shelf"), o.MinC, o.MaxC,
		words.Short(o.Preheat))
}

// wareText says how many of a thing there are without a plural, which only whoever named the thing would know.
func wareText(n int, name string) string {
	if n == 1 {
		return "1 " + words.Singular(name)
	}
	return fmt.Sprintf("%d × %s", n, name)
}

// wareLine is a thing with what it holds and how wide it is, where somebody has said.
func wareLine(w *planner.Ware) string {
	var more []string
	if w.Millilitres > 0 {
		more = append(more, fmt.Sprintf("%g l", float64(w.Millilitres)/1000))
	}
	if size := scale.Size(w); size != "" {
		more = append(more, size)
	}
	if len(more) == 0 {
		return wareText(w.Count, w.Name)
	}
	return fmt.Sprintf("%s (%s)", wareText(w.Count, w.Name), strings.Join(more, ", "))
}

// setWare takes from the options what one of a thing holds, and its size.
func (t *Turn) setWare(w *planner.Ware) error {
	if t.has("holds") {
		text := t.text("holds")
		q, err := measure.ParseWhole(text)
		if err == nil {
			q, err = q.Convert(measure.Millilitre)
		}
		switch ml, _ := q.High().Float64(); {
		case text == "0" || text == talk.Emptying:
			w.Millilitres = 0
		case err != nil || ml < 10:
			return talk.Refuse("holds:2 l", "holds: %q is no volume of a pot or a bowl.", talk.Shown(text))
		default:
			w.Millilitres = int(ml + 0.5)
		}
	}
	if t.has("size") {
		across, wide, ok := readSize(t.text("size"))
		if !ok {
			return talk.Refuse("size:27 cm, or size:20 x 30", "size: %q is no size of a pan in centimetres.",
				talk.Shown(t.text("size")))
		}
		w.Across, w.Wide = across, wide
	}
	return nil
}

// readSize reads "27 cm" or "20 x 30 cm": the long side first, 0 for the other one of a round pan.
func readSize(text string) (across, wide int, ok bool) {
	text = strings.NewReplacer("cm", "", "×", " ", "x", " ", "by", " ").Replace(strings.ToLower(text))
	var sides []int
	for _, f := range strings.Fields(text) {
		n, err := strconv.Atoi(f)
		if err != nil || n < 5 || n > 200 {
			return 0, 0, false
		}
		sides = append(sides, n)
	}
	switch len(sides) {
	case 1:
		return sides[0], 0, true
	case 2:
		return max(sides[0], sides[1]), min(sides[0], sides[1]), true
	}
	return 0, 0, false
}

func waresLine(list []planner.Ware) string {
	var parts []string
	for _, w := range list {
		parts = append(parts, wareLine(&w))
	}
	if len(parts) == 0 {
		return talk.Emptying
	}
	return strings.Join(parts, ", ")
}

func kitchenShow(_ context.Context, t *Turn) (talk.Reply, error) {
	k := &t.Party.Kitchen
	var ovens []string
	for i := range k.Ovens {
		ovens = append(ovens, ovenLine(&k.Ovens[i]))
	}
	dishwasher := "no dishwasher"
	if k.Dishwasher > 0 {
		dishwasher = "the dishwasher runs " + words.Short(k.Dishwasher)
	}
	return talk.Reply{
		Text: "The kitchen has " + kitchenLine(k) + ".",
		Sections: []talk.Section{
			{Title: "Ovens", Lines: ovens},
			{Title: "Heat and places to work", Lines: []string{fmt.Sprintf("%s, %s, %s; %s", words.Count(k.Burners, "burner"),
				words.Count(k.Grills, "grill"),
				words.CountAs(k.Counter, "place at the counter", "places at the counter"), dishwasher),
				"Keeping hot: " + waresLine(k.HotPlaces)}},
			{Title: "Cold", Lines: []string{coldLine(k, planner.Refrigerator), coldLine(k, planner.Freezer)}},
			{Title: "Appliances", Lines: []string{waresLine(k.Appliances)}},
			{Title: "Vessels", Lines: []string{waresLine(k.Vessels)}},
			{Title: "Plates and glasses", Lines: []string{waresLine(k.Plates),
				"Vessels, plates and glasses that nobody has counted are a guess, and forbid nothing."}},
		},
		Next: "Next: /kitchen oven, /kitchen ware or /kitchen space for what is different",
	}, nil
}

// coldLine says what the hosts have given of the refrigerator or freezer.
func coldLine(k *planner.Kitchen, state planner.State) string {
	ml, flat := k.GivenSpace(state)
	var parts []string
	if ml >= 0 {
		parts = append(parts, fmt.Sprintf("%d l free", ml/1000))
	}
	if flat >= 0 {
		parts = append(parts, words.Count(flat, "place")+" for a tray")
	}
	if len(parts) == 0 {
		return words.Upper(string(state)) + ": nobody has said what is free, so that it forbids nothing"
	}
	return words.Upper(string(state)) + ": " + strings.Join(parts, ", ")
}

// setCold takes from the options what is free in the refrigerator or freezer.
func (t *Turn) setCold(c *planner.Cold, option, flat string, state planner.State) error {
	if t.has(option) {
		said := strings.ToLower(t.text(option))
		ml, places, ok := scale.Space(said, state == planner.Freezer)
		usual := planner.HomeKitchen().Refrigerator
		if state == planner.Freezer {
			usual = planner.HomeKitchen().Freezer
		}
		switch {
		case said == "unknown" || said == "not known" || said == "?":
			*c = usual
		case !ok || ml > maxColdLitres*1000:
			return talk.Refuse(option+":two shelves, "+option+":half of it, or "+option+":40",
				"%s: %q is no space that I know.", option, talk.Shown(said))
		default:
			c.Millilitres, c.Given = ml, true
			if places >= 0 {
				c.Flat, c.FlatGiven = places, true
			}
		}
	}
	if t.has(flat) {
		c.Flat, c.FlatGiven = t.whole(flat, 0), true
	}
	return nil
}

// maxColdLitres is more than is free in the cold of any home.
const maxColdLitres = 500

// theOven is an oven as people call it, whatever its name is: "the oven", "the small oven", "the oven neighbour".
func theOven(name string) string {
	if strings.Contains(words.Fold(name), "oven") {
		return "the " + name
	}
	return "the oven " + name
}

func kitchenOven(_ context.Context, t *Turn) (talk.Reply, error) {
	k, name := &t.Party.Kitchen, t.text("name")
	o, all := pick(k.Ovens, func(o *planner.Oven) []string { return []string{o.Name} }, name)
	if t.yes("remove", false) {
		if o == nil {
			return talk.Reply{}, talk.Refuse("/kitchen show", "There is no oven %q.%s", talk.Shown(name),
				talk.DidYouMean(name, all))
		}
		name = o.Name
		k.Ovens = slices.DeleteFunc(k.Ovens, func(x planner.Oven) bool { return x.Name == name })
		t.did("removed %s", theOven(name))
		return talk.Reply{Text: words.Upper(theOven(name)) + " is no longer in the kitchen.", Next: "Next: /kitchen show"},
			nil
	}
	if o == nil {
		if near := talk.Nearest(name, all); len(near) > 0 && len(t.values) > 1 && talk.OneSlip(near[0], name) {
			return talk.Reply{}, talk.Refuse("/kitchen oven name:"+near[0],
				"There is no oven %q. Did you mean %s? A new one needs a name less alike.", talk.Shown(name), near[0])
		}
		k.Ovens = append(k.Ovens, planner.Oven{Name: strings.ToLower(name), Shelves: 2, MinC: 50, MaxC: 250, Preheat: 15,
			Rise: 6, Fall: 15})
		o = &k.Ovens[len(k.Ovens)-1]
	} else if len(t.values) == 1 || len(t.values) == 2 && t.has("party") {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to change about the %s.", o.Name)
	}
	o.Shelves, o.MinC, o.MaxC = t.whole("shelves", o.Shelves), t.whole("lowest", o.MinC), t.whole("highest", o.MaxC)
	for _, l := range []struct {
		name string
		to   *planner.Minutes
	}{{"preheat", &o.Preheat}, {"rise", &o.Rise}, {"fall", &o.Fall}} {
		if t.has(l.name) {
			*l.to = t.minutes(l.name)
		}
	}
	t.did("set %s", theOven(o.Name))
	return talk.Reply{Text: talk.Sentence(ovenLine(o)), Next: "Next: /kitchen show"}, nil
}

func kitchenSet(_ context.Context, t *Turn) (talk.Reply, error) {
	k := &t.Party.Kitchen
	if t.yes("home", false) {
		*k = planner.HomeKitchen()
	}
	k.Burners, k.Grills, k.Counter = t.whole("burners", k.Burners), t.whole("grills", k.Grills),
		t.whole("counter", k.Counter)
	if t.has("dishwasher") {
		k.Dishwasher = t.minutes("dishwasher")
	}
	if t.told() == 0 {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to set.")
	}
	t.did("set the kitchen")
	return talk.Reply{Text: "The kitchen has " + kitchenLine(k) + ".", Next: "Next: /kitchen show"}, nil
}

func kitchenWare(_ context.Context, t *Turn) (talk.Reply, error) {
	k, name := &t.Party.Kitchen, strings.ToLower(t.text("name"))
	if t.told() == 1 {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say how many %s there are, or what one holds.", talk.Shown(name))
	}
	if r := []rune(name); len(r) > planner.MaxName {
		return talk.Reply{}, talk.Refuse("", "Shorten the name to %d characters; it has %d.", planner.MaxName, len(r))
	}
	var all []string
	for _, kind := range wareKinds {
		list := wares(k, kind)
		for i := range *list {
			w := &(*list)[i]
			all = append(all, w.Name)
			if words.Fold(w.Name) != words.Fold(name) {
				continue
			}
			name = w.Name
			n := t.whole("count", w.Count)
			w.Count, w.Given = n, w.Given || t.has("count")
			if err := t.setWare(w); err != nil {
				return talk.Reply{}, err
			}
			text := wareLine(w)
			if n == 0 {
				*list = slices.Delete(*list, i, i+1)
			}
			t.did("set %s to %d", name, n)
			return talk.Reply{Text: "The kitchen has " + text + ".", Next: "Next: /kitchen show"}, nil
		}
	}
	if !t.has("kind") {
		return talk.Reply{}, talk.Refuse("/kitchen ware name:"+talk.Shown(name)+" count:1 kind:vessel",
			"The kitchen has no %q yet; say what kind it is, to add it.%s", talk.Shown(name), talk.DidYouMean(name, all))
	}
	w := planner.Ware{Name: name, Count: t.whole("count", 1), Given: true}
	if w.Count == 0 {
		return talk.Reply{}, talk.Refuse("/kitchen show", "The kitchen has no %q anyway.", talk.Shown(name))
	}
	if err := t.setWare(&w); err != nil {
		return talk.Reply{}, err
	}
	list := wares(k, t.choice("kind", wareKinds[0]))
	*list = append(*list, w)
	t.did("added %d %s", w.Count, name)
	return talk.Reply{Text: "The kitchen has " + wareLine(&w) + ".", Next: "Next: /kitchen show"}, nil
}

func kitchenCold(_ context.Context, t *Turn) (talk.Reply, error) {
	k := &t.Party.Kitchen
	if t.told() == 0 {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say how much space there is.")
	}
	if err := t.setCold(&k.Refrigerator, "refrigerator", "flat", planner.Refrigerator); err != nil {
		return talk.Reply{}, err
	}
	if err := t.setCold(&k.Freezer, "freezer", "freezer-flat", planner.Freezer); err != nil {
		return talk.Reply{}, err
	}
	t.did("set the space in the cold")
	return talk.Reply{Text: coldLine(k, planner.Refrigerator) + ".\n" + coldLine(k, planner.Freezer) + ".",
		Next: "Next: /kitchen show"}, nil
}
