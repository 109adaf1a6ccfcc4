package saying

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner/words"
)

// fillFigures puts numbers, lengths and times where a command takes them.
func (r *reader) fillFigures(id string, b *binding, fill map[string]string) {
	now := r.v.Now.Hour()*60 + r.v.Now.Minute()
	if b.hasN {
		fill["n"] = strconv.Itoa(b.n)
		fill["more"] = strconv.Itoa(r.v.Covers + b.n)
		if r.v.Covers > b.n {
			fill["fewer"] = strconv.Itoa(r.v.Covers - b.n)
		}
	}
	if b.hasLen {
		fill["len"] = strconv.Itoa(b.length)
	}
	switch {
	case id == "courseat":
		c := (*Course)(nil)
		if b.thing != nil {
			c = b.thing.course
		} else if len(r.v.Course) > 0 {
			c = &r.v.Course[0]
			fill["course"], fill["name"] = c.Key, "the "+words.Lower(c.Name)
		}
		switch {
		case c == nil:
		case b.hasTime:
			fill["time"] = minutesText(nearestTo(b.time, c.At, b.half))
		case b.hasLen && b.earlier:
			fill["time"] = minutesText(c.At - b.length)
		case b.hasLen:
			fill["time"] = minutesText(c.At + b.length)
		}
	case id == "arrive" && b.hasTime:
		fill["time"] = minutesText(nearestTo(b.time, r.v.Arrive, b.half))
	case b.hasTime: // when something happened
		at := b.time
		for b.half && at+720 <= now+30 { // it may be put a little ahead
			at += 720
		}
		fill["time"] = minutesText(at)
	case b.hasLen:
		fill["time"] = minutesText(now - b.length) // so long ago
	}
}

// nearestTo is a time of the clock's face, before noon or after, whichever is nearer to another time.
func nearestTo(m, to int, half bool) int {
	if half && abs(m%720-to) > abs(m%720+720-to) {
		return m%720 + 720
	}
	if half {
		return m % 720
	}
	return m
}

// fillEats adds what was said of a guest to what is known, since a command says all of it.
func (r *reader) fillEats(b *binding, fill map[string]string) {
	diets, allergies := []string{}, []string{}
	for _, g := range r.v.Guests {
		if g.Name == b.guest {
			diets, allergies = slices.Clone(g.Diets), slices.Clone(g.Allergies)
		}
	}
	add := func(to []string, more string) string {
		for _, m := range strings.Split(more, ", ") {
			if m != "" && !slices.Contains(to, m) {
				to = append(to, m)
			}
		}
		return strings.Join(to, ", ")
	}
	if b.diets != "" {
		fill["diets"] = add(diets, b.diets)
	}
	if b.food != "" {
		fill["allergies"] = add(allergies, b.food)
	}
}

// filled puts values into a template. What stands in [ ] goes where its value is not there; ok is false where another
// is missing.
func filled(template string, with map[string]string) (string, bool) {
	var b strings.Builder
	for {
		from := strings.IndexAny(template, "{[")
		if from < 0 {
			break
		}
		b.WriteString(template[:from])
		end := strings.IndexByte(template[from:], map[byte]byte{'{': '}', '[': ']'}[template[from]]) + from
		inner := template[from+1 : end]
		if template[from] == '[' {
			if text, ok := filled(inner, with); ok {
				b.WriteString(text)
			}
		} else {
			text := with[inner]
			if text == "" {
				return "", false
			}
			b.WriteString(text)
		}
		template = template[end+1:]
	}
	b.WriteString(template)
	return b.String(), true
}
