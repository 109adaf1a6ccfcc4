package discord

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tureen/store"
)

// What the bot needs in a party's channel. Page topics/permissions.
var needs = []struct {
	bit  uint64
	name string // as the platform's pages call it
}{
	{1 << 10, "View Channels"}, {1 << 11, "Send Messages"},
	{1 << 38, "Send Messages in Threads"}, {1 << 35, "Create Public Threads"},
	{1 << 14, "Embed Links"}, {1 << 15, "Attach Files"}, {1 << 16, "Read Message History"},
}

// permissions are the needs' bits, for the link that invites the bot.
func permissions() (bits uint64) {
	for _, n := range needs {
		bits |= n.bit
	}
	return bits
}

const administrator = 1 << 3

// lacking names the needs that some permissions do not cover.
func lacking(bits uint64) (out []string) {
	if bits&administrator != 0 {
		return nil
	}
	for _, n := range needs {
		if bits&n.bit == 0 {
			out = append(out, n.name)
		}
	}
	return out
}

// guildSeen is a community that the bot is in, with what it may do there.
type guildSeen struct{ ID, Name, Permissions string }

// channelSeen is a channel, with what differs there.
type channelSeen struct {
	ID, Name   string
	Guild      string `json:"guild_id"`
	Parent     string `json:"parent_id"`
	Type       int
	Overwrites []struct{ ID, Allow, Deny string } `json:"permission_overwrites"`
}

// lookAtPermissions looks at the first hundred communities that the bot is in, and at the channels of their parties
// in the database. It answers a finding for each that is wrong, or one that says that all are right.
func lookAtPermissions(ctx context.Context, r *rest, s *store.Store, self string) []finding {
	const most = 100
	var guilds []guildSeen
	if err := r.do(ctx, "GET", fmt.Sprintf("users/@me/guilds?limit=%d", most), nil, &guilds); err != nil {
		return []finding{{"communities", err}}
	}
	if len(guilds) == 0 {
		return []finding{{"permissions", errors.New("the bot is in no community yet; invite it with the link below")}}
	}
	var out []finding
	channels := 0
	for _, g := range guilds {
		bits, err := strconv.ParseUint(g.Permissions, 10, 64)
		if err == nil {
			if l := lacking(bits); len(l) > 0 {
				err = fmt.Errorf("allow its role %s (Server Settings, Roles), or invite it anew with the link below",
					strings.Join(l, ", "))
			}
		}
		if err != nil {
			out = append(out, finding{"permissions in " + g.Name, err})
			continue
		}
		n, found := lookAtChannels(ctx, r, s, g, bits, self)
		channels += n
		out = append(out, found...)
	}
	if len(out) == 0 {
		what := fmt.Sprintf("permissions in communities (%d) and parties' channels (%d)", len(guilds), channels)
		out = append(out, finding{what, nil})
	}
	return out
}

// lookAtChannels looks at the channels of a community's parties.
func lookAtChannels(ctx context.Context, r *rest, s *store.Store, g guildSeen, bits uint64, self string) (
	n int, out []finding) {
	if s == nil {
		return 0, nil
	}
	parties, err := s.List(ctx, store.Community(g.ID))
	if err != nil {
		return 0, []finding{{"parties of " + g.Name, err}}
	}
	var roles []string
	var seen []string
	for _, p := range parties {
		if !isID(p.Channel) || slices.Contains(seen, p.Channel) {
			continue
		}
		seen = append(seen, p.Channel)
		if roles == nil && bits&administrator == 0 {
			var me struct{ Roles []string }
			if err := r.do(ctx, "GET", "guilds/"+g.ID+"/members/"+self, nil, &me); err != nil {
				return n, append(out, finding{"the bot's roles in " + g.Name, err})
			}
			roles = append(me.Roles, "")
		}
		n++
		if err := lookAtChannel(ctx, r, p.Channel, g, bits, roles, self); err != nil {
			out = append(out, finding{fmt.Sprintf("the channel of %s in %s", p.Name, g.Name), err})
		}
	}
	return n, out
}

func lookAtChannel(ctx context.Context, r *rest, id string, g guildSeen, bits uint64, roles []string,
	self string) error {
	var c channelSeen
	err := r.do(ctx, "GET", "channels/"+id, nil, &c)
	if err == nil && c.Type >= 10 && c.Type <= 12 { // a thread has its parent's
		err = r.do(ctx, "GET", "channels/"+c.Parent, nil, &c)
	}
	switch codeOf(err) {
	case codeUnknownChannel:
		return errors.New("it is gone; say /party here in another one")
	case codeMissingAccess:
		return errors.New("let the bot see it (Edit Channel, Permissions)")
	}
	if err != nil {
		return err
	}
	if l := lacking(inChannel(bits, &c, g.ID, roles, self)); len(l) > 0 {
		return fmt.Errorf("allow the bot there %s (Edit Channel, Permissions)", strings.Join(l, ", "))
	}
	return nil
}

// inChannel is what somebody with permissions in a community may do in a channel of it: first what differs for all,
// then for roles, then for the one. Page topics/permissions.
func inChannel(bits uint64, c *channelSeen, guild string, roles []string, self string) uint64 {
	if bits&administrator != 0 {
		return bits
	}
	apply := func(is func(id string) bool) {
		var allow, deny uint64
		for _, o := range c.Overwrites {
			if is(o.ID) {
				a, _ := strconv.ParseUint(o.Allow, 10, 64)
				d, _ := strconv.ParseUint(o.Deny, 10, 64)
				allow, deny = allow|a, deny|d
			}
		}
		bits = bits&^deny | allow
	}
	apply(func(id string) bool { return id == guild })
	apply(func(id string) bool { return slices.Contains(roles, id) })
	apply(func(id string) bool { return id == self })
	return bits
}
