package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
	"tureen/store"
)

// What is said where no community is, such as in direct messages, may be about a party of one: the face says which
// ones whoever speaks may speak of. Then the message is taken as said in that party's community.

// PlacesOf lists the parties of all communities that an account is among the people of, by arrival. It is for the
// face to see which of those communities the account is still a member of, and to show nothing of the others.
func (b *Bot) PlacesOf(ctx context.Context, account string) ([]talk.Place, error) {
	all, err := b.store.PartiesOf(ctx, account)
	var out []talk.Place
	for _, p := range all {
		out = append(out, placeOf(string(p.Community), p.Summary))
	}
	return out, err
}

func placeOf(community string, s store.Summary) talk.Place {
	return talk.Place{Community: community, Party: s.ID, Name: s.Name, Channel: s.Channel, Arrival: s.Arrival,
		Zone:   s.Zone,
		Covers: s.Covers}
}

// settlePlace takes a message from where no community is as said in the community of the party that is meant.
func (t *Turn) settlePlace(ctx context.Context) error {
	if len(t.Request.Places) == 0 || !slices.ContainsFunc(t.command.Options, func(o talk.Option) bool {
		return o.Kind == talk.PartyOption
	}) {
		return nil
	}
	all, err := t.allPlaces(ctx)
	if err != nil {
		return err
	}
	meant, err := t.meantPlace(ctx, all)
	if meant == nil || err != nil {
		return err
	}
	options := map[string]string{partyOption.Name: fmt.Sprint(meant.Party)}
	for name, text := range t.Request.Options {
		if name != partyOption.Name {
			options[name] = text
		}
	}
	t.said = t.Request.Community
	t.Request.Community, t.Request.Options = meant.Community, options
	return nil
}

// allPlaces are the parties that the asker may speak of here: those of the request, and those that were started here.
func (t *Turn) allPlaces(ctx context.Context) ([]talk.Place, error) {
	out := slices.Clone(t.Request.Places)
	own, err := t.bot.store.List(ctx, t.community())
	if err == nil {
		own, err = t.mayList(ctx, own)
	}
	if err != nil {
		return nil, err
	}
	for _, s := range own {
		if !slices.ContainsFunc(out, func(p talk.Place) bool { return p.Party == s.ID }) {
			out = append(out, placeOf(string(t.community()), s))
		}
	}
	slices.SortStableFunc(out, func(a, b talk.Place) int { return a.Arrival.Compare(b.Arrival) })
	return out, nil
}

// meantPlace is the party that is named, else the one that was chosen here, else the only one that is still to come,
// else the only one. Nil: none of them is, and what follows says so.
func (t *Turn) meantPlace(ctx context.Context, all []talk.Place) (*talk.Place, error) {
	if named := talk.Clean(t.Request.Options[partyOption.Name], false); named != "" {
		if n, err := strconv.ParseInt(strings.TrimPrefix(named, "#"), 10, 64); err == nil {
			if i := slices.IndexFunc(all, func(p talk.Place) bool { return p.Party == planner.PartyID(n) }); i >= 0 {
				return &all[i], nil
			}
		}
		same, _ := pickAll(all, func(p *talk.Place) []string { return []string{p.Name} }, named)
		if len(same) == 0 {
			return nil, nil
		}
		if len(same) > 1 {
			return nil, t.whichPlace(same)
		}
		return same[0], nil
	}
	var every, chosen, coming []*talk.Place
	for i := range all {
		every = append(every, &all[i])
		id, err := t.bot.store.Focus(ctx, store.Community(all[i].Community), t.Request.Channel, t.Request.User.ID)
		switch {
		case err == nil && id == all[i].Party:
			chosen = append(chosen, &all[i])
		case err != nil && !errors.Is(err, store.ErrNotFound):
			return nil, err
		}
		if all[i].Running(t.Now) {
			coming = append(coming, &all[i])
		}
	}
	switch {
	case len(chosen) == 1:
		return chosen[0], nil
	case len(coming) == 1:
		return coming[0], nil
	case len(coming) > 1:
		return nil, t.whichPlace(coming)
	case len(all) == 1:
		return &all[0], nil
	case len(all) > 1:
		return nil, t.whichPlace(every)
	}
	return nil, nil
}

// whichPlace asks which party is meant, with a button for each.
func (t *Turn) whichPlace(some []*talk.Place) error {
	var names []string
	var buttons []talk.Button
	for _, p := range some {
		day := p.Arrival.In(p.Location()).Format("Mon 2 Jan")
		names = append(names, fmt.Sprintf("%s on %s", p.Name, words.Stamp(p.Arrival, words.Date, p.Location())))
		buttons = append(buttons, t.with(p.Name+", "+day, p.Party)...)
	}
	return &talk.Refusal{Text: fmt.Sprintf("Say which party you mean: %s.", words.Or(names)), Try: "/party use party:" +
		some[0].Name, Buttons: buttons}
}

// with is a button that says the turn's message of a party; none where it is too long, or has a file.
func (t *Turn) with(label string, id planner.PartyID) []talk.Button {
	options := map[string]string{partyOption.Name: fmt.Sprint(id)}
	for name, text := range t.Request.Options {
		if name != partyOption.Name {
			options[name] = text
		}
	}
	do := t.command.Message(options)
	if len(do) > talk.MaxDo || len(t.Request.Files) > 0 {
		return nil
	}
	return []talk.Button{{Label: label, Do: do}}
}

// forgetElsewhere makes the party that has been chosen here the only one chosen here.
func (t *Turn) forgetElsewhere(ctx context.Context) error {
	from := map[string]bool{t.Request.Community: true}
	forget := func(community string) error {
		if from[community] {
			return nil
		}
		from[community] = true
		for _, user := range []string{t.Request.User.ID, ""} {
			if err := t.bot.store.SetFocus(ctx, store.Community(community), t.Request.Channel, user, 0); err != nil {
				return err
			}
		}
		return nil
	}
	for _, p := range t.Request.Places {
		if err := forget(p.Community); err != nil {
			return err
		}
	}
	if t.said != "" {
		return forget(t.said)
	}
	return nil
}
