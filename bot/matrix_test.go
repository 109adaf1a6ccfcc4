package bot

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/store"
)

// Who may do what, from the table of commands: each is really issued, as its example has it, by everybody, on their own
// party, on another, on one of another community and on one that was removed. What is refused is refused in a sentence,
// leaves the store as it was, and tells nothing of the party.

// matrixParty is the party that the examples speak of. Ana hosts; Ben and Cleo help, Dana looks on.
var matrixParty = []string{
	`/party new name:Midsummer dinner date:2026-12-05 arrive:19:00 covers:8 zone:Europe/Lisbon fresh:yes ` +
		`courses:starter 19:30, main 20:15, dessert 21:15`,
	"/people add name:Ben cooks:9:00-21:30 can:all day skills:carving", "/people add name:Cleo role:co-host can:all day",
	"/people add name:Dana role:onlooker", "/people add name:Nobody role:co-host",
	"/guest add name:Clara diets:vegetarian allergies:sesame",
	"/dish add name:Pear tart course:dessert serves:8", "/ingredient add dish:pear-tart name:pears amount:1.5 kg",
	"/ingredient add dish:pear-tart name:butter amount:100 g",
	"/step add dish:pear-tart name:roll do:Roll out the pastry time:20 min counter:1",
	"/step add dish:pear-tart name:bake do:Bake the tart time:40 min oven:180 after:roll wait:counter",
	"/step serve step:pear-tart/bake wait:counter longest:2h",
	"/kitchen ware name:tart tin count:2", "/drink add name:Vinho kind:red bottles:3",
	"/task add name:Lay the table kind:table time:20-30 min by:1h before arrival",
	"/task claim task:pear-tart/roll", "/plan make",
}

// secrets are words that only the people of the party may read.
var secrets = []string{"butter", "Clara", "sesame", "Vinho", "Cleo", "Lay the table"}

// matrixAsks are messages in place of examples that are about other things than the party above; what the host has to
// say first stands before them.
var matrixAsks = map[string]string{
	"party new":        "/party new name:Winter dinner date:2026-12-12 arrive:19:00 covers:4",
	"course add":       "/course add name:Cheese at:21:45",
	"course remove":    "/course remove course:main",
	"guest add":        "/guest add name:Otis diets:vegan",
	"people add":       "/people add name:Finn role:onlooker",
	"people change":    "/people change who:Ben skills:pastry",
	"dish add":         "/dish add name:Cheesecake course:dessert",
	"recipe keep":      matrixRecipe + "\n/recipe keep course:main",
	"recipe correct":   matrixRecipe + "\n/recipe correct step:2 time:25-30 min",
	"recipe line":      `/recipe line text:"Plum tart, for 8: roll the pastry 20 min, bake 40 min at 180" course:dessert`,
	"step add":         "/step add dish:pear-tart name:glaze time:5 min after:bake wait:counter longest:1h",
	"step remove":      "/step remove step:pear-tart/bake",
	"step after":       "/step after step:pear-tart/bake of:pear-tart/roll wait:refrigerator least:1h longest:2 days",
	"ingredient add":   "/ingredient add dish:pear-tart name:sugar amount:100 g",
	"drink remove":     "/drink remove name:Vinho",
	"task again":       "/task start task:pear-tart/roll\n/task again task:pear-tart/roll",
	"task swap":        "/task swap task:pear-tart/roll for:lay-the-table",
	"task add":         "/task add name:Fold the napkins time:10 min by:1h before arrival",
	"task longer":      "/task start task:pear-tart/roll\n/task longer task:pear-tart/roll for:10",
	"remind quiet":     "/remind quiet hours:21:00-7:00",
	"remind night":     "/remind night task:pear-tart/roll",
	"shopping untick":  "/shopping tick item:butter\n/shopping untick item:butter",
	"shopping bring":   "/shopping bring item:butter",
	"shopping remove":  "/shopping add item:candles\n/shopping remove item:candles",
	"shopping missing": "/shopping missing item:butter",
	"redo":             "/shopping add item:candles\n/undo\n/redo",
}

const matrixRecipe = `/recipe read text:"Carrot soup for 6. Take 1 kg carrots, 2 onions and 1 l stock. Chop the ` +
	`onions. Fry them for 10 minutes. Add the rest and simmer for 25 minutes."`

// notHere are commands that the party above has nothing for, whoever asks: what they refuse is not who asks.
var notHere = []string{"party thread", "party bring-back", "people i-am", "dish know", "dish cool", "task snooze"}

// othersOwn are commands that a co-host may use on their own things, and not on another's.
var othersOwn = []string{"task claim", "task give-back", "task pass", "task assign", "task swap", "task start",
	"task day", "task snooze", "remind night", "plan answer", "people hours", "people change"}

type asker struct {
	id, community, channel, party string
}

func (tb *table) as(a asker, text string) talk.Reply {
	line, err := tb.Parse(text)
	if err != nil {
		return talk.RefusedReply(err)
	}
	i := slices.IndexFunc(tb.commands, func(c talk.Command) bool { return c.Name == line.Command })
	if a.party != "" && slices.ContainsFunc(tb.commands[i].Options, func(o talk.Option) bool {
		return o.Kind == talk.PartyOption
	}) {
		line.Options[partyOption.Name] = a.party
	}
	return tb.Do(context.Background(), talk.Request{Community: a.community, Channel: a.channel, Command: line.Command,
		User: talk.User{ID: a.id, Name: strings.ToUpper(a.id[:1]) + a.id[1:]}, Options: line.Options})
}

// state is all that the store holds of the communities of these tests.
func (tb *table) state() string {
	tb.t.Helper()
	var out []any
	for _, c := range []store.Community{"test", "elsewhere"} {
		all, err := tb.store.List(context.Background(), c)
		if err != nil {
			tb.t.Fatal(err)
		}
		for _, s := range all {
			snap, err := tb.store.Load(context.Background(), c, s.ID)
			rows, err2 := tb.store.Reminders(context.Background(), c, s.ID)
			if err != nil || err2 != nil {
				tb.t.Fatal(err, err2)
			}
			out = append(out, snap, rows)
		}
		gone, err := tb.store.Removed(context.Background(), c)
		if err != nil {
			tb.t.Fatal(err)
		}
		out = append(out, gone)
	}
	b, err := json.Marshal(out)
	if err != nil {
		tb.t.Fatal(err)
	}
	return string(b)
}

// copied is the same table on a copy of its store, to be changed.
func (tb *table) copied(t *testing.T, n int) *table {
	t.Helper()
	c := &table{t: t, now: tb.now, path: filepath.Join(t.TempDir(), fmt.Sprint(n, ".db"))}
	for _, end := range []string{"", "-wal"} {
		if data, err := os.ReadFile(tb.path + end); err == nil {
			if err := os.WriteFile(c.path+end, data, 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	s, err := store.Open(context.Background(), c.path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	c.store = s
	c.Bot = New(s, tb.clock, nil, Options{})
	return c
}

func matrixTable(t *testing.T) (tb *table, here planner.PartyID) {
	tb = newTable(t)
	tb.must("Ana", matrixParty...)
	tb.must("Ben", "/task claim task:lay-the-table")
	here = tb.party().Party.ID
	return tb, here
}

// TestPermissionMatrix prints and judges who may do what.
func TestPermissionMatrix(t *testing.T) {
	if testing.Short() {
		t.Skip("issues every command, one after the other")
	}
	tb, here := matrixTable(t)
	removed := tb.as(asker{id: "zoe", community: "test", channel: "attic"}, `/party new name:Attic date:2026-12-06 `+
		`arrive:19:00 covers:4 zone:Europe/Lisbon`)
	if removed.Refused {
		t.Fatal(plain(removed))
	}
	all, _ := tb.store.List(context.Background(), "test")
	gone := all[slices.IndexFunc(all, func(s store.Summary) bool { return s.Name == "Attic" })].ID
	tb.as(asker{id: "zoe", community: "test", channel: "attic"}, "/party remove sure:yes")
	before := tb.state()
	role := map[string]talk.Access{"ana": talk.Hosts, "ben": talk.CoHosts, "dana": talk.Onlookers, "eve": talk.Anyone}
	who := []string{"ana", "ben", "dana", "eve"}
	fmtID := func(id planner.PartyID) string { return fmt.Sprint(id) }
	var lines []string
	cases, allowed := 0, 0
	for n := range tb.commands {
		c := &tb.commands[n]
		text := c.Example
		if own := matrixAsks[c.Name]; own != "" {
			text = own
		}
		line := fmt.Sprintf("%-22s", c.Name)
		for _, id := range who {
			may := c.Access <= talk.Newcomers || role[id] >= c.Access
			at := tb
			if may {
				at = tb.copied(t, n)
			}
			for _, before := range strings.Split(text, "\n")[:strings.Count(text, "\n")] {
				if may {
					at.as(asker{id: id, community: "test", channel: "kitchen", party: fmtID(here)}, before)
				}
			}
			rep := at.as(asker{id: id, community: "test", channel: "kitchen", party: fmtID(here)}, lastLine(text))
			cases++
			if may {
				allowed++
				if id == "ana" && rep.Refused && !slices.Contains(notHere, c.Name) {
					t.Errorf("%s, by the host: refused: %s", text, plain(rep))
				}
				if rep.Refused && (strings.HasPrefix(rep.Text, "Only ") || strings.HasPrefix(rep.Text, "You may look")) &&
					!slices.Contains([]string{"party use", "party bring-back"}, c.Name) {
					t.Errorf("%s, by %s: refused: %s", text, id, plain(rep))
				}
				line += map[bool]string{false: "  yes", true: " (no)"}[rep.Refused]
				continue
			}
			line += "   no"
			tb.refusedQuietly(text, id, rep, id == "eve")
		}
		for _, a := range []asker{
			{id: "eve", community: "test", channel: "hall", party: fmtID(here)},
			{id: "ana", community: "elsewhere", channel: "kitchen", party: fmtID(here)},
			{id: "zoe", community: "test", channel: "attic", party: fmtID(gone)},
		} {
			if c.Access == talk.Anyone && !slices.ContainsFunc(c.Options, func(o talk.Option) bool {
				return o.Kind == talk.PartyOption
			}) {
				if c.OnlyLooks() {
					rep := tb.as(a, lastLine(text))
					if tb.leaks(plain(rep)) || strings.Contains(plain(rep), "Midsummer dinner:") {
						t.Errorf("%s by %s in %s tells %s", text, a.id, a.community, plain(rep))
					}
				}
				line += "    ."
				continue
			}
			cases++
			line += "   no"
			tb.refusedQuietly(text, a.id+" in "+a.community, tb.as(a, lastLine(text)), true)
		}
		lines = append(lines, line)
		if tb.state() != before {
			t.Fatalf("%s: what was refused has changed the store", text)
		}
	}
	t.Logf("%d commands, %d cases, %d allowed\n%-22s host co-h look none | other party, other community, removed\n%s",
		len(tb.commands), cases, allowed, "", strings.Join(lines, "\n"))
}

// lastLine is the message itself, without what is said before it.
func lastLine(text string) string { return text[strings.LastIndex(text, "\n")+1:] }

// leaks reports whether a text tells something of the party above.
func (tb *table) leaks(text string) bool {
	return slices.ContainsFunc(secrets, func(s string) bool { return strings.Contains(text, s) })
}

// refusedQuietly wants a refusal of one sentence or two that has changed nothing and told nothing.
func (tb *table) refusedQuietly(text, who string, rep talk.Reply, strange bool) {
	tb.t.Helper()
	said := plain(talk.Reply{Text: rep.Text, Sections: rep.Sections, Tables: rep.Tables, Aside: rep.Aside})
	switch {
	case !rep.Refused || strings.TrimSpace(rep.Text) == "" || strings.Count(rep.Text, "\n") > 0 || len(rep.Text) > 300:
		tb.t.Errorf("%s, by %s: refused %v: %s", text, who, rep.Refused, plain(rep))
	case strange && tb.leaks(said):
		tb.t.Errorf("%s, by %s: tells %s", text, who, said)
	}
}
