package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"slices"
	"strings"

	"tureen/bot/languages"
	"tureen/bot/talk"
)

// Where commands are offered: in communities and in direct messages with the bot, installed by a community.
var (
	contexts     = []int{0, 1}
	integrations = []int{0}
)

// Lengths that a client lets a person type: those that the bot reads.
const (
	maxText     = 300
	maxLongText = 4000
	maxWhole    = 100000
)

// slashCommands turns the bot's commands into the platform's: a group becomes a command with subcommands.
func slashCommands(all []talk.Command) []slashCommand {
	var out []slashCommand
	for i := range all {
		c := &all[i]
		group, verb, grouped := strings.Cut(c.Name, " ")
		one := slashCommand{Type: 1, Name: c.Name, Description: c.Help, Options: slashOptions(c)}
		if !grouped {
			one.Contexts, one.Integrations = contexts, integrations
			one.NameIn = inOthers(func(l *languages.Language) string { return l.Group(group) })
			one.DescriptionIn = inOthers(func(l *languages.Language) string { return l.Help(c.Help) })
			out = append(out, one)
			continue
		}
		one.Type, one.Name = optionSub, verb
		one.NameIn = inOthers(func(l *languages.Language) string { return l.Verb(c) })
		one.DescriptionIn = inOthers(func(l *languages.Language) string { return l.Help(c.Help) })
		n := slices.IndexFunc(out, func(s slashCommand) bool { return s.Name == group })
		if n < 0 {
			n = len(out)
			out = append(out, slashCommand{Type: 1, Name: group, Contexts: contexts, Integrations: integrations,
				NameIn: inOthers(func(l *languages.Language) string { return l.Group(group) })})
		}
		out[n].Options = append(out[n].Options, one)
	}
	for i := range out {
		if out[i].Description == "" {
			describe(&out[i])
		}
	}
	return out
}

// describe says of a group what can be done with it.
func describe(group *slashCommand) {
	var verbs []string
	for _, o := range group.Options {
		verbs = append(verbs, o.Name)
	}
	group.Description = cut("For the "+group.Name+": "+strings.Join(verbs, ", "), 100)
	group.DescriptionIn = inOthers(func(l *languages.Language) string {
		var theirs []string
		for _, o := range group.Options {
			theirs = append(theirs, o.NameIn[l.Tag])
		}
		return cut(l.About(group.NameIn[l.Tag], theirs), 100)
	})
}

// inOthers collects a word in the other languages than English, by locale.
func inOthers(word func(*languages.Language) string) map[string]string {
	out := map[string]string{}
	for _, l := range languages.All() {
		if w := word(l); w != "" {
			out[l.Tag] = w
		}
	}
	return out
}

// slashOptions lists a command's options, those that are needed first, as the platform wants.
func slashOptions(c *talk.Command) []slashCommand {
	var first, later []slashCommand
	for i := range c.Options {
		o := &c.Options[i]
		if o.Rare {
			continue
		}
		s := slashOption(o)
		s.NameIn = inOthers(func(l *languages.Language) string { return l.Option(c, o) })
		s.DescriptionIn = inOthers(func(l *languages.Language) string { return withExample(l.Help(o.Help), o, l.Example) })
		if s.Required {
			first = append(first, s)
		} else {
			later = append(later, s)
		}
	}
	if len(first)+len(later) < len(c.Options) {
		more := &talk.Option{Name: restOption}
		later = append(later, slashCommand{Type: optionBoolean, Name: restOption, Description: "yes: a form for all the rest",
			NameIn:        inOthers(func(l *languages.Language) string { return l.Option(c, more) }),
			DescriptionIn: inOthers((*languages.Language).Rest)})
	}
	return append(first, later...)
}

// restOption opens a form for a command's rare options.
const restOption = "more"

func slashOption(o *talk.Option) slashCommand {
	s := slashCommand{Type: optionString, Name: o.Name, Description: withExample(o.Help, o, inEnglish),
		Required: o.Required, MaxLength: maxText}
	switch o.Kind {
	case talk.LongText:
		s.MaxLength = maxLongText
	case talk.Whole:
		low, high := o.Min, o.Max
		if low == 0 && high == 0 {
			high = maxWhole
		}
		s.Type, s.MaxLength, s.MinValue, s.MaxValue = optionInteger, 0, &low, &high
	case talk.YesNo:
		s.Type, s.MaxLength = optionBoolean, 0
	case talk.FileOption:
		s.Type, s.MaxLength = optionFile, 0
	case talk.AccountOption:
		s.Type, s.MaxLength = optionUser, 0
	case talk.Choice:
		if len(o.Choices) > 25 {
			s.Autocomplete = true
			break
		}
		s.MaxLength = 0
		for _, c := range o.Choices {
			s.Choices = append(s.Choices, choice{c, c, inOthers(func(l *languages.Language) string { return l.Choice(o, c) })})
		}
	}
	s.Autocomplete = len(s.Choices) == 0 && o.Completed()
	return s
}

// withExample is an option's description, with an example where there is room for it.
func withExample(help string, o *talk.Option, add func(help, example string) string) string {
	if text := add(help, o.Example); o.Example != "" && runes(text) <= 100 {
		return text
	}
	return cut(help, 100)
}

func inEnglish(help, example string) string { return help + ", as " + example }

// register learns the platform's commands, and brings them up to ours, if they differ: it allows 200 creations a day.
func (f *Face) register(ctx context.Context, app string) error {
	ours := slashCommands(f.bot.Commands())
	var theirs []json.RawMessage
	path := "applications/" + app + "/commands"
	// Otherwise the platform leaves the other languages out, and every start would register anew.
	if err := f.rest.do(ctx, "GET", path+"?with_localizations=true", nil, &theirs); err != nil {
		return err
	}
	if f.share.first() && !sameCommands(ours, theirs) { // other processes only learn what the commands are called
		f.log.Info("registering commands", "commands", len(ours))
		if err := f.rest.do(ctx, "PUT", path, ours, &theirs); err != nil {
			return err
		}
	}
	known := make([]registeredCommand, len(theirs))
	for i, raw := range theirs {
		if err := json.Unmarshal(raw, &known[i]); err != nil {
			return err
		}
	}
	f.noteIDs(known)
	return nil
}

// registeredCommand is a command as the platform has it.
type registeredCommand struct {
	ID, Name string
	Options  []struct {
		Name string
		Type int
	}
}

// sameCommands compares what we would register with what is registered, which comes in any order and with
// fields of the platform's own.
func sameCommands(ours []slashCommand, theirs []json.RawMessage) bool {
	if len(ours) != len(theirs) {
		return false
	}
	var a, b [][]byte
	for _, c := range ours {
		raw, err := json.Marshal(c)
		if err != nil {
			return false
		}
		a = append(a, canonical(raw))
	}
	for _, raw := range theirs {
		b = append(b, canonical(raw))
	}
	slices.SortFunc(a, bytes.Compare)
	slices.SortFunc(b, bytes.Compare)
	return slices.EqualFunc(a, b, bytes.Equal)
}

// canonical is a command's JSON without what the platform adds and without what means nothing.
func canonical(raw []byte) []byte {
	var v any
	if json.Unmarshal(raw, &v) != nil {
		return raw
	}
	out, err := json.Marshal(pruned(v))
	if err != nil {
		return raw
	}
	return out
}

func pruned(v any) any {
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, x := range v {
			switch k {
			case "id", "application_id", "version", "guild_id", "dm_permission", "nsfw", "handler":
				continue
			}
			x = pruned(x)
			if list, ok := x.([]any); x == nil || x == false || ok && len(list) == 0 {
				continue
			}
			out[k] = x
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, x := range v {
			out[i] = pruned(x)
		}
		return out
	}
	return v
}

// cut shortens a text to n characters.
func cut(text string, n int) string {
	r := []rune(text)
	if len(r) <= n {
		return text
	}
	return strings.TrimSpace(string(r[:n-1])) + "…"
}
