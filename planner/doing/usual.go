package doing

import (
	"fmt"
	"strings"

	"tureen/planner/measure"
	"tureen/planner/method"
	"tureen/planner/remark"
	"tureen/planner/words"
)

// Usual is our guess at an unsaid time: by the row of its verb or of another in its words ("leave to rise"), or by what
// is done. It is always asked or said.
func (d *Act) Usual(kind Kind, low string) measure.Duration {
	if kind.Waits() && remark.UntilWanted(low) {
		return measure.Duration{Low: 1, High: 5} // where it waits, and no time that it needs
	}
	if kind == Standing && words.Has(low, quickCold...) {
		return measure.Duration{Low: 3, High: 6} // under the tap
	}
	if kind == Standing && words.Has(low, "completely", "cold") {
		return measure.Duration{Low: 60, High: 90}
	}
	if t, ok := d.BySign(kind, low); ok {
		return t
	}
	for _, w := range append([]string{d.Verb}, words.Apart(low)...) {
		row := method.Verb(w)
		if row == nil || (lets[row.Name] || row.Name == "set") && row.Name == d.Verb || row.Minutes[1] < 1 {
			continue
		}
		place := row.Where
		if place == "burner" && row.Attention == "hands" {
			place = "hands"
		}
		if place == kind.Place() && (place != "counter" || row.Attention != "hands") {
			return measure.Duration{Low: max(int(row.Minutes[0]), 1), High: int(row.Minutes[1] + 0.5)}
		}
	}
	return usualOf[kind]
}

// quickCold say that food is cooled in water. Common practice, no source.
var quickCold = lists.Phrases("cooled in water")

// signs are signs that something on a burner is done, each with the minutes that it takes to come. Common practice, no
// source.
var signs = func() map[string]measure.Duration {
	out := map[string]measure.Duration{}
	all := lists.Phrases("signs")
	for i := 0; i+1 < len(all); i += 2 {
		var d measure.Duration
		if _, err := fmt.Sscan(all[i+1], &d.Low, &d.High); err != nil {
			panic("doing: " + all[i] + ": " + err.Error())
		}
		out[all[i]] = d
	}
	return out
}()

// BySign is how long it takes on a burner or grill until the last of the signs that a clause names, where its verb
// tells no more than that something is cooked.
func (d *Act) BySign(kind Kind, low string) (longest measure.Duration, ok bool) {
	if kind != OnBurner && kind != OverBurner && kind != OnGrill || d.Row != nil && d.Row.Minutes[0] >= 8 {
		return longest, false
	}
	at := strings.Index(low, "until ")
	if at < 0 {
		at = max(strings.Index(low, "according to "), strings.Index(low, "as per "))
	}
	if at < 0 {
		return longest, false
	}
	for sign, t := range signs {
		if (t.High > longest.High || t.High == longest.High && t.Low > longest.Low) && words.Index(low[at:], sign) >= 0 {
			longest, ok = t, true
		}
	}
	return longest, ok
}

// lets are verbs that say nothing of how long: let, leave, allow.
var lets = words.Set("let leave allow keep suffer")

// usualOf are guesses at what no verb's row tells. Common practice, no source.
var usualOf = map[Kind]measure.Duration{
	InOven: {Low: 30, High: 45}, OnBurner: {Low: 10, High: 15}, OverBurner: {Low: 5, High: 10},
	OnGrill: {Low: 8, High: 12}, Chilling: {Low: 2 * hour, High: 2 * hour}, Freezing: {Low: 4 * hour, High: 6 * hour},
	Standing: {Low: 15, High: 20},
}
