package talk

import "strings"

// Gather puts messages of several lines together, where lines are all that there is: what stands between a line that
// ends with "<<" and a "." alone is the value of the option that the line ends with, as in "/recipe read text:<<".
// After "<<" alone it is a recipe's text. The zero value is ready.
type Gather struct {
	head  string
	lines []string
	open  bool
}

// Line takes the next line of input. It answers the message that is complete with it; whole is false while one goes
// on.
func (g *Gather) Line(line string) (message string, whole bool) {
	line = strings.TrimRight(line, "\r")
	if g.open {
		if strings.TrimSpace(line) == "." {
			return g.Rest(), true
		}
		g.lines = append(g.lines, line)
		return "", false
	}
	head, ok := strings.CutSuffix(strings.TrimSpace(line), "<<")
	if !ok || strings.HasPrefix(head, "#") {
		return line, true
	}
	g.head, g.lines, g.open = head, nil, true
	return "", false
}

// Rest is the message that was going on when the input ended; empty when none was.
func (g *Gather) Rest() string {
	if !g.open {
		return ""
	}
	g.open = false
	return WithText(g.head, strings.Join(g.lines, "\n"))
}

// readsText is the message that a text without any command is for.
const readsText = "/recipe read text:"

// WithText is a message of one line with a text of several, quoted: after the head that it ends with, such as
// "/recipe read text:"; without a head, or with no more than who speaks, the text is taken for a recipe.
func WithText(head, text string) string {
	switch head = strings.TrimSpace(head); {
	case head == "" || strings.HasSuffix(head, ">"):
		head = strings.TrimSpace(head + " " + readsText)
	case !strings.HasSuffix(head, ":"):
		head += " "
	}
	return head + `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`).Replace(text) + `"`
}
