package method

import (
	"embed"
	"strings"
	"sync"

	"tureen/planner/food"
	"tureen/planner/words"
)

//go:embed words.tsv becomes.tsv
var files embed.FS

type set map[string]bool

func (s set) any(all ...string) bool {
	for _, w := range all {
		if s[w] {
			return true
		}
	}
	return false
}

func (s set) meets(o set) bool {
	for w := range s {
		if o[w] {
			return true
		}
	}
	return false
}

// within reports whether it has nothing but what o has.
func (s set) within(o set) bool {
	for w := range s {
		if !o[w] {
			return false
		}
	}
	return true
}

func (s set) take(o set) {
	for w := range o {
		s[w] = true
	}
}

func setOf(all ...string) set {
	s := set{}
	for _, w := range all {
		s[w] = true
	}
	return s
}

// becomes is what an unnamed thing may be called, by what was done to it and what is in it.
type becomes struct{ verbs, foods set }

// vocabulary is what words.tsv, becomes.tsv and the table of verbs say.
type vocabulary struct {
	lists      map[string]set
	verb       map[string]*food.Verb // by its plain form: the sense for all foods, or the first
	ing, past  map[string]string     // form to plain form
	third      set                   // it rests
	cooks      set                   // the verbs that cook
	becomes    map[string]becomes
	sorts      map[string]set // vegetables, meat, spices: a word for foods of a sort
	food       set            // words that are foods by themselves
	ofTwoWords set            // foods whose last word alone would mean another: soy sauce
}

var singularOf = []string{"product", "made", "staple", "vessel", "vague", "shape"}

var load = sync.OnceValue(func() *vocabulary {
	v := &vocabulary{lists: map[string]set{}, verb: map[string]*food.Verb{}, ing: map[string]string{},
		past: map[string]string{}, third: set{"happens": true}, becomes: map[string]becomes{},
		sorts: map[string]set{}, food: set{},
		ofTwoWords: set{}, cooks: set{}}
	for _, row := range rows("words.tsv") {
		s := v.list(row[0])
		s.take(setOf(strings.Fields(row[1])...))
		if name, ok := strings.CutPrefix(row[0], "sort "); ok {
			for _, w := range strings.Fields(row[1]) {
				s[one(w)] = true // a breast is of the breasts
			}
			v.sorts[name] = s
		}
	}
	for _, name := range singularOf {
		for w := range v.list(name) {
			v.list(name)[one(w)] = true
		}
	}
	v.list("product").take(v.list("made"))
	v.list("product").take(v.list("shape"))
	for _, row := range rows("becomes.tsv") {
		for name := range strings.FieldsSeq(row[0]) {
			v.becomes[name] = becomes{setOf(strings.Fields(row[1])...), setOf(strings.Fields(row[2])...)}
		}
	}
	v.readVerbs()
	v.readFoods()
	return v
})

func (v *vocabulary) list(name string) set {
	s, ok := v.lists[name]
	if !ok {
		s = set{}
		v.lists[name] = s
	}
	return s
}

func rows(file string) [][]string {
	text, err := files.ReadFile(file)
	if err != nil {
		panic("method: " + err.Error()) // it is embedded
	}
	var out [][]string
	for i, l := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		if i > 0 {
			out = append(out, strings.Split(l+"\t\t", "\t"))
		}
	}
	return out
}

func (v *vocabulary) readVerbs() {
	all := food.Verbs()
	for i := range all {
		one := &all[i]
		if one.Class == food.Cooks {
			v.cooks[one.Name] = true
		}
		if had := v.verb[one.Name]; had == nil || len(had.Of) > 0 && len(one.Of) == 0 {
			v.verb[one.Name] = one
		}
		if len(one.Forms) > 0 {
			v.third[one.Forms[0]] = true
		}
		for _, form := range one.Forms[min(1, len(one.Forms)):] {
			to := v.past
			if strings.HasSuffix(form, "ing") {
				to = v.ing
			}
			if to[form] == "" {
				to[form] = one.Name
			}
		}
	}
}

// readFoods takes the words that are a food's whole name, and the names of two words whose last is something made.
func (v *vocabulary) readFoods() {
	made, no, product, vessel := v.list("made"), v.list("no food"), v.list("product"), v.list("vessel")
	for w := range v.list("food") {
		v.food[w], v.food[one(w)] = true, true
	}
	for _, name := range food.Names() {
		if strings.Count(name, " ") > 1 {
			continue
		}
		w := food.Words(name)
		if len(w) == 0 {
			continue
		}
		last := w[len(w)-1]
		alone := len(w) == 1 && !product[last] && v.verb[last] == nil && !vessel[last] && !v.food[last]
		if !alone && (len(w) != 2 || !product[last]) {
			continue
		}
		if f, ok := food.Find(name); !ok || f.Class.Group == "made" {
			continue
		}
		if alone {
			v.food[last] = true
		} else {
			v.ofTwoWords[w[0]+" "+last] = true
		}
	}
	for w := range v.food {
		if made[w] || no[w] {
			delete(v.food, w)
		}
	}
}

// one is a word in the singular.
func one(w string) string { return words.Singular(w) }

// Verb is the row of the table for a verb's plain form or another of its forms; nil where there is none.
func Verb(word string) *food.Verb {
	v := load()
	for _, w := range []string{word, v.ing[word], v.past[word]} {
		if row := v.verb[w]; row != nil {
			return row
		}
	}
	return nil
}

// Sense is the row of the table for a verb and a food that it is done to.
func Sense(verb string, class *food.Class) *food.Verb {
	best := load().verb[verb]
	all := food.Verbs()
	for i := range all {
		if r := &all[i]; r.Name == verb && class != nil {
			for _, of := range r.Of {
				if of == class.Name || of == "@"+class.Group {
					return r
				}
			}
		}
	}
	return best
}
