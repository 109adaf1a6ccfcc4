package discord

import (
	"slices"
	"strings"
	"testing"

	"tureen/bot/discord/standin"
)

// TestTypedInDirect: what a person types in direct messages is about their party, wherever it is; with several they
// are asked which; and nothing is said of communities that they are no member of.
func TestTypedInDirect(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	ben := h.person("Ben")
	direct := ben.InDirect()
	type typed map[string]string
	say := func(p *standin.Person, command string, options typed) standin.Answer {
		t.Helper()
		a := final(t, p, p.Slash(command, options, nil))
		if a.Silent || a.Message == nil {
			t.Fatalf("/%s %v: no answer; refused %q", command, options, a.Refused)
		}
		return a
	}
	if a := say(direct, "party show", nil); a.Message.Ephemeral() || !strings.Contains(a.Text(), "Supper") {
		t.Errorf("the only party: %q", a.Text())
	}
	if a := say(direct, "task claim", typed{"task": "roast-roots/cut"}); !strings.Contains(a.Text(), "It is yours") {
		t.Errorf("claimed: %q", a.Text())
	}
	if a := h.must("Ada", "/task list show:all"); !strings.Contains(a.Text(), "Ben") {
		t.Errorf("the party does not know: %q", a.Text())
	}
	if a := direct.Complete("task done", nil, "task", "cut"); len(a.Choices) != 1 ||
		a.Choices[0].Value != "roast-roots/cut" {
		t.Errorf("completion: %v", a.Choices)
	}
	if a := say(h.person("Zoe").InDirect(), "party show", nil); !a.Message.Ephemeral() ||
		strings.Contains(a.Text(), "Supper") {
		t.Errorf("a stranger is told %q", a.Text())
	}

	// A second party, in another community.
	other := h.server.Guild()
	cleo := h.server.Person("Cleo", other, h.server.Channel(other))
	cleo.Admin = true
	elsewhere := ben.In(other, cleo.Where)
	say(cleo, "party new", typed{"name": "Breakfast", "date": "2026-09-06", "arrive": "10:00", "covers": "4",
		"zone": "Europe/Dublin"})
	say(cleo, "people add", typed{"name": "Ben", "user": "<@" + ben.ID + ">", "role": "co-host"})
	ask := say(direct, "party show", nil)
	if !ask.Message.Ephemeral() || !strings.Contains(ask.Text(), "Supper on Sat 5 Sep or Breakfast on Sun 6 Sep") {
		t.Fatalf("two parties: %q", ask.Text())
	}
	if a := direct.Press(ask.Message, "Breakfast, Sun 6 Sep"); a.Message == nil ||
		!strings.Contains(a.Text(), "Breakfast: ") {
		t.Errorf("chosen by button: %q", a.Text())
	}
	if a := say(direct, "party show", typed{"party": "break"}); !strings.Contains(a.Text(), "Breakfast: ") {
		t.Errorf("named: %q", a.Text())
	}
	if a := say(direct, "party list", nil); !strings.Contains(a.Text(), "Supper") ||
		!strings.Contains(a.Text(), "Breakfast") {
		t.Errorf("listed: %q", a.Text())
	}
	if a := direct.Complete("party show", nil, "party", ""); len(a.Choices) != 2 {
		t.Errorf("parties offered: %v", a.Choices)
	}
	say(direct, "party use", typed{"party": "Supper"})
	if a := say(direct, "party show", nil); !strings.Contains(a.Text(), "Supper: ") {
		t.Errorf("after choosing Supper: %q", a.Text())
	}
	say(direct, "party use", typed{"party": "Breakfast"})
	if a := say(direct, "party show", nil); !strings.Contains(a.Text(), "Breakfast: ") {
		t.Errorf("after choosing Breakfast: %q", a.Text())
	}
	if a := say(h.person("Ada").InDirect(), "party show", typed{"party": "Breakfast"}); strings.Contains(a.Text(),
		"Breakfast: ") {
		t.Errorf("Ada is told of Cleo's party: %q", a.Text())
	}

	// Whoever is no member any more is told nothing, even while the party still has them.
	h.face.mu.Lock()
	clear(h.face.here)
	h.face.mu.Unlock()
	elsewhere.Leave()
	for _, a := range []standin.Answer{say(direct, "party show", typed{"party": "Breakfast"}),
		final(t, direct, direct.Press(ask.Message, "Breakfast, Sun 6 Sep"))} {
		if a.Message == nil || !a.Message.Ephemeral() || strings.Contains(a.Text(), "Breakfast: ") {
			t.Errorf("no member any more: %q", a.Text())
		}
	}
	if a := say(direct, "party show", nil); !strings.Contains(a.Text(), "Supper: ") {
		t.Errorf("one party left: %q", a.Text())
	}
	if a := direct.Complete("party show", nil, "party", ""); len(a.Choices) != 1 {
		t.Errorf("parties offered: %v", a.Choices)
	}

	// When the platform does not say who is a member, nothing is told either.
	h.face.mu.Lock()
	clear(h.face.here)
	h.face.mu.Unlock()
	h.server.Break(standin.Fault{Method: "GET", Route: "/guilds/:/members/:", Status: 500, Times: 100})
	if a := say(direct, "party show", nil); !a.Message.Ephemeral() ||
		!strings.Contains(a.Text(), "Try again in a minute") {
		t.Errorf("membership unknown: %q", a.Text())
	}
}

// TestPartyInDirect: a party may live in direct messages; whoever its host adds by account finds it in theirs.
func TestPartyInDirect(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	ada, ben := h.person("Ada").InDirect(), h.person("Ben").InDirect()
	ada.Slash("party new", map[string]string{"name": "Tête-à-tête", "date": "2026-09-06", "arrive": "19:00",
		"covers": "2"}, nil)
	ada.Slash("people add", map[string]string{"name": "Ben", "user": "<@" + ben.ID + ">"}, nil)
	if a := ben.Slash("party show", nil, nil); !strings.Contains(a.Text(), "Tête-à-tête: ") {
		t.Errorf("got %q", a.Text())
	}
	if a := h.person("Ben").Slash("party show", nil, nil); strings.Contains(a.Text(), "Tête-à-tête") {
		t.Errorf("in the community: %q", a.Text())
	}
	if list := h.person("Ada").Messages(); slices.ContainsFunc(list, func(m standin.Message) bool {
		return strings.Contains(m.Text(), "Tête-à-tête: ")
	}) {
		t.Error("told in the channel")
	}
}
