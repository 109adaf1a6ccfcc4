package discord

import (
	"context"
	"strings"
	"time"

	"tureen/bot/talk"
)

// In direct messages a person speaks of the parties that they are among the people of, wherever those are: the
// bot finds them by the account, and here it is seen that the person is a member of each party's community still.

const mostPlaces = 25

// do lets the bot answer a request, wherever it comes from.
func (f *Face) do(ctx context.Context, req talk.Request) talk.Reply {
	sure := f.withPlaces(ctx, &req)
	if isID(req.Community) {
		in := req.Channel
		if req.Parent != "" { // beside the thread where it is said
			in = req.Parent
		}
		req.Open = f.opener(in)
	}
	rep := f.ask(ctx, req)
	for _, m := range rep.Told {
		f.spawn("told", func() { f.tell(req.Community, m) })
	}
	if isID(rep.Place) && isID(req.Community) {
		rep.Text += "\n" + placeURL(req.Community, rep.Place)
		f.spawn("card", func() { f.showIn(rep.Place, req) })
	}
	if rep.Refused && !sure {
		rep.Text += "\nDiscord did not say just now where you are a member. Try again in a minute."
	}
	return rep
}

// withPlaces adds to a request from direct messages the parties that its user may speak of. What the platform does
// not confirm is left out; sure is false when that is so because it did not answer.
func (f *Face) withPlaces(ctx context.Context, req *talk.Request) (sure bool) {
	if !strings.HasPrefix(req.Community, directPrefix) {
		return true
	}
	all, err := f.bot.PlacesOf(ctx, req.User.ID)
	if err != nil {
		f.log.Error("somebody's parties cannot be read", "error", err)
		return true
	}
	sure = true
	if n := len(all); n > mostPlaces { // the latest
		all = all[n-mostPlaces:]
	}
	member := map[string]bool{req.Community: true}
	for _, p := range all {
		in, asked := member[p.Community]
		if !asked {
			// A party that was started in direct messages has no community but its people.
			if in = strings.HasPrefix(p.Community, directPrefix); !in {
				var err error
				in, err = f.member(ctx, p.Community, req.User.ID)
				sure = sure && err == nil
			}
			member[p.Community] = in
		}
		if in {
			req.Places = append(req.Places, p)
		}
	}
	return sure
}

// member reports whether somebody is certainly a member of a community. The error says that this is not known.
func (f *Face) member(ctx context.Context, guild, user string) (bool, error) {
	if !isID(guild) || !isID(user) {
		return false, nil
	}
	f.mu.Lock()
	fresh := time.Since(f.here[guild+"/"+user]) < memberFor
	f.mu.Unlock()
	if fresh {
		return true, nil
	}
	if err := f.rest.do(ctx, "GET", "guilds/"+guild+"/members/"+user, nil, nil); err != nil {
		if codeOf(err) == 0 {
			f.log.Warn("a member cannot be looked up", "error", err)
			return false, err
		}
		return false, nil
	}
	f.mu.Lock()
	remember(f.here, guild+"/"+user)
	f.mu.Unlock()
	return true, nil
}
