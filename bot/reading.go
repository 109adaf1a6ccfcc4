package bot

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"
	"unicode"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/corrections"
	"tureen/planner/recipe"
	"tureen/planner/words"
	"tureen/store"
)

// A recipe that was read waits in the store until somebody keeps it: its words, and what was corrected. It is read
// again each time that it is needed, which gives the same reading, and so outlives the program. The last of each
// person in each channel waits.

const (
	maxSource      = 400_000 // bytes of a recipe's data that are kept; of a text recipe.MaxText
	maxCorrections = 200
)

var correctOptions = []talk.Option{
	{Name: "text", Help: "in words: step 3 takes 20 min; remove 2 and 5; 6 after 2; dough keeps two days in the fridge",
		Kind: talk.LongText, Example: "step 3 takes 20 min; remove 5"},
	{Name: "step", Help: "the step's number, as it was shown", Kind: talk.Whole, Min: 1, Max: maxSteps, Example: "2"},
	{Name: "do", Help: "what is done in it", Kind: talk.Text, Example: "Fry the onions in the butter"},
	{Name: "time", Help: "how long it takes", Kind: talk.Length, Example: "25-30 min"},
	{Name: "attention", Help: "what it asks of people", Kind: talk.Choice, Choices: attentionChoices, Example: "watch"},
	{Name: "every", Help: "with attention touch: how often", Kind: talk.Length, Example: "15 min"},
	{Name: "oven", Help: "it is done in the oven, at this temperature", Kind: talk.Temperature, Example: "180"},
	{Name: "heat", Help: "what heats it", Kind: talk.Choice, Choices: []string{"oven", "burner", "grill", "none"},
		Example: "burner"},
	{Name: "where", Help: "where the food is meanwhile, when nothing heats it", Kind: talk.Choice,
		Choices: []string{"counter", "refrigerator", "freezer"}, Example: "refrigerator"},
	{Name: "things", Help: "vessels and appliances that it takes, with commas; none", Kind: talk.Text,
		Example: "frying pan, blender"},
	{Name: "until", Help: "the sign that it is done; none",
		Kind: talk.Text, Offers: talk.Steps, Example: "a knife slides in"},
	{Name: "remove", Help: "yes: this is no step", Kind: talk.YesNo, Example: "yes"},
	{Name: "keeps", Help: "yes: what I do not know in it keeps on the counter; no: it spoils", Kind: talk.YesNo,
		Example: "yes"},
	{Name: "serves", Help: "covers that its amounts are for", Kind: talk.Whole, Min: 1, Max: planner.MaxCovers,
		Example: "6"},
	{Name: "name", Help: "another name", Kind: talk.Text, Example: "Carrot soup"},
}

// keepReadingInMind lets a recipe wait, with what was said of it.
func (t *Turn) keepReadingInMind(ctx context.Context, source []byte, said []recipe.Correction) (changes string,
	err error) {
	source = recipe.Essence(source)
	if len(source) > maxSource {
		return "", talk.Refuse("", "This is too long for one recipe. Send one recipe alone, as text.")
	}
	if len(said) > 0 {
		text, err := json.Marshal(said)
		if err != nil {
			return "", err
		}
		changes = string(text)
	}
	kept := store.Reading{At: t.Now, Source: source, Changes: changes}
	return changes, t.bot.store.SetReading(ctx, t.community(), t.Request.Channel, t.Request.User.ID, kept)
}

// putReadingAside forgets the recipe that waits, where one after it could not be read.
func (t *Turn) putReadingAside(ctx context.Context) error {
	_, err := t.bot.store.Reading(ctx, t.community(), t.Request.Channel, t.Request.User.ID)
	if errors.Is(err, store.ErrNotFound) {
		return nil
	}
	if err != nil {
		return err
	}
	return t.bot.store.SetReading(ctx, t.community(), t.Request.Channel, t.Request.User.ID,
		store.Reading{At: t.Now, Source: []byte{}})
}

// readingInMind is the asker's recipe that waits, as it was corrected.
func (t *Turn) readingInMind(ctx context.Context) (
	r *recipe.Reading, source []byte, said []recipe.Correction, err error) {
	kept, err := t.bot.store.Reading(ctx, t.community(), t.Request.Channel, t.Request.User.ID)
	if errors.Is(err, store.ErrNotFound) {
		return nil, nil, nil, talk.Refuse(recipeReadExample, "I have no recipe of yours in mind; send it first.")
	}
	if err != nil {
		return nil, nil, nil, err
	}
	if len(kept.Source) == 0 {
		return nil, nil, nil, talk.Refuse(recipeReadExample, "The recipe that you sent last was not read; send it again.")
	}
	again := talk.Refuse(recipeReadExample, "I no longer understand the recipe that you sent; send it once more.")
	if r, err = recipe.ReadFile(kept.Source); err != nil {
		return nil, nil, nil, again
	}
	r.TakeCovers(t.Party.Covers)
	if kept.Changes != "" {
		if err := json.Unmarshal([]byte(kept.Changes), &said); err != nil {
			return nil, nil, nil, again
		}
	}
	for _, c := range said {
		if err := r.Correct(c); err != nil {
			return nil, nil, nil, again
		}
	}
	return r, kept.Source, said, nil
}

func recipeCorrect(ctx context.Context, t *Turn) (talk.Reply, error) {
	r, source, said, err := t.readingInMind(ctx)
	if err != nil {
		return talk.Reply{}, err
	}
	text := words.Fold(t.text("text"))
	if len(said) > 0 && text == asItWasRead {
		if r, err = recipe.ReadFile(source); err != nil {
			return talk.Reply{}, unreadable(err)
		}
		t.bot.heard.readingWaits(t, false)
		return t.readingReply(r), t.keepCorrected(ctx, source, nil)
	}
	before := shownOf(r)
	if slices.Contains(readingPhrases.Phrases("take back"), plainly(text)) {
		return t.takeBack(ctx, source, said, before)
	}
	all, err := t.corrections(r)
	var unread *corrections.Unread
	if errors.As(err, &unread) {
		return talk.Reply{}, t.unread(unread, t.text("text"))
	}
	if err != nil {
		return talk.Reply{}, unreadable(err)
	}
	if len(said)+len(all) > maxCorrections {
		return talk.Reply{}, talk.Refuse("/recipe keep course:main",
			"This has been corrected %d times; put it on the menu and change it there.", len(said))
	}
	for _, c := range all {
		if err := r.Correct(c); err != nil {
			return talk.Reply{}, unreadable(err)
		}
	}
	if now := shownOf(r); now.outline == before.outline && now.parts == before.parts && !t.has("keeps") {
		if t.has("text") {
			return talk.Reply{}, talk.Refuse("", "That is how I have it already; nothing is changed.")
		}
		return talk.Reply{}, talk.Refuse(t.command.Example,
			"Say what to correct of %s: a step by its number and what is so of it, or serves: or name:.",
			talk.Clean(r.Title, false))
	}
	if err := t.keepCorrected(ctx, source, append(slices.Clone(said), all...)); err != nil {
		return talk.Reply{}, err
	}
	return t.corrected(r, before, "Corrected"), nil
}

// corrected shows what is otherwise of a reading than before.
func (t *Turn) corrected(r *recipe.Reading, before shown, deed string) talk.Reply {
	t.bot.heard.readingWaits(t, true)
	rep := t.readingReply(r)
	rep.Text = fmt.Sprintf("%s: %s, %s, with %s. It is not on the menu yet.", deed, talk.Clean(r.Title, false), r.For(),
		words.Count(len(r.Steps), "step"))
	rep.Sections = before.changed(r, rep.Sections)
	return rep
}

// takeBack takes back what the last message corrected.
func (t *Turn) takeBack(ctx context.Context, source []byte, said []recipe.Correction,
	before shown) (talk.Reply, error) {
	if len(said) == 0 {
		return talk.Reply{}, talk.Refuse("", "Nothing of this recipe has been corrected: it is as it was read.")
	}
	said = withoutLast(said)
	if err := t.keepCorrected(ctx, source, said); err != nil {
		return talk.Reply{}, err
	}
	r, _, _, err := t.readingInMind(ctx)
	if err != nil {
		return talk.Reply{}, err
	}
	return t.corrected(r, before, "Taken back"), nil
}

// asItWasRead takes back all that was corrected.
const asItWasRead = "as it was read"

// corrections are what a message says of a reading: in words, and by its options.
func (t *Turn) corrections(r *recipe.Reading) ([]recipe.Correction, error) {
	all, err := corrections.In(r, t.text("text"))
	if err != nil {
		return nil, err
	}
	c := recipe.Correction{
		Serves: t.whole("serves", 0), Title: t.text("name"), Step: t.whole("step", 0), Drop: t.yes("remove", false),
		Do:  t.text("do"),
		Low: int(t.span("time").Low), High: int(t.span("time").High),
		Attention: planner.Attention(t.choice("attention", "")),
		Every:     int(t.minutes("every")), Heat: t.choice("heat", ""), OvenC: t.whole("oven", 0),
		Where: planner.State(t.choice("where", "")), Until: t.text("until"),
	}
	if t.has("keeps") {
		c.Keeps = map[bool]string{true: "yes", false: "no"}[t.yes("keeps", false)]
	}
	if t.has("things") {
		c.Things = splitNames(t.text("things"))
		if len(c.Things) == 0 {
			c.Things = []string{recipe.NoThings}
		}
	}
	if !reflect.DeepEqual(c, recipe.Correction{}) {
		c.Next = len(all) > 0
		all = append(all, c)
	}
	return all, nil
}

// shown is a reading as somebody saw it.
type shown struct {
	outline string
	foods   []string       // the ingredients' lines
	parts   string         // which steps take which of them in
	steps   map[int]string // by their numbers
	order   []int
	asked   []recipe.Question
}

func shownOf(r *recipe.Reading) shown {
	s := shown{outline: r.Outline(), steps: map[int]string{}, asked: r.Questions}
	for i, line := range r.StepLines() {
		s.steps[r.Number(i)] = line
		s.order = append(s.order, r.Number(i))
		for _, g := range r.Steps[i].Parts {
			s.parts += fmt.Sprintf("%s goes into %d\n", r.Ingredients[g].Name, r.Number(i))
		}
	}
	for i := range r.Ingredients {
		s.foods = append(s.foods, strings.ReplaceAll(r.Ingredients[i].Outline(), " | ", ", "))
	}
	return s
}

// notIn are the lines that are not among others.
func notIn(lines, others []string) (out []string) {
	for _, l := range lines {
		if l != "" && !slices.Contains(others, l) {
			out = append(out, talk.Clean(l, false))
		}
	}
	return out
}

// changed leaves of a reply about a reading only the steps that are not as they were, and what was not asked before.
func (s shown) changed(r *recipe.Reading, all []talk.Section) (out []talk.Section) {
	now := shownOf(r)
	var lines, gone []string
	if foods := notIn(now.foods, s.foods); len(foods) > 0 {
		out = append(out, talk.Section{Title: "Ingredients that changed", Lines: foods})
	}
	if len(now.foods) < len(s.foods) {
		out = append(out, talk.Section{Title: "No longer an ingredient", Lines: notIn(s.foods, now.foods)})
	}
	for _, n := range now.order {
		if now.steps[n] != s.steps[n] {
			lines = append(lines, fmt.Sprintf("%d. %s", n, talk.Clean(now.steps[n], false)))
		}
	}
	for _, n := range s.order {
		if _, there := now.steps[n]; !there {
			gone = append(gone, fmt.Sprintf("%d. %s", n, talk.Clean(s.steps[n], false)))
		}
	}
	if len(lines) > 0 {
		out = append(out, talk.Section{Title: "Steps that changed", Lines: lines})
	}
	if len(gone) > 0 {
		out = append(out, talk.Section{Title: "No longer a step", Lines: gone})
	}
	if goes := notIn(strings.Split(now.parts, "\n"), strings.Split(s.parts, "\n")); len(out) == 0 {
		out = append(out, talk.Section{Title: "What goes where", Lines: goes})
	}
	if reflect.DeepEqual(s.asked, r.Questions) {
		return out
	}
	for _, sec := range all {
		if sec.Title != "Ingredients" && sec.Title != "Steps" {
			out = append(out, sec)
		}
	}
	return out
}

// What was corrected stands with the recipe too, for whoever reads it in the community the next time: in the same
// table, under the recipe in place of a channel and a person.

// keptCorrected is how long a recipe's corrections are kept.
const keptCorrected = 3 * 365 * 24 * time.Hour

// recipeMark tells a recipe by its letters, and by the steps that are read of them: where a later tureen reads it
// otherwise, the numbers would mean other steps.
func recipeMark(source []byte) (string, bool) {
	r, err := recipe.ReadFile(source)
	if err != nil {
		return "", false
	}
	h := sha256.New()
	for _, w := range strings.FieldsFunc(strings.ToLower(string(recipe.Essence(source))), func(c rune) bool {
		return !unicode.IsLetter(c) && !unicode.IsDigit(c)
	}) {
		fmt.Fprint(h, w)
	}
	for i := range r.Steps {
		fmt.Fprint(h, "\n", r.Steps[i].Do)
	}
	return "recipe:" + hex.EncodeToString(h.Sum(nil)[:16]), true
}

// keepCorrected lets a recipe wait with what was corrected of it, and remembers that for the next time.
func (t *Turn) keepCorrected(ctx context.Context, source []byte, said []recipe.Correction) error {
	changes, err := t.keepReadingInMind(ctx, source, said)
	if err != nil {
		return err
	}
	mark, ok := recipeMark(source)
	if !ok {
		return nil
	}
	return t.bot.store.SetReading(ctx, t.community(), "", mark, store.Reading{
		At: t.Now.Add(keptCorrected - store.KeepReadings), Source: []byte(mark), Changes: changes})
}

// correctedBefore is what was corrected of a recipe when it was read before.
func (t *Turn) correctedBefore(ctx context.Context, source []byte) ([]recipe.Correction, error) {
	mark, ok := recipeMark(source)
	if !ok {
		return nil, nil
	}
	kept, err := t.bot.store.Reading(ctx, t.community(), "", mark)
	if errors.Is(err, store.ErrNotFound) || err == nil && kept.Changes == "" {
		return nil, nil
	}
	var said []recipe.Correction
	if err == nil && json.Unmarshal([]byte(kept.Changes), &said) != nil {
		return nil, nil // of a later tureen
	}
	return said, err
}

// correction is the message that answers a question about a reading.
func correction(r *recipe.Reading, q recipe.Question) string {
	n := 1
	if len(r.Steps) > 0 {
		n = r.Number(len(r.Steps) - 1)
	}
	if q.Step >= 0 && q.Step < len(r.Steps) {
		n = r.Number(q.Step)
	}
	in := func(words string) string { return "Else: /recipe correct text:" + words }
	switch {
	case q.About == "serves":
		return "Else: /recipe correct serves:6"
	case q.About == "oven":
		return fmt.Sprintf("Else: /recipe correct step:%d oven:200", n)
	case q.About == "time" && len(r.Steps) > 0:
		return fmt.Sprintf("Else: /recipe correct step:%d time:20 min", n)
	case q.About == "ingredients":
		return "Else: write Ingredients: … before the method and send it again, or /ingredient add once it is on the menu"
	case q.About == "order":
		return in(fmt.Sprintf("%d after 1", n))
	case q.About == "parts":
		return in(fmt.Sprintf("%s goes into %d", firstNamed(q.Ask), n))
	case q.About == "keeps" && strings.HasPrefix(q.Guess, "yes"):
		return "Else: /recipe correct keeps:no"
	case q.About == "keeps":
		return "Else: /recipe correct keeps:yes"
	case q.About == "heat" && len(r.Steps) > 0:
		return in(fmt.Sprintf("%d is in the oven at 180 for 40 min", n))
	}
	return "Else: once it is on the menu, /step add with what is done and how long"
}

// firstNamed is the first food that a question lists after its colon.
func firstNamed(ask string) string {
	_, list, _ := strings.Cut(ask, ": ")
	first, _, _ := strings.Cut(list, ";")
	return talk.Clean(strings.TrimSuffix(strings.TrimSpace(first), "?"), false)
}
