package bot

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
	"tureen/store"
)

var journalCommands = []command{
	{talk.Command{Name: "undo", Help: "Take back your last change",
		Access: talk.CoHosts, Example: "/undo", Slow: true}, undo},
	{talk.Command{Name: "redo", Help: "Do again what you have just taken back",
		Access: talk.CoHosts, Example: "/redo", Slow: true}, redo},
	{talk.Command{Name: "journal", Help: "Who changed what, and when",
		Access: talk.Onlookers, Example: "/journal who:Ben count:20",
		Options: []talk.Option{
			{Name: "who", Help: "only this person's changes", Kind: talk.PersonOption, Example: "Ben"},
			{Name: "change", Help: "all about the change with this number", Kind: talk.Whole, Min: 1, Max: 1000000,
				Example: "12"},
			{Name: "count", Help: "how many changes to list", Kind: talk.Whole, Min: 1, Max: 50, Example: "20"},
		}}, journal},
}

// journalLines is how many changes are listed when nobody says how many.
const journalLines = 10

func undo(ctx context.Context, t *Turn) (talk.Reply, error) {
	if w, ok := t.bot.heard.inFront(t); ok && w.corrected && !t.changedSince(w.at) {
		r, source, said, err := t.readingInMind(ctx)
		if err == nil && len(said) > 0 {
			return t.takeBack(ctx, source, said, shownOf(r))
		}
	}
	e, snap, err := t.bot.store.Undo(ctx, t.community(), t.Party.ID, t.actor(), t.Now, t.bot.rebuilt)
	if errors.Is(err, store.ErrNothing) {
		return talk.Reply{}, talk.Refuse("/journal", "There is no change of yours left to take back.")
	}
	if err != nil {
		return talk.Reply{}, t.stays(err)
	}
	return t.turnedBack("Taken back: "+e.Deed(), snap, "Next: /redo if it was right after all"), nil
}

func redo(ctx context.Context, t *Turn) (talk.Reply, error) {
	e, snap, err := t.bot.store.Redo(ctx, t.community(), t.Party.ID, t.actor(), t.Now, t.bot.rebuilt)
	if errors.Is(err, store.ErrNothing) {
		return talk.Reply{}, talk.Refuse("/journal", "There is nothing that you have just taken back.")
	}
	if err != nil {
		return talk.Reply{}, t.stays(err)
	}
	return t.turnedBack("Done again: "+e.Deed(), snap, "Next: /undo takes it back"), nil
}

// stays words why a change cannot be turned back.
func (t *Turn) stays(err error) error {
	var touched *store.TouchedError
	if !errors.As(err, &touched) || len(touched.Since) == 0 {
		return err
	}
	var who []string
	for _, e := range touched.Since {
		who = append(who, fmt.Sprintf("%s has %s at %s", e.Actor.Name, e.What, t.dayClock(e.At)))
	}
	return talk.Refuse(fmt.Sprintf("/journal change:%d", touched.Since[0].Revision),
		"This stays, since others have built on it (%s): %s.", touched.What, words.And(who))
}

func (t *Turn) turnedBack(first string, snap store.Snapshot, next string) talk.Reply {
	rep := talk.Reply{Text: first + ".", Next: next}
	if snap.Plan == nil {
		if t.Plan != nil {
			rep.Sections = []talk.Section{{Title: "The plan", Lines: []string{"There is no plan now; /plan make makes one."}}}
		}
		return rep
	}
	if broken := check.Plan(&snap.Party, snap.Plan); len(broken) > 0 {
		rep.Sections = []talk.Section{{Title: "The plan",
			Lines: []string{"It is out of date now. " + talk.Sentence(broken[0].Text), "/plan make makes it anew."}}}
	}
	return rep
}

func journal(ctx context.Context, t *Turn) (talk.Reply, error) {
	last := int(t.snapshot.Revision) // every revision has its entry
	change, most := t.whole("change", 0), t.whole("count", journalLines)
	if change > last {
		return talk.Reply{}, talk.Refuse("/journal", "There is no change %d; the last is %d.", change, last)
	}
	read := most
	switch {
	case change > 0:
		read = last - change + 1
	case t.has("who"):
		read = last
	}
	all, err := t.bot.store.Journal(ctx, t.community(), t.Party.ID, read)
	if err != nil {
		return talk.Reply{}, err
	}
	if change > 0 {
		i := slices.IndexFunc(all, func(e store.Entry) bool { return e.Revision == int64(change) })
		if i < 0 { // somebody has gone on meanwhile
			return talk.Reply{}, store.ErrConflict
		}
		return t.entry(&all[i]), nil
	}
	rep := talk.Reply{Next: "Next: /journal change:1 tells all about one, /undo takes back your last"}
	kept := slices.DeleteFunc(all, func(e store.Entry) bool {
		return t.has("who") && !t.madeBy(e, t.values["who"].person)
	})
	total := last
	if t.has("who") {
		total = len(kept)
	}
	rep.Text = words.Count(total, "change") + ", the latest first."
	if len(kept) == 0 {
		rep.Text = "Nothing yet."
		return rep, nil
	}
	rep.Next = strings.Replace(rep.Next, ":1 ", fmt.Sprintf(":%d ", kept[0].Revision), 1)
	if total > most {
		rep.Text = fmt.Sprintf("The latest %d of %d changes.", most, total)
		kept = kept[:most]
	}
	var onDay talk.Day
	for _, e := range kept {
		if day := talk.DayOf(e.At.In(t.zone())); day != onDay {
			rep.Sections, onDay = append(rep.Sections, talk.Section{Title: t.day(e.At)}), day
		}
		s := &rep.Sections[len(rep.Sections)-1]
		line := fmt.Sprintf("%d. %s %s %s", e.Revision, t.clock(e.At), e.Actor.Name, e.What)
		if e.BackBy != 0 {
			line += fmt.Sprintf(" (taken back, %d)", e.BackBy)
		}
		s.Lines = append(s.Lines, line)
	}
	return rep, nil
}

// madeBy reports whether a change was made by one of the party's people.
func (t *Turn) madeBy(e store.Entry, k planner.PersonKey) bool {
	x := personOf(t.Party, talk.User{ID: e.Actor.ID})
	return x != nil && x.Key == k
}

// entry is all about one change: every piece that it touched, before and after.
func (t *Turn) entry(e *store.Entry) talk.Reply {
	rep := talk.Reply{Text: fmt.Sprintf("Change %d, %s: %s %s.", e.Revision, t.dayClock(e.At), e.Actor.Name, e.What),
		Next: "Next: /journal"}
	if e.BackBy != 0 {
		rep.Text += fmt.Sprintf("\nIt was taken back by change %d.", e.BackBy)
	}
	var lines []string
	planned := 0
	for _, x := range e.Touched {
		if x.Kind.OfPlan() {
			planned++
			continue
		}
		if x.Kind == store.GuestPiece && x.Before != nil && x.After != nil { // what of a guest is for the cooks
			lines = append(lines, string(x.Kind)+" "+x.Key+": changed")
			if t.cooks() {
				rep.Aside = append(rep.Aside, talk.Section{Title: "Of the guest", Lines: []string{touchedLine(x)}})
			}
			continue
		}
		lines = append(lines, touchedLine(x))
	}
	if len(lines) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "What changed", Lines: lines})
	}
	if planned > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "The plan", Lines: t.plannedLines(e)})
	}
	return rep
}

// touchedLine says what became of one piece.
func touchedLine(x store.Touched) string {
	name := string(x.Kind) + " " + x.Key
	if x.Kind == store.Setting {
		name = x.Key
	}
	switch {
	case x.Before == nil && x.After == nil:
		return name
	case x.Before == nil && !isObject(x.After):
		return fmt.Sprintf("%s: %s", name, brief(x.After))
	case x.Before == nil:
		return name + ": new"
	case x.After == nil:
		return name + ": gone"
	}
	var before, after map[string]json.RawMessage
	if json.Unmarshal(x.Before, &before) != nil || json.Unmarshal(x.After, &after) != nil {
		return fmt.Sprintf("%s: %s, was %s", name, brief(x.After), brief(x.Before))
	}
	fields := maps.Clone(before)
	maps.Copy(fields, after)
	var parts []string
	for _, f := range slices.Sorted(maps.Keys(fields)) {
		switch b, a := before[f], after[f]; {
		case string(b) == string(a):
		case b == nil:
			parts = append(parts, fmt.Sprintf("%s %s", f, brief(a)))
		case a == nil:
			parts = append(parts, f+" none")
		default:
			parts = append(parts, fmt.Sprintf("%s %s, was %s", f, brief(a), brief(b)))
		}
	}
	if len(parts) == 0 {
		return name + ": moved in its list"
	}
	return name + ": " + strings.Join(parts, "; ")
}

func isObject(doc json.RawMessage) bool { return len(doc) > 0 && (doc[0] == '{' || doc[0] == '[') }

// brief writes a stored value for a person: lists and objects by their size only.
func brief(doc json.RawMessage) string {
	const most = 60
	var v any
	if json.Unmarshal(doc, &v) != nil {
		return "?"
	}
	switch v := v.(type) {
	case nil:
		return "none"
	case []any:
		return words.Count(len(v), "entry")
	case map[string]any:
		return "other"
	case string:
		if v == "" {
			return "empty"
		}
		if r := []rune(v); len(r) > most {
			return string(r[:most]) + "…"
		}
		return v
	case bool:
		if v {
			return "yes"
		}
		return "no"
	}
	return string(doc)
}

// plannedLines says how the change moved tasks.
func (t *Turn) plannedLines(e *store.Entry) []string {
	const most = 12
	var lines []string
	for _, x := range e.Touched {
		if x.Kind != store.PlacedPiece {
			continue
		}
		var was, is planner.Placed
		if x.Before != nil && json.Unmarshal(x.Before, &was) != nil || x.After != nil && json.Unmarshal(x.After, &is) != nil {
			continue
		}
		name := t.taskName(planner.TaskKey(x.Key))
		switch {
		case x.After == nil:
			lines = append(lines, name+": no longer planned")
		case x.Before == nil:
			lines = append(lines, fmt.Sprintf("%s: %s", name, t.dayClock(is.Start)))
		case !was.Start.Equal(is.Start):
			lines = append(lines, fmt.Sprintf("%s: %s, was %s", name, t.dayClock(is.Start), t.dayClock(was.Start)))
		case len(was.People) > 0 && len(is.People) > 0 && was.People[0] != is.People[0]:
			lines = append(lines, fmt.Sprintf("%s: %s, was %s", name, t.personName(is.People[0]), t.personName(was.People[0])))
		}
	}
	if len(lines) == 0 {
		return []string{"Nothing moved."}
	}
	if n := len(lines); n > most {
		lines = append(lines[:most:most], fmt.Sprintf("and %d more", n-most))
	}
	return lines
}
