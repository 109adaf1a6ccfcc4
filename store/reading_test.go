package store

import (
	"context"
	"errors"
	"testing"
	"time"
)

// A reading is a person's own in a channel, outlives the program, gives way to the next one, and goes after some days.
func TestReadings(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	get := func(c Community, channel, user string) string {
		r, err := s.Reading(ctx, c, channel, user)
		if errors.Is(err, ErrNotFound) {
			return ""
		}
		if err != nil {
			t.Fatal(err)
		}
		return string(r.Source) + "/" + r.Changes + "/" + r.At.Format(time.TimeOnly)
	}
	put := func(c Community, channel, user, source, changes string, at time.Time) {
		if err := s.SetReading(ctx, c, channel, user, Reading{at, []byte(source), changes}); err != nil {
			t.Fatal(err)
		}
	}
	put(home, "kitchen", "ada", "Soup", "", t0)
	put(home, "kitchen", "ben", "Tart", "[1]", t0)
	put(home, "garden", "ada", "Bread", "", t0)
	put("others", "kitchen", "ada", "Pie", "", t0.Add(time.Hour))
	put(home, "kitchen", "ada", "Stew", "[2]", t0.Add(time.Minute))
	clock := func(d time.Duration) string { return t0.Add(d).Format(time.TimeOnly) }
	for _, row := range []struct {
		c             Community
		channel, user string
		want          string
	}{
		{home, "kitchen", "ada", "Stew/[2]/" + clock(time.Minute)}, {home, "kitchen", "ben", "Tart/[1]/" + clock(0)},
		{home, "garden", "ada", "Bread//" + clock(0)},
		{"others", "kitchen", "ada", "Pie//" + clock(time.Hour)}, {home, "garden", "ben", ""},
		{"nobody", "kitchen", "ada", ""},
	} {
		if got := get(row.c, row.channel, row.user); got != row.want {
			t.Errorf("%s, %s, %s: got %q, want %q", row.c, row.channel, row.user, got, row.want)
		}
	}
	if err := s.Prune(ctx, t0.Add(KeepReadings+time.Minute)); err != nil {
		t.Fatal(err)
	}
	if ben, ada := get(home, "kitchen", "ben"), get(home, "kitchen", "ada"); ben != "" || ada == "" {
		t.Errorf("after %v: Ben's is %q, Ada's is %q", KeepReadings, ben, ada)
	}
}
