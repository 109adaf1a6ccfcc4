package store

import (
	"context"
	"database/sql"
	"strings"
	"testing"
	"time"
)

// TestAgain: what becomes of a reminder that is wanted again. One that has been sent is told anew when what it is about
// moved by [AnewAfter] and lies ahead; one that was told and put off counts as told where it is about the same instant
// again; what waits moves along, and not before it was put off to; what is on its way stays.
func TestAgain(t *testing.T) {
	now := t0
	at := func(minutes int) sql.NullInt64 {
		return sql.NullInt64{Int64: toMilli(now.Add(time.Duration(minutes) * time.Minute)), Valid: true}
	}
	none := sql.NullInt64{}
	anew := int(AnewAfter / time.Minute)
	for _, c := range []struct {
		name          string
		state         DeliveryState
		attempt       int
		due           int // of the row, in minutes from now; its round is 3 and it is about 60 minutes from now
		snoozed, told sql.NullInt64
		about         int // what is wanted, due ten minutes before
		ahead         bool
		want          fate
		round, next   int
	}{
		{"sent, the same", Sent, 0, 50, none, none, 60, true, stays, 0, 0},
		{"sent, moved a little", Sent, 0, 50, none, none, 60 + anew - 1, true, stays, 0, 0},
		{"sent, moved", Sent, 0, 50, none, none, 60 + anew, true, renewed, 4, 50 + anew},
		{"sent, moved up", Sent, 0, 50, none, none, 60 - anew, true, renewed, 4, 50 - anew},
		{"sent, moved into the past", Sent, 0, 50, none, none, 60 - anew, false, stays, 0, 0},
		{"dropped, moved", Dropped, 0, 50, none, none, 60 + anew, true, renewed, 4, 50 + anew},
		{"waiting", Waiting, 0, 50, none, none, 70, true, renewed, 3, 60},
		{"waiting, behind", Waiting, 0, 50, none, none, 70, false, renewed, 3, 60},
		{"waiting, has failed once", Waiting, 1, 50, none, none, 70, true, stays, 0, 0},
		{"told of this", Waiting, 0, 50, none, at(60), 60, true, toldBefore, 0, 0},
		{"told of nearly this", Waiting, 0, 50, none, at(60), 60 + anew - 1, true, toldBefore, 0, 0},
		{"told of nearly this, later", Waiting, 0, 50, none, at(60), 60 - anew + 1, true, toldBefore, 0, 0},
		{"told of something else", Waiting, 0, 50, none, at(60), 60 + anew, true, renewed, 3, 50 + anew},
		{"told of this, and put off", Waiting, 0, 50, at(55), at(60), 60, true, renewed, 3, 55},
		{"put off to before it", Waiting, 0, 50, at(40), none, 70, true, renewed, 3, 60},
		{"being sent", Sending, 0, 50, none, none, 200, true, stays, 0, 0},
	} {
		o := &storedRow{Row: Row{Round: 3, State: c.state, Attempt: c.attempt, Reminder: Reminder{
			Due: fromMilli(at(c.due).Int64), At: fromMilli(at(60).Int64)}}, snoozed: c.snoozed, told: c.told}
		r := Reminder{Due: fromMilli(at(c.about - 10).Int64), At: fromMilli(at(c.about).Int64)}
		got, round, due, snoozed := o.again(r, now, c.ahead)
		if got != c.want || round != c.round || got == renewed && (due != at(c.next).Int64) {
			t.Errorf("%s: %v, round %d, due %v; want %v, round %d, due %v", c.name, got, round, fromMilli(due), c.want, c.round,
				fromMilli(at(c.next).Int64))
		}
		if want := got == renewed && c.snoozed.Valid; snoozed.Valid != want || want && snoozed != c.snoozed {
			t.Errorf("%s: put off to %v, want %v", c.name, snoozed, c.snoozed)
		}
	}
}

// TestToldBefore: a row that waits is the next to come; among those that have gone out the later one is the last.
func TestToldBefore(t *testing.T) {
	row := func(state DeliveryState, minutes int) *storedRow {
		return &storedRow{Row: Row{State: state, Reminder: Reminder{Due: after(minutes)}}}
	}
	for _, c := range []struct {
		r, other *storedRow
		want     bool
	}{
		{row(Waiting, 10), row(Waiting, 20), false}, {row(Sent, 10), row(Waiting, 20), false},
		{row(Waiting, 20), row(Sent, 10), true}, {row(Sent, 10), row(Sent, 20), true}, {row(Sent, 20), row(Sent, 10), false},
		{row(Sent, 10), row(Sent, 10), true}, {row(Dropped, 10), row(Sent, 20), true},
	} {
		if got := c.r.toldBefore(c.other); got != c.want {
			t.Errorf("%s %v before %s %v: %v", c.r.State, c.r.Due, c.other.State, c.other.Due, got)
		}
	}
}

// TestTwoOfAKey: two reminders of one key are refused, and nothing is saved.
func TestTwoOfAKey(t *testing.T) {
	s := open0(t)
	snap := create(t, s, home, supper())
	_, err := s.Save(context.Background(), home, Change{Base: snap.Revision, Actor: ada, At: t0, What: "planned",
		Party: snap.Party, Plan: planFor(&snap.Party, 2), Reminders: []Reminder{remindAt("a", 10), remindAt("a", 20)}})
	if err == nil || !strings.Contains(err.Error(), `"`+remindAt("a", 10).Key+`"`) {
		t.Errorf("%v", err)
	}
	if now, err := s.Load(context.Background(), home, snap.Party.ID); err != nil || now.Plan != nil ||
		now.Revision != snap.Revision {
		t.Errorf("%+v, %v", now, err)
	}
	if rows, err := s.Due(context.Background(), Scope{}, after(60), 9); err != nil || len(rows) > 0 {
		t.Errorf("%+v, %v", rows, err)
	}
}

// TestOtherTables: only a plan of a party to come that was held against other tables is listed, each community's alone
// where only one is meant; and where there is no plan the name is not asked for.
func TestOtherTables(t *testing.T) {
	ctx := context.Background()
	s := open0(t)
	asked := 0
	list := func(in Scope, at time.Time) (out []string) {
		got, err := s.OtherTables(ctx, in, func() string { asked++; return "today's" }, at)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range got {
			snap, err := s.Load(ctx, p.Community, p.Party)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, snap.Party.Name)
		}
		return out
	}
	for _, x := range []struct {
		in     Community
		name   string
		tables string
	}{{home, "No plan", ""}, {home, "Held", "today's"}, {home, "Older", "older"}, {home, "Never", ""},
		{"next", "Next", "older"}} {
		p := supper()
		p.Name = x.name
		snap := create(t, s, x.in, p)
		if x.name == "No plan" {
			if got := list(Scope{}, t0); len(got) > 0 || asked > 0 {
				t.Errorf("without any plan: %v, and the name is asked for %d times", got, asked)
			}
			continue
		}
		edit(t, s, x.in, snap.Party.ID, ada, "planned", func(c *Change) {
			c.Plan = planFor(&c.Party, 2)
			c.Plan.Tables = x.tables
		})
	}
	if got, want := strings.Join(list(Scope{}, t0), " "), "Older Never Next"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	arrival := supper().Arrival
	if got := list(Scope{}, arrival.Add(-time.Millisecond)); len(got) != 3 {
		t.Errorf("just before the guests come: %v", got)
	}
	if got := list(Scope{}, arrival); len(got) > 0 {
		t.Errorf("when they are there: %v", got)
	}
}
