package food

import (
	"fmt"
	"sync"
)

// Kind says what a food is to the published limits: the state that it is in, and not the dish. A raw chicken is
// Poultry, roasted it is Cooked. The zero value means that nobody knows; food that needs no limit is None, and says
// so.
type Kind string

// The kinds of food that the published limits tell apart.
const (
	Unknown       Kind = ""
	None          Kind = "none" // keeps on the counter: bread, whole fruit, baked biscuits
	Poultry       Kind = "poultry"
	GroundMeat    Kind = "ground-meat"
	RedMeat       Kind = "red-meat"
	Game          Kind = "game"
	Offal         Kind = "offal"
	Fish          Kind = "fish"
	SmokedFish    Kind = "smoked-fish"
	Shellfish     Kind = "shellfish"
	LiveShellfish Kind = "live-shellfish"
	Bivalves      Kind = "bivalves"
	Eggs          Kind = "eggs"
	RawEgg        Kind = "raw-egg"
	EggDish       Kind = "egg-dish"
	Cooked        Kind = "cooked"
	Soup          Kind = "soup"
	Rice          Kind = "rice"
	Pasta         Kind = "pasta"
	Pate          Kind = "pate"
	Salad         Kind = "salad"
	Custard       Kind = "custard"
	WhippedCream  Kind = "whipped-cream"
	CutProduce    Kind = "cut-produce"
	Sprouts       Kind = "sprouts"
	GarlicOil     Kind = "garlic-oil"
	CuredMeat     Kind = "cured-meat"
)

type kindRow struct {
	kind   Kind
	label  string
	strict int
	raw    bool
}

// kindRows is read by itself, and soon: whoever lists the kinds needs no foods.
var kindRows = sync.OnceValue(func() []kindRow {
	var out []kindRow
	for _, l := range records("kinds.tsv") {
		out = append(out, kindRow{Kind(l.of("kind")), l.of("label"), l.integer("strict"), l.of("raw") == "raw"})
	}
	return out
})

func (t *tables) readKinds() {
	for i, r := range kindRows() {
		if _, twice := t.kind[r.kind]; twice || r.label == "" {
			panic(fmt.Sprintf("kinds.tsv: %q stands twice, or has no label", r.kind))
		}
		t.kind[r.kind] = i
	}
	t.kinds = kindRows()
}

// Kinds lists every kind in the order of the table, None first.
func Kinds() []Kind {
	var out []Kind
	for _, r := range kindRows() {
		out = append(out, r.kind)
	}
	return out
}

func (k Kind) row() kindRow {
	t := data()
	if i, ok := t.kind[k]; ok {
		return t.kinds[i]
	}
	return t.kinds[t.kind[Cooked]]
}

// Label is what a person calls the kind: "raw poultry". What nobody knows is called cooked food, as it is treated.
func (k Kind) Label() string { return k.row().label }

// Perishable reports whether the published limits apply to the kind at all.
func (k Kind) Perishable() bool { return k != None }

// Raw reports whether the kind is animal food on land or in water that is not cooked; eggs are apart.
func (k Kind) Raw() bool { return k != Unknown && k.row().raw }

// Stricter is the one of two kinds whose rules leave less room, the first where they are equal. Unknown is treated as
// cooked food.
func Stricter(a, b Kind) Kind {
	if b.row().strict > a.row().strict {
		return b
	}
	return a
}

// Class is what is said of all foods of one sort alike. The list is one for raw ingredients and made things, for
// verbs and for waits.
type Class struct {
	Name   string // "cut-vegetables"
	Group  string // meat, vegetable, made …
	Label  string
	Kind   Kind   // for the limits, as it goes into a dish
	Whole  Kind   // while it is whole or unopened
	Cooked *Class // what it becomes when it is cooked through; itself where that is no change
	Sold   string // the section of a shop, "" for what is made at home
	Keep   string // where it is kept at home: counter, refrigerator, freezer
	Source Source
}

func (t *tables) readClasses() {
	all := records("classes.tsv")
	t.classes = make([]Class, len(all))
	for i, l := range all {
		c := &t.classes[i]
		*c = Class{Name: l.of("class"), Group: l.of("group"), Label: l.of("label"), Kind: Kind(l.of("kind")),
			Whole: Kind(l.of("whole")),
			Sold:  l.of("sold"), Keep: l.of("keep"), Source: t.source(l)}
		if c.Whole == Unknown {
			c.Whole = c.Kind
		}
		for _, k := range []Kind{c.Kind, c.Whole} {
			if _, known := t.kind[k]; !known {
				l.fail("no kind %q", k)
			}
		}
		if c.Name == "" || c.Group == "" || c.Label == "" || t.class[c.Name] != nil {
			l.fail("%q lacks something, or stands twice", c.Name)
		}
		if !knownPlace(c.Keep) {
			l.fail("no place %q", c.Keep)
		}
		t.class[c.Name] = c
	}
	for i, l := range all {
		if t.classes[i].Cooked = t.classOf(l, "cooked"); t.classes[i].Cooked == nil {
			t.classes[i].Cooked = &t.classes[i]
		}
	}
}

// ClassOf is the class of that name.
func ClassOf(name string) (*Class, error) {
	if c := data().class[name]; c != nil {
		return c, nil
	}
	return nil, fmt.Errorf("%.40q is no class of food that I know", name)
}
