package bot

import (
	"fmt"

	"tureen/planner/menu"
)

// saysMenuNews are the commands after which a menu may not come out that came out before.
var saysMenuNews = map[string]bool{
	"dish add": true, "dish change": true, "repertoire add": true, "step add": true, "step change": true, "step use": true, "step serve": true,
	"ingredient add": true, "ingredient change": true, "course change": true, "party change": true, "guest add": true, "guest change": true,
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
		lines = append(lines[:mostMenuNews-1:mostMenuNews-1], fmt.Sprintf("and %d more; /dish list has them all", n-mostMenuNews+1))
	}
	return []Section{{"Think again about the menu", lines}}
}
