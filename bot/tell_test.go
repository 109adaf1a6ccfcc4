package bot

import (
	"strings"
	"testing"

	"tureen/planner"
)

// TestClaimsMoveNobodyElse: once others were told, one claim moves and gives away nothing of theirs; what would
// be better is offered with /plan make, and not made.
func TestClaimsMoveNobodyElse(t *testing.T) {
	tb := newTable(t)
	tb.must("Ana", `/party new name:Harvest supper date:2026-09-26 arrive:19:00 covers:8 zone:Europe/Lisbon `+
		`courses:starter 19:30, main 20:30`, "/people add name:Ben cooks:9:00-22:00 can:all day",
		"/people add name:Cleo cooks:9:00-22:00 can:all day", "/repertoire add dish:prawns",
		"/repertoire add dish:Courgette and ricotta lasagne", "/plan make")
	if p := tb.party(); !p.Plan.Draft || p.Plan.Told != nil {
		t.Fatal("the first plan is no draft")
	}
	tb.must("Ana", "/plan tell")
	before := *tb.party().Plan
	if before.Draft || before.Told == nil {
		t.Fatal("everybody was told, and it is a draft")
	}
	tb.must("Ben", "/plan answer says:fine")
	var shop planner.TaskKey // somebody's who has not said yes
	who := "Ana"
	for _, pl := range before.Tasks {
		if len(pl.People) > 0 && pl.People[0] != "ben" && !strings.HasPrefix(string(pl.Task), "dress") {
			if shop = pl.Task; pl.People[0] == "ana" {
				who = "Cleo"
			}
			break
		}
	}
	tb.must(who, "/task claim task:"+string(shop))
	tb.must("Ana", "/plan make")
	after := tb.party().Plan
	if after.Told == nil {
		t.Error("a new plan forgets that they were told")
	}
	moved := 0
	for _, was := range before.Tasks {
		is := after.Placed(was.Task)
		if len(was.People) == 0 || was.People[0] == "ana" || was.Task == shop {
			continue
		}
		if is == nil || !is.Start.Equal(was.Start) || is.People[0] != was.People[0] {
			t.Errorf("%s was %v by %v, is %+v", was.Task, was.Start, was.People, is)
		}
		moved++
	}
	if moved < 3 {
		t.Errorf("only %d tasks of others are looked at", moved)
	}
}

// TestManyAtOnce: a course, a dish and a session are claimed, given back and ticked off as one.
func TestManyAtOnce(t *testing.T) {
	tb := newTable(t)
	tb.must("Ana", `/party new name:Harvest supper date:2026-09-26 arrive:19:00 covers:4 zone:Europe/Lisbon `+
		`courses:starter 19:30, main 20:30`, "/repertoire add dish:prawns", "/people add name:Ben can:all day", "/plan make")
	of := func(who planner.PersonKey) (n int) {
		for _, w := range tb.party().Party.Work {
			if w.Person == who {
				n++
			}
		}
		return n
	}
	steps := len(tb.party().Party.Dishes[0].Steps)
	rep := tb.must("Ben", "/task claim task:starter")
	if of("ben") != steps || !strings.Contains(plain(rep), "the starter") {
		t.Errorf("Ben has %d of %d tasks: %s", of("ben"), steps, plain(rep))
	}
	if rep := tb.say("Ana", "/task claim task:starter"); !rep.Refused {
		t.Errorf("Ana takes what is Ben's: %s", plain(rep))
	}
	tb.must("Ben", "/task pass task:prawns to:Ana")
	if of("ana") != steps || of("ben") != 0 {
		t.Errorf("passed on: Ana has %d, Ben %d", of("ana"), of("ben"))
	}
	tb.must("Ana", "/task give-back task:starter")
	if of("ana") != 0 {
		t.Errorf("given back, Ana has %d", of("ana"))
	}
	snap := tb.party()
	party := &snap.Party
	sessions := planner.Sessions(party, tb.party().Plan)
	said := plain(tb.must("Ana", "/task done task:"+sessions[0].Key))
	for _, k := range sessions[0].Tasks {
		if party := tb.party().Party; party.Progress(k) != planner.Done && !strings.Contains(said, "Not these") {
			t.Errorf("%s of %s is not done", k, sessions[0].Key)
		}
	}
	if rep := tb.say("Ana", "/task claim task:pudding"); !rep.Refused {
		t.Error("a course that is not there is claimed")
	}
}

// TestSwap: two people swap when both have said so, and not before; who has nothing is offered what is open.
func TestSwap(t *testing.T) {
	tb, _ := matrixTable(t)
	has := func(k planner.TaskKey) planner.PersonKey {
		snap := tb.party()
		w := snap.Party.WorkOn(k)
		if w == nil {
			return ""
		}
		return w.Person
	}
	for _, c := range []struct{ who, text, want string }{
		{"Cleo", "/task swap task:lay-the-table for:pear-tart/roll", "not yours to swap"},
		{"Ben", "/task swap task:lay-the-table for:pear-tart/bake", "Nobody has"},
		{"Ben", "/task swap task:lay-the-table for:lay-the-table", "Both are yours"},
	} {
		refusedWith(t, tb.say(c.who, c.text), c.want)
	}
	asked := tb.must("Ben", "/task swap task:lay-the-table for:pear-tart/roll") // which is Ana's
	wants(t, asked, "Ana, Ben would take", "[Swap]")
	if has("lay-the-table") != "ben" || has("pear-tart/roll") != "ana" {
		t.Fatal("swapped without a word from Ana")
	}
	tb.say("Cleo", "/"+asked.Buttons[0].Do)
	tb.say("Ben", "/"+asked.Buttons[0].Do)
	if has("pear-tart/roll") != "ana" {
		t.Error("another one's press has swapped it")
	}
	tb.must("Ana", "/"+asked.Buttons[0].Do)
	if has("lay-the-table") != "ana" || has("pear-tart/roll") != "ben" {
		t.Error("Ana's press has not swapped it")
	}
	refusedWith(t, tb.say("Ana", "/"+asked.Buttons[0].Do), "not yours to swap") // pressed twice
	tb.must("Cleo", "/people hours can:only at the party cooks:none")
	tb.must("Ana", "/plan make")
	wants(t, tb.must("Cleo", "/task list show:mine"), "open, if you would like some", "[I do ")
}
