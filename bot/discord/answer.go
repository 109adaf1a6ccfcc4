package discord

import (
	"context"
	"fmt"
	"runtime/debug"
	"time"

	"tureen/bot"
	"tureen/reminders"
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
		f.answer(ctx, i, func() bot.Reply {
			if err := f.fetch(ctx, &req, files); err != nil {
				return bot.RefusedReply(err)
			}
			return f.bot.Do(ctx, req)
		})
		f.lookAround(i.Guild)
	case askPress:
		p, err := f.press(i)
		f.answerIn(ctx, i, p.manner(i), func() bot.Reply {
			if err != nil {
				return bot.RefusedReply(err)
			}
			return f.bot.Do(ctx, p.req)
		})
	case askModal:
		req, err := f.submitted(i)
		f.answer(ctx, i, func() bot.Reply {
			if err != nil {
				return bot.RefusedReply(err)
			}
			return f.bot.Do(ctx, req)
		})
		f.lookAround(i.Guild)
	case askComplete:
		f.complete(ctx, i)
	default:
		f.answer(ctx, i, func() bot.Reply { return bot.Reply{Text: "This is nothing that I know.", Refused: true} })
	}
}

// manner is how a reply is shown.
type manner struct {
	draw  func(bot.Reply) drawn
	place bool // in the place of the message whose button was pressed
}

// answer works out a reply and brings it to the person.
func (f *Face) answer(ctx context.Context, i *interaction, work func() bot.Reply) {
	f.answerIn(ctx, i, manner{draw: draw}, work)
}

// answerIn works out a reply and brings it to the person: at once, or announced in time and brought later. The
// platform waits 3 seconds and no more.
func (f *Face) answerIn(ctx context.Context, i *interaction, m manner, work func() bot.Reply) {
	done := make(chan bot.Reply, 1)
	f.work.Go(func() {
		rep := bot.Reply{Text: "Something went wrong on our side. Try again.", Refused: true}
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
		d, kind := m.draw(rep), answerMessage
		if m.place && !rep.Refused {
			kind, d.Flags = answerUpdate, 0
		}
		if err = f.acknowledge(ctx, i, callback{kind, d.message}, d.files); err != nil {
			f.lost(ctx, i, rep, err)
		}
		return
	case <-patience.C:
	}
	later := answerLater
	if m.place {
		later = answerUpdateLater
	}
	if err = f.acknowledge(ctx, i, callback{Type: later}, nil); err != nil {
		f.lost(ctx, i, <-done, err)
		return
	}
	rep := <-done
	bring := f.bring
	if m.place {
		bring = f.bringInPlace
	}
	if err := bring(ctx, i, m.draw(rep)); err != nil {
		f.lost(ctx, i, rep, err)
	}
}

// bringInPlace puts a reply in the place of the message whose button was pressed; a refusal goes beside it.
func (f *Face) bringInPlace(ctx context.Context, i *interaction, d drawn) error {
	hook := "webhooks/" + i.App + "/" + i.Token
	if d.Flags&flagEphemeral != 0 && (i.Message == nil || i.Message.Flags&flagEphemeral == 0) {
		return f.rest.send(ctx, "POST", hook, d.message, d.files, nil)
	}
	d.Flags = 0
	return f.rest.send(ctx, "PATCH", hook+"/messages/@original", d.message, d.files, nil)
}

// acknowledge sends the first answer. Sent twice it is refused the second time, so that it may be repeated.
func (f *Face) acknowledge(ctx context.Context, i *interaction, c callback, files []bot.File) error {
	s := &sending{repeatable: true}
	err := f.rest.send(withSending(ctx, s), "POST", "interactions/"+i.ID+"/"+i.Token+"/callback", c, files, nil)
	if codeOf(err) == codeAcknowledged && s.doubtful {
		return nil
	}
	return err
}

// bring puts a reply where it was announced. What is for the asker's eyes alone cannot stand there, since
// the announcement was for everybody: it follows by itself.
func (f *Face) bring(ctx context.Context, i *interaction, d drawn) error {
	hook := "webhooks/" + i.App + "/" + i.Token
	private := d.Flags&flagEphemeral != 0
	first, files := d.message, d.files
	if private {
		first, files = message{Content: "The answer is for " + escape(i.request().User.Name) + " alone.", Embeds: []embed{}, Components: []component{}, Mentions: nobody()}, nil
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
func (f *Face) lost(ctx context.Context, i *interaction, rep bot.Reply, err error) {
	f.log.Warn("answer not taken", "code", codeOf(err), "error", err)
	code := codeOf(err)
	if code != codeUnknownInteraction && code != codeInvalidToken || rep.Private || rep.Refused {
		return
	}
	d := draw(rep)
	if err := f.rest.send(ctx, "POST", "channels/"+i.Channel+"/messages", d.message, d.files, nil); err != nil {
		f.log.Warn("nor in the channel", "error", err)
	}
}

// complete offers what an option may become.
func (f *Face) complete(ctx context.Context, i *interaction) {
	ctx, cancel := context.WithTimeout(ctx, f.time.deferAfter)
	defer cancel()
	req, _, focused, typed := f.command(i)
	list := []choice{}
	for _, s := range f.bot.Complete(ctx, req, focused, typed) {
		c := choice{Name: cut(reminders.PlainStamps(s.Label), 100), Value: s.Value}
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
