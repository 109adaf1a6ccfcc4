package words

import (
	"strconv"
	"strings"
	"time"
)

// An instant stands in a text between control characters, together with what it says where nobody knows
// better: a face may draw the instant in its own way, and whoever cannot prints the words. A stamp is
// stampOpen, a style's letter, Unix seconds, stampMiddle, the words, stampClose.
const (
	stampOpen   = '\x0e'
	stampMiddle = '\x1f'
	stampClose  = '\x0f'
)

// StampStyle says how much of an instant is to be shown.
type StampStyle byte

// The styles.
const (
	Clock    StampStyle = 't' // 17:35
	DayClock StampStyle = 'f' // Sat 17:35
	Date     StampStyle = 'd' // Sat 26 Sep
	Relative StampStyle = 'r' // in 20 min; needs StampAs
	// TypedAs is no instant but how a thing is called by those who type: see [TypedKey]. A face where things are
	// chosen leaves it out.
	TypedAs StampStyle = 'k'
)

// Instant is a stamp taken out of a text again.
type Instant struct {
	At    time.Time // UTC, whole seconds
	Style StampStyle
	Words string // what it says where nobody knows better
}

// Stamp puts an instant into a text, in words of a zone. Relative is not known to it.
func Stamp(t time.Time, style StampStyle, zone *time.Location) string {
	layout := "Mon 15:04"
	switch style {
	case Clock:
		layout = "15:04"
	case Date:
		layout = "Mon 2 Jan"
	}
	return StampAs(t, style, t.In(zone).Format(layout))
}

// StampAs is Stamp with the caller's own words.
func StampAs(t time.Time, style StampStyle, words string) string {
	return string(stampOpen) + string(rune(style)) + strconv.FormatInt(t.Unix(), 10) +
		string(stampMiddle) + StripStamps(words) + string(stampClose)
}

// TypedKey is how a thing is called by those who type, for the end of a line that is about it: " [pear-tart/roll]".
func TypedKey(key string) string { return StampAs(time.Unix(0, 0), TypedAs, " ["+key+"]") }

// RenderStamps replaces every stamp by what draw makes of it. What is broken is left as its plain words.
func RenderStamps(text string, draw func(Instant) string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, string(stampOpen))
		b.WriteString(StripStamps(before))
		if !found {
			return b.String()
		}
		head, tail, found := strings.Cut(rest, string(stampMiddle))
		words, after, closed := strings.Cut(tail, string(stampClose))
		i, ok := instant(head)
		if !found || !closed || !ok || strings.ContainsRune(words, stampOpen) {
			text = rest
			continue
		}
		i.Words = StripStamps(words)
		b.WriteString(draw(i))
		text = after
	}
}

func instant(head string) (Instant, bool) {
	if head == "" {
		return Instant{}, false
	}
	style := StampStyle(head[0])
	sec, err := strconv.ParseInt(head[1:], 10, 64)
	if err != nil || style != Clock && style != DayClock && style != Date && style != Relative && style != TypedAs {
		return Instant{}, false
	}
	return Instant{At: time.Unix(sec, 0).UTC(), Style: style}, true
}

// PlainStamps replaces every stamp by its own words.
func PlainStamps(text string) string {
	return RenderStamps(text, func(i Instant) string { return i.Words })
}

// StripStamps takes the characters that stamps are made of out of a text. Whatever a person has typed goes
// through it, so that nobody can put a stamp into somebody else's message.
func StripStamps(text string) string {
	if !strings.ContainsAny(text, string(stampOpen)+string(stampMiddle)+string(stampClose)) {
		return text
	}
	return strings.Map(func(r rune) rune {
		if r == stampOpen || r == stampMiddle || r == stampClose {
			return -1
		}
		return r
	}, text)
}
