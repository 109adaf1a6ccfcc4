package page

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"

	"tureen/planner/measure"
	"tureen/planner/words"
)

const hour, day = 60, 24 * 60

var isoRE = regexp.MustCompile(`^P(?:(\d+(?:[.,]\d+)?)W)?(?:(\d+(?:[.,]\d+)?)D)?` +
	`(?:T(?:(\d+(?:[.,]\d+)?)H)?(?:(\d+(?:[.,]\d+)?)M)?(?:(\d+(?:[.,]\d+)?)S)?)?$`)

// ParseISODuration reads an ISO 8601 duration of weeks, days, hours, minutes and seconds, in whole minutes rounded
// up: "PT1H30M", "P1DT12H", "PT0.5H". Years and months have no fixed length and are refused.
func ParseISODuration(text string) (measure.Duration, error) {
	bad := &Refusal{fmt.Sprintf("%q is no ISO 8601 duration.", words.Cut(text, 30)), "Write it as PT1H30M."}
	m := isoRE.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || strings.HasSuffix(text, "T") || strings.Join(m[1:], "") == "" {
		return measure.Duration{}, bad
	}
	sum := new(big.Rat)
	for i, per := range []*big.Rat{big.NewRat(7*day, 1), big.NewRat(day, 1), big.NewRat(hour, 1), big.NewRat(1, 1),
		big.NewRat(1, 60)} {
		if m[i+1] == "" {
			continue
		}
		if len(m[i+1]) > 12 {
			return measure.Duration{}, bad
		}
		v, ok := new(big.Rat).SetString(strings.ReplaceAll(m[i+1], ",", "."))
		if !ok {
			return measure.Duration{}, bad
		}
		sum.Add(sum, v.Mul(v, per))
	}
	if sum.Cmp(big.NewRat(measure.MaxMinutes, 1)) > 0 {
		return measure.Duration{}, &Refusal{fmt.Sprintf("%q is longer than any dinner is prepared.", words.Cut(text, 30)),
			"Check the duration."}
	}
	up := new(big.Int).Add(sum.Num(), new(big.Int).Sub(sum.Denom(), big.NewInt(1)))
	n := int(up.Div(up, sum.Denom()).Int64())
	return measure.Duration{Low: n, High: n}, nil
}

// ISODuration writes minutes as an ISO 8601 duration: "PT1H30M".
func ISODuration(minutes int) string {
	if minutes <= 0 {
		return "PT0M"
	}
	out := "P"
	if d := minutes / day; d > 0 {
		out += fmt.Sprintf("%dD", d)
	}
	h, m := minutes%day/hour, minutes%hour
	if h+m > 0 {
		out += "T"
	}
	if h > 0 {
		out += fmt.Sprintf("%dH", h)
	}
	if m > 0 {
		out += fmt.Sprintf("%dM", m)
	}
	return out
}
