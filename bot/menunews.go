package bot

import (
	"fmt"
	"slices"
	"strings"

	"tureen/planner/menu"
)

// saysMenuNews are the commands after which a menu may not come out that came out before.
var saysMenuNews = map[string]bool{
	"dish add": true, "dish change": true, "repertoire add": true, "step add": true, "step change": true,
	"step use": true, "dish chill": true, "recipe keep": true, "recipe line": true, "kitchen ware": true,
	"step serve": true, "ingredient add": true, "ingredient change": true, "dish remove": true,
	"ingredient remove": true, "course change": true, "party change": true, "guest add": true,
	"guest change": true,
}

// mostMenuNews is how many lines a reply has of it; /dish list has them all.
const mostMenuNews = 3

// menuNews says what the change has made worth a second look: nothing that was so before.
func (t *Turn) menuNews() []Section {
	if !saysMenuNews[t.command.Name] {
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
	return []Section{{"Think again about the menu", lines}}
}

// aside puts news for a cook before what a command has for one, and leaves away the help that both give.
func aside(news, own []Section) []Section {
	for i := range own {
		own[i].Lines = slices.DeleteFunc(own[i].Lines, func(line string) bool {
			help, ok := strings.CutPrefix(line, wouldHelp)
			return ok && slices.ContainsFunc(news, func(s Section) bool {
				return slices.ContainsFunc(s.Lines, func(l string) bool { return strings.Contains(l, help) })
			})
		})
	}
	return append(news, own...)
}

// cooksNews says, to a cook alone, whom the change has left without, and what would help.
func (t *Turn) cooksNews() []Section {
	if !saysMenuNews[t.command.Name] || !t.cooks() {
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
	return []Section{{"Who is left without", firstLines(lines, mostAgainst, "/guest table has all")}}
}
