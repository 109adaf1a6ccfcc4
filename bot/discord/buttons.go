package discord

import (
	"strings"

	"tureen/bot/talk"
	"tureen/planner/words"
)

// Few buttons are shown as such; of more than that, those about single lines, but for the first ones, and what is
// more than two rows go into lists to choose from, which take less of a phone.
const (
	mostButtons     = 2 * rowButtons
	mostLineButtons = 3
	maxLists        = 2
	listItems       = 25
)

// buttonRows lays buttons out. id makes a button's custom id from its place.
func buttonRows(list []talk.Button, id func(n int, b talk.Button) string) []component {
	var fit, more []component
	lines := 0
	for _, b := range list {
		custom, label := id(len(fit)+len(more), b), cut(strings.TrimSpace(words.PlainStamps(b.Label)), maxLabel)
		if runes(custom) > maxCustomID {
			continue
		}
		if label == "" {
			label = "…"
		}
		c := component{Type: componentButton, Style: styleOf(b.Style), Label: label, CustomID: custom}
		if b.Line > 0 {
			lines++
		}
		if b.Line > 0 && lines > mostLineButtons && len(list) > rowButtons || len(fit) == mostButtons {
			more = append(more, c)
		} else {
			fit = append(fit, c)
		}
	}
	rows := []component{}
	for n := 0; n < len(fit); n += rowButtons {
		rows = append(rows, component{Type: componentRow, Components: fit[n:min(n+rowButtons, len(fit))]})
	}
	for n := 0; n < maxLists && len(more) > 0; n++ {
		some := more[:min(listItems, len(more))]
		more = more[len(some):]
		rows = append(rows, component{Type: componentRow, Components: []component{choiceList(n, some)}})
	}
	return rows
}

// choiceList is a list to choose one of several buttons from.
func choiceList(n int, list []component) component {
	c := component{Type: componentSelect, CustomID: string(rune(kindList)) + placeMark(n),
		Placeholder: "More to choose from"}
	verb, _, _ := strings.Cut(list[0].Label, " ")
	alike := true
	for _, b := range list {
		c.Options = append(c.Options, listItem{Label: b.Label, Value: b.CustomID})
		v, _, more := strings.Cut(b.Label, " ")
		alike = alike && more && v == verb
	}
	if alike {
		c.Placeholder = verb + " …"
	}
	return c
}

func styleOf(s talk.ButtonStyle) int {
	switch s {
	case talk.Main:
		return stylePrimary
	case talk.Danger:
		return styleDanger
	}
	return styleSecondary
}

// A custom id is a letter for its kind, a letter that makes it single in its message, for a reminder eight
// characters of its key, a colon, and the message that the button says. So a button still works after a
// restart and after weeks: all that it means stands in it. (That of a page's button is in page.go. A list's
// own means nothing; what is chosen from it has a button's.)
const (
	kindPress  = 'b'
	kindPlace  = 'i' // like kindPress; the answer goes in the place of the message
	kindRemind = 'r'
	kindPage   = 'p'
	kindList   = 'l'
	keyLength  = 8
)

func pressID(n int, b talk.Button) string {
	kind := kindPress
	if b.InPlace {
		kind = kindPlace
	}
	return string(kind) + placeMark(n) + ":" + b.Do
}

func remindID(key string) func(int, talk.Button) string {
	return func(n int, b talk.Button) string {
		return string(rune(kindRemind)) + placeMark(n) + keyMark(key) + ":" + b.Do
	}
}

// placeMark is a letter or digit for a place in a message.
func placeMark(n int) string {
	const marks = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
	return marks[n%len(marks):][:1]
}

// said is the message that a custom id stands for.
func said(id string) (do string, ok bool) {
	head := 3
	switch {
	case id == "":
		return "", false
	case id[0] == kindRemind:
		head += keyLength
	case id[0] != kindPress && id[0] != kindPlace:
		return "", false
	}
	if len(id) <= head || id[head-1] != ':' {
		return "", false
	}
	return id[head:], true
}
