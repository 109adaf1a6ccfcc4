package discord

import (
	"slices"
	"strings"
	"testing"

	"tureen/bot/discord/standin"
	"tureen/bot/talk"
)

// TestSettingUp: a party is set up from its card, by buttons and forms, and a step's rare options are lines of a form
// that holds what was typed already; what a refused form said is not lost.
func TestSettingUp(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	ada := h.person("Ada")
	card := h.must("Ada", "/party new name:Supper date:2026-09-05 arrive:19:00 covers:4 zone:Europe/Dublin").Message
	fill := func(label string, values map[string]string) standin.Answer {
		t.Helper()
		a := ada.Press(card, label)
		if a.Modal == nil {
			t.Fatalf("%s opens no form: %s", label, a.Text())
		}
		return ada.Submit(a.Modal, values)
	}
	if a := fill("Add a course", map[string]string{"name": "Main", "at": "19:30"}); !strings.Contains(a.Text(), "Main") {
		t.Errorf("a course: %s", a.Text())
	}
	if a := fill("Add a dish", map[string]string{"name": "Roast roots", "course": "main"}); !strings.Contains(a.Text(),
		"Roast roots") {
		t.Errorf("a dish: %s", a.Text())
	}
	if a := fill("Add somebody", map[string]string{"name": "Ben"}); !strings.Contains(a.Text(), "Ben, co-host") ||
		!slices.ContainsFunc(a.Message.Buttons(), func(b standin.Component) bool { return b.Label == "I am Ben" }) {
		t.Errorf("somebody: %s", a.Text())
	}
	if a := fill("Read a recipe", map[string]string{"text": "no recipe"}); !strings.Contains(a.Text(), "no recipe") ||
		!a.Message.Ephemeral() {
		t.Errorf("what was written is lost: %s", a.Text())
	}
	a := ada.Slash("step add", map[string]string{"dish": "roast-roots", "name": "cut", "time": "20 min", "more": "yes"},
		nil)
	if a.Modal == nil {
		t.Fatalf("no form: %s", a.Text())
	}
	text := a.Modal.Components[0].Components[0].Value
	if !strings.HasPrefix(text, "dish: roast-roots\nname: cut\ntime: 20 min\n") || !strings.Contains(text, "\ncounter: ") {
		t.Errorf("the form holds %q", text)
	}
	if a := ada.Submit(a.Modal, map[string]string{"more": "counter 1"}); !strings.Contains(a.Text(), "Keep a word") {
		t.Errorf("a line without a colon: %s", a.Text())
	}
	a = ada.Submit(a.Modal, map[string]string{"more": strings.Replace(text, "counter: ", "counter: 1", 1)})
	if a.Message == nil || a.Message.Ephemeral() {
		t.Errorf("the step: %s", a.Text())
	}
	if got := h.say("Ada", "/dish show dish:roast-roots").Text(); !strings.Contains(got, "counter") {
		t.Errorf("the form's option is lost: %s", got)
	}
	// As the platform has it: names, descriptions and choices of the longest language, of the whole group.
	c := h.face.commandOf("step add")
	shown := slashOptions(c)
	rare := slices.DeleteFunc(slices.Clone(c.Options), func(o talk.Option) bool { return !o.Rare })
	n := 0
	for _, s := range slashCommands(h.bot.Commands()) {
		if s.Name == "step" {
			n = longestChars(s)
		}
	}
	t.Logf("/step add: %d options, %d more in the form; /step: %d of 8,000 characters", len(shown), len(rare), n)
	if len(shown) > 15 || n > 7400 {
		t.Errorf("/step add: %d options, %d characters", len(shown), n)
	}
}

// longestChars counts a command's characters as the platform does.
func longestChars(s slashCommand) int {
	most := func(text string, others map[string]string) int {
		n := runes(text)
		for _, o := range others {
			n = max(n, runes(o))
		}
		return n
	}
	n := most(s.Name, s.NameIn) + most(s.Description, s.DescriptionIn)
	for _, c := range s.Choices {
		n += most(c.Name, c.NameIn) + runes(c.Value)
	}
	for _, o := range s.Options {
		n += longestChars(o)
	}
	return n
}
