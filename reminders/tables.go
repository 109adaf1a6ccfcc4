package reminders

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/words"
	"tureen/store"
)

// A plan in force may have been made with other tables of foods and limits than those of now. When the program starts,
// such a plan is held against today's. What it breaks by them is noted with it, and from that follows one message for
// the party's host, as any other reminder does. Where nothing breaks nothing is written: it is looked at again at the
// next start, and a plan that is out of date anyway is made anew by its hosts.

// afterwards is how long after the guests have come a plan is still held against newer tables.
const afterwards = 12 * time.Hour

// breaksShown is how many sentences the host's message has.
const breaksShown = 5

// recheck holds the plans in force that were made with other tables against those of now.
func (d *Dispatcher) recheck(ctx context.Context, now time.Time) {
	all, err := d.Store.OtherTables(ctx, d.Scope, check.Tables, now.Add(-afterwards))
	if err != nil {
		d.log().Error("find plans by other tables", "error", err)
	}
	for _, one := range all {
		for try := 0; ; try++ {
			err := d.recheckOne(ctx, one, now)
			if errors.Is(err, store.ErrConflict) && try < len(pauses) {
				continue // somebody was faster
			}
			if err != nil && !errors.Is(err, store.ErrNotFound) {
				d.log().Error("hold a plan against the tables of now", "party", one.Party, "error", err)
			}
			break
		}
	}
}

func (d *Dispatcher) recheckOne(ctx context.Context, one store.OfCommunity, now time.Time) error {
	snap, err := d.Store.Load(ctx, one.Community, one.Party)
	if err != nil || snap.Plan == nil || snap.Plan.Revision < snap.Shaped || snap.Plan.Tables == check.Tables() {
		return err
	}
	rows, err := d.Store.Reminders(ctx, one.Community, one.Party)
	if err != nil || slices.ContainsFunc(rows, func(r store.Row) bool { return r.Key == tablesKey(check.Tables()) }) {
		return err // its host knows, and has taken back what was noted
	}
	broken := check.ByTables(&snap.Party, snap.Plan)
	if len(broken) == 0 {
		return nil
	}
	snap.Plan.Tables, snap.Plan.Outdated = check.Tables(), &planner.Outdated{At: now.UTC()}
	for _, b := range broken {
		snap.Plan.Outdated.Breaks = append(snap.Plan.Outdated.Breaks, b.Text)
	}
	_, err = d.Store.Save(ctx, one.Community, store.Change{Base: snap.Revision, Actor: store.House, At: now,
		What: "held the plan against newer tables of foods and limits", Party: snap.Party, Plan: snap.Plan,
		Reminders: For(&snap.Party, snap.Plan)})
	return err
}

func tablesKey(name string) string { return "tables/" + name }

// outdated tells the first of the hosts what the plan breaks by newer tables.
func (v *view) outdated() []store.Reminder {
	found := v.plan.Outdated
	i := slices.IndexFunc(v.p.People, func(x planner.Person) bool { return x.Role == planner.Host })
	if found == nil || i < 0 {
		return nil
	}
	lines := []string{fmt.Sprintf("Make the plan of %s anew: by newer tables of foods and limits it breaks %s.",
		named(v.p.Name), words.Count(len(found.Breaks), "rule"))}
	for n, text := range found.Breaks {
		if n == breaksShown {
			lines = append(lines, fmt.Sprintf("and %d more", len(found.Breaks)-n))
			break
		}
		lines = append(lines, text)
	}
	return []store.Reminder{{Key: tablesKey(v.plan.Tables), Kind: Outdated, Person: v.p.People[i].Key, Due: found.At,
		At: found.At, Until: planner.Later(v.p.Arrival, found.At.Add(time.Hour)), Text: strings.Join(lines, "\n"),
		Buttons: []store.Press{{Label: "Make the plan anew", Do: fmt.Sprintf("plan make party:%d", v.p.ID)}}}}
}
