package bot

import (
	"context"
	_ "embed"
	"errors"
	"maps"
	"regexp"
	"slices"
	"strings"
	"time"

	"tureen/bot/saying"
	"tureen/bot/talk"
	"tureen/planner/corrections"
	"tureen/planner/recipe"
	"tureen/planner/words"
	"tureen/store"
)

// Right after a recipe was read, what its sender says without a slash is of it: "keep it for the main", "step 6 takes
// 15 minutes", "undo". A reading is nobody's but theirs, and correcting it changes no party: it is done at once.

//go:embed readingsaid.tsv
var readingSaidTable string

var readingPhrases = words.TableOf(readingSaidTable)

// waiting is when somebody's recipe was read or corrected last, and whether the last thing done to it was a correction.
type waiting struct {
	at        time.Time
	corrected bool
}

// readingWaits notes that the asker has a recipe in front of them; what was asked of them before is no longer answered.
func (h *heard) readingWaits(t *Turn, corrected bool) {
	h.note(t, spoken{at: t.Now})
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.readings == nil || len(h.readings) > mostHeard {
		h.readings = map[hearer]waiting{}
	}
	h.readings[hearer{t.Party.ID, t.Request.User.ID}] = waiting{at: t.Now, corrected: corrected}
}

func (h *heard) readingDone(t *Turn) {
	h.mu.Lock()
	defer h.mu.Unlock()
	delete(h.readings, hearer{t.Party.ID, t.Request.User.ID})
}

// inFront is the asker's recipe that still waits; ok is false where none does, or none was looked at for long.
func (h *heard) inFront(t *Turn) (w waiting, ok bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	w, ok = h.readings[hearer{t.Party.ID, t.Request.User.ID}]
	return w, ok && t.Now.Sub(w.at) <= readingInFront
}

// readingInFront is for how long plain words are of the recipe that was read.
const readingInFront = 2 * time.Hour

// readingJustNow is for how long what nobody understands is taken for a correction of it. Ours.
const readingJustNow = 10 * time.Minute

// ofReading answers what is said of the recipe in front of the asker; ok is false where it is of something else.
func (b *Bot) ofReading(ctx context.Context, t *Turn, a saying.Answer, text string) (rep talk.Reply, ok bool) {
	w, waits := b.heard.inFront(t)
	if !waits {
		return rep, false
	}
	do := func(command string, options map[string]string) (talk.Reply, bool) {
		req := t.Request
		req.Command, req.Options, req.Pressed = command, maps.Clone(options), true
		return b.Do(ctx, req), true
	}
	if course, keeps := t.keepsSaid(text); keeps {
		return do("recipe keep", map[string]string{"course": course})
	}
	if slices.Contains(readingPhrases.Phrases("take back"), plainly(text)) {
		if !w.corrected || t.changedSince(w.at) {
			return rep, false
		}
		return do("recipe correct", map[string]string{"text": takenBack})
	}
	r, _, _, err := t.readingInMind(ctx)
	if err != nil {
		return rep, false
	}
	step := words.Has(words.Small(text), "step", "steps") || stepFirst.MatchString(text)
	_, err = corrections.In(r, text)
	var unread *corrections.Unread
	switch {
	case err == nil && (step || a.Do == "" || b.heard.last(t) == spoken{at: w.at} && a.Act != saying.Look),
		errors.As(err, &unread) && (step || a.Act == saying.None && t.Now.Sub(w.at) <= readingJustNow):
		return do("recipe correct", map[string]string{"text": text})
	}
	return rep, false
}

// stepFirst begins with the number of a step: "6 after 2".
var stepFirst = regexp.MustCompile(`^\d{1,2}\s+[a-z]`)

// plainly is a text without its end and its politeness.
func plainly(text string) string {
	return strings.TrimSuffix(strings.Trim(words.Fold(text), " .!,"), " please")
}

// keepsSaid reads "keep it", "keep it for the main", "that's right, put it on the menu as a starter".
func (t *Turn) keepsSaid(text string) (course string, ok bool) {
	low := plainly(text)
	for _, lead := range readingPhrases.Phrases("fine") {
		low = strings.TrimLeft(strings.TrimPrefix(low, lead+" "), ", ")
	}
	for _, p := range readingPhrases.Phrases("keep") {
		rest, cut := strings.CutPrefix(low, p)
		if !cut || rest != "" && rest[0] != ' ' {
			continue
		}
		if rest == "" {
			if r, _, _, err := t.readingInMind(t.ctx); err == nil {
				had, came := t.Party.Courses, t.came
				key := t.guessCourse(r)
				t.Party.Courses, t.came = had, came
				return string(key), true
			}
			return "", false
		}
		for _, lead := range readingPhrases.Phrases("as") {
			name, cut := strings.CutPrefix(strings.TrimSpace(rest), lead+" ")
			if !cut {
				continue
			}
			name = strings.TrimPrefix(strings.TrimPrefix(name, "the "), "a ")
			if key, err := t.findCourse(strings.TrimSuffix(name, " course")); err == nil {
				return string(key), true
			}
		}
	}
	return "", false
}

// takenBack takes back the corrections of the last message.
const takenBack = "undo"

// withoutLast are corrections without those of the last message.
func withoutLast(said []recipe.Correction) []recipe.Correction {
	n := len(said) - 1
	for n > 0 && said[n].Next {
		n--
	}
	return said[:n]
}

// unread is the refusal of corrections of which a piece was not understood: the nearest are offered, in the whole
// message where that is short enough for a button.
func (t *Turn) unread(u *corrections.Unread, text string) error {
	r := &talk.Refusal{Text: talk.Clean(u.Error(), false)}
	if len(u.Near) == 0 {
		r.Try = "step 3 takes 20 minutes; remove 2 and 5; 6 after 2; add 2 tbsp oil; no walnuts"
		return r
	}
	r.Text += " Did you mean " + words.Or(quoted(u.Near)) + "?"
	for _, near := range u.Near {
		all := strings.Replace(text, u.Piece, near, 1)
		b := t.button(words.Upper(near), "recipe correct", "text", all)
		if len(b.Do) > talk.MaxDo || !strings.Contains(text, u.Piece) {
			b = t.button(words.Upper(near), "recipe correct", "text", near)
		}
		if len(b.Do) <= talk.MaxDo {
			r.Buttons = append(r.Buttons, b)
		}
	}
	return r
}

func quoted(all []string) (out []string) {
	for _, one := range all {
		out = append(out, "“"+one+"”")
	}
	return out
}

// changedSince reports whether the asker has changed the party after an instant.
func (t *Turn) changedSince(at time.Time) bool {
	const latest = 10
	all, err := t.bot.store.Journal(t.ctx, t.community(), t.Party.ID, latest)
	return err != nil || slices.ContainsFunc(all, func(e store.Entry) bool {
		return e.At.After(at) && e.Actor.ID == t.Request.User.ID
	})
}
