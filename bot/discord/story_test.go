package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"tureen/bot"
	"tureen/bot/discord/standin"
	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/measure"
	"tureen/reminders"
	"tureen/store"
)

// The terminal's acceptance scripts are told here twice: to the bot as it is, and through Discord. Both must
// leave the same in the store.

var (
	sitting = regexp.MustCompile(`(?m)^stdin (\S+)\n(?:status \d+ |exec |! exec )?tureen chat -db (\S+) -as (\S+) -now ` +
		`(\S+)`)
	speaker = regexp.MustCompile(`^([^>/#"\n]{1,60})>\s*(.*)$`)
)

// plainFace talks to the bot without any face between.
type plainFace struct {
	bot     *bot.Bot
	clock   *hands
	send    *reminders.Dispatcher
	mu      sync.Mutex
	buttons []talk.Button
}

// Deliver implements [reminders.Deliverer].
func (p *plainFace) Deliver(_ context.Context, n reminders.Note) (string, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if n.Edits == "" { // a terminal does not print them again
		p.buttons = append(p.buttons, bot.NoteReply(n).Buttons...)
	}
	return "here/" + n.Key, nil
}

// story tells one script to both.
type story struct {
	t        *testing.T
	house    *house
	store    *store.Store
	plain    *plainFace
	inputs   map[string]string // the script's files
	told     int
	most     int               // bytes that the store has held
	channels map[string]string // by name
	apart    int               // messages that a Discord client would not let one send
}

func newStory(t *testing.T) *story {
	s := &story{t: t, house: newHouse(t), store: openStore(t)}
	p := &plainFace{clock: &hands{}}
	p.bot = bot.New(s.store, p.clock.now, nil, bot.Options{})
	p.send = &reminders.Dispatcher{Store: s.store, Deliverer: p, Now: p.clock.now}
	s.plain = p
	return s
}

// line tells one line to both and reports whether both then hold the same.
func (s *story) line(as, text string) bool {
	s.tell(as, text)
	got := kept(s.t, s.house.store, store.Community(s.house.guild))
	want := kept(s.t, s.store, store.Community(s.house.guild))
	s.most = max(s.most, len(want))
	if got != want {
		s.t.Errorf("after %s\nthe stores differ (- the bot alone, + through Discord):\n%.3000s", text, cmp.Diff(want, got))
	}
	return got == want
}

func (s *story) tell(as, text string) {
	if text = strings.TrimSpace(text); text == "" || strings.HasPrefix(text, "#") {
		return
	}
	who := as
	if m := speaker.FindStringSubmatch(text); m != nil {
		who, text = strings.TrimSpace(m[1]), m[2]
	}
	h, ctx := s.house, context.Background()
	p := h.person(who)
	user := talk.User{ID: p.ID, Name: who, Admin: true}
	buttons := s.plain.buttons
	s.plain.buttons = nil
	s.told++
	word, rest, _ := strings.Cut(text, " ")
	switch word {
	case "wait":
		s.wait(user, rest)
		return
	case "channel":
		s.turnTo(strings.TrimSpace(rest))
		return
	case "press":
		n, err := strconv.Atoi(strings.TrimSpace(rest))
		if err != nil || n < 1 || n > len(buttons) {
			return
		}
		do := buttons[n-1].Do
		s.plainly(user, do)
		s.press(who, do)
	default:
		if !strings.HasPrefix(text, "/") {
			s.words(p, user, text)
			break
		}
		if m := regexp.MustCompile(`^/people add name:(\S+)`).FindStringSubmatch(text); m != nil &&
			!strings.Contains(text, "user:") {
			text += " user:<@" + h.person(m[1]).ID + ">"
		}
		line, err := s.plain.bot.Parse(text)
		if err != nil {
			return
		}
		files := map[string]standin.File{}
		for name, path := range line.Files {
			if _, there := s.inputs[path]; !there {
				return
			}
			files[name] = standin.File{Name: path, Type: "text/plain", Data: []byte(s.inputs[path])}
		}
		rep, a := talk.Reply{}, standin.Answer{}
		if line.Command == "party thread" { // the platform makes the thread's id
			a = h.slash(p, line.Command, line.Options, files)
			rep = s.plainly(user, text)
		} else {
			rep = s.plainly(user, text)
			a = h.slash(p, line.Command, line.Options, files)
		}
		if a.Message == nil && len(a.More) > 0 {
			a.Message = &a.More[0] // announced for all, answered for one
		}
		switch {
		case a.Refused != "":
			s.apart++
			if !rep.Refused {
				s.t.Errorf("%s: works, and a client refuses it: %s", text, a.Refused)
			}
		case a.Modal != nil && rep.Refused: // a form instead of a refusal
		case a.Silent || a.Message == nil:
			s.t.Errorf("%s: no answer", text)
		case strings.HasPrefix(a.Message.Content, "The answer is for"): // announced for all; it follows
		case a.Message.Ephemeral() != (rep.Private || rep.Refused || h.face.forOne(talk.Request{Command: line.Command,
			Options: line.Options})):
			s.t.Errorf("%s: seen by one alone: %v; refused %v, private %v", text, a.Message.Ephemeral(), rep.Refused,
				rep.Private)
		}
	}
	for _, d := range []*reminders.Dispatcher{s.plain.send, h.send} {
		if _, err := d.Tick(ctx, d.Now()); err != nil {
			s.t.Fatal(err)
		}
	}
}

// plainly says a message to the bot itself.
func (s *story) plainly(user talk.User, text string) talk.Reply {
	line, err := s.plain.bot.Parse("/" + strings.TrimPrefix(text, "/"))
	if err != nil {
		return talk.RefusedReply(err)
	}
	files := map[string]talk.File{}
	for name, path := range line.Files {
		files[name] = talk.File{Name: path, Type: "text/plain", Data: []byte(s.inputs[path])}
	}
	rep := s.plain.bot.Do(context.Background(), talk.Request{Community: s.house.guild, Channel: s.house.channel,
		User:    user,
		Command: line.Command, Options: line.Options, AsOf: line.AsOf, Files: files, Open: s.openThread})
	s.plain.buttons = append(s.plain.buttons, rep.Few()...)
	return rep
}

// words says something without a slash: to the bot, and with a mention in the channel.
func (s *story) words(p *standin.Person, user talk.User, text string) {
	h := s.house
	rep := s.plain.bot.Say(context.Background(), talk.Request{Community: h.guild, Channel: h.channel, User: user,
		Options: map[string]string{}, Open: s.openThread}, text)
	s.plain.buttons = append(s.plain.buttons, rep.Few()...)
	where := p
	if rep.Private {
		where = p.InDirect()
	}
	n := len(where.Messages())
	h.server.Dispatch("MESSAGE_CREATE", map[string]any{"id": strconv.Itoa(70000 + s.told), "type": 0,
		"channel_id": h.channel, "guild_id": h.guild, "content": "<@" + standin.Application + "> " + text,
		"mentions": []any{map[string]any{"id": standin.Application, "username": "tureen"}}, "attachments": []any{},
		"member": map[string]any{"nick": nil}, "author": map[string]any{"id": p.ID, "username": user.Name,
			"global_name": user.Name}})
	if rep.Text == "" {
		return // small talk
	}
	eventually(s.t, "the answer to "+text, func() bool { return len(where.Messages()) > n })
}

// turnTo moves everybody to the channel of a name, as the terminal's line does.
func (s *story) turnTo(name string) {
	h := s.house
	if s.channels == nil {
		s.channels = map[string]string{"": h.channel}
	}
	key := planner.Key(name)
	if s.channels[key] == "" {
		s.channels[key] = h.server.Channel(h.guild)
	}
	h.channel = s.channels[key]
	for who, p := range h.people {
		h.people[who] = p.In(h.guild, h.channel)
	}
}

// openThread answers the thread that the platform has opened for the same message.
func (s *story) openThread(_ context.Context, name string) (string, error) {
	if s.channels == nil {
		s.channels = map[string]string{"": s.house.channel}
	}
	id := s.house.server.Thread(s.house.channel, name)
	s.channels[planner.Key(name)] = id
	return id, nil
}

// press presses the latest button that does something, wherever it arrived.
func (s *story) press(who, do string) {
	p := s.house.person(who)
	for _, at := range []string{"direct", "channel"} {
		q := p
		if at == "direct" {
			q = p.InDirect()
		}
		list := q.Messages()
		for i := len(list) - 1; i >= 0; i-- {
			for _, b := range list[i].Buttons() {
				if strings.HasSuffix(b.CustomID, ":"+do) {
					if a := q.PressID(&list[i], b.CustomID); a.Silent {
						s.t.Errorf("button %s: no answer", do)
					}
					return
				}
			}
			for _, o := range list[i].Items() {
				if strings.HasSuffix(o.Value, ":"+do) {
					if a := q.Choose(&list[i], o.Label); a.Silent {
						s.t.Errorf("list's item %s: no answer", do)
					}
					return
				}
			}
		}
	}
	s.t.Errorf("no button does %q", do)
}

func (s *story) wait(user talk.User, text string) {
	ctx := context.Background()
	now := s.plain.clock.now()
	until := now
	if rest, ok := strings.CutPrefix(text, "until "); ok {
		at, err := talk.ParseWhen(rest, now, s.plain.bot.Zone(ctx, s.house.guild, s.house.channel, user))
		if err != nil {
			return
		}
		until = at
	} else {
		d, err := measure.ParseDuration(text)
		if err != nil || d.Low != d.High {
			return
		}
		until = now.Add(time.Duration(d.Low) * time.Minute)
	}
	if until.Before(now) {
		return
	}
	for _, x := range []struct {
		d *reminders.Dispatcher
		c *hands
	}{{s.plain.send, s.plain.clock}, {s.house.send, s.house.clock}} {
		if err := x.d.Advance(ctx, now, until, x.c.set); err != nil {
			s.t.Fatal(err)
		}
		x.c.set(until)
	}
}

func (s *story) at(now time.Time) {
	s.plain.clock.set(now)
	s.house.clock.set(now)
}

// kept is what a store holds of a community, in words to compare.
func kept(t *testing.T, s *store.Store, c store.Community) string {
	t.Helper()
	ctx := context.Background()
	all, err := s.List(ctx, c)
	if err != nil {
		t.Fatal(err)
	}
	var out []any
	for _, p := range all {
		snap, err := s.Load(ctx, c, p.ID)
		if err != nil {
			t.Fatal(err)
		}
		journal, err := s.Journal(ctx, c, p.ID, 1000)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := s.Reminders(ctx, c, p.ID)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, snap, journal, rows)
	}
	b, err := json.MarshalIndent(out, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// withoutPlans are the stories that are told under the race detector.
var withoutPlans = []string{"share.txtar", "first_words.txtar", "database.txtar"}

func TestStoriesOfTheTerminal(t *testing.T) {
	files, err := filepath.Glob("../console/testdata/script/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("no scripts: %v", err)
	}
	var parties, stamped atomic.Int32
	t.Cleanup(func() {
		if stamped.Load() == 0 && slowness == 1 {
			t.Error("no message of any story has an instant")
		}
		if n := parties.Load(); n < 4 && slowness == 1 {
			t.Errorf("%d of the stories made a party", n)
		}
	})
	for _, file := range files {
		a, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		inputs := map[string]string{}
		for _, f := range a.Files {
			inputs[f.Name] = string(f.Data)
		}
		var order []string
		parts := map[string][][]string{} // by database
		for _, m := range sitting.FindAllStringSubmatch(string(a.Comment), -1) {
			if parts[m[2]] == nil {
				order = append(order, m[2])
			}
			parts[m[2]] = append(parts[m[2]], m)
		}
		for _, db := range order {
			t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar")+"/"+db, func(t *testing.T) {
				t.Parallel()
				if slowness > 1 && !slices.Contains(withoutPlans, filepath.Base(file)) {
					t.Skip("plans too much for the race detector")
				}
				s := newStory(t)
				s.inputs = inputs
				for _, m := range parts[db] {
					now, err := time.Parse(time.RFC3339, m[4])
					if err != nil {
						if now, err = talk.ParseWhen(m[4], wednesday, time.UTC); err != nil {
							t.Fatalf("%s: %v", m[4], err)
						}
					}
					text, there := inputs[m[1]]
					if !there {
						t.Skipf("the input %s is made by the script", m[1])
					}
					s.at(now)
					var gather talk.Gather
					for _, l := range strings.Split(text, "\n") {
						if l, whole := gather.Line(l); whole && !s.line(m[3], l) {
							return
						}
					}
				}
				if s.most > 1000 {
					parties.Add(1)
				}
				stamped.Add(int32(s.times()))
				t.Log(fmt.Sprint(s.told, " lines told, ", s.apart, " that a client refuses"))
			})
		}
	}
}
