package bot

import (
	"context"
	"strings"
	"testing"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/store"
)

const leekGratin = `/recipe read text:"Leek gratin\n\nServes 6\n\n1 kg potatoes, sliced\n3 leeks\n300 ml double ` +
	`cream\n1 handful wonderroot\n\n` +
	`Soften the leeks in a frying pan. Layer everything in a baking dish. Bake for 45-50 minutes. Let it rest for 10 ` +
	`minutes."`

// TestReadingOutlivesTheProgram: what was read and corrected before a restart is kept after it, by who read it and
// where.
func TestReadingOutlivesTheProgram(t *testing.T) {
	tb := recipeSupper(t)
	tb.must("Ana", leekGratin, "/recipe correct step:2 time:12-15 min", "/recipe correct step:4 oven:190",
		"/recipe correct step:5 remove:yes", "/recipe correct name:Sunday gratin serves:8")
	if err := tb.store.Close(); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(context.Background(), tb.path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	tb.store, tb.Bot = s, New(s, tb.Bot.clock, nil, Options{})
	if rep := tb.say("Ben", "/recipe keep course:main"); !rep.Refused {
		t.Errorf("Ben keeps Ana's: %s", plain(rep))
	}
	elsewhere := tb.Do(context.Background(), talk.Request{Community: "test", Channel: "garden",
		User: talk.User{ID: "ana", Name: "Ana"}, Command: "recipe keep", Options: map[string]string{"course": "main"}})
	if !elsewhere.Refused {
		t.Errorf("kept in another channel: %s", plain(elsewhere))
	}
	tb.must("Ana", "/recipe keep course:main")
	d := tb.dish("sunday-gratin")
	if d == nil || d.Serves != 8 || len(d.Steps) != 4 {
		t.Fatalf("got %+v", d)
	}
	if s := d.Steps[1]; s.Time.Low != 12 || s.Time.High != 15 {
		t.Errorf("softening takes %+v", s.Time)
	}
	if s := d.Steps[3]; len(s.Uses) == 0 || s.Uses[0].What != planner.AnOven || s.Uses[0].C != 190 {
		t.Errorf("baking uses %+v", s.Uses)
	}
	tb.must("Ana", "/plan make")
	tb.holds()
	// A week later it is gone.
	if err := s.Prune(context.Background(), tb.now.Add(store.KeepReadings+time.Minute)); err != nil {
		t.Fatal(err)
	}
	if rep := tb.say("Ana", "/recipe keep course:main name:Another"); !rep.Refused ||
		!strings.Contains(rep.Text, "no recipe of yours") {
		t.Errorf("after a week: %s", plain(rep))
	}
}

// TestRecipeCorrect: each question of a reading is answered by the message that it comes with, or by a button.
func TestRecipeCorrect(t *testing.T) {
	tb := recipeSupper(t)
	rep := tb.must("Ana", leekGratin)
	for _, want := range []string{"oven stand to bake for 45-50 minutes? I take: 180 °C. Else: /recipe correct step:4 " +
		"oven:200", "Does it keep on the counter: wonderroot?", "[It keeps on the counter]", "[It spoils]",
		"or first /recipe correct"} {
		if !strings.Contains(plain(rep), want) {
			t.Errorf("no %q in\n%s", want, plain(rep))
		}
	}
	rep = tb.press("Ana", rep, "It keeps on the counter")
	if strings.Contains(plain(rep), "keep on the counter:") || strings.Contains(plain(rep), "[It spoils]") {
		t.Errorf("it is asked again:\n%s", plain(rep))
	}
	rep = tb.must("Ana", "/recipe correct step:4 oven:200")
	if got := plain(rep); strings.Contains(got, "At what temperature") || !strings.Contains(got, "oven 200 °C") {
		t.Errorf("the oven is asked again:\n%s", got)
	}
	rep = tb.must("Ana", "/recipe correct step:3 do:Layer potatoes and leeks time:15 min things:gratin dish "+
		"attention:hands")
	if got := plain(rep); !strings.Contains(got, "3. Layer potatoes and leeks [hands, 15 min; baking dish") {
		t.Errorf("got\n%s", got)
	}
	for _, row := range []struct{ text, want string }{
		{"/recipe correct step:9 time:5 min", "1 to 5"},
		{"/recipe correct time:5 min", "1 to 5"},
		{"/recipe correct", "Say what to correct"},
		{"/recipe correct step:2", "Say what to correct"},
		{"/recipe correct step:2 time:-5 min", "negative"},
		{"/recipe correct step:2 heat:moonlight", "choose one of"},
	} {
		if rep := tb.say("Ana", row.text); !rep.Refused || !strings.Contains(plain(rep), row.want) {
			t.Errorf("%s: %s", row.text, plain(rep))
		}
	}
	if rep := tb.say("Ben", "/recipe correct step:1 time:5 min"); !rep.Refused ||
		!strings.Contains(rep.Text, "no recipe of yours") {
		t.Errorf("Ben corrects what Ana read: %s", plain(rep))
	}
	tb.must("Ana", "/recipe keep course:main", "/plan make")
	tb.holds()
}
