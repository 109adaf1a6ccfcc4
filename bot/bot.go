package bot

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/caution"
	"tureen/planner/words"
	"tureen/store"
)

// Options are a bot's settings. The zero value works.
type Options struct {
	Zone  *time.Location // of parties that are started without one; nil: UTC
	Fetch Fetcher        // gets the pages of recipes; nil: no address is opened
}

// Fetcher gets what an address leads to, where whoever runs the bot allows it. An error for people is a *[Refusal].
// Package fetch has the one that opens public pages alone.
type Fetcher interface {
	Fetch(ctx context.Context, address string) ([]byte, error)
}

// Bot answers requests. New is the only way to get one; it is safe for concurrent use.
type Bot struct {
	store    *store.Store
	clock    func() time.Time
	log      *slog.Logger
	zone     *time.Location
	commands []talk.Command
	runs     map[string]runner // what the commands do, by name
	fetch    Fetcher
	footers  footers
	heard    heard
	swaps    swaps
}

// New makes a bot on a store, which stays the caller's to close. A nil log drops what is logged.
func New(s *store.Store, clock func() time.Time, log *slog.Logger, o Options) *Bot {
	if log == nil {
		log = slog.New(slog.NewTextHandler(io.Discard, nil))
	}
	if o.Zone == nil {
		o.Zone = time.UTC
	}
	b := &Bot{store: s, clock: clock, log: log, zone: o.Zone, fetch: o.Fetch}
	b.commands, b.runs = allCommands()
	return b
}

// Commands lists every command, a group's together. The caller must not change it.
func (b *Bot) Commands() []talk.Command { return b.commands }

// Parse reads a typed message; see [ParseLine].
func (b *Bot) Parse(text string) (talk.Line, error) { return talk.ParseLine(b.commands, text) }

// conflictTries is how often a command runs when others change the party under it.
const conflictTries = 8

// Do answers a request. It never panics: what goes wrong is logged, and the reply says only that it did.
func (b *Bot) Do(ctx context.Context, req talk.Request) (rep talk.Reply) {
	defer func() {
		if v := recover(); v != nil {
			b.log.ErrorContext(ctx, "a command panicked", "command", req.Command, "panic", fmt.Sprint(v), "stack",
				string(debug.Stack()))
			rep, _ = refused(errors.New("panic"))
		}
	}()
	if req.Command == talk.No {
		return nothingChanged
	}
	cmd, err := talk.Find(b.commands, req)
	if err == nil {
		for try := 1; ; try++ {
			rep, err = b.once(ctx, cmd, req)
			if !errors.Is(err, store.ErrConflict) || try == conflictTries {
				break
			}
		}
	}
	if err != nil {
		var known bool
		if rep, known = refused(err); !known {
			b.log.ErrorContext(ctx, "a command failed", "command", req.Command, "error", err)
		}
		if cmd != nil && cmd.Example != "" && rep.Next == "Type: "+cmd.Example {
			rep.Next = "As in: " + cmd.Example // which is about something else than what was asked
		}
	}
	return rep
}

// once runs a command on the party as it stands, and saves what it changed.
func (b *Bot) once(ctx context.Context, cmd *talk.Command, req talk.Request) (talk.Reply, error) {
	t := &Turn{ctx: ctx, Request: req, Now: b.clock().UTC(), bot: b, command: cmd}
	rep, err := b.run(ctx, t)
	if err == nil && t.Party != nil && cmd.Name != "plan labels" { // labels are for who was not there
		b.footers.shorten(&rep, t.Party.ID, req.User.ID, t.Now)
	}
	return rep, err
}

func (b *Bot) run(ctx context.Context, t *Turn) (talk.Reply, error) {
	cmd := t.command
	if err := t.settlePlace(ctx); err != nil {
		return talk.Reply{}, err
	}
	if cmd.Access != talk.Anyone {
		if err := t.loadParty(ctx); err != nil {
			return talk.Reply{}, err
		}
		if err := t.mayUse(); err != nil {
			return talk.Reply{}, err
		}
	}
	if err := t.readOptions(); err != nil {
		return talk.Reply{}, err
	}
	var closed []talk.Section
	if t.Party != nil {
		if lines := t.closeOverdue(); len(lines) > 0 {
			closed = []talk.Section{{Title: "Taken as done at its likely end, since nobody ticked it off", Lines: lines}}
		}
	}
	if t.Request.AsOf != 0 && t.Party != nil && t.snapshot.Revision != t.Request.AsOf {
		return t.askAnew(ctx)
	}
	rep, err := b.runs[cmd.Name](ctx, t)
	if err == nil && t.Party != nil {
		b.heard.noteTurn(t)
	}
	if cmd.Private {
		rep.Private = true
	}
	if err != nil || t.what == "" {
		if cmd.TellsDone {
			rep.Sections = append(rep.Sections, closed...)
		}
		rep.Again = t.again()
		return rep, err
	}
	if err := t.save(ctx); err != nil {
		return talk.Reply{}, err
	}
	if t.finish != nil {
		t.finish(&rep)
	}
	if t.next != "" {
		rep.Next = t.next
	}
	rep.Text = strings.Join(append([]string{rep.Text}, t.came...), "\n")
	if t.holds {
		rep.Text += "\nThe plan still holds."
	}
	rep.Sections = append(append(rep.Sections, closed...), t.menuNews()...)
	t.takeCare(&rep, caution.News(&t.snapshot.Party, t.Party))
	if cmd.Name != "plan make" {
		before := slow(&t.snapshot.Party)
		rep.Sections = append(rep.Sections, slowSection(slices.DeleteFunc(slow(t.Party), func(l string) bool {
			return slices.Contains(before, l)
		}))...)
	}
	rep.Sections = append(rep.Sections, t.costNews(ctx)...)
	if t.Request.Pressed {
		rep.Buttons = append(rep.Buttons, t.button("Undo", fmt.Sprintf("%s%d undo", talk.AsOfMark, t.saved)))
	}
	rep.Aside = aside(append(t.cooksNews(), t.leftWithout()...), rep.Aside)
	if rep.Private {
		rep.Sections, rep.Aside = append(rep.Sections, rep.Aside...), nil
	}
	if news := t.shoppingNews(); len(news) > 0 {
		rep.Sections = append(rep.Sections, news...)
		if t.next == "" && t.Plan != nil && t.needsTrip() {
			rep.Next = "Next: /plan make plans another trip; /shopping list"
		}
	}
	if len(t.notes) > 0 {
		rep.Sections = append(rep.Sections, talk.Section{Title: "The plan", Lines: t.notes})
	}
	return rep, nil
}

// loadParty finds the party in question: the one that is named, else the one that the person or the
// channel has in mind, else the only one there is.
func (t *Turn) loadParty(ctx context.Context) error {
	id, err := t.whichParty(ctx)
	if err != nil {
		return err
	}
	return t.load(ctx, id)
}

// load reads a party, with a copy for the command to change.
func (t *Turn) load(ctx context.Context, id planner.PartyID) error {
	snap, work, err := t.bot.store.LoadPair(ctx, t.community(), id)
	if err != nil {
		return err
	}
	t.snapshot, t.Party, t.Plan = snap, &work.Party, work.Plan
	t.Me = personOf(t.Party, t.Request.User)
	return nil
}

func (t *Turn) whichParty(ctx context.Context) (planner.PartyID, error) {
	all, err := t.bot.store.List(ctx, t.community())
	if err != nil {
		return 0, err
	}
	if named := talk.Clean(t.Request.Options[partyOption.Name], false); named != "" {
		return t.findParty(ctx, all, named)
	}
	for _, channel := range []string{t.Request.Channel, t.Request.Parent} {
		if channel == "" {
			continue
		}
		id, err := t.bot.store.Focus(ctx, t.community(), channel, t.Request.User.ID)
		if err == nil || !errors.Is(err, store.ErrNotFound) {
			return id, err
		}
		if id := livingIn(channel, all); id != 0 {
			return id, nil
		}
	}
	switch len(all) {
	case 0:
		return 0, talk.Refuse(partyNewExample, "There is no party here yet; start one.")
	case 1:
		return all[0].ID, nil
	}
	if all, err = t.mayList(ctx, all); err != nil {
		return 0, err
	}
	switch len(all) {
	case 0:
		return 0, talk.Refuse("/party list", "You belong to no party here; a party's host can add you with /people add.")
	case 1:
		return all[0].ID, nil
	}
	var buttons []talk.Button
	for _, s := range all {
		buttons = append(buttons, t.with(s.Name, s.ID)...)
	}
	return 0, &talk.Refusal{Text: fmt.Sprintf("Say which party you mean: %s.", words.Or(partyNames(all))),
		Try: "/party use party:" + all[0].Name, Buttons: buttons}
}

// personOf finds who of the party's people the user is: by the face's id, or, for somebody who was added
// by name, by the key of that name where a face takes those for ids.
func personOf(p *planner.Party, u talk.User) *planner.Person {
	for i := range p.People {
		if x := &p.People[i]; x.Chat != "" && x.Chat == u.ID {
			return x
		}
	}
	for i := range p.People {
		if x := &p.People[i]; x.Chat == "" && u.ID != "" && string(x.Key) == u.ID {
			return x
		}
	}
	return nil
}

// mayUse checks the asker's rights on the party.
func (t *Turn) mayUse() error {
	if t.command.Access == talk.Newcomers && (t.Me != nil || t.Party.Channel == t.Request.Channel ||
		t.Party.Channel == t.Request.Parent) { // where the others see it
		return nil
	}
	if t.Me == nil {
		return talk.Refuse("", "Only the people of %s can do this; ask %s to add you with /people add.", t.Party.Name,
			hostNames(t.Party))
	}
	switch t.command.Access {
	case talk.CoHosts:
		if t.Me.Role == planner.Onlooker {
			return talk.Refuse("", "You may look at %s but not change it; ask %s to make you a co-host.", t.Party.Name,
				hostNames(t.Party))
		}
	case talk.Hosts:
		if t.Me.Role != planner.Host {
			return talk.Refuse("", "Only %s can do this, as host of %s.", hostNames(t.Party), t.Party.Name)
		}
	}
	return nil
}

func hostNames(p *planner.Party) string {
	var names []string
	for _, x := range p.People {
		if x.Role == planner.Host {
			names = append(names, x.Name)
		}
	}
	return words.Or(names)
}

// Zone is the time zone of the party that a person in a channel has in mind, or the bot's own.
func (b *Bot) Zone(ctx context.Context, community, channel string, u talk.User) *time.Location {
	t := &Turn{ctx: ctx, Request: talk.Request{Community: community, Channel: channel, User: u}, bot: b}
	if t.loadParty(ctx) != nil {
		return b.zone
	}
	return t.zone()
}

// PartyZone is a party's time zone; nil when the community has no such party.
func (b *Bot) PartyZone(ctx context.Context, community string, id planner.PartyID) *time.Location {
	snap, err := b.store.Load(ctx, store.Community(community), id)
	if err != nil {
		return nil
	}
	return snap.Party.Location()
}
