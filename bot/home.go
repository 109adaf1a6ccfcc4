package bot

import (
	"context"
	"fmt"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/store"
)

// Where a party lives is where its reminders come to those who do not get them directly. It is found from there
// by everybody, and from where it was spoken of before by those who did.

var homeCommands = []command{
	{talk.Command{Name: "party thread", Help: "Open a thread for the party; its reminders come there",
		Access: talk.CoHosts, Example: "/party thread",
		Options: []talk.Option{{Name: "name", Help: "what the thread is called, if not as the party", Kind: talk.Text,
			Example: "Midsummer dinner"}}}, partyThread},
	{talk.Command{Name: "party here", Help: "Let the party live in this channel or thread; its reminders come here",
		Access: talk.CoHosts, Example: "/party here"}, partyHere},
}

// maxThread is how long a thread's name may be: the shortest of the faces' limits.
const maxThread = 100

func partyThread(ctx context.Context, t *Turn) (talk.Reply, error) {
	if t.Request.Open == nil {
		return talk.Reply{}, talk.Refuse("/party here",
			"No thread can be opened from here; say it in the channel where it is to be.")
	}
	name := t.text("name")
	if name == "" {
		name = t.Party.Name
	}
	if r := []rune(name); len(r) > maxThread {
		name = string(r[:maxThread])
	}
	channel, err := t.Request.Open(ctx, name)
	if err != nil {
		return talk.Reply{}, err
	}
	t.moveTo(channel)
	return talk.Reply{Text: fmt.Sprintf("%s lives in the thread %s now; reminders that are not sent directly come there.",
		t.Party.Name, name),
		Place: channel, Next: "Next: /remind direct on:yes for yours as direct messages"}, nil
}

func partyHere(_ context.Context, t *Turn) (talk.Reply, error) {
	if t.said != "" {
		return talk.Reply{}, talk.Refuse("/remind direct on:yes",
			"These are your own messages, which the others do not see. Say it in the channel where %s is to live.", t.Party.Name)
	}
	if t.Party.Channel == t.Request.Channel {
		return talk.Reply{Text: t.Party.Name + " lives here already.", Next: "Next: /party show"}, nil
	}
	t.moveTo(t.Request.Channel)
	return talk.Reply{Text: t.Party.Name + " lives here now; reminders that are not sent directly come here.",
		Next: "Next: /party show"}, nil
}

func (t *Turn) moveTo(channel string) {
	t.Party.Channel = channel
	t.did("moved the party to another channel")
}

// livingIn is the only party that lives in a channel; 0 when there is none or several.
func livingIn(channel string, all []store.Summary) planner.PartyID {
	var id planner.PartyID
	for _, p := range all {
		if p.Channel != channel {
			continue
		}
		if id != 0 {
			return 0
		}
		id = p.ID
	}
	return id
}
