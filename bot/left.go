package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
	"tureen/reminders"
	"tureen/store"
)

// Somebody who leaves the community can neither see the party's channel nor be reached any more. What they had to
// do and have not done is handed back, they are given no more work, and the others are told, with what to do about
// it. That is a change by the house, which a host may take back with /undo: then it is not done again. Who comes
// back is known again at once; a host makes them co-host again, or takes the change back.

// leftWhat begins the journal's sentence of such a change.
const leftWhat = "took off who has left the community: "

// Left hands back what a user of a face had to do at a community's parties to come, and answers what is to be said
// in their channels. Asked again it does and says nothing.
func (b *Bot) Left(ctx context.Context, community, user string) ([]reminders.Note, error) {
	all, err := b.store.List(ctx, store.Community(community))
	if err != nil || user == "" {
		return nil, err
	}
	var notes []reminders.Note
	for _, s := range all {
		for try := 1; ; try++ {
			n, err := b.leftParty(ctx, community, user, s.ID)
			if errors.Is(err, store.ErrConflict) && try < conflictTries {
				continue
			}
			if err != nil && !errors.Is(err, store.ErrNotFound) { // removed meanwhile
				return notes, err
			}
			if n != nil {
				notes = append(notes, *n)
			}
			break
		}
	}
	return notes, nil
}

// leftParty takes somebody off one party; nil when there is nothing to take off or the hosts want them to stay.
func (b *Bot) leftParty(ctx context.Context, community, user string, id planner.PartyID) (*reminders.Note, error) {
	t := &Turn{ctx: ctx, bot: b, command: &talk.Command{}, Now: b.clock().UTC(),
		Request: talk.Request{Community: community, User: talk.User{ID: store.House.ID, Name: store.House.Name}}}
	if err := t.load(ctx, id); err != nil {
		return nil, err
	}
	x := personOf(t.Party, talk.User{ID: user})
	if x == nil || x.Chat != user || x.Role == planner.Onlooker || !t.Now.Before(t.Party.NightEnd()) {
		return nil, nil
	}
	what := leftWhat + x.Name
	if stays, err := t.tookBack(ctx, what); stays || err != nil {
		return nil, err
	}
	open := t.openTasksOf(x.Key)
	before := fmt.Sprint(*x)
	freed := t.freeTasksOf(x.Key)
	t.needNoMore(x.Key)
	if x.Role == planner.Host && hostsOf(t.Party) == 1 {
		x.Cooks, x.Days = planner.DayHours{}, nil // a party needs a host, who may come back
	} else {
		x.Role = planner.Onlooker
	}
	if fmt.Sprint(*x) == before && freed == 0 {
		return nil, nil
	}
	t.did("%s", what)
	t.dropLostWork()
	note := t.leftNote(x, open) // by the plan as people know it
	if err := t.keep(ctx); err != nil {
		return nil, err
	}
	t.notes = append(t.notes, "A host's /undo takes this back, if "+x.Name+" still cooks with you.")
	note.Text += "\n" + strings.Join(t.notes, "\n")
	return note, nil
}

// tookBack reports whether somebody has taken a change of the house's back.
func (t *Turn) tookBack(ctx context.Context, what string) (bool, error) {
	all, err := t.bot.store.Journal(ctx, t.community(), t.Party.ID, int(t.snapshot.Revision))
	return slices.ContainsFunc(all, func(e store.Entry) bool {
		return e.Actor.ID == store.House.ID && e.What == what && e.BackBy != 0
	}), err
}

func hostsOf(p *planner.Party) (n int) {
	for i := range p.People {
		if p.People[i].Role == planner.Host {
			n++
		}
	}
	return n
}

// openTasksOf lists what somebody has claimed or is planned for, and has not done.
func (t *Turn) openTasksOf(k planner.PersonKey) []planner.TaskKey {
	var out []planner.TaskKey
	for _, task := range planner.Tasks(t.Party) {
		w := t.Party.WorkOn(task.Key)
		if w != nil && isOver(*w) {
			continue
		}
		has := w != nil && w.Person == k
		if t.Plan != nil && (w == nil || w.Person == "") {
			pl := t.Plan.Placed(task.Key)
			has = has || pl != nil && slices.Contains(pl.People, k)
		}
		if c := t.Party.Chore(task.Chore); has && (c == nil || c.Kind != planner.Dress) {
			out = append(out, task.Key)
		}
	}
	return out
}

// leftNote says who has left, and what is free now.
func (t *Turn) leftNote(x *planner.Person, open []planner.TaskKey) *reminders.Note {
	const mostButtons = 3
	n := &reminders.Note{
		Key:       fmt.Sprintf("left%d.%d", t.Party.ID, t.snapshot.Revision+1),
		Community: t.community(), Channel: t.Party.Channel, Party: t.Party.ID, PartyName: t.Party.Name, Due: t.Now,
		Text: x.Name + " has left this community, and is given no more work for " + t.Party.Name + ".",
	}
	press := func(label, command string, options ...string) {
		b := t.button(label, command, options...)
		n.Buttons = append(n.Buttons, store.Press{Label: b.Label, Do: b.Do})
	}
	if len(open) > 0 {
		n.Text = fmt.Sprintf("Take over from %s, who has left this community: %s free again.",
			x.Name, words.CountAs(len(open), "task is", "tasks are"))
		var lines []string
		for _, k := range open {
			lines = append(lines, t.taskName(k)+t.planned(k))
		}
		n.Text += "\n" + strings.Join(firstLines(lines, mostChanges, "/task list show:open has them all"), "\n")
		for _, k := range open[:min(len(open), mostButtons)] {
			press("Claim: "+t.taskName(k), "task claim", "task", string(k))
		}
	}
	if t.Plan != nil {
		press("Make the plan anew", "plan make")
	}
	return n
}

// Members lists the users of a face that are given work at a community's parties to come.
func (b *Bot) Members(ctx context.Context, community string) ([]string, error) {
	all, err := b.store.List(ctx, store.Community(community))
	if err != nil {
		return nil, err
	}
	var out []string
	for _, s := range all {
		snap, err := b.store.Load(ctx, store.Community(community), s.ID)
		if errors.Is(err, store.ErrNotFound) {
			continue
		}
		if err != nil {
			return nil, err
		}
		for _, x := range snap.Party.People {
			if x.Chat != "" && x.Role != planner.Onlooker && b.clock().Before(snap.Party.NightEnd()) &&
				!slices.Contains(out, x.Chat) {
				out = append(out, x.Chat)
			}
		}
	}
	return out, nil
}

// Hosts lists a party's hosts.
func (b *Bot) Hosts(ctx context.Context, community string, id planner.PartyID) ([]planner.Person, error) {
	snap, err := b.store.Load(ctx, store.Community(community), id)
	return slices.DeleteFunc(snap.Party.People, func(x planner.Person) bool { return x.Role != planner.Host }), err
}
