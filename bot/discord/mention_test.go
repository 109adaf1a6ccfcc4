package discord

import (
	"strings"
	"testing"

	"tureen/bot/discord/standin"
)

// TestWritten: a recipe that somebody writes with a mention, or in a direct message, is read and answered where it was
// written, once; other messages are not, and what is no recipe is told how to go on.
func TestWritten(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	ada := h.person("Ada")
	const bread = "Seed bread\n\n500 g flour\n100 g seeds\n7 g dried yeast\n380 ml water\n\nMix everything and leave " +
		"to rise for 2 hours. Bake at 230 °C for 35 minutes."
	self := map[string]any{"id": standin.Application, "username": "tureen"}
	write := func(id, guild, where, text string, more map[string]any) {
		m := map[string]any{"id": id, "type": 0, "channel_id": where, "content": text, "mentions": []any{},
			"author": map[string]any{"id": ada.ID, "username": "ada", "global_name": "Ada"}, "attachments": []any{}}
		if guild != "" {
			m["guild_id"] = guild
			m["member"] = map[string]any{"nick": nil}
		}
		for k, v := range more {
			m[k] = v
		}
		h.server.Dispatch("MESSAGE_CREATE", m)
	}
	last := func(p *standin.Person) string {
		all := p.Messages()
		if len(all) == 0 {
			return ""
		}
		return all[len(all)-1].Text()
	}
	mentioned := map[string]any{"mentions": []any{self}}
	write("9001", h.guild, h.channel, "<@"+standin.Application+"> "+bread, mentioned)
	eventually(t, "the mention is answered", func() bool { return strings.Contains(last(ada), "Seed bread") })
	if text := last(ada); !strings.Contains(text, "500 g") {
		t.Errorf("got %q", text)
	}
	n := len(ada.Messages())
	write("9001", h.guild, h.channel, "<@"+standin.Application+"> "+bread, mentioned) // the platform says it twice
	write("9002", h.guild, h.channel, bread, nil)                                     // nobody asked
	write("9003", h.guild, h.channel, bread, map[string]any{"mentions": []any{self},
		"author": map[string]any{"id": "77", "username": "another", "bot": true}})
	// What is said in words is understood, asked where it changes something, and pressed; small talk is let be.
	ask := "<@" + standin.Application + "> "
	write("9010", h.guild, h.channel, ask+"thanks!", mentioned)
	write("9011", h.guild, h.channel, ask+"what's on the menu?", mentioned)
	eventually(t, "a question is answered", func() bool { return strings.Contains(last(ada), "dish") })
	write("9012", h.guild, h.channel, ask+"there'll be eleven of us", mentioned)
	eventually(t, "a change is asked", func() bool { return strings.Contains(last(ada), "You are 11") })
	all := ada.Messages()
	if got := len(all); got != n+2 {
		t.Errorf("%d answers to words, want 2", got-n)
	}
	n += 2
	question := all[len(all)-1]
	ada.Press(&question, "Yes")
	eventually(t, "the question shows what was done", func() bool {
		all := ada.Messages()
		return strings.Contains(all[len(all)-1].Text(), "11 covers") && len(all) == n
	})
	write("9004", h.guild, h.channel, "<@"+standin.Application+">", mentioned)
	eventually(t, "a bare mention is told how to go on", func() bool {
		return strings.Contains(last(ada), "Type / to see what I can do")
	})
	if got := len(ada.Messages()); got != n+1 {
		t.Errorf("%d answers, want 1", got-n)
	}
	// What was read so is kept by a command, as any reading.
	if a := h.must("Ada", "/recipe keep course:main"); !strings.Contains(a.Text(), "Seed bread is on the menu") {
		t.Errorf("got %q", a.Text())
	}
	direct := ada.InDirect()
	write("9005", "", direct.Where, strings.Replace(bread, "Seed bread", "Rye bread", 1), nil)
	eventually(t, "the direct message is answered", func() bool { return strings.Contains(last(direct), "Rye bread") })
	h.server.Dispatch("MESSAGE_CREATE", map[string]any{"id": 7, "author": "odd"})
}
