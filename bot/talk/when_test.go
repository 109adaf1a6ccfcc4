package talk

import (
	"testing"
	"time"
)

// Today is Wednesday 25 November 2026; with a party it is Saturday's.
func TestParseDay(t *testing.T) {
	today := Day{2026, 11, 25}
	for _, row := range []struct {
		text  string
		party bool
		want  string // empty: refused
	}{
		{"today", false, "2026-11-25"},
		{"tomorrow", false, "2026-11-26"},
		{"2026-12-05", false, "2026-12-05"},
		{"5 dec", false, "2026-12-05"},
		{"dec 5", false, "2026-12-05"},
		{"5th December 2027", false, "2027-12-05"},
		{"sat 5 dec", false, "2026-12-05"},
		{"Saturday, 5 Dec.", false, "2026-12-05"},
		{"24 nov", false, "2027-11-24"}, // it has passed this year
		{"29 feb", false, ""},           // neither in 2026 nor in 2027
		{"29 feb 2028", false, "2028-02-29"},
		{"2029-11-25", false, "2029-11-25"},
		{"2029-11-26", false, ""}, // more than three years ahead
		{"9999-12-31", false, ""},
		{"wed", false, "2026-11-25"},
		{"tue", false, "2026-12-01"},
		{"sun", false, "2026-11-29"},
		{"thu", true, "2026-11-26"},
		{"sat", true, "2026-11-28"},
		{"sun", true, "2026-11-22"},
		{"sun 28 nov", false, ""},
		{"31 nov", false, ""},
		{"2026-2-3", false, "2026-02-03"},
		{"26-02-03", false, ""},
		{"3.2.2026", false, ""},
		{"next week", false, ""},
		{"5", false, ""},
		{"", false, ""},
		{"5 dec 2026 at noon", false, ""},
	} {
		d := Days{Today: today}
		if row.party {
			d.Party = Day{2026, 11, 28}
		}
		got, err := d.ParseDay(row.text)
		switch {
		case err != nil && row.want != "":
			t.Errorf("%q: %v, want %s", row.text, err, row.want)
		case err == nil && got.String() != row.want:
			t.Errorf("%q: got %s, want %q", row.text, got, row.want)
		}
	}
}

// The clocks of Lisbon: back from 2:00 to 1:00 on 25 October 2026, forward from 1:00 to 2:00 on 28 March
// 2027. Source: the IANA time zone database.
func TestParseWhen(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 10, 24, 18, 30, 0, 0, zone)
	for _, row := range []struct{ text, want string }{
		{"now", "2026-10-24T17:30:00Z"},
		{"19:30", "2026-10-24T18:30:00Z"},
		{"7:30 pm", "2026-10-24T18:30:00Z"},
		{"7pm", "2026-10-24T18:00:00Z"},
		{"18:30", "2026-10-25T18:30:00Z"}, // the next one, in winter time
		{"6:00", "2026-10-25T06:00:00Z"},
		{"noon", "2026-10-25T12:00:00Z"},
		{"1:30", "2026-10-25T00:30:00Z"}, // comes twice: the first
		{"sun 14:00", "2026-10-25T14:00:00Z"},
		{"14:00 sun", "2026-10-25T14:00:00Z"},
		{"2026-10-24 9:00", "2026-10-24T08:00:00Z"},
		{"2026-10-24T09:00", "2026-10-24T08:00:00Z"},
		{"24 oct 2026 9:00 pm", "2026-10-24T20:00:00Z"},
		{"2027-03-28 01:30", ""}, // is skipped
		{"2027-03-28 00:30", "2027-03-28T00:30:00Z"},
		{"24:00", ""},
		{"12:60", ""},
		{"13 pm", ""},
		{"0:30 am", ""},
		{"in a while", ""},
		{"1930", ""},
	} {
		got, err := ParseWhen(row.text, now, zone)
		text := got.UTC().Format(time.RFC3339)
		switch {
		case err != nil && row.want != "":
			t.Errorf("%q: %v, want %s", row.text, err, row.want)
		case err == nil && text != row.want:
			t.Errorf("%q: got %s, want %q", row.text, text, row.want)
		}
	}
}

func TestParseHours(t *testing.T) {
	for _, row := range []struct{ text, want string }{
		{"9:00-21:30", "9:00-21:30"},
		{"9-21", "9:00-21:00"},
		{"9 to 21:30", "9:00-21:30"},
		{"9am-9pm", "9:00-21:00"},
		{"18:00–1:00", "18:00-1:00"},
		{"8:00-12:00, 14:00-24:00", "8:00-12:00, 14:00-24:00"},
		{"none", "none"},
		{"9:00", ""}, {"9:00-9:00", ""}, {"9:00-25:00", ""}, {"8-12, 11-13", ""}, {"always", ""}, {"9:00-12:00,", ""},
	} {
		got, err := parseHours(row.text)
		switch {
		case err != nil && row.want != "":
			t.Errorf("%q: %v, want %s", row.text, err, row.want)
		case err == nil && HoursText(got) != row.want:
			t.Errorf("%q: got %s, want %q", row.text, HoursText(got), row.want)
		}
	}
}

// FuzzDates reads whatever is typed as a day, as a time and as hours: what is read can be said back and is read as the
// same, and a refusal has a sentence.
func FuzzDates(f *testing.F) {
	for _, s := range []string{"today", "5 dec", "Saturday, 5 Dec.", "2026-12-05", "29 feb", "sat 19:30", "tomorrow 7pm",
		"in 20 min", "18:05", "10-14, 16:30-22:00",
		"", "-1", "24:00", "9999-99-99", "٣:٠٠", "fri 8.30", "noon", "1:2:3", "12am-12pm"} {
		f.Add(s)
	}
	zone, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		f.Fatal(err)
	}
	now := time.Date(2026, time.November, 25, 12, 0, 0, 0, time.UTC)
	told := func(t *testing.T, what, text string, err error) {
		if rep, known := Refused(err); !known || rep.Text == "" {
			t.Errorf("%s %q: %v is no refusal that a person can read", what, text, err)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, d := range []Days{{Today: DayOf(now)}, {Today: DayOf(now), Party: Day{2026, 11, 28}}} {
			day, err := d.ParseDay(text)
			if err != nil {
				told(t, "day", text, err)
			} else if again, err := d.ParseDay(day.String()); err != nil || again != day {
				t.Errorf("day %q: read as %s, which is read as %s, %v", text, day, again, err)
			}
			m, err := d.ParseMoment(text)
			if err != nil {
				told(t, "time", text, err)
			} else if at, err := m.On(DayOf(now), zone, now); err == nil && at.Sub(now) > 5*366*24*time.Hour {
				t.Errorf("time %q: %v is no time of a party", text, at)
			}
		}
		hours, err := parseHours(text)
		if err != nil {
			told(t, "hours", text, err)
		}
		for _, h := range hours {
			if h.From < 0 || h.From > 24*60 || h.Until < 0 || h.Until > 48*60 {
				t.Errorf("hours %q: %+v", text, hours)
			}
		}
	})
}
