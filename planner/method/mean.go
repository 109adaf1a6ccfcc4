package method

import (
	"maps"
	"slices"
	"sort"
	"strings"
)

// content are a phrase's words for foods and things made. Those of a vessel ("cake tin") are none, those in it ("pan of
// water") are.
func (r *reader) content(p *phrase) []string {
	ws := p.words
	of := slices.Index(ws, "of")
	last := ws[len(ws)-1]
	if len(ws) > 1 && one(last) == "case" && r.in("case of", ws[len(ws)-2]) {
		ws = ws[:len(ws)-1] // a pastry case is pastry, and no vessel
	} else if r.in("vessel", one(last)) && !r.food[last] || r.in("tool", last) {
		if of < 0 {
			return nil
		}
		ws = ws[of+1:]
	} else if of == 1 && r.in("vessel", ws[0]) {
		ws = ws[2:]
	}
	var out []string
	for i, w := range ws {
		s := one(w)
		if (w == "dry" || w == "wet") && (len(ws) == 1 || i+1 < len(ws) && r.in("vague", one(ws[i+1]))) {
			out = append(out, w)
			continue
		}
		if r.food[w] || r.food[s] || r.in("product", w) || r.in("product", s) || r.v.sorts[w] != nil {
			out = append(out, s)
		}
	}
	return out
}

// called is the content, or what an unknown thing is called.
func (r *reader) called(p *phrase) []string {
	if c := r.content(p); len(c) > 0 {
		return c
	}
	if p.unknown != "" {
		return []string{p.unknown}
	}
	return []string{"?"}
}

// boxOf is the vessel that a phrase names.
func (r *reader) boxOf(p *phrase) string {
	for i := len(p.words) - 1; i >= 0; i-- {
		w := p.words[i]
		if s := one(w); (r.in("vessel", w) || r.in("vessel", s)) && !r.food[w] {
			return s
		}
	}
	return ""
}

// comesIn reports whether an ingredient comes in here, and is not something under way that has it in it; portion: only
// some of it, so that it may be the rest of what stands by itself.
func (r *reader) comesIn(p *phrase, ws []string, live []*stream) (yes, portion bool) {
	head := ws[len(ws)-1]
	more := slices.ContainsFunc(p.words, func(w string) bool { return r.in("more", w) }) &&
		slices.ContainsFunc(live, func(s *stream) bool { return s.foods[head] && len(s.foods) < 4 })
	if !more && r.ownFood(head) {
		return true, false
	}
	if n := len(p.words); n > 1 && r.v.ofTwoWords[one(p.words[n-2])+" "+one(p.words[n-1])] {
		return true, false
	}
	if r.firstUse(p, ws, live) {
		return true, false
	}
	if (r.food[head]) && !r.in("made", head) {
		for _, w := range p.words {
			if r.in("more", w) {
				return false, true
			}
		}
		first := p.words[0]
		if r.v.sorts["meat"].any(head) && slices.ContainsFunc(live, func(s *stream) bool { return s.foods.any(ws...) }) {
			return false, false // two chicken thighs at a time are of those that were dipped, half a breast of the chicken
		}
		if first[0] >= '0' && first[0] <= '9' || r.in("some", first) || p.det == "a" || p.det == "some" ||
			p.det == "another" {
			return false, true
		}
	}
	return false, false
}

// ownFood reports whether a word is a food of the list of the part that is made now, which was not used so far: it is
// none that another part has in it.
func (r *reader) ownFood(w string) bool {
	own := r.own[r.part]
	line, is := own[w]
	if is {
		maps.DeleteFunc(own, func(_ string, n int) bool { return n == line })
	}
	return is
}

// unused reports whether a word that is mostly for something made is one of the list, which no act has named yet: the
// jam, of a list with apricot jam.
func (r *reader) unused(head string) bool {
	if !r.in("bought", head) {
		return false
	}
	for e, used := range r.entries {
		if used == 0 && (e == head || strings.HasSuffix(e, " "+head)) {
			r.entries[e] = r.clause
			return true
		}
	}
	return false
}

// firstUse reports whether a phrase is a line of the ingredients, of two words or more, that was not used so far.
func (r *reader) firstUse(p *phrase, ws []string, live []*stream) bool {
	var key []string
	for _, w := range p.words {
		if !r.in("determiner", w) {
			key = append(key, one(w))
		}
	}
	for a := range key {
		e := strings.Join(key[a:], " ")
		used, is := r.entries[e]
		if !is {
			continue
		}
		first := used == 0 || used == r.clause
		if used == 0 {
			r.entries[e] = r.clause
		}
		if !first || len(key)-a < 2 {
			return false
		}
		for _, w := range ws { // the chicken thighs, of which there is a stream already
			if r.v.sorts["meat"].any(w, one(w)) || r.v.sorts["fish"].any(w, one(w)) || r.v.sorts["pasta"].any(w, one(w)) {
				return !slices.ContainsFunc(live, func(s *stream) bool {
					return slices.ContainsFunc(ws, func(w string) bool { return s.has(w) && !r.in("staple", w) })
				})
			}
		}
		return true
	}
	return false
}

// find says what a phrase means.
func (r *reader) find(p *phrase) (*stream, meaning) {
	ws, live := r.content(p), r.alive(aFood)
	if len(ws) == 0 {
		return r.findUnnamed(p, live)
	}
	head := ws[len(ws)-1]
	order := r.nearest(live)
	if (ws[0] == "dry" || ws[0] == "wet") && len(ws) <= 2 {
		return r.dryOrWet(ws[0], len(ws) == 2 && ws[1] == "ingredient", order)
	}
	yes, portion := r.comesIn(p, ws, live)
	if yes {
		return nil, fresh
	}
	if portion { // the remaining kale is the rest of what is still by itself; the remaining salt is salt
		i := slices.IndexFunc(order, func(s *stream) bool { return s.foods[head] })
		if i < 0 || r.in("staple", head) || len(order[i].foods) > 3 {
			return nil, fresh
		}
	}
	var names []string
	staples := !p.hasWord("peppers") // of pepper there are none
	for _, w := range ws {
		if !r.in("vague", w) {
			names = append(names, w)
			staples = staples && r.in("staple", w)
		}
	}
	if len(names) > 0 && r.in("staple", head) && staples {
		// Salt, oil, milk: what is under way only if it is little else.
		order = slices.DeleteFunc(order, func(s *stream) bool {
			return !(s == r.focus && (len(names) > 1 || p.det == "the" || p.det == "this") || len(s.foods) <= 2 ||
				// Milk in which vanilla was heated.
				len(s.foods) == 3 && (head == "milk" || head == "cream") && s.verbs.meets(heatsLiquid) ||
				p.det == "the" && s.base == head && (head == "milk" || head == "cream") && s.verbs.meets(heatsLiquid))
		})
	}
	return r.match(p, ws, names, order)
}

// findUnnamed says what a phrase means that names no food: a part of a body, or by a pronoun what is in hand.
func (r *reader) findUnnamed(p *phrase, live []*stream) (*stream, meaning) {
	if s := r.bodyOf(p, live); s != nil {
		return s, known
	}
	for _, s := range live { // the chips, of what was begun as "chips: …"
		if w := one(p.last()); w != "" && slices.ContainsFunc(strings.Fields(s.section), func(x string) bool {
			return one(x) == w
		}) {
			return s, known
		}
	}
	switch {
	case !slices.ContainsFunc(p.words, func(w string) bool { return r.in("pronoun", w) }):
		return nil, nothing
	case r.focus != nil:
		return r.focus, known
	case len(live) > 0:
		return live[len(live)-1], known
	}
	return nil, known
}

// bodyOf is the meat or fish that a phrase names a part of: rub it into the skin.
func (r *reader) bodyOf(p *phrase, live []*stream) *stream {
	if p.det == "a" || !slices.ContainsFunc(p.words, func(w string) bool { return r.in("of a body", w) }) {
		return nil
	}
	for _, s := range r.nearest(live) {
		if s.foods.meets(r.v.sorts["meat"]) || s.foods.meets(r.v.sorts["fish"]) || s.foods.meets(r.v.sorts["bird"]) {
			return s
		}
	}
	return nil
}

var heatsLiquid = setOf("heat", "warm", "scald", "infuse", "bring", "poach")

// dryOrWet finds the dry or the wet ingredients: what was called so, what is of such foods, or those that come in here.
func (r *reader) dryOrWet(name string, ingredients bool, order []*stream) (*stream, meaning) {
	for _, s := range order {
		if s.names[name] {
			return s, known
		}
	}
	b := r.v.becomes[name]
	for _, s := range order {
		if s.verbs.meets(b.verbs) && s.foods.meets(b.foods) && len(s.foods) < 9 {
			return s, known
		}
	}
	if ingredients {
		return nil, fresh
	}
	return nil, vague
}

// nearest are the streams, what is in hand first and then the latest.
func (r *reader) nearest(live []*stream) []*stream {
	var out []*stream
	if slices.Contains(live, r.focus) {
		out = append(out, r.focus)
	}
	for i := len(live) - 1; i >= 0; i-- {
		if live[i] != r.focus {
			out = append(out, live[i])
		}
	}
	return out
}

// match finds the stream that words speak of.
func (r *reader) match(p *phrase, ws, names []string, order []*stream) (*stream, meaning) {
	head := ws[len(ws)-1]
	if !r.in("vague", head) {
		sort.SliceStable(order, func(i, j int) bool { return order[i].heads[head] && !order[j].heads[head] })
	}
	first := func(ok func(*stream) bool) *stream {
		if i := slices.IndexFunc(order, ok); i >= 0 {
			return order[i]
		}
		return nil
	}
	hasAny := func(all []string) func(*stream) bool {
		return func(s *stream) bool { return slices.ContainsFunc(all, s.has) }
	}
	if s := first(func(s *stream) bool {
		return len(names) > 0 && !slices.ContainsFunc(names, func(w string) bool { return !s.has(w) })
	}); s != nil {
		return s, known
	}
	ofSort := func(sort set) func(*stream) bool {
		return func(s *stream) bool {
			for m := range sort {
				if s.has(one(m)) {
					return true
				}
			}
			return false
		}
	}
	if s := r.ofPartNamed(head, p.last(), order); s != nil {
		return s, known
	}
	if sort := r.v.sorts[ws[0]]; len(ws) > 1 && sort != nil && r.in("product", head) { // the meat sauce, of two sauces
		if s := first(ofSort(sort)); s != nil {
			return s, known
		}
	}
	if s := first(func(s *stream) bool { return !r.in("vague", head) && s.has(head) }); s != nil {
		return s, known
	}
	if s := first(hasAny(ws[:len(ws)-1])); s != nil && r.in("piece of", head) {
		return s, known
	}
	for _, w := range append(slices.Clone(ws), p.words...) {
		for _, name := range []string{w, w + "s"} {
			if sort := r.v.sorts[name]; sort != nil {
				if s := first(ofSort(sort)); s != nil {
					return s, known
				}
			}
		}
	}
	if r.in("product", head) || r.in("vague", head) {
		if s := first(hasAny(ws[:len(ws)-1])); s != nil {
			return s, known
		}
		if r.food[head] {
			return nil, fresh
		}
		if s := r.become(p, head, order); s != nil {
			return s, known
		}
		if r.unused(head) {
			return nil, fresh
		}
		if s := r.backToMain(order); s != nil {
			p.main = true
			return s, known
		}
		return nil, vague
	}
	if p.det == "the" && !slices.ContainsFunc(ws, func(w string) bool { return r.listed[w] }) {
		return nil, vague
	}
	return nil, fresh
}

// backToMain is what was under way under no part's name, where a sentence under none comes after those of parts:
// "reheat the soup", behind the croutons.
func (r *reader) backToMain(order []*stream) *stream {
	if r.part != "" || r.focus == nil || r.focus.section == "" {
		return nil
	}
	if i := slices.IndexFunc(order, func(s *stream) bool { return s.section == "" }); i >= 0 {
		return order[i]
	}
	return nil
}

// ofPartNamed is the stream of foods of the part of the list that has a name: the mousse, of what stands "for the
// mousse". Something else that is called so goes before it.
func (r *reader) ofPartNamed(name, said string, order []*stream) (best *stream) {
	if r.food[name] && !r.in("product", name) {
		return nil
	}
	most := 0
	for part := range r.own {
		words := strings.Fields(part)
		if len(words) == 0 || one(words[len(words)-1]) != name || r.listed[name] && words[len(words)-1] != said {
			continue // the cream is not the creams
		}
		for _, s := range order {
			n := 0
			for w := range s.foods {
				if r.partOf[w] == part {
					n++
				}
			}
			if n > most {
				best, most = s, n
			}
		}
	}
	return best
}

// become is the stream that could be called so, from what was done to it and what is in it. What is in hand goes in
// without a name; it is meant where other food goes into it.
func (r *reader) become(p *phrase, name string, order []*stream) *stream {
	b, ok := r.v.becomes[name]
	if !ok || len(order) == 0 {
		return nil
	}
	score := func(s *stream) int {
		n := 0
		if s.verbs.meets(b.verbs) {
			n += 4
		}
		if s.foods.meets(b.foods) {
			n += 2
		}
		return n
	}
	var best *stream
	most := -1
	for _, s := range order {
		n := score(s)
		if s == r.focus {
			n++
		}
		if n > most {
			best, most = s, n
		}
	}
	want := 2
	if len(b.foods) > 0 && len(b.verbs) > 0 {
		want = 6
	}
	if best == r.focus && p.prep != "into" || score(best) < want {
		return nil
	}
	return best
}
