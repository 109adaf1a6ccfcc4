package console

import (
	"context"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/reminders"
	"tureen/store"
	"tureen/store/held"
)

// TestHeldUndo: what Noor had taken back can be done again; all that others have not built on can be taken back, and
// done again.
func TestHeldUndo(t *testing.T) {
	s := openHeld(t)
	c, out := goOn(t, s)
	before := exportNow(t, s, longTable).Party
	note := func() string {
		for _, g := range exportNow(t, s, longTable).Party.Guests {
			if g.Name == "Iris" {
				return g.Note
			}
		}
		return "nobody"
	}
	if got := note(); got != "sits by the door" {
		t.Errorf("at first: Iris %s", got)
	}
	if text := say(t, c, out, "/redo"); !strings.Contains(text, "Done again: changed the guest Iris") ||
		note() != "sits by the window" {
		t.Errorf("Iris %s:\n%s", note(), text)
	}
	say(t, c, out, "/undo")
	var undone int
	for _, who := range []string{"Noor", "Pia", "Luc", "Mia", "Noor"} {
		for range 8 {
			out.Reset()
			refused, err := c.Lines(context.Background(), strings.NewReader(who+"> /undo party:1"))
			if err != nil {
				t.Fatal(err)
			}
			if refused > 0 {
				if !strings.Contains(out.String(), "Type:") && !strings.Contains(out.String(), "no change of yours") {
					t.Errorf("%s is refused without a way on:\n%s", who, out)
				}
				break
			}
			undone++
			say(t, c, out, who+"> /redo party:1", who+"> /undo party:1")
		}
	}
	if undone < 15 {
		t.Errorf("%d changes could be taken back, want at least 15", undone)
	}
	if cmp.Equal(before, exportNow(t, s, longTable).Party) {
		t.Error("nothing was taken back")
	}
}

// TestHeldRedo: four changes taken back and done again leave what was there, plan and all.
func TestHeldRedo(t *testing.T) {
	s := openHeld(t)
	c, out := goOn(t, s)
	before := exportNow(t, s, longTable)
	say(t, c, out, strings.Split(strings.Repeat("/undo party:1\n", 4)+strings.Repeat("/redo party:1\n", 4), "\n")...)
	after := exportNow(t, s, longTable)
	after.Revision, after.Plan.Revision = before.Revision, before.Plan.Revision // each change has its own
	if d := cmp.Diff(before, after); d != "" {
		t.Errorf("(-before +after):\n%s", d)
	}
}

// TestHeldJournal: every change of then can be looked at.
func TestHeldJournal(t *testing.T) {
	s := openHeld(t)
	c, out := goOn(t, s)
	for _, id := range []planner.PartyID{longTable, smallWords} {
		snap, err := s.Load(context.Background(), community, id)
		if err != nil {
			t.Fatal(err)
		}
		for n := int64(1); n <= snap.Revision; n++ {
			text := say(t, c, out, fmt.Sprintf("/journal change:%d party:%d", n, id))
			if !strings.Contains(text, fmt.Sprintf("Change %d,", n)) {
				t.Errorf("party %d, change %d:\n%s", id, n, text)
			}
		}
	}
}

// arrivals is a deliverer that writes down what arrives.
type arrivals struct {
	mu   sync.Mutex
	list []reminders.Note
}

// Deliver implements [reminders.Deliverer].
func (a *arrivals) Deliver(_ context.Context, n reminders.Note) (string, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.list = append(a.list, n)
	return "here/" + n.Key, nil
}

// TestHeldReminders: what was sent then is not sent again, and what waited comes at its time, whether or not the
// reminders are worked out anew before.
func TestHeldReminders(t *testing.T) {
	ctx := context.Background()
	for name, first := range map[string][]string{
		"as they stand":       nil,
		"worked out anew":     {"/course change course:cheese late:20 min"},
		"after a plan anew":   {"/plan make propose:no"},
		"taken back":          {"/course change course:cheese late:20 min", "/undo"},
		"in another channel":  {"/party here"},
		"with somebody's day": {"Luc> /remind direct on:yes"},
	} {
		t.Run(name, func(t *testing.T) {
			s := openHeld(t)
			before, err := s.Reminders(ctx, community, longTable)
			if err != nil {
				t.Fatal(err)
			}
			c, out := goOn(t, s)
			say(t, c, out, first...)
			again, err := s.Reminders(ctx, community, longTable)
			if err != nil {
				t.Fatal(err)
			}
			then := map[int64]store.Row{}
			sent := 0
			for _, r := range before {
				then[r.ID] = r
				if r.State == store.Sent {
					sent++
				}
			}
			got := &arrivals{}
			d := reminders.Dispatcher{Store: s, Deliverer: got, Scope: store.Scope{Only: community},
				Log: slog.New(slog.DiscardHandler)}
			end := held.Now.Add(9 * time.Hour)
			wait := 0
			for _, r := range again {
				if r.State == store.Waiting && !r.Due.After(end) {
					wait++
				}
			}
			if err := d.Advance(ctx, held.Now, end, nil); err != nil {
				t.Fatal(err)
			}
			after, err := s.Reminders(ctx, community, longTable)
			if err != nil {
				t.Fatal(err)
			}
			for _, r := range after {
				old, there := then[r.ID]
				switch {
				case there && old.State == store.Sent:
					sent--
					if r.State != store.Sent || r.Round != old.Round || !r.SentAt.Equal(old.SentAt) {
						t.Errorf("%s, sent at %v, came again at %v", r.Key, old.SentAt, r.SentAt)
					}
				case r.State != store.Sent || r.SentAt.Before(held.Now):
					t.Errorf("%s is %s, sent at %v", r.Key, r.State, r.SentAt)
				case len(first) == 0 && !r.SentAt.Equal(old.Due):
					t.Errorf("%s was due at %v and came at %v", r.Key, old.Due, r.SentAt)
				}
			}
			if sent != 0 {
				t.Errorf("%d that were sent are no longer known", sent)
			}
			if len(got.list) != wait || wait < 20 {
				t.Errorf("%d arrived, want the %d that waited, and at least 20", len(got.list), wait)
			}
		})
	}
}

// TestHeldButtons: each button under a reminder of then acts, or says what to type.
func TestHeldButtons(t *testing.T) {
	ctx := context.Background()
	s := openHeld(t)
	rows, err := s.Reminders(ctx, community, longTable)
	if err != nil {
		t.Fatal(err)
	}
	p := exportNow(t, s, longTable).Party
	c, _ := goOn(t, s)
	acted, all := 0, 0
	for _, r := range rows {
		for _, b := range r.Buttons {
			all++
			rep := c.ask(ctx, p.Person(r.Person).Name, "/"+b.Do)
			switch {
			case !rep.Refused:
				acted++
			case rep.Next == "" || strings.Contains(rep.Text, "there is no task"):
				t.Errorf("%s, %s: %s: refused without a way on: %s", r.Key, b.Label, b.Do, rep.Text)
			}
		}
	}
	if all < 200 || acted < 75 {
		t.Errorf("of %d buttons %d act, want at least 200 and 75", all, acted)
	}
}

// ask says a message to the bot and answers what it replies.
func (c *Chat) ask(ctx context.Context, who, text string) talk.Reply {
	line, err := c.bot.Parse(text)
	if err != nil {
		return talk.RefusedReply(err)
	}
	return c.bot.Do(ctx, talk.Request{Community: community, Channel: c.channel, User: userOf(who),
		Command: line.Command, Options: line.Options})
}

// TestHeldGoesOn: the evening goes on; the recipe that was read is kept as it was corrected; the party that was removed
// comes back.
func TestHeldGoesOn(t *testing.T) {
	s := openHeld(t)
	c, out := goOn(t, s)
	text := say(t, c, out, "Luc> /task done task:roast-pork/roast", "Mia> /task done task:lemon-ices/freeze",
		"/late guests:5 min", "/plan check",
		"/now person:everybody more:yes", "/shopping list", "/guest table", "/plan runsheet", "/task list show:all",
		"/dish list", "/kitchen show")
	if !strings.Contains(text, "The guests come at 18:15") || !strings.Contains(text, "The plan holds") {
		t.Errorf("it does not go on:\n%s", text)
	}
	text = say(t, c, out, "channel", "/recipe keep course:main party:small-words", "/party bring-back name:Gone by")
	if !strings.Contains(text, "Gone by") {
		t.Errorf("not brought back:\n%s", text)
	}
	p := exportNow(t, s, smallWords).Party
	d := p.Dish("pear-pie")
	if d == nil || d.Name != "Pear pie" || d.Serves != 8 || len(d.Steps) != 4 {
		t.Fatalf("the recipe was kept as %+v", d)
	}
	slice, simmer, chill, bake := &d.Steps[0], &d.Steps[1], &d.Steps[2], &d.Steps[3]
	for what, holds := range map[string]bool{
		"slice": slice.Do == "Slice the pears thinly" && slice.Time.Likely == 12 && slice.Attention == planner.Touch &&
			slice.Every == 4,
		"sign":   slice.Until == "the slices are even",
		"simmer": simmer.Attention == planner.Watch && len(simmer.Uses) == 3 && simmer.Uses[0].What == planner.ABurner,
		"chill":  chill.Where == planner.Freezer && chill.Attention == planner.Unattended,
		"bake":   len(bake.Uses) > 0 && bake.Uses[0].What == planner.AnOven && bake.Uses[0].C == 200,
	} {
		if !holds {
			t.Errorf("%s: not as it was corrected: %+v", what, d.Steps)
		}
	}
}
