package safety

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tureen/planner/words"
)

// Topic groups limits: the topics are those of the reference table.
type Topic string

// The topics of limits.csv.
const (
	DangerZone   Topic = "danger_zone"
	TimeOut      Topic = "time_out" // on the counter
	Cooling      Topic = "cooling"
	CookTemp     Topic = "cook_temp"
	RestTime     Topic = "rest_time"
	HotHolding   Topic = "hot_hold"
	ColdHolding  Topic = "cold_hold"
	Freezing     Topic = "freeze"
	Reheating    Topic = "reheat"
	Refrigerator Topic = "storage_fridge"
	ThawFridge   Topic = "thaw_fridge"
	ThawWater    Topic = "thaw_cold_water"
	ThawAfter    Topic = "thaw_after"
)

// Bound says on which side of a limit food must stay.
type Bound string

// The bounds; Rule is advice without a figure ("until the flesh is opaque").
const (
	AtMost  Bound = "max"
	AtLeast Bound = "min"
	Rule    Bound = "rule"
)

// Authority is who publishes a limit, in a few words.
type Authority string

// How says how a figure came to us: "read: …" names the copy that was read,
// "memory" means recalled from the published document.
type How string

// Limit is one published limit. The zero value means that none is published
// for what was asked; see [Limit.Applies].
type Limit struct {
	ID      string // of its row in limits.csv
	Topic   Topic
	Subject string // what the limit is about, in the source's words
	Bound   Bound

	Timed   bool // Minutes counts
	From    int  // minutes, near end of the published range; Minutes when there is no range
	Minutes int  // minutes, far end of the published range; 0 means at once

	Sized bool    // Size counts
	Size  float64 // centimetres of depth or thickness, or grams of a piece, exactly as the published inches and pounds
	Unit  string  // cm or g

	Heated bool    // TempC and TempF count
	TempC  float64 // degrees Celsius as published or as the table rounds them
	TempF  float64 // degrees Fahrenheit
	Above  bool    // it holds where it is warmer than that

	Authority Authority
	Source    string // document, section, year
	How       How
	Note      string // what the source adds, "" for nothing
}

// Applies reports whether a limit is published for what was asked.
func (l Limit) Applies() bool { return l.ID != "" }

// String is the limit as a sentence's middle: "at most 2 h (USDA FSIS, …)".
func (l Limit) String() string {
	if !l.Applies() {
		return "no published limit"
	}
	return fmt.Sprintf("%s%s (%s)", l.Figure(), l.Air(), l.Source)
}

// Air says of a limit for warm air in which it holds: " where the air is above 32 °C (90 °F)"; else it is empty.
func (l Limit) Air() string {
	if !l.Above {
		return ""
	}
	return fmt.Sprintf(" where the air is above %s °C (%s °F)", plain(l.TempC), plain(l.TempF))
}

// By says whose limit it is: "published limit: USDA FSIS, …", or that nobody publishes it.
func (l Limit) By() string {
	if strings.HasPrefix(l.Source, "common practice") {
		return "no published limit, " + l.Source
	}
	return "published limit: " + l.Source
}

// Figure is the limit without its source: "at most 2 h", "at least 74 °C (165 °F)".
func (l Limit) Figure() string {
	if !l.Applies() {
		return "no published limit"
	}
	side := ""
	switch l.Bound {
	case AtMost:
		side = "at most "
	case AtLeast:
		side = "at least "
	}
	heat := fmt.Sprintf("%s °C (%s °F)", plain(l.TempC), plain(l.TempF))
	switch {
	case l.Timed && l.Minutes == 0 && l.Bound == Rule:
		return "at once"
	case l.Timed && l.Heated && l.Topic == Cooling:
		return fmt.Sprintf("down to %s within %s", heat, words.Short(l.Minutes))
	case l.Timed && l.Heated && (l.Topic == Refrigerator || l.Topic == ThawAfter):
		// A storage row names the temperature that its days hold at.
		return fmt.Sprintf("at most %s at %s or below", words.Short(l.Minutes), heat)
	case l.Timed && l.Heated && l.Topic != TimeOut:
		return fmt.Sprintf("%s%s for %s", side, heat, words.Short(l.Minutes))
	case l.Timed:
		return side + words.Short(l.Minutes)
	case l.Heated:
		return side + heat
	case l.Sized && l.Unit == "g":
		return fmt.Sprintf("%s%.1f kg", side, math.Floor(l.Size/100)/10)
	case l.Sized:
		return fmt.Sprintf("%s%d cm", side, int(l.Size))
	}
	return l.Note
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
