package discord

import (
	"strings"

	"tureen/bot"
	"tureen/reminders"
)

// maxTable is the most characters of a card that holds a table; what does not fit is left to the words below it.
const maxTable = 1800

// drawTables puts tables on cards of their own, in the fixed width of a code block, where nothing is mark-up but the
// marks that end it. used is how many characters they take.
func drawTables(list []bot.Section) (cards []embed, used int) {
	for _, s := range list {
		var b strings.Builder
		for _, line := range s.Lines {
			line = strings.ReplaceAll(reminders.PlainStamps(line), "`", "'")
			if used+runes(line)+1 > maxTable {
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
	return cards, used
}
