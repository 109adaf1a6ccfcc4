package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
)

var helpCommands = []Command{
	{Name: "help", Help: "What can be typed: all commands, a group, or one with its options", Access: Anyone, Example: "/help command:dish add",
		Options: []Option{{Name: "command", Help: "a command or a group", Kind: Text, Example: "dish add"}}, Run: help},
}

// groupTitles says what a group of commands is about. A group without a title is listed by its name.
var groupTitles = map[string]string{
	"party": "The party", "course": "Courses", "guest": "Guests", "people": "Who gives the party", "kitchen": "The kitchen",
	"dish": "Dishes", "step": "Steps of a dish", "ingredient": "Ingredients", "drink": "Drinks", "task": "Tasks: who does what",
	"plan": "The plan", "repertoire": "Dishes that are ready", "remind": "Reminders", "shopping": "Shopping",
}

func help(_ context.Context, t *Turn) (Reply, error) {
	asked := strings.Join(strings.Fields(strings.ToLower(strings.TrimPrefix(t.text("command"), "/"))), " ")
	if asked == "" {
		return helpAll(t.bot.commands), nil
	}
	if i := slices.IndexFunc(t.bot.commands, func(c Command) bool { return c.Name == asked }); i >= 0 {
		return helpOne(&t.bot.commands[i]), nil
	}
	var group []Command
	for _, c := range t.bot.commands {
		if c.group() == asked {
			group = append(group, c)
		}
	}
	if len(group) == 0 {
		return Reply{}, unknownCommand(t.bot.commands, strings.Fields(asked))
	}
	rep := Reply{Text: title(asked) + "."}
	for _, c := range group {
		rep.Sections = append(rep.Sections, Section{Lines: []string{"/" + c.Name + ": " + c.Help, "   " + c.Example}})
	}
	rep.Next = "Next: /help command:" + group[0].Name
	return rep, nil
}

func title(group string) string {
	if s := groupTitles[group]; s != "" {
		return s
	}
	return group
}

func helpAll(all []Command) Reply {
	rep := Reply{Text: "I plan a dinner with you: what is cooked, who does what, and when.",
		Next: "Next: " + partyNewExample}
	var single Section
	single.Title = "And"
	for i := range all {
		c := &all[i]
		line := "/" + c.Name + ": " + c.Help
		if c.Name == c.group() {
			single.Lines = append(single.Lines, line)
			continue
		}
		if n := len(rep.Sections); n > 0 && rep.Sections[n-1].Title == title(c.group()) {
			rep.Sections[n-1].Lines = append(rep.Sections[n-1].Lines, line)
			continue
		}
		rep.Sections = append(rep.Sections, Section{title(c.group()), []string{line}})
	}
	rep.Sections = append(rep.Sections, single)
	return rep
}

func helpOne(c *Command) Reply {
	rep := Reply{Text: fmt.Sprintf("/%s: %s.", c.Name, c.Help)}
	var lines []string
	for _, o := range c.Options {
		line := o.Name + ": " + o.Help
		if o.Required {
			line += " (needed)"
		}
		if len(o.Choices) > 0 {
			line += "; one of " + list(o.Choices, "or")
		} else if o.Example != "" {
			line += "; as " + o.Name + ":" + o.Example
		}
		lines = append(lines, line)
	}
	if len(lines) > 0 {
		rep.Sections = []Section{{"Options", lines}}
	}
	who := map[Access]string{CoHosts: "For hosts and co-hosts.", Hosts: "For hosts only."}[c.Access]
	if who != "" {
		rep.Text += "\n" + who
	}
	rep.Next = "As in: " + c.Example
	return rep
}
