package discord

import (
	"strings"

	"tureen/bot/talk"
	"tureen/planner/words"
)

// The most characters of all tables of a message, and the most tables; what does not fit is in the file.
const (
	maxTable  = 1800
	maxTables = 5 // of 10 cards
)

// drawTables puts tables on cards of their own, in the fixed width of a code block, where nothing is mark-up but the
// marks that end it. used is how many characters they take; whole is false when something had no room.
func drawTables(list []talk.Section) (cards []embed, used int, whole bool) {
	whole = true
	for _, s := range list {
		var b strings.Builder
		for _, line := range s.Lines {
			line = strings.ReplaceAll(words.PlainStamps(line), "`", "'")
			if used+runes(line)+1 > maxTable || len(cards) == maxTables {
				whole = false
				break
			}
			used += runes(line) + 1
			b.WriteString(line + "\n")
		}
		if b.Len() == 0 {
			continue
		}
		text := "```\n" + b.String() + "```"
		if s.Title != "" {
			text = "**" + worded(s.Title) + "**\n" + text
		}
		used += runes(text) - runes(b.String())
		cards = append(cards, embed{Description: text})
	}
	return cards, used, whole
}
