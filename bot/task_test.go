package bot

import (
	"context"
	"strings"
	"testing"
	"time"

	"tureen/planner"
	"tureen/planner/check"
)

// supper is a small party with one dish that can be planned, and two co-hosts.
func supper(t testing.TB) *table {
	t.Helper()
	tb := newTable(t)
	tb.supper("Harvest supper")
	return tb
}

// supper starts such a party, and everybody speaks of it.
func (tb *table) supper(name string) planner.PartyID {
	tb.t.Helper()
	tb.must("Ana",
		`/party new name:`+name+` date:2026-09-26 arrive:19:00 covers:8 zone:Europe/Lisbon fresh:yes `+
			`courses:starter 19:30, main 20:15`,
		`/party use party:`+name+` everybody:yes`,
		`/people add name:Ben cooks:14:00-21:30`, `/people add name:Cleo role:co-host`, `/people add name:Dana role:onlooker`,
		`/dish add name:Pumpkin soup course:starter serves:8`,
		`/step add dish:pumpkin-soup name:chop do:Chop the pumpkin time:20-30 min counter:1 leaves:cut-produce`,
		`/step add dish:pumpkin-soup name:simmer do:Simmer until soft time:40 min burners:1 vessel:large pot after:chop `+
			`wait:counter longest:1h attention:watch leaves:soup`,
		`/step serve step:pumpkin-soup/simmer wait:counter longest:20 min`,
		`/task add name:Lay the table kind:table time:20-30 min by:1h before arrival`,
	)
	id, err := tb.store.Focus(context.Background(), "test", "kitchen", "ana")
	if err != nil {
		tb.t.Fatal(err)
	}
	return id
}

func TestClaim(t *testing.T) {
	tb := supper(t)
	tb.must("Ben", "/task claim task:chop")
	rep := tb.say("Cleo", "/task claim task:pumpkin-soup/chop")
	if !rep.Refused || !strings.Contains(plain(rep), "Ben has it: Chop the pumpkin") {
		t.Errorf("a second claim: got %q", plain(rep))
	}
	if rep := tb.say("Dana", "/task claim task:simmer"); !rep.Refused ||
		!strings.Contains(plain(rep), "look at Harvest supper but not change it") {
		t.Errorf("an onlooker claims: got %q", plain(rep))
	}
	tb.must("Ben", "/task pass task:chop to:Cleo")
	if rep := tb.say("Ben", "/task give-back task:chop"); !rep.Refused {
		t.Error("Ben gives back what Cleo has")
	}
	tb.must("Cleo", "/task give-back task:chop")
	tb.must("Ana", "/task assign task:chop to:Ben")
	if rep := tb.say("Ana", "/task assign task:chop to:Dana"); !rep.Refused {
		t.Error("an onlooker is given work")
	}
}

func TestStartingClosesTheLast(t *testing.T) {
	tb := supper(t)
	tb.now = time.Date(2026, 9, 26, 16, 0, 0, 0, time.UTC)
	tb.must("Ben", "/task start task:chop")
	tb.now = tb.now.Add(25 * time.Minute)
	rep := tb.must("Ben", "/task start task:lay-the-table")
	if got := plain(rep); !strings.Contains(got, "Chop the pumpkin") {
		t.Errorf("got %q, want it to say that chopping is done", got)
	}
	snap := tb.party()
	w := snap.Party.WorkOn("pumpkin-soup/chop")
	if w == nil || w.Progress != "done" || !w.End.Equal(tb.now) {
		t.Errorf("got %+v, want it done at %v", w, tb.now)
	}
}

// Whoever begins a step shows that those before it are done, also when nobody has said so.
func TestStartingShowsWhatIsDone(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/plan make propose:no")
	tb.now = time.Date(2026, 9, 26, 17, 30, 0, 0, time.UTC)
	rep := tb.must("Ben", "/task start task:simmer")
	if got := plain(rep); !strings.Contains(got, "Done with it\nChop the pumpkin") {
		t.Errorf("got %q, want it to say that chopping is done", got)
	}
	snap := tb.party()
	if w := snap.Party.WorkOn("pumpkin-soup/chop"); w == nil || w.Progress != planner.Done || !w.End.Equal(tb.now) {
		t.Errorf("got %+v, want chopping done at %v", w, tb.now)
	}
	if broken := check.Plan(&snap.Party, snap.Plan); len(broken) > 0 {
		t.Errorf("the plan breaks %v", broken)
	}
}

// The plan follows a claim: another person does it then, or at another time.
func TestPlanFollowsClaims(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/plan make propose:no")
	for _, who := range []string{"Ben", "Cleo"} {
		for _, task := range []string{"pumpkin-soup/chop", "pumpkin-soup/simmer", "lay-the-table"} {
			tb.must(who, "/task claim task:"+task)
			snap := tb.party()
			if broken := check.Plan(&snap.Party, snap.Plan); len(broken) > 0 {
				t.Fatalf("%s has claimed %s, and the plan breaks %v", who, task, broken)
			}
			if pl := snap.Plan.Placed(planner.TaskKey(task)); snap.Party.Person(pl.People[0]).Name != who {
				t.Errorf("%s has claimed %s, and the plan gives it to %s", who, task, pl.People[0])
			}
			tb.must(who, "/task give-back task:"+task)
		}
	}
}

func TestPlanOutOfDate(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/plan make propose:no")
	for _, row := range []struct{ text, want string }{
		{"/guest add name:Piers", "Piers is coming"},
		{"/step change step:chop do:Chop the pumpkin small", "The plan still holds"},
		{"/step change step:simmer time:90 min", "The plan is out of date now. "},
		{"/step change step:simmer time:95 min", "The plan is still out of date"},
		{"/step change step:simmer time:40 min", "The plan still holds"},
		{"/course change course:starter at:20:45", "The plan is out of date now. "},
		{"/plan make propose:no", "A draft, "},
	} {
		if got := plain(tb.must("Ana", row.text)); !strings.Contains(got, row.want) {
			t.Errorf("%s\ngot  %s\nwant …%s…", row.text, got, row.want)
		}
	}
}
