package store

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tureen/planner"
)

// act is something that a caller may ask of a store that has two parties of a community, one of them removed.
type act struct {
	name   string
	reads  string // the tables without which it cannot be
	writes string // what it does to them: "insert entry, update party"
	do     func(s *Store, w *world) error
}

// world is what acts are done to.
type world struct {
	id, gone planner.PartyID
	rows     []Row
	snap     Snapshot
}

func newWorld(t *testing.T, s *Store) *world {
	t.Helper()
	ctx := context.Background()
	w := &world{}
	other := supper()
	other.Name = "Gone"
	w.gone = create(t, s, home, other).Party.ID
	w.id = create(t, s, home, supper()).Party.ID
	edit(t, s, home, w.id, ben, "planned", func(c *Change) { c.Plan = planFor(&c.Party, 2) })
	edit(t, s, home, w.id, ada, "fewer", func(c *Change) { c.Party.Covers-- })
	saveReminders(t, s, w.id, 0, remindAt("a", 10), remindAt("b", 20), says("told", 1, 90))
	sendDue(t, s, 1)
	for _, err := range []error{s.Remove(ctx, home, ada, t0, w.gone), s.SetFocus(ctx, home, "kitchen", "u1", w.id),
		s.SetReading(ctx, home, "kitchen", "u1", Reading{At: t0, Source: []byte("soup")})} {
		if err != nil {
			t.Fatal(err)
		}
	}
	rows, err := s.Due(ctx, Scope{}, after(10), 1)
	if err != nil || len(rows) != 1 {
		t.Fatal(rows, err)
	}
	w.rows = rows
	if w.snap, err = s.Load(ctx, home, w.id); err != nil {
		t.Fatal(err)
	}
	return w
}

func acts() []act {
	ctx := context.Background()
	keep := func(n any, err error) error { return err }
	save := func(do func(c *Change)) func(*Store, *world) error {
		return func(s *Store, w *world) error {
			c := Change{Base: w.snap.Revision, Actor: ada, At: t0, What: "more", Party: w.snap.Party, Plan: w.snap.Plan}
			do(&c)
			return keep(s.Save(ctx, home, c))
		}
	}
	return []act{
		{"Create", "party piece entry touched", "insert party, update party, insert piece, insert entry, insert touched",
			func(s *Store, w *world) error {
				p := supper()
				p.Name = "A third"
				return keep(s.Create(ctx, home, ada, t0, p))
			}},
		{"Load", "party piece", "", func(s *Store, w *world) error { return keep(s.Load(ctx, home, w.id)) }},
		{"LoadPair", "party piece", "", func(s *Store, w *world) error {
			_, _, err := s.LoadPair(ctx, home, w.id)
			return err
		}},
		{"List", "party", "", func(s *Store, w *world) error { return keep(s.List(ctx, home)) }},
		{"Removed", "party", "", func(s *Store, w *world) error { return keep(s.Removed(ctx, home)) }},
		{"Save", "party piece entry touched reminder",
			"update party, update piece, delete piece, insert entry, insert touched, delete reminder",
			save(func(c *Change) { c.Party.Covers++; c.Party.Dishes = c.Party.Dishes[:1] })},
		{"Save new reminders", "party reminder", "insert reminder, delete reminder",
			save(func(c *Change) { c.Reminders = []Reminder{remindAt("c", 30)} })},
		{"Save moved reminders", "reminder", "update reminder",
			save(func(c *Change) { c.Reminders = []Reminder{remindAt("a", 40), remindAt("b", 50)} })},
		{"Save a changed message", "reminder", "update reminder, insert reminder",
			save(func(c *Change) { c.Reminders = []Reminder{remindAt("a", 10), remindAt("b", 20), says("new", 1, 90)} })},
		{"Posted", "reminder", "", func(s *Store, w *world) error {
			_, _, err := s.Posted(ctx, w.rows[0])
			return err
		}},
		{"PutOff", "reminder", "update reminder", func(s *Store, w *world) error {
			return s.PutOff(ctx, w.rows[0], after(15))
		}},
		{"Remove", "party piece reminder focus entry", "update party, delete reminder, delete focus, insert entry",
			func(s *Store, w *world) error { return s.Remove(ctx, home, ada, t0, w.id) }},
		{"Recover", "party piece entry", "update party, insert entry",
			func(s *Store, w *world) error { return s.Recover(ctx, home, ada, t0, w.gone, nil) }},
		{"Undo", "party piece entry touched", "update party, update piece, insert entry, update entry, insert touched",
			func(s *Store, w *world) error {
				_, _, err := s.Undo(ctx, home, w.id, ada, t0, nil)
				return err
			}},
		{"Journal", "party piece entry touched", "", func(s *Store, w *world) error {
			return keep(s.Journal(ctx, home, w.id, 3))
		}},
		{"Reminders", "party piece reminder", "", func(s *Store, w *world) error {
			return keep(s.Reminders(ctx, home, w.id))
		}},
		{"Snooze", "party piece reminder", "update reminder", func(s *Store, w *world) error {
			return keep(s.Snooze(ctx, home, w.id, "dish/a", "ada", after(60)))
		}},
		{"Due", "reminder", "", func(s *Store, w *world) error { return keep(s.Due(ctx, Scope{}, after(10), 9)) }},
		{"NextDue", "reminder", "", func(s *Store, w *world) error {
			_, _, err := s.NextDue(ctx, Scope{})
			return err
		}},
		{"MarkSending", "reminder", "update reminder", func(s *Store, w *world) error {
			return keep(s.MarkSending(ctx, w.rows, after(11)))
		}},
		{"Drop", "reminder", "update reminder", func(s *Store, w *world) error { return s.Drop(ctx, w.rows) }},
		{"Focus", "focus", "", func(s *Store, w *world) error { return keep(s.Focus(ctx, home, "kitchen", "u1")) }},
		{"SetFocus", "party piece focus", "insert focus", func(s *Store, w *world) error {
			return s.SetFocus(ctx, home, "garden", "", w.id)
		}},
		{"SetFocus to none", "focus", "delete focus", func(s *Store, w *world) error {
			return s.SetFocus(ctx, home, "kitchen", "u1", 0)
		}},
		{"Reading", "reading", "", func(s *Store, w *world) error { return keep(s.Reading(ctx, home, "kitchen", "u1")) }},
		{"SetReading", "reading", "insert reading", func(s *Store, w *world) error {
			return s.SetReading(ctx, home, "garden", "u1", Reading{At: t0, Source: []byte("stew")})
		}},
		{"PartiesOf", "party piece", "", func(s *Store, w *world) error { return keep(s.PartiesOf(ctx, "u1")) }},
		{"OtherTables", "party piece", "", func(s *Store, _ *world) error {
			return keep(s.OtherTables(ctx, Scope{}, func() string { return "today's" }, t0))
		}},
		{"Prune", "party reading", "delete party, delete reading", func(s *Store, w *world) error {
			return s.Prune(ctx, t0.Add(365*24*time.Hour))
		}},
	}
}

// dump is all that a database says, each row with its table and its party before it: "piece #2 […]".
func dump(t *testing.T, s *Store) string {
	t.Helper()
	var out []string
	for _, table := range []string{"party", "piece", "entry", "touched", "reminder", "focus", "reading"} {
		rows, err := s.read.QueryContext(context.Background(), "SELECT * FROM "+table)
		if err != nil {
			t.Fatal(err)
		}
		cols, err := rows.Columns()
		if err != nil {
			t.Fatal(err)
		}
		for rows.Next() {
			vals := make([]any, len(cols))
			into := make([]any, len(cols))
			for i := range vals {
				into[i] = &vals[i]
			}
			if err := rows.Scan(into...); err != nil {
				t.Fatal(err)
			}
			id := vals[max(0, slices.Index(cols, "party"))]
			out = append(out, fmt.Sprintf("%s #%v %v", table, id, vals))
		}
		if err := errors.Join(rows.Err(), rows.Close()); err != nil {
			t.Fatal(err)
		}
	}
	slices.Sort(out)
	return strings.Join(out, "\n")
}

// TestWhatFailsIsSaid: where a statement of an act fails, whichever it is, the act fails and has changed nothing.
func TestWhatFailsIsSaid(t *testing.T) {
	if testing.Short() {
		t.Skip("one call after the other: nothing for the race detector")
	}
	ctx := context.Background()
	for _, a := range acts() {
		t.Run(a.name, func(t *testing.T) {
			s := open0(t)
			w := newWorld(t, s)
			was := dump(t, s)
			exec := func(q string) {
				t.Helper()
				if _, err := s.write.ExecContext(ctx, q); err != nil {
					t.Fatal(q, err)
				}
			}
			for table := range strings.FieldsSeq(a.reads) {
				exec("ALTER TABLE " + table + " RENAME TO away")
				if err := a.do(s, w); err == nil {
					t.Errorf("without the table %s it goes well", table)
				}
				exec("ALTER TABLE away RENAME TO " + table)
			}
			for write := range strings.SplitSeq(a.writes, ", ") {
				verb, table, ok := strings.Cut(write, " ")
				if !ok {
					continue
				}
				exec("CREATE TRIGGER stop BEFORE " + verb + " ON " + table + " BEGIN SELECT RAISE(ABORT, 'stopped'); END")
				if err := a.do(s, w); err == nil || !strings.Contains(err.Error(), "stopped") {
					t.Errorf("when it may not %s: %v", write, err)
				}
				exec("DROP TRIGGER stop")
			}
			if d := cmp.Diff(was, dump(t, s)); d != "" {
				t.Errorf("what failed has changed something (-was +is):\n%s", d)
			}
			if err := a.do(s, w); err != nil {
				t.Errorf("nothing is in its way, and it fails: %v", err)
			}
		})
	}
}

// TestOthersStay: whatever is done to one party, what others of its community have, and those of the next, stays.
func TestOthersStay(t *testing.T) {
	for _, a := range acts() {
		if a.name == "Prune" {
			continue
		}
		s := open0(t)
		w := newWorld(t, s)
		var others []planner.PartyID
		for _, c := range []Community{home, "next door"} {
			p := supper()
			p.Name = "Another"
			id := create(t, s, c, p).Party.ID
			others = append(others, id)
			snap := edit(t, s, c, id, ada, "planned", func(c *Change) {
				c.Plan, c.KeepReminders, c.Reminders = planFor(&c.Party, 2), false, []Reminder{remindAt("a", 10), remindAt("z", 90)}
			})
			if err := s.SetFocus(context.Background(), c, "attic", "u1", snap.Party.ID); err != nil {
				t.Fatal(err)
			}
		}
		if w.rows[0].Party != w.id {
			t.Fatal("the first row due is another party's")
		}
		theirs := func() string {
			var out []string
			for line := range strings.SplitSeq(dump(t, s), "\n") {
				if slices.ContainsFunc(others, func(id planner.PartyID) bool {
					return strings.Contains(line, fmt.Sprintf(" #%d ",
						id))
				}) {
					out = append(out, line)
				}
			}
			return strings.Join(out, "\n")
		}
		was := theirs()
		if strings.Count(was, "\n") < 40 {
			t.Fatalf("too little to tell:\n%s", was)
		}
		if err := a.do(s, w); err != nil {
			t.Fatal(a.name, err)
		}
		if d := cmp.Diff(was, theirs()); d != "" {
			t.Errorf("%s changes others' (-was +is):\n%s", a.name, d)
		}
	}
}
