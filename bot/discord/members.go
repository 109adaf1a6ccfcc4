package discord

import (
	"context"
	"fmt"
	"time"

	"github.com/bwmarrin/discordgo"

	"tureen/reminders"
)

// Who leaves a community is told only to bots with a privileged intent, which tureen can do without: it may ask
// for a single member at any time. It asks before it reminds somebody, and, an hour or more after it last did,
// when a command comes from a community. With the intent (-members) it hears of it at once.

const (
	memberFor = 10 * time.Minute // whoever was a member is taken for one
	lookEvery = time.Hour
	mostHeld  = 10000 // members and communities that are remembered at a time
)

// intents are what the gateway tells: communities, for removals; messages, of which the platform gives the text where
// they mention the bot or are direct; interactions come without asking.
func intents(members bool) discordgo.Intent {
	told := discordgo.IntentsGuilds | discordgo.IntentsGuildMessages | discordgo.IntentsDirectMessages
	if members {
		told |= discordgo.IntentsGuildMembers
	}
	return told
}

// gone reports whether somebody is certainly no member of a community. Direct messages have no members.
func (f *Face) gone(ctx context.Context, guild, user string) bool {
	if !isID(guild) || !isID(user) {
		return false
	}
	key := guild + "/" + user
	f.mu.Lock()
	fresh := time.Since(f.here[key]) < memberFor
	f.mu.Unlock()
	if fresh {
		return false
	}
	err := f.rest.do(ctx, "GET", "guilds/"+guild+"/members/"+user, nil, nil)
	switch codeOf(err) {
	case codeUnknownMember, codeUnknownUser:
		return true
	}
	if err == nil {
		f.mu.Lock()
		remember(f.here, key)
		f.mu.Unlock()
	}
	return false
}

// remember notes that something is so as of now, in a map that does not grow for ever.
func remember(in map[string]time.Time, key string) {
	if len(in) >= mostHeld {
		clear(in)
	}
	in[key] = time.Now()
}

// left hands back what somebody had to do who has left, and tells the others: in the party's channel, or, where
// that is shut, its hosts by direct message.
func (f *Face) left(ctx context.Context, guild, user string) {
	f.mu.Lock()
	delete(f.here, guild+"/"+user)
	f.mu.Unlock()
	notes, err := f.bot.Left(ctx, guild, user)
	if err != nil {
		f.log.Error("who left has not been taken off", "error", err)
	}
	for _, n := range notes {
		f.log.Info("somebody left a community", "party", n.Party)
		if _, err := f.deliver(ctx, n); err != nil {
			f.tellHosts(ctx, n, err)
		}
	}
}

func (f *Face) tellHosts(ctx context.Context, n reminders.Note, why error) {
	hosts, err := f.bot.Hosts(ctx, string(n.Community), n.Party)
	if err != nil {
		why = err
	}
	told := false
	for i, x := range hosts {
		to := n
		to.Person, to.Channel, to.Key = &x, "", fmt.Sprintf("%s.%d", n.Key, i)
		if _, err := f.deliver(ctx, to); err == nil {
			told = true
		}
	}
	if !told {
		f.log.Warn("nobody is told who left", "party", n.Party, "error", why)
	}
}

// lookAround looks at a community's members, beside whatever else is done, if that was long ago. It is in no hurry:
// while another one's are looked at, this one's wait for a later command.
func (f *Face) lookAround(guild string) {
	if !isID(guild) {
		return
	}
	f.mu.Lock()
	due := time.Since(f.looked[guild]) >= lookEvery && f.looking.CompareAndSwap(false, true)
	if due {
		remember(f.looked, guild)
	}
	f.mu.Unlock()
	if !due {
		return
	}
	if !f.spawn("members", func() { defer f.looking.Store(false); f.look(guild) }) {
		f.looking.Store(false)
	}
}

func (f *Face) look(guild string) {
	list, err := f.bot.Members(f.ctx, guild)
	if err != nil {
		f.log.Error("members cannot be read", "error", err)
	}
	for _, user := range list {
		if f.gone(f.ctx, guild, user) {
			f.left(f.ctx, guild, user)
		}
	}
}
