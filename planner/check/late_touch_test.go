package check

import (
	"testing"
	"time"

	"tureen/planner"
)

// TestAnHourMore: who puts hot food into the cold has an hour more than for cooking, as far as they are at home.
func TestAnHourMore(t *testing.T) {
	at := func(hour, minute int) time.Time { return time.Date(2027, time.March, 12, hour, minute, 0, 0, time.UTC) }
	for _, row := range []struct {
		name           string
		home, toAnHour time.Time
	}{
		{"at home for long", at(23, 0), at(22, 30)}, {"to bed at ten", at(22, 0), at(22, 0)},
		{"gone at once", at(21, 30), at(21, 30)},
	} {
		cooks := []planner.Window{{From: at(18, 0), To: at(21, 30)}}
		got := anHourMore(cooks, []planner.Window{{From: at(7, 0), To: row.home}})
		if len(got) != 1 || !got[0].To.Equal(row.toAnHour) || !cooks[0].To.Equal(at(21, 30)) {
			t.Errorf("%s: %v, want until %v", row.name, got, row.toAnHour)
		}
	}
}
