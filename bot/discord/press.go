package discord

import (
	"context"
	"slices"

	"tureen/bot/talk"
)

// pressed is what a button, or an item of a list, asks for.
type pressed struct {
	req   talk.Request
	do    string // the message that it says
	place bool   // the answer goes in the place of the message
	page  int    // which page of it is wanted; 0: no page was turned
	mark  string // what state of the reply the message shows whose page is turned
}

// press reads a button: what it says is said by whoever presses it.
func (f *Face) press(i *interaction) (pressed, error) {
	p := pressed{req: i.request()}
	id := i.Data.CustomID
	if len(i.Data.Values) == 1 && len(id) > 0 && id[0] == kindList {
		id = i.Data.Values[0]
	}
	do, ok := said(id)
	p.place = ok && id[0] == kindPlace && i.Message != nil
	if !ok {
		p.page, p.mark, do, ok = turned(id)
	}
	if !ok {
		return p, &talk.Refusal{Text: "This button is of an older tureen and no longer works.", Try: "/now"}
	}
	p.do = do
	line, err := f.bot.Parse("/" + do)
	if err != nil {
		return p, err
	}
	if p.page > 0 && !f.looksOnly(do) {
		return p, &talk.Refusal{Text: "This button can no longer turn the page.", Try: "/" + line.Command}
	}
	p.req.Command, p.req.Options, p.req.InPlace = line.Command, line.Options, p.place
	p.req.AsOf, p.req.Pressed = line.AsOf, true
	return p, nil
}

// mannerOf says how the answer to a press is shown. A page that somebody turns takes the place of the one
// before where the message answers that person; somebody else gets a message of their own, since theirs is
// not the same: their tasks, their rights.
func (f *Face) mannerOf(ctx context.Context, p *pressed, i *interaction) manner {
	m := i.Message
	switch {
	case m == nil || p.do == "":
		return manner{draw: f.draw, forOne: f.forOne(p.req)}
	case p.page == 0 && p.place && keyOn(m) == "" && p.do != talk.No: // as far down as it stood
		n := pageShown(m)
		return manner{place: true, draw: func(rep talk.Reply) drawn {
			if rep.Refused {
				return f.draw(rep)
			}
			return f.drawAt(rep, n)
		}}
	case p.page == 0 && f.looksOnly(p.do):
		return manner{forOne: true, draw: f.draw}
	case p.page == 0:
		return manner{place: true, draw: f.onMessage(ctx, i, p)}
	}
	own := i.Guild == "" || m.Asked != nil && m.Asked.User.ID == p.req.User.ID
	return manner{place: own, turns: true, forOne: !own, draw: func(rep talk.Reply) drawn {
		at := pageOf(rep, p.page)
		if rep.Refused {
			return f.draw(rep)
		}
		stale := at.mark != p.mark
		if stale {
			at.Text += "\nIt has changed since the page before."
		}
		d := drawPage(&at, f.linked).drawn
		if own && stale { // the file that is there is out of date
			d.attach(append([]talk.File{wholeFile(rep)}, slices.Clone(rep.Files)...))
		}
		return d
	}}
}
