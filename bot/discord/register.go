package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"slices"
	"strings"

	"tureen/bot"
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
func slashCommands(all []bot.Command) []slashCommand {
	var out []slashCommand
	for i := range all {
		c := &all[i]
		group, verb, grouped := strings.Cut(c.Name, " ")
		one := slashCommand{Type: 1, Name: c.Name, Description: c.Help, Options: slashOptions(c.Options)}
		if !grouped {
			one.Contexts, one.Integrations = contexts, integrations
			out = append(out, one)
			continue
		}
		one.Type, one.Name = optionSub, verb
		n := slices.IndexFunc(out, func(s slashCommand) bool { return s.Name == group })
		if n < 0 {
			n = len(out)
			out = append(out, slashCommand{Type: 1, Name: group, Contexts: contexts, Integrations: integrations})
		}
		out[n].Options = append(out[n].Options, one)
	}
	for i := range out {
		if out[i].Description != "" {
			continue
		}
		var verbs []string
		for _, o := range out[i].Options {
			verbs = append(verbs, o.Name)
		}
		out[i].Description = cut("For the "+out[i].Name+": "+strings.Join(verbs, ", "), 100)
	}
	return out
}

// slashOptions lists options, those that are needed first, as the platform wants.
func slashOptions(list []bot.Option) []slashCommand {
	var first, later []slashCommand
	for i := range list {
		o := &list[i]
		s := slashOption(o)
		if s.Required {
			first = append(first, s)
		} else {
			later = append(later, s)
		}
	}
	return append(first, later...)
}

func slashOption(o *bot.Option) slashCommand {
	s := slashCommand{Type: optionString, Name: o.Name, Description: help(o), Required: o.Required, MaxLength: maxText}
	switch o.Kind {
	case bot.LongText:
		s.MaxLength = maxLongText
	case bot.Whole:
		low, high := o.Min, o.Max
		if low == 0 && high == 0 {
			high = maxWhole
		}
		s.Type, s.MaxLength, s.MinValue, s.MaxValue = optionInteger, 0, &low, &high
	case bot.YesNo:
		s.Type, s.MaxLength = optionBoolean, 0
	case bot.FileOption:
		s.Type, s.MaxLength = optionFile, 0
	case bot.Choice:
		if len(o.Choices) > 25 {
			s.Autocomplete = true
			break
		}
		s.MaxLength = 0
		for _, c := range o.Choices {
			s.Choices = append(s.Choices, choice{c, c})
		}
	case bot.Text:
		s.Autocomplete = completed[o.Name]
	case bot.Length, bot.DateOption, bot.TimeOption, bot.HoursOption, bot.Temperature, bot.AmountOption:
	default:
		s.Autocomplete = true
	}
	return s
}

// completed are the text options that the bot completes, by what they are called. The others are free text:
// a client would say at every letter that nothing matches.
var completed = map[string]bool{"command": true, "vessel": true, "appliance": true, "plate": true, "what": true, "hold": true, "who": true,
	"skill": true, "after": true, "of": true, "until": true, "step": true, "ingredient": true}

// help is an option's description, with an example where there is room for it.
func help(o *bot.Option) string {
	text := o.Help
	if o.Example != "" && len([]rune(text))+len([]rune(o.Example))+6 <= 100 {
		text += ", as " + o.Example
	}
	return cut(text, 100)
}

// register brings the platform's commands up to ours, if they differ: it allows 200 creations a day.
func (f *Face) register(ctx context.Context, app string) error {
	ours := slashCommands(f.bot.Commands())
	var theirs []json.RawMessage
	path := "applications/" + app + "/commands"
	if err := f.rest.do(ctx, "GET", path, nil, &theirs); err != nil {
		return err
	}
	if sameCommands(ours, theirs) {
		return nil
	}
	f.log.Info("registering commands", "commands", len(ours))
	return f.rest.do(ctx, "PUT", path, ours, nil)
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
