package discord

import (
	"context"
	"strings"
	"testing"

	"tureen/bot/discord/standin"
	"tureen/planner"
	"tureen/store"
	"tureen/store/held"
)

// heldHouse is a house on the database that was left in the middle of an evening, brought into this one's community
// and channel, and its people's accounts.
func heldHouse(t *testing.T) *house {
	t.Helper()
	h := &house{t: t, server: standin.New(t), clock: &hands{at: held.Now}, people: map[string]*standin.Person{}}
	h.server.AckWithin *= slowness
	h.guild = h.server.Guild()
	h.channel = h.server.Channel(h.guild)
	moved := []string{"'console'", "'" + h.guild + "'", `"console"`, `"` + h.channel + `"`, `"the-long-table"`,
		`"` + h.channel + `"`}
	for _, who := range []string{"Noor", "Mia", "Luc", "Pia"} {
		moved = append(moved, "'"+strings.ToLower(who)+"'", "'"+h.person(who).ID+"'",
			`"chat":"`+strings.ToLower(who)+`"`, `"chat":"`+h.person(who).ID+`"`)
	}
	var err error
	if h.store, err = store.Open(context.Background(), held.File(t, strings.NewReplacer(moved...))); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { h.store.Close() })
	h.start(patient())
	return h
}

// TestHeldButtons: each button under a message of then acts, or says what to type; so do the items of lists, the
// buttons that turn pages, and the form of a command.
func TestHeldButtons(t *testing.T) {
	if testing.Short() {
		t.Skip("one press after the other: nothing for the race detector")
	}
	h := heldHouse(t)
	now := h.must("Noor", "/party show party:1")
	acted, all, pages := 0, 0, 0
	p := h.person("Noor")
	for id := range strings.Lines(held.Text(t, "buttons.txt")) {
		id = strings.TrimSpace(id)
		var a standin.Answer
		switch id[0] {
		case kindList:
			continue // means nothing; what is chosen from it has a button's
		case 'm':
			form := &standin.Modal{CustomID: id,
				Components: []standin.Component{{Components: []standin.Component{{CustomID: "text"}}}}}
			a = p.Submit(form, map[string]string{"text": "Toast for 6\n\n6 slices of bread\n\nToast the bread for 5 minutes."})
		default:
			a = p.PressID(now.Message, id)
		}
		a = final(t, p, a)
		all++
		text := a.Text()
		do, _ := said(id)
		looked := h.face.looksOnly(do) && !strings.Contains(text, "Type: ") // shown to who pressed alone
		switch {
		case a.Silent || a.Message == nil:
			t.Errorf("%s: no answer", id)
		case strings.Contains(text, "older tureen") || strings.Contains(text, "Something went wrong") ||
			strings.Contains(text, "there is no task"):
			t.Errorf("%s: %s", id, text)
		case a.Message.Ephemeral() && !looked && !strings.Contains(text, "/"):
			t.Errorf("%s: neither acts nor says what to type: %s", id, text)
		case !a.Message.Ephemeral() || looked:
			acted++
		}
		if id[0] == kindPage && strings.Contains(text, "Page ") {
			pages++
		}
	}
	if all < 250 || acted < 75 || pages == 0 {
		t.Errorf("of %d buttons %d act and %d turn a page, want at least 250, 75 and 1", all, acted, pages)
	}
	snap, err := h.store.Load(context.Background(), store.Community(h.guild), 1)
	if err != nil {
		t.Fatal(err)
	}
	done := map[planner.TaskKey]bool{}
	for _, w := range snap.Party.Work {
		done[w.Task] = w.Progress == planner.Done
	}
	bought := map[string]bool{}
	for _, b := range snap.Party.Bought {
		bought[string(b.Item)] = true
	}
	for _, task := range []planner.TaskKey{"roast-pork/roast", "bean-pot/cool", "chill-sparkling",
		"lemon-ices/freeze"} {
		if !done[task] {
			t.Errorf("its button did not say that %s is done", task)
		}
	}
	for _, thing := range []string{"syrah", "riesling", "pea", "cider"} {
		if !bought[thing] {
			t.Errorf("its button did not tick %s", thing)
		}
	}
}
