package bot

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
)

// Whose account somebody's is decides who may change the party and whose telephone rings. So only a host binds an
// account to a person, or that person does, in the party's channel where all can see it; who loses it hears of it. And
// what silences somebody is theirs to say: a host may ask them.

var iAmCommand = command{talk.Command{Name: "people i-am", Help: "Say which of the people you are, so that you can " +
	"press, and are called", Access: talk.Newcomers, Example: "/people i-am who:Ben",
	Options: []talk.Option{{Name: "who", Help: "who you are", Kind: talk.PersonOption, Required: true, Example: "Ben"}}},
	peopleIAm}

func peopleIAm(_ context.Context, t *Turn) (talk.Reply, error) {
	x, id := t.Party.Person(t.values["who"].person), t.Request.User.ID
	switch {
	case t.Me != nil && t.Me.Key == x.Key:
		return talk.Reply{Text: "I know you as " + x.Name + " already.", Next: "Next: /now"}, nil
	case t.Me != nil:
		return talk.Reply{}, talk.Refuse("/people list", "You are %s here; an account is one person.", t.Me.Name)
	case x.Chat != "":
		return talk.Reply{}, talk.Refuse("", "%s has an account already. If it is the wrong one, %s can change that.",
			x.Name, hostNames(t.Party))
	case x.Role == planner.Host:
		return talk.Reply{}, talk.Refuse("", "A host's account is for a host to give: ask %s.", hostNames(t.Party))
	}
	x.Chat = id
	t.did("is %s", x.Name)
	account := talk.Clean(t.Request.User.Name, false)
	rep := talk.Reply{Text: fmt.Sprintf("Welcome: %s is %s.\nWhat is theirs rings on their phone now.", account, x.Name),
		Next: "Next: /now, or /task list show:mine"}
	if account == x.Name {
		rep.Text = fmt.Sprintf("Welcome, %s.\nWhat is yours rings on your phone now.", x.Name)
	}
	rep.Buttons = []talk.Button{t.button("My tasks", "task list", "show", "mine")}
	if len(t.openTasksOf(x.Key)) == 0 && x.Role != planner.Onlooker {
		rep.Buttons = append(rep.Buttons, t.button("Open tasks", "task list", "show", "open"))
	}
	t.finish = func(r *talk.Reply) {
		for i := range t.Party.People {
			if h := &t.Party.People[i]; h.Role == planner.Host && h.Chat != "" {
				m := t.hear(h.Chat, fmt.Sprintf("%s says: I am %s, at %s.", account, x.Name, t.Party.Name))
				m.Buttons = []talk.Button{t.button("That is wrong", "people change", "who", string(x.Key), "unlink", "yes")}
				r.Told = append(r.Told, m)
			}
		}
	}
	return rep, nil
}

// hear is a message to an account, directly where that can be, beside the reply.
func (t *Turn) hear(account, text string) talk.Told {
	return talk.Told{Party: planner.Party{ID: t.Party.ID, Name: t.Party.Name, Channel: t.Party.Channel},
		To: planner.Person{Name: account, Chat: account, Direct: true}, Text: text,
		Key: fmt.Sprintf("t%d.%d.%s", t.Party.ID, t.snapshot.Revision, account[max(0, len(account)-10):])}
}

// unlinked reports whether somebody cannot press, and is called by no telephone, since nobody knows their account.
func (t *Turn) unlinked(x *planner.Person) bool { return t.Request.Accounts != nil && x.Chat == "" }

// iAm are the buttons by which those without an account say who they are.
func (t *Turn) iAm(people ...planner.Person) (out []talk.Button) {
	for i := range people {
		if x := &people[i]; t.unlinked(x) && x.Role != planner.Host {
			out = append(out, t.button("I am "+short(x.Name), iAmCommand.Name, "who", string(x.Key)))
		}
	}
	return out
}

// picked is the account of the option user, and its name where the face knows it; empty: none was given.
func (t *Turn) picked() (id, name string, err error) {
	text := t.text("user")
	if text == "" {
		return "", "", nil
	}
	id, ok := account(text)
	if !ok || id == "" || len(id) > 64 {
		return "", "", talk.Refuse("user:@ben", "user: begins with an @, as in @ben; %q does not.", talk.Shown(text))
	}
	if t.Request.Accounts != nil && !t.Request.Accounts(id) {
		return "", "", talk.Refuse("/people add, and pick them at user:", "%q is no account that I know: pick somebody "+
			"from the list that user: offers, or give only a name.", talk.Shown(text))
	}
	if name = talk.Clean(t.Request.Names[id], false); name == "" && t.Request.Accounts == nil {
		name = id
	}
	return id, name, nil
}

// newPerson is who is to be added: by the name that was typed, else by that of the account that was picked.
func (t *Turn) newPerson() (x planner.Person, id string, err error) {
	name := t.text("name")
	id, called, err := t.picked()
	if err != nil {
		return x, "", err
	}
	if name = cmp.Or(name, called); name == "" {
		return x, "", talk.Refuse(t.command.Example, "Say who it is: pick an account at user:, or give a name.")
	}
	if r := []rune(name); len(r) > planner.MaxName {
		name = string(r[:planner.MaxName])
	}
	if o := personOf(t.Party, talk.User{ID: id}); o != nil {
		return x, "", talk.Refuse("/people change who:"+o.Name, "%s is one of the people already.", o.Name)
	}
	var keys []string
	for _, o := range t.Party.People {
		keys = append(keys, string(o.Key))
		if words.Fold(o.Name) == words.Fold(name) {
			return x, "", talk.Refuse("/people change who:"+name, "%s is one of the people already.", o.Name)
		}
	}
	key := freshKey(name, "person", keys)
	if slices.Contains(keys, key) {
		return x, "", talk.Refuse("", "Choose a name that can be told apart from those of the others; %q cannot.", name)
	}
	x = planner.Person{Key: planner.PersonKey(key), Name: name, Role: planner.CoHost, Cooks: startCooks, Home: startHome,
		Quiet: startQuiet}
	if t.Me.Role == planner.Host {
		x.Chat = id // else they say so themselves
	}
	return x, id, nil
}

// askWho asks somebody who was added, and has no account, to say who they are; directly, where by is no host and has
// picked their account.
func (t *Turn) askWho(rep *talk.Reply, x *planner.Person, id, by string) {
	if !t.unlinked(x) {
		return
	}
	rep.Text += fmt.Sprintf("\n%s presses the button to be called, and to press others.", x.Name)
	rep.Buttons = append(t.iAm(*x), rep.Buttons...)
	if id != "" {
		rep.Told = []talk.Told{t.hear(id, fmt.Sprintf("%s has added you to %s as %s.\nPress the button \"I am %s\" there, "+
			"and you are called when something is yours.", by, t.Party.Name, x.Name, x.Name))}
	}
}

// bind gives somebody an account, or takes it away, and lets whoever had it hear of that.
func (t *Turn) bind(x *planner.Person) error {
	id, _, err := t.picked()
	if err != nil || id == "" && !t.yes("unlink", false) || id == x.Chat {
		return err
	}
	if o := personOf(t.Party, talk.User{ID: id}); o != nil && o.Key != x.Key {
		return talk.Refuse("/people change who:"+o.Name+" unlink:yes", "That account is %s's already.", o.Name)
	}
	self := t.Me.Key == x.Key && (id == t.Request.User.ID || id == "")
	if t.Me.Role != planner.Host && !self {
		return talk.Refuse("/people i-am who:"+x.Name, "Only a host gives somebody an account; or they say "+
			"themselves, here: I am %s.", x.Name)
	}
	had := x.Chat
	x.Chat = id
	canHost := func(o planner.Person) bool { return o.Role == planner.Host && o.Chat != "" }
	if id == "" && x.Role == planner.Host && !slices.ContainsFunc(t.Party.People, canHost) {
		return talk.Refuse("/people change who:… role:host",
			"A party needs a host with an account; make somebody else host "+
				"first.")
	}
	if had != "" && had != t.Request.User.ID {
		text := fmt.Sprintf("You are no longer %s at %s: %s has taken your account off.", x.Name, t.Party.Name, t.Me.Name)
		if id != "" {
			text = fmt.Sprintf("You are no longer %s at %s: %s has given that to another account.", x.Name, t.Party.Name,
				t.Me.Name)
		}
		t.hears = append(t.hears, t.hear(had, text+"\nYour tasks there are not yours now. If that is wrong, ask "+
			hostNames(t.Party)+"."))
	}
	return nil
}

// silences asks somebody, where a host would change when and where their reminders ring: that is for them to say, by
// a button. Others are refused. asks is false where it is the asker's own.
func (t *Turn) silences(x *planner.Person, what string, command string, options ...string) (rep talk.Reply, asks bool,
	err error) {
	switch {
	case x.Key == t.Me.Key:
		return rep, false, nil
	case t.Me.Role != planner.Host:
		return rep, false, talk.Refuse("/remind quiet hours:22:00-7:00", "When %s is reminded is theirs to say; yours is "+
			"/remind.", x.Name)
	}
	yes := t.button("Yes, that is fine", command, options...)
	yes.Style = talk.Main
	rep = talk.Reply{Text: fmt.Sprintf("%s, %s would %s. Is that fine? Nothing changes until you press.", x.Name,
		t.Me.Name, what), Buttons: []talk.Button{yes}, Next: "Next: only " + x.Name + " can press it"}
	if x.Chat != "" {
		m := t.hear(x.Chat, fmt.Sprintf("%s would %s, at %s. Is that fine?", t.Me.Name, what, t.Party.Name))
		m.Buttons = rep.Buttons
		rep.Told = []talk.Told{m}
	}
	return rep, true, nil
}
