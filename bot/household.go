package bot

import (
	"context"
	"fmt"
	"slices"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
)

// What a household has said once holds for its next party: its kitchen, who cooks and when, the chores that are
// turned off. A household is the last party here that the asker was host of. Who wants none of it says
// fresh:yes; with the party that is removed it is forgotten.

// household is the last party of the community that the asker hosts; nil when there is none.
func (t *Turn) household(ctx context.Context, but planner.PartyID) *planner.Party {
	all, err := t.bot.store.List(ctx, t.community())
	if err != nil {
		return nil
	}
	for _, s := range slices.Backward(all) {
		if s.ID == but {
			continue
		}
		snap, err := t.bot.store.Load(ctx, t.community(), s.ID)
		if err != nil {
			continue
		}
		if x := personOf(&snap.Party, t.Request.User); x != nil && x.Role == planner.Host {
			return &snap.Party
		}
	}
	return nil
}

// likeBefore gives a new party what its host's household has said before, and says what that is.
func (t *Turn) likeBefore(ctx context.Context, p *planner.Party) []talk.Section {
	if t.yes("fresh", false) {
		return nil
	}
	old := t.household(ctx, p.ID)
	if old == nil {
		return nil
	}
	p.Kitchen, p.Declined, p.Currency = old.Kitchen, old.Declined, old.Currency
	if p.Country == "" && p.Zone == old.Zone {
		p.Country = old.Country
	}
	if p.RoomTemperatureC == 0 {
		p.RoomTemperatureC = old.RoomTemperatureC
	}
	lines := []string{"The kitchen: " + kitchenLine(&p.Kitchen) + "."}
	if x := personOf(old, t.Request.User); x != nil {
		p.People[0] = asBefore(p.People[0], x)
		lines = append(lines, personLine(p, &p.People[0])+".")
	}
	if n := len(p.Declined); n > 0 {
		lines = append(lines, fmt.Sprintf("%s off.", words.CountAs(n, "chore stays", "chores stay")))
	}
	return []talk.Section{{Title: "As at " + old.Name + " (fresh:yes starts with nothing)", Lines: lines}}
}

// asBefore is a person with the hours and habits that they had at another party; what was said of single days is not
// said of these.
func asBefore(x planner.Person, old *planner.Person) planner.Person {
	if len(x.Skills) == 0 {
		x.Skills = old.Skills
	}
	if x.Dress == 0 {
		x.Dress = old.Dress
	}
	x.Direct = x.Direct || old.Direct
	x.Cooks, x.Home, x.Quiet, x.Before = old.Cooks, old.Home, old.Quiet, old.Before
	return x
}

// knownBefore is who somebody was at the household's last party, by their account or else by name; nil when
// they were not there.
func (t *Turn) knownBefore(ctx context.Context, x *planner.Person) (*planner.Person, string) {
	old := t.household(ctx, t.Party.ID)
	if old == nil {
		return nil, ""
	}
	for i := range old.People {
		o := &old.People[i]
		same := o.Chat != "" && o.Chat == x.Chat || x.Chat == "" && words.Fold(o.Name) == words.Fold(x.Name)
		if o.Role == x.Role && same {
			return o, old.Name
		}
	}
	return nil, ""
}
