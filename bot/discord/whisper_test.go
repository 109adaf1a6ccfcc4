package discord

import (
	"fmt"
	"strings"
	"testing"

	"tureen/bot/talk"
)

// TestWhisper: what one guest may not eat reaches who asks and no one else: guests are noted in answers for one alone,
// and an answer for everybody is followed by one for the asker.
func TestWhisper(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	if a := h.say("Ada", "/guest add name:Piers allergies:walnuts"); a.Message == nil || !a.Message.Ephemeral() ||
		a.Refused != "" {
		t.Errorf("a guest is noted for all to see: %s", a.Text())
	}
	a := h.must("Ada", "/ingredient add dish:roast-roots name:walnuts amount:100 g")
	if text := a.Message.Text(); strings.Contains(text, "Piers") || strings.Contains(text, "contains nuts") {
		t.Errorf("the channel reads %s", text)
	}
	eventually(t, "Ada is told aside", func() bool {
		for _, m := range h.person("Ada").Messages() {
			if strings.Contains(m.Text(), "Piers: contains nuts") {
				return m.Ephemeral()
			}
		}
		return false
	})
	for _, m := range h.person("Ben").Messages() {
		if strings.Contains(m.Text(), "Piers") {
			t.Errorf("Ben, who asked nothing, reads %s", m.Text())
		}
	}
	table := h.say("Ada", "/guest table")
	if table.Message == nil || !table.Message.Ephemeral() || !strings.Contains(table.Text(), "```") ||
		!strings.Contains(table.Text(), "Roast roots  no") {
		t.Errorf("the table: %s", table.Text())
	}
}

// TestManyTables: tables for more guests than a message holds are cut to what the platform takes, and all is in the
// file.
func TestManyTables(t *testing.T) {
	rep := talk.Reply{Text: "Keep a dish from some guests."}
	for n := range 40 {
		rep.Tables = append(rep.Tables, talk.Section{Title: "Who can eat what",
			Lines: []string{fmt.Sprintf("         Guest %d", n), "`Roast`  no"}})
	}
	d := drawWith(rep, asIs)
	sum := 0
	for _, e := range d.Embeds {
		sum += runes(e.Description)
		if strings.Count(e.Description, "```") != 2 || strings.Contains(e.Description, "`Roast") {
			t.Errorf("a table's end is in it: %s", e.Description)
		}
	}
	if len(d.Embeds) == 0 || len(d.Embeds) > 10 || sum > 6000 {
		t.Errorf("%d cards with %d characters", len(d.Embeds), sum)
	}
	if len(d.files) != 1 || !strings.Contains(string(d.files[0].Data), "Guest 39") {
		t.Errorf("what had no room is in no file: %d files", len(d.files))
	}
}
