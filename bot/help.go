package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner/words"
)

var helpCommands = []command{
	{talk.Command{Name: "help", Help: "What can be typed: all commands, a group, or one with its options",
		Access: talk.Anyone, Looks: true, Own: talk.OwnAlways, Example: "/help command:dish add",
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

// lesson is a line of the first help: what to do, and the message that does it.
type lesson struct{ what, message string }

var lessons = []lesson{
	{"Start the party: its day, when the guests arrive, for how many.", partyNewExample},
	{"Say who cooks with you, and when they can.", "/people add name:Ben role:co-host cooks:16:00-21:30"},
	{"Say what your guests do not eat.", "/guest add name:Clara diets:vegetarian allergies:nuts"},
	{"Put dishes on the menu: ready ones, a recipe of yours, or step by step.",
		"/repertoire list, or /recipe read, or /dish add and /step add"},
	{"Let me plan. Where not all can be kept, I say what clashes and what would mend it.", "/plan make"},
	{"Share the work out; each of you is reminded in time.", "/task list"},
	{"On the evening, say what is done, and what slips.", "/now, then /task done or /late"},
}

// helpFirst teaches: what comes next for the asker's party, and the way from the first message to the last.
func helpFirst(ctx context.Context, t *Turn) talk.Reply {
	rep := talk.Reply{Text: "I plan a dinner with you: what is cooked, who does what, and when.", Next: "Next: " +
		partyNewExample}
	if t.settlePlace(ctx) == nil && t.loadParty(ctx) == nil && t.Me != nil {
		rep.Text += fmt.Sprintf("\nFor %s comes next: %s.", t.Party.Name, t.nextStep())
		rep.Next = "Next: " + t.nextStep()
	}
	var lines []string
	for i, l := range lessons {
		lines = append(lines, fmt.Sprintf("%d. %s", i+1, l.what), "   "+l.message)
	}
	rep.Sections = []talk.Section{
		{Title: "From the first message to the last", Lines: lines},
		{Title: "Good to know", Lines: []string{
			"Every change can be taken back: /undo. Who changed what: /journal.",
			"Values are typed as you would say them: sat 19:30, 1h20, 20-30 min, 180C, 2 tbsp.",
			"Where you must name a dish, a task or a person, the start of the name is enough.",
			"/help command:all has every command; /help command:dish those for dishes.",
		}},
	}
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
