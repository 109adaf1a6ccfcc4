package discord

import (
	"cmp"
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
)

// A press changes the message that it stands on, so that no button is stale: the message says what was done, by whom
// and when, and offers what is next. What was about something else on it stays: a list is asked for again as it is now,
// a reminder keeps its words below. What only looks is shown to whoever pressed, beside the message.

// below is where what a message said before begins.
const below = "\n\n"

// onMessage makes the message on which a button was pressed say what came of it.
func (f *Face) onMessage(ctx context.Context, i *interaction, p *pressed) func(talk.Reply) drawn {
	return func(rep talk.Reply) drawn {
		m := i.Message
		if rep.Refused || rep.Private && !i.forOne() {
			return f.draw(rep)
		}
		back := p.req.Command == "undo" || p.req.Command == "redo"
		changed := back || slices.ContainsFunc(rep.Buttons, isUndo)
		f.noteWayBack(m, rep.Buttons, changed)
		key, about := keyOn(m), f.subject(p.do)
		rest := restOf(m, func(c component) bool {
			do, ok := said(c.CustomID)
			switch {
			case !ok || strings.HasPrefix(do, talk.AsOfMark):
				return false
			case !changed: // a question, or the answer No: what stood there is as it was
				return c.CustomID[0] != kindPlace && (key == "" || c.CustomID[0] == kindRemind)
			}
			return f.subject(do) != about && !f.looksOnly(do)
		})
		if list := f.asAgain(ctx, m, p.req); list != nil && changed {
			rep.Text += "\n" + list.Text
			rep.Tables, rep.Sections = list.Tables, append(rep.Sections, list.Sections...)
			rep.Buttons, rep.Next, rep.Again = append(rep.Buttons, list.Buttons...), list.Next, list.Again
			return f.drawAt(rep, pageShown(m)).by(p)
		}
		id := pressID
		if key != "" && changed {
			id = func(n int, b talk.Button) string { return string(rune(kindRemind)) + placeMark(n) + key + ":" + b.Do }
		}
		rep.Buttons = slices.DeleteFunc(rep.Buttons, func(b talk.Button) bool { return offers(rest, b.Do) })
		d := f.draw(rep)
		if changed {
			d = d.by(p)
		}
		d.Components = buttonRows(rep.Buttons, id)
		if d.Attachments == nil {
			d.Attachments = []attachedFile{}
		}
		if len(rest) == 0 {
			return d
		}
		was := m.Content
		if _, tail, told := strings.Cut(was, below); told {
			was = tail
		}
		d.Content = fit(d.Content+below+was, maxContent)
		if p.do == talk.No {
			d.Content = was
		}
		d.Embeds = append(d.Embeds, m.Embeds...)
		d.Embeds = d.Embeds[:min(len(d.Embeds), 1)]
		d.Components = append(d.Components, rest...)
		d.Components = apart(d.Components[:min(len(d.Components), maxRows)])
		return d
	}
}

// by says at the end of a message who pressed, and when.
func (d drawn) by(p *pressed) drawn {
	d.Content = fit(d.Content, maxContent-100) + fmt.Sprintf("\n-# %s, <t:%d:t>", escape(cut(p.req.User.Name, 40)),
		time.Now().Unix())
	return d
}

func isUndo(b talk.Button) bool {
	_, do, held := strings.Cut(b.Do, " ")
	return held && strings.HasPrefix(b.Do, talk.AsOfMark) && strings.HasPrefix(do, "undo")
}

// keyOn is the mark of the reminder that a message is; empty: it is none.
func keyOn(m *posted) string {
	for _, row := range m.Components {
		for _, c := range row.Components {
			if len(c.CustomID) > 2+keyLength && c.CustomID[0] == kindRemind {
				return c.CustomID[2 : 2+keyLength]
			}
		}
	}
	return ""
}

// subject is what a button's message is about: buttons about the same are alternatives, those about another stay.
func (f *Face) subject(do string) string {
	line, err := f.bot.Parse("/" + do)
	if err != nil {
		return ""
	}
	return cmp.Or(line.Options["task"], line.Options["item"], line.Options["who"], line.Options["dish"],
		line.Options["step"])
}

// looksOnly reports whether a button's message changes nothing.
func (f *Face) looksOnly(do string) bool {
	line, err := f.bot.Parse("/" + do)
	c := f.commandOf(line.Command)
	return err == nil && c != nil && c.OnlyLooks()
}

// restOf are a message's rows with the buttons and the items of lists that stay.
func restOf(m *posted, stays func(component) bool) (out []component) {
	for _, row := range m.Components {
		kept := component{Type: componentRow}
		for _, c := range row.Components {
			if c.Type == componentSelect {
				c.Options = slices.DeleteFunc(slices.Clone(c.Options), func(o listItem) bool {
					return !stays(component{CustomID: o.Value})
				})
				if len(c.Options) == 0 {
					continue
				}
			} else if c.URL == "" && !stays(c) {
				continue
			}
			kept.Components = append(kept.Components, c)
		}
		if slices.ContainsFunc(kept.Components, func(c component) bool { return c.URL == "" }) {
			out = append(out, kept)
		}
	}
	return out
}

// offers reports whether a message's rows have a button of a message.
func offers(rows []component, do string) bool {
	return slices.ContainsFunc(rows, func(row component) bool {
		return slices.ContainsFunc(row.Components, func(c component) bool {
			same, ok := said(c.CustomID)
			return ok && same == do
		})
	})
}

// apart gives the buttons of a message ids that differ.
func apart(rows []component) []component {
	n := 0
	for r := range rows {
		for k := range rows[r].Components {
			if c := &rows[r].Components[k]; len(c.CustomID) > 1 {
				c.CustomID = c.CustomID[:1] + placeMark(n) + c.CustomID[2:]
				n++
			}
		}
	}
	return rows
}

// mostNoted is how many messages are remembered; then they are all forgotten.
const mostNoted = 4096

func note[V any](in map[string]V, key string, v V) {
	if len(in) >= mostNoted {
		clear(in)
	}
	in[key] = v
}

// noteAsked remembers what a reply answers that only looks, so that it can be asked for again.
func (f *Face) noteAsked(i *interaction, rep talk.Reply) {
	if rep.Again == "" || rep.Refused {
		return
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	note(f.asked, i.ID, rep.Again)
}

// asAgain is what a message answers as it is now, for whoever pressed; nil where that is not known any more.
func (f *Face) asAgain(ctx context.Context, m *posted, req talk.Request) *talk.Reply {
	if m.Asked == nil {
		return nil
	}
	f.mu.Lock()
	again := f.asked[m.Asked.ID]
	f.mu.Unlock()
	line, err := f.bot.Parse("/" + again)
	if again == "" || err != nil {
		return nil
	}
	req.Command, req.Options, req.Pressed, req.AsOf = line.Command, line.Options, false, 0
	rep := f.do(ctx, req)
	if rep.Refused || rep.Private {
		return nil
	}
	return &rep
}

// noteWayBack keeps the way back of a press, for when its message is made to say how things stand.
func (f *Face) noteWayBack(m *posted, buttons []talk.Button, changed bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if i := slices.IndexFunc(buttons, isUndo); i >= 0 {
		note(f.wayBack, m.ID, buttons[i])
	} else if changed {
		delete(f.wayBack, m.ID)
	}
}

var typedCommand = regexp.MustCompile(`/[a-z][a-z-]*( [a-z][a-z-]*)?`)

// linked makes the commands in a line what one taps.
func (f *Face) linked(line string) string {
	ids, _ := f.ids.Load().(map[string]string)
	return typedCommand.ReplaceAllStringFunc(line, func(said string) string {
		first, _, _ := strings.Cut(said, " ")
		for _, name := range []string{said, first} {
			if id := ids[name[1:]]; id != "" {
				return "<" + name + ":" + id + ">" + said[len(name):]
			}
		}
		return said
	})
}

// noteIDs keeps the ids of the commands as the platform has them.
func (f *Face) noteIDs(all []registeredCommand) {
	ids := map[string]string{}
	for _, c := range all {
		ids[c.Name] = c.ID
		for _, o := range c.Options {
			if o.Type == optionSub {
				ids[c.Name+" "+o.Name] = c.ID
				delete(ids, c.Name) // a group by itself is nothing to type
			}
		}
	}
	f.ids.Store(ids)
}
