package food

import (
	"slices"
	"strconv"
	"strings"
)

// Verb is what a cook does, in one of its senses: which of them is meant the food says that it is done to.
type Verb struct {
	Name      string   // "roast"
	Forms     []string // "roasts", "roasted", "roasting"; how the verb is found in a text
	Class     VerbClass
	Noun      bool     // the word is as often a thing or a food: "top", "oil"
	Of        []string // classes and groups that this sense is of; none for all others
	Sense     string   // what is meant, in a few words
	Attention string   // hands, watch, touch, rest
	Where     string   // oven, burner, grill, counter, refrigerator, freezer; "" where the text must say
	// how long it takes, at least and at most; zero where the text must say
	Minutes [2]float64
	Per     string // of what: kg, piece, covers (for a usual recipe, and longer for more), batch
	Leaves  string // a class; "same"; "cooked": what its class leaves when it is cooked
	Tool    string // what it wants; "" for none
	Source  Source
}

// VerbClass is what a verb does with the food that is in hand.
type VerbClass string

// The classes of verbs.
const (
	Adds    VerbClass = "add"   // puts one thing to another
	Moves   VerbClass = "move"  // puts it somewhere else
	Mixes   VerbClass = "mix"   // makes one thing of several
	Heats   VerbClass = "heat"  // makes a thing hot, for what is put into it
	Cooks   VerbClass = "cook"  // cooks it
	Cuts    VerbClass = "cut"   // makes it ready by hand
	Rests   VerbClass = "rest"  // lets it stand
	Serves  VerbClass = "serve" // brings it to the table
	GoesOn  VerbClass = "go on" // does something to what is in hand
	Readies VerbClass = "ready" // makes a tin or dish ready
	Makes   VerbClass = "make"  // says what comes of the next words
)

var (
	classes    = []VerbClass{Adds, Moves, Mixes, Heats, Cooks, Cuts, Rests, Serves, GoesOn, Readies, Makes}
	attentions = []string{"hands", "watch", "touch", "unattended"}
	heats      = []string{"", "oven", "burner", "grill", "counter", "refrigerator", "freezer"}
	amounts    = []string{"", "kg", "piece", "covers", "batch"}
)

func (t *tables) readVerbs() {
	for _, l := range records("verbs.tsv") {
		v := Verb{Name: l.of("verb"), Forms: strings.Split(l.of("forms"), "|"), Of: strings.Fields(l.of("of")),
			Class: VerbClass(l.of("class")), Noun: l.of("noun") != "", Sense: l.of("sense"),
			Attention: l.of("attention"), Where: l.of("where"), Per: l.of("per"), Leaves: l.of("leaves"),
			Tool: l.of("tool"), Source: t.source(l)}
		if v.Name == "" || v.Sense == "" || !slices.Contains(classes, v.Class) ||
			!slices.Contains(attentions, v.Attention) || !slices.Contains(heats, v.Where) || !slices.Contains(amounts, v.Per) {
			l.fail("a field is lacking, or is no word of its column")
		}
		if v.Leaves != "same" && v.Leaves != "cooked" && t.class[v.Leaves] == nil {
			l.fail("no class %q", v.Leaves)
		}
		for _, of := range v.Of {
			if g, ok := strings.CutPrefix(of, "@"); !t.knownOf(of) {
				l.fail("no class or group %q (%s, %v)", of, g, ok)
			}
		}
		if m := l.of("minutes"); m != "" {
			least, most, _ := strings.Cut(m, "-")
			var err, err2 error
			v.Minutes[0], err = strconv.ParseFloat(least, 64)
			if v.Minutes[1], err2 = v.Minutes[0], nil; most != "" {
				v.Minutes[1], err2 = strconv.ParseFloat(most, 64)
			}
			if err != nil || err2 != nil || v.Minutes[0] <= 0 || v.Minutes[1] < v.Minutes[0] || v.Per == "" {
				l.fail("%q are no minutes, or nobody says of what", m)
			}
		}
		t.verbs = append(t.verbs, v)
	}
}

// knownOf reports whether a name is a class, or with @ before it a group of classes.
func (t *tables) knownOf(of string) bool {
	if g, ok := strings.CutPrefix(of, "@"); ok {
		return slices.ContainsFunc(t.classes, func(c Class) bool { return c.Group == g })
	}
	return t.class[of] != nil
}

// Verbs lists every sense of every verb. They are shared: not to be changed.
func Verbs() []Verb { return data().verbs }

// Wait is how food of a class waits in a place: quality, and not safety, whose limits hold besides.
type Wait struct {
	Class      *Class
	Place      string // counter, refrigerator, freezer, hot hold
	BestFrom   int    // minutes from when it is made: a braise is better after a day
	BestUntil  int    // until here it loses nothing
	WorthUntil int    // after this it is not worth serving
	Finish     string // what brings it back; "" for nothing
	Loss       int    // what this way costs the dish: 0 nothing, 1 slight, 2 plain
	// the published figures that it rests on, by their numbers in testdata/ahead.tsv, where the test holds it to them
	Facts  []string
	Source Source
}

func (t *tables) readWaits() {
	for _, l := range records("waits.tsv") {
		w := Wait{Class: t.classOf(l, "class"), Place: l.of("place"), BestFrom: lengthOf(l, "best_from"),
			BestUntil:  lengthOf(l, "best_until"),
			WorthUntil: lengthOf(l, "worth_until"), Finish: l.of("finish"), Loss: l.integer("loss"), Source: t.source(l)}
		if f := l.of("facts"); f != "-" {
			w.Facts = strings.Fields(f)
		}
		if w.Class == nil || !knownPlace(w.Place) || w.Loss > 2 {
			l.fail("no class, no place, or more than plain loss")
		}
		if w.BestFrom > w.BestUntil || w.BestUntil > w.WorthUntil {
			l.fail("it is best after it is no longer worth serving")
		}
		if slices.ContainsFunc(t.waits, func(o Wait) bool { return o.Class == w.Class && o.Place == w.Place }) {
			l.fail("%s, %s stands twice", w.Class.Name, w.Place)
		}
		t.waits = append(t.waits, w)
	}
}

// lengthOf reads a length of time: 30m, 4h, 2d; 0.
func lengthOf(l line, column string) int {
	v := l.of(column)
	if v == "0" {
		return 0
	}
	per := map[byte]int{'m': 1, 'h': 60, 'd': 24 * 60}
	if v == "" || per[v[len(v)-1]] == 0 {
		l.fail("%s: %q is no length of time", column, v)
	}
	n, err := strconv.Atoi(v[:len(v)-1])
	if err != nil || n < 1 {
		l.fail("%s: %q is no length of time", column, v)
	}
	return n * per[v[len(v)-1]]
}

// WaitOf is how food of a class waits in a place; ok is false where the table does not say.
func WaitOf(class *Class, place string) (w Wait, ok bool) {
	for _, w := range data().waits {
		if w.Class == class && w.Place == place {
			return w, true
		}
	}
	return Wait{}, false
}
