package bot

import (
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
)

// TestDownTheList: who was sent a list says "done" for one after another, without a name; and what burns says what it
// costs before it is begun again.
func TestDownTheList(t *testing.T) {
	tb := newTable(t)
	tb.must("Ana",
		"/party new name:Soup supper date:2026-09-26 arrive:19:00 covers:4 zone:Europe/Lisbon courses:main 20:00",
		"/dish add name:Pumpkin soup course:main",
		"/step add dish:pumpkin-soup name:chop do:Chop the pumpkin time:5 attention:hands leaves:cut-produce",
		"/step add dish:pumpkin-soup name:onions do:Chop the onions time:15 attention:hands after:chop longest:3 "+
			"leaves:cut-produce",
		"/step add dish:pumpkin-soup name:simmer do:Simmer the soup time:40 attention:watch burners:1 after:onions "+
			"leaves:soup longest:15",
		"/plan make propose:no")
	plan := tb.holds()
	var list talk.Reply
	for _, rep := range tb.later(plan.Tasks[0].Start) {
		if strings.Contains(rep.Text, "in this order:") {
			list = rep
		}
	}
	if list.Text == "" {
		t.Fatal("no list has come")
	}
	for _, want := range []planner.TaskKey{"pumpkin-soup/chop", "pumpkin-soup/onions"} {
		pl := plan.Placed(want)
		tb.later(pl.End)
		rep := tb.told("Ana", "done")
		if w := tb.work(want); w == nil || w.Progress != planner.Done {
			t.Errorf("done, of %s: %s", want, plain(rep))
		}
	}
	tb.must("Ana", "/task start task:pumpkin-soup/simmer")
	tb.later(tb.now.Add(30 * time.Minute))
	wants(t, tb.told("Ana", "the soup burnt"), "is to be done again?\nThat takes 1 hour again, from the beginning, "+
		"and costs no course its time.")
	tb.later(plan.Served[0].At.Add(-20 * time.Minute))
	wants(t, tb.told("Ana", "the soup burnt"), " again, from the beginning: the main comes about ",
		" later, or without it.")
}
