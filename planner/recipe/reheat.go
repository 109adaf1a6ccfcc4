package recipe

import (
	"strings"

	"tureen/planner/times"
	"tureen/planner/words"
)

// apart takes what is said of making a dish ahead from how it is warmed up after that: "Can be made two days ahead;
// cool, then reheat gently for 20 minutes" is a remark and a step.
func apart(all []sentence) []sentence {
	var out []sentence
	for _, s := range all {
		if at := warmsUp(s.text); at > 0 && !s.told && !s.about && !s.note {
			if k, ok := remarkOf(words.Small(s.text[:at])); ok && (k.Kind == Ahead || k.Kind == Keeps || k.Kind == Better) {
				head, tail := s, s
				head.text, tail.text = strings.TrimRight(s.text[:at], " ,;:"), s.text[at:]
				head.text = strings.TrimRight(strings.TrimSuffix(head.text, " then"), " ,;:")
				out = append(out, head, tail)
				continue
			}
		}
		if a, b, ok := strings.Cut(s.text, "; "); ok && !s.told && !s.about && instructs(a) && !instructs(b) {
			if _, ok := remarkOf(words.Small(b)); ok && onlySupposes(words.Small(b)) {
				head, tail := s, s
				head.text, tail.text, tail.from.Text = a, b, b
				out = append(out, head, tail)
				continue
			}
		}
		if at := remarkBehind(s.text); at > 0 && !s.told && !s.about && !s.note {
			head, tail := s, s
			head.text, tail.text = s.text[:at], strings.TrimLeft(s.text[at:], "; ")
			tail.from.Text = tail.text
			out = append(out, head, tail)
			continue
		}
		out = append(out, s)
	}
	return out
}

// remarkBehind is where a sentence that tells what to do goes on with how that waits: "Wash the lettuce; it keeps till
// the evening"; 0: nowhere.
func remarkBehind(text string) int {
	at := strings.LastIndex(text, "; ")
	if at <= 0 {
		return 0
	}
	head, tail := words.Small(text[:at]), words.Small(text[at+2:])
	if _, says := remarkOf(tail); !says || !onlySupposes(" "+tail) && instructs(text[at+2:]) || onlySupposes(head) ||
		!instructs(text[:at]) {
		return 0
	}
	return at
}

// warmsUp is where the words begin that tell for how long food is warmed up again; 0: nowhere behind others.
func warmsUp(text string) int {
	low := words.Small(text)
	if len(low) != len(text) {
		return 0
	}
	for _, verb := range warmsAgain {
		if at := strings.LastIndex(low, " "+verb+" "); at > 0 && len(times.Lengths(low[at:])) > 0 &&
			!strings.HasSuffix(" "+low[:at], " to") {
			return at + 1
		}
	}
	return 0
}
