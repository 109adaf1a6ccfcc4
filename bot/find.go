package bot

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// Names typed by people find things of the party here: a name as it stands, else one that is the same but for case,
// accents and hyphens, else the start of a name where only one begins so. What is not found is refused with the
// nearest names.

// pick finds the first of a list that text names, by any of its names, and lists those names.
func pick[T any](items []T, names func(*T) []string, text string) (*T, []string) {
	found, all := pickAll(items, names, text)
	if len(found) == 0 {
		return nil, all
	}
	return found[0], all
}

// pickAll finds all that text names alike; who types a name exactly means only what is called so.
func pickAll[T any](items []T, names func(*T) []string, text string) (found []*T, all []string) {
	var of []*T
	for i := range items {
		for _, n := range names(&items[i]) {
			all, of = append(all, n), append(of, &items[i])
		}
	}
	at := words.Match(text, all)
	key := planner.Key(text)
	with := func(same func(key string) bool) {
		for i, n := range all {
			if same(planner.Key(n)) {
				at = append(at, i)
			}
		}
	}
	begun := false
	if len(at) == 0 && key != "" {
		with(func(k string) bool { return k == key })
	}
	if len(at) == 0 && len(key) >= 3 {
		begun = true
		with(func(k string) bool { return strings.HasPrefix(k, key) })
	}
	for _, i := range at {
		if !slices.Contains(found, of[i]) {
			found = append(found, of[i])
		}
	}
	if begun && len(found) > 1 {
		return nil, all
	}
	return found, all
}

// some lists the first names of a list, for a refusal.
func some(names []string) string {
	names = slices.Compact(slices.Clone(names))
	const most = 8
	if len(names) > most {
		return strings.Join(names[:most], ", ") + " and more"
	}
	return words.And(names)
}

func partyNames(all []store.Summary) []string {
	var names []string
	for _, s := range all {
		names = append(names, s.Name)
	}
	return names
}

// findParty finds a party of the community by number or name. What it suggests instead are the asker's own.
func (t *Turn) findParty(ctx context.Context, all []store.Summary, text string) (planner.PartyID, error) {
	named, _ := pickAll(all, func(s *store.Summary) []string { return []string{s.Name} }, text)
	if len(named) > 1 {
		return t.whichNamed(ctx, named, text)
	}
	if len(named) == 1 {
		return named[0].ID, nil
	}
	if n, err := strconv.ParseInt(strings.TrimPrefix(text, "#"), 10, 64); err == nil {
		for _, s := range all {
			if s.ID == planner.PartyID(n) {
				return s.ID, nil
			}
		}
	}
	if len(all) == 0 {
		return 0, talk.Refuse(partyNewExample, "There is no party here yet; start one.")
	}
	own, err := t.mayList(ctx, all)
	if err != nil {
		return 0, err
	}
	return 0, talk.Refuse("/party list", "There is no party %q here.%s", talk.Shown(text),
		talk.DidYouMean(text, partyNames(own)))
}

// whichNamed is the one of some parties, all called much the same, that the asker belongs to; a refusal if there are
// several.
func (t *Turn) whichNamed(ctx context.Context, named []*store.Summary, text string) (planner.PartyID, error) {
	var all []store.Summary
	for _, s := range named {
		all = append(all, *s)
	}
	own, err := t.mayList(ctx, all)
	if err != nil {
		return 0, err
	}
	switch len(own) {
	case 0:
		return all[0].ID, nil // which refuses the asker
	case 1:
		return own[0].ID, nil
	}
	var names []string
	for _, s := range own {
		names = append(names, fmt.Sprintf("%s (#%d)", s.Name, s.ID))
	}
	return 0, talk.Refuse("/party list", "More than one party goes by %q: say %s.", talk.Shown(text), words.Or(names))
}

// account takes a face's mark of a user id apart: "@123", "<@123>".
func account(text string) (id string, ok bool) {
	s := strings.TrimSuffix(strings.TrimPrefix(text, "<"), ">")
	if !strings.HasPrefix(s, "@") {
		return "", false
	}
	return strings.TrimPrefix(strings.TrimPrefix(s, "@"), "!"), true
}

func (t *Turn) findPerson(text string) (planner.PersonKey, error) {
	if strings.EqualFold(text, "me") && t.Me != nil {
		return t.Me.Key, nil
	}
	if id, ok := account(text); ok {
		if x := personOf(t.Party, talk.User{ID: id}); x != nil {
			return x.Key, nil
		}
		text = id
	}
	x, all := pick(t.Party.People, func(x *planner.Person) []string { return []string{x.Name, string(x.Key)} }, text)
	if x != nil {
		return x.Key, nil
	}
	return "", talk.Refuse("/people add name:"+talk.Shown(text), "there is nobody called %q at %s.%s", talk.Shown(text),
		t.Party.Name, talk.DidYouMean(text, all))
}

func (t *Turn) findGuest(text string) (string, error) {
	g, all := pick(t.Party.Guests, func(g *planner.Guest) []string { return []string{g.Name} }, text)
	if g != nil {
		return g.Name, nil
	}
	return "", talk.Refuse("/guest list", "there is no guest called %q.%s", talk.Shown(text), talk.DidYouMean(text, all))
}

func (t *Turn) findCourse(text string) (planner.CourseKey, error) {
	c, all := pick(t.Party.Courses, func(c *planner.Course) []string { return []string{c.Name, string(c.Key)} }, text)
	if c != nil {
		return c.Key, nil
	}
	if len(all) == 0 {
		return "", talk.Refuse(courseAddExample, "there are no courses yet; add one first.")
	}
	var names []string
	for _, c := range t.Party.Courses {
		names = append(names, c.Name)
	}
	return "", talk.Refuse("", "there is no course %q; there is %s.%s", talk.Shown(text), some(names),
		talk.DidYouMean(text, all))
}

func (t *Turn) findDish(text string) (planner.DishKey, error) {
	d, all := pick(t.Party.Dishes, func(d *planner.Dish) []string { return []string{d.Name, string(d.Key)} }, text)
	if d != nil {
		return d.Key, nil
	}
	if len(all) == 0 {
		return "", talk.Refuse(dishAddExample, "there are no dishes yet; add one first.")
	}
	return "", talk.Refuse("/dish list", "there is no dish %q.%s", talk.Shown(text), talk.DidYouMean(text, all))
}

// findStep finds "dish/step", or a step alone where only one dish has it.
func (t *Turn) findStep(text string) (planner.DishKey, planner.StepKey, error) {
	head, tail, slash := strings.Cut(text, "/")
	if slash {
		d, err := t.findDish(head)
		if err != nil {
			return "", "", err
		}
		s, err := findStepOf(t.Party.Dish(d), tail)
		return d, s, err
	}
	type place struct {
		dish planner.DishKey
		step planner.StepKey
	}
	var found []place
	var all []string
	for _, d := range t.Party.Dishes {
		for _, s := range d.Steps {
			all = append(all, string(d.Key)+"/"+string(s.Key), string(s.Key))
			if planner.Key(text) == string(s.Key) {
				found = append(found, place{d.Key, s.Key})
			}
		}
	}
	switch len(found) {
	case 1:
		return found[0].dish, found[0].step, nil
	case 0:
		return "", "", talk.Refuse("", "there is no step %q; name it with its dish, as pear-tart/roll.%s", talk.Shown(text),
			talk.DidYouMean(text, all))
	}
	var names []string
	for _, f := range found {
		names = append(names, string(f.dish)+"/"+string(f.step))
	}
	return "", "", talk.Refuse("", "more than one dish has a step %q: say %s.", talk.Shown(text), words.Or(names))
}

func findStepOf(d *planner.Dish, text string) (planner.StepKey, error) {
	s, all := pick(d.Steps, func(s *planner.Step) []string { return []string{string(s.Key), s.Do} }, text)
	if s != nil {
		return s.Key, nil
	}
	if len(d.Steps) == 0 {
		return "", talk.Refuse("", "%s has no steps yet.", d.Name)
	}
	var keys []string
	for _, s := range d.Steps {
		keys = append(keys, string(s.Key))
	}
	return "", talk.Refuse("", "%s has no step %q; it has %s.%s", d.Name, talk.Shown(text), some(keys),
		talk.DidYouMean(text, all))
}

// findTask finds a task by its key ("pear-tart/roll", "ice", "fritters/fry.2"), by the step or
// chore alone where only one has it, or by what is to be done.
func (t *Turn) findTask(text string) (planner.TaskKey, error) {
	tasks := planner.Tasks(t.Party)
	low := strings.ToLower(strings.TrimSpace(text))
	now := talk.TaskNow(low)
	var found, all []string
	for _, k := range tasks {
		if string(k.Key) == low || string(k.Key) == now {
			return k.Key, nil
		}
		tail := string(k.Key)[strings.IndexByte(string(k.Key), '/')+1:]
		all = append(all, string(k.Key), k.Do)
		if tail == planner.Key(text) || tail == low || tail == now || planner.Key(k.Do) == planner.Key(text) {
			found = append(found, string(k.Key))
		}
	}
	switch {
	case len(found) == 1:
		return planner.TaskKey(found[0]), nil
	case len(found) > 1:
		return "", talk.Refuse("", "more than one task goes by %q: say %s.", talk.Shown(text), words.Or(found))
	case len(tasks) == 0:
		return "", talk.Refuse(dishAddExample, "there are no tasks yet; add a dish with its steps, or /task add.")
	}
	if head, tail, ok := strings.Cut(low, "/"); ok {
		if d, err := t.findDish(head); err == nil {
			s, err := findStepOf(t.Party.Dish(d), tail)
			if err != nil {
				return "", err
			}
			return planner.StepTask(d, s, 1), nil
		}
	}
	return "", talk.Refuse("/task list", "there is no task %q.%s", talk.Shown(text), talk.DidYouMean(text, all))
}

// taskOf is the task of a key, or nil.
func taskOf(p *planner.Party, k planner.TaskKey) *planner.Task {
	tasks := planner.Tasks(p)
	if i := slices.IndexFunc(tasks, func(t planner.Task) bool { return t.Key == k }); i >= 0 {
		return &tasks[i]
	}
	return nil
}

// freshKey is the key of a new thing's name, or, where the name has no letter or digit, the word for such
// things with a number.
func freshKey(name, word string, taken []string) string {
	if k := planner.Key(name); k != "" {
		return k
	}
	for n := 1; ; n++ {
		if k := word + "-" + strconv.Itoa(n); !slices.Contains(taken, k) {
			return k
		}
	}
}
