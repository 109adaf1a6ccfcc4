package words

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

const hour, day = 60, 24 * 60

// Length is a length of time in minutes for the middle of a sentence: "1 minute", "45 minutes", "1 hour",
// "1 h 20 min", "2 days".
func Length[M ~int](minutes M) string {
	switch m := int(minutes); {
	case m < 0:
		return "-" + Length(-max(m, -maxLength))
	case m < hour:
		return Count(m, "minute")
	case m%day != 0 && m%hour == 0:
		return Count(m/hour, "hour")
	}
	return Short(minutes)
}

// Short is a length of time in minutes for tables, labels and lists: "45 min", "1 h", "1 h 20 min", "2 days".
func Short[M ~int](minutes M) string {
	switch m := int(minutes); {
	case m < 0:
		return "-" + Short(-max(m, -maxLength))
	case m > 0 && m%day == 0:
		return Count(m/day, "day")
	case m < hour:
		return strconv.Itoa(m) + " min"
	case m%hour == 0:
		return strconv.Itoa(m/hour) + " h"
	default:
		return fmt.Sprintf("%d h %d min", m/hour, m%hour)
	}
}

// maxLength keeps the least of all numbers, whose opposite is itself, from going round for ever.
const maxLength = 1<<31 - 1

// ShortRange is Short of a time from low to high: "40–45 min", "45 min to 1 h 30 min", or one of them when both are
// the same.
func ShortRange[M ~int](low, high M) string {
	if low == high {
		return Short(low)
	}
	a, b := Short(low), Short(high)
	an, au, _ := strings.Cut(a, " ")
	bn, bu, _ := strings.Cut(b, " ")
	if !strings.Contains(au, " ") && !strings.Contains(bu, " ") && Singular(au) == Singular(bu) {
		return an + "–" + bn + " " + bu
	}
	return a + " to " + b
}

// Minutes is a length of time in whole minutes, as Length and Short take it.
func Minutes(d time.Duration) int { return int(d.Round(time.Minute) / time.Minute) }
