package bot

import (
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner/menu"
)

// mostMenuNews is how many lines a reply has of it; /dish list has them all.
const mostMenuNews = 3

// menuNews says what the change has made worth a second look: nothing that was so before.
func (t *Turn) menuNews() []talk.Section {
	if !t.command.Menu {
		return nil
	}
	lines := menu.News(&t.snapshot.Party, t.Party)
	if len(lines) == 0 {
		return nil
	}
	if n := len(lines); n > mostMenuNews {
		lines = append(lines[:mostMenuNews-1:mostMenuNews-1], fmt.Sprintf("and %d more; /dish list has them all",
			n-mostMenuNews+1))
	}
	return []talk.Section{{Title: "Think again about the menu", Lines: lines}}
}

// aside puts news for a cook before what a command has for one, and leaves away the help that both give.
func aside(news, own []talk.Section) []talk.Section {
	for i := range own {
		own[i].Lines = slices.DeleteFunc(own[i].Lines, func(line string) bool {
			help, ok := strings.CutPrefix(line, wouldHelp)
			return ok && slices.ContainsFunc(news, func(s talk.Section) bool {
				return slices.ContainsFunc(s.Lines, func(l string) bool { return strings.Contains(l, help) })
			})
		})
	}
	return append(news, own...)
}

// cooksNews says, to a cook alone, whom the change has left without, and what would help.
func (t *Turn) cooksNews() []talk.Section {
	if !t.command.Menu || !t.cooks() {
		return nil
	}
	before := menu.Unfed(&t.snapshot.Party)
	var lines []string
	for _, line := range menu.Unfed(t.Party) {
		if !slices.Contains(before, line) {
			lines = append(lines, line)
		}
	}
	if len(lines) == 0 {
		return nil
	}
	return []talk.Section{{Title: "Who is left without", Lines: firstLines(lines, mostAgainst, "/guest table has all")}}
}
