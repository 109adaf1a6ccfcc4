package bot

import (
	"context"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// table is a bot on a store of its own, and a clock that stands still.
type table struct {
	*Bot
	t     testing.TB
	store *store.Store
	path  string
	now   time.Time
}

// start is a Monday evening twelve days before the parties of these tests.
var start = time.Date(2026, 9, 14, 18, 0, 0, 0, time.UTC)

func newTable(t testing.TB) *table {
	t.Helper()
	path := filepath.Join(t.TempDir(), "tureen.db")
	s, err := store.Open(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	tb := &table{t: t, store: s, path: path, now: start}
	tb.Bot = New(s, func() time.Time { return tb.now }, nil, Options{})
	return tb
}

// say has somebody type a message, as a terminal would send it.
func (tb *table) say(who, text string) talk.Reply {
	line, err := tb.Parse(text)
	if err != nil {
		return talk.RefusedReply(err)
	}
	return tb.Do(context.Background(), talk.Request{
		Community: "test", Channel: "kitchen", User: talk.User{ID: planner.Key(who), Name: who}, Command: line.Command,
		Options: line.Options,
	})
}

// must has somebody type messages that are to be accepted.
func (tb *table) must(who string, texts ...string) talk.Reply {
	tb.t.Helper()
	var rep talk.Reply
	for _, text := range texts {
		if rep = tb.say(who, text); rep.Refused {
			tb.t.Fatalf("%s> %s\nrefused: %s\n%s", who, text, words.PlainStamps(rep.Text), rep.Next)
		}
	}
	return rep
}

// shown is a reply as plain text.
func plain(rep talk.Reply) string {
	var b strings.Builder
	b.WriteString(rep.Text + "\n")
	for _, s := range slices.Concat(rep.Tables, rep.Sections, rep.Aside) {
		b.WriteString(s.Title + "\n" + strings.Join(s.Lines, "\n") + "\n")
	}
	for _, x := range rep.Buttons {
		b.WriteString("[" + x.Label + "]\n")
	}
	b.WriteString(rep.Next)
	return words.PlainStamps(b.String())
}

func (tb *table) party() store.Snapshot {
	tb.t.Helper()
	all, err := tb.store.List(context.Background(), "test")
	if err != nil || len(all) == 0 {
		tb.t.Fatalf("no party: %v", err)
	}
	snap, err := tb.store.Load(context.Background(), "test", all[0].ID)
	if err != nil {
		tb.t.Fatal(err)
	}
	return snap
}

func TestFirstParty(t *testing.T) {
	tb := newTable(t)
	rep := tb.must("Ana", `/party new name:Harvest supper date:2026-09-26 arrive:19:00 covers:8 zone:Europe/Lisbon `+
		`courses:starter 19:30, main 20:15`)
	if got, want := plain(rep),
		"Sat 26 Sep 2026, 19:00 (Europe/Lisbon), with 8 covers; Ana is its host"; !strings.Contains(got, want) {
		t.Errorf("got %q, want …%s…", got, want)
	}
	tb.must("Ana", "/people add name:Ben cooks:16:00-21:30", "/dish add name:Pear tart course:main",
		"/ingredient add dish:pear-tart name:pears amount:1.5 kg",
		"/guest add name:Clara allergies:nuts", "/kitchen ware name:tart tin count:2",
		"/drink add name:Vinho kind:red bottles:3", "/party show", "/help")
	p := tb.party().Party
	if len(p.Courses) != 2 || len(p.People) != 2 || len(p.Dishes) != 1 || len(p.Guests) != 1 {
		t.Errorf("the party lacks something: %+v", p)
	}
	if !tb.say("Zoe", "/dish list").Refused {
		t.Error("a stranger may look")
	}
}

// Somebody whose account has a name of marks alone, or one without end, can give a party all the same.
func TestHostsOfAnyName(t *testing.T) {
	for _, row := range []struct{ name, want string }{{"\u202e\u2066", "Host"},
		{strings.Repeat("ä", 300), strings.Repeat("ä", planner.MaxName)}, {"🧑‍🍳", "🧑‍🍳"},
		{"نور", "نور"}} {
		tb := newTable(t)
		rep := tb.Do(context.Background(), talk.Request{Community: "test", Channel: "kitchen",
			User: talk.User{ID: "42", Name: row.name}, Command: "party new",
			Options: map[string]string{"name": "Supper", "date": "2026-09-26", "arrive": "19:00", "covers": "4"}})
		if rep.Refused {
			t.Errorf("%.20q: %s", row.name, plain(rep))
			continue
		}
		if x := tb.party().Party.People[0]; x.Name != row.want || x.Chat != "42" || x.Role != planner.Host {
			t.Errorf("%.20q: got %+v", row.name, x)
		}
	}
}
