package talk

import (
	"slices"
	"strconv"
	"strings"

	"tureen/planner/words"
)

// Line is a typed message, taken apart.
type Line struct {
	Command string
	Options map[string]string
	Files   map[string]string // option name to the file's path, from "option:@PATH"
	AsOf    int64             // the party's revision that it holds for; 0: any

	renamed []string // what was said in words of formerly; see News
}

// ParseLine reads a message as a person types it:
//
//	/command sub option:value option:value …
//
// A value runs to the next " option:" of that command, or stands in double quotes, where \" is a quote.
// In either, \n is a line break. For an option that takes a file, "@" and a path attach it; so they do for a long text
// that may come in a file. The slash may
// be missing. The error is a *[Refusal].
func ParseLine(commands []Command, text string) (Line, error) {
	text = strings.TrimSpace(text)
	body := strings.TrimPrefix(text, "/")
	if body == No {
		return Line{Command: No}, nil
	}
	if asOf, rest, ok := cutAsOf(body); ok {
		l, err := ParseLine(commands, rest)
		l.AsOf = asOf
		return l, err
	}
	words := strings.Fields(body)
	if len(words) == 0 {
		return Line{}, Refuse("/help", "Say what to do.")
	}
	cmd, said, rest := findCommand(commands, body)
	if cmd == nil {
		return Line{}, UnknownCommand(commands, words)
	}
	l := Line{Command: cmd.Name, Options: map[string]string{}, Files: map[string]string{}}
	l.note("/"+said, "/"+cmd.Name)
	marks := optionMarks(cmd, rest)
	head := rest
	if len(marks) > 0 {
		head = rest[:marks[0].at]
	}
	if head = strings.TrimSpace(head); head != "" {
		return Line{}, strayText(cmd, head)
	}
	for i := 0; i < len(marks); i++ {
		m := marks[i]
		end := len(rest)
		if i+1 < len(marks) {
			end = marks[i+1].at
		}
		raw := strings.TrimSpace(rest[m.value:end])
		if m.quoted {
			raw = rest[m.value : m.value+m.length]
			if after := strings.TrimSpace(rest[m.value+m.length+1 : end]); after != "" {
				return Line{}, Refuse(cmd.Example, "After the closing quote of %s: stands %q; put all of the value in the "+
					"quotes, or write \\\" for a quote in it.", m.option.Name, Shown(after))
			}
		} else if err := swallowed(commands, cmd, &l, m.option.Name, raw); err != nil {
			return Line{}, err
		}
		if m.open {
			return Line{}, Refuse(cmd.Example, "The value of %s: begins with a quote that nothing closes; add a closing quote.",
				m.option.Name)
		}
		_, twice := l.Options[m.option.Name]
		_, file := l.Files[m.option.Name]
		if twice || file {
			return Line{}, Refuse(cmd.Example, "The option %s: stands twice; give it once.", m.option.Name)
		}
		if m.option.Kind == FileOption && strings.HasPrefix(raw, "@") {
			l.Files[m.option.Name] = strings.TrimPrefix(raw, "@")
			continue
		}
		if of := fileFor(cmd, m.option); of != "" && len(raw) > 1 && raw[0] == '@' && !strings.ContainsAny(raw, " \n") {
			l.Files[of] = raw[1:] // text:@soup.txt
			continue
		}
		text := unescape(raw)
		now := valueNow(cmd, m.option, text)
		l.Options[m.option.Name] = now
		l.note(m.name+":", m.option.Name+":")
		if m.option.Kind == Choice {
			l.note(m.option.Name+":"+text, m.option.Name+":"+now)
		}
	}
	return l, nil
}

// AsOfMark begins the message of a button that holds for a party as it was asked about: the mark, the party's revision,
// a space and the message. No is the message of the button beside it.
const (
	AsOfMark = "yes:"
	No       = "no"
)

// cutAsOf takes the revision off a message that holds for one.
func cutAsOf(body string) (asOf int64, rest string, ok bool) {
	tail, ok := strings.CutPrefix(body, AsOfMark)
	if !ok {
		return 0, "", false
	}
	n, rest, _ := strings.Cut(tail, " ")
	asOf, err := strconv.ParseInt(n, 10, 64)
	if err != nil || asOf <= 0 || strings.HasPrefix(rest, AsOfMark) {
		return 0, "", false
	}
	return asOf, rest, true
}

// fileFor is the option for a file that a long text may come in instead; empty: none.
func fileFor(cmd *Command, o *Option) string {
	if o.Kind == LongText {
		for i := range cmd.Options {
			if cmd.Options[i].Kind == FileOption {
				return cmd.Options[i].Name
			}
		}
	}
	return ""
}

// findCommand finds the command that a message begins with, what it was called there, and what stands after that.
func findCommand(commands []Command, body string) (cmd *Command, said, rest string) {
	words := strings.Fields(body)
	for n := min(2, len(words)); n >= 1; n-- {
		said := strings.ToLower(strings.Join(words[:n], " "))
		name := commandNow(said)
		for i := range commands {
			if commands[i].Name != name {
				continue
			}
			rest := body
			for _, w := range words[:n] {
				rest = strings.TrimLeft(rest, " \t\n\r\v\f\u0085\u00a0")
				_, rest, _ = strings.Cut(rest, w)
			}
			return &commands[i], said, rest
		}
	}
	return nil, "", ""
}

// UnknownCommand refuses what begins with no command, with the nearest ones.
func UnknownCommand(commands []Command, typed []string) error {
	one := strings.ToLower(typed[0])
	var verbs, names []string
	for _, c := range commands {
		names = append(names, c.Name)
		if group, verb, ok := strings.Cut(c.Name, " "); ok && group == one {
			verbs = append(verbs, verb)
		}
	}
	if len(verbs) > 0 {
		if len(typed) > 1 && !strings.Contains(typed[1], ":") {
			if near := Nearest(typed[1], verbs); len(near) > 0 {
				return Refuse("/"+one+" "+near[0], "There is no /%s %s. Did you mean /%s %s?", one, Shown(typed[1]), one, near[0])
			}
		}
		return Refuse("/"+one+" "+verbs[0], "After /%s comes one of %s.", one, words.Or(verbs))
	}
	said := one
	if len(typed) > 1 && !strings.Contains(typed[1], ":") {
		said += " " + strings.ToLower(typed[1])
	}
	near := Nearest(said, names)
	if len(typed) > 1 { // "add dish"
		if turned := strings.ToLower(typed[1]) + " " + one; slices.Contains(names, turned) {
			near = []string{turned}
		}
	}
	if len(near) == 0 { // perhaps only the group is misspelt
		var groups []string
		for _, n := range names {
			g, _, _ := strings.Cut(n, " ")
			if !slices.Contains(groups, g) {
				groups = append(groups, g)
			}
		}
		if g := Nearest(one, groups); len(g) > 0 {
			near = []string{g[0]}
			if len(typed) > 1 && slices.Contains(names, g[0]+" "+strings.ToLower(typed[1])) {
				near[0] += " " + strings.ToLower(typed[1])
			} else if !slices.Contains(names, g[0]) {
				return Refuse("/help", "I don't know /%s. Did you mean /%s …?", Shown(said), g[0])
			}
		}
	}
	if len(near) > 0 {
		return Refuse("/"+near[0], "I don't know /%s. Did you mean /%s?", Shown(said), near[0])
	}
	return Refuse("/help", "I don't know /%s.", Shown(said))
}

// mark is where an option begins in a message.
type mark struct {
	option *Option
	name   string // as it was typed: perhaps a name that the option had formerly
	at     int    // of its name
	value  int    // of its value's first byte, after an opening quote
	length int    // of a quoted value
	quoted bool
	open   bool // a quote that nothing closes
}

// optionMarks finds the options of a command in what follows its name.
func optionMarks(cmd *Command, rest string) []mark {
	var out []mark
	former := formerOptions(cmd)
	for i := 0; i < len(rest); i++ {
		if i > 0 && !isSpace(rest[i-1]) {
			continue
		}
		o, name := optionAt(cmd, rest[i:]), ""
		if o != nil {
			name = o.Name
		} else if o, name = formerAt(former, rest[i:]); o == nil {
			continue
		}
		m := mark{option: o, name: name, at: i, value: i + len(name) + 1}
		if m.value < len(rest) && rest[m.value] == '"' {
			m.value++
			n, closed := quotedLength(rest[m.value:])
			m.quoted, m.open, m.length = closed, !closed, n
			if closed {
				i = m.value + n
			}
		}
		out = append(out, m)
	}
	return out
}

func optionAt(cmd *Command, text string) *Option {
	for i := range cmd.Options {
		if beginsWithOption(text, cmd.Options[i].Name) {
			return &cmd.Options[i]
		}
	}
	return nil
}

// formerAt is the option that a text begins with under a name of formerly, and that name.
func formerAt(former map[string]*Option, text string) (*Option, string) {
	for name, o := range former {
		if beginsWithOption(text, name) {
			return o, name
		}
	}
	return nil, ""
}

func beginsWithOption(text, name string) bool {
	return len(text) > len(name) && text[len(name)] == ':' && strings.EqualFold(text[:len(name)], name)
}

func quotedLength(text string) (n int, closed bool) {
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case '"':
			return i, true
		}
	}
	return len(text), false
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' }

// unescape reads \n, \" and \\ in a value; any other backslash stands for itself.
func unescape(raw string) string {
	return strings.NewReplacer(`\\`, `\`, `\n`, "\n", `\"`, `"`).Replace(raw)
}

// swallowed finds, inside an option's value, another option that is misspelt or belongs to another command,
// and that would otherwise become part of the value.
func swallowed(commands []Command, cmd *Command, l *Line, in, raw string) error {
	var free []string
	for _, o := range cmd.Options {
		if _, given := l.Options[o.Name]; !given && o.Name != in {
			free = append(free, o.Name)
		}
	}
	words := strings.Fields(raw)
	for i := 1; i < len(words); i++ {
		name, value, colon := strings.Cut(words[i], ":")
		if !colon || value == "" || len(name) < 3 || strings.HasPrefix(value, "//") {
			continue
		}
		const quotes = "If it belongs to %s:, put the value in quotes."
		if near := Nearest(name, free); len(near) > 0 {
			return Refuse(cmd.Example, "%s: is no option of /%s. Did you mean %s:? "+quotes, Shown(name), cmd.Name, near[0], in)
		}
		for _, other := range commands {
			if other.Group() == cmd.Group() && optionAt(&other, name+":") != nil {
				return Refuse(other.Example, "%s: is no option of /%s, but of /%s. "+quotes, Shown(name), cmd.Name, other.Name, in)
			}
		}
	}
	return nil
}

// strayText explains text that stands before a command's first option.
func strayText(cmd *Command, head string) error {
	var names []string
	for _, o := range cmd.Options {
		names = append(names, o.Name)
	}
	if name, _, colon := strings.Cut(head, ":"); colon && !strings.ContainsAny(name, " \t") {
		return unknownOption(cmd, name)
	}
	if len(names) == 0 {
		return Refuse("/"+cmd.Name, "/%s takes nothing after it, and here stands %q.", cmd.Name, Shown(head))
	}
	return Refuse(cmd.Example, "Say what %q is: every value has its option's name and a colon before it.", Shown(head))
}

func unknownOption(cmd *Command, name string) error {
	var names []string
	for _, o := range cmd.Options {
		names = append(names, o.Name)
	}
	if len(names) == 0 {
		return Refuse("/"+cmd.Name, "/%s takes no options.", cmd.Name)
	}
	if near := DidYouMean(name, names); near != "" {
		return Refuse(cmd.Example, "/%s has no option %s:.%s", cmd.Name, Shown(name), near)
	}
	return Refuse(cmd.Example, "/%s has no option %s:; it has %s.", cmd.Name, Shown(name), words.And(names))
}

// Message writes a command with its options as a person would type it, without the slash. [ParseLine] reads
// the same from it.
func (c *Command) Message(options map[string]string) string {
	var b strings.Builder
	b.WriteString(c.Name)
	for i := range c.Options {
		name := c.Options[i].Name
		text, given := options[name]
		if !given {
			continue
		}
		if text == "" || strings.TrimSpace(text) != text || strings.ContainsAny(text, "\":\\\n\t") ||
			strings.HasPrefix(text, "@") {
			text = `"` + strings.NewReplacer(`\`, `\\`, "\n", `\n`, `"`, `\"`).Replace(text) + `"`
		}
		b.WriteString(" " + name + ":" + text)
	}
	return b.String()
}
