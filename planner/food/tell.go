package food

import (
	"slices"
	"strings"
)

// Tag is what a word tells: an allergen that law lists, or something that a diet or a guest at risk avoids.
type Tag string

// The tags beside the allergens.
const (
	Meat      Tag = "meat" // of any animal on land
	Pork      Tag = "pork"
	Gelatine  Tag = "gelatine"
	Rennet    Tag = "rennet"
	Honey     Tag = "honey"
	Insect    Tag = "insect"
	Fined     Tag = "fined"
	Alcohol   Tag = "alcohol"
	Vinegar   Tag = "vinegar"
	Blood     Tag = "blood"
	Scales    Tag = "scaleless"
	Pregnant  Tag = "pregnancy" // what published advice keeps from all who fall ill easily
	Expecting Tag = "expecting" // and what only from those who expect a child
	Infant    Tag = "infant"
)

// allergenTags are the fourteen of the EU, and wheat, which the US lists alone.
var allergenTags = []Tag{"gluten", "wheat", "crustaceans", "egg", "fish", "peanut", "soy", "milk", "nuts",
	"celery", "mustard", "sesame", "sulphites", "lupin", "molluscs"}

// Tags lists every tag, the allergens first, in the order of the EU's list.
func Tags() []Tag {
	return append(slices.Clone(allergenTags), Meat, Pork, Gelatine, Rennet, Honey, Insect, Fined, Alcohol,
		Vinegar, Blood, Scales, Pregnant, Expecting, Infant)
}

// Certainty is how surely a word tells something.
type Certainty string

// The certainties. What is neither is free as far as the words tell, which is no promise.
const (
	Contains   Certainty = "contains"
	MayContain Certainty = "may contain" // check the label
)

// Tell is one thing that a food's name tells of an allergen, a diet or a guest at risk.
type Tell struct {
	Tag       Tag
	Certainty Certainty
	Word      string   // the name that tells, as the table spells it
	Note      string   // what to check, "" for nothing
	About     string   // what of the tag: "egg" of what published advice keeps from those at risk
	Unless    []string // what takes it away: cooked through, pasteurised, cut small
	Source    Source
	from, to  int // the tokens that it stands on
}

// What takes a telling away, where a text or a recipe says it.
const (
	CookedThrough = "cooked"
	Pasteurised   = "pasteurised"
	Small         = "small"
	InUK          = "in:UK" // where the party is: the UK's authority lets it be eaten
)

func (t *tables) readTellings() {
	for _, l := range records("tellings.tsv") {
		tell := Tell{Tag: Tag(l.of("tag")), Certainty: Contains, Note: l.of("note"), Source: t.source(l),
			Unless: strings.Fields(l.of("unless"))}
		_, tell.About, _ = strings.Cut(l.of("key"), ":")
		for _, u := range tell.Unless {
			free, ok := strings.CutPrefix(u, "free:")
			if ok && freeOf[free] == nil || !ok && u != CookedThrough && u != Pasteurised && u != Small && u != InUK {
				l.fail("%q takes nothing away", u)
			}
		}
		switch l.of("certainty") {
		case "may":
			tell.Certainty = MayContain
		case "contains":
		default:
			l.fail("no certainty %q", l.of("certainty"))
		}
		if _, twice := t.tellings[l.of("key")]; twice || !slices.Contains(Tags(), tell.Tag) {
			l.fail("%q stands twice, or its tag is none", l.of("key"))
		}
		t.tellings[l.of("key")] = tell
	}
}

// telling is the telling that a line's key names.
func (t *tables) telling(l line, key string) Tell {
	tell, ok := t.tellings[key]
	if !ok {
		l.fail("no telling %q", key)
	}
	return tell
}

// Tells is what all words of a text tell, in its order. A longer name speaks for the words in it, one that is turned as
// in an index too: "pudding, black". Where that may be a list of foods, its words tell by themselves as well.
func Tells(text string) []Tell {
	t := data()
	tokens := t.tokensOf(text)
	p := t.read(text)
	if len(p.clauses) < 2 || len(p.clauses[0].spans) == 0 {
		return t.tell(tokens)
	}
	head := p.clauses[0].spans[len(p.clauses[0].spans)-1]
	f, turned := p.turned(0, head)
	if !turned {
		return t.tell(tokens)
	}
	all := t.tell(append(slices.Clone(f.said), tokens[p.clauses[1].to:]...))
	if f.said[0] == tokens[head.from] || // "almond, butter" may be two foods
		slices.ContainsFunc(p.clauses[2:], func(c clause) bool { return len(c.spans) > 0 }) {
		all = append(all, t.tell(tokens)...)
	}
	return all
}

// silence calls for each token that a row of not.tsv takes in.
func (t *tables) silence(tokens []token, hit func(n *not, from, mid, to int, i int)) {
	for i := range tokens {
		nots := t.nots[tokens[i].word]
		for k := range nots {
			n := &nots[k]
			mid := i + len(n.first)
			if !at(tokens, i, n.first) || !at(tokens, mid, n.second) {
				continue
			}
			to := mid + len(n.second)
			for j := i; j < to; j++ {
				hit(n, i, mid, to, j)
			}
		}
	}
}

// extent is how far the row of not.tsv goes that silences a token.
type extent struct {
	from, to int
	doubt    string
}

func (t *tables) tell(tokens []token) []Tell {
	silenced := make([]extent, len(tokens))
	t.silence(tokens, func(n *not, from, mid, to int, i int) {
		if i < mid && n.drop1 || i >= mid && n.drop2 {
			silenced[i] = extent{from, to, n.doubt}
		}
	})
	var found []Tell
	without := t.withouts(tokens)
	for i := range tokens {
		for _, n := range t.byName[tokens[i].word] {
			r := &t.foods[n.food]
			to := i + len(n.words)
			if len(r.own) == 0 || !n.at(tokens, i) {
				continue
			}
			quiet, doubt := false, ""
			for k := i; k < to; k++ {
				// A name that spells the whole out knows better.
				if s := silenced[k]; s.to > 0 && (s.from < i || s.to > to) {
					quiet = quiet || s.doubt == ""
					doubt = s.doubt
				}
			}
			if quiet {
				continue
			}
			for _, tell := range r.own {
				tell.from, tell.to, tell.Word = i, to, n.shown
				if doubt != "" {
					tell.Certainty, tell.Note = MayContain, doubt
				}
				if !without[i][tell.Tag] && !covered(tell, found) {
					found = append(found, tell)
				}
			}
		}
	}
	return t.stated(tokens, found, without)
}

// stated adds what the states of foods tell (raw oysters) and drops what a state or a word such as "vegan" takes away
// (smoked salmon, cooked).
func (t *tables) stated(tokens []token, found []Tell, without []map[Tag]bool) []Tell {
	wants := slices.ContainsFunc(found, func(f Tell) bool { return len(f.Unless) > 0 }) ||
		slices.ContainsFunc(tokens, func(w token) bool { return t.warns[w.word] })
	if !wants {
		return found
	}
	p := t.cut(tokens)
	for i, c := range p.clauses {
		for k, s := range c.spans {
			f := p.stated(i, s)
			for _, tell := range f.tells {
				less := func(x Tell) bool { return tell.Certainty == Contains && x.Certainty == MayContain }
				if !covered(tell, slices.DeleteFunc(slices.Clone(found), less)) {
					found = append(found, tell)
				}
			}
			found = slices.DeleteFunc(found, func(x Tell) bool {
				// A nut's biscuit or milk is no whole nut.
				whole := k == len(c.spans)-1 && s.from == x.from && s.to == x.to
				return s.from <= x.from && x.to <= s.to && x.lifted(f, !whole || p.small(i), without[x.from])
			})
		}
	}
	return found
}

// lifted reports whether what is said of its food takes the telling away.
func (x Tell) lifted(f Food, small bool, without map[Tag]bool) bool {
	return slices.ContainsFunc(x.Unless, func(u string) bool {
		switch free, ok := strings.CutPrefix(u, "free:"); {
		case ok:
			return without[freeOf[free][0]]
		case u == Small:
			return small
		case u == CookedThrough:
			return f.Is("cooked") || f.Is("tinned")
		}
		return f.Is(u)
	})
}

// CutsSmall reports whether what a step does, or says of its food, makes small pieces of it.
func CutsSmall(text string) bool {
	t := data()
	return slices.ContainsFunc(t.tokensOf(text), func(w token) bool {
		return t.plain[w.word] == "small" || t.plain[w.raw] == "small" || t.plain[w.raw+"d"] == "small" ||
			t.plain[w.raw+"ed"] == "small"
	})
}

// small reports whether a clause, or what follows it and names no food, says that the food is cut small.
func (p *reading) small(clause int) bool {
	for i := clause; i < len(p.clauses) && (i == clause || len(p.clauses[i].spans) == 0); i++ {
		for _, w := range p.tokens[p.clauses[i].from:p.clauses[i].to] {
			if p.t.plain[w.word] == "small" || p.t.plain[w.raw] == "small" {
				return true
			}
		}
	}
	return false
}

// covered reports whether a found name tells the same and holds the word: "oyster sauce" speaks for its oyster.
func covered(r Tell, found []Tell) bool {
	return slices.ContainsFunc(found, func(f Tell) bool { return f.Tag == r.Tag && f.from <= r.from && r.to <= f.to })
}

// What "x-free" and its like take away, within their part of the text.
var freeOf = map[string][]Tag{
	"gluten": {"gluten", "wheat"}, "wheat": {"wheat"}, "dairy": {"milk"}, "milk": {"milk"}, "egg": {"egg"},
	"nut": {"nuts", "peanut"}, "peanut": {"peanut"}, "soy": {"soy"}, "soya": {"soy"}, "fish": {"fish"},
	"sesame": {"sesame"},
	"celery": {"celery"}, "mustard": {"mustard"}, "sulphite": {"sulphites"}, "sulfite": {"sulphites"}, "lupin": {"lupin"},
	"alcohol": {Alcohol}, "pork": {Pork}, "meat": {Meat, Pork, Blood}, "gelatine": {Gelatine}, "gelatin": {Gelatine},
}

var (
	noMeat   = []Tag{Meat, Pork, Blood, Gelatine, Rennet, Scales, "fish", "crustaceans", "molluscs"}
	noAnimal = append([]Tag{"milk", "egg", Honey, Insect, Fined}, noMeat...)
)

// withouts says for each token which tags its part of the text is free of: "gluten-free", "free from dairy", "vegan",
// "eggless". A part ends at "or", "and", "with", and at a comma, unless nothing else is said behind that.
func (ts *tables) withouts(tokens []token) []map[Tag]bool {
	out := make([]map[Tag]bool, len(tokens))
	start := 0
	end := func(to int) {
		gone := gone(tokens[start:to])
		for i := start; i < to; i++ {
			out[i] = gone
		}
		start = to + 1
	}
	for i, t := range tokens {
		switch {
		case t.word == stop && !ts.goesOn(tokens[i+1:]), parts[t.word]:
			end(i)
		}
	}
	end(len(tokens))
	return out
}

var parts, frees = setOf("or and with plus"), setOf("free from vegan vegetarian veggie meatless plant based eggless " +
	"halal kosher non alcoholic nonalcoholic dealcoholised dealcoholized dealcoholiz")

// goesOn reports whether a text's next part only says how its food is or what it is free of: "pasta, gluten-free".
func (ts *tables) goesOn(tokens []token) bool {
	for _, t := range tokens {
		if t.word == stop || parts[t.word] {
			break
		}
		if freeOf[t.word] == nil && !frees[t.word] && (ts.plain[t.word] == "" || t.word == "optional") {
			return false
		}
	}
	return true
}

// gone are the tags that a part of a text says it is free of; nil for none.
func gone(part []token) map[Tag]bool {
	var gone map[Tag]bool
	drop := func(tags []Tag) {
		for _, t := range tags {
			if gone == nil {
				gone = map[Tag]bool{}
			}
			gone[t] = true
		}
	}
	word := func(i int) string {
		if i < 0 || i >= len(part) {
			return ""
		}
		return part[i].word
	}
	for i, t := range part {
		before, next := word(i-1), word(i+1)
		if before == "not" || before == "non" && t.word != "alcoholic" && t.word != "dairy" {
			continue // not vegan
		}
		switch t.word {
		case "free":
			switch next {
			case "range": // eggs free range
			case "from":
				drop(freeOf[word(i+2)])
			default:
				drop(freeOf[before])
			}
		case "vegan":
			drop(noAnimal)
		case "plant":
			if next == "based" {
				drop(noAnimal)
			}
		case "halal", "kosher":
			drop([]Tag{Pork})
		case "vegetarian", "veggie", "meatless":
			drop(noMeat)
		case "eggless":
			drop(freeOf["egg"])
		case "nonalcoholic", "dealcoholised", "dealcoholized", "dealcoholiz":
			drop(freeOf["alcohol"])
		case "non":
			if next == "alcoholic" {
				drop(freeOf["alcohol"])
			}
			if next == "dairy" {
				drop(freeOf["dairy"])
			}
		}
	}
	return gone
}
