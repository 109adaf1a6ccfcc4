package times

import (
	"math"
	"strings"

	"tureen/planner/measure"
	"tureen/planner/words"
)

// Minutes in an hour and a day.
const (
	hour = 60
	day  = 24 * hour
)

// Length is how long something takes, as a text says it.
type Length struct {
	measure.Duration
	Start, End int  // bytes
	Vague      bool // "overnight": the length is ours
	AtLeast    bool
	UpTo       bool
	More       bool // another 5 minutes
	Every      bool // every 20 minutes
	Before     bool // an hour before serving
	Per        int  // for so many grams: 20 minutes per 500 g
	After      bool // after an hour: when, and not how long
	Ahead      bool // a day ahead
	Last       bool // the last 45 minutes
	InAll      bool // 25 minutes in all
	Each       bool // 5 minutes each
	Over       bool // has had its 3 hours: those that were told before
}

// What words for a night mean, in minutes: common practice, no source. The first eight hours of a night are a night's
// sleep, and nobody gets up for a dough.
const nightLow, nightHigh = 8 * hour, 12 * hour

// Lengths finds the lengths of time in a text, in order.
func Lengths(text string) []Length {
	low := words.Small(text)
	t := scan(low)
	var out []Length
	for i := 0; i < len(t); {
		l, next := lengthAt(t, i)
		if next == 0 {
			i++
			continue
		}
		out = append(out, l)
		i = next
	}
	for i := range out {
		out[i].around(low)
		if i > 0 && out[i-1].Per > 0 && strings.HasPrefix(strings.TrimLeft(low[out[i].End:], " "), "over") {
			out[i].More = true // 20 minutes to the pound and 20 minutes over
		}
	}
	return out
}

var oneMore = words.Set("another further extra additional")

// span is an amount of time from low to high, in minutes, and the unit of its last part; next 0: there is none.
type span struct {
	low, high float64
	unit      float64
	next      int
}

// lengthAt reads the length at the i-th token; next is 0 where none begins there.
func lengthAt(t []token, i int) (l Length, next int) {
	for _, n := range nights {
		if k := startsAt(t, i, n); k > 0 {
			return Length{Duration: measure.Duration{Low: nightLow, High: nightHigh}, Start: t[i].start,
				End: t[i+k-1].end, Vague: true}, i + k
		}
	}
	if oneMore[t[i].text] { // another minute
		if u, singular := units[at(t, i+1)]; singular && !strings.HasSuffix(at(t, i+1), "s") {
			n := whole(u)
			return Length{Duration: measure.Duration{Low: n, High: n}, Start: t[i].start, End: t[i+1].end, More: true}, i + 2
		}
	}
	begins := i
	if t[i].text == "between" || t[i].text == "from" {
		begins++
	}
	s, vague := spanAt(t, begins, begins > i)
	if s.next == 0 {
		return l, 0
	}
	l = Length{Start: t[begins].start, End: t[s.next-1].end, Vague: vague}
	l.Low, l.High = whole(s.low), whole(s.high)
	if l.High == 0 || l.Low > l.High || l.High > measure.MaxMinutes {
		return l, 0
	}
	return l, s.next
}

func whole(v float64) int { return int(math.Ceil(v - 0.01)) }

// spanAt reads numbers and units from the i-th token on: 20 to 25 minutes, 1 h 20, an hour and a half, 30 min to 1
// hour, a minute or two.
//
// Kept whole: the grammar of one form, token after token, each branch a way of writing it.
func spanAt(t []token, i int, and bool) (s span, vague bool) {
	low, high, n := numberAt(t, i)
	if n == 0 {
		return s, false
	}
	if at(t, n) == ":" && n+1 < len(t) && t[i].number && t[n+1].number && t[n+1].end == t[n+1].start+2 {
		if u, n2 := unitAt(t, n+2); n2 > 0 && u == hour { // 1:30 hours
			m := low*hour + t[n+1].value
			return span{m, m, 1, n2}, false
		}
	}
	vague = high > low
	if low == 1 && n == i+1 && !t[i].number && at(t, n) == "of" {
		return s, false
	}
	if low2, high2, n2 := rangeAt(t, n, and); n2 > 0 && !vague {
		if u, n3 := unitAt(t, n2); n3 > 0 { // 20 to 25 minutes
			s = span{low * u, high2 * u, u, n3}
			if low2 > high2 || low > high2 {
				return span{}, false
			}
			return s.tail(t), false
		}
	}
	u, n2 := unitAt(t, n)
	if n2 == 0 || strings.HasPrefix(t[n2-1].text, "m") && len(t[n2-1].text) == 1 {
		return s, false
	}
	s = span{low * u, high * u, u, n2}
	if vague && u == hour {
		s.high = min(s.high, s.low+hour) // a few hours: 3 to 4
		if low == 2 {
			s.high = s.low
		}
	}
	s = s.tail(t)
	if at(t, s.next) == "or" && at(t, s.next+1) == "so" && u == hour && low == 1 && !t[i].number {
		s.high, s.next = s.high*1.25, s.next+2 // an hour or so
		return s, vague
	}
	if from := joint(t, s.next, and); from > 0 { // 30 minutes to 1 hour, 1 h 20 to 30, a minute or two
		if b, _ := spanAt(t, from, false); b.next > 0 && b.low >= s.low {
			s.high, s.next = b.high, b.next
			return s, vague
		}
		if v, _, n := numberAt(t, from); n > 0 && at(t, from-1) == "or" && !t[from].number && v*u > s.low {
			s.high, s.next = v*u, n
		}
	}
	return s, vague
}

// tail takes what goes on with a length of hours or days: 1 h 20, an hour and a half, 2 days and 3 hours.
//
// Kept whole: the grammar of one form, token after token, each branch a way of writing it.
func (s span) tail(t []token) span {
	i := s.next
	if at(t, i) == "," && s.unit >= hour {
		if _, _, n := numberAt(t, i+1); n > 0 {
			if u, n2 := unitAt(t, n); n2 > 0 && u < s.unit && at(t, n2) != "per" {
				return s // 1 hour, 10 minutes: nobody knows whether it is one
			}
		}
	}
	if at(t, i) == "and" || at(t, i) == "plus" {
		i++
	}
	and := i > s.next
	low, high, n := numberAt(t, i)
	if n == 0 || s.unit < hour && !(and && low == 0.5) {
		return s
	}
	if and && (low == 0.5 || low == 0.25) && !t[i].number {
		if _, n2 := unitAt(t, n); n2 == 0 {
			return span{s.low + low*s.unit, s.high + low*s.unit, s.unit, n} // an hour and a half
		}
	}
	if u, n2 := unitAt(t, n); n2 > 0 && u < s.unit && at(t, i-1) != "plus" {
		end := span{s.low + low*u, s.high + high*u, u, n2}
		return end
	}
	if _, high2, n3 := rangeAt(t, n, false); n3 > 0 && s.unit == hour && !and { // 1 hour 20 to 30 minutes
		if u, n4 := unitAt(t, n3); n4 > 0 && u == 1 {
			return span{s.low + low, s.high + high2, u, n4}
		}
	}
	if m := at(t, n); s.unit == hour && m == "m" {
		return span{s.low + low, s.high + low, 1, n + 1}
	}
	if !and && s.unit == hour && t[i].number && low >= 5 && low < 60 && low == math.Trunc(low) && bareEnd(t, n) {
		return span{s.low + low, s.high + low, 1, n} // 1 hour 20
	}
	return s
}

// bareEnd reports whether minutes without a unit may end at a token: 1 hour 20, and not 1 hour 20 g.
func bareEnd(t []token, i int) bool {
	w := at(t, i)
	return w == "" || !('a' <= w[0] && w[0] <= 'z') && w != "%" && w != "°" || joints[w]
}

var joints = words.Set("to or and at in until till on then with or before after for")

func at(t []token, i int) string {
	if i < 0 || i >= len(t) {
		return ""
	}
	return t[i].text
}

// joint is the token after one that joins the ends of a range; 0: there is none.
func joint(t []token, i int, and bool) int {
	switch at(t, i) {
	case "-", "–", "—", "to", "or", "till":
		return i + 1
	case "and":
		if and {
			return i + 1
		}
	}
	return 0
}

// rangeAt reads the second number of a range.
func rangeAt(t []token, i int, and bool) (low, high float64, next int) {
	from := joint(t, i, and)
	if from == 0 {
		return 0, 0, 0
	}
	if at(t, from) == "to" || at(t, from) == "even" {
		from++
	}
	if w := at(t, from); (w == "a" || w == "an") && at(t, from-1) == "-" {
		return 0, 0, 0 // half-an-hour
	}
	return numberAt(t, from)
}

// numberAt reads the number at the i-th token, in figures or words; next is 0 where there is none.
//
// Kept whole: the grammar of one form, token after token, each branch a way of writing it.
func numberAt(t []token, i int) (low, high float64, next int) {
	if i >= len(t) || i < 0 {
		return 0, 0, 0
	}
	for _, p := range loose {
		if k := startsAt(t, i, p); k > 0 {
			if at(t, i+k) == "more" || at(t, i+k) == "extra" || at(t, i+k) == "of" {
				k++
			}
			return p.low, p.high, i + k
		}
	}
	v, n := t[i].value, i+1
	if !t[i].number {
		w, ok := numberWords[t[i].text]
		if !ok {
			return 0, 0, 0
		}
		v = w
		switch next := at(t, n); {
		case (t[i].text == "a" || t[i].text == "an") && numberWords[next] > 0 && next != "a" && next != "an":
			v, n = numberWords[next], n+1 // a dozen, a half, a quarter
		case v >= 20 && (next == "-" || next == "" || numberWords[next] >= 1):
			k := n
			if next == "-" {
				k++
			}
			if u := numberWords[at(t, k)]; u >= 1 && u < 10 && at(t, k) != "a" && at(t, k) != "an" {
				v, n = v+u, k+1 // thirty-five
			}
		case v >= 1 && (next == "quarters" || next == "quarter") || next == "-" && strings.HasPrefix(at(t, n+1), "quarter"):
			if next == "-" {
				n++
			}
			v, n = v/4, n+1 // three quarters of an hour
		}
	}
	if at(t, n) == "and" { // two and a half hours, 1 and 1/2 hours
		k := n + 1
		if at(t, k) == "a" {
			k++
		}
		if k < len(t) {
			f := t[k].value
			if !t[k].number {
				f = numberWords[t[k].text]
			}
			if f > 0 && f < 1 {
				if _, end := unitAt(t, k+1); end > 0 {
					v, n = v+f, k+1
				}
			}
		}
	}
	if v > 1e6 {
		return 0, 0, 0
	}
	return v, v, n
}

// unitAt reads a unit, and what may stand before it: of an hour, -minute, good hours, more minutes.
func unitAt(t []token, i int) (minutes float64, next int) {
	for k := i; k < len(t) && k < i+4; k++ {
		if u := units[t[k].text]; u > 0 {
			if t[k].text == "h" && !t[max(i-1, 0)].number {
				return 0, 0
			}
			if at(t, k+1) == "." && (t[k].text == "min" || t[k].text == "mins" || t[k].text == "hrs" || t[k].text == "hr") {
				return u, k + 1
			}
			return u, k + 1
		}
		switch w := t[k].text; {
		case w == "of" || w == "a" || w == "an" || w == "-" || between[w]:
		default:
			return 0, 0
		}
	}
	return 0, 0
}

var between = lists.Set("between")

// Endless is a length of five figures and more in a text, of whatever unit: no dish takes it. Empty: there is none.
func Endless(text string) string {
	t := scan(words.Small(text))
	for i := range t {
		if t[i].number && len(t[i].text) >= 5 && !strings.ContainsAny(t[i].text, " /.,½¼¾") && i+1 < len(t) &&
			units[t[i+1].text] > 0 {
			return text[t[i].start:min(t[i+1].end, len(text))]
		}
	}
	return ""
}
