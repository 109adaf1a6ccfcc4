package discord

import (
	"context"
	"fmt"
	"runtime/debug"
	"slices"
	"time"

	"tureen/bot/talk"
	"tureen/planner/words"
)

// interact answers one interaction.
func (f *Face) interact(i *interaction) {
	ctx, cancel := context.WithTimeout(f.ctx, f.time.workWithin)
	defer cancel()
	switch i.Type {
	case askCommand:
		req, files, _, _ := f.command(i)
		if form := f.formFor(req, files); form != nil {
			f.openForm(ctx, i, form)
			return
		}
		f.answer(ctx, i, f.forOne(req), func() talk.Reply {
			if err := f.fetch(ctx, &req, files); err != nil {
				return talk.RefusedReply(err)
			}
			return f.do(ctx, req)
		})
		f.lookAround(i.Guild)
	case askPress:
		p, err := f.press(i)
		if err == nil {
			if form := f.pressForm(&p); form != nil {
				f.openForm(ctx, i, form)
				return
			}
		}
		f.answerIn(ctx, i, f.mannerOf(ctx, &p, i), func() talk.Reply {
			if err != nil {
				return talk.RefusedReply(err)
			}
			return f.do(ctx, p.req)
		})
	case askModal:
		req, err := f.submitted(i)
		f.answer(ctx, i, f.forOne(req), func() talk.Reply {
			var rep talk.Reply
			if err == nil {
				rep = f.do(ctx, req)
			} else {
				rep = talk.RefusedReply(err)
			}
			if rep.Refused { // what was written is not lost
				rep.Sections = append(rep.Sections, talk.Section{Title: "What you wrote", Lines: i.written()})
			}
			return rep
		})
		f.lookAround(i.Guild)
	case askComplete:
		f.complete(ctx, i)
	default:
		f.answer(ctx, i, true, func() talk.Reply { return talk.Reply{Text: "I don't know this command.", Refused: true} })
	}
}

// manner is how a reply is shown.
type manner struct {
	draw   func(talk.Reply) drawn
	place  bool // in the place of the message whose button was pressed
	turns  bool // it is another page of what was answered already
	forOne bool // it is for the asker alone, and announced so
}

// answer works out a reply and brings it to the person.
func (f *Face) answer(ctx context.Context, i *interaction, forOne bool, work func() talk.Reply) {
	f.answerIn(ctx, i, manner{draw: f.draw, forOne: forOne}, work)
}

// answerIn works out a reply and brings it to the person: at once, or announced in time and brought later. The
// platform waits 3 seconds and no more. What is for one alone is announced to that one.
func (f *Face) answerIn(ctx context.Context, i *interaction, m manner, work func() talk.Reply) {
	done := make(chan talk.Reply, 1)
	f.work.Go(func() {
		rep := talk.Reply{Text: "Something went wrong on our side. Try again.", Refused: true}
		defer func() {
			if v := recover(); v != nil {
				f.log.Error("panic", "what", "command", "panic", fmt.Sprint(v), "stack", string(debug.Stack()))
			}
			done <- rep
		}()
		rep = work()
	})
	patience := time.NewTimer(f.time.deferAfter)
	defer patience.Stop()
	var err error
	select {
	case rep := <-done:
		f.noteAsked(i, rep)
		d, kind := m.draw(rep), answerMessage
		switch {
		case m.place && !rep.Refused && (!rep.Private || i.forOne()):
			kind, d.Flags = answerUpdate, 0
		case m.forOne:
			d.Flags |= flagEphemeral
		default:
			d.quietly()
		}
		if err = f.acknowledge(ctx, i, callback{kind, d.message}, d.files); err != nil {
			f.lost(ctx, i, rep, err)
			return
		}
		f.whisper(ctx, i, m, rep)
		return
	case <-patience.C:
	}
	later := callback{Type: answerLater, Data: message{Flags: flagSilent, Embeds: []embed{}, Components: []component{},
		Mentions: nobody()}}
	switch {
	case m.place:
		later = callback{Type: answerUpdateLater}
	case m.forOne:
		later.Data = message{Flags: flagEphemeral, Embeds: []embed{}, Components: []component{}, Mentions: nobody()}
	}
	if err = f.acknowledge(ctx, i, later, nil); err != nil {
		f.lost(ctx, i, <-done, err)
		return
	}
	rep := <-done
	f.noteAsked(i, rep)
	bring := f.bring
	switch {
	case m.place:
		bring = f.bringInPlace
	case m.forOne:
		bring = f.bringToOne
	}
	if err := bring(ctx, i, m.draw(rep)); err != nil {
		f.lost(ctx, i, rep, err)
		return
	}
	f.whisper(ctx, i, m, rep)
}

// forOne reports whether every answer to a request is for the asker alone.
func (f *Face) forOne(req talk.Request) bool {
	c := f.commandOf(req.Command)
	return c != nil && c.ForOne(req.Options)
}

// commandOf is the command of a name; nil: there is none.
func (f *Face) commandOf(name string) *talk.Command {
	all := f.bot.Commands()
	if i := slices.IndexFunc(all, func(c talk.Command) bool { return c.Name == name }); i >= 0 {
		return &all[i]
	}
	return nil
}

// whisper shows the asker alone what stands aside of an answer that everybody sees. It is never told in the channel:
// whoever does not get it can ask for it.
func (f *Face) whisper(ctx context.Context, i *interaction, m manner, rep talk.Reply) {
	if len(rep.Aside) == 0 || rep.Private || m.turns {
		return
	}
	d := f.draw(talk.Reply{Text: "For your eyes only:", Sections: rep.Aside, Private: true})
	if err := f.rest.send(ctx, "POST", "webhooks/"+i.App+"/"+i.Token, d.message, d.files, nil); err != nil {
		f.log.Warn("what is for one alone was not taken", "code", codeOf(err), "error", err)
	}
}

// forOne reports whether the message whose button was pressed is seen by one alone.
func (i *interaction) forOne() bool { return i.Message != nil && i.Message.Flags&flagEphemeral != 0 }

// bringToOne puts a reply where it was announced to the asker alone.
func (f *Face) bringToOne(ctx context.Context, i *interaction, d drawn) error {
	d.Flags = 0 // which an edit neither sets nor takes away
	return f.rest.send(ctx, "PATCH", "webhooks/"+i.App+"/"+i.Token+"/messages/@original", d.message, d.files, nil)
}

// bringInPlace puts a reply in the place of the message whose button was pressed; a refusal goes beside it.
func (f *Face) bringInPlace(ctx context.Context, i *interaction, d drawn) error {
	hook := "webhooks/" + i.App + "/" + i.Token
	if d.Flags&flagEphemeral != 0 && (!i.forOne()) {
		return f.rest.send(ctx, "POST", hook, d.message, d.files, nil)
	}
	d.Flags = 0
	return f.rest.send(ctx, "PATCH", hook+"/messages/@original", d.message, d.files, nil)
}

// acknowledge sends the first answer. Sent twice it is refused the second time, so that it may be repeated.
func (f *Face) acknowledge(ctx context.Context, i *interaction, c callback, files []talk.File) error {
	s := &sending{repeatable: true}
	err := f.rest.send(withSending(ctx, s), "POST", "interactions/"+i.ID+"/"+i.Token+"/callback", c, files, nil)
	if codeOf(err) == codeAcknowledged && s.doubtful {
		err = nil
	}
	f.counts.acknowledge(time.Since(i.at), err)
	return err
}

// bring puts a reply where it was announced. What is for the asker's eyes alone cannot stand there, since
// the announcement was for everybody: it follows by itself.
func (f *Face) bring(ctx context.Context, i *interaction, d drawn) error {
	hook := "webhooks/" + i.App + "/" + i.Token
	private := d.Flags&flagEphemeral != 0
	d.Flags &^= flagSilent
	first, files := d.message, d.files
	if private {
		first, files = message{Content: "The answer is for " + escape(i.request().User.Name) + " alone.", Embeds: []embed{},
			Components: []component{}, Mentions: nobody()}, nil
	}
	if err := f.rest.send(ctx, "PATCH", hook+"/messages/@original", first, files, nil); err != nil || !private {
		return err
	}
	if err := f.rest.send(ctx, "POST", hook, d.message, d.files, nil); err != nil {
		return err
	}
	return f.rest.do(ctx, "DELETE", hook+"/messages/@original", nil, nil)
}

// lost is for a reply that its interaction no longer takes: it was late, or its token has died. What was
// done is done, and is told in the channel unless it was meant for one alone.
func (f *Face) lost(ctx context.Context, i *interaction, rep talk.Reply, err error) {
	f.log.Warn("answer not taken", "code", codeOf(err), "error", err)
	code := codeOf(err)
	if code != codeUnknownInteraction && code != codeInvalidToken || rep.Private || rep.Refused {
		return
	}
	d := f.draw(rep)
	d.quietly()
	if err := f.rest.send(ctx, "POST", "channels/"+i.Channel+"/messages", d.message, d.files, nil); err != nil {
		f.log.Warn("nor in the channel", "error", err)
	}
}

// complete offers what an option may become.
func (f *Face) complete(ctx context.Context, i *interaction) {
	ctx, cancel := context.WithTimeout(ctx, f.time.offerWithin)
	defer cancel()
	req, _, focused, typed := f.command(i)
	f.withPlaces(ctx, &req)
	list := []choice{}
	for _, s := range f.bot.Complete(ctx, req, focused, typed) {
		c := choice{Name: cut(words.PlainStamps(s.Label), 100), Value: s.Value}
		if c.Name == "" {
			c.Name = cut(c.Value, 100)
		}
		if c.Value != "" && runes(c.Value) <= 100 && len(list) < 25 {
			list = append(list, c)
		}
	}
	ctx, cancel = context.WithTimeout(f.ctx, f.time.callWithin)
	defer cancel()
	if err := f.acknowledge(ctx, i, callback{answerChoices, map[string]any{"choices": list}}, nil); err != nil {
		f.log.Info("completion not taken", "error", err)
	}
}
