package discord

import (
	"strings"
	"testing"
)

// TestWhisper: what one guest may not eat reaches who asks and no one else: guests are noted in answers for one alone,
// and an answer for everybody is followed by one for the asker.
func TestWhisper(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	if a := h.say("Ada", "/guest add name:Piers allergies:walnuts"); a.Message == nil || !a.Message.Ephemeral() || a.Refused != "" {
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
	if table.Message == nil || !table.Message.Ephemeral() || !strings.Contains(table.Text(), "```") || !strings.Contains(table.Text(), "Roast roots  no") {
		t.Errorf("the table: %s", table.Text())
	}
}
