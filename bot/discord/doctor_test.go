package discord

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tureen/bot/discord/standin"
	"tureen/planner"
	"tureen/store"
)

// allNeeds are the permissions by the platform's page, August 2026: view channels 10, send messages 11, embed links
// 14, attach files 15, read history 16, public threads 35, send in threads 38.
const allNeeds = 1<<10 | 1<<11 | 1<<14 | 1<<15 | 1<<16 | 1<<35 | 1<<38

// TestDoctor: everything that serving needs is looked at, and what is wrong is said with what to do about it.
func TestDoctor(t *testing.T) {
	const well = "ok time zone UTC; ok addresses; ok database; ok token, of the bot tureen; ok clock; ok gateway; ok " +
		"application; ok intents: none; " +
		"ok permissions in communities (1) and parties' channels (2)"
	link := fmt.Sprintf("Invite the bot here: "+
		"https://discord.com/oauth2/authorize?client_id=%s&scope=bot+applications.commands&permissions=%d",
		standin.Application, allNeeds)
	for _, c := range []struct {
		name   string
		args   []string
		token  string
		change func(s *standin.Server, channel string)
		status int
		want   string // what stands in it, with semicolons
	}{
		{"all is well", nil, standin.Token, nil, 0, well + "; " + link},
		{"with every flag", []string{"-backup", "DIR", "-interactions", "127.0.0.1:0", "-public-key",
			strings.Repeat("0a", 32), "-metrics", "127.0.0.1:0", "-zone", "Asia/Tokyo"},
			standin.Token, nil, 0, "ok time zone Asia/Tokyo; ok backups in; ok public key; ok metrics at"},
		{"no token", nil, "", nil, 1, "!! token in TUREEN_DISCORD_TOKEN: there is no bot token: copy it"},
		{"a wrong token", nil, "no-such-token", nil, 1, "!! token: Discord refuses the bot's token. Copy it again"},
		{"a folder for a database", []string{"-db", "DIR"}, standin.Token, nil, 1, "!! database; ok token"},
		{"a zone that is not there", []string{"-zone", "Atlantis"}, standin.Token, nil, 1,
			"!! time zone Atlantis: there is no time zone"},
		{"a folder for backups that is not there", []string{"-backup", "DIR/none"}, standin.Token, nil, 1,
			"!! backups in; make the folder"},
		{"metrics for everybody", []string{"-metrics", ":80"}, standin.Token, nil, 1,
			"!! metrics at :80; not on this machine alone"},
		{"an address without a key", []string{"-interactions", "127.0.0.1:0"}, standin.Token, nil, 1,
			"!! public key: the public key must be 64"},
		{"no such shard", []string{"-shard", "5/5"}, standin.Token, nil, 1, "!! shards: \"5/5\" is no shard"},
		{"shards by HTTP", []string{"-interactions", "127.0.0.1:0", "-public-key", strings.Repeat("0a", 32), "-shard", "0/2"},
			standin.Token, nil, 1, "!! shards: leave -shards and -shard out"},
		{"too few shards", []string{"-shards", "1"}, standin.Token, func(s *standin.Server, _ string) {
			s.Gateway(func(g *standin.Gateway) { g.Shards = 3 })
		}, 1, "!! gateway: it recommends 3 shards"},
		{"no more sessions today", nil, standin.Token, func(s *standin.Server, _ string) {
			s.Gateway(func(g *standin.Gateway) { g.Spent = true })
		}, 1, "!! gateway: today's connections are used up"},
		{"the intent for members is not allowed", []string{"-members"}, standin.Token, nil, 1,
			"!! intents: allow the Server Members Intent"},
		{"the intent for members is allowed", []string{"-members"}, standin.Token, func(s *standin.Server, _ string) {
			s.MembersIntent = true
		}, 0, "ok intents: the one for members"},
		{"a clock that is off", nil, standin.Token, func(s *standin.Server, _ string) {
			s.Clock = func() time.Time { return time.Now().Add(-time.Hour) }
		}, 1, "!! clock: this machine's clock is 1h0m; off; set it"},
		{"too few permissions", nil, standin.Token, func(s *standin.Server, _ string) {
			s.Permissions = allNeeds &^ (1<<15 | 1<<16)
		}, 1,
			"!! permissions in home: allow its role Attach Files, Read Message History (Server Settings, Roles), or invite it " +
				"anew"},
		{"just the permissions it needs", nil, standin.Token, func(s *standin.Server, _ string) {
			s.Permissions = allNeeds
		}, 0, "ok permissions in communities"},
		{"a channel that forbids", nil, standin.Token, func(s *standin.Server, channel string) {
			s.Permissions = allNeeds
			s.Deny(channel, 1<<14)
		}, 1, "!! the channel of Supper in home: allow the bot there Embed Links; !! the channel of Brunch in home: allow " +
			"the bot there Embed Links"},
		{"a channel that is gone", nil, standin.Token, func(s *standin.Server, channel string) {
			s.DeleteChannel(channel)
		}, 1, "!! the channel of Supper in home: it is gone; say /party here"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := standin.New(t)
			db := filepath.Join(t.TempDir(), "tureen.db")
			guild := s.Guild()
			channel := s.Channel(guild)
			thread := s.OpenThread(channel)
			st, err := store.Open(context.Background(), db)
			if err != nil {
				t.Fatal(err)
			}
			for name, at := range map[string]string{"Supper": channel, "Brunch": thread} {
				if _, err := st.Create(context.Background(), store.Community(guild), store.Actor{}, wednesday,
					planner.Party{Name: name, Channel: at, Zone: "UTC"}); err != nil {
					t.Fatal(err)
				}
			}
			st.Close()
			if c.change != nil {
				c.change(s, channel)
			}
			t.Setenv(TokenVariable, c.token)
			args := []string{"-api", s.URL, "-db", db}
			dir := t.TempDir()
			for _, a := range c.args {
				args = append(args, strings.Replace(a, "DIR", dir, 1))
			}
			var out, errs strings.Builder
			status := Doctor(context.Background(), args, nil, &out, &errs)
			if status != c.status {
				t.Errorf("status %d, want %d", status, c.status)
			}
			for _, want := range strings.Split(c.want, "; ") {
				if !strings.Contains(out.String(), want) {
					t.Errorf("%q is not in\n%s%s", want, out.String(), errs.String())
				}
			}
			if c.token != "" && strings.Contains(out.String()+errs.String(), c.token) {
				t.Error("it prints the token")
			}
		})
	}
}

// TestInChannel: what somebody may do in a channel, as the platform's page reckons it: for all, then roles, then one.
func TestInChannel(t *testing.T) {
	c := &channelSeen{}
	add := func(id, allow, deny string) {
		c.Overwrites = append(c.Overwrites, struct{ ID, Allow, Deny string }{id, allow, deny})
	}
	add("guild", "0", "7168")    // nobody may see, send or ...
	add("role", "3072", "16384") // but those of a role see and send, and embed nothing
	add("me", "16384", "0")
	add("other", "0", "99999999")
	for _, x := range []struct {
		bits  uint64
		roles []string
		self  string
		want  uint64
	}{
		{1 << 10, nil, "x", 0},
		{1 << 10, []string{"role"}, "x", 3072},
		{1<<10 | 1<<14, []string{"role"}, "x", 3072},
		{1 << 10, []string{"role"}, "me", 3072 | 16384},
		{1 << 3, nil, "x", 1 << 3}, // an administrator
	} {
		if got := inChannel(x.bits, c, "guild", x.roles, x.self); got != x.want {
			t.Errorf("%+v: got %d", x, got)
		}
	}
}
