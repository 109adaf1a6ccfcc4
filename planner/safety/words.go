package safety

import (
	_ "embed"
	"strings"
	"sync"
	"unicode"

	"tureen/planner/words"
)

// words.csv: the words of ingredients, each with what it tells (a tag: an
// allergen, or something that a diet avoids), how surely, and its source.
//
//go:embed words.csv
var wordsCSV string

// friends.csv: false friends. "coconut milk" is no milk: where a word of the
// first column stands before one of the second, the words numbered in drop
// tell nothing by themselves; with a question mark they leave a doubt.
//
//go:embed friends.csv
var friendsCSV string

// tag is what a word tells: an Allergen, or one of the things below.
type tag string

const (
	tagMeat      tag = "meat" // of any animal on land
	tagPork      tag = "pork"
	tagGelatine  tag = "gelatine"
	tagRennet    tag = "rennet"
	tagHoney     tag = "honey"
	tagInsect    tag = "insect"
	tagFined     tag = "fined"
	tagAlcohol   tag = "alcohol"
	tagVinegar   tag = "vinegar"
	tagBlood     tag = "blood"
	tagScales    tag = "scaleless"
	tagPregnant  tag = "pregnancy" // what published advice keeps from all who fall ill easily
	tagExpecting tag = "expecting" // and what only from those who expect a child
	tagInfant    tag = "infant"
)

// Certainty is how surely a word tells something.
type Certainty string

// The certainties. What is neither is free as far as the words tell, which is
// no promise: see [AllergenCaution].
const (
	Contains   Certainty = "contains"
	MayContain Certainty = "may contain" // check the label
)

// telling is one row of words.csv, found in a text.
type telling struct {
	tag       tag
	certainty Certainty
	word      string // as the table spells it
	note      string
	source    string
	from, to  int // the tokens that it stands on
}

type friend struct {
	first, second []string
	drop, why     string
}

type wordTable struct {
	rows    map[string][]telling // by the tokens, joined by blanks
	friends map[string][]friend  // by the first token of the first word
	longest int                  // tokens in the longest row
}

var wordsOnce = sync.OnceValue(func() *wordTable {
	t := &wordTable{rows: map[string][]telling{}, friends: map[string][]friend{}}
	for _, f := range records("words.csv", wordsCSV) {
		tokens := tokensOf(f["word"])
		c := Contains
		if f["certainty"] == "may" {
			c = MayContain
		}
		key := strings.Join(tokens, " ")
		t.rows[key] = append(t.rows[key], telling{tag: tag(f["tag"]), certainty: c, word: f["word"], note: f["note"], source: f["source"]})
		t.longest = max(t.longest, len(tokens))
	}
	for _, f := range records("friends.csv", friendsCSV) {
		for first := range strings.SplitSeq(f["first"], "|") {
			for second := range strings.SplitSeq(f["second"], "|") {
				fr := friend{tokensOf(first), tokensOf(second), f["drop"], f["why"]}
				t.friends[fr.first[0]] = append(t.friends[fr.first[0]], fr)
			}
		}
	}
	return t
})

// stop is the token of a comma, bracket or slash: no phrase goes across it.
const stop = "|"

var unaccent = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ä", "a", "ã", "a", "å", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ñ", "n", "ò", "o", "ó", "o", "ô", "o", "ö", "o", "õ", "o", "ø", "o",
	"ù", "u", "ú", "u", "û", "u", "ü", "u", "ý", "y", "œ", "oe", "æ", "ae", "ß", "ss", "’", "'", "\u0301", "", "\u0300", "", "\u0302", "", "\u0308", "", "\u0327", "", "\u0303", "")

// tokensOf cuts a text into singular lower-case words without accents.
func tokensOf(text string) []string {
	text = strings.ReplaceAll(unaccent.Replace(strings.ToLower(text)), "'s", "")
	var tokens []string
	var word strings.Builder
	end := func() {
		if word.Len() > 0 {
			tokens = append(tokens, words.Singular(word.String()))
			word.Reset()
		}
	}
	for _, r := range text {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			word.WriteRune(r)
		case r == '\'':
		case r == '-' || unicode.IsSpace(r):
			end()
		default:
			end()
			tokens = append(tokens, stop)
		}
	}
	end()
	return tokens
}

// told remembers what was found in texts: a menu's few ingredients are looked up for each guest and diet. It is emptied
// when it is full.
var told = struct {
	sync.Mutex
	by map[string][]telling
}{by: map[string][]telling{}}

const mostTold = 4096

// tell finds what the words of an ingredient tell, in the order of the text. The answer is shared: it is not to be changed.
func tell(text string) []telling {
	const most = 2000 // characters of an ingredient's name that are looked at
	if len(text) > most {
		text = strings.ToValidUTF8(text[:most], "")
	}
	told.Lock()
	found, ok := told.by[text]
	told.Unlock()
	if ok {
		return found
	}
	found = find(text)
	told.Lock()
	defer told.Unlock()
	if len(told.by) >= mostTold {
		clear(told.by)
	}
	told.by[strings.Clone(text)] = found
	return found
}

func find(text string) []telling {
	t := wordsOnce()
	tokens := tokensOf(text)
	at := func(i int, phrase []string) bool {
		if i+len(phrase) > len(tokens) {
			return false
		}
		for k, w := range phrase {
			if tokens[i+k] != w {
				return false
			}
		}
		return true
	}
	// Which friend, by its extent, silences a token.
	type extent struct {
		from, to int
		doubt    string // what to check, if the friend may be false itself
	}
	silenced := make([]extent, len(tokens))
	for i, token := range tokens {
		for _, f := range t.friends[token] {
			mid := i + len(f.first)
			if !at(i, f.first) || !at(mid, f.second) {
				continue
			}
			whole := extent{i, mid + len(f.second), ""}
			if strings.HasSuffix(f.drop, "?") {
				whole.doubt = f.why
			}
			if strings.Contains(f.drop, "1") {
				for k := i; k < mid; k++ {
					silenced[k] = whole
				}
			}
			if strings.Contains(f.drop, "2") {
				for k := mid; k < whole.to; k++ {
					silenced[k] = whole
				}
			}
		}
	}
	var found []telling
	without := withouts(tokens)
	for i := range tokens {
		for n := min(t.longest, len(tokens)-i); n > 0; n-- {
			rows, ok := t.rows[strings.Join(tokens[i:i+n], " ")]
			if !ok {
				continue
			}
			quiet, doubt := false, ""
			for k := i; k < i+n; k++ {
				// A row that spells the whole friend out knows better.
				if s := silenced[k]; s.to > 0 && (s.from < i || s.to > i+n) {
					quiet = quiet || s.doubt == ""
					doubt = s.doubt
				}
			}
			if quiet {
				continue
			}
			for _, r := range rows {
				r.from, r.to = i, i+n
				if doubt != "" {
					r.certainty, r.note = MayContain, doubt
				}
				if !without[i][r.tag] && !covered(r, found) {
					found = append(found, r)
				}
			}
		}
	}
	return found
}

// covered reports whether a found phrase tells the same and holds the word:
// "oyster sauce" speaks for its oyster. Longer phrases are found first.
func covered(r telling, found []telling) bool {
	for _, f := range found {
		if f.tag == r.tag && f.from <= r.from && r.to <= f.to {
			return true
		}
	}
	return false
}

// What "x-free" and its like take away, within their part of the text.
var freeOf = map[string][]tag{
	"gluten": {tag(AllergenGluten), tag(AllergenWheat)}, "wheat": {tag(AllergenWheat)},
	"dairy": {tag(AllergenMilk)}, "milk": {tag(AllergenMilk)}, "egg": {tag(AllergenEgg)},
	"nut": {tag(AllergenNuts), tag(AllergenPeanut)}, "peanut": {tag(AllergenPeanut)}, "soy": {tag(AllergenSoy)}, "soya": {tag(AllergenSoy)},
	"fish": {tag(AllergenFish)}, "sesame": {tag(AllergenSesame)}, "celery": {tag(AllergenCelery)}, "mustard": {tag(AllergenMustard)},
	"sulphite": {tag(AllergenSulphites)}, "sulfite": {tag(AllergenSulphites)}, "lupin": {tag(AllergenLupin)},
	"alcohol": {tagAlcohol}, "pork": {tagPork}, "meat": {tagMeat, tagPork, tagBlood}, "gelatine": {tagGelatine}, "gelatin": {tagGelatine},
}

var (
	noMeat = []tag{tagMeat, tagPork, tagBlood, tagGelatine, tagRennet, tagScales,
		tag(AllergenFish), tag(AllergenCrustaceans), tag(AllergenMolluscs)}
	noAnimal = append([]tag{tag(AllergenMilk), tag(AllergenEgg), tagHoney, tagInsect, tagFined}, noMeat...)
)

// withouts says for each token which tags its part of the text is free of:
// "gluten-free", "free from dairy", "vegan", "alcohol-free", "eggless". A part
// ends at a comma and at "or", "and", "with".
func withouts(tokens []string) []map[tag]bool {
	out := make([]map[tag]bool, len(tokens))
	start := 0
	take := func(part []string) map[tag]bool {
		gone := map[tag]bool{}
		drop := func(tags []tag) {
			for _, t := range tags {
				gone[t] = true
			}
		}
		for i, w := range part {
			next, before := "", ""
			if i+1 < len(part) {
				next = part[i+1]
			}
			if i > 0 {
				before = part[i-1]
			}
			if before == "not" || before == "non" && w != "alcoholic" && w != "dairy" {
				continue // not vegan
			}
			switch w {
			case "free":
				if next == "range" {
					continue // eggs free range
				}
				if next == "from" && i+2 < len(part) {
					drop(freeOf[part[i+2]])
				} else {
					drop(freeOf[before])
				}
			case "vegan":
				drop(noAnimal)
			case "plant":
				if next == "based" {
					drop(noAnimal)
				}
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
	close := func(end int) {
		gone := take(tokens[start:end])
		for i := start; i < end; i++ {
			out[i] = gone
		}
	}
	for i, w := range tokens {
		if w == stop || w == "or" || w == "and" || w == "with" || w == "plu" || w == "plus" {
			close(i)
			out[i] = map[tag]bool{}
			start = i + 1
		}
	}
	close(len(tokens))
	return out
}
