package discord

import (
	"context"
	"slices"
	"strings"

	"tureen/bot/talk"
)

// Long text with line breaks cannot be typed into a command, whose options are one line each: a command that
// takes such a text or a file, and is sent without either, opens a form for it; so does one whose first option is such
// a text, sent with no option at all. A command's rare options are lines of a form, which holds what was typed already.

const (
	answerModal    = 9
	componentInput = 4
	inputShort     = 1
	inputParagraph = 2
	maxInputs      = 5
	kindModal      = 'm'
	maxModalTitle  = 45
	maxInputLabel  = 45
)

// form is a modal with one long input.
type form struct {
	CustomID   string    `json:"custom_id"`
	Title      string    `json:"title"`
	Components []formRow `json:"components"`
}

type formRow struct {
	Type       int         `json:"type"`
	Components []formInput `json:"components"`
}

type formInput struct {
	Type     int    `json:"type"`
	CustomID string `json:"custom_id"`
	Style    int    `json:"style"`
	Label    string `json:"label"`
	Most     int    `json:"max_length"`
	Value    string `json:"value,omitempty"`
	Hint     string `json:"placeholder,omitempty"`
	Required bool   `json:"required"`
}

// formFor makes the form for a command that lacks its long text; nil for any other.
func (f *Face) formFor(req talk.Request, files map[string]attachment) *form {
	all := f.bot.Commands()
	n := slices.IndexFunc(all, func(c talk.Command) bool { return c.Name == req.Command })
	if n < 0 || len(files) > 0 {
		return nil
	}
	if req.Options[restOption] == "yes" && hasRare(&all[n]) {
		return restForm(&all[n], req.Options)
	}
	var long *talk.Option
	file := false
	for i := range all[n].Options {
		o := &all[n].Options[i]
		switch {
		case o.Kind == talk.LongText && req.Options[o.Name] == "" && long == nil:
			long = o
		case o.Kind == talk.FileOption:
			file = true
		}
	}
	bare := len(req.Options) == 0 || len(req.Options) == 1 && req.Options["party"] != ""
	if long == nil || !bare || !file && long != &all[n].Options[0] {
		return nil
	}
	id := string(rune(kindModal)) + ":" + req.Command
	if party := req.Options["party"]; party != "" && runes(id)+runes(party)+7 <= maxCustomID {
		id += " party:" + party
	}
	return &form{CustomID: id, Title: cut(all[n].Help, maxModalTitle),
		Components: []formRow{{Type: componentRow, Components: []formInput{
			{Type: componentInput, CustomID: long.Name, Style: inputParagraph, Label: cut(long.Help, maxInputLabel),
				Most: maxLongText, Required: true}}}}}
}

// pressForm is the form of a button that says a command without what it needs: its first options, as far as a form
// goes.
func (f *Face) pressForm(p *pressed) *form {
	c := f.commandOf(p.req.Command)
	if c == nil || p.page > 0 {
		return nil
	}
	given := len(p.req.Options)
	if p.req.Options["party"] != "" {
		given--
	}
	lacks := strings.HasSuffix(c.Name, " add") && given == 0
	for i := range c.Options {
		lacks = lacks || c.Options[i].Required && p.req.Options[c.Options[i].Name] == ""
	}
	if form := f.formFor(p.req, nil); form != nil || !lacks {
		return form
	}
	out := &form{CustomID: string(rune(kindModal)) + ":" + p.do, Title: cut(c.Help, maxModalTitle)}
	for i := range c.Options {
		o := &c.Options[i]
		if o.Rare || o.Kind == talk.PartyOption || o.Kind == talk.AccountOption || o.Kind == talk.FileOption ||
			p.req.Options[o.Name] != "" || len(out.Components) == maxInputs {
			continue
		}
		out.Components = append(out.Components, formRow{Type: componentRow, Components: []formInput{{Type: componentInput,
			CustomID: o.Name, Style: inputShort, Label: cut(o.Help, maxInputLabel), Most: maxText, Required: o.Required,
			Hint: cut(o.Example, 100)}}})
	}
	return out
}

func hasRare(c *talk.Command) bool {
	return slices.ContainsFunc(c.Options, func(o talk.Option) bool { return o.Rare })
}

// restForm is a form of a line an option: first what was typed, then what is rare.
func restForm(c *talk.Command, typed map[string]string) *form {
	var said, open []string
	for i := range c.Options {
		switch o := &c.Options[i]; {
		case typed[o.Name] != "":
			said = append(said, o.Name+": "+strings.ReplaceAll(typed[o.Name], "\n", " "))
		case o.Rare:
			open = append(open, o.Name+": ")
		}
	}
	text := strings.Join(append(said, open...), "\n")
	return &form{CustomID: string(rune(kindModal)) + ":" + c.Name, Title: cut(c.Help, maxModalTitle),
		Components: []formRow{{Type: componentRow, Components: []formInput{{Type: componentInput, CustomID: restOption,
			Style: inputParagraph, Label: "Write behind the colons what you want", Most: maxLongText, Value: text,
			Required: true}}}}}
}

// lines reads what was written behind the colons of such a form.
func (f *Face) lines(options map[string]string, text string) error {
	for _, line := range strings.Split(text, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		name, value, ok := strings.Cut(line, ":")
		if !ok {
			return &talk.Refusal{Text: "Keep a word and its colon at the start of each line: I cannot place " +
				cut(strings.TrimSpace(line), maxLabel) + ".", Try: "leaves: custard"}
		}
		if value = strings.TrimSpace(value); value != "" {
			options[strings.TrimSpace(name)] = value
		}
	}
	return nil
}

// submitted reads a form that was sent.
func (f *Face) submitted(i *interaction) (talk.Request, error) {
	req := i.request()
	do, ok := strings.CutPrefix(i.Data.CustomID, string(rune(kindModal))+":")
	if !ok {
		return req, &talk.Refusal{Text: "This form is of an older tureen and no longer works.", Try: "/help"}
	}
	line, err := f.bot.Parse("/" + do)
	if err != nil {
		return req, err
	}
	req.Command, req.Options = line.Command, line.Options
	for _, row := range i.Data.Components {
		for _, c := range row.Components {
			if c.CustomID == restOption && hasRare(f.commandOf(req.Command)) {
				if err := f.lines(req.Options, c.Value); err != nil {
					return req, err
				}
				continue
			}
			if strings.TrimSpace(c.Value) != "" {
				req.Options[c.CustomID] = c.Value
			}
		}
	}
	return req, nil
}

// written are the lines that were written into a form.
func (i *interaction) written() (out []string) {
	for _, row := range i.Data.Components {
		for _, c := range row.Components {
			out = append(out, strings.Split(strings.TrimSpace(c.Value), "\n")...)
		}
	}
	return slices.DeleteFunc(out, func(l string) bool { return l == "" || strings.HasSuffix(l, ": ") })
}

// openForm is the first answer to a command that needs a form.
func (f *Face) openForm(ctx context.Context, i *interaction, form *form) {
	if err := f.acknowledge(ctx, i, callback{answerModal, form}, nil); err != nil {
		f.log.Warn("form not opened", "error", err)
	}
}
