package discord

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"tureen/bot"
	"tureen/bot/discord/standin"
	"tureen/bot/talk"
	"tureen/planner/words"
	"tureen/reminders"
	"tureen/store"
)

// TestCommandsOnce: commands are registered when they differ, and only then.
func TestCommandsOnce(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	if n := h.server.Registered(); n != 1 {
		t.Errorf("registered %d times, want 1", n)
	}
	if err := h.stop(); err != nil {
		t.Fatal(err)
	}
	h.start(patient())
	if n := h.server.Registered(); n != 1 {
		t.Errorf("registered %d times after a restart, want 1", n)
	}
	all := 0
	for _, c := range h.server.Commands() {
		subs := 0
		for _, o := range c["options"].([]any) {
			if fmt.Sprint(o.(map[string]any)["type"]) == "1" {
				subs++
			}
		}
		all += max(1, subs)
	}
	if want := len(h.bot.Commands()); all != want {
		t.Errorf("%d commands on the platform, %d in the bot", all, want)
	}
}

// TestOtherLanguages: a client in German or French offers commands, options and choices in its language, what is
// typed there does the same, and of two starts only the first registers. A change of one word registers anew.
func TestOtherLanguages(t *testing.T) {
	if testing.Short() {
		t.Skip("one press after the other: nothing for the race detector")
	}
	t.Parallel()
	h := newHouse(t)
	anna, luc := h.person("Anna"), h.person("Luc")
	anna.Locale, luc.Locale = "de", "fr"
	for _, c := range []struct {
		who     *standin.Person
		command string
		options map[string]string
		want    string
	}{
		{anna, "feier neu", map[string]string{"name": "Herbst", "datum": "2026-09-05", "ankunft": "19:00", "gedecke": "4",
			"gänge": "main 20:00"}, "Herbst"},
		{anna, "leute hinzufügen", map[string]string{"name": "Luc", "rolle": "Mitgastgeber", "konto": "<@" + luc.ID + ">"},
			"co-host"},
		{luc, "plat ajouter", map[string]string{"nom": "Tarte aux poires", "service": "main", "portions": "4"},
			"Tarte aux poires"},
		{luc, "boisson ajouter", map[string]string{"nom": "Crémant", "type": "vin effervescent", "bouteilles": "2"},
			"sparkling"},
		{anna, "jetzt", nil, "plan"},
	} {
		if a := final(t, c.who, c.who.Slash(c.command, c.options, nil)); a.Silent || a.Refused != "" ||
			!strings.Contains(a.Text(), c.want) {
			t.Errorf("%s: got %q, want %q in it", c.command, a.Text(), c.want)
		}
	}
	if a := luc.Complete("plat montrer", nil, "plat", "tar"); len(a.Choices) != 1 ||
		a.Choices[0].Value != "tarte-aux-poires" {
		t.Errorf("completion: got %v", a.Choices)
	}
	if err := h.stop(); err != nil {
		t.Fatal(err)
	}
	h.start(patient())
	if n := h.server.Registered(); n != 1 {
		t.Errorf("registered %d times after a restart, want 1", n)
	}
	h.server.Commands()[0]["options"].([]any)[0].(map[string]any)["name_localizations"].(map[string]any)["de"] = "anders"
	if err := h.stop(); err != nil {
		t.Fatal(err)
	}
	h.start(patient())
	if n := h.server.Registered(); n != 2 {
		t.Errorf("registered %d times after a word has changed, want 2", n)
	}
}

// TestSlow: a reply that is not there in time is announced and follows; what is for one alone stays so.
func TestSlow(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	if err := h.stop(); err != nil {
		t.Fatal(err)
	}
	q := patient()
	q.deferAfter = 0
	h.start(q)
	before := h.server.Calls("PATCH /webhooks/:/:/messages/:")
	a := h.say("Ada", "/plan show")
	if a.Message == nil || a.Message.Ephemeral() || !strings.Contains(a.Text(), "roast the roots") {
		t.Errorf("got %q", a.Text())
	}
	if h.server.Calls("PATCH /webhooks/:/:/messages/:") == before {
		t.Error("it was not announced")
	}
	h.say("Ada", "/dish remove dish:nothing-of-the-kind")
	ada := h.person("Ada")
	eventually(t, "the refusal stands alone", func() bool {
		list := ada.Messages()
		last := list[len(list)-1]
		return last.Ephemeral() && strings.Contains(last.Content, "nothing-of-the-kind") &&
			!strings.Contains(list[len(list)-2].Content, "The answer is for")
	})
	for _, m := range h.person("Ben").Messages() {
		if strings.Contains(m.Content, "nothing-of-the-kind") {
			t.Error("another person sees the refusal")
		}
	}
}

// TestTwice: the platform may send an event twice, and people press twice.
func TestTwice(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.must("Ada", "/party new name:Supper date:2026-09-05 arrive:19:00 covers:4")
	i := h.person("Ada").Begin("guest add", map[string]string{"name": "Oona"}, true)
	if a := h.person("Ada").Await(i); a.Message == nil || a.Refused != "" {
		t.Fatalf("got %q", a.Text())
	}
	if a := h.say("Ada", "/guest list"); !strings.Contains(a.Text(), "Oona") {
		t.Errorf("no guest: %s", a.Text())
	}
	if n := h.server.Calls("POST /interactions/:/:/callback"); n != 3 {
		t.Errorf("%d answers to three interactions", n)
	}
}

// TestRemovedAndAddedAgain: a community that throws the bot out and takes it back finds its party as it was.
func TestRemovedAndAddedAgain(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	before := kept(t, h.store, store.Community(h.guild))
	h.server.Dispatch("GUILD_DELETE", map[string]any{"id": h.guild})
	h.server.Dispatch("GUILD_CREATE", map[string]any{"id": h.guild, "name": "home"})
	h.server.Dispatch("SOMETHING_NEW", map[string]any{"x": []any{1}})
	h.server.Dispatch("INTERACTION_CREATE", map[string]any{"id": 7, "type": "odd"})
	if a := h.must("Ada", "/party show"); !strings.Contains(a.Text(), "Supper") {
		t.Errorf("got %q", a.Text())
	}
	if kept(t, h.store, store.Community(h.guild)) != before {
		t.Error("something changed")
	}
}

// TestClaimButtons: two people press one button; one gets the task, and the button works after a restart.
func TestClaimButtons(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	list := h.must("Ada", "/task list")
	var claim standin.Component
	for _, b := range list.Message.Buttons() {
		if strings.HasPrefix(b.Label, "Claim") && strings.Contains(b.CustomID, "lay-table") {
			claim = b
			break
		}
	}
	if claim.CustomID == "" {
		t.Fatalf("no claim button: %+v", list.Message.Buttons())
	}
	if err := h.stop(); err != nil {
		t.Fatal(err)
	}
	h.start(patient())
	type told struct {
		who  string
		text string
	}
	answers := make(chan told, 2)
	for _, who := range []string{"Ada", "Ben"} {
		p := h.person(who)
		go func() { answers <- told{who, p.PressID(list.Message, claim.CustomID).Text()} }()
	}
	got := 0
	for range 2 {
		switch a := <-answers; {
		case strings.Contains(a.text, "It is yours"):
			got++
		case a.text == "The answer is for "+a.who+" alone.": // announced on a slow machine: the answer follows
			eventually(t, "the other is told who has it", func() bool {
				return slices.ContainsFunc(h.person(a.who).Messages(), func(m standin.Message) bool {
					return m.Ephemeral() && strings.Contains(m.Content, "has it")
				})
			})
		case !strings.Contains(a.text, "has it"):
			t.Errorf("the other is told %q", a.text)
		}
	}
	if got != 1 {
		t.Errorf("%d people got it, want 1", got)
	}
}

// TestForgedInteractions: what is wrong with an interaction is said to whoever sent it, or refused; nothing
// panics, nothing changes, and no other community's data is seen.
func TestForgedInteractions(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	elsewhere := h.server.Guild()
	eve := h.server.Person("Eve", elsewhere, h.server.Channel(elsewhere))
	eve.Admin = true
	before := kept(t, h.store, store.Community(h.guild))
	show := h.must("Ada", "/party show")
	some := show.Message
	for _, c := range []struct {
		name string
		do   func() standin.Answer
	}{
		{"a command that is not there", func() standin.Answer { return eve.Raw(2, map[string]any{"name": "sing"}) }},
		{"a subcommand that is not there", func() standin.Answer {
			return eve.Raw(2, map[string]any{"name": "dish", "options": []any{map[string]any{"name": "sing", "type": 1}}})
		}},
		{"no subcommand", func() standin.Answer { return eve.Raw(2, map[string]any{"name": "dish"}) }},
		{"a missing option", func() standin.Answer {
			return eve.Raw(2, map[string]any{"name": "party", "options": []any{map[string]any{"name": "new", "type": 1}}})
		}},
		{"an option of another type", func() standin.Answer {
			return eve.Raw(2, map[string]any{"name": "party",
				"options": []any{map[string]any{"name": "new", "type": 1, "options": []any{
					map[string]any{"name": "name", "type": 3, "value": map[string]any{"a": 1}},
					map[string]any{"name": "covers", "type": 4, "value": "many"}}}}})
		}},
		{"a file that is not attached", func() standin.Answer {
			return eve.Raw(2, map[string]any{"name": "dish",
				"options": []any{map[string]any{"name": "add", "type": 1, "options": []any{
					map[string]any{"name": "file", "type": 11, "value": "123"}}}}})
		}},
		{"another community's party by its number", func() standin.Answer {
			return eve.Slash("party show", map[string]string{"party": "1"}, nil)
		}},
		{"another community's party by its name", func() standin.Answer {
			return eve.Slash("party show", map[string]string{"party": "Supper"}, nil)
		}},
		{"another community's button", func() standin.Answer {
			return eve.PressID(some, "ba:task claim task:roast-roots/cut party:1")
		}},
		{"a page of what changes something", func() standin.Answer {
			return eve.PressID(some, "pa01abcd:party remove sure:yes party:1")
		}},
		{"a page of another community's", func() standin.Answer { return eve.PressID(some, "pa02abcd:plan show party:1") }},
		{"a list's item of nothing", func() standin.Answer { return eve.ChooseID(some, "la", "b") }},
		{"another community's button, in its place", func() standin.Answer {
			return eve.PressID(some, "ia:now person:ada party:1")
		}},
		{"a custom id of nothing", func() standin.Answer { return eve.PressID(some, "x") }},
		{"a custom id cut short", func() standin.Answer { return eve.PressID(some, "ra") }},
		{"a custom id of another program", func() standin.Answer { return eve.PressID(some, "vote:yes") }},
		{"a custom id of an unknown command", func() standin.Answer { return eve.PressID(some, "ba:sing loudly") }},
		{"a modal that nobody opened", func() standin.Answer {
			return eve.Raw(5, map[string]any{"custom_id": "m", "components": []any{}})
		}},
		{"a modal without data (the library panics: #1705)", func() standin.Answer { return eve.Raw(5, nil) }},
		{"a modal of labels (the library cannot read it: #1683)", func() standin.Answer {
			return eve.Raw(5, map[string]any{"custom_id": "m:recipe read",
				"components": []any{map[string]any{"type": 18, "component": map[string]any{"type": 4, "custom_id": "text",
					"value": "Roast roots"}}}})
		}},
		{"a modal for another community's party", func() standin.Answer {
			return eve.Raw(5, map[string]any{"custom_id": "m:recipe read party:1",
				"components": []any{map[string]any{"type": 1,
					"components": []any{map[string]any{"type": 4, "custom_id": "text", "value": "Salt"}}}}})
		}},
		{"a modal with an input that is not the command's", func() standin.Answer {
			return eve.Raw(5, map[string]any{"custom_id": "m:help",
				"components": []any{map[string]any{"type": 1,
					"components": []any{map[string]any{"type": 4, "custom_id": "token", "value": "x"}}}}})
		}},
		{"a command without data", func() standin.Answer { return eve.Raw(2, nil) }},
		{"an interaction of no kind", func() standin.Answer { return eve.Raw(9, nil) }},
	} {
		a := final(t, eve, c.do())
		switch {
		case a.Refused != "":
			t.Errorf("%s: the client refuses: %s", c.name, a.Refused)
		case a.Silent || a.Message == nil:
			t.Errorf("%s: no answer", c.name)
		case !a.Message.Ephemeral() || a.Text() == "":
			t.Errorf("%s: not for the asker alone, or empty: %q", c.name, a.Text())
		case strings.Contains(a.Text(), "Roast"):
			t.Errorf("%s: tells of another community: %q", c.name, a.Text())
		}
	}
	// In direct messages, only a message of the bot's own says which party's it is.
	direct := eve.InDirect()
	if a := direct.PressID(some, "ba:party show party:1"); !strings.Contains(a.Text(), "no party") &&
		!a.Message.Ephemeral() {
		t.Errorf("in direct messages: %q", a.Text())
	}
	if kept(t, h.store, store.Community(h.guild)) != before {
		t.Error("something changed")
	}
	if all, err := h.store.List(context.Background(), store.Community(elsewhere)); err != nil || len(all) != 0 {
		t.Errorf("the other community has %d parties, %v", len(all), err)
	}
}

// TestBadFiles: what is no recipe is refused with what to attach, whatever it says that it is.
func TestBadFiles(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	before := kept(t, h.store, store.Community(h.guild))
	for _, f := range []standin.File{
		{Name: "cake.png", Type: "image/png", Data: []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR")},
		{Name: "cake.txt", Type: "text/plain", Data: []byte("\x00\x01\x02\xff\xfe")},
		{Name: "cake.zip", Type: "application/zip", Data: []byte("PK\x03\x04\x00\x00")},
		{Name: "cake.txt", Type: "text/plain"},
		{Name: "../../etc/cake.txt", Type: "text/html; charset=nonsense", Data: []byte("<html><script>alert(1)</script>")},
		{Name: "cake.json", Type: "application/ld+json", Data: []byte(`{"@type":"Recipe"`)},
	} {
		var a standin.Answer
		for range 10 { // on a slow machine it may be announced, and follow
			a = h.person("Ada").Slash("recipe read", nil, map[string]standin.File{"file": f})
			if a.Text() != "The answer is for Ada alone." {
				break
			}
		}
		if a.Silent || a.Message == nil || !a.Message.Ephemeral() || a.Text() == "" || strings.Contains(a.Text(), "<script") {
			t.Errorf("%s of type %s: got %q", f.Name, f.Type, a.Text())
		}
	}
	if kept(t, h.store, store.Community(h.guild)) != before {
		t.Error("something changed")
	}
}

// TestUnseenCharacters: a name that cannot be seen is refused, and what would turn the rest of a line around is taken
// out of the others.
func TestUnseenCharacters(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	for _, name := range []string{"\u200b\u200d", "\u202e\u2066", "\ufeff", " \t ", "\u3164", "\u2800\ufe0f"} {
		a := h.person("Ada").Slash("party new", map[string]string{"name": name, "date": "2026-09-05", "arrive": "19:00",
			"covers": "4"}, nil)
		if a.Message == nil || !a.Message.Ephemeral() {
			t.Errorf("%q: got %q", name, a.Text())
		}
	}
	a := h.person("Ada").Slash("party new", map[string]string{"name": "Sup\u202eper \u2067שלום\u2069",
		"date": "2026-09-05", "arrive": "19:00", "covers": "4"}, nil)
	if a.Message == nil || !strings.Contains(a.Text(), "Supper שלום") ||
		strings.ContainsAny(a.Text(), "\u202e\u2067\u2069") {
		t.Errorf("got %q", a.Text())
	}
}

// TestMarkUpInNames: nobody can ping everybody, or draw, through a name.
func TestMarkUpInNames(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	name := "@everyone **<@1>** `x` ~~_y_~~ ||z|| [a](https://example.org) # h שלום\u202e\u200b"
	a := h.must("Ada", `/party new name:"`+name+`" date:2026-09-05 arrive:19:00 covers:4`)
	if !strings.HasPrefix(a.Text(), "@everyone \\*\\*\\<@1>\\*\\* \\`x\\` \\~\\~\\_y\\_\\~\\~ \\|\\|z\\|\\| "+
		"\\[a\\](https://example.org)") {
		t.Errorf("mark-up went through: %s", a.Text())
	}
	if len(a.Message.Mentions) > 0 {
		t.Errorf("it notifies %v", a.Message.Mentions)
	}
}

func TestEscape(t *testing.T) {
	for in, want := range map[string]string{
		"plain text, 20-30 min":              "plain text, 20-30 min",
		"# heading":                          `\# heading`,
		"#tag":                               "#tag",
		"> quote":                            `\> quote`,
		"- item\n1. first":                   "\\- item\n1\\. first",
		"-# small":                           `\-# small`,
		"* item":                             `\* item`,
		"a*b_c~d`e|f[g<h":                    "a\\*b\\_c\\~d\\`e\\|f\\[g\\<h",
		"see https://example.org/a_b?c=d_e.": `see https://example.org/a_b?c=d_e.`,
		`back\slash`:                         `back\\slash`,
	} {
		if got := escape(in); got != want {
			t.Errorf("escape(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestTimestamps(t *testing.T) {
	at := time.Date(2026, 9, 5, 18, 35, 0, 0, time.UTC)
	if got, want := marked("On "+words.Stamp(at, words.DayClock, time.UTC)+": go"+words.TypedKey("a_b/c")+"."),
		"On Sat <t:1788633300:t>: go."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	night := time.Date(2026, 9, 5, 23, 10, 0, 0, time.UTC)
	if got, want := marked("At "+words.Stamp(night, words.DayClock, time.UTC)), "At <t:1788649800:F>"; got != want {
		t.Errorf("at night: got %q, want %q", got, want)
	}
	in := "At " + words.Stamp(at, words.Clock, time.UTC) + ", on " + words.Stamp(at, words.Date, time.UTC) + ": *go*"
	if got, want := marked(in), `At <t:1788633300:t>, on Sat 5 Sep: \*go\*`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := worded(in), `At 18:35, on Sat 5 Sep: \*go\*`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestDrawWithinLimits draws replies of every size; the stand-in's checks are the judge.
func TestDrawWithinLimits(t *testing.T) {
	for _, c := range []struct {
		name string
		rep  talk.Reply
		file bool // all of it is in a file as well
	}{
		{"nothing", talk.Reply{}, false},
		{"a line", talk.Reply{Text: "Done.", Next: "Next: /now"}, false},
		{"a long text", talk.Reply{Text: strings.Repeat("a word and *another* ", 300), Next: "Next: /now"}, true},
		{"one word without end", talk.Reply{Text: strings.Repeat("\\", 5000)}, true},
		{"many short sections", talk.Reply{Text: "Long.", Sections: sections(40, 2, 20), Next: strings.Repeat("n", 400)},
			false},
		{"sections past the cards", talk.Reply{Text: "Long.", Sections: sections(30, 20, 60)}, true},
		{"a line longer than a card", talk.Reply{Text: "Long.", Sections: sections(1, 1, 9000)}, true},
		{"a line of two cards", talk.Reply{Text: "Long.", Sections: sections(1, 1, 5000)}, false},
		{"empty sections", talk.Reply{Text: "x", Sections: []talk.Section{{}, {Title: "t"}, {Lines: []string{""}}}}, false},
		{"only empty sections", talk.Reply{Sections: []talk.Section{{}, {Lines: []string{"", ""}}}}, false},
		{"ten buttons alike", talk.Reply{Text: "x", Buttons: buttons(10, 88)}, false},
		{"25 buttons alike", talk.Reply{Text: "x", Buttons: buttons(25, 88)}, false},
		{"more buttons than there is room for", talk.Reply{Text: "x", Buttons: buttons(80, 10)}, false},
		{"a file", talk.Reply{Text: "x", Files: []talk.File{{Name: "a.png", Type: "image/png", Data: []byte("x"),
			Alt: strings.Repeat("seen ", 400)}}}, false},
		{"too many files", talk.Reply{Text: strings.Repeat("y", 1990), Files: make([]talk.File, 12)}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := standin.New(t)
			r := newTestRest(t, s, quick())
			for i := range c.rep.Files {
				c.rep.Files[i].Name = fmt.Sprintf("f%d.txt", i)
			}
			p := s.Person("Ada", s.Guild(), s.Channel("1"))
			d := drawWith(c.rep, asIs)
			if err := r.send(context.Background(), "POST", "channels/"+p.Where+"/messages", d.message, d.files,
				nil); err != nil {
				t.Fatal(err)
			}
			m := p.Messages()[0]
			if got := len(m.Files) > 0 && m.Files[0].Name == "tureen.txt"; got != c.file {
				t.Errorf("in a file: %v, want %v", got, c.file)
			}
			if c.file && string(m.Files[0].Data) != plainText(c.rep) {
				t.Error("the file does not hold all")
			}
			var ids []string
			for _, b := range m.Buttons() {
				ids = append(ids, b.CustomID)
			}
			for _, o := range m.Items() {
				ids = append(ids, o.Value)
			}
			if want := min(len(c.rep.Buttons), mostButtons+maxLists*listItems); len(ids) != want {
				t.Errorf("%d buttons and items of %d, want %d", len(ids), len(c.rep.Buttons), want)
			}
			for i, id := range ids {
				if do, ok := said(id); !ok || do != c.rep.Buttons[i].Do {
					t.Errorf("button %d says %q, want %q", i, do, c.rep.Buttons[i].Do)
				}
			}
		})
	}
}

func sections(n, lines, length int) []talk.Section {
	var out []talk.Section
	for i := range n {
		s := talk.Section{Title: fmt.Sprintf("Part %d", i)}
		for range lines {
			s.Lines = append(s.Lines, strings.Repeat("abcdefghi ", length/10))
		}
		out = append(out, s)
	}
	return out
}

func buttons(n, length int) []talk.Button {
	var out []talk.Button
	for range n {
		out = append(out, talk.Button{Label: strings.Repeat("Claim ", 20), Do: strings.Repeat("d", length)})
	}
	return out
}

// TestCompletion offers what fits as one types, by what is already chosen, and nothing to strangers.
func TestCompletion(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	a := h.person("Ada").Complete("dish show", nil, "dish", "roa")
	if len(a.Choices) != 1 || a.Choices[0].Name != "Roast roots" || a.Choices[0].Value != "roast-roots" {
		t.Errorf("got %v", a.Choices)
	}
	if a := h.person("Ada").Complete("task claim", nil, "task", "roots"); len(a.Choices) < 2 {
		t.Errorf("tasks: got %v", a.Choices)
	}
	if a := h.person("Zoe").Complete("dish show", nil, "dish", ""); a.Silent || len(a.Choices) != 0 {
		t.Errorf("a stranger is offered %v", a.Choices)
	}
}

// TestMention: a person typed as a mention is found by their account.
func TestMention(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	a := h.must("Ada", "/task assign task:roast-roots/cut to:<@"+h.person("Ben").ID+">")
	if !strings.Contains(a.Text(), "Ben") {
		t.Errorf("got %q", a.Text())
	}
}

// TestTokenRefused: a wrong token ends serving, with a reason to act on that does not hold the token.
func TestTokenRefused(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	b := bot.New(openStore(t), time.Now, nil, bot.Options{})
	f, err := newFace(b, Options{Token: "wrong-token", API: s.URL}, quick())
	if err != nil {
		t.Fatal(err)
	}
	err = serve(context.Background(), f.Run, (&reminders.Dispatcher{Store: openStore(t), Deliverer: f}).Run)
	if err == nil || !strings.Contains(err.Error(), TokenVariable) || strings.Contains(err.Error(), "wrong-token") {
		t.Errorf("got %v", err)
	}
}

// TestServeFlags: what makes no sense is said before anything is opened.
func TestServeFlags(t *testing.T) {
	t.Chdir(t.TempDir()) // where a database would be made by default
	for _, c := range []struct {
		args  []string
		token string
		want  string
	}{
		{[]string{"-api", "http://192.0.2.1:80"}, "x", "not on this machine"},
		{[]string{"-api", "nonsense"}, "x", "no URL"},
		{nil, "", TokenVariable},
		{[]string{"-zone", "Atlantis"}, "x", "no time zone"},
		{[]string{"now"}, "x", "no flag"},
		{[]string{"-interactions", "127.0.0.1:0", "-public-key", "abc"}, "x", "public key"},
		{[]string{"-db", t.TempDir()}, "x", "folder"},
		{[]string{"-shards", "-1"}, "x", "-shards"},
		{[]string{"-shards", "2", "-shard", "0/2"}, "x", "not both"},
		{[]string{"-shard", "2/2"}, "x", "no shard"},
		{[]string{"-shard", "one"}, "x", "no shard"},
		{[]string{"-metrics", "0.0.0.0:9095"}, "x", "not on this machine alone"},
		{[]string{"-metrics", ":9095"}, "x", "not on this machine alone"},
		{[]string{"-metrics", "192.0.2.1:9095"}, "x", "not on this machine alone"},
	} {
		t.Setenv(TokenVariable, c.token)
		var out, errs strings.Builder
		if status := Main(context.Background(), c.args, nil, &out, &errs); status == 0 ||
			!strings.Contains(errs.String(), c.want) {
			t.Errorf("%q: status %d, said %q, want %q in it", c.args, status, errs.String(), c.want)
		}
	}
}

// TestServeStatus: where starting again does not help, the exit status says so to whoever supervises.
func TestServeStatus(t *testing.T) {
	s := standin.New(t)
	t.Setenv(TokenVariable, "no-such-token")
	var out, errs strings.Builder
	if status := Main(context.Background(), []string{"-api", s.URL, "-db", filepath.Join(t.TempDir(), "tureen.db")}, nil,
		&out, &errs); status != needsYou {
		t.Errorf("a refused token: status %d, want %d: %s", status, needsYou, errs.String())
	}
	if status := Main(context.Background(), []string{"-api", s.URL, "-db", t.TempDir()}, nil, &out,
		&errs); status != cannotRun {
		t.Errorf("no database: status %d, want %d", status, cannotRun)
	}
}

// TestServe runs "tureen serve" as a person starts it, types to it, and interrupts it.
func TestServe(t *testing.T) {
	s := standin.New(t)
	t.Setenv(TokenVariable, standin.Token)
	ctx, interrupt := context.WithCancel(context.Background())
	defer interrupt()
	var out, errs strings.Builder
	ended := make(chan int, 1)
	go func() {
		ended <- Main(ctx, []string{"-api", s.URL, "-db", filepath.Join(t.TempDir(), "tureen.db")}, nil, &out,
			alsoLogged(&errs))
	}()
	if !s.Online(10 * time.Second) {
		t.Fatal("never online")
	}
	eventually(t, "commands are registered", func() bool { return s.Registered() == 1 })
	guild := s.Guild()
	p := s.Person("Ada", guild, s.Channel(guild))
	if a := p.Slash("party new", map[string]string{"name": "Supper",
		"date": time.Now().AddDate(0, 0, 9).Format("2006-01-02"), "arrive": "19:00", "covers": "4"},
		nil); !strings.Contains(a.Text(), "Supper") || a.Message.Ephemeral() {
		t.Errorf("got %q", a.Text())
	}
	interrupt()
	if status := <-ended; status != 0 {
		t.Errorf("exit status %d: %s", status, errs.String())
	}
	if strings.Contains(errs.String()+out.String(), standin.Token) {
		t.Error("the token is in the log")
	}
}

// TestExamples sends every command's example: a client lets it be typed, and there is an answer.
func TestExamples(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("types a hundred commands, one after the other")
	}
	h := newHouse(t)
	h.supper()
	for _, c := range h.bot.Commands() {
		line, err := h.bot.Parse(c.Example)
		if err != nil {
			t.Errorf("%s: %v", c.Example, err)
			continue
		}
		files := map[string]standin.File{}
		for name := range line.Files {
			files[name] = standin.File{Name: "a.txt", Type: "text/plain", Data: []byte("Roast roots")}
		}
		a := h.slash(h.person("Ada"), line.Command, line.Options, files)
		if a.Modal != nil {
			continue
		}
		if a.Refused != "" || a.Silent || a.Text() == "" {
			t.Errorf("%s: refused %q, silent %v", c.Example, a.Refused, a.Silent)
		}
		for _, o := range c.Options {
			if o.Rare || !slashOption(&o).Autocomplete {
				continue
			}
			for _, typed := range []string{"", "r"} {
				if a := h.person("Ada").Complete(c.Name, nil, o.Name, typed); a.Silent || a.Refused != "" {
					t.Errorf("%s %s: completion: %q, silent %v", c.Name, o.Name, a.Refused, a.Silent)
				}
			}
		}
	}
}

// TestIntentNotAllowed: serving with an intent that the application's page does not allow ends, with what to do.
func TestIntentNotAllowed(t *testing.T) {
	t.Parallel()
	s := standin.New(t)
	f, err := newFace(bot.New(openStore(t), time.Now, nil, bot.Options{}), Options{Token: standin.Token, API: s.URL,
		Members: true}, quick())
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Run(context.Background()); err == nil || !strings.Contains(err.Error(), "-members") {
		t.Errorf("got %v", err)
	}
}

// TestAttachments: files are fetched without the token, from the platform alone, and not when they are large.
func TestAttachments(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	for _, c := range []struct {
		name string
		a    attachment
		ok   bool
	}{
		{"a recipe", attachment{Filename: "soup.txt", Size: 4,
			URL: h.server.Keep(standin.File{Name: "soup.txt", Type: "text/plain", Data: []byte("soup")})}, true},
		{"one that is said to be large", attachment{Filename: "soup.txt", Size: 1 << 30, URL: h.server.URL}, false},
		{"one that is larger than was said", attachment{Filename: "big", Size: 4,
			URL: h.server.Keep(standin.File{Name: "big", Data: make([]byte, maxAttachment+1)})}, false},
		{"one that is gone", attachment{Filename: "soup.txt", Size: 4, URL: h.server.URL + "/files/1/soup.txt"}, false},
		{"one from elsewhere", attachment{Filename: "soup.txt", Size: 4, URL: "https://cdn.example.org/soup.txt"}, false},
	} {
		req := talk.Request{Files: map[string]talk.File{}}
		err := h.face.fetch(context.Background(), &req, map[string]attachment{"file": c.a})
		if (err == nil) != c.ok || c.ok && string(req.Files["file"].Data) != "soup" {
			t.Errorf("%s: got %v, %d files", c.name, err, len(req.Files))
		}
		var r *talk.Refusal
		if err != nil && !errors.As(err, &r) {
			t.Errorf("%s: %v is not for a person", c.name, err)
		}
	}
}

// TestForm: a recipe is pasted with its line breaks into a form, may be sent twice, and is read.
func TestForm(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	a := h.person("Ada").Slash("recipe read", nil, nil)
	if a.Modal == nil {
		t.Fatalf("no form: %q", a.Text())
	}
	text := "Seed bread\n\n500 g flour\n100 g seeds\n7 g dried yeast\n380 ml water\n\nMix everything and leave to rise " +
		"for 2 hours. Bake at 230 °C for 35 minutes."
	for range 2 {
		b := h.person("Ada").Submit(a.Modal, map[string]string{"text": text})
		if b.Message == nil || !strings.Contains(b.Text(), "Seed bread") || !strings.Contains(b.Text(), "500 g") {
			t.Errorf("got %q", b.Text())
		}
	}
	if b := h.person("Ada").Submit(a.Modal, map[string]string{"text": ""}); b.Message == nil || !b.Message.Ephemeral() {
		t.Errorf("an empty form: got %q", b.Text())
	}
	// What was read wrong is corrected in words in a form of its own.
	if a = h.person("Ada").Slash("recipe correct", nil, nil); a.Modal == nil {
		t.Fatalf("no form to correct in: %q", a.Text())
	}
	if b := h.person("Ada").Submit(a.Modal, map[string]string{"text": "the last step takes 40 minutes\n1 is hands, " +
		"20 minutes"}); b.Message == nil || !strings.Contains(b.Text(), "Steps that changed") ||
		!strings.Contains(b.Text(), "hands, 20 min") || strings.Contains(b.Text(), "500 g") {
		t.Errorf("corrected in the form: got %q", b.Text())
	}
	if b := h.person("Ada").Slash("recipe read", nil,
		map[string]standin.File{"file": {Name: "bread.txt", Type: "text/plain", Data: []byte(text)}}); b.Message == nil ||
		!strings.Contains(b.Text(), "Seed bread") {
		t.Errorf("as a file: got %q", b.Text())
	}
}

// TestFinishing: what is under way when the process is to end is finished and answered.
func TestFinishing(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	h.server.Break(standin.Fault{Route: "/interactions/:/:/callback", Delay: 300 * time.Millisecond, Status: 500})
	i := h.person("Ada").Begin("guest add", map[string]string{"name": "Late Lena"}, false)
	before := h.server.Calls("POST /interactions/:/:/callback")
	eventually(t, "the answer is on its way", func() bool {
		return h.server.Calls("POST /interactions/:/:/callback") > before
	})
	if err := h.stop(); err != nil {
		t.Fatal(err)
	}
	if a := h.person("Ada").Await(i); a.Message == nil || !strings.Contains(a.Text(), "Late Lena") {
		t.Errorf("got %q", a.Text())
	}
}

// TestLateAnswer: an interaction that the platform has given up (10062) is answered in the channel.
func TestLateAnswer(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.must("Ada", "/party new name:Supper date:2026-09-05 arrive:19:00 covers:4")
	h.server.Break(standin.Fault{Route: "/interactions/:/:/callback", Status: 404,
		Body: `{"message": "Unknown interaction", "code": 10062}`})
	n := len(h.person("Ada").Messages())
	h.person("Ada").Begin("course add", map[string]string{"name": "Late cheese", "at": "22:00"}, false)
	list := h.person("Ada").WaitMessages(n+1, 10*time.Second)
	if len(list) != n+1 || !strings.Contains(list[n].Text(), "Late cheese") {
		t.Errorf("got %d messages, want %d", len(list), n+1)
	}
}
