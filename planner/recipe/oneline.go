package recipe

import (
	"strconv"
	"strings"

	"tureen/planner/ingredient"
	"tureen/planner/manuscript"
	"tureen/planner/measure"
	"tureen/planner/times"
	"tureen/planner/words"
)

// ReadLine reads a dish in one line: "Pear tart, dessert, for 8: roll 20 min, bake 40 min at 180, cool 1 h". Before
// the colon stand the name, the course and the covers, the last two if at all; after it what is done, each with its
// time. Course is as written. The error is a *[Refusal].
func ReadLine(text string) (r *Reading, course string, err error) {
	bad := func(why string) (*Reading, string, error) {
		return nil, "", Refuse(why, "Write it as: Pear tart, dessert, for 8: roll 20 min, bake 40 min at 180, cool 1 h.")
	}
	if err := readable(text); err != nil {
		return nil, "", err
	}
	text = strings.Join(strings.Fields(text), " ")
	if len(text) > 2*ingredient.MaxLine {
		return bad("This is too long for one line.")
	}
	head, tail, ok := strings.Cut(text, ":")
	if !ok || strings.TrimSpace(tail) == "" {
		return bad("I find no steps: they stand after a colon.")
	}
	r = &Reading{Usage: usageOf(text)}
	parts := strings.Split(head, ",")
	if IsOwnLine(text) {
		parts = headParts(head)
	}
	for i, p := range parts {
		p = strings.TrimSpace(p)
		switch y, ok := manuscript.YieldIn(p); {
		case p == "":
		case i == 0:
			if y, ok := manuscript.YieldIn(p); ok && y.Serves > 0 && y.Before != "" {
				r.Serves, p = y.Serves, strings.TrimSpace(y.Before+" "+y.After)
			}
			r.Title = words.Cut(p, 70)
		case ok && y.Serves > 0 && y.Before+y.After == "":
			r.Serves = y.Serves
		case ownOrBought(r, p):
		case course == "":
			course = p
		default:
			return bad("I do not know what " + strconv.Quote(words.Cut(p, 30)) +
				" is: before the colon stand name, course and covers.")
		}
	}
	if r.Title == "" {
		return bad("The dish has no name.")
	}
	if err := endless(tail); err != nil {
		return nil, "", err
	}
	if r.Unlisted {
		if unread := r.ownSteps(tail); unread != "" {
			return bad("I do not know what " + strconv.Quote(words.Cut(unread, 30)) + " is.")
		}
		if len(r.Steps) == 0 {
			return bad("I find no steps: say what is done, and how long.")
		}
		r.Title = words.Upper(r.Title)
		return r, course, nil
	}
	m := maker{r: r, american: r.Usage == measure.American}
	var said []*sentence
	for i, p := range joinUntimed(strings.FieldsFunc(tail, func(c rune) bool { return c == ',' || c == ';' })) {
		said = append(said, &sentence{text: p, from: Place{Line: 1, Text: p}, paragraph: i, at: -1})
	}
	m.deeds(said)
	if p := m.eachAlone(said); p != "" {
		return bad("I do not know what " + strconv.Quote(words.Cut(p, 30)) + " is.")
	}
	if len(r.Steps) == 0 {
		return bad("I find no steps: say what is done, and how long.")
	}
	r.guessHands()
	r.ask()
	return r, course, nil
}

// joinUntimed joins pieces that have no time with the next that has one: "peel, core and slice 20 min".
func joinUntimed(parts []string) (out []string) {
	open := ""
	for _, p := range parts {
		p = strings.TrimSpace(p)
		if p == "" {
			continue
		}
		if open != "" {
			p = open + ", " + p
		}
		if len(times.Lengths(p)) == 0 {
			open = p
			continue
		}
		open = ""
		out = append(out, times.Scaled(p))
	}
	if open != "" {
		out = append(out, open)
	}
	return out
}
