package measure

import (
	"math/big"
	"strings"

	"tureen/planner/words"
)

// Duration is how long something takes or waits, in whole minutes from Low to
// High. It says nothing of the clock: a day is 24 hours.
type Duration struct {
	Low, High int // minutes, 0 <= Low <= High
}

// MaxMinutes is the longest duration that ParseDuration reads: 100 days.
const MaxMinutes = 100 * 24 * 60

// minutesOf are the units of time by their spellings, in minutes.
var minutesOf = func() map[string]*big.Rat {
	units := map[string]*big.Rat{}
	for _, u := range []struct {
		spelled string
		minutes *big.Rat
	}{
		{"s sec secs second seconds", big.NewRat(1, 60)},
		{"m min mins minute minutes mn", big.NewRat(1, 1)},
		{"h hr hrs hour hours hs", big.NewRat(60, 1)},
		{"d day days", big.NewRat(24*60, 1)},
		{"w wk wks week weeks", big.NewRat(7*24*60, 1)},
		{"fortnight fortnights", big.NewRat(14*24*60, 1)},
	} {
		for _, s := range strings.Fields(u.spelled) {
			units[s] = u.minutes
		}
	}
	return units
}()

// Words that people use for a time without saying how long it is.
var vagueTimes = []struct{ word, say string }{
	{"overnight", "say how long: 8-12 h"},
	{"night", "say how long: 8-12 h"},
	{"until", "say about how long that takes: 20-30 min"},
	{"while", "say about how long: 20-30 min"},
	{"moment", "say about how long: 2 min"},
	{"at least", "give the time alone, or a range: 2-4 h"},
	{"up to", "give the time alone, or a range: 2-4 h"},
	{"at most", "give the time alone, or a range: 2-4 h"},
	{"month", "give it in weeks: 4 weeks"},
	{"year", "give it in weeks: 4 weeks"},
}

const durationTry = "write for example 90, 40-45 min, 1 h 20 or 2 days"

// ParseDuration reads a duration as cooks write it, all of the text or
// nothing: "90" (minutes), "40-45 min", "1 h 20", "1½ hours", "half an hour",
// "1:20", "2 days", "30 min to 1 hour". Parts of a minute count as one. A
// time that is only a word ("overnight") is refused with what to say instead.
func ParseDuration(text string) (Duration, error) {
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	refuse := func(why, try string) (Duration, error) { return Duration{}, &Error{text, why, try} }
	if s == "" {
		return refuse("no duration", durationTry)
	}
	if strings.HasPrefix(s, "-") || strings.HasPrefix(s, "−") || strings.HasPrefix(s, "–") {
		return refuse("a duration cannot be negative", durationTry)
	}
	for _, v := range vagueTimes {
		if strings.Contains(s, v.word) {
			return refuse("it does not say how long", v.say)
		}
	}
	s = s[skipLead(s):]
	low, rest, err := readSpan(s)
	if err != nil {
		return Duration{}, err
	}
	if !low.read {
		return refuse("not a duration", durationTry)
	}
	high := low
	if rest != "" {
		after, ok := cutRange(rest)
		if !ok {
			return refuse("not a duration", durationTry)
		}
		if high, rest, err = readSpan(after); err != nil {
			return Duration{}, err
		}
		if !high.read || rest != "" {
			return refuse("not a duration", durationTry)
		}
		switch {
		case low.bare && high.first != nil:
			// 2-3 h: the near end is hours too.
			low.minutes.Mul(low.minutes, high.first)
		case high.bare && !low.bare && low.last != nil:
			high.minutes.Mul(high.minutes, low.last)
		case low.tail && high.minutes.Cmp(big.NewRat(60, 1)) < 0:
			// 1 h 20-30 min
			high.minutes.Add(high.minutes, low.hours)
		}
	}
	limit := big.NewRat(MaxMinutes, 1)
	if low.minutes.Cmp(limit) > 0 || high.minutes.Cmp(limit) > 0 {
		return refuse("longer than any dinner is prepared", durationTry)
	}
	d := Duration{ceil(low.minutes), ceil(high.minutes)}
	if d.Low > d.High {
		return refuse("the range runs backwards", "write the shorter time first: 40-45 min")
	}
	return d, nil
}

func ceil(r *big.Rat) int {
	n := new(big.Int).Add(r.Num(), new(big.Int).Sub(r.Denom(), big.NewInt(1)))
	return int(n.Div(n, r.Denom()).Int64())
}

func cutRange(s string) (after string, ok bool) {
	s = strings.TrimLeft(s, " ")
	for _, sep := range []string{"-", "–", "—", "to ", "or "} {
		if a, ok := strings.CutPrefix(s, sep); ok {
			return strings.TrimLeft(a, " "), true
		}
	}
	return "", false
}

// timeSpan is one end of a duration while it is read.
type timeSpan struct {
	read    bool
	minutes *big.Rat
	bare    bool     // a number without a unit: minutes, unless the other end says
	first   *big.Rat // minutes in its first unit, nil when bare
	last    *big.Rat // minutes in its last unit
	hours   *big.Rat // what stands before a tail of minutes
	tail    bool     // ends in minutes after hours: 1 h 20
}

// readUnit reads the unit of a length of time: its minutes, and how many bytes it takes.
func readUnit(s string) (per *big.Rat, known bool, n int) {
	if strings.HasPrefix(s, "-") && !isDigitAt(s, 1) {
		n++ // 20-minute
	}
	word, w := nextWord(s[n:])
	if word == "full" || word == "whole" || word == "good" {
		n += w
		word, w = nextWord(s[n:])
	}
	per, known = minutesOf[word]
	n += w
	if strings.HasPrefix(s[n:], ".") {
		n++
	}
	return per, known, n
}

// readSpan reads number and unit as often as they come: 1 day 2 h, 1 h 20,
// 1:20, an hour and a half.
func readSpan(s string) (span timeSpan, rest string, err error) {
	span.minutes = new(big.Rat)
	for {
		at := len(s) - len(strings.TrimLeft(s, " ,"))
		if span.read && strings.HasPrefix(s[at:], "and ") {
			at += len("and ")
		}
		if span.read && strings.HasPrefix(s[at:], "a half") && span.last != nil {
			span.minutes.Add(span.minutes, new(big.Rat).Mul(span.last, big.NewRat(1, 2)))
			return span, s[at+len("a half"):], nil
		}
		at += len(s[at:]) - len(strings.TrimPrefix(s[at:], "three quarters of an ")) // of an hour
		three := at > 0 && strings.HasSuffix(s[:at], "three quarters of an ")
		value, n := big.NewRat(3, 4), 0
		if !three {
			if value, n, err = readNumber(s[at:]); err != nil {
				return span, s, err
			}
			if n == 0 {
				return span, s, nil
			}
		}
		end := at + n
		if !span.read && strings.HasPrefix(s[end:], ":") && digits(s[end+1:]) == 2 && value.IsInt() {
			m, _ := new(big.Rat).SetString(s[end+1 : end+3])
			if m.Cmp(big.NewRat(60, 1)) >= 0 {
				return span, s, &Error{s, "an hour has 60 minutes", "write it as 1:20 or 1 h 20"}
			}
			span.minutes.Add(value.Mul(value, big.NewRat(60, 1)), m)
			span.read, span.first, span.last = true, big.NewRat(60, 1), big.NewRat(1, 1)
			return span, s[end+3:], nil
		}
		per, known, w := readUnit(s[end:])
		switch {
		case known && (span.last == nil || per.Cmp(span.last) < 0):
			end += w
		case !span.read && !known:
			span.read, span.bare = true, true
			span.minutes.Set(value)
			return span, s[end:], nil
		case span.last != nil && span.last.Cmp(big.NewRat(60, 1)) == 0 && !known && value.Cmp(big.NewRat(60, 1)) < 0:
			per = big.NewRat(1, 1) // 1 h 20
		default:
			return span, s, nil
		}
		if span.read {
			span.hours, span.tail = new(big.Rat).Set(span.minutes), per.Cmp(big.NewRat(1, 1)) == 0
		}
		span.minutes.Add(span.minutes, new(big.Rat).Mul(value, per))
		span.last = per
		if span.first == nil {
			span.first = per
		}
		span.read = true
		s = s[end:]
		if !known {
			return span, s, nil
		}
	}
}

func isDigitAt(s string, i int) bool { return i < len(s) && isDigit(s[i]) }

// String is the duration as people write it; ParseDuration reads it back:
// "40–45 min", "1 h 20 min", "2 days".
func (d Duration) String() string {
	return words.ShortRange(d.Low, d.High)
}

// MarshalText is String: durations are text in JSON.
func (d Duration) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText is ParseDuration.
func (d *Duration) UnmarshalText(text []byte) error {
	v, err := ParseDuration(string(text))
	if err != nil {
		return err
	}
	*d = v
	return nil
}
