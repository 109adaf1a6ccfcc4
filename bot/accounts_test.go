package bot

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tureen/bot/talk"
)

// onPhone has an account say a message, on a face that knows accounts by their numbers.
func (tb *table) onPhone(account, text string) talk.Reply {
	line, err := tb.Parse(text)
	if err != nil {
		return talk.RefusedReply(err)
	}
	return tb.Do(context.Background(), talk.Request{Community: "test", Channel: "kitchen", Command: line.Command,
		Options: line.Options, User: talk.User{ID: account, Name: "Account " + account},
		Names: map[string]string{"70": "Finn of the mill"},
		Accounts: func(id string) bool {
			_, err := strconv.Atoi(id)
			return err == nil
		}})
}

// linked is a party whose host has account 1 and whose co-host Cleo has account 3; Ben is there by name only.
func linked(t *testing.T) *table {
	tb := newTable(t)
	for _, text := range []string{"/party new name:Supper date:2026-09-26 arrive:19:00 covers:4",
		"/people change who:Account-1 name:Ana", "/people add name:Cleo user:@3", "/people add name:Ben"} {
		if rep := tb.onPhone("1", text); rep.Refused {
			t.Fatal(text, plain(rep))
		}
	}
	return tb
}

func (tb *table) chat(name string) string {
	tb.t.Helper()
	for _, x := range tb.party().Party.People {
		if x.Name == name {
			return x.Chat
		}
	}
	tb.t.Fatal("nobody is called", name)
	return ""
}

// heard are the accounts that a reply is told to.
func heardBy(rep talk.Reply) (out []string) {
	for _, m := range rep.Told {
		out = append(out, m.To.Chat)
	}
	return out
}

// Only a host, or the person with an account that is free, binds an account; whoever is replaced hears it.
func TestWhoBindsAnAccount(t *testing.T) {
	tb := linked(t)
	wants(t, tb.onPhone("1", "/people list"), "Ben, co-host", "not linked yet", "[I am Ben]")
	if strings.Contains(plain(tb.onPhone("1", "/people list")), "I am Cleo") {
		t.Error("Cleo has an account, and is offered one")
	}
	before := tb.state()
	for _, c := range []struct{ account, text, want string }{
		{"3", "/people change who:Ben user:@42", "Only a host gives somebody an account"},
		{"3", "/people change who:Ana user:@42", "Only a host gives somebody an account"},
		{"3", "/people change who:Ana unlink:yes", "Only a host gives somebody an account"},
		{"1", "/people change who:Ana unlink:yes", "A party needs a host with an account"},
		{"1", "/people change who:Ben user:@3", "That account is Cleo's already"},
		{"1", "/people change who:Ben user:@ben", "no account that I know"},
		{"1", "/people add user:@ben", "no account that I know"},
		{"1", "/people add role:co-host", "Say who it is"},
		{"3", "/people i-am who:Ben", "You are Cleo here"},
		{"50", "/people i-am who:Cleo", "has an account already"},
		{"50", "/people i-am who:Ana", "has an account already"},
	} {
		if rep := tb.onPhone(c.account, c.text); !rep.Refused || !strings.Contains(rep.Text, c.want) {
			t.Errorf("%s> %s: %s", c.account, c.text, plain(rep))
		}
	}
	if tb.state() != before {
		t.Fatal("what was refused has changed something")
	}
	if rep := tb.onPhone("50", "/people i-am who:Ben"); tb.chat("Ben") != "50" ||
		!slices.Equal(heardBy(rep), []string{"1"}) {
		t.Errorf("Ben has account %q, and %v hear: %s", tb.chat("Ben"), heardBy(rep), plain(rep))
	}
	if rep := tb.onPhone("51", "/people i-am who:Ben"); !rep.Refused || tb.chat("Ben") != "50" {
		t.Errorf("a second account is Ben: %s", plain(rep))
	}
	if rep := tb.onPhone("1", "/people change who:Ben user:@60"); tb.chat("Ben") != "60" ||
		!slices.Equal(heardBy(rep), []string{"50"}) {
		t.Errorf("who was replaced does not hear it: %v %s", heardBy(rep), plain(rep))
	}
	if rep := tb.onPhone("50", "/now"); !rep.Refused {
		t.Error("who was replaced may look still")
	}
	// A member is picked: the name is theirs; a host's word links them, a co-host's asks them.
	rep := tb.onPhone("3", "/people add user:@70")
	if tb.chat("Finn of the mill") != "" || !slices.Equal(heardBy(rep), []string{"70"}) {
		t.Errorf("a co-host has bound an account: %s", plain(rep))
	}
	wants(t, rep, "I am Finn of the mill")
	tb.onPhone("1", "/people remove who:Finn of the mill")
	if tb.onPhone("1", "/people add user:@70"); tb.chat("Finn of the mill") != "70" {
		t.Error("a host has not bound an account")
	}
}

// Nobody but a host, confirmed by that person, silences another's reminders.
func TestWhoSilences(t *testing.T) {
	tb := linked(t)
	tb.onPhone("50", "/people i-am who:Ben")
	before := tb.state()
	for _, text := range []string{"/people hours who:Ben quiet:8:00-20:00", "/people change who:Ben direct:yes"} {
		if rep := tb.onPhone("3", text); !rep.Refused || !strings.Contains(rep.Text, "theirs to say") {
			t.Errorf("a co-host: %s: %s", text, plain(rep))
		}
		rep := tb.onPhone("1", text)
		if rep.Refused || tb.state() != before || !slices.Equal(heardBy(rep), []string{"50"}) || len(rep.Buttons) != 1 {
			t.Fatalf("the host: %s: %s", text, plain(rep))
		}
		do := rep.Buttons[0].Do
		tb.onPhone("3", "/"+do) // presses by others
		if tb.onPhone("1", "/"+do); tb.state() != before {
			t.Errorf("%s: somebody else's press has changed it", text)
		}
		if rep := tb.onPhone("50", "/"+do); rep.Refused || tb.state() == before {
			t.Errorf("Ben's own press: %s", plain(rep))
		}
		before = tb.state()
	}
}

// TestOwnAndOthers says of each command that is about a task or a person what a co-host may do to another's: the table
// of commands is gone through, so that a new one has to be placed.
func TestOwnAndOthers(t *testing.T) {
	tb, _ := matrixTable(t)
	tb.must("Ben", "/task start task:lay-the-table")
	about := map[talk.Kind]string{talk.TaskOption: "lay-the-table", talk.PersonOption: "Ben"}
	var lines []string
	for n := range tb.commands {
		c := &tb.commands[n]
		i := slices.IndexFunc(c.Options, func(o talk.Option) bool { return about[o.Kind] != "" && o.Name != "to" })
		if i < 0 || c.OnlyLooks() || c.Access == talk.Hosts || c.Access == talk.Newcomers {
			continue
		}
		o := c.Options[i]
		options := map[string]string{o.Name: about[o.Kind]}
		for _, x := range c.Options {
			if x.Required && x.Name != o.Name {
				options[x.Name] = map[string]string{"to": "Cleo"}[x.Name]
				if options[x.Name] == "" {
					options[x.Name] = x.Example
				}
			}
		}
		if extra := map[string]string{"people hours": "quiet:8:00-20:00", "people change": "user:@77",
			"task change": "time:15 min", "late": "by:15"}[c.Name]; extra != "" {
			name, text, _ := strings.Cut(extra, ":")
			options[name] = text
		}
		at := tb.copied(t, n)
		before := at.state()
		rep := at.say("Cleo", "/"+c.Message(options))
		want := !slices.Contains(othersOwn, c.Name)
		if rep.Refused == want || rep.Refused && at.state() != before {
			t.Errorf("/%s: allowed %v, want %v: %s", c.Message(options), !rep.Refused, want, plain(rep))
		}
		lines = append(lines, map[bool]string{true: "no   ", false: "yes  "}[rep.Refused]+c.Message(options))
	}
	t.Logf("what a co-host may do to what is Ben's:\n%s", strings.Join(lines, "\n"))
}
