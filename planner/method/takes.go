package method

import (
	"slices"
	"strings"

	"tureen/planner/food"
)

// taking finds for each ingredient the act that takes it in.
type taking struct {
	v      *vocabulary
	acts   []Act
	said   []Sentence
	list   []Ingredient
	words  [][]string  // of each ingredient's name
	foods  []food.Food // what each is; its Class is nil where no table knows
	taken  []bool
	untold bool // acts in which nothing is told are asked, when the others have taken what they name
	loose  bool // any word of a name that is a food by itself will do
	// what is done to a tin takes nothing yet: who dusts one with flour means little of it, the batter the rest
	food bool
}

// takes says which ingredients each act takes in: those that it names, then those that it speaks of by their sort, as
// "the remaining ingredients" or by the name of their part, and those that its verb asks for.
func takes(acts []Act, list []Ingredient, sentences []Sentence) {
	t := &taking{v: load(), acts: acts, said: sentences, list: list, taken: make([]bool, len(list)),
		foods: make([]food.Food, len(list))}
	for i, g := range list {
		var ws []string
		for _, x := range wordsOf(g.Name) {
			if !isNumber(x.w) && !ends[x.w] {
				ws = append(ws, one(x.w))
			}
		}
		t.words = append(t.words, ws)
		if f, ok := food.Find(g.Name); ok {
			t.foods[i] = f
		}
	}
	t.food = true
	t.pass(t.named)
	t.food = false
	t.pass(t.named)
	t.loose = true
	t.pass(t.named)
	t.pass(t.likened)
	t.pass(t.gathered)
	t.pass(t.implied)
	t.pass(t.mentioned)
	t.untold = true
	t.pass(t.named)
	t.pass(t.mentioned)
	t.untold = false
	t.pass(t.asDesired)
}

// pass goes through the acts; each takes what it is found to take and nobody has.
func (t *taking) pass(find func(a *Act) []int) {
	for i := range t.acts {
		a := &t.acts[i]
		if a.Verb == "" != t.untold || t.food && a.Class == food.Readies {
			continue
		}
		for _, g := range find(a) {
			if !t.taken[g] {
				t.taken[g] = true
				a.Takes = append(a.Takes, g)
			}
		}
	}
}

// named are the ingredients whose words stand in a phrase.
func (t *taking) named(a *Act) (out []int) {
	for _, p := range a.phrases {
		best := 0
		var found []int
		for g := range t.words {
			n := t.likeness(p, g)
			if n == 0 || n < best || t.taken[g] && n <= best {
				continue
			}
			if n > best {
				best, found = n, nil
			}
			found = append(found, g)
		}
		found = t.ofSection(found, t.said[a.Sentence].Section)
		out = append(out, found...)
	}
	return out
}

// mentioned are the ingredients that the words of an act's clause name in passing, where nothing else takes them in:
// "stir while adding the milk", "berries" for blackberries.
func (t *taking) mentioned(a *Act) (out []int) {
	if a.Leaf {
		return nil
	}
	said := set{}
	for _, x := range wordsOf(t.said[a.Sentence].Text[a.From:a.To]) {
		said[one(x.w)] = true
	}
	for g, ws := range t.words {
		if t.taken[g] || len(ws) == 0 {
			continue
		}
		last := ws[len(ws)-1]
		whole := said[last] && (t.telling(last) || len(ws) == 1)
		for w := range said { // a berry of any sort
			whole = whole || len(w) > 3 && len(last) > len(w)+2 && strings.HasSuffix(last, w) && t.v.food[w]
		}
		for i := range len(ws) - 1 { // corn meal, and cornmeal
			whole = whole || said[ws[i]+ws[i+1]]
		}
		if whole {
			out = append(out, g)
		}
	}
	return out
}

// asDesired are what is left over where something is topped with what one likes.
func (t *taking) asDesired(a *Act) (out []int) {
	if a.Leaf || a.Verb != "top" && a.Verb != "garnish" && a.Verb != "decorate" && a.Class != food.Serves {
		return nil
	}
	likes := slices.ContainsFunc(wordsOf(t.said[a.Sentence].Text[a.From:a.To]), func(x word) bool {
		return t.v.lists["as desired"][x.w]
	})
	for g := range t.list {
		if c := t.foods[g].Class; likes && !t.taken[g] && c != nil && (c.Group == "vegetable" || c.Group == "fruit" ||
			c.Group == "herb" || c.Group == "dairy" || c.Group == "nut") {
			out = append(out, g)
		}
	}
	return out
}

// likeness is how many of an ingredient's words a phrase has; 0 where the one that names it is not among them.
func (t *taking) likeness(p []string, g int) int {
	n, tells := 0, false
	ws := t.words[g]
	for i, w := range ws {
		if !slices.Contains(p, w) {
			continue
		}
		n++
		last := i == len(ws)-1
		if last {
			n++
		}
		tells = tells || last || t.sameSort(w, g) || t.loose && t.telling(w)
	}
	if !tells {
		return 0
	}
	return n
}

// telling reports whether a word says by itself what something is.
func (t *taking) telling(w string) bool {
	return t.v.food[w] || len(w) > 3 && !t.v.lists["no food"][w] && !t.v.lists["measure"][w] &&
		!t.v.lists["phrase preposition"][w] && t.v.verb[w] == nil && t.v.past[w] == ""
}

// sameSort reports whether a word is by itself a food of an ingredient's sort: chicken is of chicken thighs, and not of
// chicken stock.
func (t *taking) sameSort(w string, g int) bool {
	if !t.v.food[w] || t.foods[g].Class == nil {
		return false
	}
	f, ok := food.Find(w)
	return ok && f.Class.Group == t.foods[g].Class.Group
}

// ofSection keeps those of a part where some are of it.
func (t *taking) ofSection(all []int, section string) []int {
	var own []int
	for _, g := range all {
		if t.list[g].Section == section {
			own = append(own, g)
		}
	}
	if len(own) > 0 {
		return own
	}
	for _, g := range all {
		of := t.list[g].Section
		told := func(o Sentence) bool { return o.Section == of }
		if of == "" || !slices.ContainsFunc(t.said, told) {
			own = append(own, g) // the sugar of the frosting waits until that is told
		}
	}
	if len(own) > 0 {
		return own
	}
	return all
}

// likened are ingredients that are the same food as a phrase, or of its class or sort: cheese, meat, spices.
func (t *taking) likened(a *Act) (out []int) {
	for _, p := range a.phrases {
		if len(p) == 0 || len(p) > 6 {
			continue
		}
		f, ok := food.Find(strings.Join(p, " "))
		for g := range t.list {
			if t.taken[g] {
				continue
			}
			c := t.foods[g].Class
			salt := slices.ContainsFunc(t.words[g], func(w string) bool { return wantsSalt.words[w] })
			switch {
			case ok && c != nil && (f.Name == t.foods[g].Name || f.Class == c && c.Group != "made"):
				out = append(out, g)
			case salt: // the spices are not the salt and pepper
			case c != nil && slices.ContainsFunc(p, func(w string) bool { return sortOf(w, c) }):
				out = append(out, g)
			case slices.ContainsFunc(p, func(w string) bool { return t.inSort(w, t.words[g]) }):
				out = append(out, g)
			}
		}
	}
	return out
}

// sortOf reports whether a word speaks of a class by its group.
func sortOf(w string, c *food.Class) bool {
	switch w {
	case "meat", "bird":
		return c.Group == "meat"
	case "fish", "seafood", "shellfish":
		return c.Group == "fish"
	case "cheese":
		return strings.Contains(c.Name, "cheese")
	case "vegetable", "veg", "veggie", "fruit", "herb", "spice", "nut", "pulse", "dairy", "seasoning":
		return c.Group == w || w == "seasoning" && (c.Group == "spice" || c.Group == "herb") ||
			strings.HasPrefix(w, "veg") && c.Group == "vegetable"
	}
	return false
}

func (t *taking) inSort(w string, name []string) bool {
	for _, s := range []string{w, w + "s"} {
		if sort := t.v.sorts[s]; sort != nil && slices.ContainsFunc(name, func(n string) bool { return sort.any(n, n+"s") }) {
			return true
		}
	}
	return false
}

// gathered are those spoken of together: all the ingredients, the dry ingredients, the marinade.
func (t *taking) gathered(a *Act) (out []int) {
	section := t.said[a.Sentence].Section
	if t.v.lists["begins a part"][a.Verb] && slices.ContainsFunc(t.acts, func(o Act) bool {
		return o.Sentence == a.Sentence && o.At > a.At && slices.ContainsFunc(o.phrases, speaksOfAll)
	}) {
		return nil // start the cabbage: melt the butter, add everything else
	}
	for _, p := range a.phrases {
		all := speaksOfAll(p)
		for g, in := range t.list {
			if t.taken[g] {
				continue
			}
			part := in.Section != "" && slices.Contains(p, one(lastWord(in.Section)))
			switch {
			case all && slices.Contains(p, "dry"):
				if !t.dry(g) {
					continue
				}
			case all && (slices.Contains(p, "wet") || slices.Contains(p, "liquid")):
				if t.dry(g) {
					continue
				}
			case all && t.partNamed(p) && !part, !all && !part:
				continue
			case all && !part && section != "" && in.Section != section && t.hasSection(section):
				continue
			case !all && (a.Class == food.Serves || a.Verb == ""):
				continue
			}
			out = append(out, g)
		}
	}
	return out
}

// speaksOfAll reports whether a phrase speaks of all there is.
func speaksOfAll(p []string) bool {
	return slices.ContainsFunc(p, func(w string) bool { return w == "ingredient" || w == "everything" || w == "rest" })
}

func (t *taking) partNamed(p []string) bool {
	return slices.ContainsFunc(t.list, func(g Ingredient) bool {
		return g.Section != "" && slices.Contains(p, one(lastWord(g.Section)))
	})
}

func (t *taking) hasSection(name string) bool {
	return slices.ContainsFunc(t.list, func(g Ingredient) bool { return g.Section == name })
}

func lastWord(s string) string {
	f := strings.Fields(strings.ToLower(s))
	if len(f) == 0 {
		return ""
	}
	return f[len(f)-1]
}

// dry reports what is weighed into a bowl before the wet.
func (t *taking) dry(g int) bool {
	c := t.foods[g].Class
	if c == nil {
		return false
	}
	switch c.Name {
	case "flour", "sugar", "leaven", "salt", "starch", "cocoa":
		return true
	}
	return c.Group == "spice" || c.Group == "grain" || c.Group == "nut"
}

// implied are those that a verb asks for: to season takes salt, to grease takes fat, to serve what is to serve.
func (t *taking) implied(a *Act) (out []int) {
	if a.Class == food.Heats && slices.ContainsFunc(a.Names, func(w string) bool { return t.v.lists["oven"][w] }) {
		return nil
	}
	wants := t.wants(a)
	for g, in := range t.list {
		if t.taken[g] {
			continue
		}
		note := strings.ToLower(in.Note + " " + in.Name)
		if slices.ContainsFunc(t.words[g], func(w string) bool { return wants.words[w] }) ||
			slices.ContainsFunc(wants.notes, func(n string) bool { return strings.Contains(note, n) }) {
			out = append(out, g)
		}
	}
	return out
}

// wanted is what a verb asks for by itself: by a word of the name, or by what the line says that it is for.
type wanted struct {
	words set
	notes []string
}

var (
	wantsSalt    = wanted{words: setOf("salt", "pepper", "seasoning")}
	wantsToServe = wanted{notes: []string{"serv", "garnish", "topping", "decorat", "optional"}}
	wantsOil     = wanted{words: setOf("oil")}
	wantsWater   = wanted{words: setOf("water")}
)

func (t *taking) wants(a *Act) wanted {
	switch {
	case a.Verb == "season" || a.Verb == "salt" || a.Verb == "taste":
		return wantsSalt
	case a.Class == food.Readies || a.Verb == "brush":
		return wanted{t.v.lists["fat"], []string{"greas", "for the tin", "for the pan", "spray"}}
	case a.Verb == "garnish" || a.Verb == "decorate" || a.Verb == "top" || a.Class == food.Serves:
		return wantsToServe
	case a.Verb == "fry" || a.Verb == "saute" || a.Verb == "heat" || a.Verb == "sear" || a.Verb == "brown" ||
		strings.HasSuffix(a.Verb, "-fry"):
		return wantsOil
	case a.Class == food.Cooks:
		return wantsWater
	}
	return wanted{}
}
