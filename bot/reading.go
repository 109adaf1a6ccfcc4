package bot

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/recipe"
	"tureen/store"
)

// A recipe that was read waits in the store until somebody keeps it: its words, and what was corrected. It is read
// again each time that it is needed, which gives the same reading, and so outlives the program. The last of each person
// in each channel waits.

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
func (t *Turn) keepReadingInMind(ctx context.Context, source []byte, said []recipe.Correction) error {
	source = recipe.Essence(source)
	if len(source) > maxSource {
		return talk.Refuse("", "This is too long for one recipe. Send one recipe alone, as text.")
	}
	changes := ""
	if len(said) > 0 {
		text, err := json.Marshal(said)
		if err != nil {
			return err
		}
		changes = string(text)
	}
	kept := store.Reading{At: t.Now, Source: source, Changes: changes}
	return t.bot.store.SetReading(ctx, t.community(), t.Request.Channel, t.Request.User.ID, kept)
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
	before := r.Outline()
	steps := r.StepLines()
	all, err := r.CorrectionsIn(t.text("text"))
	if err != nil {
		return talk.Reply{}, unreadable(err)
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
		all = append(all, c)
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
	if r.Outline() == before && !t.has("keeps") {
		return talk.Reply{}, talk.Refuse(t.command.Example,
			"Say what to correct of %s: a step by its number and what is so of it, or serves: or name:.",
			talk.Clean(r.Title, false))
	}
	if err := t.keepReadingInMind(ctx, source, append(slices.Clone(said), all...)); err != nil {
		return talk.Reply{}, err
	}
	rep := t.readingReply(r)
	if t.has("text") {
		rep.Sections = changedSteps(rep.Sections, steps)
	}
	return rep, nil
}

// changedSteps leaves of a reply about a reading only the steps that were not shown so before, and what is unsure.
func changedSteps(all []talk.Section, before []string) (out []talk.Section) {
	for _, s := range all {
		switch s.Title {
		case "Ingredients":
			continue
		case "Steps":
			s.Title = "Steps that changed"
			s.Lines = slices.DeleteFunc(slices.Clone(s.Lines), func(line string) bool {
				return slices.ContainsFunc(before, func(b string) bool {
					_, text, _ := strings.Cut(line, ". ")
					return text == talk.Clean(b, false)
				})
			})
			if len(s.Lines) == 0 {
				continue
			}
		}
		out = append(out, s)
	}
	return out
}

// correction is the message that answers a question about a reading, as far as there is one.
func correction(q recipe.Question) string {
	step := fmt.Sprintf("step:%d", q.Step+1)
	switch {
	case q.About == "serves":
		return "Else: /recipe correct serves:6"
	case q.About == "oven" && q.Step >= 0:
		return "Else: /recipe correct " + step + " oven:200"
	case q.About == "time" && q.Step >= 0:
		return "Else: /recipe correct " + step + " time:20 min"
	case q.About == "ingredients":
		return "Else: write Ingredients: … before the method and send it again, or /ingredient add once it is on the menu"
	case q.About == "order":
		return "Else: /step after once it is on the menu"
	case q.About == "keeps" && strings.HasPrefix(q.Guess, "yes"):
		return "Else: /recipe correct keeps:no"
	case q.About == "keeps" && strings.HasPrefix(q.Guess, "no"):
		return "Else: /recipe correct keeps:yes"
	}
	return ""
}
