package bot

import (
	"context"
	"strings"

	"tureen/bot/talk"
	"tureen/planner/words"
)

// maxSuggestions is the most that a face is offered at once.
const maxSuggestions = 25

// Complete suggests what an option's text may become, from what has been typed so far. Options that were
// chosen already stand in the request; nothing is suggested to those who may not use the command.
func (b *Bot) Complete(ctx context.Context, req talk.Request, option, typed string) (out []talk.Suggestion) {
	defer func() {
		if v := recover(); v != nil {
			b.log.ErrorContext(ctx, "completion panicked", "command", req.Command, "option", option, "panic", v)
			out = nil
		}
	}()
	cmd, err := talk.Find(b.commands, talk.Request{Command: req.Command})
	if err != nil {
		return nil
	}
	var o *talk.Option
	for i := range cmd.Options {
		if cmd.Options[i].Name == option {
			o = &cmd.Options[i]
		}
	}
	if o == nil {
		return nil
	}
	t := &Turn{ctx: ctx, Request: req, Now: b.clock().UTC(), bot: b, command: cmd}
	if cmd.Access != talk.Anyone && o.Kind != talk.PartyOption {
		if t.settlePlace(ctx) != nil || t.loadParty(ctx) != nil || t.mayUse() != nil {
			return nil
		}
	}
	switch {
	case o.Kind == talk.DateOption:
		return t.daySuggestions(o, typed)
	case o.Kind == talk.TimeOption:
		return t.timeSuggestions(typed)
	case o.Offers == talk.Zones:
		for _, z := range zoneSuggestions(talk.Clean(typed, false)) {
			out = append(out, talk.Suggestion{Label: z, Value: z})
		}
		return out
	}
	return matching(t.possible(ctx, o), typed)
}

// matching keeps the suggestions that contain what was typed, those that begin with it first; when none
// does, the nearest.
func matching(all []talk.Suggestion, typed string) []talk.Suggestion {
	want := words.Fold(talk.Clean(typed, false))
	var first, later []talk.Suggestion
	var names []string
	for _, s := range all {
		names = append(names, s.Value)
		switch l, v := words.Fold(s.Label), words.Fold(s.Value); {
		case strings.HasPrefix(v, want) || strings.HasPrefix(l, want):
			first = append(first, s)
		case strings.Contains(v, want) || strings.Contains(l, want):
			later = append(later, s)
		}
	}
	out := append(first, later...)
	if len(out) == 0 {
		for _, n := range talk.Nearest(want, names) {
			for _, s := range all {
				if s.Value == n {
					out = append(out, s)
					break
				}
			}
		}
	}
	return out[:min(len(out), maxSuggestions)]
}
