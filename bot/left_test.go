package bot

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"tureen/planner"
	"tureen/planner/words"
)

// TestLeft: who leaves the community hands back what they had and have not done, the others are told once, and a
// host may take that back for good.
func TestLeft(t *testing.T) {
	tb := harvest(t)
	tb.must("Ana", "/people change who:Ben user:@77", "/task assign task:lemon-posset/boil to:Ben", "/plan make",
		"/task why task:lemon-posset/boil")
	before := tb.party()
	ctx := context.Background()
	if notes, err := tb.Left(ctx, "elsewhere", "77"); err != nil || len(notes) != 0 {
		t.Errorf("left another community: got %v, %v", notes, err)
	}
	if notes, err := tb.Left(ctx, "test", "78"); err != nil || len(notes) != 0 {
		t.Errorf("somebody else left: got %v, %v", notes, err)
	}
	notes, err := tb.Left(ctx, "test", "77")
	if err != nil || len(notes) != 1 {
		t.Fatalf("got %d notes, %v, want one", len(notes), err)
	}
	n := notes[0]
	for _, want := range []string{"Take over from Ben, who has left this community: ", "(Prawns with garlic and chilli), ",
		"The plan is out of date now.", "/undo takes this back"} {
		if !strings.Contains(words.PlainStamps(n.Text), want) {
			t.Errorf("%q is not in the note:\n%s", want, words.PlainStamps(n.Text))
		}
	}
	if len(n.Key) > 25 || n.Channel != "kitchen" || len(n.Buttons) < 2 ||
		n.Buttons[len(n.Buttons)-1].Do != "plan make party:1" {
		t.Errorf("key %q, channel %q, buttons %v", n.Key, n.Channel, n.Buttons)
	}
	now := tb.party().Party
	if w := now.WorkOn("lemon-posset/boil"); w != nil {
		t.Errorf("still claimed: %+v", w)
	}
	if ben := now.Person("ben"); ben.Role != planner.Onlooker || ben.Chat != "77" {
		t.Errorf("Ben is %+v", ben)
	}
	if tasks := tb.tasksOf("ben"); tb.must("Ana", "/plan make").Refused || len(tb.tasksOf("ben")) != 0 || len(tasks) == 0 {
		t.Errorf("Ben had %d tasks and has %d in a plan made anew", len(tasks), len(tb.tasksOf("ben")))
	}
	tb.must("Ana", "/undo")
	if rep := tb.must("Ana", "/undo"); !strings.Contains(rep.Text, "took off who has left the community: Ben") {
		t.Errorf("undone: %q", rep.Text)
	}
	after := tb.party()
	after.Plan.Revision = before.Plan.Revision // it holds for a later one now
	if d := cmp.Diff([]any{before.Party, before.Plan}, []any{after.Party, after.Plan}); d != "" {
		t.Errorf("after the undo (-before +now):\n%s", d)
	}
	if notes, err := tb.Left(ctx, "test", "77"); err != nil || len(notes) != 0 {
		t.Errorf("against a host's wish: got %v, %v", notes, err)
	}
	if list, err := tb.Members(ctx, "test"); err != nil || !slices.Equal(list, []string{"77", "ana"}) &&
		!slices.Equal(list, []string{"ana", "77"}) {
		t.Errorf("members: got %v, %v", list, err)
	}
}

// tasksOf lists the tasks that the plan gives somebody.
func (tb *table) tasksOf(who planner.PersonKey) (out []planner.TaskKey) {
	for _, pl := range tb.party().Plan.Tasks {
		if slices.Contains(pl.People, who) {
			out = append(out, pl.Task)
		}
	}
	return out
}

// TestOnlyHostLeft: a party's only host stays its host, without hours to cook; and nobody hands back what is over.
func TestOnlyHostLeft(t *testing.T) {
	tb := harvest(t)
	ctx := context.Background()
	for i, want := range []int{1, 0} {
		if notes, err := tb.Left(ctx, "test", "ana"); err != nil || len(notes) != want {
			t.Errorf("time %d: got %d notes, %v, want %d", i+1, len(notes), err, want)
		}
	}
	party := tb.party().Party
	if ana := party.Person("ana"); ana.Role != planner.Host || ana.Cooks != (planner.DayHours{}) {
		t.Errorf("Ana is %+v", ana)
	}
	tb.must("Ana", "/undo", "/people change who:Ben role:host user:@77")
	tb.now = lisbonSaturday(12, 0).AddDate(0, 0, 2)
	if notes, err := tb.Left(ctx, "test", "77"); err != nil || len(notes) != 0 {
		t.Errorf("after the party: got %v, %v", notes, err)
	}
	if list, err := tb.Members(ctx, "test"); err != nil || len(list) != 0 {
		t.Errorf("members after the party: got %v, %v", list, err)
	}
}
