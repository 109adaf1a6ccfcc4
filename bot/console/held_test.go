package console

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tureen/bot"
	"tureen/planner"
	"tureen/reminders"
	"tureen/store"
	"tureen/store/held"
)

// The party that was left in the middle of its evening, and the one that has all the words.
const (
	longTable  planner.PartyID = 1
	smallWords planner.PartyID = 2
	thread                     = "the-long-table"
)

// Words of what was saved then that are spelled otherwise now: names of JSON fields, and words by the field that they
// stand in, as "state=hot hold". What comes out is compared as the planner's types.
var (
	renamedFields = map[string]string{}
	renamedWords  = map[string]string{}
)

// respelled is a JSON value with today's spellings; field is the one that it stands in.
func respelled(v any, field string) any {
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, x := range v {
			out[otherwise(renamedFields, k, k)] = respelled(x, k)
		}
		return out
	case []any:
		for i := range v {
			v[i] = respelled(v[i], field)
		}
		return v
	case string:
		return otherwise(renamedWords, field+"="+v, v)
	}
	return v
}

func otherwise(list map[string]string, key, same string) string {
	if other, there := list[key]; there {
		return other
	}
	return same
}

// saved is a party as "tureen export" printed it then, read with today's types: a field that they do not have is an
// error, so that nothing is lost by being renamed.
func saved(t *testing.T, name string) Exported {
	t.Helper()
	var v any
	numbers := json.NewDecoder(strings.NewReader(held.Text(t, name+".json")))
	numbers.UseNumber()
	if err := numbers.Decode(&v); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(respelled(v, ""))
	if err != nil {
		t.Fatal(err)
	}
	return exported(t, text)
}

func exported(t *testing.T, text []byte) Exported {
	t.Helper()
	var e Exported
	strict := json.NewDecoder(bytes.NewReader(text))
	strict.DisallowUnknownFields()
	if err := strict.Decode(&e); err != nil {
		t.Fatal(err)
	}
	return e
}

// exportNow is a party as today's "tureen export" would print it, read again.
func exportNow(t *testing.T, s *store.Store, id planner.PartyID) Exported {
	t.Helper()
	snap, err := s.Load(context.Background(), community, id)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(ExportOf(snap))
	if err != nil {
		t.Fatal(err)
	}
	return exported(t, text)
}

func openHeld(t *testing.T, more ...string) *store.Store {
	t.Helper()
	s, err := store.Open(context.Background(), held.File(t, nil, more...))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// goOn is a sitting on what was left, by Noor, in the party's thread.
func goOn(t *testing.T, s *store.Store) (*Chat, *bytes.Buffer) {
	t.Helper()
	var out bytes.Buffer
	c := New(s, "Noor", held.Now, t.TempDir(), &out, slog.New(slog.DiscardHandler))
	c.channel = thread
	return c, &out
}

// say types lines, none of which may be refused, and answers what was printed.
func say(t *testing.T, c *Chat, out *bytes.Buffer, lines ...string) string {
	t.Helper()
	out.Reset()
	refused, err := c.Lines(context.Background(), strings.NewReader(strings.Join(lines, "\n")))
	if err != nil || refused > 0 {
		t.Fatalf("refused %d, %v:\n%s", refused, err, out)
	}
	return out.String()
}

// TestHeldOpens: a file of then opens, with the same parties, plan and figures; so does one that has taken fewer of
// the steps, as older files have: the second step changes no table, and the third adds one.
func TestHeldOpens(t *testing.T) {
	for schema := 1; schema <= held.Schema; schema++ {
		older := fmt.Sprintf("PRAGMA user_version = %d;", schema)
		if schema < 3 {
			older += "DROP TABLE reading;"
		}
		s := openHeld(t, older)
		for id, name := range map[planner.PartyID]string{longTable: "long-table", smallWords: "small-words"} {
			if d := cmp.Diff(saved(t, name), exportNow(t, s, id)); d != "" {
				t.Errorf("schema %d, %s (-then +now):\n%s", schema, name, d)
			}
		}
		now := exportNow(t, s, longTable)
		if now.State != PlanHolds || len(now.Broken) > 0 || len(now.Plan.Tasks) != 41 {
			t.Errorf("schema %d: the plan %s, has %d tasks and breaks %v", schema, now.State, len(now.Plan.Tasks), now.Broken)
		}
	}
}

// TestHeldMeansTheSame: what was typed is understood as it was, whatever it is called in the file.
func TestHeldMeansTheSame(t *testing.T) {
	s := openHeld(t)
	p := exportNow(t, s, longTable).Party
	step := func(dish planner.DishKey, key planner.StepKey) *planner.Step {
		d := p.Dish(dish)
		if d == nil || d.Step(key) == nil {
			t.Fatalf("there is no step %s/%s", dish, key)
		}
		return d.Step(key)
	}
	roast, fry, temper := step("roast-pork", "roast"), step("courgette-fritters", "fry"), step("lemon-ices", "temper")
	carve, cool := step("roast-pork", "carve"), step("bean-pot", "cool")
	mia, luc := p.Person("mia"), p.Person("luc")
	for what, holds := range map[string]bool{
		"the oven turns down":       len(roast.Uses) > 0 && roast.Uses[0].Shut && roast.Uses[0].Tolerance == 15 && len(roast.Uses[0].Then) == 1,
		"it cooks":                  roast.Where == planner.Heat && roast.Cooks && roast.Attention == planner.Watch,
		"rounds":                    fry.Growth == planner.InRounds && fry.PerRound == 4 && fry.RoundGap == 4 && fry.Who.Skill == "frying",
		"kept warm":                 fry.Serve != nil && fry.Serve.State == planner.Warm && fry.Serve.Max == 80,
		"out of the freezer":        len(temper.After) == 2 && temper.After[0].Wait.State == planner.Freezer && temper.After[1].FromStart,
		"on the host's word":        carve.OnCall && carve.MaxHands == 2,
		"held hot":                  carve.Serve != nil && carve.Serve.State == planner.HotHold && carve.Serve.Hold != nil,
		"cooled in ice water":       cool.Chill != nil && cool.Chill.DepthCM == 12,
		"Mia is told directly":      mia != nil && mia.Role == planner.CoHost && mia.Direct,
		"Luc is told in the thread": luc != nil && !luc.Direct && len(luc.Days) == 1,
		"the thread":                p.Channel == thread,
		"the kitchen":               len(p.Kitchen.Ovens) == 2 && p.Kitchen.Burners == 5 && p.Kitchen.Grills == 1,
	} {
		if !holds {
			t.Errorf("%s: no longer so", what)
		}
	}
}

// TestHeldUndo: what Noor had taken back can be done again; all that others have not built on can be taken back, and done again.
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
	if text := say(t, c, out, "/redo"); !strings.Contains(text, "Done again: changed the guest Iris") || note() != "sits by the window" {
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
func (a *arrivals) Deliver(_ context.Context, n reminders.Note) error {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.list = append(a.list, n)
	return nil
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
			d := reminders.Dispatcher{Store: s, Deliverer: got, Scope: store.Scope{Only: community}, Log: slog.New(slog.DiscardHandler)}
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
func (c *Chat) ask(ctx context.Context, who, text string) bot.Reply {
	line, err := c.bot.Parse(text)
	if err != nil {
		return bot.RefusedReply(err)
	}
	return c.bot.Do(ctx, bot.Request{Community: community, Channel: c.channel, User: userOf(who), Command: line.Command, Options: line.Options})
}

// TestHeldGoesOn: the evening goes on; the recipe that was read is kept as it was corrected; the party that was removed
// comes back.
func TestHeldGoesOn(t *testing.T) {
	s := openHeld(t)
	c, out := goOn(t, s)
	text := say(t, c, out, "Luc> /task done task:roast-pork/roast", "Mia> /task done task:lemon-ices/freeze", "/late guests:5 min", "/plan check",
		"/now person:everybody more:yes", "/shopping list", "/guest table", "/plan runsheet", "/task list show:all", "/dish list", "/kitchen show")
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
		"slice":  slice.Do == "Slice the pears thinly" && slice.Time.Likely == 12 && slice.Attention == planner.Touch && slice.Every == 4,
		"sign":   slice.Until == "the slices are even",
		"simmer": simmer.Attention == planner.Watch && len(simmer.Uses) == 3 && simmer.Uses[0].What == planner.ABurner,
		"chill":  chill.Where == planner.Freezer && chill.Attention == planner.Rest,
		"bake":   len(bake.Uses) > 0 && bake.Uses[0].What == planner.AnOven && bake.Uses[0].C == 200,
	} {
		if !holds {
			t.Errorf("%s: not as it was corrected: %+v", what, d.Steps)
		}
	}
}
