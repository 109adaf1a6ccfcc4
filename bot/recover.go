package bot

import (
	"cmp"
	"context"
	"errors"
	"fmt"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/reminders"
	"tureen/store"
)

var recoverCommands = []command{
	{talk.Command{Name: "party bring-back", Help: "Bring back a party of yours that was removed in the last 30 days",
		Access: talk.Anyone, Example: "/party bring-back name:Midsummer",
		Options: []talk.Option{{Name: "name", Help: "which; the last one removed by default", Kind: talk.Text,
			Example: "Midsummer"}}}, partyBringBack},
}

// partyBringBack undoes the removal of a party, for its hosts: a removed party is nobody's to look at, and so
// undo does not reach it.
func partyBringBack(ctx context.Context, t *Turn) (talk.Reply, error) {
	all, err := t.bot.store.Removed(ctx, t.community())
	if err != nil {
		return talk.Reply{}, err
	}
	may := func(p planner.Party) error {
		if x := personOf(&p, t.Request.User); x == nil || x.Role != planner.Host {
			return talk.Refuse("/party list", "Only a host of a removed party can bring it back.")
		}
		return nil
	}
	if len(all) == 0 {
		return talk.Reply{}, talk.Refuse("/party list", "No party was removed here in the last 30 days.")
	}
	found := &all[0]
	if t.has("name") {
		var names []string
		found, _ = pick(all, func(s *store.Summary) []string { return []string{s.Name} }, t.text("name"))
		if found == nil {
			for _, s := range all { // names are for those who may bring the party back
				look := errors.New("looks only")
				if errors.Is(t.bot.store.Recover(ctx, t.community(), t.actor(), t.Now, s.ID, func(p planner.Party) error {
					return cmp.Or(may(p), look)
				}), look) {
					names = append(names, s.Name)
				}
			}
			return talk.Reply{}, talk.Refuse("/party list", "No party called %q was removed here.%s", talk.Shown(t.text("name")),
				talk.DidYouMean(t.text("name"), names))
		}
	}
	if err := t.bot.store.Recover(ctx, t.community(), t.actor(), t.Now, found.ID, may); err != nil {
		return talk.Reply{}, err
	}
	snap, err := t.bot.store.Load(ctx, t.community(), found.ID)
	if err != nil {
		return talk.Reply{}, err
	}
	_, err = t.bot.store.Save(ctx, t.community(), store.Change{Base: snap.Revision, Actor: t.actor(), At: t.Now,
		What:  "brought the party back",
		Party: snap.Party, Plan: snap.Plan, Reminders: reminders.For(&snap.Party, snap.Plan)})
	if err != nil {
		return talk.Reply{}, err
	}
	return talk.Reply{Text: fmt.Sprintf("%s is back, with its plan and its reminders.", found.Name),
		Next: fmt.Sprintf("Next: /party use party:%s", found.Name)}, nil
}
