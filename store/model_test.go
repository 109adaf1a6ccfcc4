package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"tureen/planner"
	"tureen/planner/partygen"
)

// modelParty is what the model remembers of a party: every state that it had, and what each person could
// undo and redo.
type modelParty struct {
	snap    Snapshot
	removed bool
}

// TestModel makes random changes to the store and to a map and compares them after each.
func TestModel(t *testing.T) {
	ctx := context.Background()
	rapid.Check(t, func(t *rapid.T) {
		s, err := Open(ctx, filepath.Join(tempDir(t), "party.db"))
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		model := map[Community]map[planner.PartyID]*modelParty{"a": {}, "b": {}}
		people := []Actor{ada, ben}
		clock := t0
		pick := func() (Community, planner.PartyID, *modelParty) {
			c := rapid.SampledFrom([]Community{"a", "b"}).Draw(t, "community")
			if len(model[c]) == 0 {
				t.Skip("no party yet")
			}
			id := rapid.SampledFrom(slices.Sorted(maps.Keys(model[c]))).Draw(t, "party")
			return c, id, model[c][id]
		}
		t.Repeat(map[string]func(*rapid.T){
			"": func(t *rapid.T) { // after every step
				clock = clock.Add(time.Minute)
				for c, parties := range model {
					live := 0
					for id, m := range parties {
						got, err := s.Load(ctx, c, id)
						if m.removed {
							if !errors.Is(err, ErrNotFound) {
								t.Fatalf("a removed party: %v, want ErrNotFound", err)
							}
							continue
						}
						live++
						if err != nil {
							t.Fatal(err)
						}
						if d := cmp.Diff(m.snap, got); d != "" {
							t.Fatalf("party %d (-model +store):\n%s", id, d)
						}
					}
					if list, err := s.List(ctx, c); err != nil || len(list) != live {
						t.Fatalf("%d parties listed (%v), want %d", len(list), err, live)
					}
					if list, err := s.Removed(ctx, c); err != nil || len(list) != len(parties)-live {
						t.Fatalf("%d removed parties listed (%v), want %d", len(list), err, len(parties)-live)
					}
				}
			},
			"create": func(t *rapid.T) {
				c := rapid.SampledFrom([]Community{"a", "b"}).Draw(t, "community")
				p := randomParty(t)
				taken := false
				for _, m := range model[c] {
					taken = taken || !m.removed && m.snap.Party.Name == p.Name
				}
				snap, err := s.Create(ctx, c, ada, clock, p)
				var name *NameTakenError
				switch {
				case taken && !errors.As(err, &name):
					t.Fatalf("a second party %q: %v, want a NameTakenError", p.Name, err)
				case taken:
				case err != nil:
					t.Fatal(err)
				default:
					p.ID = snap.Party.ID
					model[c][p.ID] = &modelParty{snap: Snapshot{Party: p, Revision: 1, Shaped: 1}}
				}
			},
			"save": func(t *rapid.T) {
				c, id, m := pick()
				if m.removed {
					t.Skip("removed")
				}
				p := mutate(t, m.snap.Party)
				ch := Change{Base: m.snap.Revision, Actor: rapid.SampledFrom(people).Draw(t, "who"), At: clock, What: "changed",
					Party: p, Plan: m.snap.Plan}
				if rapid.Bool().Draw(t, "plan") {
					ch.Plan = planFor(&p, rapid.Int64Range(0, 3).Draw(t, "plan revision"))
				}
				if rapid.IntRange(0, 9).Draw(t, "stale") == 0 {
					ch.Base--
				}
				got, err := s.Save(ctx, c, ch)
				if ch.Base != m.snap.Revision {
					if !errors.Is(err, ErrConflict) {
						t.Fatalf("a stale base: %v, want ErrConflict", err)
					}
					return
				}
				var name *NameTakenError
				if errors.As(err, &name) {
					for other, o := range model[c] {
						if other != id && !o.removed && o.snap.Party.Name == p.Name {
							return
						}
					}
				}
				if err != nil {
					t.Fatal(err)
				}
				m.accept(t, got, p, ch.Plan)
			},
			"undo or redo": func(t *rapid.T) {
				c, id, m := pick()
				if m.removed {
					t.Skip("removed")
				}
				who := rapid.SampledFrom(people).Draw(t, "who")
				f := s.Undo
				if rapid.Bool().Draw(t, "redo") {
					f = s.Redo
				}
				e, got, err := f(ctx, c, id, who, clock, nil)
				var touched *TouchedError
				var name *NameTakenError
				switch {
				case errors.Is(err, ErrNothing):
					return
				case errors.As(err, &touched):
					for _, since := range touched.Since {
						if since.Actor.ID == who.ID || since.Revision <= e.Revision {
							t.Fatalf("%+v is no later change by others than %+v", since, e)
						}
					}
					return
				case errors.As(err, &name):
					return // somebody has taken the old name since
				case err != nil:
					t.Fatal(err)
				}
				if e.Actor.ID != who.ID {
					t.Fatalf("%s undid a change of %s", who.Name, e.Actor.Name)
				}
				for _, x := range e.Touched {
					if x.Kind.OfPlan() {
						continue
					}
					if now := pieceNow(t, got, x.Kind, x.Key); now != string(x.Before) {
						t.Fatalf("%s %q is %s after the undo, want %s", x.Kind, x.Key, now, x.Before)
					}
				}
				m.snap = got
			},
			"remove or recover": func(t *rapid.T) {
				c, id, m := pick()
				err := error(nil)
				if m.removed {
					err = s.Recover(ctx, c, ada, clock, id, nil)
				} else {
					err = s.Remove(ctx, c, ada, clock, id)
				}
				var name *NameTakenError
				if m.removed && errors.As(err, &name) {
					return
				}
				if err != nil {
					t.Fatal(err)
				}
				m.removed = !m.removed
				m.snap.Revision++
			},
		})
		for c, parties := range model {
			for id, m := range parties {
				if !m.removed {
					replay(t, s, c, id, m.snap)
				}
			}
		}
	})
}

// accept checks a saved change against what was asked for.
func (m *modelParty) accept(t *rapid.T, got Snapshot, p planner.Party, plan *planner.Plan) {
	planOf := func(p *planner.Plan) string { return cmp.Diff(p, (*planner.Plan)(nil)) }
	shaped := p
	shaped.Work = nil
	before := m.snap.Party
	before.Work = nil
	want := Snapshot{Party: p, Plan: plan, Revision: m.snap.Revision, Shaped: m.snap.Shaped}
	if cmp.Diff(m.snap.Party, p) != "" || planOf(m.snap.Plan) != planOf(plan) {
		want.Revision++
	}
	differs := cmp.Diff(before, shaped) != ""
	if differs {
		want.Shaped = want.Revision
	}
	if got := Shapes(&m.snap.Party, &p); got != differs {
		t.Fatalf("a plan depends on the change: got %v, want %v", got, differs)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Fatalf("saved (-want +got):\n%s", d)
	}
	m.snap = got
}

// replay puts the journal's pieces together from nothing: that must give the party.
func replay(t *rapid.T, s *Store, c Community, id planner.PartyID, want Snapshot) {
	list, err := s.Journal(context.Background(), c, id, -1)
	if err != nil {
		t.Fatal(err)
	}
	if len(list) != int(want.Revision) {
		t.Fatalf("%d entries, revision %d", len(list), want.Revision)
	}
	now := map[pieceKey]string{}
	for i, e := range slices.Backward(list) {
		if e.Revision != int64(len(list)-i) {
			t.Fatalf("entry %d has revision %d", i, e.Revision)
		}
		for _, x := range e.Touched {
			k := pieceKey{x.Kind, x.Key}
			if now[k] != string(x.Before) {
				t.Fatalf("revision %d: %v was %s, the entry says %s", e.Revision, k, now[k], x.Before)
			}
			now[k] = string(x.After)
		}
	}
	maps.DeleteFunc(now, func(_ pieceKey, doc string) bool { return doc == "" })
	pieces, err := split(&want.Party, want.Plan)
	if err != nil {
		t.Fatal(err)
	}
	have := map[pieceKey]string{}
	for _, p := range pieces {
		have[p.pieceKey] = p.doc
	}
	if d := cmp.Diff(have, now, cmp.AllowUnexported(pieceKey{})); d != "" {
		t.Fatalf("the journal gives another party (-party +journal):\n%s", d)
	}
}

func pieceNow(t *rapid.T, snap Snapshot, kind Kind, key string) string {
	pieces, err := split(&snap.Party, snap.Plan)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pieces {
		if p.kind == kind && p.key == key {
			return p.doc
		}
	}
	return ""
}

func randomParty(t *rapid.T) planner.Party {
	p := supper()
	p.Name = rapid.SampledFrom([]string{"Supper", "Dîner", "晩餐", "عشاء", "🎉"}).Draw(t, "name")
	return p
}

// mutate is a copy of a party, changed as people change it.
func mutate(t *rapid.T, p planner.Party) planner.Party {
	var out planner.Party
	doc, err := json.Marshal(p)
	if err == nil {
		err = json.Unmarshal(doc, &out)
	}
	if err != nil {
		t.Fatal(err)
	}
	p = out
	key := planner.DishKey(fmt.Sprint("dish-", rapid.IntRange(0, 5).Draw(t, "dish")))
	at := slices.IndexFunc(p.Dishes, func(d planner.Dish) bool { return d.Key == key })
	switch rapid.IntRange(0, 6).Draw(t, "what") {
	case 0: // add or remove a dish, anywhere
		if at >= 0 {
			p.Dishes = slices.Delete(p.Dishes, at, at+1)
		} else {
			p.Dishes = slices.Insert(p.Dishes, rapid.IntRange(0, len(p.Dishes)).Draw(t, "at"), dish(key))
		}
	case 1: // shuffle
		p.Dishes = rapid.Permutation(p.Dishes).Draw(t, "order")
	case 2:
		if at >= 0 {
			p.Dishes[at].Note = rapid.StringN(0, 20, 40).Draw(t, "note")
		}
	case 3:
		p.Covers = rapid.IntRange(1, 9).Draw(t, "covers")
	case 4:
		p.Kitchen.Burners = rapid.IntRange(1, 6).Draw(t, "burners")
	case 5:
		p.Name = randomParty(t).Name
	case 6:
		p.Work = nil
		if n := rapid.IntRange(0, 3).Draw(t, "work"); n > 0 {
			start := t0.Add(time.Duration(n) * time.Hour)
			p.Work = []planner.Work{{Task: planner.StepTask(key, "cook", n), Person: "ben", Progress: planner.Started,
				Start: &start}}
		}
	}
	if len(p.Dishes) == 0 {
		p.Dishes = nil
	}
	return p
}

// tempDir is a folder for one case, since a case's T has none of its own.
func tempDir(t *rapid.T) string {
	dir, err := os.MkdirTemp("", "tureen-store")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// Of two people who save at once from one revision, one gets through and the other is told.
func TestTwoWriters(t *testing.T) {
	s := open0(t)
	snap := create(t, s, home, supper())
	second, err := Open(context.Background(), s.path) // as another program would
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	const rounds = 20
	for i := range rounds {
		errs := make([]error, 2)
		var wg sync.WaitGroup
		for j, st := range []*Store{s, second} {
			p := snap.Party
			p.Covers = 100 + 2*i + j
			wg.Go(func() {
				_, errs[j] = st.Save(context.Background(), home,
					Change{Base: snap.Revision, Actor: ada, At: t0, What: "covers", Party: p, KeepReminders: true})
			})
		}
		wg.Wait()
		if (errs[0] == nil) == (errs[1] == nil) || !errors.Is(errors.Join(errs...), ErrConflict) {
			t.Fatalf("round %d: %v, want one nil and one ErrConflict", i, errs)
		}
		if snap, err = s.Load(context.Background(), home, snap.Party.ID); err != nil {
			t.Fatal(err)
		}
		winner := 0
		if errs[0] != nil {
			winner = 1
		}
		if want := 100 + 2*i + winner; snap.Party.Covers != want || snap.Revision != int64(i+2) {
			t.Fatalf("covers %d at revision %d, want %d at %d", snap.Party.Covers, snap.Revision, want, i+2)
		}
	}
}

// A party with everything in it comes back as it went in.
func TestRichPartyComesBack(t *testing.T) {
	s := open0(t)
	p, plan := partygen.Rich()
	made := create(t, s, home, *p)
	snap := edit(t, s, home, made.Party.ID, ada, "planned", func(c *Change) { c.Plan = plan })
	p.ID = made.Party.ID
	if d := cmp.Diff(p, &snap.Party); d != "" {
		t.Errorf("party (-want +got):\n%s", d)
	}
	if d := cmp.Diff(plan, snap.Plan); d != "" {
		t.Errorf("plan (-want +got):\n%s", d)
	}
}

// arrange keeps the order asked for, whatever was there, and moves no more than it must.
func TestArrange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keys := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-l]`), 0, 8, rapid.ID).Draw(t, "before")
		before := spread(keys)
		if rapid.Bool().Draw(t, "crowded") {
			for i, k := range keys {
				before[k] = int64(i / 2)
			}
		}
		some := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-p]`), 0, 10, rapid.ID)
		after := rapid.Permutation(some.Draw(t, "after")).Draw(t, "order")
		got := arrange(after, before)
		if !slices.IsSortedFunc(after, func(a, b string) int { return byPlace(got[a], a, got[b], b) }) ||
			len(got) != len(after) {
			t.Fatalf("%v from %v: got %v", after, before, got)
		}
		if !maps.Equal(arrange(after, got), got) {
			t.Fatalf("%v is arranged anew each time", after)
		}
	})
	before := spread([]string{"a", "b", "c", "d"})
	for _, c := range []struct {
		after []string
		moved int
	}{
		{[]string{"a", "b", "c", "d", "e"}, 1},
		{[]string{"e", "a", "b", "c", "d"}, 1},
		{[]string{"a", "c", "d"}, 0},
		{[]string{"d", "a", "b", "c"}, 1},
		{[]string{"b", "c", "d", "a"}, 1},
		{[]string{"d", "c", "b", "a"}, 3},
	} {
		moved := 0
		for k, ord := range arrange(c.after, before) {
			if old, was := before[k]; !was || old != ord {
				moved++
			}
		}
		if moved != c.moved {
			t.Errorf("%v: %d touched, want %d", c.after, moved, c.moved)
		}
	}
}

// Whatever stands in the table, reading it answers or refuses, and what it answers is stable.
func FuzzJoin(f *testing.F) {
	f.Add("dish", "stew", `{"key":"stew","steps":[{"key":"cook","serve":{"state":"counter"}}]}`)
	f.Add("setting", "arrival", `"2026-09-26T18:00:00Z"`)
	f.Add("placed", "stew/cook", `{"task":"stew/cook","start":"2026-09-26T18:00:00+02:00"}`)
	f.Add("plan", "", `{"tasks":null}`)
	f.Add("kitchen", "ovens", `[{"name":"oven"}]`)
	f.Fuzz(func(t *testing.T, kind, key, doc string) {
		p, plan, err := join(1, []piece{{pieceKey{Kind(kind), key}, 0, doc}})
		if err != nil {
			return
		}
		once, err := split(&p, plan)
		if err != nil {
			return // a year that JSON cannot hold
		}
		q, again, err := join(1, once)
		if err != nil {
			t.Fatalf("%+v does not read back: %v", once, err)
		}
		twice, err := split(&q, again)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(once, twice, cmp.AllowUnexported(piece{}, pieceKey{})); d != "" {
			t.Errorf("(-once +twice):\n%s", d)
		}
	})
}
