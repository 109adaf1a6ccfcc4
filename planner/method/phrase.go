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
	is        meaning
	stream    *stream
	unknown   string // what it is called, where that is no food we know
}

func (p *phrase) last() string { return p.words[len(p.words)-1] }

func (p *phrase) hasWord(w string) bool { return slices.Contains(p.words, w) }

// phrases cuts words into phrases.
func (r *reader) phrases(t []word) []*phrase {
	var out []*phrase
	cur := &phrase{}
	prep, skip, drop := "", false, -1
	flush := func() {
		if len(cur.words) > 0 {
			cur.prep, cur.skip = prep, skip
			out = append(out, cur)
		}
		cur = &phrase{}
	}
	for k, x := range t {
		w := x.w
		switch {
		case k == drop: // the verb of "to thin the sauce"
		case isJoint(w):
			flush()
			switch {
			case w == ";" || w == "." || w == ":":
				skip, prep = false, ""
			case w == ")" || w == "," && prep == "for":
				skip = false
			}
		case r.in("subordinate", w):
			flush()
			prep, skip = w, true
		case r.in("phrase preposition", w):
			flush()
			prep = w
			if w == "to" && r.v.verb[at(t, k+1)] != nil {
				drop = k + 1
			}
			if w == "at" {
				skip = true
			} else if w == "into" {
				skip = false
			}
		case w == "of":
			if len(cur.words) > 0 {
				cur.words = append(cur.words, w)
			}
			n := at(t, k+1)
			cur.ofThe = cur.ofThe || n == "the" || n == "your" || n == "this"
		case r.in("phrase determiner", w):
			if len(cur.words) > 0 && (w == "a" || w == "an" || w == "the") && cur.last() != "of" {
				flush()
			}
			if len(cur.words) == 0 {
				cur.det = w
			}
			if r.in("pronoun", w) {
				cur.words = append(cur.words, w)
			}
		case r.in("phrase adverb", w):
			if len(cur.words) > 0 {
				flush()
			}
		default:
			cur.words = append(cur.words, w)
		}
	}
	flush()
	return out
}

func isJoint(w string) bool {
	switch w {
	case ",", ";", "(", ")", "and", "or", ".", "/", ":", "plus", "&":
		return true
	}
	return false
}
