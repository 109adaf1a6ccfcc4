// Package woven finds the ingredients of a recipe that names them in the sentences of its method alone: "Heat 600 ml
// double cream with 150 g sugar …", "rub in half its weight of butter". Start at [Reader.In]. The words stand in
// words.tsv.
package woven

import (
	_ "embed"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tureen/planner/food"
	"tureen/planner/ingredient"
	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/times"
	"tureen/planner/words"
)

//go:embed words.tsv
var table string

var lists = words.TableOf(table)

// uncountable are what a method counts and nobody buys.
var uncountable = lists.Set("uncountable")

// notAlone are words that a method has for what is in the pot already, or that mean something else as well.
var notAlone = lists.Set("not alone")

// Reader reads the sentences of one recipe.
type Reader struct {
	Usage measure.Usage
	Title string
	All   string // all of the sentences
	have  []ingredient.Line
	tried int // numbers that were looked at
}

// mostTried is how many numbers of one text are looked at: more have only texts that are no recipe.
const mostTried = 600

// Found is an ingredient, and the bytes of the sentence that it stands at.
type Found struct {
	ingredient.Line
	Start, End int
}

// In finds the ingredients in a sentence that have an amount.
func (r *Reader) In(sentence string) []Found {
	text := dotRE.ReplaceAllString(sentence, "$1$2 ") // of as many bytes
	busy := times.Spans(text)
	out := r.takeOf(text)
	for _, f := range out {
		busy = append(busy, times.Span{Start: f.Start, End: f.End})
	}
	done := 0
	for _, at := range amountRE.FindAllStringIndex(text, -1) {
		ordinal := at[1] < len(text) && startsWithDigit(text[at[0]:at[1]]) && ordinalRE.MatchString(text[at[1]:])
		if at[0] < done || ordinal ||
			slices.ContainsFunc(busy, func(b times.Span) bool { return at[0] < b.End && b.Start < at[1] }) {
			continue
		}
		if r.tried++; r.tried > mostTried {
			break
		}
		l, from, end, ok := r.at(text, at, busy)
		if !ok || from < done || strings.HasPrefix(l.Name, "the ") || strings.Contains(l.Name, " of the ") {
			continue // a quarter of the paste, a cupful of the water
		}
		if makes.MatchString(text[:at[0]]) { // make a white sauce with …
			continue
		}
		l.Name = r.inFull(l.Name)
		r.have = append(r.have, l)
		out, done = append(out, Found{l, from, end}), end
	}
	slices.SortFunc(out, func(a, b Found) int { return a.Start - b.Start })
	return out
}

// inFull is the name of a cut with what it is of, where another sentence says that: a shoulder, of "shoulder of lamb".
func (r *Reader) inFull(name string) string {
	if _, known := food.Find(name); known || name == "" {
		return name
	}
	low := words.Small(r.All)
	if at := words.Index(low, words.Small(name)+" of"); at >= 0 {
		of, _ := words.First(strings.TrimLeft(low[at+len(name)+len(" of"):], " "))
		if _, known := food.Find(name + " of " + of); known {
			return name + " of " + of
		}
	}
	return name
}

// takeOf reads the list of an old book, whose amounts stand behind: "Take of lean veal two pounds, of ham one pound".
func (r *Reader) takeOf(text string) (out []Found) {
	if !strings.HasPrefix(words.Small(text), "take of ") {
		return nil
	}
	for _, m := range takeOfRE.FindAllStringSubmatchIndex(text, -1) {
		amount := text[m[4]:m[5]]
		if m[8] >= 0 {
			amount += " " + text[m[8]:m[9]] // one pound and a half
		}
		line := amount + " " + text[m[6]:m[7]] + " " + strings.TrimSpace(text[m[2]:m[3]])
		if l, err := ingredient.ParseAs(r.Usage, line); err == nil && l.Name != "" && !l.Amount.IsZero() {
			r.have = append(r.have, l)
			out = append(out, Found{l, m[0] + len("of "), m[1]})
		}
	}
	return out
}

var (
	amountRE = regexp.MustCompile(`(?i)(?:\b\d+(?:[.,]\d+)?(?:\s+\d/\d|/\d)?\s?[¼½¾⅓⅔⅛]?|` +
		`[¼½¾⅓⅔⅛]|\b(?:half ` +
		`(?:an?|its)|three quarters|a quarter|(?:a )?couple|an?|one|two|three|four|five|six|eight|ten|twelve|the same|` +
		`twice its|its own|an equal)\b)`)
	stopRE = regexp.MustCompile(`(?i)[,;:()!@+]|\.(?:\s|$)|\s(?:and|with|w/|in|into|to|until|till|over|on|onto|for|at|` +
		`then|from|per|before|after|while|plus|or|through|by|off|as|is|are|when|per|each|together|all|around|under|go|` +
		`along|out|has|have|had|being|goes|which|that|you|it|beaten|lightly|well)(?:[\s,;:.]|$)`)
	intoRE = regexp.MustCompile(
		`(?i)\b(?:into|in|to|than|like|among|between|serves|feeds|for|every|mark|gas|another|(?:size|shape|colour|` +
			`color|thickness|width|weight|height|depth) of)\s+(?:about\s+)?$`)
	ofRE = regexp.MustCompile(
		`(?i)\b(?:juice|zest|rind|grated zest|zest and juice|juice and zest|yolks?|whites?|milk)\s+of\s+$`)
	// shareRE is an amount by another's: half its weight of butter, the same of water.
	shareRE = regexp.MustCompile(`(?i)^(half its|twice its|its own|the same|an equal)\s+(?:(?:own\s+)?(?:weight|amount|` +
		`quantity)\s+)?(?:of|in)\s+(?:the\s+)?([a-z -]+)$`)
	// ofAboutRE is a joint with its weight behind it.
	ofAboutRE = regexp.MustCompile(
		`(?i)^(?:an?|one)\s+([a-z][a-z -]+?),?\s+(?:of|weighing)\s+(?:about\s+|some\s+)?(\d.*)$`)
	// makes stands before what the method makes.
	makes = regexp.MustCompile(`(?i)\b(?:make|makes|making|form|forming)\s+(?:up\s+)?$`)
	// takeOfRE is an amount behind what it is of: "of plain flour one pound and a half".
	takeOfRE = regexp.MustCompile(`(?i)\bof\s+((?:[a-z-]+\s+){1,4}?)(half an?|an?|one|two|three|four|five|six|eight|ten|` +
		`twelve|\d+)\s+(pounds?|ounces?|pints?|quarts?|gills?|lbs?|oz|tablespoonfuls?|teaspoonfuls?)(?:\s+(and a ` +
		`(?:half|quarter)))?\b`)
	// wholeRE is a unit that is said to be whole: a whole head of garlic.
	wholeRE = regexp.MustCompile(`(?i)^(\S+)\s+whole\s+((?:heads?|bulbs?|sticks?|sprigs?|stalks?|bunch|bunches)\b)`)
	// likeRE is a food that says how large or thick something is.
	likeRE = regexp.MustCompile(`(?i)\b(?:size|shape|colour|color|thickness|consistency|weight) of (?:an? |the )?` +
		`(?:small |large |big )?[a-z]+`)
	// ordinalRE makes a day of a number: on the 14th.
	ordinalRE = regexp.MustCompile(`^(?:st|nd|rd|th)\b`)
	// moreRE is the word between a number and its unit that says that there was some before: three more tablespoons.
	moreRE = regexp.MustCompile(`(?i)^(\S+)\s+(?:more|further|extra|other)\s+`)
	// dotRE is the full stop of a unit that is written short.
	dotRE = regexp.MustCompile(`(?i)(\b\d[\d/ ]*-?|[½¼¾]\s?)(oz|lb|lbs|pt|pts|qt|tbsp|tsp|gal|kg|g|ml)\.`)
)

// at reads the ingredient whose amount stands at a place, and the bytes that it takes up.
func (r *Reader) at(text string, at []int, busy []times.Span) (l ingredient.Line, from, end int, ok bool) {
	end = len(text)
	if stop := stopRE.FindStringIndex(text[at[1]:]); stop != nil {
		end = at[1] + stop[0]
	}
	for _, b := range busy {
		if b.Start >= at[1] && b.Start < end {
			end = b.Start // 50 g butter 10 min
		}
	}
	end = at[0] + len(strings.TrimRight(text[at[0]:end], " ."))
	phrase := text[at[0]:end]
	if f := shareRE.FindStringSubmatch(phrase); f != nil {
		l, ok = r.share(words.Small(f[1]), f[2])
		return l, at[0], end, ok
	}
	if m := ofAboutRE.FindStringSubmatch(phrase); m != nil {
		phrase = m[2] + " " + m[1]
	}
	if strings.HasSuffix(text[:at[0]], "(") && strings.HasPrefix(text[end:], ")") {
		return r.counted(text, phrase, at[0]-1, end+1)
	}
	if l, ok = r.line(text[:at[0]], phrase); ok {
		return l, at[0], end, true
	}
	// Sherry vinegar 30 ml: the name stands before.
	if len(strings.Fields(phrase)) <= 2 && startsWithDigit(phrase) && !strings.HasSuffix(text[:at[0]], "(") {
		head := strings.TrimRight(text[:at[0]], " ")
		for _, w := range []string{"about", "roughly", "around", "some"} {
			head = strings.TrimRight(strings.TrimSuffix(head, " "+w), " ,") // lamb shoulder, about 2 kilos
		}
		from = max(len(head)-60, 0)
		if stops := stopRE.FindAllStringIndex(head[from:], -1); len(stops) > 0 {
			from += stops[len(stops)-1][1]
		} else if blank := strings.IndexByte(head[from:], ' '); from > 0 && blank >= 0 {
			from += blank
		}
		for from < len(head) && head[from] == ' ' {
			from++
		}
		name := strings.TrimSpace(head[from:])
		if name != "" && len(strings.Fields(name)) <= 3 && method.Verb(words.Small(name)) == nil && !told(name) {
			l, ok = r.line("", phrase+" "+name)
			return l, from, end, ok && !l.Amount.IsZero()
		}
	}
	return l, at[0], end, false
}

// counted is "legs (8)", of what the title may say in full.
func (r *Reader) counted(text, count string, at, next int) (l ingredient.Line, from, end int, ok bool) {
	head := strings.TrimRight(text[:at], " ")
	from = strings.LastIndexByte(head, ' ') + 1
	name := head[from:]
	title := strings.Fields(words.Small(r.Title))
	for i := 1; i < len(title); i++ {
		if _, known := food.KindOf(title[i-1] + " " + title[i]); known && title[i] == words.Small(name) {
			name = title[i-1] + " " + title[i]
		}
	}
	if _, known := food.KindOf(name); !known || strings.Trim(count, "0123456789") != "" {
		return l, from, next, false
	}
	l, err := ingredient.ParseAs(r.Usage, count+" "+name)
	return l, from, next, err == nil && l.Name != ""
}

// share is an ingredient that is told as a share of the last that was weighed.
func (r *Reader) share(how, name string) (l ingredient.Line, ok bool) {
	for _, g := range slices.Backward(r.have) {
		q := g.Total()
		if q.IsZero() || q.Unit() == measure.Each {
			continue
		}
		n, _ := q.Low().Float64()
		switch how {
		case "half its":
			n /= 2
		case "twice its":
			n *= 2
		}
		l, err := ingredient.ParseAs(r.Usage, strconv.FormatFloat(n, 'g', 4, 64)+" "+q.Unit().Name(n > 1)+" "+name)
		return l, err == nil && l.Name != "" && !l.Amount.IsZero()
	}
	return l, false
}

// line reads an amount and what follows it as an ingredient; ok is false where it is none.
func (r *Reader) line(before, phrase string) (l ingredient.Line, ok bool) {
	line, before := strings.TrimSpace(phrase), before[max(len(before)-60, 0):] // no more of a sentence matters
	line = wholeRE.ReplaceAllString(moreRE.ReplaceAllString(line, "$1 "), "$1 $2")
	for _, p := range []string{"half an ", "half a "} {
		if after, is := strings.CutPrefix(words.Small(line), p); is {
			line = "½ " + after
		}
	}
	for _, p := range []string{"couple of ", "couple ", "a couple "} {
		if after, is := strings.CutPrefix(words.Small(line), p); is {
			line = "2 " + strings.TrimPrefix(after, "of ")
		}
	}
	if of := ofRE.FindString(before); of != "" {
		line = of + line
	}
	l, err := ingredient.ParseAs(r.Usage, line)
	if err != nil || l.Name == "" || l.Amount.IsZero() && l.Unit == measure.Each || len(strings.Fields(l.Name)) > 5 ||
		startsWithDigit(l.Name) {
		return l, false
	}
	for _, cut := range []string{" fine", " thin", " small", " thinly", " finely", " up", " across"} {
		if name, how := strings.CutSuffix(l.Name, cut); how && l.Preparation == "" {
			l.Name, l.Preparation = name, strings.TrimSpace(cut) // slice two onions fine
		}
	}
	head := words.Singular(ingredient.Head(l.Name))
	if stopRE.MatchString(" "+l.Name+" ") && len(strings.Fields(l.Name)) == 1 {
		return l, false
	}
	_, known := food.Find(l.Name) // lasagne sheets
	if uncountable[head] && !known || uncountable[words.Singular(words.Small(l.Name))] ||
		l.Unit.Name(false) == words.Small(l.Name) ||
		l.Unit.Name(true) == words.Small(l.Name) {
		return l, false
	}
	if l.Unit == measure.Each && l.Amount.Unit() == measure.Each {
		_, known = food.KindOf(l.Name)
		if intoRE.MatchString(before) && !(known && strings.HasSuffix(words.Small(before), " in ")) {
			return l, false
		}
		return l, known || ingredient.StartsAmount(phrase) && method.Verb(head) == nil
	}
	return l, true
}

// Bare are the foods that a sentence names without an amount anywhere, of those that nobody has named before.
func (r *Reader) Bare(sentence string, found []Found) []ingredient.Line {
	var out []ingredient.Line
	rest, from := "", 0
	for _, f := range found {
		rest, from = rest+sentence[from:f.Start]+";", f.End
	}
	for _, f := range food.All(likeRE.ReplaceAllString(rest+sentence[from:], " ")) {
		w := f.Said()
		if notAlone[w] || made(f) || r.named(w) {
			continue
		}
		if l, err := ingredient.ParseAs(r.Usage, w); err == nil && l.Name != "" {
			out, r.have = append(out, l), append(r.have, l)
		}
	}
	return out
}

// named reports whether a food was found before.
func (r *Reader) named(w string) bool {
	head := words.Fold(words.Singular(ingredient.Head(w)))
	return slices.ContainsFunc(r.have, func(l ingredient.Line) bool {
		return slices.ContainsFunc(strings.Fields(words.Small(l.Name+" "+l.Preparation)), func(one string) bool {
			one = words.Fold(words.Singular(one))
			return one == head || one == "egg" && (head == "yolk" || head == "white")
		})
	})
}

// told reports whether a text tells somebody to do something.
func told(text string) bool {
	_, _, ok := method.Told(text)
	return ok
}

func startsWithDigit(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

// made reports whether a food is none that a cook buys to make a dish: a method speaks of it as what it makes.
func made(f food.Food) bool {
	return f.Class.Group == "made" || f.Class.Group == "dough" || f.Class.Sold == ""
}
