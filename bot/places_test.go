package bot

import (
	"context"
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
	"tureen/planner/words"
)

// TestWhichParty: with several parties the message can be said again of each by a button.
func TestWhichParty(t *testing.T) {
	tb := supper(t)
	tb.must("Ana", "/party new name:Spring lunch date:2026-09-28 arrive:12:00 covers:6",
		"/people add name:Cleo user:@cleo")
	req := talk.Request{Community: "test", Channel: "elsewhere", User: talk.User{ID: "cleo", Name: "Cleo"},
		Command: "people list"}
	rep := tb.Do(context.Background(), req)
	refusedWith(t, rep, "Say which party you mean: Harvest supper or Spring lunch.")
	if len(rep.Buttons) != 2 || rep.Buttons[1].Label != "Spring lunch" {
		t.Fatalf("got %+v", rep.Buttons)
	}
	line, err := tb.Parse(rep.Buttons[1].Do)
	if err != nil {
		t.Fatal(err)
	}
	req.Command, req.Options = line.Command, line.Options
	if got := tb.Do(context.Background(), req); got.Refused || !strings.Contains(got.Text, "Spring lunch") {
		t.Errorf("got %q", got.Text)
	}
}

// TestPlaces: where no community is, the party that is named, chosen or still to come is meant.
func TestPlaces(t *testing.T) {
	tb := supper(t) // on 26 September; it is the 14th
	all, err := tb.PlacesOf(context.Background(), "ana")
	if err != nil || len(all) != 1 || all[0].Community != "test" || all[0].Name != "Harvest supper" {
		t.Fatalf("got %+v, %v", all, err)
	}
	ask := func(command string, options map[string]string, places ...talk.Place) talk.Reply {
		return tb.Do(context.Background(), talk.Request{Community: "own", Channel: "own",
			User: talk.User{ID: "ana", Name: "Ana"}, Command: command, Options: options, Places: places})
	}
	here := all[0]
	past := talk.Place{Community: "past", Party: 99, Name: "Harvest supper", Arrival: here.Arrival.AddDate(0, -1, 0)}
	later := talk.Place{Community: "later", Party: 98, Name: "Winter supper", Arrival: here.Arrival.AddDate(0, 3, 0),
		Zone: "UTC"}
	for _, c := range []struct {
		name    string
		options map[string]string
		places  []talk.Place
		want    string
	}{
		{"none", nil, nil, "no party here yet"},
		{"the only one", nil, []talk.Place{here}, "people give the party"},
		{"the only one to come", nil, []talk.Place{past, here}, "people give the party"},
		{"two to come", nil, []talk.Place{here, later},
			"Say which party you mean: Harvest supper on Sat 26 Sep or Winter supper on "},
		{"named", map[string]string{"party": "harvest"}, []talk.Place{here, later}, "people give the party"},
		{"by number", map[string]string{"party": "1"}, []talk.Place{here, later}, "people give the party"},
		{"two of a name", map[string]string{"party": "Harvest supper"}, []talk.Place{past, here}, "Say which party you mean"},
		{"of a party that is not theirs to speak of", map[string]string{"party": "1"}, []talk.Place{later},
			"There is no party"},
		{"of none such", map[string]string{"party": "Summer"}, []talk.Place{here}, "There is no party"},
	} {
		if rep := ask("people list", c.options, c.places...); !strings.Contains(words.PlainStamps(rep.Text), c.want) {
			t.Errorf("%s: got %q, want %q in it", c.name, rep.Text, c.want)
		}
	}
	if !later.Running(time.Date(2026, 9, 14, 0, 0, 0, 0, time.UTC)) || past.Running(here.Arrival) {
		t.Error("what is to come is mistaken")
	}
}
