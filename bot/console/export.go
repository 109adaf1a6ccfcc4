package console

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"tureen/planner"
	"tureen/planner/check"
	"tureen/planner/safety"
	"tureen/planner/trace"
	"tureen/planner/words"
	"tureen/store"
)

// ExportFormat names the form of the JSON, with its version.
const ExportFormat = "tureen-party/2"

// Exported is a party with its plan, as "tureen export" prints it: everything that another program needs to
// check the plan. Instants are RFC 3339 in UTC, lengths are whole minutes, temperatures °C, volumes
// millilitres. Lists that are empty may be missing. The same database gives the same bytes.
//
// The rules that a plan keeps are those of package planner's documentation.
type Exported struct {
	Format   string `json:"format"`   // ExportFormat
	Revision int64  `json:"revision"` // of the party
	// all that the hosts have said: courses, kitchen, people, guests, dishes, chores, work, goods, bought
	Party  planner.Party    `json:"party"`
	Days   ExportedDays     `json:"days"`
	Hours  []ExportedPerson `json:"hours"`  // when each person cooks and is at home, on the plan's days
	Tasks  []ExportedTask   `json:"tasks"`  // the party's steps and chores, one a round, in menu order
	Limits ExportedLimits   `json:"limits"` // the published limits that bind the plan
	Plan   *planner.Plan    `json:"plan"`   // null: there is none
	State  ExportedState    `json:"state"`  // how the plan stands
	Status planner.Status   `json:"status"` // of the plan: "optimal" or "feasible"; empty without one
	// the plan's figures: value, bound, and whether it is proved that none is better
	Levels []planner.Level `json:"levels"`
	Broken []check.Broken  `json:"broken"` // the rules that the plan breaks with the party as it is now
}

// ExportedState says how a plan stands to its party.
type ExportedState string

// The states.
const (
	NoPlan    ExportedState = "none"
	PlanHolds ExportedState = "holds"
	PlanStale ExportedState = "out of date" // it breaks a rule with the party as it is now: see broken
)

// ExportedDays are the instants that bound the plan.
type ExportedDays struct {
	Opens       time.Time `json:"opens"`       // the first instant at which work may be planned
	Day         time.Time `json:"day"`         // the party's day begins
	LastService time.Time `json:"lastService"` // the latest instant at which a course may be served
	NightEnd    time.Time `json:"nightEnd"`    // nothing is planned after it
}

// ExportedWindow is a stretch of time, To not included.
type ExportedWindow struct {
	From time.Time `json:"from"`
	To   time.Time `json:"to"`
}

// ExportedPerson is when somebody has hands to give, and is at home and awake.
type ExportedPerson struct {
	Person planner.PersonKey `json:"person"`
	Cooks  []ExportedWindow  `json:"cooks"`
	Home   []ExportedWindow  `json:"home"`
}

// ExportedTask is a step, a round of one, or a chore, with its time grown to the covers.
type ExportedTask struct {
	Key       planner.TaskKey   `json:"key"`
	Dish      planner.DishKey   `json:"dish,omitempty"`
	Step      planner.StepKey   `json:"step,omitempty"`
	Round     int               `json:"round"`
	Rounds    int               `json:"rounds"`
	Chore     planner.ChoreKey  `json:"chore,omitempty"`
	Do        string            `json:"do"`
	Attention planner.Attention `json:"attention"`
	Hands     int               `json:"hands"`
	MaxHands  int               `json:"maxHands"`
	Time      planner.Span      `json:"time"`

	// What it takes at the covers made, of a step's round; a chore's is in the party.
	Uses        []planner.Use `json:"uses,omitempty"` // as the step has them, with Amount for the round
	Millilitres int           `json:"ml,omitempty"`   // space in the cold
	Flat        int           `json:"flat,omitempty"` // places in the cold
	Counter     int           `json:"counterMinutes"` // of its own time that count on the counter, if it is done there
}

// ExportedLimit is a published limit with its source.
type ExportedLimit struct {
	ID     string `json:"id"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

// ExportedLimits are the limits that bind the plan.
type ExportedLimits struct {
	Counter ExportedLimit   `json:"counter"` // at the party's room temperature
	HotHold ExportedLimit   `json:"hotHold"`
	Cold    []ExportedLimit `json:"cold"` // in the refrigerator, of each kind of food that the dishes leave
}

// ExportOf puts a party together for other programs.
func ExportOf(s store.Snapshot) Exported {
	p := &s.Party
	e := Exported{Format: ExportFormat, Revision: s.Revision, Party: *p, Plan: s.Plan, State: NoPlan,
		Days: ExportedDays{p.Opens().UTC(), p.Day().UTC(), p.LastService().UTC(), p.NightEnd().UTC()}}
	for i := range p.People {
		x := &p.People[i]
		e.Hours = append(e.Hours, ExportedPerson{x.Key, windows(p.CookingHours(x)), windows(p.HomeHours(x))})
	}
	for _, t := range planner.Tasks(p) {
		x := ExportedTask{Key: t.Key, Dish: t.Dish, Step: t.Step, Round: t.Round, Rounds: t.Rounds, Chore: t.Chore, Do: t.Do,
			Attention: t.Attention,
			Hands:     t.Hands, MaxHands: t.MaxHands, Time: t.Time, Counter: int(t.Time.Likely)}
		if d, s := p.StepOf(&t); s != nil {
			fit := p.Fit(d, s)
			x.Uses, x.Millilitres, x.Flat, x.Counter = fit.Uses, fit.Millilitres, fit.Flat, fit.Warm(int(t.Time.Likely))
		}
		e.Tasks = append(e.Tasks, x)
	}
	e.Limits = ExportedLimits{Counter: limit(p.CounterLimit()), HotHold: limit(safety.HotHold())}
	seen := map[safety.Kind]bool{}
	foods := trace.Of(p)
	for _, d := range p.Dishes {
		for _, st := range d.Steps {
			for _, c := range foods.Leaves(d.Key, st.Key).Colds() {
				if !seen[c.Kind] {
					seen[c.Kind] = true
					e.Limits.Cold = append(e.Limits.Cold, limit(p.RefrigeratorLimit(c.Kind)))
				}
			}
		}
	}
	if s.Plan != nil {
		e.Status, e.Levels, e.State = s.Plan.Status, s.Plan.Levels, PlanHolds
		for _, b := range check.Plan(p, s.Plan) {
			b.Text = words.PlainStamps(b.Text)
			e.Broken, e.State = append(e.Broken, b), PlanStale
		}
	}
	return e
}

func windows(list []planner.Window) []ExportedWindow {
	var out []ExportedWindow
	for _, w := range list {
		out = append(out, ExportedWindow{w.From.UTC(), w.To.UTC()})
	}
	return out
}

func limit(l safety.Limit) ExportedLimit {
	return ExportedLimit{ID: l.ID, Text: l.String(), Source: l.Source}
}

// Export is "tureen export": it prints a party of the console as JSON and answers the exit status.
func Export(ctx context.Context, args []string, _ io.Reader, out, errs io.Writer) int {
	c := partyCommand{name: "export", help: "print a party, its kitchen, people, dishes and plan as JSON", errs: errs}
	snap, status, ok := c.load(ctx, args)
	if !ok {
		return status
	}
	enc := json.NewEncoder(out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	if err := enc.Encode(ExportOf(snap)); err != nil {
		return c.fail("%v", err)
	}
	return 0
}

// partyCommand is a subcommand about one party of a file.
type partyCommand struct {
	name, help string
	errs       io.Writer
	more       func(*flag.FlagSet) // its own flags; nil: none
}

func (c *partyCommand) fail(format string, args ...any) int {
	fmt.Fprintf(c.errs, "tureen "+c.name+": "+format+"\n", args...)
	return 1
}

// load reads the flags, and the party that they name; where ok is false the command ends with the status.
func (c *partyCommand) load(ctx context.Context, args []string) (snap store.Snapshot, status int, ok bool) {
	flags := flag.NewFlagSet("tureen "+c.name, flag.ContinueOnError)
	flags.SetOutput(c.errs)
	db := flags.String("db", DefaultDB, "the database `file`")
	name := flags.String("party", "", "the party's `name`; not needed when there is only one")
	where := flags.String("community", community, "whose party: the console's, or a chat's `id`")
	if c.more != nil {
		c.more(flags)
	}
	flags.Usage = func() {
		fmt.Fprintf(c.errs, "tureen %s: %s.\n", c.name, c.help)
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return snap, 0, false
		}
		return snap, BadUse, false
	}
	if _, err := os.Stat(*db); err != nil {
		return snap, c.fail("there is no database %s; name it with -db.", *db), false
	}
	s, err := store.Open(ctx, *db)
	if err != nil {
		return snap, c.fail("%v", err), false
	}
	defer s.Close()
	all, err := s.List(ctx, store.Community(*where))
	if err != nil {
		return snap, c.fail("%v", err), false
	}
	found, names := named(all, *name)
	switch {
	case len(all) == 0:
		return snap, c.fail("there is no party in it."), false
	case len(found) == 0:
		return snap, c.fail("there is no party %q in it; there is %s.", *name, strings.Join(names, ", ")), false
	case len(found) > 1:
		return snap, c.fail("say which party with -party: %s.", strings.Join(names, ", ")), false
	}
	snap, err = s.Load(ctx, store.Community(*where), found[0].ID)
	if err != nil {
		return snap, c.fail("%v", err), false
	}
	return snap, 0, true
}

// named lists the parties that a name means, all for none, and the names to choose from.
func named(all []store.Summary, name string) (found []store.Summary, names []string) {
	for _, x := range all {
		names = append(names, x.Name)
	}
	at := words.Match(name, names)
	for i := range all {
		if name == "" || slices.Contains(at, i) || len(at) == 0 && planner.Key(names[i]) == planner.Key(name) {
			found = append(found, all[i])
		}
	}
	if len(found) > 1 {
		names = nil
		for _, x := range found {
			names = append(names, x.Name)
		}
	}
	return found, names
}
