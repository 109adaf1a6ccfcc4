package bot

import (
	"context"
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner/words"
)

var helpCommands = []command{
	{talk.Command{Name: "help", Help: "What can be typed: all commands, a group, or one with its options",
		Access: talk.Anyone, Looks: true, Example: "/help command:dish add",
		Options: []talk.Option{{Name: "command", Help: "a command, a group, or all", Kind: talk.Text, Offers: talk.Commands,
			Example: "dish add"}}}, help},
}

// groupTitles says what a group of commands is about. A group without a title is listed by its name.
var groupTitles = map[string]string{
	"party": "The party", "course": "Courses", "guest": "Guests", "people": "Who gives the party",
	"kitchen": "The kitchen",
	"dish":    "Dishes", "step": "Steps of a dish", "ingredient": "Ingredients", "drink": "Drinks",
	"task": "Tasks: who does what",
	"plan": "The plan", "repertoire": "Dishes that are ready", "recipe": "Recipes",
	"remind": "Reminders", "shopping": "Shopping",
}

// helpAllWord asks for every command.
const helpAllWord = "all"

func help(ctx context.Context, t *Turn) (talk.Reply, error) {
	asked := strings.Join(strings.Fields(strings.ToLower(strings.TrimPrefix(t.text("command"), "/"))), " ")
	switch asked {
	case "":
		return helpFirst(ctx, t), nil
	case helpAllWord:
		return helpAll(t.bot.commands), nil
	}
	if i := slices.IndexFunc(t.bot.commands, func(c talk.Command) bool { return c.Name == asked }); i >= 0 {
		return helpOne(&t.bot.commands[i]), nil
	}
	rep := talk.Reply{Text: title(asked) + "."}
	first := ""
	for i := range t.bot.commands {
		c := &t.bot.commands[i]
		if c.Group() != asked {
			continue
		}
		if first == "" {
			first = c.Name
		}
		rep.Sections = append(rep.Sections, talk.Section{Lines: []string{"/" + c.Name + ": " + c.Help, "   " + c.Example}})
		b := helpButton("/"+c.Name, c.Name)
		b.Line = 2*len(rep.Sections) - 1
		rep.Buttons = append(rep.Buttons, b)
	}
	if first == "" {
		return talk.Reply{}, talk.UnknownCommand(t.bot.commands, strings.Fields(asked))
	}
	rep.Next = "Next: /help command:" + first
	return rep, nil
}

func helpButton(label, about string) talk.Button {
	return talk.Button{Label: label, Do: "help command:" + about}
}

// lesson is a line of the first help: at what time of a party one may want what, and the message that does it.
type lesson struct{ when, want, say string }

//go:embed help.tsv
var helpText string

// The times of a party, and the commands used most, as help.tsv calls them.
const (
	noParty, noPlan, withPlan, onTheDay = "none", "menu", "plan", "day"
	usedMost                            = "used"
)

// lessons are the rows of help.tsv for a time.
func lessons(when string) (out []lesson) {
	for _, r := range words.Rows("help.tsv", helpText, 3) {
		if r[0] == when {
			out = append(out, lesson{r[0], r[1], r[2]})
		}
	}
	return out
}

// helpFirst says what one may want now, and how to say it.
func helpFirst(ctx context.Context, t *Turn) talk.Reply {
	rep := talk.Reply{Text: "I plan a dinner with you: what is cooked, who does what, and when.", Next: "Next: " +
		partyNewExample}
	when := noParty
	if t.settlePlace(ctx) == nil && t.loadParty(ctx) == nil && t.Me != nil {
		if when = noPlan; t.Plan != nil {
			when = withPlan
		}
		if t.Plan != nil && !t.Now.Before(t.Party.Day()) && t.Now.Before(t.Party.NightEnd()) {
			when = onTheDay
		}
		rep.Text = fmt.Sprintf("For %s comes next: %s.", t.Party.Name, t.nextStep())
		rep.Next = "Next: " + t.nextStep()
		if when == onTheDay {
			rep.Text, rep.Next = fmt.Sprintf("%s is today. Just say it:", t.Party.Name), "Next: what now"
		}
	}
	var lines, used []string
	for _, l := range lessons(when) {
		lines = append(lines, l.want+": "+l.say)
	}
	for _, l := range lessons(usedMost) {
		used = append(used, "/"+l.say)
	}
	rep.Sections = []talk.Section{{Title: "What you may want now", Lines: lines},
		{Title: "Used most", Lines: []string{strings.Join(used, ", ")}},
		{Title: "Good to know", Lines: []string{
			"Without a slash, write as you would say it. /undo takes back your last change.",
			"The start of a name is enough. /help command:all has every command."}}}
	for _, g := range []string{"party", "dish", "step", "task", "plan", "remind"} {
		rep.Buttons = append(rep.Buttons, helpButton(title(g), g))
	}
	rep.Buttons = append(rep.Buttons, helpButton("All commands", helpAllWord))
	return rep
}

func title(group string) string {
	if s := groupTitles[group]; s != "" {
		return s
	}
	return group
}

func helpAll(all []talk.Command) talk.Reply {
	rep := talk.Reply{Text: words.Count(len(all), "command") + "; /help command:… has all about one.",
		Next: "Next: /help command:" + all[0].Name}
	most := talk.Section{Title: "Used most"}
	for _, l := range lessons(usedMost) {
		most.Lines = append(most.Lines, "/"+l.say+": "+l.want)
	}
	rep.Sections = append(rep.Sections, most)
	var single talk.Section
	single.Title = "And"
	for i := range all {
		c := &all[i]
		line := "/" + c.Name + ": " + c.Help
		if c.Name == c.Group() {
			single.Lines = append(single.Lines, line)
			continue
		}
		if n := len(rep.Sections); n > 0 && rep.Sections[n-1].Title == title(c.Group()) {
			rep.Sections[n-1].Lines = append(rep.Sections[n-1].Lines, line)
			continue
		}
		rep.Sections = append(rep.Sections, talk.Section{Title: title(c.Group()), Lines: []string{line}})
	}
	rep.Sections = append(rep.Sections, single)
	return rep
}

func helpOne(c *talk.Command) talk.Reply {
	rep := talk.Reply{Text: fmt.Sprintf("/%s: %s.", c.Name, c.Help)}
	var lines []string
	for _, o := range c.Options {
		line := o.Name + ": " + o.Help
		if o.Required {
			line += " (needed)"
		}
		if len(o.Choices) > 0 {
			line += "; one of " + words.Or(o.Choices)
		} else if o.Example != "" {
			line += "; as " + o.Name + ":" + o.Example
		}
		lines = append(lines, line)
	}
	if len(lines) > 0 {
		rep.Sections = []talk.Section{{Title: "Options", Lines: lines}}
	}
	who := map[talk.Access]string{talk.CoHosts: "For hosts and co-hosts.", talk.Hosts: "For hosts only."}[c.Access]
	if who != "" {
		rep.Text += "\n" + who
	}
	rep.Next = "As in: " + c.Example
	return rep
}
