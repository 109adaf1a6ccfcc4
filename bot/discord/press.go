package discord

import (
	"slices"

	"tureen/bot/talk"
)

// pressed is what a button, or an item of a list, asks for.
type pressed struct {
	req   talk.Request
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
	line, err := f.bot.Parse("/" + do)
	if err != nil {
		return p, err
	}
	if p.page > 0 && !slices.ContainsFunc(f.bot.Commands(), func(c talk.Command) bool {
		return c.Name == line.Command && c.OnlyLooks()
	}) {
		return p, &talk.Refusal{Text: "This button can no longer turn the page.", Try: "/" + line.Command}
	}
	p.req.Command, p.req.Options, p.req.InPlace = line.Command, line.Options, p.place
	p.req.AsOf, p.req.Pressed = line.AsOf, true
	return p, nil
}

// manner says how the answer to a press is shown. A page that somebody turns takes the place of the one
// before where the message answers that person; somebody else gets a message of their own, since theirs is
// not the same: their tasks, their rights.
func (p *pressed) manner(i *interaction) manner {
	m := i.Message
	if p.page == 0 && !p.place {
		return manner{draw: draw}
	}
	if p.place { // as far down as it stood
		n := pageShown(m)
		return manner{place: true, draw: func(rep talk.Reply) drawn {
			if rep.Refused {
				return draw(rep)
			}
			at := pageOf(rep, n)
			d := drawPage(&at)
			if at.of > 1 || !d.whole {
				d.attach([]talk.File{wholeFile(rep)})
			} else {
				d.Attachments = []attachedFile{}
			}
			return d.drawn
		}}
	}
	own := m != nil && (i.Guild == "" || m.Asked != nil && m.Asked.User.ID == p.req.User.ID)
	return manner{place: own, draw: func(rep talk.Reply) drawn {
		at := pageOf(rep, p.page)
		if rep.Refused {
			return draw(rep)
		}
		stale := at.mark != p.mark
		if stale {
			at.Text += "\nIt has changed since the page before."
		}
		d := drawPage(&at).drawn
		switch {
		case !own:
			d.Flags |= flagEphemeral
		case stale: // the file that is there is out of date
			d.attach(append([]talk.File{wholeFile(rep)}, slices.Clone(rep.Files)...))
		}
		return d
	}}
}
