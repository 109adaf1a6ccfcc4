package method

import "slices"

// meaning is what a phrase was found to speak of.
type meaning int

const (
	nothing meaning = iota
	known           // a stream
	fresh           // an ingredient that comes in here
	vague           // something made, which no stream is sure to be
)

// phrase is a noun's: what stands before it, and its words.
type phrase struct {
	prep, det string
	words     []string
	skip      bool // it stands in a clause of until, if, for: no food goes in by it
	ofThe     bool // half of the butter
	main      bool // it is what is under way under no part's name
	gives     bool // it is what comes of it: enough water to make a dressing
	is        meaning
	stream    *stream
	unknown   string // what it is called, where that is no food we know
}

// comesOut reports what comes of it: boil the wine down to a glaze.
func (p *phrase) comesOut() bool { return p.prep == "to" && (p.det == "a" || p.det == "an") }

func (p *phrase) last() string { return p.words[len(p.words)-1] }

func (p *phrase) hasWord(w string) bool { return slices.Contains(p.words, w) }

// phrases cuts words into phrases.
func (r *reader) phrases(t []word) []*phrase {
	cut := phraseCut{cur: &phrase{}}
	drop := -1
	for k, x := range t {
		w := x.w
		switch {
		case k == drop: // the verb of "to thin the sauce"
		case isJoint(w):
			cut.joint(w)
		case r.in("subordinate", w):
			cut.flush()
			cut.prep, cut.skip = w, true
		case w == "to" && at(t, k+1) == "taste":
			cut.flush()
			drop = k + 1
		case r.in("phrase preposition", w):
			cut.flush()
			cut.prep = w
			if w == "to" && r.v.verb[at(t, k+1)] != nil {
				drop = k + 1
			}
			switch {
			case w == "at" || w == "into":
				cut.skip = w == "at"
			case drop == k+1 && r.in("gives", at(t, k+1)):
				cut.gives = true
			}
		case w == "of":
			cut.of(at(t, k+1))
		case r.in("phrase determiner", w):
			cut.determiner(w)
			if r.in("pronoun", w) {
				cut.cur.words = append(cut.cur.words, w)
			}
		case r.in("phrase adverb", w):
			cut.flush()
		default:
			cut.cur.words = append(cut.cur.words, w)
		}
	}
	cut.flush()
	return cut.out
}

// phraseCut is how far the cutting has come.
type phraseCut struct {
	out  []*phrase
	cur  *phrase
	prep string
	skip bool
	// It stands behind "to make".
	gives bool
}

func (c *phraseCut) flush() {
	if len(c.cur.words) > 0 {
		c.cur.prep, c.cur.skip, c.cur.gives = c.prep, c.skip, c.gives
		c.out = append(c.out, c.cur)
		c.cur = &phrase{}
		return
	}
	c.cur.det, c.cur.ofThe = "", false
}

func (c *phraseCut) joint(w string) {
	c.flush()
	c.gives = false
	switch {
	case w == ";" || w == "." || w == ":":
		c.skip, c.prep = false, ""
	case w == ")" || w == "," && c.prep == "for":
		c.skip = false
	}
}

func (c *phraseCut) of(next string) {
	if len(c.cur.words) > 0 {
		c.cur.words = append(c.cur.words, "of")
	}
	c.cur.ofThe = c.cur.ofThe || next == "the" || next == "your" || next == "this"
}

func (c *phraseCut) determiner(w string) {
	if len(c.cur.words) > 0 && (w == "a" || w == "an" || w == "the") && c.cur.last() != "of" {
		c.flush()
	}
	if len(c.cur.words) == 0 {
		c.cur.det = w
	}
}

func isJoint(w string) bool {
	switch w {
	case ",", ";", "(", ")", "and", "or", ".", "/", ":", "plus", "&":
		return true
	}
	return false
}
