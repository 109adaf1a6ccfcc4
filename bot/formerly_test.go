package bot

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
)

// TestFormerWords: each word that was typed formerly leads to one that is there now, and means nothing else.
func TestFormerWords(t *testing.T) {
	b := New(nil, time.Now, nil, Options{})
	names := map[string]bool{}
	for _, c := range b.Commands() {
		names[c.Name] = true
	}
	seen := map[string]int{}
	for _, r := range talk.Renamings() {
		seen[r.What]++
		switch r.What {
		case "command":
			if names[r.Old] || !names[r.Now] {
				t.Errorf("/%s is a command, or /%s is none", r.Old, r.Now)
			}
		case "option", "choice":
			if !eachFormer(t, b, r) {
				t.Errorf("%+v is about no command there is", r)
			}
		case "task":
			if talk.TaskNow(r.Old+"ice") != r.Now+"ice" {
				t.Errorf("%+v is not read", r)
			}
		default:
			t.Errorf("%+v is no kind of word", r)
		}
	}
	if len(seen) != 4 {
		t.Errorf("got %v, want words of four kinds", seen)
	}
}

// eachFormer says a former word in each command that it was one of, and reports whether there was any.
func eachFormer(t *testing.T, b *Bot, r talk.Renaming) (some bool) {
	for _, c := range b.Commands() {
		for _, o := range c.Options {
			text, option, want := r.Old+":x", "", "x"
			switch {
			case r.What == "option" && o.Name == r.Now && r.In(&c, ""):
				option = o.Name
			case r.What == "choice" && r.In(&c, o.Name):
				option, text, want = o.Name, o.Name+":"+r.Old, r.Now
				if slices.Contains(o.Choices, r.Old) || !slices.Contains(o.Choices, r.Now) {
					t.Errorf("/%s does not have %s instead of %s", c.Name, r.Now, r.Old)
				}
			default:
				continue
			}
			some = true
			is := func(o talk.Option) bool { return o.Name == r.Old }
			if r.What == "option" && slices.ContainsFunc(c.Options, is) {
				t.Errorf("/%s has an option %s: of another meaning", c.Name, r.Old)
			}
			line, err := b.Parse("/" + c.Name + " " + text)
			if err != nil || line.Options[option] != want || !strings.Contains(line.News(), r.Now) {
				t.Errorf("/%s %s: got %v, %q, %v", c.Name, text, line.Options, line.News(), err)
			}
		}
	}
	return some
}

// TestNewWordsAreNotOld: no word of today meant something else formerly.
func TestNewWordsAreNotOld(t *testing.T) {
	for _, r := range talk.Renamings() {
		for _, o := range talk.Renamings() {
			if r.What == o.What && r.Where == o.Where && r.Now == o.Old {
				t.Errorf("%q is what %+v is now, and was %+v", r.Now, r, o)
			}
		}
	}
}

// TestFormerMessages: whole messages in the words of formerly are understood, and say what has changed.
func TestFormerMessages(t *testing.T) {
	b := New(nil, time.Now, nil, Options{})
	for _, row := range []struct{ said, command, option, value, news string }{
		{"/task more task:soup/simmer for:10", "task longer", "for", "10", "/task more is now /task longer."},
		{"Shopping HOUSE Thing:\"olive: oil\" amount:2", "shopping have", "item", "olive: oil",
			"/shopping house is now /shopping have and thing: is now item:."},
		{"/step use step:a/b what:oven heat:180", "step use", "temperature", "180", "heat: is now temperature:."},
		{"/step use step:a/b what:pan until:bake", "step use", "through", "bake", "until: is now through:."},
		{"/step change step:a/b room:500 until:soft", "step change", "space", "500", "room: is now space:."},
		{"/step change step:a/b until:soft", "step change", "until", "soft", ""},
		{"/recipe correct step:2 heat:oven", "recipe correct", "heat", "oven", ""},
		{"/party change room:24", "party change", "room-temperature", "24", "room: is now room-temperature:."},
		{"/help command:task more", "help", "command", "task longer", ""},
		{"/task longer task:soup/simmer", "task longer", "task", "soup/simmer", ""},
	} {
		line, err := b.Parse(row.said)
		if err != nil || line.Command != row.command || line.Options[row.option] != row.value || line.News() != row.news {
			t.Errorf("%s: got %+v, %q, %v", row.said, line, line.News(), err)
		}
	}
	if _, err := b.Parse("/shopping have item:a thing:b"); err == nil {
		t.Error("an option that is given under both its names is taken")
	}
}
