package bot

import (
	"context"
	"strings"
	"testing"

	"tureen/bot/talk"
)

func TestComplete(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Crème caramel course:main",
		"/ingredient add dish:creme-caramel name:crème fraîche amount:200 g",
		"/ingredient add dish:creme-caramel name:Smør amount:20 g")
	for _, row := range []struct {
		who, command, option, typed string
		with                        map[string]string
		want                        string // values, the first ones, with commas
	}{
		{"Ana", "dish show", "dish", "", nil, "pumpkin-soup,creme-caramel"},
		{"Ana", "dish show", "dish", "creme", nil, "creme-caramel"},
		{"Ana", "dish show", "dish", "Crème", nil, "creme-caramel"},
		{"Ana", "dish show", "dish", "pumkin-soup", nil, "pumpkin-soup"},
		{"Ana", "dish show", "dish", "caramel", nil, "creme-caramel"},
		{"Ana", "task claim", "task", "lay", nil, "lay-the-table"},
		{"Ana", "task claim", "task", "until soft", nil, "pumpkin-soup/simmer"},
		{"Ana", "task pass", "to", "b", nil, "Ben"},
		{"Ana", "step add", "attention", "w", nil, "watch"},
		{"Ana", "step add", "vessel", "large", nil, "large pot"},
		{"Ana", "step add", "after", "", map[string]string{"dish": "pumpkin-soup"}, "chop,simmer"},
		{"Ana", "party use", "party", "har", nil, "Harvest supper"},
		// the days of work, to the party's
		{"Ana", "plan show", "day", "", nil, "2026-09-19,2026-09-20,2026-09-21,2026-09-22," +
			"2026-09-23,2026-09-24,2026-09-25,2026-09-26"},
		{"Ana", "plan show", "day", "fri", nil, "2026-09-25"},
		{"Ana", "plan show", "day", "26 sep", nil, "2026-09-26"},
		{"Ana", "plan show", "day", "party", nil, "2026-09-26"},
		{"Ana", "party new", "date", "", nil, "2026-09-14,2026-09-15"},
		{"Ana", "party new", "date", "tomorrow", nil, "2026-09-15"},
		{"Ana", "party new", "date", "5 dec", nil, "2026-12-05"},
		{"Ana", "party new", "date", "satur", nil, "2026-09-19,2026-09-26"},
		{"Ana", "party new", "date", "no day", nil, ""},
		{"Ana", "party new", "arrive", "7 pm", nil, "7 pm"},
		{"Ana", "party new", "arrive", "18", nil, "18:00,18:30"},
		{"Ana", "task done", "at", "", nil, "2026-09-26 19:00,2026-09-26 19:30"},
		{"Ana", "task done", "at", "guests", nil, "2026-09-26 19:00"},
		{"Ana", "task done", "at", "19:40", nil, "19:40"},
		{"Ana", "party change", "zone", "lisb", nil, "Europe/Lisbon"},
		{"Ana", "party change", "zone", "montevideo", nil, "America/Montevideo"},
		{"Ana", "now", "person", "every", nil, "everybody"},
		{"Ana", "ingredient change", "ingredient", "smør", nil, "Smør"},
		{"Ana", "ingredient change", "ingredient", "smor", nil, "Smør"},
		{"Ana", "ingredient change", "ingredient", "CREME", map[string]string{"dish": "creme-caramel"}, "crème fraîche"},
		{"Ana", "help", "command", "task cl", nil, "task claim"},
		{"Ana", "help", "command", "every command", nil, "all"},
		{"Zoe", "task claim", "task", "", nil, ""},
		{"Zoe", "dish show", "dish", "", nil, ""},      // a stranger learns nothing
		{"Dana", "task claim", "task", "lay", nil, ""}, // an onlooker may not claim
		{"Ana", "no such", "dish", "", nil, ""},
		{"Ana", "dish show", "no-such", "", nil, ""},
	} {
		req := talk.Request{Community: "test", Channel: "kitchen", User: talk.User{ID: strings.ToLower(row.who),
			Name: row.who}, Command: row.command, Options: row.with}
		var got []string
		for _, s := range tb.Complete(context.Background(), req, row.option, row.typed) {
			got = append(got, s.Value)
		}
		if text := strings.Join(got, ","); text != row.want && !(row.want != "" && strings.HasPrefix(text, row.want+",")) {
			t.Errorf("%s: /%s %s:%s\ngot  %s\nwant %s", row.who, row.command, row.option, row.typed, text, row.want)
		}
	}
}

func TestButtonsAreShort(t *testing.T) {
	tb := supper(t)
	name := strings.Repeat("x", 80)
	tb.must("Ana", "/dish add course:main name:"+name, "/step add dish:"+name+" time:5 min name:"+name)
	rep := tb.must("Ana", "/task claim task:"+name)
	if len(rep.Buttons) == 0 {
		t.Fatal("there are no buttons")
	}
	for _, b := range append(rep.Buttons, tb.must("Ana", "/task list show:all").Buttons...) {
		if len(b.Do) > talk.MaxDo || len([]rune(b.Label)) > talk.MaxLabel {
			t.Errorf("%q (%d) does %q (%d)", b.Label, len(b.Label), b.Do, len(b.Do))
		}
		if _, err := tb.Parse(b.Do); err != nil {
			t.Errorf("%q cannot be read: %v", b.Do, err)
		}
	}
}

// TestTasksOffered: what is over is not offered to be claimed or done, one's own tasks come first, and each is
// called by what is done, with its dish.
func TestTasksOffered(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/task claim task:pumpkin-soup/simmer")
	offered := func(command string) (out []talk.Suggestion) {
		req := talk.Request{Community: "test", Channel: "kitchen", User: talk.User{ID: "ana", Name: "Ana"}, Command: command}
		return tb.Complete(context.Background(), req, "task", "")
	}
	if got := offered("task done"); len(got) < 3 || got[0].Value != "pumpkin-soup/simmer" ||
		!strings.HasPrefix(got[0].Label, "Simmer until soft (Pumpkin soup)") {
		t.Errorf("done: %v", got)
	}
	has := func(list []talk.Suggestion, key string) bool {
		for _, s := range list {
			if s.Value == key {
				return true
			}
		}
		return false
	}
	if got := offered("task claim"); has(got, "pumpkin-soup/simmer") || !has(got, "pumpkin-soup/chop") {
		t.Errorf("claim: %v", got)
	}
	tb.must("Ana", "/task skip task:pumpkin-soup/chop")
	if got := offered("task done"); has(got, "pumpkin-soup/chop") {
		t.Errorf("done, with one left out: %v", got)
	}
	if got := offered("task show"); !has(got, "pumpkin-soup/chop") {
		t.Errorf("show, with one left out: %v", got)
	}
}
