package discord

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/bot/discord/standin"
	"tureen/planner"
	"tureen/store"
)

// most is how many public messages a day of three people may bring.
const mostPublic = 30

// cook is a day's party: a host, a co-host with an account, and one who was added by name and says who she is.
func (h *house) cook() {
	h.t.Helper()
	h.must("Noor", "/party new name:Lantern dinner date:2026-09-05 arrive:19:00 covers:8 zone:Europe/Dublin "+
		"courses:starter 19:30, main 20:15, dessert 21:15")
	h.must("Noor", "/people add user:"+h.person("Teun").ID+" can:saturday from 12:00")
	add := h.must("Noor", "/people add name:Oona can:saturday from 15:00")
	if a := h.person("Oona").Press(add.Message, "I am Oona"); a.Message == nil || a.Message.ID != add.Message.ID {
		h.t.Fatalf("Oona is not linked: %s", a.Text())
	}
	for _, d := range []string{"leek and potato soup course:starter", "roast chicken", "rosemary roast potatoes",
		"lemon tart"} {
		h.must("Noor", "/repertoire add dish:"+d)
	}
	h.must("Noor", "/plan make")
	h.must("Noor", "/plan tell")
	h.must("Teun", "/plan answer says:fine")
	h.say("Oona", "/plan answer says:fine")
}

// pressed presses, for somebody, the latest button that does something, wherever they see it; else they type it.
func (h *house) pressed(who, verb string, k planner.TaskKey) standin.Answer {
	h.t.Helper()
	p := h.person(who)
	for _, q := range []*standin.Person{p.InDirect(), p} {
		for _, m := range slices.Backward(q.Messages()) {
			for _, b := range m.Buttons() {
				if strings.Contains(b.CustomID, ":task "+verb+" task:"+string(k)+" ") {
					return q.PressID(&m, b.CustomID)
				}
			}
		}
	}
	return h.say(who, "/task "+verb+" task:"+string(k))
}

// TestDayOfThree lives the day of a party as three people do, who tick everything off, look up what is next and are
// late once, and counts what all of them see in the channel: at most 30 messages.
func TestDayOfThree(t *testing.T) {
	if testing.Short() {
		t.Skip("one press after the other: nothing for the race detector")
	}
	t.Parallel()
	h := newHouse(t)
	h.cook()
	ctx, c := context.Background(), store.Community(h.guild)
	night := time.Date(2026, 9, 4, 23, 0, 0, 0, time.UTC) // midnight in Dublin
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(h.send.Advance(ctx, h.clock.now(), night, h.clock.set))
	before := len(h.person("Zoe").Messages())
	presses, looks := 0, 0
	late := false
	names := map[planner.PersonKey]string{"noor": "Noor", "teun": "Teun", "oona": "Oona"}
	for at := night; at.Before(night.Add(24 * time.Hour)); at = at.Add(5 * time.Minute) {
		must(h.send.Advance(ctx, at.Add(-5*time.Minute), at, h.clock.set))
		h.clock.set(at)
		snap, err := h.store.Load(ctx, c, 1)
		must(err)
		for _, pl := range snap.Plan.Tasks {
			if len(pl.People) == 0 || pl.Start.Before(night) {
				continue
			}
			who := names[pl.People[0]]
			switch w := snap.Party.WorkOn(pl.Task); {
			case (w == nil || w.Progress == planner.Waiting) && !pl.Start.After(at):
				h.pressed(who, "start", pl.Task)
				presses++
			case w != nil && w.Progress == planner.Started && !pl.End.After(at):
				h.pressed(who, "done", pl.Task)
				presses++
			}
		}
		if at.Minute() == 0 && at.Hour() > 10 && at.Hour() < 21 {
			for _, who := range []string{"Noor", "Teun", "Oona"} {
				h.say(who, "/now")
				looks++
			}
		}
		if !late && !at.Before(night.Add(18*time.Hour+30*time.Minute)) {
			late = true
			h.say("Noor", "/late guests:15 min")
			h.say("Teun", "/remind list")
			h.say("Oona", "/task list show:mine")
			h.say("Noor", "/help")
			looks += 3
		}
	}
	rows, err := h.store.Reminders(ctx, c, 1)
	must(err)
	kinds, rings := map[string]int{}, 0
	public := h.person("Zoe").Messages()[before:]
	for _, m := range public {
		kind := "answer"
		for _, r := range rows {
			if r.Posted == m.Channel+"/"+m.ID {
				kind = string(r.Kind)
			}
		}
		if m.By == "" && kind == "answer" {
			kind = "by itself"
		}
		kinds[kind]++
		if m.Flags&flagSilent == 0 {
			rings++
		}
	}
	var list []string
	for _, k := range slices.Sorted(maps.Keys(kinds)) {
		list = append(list, fmt.Sprintf("%s %d", k, kinds[k]))
	}
	t.Logf("%d presses, %d looks; %d public messages (%d with a sound): %s", presses, looks, len(public), rings,
		strings.Join(list, ", "))
	for _, m := range public {
		t.Log(strings.ReplaceAll(fmt.Sprintf("%q", m.Content), `\n`, " / "))
	}
	if len(public) > mostPublic {
		t.Errorf("%d public messages, want at most %d", len(public), mostPublic)
	}
}
