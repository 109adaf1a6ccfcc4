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

// mostMenuNews is how many sentences a reply says at once; the menu has them all.
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
	if n := len(lines) - mostMenuNews; n > 0 {
		lines = append(lines[:mostMenuNews:mostMenuNews], fmt.Sprintf("and %d more; /dish list has them all", n))
	}
	return []Section{{"Think again about the menu", lines}}
}
