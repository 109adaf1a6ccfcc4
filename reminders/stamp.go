package reminders

import (
	"time"

	"tureen/planner/words"
)

// Instants are marked by package words; these are its names for those who write reminders and replies.
type (
	StampStyle = words.StampStyle
	Instant    = words.Instant
)

// The styles.
const (
	Clock    = words.Clock
	DayClock = words.DayClock
	Date     = words.Date
	Relative = words.Relative
	TypedAs  = words.TypedAs
)

// Stamp is words.Stamp.
func Stamp(t time.Time, style StampStyle, zone *time.Location) string {
	return words.Stamp(t, style, zone)
}

// StampAs is words.StampAs.
func StampAs(t time.Time, style StampStyle, said string) string { return words.StampAs(t, style, said) }

// Key is words.TypedKey.
func Key(key string) string { return words.TypedKey(key) }

// RenderStamps is words.RenderStamps.
func RenderStamps(text string, draw func(Instant) string) string {
	return words.RenderStamps(text, draw)
}

// PlainStamps is words.PlainStamps.
func PlainStamps(text string) string { return words.PlainStamps(text) }

// StripStamps is words.StripStamps.
func StripStamps(text string) string { return words.StripStamps(text) }
