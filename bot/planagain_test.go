package bot_test

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"tureen/bot"
	"tureen/bot/talk"
	"tureen/store"
)

// BenchmarkPlanAgain says what a message costs that plans a small party again; bytes and allocations are the same on
// any machine, however busy.
func BenchmarkPlanAgain(b *testing.B) {
	s, err := store.Open(b.Context(), filepath.Join(b.TempDir(), "tureen.db"))
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	now := time.Date(2026, 9, 17, 12, 0, 0, 0, time.UTC)
	house := bot.New(s, func() time.Time { return now }, nil, bot.Options{})
	say := func(text string) {
		line, err := house.Parse(text)
		if err != nil {
			b.Fatal(err)
		}
		rep := house.Do(b.Context(), talk.Request{Community: "home", Channel: "c", User: talk.User{ID: "1", Name: "Ada",
			Admin: true}, Command: line.Command, Options: line.Options})
		if rep.Refused {
			b.Fatalf("%s: %s", text, rep.Text)
		}
	}
	say("/party new name:Supper date:2026-09-26 arrive:19:00 covers:8 courses:main 19:30, dessert 20:30")
	for i := range 4 {
		say(fmt.Sprintf("/people add name:Person%d", i))
	}
	say("/repertoire add dish:lemon posset")
	say("/repertoire add dish:roast tomato soup course:main")
	say("/plan make")
	b.ReportAllocs()
	for b.Loop() {
		say("/plan make")
	}
}
