package bot

import (
	"slices"
	"strings"
	"testing"

	"tureen/bot/talk"
)

// TestHelpFits: what help says fits the time, in six lines at most; what it says without a slash is understood, and
// what it says with one is a command.
func TestHelpFits(t *testing.T) {
	tb := newTable(t)
	wants(t, tb.must("Ana", "/help"), "Start a party: /party new")
	tb = planned(t)
	wants(t, tb.must("Ana", "/help"), "soup on Thursday")
	if rep := plain(tb.must("Ana", "/help")); strings.Contains(rep, "guests 20 minutes late") {
		t.Errorf("a fortnight before, it speaks of the evening: %s", rep)
	}
	for _, when := range []string{noParty, noPlan, withPlan, onTheDay} {
		if n := len(lessons(when)); n == 0 || n > 6 {
			t.Errorf("%s: %d lines", when, n)
		}
	}
	if n := len(lessons(usedMost)); n != 12 {
		t.Errorf("%d commands are used most", n)
	}
	for _, l := range lessons(usedMost) {
		if !slices.ContainsFunc(tb.Bot.commands, func(c talk.Command) bool { return c.Name == l.say }) {
			t.Errorf("/%s is no command", l.say)
		}
	}
}
