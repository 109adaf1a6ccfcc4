package bot

import (
	"context"
	"strings"
	"testing"
)

func TestComplete(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/dish add name:Crème caramel course:main")
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
		{"Ana", "task claim", "task", "lay", nil, "chore/lay-the-table"},
		{"Ana", "task claim", "task", "until soft", nil, "pumpkin-soup/simmer"},
		{"Ana", "task hand", "to", "b", nil, "Ben"},
		{"Ana", "step add", "attention", "w", nil, "watch"},
		{"Ana", "step add", "vessel", "large", nil, "large pot"},
		{"Ana", "step add", "after", "", map[string]string{"dish": "pumpkin-soup"}, "chop,simmer"},
		{"Ana", "party use", "party", "har", nil, "Harvest supper"},
		{"Zoe", "dish show", "dish", "", nil, ""},      // a stranger learns nothing
		{"Dana", "task claim", "task", "lay", nil, ""}, // a looker may not claim
		{"Ana", "no such", "dish", "", nil, ""},
		{"Ana", "dish show", "no-such", "", nil, ""},
	} {
		req := Request{Community: "test", Channel: "kitchen", User: User{ID: strings.ToLower(row.who), Name: row.who}, Command: row.command, Options: row.with}
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
		if len(b.Do) > maxDo || len([]rune(b.Label)) > maxLabel {
			t.Errorf("%q (%d) does %q (%d)", b.Label, len(b.Label), b.Do, len(b.Do))
		}
		if _, err := tb.Parse(b.Do); err != nil {
			t.Errorf("%q cannot be read: %v", b.Do, err)
		}
	}
}
