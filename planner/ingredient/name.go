package ingredient

import (
	"slices"
	"strings"

	"tureen/planner/food"
	"tureen/planner/measure"
	"tureen/planner/words"
)

// name reads what follows the amount: preparation, name, preparation again and notes.
func (r *lineReader) name(text string) {
	l := r.line
	text, notes := r.takeParens(text)
	if len(notes) > 0 && text != "" && onlyAdjectives(words.Small(text)) {
		if name, _ := cutName(notes[0]); len(food.All(name)) > 0 { // 4 boneless (skinless chicken breasts)
			text, notes = text+" "+notes[0], notes[1:]
		}
	}
	if l.Amount.Unit() == "clove" && text != "" && onlyAdjectives(words.Small(text)) {
		r.setUnit(measure.Each)
		text = "cloves, " + text // the spice
	}
	text = strings.Trim(text, " ,;.")
	prep, text := leadingPreparation(text)
	name, tail := cutName(text)
	name = r.trailingUnit(name)
	l.Name = strings.Trim(name, " ,;.:-–")
	preps := slices.DeleteFunc([]string{l.Preparation, prep}, func(s string) bool { return s == "" })
	for _, part := range splitTail(tail) {
		r.flags(part)
		switch {
		case r.further(part):
		case prepares(part):
			preps = append(preps, part)
		default:
			notes = append(notes, part)
		}
	}
	for _, n := range notes {
		r.flags(n)
	}
	l.Preparation = strings.Join(preps, ", ")
	l.Note = strings.Join(notes, "; ")
	if l.Amount.IsZero() && l.Unit == measure.Each && len(l.More) == 1 && !l.More[0].Each {
		l.Amount, l.More = l.More[0].Amount, nil // water to cover (2 to 3 quarts)
	}
	if l.Name == "" && l.Amount.Unit() == "clove" {
		l.Name = "cloves" // the spice
		r.setUnit(measure.Each)
	}
	if l.Name == "" {
		// Nothing but preparation or notes is left: then that is what it is called.
		switch {
		case prep != "":
			l.Name, l.Preparation = prep, ""
		case l.Size != "":
			l.Name, l.Size = l.Size, ""
		case !l.Amount.IsZero() && l.Amount.Unit() != measure.Each:
			l.Name = l.Amount.Unit().Name(true)
		default:
			l.Name = strings.Trim(l.Text, " ,;.()-")
		}
	}
}

// leadingPreparation takes "finely chopped", "peeled, seeded and chopped" off the text's start.
func leadingPreparation(text string) (prep, rest string) {
	rest = text
	end := 0 // of the last participle
	at := 0
	for {
		w, n := words.First(text[at:])
		if w == "" {
			break
		}
		low := words.Small(w)
		next := at + n
		switch {
		case adverbs[low] || low == "and" || low == "or":
		case participles[low] || participles[lastPart(low)]:
			end = next
		default:
			w = ""
		}
		if w == "" {
			break
		}
		at = next
		if strings.HasPrefix(text[at:], ",") {
			at++
		}
		at += len(text[at:]) - len(strings.TrimLeft(text[at:], " "))
	}
	if end == 0 {
		return "", text
	}
	rest = text[end:]
	if strings.HasPrefix(rest, ", ") && !prepares(rest[2:]) {
		rest = rest[2:] // melted, unsalted butter
	}
	rest = strings.TrimLeft(rest, " ")
	if strings.HasPrefix(rest, ",") || rest == "" {
		return "", text // "crushed, ...": nothing is named yet
	}
	for _, keep := range keepNames {
		if strings.HasPrefix(words.Small(text), keep) {
			return "", text
		}
	}
	if boughtSo(text, rest) {
		return "", text
	}
	return strings.TrimSpace(text[:end]), rest
}

// boughtSo reports whether a participle belongs to the food that it stands before, which is another one without it:
// minced beef, whipped cream, cooked prawns. Eggs are beaten at home, and what is in tins and packets may be cut there.
func boughtSo(text, rest string) bool {
	f, ok := food.Find(text)
	without, _ := food.Find(rest)
	if ok && f.Is(food.CookedThrough) && without.Class != nil && without.Kind().Raw() {
		return true // cooked chicken, which no step here cooks
	}
	if !ok || !strings.HasPrefix(strings.Join(strings.Fields(words.Small(text)), " "), f.Said()) {
		return false
	}
	return without.Name != f.Name && f.Class.Group != "egg" && f.Class.Group != "nut" && f.Class.Sold != "tins"
}

// lastPart is what stands after a word's last hyphen: well-drained.
func lastPart(word string) string { return word[strings.LastIndexByte(word, '-')+1:] }

// cutName finds where the name ends.
func cutName(text string) (name, tail string) {
	low := words.Small(text)
	end := len(text)
	for _, stop := range nameStops {
		for at, from := 0, 0; from < end; from = at + 1 {
			i := strings.Index(low[from:], stop)
			if i < 0 || from+i >= end {
				break
			}
			at = from + i
			if at == 0 || stop == ", " && onlyAdjectives(low[:at]) {
				continue
			}
			end = at
			break
		}
	}
	// An amount after "or" is another way to say it, or another thing.
	for _, or := range []string{" or ", " plus ", " and "} {
		if at := strings.Index(low[:end], or); at > 0 && StartsAmount(text[at+len(or):]) {
			end = at
		}
	}
	if at := participleEnd(text[:end]); at > 0 {
		end = at
	}
	if strings.HasSuffix(text[:end], ",") {
		end--
	}
	return text[:end], strings.TrimLeft(text[end:], " ,;")
}

// onlyAdjectives reports that no noun has come yet: "light", "skinless", "peeled".
func onlyAdjectives(text string) bool {
	for _, w := range strings.FieldsFunc(text, func(c rune) bool { return c == ' ' || c == ',' }) {
		if !adjectives[w] && !adverbs[w] && !participles[w] && w != "and" && w != "or" && w != "very" && !sizeWords[w] &&
			!strings.HasSuffix(w, "less") {
			return false
		}
	}
	return true
}

// participleEnd is where "onion chopped", "ginger peeled and sliced" stop naming; 0 for nowhere.
func participleEnd(name string) int {
	fields := strings.Split(name, " ")
	at := 0
	for i, w := range fields {
		if i > 0 && i+1 < len(fields) && adverbs[words.Small(w)] && participles[words.Small(fields[i+1])] &&
			(i+2 == len(fields) || follows[words.Small(fields[i+2])]) {
			return at - 1
		}
		if i > 0 && participles[words.Small(strings.Trim(w, ","))] &&
			(i+1 == len(fields) || follows[words.Small(fields[i+1])]) {
			return at - 1
		}
		at += len(w) + 1
	}
	return 0
}

// trailingUnit reads the unit of "6 large garlic cloves", "2 celery stalks", "thyme sprigs".
func (r *lineReader) trailingUnit(name string) string {
	if r.line.Amount.Unit() != measure.Each || r.line.Unit != measure.Each {
		return name
	}
	at := strings.LastIndexByte(name, ' ')
	if at < 0 || !trailing[words.Small(name[at+1:])] || onlyAdjectives(words.Small(name[:at])) {
		return name
	}
	u, err := measure.ParseUnit(name[at+1:])
	if err != nil {
		return name
	}
	if r.line.Amount.IsZero() {
		r.line.Unit = u
	} else {
		r.setUnit(u)
	}
	return name[:at]
}

// splitTail splits what follows a name where one remark ends and another begins.
func splitTail(tail string) []string {
	var parts []string
	for _, p := range strings.FieldsFunc(tail, func(c rune) bool { return c == ';' }) {
		open := ""
		for _, q := range strings.Split(p, ", ") {
			q = strings.Trim(q, " ,.")
			if q == "" {
				continue
			}
			if open != "" && prepares(open) && prepares(q) {
				parts[len(parts)-1] += ", " + q
			} else {
				parts = append(parts, q)
			}
			open = q
		}
	}
	return parts
}

// prepares reports whether a remark says what is done to the ingredient.
func prepares(text string) bool {
	fields := strings.Fields(words.Small(text))
	for len(fields) > 0 && (adverbs[fields[0]] || fields[0] == "and" || fields[0] == "then" || fields[0] == "each") {
		fields = fields[1:]
	}
	if len(fields) == 0 {
		return false
	}
	w := strings.Trim(fields[0], ",.;:")
	if len(fields) <= 5 && words.Has(text, "cubes", "chunks", "wedges", "rings", "strips", "dice", "slices",
		"matchsticks") {
		return true // in 4 cm cubes
	}
	return participles[w] || participles[lastPart(w)] || w == "at" && strings.Contains(text, "room temperature")
}

// flags sees whether a remark lets the ingredient be left out, or leaves its amount to taste.
func (r *lineReader) flags(text string) {
	low := words.Small(text)
	for _, w := range []string{"optional", "if desired", "if you like", "if using", "if wanted", "if liked"} {
		if strings.Contains(low, w) {
			r.line.Optional = true
		}
	}
	for _, w := range []string{"to taste", "as needed", "as required"} {
		if strings.Contains(low, w) {
			r.line.ToTaste = true
		}
	}
}

// Head is the noun of an ingredient's name, in lower case and for one: "flour" for "all-purpose flour",
// "chop" for "lamb chops".
func Head(name string) string {
	low := words.Small(name)
	for _, join := range []string{" or ", " and ", ", "} {
		for at := strings.Index(low, join); at > 0 && onlyAdjectives(low[:at]); at = strings.Index(low, join) {
			low = low[at+len(join):] // fresh or canned chicken broth
		}
	}
	for _, stop := range []string{" or ", " and ", ",", " from ", " for ", " with ", " in ", " of ", " such ", " like ",
		" (", "/", ";", " to ", " plus ", " at "} {
		if at := strings.Index(low, stop); at > 0 {
			low = low[:at]
		}
	}
	fields := strings.Fields(low)
	for len(fields) > 1 && participles[fields[len(fields)-1]] {
		fields = fields[:len(fields)-1]
	}
	if len(fields) == 0 {
		return ""
	}
	return words.Singular(strings.Trim(fields[len(fields)-1], " .,'\"-"))
}
